"""Orders: is every need of a design covered, when is the kit complete, and which step may start?

``intake`` turns request fields (and ``sheets`` CSV) into an ``Order``; ``check.check`` answers it. Pure functions on
plain immutable values; judging one part against one mate is ``service.verdict``.
"""
