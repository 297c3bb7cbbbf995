"""Working days of a country and of a workshop."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.orders.workdays import UnknownCountry, WorkDays

DAYS = st.dates(date(2020, 1, 1), date(2035, 12, 31))
BAVARIA = WorkDays("DE", "BY", (date(2027, 2, 15),))


def test_weekends_holidays_and_closed_days_are_none() -> None:
    """Corpus Christi is one in Bavaria, not in all of Germany."""
    corpus_christi = date(2027, 5, 27)
    assert not BAVARIA.is_working(corpus_christi)
    assert WorkDays("DE").is_working(corpus_christi)
    assert not WorkDays("de", "by").is_working(corpus_christi)
    assert not WorkDays("DE").is_working(date(2027, 3, 29))
    assert WorkDays().is_working(date(2027, 3, 29))
    assert not WorkDays().is_working(date(2027, 3, 28))
    assert not BAVARIA.is_working(date(2027, 2, 15))


@given(DAYS, st.integers(1, 40))
def test_counting_on_and_back_again_is_where_it_began(day: date, days: int) -> None:
    """From a working day."""
    first = BAVARIA.on_or_after(day)
    last = BAVARIA.last_of(first, days)
    assert BAVARIA.first_of(last, days) == first
    span = (last - first).days + 1
    assert sum(BAVARIA.is_working(first + timedelta(days=n)) for n in range(span)) == days


@given(DAYS)
def test_the_nearest_working_day_is_one(day: date) -> None:
    """And none lies between."""
    after, before = BAVARIA.on_or_after(day), BAVARIA.on_or_before(day)
    assert before <= day <= after
    assert BAVARIA.is_working(after)
    assert BAVARIA.is_working(before)
    assert not any(BAVARIA.is_working(before + timedelta(days=n)) for n in range(1, (after - before).days))


@pytest.mark.parametrize(
    ("country", "subdivision", "says"), [("XX", "", "ISO 3166"), ("DE", "QQ", "subdivision of DE")]
)
def test_what_is_not_held_is_named(country: str, subdivision: str, says: str) -> None:
    """With what is."""
    with pytest.raises(UnknownCountry, match=says):
        WorkDays(country, subdivision)
