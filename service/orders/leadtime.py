"""Lead times and arrivals as distributions over days.

A range {low, likely, high} and a supplier's record become a lognormal distribution with their mean and standard
deviation (long right tail, nothing below zero); a single quoted number is taken as it stands. What is known to be not
here yet is conditioned on that. Sources: PERT three-point formulas; lognormal lead times are common practice.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from functools import lru_cache
from statistics import fmean, stdev

from service.orders.model import LeadTime
from service.strength.chance import Duration, arrived_by, pert

LONGEST_WAIT = 3650
"""Days after which a date is no date any more."""

LEAST_CHANCE = 1e-9
"""Below this chance of still being on its way something is overdue beyond what the distribution knows."""


def quoted(days: Decimal) -> LeadTime:
    """Return a lead time that is one number, taken as it stands."""
    return LeadTime(float(days), 0.0, f"{days} days as quoted")


def ranged(low: Decimal, likely: Decimal, high: Decimal) -> LeadTime:
    """Return a lead time of a three-point estimate.

    Raises:
        ValueError: they do not rise.
    """
    duration = pert(float(low), float(likely), float(high))
    return LeadTime(duration.mean, duration.standard_deviation, f"{low} to {high} days, {likely} likely")


def recorded(days: Sequence[Decimal], of: str = "") -> LeadTime:
    """Return a lead time of a record of past ones; a single one is taken as it stands."""
    numbers = [float(one) for one in days]
    whose = f"{of}: " if of else ""
    if len(numbers) == 1:
        return LeadTime(numbers[0], 0.0, f"{whose}{days[0]} days the last time")
    return LeadTime(
        fmean(numbers), stdev(numbers), f"{whose}{min(days)} to {max(days)} days in {len(days)} orders so far"
    )


def scaled(quote: Decimal, ratios: Sequence[Decimal], of: str) -> LeadTime:
    """Return a quoted lead time corrected by how long the supplier really took for each day that it quoted."""
    numbers = [float(one) for one in ratios]
    mean, deviation = fmean(numbers), stdev(numbers) if len(numbers) > 1 else 0.0
    said = f"{quote} days quoted; {of} took {mean:.2f} times its quote in {len(numbers)} orders so far"
    return LeadTime(float(quote) * mean, float(quote) * deviation, said)


@dataclass(frozen=True, slots=True)
class Arrival:
    """When something arrives: on a known day, or a lead time after it was (or is) ordered.

    ``since`` is the day of the order; ``awaited`` the day up to which it is known not to have come, None where nothing
    is known of that; ``lead_time`` None without a ``known`` day means that nobody knows.
    """

    known: date | None = None
    since: date | None = None
    lead_time: LeadTime | None = None
    awaited: date | None = None

    @property
    def dated(self) -> bool:
        """Tell whether a day can be given at all."""
        if self.known is not None:
            return True
        return self.lead_time is not None and self.since is not None and self._still_coming() > LEAST_CHANCE

    def _still_coming(self) -> float:
        return 1 - self._within(self.awaited) if self.awaited is not None else 1.0

    def _within(self, day: date) -> float:
        assert self.since is not None  # noqa: S101 - only asked where there is a lead time
        assert self.lead_time is not None  # noqa: S101
        days = (day - self.since).days
        return _passed(days, self.lead_time.mean, self.lead_time.deviation) if days >= 0 else 0.0

    def by(self, day: date) -> float:
        """Return the chance that it is here by the end of a day; 0 where nobody knows."""
        if self.known is not None:
            return float(day >= self.known)
        if not self.dated or (self.awaited is not None and day <= self.awaited):
            return 0.0
        passed = 0.0 if self.awaited is None else self._within(self.awaited)
        return (self._within(day) - passed) / (1 - passed)

    def day(self, chance: float) -> date | None:
        """Return the first day by whose end it is here with a chance; None where nobody knows."""
        if self.known is not None:
            return self.known
        if not self.dated or self.since is None:
            return None
        low, high = 0, LONGEST_WAIT
        if self.by(self.since + timedelta(days=high)) < chance:
            return None
        while low < high:
            middle = (low + high) // 2
            if self.by(self.since + timedelta(days=middle)) >= chance:
                high = middle
            else:
                low = middle + 1
        return self.since + timedelta(days=low)


@lru_cache(maxsize=200_000)
def _passed(days: int, mean: float, deviation: float) -> float:
    """Return the chance that a lead time has passed after so many days; many lines share one."""
    return arrived_by(days, Duration(mean, deviation)) if mean else 1.0


def product(chances: Sequence[Sequence[float]]) -> float:
    """Return the chance that everything is there: the product over shipments of the least chance within each.

    Parts of one shipment come together, so the slowest of them stands for all.
    """
    return math.prod(min(group) for group in chances if group)
