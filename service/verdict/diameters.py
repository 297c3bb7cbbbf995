"""Lengths and toleranced diameters as requests write them, to exact ``Limits`` in millimetres.

A diameter is a size with its class (``5 H7``), with deviations (``5 +0.012/0``, ``5 ±0.01``), as limits
(``5.000..5.012``), with how the hole is made (``5 drilled``), or bare. Any length unit, decimal comma or point.

>>> diameter("3/16 in H7", "hole", "bore").limits.upper
Decimal('4.7745')
"""

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple

from reference import fits, units, workshop
from reference.quantities import Limits
from service.verdict.model import CheckError

LARGEST = Decimal(10_000)
"""The largest length that a check may give [mm]."""

LONGEST_TEXT = 200
"""Characters of one field."""

_DECIMALS = 9
_LENGTH_EXAMPLE = "20 or 0.75 in"

_NUMBER = r"(?:(?:\d+[\s-])?\d+\s?/\s?\d+|\d+(?:[.,]\d+)?|[.,]\d+|\d*[½¼¾⅛⅜⅝⅞])"
_DEVIATION = r"[+−-]?\s?(?:\d+(?:[.,]\d+)?|[.,]\d+)"
_UNIT = r"(?:\s?(?:mm|cm|µm|um|inch(?:es)?|in|\"|″|''))"
MEASURE = rf"{_NUMBER}{_UNIT}?"
"""A number with or without a unit, as a part of a pattern."""

_WINDOW = re.compile(
    rf"(?P<low>[+−-]?\s?{_NUMBER})(?P<unit>{_UNIT})?\s*(?:\.\.+|…|\bto\b)\s*(?P<high>[+−-]?\s?{_NUMBER})(?P<last_unit>{_UNIT})?"
)
_SIZE = rf"(?P<size>{_NUMBER})(?P<unit>{_UNIT})?"
_SIGN = re.compile(r"(?:[øØ⌀]|dia(?:meter)?\b\.?)\s*", re.IGNORECASE)
_BARE = re.compile(_SIZE)
_CLASSED = re.compile(rf"{_SIZE}\s*(?P<class>[A-Za-z]{{1,2}}\s?\d{{1,2}})")
_RANGE = re.compile(rf"{_SIZE}\s*(?:\.\.+|…|\bto\b)\s*(?P<high>{_NUMBER})(?P<last_unit>{_UNIT})?")
_DEVIATED = re.compile(rf"{_SIZE}\s+(?P<one>{_DEVIATION})\s*[/\s]\s*(?P<two>{_DEVIATION})(?P<last_unit>{_UNIT})?")
_PLUS_MINUS = re.compile(rf"{_SIZE}\s*(?:±|\+/-|\+-)\s*(?P<one>{_DEVIATION})(?P<last_unit>{_UNIT})?")
_MADE = re.compile(rf"{_SIZE}\s+(?P<process>[A-Za-z ]+)")

_ACCEPTED: Mapping[fits.Kind, str] = {
    "hole": "size and class (5 H7), deviations (5 +0.012/0), limits (5.000..5.012), how it is made (5 drilled)",
    "shaft": "size and class (8 h6), deviations (8 0/-0.009), limits (7.991..8.000)",
}
_EXAMPLE: Mapping[fits.Kind, str] = {"hole": "5 H7", "shaft": "8 h6"}
AS_GIVEN = "as given"


class Diameter(NamedTuple):
    """Limits of a diameter, how the hole is made where that was given, and where the limits come from."""

    limits: Limits
    process: str | None
    source: str

    @property
    def text(self) -> str:
        """The diameter as messages show it: ``5 H7 (5..5.012)``."""
        how = self.limits.tolerance_class or self.process
        return f"{self.limits.nominal} {how} ({between(self.limits)})" if how else between(self.limits)


def between(limits: Limits) -> str:
    """Return limits as messages show them: ``5..5.012``, or the nominal size where no limits are known."""
    return str(limits.nominal) if limits.lower is None else f"{limits.lower}..{limits.upper}"


def signed_length(value: object, field: str, accepted: str = "a length", example: str = _LENGTH_EXAMPLE) -> Decimal:
    """Return a length with its sign [mm]; a number of JSON is taken by its shortest text, so no binary noise enters.

    Raises:
        CheckError: the value is no length, or has more than nine decimals.
    """
    if isinstance(value, (str, int, float, Decimal)) and not isinstance(value, bool):
        try:
            result = units.length(value if isinstance(value, str) else format(Decimal(str(value)), "f"))
        except (units.UnitError, ArithmeticError, ValueError):
            raise CheckError(field, value, accepted, example) from None
        if round(result, _DECIMALS) == result:
            return result
    raise CheckError(field, value, accepted, example)


def length(value: object, field: str) -> Decimal:
    """Return a length above zero [mm].

    Raises:
        CheckError: the value is no length, or none that a part can have.
    """
    accepted = f"a length above 0 up to {LARGEST} mm, in mm or with its unit, at most {_DECIMALS} decimals"
    result = signed_length(value, field, accepted)
    if not 0 < result <= LARGEST:
        raise CheckError(field, value, accepted, _LENGTH_EXAMPLE)
    return result


def diameter(value: object, kind: fits.Kind, field: str) -> Diameter:
    """Return the limits of a hole's or a shaft's diameter given as text, number or object.

    Raises:
        CheckError: the value is no diameter; limits run backwards; the class is none of that kind or not defined.
    """
    if isinstance(value, Mapping):
        return _from_object(value, kind, field)
    if isinstance(value, str) and len(value) <= LONGEST_TEXT:
        return _from_text(value, kind, field)
    return Diameter(Limits(length(value, field)), None, AS_GIVEN)


def window(text: str, field: str) -> tuple[Decimal, Decimal] | None:
    """Return the two ends of a range that may be negative (``-0.010..0``) [mm], or None where the text is no range.

    Raises:
        CheckError: an end is no length.
    """
    match = _WINDOW.fullmatch(text)
    if match is None:
        return None
    unit = match["unit"] or match["last_unit"] or ""
    ends = (match["low"] + unit, match["high"] + (match["last_unit"] or unit))
    lower, upper = (signed_length(end.replace(" ", ""), field) for end in ends)
    return lower, upper


def _from_object(value: Mapping[str, object], kind: fits.Kind, field: str) -> Diameter:
    known = ("nominal", "lower", "upper", "tolerance_class", "process")
    for key in value:
        if key not in known:
            raise CheckError(f"{field}.{key}", value[key], f"the fields {', '.join(known)}", "nominal")
    given = {key: entry for key, entry in value.items() if entry is not None}
    process, tolerance_class = given.get("process"), given.get("tolerance_class")
    if "lower" in given and "upper" in given:
        lower, upper = (signed_length(given[key], f"{field}.{key}") for key in ("lower", "upper"))
        nominal = length(given["nominal"], f"{field}.nominal") if "nominal" in given else None
        limits = _limits(nominal, lower, upper, kind, field, value)
        if tolerance_class is None:
            return Diameter(limits, None if process is None else str(process), AS_GIVEN)
        classed = _classed(limits.nominal, str(tolerance_class), kind, field, value)
        if (classed.lower, classed.upper) != (lower, upper):
            accepted = f"limits that are those of the class, {classed.lower} to {classed.upper}, or only one of the two"
            raise CheckError(field, dict(value), accepted, '{"nominal": 5, "tolerance_class": "H7"}')
        return Diameter(classed, None, fits.source(classed.nominal, str(tolerance_class)))
    if "lower" in given or "upper" in given or "nominal" not in given:
        raise CheckError(field, dict(value), "nominal with a class, or lower and upper", '{"lower": 5, "upper": 5.012}')
    nominal = length(given["nominal"], f"{field}.nominal")
    if tolerance_class is not None:
        return _with_class(nominal, str(tolerance_class), kind, field, value)
    if process is not None:
        return _as_made(nominal, str(process), kind, field, value)
    return Diameter(Limits(nominal), None, AS_GIVEN)


def _from_text(text: str, kind: fits.Kind, field: str) -> Diameter:
    bare = _SIGN.sub("", text.strip(), count=1)
    if match := _BARE.fullmatch(bare):
        return Diameter(Limits(length(bare, field)), None, AS_GIVEN)
    if match := _CLASSED.fullmatch(bare):
        return _with_class(length(_sized(match), field), match["class"], kind, field, text)
    if match := _RANGE.fullmatch(bare):
        lower, upper = length(_sized(match), field), length(match["high"] + _last_unit(match), field)
        return Diameter(_limits(None, lower, upper, kind, field, text), None, AS_GIVEN)
    if match := _PLUS_MINUS.fullmatch(bare):
        nominal = length(_sized(match), field)
        one = abs(_deviation(match, "one", field))
        return Diameter(_limits(nominal, nominal - one, nominal + one, kind, field, text), None, AS_GIVEN)
    if match := _DEVIATED.fullmatch(bare):
        nominal = length(_sized(match), field)
        lower, upper = sorted(_deviation(match, name, field) for name in ("one", "two"))
        return Diameter(_limits(nominal, nominal + lower, nominal + upper, kind, field, text), None, AS_GIVEN)
    if kind == "hole" and (match := _MADE.fullmatch(bare)):
        return _as_made(length(_sized(match), field), match["process"], kind, field, text)
    raise CheckError(field, text, _ACCEPTED[kind], _EXAMPLE[kind])


def _last_unit(match: re.Match[str]) -> str:
    """Return the unit of the last number, which is the first one's where none follows it."""
    return match["last_unit"] or match["unit"] or ""


def _sized(match: re.Match[str]) -> str:
    """Return the first number with its unit, which is the last one's where none follows it."""
    unit = match["unit"] or match.groupdict().get("last_unit") or ""
    return f"{match['size']}{unit}"


def _deviation(match: re.Match[str], name: str, field: str) -> Decimal:
    return signed_length(match[name].replace(" ", "") + _last_unit(match), field)


def _limits(
    nominal: Decimal | None, lower: Decimal, upper: Decimal, kind: fits.Kind, field: str, value: object
) -> Limits:
    if not 0 < lower <= upper <= LARGEST:
        raise CheckError(field, value, f"limits above 0, the lower one first: {_ACCEPTED[kind]}", _EXAMPLE[kind])
    nominal = _roundest(lower, upper) if nominal is None else nominal
    return Limits(units.tidy(nominal), units.tidy(lower), units.tidy(upper))


def _roundest(lower: Decimal, upper: Decimal) -> Decimal:
    """Return the number with the fewest decimals between two limits: the size that a range is the tolerance of."""
    for decimals in range(_DECIMALS):
        step = Decimal(1).scaleb(-decimals)
        candidate = lower.quantize(step, "ROUND_CEILING")
        if candidate <= upper:
            return candidate
    return lower


def _classed(nominal: Decimal, tolerance_class: str, kind: fits.Kind, field: str, value: object) -> Limits:
    try:
        if fits.parse_class(tolerance_class).kind != kind:
            letter = "a capital letter" if kind == "hole" else "a small letter"
            raise CheckError(field, value, f"the class of a {kind}, which has {letter}", _EXAMPLE[kind])
        return fits.limits(nominal, tolerance_class.replace(" ", ""))
    except fits.UndefinedClass as error:
        raise CheckError(field, value, str(error), _EXAMPLE[kind]) from None


def _with_class(nominal: Decimal, tolerance_class: str, kind: fits.Kind, field: str, value: object) -> Diameter:
    limits = _classed(nominal, tolerance_class, kind, field, value)
    return Diameter(limits, None, fits.source(nominal, tolerance_class))


def _as_made(nominal: Decimal, process: str, kind: fits.Kind, field: str, value: object) -> Diameter:
    """Return the limits between which a way of making holes lands."""
    name = " ".join(process.lower().split())
    try:
        spread = workshop.process_spread(name, nominal)
    except workshop.UnknownFigure as error:
        raise CheckError(field, value, f"{_ACCEPTED[kind]} ({error})", "5 drilled") from None
    middle = nominal + spread.mean_deviation
    limits = _limits(nominal, middle - spread.half_spread, middle + spread.half_spread, kind, field, value)
    return Diameter(limits, name, spread.source)
