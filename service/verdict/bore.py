"""Judges a part against a bore: pins, bushes, bearings, inserts, and screws that pass through.

What goes in is compared with the fit wanted; a part that is made for a hole of its own (spring pins, grooved pins,
inserts) with that hole; a screw with the clearance holes of ISO 273.
"""

import math
from decimal import Decimal
from functools import lru_cache

from reference import clearance_holes, fits, threads
from reference.quantities import Limits, ThreadSize
from reference.units import tidy
from service.reading.model import Reading
from service.verdict.combine import worst
from service.verdict.diameters import between, diameter
from service.verdict.fields import Fields, at, depth_end_material, known, required, take_options
from service.verdict.model import BoreMate, Finding, FitWanted, JudgedReading, Weight, Window
from service.verdict.pairs import (
    CHANCE,
    Pair,
    compare,
    made_for,
    mean_and_deviation,
    named,
    percent,
    seat_of,
    seated,
    share_between,
)
from service.verdict.pressing import press_finding
from service.verdict.roles import (
    BORE_KEY,
    CLEARANCE_HOLE,
    FOR_A_BORE,
    HOUSING,
    NOT_IN_A_BORE,
    OWN_HOLE,
    PARALLEL_PINS,
    TAPERED,
    can_have,
)

_COMMON = "common practice"


def from_text(text: str, field: str) -> BoreMate:
    """Return the bore of a short form: ``5 H7 depth 20 blind in aluminium``.

    Raises:
        CheckError: a part of it is not understood.
    """
    size, options = take_options(text, field)
    return from_fields({"diameter": size, **options}, field)


def from_fields(given: Fields, field: str) -> BoreMate:
    """Return the bore of an object: ``diameter``, and ``depth``, ``end``, ``material``, ``process``.

    Raises:
        CheckError: a part of it is missing or not understood.
    """
    known(given, ("diameter", "depth", "end", "material", "process"), field)
    where = at(field, "diameter")
    size = diameter(required(given, "diameter", field, "5 H7"), "hole", where)
    if given.get("process") is not None and size.process is None:
        size = diameter({"nominal": size.limits.nominal, "process": given["process"]}, "hole", where)
    return BoreMate(f"bore {size.text}", size.limits, *depth_end_material(given, field), size.process, size.source)


def judge(reading: Reading, mate: BoreMate, fit: FitWanted | None) -> JudgedReading:
    """Judge whether the part goes into the bore as wanted, for every part within its limits."""
    family = reading.family
    dimensions = reading.dimensions
    if family in OWN_HOLE:
        return _own_hole(reading, mate, fit)
    if family in CLEARANCE_HOLE:
        return _screw(reading, mate, fit)
    if family in FOR_A_BORE:
        return made_for(reading, FOR_A_BORE[family], mate.diameter, mate.text)
    if family in TAPERED:
        text = f"a {family} needs a hole reamed 1:50 with it; {mate.text} is parallel"
        return _wrong(reading, "needs-tapered-hole", text, "ISO 2339")
    key = BORE_KEY.get(family, "outer_diameter")
    outer = dimensions.get(key)
    name = key.replace("_", " ")
    if family in NOT_IN_A_BORE or (outer is None and not can_have(family, key)):
        return _wrong(reading, "wrong-kind", f"a {family} is no part that goes into a bore", _COMMON)
    if not isinstance(outer, Limits):
        return _missing(reading, name)
    if fit is None and family in HOUSING and (seat := seat_of(outer.nominal, HOUSING[family])) is not None:
        return seated(reading, outer, seat, mate.diameter, mate.text, False)
    if fit is None:
        fit = usual_fit(reading, mate)
    pair = compare(name, mate.diameter, outer, mate.text, fit, False)
    findings = pair.findings
    if pair.verdict != "wrong" and (mate.depth is not None or mate.end is not None or mate.material is not None):
        findings += _depth(reading, mate, pair)
        press = press_finding(reading, mate, outer) if pair.clearance.lower < 0 else None
        findings += () if press is None else (press,)
    return JudgedReading(reading, pair.verdict, pair.clearance, findings, pair.share, pair.cautions)


def usual_fit(reading: Reading, mate: BoreMate) -> FitWanted | None:
    """Return the fit that the part is made for where none is given: an m6 pin is made for a reamed hole H7.

    Source: common practice.
    """
    outer = reading.dimensions.get("outer_diameter")
    if reading.family in PARALLEL_PINS and isinstance(outer, Limits) and outer.tolerance_class == "m6":
        return _pin_fit(mate)
    return None


@lru_cache(maxsize=1024)
def _pin_fit(mate: BoreMate) -> FitWanted | None:
    try:
        window = fits.window("H7/m6", mate.diameter.nominal)
    except fits.UndefinedClass:
        return None
    text = f"{window.text}, the hole that m6 pins are made for"
    return FitWanted("the usual fit", Window(window.lower, window.upper), text)


def _wrong(reading: Reading, code: str, text: str, source: str) -> JudgedReading:
    return JudgedReading(reading, "wrong", None, (Finding(code, "wrong", text, {}, source),))


def _missing(reading: Reading, name: str) -> JudgedReading:
    text = f"the line does not say the {name} of the {reading.family}"
    return JudgedReading(reading, "open", None, (Finding("dimension-missing", "open", text, {}, "the line"),))


# --- parts that are made for a hole of their own ---------------------------------------------------------------------


@lru_cache(maxsize=1024)
def _recommended(family: str, hole: Limits) -> Limits | None:
    """Return the hole that the part is made for, or None where only its nominal size is known."""
    if hole.lower is not None:
        return hole
    name = OWN_HOLE[family]
    try:
        return fits.limits(hole.nominal, name) if name else None
    except fits.UndefinedClass:
        return None


def _own_hole(reading: Reading, mate: BoreMate, fit: FitWanted | None) -> JudgedReading:
    hole = reading.dimensions.get("hole_diameter")
    if not isinstance(hole, Limits):
        return _missing(reading, "hole size")
    wanted = _recommended(reading.family, hole)
    standard = reading.standards[0] if reading.standards else _COMMON
    bore = mate.diameter
    free = reading.dimensions.get("outer_diameter")
    clearance = None
    if isinstance(free, Limits) and free.lower is not None and bore.lower is not None:
        clearance = Window(tidy(bore.low - free.high), tidy(bore.high - free.low))
    if fit is not None and fit.window.lower >= 0:
        text = f"a {reading.family} grips its hole and never gives the clearance of {fit.wanted}"
        return JudgedReading(reading, "wrong", clearance, (Finding("grips", "wrong", text, {}, standard),))
    finding, share = _hole_for(reading.family, hole, wanted, mate, standard)
    return JudgedReading(reading, worst((finding,)), clearance, (finding,), share)


@lru_cache(maxsize=2048)
def _hole_for(
    family: str, hole: Limits, wanted: Limits | None, mate: BoreMate, standard: str
) -> tuple[Finding, Decimal | None]:
    """Compare a bore with the hole that a part is made for."""
    bore = mate.diameter
    if wanted is None or bore.lower is None:
        text = f"a {family} for a hole of {hole.nominal} mm; {mate.text}"
        if abs(bore.nominal - hole.nominal) * 20 > hole.nominal:
            return Finding("wrong-hole", "wrong", text, {"hole": hole.nominal}, standard), None
        side = "the hole that the part needs" if wanted is None else "the bore"
        text += f"; the limits of {side} are not stated"
        return Finding("limits-not-stated", "open", text, {"hole": hole.nominal}, standard), None
    numbers: dict[str, Decimal | str] = {"hole_lower": wanted.low, "hole_upper": wanted.high}
    text = f"a {family} made for a hole {named(wanted)}; {mate.text}"
    if wanted.low <= bore.low and bore.high <= wanted.high:
        return Finding("hole-as-made-for", "fits", f"{text} lies within that", numbers, standard), None
    if bore.high < wanted.low:
        return Finding("hole-too-small", "wrong", f"{text} is smaller: do not force it", numbers, standard), None
    if bore.low > wanted.high:
        return Finding("hole-too-large", "wrong", f"{text} is larger: it does not hold", numbers, standard), None
    share = share_between(float(wanted.low), float(wanted.high), *mean_and_deviation(bore))
    text += f"; {percent(share)} of such bores lie within {between(wanted)} ({CHANCE})"
    return Finding("some-holes-outside", "marginal", text, {**numbers, "share": share}, standard), share


# --- screws through a bore -------------------------------------------------------------------------------------------


def _screw(reading: Reading, mate: BoreMate, fit: FitWanted | None) -> JudgedReading:
    thread = reading.dimensions.get("thread")
    if not isinstance(thread, ThreadSize):
        return _missing(reading, "thread")
    if fit is not None and fit.wanted in fits.WORDS:
        text = f"a {reading.family} locates nothing: its thread is far looser than {fit.wanted} ({fit.from_text})"
        return _wrong(reading, "screw-does-not-locate", text, "ISO 965-1")
    if fit is not None:
        pair = compare("thread crests", mate.diameter, _crests(thread), mate.text, fit, False)
        return JudgedReading(reading, pair.verdict, pair.clearance, pair.findings, pair.share)
    head = reading.dimensions.get("head_diameter")
    finding, share = _through(thread, mate, head if isinstance(head, Limits) else None)
    bore = mate.diameter
    clearance = Window(tidy(bore.low - thread.diameter), tidy(bore.high - thread.diameter))
    return JudgedReading(reading, worst((finding,)), clearance, (finding,), share)


@lru_cache(maxsize=1024)
def _crests(thread: ThreadSize) -> Limits:
    """Return the outer diameter of an external thread of the ordinary class, 6g or 2A, as far as it is held."""
    try:
        return threads.limits(thread, thread.tolerance_class or ("2A" if thread.system == "unified" else "6g")).major
    except threads.ThreadError:
        return Limits(thread.diameter)


@lru_cache(maxsize=256)
def _clearance_holes(size: Decimal) -> tuple[tuple[str, Limits], ...]:
    """Return the clearance holes of a thread diameter by series, closest first; none where ISO 273 lists none."""
    try:
        return tuple((name, clearance_holes.clearance_hole(size, name)) for name in clearance_holes.SERIES)
    except clearance_holes.UnknownHole:
        return ()


@lru_cache(maxsize=2048)
def _through(thread: ThreadSize, mate: BoreMate, head: Limits | None) -> tuple[Finding, Decimal | None]:
    """Compare a bore with the clearance holes for a thread, in its three series."""
    bore, size = mate.diameter, thread.diameter
    known = _clearance_holes(size)
    numbers: dict[str, Decimal | str] = {"thread_diameter": size, **{name: hole.nominal for name, hole in known}}
    text = f"{thread.designation} through {mate.text}"
    listed = ", ".join(f"{name} {hole.nominal}" for name, hole in known)

    def found(code: str, weight: Weight, says: str) -> Finding:
        return Finding(code, weight, f"{text}: {says}", numbers, "ISO 273")

    if bore.high < size:
        return found("does-not-enter", "wrong", "the thread does not pass"), None
    if head is not None and bore.low >= head.high:
        return found("head-falls-through", "wrong", f"its head is only {between(head)} mm wide"), None
    if bore.low < size:
        share = share_between(float(size), math.inf, *mean_and_deviation(bore))
        return found("some-do-not-enter", "marginal", f"{percent(share)} of such bores let it pass ({CHANCE})"), share
    if not known:
        return found("no-clearance-hole-known", "open", "no clearance hole is listed for this thread"), None
    if bore.low < known[0][1].low:
        says = f"it passes, but closer than the clearance holes ({listed}): the holes must line up exactly"
        return found("closer-than-fine", "marginal", says), None
    if bore.high > known[-1][1].high:
        return found(
            "wider-than-coarse", "marginal", f"wider than the clearance holes ({listed}): use a large washer"
        ), None
    series = next(name for name, hole in reversed(known) if bore.low >= hole.low)
    return found("passes", "fits", f"a {series} clearance hole ({listed})"), None


# --- depth and end ---------------------------------------------------------------------------------------------------


def _depth(reading: Reading, mate: BoreMate, pair: Pair) -> tuple[Finding, ...]:
    """Say how a part sits in a hole of a given depth, and whether it comes out of a blind one again."""
    findings: list[Finding] = []
    length = reading.dimensions.get("length")
    if mate.depth is not None and isinstance(length, Limits):
        numbers: dict[str, Decimal | str] = {"length": length.nominal, "depth": mate.depth}
        over = tidy(length.nominal - mate.depth)
        if over > 0:
            text = f"{length.nominal} mm long in {mate.depth} mm of hole: it stands out by {over} mm"
            findings.append(Finding("stands-out", "note", text, numbers, "length minus depth"))
        elif over < 0 and mate.end == "blind":
            text = (
                f"{length.nominal} mm long in a blind hole {mate.depth} mm deep: it can sink {-over} mm below the face"
            )
            findings.append(Finding("sits-below", "note", text, numbers, "length minus depth"))
    if mate.end == "blind" and pair.clearance.lower < 0:
        if "internal_thread" not in reading.dimensions:
            text = (
                f"a {reading.family} without an internal thread cannot be pulled out of a blind hole; ISO 8735 has one"
            )
            findings.append(Finding("not-removable", "note", text, {}, _COMMON))
        text = "a tight part traps air in a blind hole: it needs a vent flat, a groove or a small cross hole"
        findings.append(Finding("trapped-air", "note", text, {}, _COMMON))
    return tuple(findings)
