"""Reads the codes of wrapped and polymer bushes: how the digits stand for bore, outside and length.

Four digits after a wrapped bush's letters are bore and length, the outside is implied by ISO 3547; six are bore,
outside and length. A polymer code gives bore, outside and length in pairs, with a half millimetre cut off. What does
not belong here: plain sizes such as ``8x12x10`` and the bushes of ISO 4379 and ISO 2795, which have no code.

Sources: ISO 3547-1 and makers' catalogues (common practice).

>>> code = decode("SF-1 0810")
>>> str(code.bore), str(code.outer_diameter), str(code.length)
('8', '10', '10')
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from reference import tables

_LENGTH = r"(?P<length>\d{2}(?:[.,]?5)?)"
_WRAPPED = re.compile(
    r"(?P<letters>SF-?[12][XB]?|COB|DU|DX|DP4|MU|PCM|PM|P1[04])[ -]?(?P<flange>F)?[ -]?"
    rf"(?P<bore>\d{{2}})(?P<outer>\d{{2}}(?=\d{{2}}))?{_LENGTH}(?P<suffix> ?(?:E|M|B|DU|DX))?"
)
_BB = re.compile(rf"BB[ -]?(?P<bore>\d{{2}}){_LENGTH}(?P<suffix> ?(?:DU|DX))?")
_POLYMER = re.compile(
    r"(?P<letters>[A-Z]{1,2}(?P<form>[SF])M)[ -]?(?P<pair>\d{2}\d{2})[ -](?P<length>\d{2}(?:[.,]?5)?)"
)
DESIGNATION = (
    r"(?<![\w.,/])(?i:(?:SF-?[12][XB]?|COB|DU|DX|DP4|MU|PCM|PM|P1[04])[ -]?F?[ -]?\d{4,7}(?:[.,]5)?"
    r"(?: ?(?:E|M|B|DU|DX))?"
    r"|BB[ -]?\d{4,5}(?:[.,]5)?(?: ?(?:DU|DX))?|[A-Z]{1,2}[SF]M[ -]?\d{4}[ -]\d{2,3}(?:[.,]5)?)(?!\w)"
)
"""Finds such codes in a line of either case; what it finds still has to be decoded."""


@dataclass(frozen=True, slots=True)
class BushCode:
    """A bush by its code; lengths in millimetres.

    ``family`` is ``plain bush`` or ``flanged bush``; ``kind`` is ``wrapped`` or ``polymer``. ``outer_diameter`` is
    None where no table lists this bore; ``reason`` then says so, or that stated and listed outside disagree.
    """

    family: str
    kind: str
    designation: str
    bore: Decimal
    outer_diameter: Decimal | None
    length: Decimal
    flange_diameter: Decimal | None = None
    flange_thickness: Decimal | None = None
    reason: str = ""
    source: str = ""
    basis: str = ""

    @property
    def known(self) -> bool:
        """Whether bore and outside are those of a listed bush."""
        return not self.reason


@cache
def _rows(flanged: bool) -> Mapping[tuple[str, str], tables.Row]:
    """Return (kind, bore as text, or the digit pair of a polymer bush) -> row."""
    table = tables.load("flanged_bush" if flanged else "plain_bush")
    return {
        (row.text("kind"), row.text("size") if row.text("kind") == "polymer" else row.text("bore")): row
        for row in table
    }


def decode(text: str) -> BushCode | None:
    """Return what a bush code says, or None where the text has not the form of one.

    >>> decode("PCM 101210 E").outer_diameter
    Decimal('12')
    """
    upper = " ".join(text.upper().split())
    if match := _POLYMER.fullmatch(upper):
        return _polymer(upper, match)
    if match := _BB.fullmatch(upper):
        return _wrapped(upper, match, flanged=True, outer=None)
    if match := _WRAPPED.fullmatch(upper):
        return _wrapped(upper, match, flanged=bool(match["flange"]), outer=match["outer"])
    return None


def _decimal(digits: str) -> Decimal:
    """Return a length as written: ``10``, ``07.5``, or ``075`` with the point left out."""
    if digits.isdigit() and len(digits) > 2:
        digits = f"{digits[:-1]}.{digits[-1]}"
    return Decimal(digits.replace(",", "."))


def _wrapped(upper: str, match: re.Match[str], flanged: bool, outer: str | None) -> BushCode:
    bore, length = Decimal(int(match["bore"])), _decimal(match["length"])
    stated = Decimal(outer) if outer else None
    row = _rows(flanged).get(("wrapped", str(bore)))
    return _code(upper, "wrapped", flanged, bore, stated, length, row)


def _polymer(upper: str, match: re.Match[str]) -> BushCode:
    flanged, pair = match["form"] == "F", match["pair"]
    row = _rows(flanged).get(("polymer", pair))
    bore = row.decimal("bore") if row else Decimal(int(pair[:2]))
    return _code(upper, "polymer", flanged, bore, None if row else Decimal(pair[2:]), _decimal(match["length"]), row)


def _code(
    upper: str, kind: str, flanged: bool, bore: Decimal, stated: Decimal | None, length: Decimal, row: tables.Row | None
) -> BushCode:
    listed = row.decimal("outer_diameter") if row else None
    reason = ""
    if listed is None:
        reason = f"no {kind} bush with a bore of {bore} mm is listed here"
    elif stated is not None and int(stated) != int(listed):
        reason = f"the code says {stated} mm outside, a {kind} bush of {bore} mm bore has {listed}"
    return BushCode(
        "flanged bush" if flanged else "plain bush",
        kind,
        upper,
        bore,
        stated if reason else listed,
        length,
        row.decimal("flange_diameter") if row and flanged else None,
        row.decimal("flange_thickness") if row and flanged else None,
        reason,
        row.source if row else "",
        row.basis if row else "",
    )
