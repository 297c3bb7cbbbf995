"""Text with units to exact decimals: lengths in millimetres, ratings in the unit in which they are compared.

Lengths and the usual ratings are read by a pattern and a table of exact factors. Any other unit goes through the one
pint registry of the process, which is built only then. Reading sizes out of a whole line of text does not belong here
(``service.reading``).

>>> length("3/16 in"), length("12,7 mm"), length("1 1/4\\"")
(Decimal('4.7625'), Decimal('12.7'), Decimal('31.75'))
>>> quantity("16 GiB", "data")
Rating(value=Decimal('17.179869184'), unit='GB', upper=None)
"""

import re
from collections.abc import Callable, Mapping
from decimal import Decimal
from fractions import Fraction
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any

from reference.quantities import Rating

if TYPE_CHECKING:
    from pint import UnitRegistry

INCH = Decimal("25.4")
"""One inch [mm], exact."""

_LARGEST = Decimal(10) ** 9
_LONGEST_TEXT = 64


class UnitError(ValueError):
    """The text is no quantity of the wanted kind; the message gives the text and an accepted example."""


@lru_cache(maxsize=8192)
def tidy(value: Decimal) -> Decimal:
    """Return the same number without trailing zeros and without an exponent.

    >>> tidy(Decimal("5.0120")), tidy(Decimal("5E+1")), tidy(Decimal("-0"))
    (Decimal('5.012'), Decimal('50'), Decimal('0'))
    """
    value = value.normalize() + 0  # equal numbers are one here: minus nought must not stand for nought
    return value.quantize(Decimal(1)) if value.as_tuple().exponent > 0 else value  # type: ignore[operator]


def _aliases(groups: Mapping[str, str]) -> dict[str, Decimal]:
    return {name: Decimal(factor) for names, factor in groups.items() for name in names.split()}


_LENGTHS = _aliases(
    {
        "mm millimetre millimetres millimeter millimeters": "1",
        "cm centimetre centimetres centimeter centimeters": "10",
        "dm decimetre decimetres": "100",
        "m metre metres meter meters": "1000",
        "µm μm um micron microns micrometre micrometres micrometer micrometers": "0.001",
        "nm nanometre nanometres": "0.000001",
        "in inch inches \" ″ ” '' ′′ zoll pouce pouces": "25.4",
        "thou mil mils": "0.0254",
        "ft foot feet ' ′ ’": "304.8",
    }
)

_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅕": "1/5", "⅖": "2/5",
    "⅗": "3/5", "⅘": "4/5", "⅒": "1/10",
}  # fmt: skip

_NUMBER = r"(?:[0-9]{1,12}(?:[.,](?!\.)[0-9]{0,12})?|[.,][0-9]{1,12})(?:[eE][+-]?0?[0-9])?"
_LENGTH = re.compile(
    rf"""(?P<sign>[-+−]?)\s*
    (?:(?:(?P<whole>[0-9]{{1,6}})(?:\s+|-|(?=[{"".join(_VULGAR)}])))?
       (?:(?P<over>[0-9]{{1,4}})\s?[/⁄]\s?(?P<under>[0-9]{{1,4}})|(?P<vulgar>[{"".join(_VULGAR)}]))
      |(?P<number>{_NUMBER}))
    \s*(?P<unit>.*)""",
    re.VERBOSE | re.DOTALL,
)
_RATING = re.compile(
    rf"(?P<lower>[-+−]?{_NUMBER})\s*(?:(?:-|–|to|\.\.\.?)\s*(?P<upper>[-+−]?{_NUMBER})\s*)?(?P<unit>\D.*)", re.DOTALL
)
_UNIT_NAME = re.compile(r"[A-Za-zµμΩ°%][A-Za-zµμΩ°_]{0,23}(?:[*/·][A-Za-zµμΩ°_]{1,24}){0,3}")


def _decimal(number: str) -> Decimal:
    return Decimal(number.replace(",", ".").replace("−", "-"))


def _exact(value: Fraction, text: str) -> Decimal:
    """Return the fraction as a decimal, or refuse it where no finite decimal equals it."""
    rest = value.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    if rest != 1:
        raise UnitError(f"{text!r} is no finite decimal length: write it as a decimal number, for example 8.467 mm")
    return Decimal(value.numerator) / Decimal(value.denominator)


def _length_error(text: str, why: str = "") -> UnitError:
    shown = text if len(text) <= _LONGEST_TEXT else text[:_LONGEST_TEXT] + "..."
    return UnitError(
        f"{shown!r} is no length{why}: expected a number with a length unit, a bare number being millimetres, "
        'for example 12.7 mm, 0.25 in or 3/16"'
    )


@lru_cache(maxsize=16384)
def length(text: str) -> Decimal:
    """Return a length written with or without its unit, exact, in millimetres.

    A bare number is millimetres; a bare fraction is inches, as the trade writes it. Decimal comma and decimal point
    both count; a comma never groups thousands. The sign is kept: whether a length may be negative is the caller's.

    Raises:
        UnitError: the text is no length, or too large to be one.

    >>> length("0.25\\""), length("½ in"), length("20 thou"), length("5")
    (Decimal('6.35'), Decimal('12.7'), Decimal('0.508'), Decimal('5'))
    """
    match = _LENGTH.fullmatch(text.strip()) if len(text) <= _LONGEST_TEXT else None
    if match is None:
        raise _length_error(text)
    unit = match["unit"].strip().rstrip(".")
    if match["number"] is not None:
        value = _decimal(match["number"]) * (_length_factor(unit, text) if unit else 1)
    else:
        numerator, _, denominator = (
            _VULGAR.get(match["vulgar"] or "") or f"{match['over']}/{match['under']}"
        ).partition("/")
        if not int(denominator):
            raise _length_error(text)
        fraction = Fraction(int(numerator), int(denominator)) + int(match["whole"] or 0)
        value = _exact(fraction * Fraction(_length_factor(unit, text) if unit else INCH), text)
    if value > _LARGEST:
        raise _length_error(text, " of a part")
    return tidy(-value if match["sign"] in ("-", "−") else value)


def _length_factor(unit: str, text: str) -> Decimal:
    """Return how many millimetres the unit is."""
    factor = _LENGTHS.get(unit)
    if factor is None and len(unit) > 1:
        factor = _LENGTHS.get(unit.casefold())
    if factor is not None:
        return factor
    try:
        return _through_pint(Decimal(1), unit, "mm")
    except UnitError:
        raise _length_error(text, f" ({unit!r} is no length unit)") from None


RATINGS: Mapping[str, str] = {
    "voltage": "V",
    "current": "A",
    "power": "W",
    "resistance": "ohm",
    "data": "GB",
    "data_rate": "MB/s",
    "temperature": "degC",
    "force": "N",
    "torque": "N*m",
    "frequency": "Hz",
    "rotation": "r/min",
    "mass": "kg",
    "charge": "A*h",
    "pressure": "bar",
    "capacitance": "uF",
    "time": "s",
}
"""The kinds of rating and the unit in which each is given and compared."""

_PINT_NAMES = {"GB": "gigabyte", "MB/s": "megabyte/second", "r/min": "revolution/minute", "uF": "microfarad"}
"""Units of RATINGS under the names by which pint knows them, where those differ."""

_RATING_UNITS: Mapping[str, dict[str, Decimal]] = {
    "voltage": _aliases({"V volt volts VDC VAC": "1", "mV": "0.001", "kV": "1000"}),
    "current": _aliases({"A amp amps ampere amperes": "1", "mA": "0.001", "µA μA uA": "0.000001"}),
    "power": _aliases({"W watt watts": "1", "mW": "0.001", "kW": "1000"}),
    "resistance": _aliases({"ohm ohms Ω Ω": "1", "kohm kΩ kΩ": "1000", "Mohm MΩ MΩ": "1000000", "mΩ mΩ": "0.001"}),
    "data": _aliases(
        {
            "GB gigabyte gigabytes": "1",
            "kB": "0.000001",
            "MB megabyte megabytes": "0.001",
            "TB terabyte terabytes": "1000",
            "KiB": "0.000001024",
            "MiB": "0.001048576",
            "GiB gibibyte gibibytes": "1.073741824",
            "TiB": "1099.511627776",
        }
    ),
    "data_rate": _aliases({"MB/s MBps": "1", "GB/s": "1000", "kB/s": "0.001"}),
    "temperature": _aliases({"degC °C ℃ celsius": "1"}),
    "force": _aliases({"N newton newtons": "1", "mN": "0.001", "kN": "1000"}),
    "torque": _aliases(
        {"N*m Nm N·m": "1", "Ncm N*cm N·cm": "0.01", "mNm mN*m mN·m Nmm N*mm N·mm": "0.001", "kNm": "1000"}
    ),
    "frequency": _aliases({"Hz": "1", "kHz": "1000", "MHz": "1000000", "GHz": "1000000000"}),
    "rotation": _aliases({"r/min rpm U/min min-1 1/min": "1"}),
    "mass": _aliases({"kg": "1", "g": "0.001"}),
    "charge": _aliases({"A*h Ah A·h": "1", "mAh": "0.001"}),
    "pressure": _aliases({"bar": "1", "mbar": "0.001", "MPa": "10", "kPa": "0.01", "Pa": "0.00001"}),
    "capacitance": _aliases({"uF µF μF": "1", "nF": "0.001", "pF": "0.000001", "F": "1000000"}),
    "time": _aliases({"s": "1", "ms": "0.001", "min": "60", "h": "3600"}),
}
_BITS = re.compile(r"[kKMGT]i?b")


def _fold(unit: str) -> str:
    """Fold the case of a unit, except that of a leading m or M: milli and mega stay apart."""
    return unit[:1] + unit[1:].casefold() if unit[:1] in ("m", "M") else unit.casefold()


@cache
def _folded(dimension: str) -> dict[str, Decimal]:
    return {_fold(name): factor for name, factor in _RATING_UNITS[dimension].items()}


def _scale(dimension: str, unit: str) -> Callable[[Decimal], Decimal]:
    """Return how a number in the unit becomes one in the dimension's own unit."""
    if dimension == "data" and _BITS.fullmatch(unit):
        raise UnitError(f"{unit!r} means bits: write {unit[:-1]}B for bytes, for example 16 GB")
    factor = _RATING_UNITS[dimension].get(unit) or _folded(dimension).get(_fold(unit))
    if factor is None:
        own = RATINGS[dimension]
        return lambda value: _through_pint(value, unit, _PINT_NAMES.get(own, own))
    return lambda value: value * factor


@lru_cache(maxsize=4096)
def quantity(text: str, dimension: str) -> Rating:
    """Return a rating such as ``24 V``, ``100-240 V``, ``16 GiB`` or ``1.5 N*m`` in the unit of its dimension.

    GB is a thousand million bytes and GiB 2 to the power of 30, so the two are told apart; Gb (bits) is refused.

    Args:
        text: a number, or a range of two, and a unit.
        dimension: one of ``RATINGS``.

    Raises:
        UnitError: the text is no such quantity.
        KeyError: there is no such dimension.

    >>> quantity("100-240 V", "voltage")
    Rating(value=Decimal('100'), unit='V', upper=Decimal('240'))
    >>> quantity("250 mA", "current").value
    Decimal('0.25')
    """
    own = RATINGS[dimension]
    match = _RATING.fullmatch(text.strip()) if len(text) <= _LONGEST_TEXT else None
    if match is None:
        raise UnitError(
            f"{text[:_LONGEST_TEXT]!r} is no {dimension}: expected a number and a unit, for example 5 {own}"
        )
    try:
        scale = _scale(dimension, "".join(match["unit"].split()))
        lower = tidy(scale(_decimal(match["lower"])))
        upper = None if match["upper"] is None else tidy(scale(_decimal(match["upper"])))
    except UnitError as error:
        raise UnitError(f"{text!r} is no {dimension}, for example 5 {own}: {error}") from None
    if upper is not None and upper < lower:
        raise UnitError(f"{text!r} is no {dimension}: the range runs backwards, for example 5-12 {own}")
    return Rating(lower, own, upper)


def convert(value: Decimal, from_unit: str, to_unit: str) -> Decimal:
    """Return the value in another unit, exact where a finite decimal exists, otherwise to 28 digits.

    Raises:
        UnitError: a unit is unknown, or the two measure different things.

    >>> convert(Decimal("12.7"), "mm", "in")
    Decimal('0.5')
    """
    if not value.is_finite() or abs(value) > _LARGEST**2:
        raise UnitError(f"{value} is no value to convert: expected a finite number, for example 12.7")
    here, there = _LENGTHS.get(from_unit), _LENGTHS.get(to_unit)
    if here is not None and there is not None:
        return tidy(value * here / there)
    return tidy(_through_pint(value, from_unit, to_unit))


@cache
def registry() -> "UnitRegistry[Any]":
    """Return the one pint registry of the process, in exact decimals, built at the first call."""
    import pint

    return pint.UnitRegistry(non_int_type=Decimal)


def _through_pint(value: Decimal, from_unit: str, to_unit: str) -> Decimal:
    """Convert by pint; unit names only, so that no text is ever evaluated as an expression."""
    import pint

    for unit in (from_unit, to_unit):
        if not _UNIT_NAME.fullmatch(unit):
            raise UnitError(f"{unit!r} is no unit")
    try:
        converted = registry().Quantity(value, from_unit.replace("·", "*")).to(to_unit).magnitude
    except (pint.PintError, AttributeError, ArithmeticError, TypeError, ValueError, AssertionError):
        raise UnitError(f"{from_unit!r} does not convert to {to_unit}") from None
    return Decimal(converted)
