"""Lead times as distributions over days, and what is known by today."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.orders.leadtime import Arrival, product, quoted, ranged, recorded, scaled

START = date(2027, 1, 11)
RANGE = ranged(Decimal(10), Decimal(14), Decimal(60))


def test_a_quoted_number_is_taken_as_it_stands() -> None:
    """All at once on that day."""
    arrival = Arrival(since=START, lead_time=quoted(Decimal(14)))
    assert (arrival.by(START + timedelta(days=13)), arrival.by(START + timedelta(days=14))) == (0, 1)
    assert arrival.day(0.5) == arrival.day(0.9) == START + timedelta(days=14)


def test_a_range_has_the_mean_and_deviation_of_pert() -> None:
    """(10 + 4*14 + 60)/6 = 21 and 50/6; half of such parts come before the mean, since the tail is long."""
    assert (RANGE.mean, round(RANGE.deviation, 3)) == (21, 8.333)
    median = Arrival(since=START, lead_time=RANGE).day(0.5)
    assert median is not None
    assert median - START < timedelta(days=21)


def test_a_record_has_its_own_mean_and_deviation() -> None:
    """A single entry has no spread."""
    found = recorded([Decimal(12), Decimal(15), Decimal(40)], "A")
    assert (round(found.mean, 3), round(found.deviation, 3)) == (22.333, 15.373)
    assert found.said == "A: 12 to 40 days in 3 orders so far"
    assert recorded([Decimal(12)]).deviation == 0


def test_a_quote_is_corrected_by_what_the_supplier_really_took() -> None:
    """Twice 1.5 times the quote: 14 days are 21."""
    found = scaled(Decimal(14), [Decimal("1.5"), Decimal("1.5")], "A")
    assert (found.mean, found.deviation) == (21, 0)
    assert "1.50 times" in found.said


@given(st.integers(0, 200), st.integers(0, 120))
def test_what_has_not_come_yet_comes_later(day: int, waited: int) -> None:
    """Known not to be here, the rest of the distribution stands for the whole."""
    when = START + timedelta(days=day)
    awaited = START + timedelta(days=waited)
    before = Arrival(since=START, lead_time=RANGE)
    after = Arrival(since=START, lead_time=RANGE, awaited=awaited)
    if day <= waited:
        assert after.by(when) == 0
    else:
        whole = 1 - before.by(awaited)
        assert after.by(when) == pytest.approx((before.by(when) - before.by(awaited)) / whole)
        assert after.by(when) <= before.by(when) + 1e-12


@given(st.floats(0.01, 0.99))
def test_the_day_of_a_chance_is_the_first_with_it(chance: float) -> None:
    """One day earlier it is less."""
    arrival = Arrival(since=START, lead_time=RANGE)
    day = arrival.day(chance)
    assert day is not None
    assert arrival.by(day) >= chance > arrival.by(day - timedelta(days=1))


def test_beyond_a_single_quote_nobody_knows() -> None:
    """A quote of 14 days says nothing on the sixteenth; on the day itself it still may come."""
    lead = quoted(Decimal(14))
    due = Arrival(since=START, lead_time=lead, awaited=START + timedelta(days=13))
    overdue = Arrival(since=START, lead_time=lead, awaited=START + timedelta(days=14))
    assert (due.dated, due.day(0.9)) == (True, START + timedelta(days=14))
    assert (overdue.dated, overdue.day(0.5), overdue.by(date(2030, 1, 1))) == (False, None, 0)


def test_what_has_no_lead_time_has_no_day() -> None:
    """And what is here is here."""
    assert (Arrival().dated, Arrival().day(0.5), Arrival().by(START)) == (False, None, 0)
    here = Arrival(known=START)
    assert (here.by(START - timedelta(days=1)), here.by(START), here.day(0.9)) == (0, 1, START)


def test_lead_times_of_zero_are_at_once() -> None:
    """From the shelf."""
    assert Arrival(since=START, lead_time=quoted(Decimal(0))).day(0.9) == START


def test_a_shipment_comes_together() -> None:
    """Within it the least chance counts, between them the product."""
    assert product([[0.9, 0.8], [0.5]]) == pytest.approx(0.4)
    assert product([]) == 1
