"""Request fields to a ``Receipt``: limits from wherever they are given, and the instrument's uncertainty.

>>> receipt = parse_receipt({"limits": "5 m6", "measured": [5.01], "instrument": "micrometer"})
>>> receipt.lower, receipt.upper, receipt.uncertainty.value
(Decimal('5.004'), Decimal('5.012'), Decimal('0.004'))
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference import workshop
from reference.families import by_name
from reference.quantities import Limits
from service.reading import read
from service.reading.model import LineReading
from service.receipts.model import Receipt, Uncertainty
from service.verdict.diameters import diameter, length, signed_length
from service.verdict.kinds import BY_FIELD
from service.verdict.mates import LONGEST_LINE, parse_fit, parse_mate
from service.verdict.model import BoreMate, CheckError, FitWanted, Mate, ShaftMate

Fields = Mapping[str, object]

FIELDS = (
    "measured",
    "limits",
    "uncertainty",
    "instrument",
    "line",
    "dimension",
    "label",
    "lot",
    "fit",
    "mate",
    "bore",
    "shaft",
)
"""The fields of a receipt."""

MOST_PIECES = 1000
"""Measured pieces of one receipt."""

SMALL_HOLE = Decimal(10)
"""Below this the flats on a calliper's nibs falsify a hole [mm]."""

_PLAIN_NUMBERS = re.compile(r"[\d.,;\s]+")
"""Several numbers without units, as one cell of a sheet holds them."""

_EXAMPLE_LIMITS = '{"lower": 4.982, "upper": 5.0}'
HOLES = frozenset({"bore", "hole_diameter", "slot_width", "groove_width"})
"""Dimensions that are measured from within."""


def parse_receipt(fields: Fields, where: str = "") -> Receipt:
    """Return the receipt that the fields of a request give; ``where`` leads the field names of errors.

    The limits come from ``limits``, from a mate with its fit, or from the line that was ordered, in this order.

    Raises:
        CheckError: a field is missing, unknown or not understood.
    """
    lead = f"{where}." if where else ""
    for name, value in fields.items():
        if name not in FIELDS:
            raise CheckError(f"{lead}{name}", value, f"the fields {', '.join(FIELDS)}", "measured")
    given = {name: value for name, value in fields.items() if value is not None and value != ""}
    measured = _pieces(given.get("measured"), f"{lead}measured")
    ordered = _line(given.get("line"), f"{lead}line")
    label = _line(given.get("label"), f"{lead}label")
    dimension = _dimension(given.get("dimension"), f"{lead}dimension") or _named_by(ordered) or _named_by(label)
    mate = _mate(given, lead)
    lower, upper, source = _limits(given, mate, ordered, dimension, lead)
    hole = isinstance(mate, ShaftMate) or dimension in HOLES
    size = upper if upper is not None else lower
    uncertainty = parse_uncertainty(given, hole and size is not None and size < SMALL_HOLE, lead)
    lot = given.get("lot")
    return Receipt(
        measured,
        lower,
        upper,
        source,
        uncertainty,
        dimension,
        label,
        None if lot is None else _lot(lot, len(measured), f"{lead}lot"),
    )


def parse_uncertainty(given: Fields, small_hole: bool, lead: str = "") -> Uncertainty:
    """Return the uncertainty that is stated, else that of the instrument.

    Raises:
        CheckError: neither is given, the uncertainty is no length, or the instrument is not known.
    """
    stated = given.get("uncertainty")
    if stated is not None:
        value = signed_length(stated, f"{lead}uncertainty", "an expanded uncertainty (k = 2) [mm], 0 or more", "0.03")
        if value < 0:
            raise CheckError(f"{lead}uncertainty", stated, "an expanded uncertainty (k = 2) [mm], 0 or more", "0.03")
        return Uncertainty(value, "as given")
    name = given.get("instrument")
    accepted = "the expanded uncertainty [mm], or the instrument: calliper, micrometer, plug gauge, bore gauge"
    if name is None:
        raise CheckError(f"{lead}uncertainty", None, accepted, "0.03")
    try:
        found = workshop.instrument(str(name), "hole under 10 mm" if small_hole else "outside")
    except workshop.UnknownFigure as error:
        raise CheckError(f"{lead}instrument", name, str(error), "calliper") from None
    return Uncertainty(found.uncertainty, f"{found.name}, {found.feature}: {found.source}")


def _pieces(value: object, field: str) -> tuple[Decimal, ...]:
    values: Sequence[object] = [value]
    if isinstance(value, list | tuple):
        values = value
    elif isinstance(value, str) and _PLAIN_NUMBERS.fullmatch(value):
        values = value.replace(";", " ").split()
    if value is None or not 0 < len(values) <= MOST_PIECES:
        accepted = f"1 to {MOST_PIECES} measured values, in mm or with their unit"
        raise CheckError(field, value, accepted, "[4.99, 4.985]")
    return tuple(length(one, f"{field}[{place}]" if len(values) > 1 else field) for place, one in enumerate(values))


def _line(value: object, field: str) -> LineReading | None:
    if value is None:
        return None
    if not isinstance(value, str) or not value.strip() or len(value) > LONGEST_LINE:
        raise CheckError(field, value, f"text of 1 to {LONGEST_LINE} characters", "ISO 8734 - 5 x 20 - A - St")
    return read(value)


def _dimension(value: object, field: str) -> str | None:
    if value is None:
        return None
    if not isinstance(value, str) or not value.strip():
        raise CheckError(field, value, "the name of a dimension", "outer_diameter")
    return value.strip().lower().replace(" ", "_")


def _named_by(line: LineReading | None) -> str | None:
    """Return the dimension that a line's size is about, where its readings agree on that."""
    families = by_name()
    keys = {families[one.family].key for one in (line.readings if line else ()) if one.family in families}
    return keys.pop() if len(keys) == 1 else None


def _mate(given: Fields, lead: str) -> Mate | None:
    fields = [name for name in ("mate", *BY_FIELD) if name in given]
    if len(fields) > 1:
        raise CheckError(f"{lead}{fields[1]}", given[fields[1]], f"one mate; {fields[0]} is given already", fields[0])
    return parse_mate(fields[0], given[fields[0]]) if fields else None


def _limits(
    given: Fields, mate: Mate | None, ordered: LineReading | None, dimension: str | None, lead: str
) -> tuple[Decimal | None, Decimal | None, str]:
    if "limits" in given:
        return (*_stated(given["limits"], f"{lead}limits"), "as given")
    if mate is not None:
        return _needed(mate, given.get("fit"), lead)
    if ordered is not None:
        return _ordered(ordered, dimension, lead)
    raise CheckError(f"{lead}limits", None, "limits, or a bore with its fit, or the line ordered", _EXAMPLE_LIMITS)


def _stated(value: object, field: str) -> tuple[Decimal | None, Decimal | None]:
    if isinstance(value, Mapping) and set(value) <= {"lower", "upper"}:
        lower, upper = (
            None if value.get(name) is None else length(value[name], f"{field}.{name}") for name in ("lower", "upper")
        )
        if (lower is None and upper is None) or (lower is not None and upper is not None and lower > upper):
            raise CheckError(field, dict(value), "lower, upper or both, lower first", _EXAMPLE_LIMITS)
        return lower, upper
    try:
        size = diameter(value, "shaft", field).limits
    except CheckError:
        size = diameter(value, "hole", field).limits
    if size.lower is None and size.upper is None:
        raise CheckError(field, value, "limits, or a size with its tolerance class", "5 m6")
    return size.lower, size.upper


def _needed(mate: Mate, fit: object, lead: str) -> tuple[Decimal, Decimal, str]:
    """Return which sizes go with every mate within its limits: what the design itself asks of the part."""
    if not isinstance(mate, BoreMate | ShaftMate):
        raise CheckError(f"{lead}mate", mate.text, "a bore or a shaft: only they ask for a size", "bore=5 H7")
    if fit is None:
        raise CheckError(f"{lead}fit", None, "the fit: slip, location, press, a class pair or a window", "location")
    wanted: FitWanted = parse_fit(fit, mate)
    lower, upper, said = needed_by(mate, wanted)
    if lower > upper:
        width = mate.diameter.width
        raise CheckError(f"{lead}fit", fit, f"a window wider than the tolerance of the mate ({width} mm)", "slip")
    return lower, upper, said


def needed_by(mate: BoreMate | ShaftMate, wanted: FitWanted) -> tuple[Decimal, Decimal, str]:
    """Return which sizes go with every mate within its limits, and why; none does where the first is the larger."""
    size = mate.diameter
    if isinstance(mate, BoreMate):
        lower, upper = size.high - wanted.window.upper, size.low - wanted.window.lower
    else:
        lower, upper = size.high + wanted.window.lower, size.low + wanted.window.upper
    return lower, upper, f"goes with every {mate.text} as {wanted.wanted} ({wanted.from_text})"


def _ordered(ordered: LineReading, dimension: str | None, lead: str) -> tuple[Decimal | None, Decimal | None, str]:
    found: dict[tuple[Decimal, Decimal], str] = {}
    for reading in ordered.readings:
        size = reading.dimensions.get(dimension or "")
        if isinstance(size, Limits) and size.lower is not None and size.upper is not None:
            found[size.lower, size.upper] = f"{(dimension or '').replace('_', ' ')} of {reading.order_text}"
    if len(found) != 1 or len(ordered.readings) != 1:
        problem = "a line that is clear and fixes the limits of the dimension, or limits"
        raise CheckError(f"{lead}line", ordered.line, problem, "ISO 8734 - 5 x 20 - A - St")
    (lower, upper), said = next(iter(found.items()))
    return lower, upper, said


def _lot(value: object, measured: int, field: str) -> int:
    accepted = f"a whole number of pieces, at least the {measured} measured"
    text = str(value).strip()
    if isinstance(value, bool) or not text.isascii() or not text.isdigit() or not measured <= int(text) <= 10**9:
        raise CheckError(field, value, accepted, str(max(measured, 100)))
    return int(text)
