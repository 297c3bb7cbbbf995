"""Judges rated items against the quantities that the design needs: 24 V, 40 W, 64 GB with a fifth to spare.

Capacities compare with decimal and binary prefixes told apart (GB is 10^9 bytes, GiB 2^30: IEC 80000-13).
How a quantity compares where the check does not say is common practice: a voltage must be that voltage (or lie in the
range of the part), most others must be at least what is needed.
"""

import re
from collections.abc import Mapping
from decimal import Decimal
from functools import lru_cache

from reference import units
from reference.quantities import Rating
from reference.units import tidy
from reference.words import RATING_UNITS
from service.reading.model import Reading
from service.strength.cautions import GENERAL
from service.verdict.combine import worst
from service.verdict.fields import Fields, at, known, required
from service.verdict.model import CheckError, Comparison, Finding, FitWanted, JudgedReading, Needed, RatingMate
from service.verdict.roles import can_have

ELECTRIC = (
    "Ratings are compared here, a circuit is not approved. Mains, heaters and other hot parts are for a qualified "
    "person."
)

_FORMS = (
    "quantities with their units, joined by commas, each with at least, at most or exactly where needed; then margin"
)
_EXAMPLE = "24 V, at least 40 W margin 20 %"
_MARGIN = re.compile(r"\s*,?\s*(?:margin|\+)\s*(?P<margin>\d+(?:[.,]\d+)?)\s*%$", re.IGNORECASE)
_PART = re.compile(
    r"(?:(?P<word>at least|at most|exactly|>=|<=|≥|≤|=)\s*)?(?P<number>[+−-]?\d+(?:[.,]\d+)?)\s*(?P<unit>[^\d\s,].*)",
    re.IGNORECASE,
)
_WORDS: dict[str, Comparison] = {
    "at least": "at least", ">=": "at least", "≥": "at least", "at most": "at most", "<=": "at most", "≤": "at most",
    "exactly": "exactly", "=": "exactly",
}  # fmt: skip
_BITS = re.compile(r"[kKMGT]i?b")

_EXACT = frozenset({"voltage", "resistance", "frequency", "angle"})
_EXACT_OF = {("current", "fuse"), ("power", "heater cartridge")}
_AT_LEAST_OF = {("voltage", "fuse"), ("voltage", "cable gland")}
_DATA = "capacity"
_HOT = frozenset({"voltage", "current", "power", "temperature"})


def from_text(text: str, field: str) -> RatingMate:
    """Return the ratings of a short form: ``24 V, 40 W``, ``64 GB margin 20 %``.

    Raises:
        CheckError: a quantity or the margin is not understood.
    """
    match = _MARGIN.search(text)
    margin = match["margin"] if match else None
    needed = _MARGIN.sub("", text)
    return from_fields(
        {"needed": re.split(r"(?<!\d),|,(?!\d)|;", needed), "margin": f"{margin} %" if margin else None}, field
    )


def from_fields(given: Fields, field: str) -> RatingMate:
    """Return the ratings of an object: ``needed`` (a text or a list of them) and ``margin`` (0.2 or ``20 %``).

    Raises:
        CheckError: a part of it is missing or not understood.
    """
    known(given, ("needed", "margin"), field)
    texts = required(given, "needed", field, "24 V")
    where = at(field, "needed")
    parts = texts if isinstance(texts, (list, tuple)) else [texts]
    if not 0 < len(parts) <= 20:
        raise CheckError(where, texts, "1 to 20 quantities", _EXAMPLE)
    needed = tuple(_needed(part, where) for part in parts)
    margin = _margin(given.get("margin"), at(field, "margin"))
    text = ", ".join(f"{one.rating.value} {one.rating.unit}" for one in needed)
    return RatingMate(f"{text} and {margin:.0%} to spare" if margin else text, needed, margin)


def _margin(value: object, field: str) -> Decimal:
    if value is None:
        return Decimal(0)
    accepted, example = "a share from 0 to 10, or per cent", "0.2 or 20 %"
    text = str(value).strip().replace(",", ".")
    if not isinstance(value, bool) and re.fullmatch(r"\d{1,4}(\.\d{1,6})?\s*%?", text):
        margin = Decimal(text.rstrip("% ")) / (100 if text.endswith("%") else 1)
        if margin <= 10:
            return tidy(margin)
    raise CheckError(field, value, accepted, example)


def _needed(value: object, field: str) -> Needed:
    """Return one quantity, in the unit in which the reader gives ratings of that kind."""
    match = _PART.fullmatch(" ".join(value.split())) if isinstance(value, str) and len(value) <= 64 else None
    if match is None or _BITS.fullmatch(match["unit"]):
        raise CheckError(field, value, _FORMS, _EXAMPLE)
    comparison = _WORDS[match["word"].lower()] if match["word"] else "usual"
    number = Decimal(match["number"].replace(",", ".").replace("−", "-"))
    usual = RATING_UNITS.get("".join(match["unit"].split()).lower())
    if usual is not None:
        name, unit, factor = usual
        return Needed(name, Rating(tidy(number * factor), unit), comparison)
    for name in units.RATINGS:
        try:
            return Needed(name, units.quantity(f"{match['number']} {match['unit']}", name), comparison)
        except units.UnitError:
            continue
    raise CheckError(field, value, f"{_FORMS}; {match['unit']!r} is no unit that is known", _EXAMPLE)


def judge(reading: Reading, mate: RatingMate, fit: FitWanted | None) -> JudgedReading:
    """Judge whether the part is rated for all that is needed."""
    rated = reading.dimensions.get("rating")
    ratings = rated if isinstance(rated, Mapping) else {}
    if not ratings and not can_have(reading.family, "rating"):
        text = f"a {reading.family} is rated for nothing; {mate.text} needed"
        return JudgedReading(reading, "wrong", None, (Finding("wrong-kind", "wrong", text, {}, "common practice"),))
    findings = tuple(_compare(reading.family, ratings.get(one.name), one, mate.margin) for one in mate.needed)
    careful = (ELECTRIC, GENERAL) if any(one.name in _HOT for one in mate.needed) else ()
    return JudgedReading(reading, worst(findings), None, findings, None, careful)


def _comparison(needed: Needed, family: str) -> Comparison:
    """Return how a quantity compares for a family where the check does not say."""
    if needed.comparison != "usual":
        return needed.comparison
    here = (needed.name, family)
    exact = here in _EXACT_OF or (needed.name in _EXACT and here not in _AT_LEAST_OF)
    return "exactly" if exact else "at least"


@lru_cache(maxsize=2048)
def _compare(family: str, rated: Rating | None, needed: Needed, margin: Decimal) -> Finding:
    """Compare one rating with what is needed."""
    name, wanted = needed.name, needed.rating
    comparison = _comparison(needed, family)
    if rated is None:
        text = f"the line does not say the {name} of the {family}; {wanted.value} {wanted.unit} are needed"
        return Finding("rating-missing", "open", text, {"needed_value": wanted.value}, "the line")
    low, high, need = _in_one_unit(rated, wanted, name)
    numbers: dict[str, Decimal | str] = {"rated": rated.value, "needed_value": wanted.value, "margin": margin}
    shown = f"{rated.value}{f' to {rated.upper}' if rated.upper is not None else ''} {rated.unit}"
    text = f"{name}: rated {shown}, {comparison} {wanted.value} {wanted.unit} needed{_prefixes(rated, wanted, low)}"
    if comparison == "exactly":
        if low <= need <= high:
            return Finding("rating-met", "fits", text, numbers, "as rated")
        return Finding("rating-differs", "wrong", text, numbers, "as rated")
    if comparison == "at most":
        if low > need:
            return Finding("rating-too-high", "wrong", text, numbers, "as rated")
        enough = low <= need * (1 - margin)
    else:
        if high < need:
            return Finding("rating-too-low", "wrong", text, numbers, "as rated")
        enough = high >= need * (1 + margin)
    if not enough:
        return Finding(
            "margin-short", "marginal", f"{text}, but {margin:.0%} to spare are not there", numbers, "as rated"
        )
    return Finding("rating-met", "fits", text + (f" and {margin:.0%} to spare" if margin else ""), numbers, "as rated")


def _in_one_unit(rated: Rating, needed: Rating, name: str) -> tuple[Decimal, Decimal, Decimal]:
    """Return the lower and the upper end of a rating, and what is needed, in one unit."""
    ends = (rated.value, rated.value if rated.upper is None else rated.upper)
    if name != _DATA:
        return ends[0], ends[1], needed.value
    low, high, need = (
        units.quantity(f"{value} {unit}", "data").value
        for value, unit in ((ends[0], rated.unit), (ends[1], rated.unit), (needed.value, needed.unit))
    )
    return low, high, need


def _prefixes(rated: Rating, needed: Rating, decimal_gigabytes: Decimal) -> str:
    """Say what a capacity is in the other kind of prefix, where the two kinds meet."""
    if ("i" in rated.unit) == ("i" in needed.unit):
        return ""
    gib = (decimal_gigabytes / Decimal("1.073741824")).quantize(Decimal("0.1"))
    return f" ({tidy(decimal_gigabytes)} GB are {gib} GiB)"
