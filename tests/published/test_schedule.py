"""Printed examples of scheduling: working days, holidays, three-point estimates, networks, chances that come together.

Rows of kind ``agrees`` have to be met. ``error`` rows are slips of their source, ``differs`` rows rest on another
basis, named in the note: there our figure must miss the printed one and be the right one.
"""

import csv
import json
import math
from collections import Counter
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from service.orders.intake import parse_order
from service.orders.leadtime import Arrival, product, ranged
from service.orders.model import LeadTime
from service.orders.schedule import Part, Plan, schedule
from service.orders.workdays import DAY, WorkDays

with (Path(__file__).parent / "schedule.csv").open(encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))

START = date(2027, 1, 4)


def workday(start: str, days: int, closed: tuple[str, ...] = ()) -> str:
    """Return the day that is so many working days after another."""
    calendar = WorkDays(closed=tuple(date.fromisoformat(one) for one in closed))
    first = calendar.on_or_after(date.fromisoformat(start) + DAY)
    return calendar.last_of(first, days).isoformat()


def holidays(country: str, subdivision: str, year: int) -> str:
    """Return the holidays of a year: those on weekdays that are no working days, those on weekends as printed."""
    from holidays import country_holidays

    law = country_holidays(country, subdiv=subdivision, years=year)
    calendar = WorkDays(country, subdivision)
    assert not any(calendar.is_working(day) for day in law)
    return " ".join(day.isoformat() for day in sorted(law))


def together(chances: list[float]) -> float:
    """Return the chance of all of them."""
    return product([[one] for one in chances])


def lognormal_after(theta: float, omega: float, time: int) -> float:
    """Return the chance that a lognormal time, given by the moments of its logarithm, has not passed by a day."""
    mean = math.exp(theta + omega**2 / 2)
    deviation = mean * math.sqrt(math.expm1(omega**2))
    start = date(2000, 1, 1)
    arrival = Arrival(since=start, lead_time=LeadTime(mean, deviation, ""))
    return 1 - arrival.by(start + timedelta(days=time))


def pert(low: int, likely: int, high: int) -> list[float]:
    """Return mean and variance of a three-point estimate."""
    lead = ranged(Decimal(low), Decimal(likely), Decimal(high))
    return [lead.mean, lead.deviation**2]


def pert_deviation(low: int, likely: int, high: int) -> list[float]:
    """Return mean and standard deviation of a three-point estimate."""
    lead = ranged(Decimal(low), Decimal(likely), Decimal(high))
    return [lead.mean, lead.deviation]


def network(steps: dict[str, tuple[int, list[str]]], latest: bool) -> dict[str, list[int]]:
    """Return early start and finish, and late ones, of each step [working days from the start]."""
    fields: dict[str, Any] = {
        "needs": [{"id": "N1", "quantity": 1, "presence": "yes"}],
        "steps": [{"id": name, "days": days, "after": after} for name, (days, after) in steps.items()],
        "today": START.isoformat(),
        "start_on": START.isoformat(),
    }
    plan = Plan(parse_order(fields, START), [])

    def place(day: date) -> int:
        return sum(plan.days.is_working(START + timedelta(days=n)) for n in range((day - START).days))

    early = {one.step.id: one for one in schedule(parse_order(fields, START), []).steps}
    found: dict[str, list[int]] = {}
    for name, one in early.items():
        assert one.start.p50 is not None
        assert one.finish.p50 is not None
        found[name] = [place(one.start.p50), place(one.finish.p50) + 1]
    if not latest:
        return found
    end = max(one.finish.p50 for one in early.values() if one.finish.p50 is not None)
    needs = [{"id": f"N{name}", "quantity": 1, "step": name, "presence": "yes"} for name in steps]
    late = parse_order({**fields, "needs": needs, "wanted_on": end.isoformat()}, START)
    at_once = LeadTime(0, 0, "at once")
    parts = [
        Part(f"N{name}", f"N{name}", Arrival(since=START, lead_time=at_once), name, ordered=False) for name in steps
    ]
    for one in schedule(late, parts).order_by:
        days = steps[one.line.removeprefix("N")][0]
        start = place(one.order_by)
        found[one.line.removeprefix("N")] += [start, start + days]
    return found


def shown(found: dict[str, list[int]]) -> str:
    """Return a network as its row prints it."""
    return "; ".join(f"{name} {' '.join(map(str, numbers))}" for name, numbers in sorted(found.items()))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_the_printed_example_is_met(row: dict[str, str]) -> None:
    """Within the last digit that is printed."""
    inputs = json.loads(row["inputs"])
    if row["what"] in ("workday", "holidays"):
        found = globals()[row["what"]](**inputs)
        assert found == (row["right"] or row["expected"])
        assert (found == row["expected"]) == (row["kind"] == "agrees")
    elif row["what"] == "network":
        assert shown(network(inputs, len(row["expected"].split(";")[0].split()) > 3)) == row["expected"]
    else:
        got = globals()[row["what"]](**inputs)
        numbers = got if isinstance(got, list) else [got]
        printed = [float(one) for one in row["expected"].split()]
        tolerance = float(row["tolerance"])
        met = [abs(one - other) <= tolerance for one, other in zip(numbers, printed, strict=True)]
        if row["kind"] == "error":
            assert not all(met)
            assert numbers == [pytest.approx(float(row["right"]), abs=tolerance)]
        else:
            assert all(met), numbers


def test_every_row_names_its_source() -> None:
    """And no source fills the table by itself."""
    assert all(row["source"] for row in ROWS)
    assert max(Counter(row["table"] for row in ROWS).values()) <= 40
    assert {row["kind"] for row in ROWS} == {"agrees", "error", "differs"}
