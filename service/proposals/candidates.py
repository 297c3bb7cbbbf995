"""Which parts to try for a kind of mate, in the order in which they are usually wanted.

A row of a table is tried where a first look at its sizes does not rule it out; parts that no table lists size by size
(belts, magnets, ratings) are tried in the steps in which they are sold.
"""

import math
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal
from functools import cache
from itertools import islice, product

from reference import belts, tables
from reference.families import by_name
from reference.families.base import Family
from reference.quantities import Dimension, Limits, ThreadSize
from reference.sizes import Size, dimension_value
from reference.units import tidy
from service.proposals.designation import designation, read_again
from service.proposals.model import Trial, Wanted
from service.reading.assemble import order_text
from service.reading.model import Reading
from service.verdict import clamp
from service.verdict.hole_pattern import PATTERNED
from service.verdict.kinds import JUDGE
from service.verdict.model import (
    BeltPathMate,
    BoreMate,
    ClampMate,
    GrooveMate,
    HolePatternMate,
    Mate,
    NutEnd,
    PocketMate,
    RatingMate,
    ShaftMate,
    TappedHoleMate,
)
from service.verdict.order_text import preferred_lengths
from service.verdict.roles import FOR_A_BORE, FOR_A_SHAFT, HEADED

SCREWS = (
    "socket head cap screw",
    "hex head screw (threaded to the head)",
    "button head screw",
    "countersunk screw",
    "low head cap screw",
    "hex head bolt",
    "pan head screw",
    "cheese head screw",
    "knurled screw",
    "wing screw",
)
PINS = ("parallel pin", "parallel pin with internal thread")
ROLLING = ("ball bearing", "flanged ball bearing", "needle roller bearing", "angular contact ball bearing")
GRIPPING = ("slotted spring pin", "coiled spring pin", "grooved pin")
INSERTS = ("heat-set insert", "press-in insert", "wire thread insert", "rivet nut")
PLAIN = ("plain bush", "flanged bush", "linear ball bearing")

FAMILIES: Mapping[type[Mate], tuple[str, ...]] = {
    BoreMate: (*PINS, *GRIPPING, "shoulder screw", *ROLLING, *PLAIN, *FOR_A_BORE, *SCREWS[:2], *INSERTS, "split pin"),
    ShaftMate: (*ROLLING, *PLAIN, *FOR_A_SHAFT),
    TappedHoleMate: (*SCREWS, "set screw", "stud", "threaded rod"),
    ClampMate: tuple(name for name in SCREWS if name in HEADED),
    GrooveMate: ("external retaining ring", "internal retaining ring", "E-ring", "O-ring"),
    PocketMate: ("magnet",),
    HolePatternMate: tuple(sorted(PATTERNED)),
    BeltPathMate: ("timing belt",),
    RatingMate: ("storage module", "power supply", "fuse"),
}
"""Kind of mate -> families to try, the usual ones first; common practice."""

SERIES = tuple(map(re.compile, (r"60\d", r"62\d", r"63\d", r"68\d", r"69\d", r"LM\d+UU$", r"HK\d")))
"""Series of bearings, the one most often in stock first; common practice."""

NOT_ALIKE = frozenset({"DIN 960", "DIN 961", "ISO 8676", "ISO 8765", "ISO 8673", "ISO 8674", "ISO 4016", "ISO 4018"})
"""Standards of fine threads and of product grade C, which share a table with others and are no substitutes."""

BY_CATALOGUE = frozenset({"plain bush", "flanged bush", "O-ring"})
"""Families whose usual order text leaves the standard out or is not by the size that it has in its table."""

WITHOUT_A_FIT = frozenset({*FOR_A_BORE, *FOR_A_SHAFT, *INSERTS, *SCREWS, "split pin"})
"""Families that do not locate: not tried where a fit is wanted."""

INCH_LENGTHS = tuple(Decimal("3.175") * eighths for eighths in (*range(2, 17), *range(18, 33, 2), *range(36, 65, 4)))
"""Lengths of inch screws [mm]: by eighths to 2 in, by quarters to 4 in, by halves to 8 in; common practice."""

_HOPE = ("fits", "open", "marginal")
"""Verdicts of a first look by which a row is tried, the most hopeful first."""

MOST_ROWS = 60
"""Rows of one family that are tried."""


def trials(wanted: Wanted) -> Iterator[Trial]:
    """Yield the parts to try, the usual ones first."""
    kind = type(wanted.mate)
    names = FAMILIES.get(kind, ()) if wanted.family is None else (wanted.family,)
    special = _SPECIAL.get(kind)
    for name in names:
        family = by_name().get(name)
        if family is None:
            continue
        if special is not None:
            yield from special(family, wanted)
        else:
            yield from _rows(family, wanted)
        yield from _inch_screws(family, wanted)


def _order(family: Family, row: Size) -> tuple[int, int]:
    """Return how usual a row is: by its standard's place in the family, for ball bearings by their series."""
    named = [one.name for one in family.standards]
    place = named.index(row.standard) if row.standard in named else len(named)
    series = next((index for index, series in enumerate(SERIES) if series.match(row.size)), len(SERIES))
    return (series if family.key == "catalogue_number" else place, place)


# --- rows of a table -------------------------------------------------------------------------------------------------


def _rows(family: Family, wanted: Wanted) -> Iterator[Trial]:
    """Yield the rows of a family's table that are not plainly wrong."""
    if family.sizes is None:
        return
    judge, mate = JUDGE[type(wanted.mate)], wanted.mate
    if wanted.fit is not None and family.name in WITHOUT_A_FIT:
        return
    found: list[tuple[Size, Mapping[str, Dimension], bool, int]] = []
    for row in family.sizes.rows:
        dimensions, rare = _with_length(family, row, wanted)
        looked = Reading(family.name, (row.standard,), family.size_names, "stated", dimensions)
        verdict = judge(looked, mate, wanted.fit).verdict
        if verdict != "wrong":
            found.append((row, dimensions, rare, _HOPE.index(verdict)))
    found.sort(key=lambda one: (one[2], one[3], _order(family, one[0])))
    for row, dimensions, rare, _ in islice(found, MOST_ROWS):
        says = f"lengths listed: {_listed(row.lengths)} mm" if row.lengths else ""
        yield from _by_standards(family, row, dimensions, wanted, rare, says)


def _listed(lengths: Sequence[Decimal]) -> str:
    """Return the lengths that exist in few words."""
    return f"{lengths[0]} to {lengths[-1]}" if len(lengths) > 4 else ", ".join(map(str, lengths))


def _with_length(family: Family, row: Size, wanted: Wanted) -> tuple[Mapping[str, Dimension], bool]:
    """Return the dimensions of a row with a length, where it has one to choose, and whether that length is rare."""
    if "length" in row.dimensions or "length" not in family.needs:
        return row.dimensions, False
    length = wanted.length or _usual_length(family, row, wanted.mate)
    if length is None and family.name in BY_CATALOGUE and row.lengths:
        length = row.lengths[len(row.lengths) // 2]
    if length is None:
        return row.dimensions, False
    # Rails are cut to any length.
    rare = length not in (row.lengths or preferred_lengths()) and not isinstance(wanted.mate, HolePatternMate)
    return {**row.dimensions, "length": Limits(length)}, rare


def _usual_length(family: Family, row: Size, mate: Mate) -> Decimal | None:
    """Return the length that the mate asks for: of a pin as deep as its bore, of a set screw within its thread."""
    depth = getattr(mate, "depth", None)
    if isinstance(mate, HolePatternMate):
        return _rail_length(row, mate)
    if not isinstance(depth, Decimal) or family.name in HEADED:
        return None
    lengths = row.lengths or preferred_lengths()
    if family.name == "set screw":
        return max((one for one in lengths if one <= depth), default=None)
    return min((one for one in lengths if one >= depth), default=None)


def _rail_length(row: Size, mate: HolePatternMate) -> Decimal | None:
    """Return the length of rail that holds all holes of a pattern."""
    pitch, end = row.dimensions.get("hole_pitch"), row.dimensions.get("end_distance")
    if not isinstance(pitch, Limits):
        return None
    rows = 1 if mate.across is None else 2
    ends = end.nominal if isinstance(end, Limits) else pitch.nominal / 2
    return tidy((mate.count // rows - 1) * pitch.nominal + 2 * ends)


def _by_standards(
    family: Family, row: Size, dimensions: Mapping[str, Dimension], wanted: Wanted, rare: bool, says: str = ""
) -> Iterator[Trial]:
    """Yield a part by the standard of its row and by those that are the same part."""
    key = dimension_value(dimensions.get(family.key))
    length = dimension_value(dimensions.get("length"))
    group = (family.name, str(key or row.size), str(length or ""))
    named = any(one.name in family.order for one in family.standards)
    if row.standard == "practice" and named:
        return  # its order text would name a standard that does not hold it
    attributes = {} if wanted.material is None else {"material": wanted.material}
    equivalents = [one.name for one in family.standards if one.rows == row.standard and one.name not in NOT_ALIKE]
    for name in dict.fromkeys((row.standard, *equivalents)):
        text = designation(family, row, dimensions, attributes, name)
        yield Trial(family.name, name, (text, *_plainly(family, row, dimensions, name)), group, rare, says, row.source)


def _plainly(family: Family, row: Size, dimensions: Mapping[str, Dimension], name: str) -> tuple[str, ...]:
    """Return other texts for a row of a catalogue: all sizes, or family, standard and size."""
    if family.key == "catalogue_number":
        return (order_text(family.order, dimensions, {}),)
    if family.name not in BY_CATALOGUE:
        return ()
    length = dimensions.get("length")
    long = f" x {length.nominal}" if isinstance(length, Limits) and "length" not in row.dimensions else ""
    standard = "" if name == "practice" else f"{name} - "
    size = row.size.replace("x", " x ")
    return f"{family.name} {standard}{size}{long}", f"{family.name} {standard.removesuffix('- ').strip()}-{size}"


# --- screws for a stack ----------------------------------------------------------------------------------------------


def _clamped(family: Family, wanted: Wanted) -> Iterator[Trial]:
    """Yield the screws of a family in the length that clamps the stack best: a listed one before a rare one."""
    mate = wanted.mate
    if family.sizes is None or not isinstance(mate, ClampMate):
        return
    thread = mate.into.thread
    rows = [row for row in family.sizes.rows if dimension_value(row.dimensions.get("thread")) == thread.designation]
    for row in sorted(rows, key=lambda row: _order(family, row)):
        attributes = {} if wanted.material is None else {"material": wanted.material}
        ordered = read_again(designation(family, row, row.dimensions, attributes), family.name)
        if ordered is None or not isinstance(ordered.reading.dimensions.get("thread"), ThreadSize):
            continue
        length = _clamping_length(clamp.screw_of(ordered.reading, thread), row.lengths, mate, wanted.length)
        if length is None:
            continue
        rare = bool(row.lengths) and length not in row.lengths
        says = f"{row.standard} lists {_listed(row.lengths)} mm for {thread.designation}" if row.lengths else ""
        yield from _by_standards(family, row, {**row.dimensions, "length": Limits(length)}, wanted, rare, says)


def _clamping_length(
    screw: clamp.Screw, listed: Sequence[Decimal], mate: ClampMate, wanted: Decimal | None
) -> Decimal | None:
    """Return the length that fits: the longest that does not bottom in a tapped hole, the shortest through a nut."""
    most = 2 * mate.grip + 10 * screw.thread.diameter
    others = [length for length in preferred_lengths() if length not in listed]
    for lengths in ([wanted],) if wanted is not None else (listed, others):
        fitting = [
            length
            for length in lengths
            if mate.grip < length <= most and clamp.assess(screw, length, mate).verdict == "fits"
        ]
        if fitting:
            return min(fitting) if isinstance(mate.into, NutEnd) else max(fitting)
    return None


def _inch_screws(family: Family, wanted: Wanted) -> Iterator[Trial]:
    """Yield screws with a unified thread, which no table lists size by size, in the lengths of the inch series."""
    mate = wanted.mate
    into = mate.into if isinstance(mate, ClampMate) else mate
    if not isinstance(into, TappedHoleMate | NutEnd) or into.thread.system != "unified" or not family.inch_order:
        return
    lengths = [wanted.length] if wanted.length is not None else [None]
    if isinstance(mate, ClampMate) and wanted.length is None:
        lengths = [one for one in INCH_LENGTHS if mate.grip < one <= 2 * mate.grip + 10 * into.thread.diameter]
        if not isinstance(into, NutEnd):
            lengths.reverse()
    for length in lengths:
        dimensions: dict[str, Dimension] = {"thread": into.thread}
        if length is not None:
            dimensions["length"] = Limits(length)
        text = order_text(family.inch_order, dimensions, {}, inches=True)
        group = (family.name, into.thread.designation, family.inch_standard)
        says = "the inch series; which lengths are in stock is the seller's to say"
        yield Trial(family.name, family.inch_standard, (text,), group, False, says, family.inch_standard)


# --- parts that no table lists size by size --------------------------------------------------------------------------


def _belts(family: Family, wanted: Wanted) -> Iterator[Trial]:
    """Yield belts of whole teeth: closed ones about the middle of the adjustment, open ones by the decimetre."""
    mate = wanted.mate
    assert isinstance(mate, BeltPathMate)  # noqa: S101 - registered for it
    profile = belts.profile_of(mate.profile)
    if profile is None:
        return
    width = mate.belt_width or next(iter(profile.widths), None)
    if width is None:
        return
    if mate.clamp_teeth is not None:
        on_path = math.ceil(round(mate.path.nominal / mate.pitch, 9))
        needed = (on_path + 2 * mate.clamp_teeth) * mate.pitch
        length = wanted.length or tidy(Decimal(math.ceil(needed / 100) * 100))
        text = f"Timing belt {profile.name}, open, width {width} mm, length {length} mm"
        yield Trial(family.name, profile.standard, (text,), (family.name, str(length)), source=profile.source)
        return
    middle = (mate.path.low + mate.path.high) / 2 / mate.pitch
    low, high = math.ceil(mate.path.low / mate.pitch), math.floor(mate.path.high / mate.pitch)
    counts = sorted(range(low, high + 1), key=lambda teeth: (teeth % 5 != 0, abs(teeth - middle)))
    for teeth in counts[:8]:
        length = tidy(teeth * mate.pitch)
        if wanted.length not in (None, length):
            continue
        text = f"Timing belt {profile.name}, closed, width {width} mm, pitch length {length} mm"
        says = f"{teeth} teeth; which lengths are in stock is the maker's to say"
        yield Trial(family.name, profile.standard, (text,), (family.name, str(length)), False, says, profile.source)


def _magnets(family: Family, wanted: Wanted) -> Iterator[Trial]:
    """Yield round magnets in whole and half millimetres, as they are sold."""
    mate = wanted.mate
    assert isinstance(mate, PocketMate)  # noqa: S101 - registered for it
    if mate.diameter is None or family.name != "magnet":
        return
    half = Decimal("0.5")
    across = [Decimal(math.floor(mate.diameter.low / half)) * half - step * half for step in range(3)]
    deep = [Decimal(1), *map(Decimal, range(2, 21))] if mate.depth is None else [Decimal(math.floor(mate.depth.low))]
    sizes = sorted(product(across, deep[:3]), key=lambda size: (size[0] % 1 != 0, -size[0]))
    for diameter, thickness in sizes:
        if diameter > 0 and thickness > 0:
            text = f"Magnet disc, diameter {tidy(diameter)} x {thickness}, N35"
            group = (family.name, str(diameter), str(thickness))
            says = "magnets are sold in whole and half millimetres"
            yield Trial(family.name, "", (text,), group, diameter % 1 != 0, says, "common practice")


@cache
def _usual_ratings() -> Mapping[str, tuple[str, tuple[str, ...], tuple[tuple[str, ...], ...], str]]:
    found = {}
    for row in tables.load("usual_ratings"):
        values = tuple(tuple(part.split("|")) for part in row.text("values").split(";"))
        found[row.text("family")] = (row.text("order"), tuple(row.text("quantities").split("|")), values, row.source)
    return found


def _rated(family: Family, wanted: Wanted) -> Iterator[Trial]:
    """Yield the ratings in which parts are sold, from the smallest on."""
    assert isinstance(wanted.mate, RatingMate)  # noqa: S101 - registered for it
    usual = _usual_ratings().get(family.name)
    if usual is None or not {one.name for one in wanted.mate.needed} <= set(usual[1]):
        return
    order, names, values, source = usual
    for chosen in product(*values):
        text = order.format(**dict(zip(names, chosen, strict=True)))
        yield Trial(family.name, "", (text,), (family.name, *chosen), False, "a usual rating", source)


_SPECIAL: Mapping[type[Mate], Callable[[Family, Wanted], Iterator[Trial]]] = {
    ClampMate: _clamped,
    BeltPathMate: _belts,
    PocketMate: _magnets,
    RatingMate: _rated,
}
