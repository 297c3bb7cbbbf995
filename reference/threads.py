"""Screw threads: metric (ISO 261, 724, 965), unified, pipe, trapezoidal, conduit and tapping threads.

Every look-up gives a :class:`~reference.quantities.ThreadSize`; from it follow the profile, the limits of size, the
stress area and the drill for tapping. Finding a thread inside a line of text does not belong here
(``service.reading``), nor how much thread a screw needs (``reference.strength``).

>>> parse("M8x1 LH"), metric(Decimal(5)).pitch
(ThreadSize(designation='M8x1', diameter=Decimal('8'), pitch=Decimal('1'), system='metric', hand='left', \
tolerance_class=None), Decimal('0.8'))
>>> limits(metric(Decimal(20)), "6H").minor.upper
Decimal('17.744')
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache, lru_cache
from types import MappingProxyType

from reference import tables
from reference.quantities import Limits, ThreadSize
from reference.units import INCH, tidy

_THOUSANDTH = Decimal("0.001")
_MILLIONTH = Decimal("0.000001")
_PI = Decimal("3.14159265358979")
_RANGES = ("1.4", "2.8", "5.6", "11.2", "22.4", "45", "90")


class ThreadError(ValueError):
    """A thread has no such figure, or a tolerance class is not covered; the message says which and what is."""


@dataclass(frozen=True, slots=True)
class ThreadProfile:
    """The basic profile of a thread [mm], rounded to 0.001 as ISO 724 prints it.

    ``minor_diameter`` is D1 of the internal thread, ``root_diameter`` d3 of the external one, ``height`` that of the
    fundamental triangle H.
    """

    pitch_diameter: Decimal
    minor_diameter: Decimal
    root_diameter: Decimal
    height: Decimal


@dataclass(frozen=True, slots=True)
class ThreadLimits:
    """The limits of size of a thread; a diameter that the tolerance class leaves open has no limits, or one only."""

    major: Limits
    pitch: Limits
    minor: Limits


def _key(number: str) -> str:
    return str(tidy(Decimal(number)))


@cache
def _metric_rows() -> Mapping[tuple[str, str], tables.Row]:
    """Return the rows of metric threads by diameter and pitch, coarse pitch first for each diameter."""
    rows = sorted(tables.load("metric_threads"), key=lambda row: row.text("series"))
    return MappingProxyType({(_key(row.text("diameter")), _key(row.text("pitch"))): row for row in rows})


@cache
def _metric_sizes() -> Mapping[tuple[Decimal, Decimal | None], ThreadSize]:
    sizes: dict[tuple[Decimal, Decimal | None], ThreadSize] = {}
    for row in _metric_rows().values():
        size = ThreadSize(row.text("designation"), tidy(row.decimal("diameter")), tidy(row.decimal("pitch")))
        sizes[size.diameter, size.pitch] = size
        if row.text("series") == "coarse":
            sizes[size.diameter, None] = size
    return MappingProxyType(sizes)


def metric(diameter: Decimal, pitch: Decimal | None = None) -> ThreadSize | None:
    """Return the metric thread of a diameter and pitch [mm], the coarse one where no pitch is given, or None.

    Source: ISO 261, and a few sizes that are sold outside it.

    >>> metric(Decimal(8), Decimal("1.0")).designation, metric(Decimal(8), Decimal("1.25")).designation
    ('M8x1', 'M8')
    >>> metric(Decimal(15)) is None
    True
    """
    return _metric_sizes().get((diameter, pitch))


@lru_cache(maxsize=1024)
def pitches(diameter: Decimal) -> tuple[Decimal, ...]:
    """Return the pitches of a metric diameter [mm]: the coarse one first where there is one, then the fine ones.

    >>> [str(pitch) for pitch in pitches(Decimal(10))]
    ['1.5', '1.25', '1', '0.75', '0.5']
    """
    return tuple(pitch for size, pitch in _metric_sizes() if size == diameter and pitch is not None)


@cache
def _unified_rows() -> Mapping[str, tables.Row]:
    return MappingProxyType({row.text("name"): row for row in tables.load("unified_threads")})


@cache
def _unified_names() -> Mapping[tuple[str, str], str]:
    """Return the full name of a unified thread by its size and series."""
    return MappingProxyType(
        {(name.rpartition("-")[0], row.text("series")): name for name, row in _unified_rows().items()}
    )


@cache
def _pipe_rows() -> Mapping[tuple[str, str], tables.Row]:
    return MappingProxyType({(row.text("form"), row.text("size")): row for row in tables.load("pipe_threads")})


@cache
def _special_rows() -> Mapping[str, tables.Row]:
    return MappingProxyType({row.text("designation").casefold(): row for row in tables.load("special_threads")})


@cache
def _trapezoidal_rows() -> Mapping[tuple[str, str], tables.Row]:
    rows = tables.load("trapezoidal_threads")
    return MappingProxyType({(_key(row.text("diameter")), _key(row.text("pitch"))): row for row in rows})


_DECIMAL = r"(?:[0-9]{1,3}(?:\.[0-9]{1,3})?|\.[0-9]{1,3})"
_HAND = r"(?:\s*-?\s*(?P<hand>LH|RH|left|right))?"
_INCHES = r"[0-9]{1,2}(?:[\s-][0-9]{1,2}/[0-9]{1,2}|/[0-9]{1,2})?"
_METRIC = re.compile(
    rf"[Mm]\s?(?P<diameter>{_DECIMAL})(?:\s?x\s?(?P<pitch>{_DECIMAL})|\s?-\s?(?P<dashed>{_DECIMAL})(?![0-9efghGH]))?"
    rf"(?:\s*-?\s*(?P<tolerance>[3-9][efgh](?:[468][efgh])?|[4-8][GH](?:[4-8][GH])?))?{_HAND}"
)
_TRAPEZOIDAL = re.compile(
    rf"[Tt][Rr]\s?(?P<diameter>{_DECIMAL})\s?x\s?(?P<lead>{_DECIMAL})(?:\s?\(?\s?[Pp]\s?(?P<pitch>{_DECIMAL})\s?\)?)?"
    rf"(?:\s*-\s*(?P<tolerance>[0-9][A-Za-z]))?{_HAND}"
)
_SERIES = r"UNC|UNF|UNEF|UN"
_UNIFIED = re.compile(
    rf"(?:(?P<before>{_SERIES})\s*)?(?:\#|no\.?|nr\.?)?\s?(?P<size>{_INCHES}?)\s?(?:\"|in\b)?"
    rf"(?:\s?-\s?(?P<tpi>[0-9]{{1,2}}))?(?:\s*-?\s*(?P<series>{_SERIES}))?(?:\s*-?\s*(?P<tolerance>[123][AB]))?{_HAND}",
    re.IGNORECASE,
)
_PIPE_FORMS = r"BSPP|BSPT|BSP|NPTF|NPT|Rc|Rp|G|R"
_PIPE = re.compile(
    rf"(?:(?P<form>{_PIPE_FORMS})(?P<gap>\s?)(?P<size>{_INCHES})\s?(?P<mark>\")?"
    rf"|(?P<size2>{_INCHES})\s?\"?(?:-[0-9.]{{2,4}})?\s?-?(?P<form2>{_PIPE_FORMS}))(?:\s?(?P<tolerance>[AB]))?{_HAND}",
    re.IGNORECASE,
)
_PIPE_NAMES = {"bsp": "G", "bspp": "G", "bspt": "R", "g": "G", "r": "R", "rc": "Rc", "rp": "Rp"}
_SPECIAL = re.compile(r"(?P<name>pg|st|m)\s?(?P<size>[0-9]{1,2}(?:\.[0-9])?(?:\s?x\s?[0-9.]{1,4})?)", re.IGNORECASE)
_SPELLINGS = str.maketrans({"×": "x", "*": "x", "X": "x", ",": ".", "″": '"', "”": '"', "–": "-"})
_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}


def _spelt(text: str) -> str:
    """Return the text in the one spelling that the patterns know."""
    text = text.strip().translate(_SPELLINGS)
    for sign, fraction in _VULGAR.items():
        if sign in text:
            text = re.sub(rf"(?<=[0-9])\s*{sign}", f" {fraction}", text).replace(sign, fraction)
    return text


def _with(size: ThreadSize, match: re.Match[str]) -> ThreadSize:
    """Return the size with the hand and the tolerance class that the text states."""
    hand = "left" if (match["hand"] or "").casefold() in ("lh", "left") else "right"
    tolerance = match["tolerance"]
    return size if hand == "right" and tolerance is None else size._replace(hand=hand, tolerance_class=tolerance)


def _metric(text: str) -> ThreadSize | None:
    match = _METRIC.fullmatch(text)
    if match is None:
        return None
    pitch = match["pitch"] or match["dashed"]
    size = metric(Decimal(match["diameter"]), None if pitch is None else Decimal(pitch))
    return None if size is None else _with(size, match)


def _trapezoidal(text: str) -> ThreadSize | None:
    match = _TRAPEZOIDAL.fullmatch(text)
    if match is None:
        return None
    diameter, lead = _key(match["diameter"]), _key(match["lead"])
    name = f"Tr{diameter}x{lead}"
    if match["pitch"]:
        pitch = _key(match["pitch"])
        if Decimal(pitch) == 0 or Decimal(lead) % Decimal(pitch) or Decimal(pitch) >= Decimal(diameter):
            return None
        return _with(ThreadSize(f"{name} (P{pitch})", Decimal(diameter), Decimal(pitch), "trapezoidal"), match)
    # Without (P...) the number is the pitch by the standard, but sellers write the lead of a multiple start there too.
    known = Decimal(lead) if (diameter, lead) in _trapezoidal_rows() else None
    return _with(ThreadSize(name, Decimal(diameter), known, "trapezoidal"), match)


@lru_cache(maxsize=4096)
def unified(name: str) -> ThreadSize | None:
    """Return the unified thread of a name such as ``10-32``, ``#6-32``, ``1/4-20 UNC`` or ``1/4 UNF``, or None.

    Source: ASME B1.1.

    >>> unified("#10-32")
    ThreadSize(designation='10-32 UNF', diameter=Decimal('4.826'), pitch=Decimal('0.79375'), system='unified', \
hand='right', tolerance_class=None)
    """
    match = _UNIFIED.fullmatch(_spelt(name))
    if match is None:
        return None
    series = (match["series"] or match["before"] or "").upper()
    size = re.sub(r"\s+", "-", match["size"])
    full = f"{size}-{match['tpi']}" if match["tpi"] else _unified_names().get((size, series), "")
    row = _unified_rows().get(full)
    if row is None or series not in ("", "UN", row.text("series")):
        return None
    diameter = row.decimal("major_inch") * INCH
    pitch = (INCH / row.decimal("tpi")).quantize(_MILLIONTH)
    return _with(ThreadSize(f"{full} {row.text('series')}", tidy(diameter), tidy(pitch), "unified"), match)


@lru_cache(maxsize=4096)
def pipe(name: str) -> ThreadSize | None:
    """Return the pipe thread of a name such as ``G 1/8 A``, ``R1/4``, ``1/8 NPT`` or ``1/8 BSP``, or None.

    Its ``diameter`` is the major diameter, of NPT the outside diameter of the pipe; the name is no diameter. BSP alone
    is taken as the parallel thread G, BSPT as the tapered external one R.

    Source: ISO 228-1, ISO 7-1, ASME B1.20.1.

    >>> pipe("G1/8").diameter, pipe("1/8 NPT").designation
    (Decimal('9.728'), '1/8-27 NPT')
    """
    match = _PIPE.fullmatch(_spelt(name))
    if match is None:
        return None
    size = re.sub(r"\s+", "-", match["size"] or match["size2"])
    if match["size"] and "/" not in size and not match["gap"] and not match["mark"]:
        return None  # G3 and R5 name other things than a thread of so many inches
    form = (match["form"] or match["form2"]).casefold()
    american = form.startswith("npt")
    row = _pipe_rows().get(("NPT" if american else "BSP", size))
    if row is None or (form in ("r", "rc", "rp", "bspt") and row.text("tapered") != "yes"):
        return None
    designation = f"{size}-{row.text('tpi')} {form.upper()}" if american else f"{_PIPE_NAMES[form]} {size}"
    return _with(ThreadSize(designation, tidy(row.decimal("diameter")), tidy(row.decimal("pitch")), "pipe"), match)


def _special(text: str) -> ThreadSize | None:
    match = _SPECIAL.fullmatch(text)
    row = None if match is None else _special_rows().get((match["name"] + match["size"].replace(" ", "")).casefold())
    if row is None:
        return None
    diameter, pitch = tidy(row.decimal("diameter")), tidy(row.decimal("pitch"))
    return ThreadSize(row.text("designation"), diameter, pitch, row.text("system"))


_READERS: tuple[Callable[[str], ThreadSize | None], ...] = (_metric, _special, _trapezoidal, pipe, unified)


@lru_cache(maxsize=16384)
def parse(text: str) -> ThreadSize | None:
    """Return the thread that the whole text designates, or None where it designates none.

    >>> [parse(text).designation for text in ("M5-0.8", "Tr8x8 (P2)", '1/4"-20', "G 1/8 A", "PG9")]
    ['M5', 'Tr8x8 (P2)', '1/4-20 UNC', 'G 1/8', 'PG9']
    >>> parse("M5x20") is None
    True
    """
    spelt = _spelt(text) if len(text) <= 40 else ""
    return next((size for reader in _READERS if (size := reader(spelt)) is not None), None)


def _listed(thread: ThreadSize) -> tables.Row | None:
    """Return the row of the tables that holds the thread."""
    if thread.system == "metric":
        return _metric_rows().get((str(thread.diameter), str(thread.pitch)))
    if thread.system == "unified":
        return _unified_rows().get(thread.designation.partition(" ")[0])
    if thread.system == "trapezoidal":
        return _trapezoidal_rows().get((str(thread.diameter), str(thread.pitch)))
    if thread.system == "pipe":
        american = "NPT" in thread.designation
        name = thread.designation.split(" ")
        size = name[0].rpartition("-")[0] if american else name[1]
        return _pipe_rows().get(("NPT" if american else "BSP", size))
    return _special_rows().get(thread.designation.casefold())


def source(thread: ThreadSize) -> str:
    """Return where diameter and pitch of the thread come from, as replies show it.

    >>> source(parse("PG9"))
    'DIN 40430 (via threadlib PG_electrical_thread.csv)'
    """
    row = _listed(thread)
    return "no list holds this thread" if row is None else row.source


def _pitch(thread: ThreadSize) -> Decimal:
    if thread.pitch is None:
        raise ThreadError(f"the pitch of {thread.designation} is not stated, for example Tr8x8 (P2)")
    return thread.pitch


def _crest_clearance(pitch: Decimal) -> Decimal:
    """Return the clearance a_c at the crest of a trapezoidal thread [mm] (ISO 2901)."""
    for upper, clearance in (("1.5", "0.15"), ("5", "0.25"), ("12", "0.5")):
        if pitch <= Decimal(upper):
            return Decimal(clearance)
    return Decimal(1)


@lru_cache(maxsize=4096)
def profile(thread: ThreadSize) -> ThreadProfile:
    """Return the basic profile of a metric, unified, trapezoidal or parallel pipe thread [mm].

    Raises:
        ThreadError: no profile is held for this thread, or its pitch is not stated.

    Source: ISO 724 and ISO 68-1; ISO 2904 for trapezoidal threads; ISO 228-1 for pipe threads.

    >>> profile(metric(Decimal(8)))
    ThreadProfile(pitch_diameter=Decimal('7.188'), minor_diameter=Decimal('6.647'), root_diameter=Decimal('6.466'), \
height=Decimal('1.083'))
    """
    if thread.system == "pipe":
        row = _listed(thread)
        if row is None or not row.text("minor_diameter"):
            raise ThreadError(f"no pitch and minor diameters are held for {thread.designation}, only for G and R")
        minor = tidy(row.decimal("minor_diameter"))
        return _profile(row.decimal("pitch_diameter"), minor, minor, _pitch(thread) * Decimal("0.960491"))
    diameter, pitch = thread.diameter, _pitch(thread)
    if thread.system == "trapezoidal":
        minor = diameter - pitch
        root = minor - 2 * _crest_clearance(pitch)
        return _profile(diameter - pitch / 2, minor, root, pitch * Decimal("1.866025404"))
    if thread.system not in ("metric", "unified"):
        raise ThreadError(f"no profile is held for {thread.designation}, a {thread.system} thread")
    height = pitch * Decimal("0.866025404")
    minor = diameter - height * 5 / 4
    return _profile(diameter - height * 3 / 4, minor, minor - height / 6, height)


def _profile(*lengths: Decimal) -> ThreadProfile:
    return ThreadProfile(*(tidy(length.quantize(_THOUSANDTH)) for length in lengths))


@lru_cache(maxsize=4096)
def stress_area(thread: ThreadSize) -> Decimal:
    """Return the nominal stress area of a metric or unified thread [mm2], to six figures.

    The unified one starts from the pitch diameter as printed, to 0.0001 inch.

    Raises:
        ThreadError: the standards define no stress area for this thread.

    Source: ISO 898-1, pi/4 ((d2 + d3)/2)^2; ASME B1.1, pi (d2/2 - 0.16238 P)^2.

    >>> stress_area(metric(Decimal(8)))
    Decimal('36.6085')
    """
    pitch = _pitch(thread)
    if thread.system == "metric":
        diameter = thread.diameter - Decimal("0.938194") * pitch
    elif thread.system == "unified":
        exact = (thread.diameter - Decimal("0.649519") * pitch) / INCH
        diameter = exact.quantize(Decimal("0.0001")) * INCH - 2 * Decimal("0.16238") * pitch
    else:
        raise ThreadError(f"no stress area is defined for {thread.designation}, only for metric and unified threads")
    area = _PI / 4 * diameter**2
    return tidy(area.quantize(Decimal(1).scaleb(area.adjusted() - 5)))


def tap_drill(thread: ThreadSize) -> Decimal | None:
    """Return the drill for tapping the thread [mm], or None where no table holds one.

    >>> tap_drill(metric(Decimal(5))), tap_drill(unified("10-32"))
    (Decimal('4.2'), Decimal('4.04'))
    """
    row = _listed(thread)
    if row is None or "tap_drill" not in row.cells:
        return None
    drill = row.number_or_none("tap_drill")
    return None if drill is None else tidy(drill)


def tap_drill_source(thread: ThreadSize) -> str:
    """Return where the drill for tapping comes from, as replies show it.

    >>> tap_drill_source(unified("10-32"))
    'common practice'
    """
    row = _listed(thread)
    return row.text("tap_drill_source") if row is not None and "tap_drill_source" in row.cells else "common practice"


_CLASS = re.compile(
    r"(?P<pitch>[3-9])(?P<position>[efgh])(?:(?P<crest>[3-9])(?P=position))?"
    r"|(?P<pitch2>[3-9])(?P<position2>[GH])(?:(?P<crest2>[3-9])(?P=position2))?"
)
_GRADES: Mapping[str, tuple[int, tuple[tuple[str, int], ...]]] = {
    "d": (4, (("0.2", 6), ("0.8", 8))),
    "d2": (3, (("0.2", 6), ("0.35", 7), ("0.8", 9))),
    "D1": (4, (("0.2", 4), ("0.25", 5), ("0.3", 6), ("0.5", 7), ("0.8", 8))),
    "D2": (4, (("0.2", 4), ("0.25", 5), ("0.3", 6), ("0.5", 7), ("0.8", 8))),
}
"""For each diameter the finest grade, and the coarsest from each pitch on; ISO 965-1, from memory."""

_R40 = (
    "1 1.06 1.12 1.18 1.25 1.32 1.4 1.5 1.6 1.7 1.8 1.9 2 2.12 2.24 2.36 2.5 2.65 2.8 3 "
    "3.15 3.35 3.55 3.75 4 4.25 4.5 4.75 5 5.3 5.6 6 6.3 6.7 7.1 7.5 8 8.5 9 9.5"
)
_STEPS = tuple(Decimal(number) * 10**power for power in (1, 2, 3) for number in _R40.split())


@cache
def _tolerances() -> Mapping[tuple[str, str, str], int]:
    """Return where the tolerance of grade 6 stands in the R40 series, by diameter, top of the range, and pitch."""
    rounded = [step.quantize(Decimal(1)) for step in _STEPS]
    return MappingProxyType(
        {
            (row.text("measure"), _key(row.text("up_to")), _key(row.text("pitch"))): rounded.index(
                row.decimal("tolerance")
            )
            for row in tables.load("thread_tolerances")
        }
    )


@cache
def _deviations() -> Mapping[tuple[str, str], Decimal]:
    rows = tables.load("thread_deviations")
    return MappingProxyType(
        {(row.text("position"), _key(row.text("pitch"))): row.decimal("deviation") * _THOUSANDTH for row in rows}
    )


def _tolerance(measure: str, grade: int, thread: ThreadSize, tolerance_class: str) -> Decimal:
    """Return the tolerance of one diameter [mm]: grade 6 as tabulated, the others four R40 numbers apart each."""
    finest, steps = _GRADES[measure]
    pitch = _pitch(thread)
    coarsest = max((grade for least, grade in steps if pitch >= Decimal(least)), default=0)
    top = "90" if measure in ("d", "D1") else next((top for top in _RANGES if thread.diameter <= Decimal(top)), "")
    position = _tolerances().get((measure, top, str(pitch)))
    odd_crest = measure == "d" and grade % 2
    if position is None or not finest <= grade <= coarsest or odd_crest:
        grades = "4, 6 or 8" if measure == "d" else f"{finest} to {coarsest}"
        raise ThreadError(
            f"ISO 965-1 gives no {tolerance_class} for {thread.designation}: {measure} has no grade {grade} here"
            + (f", only {grades}" if position is not None else "")
        )
    return _STEPS[position + 4 * (grade - 6)].quantize(Decimal(1)) * _THOUSANDTH


def _deviation(position: str, thread: ThreadSize, tolerance_class: str) -> Decimal:
    if position in ("h", "H"):
        return Decimal(0)
    value = _deviations().get(("g" if position == "G" else position, str(_pitch(thread))))
    if value is None:
        raise ThreadError(
            f"no deviation {position} is held at pitch {thread.pitch} mm, so {tolerance_class} of "
            f"{thread.designation} is not covered; 6g and 6h are"
        )
    return -value if position == "G" else value


@lru_cache(maxsize=8192)
def limits(thread: ThreadSize, tolerance_class: str) -> ThreadLimits:
    """Return the limits of size of a metric thread in a tolerance class, or the major diameter of class 2A.

    External classes bound the major and the pitch diameter, internal ones the minor and the pitch diameter and the
    major diameter from below. A class of two parts (4g6g) gives the pitch diameter's grade first.

    Args:
        thread: a metric thread; a unified one for class 2A.
        tolerance_class: ``6g``, ``6e``, ``4h``, ``8g``, ``4g6g``, ``6H``, ``5H``, ``6G``, ``2A`` and the like.

    Raises:
        ThreadError: the class is none, or not covered for this thread.

    Source: ISO 965-1. Positions e and f and the coarsest grade at each pitch are from memory.

    >>> limits(metric(Decimal(5)), "6g").major
    Limits(nominal=Decimal('5'), lower=Decimal('4.826'), upper=Decimal('4.976'), tolerance_class='6g')
    """
    basic = profile(thread)
    if thread.system == "unified" and tolerance_class == "2A":
        return _limits_2a(thread, basic)
    match = _CLASS.fullmatch(tolerance_class)
    if match is None or thread.system != "metric":
        raise ThreadError(
            f"{tolerance_class!r} is not covered for {thread.designation}: expected a class of ISO 965-1 for a metric "
            "thread, for example 6g or 6H, or 2A for a unified one"
        )
    position = match["position"] or match["position2"]
    external = position.islower()
    grade = int(match["pitch"] or match["pitch2"])
    crest = int(match["crest"] or match["crest2"] or grade)
    deviation = _deviation(position, thread, tolerance_class)
    pitch_width = _tolerance("d2" if external else "D2", grade, thread, tolerance_class)
    crest_width = _tolerance("d" if external else "D1", crest, thread, tolerance_class)

    def bounded(nominal: Decimal, width: Decimal) -> Limits:
        near = nominal + deviation
        ends = (near - width, near) if external else (near, near + width)
        return Limits(nominal, tidy(ends[0]), tidy(ends[1]), tolerance_class)

    pitch_limits = bounded(basic.pitch_diameter, pitch_width)
    if external:
        return ThreadLimits(bounded(thread.diameter, crest_width), pitch_limits, Limits(basic.root_diameter))
    major = Limits(thread.diameter, tidy(thread.diameter + deviation), None, tolerance_class)
    return ThreadLimits(major, pitch_limits, bounded(basic.minor_diameter, crest_width))


def _limits_2a(thread: ThreadSize, basic: ThreadProfile) -> ThreadLimits:
    row = _listed(thread)
    if row is None or not row.text("major_max_2a_inch"):
        raise ThreadError(f"no limits of class 2A are held for {thread.designation}")
    lower, upper = (tidy(row.decimal(f"major_{end}_2a_inch") * INCH) for end in ("min", "max"))
    major = Limits(thread.diameter, lower, upper, "2A")
    return ThreadLimits(major, Limits(basic.pitch_diameter), Limits(basic.root_diameter))
