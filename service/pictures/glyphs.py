"""Small signs for what is said in words beside them: a part in its hole, a need, a gate.

A ring is the hole, what is filled is the part. The signs differ by shape alone, drawn in the colour of the text. They
carry no text: a page never shows one without its word, so they are hidden from screen readers.
"""

from collections.abc import Mapping

_RING = '<circle cx="12" cy="12" r="9.5" fill="none" stroke="currentColor" stroke-width="2"/>'
_BROKEN = (
    '<circle cx="12" cy="12" r="9.5" fill="none" stroke="currentColor" stroke-width="2" stroke-dasharray="3.4 3.4"/>'
)
_POSTS = '<path d="M4 3V21M20 3V21" fill="none" stroke="currentColor" stroke-width="2.4"/>'

_SHAPES: Mapping[str, str] = {
    # The part lies in its hole with the same gap all round.
    "fits": f'{_RING}<circle cx="12" cy="12" r="5.6" fill="currentColor"/>',
    # The part lies across the edge of its hole.
    "marginal": (
        '<circle cx="10" cy="10" r="8.5" fill="none" stroke="currentColor" stroke-width="2"/>'
        '<circle cx="16.6" cy="16.6" r="5.6" fill="currentColor"/>'
    ),
    # Half of it is known.
    "ask": (
        f'{_RING}<path d="M12 6.4A5.6 5.6 0 0 0 12 17.6Z" fill="currentColor"/>'
        '<path d="M12 6.4A5.6 5.6 0 0 1 12 17.6" fill="none" stroke="currentColor" stroke-width="1.6" '
        'stroke-dasharray="2 2"/>'
    ),
    # The part is larger than its hole.
    "wrong": (
        '<circle cx="12" cy="12" r="8.8" fill="none" stroke="currentColor" stroke-width="4.4"/>'
        '<circle cx="12" cy="12" r="4.6" fill="currentColor"/>'
    ),
    # A hole that nothing is known for.
    "unread": f'{_BROKEN}<path d="M8 12H16" stroke="currentColor" stroke-width="2"/>',
    "note": '<circle cx="12" cy="12" r="3" fill="currentColor"/>',
    # A need: full, filled in part, empty.
    "covered": f'{_RING}<circle cx="12" cy="12" r="5.6" fill="currentColor"/>',
    "short": f'{_RING}<path d="M6.4 12A5.6 5.6 0 0 0 17.6 12Z" fill="currentColor"/>',
    "missing": _RING,
    # A step: the bar between the posts swings up, or lies across.
    "open gate": f'{_POSTS}<path d="M4 14L14 3" stroke="currentColor" stroke-width="2.4"/>',
    "closed gate": f'{_POSTS}<path d="M4 9H20M4 15H20" stroke="currentColor" stroke-width="2.4"/>',
}

_SAME: Mapping[str, str] = {
    "open": "ask",
    "in doubt": "ask",
    "conforming": "fits",
    "not conforming": "wrong",
    "not provable": "ask",
    "ready": "open gate",
    "not ready": "closed gate",
    "clear": "fits",
    "ambiguous": "ask",
}
"""Words that a sign is shared by."""


def glyph(word: str, size: int = 24) -> str:
    """Return the sign for a word as SVG for a page, to stand beside the word; a word without one gets a broken ring.

    >>> 'aria-hidden="true"' in glyph("fits")
    True
    """
    shape = _SHAPES.get(_SAME.get(word, word), _BROKEN)
    return (
        f'<svg class="glyph" viewBox="0 0 24 24" width="{size}" height="{size}" aria-hidden="true" focusable="false">'
        f"{shape}</svg>"
    )


def shape_of(word: str) -> str:
    """Return what a sign is drawn with, for a picture that places it itself."""
    return _SHAPES.get(_SAME.get(word, word), _BROKEN)
