"""Reads lead screw and ball screw designations: diameter, pitch, starts and lead = pitch x starts.

The second number of a designation is the lead. Where no bracket gives the pitch, a lead that is a listed pitch means
one start, a listed multi-start lead means that one: this convention is marked as implied; where the trade has none,
each meaning is given, or the lead alone. What does not belong here: words of a line such as "2 mm pitch".

Sources: ISO 2904 and DIN 103 (trapezoidal threads and their designation), common practice (multi-start screws, ball
screw codes).

>>> [(str(s.pitch), s.starts, str(s.lead)) for s in decode("T8x8")]
[('2', 4, '8')]
>>> [(str(s.diameter), str(s.lead)) for s in decode("SFU1605")]
[('16', '5')]
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Literal

from reference import tables

Evidence = Literal["stated", "implied"]

_SMALLEST_STANDARD = Decimal(8)
"""The smallest trapezoidal thread of ISO 2904 [mm]; below it both one start and two are sold under one number."""

_NUMBER = r"\d{1,2}(?:[.,]\d{1,2})?"
_TRAPEZOIDAL = re.compile(
    rf"(?P<letters>TR|T)[ -]?(?P<diameter>\d{{1,2}}) ?[X*×] ?(?P<lead>{_NUMBER})"
    rf" ?(?:\(? ?P ?(?P<pitch>{_NUMBER}) ?\)?)?[ -]?(?P<left>LH|L)?"
)
_BALL = re.compile(
    r"(?P<letters>SFUR?|SFE|SFSR?|SFKR?|SFY|SFV|SFH|DFU|DFS|RM|BS)?[ -]?(?P<code>0\d{2}\d{2}|\d{2}\d{2})(?:-\d)?"
)
DESIGNATION = (
    rf"(?<![\w.,/])(?i:TR?[ -]?\d{{1,2}} ?[x*×] ?{_NUMBER}(?: ?\(? ?P ?{_NUMBER} ?\)?)?(?:[ -]?LH)?"
    r"|(?:SFUR?|SFE|SFSR?|SFKR?|SFY|SFV|SFH|DFU|DFS|RM)[ -]?\d{4,5}(?:-\d)?)(?!\w)"
)
"""Finds such designations in a line of either case; what it finds still has to be decoded."""


@dataclass(frozen=True, slots=True)
class Screw:
    """One meaning of a designation; lengths in millimetres.

    ``pitch`` and ``starts`` are None where the lead alone is known. ``evidence`` is ``stated`` where the designation
    gives the pitch itself, else ``implied``. ``nut`` holds the letters of a ball nut; ``bare`` marks digits alone.
    """

    system: Literal["trapezoidal", "ball"]
    diameter: Decimal
    lead: Decimal
    pitch: Decimal | None = None
    starts: int | None = None
    hand: Literal["right", "left"] = "right"
    evidence: Evidence = "implied"
    says: str = ""
    nut: str = ""
    bare: bool = False
    listed: bool = True

    @property
    def designation(self) -> str:
        """The unambiguous designation: TrDxP for one start, TrDxL (Pp) for more, diameter x lead for a ball screw."""
        left = " LH" if self.hand == "left" else ""
        if self.system == "ball" or self.pitch is None:
            return f"{self.diameter} x {self.lead}{left}"
        if self.starts == 1:
            return f"Tr{self.diameter}x{self.pitch}{left}"
        return f"Tr{self.diameter}x{self.lead} (P{self.pitch}){left}"


@cache
def _trapezoidal() -> Mapping[Decimal, tuple[tuple[Decimal, int, bool], ...]]:
    """Return diameter -> its (pitch, starts, preferred) as the table lists them."""
    found: dict[Decimal, tuple[tuple[Decimal, int, bool], ...]] = {}
    for row in tables.load("lead_screw"):
        entry = (row.decimal("pitch"), int(row.text("starts")), row.text("preferred") == "yes")
        diameter = row.decimal("outer_diameter")
        found[diameter] = (*found.get(diameter, ()), entry)
    return found


@cache
def _ball() -> frozenset[tuple[Decimal, Decimal]]:
    return frozenset((row.decimal("outer_diameter"), row.decimal("lead")) for row in tables.load("ball_screw"))


def leads(diameter: Decimal, pitch: Decimal) -> tuple[tuple[Decimal, int], ...]:
    """Return the (lead, starts) that are sold with this pitch: a pitch alone decides neither.

    >>> [(str(lead), starts) for lead, starts in leads(Decimal(8), Decimal(2))]
    [('2', 1), ('4', 2), ('8', 4)]
    """
    entries = _trapezoidal().get(diameter, ())
    return tuple((pitch * starts, starts) for each, starts, _ in entries if each == pitch)


def usual_pitch(diameter: Decimal) -> Decimal | None:
    """Return the pitch that a screw of this diameter usually has, or None where none is listed."""
    return next((pitch for pitch, _, preferred in _trapezoidal().get(diameter, ()) if preferred), None)


def decode(text: str) -> tuple[Screw, ...]:
    """Return the meanings of a designation, the likelier first; empty where the text is none.

    A hand is read from LH. Diameters that no table lists give no meaning but the bare lead, marked as not listed.
    """
    upper = " ".join(text.upper().split())
    if match := _TRAPEZOIDAL.fullmatch(upper):
        return _trapezoidal_meanings(match)
    if match := _BALL.fullmatch(upper):
        return _ball_meaning(match)
    return ()


def _decimal(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))


def _trapezoidal_meanings(match: re.Match[str]) -> tuple[Screw, ...]:
    diameter, lead = Decimal(match["diameter"]), _decimal(match["lead"])
    hand: Literal["right", "left"] = "left" if match["left"] else "right"
    if not 0 < lead < 3 * diameter:
        return ()

    def screw(pitch: Decimal | None, starts: int | None, evidence: Evidence, says: str, listed: bool = True) -> Screw:
        return Screw("trapezoidal", diameter, lead, pitch, starts, hand, evidence, says, listed=listed)

    entries = _trapezoidal().get(diameter, ())
    if match["pitch"]:
        pitch = _decimal(match["pitch"])
        starts = lead / pitch if pitch else Decimal(0)
        if starts < 1 or starts != starts.to_integral_value():
            return ()
        listed = any(each == pitch and count == int(starts) for each, count, _ in entries)
        return (screw(pitch, int(starts), "stated", "P gives the pitch, the number before it the lead", listed),)
    single = any(pitch == lead and starts == 1 for pitch, starts, _ in entries)
    several = [
        screw(pitch, starts, "implied", f"{starts} starts of {pitch} mm, as the trade sells them")
        for pitch, starts, _ in entries
        if starts > 1 and pitch * starts == lead
    ]
    if single:
        return (screw(lead, 1, "implied", "the number is a listed pitch: one start"),)
    if several and diameter >= _SMALLEST_STANDARD:
        return tuple(several)
    if several:
        return (screw(lead, 1, "implied", "one start"), *several)
    return (screw(None, None, "implied", "the lead only; no listed pitch leads to it", listed=False),)


def _ball_meaning(match: re.Match[str]) -> tuple[Screw, ...]:
    code = match["code"][-4:] if len(match["code"]) == 4 else match["code"][1:]
    diameter, lead = Decimal(int(code[:2])), Decimal(int(code[2:]))
    listed = (diameter, lead) in _ball()
    if not lead or not diameter or (not listed and not match["letters"]):
        return ()
    says = "four digits: diameter and lead"
    nut = match["letters"] or ""
    return (Screw("ball", diameter, lead, lead, 1, says=says, nut=nut, bare=not nut, listed=listed),)
