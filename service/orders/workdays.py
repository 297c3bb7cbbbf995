"""Working days: weekends and public holidays of a country, and days on which the workshop is closed.

Steps take working days; lead times are calendar days and know nothing of this. Source of the holidays: the library
``holidays``, which follows each country's law; a day that is one in some communities only does not count.

>>> days = WorkDays("DE", "BY")
>>> days.on_or_after(date(2027, 12, 25)), days.last_of(date(2027, 2, 5), 2)
(datetime.date(2027, 12, 27), datetime.date(2027, 2, 8))
"""

from datetime import date, timedelta
from functools import lru_cache
from typing import Protocol

DAY = timedelta(days=1)


class UnknownCountry(ValueError):  # noqa: N818 - it is the country that is unknown
    """No holidays are held for a country or its subdivision; the message says what there is."""


class _Calendar(Protocol):
    def is_working_day(self, key: date) -> bool:
        """Tell whether a day is no weekend and no holiday."""


class WorkDays:
    """The working days of a country; without one, every day but Saturday and Sunday."""

    def __init__(self, country: str = "", subdivision: str = "", closed: tuple[date, ...] = ()) -> None:
        """Take the calendar of a country.

        Raises:
            UnknownCountry: no holidays are held for it.
        """
        self._calendar = _calendar(country.upper(), subdivision.upper()) if country else None
        self._closed = frozenset(closed)
        self._working: dict[date, bool] = {}

    def is_working(self, day: date) -> bool:
        """Tell whether there is work on a day."""
        known = self._working.get(day)
        if known is None:
            by_law = day.weekday() < 5 if self._calendar is None else self._calendar.is_working_day(day)
            known = self._working[day] = by_law and day not in self._closed
        return known

    def on_or_after(self, day: date) -> date:
        """Return the first working day from a day on."""
        while not self.is_working(day):
            day += DAY
        return day

    def on_or_before(self, day: date) -> date:
        """Return the last working day up to a day."""
        while not self.is_working(day):
            day -= DAY
        return day

    def last_of(self, first: date, days: int) -> date:
        """Return the last of so many working days (1 or more) of which the first is given."""
        for _ in range(days - 1):
            first = self.on_or_after(first + DAY)
        return first

    def first_of(self, last: date, days: int) -> date:
        """Return the first of so many working days (1 or more) of which the last is given."""
        for _ in range(days - 1):
            last = self.on_or_before(last - DAY)
        return last


@lru_cache(maxsize=64)
def _calendar(country: str, subdivision: str) -> _Calendar:
    # Only orders that name a country pay for the library.
    import holidays

    try:
        found: _Calendar = holidays.country_holidays(country, subdiv=subdivision or None)
    except NotImplementedError:
        known = holidays.list_supported_countries()
        if country not in known:
            raise UnknownCountry("a country by its two letters of ISO 3166-1") from None
        raise UnknownCountry(f"a subdivision of {country}: {', '.join(known[country])}") from None
    return found
