"""What to measure on a bag before its parts are used: which dimension, within which limits, and with what.

The limits are those that the design itself asks for; where it asks for none, those of the part by its standard. Several
meanings of the line are told apart by measuring the dimension in which they differ.

>>> from service.verdict.mates import parse_check
>>> check = parse_check({"line": "M5 dowel pin", "bore": "5 H7", "fit": "location"})
>>> [(one.dimension, str(one.lower), str(one.upper), one.instrument) for one in to_measure(check.line, [[check]])]
[('outer_diameter', '5.001', '5.016', 'micrometer')]
"""

from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from reference import tables, threads
from reference.families import by_name
from reference.quantities import Limits, ThreadSize
from reference.units import tidy
from service.reading import read
from service.reading.model import LineReading, Reading
from service.receipts.intake import HOLES, SMALL_HOLE, needed_by
from service.receipts.model import Receipt
from service.strength.measuring import decide
from service.verdict.clamp import length_tolerance
from service.verdict.model import BoreMate, Check, ClampMate, ShaftMate, TappedHoleMate
from service.verdict.roles import BORE_KEY, OWN_HOLE

MOST = 3
"""Dimensions of one bag that are worth measuring; what the design asks for is never left out."""

QUARTER = 4
"""An instrument is enough where its uncertainty is a tolerance divided by this (common practice)."""

_FROM_WITHIN = HOLES | {"internal_thread"}


class ToMeasure(NamedTuple):
    """A dimension to measure [mm]: its limits, where they come from, and the instrument that is enough for it.

    A reading between the ends of ``zone`` proves a piece with that instrument, one on an end does not; None where none
    can.
    """

    dimension: str
    lower: Decimal | None
    upper: Decimal | None
    limits_from: str
    instrument: str
    uncertainty: Decimal
    zone: tuple[Decimal, Decimal] | None


def to_measure(line: str, wanted: Sequence[Sequence[Check]]) -> tuple[ToMeasure, ...]:
    """Return what to measure on the parts of a line that are wanted for some mates.

    Each entry holds the mates that one and the same part has to go with: its limits are those that suit them all.
    """
    found: dict[tuple[str, Decimal | None, Decimal | None], ToMeasure] = {}
    reading_of = read(line)
    by_design = [one for together in wanted for one in _by_design(reading_of, together)]
    # Where the design asks for a dimension, what the standard says of the same one is no second requirement.
    asked = {one.dimension for one in by_design}
    every = [check for together in wanted for check in together]
    by_standard = [one for one in _by_standard(reading_of, every) if one.dimension not in asked]
    for one in [*by_design, *by_standard]:
        found.setdefault((one.dimension, one.lower, one.upper), one)
    return tuple(list(found.values())[: max(MOST, len({one[:3] for one in by_design}))])


class Open(NamedTuple):
    """A dimension that is still to be proved, and whether it was measured at all."""

    asked: ToMeasure
    measured: bool


def not_proved(asked: Sequence[ToMeasure], receipts: Sequence[Receipt]) -> tuple[Open, ...]:
    """Return the dimensions of those asked for that the receipts of a bag do not prove, in the sequence of the sheet.

    The measured values count, held against what is asked for: limits that a receipt states itself prove nothing else.

    >>> from service.receipts.intake import parse_receipt
    >>> from service.verdict.mates import parse_check
    >>> asked = to_measure("608-2RS", [[parse_check({"line": "608-2RS", "shaft": "8 h6", "fit": "slip"})]])
    >>> bore = {"measured": [8.005], "dimension": "bore", "limits": {"lower": 8, "upper": 8.02}, "uncertainty": 0.002}
    >>> [(one.asked.dimension, one.measured) for one in not_proved(asked, [parse_receipt(bore)])]
    [('outer_diameter', False)]
    """
    found = []
    for one in asked:
        told = [receipt for receipt in receipts if _is_of(receipt, one, asked)]
        alike = [receipt for receipt in told if (receipt.lower, receipt.upper) == (one.lower, one.upper)]
        # Values for just these limits go before those that were picked for another mate of the same bag.
        proved = [decide(one.lower, one.upper, each.measured, each.uncertainty.value) for each in alike or told]
        if not proved or any(each.decision != "conforming" for each in proved):
            found.append(Open(one, bool(told)))
    return tuple(found)


def _is_of(receipt: Receipt, one: ToMeasure, asked: Sequence[ToMeasure]) -> bool:
    """Tell whether a receipt is of a dimension; one that names none is, where its limits or the bag leave no other."""
    if receipt.dimension is not None:
        return receipt.dimension == one.dimension
    if len({each.dimension for each in asked}) == 1:
        return True
    alike = {each.dimension for each in asked if (each.lower, each.upper) == (receipt.lower, receipt.upper)}
    return alike == {one.dimension}


def tells_apart(line: str) -> str:
    """Say which size each meaning of a line would show, empty where the line means one thing."""
    readings = read(line).readings
    if len(readings) < 2:
        return ""
    said = [f"{one.family}: {text}" for one in readings if (text := _size_of(one))]
    return "; ".join(said) if len(said) > 1 else ""


def _size_of(reading: Reading) -> str:
    """Return the sizes by which a reading is known in the hand."""
    sizes = []
    for name in ("outer_diameter", "bore", "thread", "internal_thread", "across_flats"):
        size = reading.dimensions.get(name)
        if isinstance(size, Limits):
            sizes.append(f"{name.replace('_', ' ')} {tidy(size.nominal)} mm")
        elif isinstance(size, ThreadSize):
            sizes.append(f"{name.replace('_', ' ')} {size.designation}")
    return ", ".join(sizes)


def _by_design(line: LineReading, together: Sequence[Check]) -> list[ToMeasure]:
    """Return what the mates of one part ask of it; of the same dimension, what suits them all."""
    limits: dict[str, tuple[Decimal, Decimal, str]] = {}
    for check in together:
        mate, fit = check.mate, check.fit
        families = dict.fromkeys(reading.family for reading in line.readings)
        if fit is None or not isinstance(mate, BoreMate | ShaftMate) or families.keys() & OWN_HOLE.keys():
            continue
        lower, upper, said = needed_by(mate, fit)
        if lower > upper:
            continue
        # Of several meanings the best supported one comes first.
        key = next((BORE_KEY.get(family, "outer_diameter") for family in families), "outer_diameter")
        dimension = "bore" if isinstance(mate, ShaftMate) else key
        if dimension in limits:
            low, high, before = limits[dimension]
            lower, upper, said = max(lower, low), min(upper, high), f"{before}, and {said}"
        limits[dimension] = lower, upper, said
    # Where no size suits them all, none can be asked for.
    return [
        _measured(dimension, tidy(lower), tidy(upper), said)
        for dimension, (lower, upper, said) in limits.items()
        if lower <= upper
    ]


def _by_standard(line: LineReading, wanted: Sequence[Check]) -> list[ToMeasure]:
    if len(line.readings) != 1:
        return []
    reading = line.readings[0]
    said = reading.order_text or reading.family
    family = by_name().get(reading.family)
    names = sorted(reading.dimensions, key=lambda name: family is not None and name != family.key)
    found = []
    for name in names:
        if name == "hole_diameter" and reading.family in OWN_HOLE:
            continue  # that is the hole in the design, nothing in the bag
        size = reading.dimensions[name]
        if isinstance(size, Limits) and size.lower is not None and size.upper is not None and size.lower < size.upper:
            found.append(_measured(name, size.lower, size.upper, f"{name.replace('_', ' ')} of {said}"))
    screwed = any(isinstance(check.mate, ClampMate | TappedHoleMate) for check in wanted)
    return [*_screw(reading, said), *found] if screwed else found


def _screw(reading: Reading, said: str) -> list[ToMeasure]:
    """Return what to measure on a screw: the crests of its thread, which tell its size, and its length."""
    found = []
    thread, length = reading.dimensions.get("thread"), reading.dimensions.get("length")
    if isinstance(thread, ThreadSize):
        try:
            crests = threads.limits(
                thread, thread.tolerance_class or ("2A" if thread.system == "unified" else "6g")
            ).major
        except threads.ThreadError:
            crests = Limits(thread.diameter)
        if crests.lower is not None and crests.upper is not None:
            found.append(_measured("thread", crests.lower, crests.upper, f"crests of the thread {thread.designation}"))
    if isinstance(length, Limits):
        tolerance = length_tolerance(length.nominal)
        low, high = tidy(length.nominal - tolerance), tidy(length.nominal + tolerance)
        found.append(_measured("length", low, high, f"length of {said}"))
    return found


def _measured(dimension: str, lower: Decimal, upper: Decimal, said: str) -> ToMeasure:
    hole = dimension in _FROM_WITHIN
    name, uncertainty = _instrument(upper - lower, hole, hole and upper < SMALL_HOLE)
    zone = (tidy(lower + uncertainty), tidy(upper - uncertainty))
    return ToMeasure(dimension, lower, upper, said, name, uncertainty, zone if zone[0] < zone[1] else None)


def _instrument(tolerance: Decimal, hole: bool, small: bool) -> tuple[str, Decimal]:
    """Return the plainest instrument whose uncertainty is a quarter of the tolerance at most, else the finest."""
    features = ("hole under 10 mm", "hole") if small else ("hole",) if hole else ("outside",)
    rows = [row for row in tables.load("instruments") if row.text("feature") in features]
    rows.sort(key=lambda row: row.decimal("uncertainty"), reverse=True)
    enough = [row for row in rows if row.decimal("uncertainty") * QUARTER <= tolerance]
    row = enough[0] if enough else rows[-1]
    return row.text("instrument"), row.decimal("uncertainty")
