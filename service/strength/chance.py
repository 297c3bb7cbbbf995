"""Shares and chances: pairs within a fit, finish dates, good pieces among those bought, spares.

Distributions are assumed, never known: centred normal with a tolerance of six standard deviations, or uniform as the
cautious choice. Sources: standard probability; PERT by its three-point formulas. Stacks of several parts belong to
``service.strength.stacks``.

>>> hole = Limits(Decimal(5), Decimal("5.000"), Decimal("5.012"))
>>> pin = Limits(Decimal(5), Decimal("5.004"), Decimal("5.012"))
>>> round(share_of_interference(hole, pin).share, 3)
0.797
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from statistics import NormalDist
from typing import Literal

from reference.quantities import Limits

Distribution = Literal["normal", "uniform"]
Number = Decimal | float

SIGMAS = 6
"""Standard deviations in a tolerance of a centred normal process (Cp = 1); common practice."""

_STANDARD = NormalDist()


@dataclass(frozen=True, slots=True)
class Share:
    """A share of pairs or pieces from 0 to 1, with the distribution that it rests on."""

    share: float
    worst_case: tuple[float, float]
    mean: float
    standard_deviation: float
    assumed: tuple[str, ...]
    source: str = "clearance = hole - shaft; means subtract, variances add"


def deviation_of(limits: Limits, distribution: Distribution = "normal") -> float:
    """Return the standard deviation assumed for a tolerance [mm]: T/6, or T/sqrt(12) where uniform."""
    return float(limits.width) / (SIGMAS if distribution == "normal" else math.sqrt(12))


def share_within(
    window_lower: Number,
    window_upper: Number,
    hole: Limits,
    shaft: Limits,
    distribution: Distribution = "normal",
) -> Share:
    """Return the share of pairs whose clearance, hole minus shaft, lies within a window [mm].

    Every piece is taken as within its limits: a window that holds the worst case holds all pairs, and one that misses
    it holds none.

    Raises:
        ValueError: the window is the wrong way round.
    """
    low, high = float(window_lower), float(window_upper)
    if low > high:
        raise ValueError(
            f"window_lower {low:g} is above window_upper {high:g}; accepted is for example -0.016 to 0.011"
        )
    return _share(low, high, hole, shaft, distribution)


def share_of_interference(hole: Limits, shaft: Limits, distribution: Distribution = "normal") -> Share:
    """Return the share of pairs in which the shaft is larger than its hole."""
    return _share(-math.inf, 0.0, hole, shaft, distribution)


def _share(low: float, high: float, hole: Limits, shaft: Limits, distribution: Distribution) -> Share:
    # Exact decimals at the limits, so that a window that ends on a limit is not missed by rounding.
    least, most = float(hole.low - shaft.high), float(hole.high - shaft.low)
    mean = float(hole.low + hole.high - shaft.low - shaft.high) / 2
    deviation = math.hypot(deviation_of(hole, distribution), deviation_of(shaft, distribution))
    if low <= least and most <= high:
        share = 1.0
    elif high < least or most < low:
        share = 0.0
    elif deviation == 0:
        share = float(low <= mean <= high)
    elif distribution == "normal":
        share = normal_share(low, high, mean, deviation)
    else:
        widths = float(hole.width), float(shaft.width)
        share = _difference_below(high - mean, *widths) - _difference_below(low - mean, *widths)
    spread = (
        f"each diameter normal about the middle of its tolerance, standard deviation T/{SIGMAS}"
        if distribution == "normal"
        else "each diameter anywhere in its tolerance alike"
    )
    assumed = (spread, "hole and shaft are picked independently", "bought parts are often off centre")
    return Share(min(max(share, 0.0), 1.0), (least, most), mean, deviation, assumed)


def normal_share(low: float, high: float, mean: float, standard_deviation: float) -> float:
    """Return the share of a normal distribution between two values."""
    return _STANDARD.cdf((high - mean) / standard_deviation) - _STANDARD.cdf((low - mean) / standard_deviation)


def normal_value(share: float, mean: float, standard_deviation: float) -> float:
    """Return the value that a share of a normal distribution stays below."""
    return mean + _STANDARD.inv_cdf(share) * standard_deviation


def interference_chance(hole_mean: float, hole_deviation: float, shaft_mean: float, shaft_deviation: float) -> float:
    """Return the chance that a shaft is larger than its hole, from means and standard deviations: Phi(-m/s)."""
    return _STANDARD.cdf((shaft_mean - hole_mean) / math.hypot(hole_deviation, shaft_deviation))


def mean_for_risk(least: float, risk: float, standard_deviation: float) -> float:
    """Return the mean clearance at which only a share ``risk`` falls below a least clearance."""
    return least - _STANDARD.inv_cdf(risk) * standard_deviation


def _difference_below(offset: float, one: float, other: float) -> float:
    """Return the share of the difference of two centred uniform values that lies below an offset.

    The density is a trapezoid with parallel sides |one - other| and one + other.
    """
    if offset == math.inf or offset == -math.inf:
        return float(offset > 0)
    flat, foot = abs(one - other) / 2, (one + other) / 2
    height = 1 / max(one, other)
    distance = min(abs(offset), foot)
    within = height * min(distance, flat)
    if distance > flat:
        ramp = foot - flat
        within += height * ((distance - flat) - (distance - flat) ** 2 / (2 * ramp))
    return 0.5 + math.copysign(within, offset)


def share_outside(lower: Number, upper: Number, mean: Number, standard_deviation: Number) -> float:
    """Return the share of a normal process outside two limits."""
    return 1 - normal_share(float(lower), float(upper), float(mean), float(standard_deviation))


# Dates


@dataclass(frozen=True, slots=True)
class Duration:
    """An uncertain duration: mean and standard deviation, in one unit of time."""

    mean: float
    standard_deviation: float


def pert(low: float, likely: float, high: float) -> Duration:
    """Return mean (a + 4 m + b)/6 and standard deviation (b - a)/6 of a three-point estimate.

    Raises:
        ValueError: low, likely and high are not in that order.
    """
    if not low <= likely <= high:
        raise ValueError(f"lead_time low {low:g}, likely {likely:g}, high {high:g} must rise, for example 10, 14, 60")
    return Duration((low + 4 * likely + high) / 6, (high - low) / 6)


def in_series(durations: Iterable[Duration]) -> Duration:
    """Return the duration of steps one after the other: means and variances add, if they are independent."""
    steps = list(durations)
    return Duration(sum(step.mean for step in steps), math.hypot(*(step.standard_deviation for step in steps)))


def done_by(time: float, duration: Duration) -> float:
    """Return the chance that a normal duration ends by a time."""
    if duration.standard_deviation == 0:
        return float(time >= duration.mean)
    return _STANDARD.cdf((time - duration.mean) / duration.standard_deviation)


def date_for(chance: float, duration: Duration) -> float:
    """Return the time by which a normal duration ends with a chance."""
    return normal_value(chance, duration.mean, duration.standard_deviation)


def lognormal_parameters(duration: Duration) -> tuple[float, float]:
    """Return mean and standard deviation of the logarithm: a lead time has a long right tail and no negative values."""
    variance = math.log1p((duration.standard_deviation / duration.mean) ** 2)
    return math.log(duration.mean) - variance / 2, math.sqrt(variance)


def arrived_by(time: float, lead_time: Duration) -> float:
    """Return the chance that a lognormal lead time has passed by a time."""
    if time <= 0:
        return 0.0
    if lead_time.standard_deviation == 0:
        return float(time >= lead_time.mean)
    mean, deviation = lognormal_parameters(lead_time)
    return _STANDARD.cdf((math.log(time) - mean) / deviation)


def arrival_for(chance: float, lead_time: Duration) -> float:
    """Return the time by which a lognormal lead time has passed with a chance."""
    if lead_time.standard_deviation == 0:
        return lead_time.mean
    mean, deviation = lognormal_parameters(lead_time)
    return math.exp(mean + _STANDARD.inv_cdf(chance) * deviation)


def all_arrived(chances_by_group: Sequence[Sequence[float]]) -> float:
    """Return the chance that everything is there: the product over groups of the least chance within each.

    A group is what comes from one supplier or on one ship: it fails together.
    """
    return math.prod(min(group) for group in chances_by_group if group)


# Good pieces and spares


def enough_good(bought: int, needed: int, defect_rate: float) -> float:
    """Return the chance that of the pieces bought at least those needed are good (binomial, cumulative).

    Raises:
        ValueError: a count below 0 or a rate outside 0 to 1.
    """
    if bought < 0 or needed < 0 or not 0 <= defect_rate <= 1:
        raise ValueError(f"bought {bought}, needed {needed}, defect_rate {defect_rate:g}: expected counts and 0 to 1")
    good = 1 - defect_rate
    return sum(math.comb(bought, bad) * defect_rate**bad * good ** (bought - bad) for bad in range(bought - needed + 1))


def buy_for(needed: int, defect_rate: float, confidence: float = 0.95) -> int:
    """Return how many pieces to buy so that enough of them are good with a confidence."""
    bought = needed
    while enough_good(bought, needed, defect_rate) < confidence:
        bought += 1
    return bought


def poisson_at_most(count: int, expected: float) -> float:
    """Return the chance of at most that many failures where ``expected`` are expected (Poisson, cumulative)."""
    return sum(
        math.exp(-expected + k * math.log(expected) - math.lgamma(k + 1)) if expected else float(k == 0)
        for k in range(count + 1)
    )


def spares_for(expected: float, confidence: float = 0.95) -> int:
    """Return the smallest number of spares that covers the failures of one interval with a confidence."""
    spares = 0
    while poisson_at_most(spares, expected) < confidence:
        spares += 1
    return spares


def expected_failures(units: int, hours: float, mean_hours_between_failures: float) -> float:
    """Return how many failures to expect of that many units in that many hours each."""
    return units * hours / mean_hours_between_failures
