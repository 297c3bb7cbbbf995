"""Judges a screw that clamps a stack of parts into a tapped hole or a nut: length, engagement, bottoming, protrusion.

Lengths count under the head, of countersunk screws over all; a length varies by js15 (js17 above 150 mm), the
product grade A of ISO 4759-1, and every part within that must clamp before it bottoms. Thicknesses given with their
tolerances add to that, at worst and by root sum square (``service.strength.stacks``).
"""

import math
import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from reference import fits
from reference.quantities import Limits, ThreadSize
from reference.sizes import size_table
from reference.units import tidy
from service.reading.model import Reading
from service.strength.stacks import Link, stack
from service.verdict import tapped_hole
from service.verdict.combine import worst
from service.verdict.diameters import MEASURE, between, diameter, length
from service.verdict.fields import Fields, at, known, one_line, required, thread
from service.verdict.holding import judge_engagement, property_class
from service.verdict.model import (
    CheckError,
    ClampMate,
    Finding,
    FitWanted,
    JudgedReading,
    NutEnd,
    ReadingVerdict,
    TappedHoleMate,
)
from service.verdict.pairs import CHANCE, percent, share_between
from service.verdict.roles import HEADED, LENGTH_OVER_ALL
from service.verdict.threads import match

GEOMETRY = "length minus what is clamped"
LENGTHS = "ISO 4759-1 product grade A (js15, js17 over 150 mm)"
_LEAST_OUT, _MOST_OUT = 2, 10
"""Pitches that stand out of a nut by nominal length, one of a lock nut (IFI bulletin 2007; NSTM 075)."""


MOST_LAYERS = 50
"""Parts of a clamped stack."""

_FORMS = "thicknesses from the head on (10, 10 ±0.1, washer), then what the screw goes into: a tapped hole, or a nut"
_EXAMPLE = "10+12+20 into M4 depth 10 in aluminium, or 20+washer into nut M5"
_INTO = re.compile(r"(?P<stack>.+?)\s+into\s+(?P<end>.+)", re.IGNORECASE)
_NUT = re.compile(
    rf"(?P<type>lock\s+|thin\s+)?nut\s+(?P<thread>\S+(?:\s+UN[A-Z]*)?)(?:\s+height\s+(?P<height>{MEASURE}))?"
    rf"|(?P<first>\S+(?:\s+UN[A-Z]*)?)\s+(?P<last>lock\s+|thin\s+)?nut",
    re.IGNORECASE,
)
_PLUS_MINUS = re.compile(r"\+\s?/?\s?[-−](?=\s?[\d.,])")
_PLUS = re.compile(r"\+(?!\s?[\d.,]+\s*/\s*(?:[-+−]|0(?![\d/])))")
_NUTS = {"": "hex nut", "lock": "lock nut", "thin": "thin nut"}


def from_text(text: str, field: str) -> ClampMate:
    """Return the stack of a short form: ``10+12+20 into M4 depth 10 in aluminium``, ``10 ±0.1 + washer into nut M5``.

    Raises:
        CheckError: a part of it is not understood.
    """
    match = _INTO.fullmatch(text)
    if match is None:
        raise CheckError(field, text, _FORMS, _EXAMPLE)
    return _stack(_split(match["stack"]), _end_from_text(match["end"], field), field, field)


def from_fields(given: Fields, field: str) -> ClampMate:
    """Return the stack of an object: ``layers`` or ``grip``, and ``into`` (text, or an object of a tapped hole or nut).

    Raises:
        CheckError: a part of it is missing or not understood.
    """
    known(given, ("layers", "grip", "into"), field)
    names = [name for name in ("layers", "grip") if given.get(name) is not None]
    if len(names) != 1:
        raise CheckError(field, dict(given), "layers or grip, one of the two", '"layers": [10, 12, 20]')
    parts = given[names[0]]
    parts = _split(parts) if isinstance(parts, str) else parts
    layers = parts if isinstance(parts, (list, tuple)) else [parts]
    into, where = required(given, "into", field, '"M4 depth 10 in aluminium"'), at(field, "into")
    if not isinstance(into, Mapping):
        end = _end_from_text(one_line(into, where, _FORMS, "M4 depth 10 in aluminium"), where)
    elif into.get("kind") == "nut":
        known(into, ("thread", "height", "type"), where)
        end = _nut(required(into, "thread", where, "M5"), str(into.get("type") or ""), into.get("height"), where)
    else:
        end = tapped_hole.from_fields(into, where)
    return _stack(layers, end, at(field, names[0]), field)


def _split(text: str) -> list[str]:
    """Return the thicknesses of a stack: a plus joins two of them unless it belongs to a tolerance.

    >>> _split("10 +-0.1 + 12 +0.1/-0.2+washer")
    ['10 ±0.1', '12 +0.1/-0.2', 'washer']
    """
    return [part.strip() for part in _PLUS.split(_PLUS_MINUS.sub("±", text))]


def _end_from_text(text: str, field: str) -> TappedHoleMate | NutEnd:
    if match := _NUT.fullmatch(text):
        kind = (match["type"] or match["last"] or "").strip().lower()
        return _nut(match["thread"] or match["first"], kind, match["height"], field)
    return tapped_hole.from_text(text, field)


def _nut(designation: object, kind: str, height: object, field: str) -> NutEnd:
    size = thread(designation, field)
    if height is not None:
        return NutEnd(f"{size.designation} nut", size, length(height, field), "as given")
    family = _NUTS.get(kind)
    if family is None:
        raise CheckError(field, kind, "no type for a hex nut, or lock or thin", "lock")
    found = _listed(family, "internal_thread", size, "height")
    if found is None:
        raise CheckError(field, designation, f"a {family} of a size that is held, or its height", "nut M5 height 4.7")
    return NutEnd(f"{size.designation} {family}", size, *found, prevailing=kind == "lock")


def _listed(family: str, key: str, size: ThreadSize, dimension: str) -> tuple[Decimal, str] | None:
    """Return a dimension of a nut or a washer by its thread, and its source; None where the table has none."""
    row = size_table(family.replace(" ", "_"), key).find(size.designation)
    found = row.dimensions.get(dimension) if row is not None else None
    return (found.nominal, row.source) if row is not None and isinstance(found, Limits) else None


def _stack(parts: Sequence[object], into: TappedHoleMate | NutEnd, field: str, mate: str) -> ClampMate:
    if not 0 < len(parts) <= MOST_LAYERS:
        raise CheckError(field, list(parts), f"1 to {MOST_LAYERS} thicknesses", _EXAMPLE)
    thick = tuple(_layer(part, into.thread, field) for part in parts)
    layers = tuple(one.nominal for one in thick)
    grip = length(sum(layers, Decimal(0)), mate)
    toleranced = thick if any(one.lower is not None for one in thick) else ()
    return ClampMate(f"{grip} mm clamped by {into.text}", layers, grip, into, toleranced)


def _layer(part: object, size: ThreadSize, field: str) -> Limits:
    """Return a thickness with its limits; ``washer`` is the plain washer ISO 7089 of the thread."""
    if not isinstance(part, str) or part.strip().lower() != "washer":
        return diameter(part, "shaft", field).limits
    found = _listed("plain washer", "screw_size", size, "thickness")
    if found is None:
        raise CheckError(field, part, f"a thickness: no washer for {size.designation} is held", "1.0")
    return Limits(found[0])


class Screw(NamedTuple):
    """What of a screw matters for its length: family, thread, length of its thread [mm] and property class if known."""

    family: str
    thread: ThreadSize
    threaded: Decimal | None
    strength: str | None


class Assessment(NamedTuple):
    """What a length gives: its verdict, findings, cautions, and the share that clamps where some bottom."""

    verdict: ReadingVerdict
    findings: tuple[Finding, ...]
    cautions: tuple[str, ...]
    share: Decimal | None


def judge(reading: Reading, mate: ClampMate, fit: FitWanted | None) -> JudgedReading:
    """Judge whether the screw clamps the stack: thread, length, and what holds it."""
    if reading.family not in HEADED:
        text = f"a {reading.family} is no machine screw whose head clamps a stack"
        return JudgedReading(reading, "wrong", None, (Finding("wrong-kind", "wrong", text, {}, "common practice"),))
    size = reading.dimensions.get("thread")
    if not isinstance(size, ThreadSize):
        text = f"the line does not say the thread of the {reading.family}"
        return JudgedReading(reading, "open", None, (Finding("dimension-missing", "open", text, {}, "the line"),))
    matched = match(size, mate.into.thread, mate.into.text)
    if matched.weight == "wrong":
        return JudgedReading(reading, "wrong", None, (matched,))
    long = reading.dimensions.get("length")
    if not isinstance(long, Limits):
        text = f"the line does not say the length of the {reading.family}"
        missing = Finding("length-missing", "open", text, {}, "the line")
        return JudgedReading(reading, "open", None, (matched, missing))
    assessed = assess(screw_of(reading, size), long.nominal, mate)
    findings = (matched, *assessed.findings)
    return JudgedReading(reading, worst(findings), None, findings, assessed.share, assessed.cautions)


def screw_of(reading: Reading, thread: ThreadSize) -> Screw:
    """Return what of a reading matters for the length of its screw."""
    threaded = reading.dimensions.get("thread_length")
    known = threaded.nominal if isinstance(threaded, Limits) else None
    return Screw(reading.family, thread, known, property_class(reading))


class Grip(NamedTuple):
    """How thick a stack is [mm]: its middle, how far it departs from that at worst, and its standard deviation."""

    middle: Decimal
    tolerance: Decimal
    deviation: float
    found: Finding | None


@lru_cache(maxsize=256)
def grip_of(mate: ClampMate) -> Grip:
    """Return how thick a stack is: worst case and root sum square of the tolerances of its parts."""
    if not mate.parts:
        return Grip(mate.grip, Decimal(0), 0.0, None)
    whole = stack([Link(part) for part in mate.parts])
    low, high = (tidy(end) for end in whole.worst)
    rss_low, rss_high = (tidy(end.quantize(Decimal("0.001"))) for end in whole.root_sum_square)
    numbers: dict[str, Decimal | str] = {
        "grip_lower": low,
        "grip_upper": high,
        "root_sum_square_lower": rss_low,
        "root_sum_square_upper": rss_high,
    }
    text = (
        f"the stack {' + '.join(between(part) for part in mate.parts)} is {low}..{high} mm thick at worst,"
        f" {rss_low}..{rss_high} mm by root sum square ({'; '.join(whole.assumed)})"
    )
    finding = Finding("grip-stack", "note", text, numbers, whole.source)
    return Grip(tidy(whole.middle), whole.worst_tolerance, float(whole.root_sum_square_tolerance) / 3, finding)


@lru_cache(maxsize=256)
def assess(screw: Screw, length: Decimal, mate: ClampMate) -> Assessment:
    """Judge a length of a screw [mm] in the stack, the thread being right."""
    grip, alone = grip_of(mate), length_tolerance(length)
    spread = Spread(tidy(alone + grip.tolerance), math.hypot(float(alone) / 3, grip.deviation), grip.tolerance > 0)
    over_all = ", its length counting over all" if screw.family in LENGTH_OVER_ALL else ""
    head = f"{length} mm through {grip.middle} mm{over_all}"
    cautions: tuple[str, ...] = ()
    share: Decimal | None = None
    if isinstance(mate.into, NutEnd):
        findings = [_protrusion(screw.thread, tidy(length - grip.middle), spread, mate.into, head)]
    else:
        found, cautions, share = _tapped(screw, tidy(length - grip.middle), spread, grip, mate.into, head)
        findings = list(found)
    findings += [one for one in (_shank(screw, length, mate), _stacked(grip, length, spread)) if one is not None]
    shares = [Decimal(one.numbers["share"]) for one in findings if "share" in one.numbers]
    share = min(shares, default=share)
    verdict = worst(findings)
    return Assessment(verdict, tuple(findings), cautions, share if verdict == "marginal" else None)


class Reach(NamedTuple):
    """How far past the stack a screw has to reach at least and may reach at most [mm]."""

    least: Decimal
    most: Decimal


def reach_wanted(screw: Screw, mate: ClampMate) -> Reach | None:
    """Return the reach outside of which every length is ``wrong`` in a blind tapped hole, None elsewhere.

    Less than one diameter of thread holds in no material, and a screw that reaches past the thread bottoms: what
    ``assess`` finds at length, said beforehand for those who look for a length.
    """
    hole = mate.into
    if not isinstance(hole, TappedHoleMate) or hole.depth is None or hole.end == "through":
        return None
    return Reach(screw.thread.diameter, hole.depth)


def _stacked(grip: Grip, length: Decimal, spread: "Spread") -> Finding | None:
    """Return what is told of a stack with tolerances, with how far the screw then reaches past it."""
    if grip.found is None:
        return None
    reach, chance = length - grip.middle, Decimal(f"{3 * spread.deviation:.3f}")
    numbers = {
        "reach_lower": tidy(reach - spread.tolerance),
        "reach_upper": tidy(reach + spread.tolerance),
        "root_sum_square_reach_lower": tidy(reach - chance),
        "root_sum_square_reach_upper": tidy(reach + chance),
    }
    ends = [str(number) for number in numbers.values()]
    text = (
        f"{grip.found.text}; {length} mm of screw, their own tolerance included, reach {ends[0]}..{ends[1]} mm past it,"
        f" {ends[2]}..{ends[3]} mm by root sum square"
    )
    return grip.found._replace(text=text, numbers={**grip.found.numbers, **numbers})


@lru_cache(maxsize=512)
def length_tolerance(length: Decimal) -> Decimal:
    """Return how much longer or shorter than its nominal length a screw may be [mm]."""
    size = min(max(length, Decimal("1.1")), fits.LARGEST)
    return tidy(fits.tolerance("IT15" if length <= 150 else "IT17", size) / 2)


class Spread(NamedTuple):
    """How far the reach of a screw varies [mm]: at worst, its standard deviation, and whether the stack adds to it."""

    tolerance: Decimal
    deviation: float
    of_stack: bool

    @property
    def what(self) -> str:
        """What varies, in words."""
        return "lengths and thicknesses" if self.of_stack else "lengths"


def _tapped(
    screw: Screw, reach: Decimal, spread: Spread, grip: Grip, hole: TappedHoleMate, head: str
) -> tuple[list[Finding], tuple[str, ...], Decimal | None]:
    """Judge reach, engagement and bottoming in a tapped hole."""
    tolerance = spread.tolerance
    if hole.depth is None:
        findings, cautions = judge_engagement(screw.thread, reach, hole.material, screw.strength, screw.family)
        if findings[0].weight == "wrong":
            return list(findings), cautions, None
        text = f"{head}: {reach} mm go into the hole, whose depth of thread is not stated"
        return [Finding("depth-not-stated", "open", text, {"reach": reach}, GEOMETRY)], (), None
    engaged = min(reach, hole.depth)
    findings, cautions = judge_engagement(screw.thread, engaged, hole.material, screw.strength, screw.family)
    found = [*findings, *_least_engagement(screw, reach, grip, hole, findings)]
    if hole.end == "through" or reach <= 0:
        return found, cautions, None
    numbers: dict[str, Decimal | str] = {"reach": reach, "depth": hole.depth, "length_tolerance": tolerance}
    spare = tidy(hole.depth - reach)
    if spare < 0:
        text = f"{head}: {reach} mm go into {hole.depth} mm of thread: it bottoms before it clamps"
        found.insert(0, Finding("bottoms", "wrong", text, numbers, GEOMETRY))
    elif spare < tolerance:
        share = share_between(-math.inf, float(spare), 0.0, spread.deviation)
        text = (
            f"{head}: {reach} mm go into {hole.depth} mm of thread; as {spread.what} vary by {tolerance} mm,"
            f" {percent(share)} clamp and the others bottom ({CHANCE})"
        )
        found.insert(0, Finding("some-bottom", "marginal", text, {**numbers, "share": share}, LENGTHS))
        return found, cautions, share
    elif screw.thread.pitch is not None and spare < screw.thread.pitch:
        text = (
            f"only {spare} mm of thread are left below the screw, less than one pitch: chips or a burr make it bottom"
        )
        found.append(Finding("little-room-below", "note", text, numbers, GEOMETRY))
    return found, cautions, None


def _least_engagement(
    screw: Screw, reach: Decimal, grip: Grip, hole: TappedHoleMate, usual: Sequence[Finding]
) -> tuple[Finding, ...]:
    """Say where the thickest stack leaves too little thread although the middle one does not."""
    if not grip.tolerance or hole.depth is None or worst(usual) != "fits":
        return ()
    least = tidy(min(reach - grip.tolerance, hole.depth))
    held, _ = judge_engagement(screw.thread, least, hole.material, screw.strength, screw.family)
    if worst(held) == "fits":
        return ()
    numbers = held[0].numbers
    wanted = max(screw.thread.diameter, Decimal(numbers.get("needed", numbers.get("rule", 0))))
    share = share_between(float(wanted), math.inf, float(reach), grip.deviation)
    text = (
        f"the thickest stack leaves {least} mm of thread, {wanted} mm are wanted;"
        f" {percent(share)} of stacks leave that ({CHANCE})"
    )
    least_numbers: dict[str, Decimal | str] = {"engagement": least, "wanted": wanted, "share": share}
    return (Finding("some-engage-too-little", "marginal", text, least_numbers, held[0].source),)


def _protrusion(thread: ThreadSize, reach: Decimal, spread: Spread, nut: NutEnd, head: str) -> Finding:
    """Judge how far a screw stands out of its nut: two pitches by nominal length, one for the shortest screw.

    A lock nut's ring needs one pitch beyond it, and the shortest screw through it.
    """
    out, tolerance = tidy(reach - nut.height), spread.tolerance
    pitch = thread.pitch or Decimal(0)
    numbers: dict[str, Decimal | str] = {"protrusion": out, "nut_height": nut.height, "pitch": pitch}
    text = f"{head} and a {nut.text} of {nut.height} mm"
    if out + tolerance < 0:
        return Finding("nut-not-full", "wrong", f"{text}: it ends {-out} mm inside the nut", numbers, nut.source)
    least = 1 if nut.prevailing else _LEAST_OUT
    if out < least * pitch or out - tolerance < (0 if nut.prevailing else pitch):
        where = f"stands out by {out} mm" if out > 0 else f"ends {-out} mm inside the nut"
        shortest = "and the shortest screw must reach its end" if nut.prevailing else "and one for the shortest screw"
        text = f"{text}: it {where}; {least} pitches, {tidy(least * pitch)} mm, are wanted, {shortest}"
        share = share_between(float(0 if nut.prevailing else pitch), math.inf, float(out), spread.deviation)
        numbers["share"] = share
        text += f"; {percent(share)} of them do ({CHANCE})"
        return Finding("little-protrusion", "marginal", text, numbers, "IFI bulletin 2007; NSTM 075")
    text = f"{text}: it stands out by {out} mm"
    if out > _MOST_OUT * pitch:
        text += ", more than 10 pitches: it only gets in the way"
    return Finding("nut-full", "fits", text, numbers, "IFI bulletin 2007; NSTM 075")


def _shank(screw: Screw, length: Decimal, mate: ClampMate) -> Finding | None:
    """Return what is wrong where a plain shank is longer than the stack, so that the thread ends before it clamps."""
    if screw.threaded is None or screw.thread.pitch is None:
        return None
    shank = tidy(length - screw.threaded)
    if shank <= 3 * screw.thread.pitch or shank <= mate.grip:
        return None
    text = f"its thread is {screw.threaded} mm long: {shank} mm of plain shank in {mate.grip} mm of parts do not clamp"
    numbers: dict[str, Decimal | str] = {"shank": shank, "thread_length": screw.threaded}
    return Finding("shank-too-long", "wrong", text, numbers, "ISO 888 and the standard of the screw")
