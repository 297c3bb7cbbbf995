"""Which standard part can these measured values be? Best first, and the one further measurement that would decide.

Every row of every family's table is held against the values; what passes is read as a line, so that a candidate is a
reading like any other. Where the table lists no lengths the nominal lengths of ISO 888 are taken; lengths, and
dimensions without limits in the tables, are given the grade IT15 (ISO 4759-1, product grade A; from memory).

>>> found = identify({"outer_diameter": "8.01", "length": "30.1", "internal_thread": "M5"}, Decimal("0.03"))
>>> found.candidates[0].reading.order_text
'Parallel pin ISO 8735 - 8 x 30 - A - St'
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import combinations

from reference import fits, threads
from reference.families import all_families, by_name
from reference.families.base import Family
from reference.quantities import Dimension, Limits, ThreadSize
from reference.sizes import THREAD_COLUMNS, Size
from service.reading import read
from service.reading.assemble import order_text
from service.reading.model import Because, Reading
from service.verdict.diameters import length
from service.verdict.model import CheckError
from service.verdict.order_text import preferred_lengths

FREE_GRADE = "IT15"
"""Tolerance grade of lengths and of dimensions whose limits no table holds."""

MOST_CANDIDATES = 100
"""Candidates that are shown; how many more there are is said."""
MOST_COMPARED = 8
"""Candidates among which the deciding measurement is sought."""

KEYS = (
    "outer_diameter",
    "length",
    "internal_thread",
    "thread",
    "bore",
    "pitch",
    "width",
    "height",
    "thickness",
    "across_flats",
    "head_diameter",
    "head_height",
    "shoulder_diameter",
    "hole_diameter",
    "cross_section",
    "wire_diameter",
    "small_end_diameter",
    "flange_diameter",
    "lead",
    "starts",
    "teeth",
    "pitch_length",
    "belt_width",
    "tube_diameter",
    "slot_width",
    "free_length",
    "hole_pitch",
    "shaft_size",
    "groove_diameter",
    "size_class",
)
"""Dimensions that can be measured, the easiest first."""

_COUNTS = frozenset({"teeth", "starts"})
_SEEN = ("internal_thread", "thread", "flange_diameter")
"""What is seen to be there or not without measuring: its absence tells parts apart as well."""

Value = Decimal | str


@dataclass(frozen=True, slots=True)
class Agreement:
    """One measured dimension beside the part's own [mm]; ``outside`` is how far it lies outside the limits."""

    dimension: str
    measured: Value
    lower: Decimal | None
    upper: Decimal | None
    outside: Decimal


@dataclass(frozen=True, slots=True)
class Candidate:
    """A standard part that the values can be; the smaller ``distance``, the better they agree."""

    reading: Reading
    agreement: tuple[Agreement, ...]
    distance: float
    source: str


@dataclass(frozen=True, slots=True)
class Decider:
    """The further measurement that separates most candidates, and what each would show."""

    dimension: str
    separates: int
    of_pairs: int
    text: str


@dataclass(frozen=True, slots=True)
class Identification:
    """Candidates, best first, and how many more there are; what would decide between them; how many were searched."""

    candidates: tuple[Candidate, ...]
    left_out: int
    decider: Decider | None
    searched: int
    uncertainty: Decimal
    tell_apart: str | None


def parse_measured(fields: Mapping[str, object], where: str = "measured") -> dict[str, Value]:
    """Return measured values by dimension: lengths [mm] as decimals, threads by their designation.

    Raises:
        CheckError: nothing was measured, or a dimension or a value is not understood.
    """
    found: dict[str, Value] = {}
    example = '{"outer_diameter": 8.01, "length": 30.1, "internal_thread": "M5"}'
    for name, value in fields.items():
        if value is None or value == "":
            continue
        if name not in KEYS:
            raise CheckError(f"{where}.{name}", value, f"the dimensions {', '.join(KEYS)}", "outer_diameter")
        thread = threads.parse(value) if name in THREAD_COLUMNS and isinstance(value, str) else None
        if thread is not None:
            found[name] = thread.designation
        elif name == "internal_thread":
            raise CheckError(f"{where}.{name}", value, "the designation of a thread", "M5")
        elif name == "size_class" and isinstance(value, str):
            found[name] = value.strip()
        else:
            found[name] = length(value, f"{where}.{name}")
    if not found:
        raise CheckError(where, dict(fields), "at least one measured dimension", example)
    return found


def identify(measured: Mapping[str, object], uncertainty: Decimal) -> Identification:
    """Return the standard parts that measured values can be, for an expanded uncertainty [mm].

    Raises:
        CheckError: a dimension or a value is not understood.
    """
    values = parse_measured(measured)
    searched = 0
    found: dict[tuple[object, ...], Candidate] = {}
    for family in all_families():
        if family.sizes is None:
            continue
        for row in family.sizes.rows:
            searched += 1
            for candidate in _candidates(family, row, values, uncertainty):
                key = _identity(candidate.reading)
                found[key] = _merged(found[key], candidate) if key in found else candidate
    every = sorted(found.values(), key=lambda one: (round(one.distance, 6), _rank(one)))
    ordered = every[:MOST_CANDIDATES]
    decider = _decider(ordered[:MOST_COMPARED], values, uncertainty)
    return Identification(
        tuple(ordered), len(every) - len(ordered), decider, searched, uncertainty, _tell_apart(ordered, decider)
    )


# --- one row against the values --------------------------------------------------------------------------------------


def _candidates(family: Family, row: Size, values: Mapping[str, Value], uncertainty: Decimal) -> Iterator[Candidate]:
    """Yield the row as a candidate where every value agrees with it; lengths first, which most rows do not decide."""
    dimensions = dict(row.dimensions)
    wanted = values.get("length")
    if isinstance(wanted, Decimal) and "length" not in dimensions:
        if "length" not in family.needs and not row.lengths:
            return
        lengths = row.lengths or preferred_lengths()
        dimensions["length"] = Limits(min(lengths, key=lambda one: abs(one - wanted)))
    if _agreement(dimensions, values, uncertainty) is None:
        return
    reading = _reading(family, row, dimensions)
    agreement = _agreement(reading.dimensions, values, uncertainty)
    if agreement is not None:
        said = tuple(
            Because(f"{one.dimension.replace('_', ' ')} {one.measured}", _said(one), row.source) for one in agreement
        )
        distance = sum(_distance(one, uncertainty) for one in agreement)
        yield Candidate(reading._replace(evidence="implied", because=said), agreement, distance, row.source)


def _agreement(
    dimensions: Mapping[str, Dimension], values: Mapping[str, Value], uncertainty: Decimal
) -> tuple[Agreement, ...] | None:
    """Return how each value agrees with the dimensions, or None where one cannot be the part's."""
    found: list[Agreement] = []
    for name, value in values.items():
        held = _held(name, dimensions, isinstance(value, str))
        if isinstance(value, str):
            designation = held.designation if isinstance(held, ThreadSize) else held
            if designation != value:
                return None
            found.append(Agreement(name, value, None, None, Decimal(0)))
            continue
        if not isinstance(held, Limits):
            return None
        lower, upper = bounds(name, held)
        outside = max(lower - value, value - upper, Decimal(0))
        if outside > (0 if name in _COUNTS else uncertainty):
            return None
        found.append(Agreement(name, value, lower, upper, outside))
    return tuple(found)


def _held(name: str, dimensions: Mapping[str, Dimension], designated: bool) -> Dimension | None:
    """Return the part's own dimension; a thread also has an outside diameter, a pitch, and inside a nut a bore."""
    held = dimensions.get(name)
    if held is not None or designated:
        return held
    thread = dimensions.get("thread")
    if name == "pitch":
        either = thread if isinstance(thread, ThreadSize) else dimensions.get("internal_thread")
        return Limits(either.pitch) if isinstance(either, ThreadSize) and either.pitch is not None else None
    try:
        if name == "outer_diameter" and isinstance(thread, ThreadSize):
            return threads.limits(thread, "2A" if thread.system == "unified" else "6g").major
        inner = dimensions.get("internal_thread")
        if name == "bore" and isinstance(inner, ThreadSize):
            return threads.limits(inner, "6H").minor
    except threads.ThreadError:
        return None
    return None


def bounds(name: str, size: Limits) -> tuple[Decimal, Decimal]:
    """Return the limits of a dimension [mm]; where no table holds them those of the free grade, for a count itself."""
    if size.lower is not None or size.upper is not None:
        return size.low, size.high
    if name in _COUNTS or name == "pitch" or not 0 < size.nominal <= fits.LARGEST:
        return size.nominal, size.nominal
    grade = FREE_GRADE if size.nominal > 1 else "IT13"
    half = fits.tolerance(grade, size.nominal) / 2
    return size.nominal - half, size.nominal + half


def _reading(family: Family, row: Size, dimensions: Mapping[str, Dimension]) -> Reading:
    """Return the row as a reading of its own designation; plain from the table where that is not read back."""
    standard = family.by_standard.get(row.standard)
    key = dimensions.get(family.key)
    attributes = {"standard": row.standard}
    if isinstance(key, Limits) and key.tolerance_class:
        attributes["tolerance_class"] = key.tolerance_class
    text = order_text((standard and standard.order) or family.order, dimensions, attributes)
    usual = next((one.name for one in family.standards if one.name in text), None)
    if row.standard not in text and standard is not None and usual is not None:
        text = f"{family.name.capitalize()} {row.standard}{text.partition(usual)[2]}"
    for reading in read(text).readings:
        if reading.family == family.name and all(
            _same(reading.dimensions.get(name), dimension) for name, dimension in dimensions.items()
        ):
            return reading._replace(standards=(row.standard,))
    return Reading(family.name, (row.standard,), family.size_names, "implied", dimensions, order_text=text)


def _same(read_back: Dimension | None, held: Dimension) -> bool:
    if isinstance(held, Limits):
        if not isinstance(read_back, Limits) or read_back.nominal != held.nominal:
            return False
        return held.lower is None or (read_back.lower, read_back.upper) == (held.lower, held.upper)
    return read_back == held


def _said(one: Agreement) -> str:
    if one.lower is None or one.upper is None:
        return "the part has the same"
    where = f"the part has {one.lower} to {one.upper}" if one.lower != one.upper else f"the part has {one.lower}"
    return f"{where}, {one.outside} outside, within the uncertainty" if one.outside else where


def _distance(one: Agreement, uncertainty: Decimal) -> float:
    """Return how far a value is from the middle of the part's limits, in units of tolerance and uncertainty."""
    if not isinstance(one.measured, Decimal) or one.lower is None or one.upper is None:
        return 0.0
    reach = float((one.upper - one.lower) / 2 + uncertainty) or 1.0
    return (float(one.measured - (one.lower + one.upper) / 2) / reach) ** 2


def _identity(reading: Reading) -> tuple[object, ...]:
    """Return what makes two standards one part: family and dimensions."""
    sizes = tuple(
        (name, one.nominal if isinstance(one, Limits) else getattr(one, "designation", str(one)))
        for name, one in sorted(reading.dimensions.items())
    )
    classes = tuple(one.tolerance_class for one in reading.dimensions.values() if isinstance(one, Limits))
    return reading.family, sizes, classes


def _merged(one: Candidate, other: Candidate) -> Candidate:
    """Return one candidate for two standards of the same part, ISO's name first."""
    names = dict.fromkeys((*one.reading.standards, *other.reading.standards))
    first = min((one, other), key=_rank)
    standards = tuple(sorted(names, key=lambda name: _usual(first.reading.family, name)))
    return Candidate(first.reading._replace(standards=standards), first.agreement, first.distance, first.source)


def _rank(one: Candidate) -> tuple[object, ...]:
    return *_usual(one.reading.family, one.reading.standards[0])[:1], one.reading.family, one.reading.order_text


def _usual(family: str, standard: str) -> tuple[int, bool, str]:
    """Return how usual a standard is for its family: by its place there, those not named last."""
    named = [one.name for one in by_name()[family].standards]
    return named.index(standard) if standard in named else len(named), not standard.startswith("ISO"), standard


# --- what would decide -----------------------------------------------------------------------------------------------


def _decider(found: Sequence[Candidate], values: Mapping[str, Value], uncertainty: Decimal) -> Decider | None:
    """Return the dimension that separates most pairs of candidates, the easiest to measure among equals."""
    pairs = list(combinations(range(len(found)), 2))
    best: Decider | None = None
    for name in (one for one in KEYS if one not in values):
        shown = [_held(name, one.reading.dimensions, False) for one in found]
        if all(one is None for one in shown):
            continue
        count = sum(_separate(name, shown[a], shown[b], uncertainty) for a, b in pairs)
        if count > (best.separates if best else 0):
            best = Decider(name, count, len(pairs), _told(name, shown, found))
    return best


def _told(name: str, shown: Sequence[Dimension | None], found: Sequence[Candidate]) -> str:
    """Say which value means which part."""
    parts: dict[str, list[str]] = {}
    for one, candidate in zip(shown, found, strict=True):
        parts.setdefault(_shown(name, one), []).append(candidate.reading.order_text)
    return f"{name.replace('_', ' ')}: " + "; ".join(
        f"{value} is {' or '.join(texts)}" for value, texts in parts.items()
    )


def _separate(name: str, one: Dimension | None, other: Dimension | None, uncertainty: Decimal) -> bool:
    """Tell whether a measurement with the uncertainty shows which of two dimensions it is."""
    if one is None or other is None:
        return name in _SEEN and (one is None) != (other is None)
    if isinstance(one, Limits) and isinstance(other, Limits):
        (low, high), (other_low, other_high) = bounds(name, one), bounds(name, other)
        return max(other_low - high, low - other_high) > (0 if name in _COUNTS else 2 * uncertainty)
    if isinstance(one, ThreadSize) and isinstance(other, ThreadSize):
        return one.designation != other.designation
    return isinstance(one, str) and isinstance(other, str) and one != other


def _shown(name: str, value: Dimension | None) -> str:
    if value is None:
        return "none" if name in _SEEN else "not stated"
    if isinstance(value, Limits):
        return f"{value.nominal}" if name in _COUNTS else f"{value.nominal} mm"
    return value.designation if isinstance(value, ThreadSize) else str(value)


def _tell_apart(found: Sequence[Candidate], decider: Decider | None) -> str | None:
    if len(found) < 2:
        return None
    if decider is None:
        return "No further dimension that the tables hold tells these apart with this uncertainty."
    if decider.separates == decider.of_pairs:
        return decider.text
    return f"{decider.text} (tells {decider.separates} of {decider.of_pairs} pairs apart)"
