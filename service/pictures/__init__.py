"""Pictures drawn to scale: numbers in, the text of an SVG document out. Pure.

Nothing here knows lines, verdicts or the web. Shapes are dressed by presentation attributes alone, so that a picture
looks the same by itself, within a page of a strict content security policy, and on paper; and every one of them says in
``title`` and ``desc`` what it shows.
"""
