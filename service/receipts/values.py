"""Values as they are written down at the bench: one or several in one text, in mm or with their unit.

>>> read_values("5.008 5,010; 5.009 mm", "measured", None, None)
(Decimal('5.008'), Decimal('5.01'), Decimal('5.009'))
"""

import re
from collections.abc import Sequence
from decimal import Decimal

from service.receipts.intake import MOST_PIECES
from service.verdict.diameters import length
from service.verdict.model import CheckError

FAR = 5
"""A value so many times as large as what is wanted, or as small, is a slip of the decimal point or another unit."""

ACCEPTED = "lengths in mm or with their unit, a point or a comma before the decimals, blanks between several"
EXAMPLE = "5.008 5.010"

_BETWEEN = re.compile(r"[;\n]|,(?=\s)")
_UNIT = re.compile(r"[^\W\d_]+|[\"'°]+")


def read_values(given: object, field: str, lower: Decimal | None, upper: Decimal | None) -> tuple[Decimal, ...]:
    """Return measured values [mm] as they were entered: a text with one or several, or a list.

    ``lower`` and ``upper`` are the limits that they are held against: what lies far from them was not measured so.

    Raises:
        CheckError: one of them is no length, or cannot have been measured; its value is the piece of text at fault.
    """
    words: Sequence[object] = [given]
    if isinstance(given, str):
        words = _words(given)
    elif isinstance(given, list | tuple):
        words = given
    if given is None or not 0 < len(words) <= MOST_PIECES:
        raise CheckError(field, given, f"1 to {MOST_PIECES} {ACCEPTED}", EXAMPLE)
    found = []
    for word in words:
        if isinstance(word, str) and "/" in word:
            raise CheckError(field, word, f"{ACCEPTED}; no fractions", EXAMPLE)
        try:
            value = length(word, field)
        except CheckError:
            raise CheckError(field, word, ACCEPTED, EXAMPLE) from None
        _require_near(value, word, field, lower, upper)
        found.append(value)
    return tuple(found)


def _words(text: str) -> list[str]:
    """Return the values of a text, each with its unit where one follows it."""
    found: list[str] = []
    for part in _BETWEEN.split(text):
        alone = True
        for word in part.split():
            if found and not alone and _UNIT.fullmatch(word):
                found[-1] += f" {word}"
            else:
                found.append(word)
            alone = False
    return found


def _require_near(value: Decimal, word: object, field: str, lower: Decimal | None, upper: Decimal | None) -> None:
    """Refuse a value that is far from what is wanted: a lost decimal point, or another unit."""
    low, high = (upper if lower is None else lower), (lower if upper is None else upper)
    if low is None or high is None or low / FAR <= value <= high * FAR:
        return
    wanted = f"{low} to {high} mm" if lower is not None and upper is not None else f"{low} mm"
    accepted = f"{wanted}, give or take a factor of {FAR}; {value} mm is a lost decimal point, or in another unit"
    raise CheckError(field, word, accepted, str(low))
