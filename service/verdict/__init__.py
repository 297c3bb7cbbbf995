"""Verdicts: does the part of a purchase line go with its mate in the design?

``mates.parse_check`` turns request fields into a ``Check``; ``judge.judge`` answers it. One module judges each kind of
mate (``bore``, ``shaft``, ``tapped_hole``, ``clamp``, ...), always by the verb ``judge(reading, mate, fit)``;
``order_text`` says what to order instead. Nothing here knows HTTP, a schema library or a database.
"""
