"""Reads timing belt codes and computes belts and pulleys: pitch, teeth, pitch length, pitch diameter.

A length must hold a whole number of teeth; one that does not is refused with the nearest that do. A code whose number
can be millimetres or teeth gives both meanings. What does not belong here: the path of a belt around pulleys.

Sources: ISO 5296 (inch codes), ISO 17396 and DIN 7721 (T and AT), makers' catalogues (common practice).

>>> [(str(belt.pitch_length), belt.teeth) for belt in decode("430-5M-10")]
[('430', 86)]
>>> [(str(belt.pitch_length), belt.teeth) for belt in decode("90XL037")]
[('228.6', 45)]
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from reference import tables

PI = Decimal("3.14159265358979323846")
_MM_PER_INCH = Decimal("25.4")
_CODE_ROUNDING = Decimal("0.05")
"""Inch length codes are tenths of an inch with the rest cut off (187L is 18.75 in) [in]."""

_NAMED = r"HTD ?\d{1,2}M|GT-?[23]|[2358]M?GT|G2M|S[2358]M|AT ?(?:3|5|10)|T ?(?:2[.,]5|2|5|10|20)"
_METRIC = rf"{_NAMED}|\d{{1,2}}M"
_NUMBER = r"\d{2,4}(?:[.,]\d)?"
_LENGTH_FIRST = re.compile(
    rf"(?:HTD ?)?(?P<length>{_NUMBER})[- ](?P<profile>{_METRIC})(?:[- /x]+(?P<width>\d{{1,3}}))?(?: ?MM)?",
    re.IGNORECASE,
)
_PROFILE_FIRST = re.compile(
    rf"(?P<profile>{_METRIC})[- /x]+(?P<length>{_NUMBER})(?:(?: ?x ?|-)(?P<width>\d{{1,3}}))?(?: ?MM)?", re.IGNORECASE
)
_WIDTH_FIRST = re.compile(
    rf"(?P<width>\d{{1,3}}) ?(?P<profile>A?T(?:2[.,]5|3|5|10|20)) ?/ ?(?P<length>{_NUMBER})", re.IGNORECASE
)
_INCH = re.compile(
    r"(?P<teeth>B)?(?P<length>\d{2,4}(?:\.\d)?) ?-?(?P<profile>MXL|XXL|XL|L|H)(?: ?-?(?P<width>\d{3}))?(?![A-Z])",
    re.IGNORECASE,
)
DESIGNATION = (
    rf"(?<![\w.,/])(?i:(?:HTD ?)?{_NUMBER}-(?:{_METRIC})(?:-\d{{1,3}})?"
    rf"|{_NUMBER} (?:{_NAMED})(?:[- /x]+\d{{1,3}})?"
    rf"|(?:{_NAMED})[- /x]+\d{{3,4}}(?:(?: ?x ?|-)\d{{1,3}})?"
    rf"|\d{{1,3}} ?A?T(?:2[.,]5|3|5|10|20) ?/ ?{_NUMBER}"
    r"|B?\d{2,4}(?:\.\d)? ?-?(?:MXL|XXL|XL)(?: ?-?\d{3})?|B?\d{2,4}[LH]\d{3})(?!\w)"
)
"""Finds belt codes in a line of either case; what it finds still has to be decoded."""


@dataclass(frozen=True, slots=True)
class Profile:
    """A belt profile: its pitch [mm], and how far the pitch line lies above the teeth of a pulley [mm]."""

    name: str
    pitch: Decimal
    pitch_line_offset: Decimal | None
    inch_code: bool
    standard: str
    widths: tuple[Decimal, ...]
    source: str
    basis: str


@dataclass(frozen=True, slots=True)
class Belt:
    """One meaning of a belt code; lengths in millimetres.

    ``teeth`` is None where the length holds no whole number of them; ``reason`` then says so.
    """

    profile: Profile
    pitch_length: Decimal
    teeth: int | None
    belt_width: Decimal | None = None
    says: str = "the number is the pitch length"
    reason: str = ""


@cache
def profiles() -> Mapping[str, Profile]:
    """Return every profile by its name and by each other spelling, in capitals without blanks."""
    found: dict[str, Profile] = {}
    for row in tables.load("belt_profile"):
        profile = Profile(
            row.text("size"),
            row.decimal("pitch"),
            row.number_or_none("pitch_line_offset"),
            row.text("length_unit") == "in",
            row.text("standard"),
            row.decimals("belt_widths"),
            row.source,
            row.basis,
        )
        for spelling in (profile.name, *row.text("aliases").split("|")):
            found[_spelling(spelling)] = profile
    return found


@cache
def _width_codes() -> Mapping[str, Decimal]:
    return {row.text("code"): row.decimal("belt_width") for row in tables.load("belt_width_code")}


def _spelling(text: str) -> str:
    return text.upper().replace(" ", "").replace(",", ".").replace("GT-", "GT")


def profile_of(text: str) -> Profile | None:
    """Return the profile of that name in any usual spelling (``GT2``, ``2GT``, ``HTD 5M``, ``5M``), or None.

    >>> profile_of("2gt").name, str(profile_of("XL").pitch)
    ('GT2', '5.08')
    """
    return profiles().get(_spelling(text))


def teeth_in(length: Decimal, profile: Profile) -> int | None:
    """Return how many teeth a closed belt of that pitch length [mm] has, or None where it is no whole number."""
    teeth = length / profile.pitch
    return int(teeth) if teeth == teeth.to_integral_value() and teeth > 0 else None


def pitch_length(teeth: int, profile: Profile) -> Decimal:
    """Return the pitch length [mm] of a closed belt: teeth x pitch, exact."""
    return _tidy(profile.pitch * teeth)


def length_tolerance(length: Decimal) -> tuple[Decimal, str]:
    """Return how much a closed belt of a pitch length may depart from it to either side [mm], and the source.

    >>> length_tolerance(Decimal(242))[0]
    Decimal('0.41')
    """
    rows = tables.load("belt_length_tolerance").rows
    row = next((row for row in rows if length <= row.decimal("up_to")), rows[-1])
    return row.decimal("tolerance"), row.source


def _tidy(length: Decimal) -> Decimal:
    """Return the same length without trailing zeros."""
    return length.quantize(Decimal(1)) if length == length.to_integral_value() else length.normalize()


def pitch_diameter(teeth: int, profile: Profile) -> Decimal:
    """Return the pitch diameter [mm] of a pulley: teeth x pitch / pi.

    >>> round(pitch_diameter(20, profile_of("GT2")), 2)
    Decimal('12.73')
    """
    return profile.pitch * teeth / PI


def decode(text: str) -> tuple[Belt, ...]:
    """Return the meanings of a belt code, the likelier first; empty where the text is none.

    GT profiles are sold by millimetres and by teeth: with one number both are returned. Length, profile and width in
    a row (``200-2GT-6``), and all other metric profiles, mean millimetres.
    """
    plain = " ".join(text.split())
    if match := _INCH.fullmatch(plain):
        return _inch(match)
    for pattern in (_WIDTH_FIRST, _LENGTH_FIRST, _PROFILE_FIRST):
        match = pattern.fullmatch(plain)
        profile = profile_of(match["profile"]) if match else None
        if match and profile:
            length = Decimal(match["length"].replace(",", "."))
            width = Decimal(match["width"]) if match["width"] else None
            return _metric(profile, length, width)
    return ()


def _metric(profile: Profile, number: Decimal, width: Decimal | None) -> tuple[Belt, ...]:
    by_length = _belt(profile, number, width)
    if width is not None or not profile.name.startswith("GT") or number != number.to_integral_value():
        return (by_length,)
    by_teeth = Belt(profile, pitch_length(int(number), profile), int(number), says="the number counts the teeth")
    return (by_teeth,) if by_length.teeth is None else (by_length, by_teeth)


def _belt(profile: Profile, length: Decimal, width: Decimal | None) -> Belt:
    teeth = teeth_in(length, profile)
    reason = ""
    if teeth is None:
        below = int(length / profile.pitch)
        near = " or ".join(f"{pitch_length(n, profile)} ({n})" for n in (below, below + 1) if n > 0)
        reason = f"{length} mm holds no whole number of {profile.name} teeth ({profile.pitch} mm); near it: {near}"
    return Belt(profile, length, teeth, width, reason=reason)


def _inch(match: re.Match[str]) -> tuple[Belt, ...]:
    profile = profile_of(match["profile"])
    width = _width_codes().get(match["width"] or "")
    number = Decimal(match["length"])
    if profile is None or (match["width"] and width is None):
        return ()
    if match["teeth"]:
        if number != number.to_integral_value():
            return ()
        length = pitch_length(int(number), profile)
        return (Belt(profile, length, int(number), width, "B before the number: it counts the teeth"),)
    inches = number / 10
    teeth = int((inches * _MM_PER_INCH / profile.pitch).to_integral_value())
    length = pitch_length(teeth, profile)
    says = "the number is the pitch length in tenths of an inch"
    if abs(length / _MM_PER_INCH - inches) > _CODE_ROUNDING or teeth == 0:
        reason = f"{inches} in holds no whole number of {profile.name} teeth ({profile.pitch} mm)"
        return (Belt(profile, _tidy(inches * _MM_PER_INCH), None, width, says, reason),)
    return (Belt(profile, length, teeth, width, says),)
