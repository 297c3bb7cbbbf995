"""Judges whether a part bolts to holes that are there: pitch, position tolerance, clearance, and what the screw passes.

A screw into a thread is a fixed fastener, a bolt through two clearance holes a floating one (ASME Y14.5, ISO 5458);
``service.strength.position`` does the geometry. Where a position tolerance is not stated it is taken as 0.2 mm, which
is what medium clearance holes of ISO 273 allow each of two parts, and said.
"""

import math
import re
from collections.abc import Callable
from decimal import Decimal
from functools import cache, lru_cache
from typing import NamedTuple

from reference import clearance_holes, tables
from reference.quantities import Limits, ThreadSize
from reference.units import tidy
from service.reading.model import Reading
from service.strength import position
from service.strength.position import PatternFit, Point
from service.verdict.combine import worst
from service.verdict.diameters import MEASURE, between, diameter, length
from service.verdict.fields import Fields, at, known, required, thread
from service.verdict.model import CheckError, Finding, FitWanted, HolePatternMate, JudgedReading
from service.verdict.pairs import CHANCE, percent, to_four_decimals
from service.verdict.threads import match

USUAL_POSITION = Decimal("0.2")
"""Position tolerance of a pattern where none is stated, diameter of the zone [mm]; common practice."""

MOST_HOLES = 500
"""Holes of a pattern."""

_FORMS = (
    "number of holes x thread or diameter, at pitch (x pitch across for two rows) or on circle, "
    "then position tolerance; a diameter may say which screw it is for"
)
_EXAMPLE = "16 x M3 at 25 position 0.2, 4 x 3.4 for M3 at 31 x 31, or 4 x 3.5 on circle 16"
_PATTERN = re.compile(
    r"(?P<count>\d{1,4})\s*[x×]\s*(?P<hole>.+?)(?:\s+for\s+(?P<screw>.+?))?"
    r"\s+(?:at\s+(?P<pitch>.+?)(?:\s+[x×]\s+(?P<across>.+?))?|on\s+circle\s+(?P<circle>.+?))"
    rf"(?:\s+position\s+(?P<position>{MEASURE}))?",
    re.IGNORECASE,
)
_TAPPED_HOLE = re.compile(r"[A-Za-z]|\d+-\d|#|\d/\d+-\d")
"""How a thread begins, which a diameter does not."""

_SQUARE = frozenset({"motor", "fan"})
"""Families with four holes in a square."""

_TWO = frozenset({"bearing block", "shaft support"})
"""Families with two holes."""

PATTERNED = frozenset(
    {"guide rail", "guide carriage", "linear bearing block", "supported shaft", "lead screw nut", "screw support"}
    | _SQUARE
    | _TWO
)
"""Families that are bolted down by a pattern of holes."""

SOURCE = f"{position.SOURCE}; pitches as the line or its table gives them"


# --- requests --------------------------------------------------------------------------------------------------------


def from_text(text: str, field: str) -> HolePatternMate:
    """Return the pattern of a short form: ``16 x M3 at 25 position 0.2``, ``4 x 3.4 for M3 at 31 x 31``.

    Raises:
        CheckError: a part of it is not understood.
    """
    found = _PATTERN.fullmatch(text)
    if found is None:
        raise CheckError(field, text, _FORMS, _EXAMPLE)
    names = ("screw", "pitch", "across", "circle", "position")
    hole = "thread" if _TAPPED_HOLE.match(found["hole"]) else "hole"
    return from_fields({"count": int(found["count"]), hole: found["hole"], **{k: found[k] for k in names}}, field)


def from_fields(given: Fields, field: str) -> HolePatternMate:
    """Return the pattern of an object.

    ``count`` holes, each a ``thread`` or a clearance ``hole`` (for a ``screw``), at ``pitch`` and, in two rows,
    ``across``, or on a ``circle``; ``position`` is their position tolerance.

    Raises:
        CheckError: a part of it is missing, contradicts another, or is not understood.
    """
    known(given, ("count", "thread", "hole", "screw", "pitch", "across", "circle", "position"), field)
    count = _count(required(given, "count", field, "16"), at(field, "count"))
    sizes = {
        name: diameter(given[name], "hole", at(field, name)).limits
        for name in ("hole", "pitch", "across", "circle")
        if given.get(name) is not None
    }
    tapped, screw = (
        None if given.get(name) is None else thread(given[name], at(field, name)) for name in ("thread", "screw")
    )
    hole, pitch, across, circle = (sizes.get(name) for name in ("hole", "pitch", "across", "circle"))
    if (tapped is None) == (hole is None) or (screw is not None and hole is None):
        raise CheckError(field, dict(given), "thread, or hole and the screw that it is for", '"thread": "M3"')
    if (pitch is None) == (circle is None) or (across is not None and pitch is None):
        raise CheckError(field, dict(given), "pitch, pitch and across, or circle", '"pitch": 25')
    if across is not None and count % 2:
        raise CheckError(at(field, "count"), count, "an even number of holes, in two rows", "4")
    wanted = given.get("position")
    zone = None if wanted is None else length(wanted, at(field, "position"))
    made = f"{tapped.designation}" if tapped is not None else f"{between(hole)} mm" if hole is not None else ""
    where = " x ".join(between(size) for size in (pitch, across) if size is not None)
    where = f"at {where}" if circle is None else f"on a circle of {between(circle)}"
    text = f"{count} holes {made} {where} mm"
    return HolePatternMate(text, count, tapped, hole, screw, pitch, across, circle, zone)


def _count(value: object, field: str) -> int:
    number = int(value) if isinstance(value, str) and value.isdecimal() and len(value) < 5 else value
    if isinstance(number, bool) or not isinstance(number, int) or not 2 <= number <= MOST_HOLES:
        raise CheckError(field, value, f"a number of holes from 2 to {MOST_HOLES}", "16")
    return number


# --- the part's own holes --------------------------------------------------------------------------------------------


class PartHoles(NamedTuple):
    """The holes of a part: where they are [mm], and what they are; ``most`` is how many it has at most."""

    pitch: Decimal | None
    across: Decimal | None
    circle: Decimal | None
    most: int | None
    thread: ThreadSize | None
    hole: Limits | None
    screw: ThreadSize | None
    assumed: str = ""


def part_holes(reading: Reading) -> PartHoles | None:
    """Return the pattern of holes that a part has, by the line or by its table; None where none is known."""
    dimensions, family = reading.dimensions, reading.family

    def size(*keys: str) -> Decimal | None:
        found = (dimensions.get(key) for key in keys)
        return next((one.nominal for one in found if isinstance(one, Limits)), None)

    def thread_of(key: str) -> ThreadSize | None:
        found = dimensions.get(key)
        return found if isinstance(found, ThreadSize) else None

    circle = size("bolt_circle")
    pitch = size("hole_spacing_along", "hole_pitch", "hole_spacing")
    if pitch is None and circle is None:
        return None
    across = size("hole_spacing_across") or (pitch if family in _SQUARE else None)
    if across is None and size("hole_pitch") is not None:
        across = size("hole_spacing")
    screw = thread_of("screw_size")
    tapped = thread_of("internal_thread")
    if tapped is None and family == "motor" and dimensions.get("size_class") in _tapped_faces():
        tapped, screw = screw, None
    bored = dimensions.get("hole_diameter")
    hole, assumed = (bored, "") if isinstance(bored, Limits) else _hole_for(None if tapped else screw)
    if circle is not None:
        holes = size("holes")
        return PartHoles(None, None, circle, None if holes is None else int(holes), tapped, hole, screw, assumed)
    most = 2 if family in _TWO else 4 if across is not None and size("hole_pitch") is None else None
    long = size("length")
    if most is None and long is not None and pitch is not None and family not in _SQUARE:
        in_row = math.floor((long - 2 * (hole.nominal if hole else Decimal(0))) / pitch) + 1
        most = in_row * (1 if across is None else 2)
    return PartHoles(pitch, across, None, 4 if family in _SQUARE else most, tapped, hole, screw, assumed)


@cache
def _tapped_faces() -> frozenset[str]:
    return frozenset(row.text("size_class") for row in tables.load("motor") if row.text("thread_in_face") == "yes")


def _hole_for(screw: ThreadSize | None) -> tuple[Limits | None, str]:
    """Return the medium clearance hole for a screw where a part's own is not known."""
    try:
        found = None if screw is None else clearance_holes.clearance_hole(screw.diameter, "medium")
    except clearance_holes.UnknownHole:
        found = None
    if found is None or screw is None:
        return None, ""
    hole = Limits(found.nominal)
    return hole, f"its holes taken as {found.nominal} mm, medium for {screw.designation} (ISO 273)"


# --- judging ---------------------------------------------------------------------------------------------------------


def judge(reading: Reading, mate: HolePatternMate, fit: FitWanted | None) -> JudgedReading:
    """Judge whether the part bolts to the holes, for every part and every hole within its tolerance."""
    holes = part_holes(reading)
    if holes is None:
        if reading.family in PATTERNED:
            text = f"neither the line nor a table says where the holes of the {reading.family} are"
            finding = Finding("dimension-missing", "open", text, {}, "the line")
        else:
            text = f"a {reading.family} is not bolted down by a pattern of holes"
            finding = Finding("wrong-kind", "wrong", text, {}, "common practice")
        return JudgedReading(reading, worst((finding,)), None, (finding,))
    findings, share = _judged(holes, reading.family, mate)
    verdict = worst(findings)
    return JudgedReading(reading, verdict, None, findings, share if verdict in ("fits", "marginal") else None)


@lru_cache(maxsize=2048)
def _judged(part: PartHoles, family: str, mate: HolePatternMate) -> tuple[tuple[Finding, ...], Decimal | None]:
    """Judge a part's holes against the mate's: number, screw, place."""
    if part.most is not None and part.most < mate.count:
        text = f"the {family} has {part.most} holes at most, {mate.count} are wanted"
        return (Finding("too-few-holes", "wrong", text, {"holes": Decimal(part.most)}, "as stated"),), None
    screw = _screw(part, family, mate)
    if isinstance(screw, Finding):
        return (screw,), None
    passes, hole, other = _passes(part, family, mate, screw)
    if passes.weight in ("wrong", "open"):
        return (passes,), None
    assert hole is not None  # noqa: S101 - a screw that passes has a hole to pass
    place, share = _place(part, family, mate, screw, hole, other)
    return (passes, place), share


def _screw(part: PartHoles, family: str, mate: HolePatternMate) -> ThreadSize | Finding:
    """Return the screw that joins the two, or what keeps it from doing so."""
    if mate.thread is not None and part.thread is not None:
        text = f"the holes of the {family} are tapped {part.thread.designation} and so are those of the design"
        return Finding("both-tapped", "wrong", text, {}, "common practice")
    if part.thread is not None and mate.screw is not None:
        matched = match(mate.screw, part.thread, f"the thread of the {family}")
        if matched.weight == "wrong":
            return matched
    screw = mate.thread or part.thread or mate.screw or part.screw
    if screw is not None:
        return screw
    text = "which screw goes through the holes is not stated"
    return Finding("screw-not-stated", "open", text, {}, "the check")


def _passes(
    part: PartHoles, family: str, mate: HolePatternMate, screw: ThreadSize
) -> tuple[Finding, Limits | None, Limits | None]:
    """Judge whether the screw passes; return the clearance hole that decides, and the other of a floating joint."""
    holes = [hole for hole in (None if part.thread else part.hole, mate.hole) if hole is not None]
    if part.thread is None and part.hole is None:
        text = f"the size of the holes of the {family} is not stated"
        return Finding("hole-not-stated", "open", text, {}, "the line"), None, None
    numbers: dict[str, Decimal | str] = {"screw": screw.designation, "hole": min(hole.low for hole in holes)}
    text = f"{screw.designation} through {' and '.join(f'{between(hole)} mm' for hole in holes)}"
    if any(hole.low <= screw.diameter for hole in holes):
        return Finding("screw-does-not-pass", "wrong", f"{text}: it does not pass", numbers, "ISO 273"), None, None
    if part.screw is not None and part.screw.diameter != screw.diameter:
        text += f"; the {family} is made for {part.screw.designation}: see that the head bears and has room"
    floating = holes[1] if len(holes) == 2 else None
    return Finding("screw-passes", "fits", f"{text}: it passes", numbers, "ISO 273"), holes[0], floating


def _place(
    part: PartHoles, family: str, mate: HolePatternMate, screw: ThreadSize, hole: Limits, other: Limits | None
) -> tuple[Finding, Decimal | None]:
    """Judge the places of the holes, at both ends of what the mate's pitch may be."""
    clear_position = USUAL_POSITION
    wanted = mate.position or USUAL_POSITION
    fits: list[PatternFit] = []
    for mates in _points(mate):
        candidates = _points_of(part, mate)
        if not candidates:
            text = f"the holes of the {family} and of the design do not lie alike: {_where(part)}, {mate.text}"
            return Finding("pattern-differs", "wrong", text, {}, SOURCE), None
        fits.append(
            min(
                (
                    position.pattern_fit(
                        own,
                        mates,
                        float(hole.low),
                        float(screw.diameter),
                        "fixed" if other is None else "floating",
                        None if other is None else float(other.low),
                        float(clear_position),
                        float(wanted),
                    )
                    for own in candidates
                ),
                key=lambda fit: fit.offset,
            )
        )
    return _told(fits, part, family, mate)


def _told(
    fits: list[PatternFit], part: PartHoles, family: str, mate: HolePatternMate
) -> tuple[Finding, Decimal | None]:
    """Put the comparisons of all ends into one finding."""
    far = max(fits, key=lambda fit: fit.offset)
    share = to_four_decimals(sum(fit.share for fit in fits) / len(fits))
    numbers: dict[str, Decimal | str] = {
        "offset": _figure(far.offset),
        "allowed": _figure(far.allowed),
        "allowed_worst": _figure(max(far.allowed_worst, 0.0)),
        "share": share,
    }
    rule = "floating" if mate.thread is None and part.thread is None else "fixed"
    zone = f"{mate.position} mm" if mate.position else f"{USUAL_POSITION} mm, assumed too,"
    off = f"hole {far.worst_pair + 1} is off by {numbers['offset']} mm at best" if numbers["offset"] else "all line up"
    text = (
        f"{_where(part)} of the {family} on {mate.text}: {off}, the clearance allows {numbers['allowed']} mm,"
        f" {numbers['allowed_worst']} mm with both position tolerances used ({USUAL_POSITION} mm of the part, assumed,"
        f" and {zone} of the design; {rule} fasteners{'; ' + part.assumed if part.assumed else ''})"
    )
    if all(fit.always_fits for fit in fits):
        return Finding("pattern-bolts-up", "fits", f"{text}: it bolts up", numbers, SOURCE), Decimal(1)
    if not any(fit.fits for fit in fits):
        return Finding("pattern-differs", "wrong", f"{text}: it does not bolt up", numbers, SOURCE), None
    text += f": {percent(share)} bolt up ({CHANCE})"
    return Finding("some-do-not-bolt-up", "marginal", text, numbers, SOURCE), share


def _points(mate: HolePatternMate) -> list[tuple[Point, ...]]:
    """Return the places of the mate's holes, at each end of its sizes."""
    sizes = (mate.pitch, mate.across, mate.circle)

    def laid(end: Callable[[Limits], Decimal]) -> tuple[Point, ...]:
        return _laid_out(mate.count, *(None if size is None else end(size) for size in sizes))

    ends = (laid(lambda size: size.low), laid(lambda size: size.nominal), laid(lambda size: size.high))
    return list(dict.fromkeys(ends))


def _points_of(part: PartHoles, mate: HolePatternMate) -> list[tuple[Point, ...]]:
    """Return the places of as many holes of the part, in every way in which they can be laid on the mate's."""
    half = Decimal(2).sqrt()
    if mate.circle is not None:
        circle = part.circle
        if circle is None and mate.count == 4 and part.pitch is not None and part.pitch == part.across:
            circle = part.pitch * half
        return [] if circle is None else [_laid_out(mate.count, None, None, circle)]
    pitch, across = part.pitch, part.across
    if part.circle is not None:
        if mate.count != 4 or mate.across is None:
            return []
        pitch = across = part.circle / half
    if pitch is None:
        return []
    if mate.across is None:
        # Two holes of a part with two rows may lie along them or across; more of them only along.
        ways = (pitch, across) if mate.count == 2 else (pitch,)
        return [_laid_out(mate.count, one, None, None) for one in dict.fromkeys(ways) if one is not None]
    if across is None:
        return []
    turned = [(pitch, across), (across, pitch)] if mate.count == 4 else [(pitch, across)]
    return [_laid_out(mate.count, *way, None) for way in dict.fromkeys(turned)]


def _laid_out(count: int, pitch: Decimal | None, across: Decimal | None, circle: Decimal | None) -> tuple[Point, ...]:
    if circle is not None:
        return position.circle(float(circle), count)
    assert pitch is not None  # noqa: S101 - a pattern has a pitch or a circle
    if across is None:
        return position.row(float(pitch), count)
    return position.grid(float(pitch), count // 2, float(across), 2)


def _where(part: PartHoles) -> str:
    if part.circle is not None:
        return f"holes on a circle of {part.circle} mm"
    return f"holes at {' x '.join(str(size) for size in (part.pitch, part.across) if size is not None)} mm"


def _figure(value: float) -> Decimal:
    return tidy(Decimal(f"{value:.3f}"))
