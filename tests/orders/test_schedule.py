"""Dates of steps and kit: exact, held against simulation; what decides them; until when to order."""

import math
import random
from datetime import date, timedelta
from decimal import Decimal
from statistics import NormalDist
from typing import Any, ClassVar

import pytest

from service.orders.check import check
from service.orders.intake import parse_order
from service.orders.leadtime import Arrival, ranged, recorded
from service.orders.model import LeadTime, Order, OrderCheck, Step
from service.orders.schedule import Part, Plan, kit_dates, schedule, together
from service.strength.chance import Duration, lognormal_parameters
from service.verdict.model import CheckError

TODAY = date(2027, 1, 11)
RUNS = 20_000


def order(steps: list[dict[str, Any]], **options: Any) -> Order:
    """Return an order of three needs, N1 for a first step and N2, N3 for a second."""
    needs = [
        {"id": "N1", "quantity": 1, "step": "first", "presence": "yes"},
        {"id": "N2", "quantity": 1, "step": "second", "presence": "yes"},
        {"id": "N3", "quantity": 1, "step": "second", "presence": "yes"},
    ]
    return parse_order({"needs": needs, "steps": steps, "today": str(TODAY), **options}, TODAY)


def part(name: str, need: str, lead: LeadTime, shipment: str = "", ordered: bool = True) -> Part:
    """Return a part that was ordered today."""
    return Part(name, need, Arrival(since=TODAY, lead_time=lead), shipment or name, "A", ordered)


LEADS = {
    "L1": ranged(Decimal(5), Decimal(8), Decimal(30)),
    "L2": ranged(Decimal(10), Decimal(14), Decimal(60)),
    "L3": recorded([Decimal(9), Decimal(20), Decimal(16)]),
}


def drawn(lead: LeadTime, uniform: float) -> int:
    """Return the whole days that a lead time takes, from a number between 0 and 1."""
    mean, deviation = lognormal_parameters(Duration(lead.mean, lead.deviation))
    return math.ceil(math.exp(mean + deviation * NormalDist().inv_cdf(uniform)))


STEPS = [
    {"id": "first", "days": 3},
    {"id": "side", "days": 5},
    {"id": "second", "after": ["first", "side"], "days": 2},
    {"id": "last", "after": ["first", "second"], "days": 1},
]


@pytest.mark.parametrize("shipments", [("", "", ""), ("s", "s", ""), ("s", "s", "s")])
def test_the_product_is_what_simulation_finds(shipments: tuple[str, str, str]) -> None:
    """Steps one after the other and side by side, weekends and holidays, parts of one shipment together."""
    plan_of = order(STEPS, country="DE", subdivision="BY", start_on="2027-01-18")
    parts = [
        part(name, need, LEADS[name], shipment)
        for name, need, shipment in zip(LEADS, ("N1", "N2", "N3"), shipments, strict=True)
    ]
    plan = Plan(plan_of, parts)
    rng = random.Random(1)  # noqa: S311 - a simulation, no secret
    starts: dict[str, list[date]] = {step.id: [] for step in plan_of.steps}
    kits: list[date] = []
    for _ in range(RUNS):
        luck = {one.shipment: rng.random() for one in parts}
        arrives = {one.need: TODAY + timedelta(days=drawn(LEADS[one.id], luck[one.shipment])) for one in parts}
        free: dict[str, date] = {}
        for step in plan_of.steps:
            needs = {"first": ["N1"], "second": ["N2", "N3"]}.get(step.id, [])
            ready = max([plan.begin, *(free[name] for name in step.after), *(arrives[need] for need in needs)])
            start = plan.days.on_or_after(ready)
            free[step.id] = plan.free_after(start, step)
            starts[step.id].append(start)
        kits.append(max(arrives.values()))
    last = plan.steps["last"]
    for day in (TODAY + timedelta(days=n) for n in range(8, 90, 4)):
        share = sum(start <= day for start in starts["last"]) / RUNS
        assert plan.chance(last, day) == pytest.approx(share, abs=0.012), day
        share = sum(kit <= day for kit in kits) / RUNS
        assert together((one, day) for one in parts) == pytest.approx(share, abs=0.012), day
    found = schedule(plan_of, parts)
    for one in found.steps:
        ordered = sorted(starts[one.step.id])
        for chance, day in zip((0.5, 0.9), one.start, strict=True):
            assert day is not None
            low, high = ordered[int(RUNS * (chance - 0.012))], ordered[int(RUNS * (chance + 0.012))]
            assert low <= day <= high, (one.step.id, chance)


def test_a_shared_part_is_not_counted_twice() -> None:
    """Two ways lead from one part to the last step: its chance stands once, not squared."""
    plan_of = order(
        [{"id": "first"}, {"id": "a", "after": ["first"]}, {"id": "b", "after": ["first"]},
         {"id": "second", "after": ["a", "b"]}]
    )  # fmt: skip
    parts = [part("L1", "N1", LEADS["L1"])]
    plan = Plan(plan_of, parts)
    day = date(2027, 1, 22)
    assert plan.chance(plan.steps["second"], day) == pytest.approx(parts[0].arrival.by(day))


def test_an_irreversible_step_waits_for_everything_unless_its_needs_are_listed() -> None:
    """The kit's own day, moved to a working day."""
    parts = [part(name, need, LEADS[name]) for name, need in zip(LEADS, ("N1", "N2", "N3"), strict=True)]
    steps = [{"id": "first", "irreversible": True}, {"id": "second", "after": ["first"]}]
    found = schedule(order(steps), parts)
    kit = kit_dates(parts, TODAY)
    assert found.kit == kit
    assert kit.p90 is not None
    days = Plan(order(steps), parts).days
    assert found.steps[0].start.p90 == days.on_or_after(kit.p90)
    alone = schedule(order([{"id": "first", "irreversible": True, "needs": ["N1"]}, {"id": "second"}]), parts)
    assert alone.steps[0].start.p90 == days.on_or_after(parts[0].arrival.day(0.9))  # type: ignore[arg-type]


def test_steps_that_are_done_hold_up_no_more() -> None:
    """Their parts do not either."""
    steps = [
        {"id": "first", "days": 3, "done_on": "2027-01-08"},
        {"id": "second", "after": ["first"], "days": 1},
    ]
    late = Part("L1", "N1", Arrival(), "L1")
    found = schedule(order(steps), [late])
    assert found.steps[0].start.p50 == date(2027, 1, 8)
    assert found.steps[1].start.p50 == TODAY
    assert found.without_date == ("L1",)
    assert found.kit.p50 is None


def test_what_has_no_date_gives_its_steps_none() -> None:
    """The others keep theirs, and the kit says until when what has one is there."""
    steps = [{"id": "first"}, {"id": "second"}]
    found = schedule(order(steps), [Part("L1", "N1", Arrival(), "L1"), part("L2", "N2", LEADS["L2"])])
    assert found.kit.p50 is None
    assert found.known.p50 == part("L2", "N2", LEADS["L2"]).arrival.day(0.5)
    assert found.steps[0].waits_for == ("L1",)
    assert found.steps[1].start.p50 is not None


class TestDeciding:
    """Which part decides."""

    def test_chances_to_be_last_add_up_and_the_slowest_leads(self) -> None:
        """With ties on the same day they add up to a little more than one."""
        parts = [part(name, need, LEADS[name]) for name, need in zip(LEADS, ("N1", "N2", "N3"), strict=True)]
        found = schedule(order([]), parts).deciding
        assert found[0].id == "L2"
        assert 1 <= sum(one.chance_last for one in found) < 1.2
        assert found[0].saves_days > 0

    def test_it_is_what_simulation_finds(self) -> None:
        """Counted over many draws, ties for each."""
        parts = [part(name, need, LEADS[name]) for name, need in zip(LEADS, ("N1", "N2", "N3"), strict=True)]
        rng = random.Random(2)  # noqa: S311 - a simulation, no secret
        last = dict.fromkeys(LEADS, 0)
        for _ in range(RUNS):
            days = {name: drawn(lead, rng.random()) for name, lead in LEADS.items()}
            for name, day in days.items():
                last[name] += day == max(days.values())
        for one in schedule(order([]), parts).deciding:
            assert one.chance_last == pytest.approx(last[one.id] / RUNS, abs=0.012)

    def test_parts_of_one_shipment_decide_together(self) -> None:
        """They stand as one."""
        parts = [part("L1", "N1", LEADS["L1"], "s"), part("L2", "N2", LEADS["L2"], "s")]
        found = schedule(order([]), parts).deciding
        assert [(one.id, round(one.chance_last, 2)) for one in found] == [("L1, L2", 1.0)]

    def test_where_everything_is_here_nothing_decides(self) -> None:
        """The kit is complete today."""
        found = schedule(order([]), [Part("S1", "N1", Arrival(known=TODAY), "S1")])
        assert found.deciding == ()
        assert found.kit.p90 == TODAY


class TestLastOrder:
    """Until when to order."""

    def test_a_quote_counts_back_from_the_wanted_day_through_the_steps(self) -> None:
        """Done on Friday the 5th: two working days, three before them, so from Monday the 1st; 14 days before that."""
        lead = LeadTime(14, 0, "14 days as quoted")
        steps = [{"id": "first", "days": 3}, {"id": "second", "after": ["first"], "days": 2}]
        plan_of = order(steps, wanted_on="2027-02-05")
        found = schedule(plan_of, [part("L1", "N1", lead, ordered=False)])
        assert [(one.line, one.order_by, one.late_by) for one in found.order_by] == [("L1", date(2027, 1, 18), 0)]

    def test_with_a_start_it_counts_back_from_the_first_day_of_its_step(self) -> None:
        """The first step starts on Monday the 1st, the second on Thursday the 4th."""
        lead = LeadTime(14, 0, "14 days as quoted")
        steps = [{"id": "first", "days": 3}, {"id": "second", "after": ["first"], "days": 2}]
        plan_of = order(steps, start_on="2027-02-01")
        parts = [part("L1", "N1", lead, ordered=False), part("L2", "N2", lead, ordered=False)]
        found = {one.line: one.order_by for one in schedule(plan_of, parts).order_by}
        assert found == {"L1": date(2027, 1, 18), "L2": date(2027, 1, 21)}

    def test_what_is_too_late_says_by_how_many_days(self) -> None:
        """Ordered lines are not asked for."""
        lead = LeadTime(40, 0, "40 days as quoted")
        plan_of = order([{"id": "first"}, {"id": "second"}], start_on="2027-02-01")
        found = schedule(plan_of, [part("L1", "N1", lead, ordered=False), part("L2", "N2", lead)]).order_by
        assert [(one.line, one.order_by, one.late_by) for one in found] == [("L1", date(2026, 12, 23), 19)]

    def test_all_together_keep_the_confidence(self) -> None:
        """Each shipment gets its share, so that ordered on their last days all are there with nine in ten."""
        steps = [{"id": "first"}, {"id": "second"}]
        plan_of = order(steps, start_on="2027-06-01")
        parts = [
            part(name, need, lead, ordered=False)
            for (name, lead), need in zip(LEADS.items(), ("N1", "N2", "N3"), strict=True)
        ]
        last = {one.line: one.order_by for one in schedule(plan_of, parts).order_by}
        moved = [one._replace(arrival=Arrival(since=last[one.id], lead_time=one.arrival.lead_time)) for one in parts]
        assert together((one, date(2027, 6, 1)) for one in moved) >= 0.9
        later = [one._replace(arrival=Arrival(since=last[one.id] + timedelta(days=4), lead_time=one.arrival.lead_time))
                 for one in parts]  # fmt: skip
        assert together((one, date(2027, 6, 1)) for one in later) < 0.9

    def test_the_chance_of_the_wanted_day_is_exact(self) -> None:
        """Steps behind the arrival take their days."""
        steps = [{"id": "first", "days": 3}, {"id": "second", "after": ["first"], "days": 2}]
        plan_of = order(steps, wanted_on="2027-02-05")
        parts = [part("L1", "N1", LEADS["L1"])]
        assert schedule(plan_of, parts).wanted_chance == pytest.approx(parts[0].arrival.by(date(2027, 2, 1)))
        assert schedule(order(steps, wanted_on="2027-01-12"), parts).wanted_chance == 0
        assert schedule(order([], wanted_on="2027-02-05"), parts).wanted_chance == pytest.approx(
            parts[0].arrival.by(date(2027, 2, 5))
        )


def checked(**fields: Any) -> OrderCheck:
    """Check an order."""
    return check(parse_order({"today": "2027-01-15", **fields}, TODAY))


class TestFromAnOrder:
    """What an order says becomes arrivals."""

    NEED: ClassVar = {"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}
    LINE: ClassVar = {"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 6}

    def test_days_count_from_the_order(self) -> None:
        """Ordered on the 11th, 14 days; not ordered, from today."""
        line = {**self.LINE, "lead_time": 14}
        assert checked(needs=[self.NEED], lines=[{**line, "ordered_on": "2027-01-11"}]).schedule.kit.p50 == date(
            2027, 1, 25
        )
        assert checked(needs=[self.NEED], lines=[line]).schedule.kit.p50 == date(2027, 1, 29)

    def test_a_suppliers_record_stands_for_lines_without_a_lead_time(self) -> None:
        """What arrived in this order feeds it."""
        arrived = {**self.LINE, "id": "L2", "supplier": "A", "ordered_on": "2026-12-01", "received_on": "2026-12-11"}
        needs = [{**self.NEED, "quantity": 12}]
        found = checked(needs=needs, lines=[{**self.LINE, "supplier": "A"}, arrived])
        assert found.schedule.kit.p50 == date(2027, 1, 25)
        found = checked(
            needs=needs, lines=[{**self.LINE, "supplier": "A"}, arrived], suppliers=[{"id": "A", "record": [30, 40]}]
        )
        assert found.order.supplies[0].lead_time == recorded([Decimal(30), Decimal(40), Decimal(10)], "A")

    def test_a_supplier_that_is_always_late_has_its_quotes_corrected(self) -> None:
        """From two comparisons on."""
        record = [{"quoted": 10, "actual": 15}, {"quoted": 20, "actual": 30}]
        found = checked(
            needs=[self.NEED],
            lines=[{**self.LINE, "supplier": "A", "lead_time": 14}],
            suppliers=[{"id": "A", "record": record}],
        )
        assert found.schedule.kit.p50 == date(2027, 2, 5)

    def test_an_overdue_quote_gives_no_day_and_says_so(self) -> None:
        """Ask the supplier."""
        line = {**self.LINE, "lead_time": 14, "ordered_on": "2026-12-01", "supplier": "B"}
        found = checked(needs=[self.NEED], lines=[line])
        assert found.schedule.kit.p50 is None
        assert found.schedule.without_date == ("L1",)
        assert any("overdue" in note and "ask B" in note for note in found.notes)

    def test_out_of_stock_counts_from_the_day_it_is_back(self) -> None:
        """The lead time follows."""
        line = {**self.LINE, "lead_time": 5, "available": "2027-03-01"}
        assert checked(needs=[self.NEED], lines=[line]).schedule.kit.p50 == date(2027, 3, 6)

    def test_what_is_still_to_be_ordered_counts_as_ordered_today(self) -> None:
        """And the schedule says that it is assumed."""
        found = checked(needs=[{**self.NEED, "lead_time": 10}], lines=[{**self.LINE, "quantity": 4, "lead_time": 3}])
        assert found.schedule.kit.p50 == date(2027, 1, 25)
        assert any("ordered today" in one for one in found.schedule.assumed)

    def test_a_circle_of_steps_is_refused_by_name(self) -> None:
        """Each step of it."""
        steps = [{"id": "strip", "after": ["plate"]}, {"id": "plate", "after": ["strip"]}]
        with pytest.raises(CheckError, match=r"strip -> plate -> strip|plate -> strip -> plate"):
            checked(needs=[self.NEED], steps=steps)


def test_a_step_of_no_days_takes_none() -> None:
    """Its followers start on the same day."""
    plan = Plan(order([{"id": "first"}, {"id": "second", "after": ["first"]}]), [])
    assert plan.free_after(TODAY, Step("x")) == TODAY
    assert plan.free_after(TODAY, Step("x", days=1)) == TODAY + timedelta(days=1)
    assert plan.chance(plan.steps["second"], TODAY) == 1
    assert plan.chance(plan.steps["second"], TODAY - timedelta(days=1)) == 0
