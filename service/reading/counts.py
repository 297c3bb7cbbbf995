"""Takes the number of pieces off the beginning or the end of a line, before the rest is read.

``20 pcs M5 dowel pin``, ``M5 dowel pin, qty 20`` and ``M5 dowel pin (pack of 20)`` are one part ordered three ways: the
part is read once. A count in the middle of a line, or in a form that could be a size, is left to ``scan``.
"""

import re
from typing import NamedTuple

from reference.words import COUNT_WORDS, PACK_WORDS, PIECE_WORDS


class Counted(NamedTuple):
    """The rest of a line, the number of pieces that was taken off it, and the pieces in one pack."""

    rest: str
    quantity: int | None
    pack: int | None


def _any(words: frozenset[str]) -> str:
    return "|".join(sorted((re.escape(word) for word in words if "." not in word), key=lambda word: (-len(word), word)))


_PIECES = _any(PIECE_WORDS)
_FIRST = re.compile(rf"(\d{{1,5}})(?:[xX] +(?=[^\W_#ø]|[#ø])| ?(?:{_PIECES})\.? +(?=\S))", re.IGNORECASE)
_LAST = re.compile(
    rf"[ ,;]+(?:\((?P<open>))?(?:"
    rf"(?:{_any(COUNT_WORDS)})[ .:=]*(?P<quantity>\d{{1,5}})"
    rf"|(?:{_any(PACK_WORDS)}) (?:of|de|zu|da|von) (?P<pack>\d{{1,5}})"
    rf"|(?:- )?(?P<pieces>\d{{1,5}}) ?(?:{_PIECES})\.?"
    rf")(?(open)\))$",
    re.IGNORECASE,
)


def take(text: str) -> Counted:
    """Return a normalised line without its count of pieces.

    >>> take("20 pcs M5 dowel pin")
    Counted(rest='M5 dowel pin', quantity=20, pack=None)
    >>> take("M5 dowel pin (pack of 20)")
    Counted(rest='M5 dowel pin', quantity=20, pack=20)
    >>> take("4 x 20 dowel pin")
    Counted(rest='4 x 20 dowel pin', quantity=None, pack=None)
    """
    if text[:1].isdecimal():
        first = _FIRST.match(text)
        if first is not None and int(first[1]):
            return Counted(text[first.end() :], int(first[1]), None)
    last = _LAST.search(text, max(0, len(text) - _LONGEST)) if _may_end_in_count(text) else None
    if last is None or not last.start():
        return Counted(text, None, None)
    pack = last["pack"]
    number = int(pack or last["quantity"] or last["pieces"])
    if not number:
        return Counted(text, None, None)
    return Counted(text[: last.start()], number, number if pack else None)


_LONGEST = 30
"""A count at the end of a line is not longer than this, with its words."""

_BEFORE_A_COUNT = (*COUNT_WORDS, "of", "de", "zu", "da", "von")
_AFTER_A_COUNT = tuple(PIECE_WORDS)
_LONGEST_WORD = max(map(len, (*_BEFORE_A_COUNT, *_AFTER_A_COUNT)))


def _may_end_in_count(text: str) -> bool:
    """Tell, for less than the search costs, whether the end of a line is worth searching for a count."""
    end = text.rstrip(").")
    bare = end.rstrip("0123456789")
    if len(bare) < len(end):
        return bare.rstrip(" .:=")[-_LONGEST_WORD:].lower().endswith(_BEFORE_A_COUNT)
    return end[-_LONGEST_WORD:].lower().endswith(_AFTER_A_COUNT)
