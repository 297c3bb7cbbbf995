"""A hole and what goes into it: clearance against the fit wanted, worst case and by chance.

One comparison serves bores, shafts and pockets. It is remembered by the limits compared, so that the thousandth 5 m6
pin against one bore costs a look-up. Limits compare exactly, both ends included; only shares of pairs use floats.
"""

import math
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from reference import fits
from reference.quantities import Limits
from reference.units import tidy
from service.reading.model import Reading
from service.strength import cautions
from service.strength.chance import normal_share
from service.verdict.combine import worst
from service.verdict.diameters import between
from service.verdict.model import Finding, FitWanted, JudgedReading, ReadingVerdict, Window

CHANCE = "each size normal about its mean, tolerance 6 standard deviations wide"
"""What a share of pairs assumes."""

LIMITS_SOURCE = "ISO 286-1"
_COMMON = "common practice"
_ZERO = Decimal(0)


class Pair(NamedTuple):
    """How a hole and a shaft go together: the verdict, the clearance, what was found, the share within the fit."""

    verdict: ReadingVerdict
    clearance: Window
    findings: tuple[Finding, ...]
    share: Decimal | None = None
    cautions: tuple[str, ...] = ()


def named(limits: Limits) -> str:
    """Return a dimension as messages show it: ``5 m6 (5.004..5.012)``."""
    if limits.tolerance_class is None:
        return between(limits)
    return f"{limits.nominal} {limits.tolerance_class} ({between(limits)})"


def share_between(lower: float, upper: float, mean: float, deviation: float) -> Decimal:
    """Return the share of a normal distribution between two values, to four decimals; CHANCE is assumed.

    >>> share_between(-1, 1, 0, 1)
    Decimal('0.6827')
    """
    if deviation == 0:
        return Decimal(lower <= mean <= upper)
    return to_four_decimals(normal_share(lower, upper, mean, deviation))


def to_four_decimals(share: float) -> Decimal:
    """Return a share to four decimals; nearly all is not all.

    >>> to_four_decimals(0.99999)
    Decimal('0.9999')
    """
    return min(Decimal(f"{share:.4f}"), Decimal("0.9999")) if share < 1 else Decimal(1)


def percent(share: Decimal | float) -> str:
    """Return a share in words: to the percent, finer where it is nearly all or nearly nothing.

    >>> percent(0.7973), percent(0.984), percent(0.9996), percent(0.0002)
    ('about 80%', 'about 98.4%', 'over 99.9%', 'under 0.1%')
    """
    if share > Decimal("0.999"):
        return "over 99.9%"
    if share < Decimal("0.001"):
        return "under 0.1%"
    return f"about {share:.0%}" if Decimal("0.05") <= share <= Decimal("0.95") else f"about {share:.1%}"


def mean_and_deviation(limits: Limits) -> tuple[float, float]:
    """Return mean and standard deviation of a dimension [mm], as CHANCE says."""
    return float(limits.low + limits.high) / 2, float(limits.width) / 6


def _mean_and_deviation(hole: Limits, shaft: Limits) -> tuple[float, float]:
    """Return the mean clearance and its standard deviation [mm]."""
    mean = float(hole.low + hole.high - shaft.low - shaft.high) / 2
    return mean, math.hypot(float(hole.width), float(shaft.width)) / 6


@lru_cache(maxsize=1024)
def beyond_any_fit(nominal: Decimal) -> Window:
    """Return the clearances between which some preferred fit lies: H7/u6 is the tightest, H11/c11 the loosest.

    Source: preferred fits of ISO 286-1; sizes over 500 mm are taken as 500 mm.
    """
    size = min(nominal, fits.LARGEST)
    return Window(fits.window("H7/u6", size).lower, fits.window("H11/c11", size).upper)


@lru_cache(maxsize=1024)
def widest(limits: Limits) -> Limits:
    """Return a dimension without limits as wide as such a part may be: its nominal size and IT14 to either side.

    Source: common practice; general tolerances of machined parts lie within IT14.
    """
    size = max(min(limits.nominal, fits.LARGEST), Decimal("1.1"))
    allowed = fits.tolerance("IT14", size)
    return Limits(limits.nominal, max(limits.nominal - allowed, _ZERO), limits.nominal + allowed)


@lru_cache(maxsize=4096)
def compare(part: str, hole: Limits, shaft: Limits, mate: str, fit: FitWanted | None, part_is_hole: bool) -> Pair:
    """Judge a hole against a shaft.

    Args:
        part: what the part's dimension is called in messages, ``outer diameter``.
        hole: limits of the hole [mm].
        shaft: limits of the shaft [mm].
        mate: what the mate is called in messages.
        fit: the fit wanted; None where none was given.
        part_is_hole: whether the part is the one with the hole (a bearing on a shaft).
    """
    clearance = Window(tidy(hole.low - shaft.high), tidy(hole.high - shaft.low))
    own, other = (hole, shaft) if part_is_hole else (shaft, hole)
    head = f"{part} {named(own)}, {mate}: clearance {clearance.lower}..{clearance.upper} mm"
    open_sides = [name for name, side in ((part, own), (mate, other)) if side.lower is None]
    if open_sides:
        return _open(hole, shaft, clearance, fit, head, open_sides)
    if fit is None:
        return _without_fit(hole, clearance, head)
    return _with_fit(hole, shaft, clearance, fit, head)


def _numbers(clearance: Window, fit: FitWanted | None) -> dict[str, Decimal | str]:
    numbers: dict[str, Decimal | str] = {"clearance_lower": clearance.lower, "clearance_upper": clearance.upper}
    if fit is not None:
        numbers |= {"window_lower": fit.window.lower, "window_upper": fit.window.upper}
    return numbers


def _too_tight(hole: Limits, clearance: Window) -> str:
    return "does-not-enter" if clearance.upper < beyond_any_fit(hole.nominal).lower else "too-tight"


def _too_loose(hole: Limits, clearance: Window) -> str:
    return "rattles" if clearance.lower > beyond_any_fit(hole.nominal).upper else "too-loose"


_SAYS = {
    "does-not-enter": "it does not go in",
    "rattles": "it rattles",
    "too-tight": "tighter than the fit wanted",
    "too-loose": "looser than the fit wanted",
}


def _misfit(hole: Limits, clearance: Window, fit: FitWanted | None, head: str) -> Finding | None:
    """Return what is wrong for every pair, or None where some pair is within the fit (or within any fit)."""
    window = beyond_any_fit(hole.nominal) if fit is None else fit.window
    loosest = window.upper if fit is None or fit.loosest_upper is None else fit.loosest_upper
    if clearance.upper < window.lower:
        code = _too_tight(hole, clearance)
    elif clearance.lower > loosest:
        code = _too_loose(hole, clearance)
    else:
        return None
    wanted = "" if fit is None else f"; {fit.wanted} wants {window.lower}..{window.upper} ({fit.from_text})"
    return Finding(code, "wrong", f"{head}, {_SAYS[code]}{wanted}", _numbers(clearance, fit), LIMITS_SOURCE)


def _open(
    hole: Limits, shaft: Limits, clearance: Window, fit: FitWanted | None, head: str, open_sides: list[str]
) -> Pair:
    """Judge a pair of which one side has no limits: wrong only if it is wrong however wide that side may be."""
    wide_hole, wide_shaft = (side if side.lower is not None else widest(side) for side in (hole, shaft))
    worst = Window(tidy(wide_hole.low - wide_shaft.high), tidy(wide_hole.high - wide_shaft.low))
    misfit = _misfit(hole, worst, fit, head)
    if misfit is not None:
        return Pair("wrong", clearance, (misfit,))
    text = f"{head} by nominal size; the limits of the {' and of the '.join(open_sides)} are not stated"
    return Pair(
        "open", clearance, (Finding("limits-not-stated", "open", text, _numbers(clearance, fit), _COMMON),), None
    )


def _without_fit(hole: Limits, clearance: Window, head: str) -> Pair:
    misfit = _misfit(hole, clearance, None, head)
    if misfit is not None:
        return Pair("wrong", clearance, (misfit,))
    kind = fits.kind(clearance.lower, clearance.upper)
    text = f"{head}, {'an' if kind == 'interference' else 'a'} {kind} fit; which fit is wanted is not stated"
    return Pair(
        "open", clearance, (Finding("fit-not-stated", "open", text, _numbers(clearance, None), LIMITS_SOURCE),), None
    )


def _with_fit(hole: Limits, shaft: Limits, clearance: Window, fit: FitWanted, head: str) -> Pair:
    misfit = _misfit(hole, clearance, fit, head)
    if misfit is not None:
        return Pair("wrong", clearance, (misfit,))
    lower, upper = fit.window
    wanted = f"{lower}..{upper} ({fit.from_text})"
    numbers = _numbers(clearance, fit)
    if lower <= clearance.lower and clearance.upper <= upper:
        text = f"{head}, within {wanted}"
        findings = (Finding("within-fit", "fits", text, numbers, LIMITS_SOURCE), *_transition(hole, shaft, clearance))
        return Pair("fits", clearance, findings, Decimal(1), _pressing(clearance))
    share = share_between(float(lower), float(upper), *_mean_and_deviation(hole, shaft))
    sides = [
        side for side, beyond in (("tighter", clearance.lower < lower), ("looser", clearance.upper > upper)) if beyond
    ]
    if share:
        text = f"{head}; {percent(share)} of pairs are within {wanted}, the others {' or '.join(sides)} ({CHANCE})"
    else:
        text = f"{head}, looser than {wanted}, yet not looser than {fit.loosest_upper} at any pair's tightest"
    code = "some-pairs-" + "-or-".join(sides)
    findings = (
        Finding(code, "marginal", text, {**numbers, "share": share}, LIMITS_SOURCE),
        *_transition(hole, shaft, clearance),
    )
    return Pair("marginal", clearance, findings, share, _pressing(clearance))


def _transition(hole: Limits, shaft: Limits, clearance: Window) -> tuple[Finding, ...]:
    """Say of a pair that may come out tight or loose how often it is tight."""
    if not clearance.lower < 0 < clearance.upper:
        return ()
    share = share_between(-math.inf, 0.0, *_mean_and_deviation(hole, shaft))
    text = f"a transition fit: {percent(share)} of pairs have interference, the others slide ({CHANCE})"
    return (Finding("transition", "note", text, {"interference_share": share}, LIMITS_SOURCE),)


def _pressing(clearance: Window) -> tuple[str, ...]:
    """Return the cautions for a part that may have to be pressed in."""
    return (cautions.PRESS, cautions.GENERAL) if clearance.lower < 0 else ()


def made_for(reading: Reading, key: str, size: Limits, mate: str) -> JudgedReading:
    """Judge a part that is made for a bore or a shaft of one nominal size, which ``key`` names."""
    wanted = reading.dimensions.get(key)
    if not isinstance(wanted, Limits):
        text = f"the line does not say the {key.replace('_', ' ')} of the {reading.family}"
        return JudgedReading(reading, "open", None, (Finding("dimension-missing", "open", text, {}, "the line"),))
    article = "an" if reading.family[0] in "aeiou" else "a"
    text = f"{article} {reading.family} made for {wanted.nominal} mm; {mate}"
    source = reading.standards[0] if reading.standards else _COMMON
    numbers: dict[str, Decimal | str] = {"made_for": wanted.nominal, "size": size.nominal}
    if wanted.nominal == size.nominal:
        return JudgedReading(reading, "fits", None, (Finding("size-matches", "fits", text, numbers, source),))
    return JudgedReading(reading, "wrong", None, (Finding("wrong-size", "wrong", text, numbers, source),))


def seated(reading: Reading, part: Limits, seat: Limits, mate: Limits, where: str, part_is_hole: bool) -> JudgedReading:
    """Judge a part without a fit by the housing or shaft that such parts are made for.

    Args:
        reading: the part.
        part: its diameter [mm].
        seat: limits of the hole or shaft that it is made for [mm].
        mate: limits of the one there is [mm].
        where: what the mate is called in messages.
        part_is_hole: whether the part is the one with the hole (a bearing on a shaft).
    """
    source = f"common practice for a {reading.family}; ISO 286-1"
    numbers: dict[str, Decimal | str] = {"seat_lower": seat.low, "seat_upper": seat.high}
    text = f"a {reading.family} of {part.nominal} mm is made for {between(seat)}; {where}"
    share: Decimal | None = None
    if mate.lower is None and mate.nominal == part.nominal:
        found = Finding("limits-not-stated", "open", f"{text}, whose limits are not stated", numbers, source)
    elif seat.low <= mate.low and mate.high <= seat.high:
        found = Finding("seat-as-made-for", "fits", f"{text} lies within that", numbers, source)
    elif mate.high < seat.low or seat.high < mate.low:
        found = Finding("wrong-seat", "wrong", f"{text} lies outside", numbers, source)
    else:
        share = share_between(float(seat.low), float(seat.high), *mean_and_deviation(mate))
        text += f"; {percent(share)} of them lie within that ({CHANCE})"
        found = Finding("some-seats-outside", "marginal", text, {**numbers, "share": share}, source)
    known = part.lower is not None and mate.lower is not None
    hole, shaft = (part, mate) if part_is_hole else (mate, part)
    clearance = Window(tidy(hole.low - shaft.high), tidy(hole.high - shaft.low)) if known else None
    return JudgedReading(reading, worst((found,)), clearance, (found,), share)


@lru_cache(maxsize=1024)
def seat_of(size: Decimal, classes: tuple[str, str]) -> Limits | None:
    """Return the limits from the lower end of the first class to the upper end of the second; None where undefined."""
    try:
        first, last = (fits.limits(size, name) for name in classes)
    except fits.UndefinedClass:
        return None
    name = classes[0] if classes[0] == classes[1] else None
    return Limits(size, first.low, last.high, name)
