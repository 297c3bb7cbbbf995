"""When is the kit complete, when can each step start, what decides it, and until when has the rest to be ordered?

A step can start when everything that it waits for is there and every step before it is done; steps take working days.
So its start is a maximum of monotone functions of the arrivals, and the chance that it starts by a day is exactly the
product, over independent shipments, of the chance that each is there by the last day on which it may arrive for that.
Parts of one stated shipment are not independent: they come together. Nothing is simulated.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, timedelta
from functools import cached_property
from types import MappingProxyType
from typing import NamedTuple

from service.orders.leadtime import LONGEST_WAIT, Arrival, product
from service.orders.model import Dates, Deciding, LastOrder, Order, Schedule, Step, StepDates
from service.orders.workdays import DAY, WorkDays

HALF, NINE_TENTHS = 0.5, 0.9
NOBODY_KNOWS = Dates(None, None)
MOST_DECIDING = 10
LEAST_DECIDING = 0.005

CALENDAR_DAYS = "lead times are calendar days, the days of steps working days"
AS_ORDERED_TODAY = "what is not ordered yet is reckoned as ordered today"
LOGNORMAL = "lead times with a range or a record are taken as lognormal, with the same mean and standard deviation"
SINGLE = "a single quoted lead time is taken as it stands: a range or the supplier's record would say more"
INDEPENDENT = "lines arrive independently unless a shipment is stated"


class Part(NamedTuple):
    """Something that has to arrive for a need: a lot of a line, or what is still to be ordered."""

    id: str
    need: str
    arrival: Arrival
    shipment: str
    supplier: str = ""
    ordered: bool = True


class Plan:
    """The step graph of an order with the parts that each step waits for."""

    def __init__(self, order: Order, parts: Sequence[Part]) -> None:
        """Take the parts; which step waits for which follows from the steps."""
        self.order = order
        self.days = WorkDays(order.country, order.subdivision, order.closed_on)
        self.begin = max(order.start_on or order.today, order.today)
        self.steps = {step.id: step for step in order.steps}
        self.waits = {step.id: self._waits_for(step, parts) for step in order.steps}

    def _waits_for(self, step: Step, parts: Sequence[Part]) -> tuple[Part, ...]:
        wanted = needs_of(step, self.order)
        return tuple(part for part in parts if part.need in wanted)

    def upstream(self, step: Step) -> tuple[Step, ...]:
        """Return a step and every step before it that is not done, last first."""
        found: dict[str, Step] = {step.id: step}
        for one in reversed(self.order.steps):
            if one.id in found and one.done_on is None:
                found.update({name: self.steps[name] for name in one.after})
        return tuple(one for one in reversed(self.order.steps) if one.id in found and one.done_on is None)

    def free_after(self, start: date, step: Step) -> date:
        """Return the first day, working or not, after a step that starts on a working day."""
        return start if step.days == 0 else self.days.last_of(start, step.days) + DAY

    def latest(self, step: Step, start: date) -> Mapping[str, date] | None:
        """Return the last day on which each step up to this one may start for it to start by a day; None if past.

        A part may arrive on the very day.
        """
        found = {step.id: self.days.on_or_before(start)}
        for one in self.upstream(step):
            if one.id not in found:
                continue
            for name in one.after:
                before = self.steps[name]
                if before.done_on is not None:
                    if before.done_on + (DAY if before.days else timedelta()) > found[one.id]:
                        return None
                    continue
                last = found[one.id]
                if before.days:
                    last = self.days.first_of(self.days.on_or_before(last - DAY), before.days)
                found[name] = min(found.get(name, last), last)
        return None if min(found.values()) < self.begin else found

    def chance(self, step: Step, start: date) -> float:
        """Return the chance that a step can start by a day."""
        latest = self.latest(step, start)
        if latest is None:
            return 0.0
        return together((part, latest[name]) for name in latest for part in self.waits[name])

    def all_parts(self, step: Step) -> tuple[Part, ...]:
        """Return every part that a step's start hangs on."""
        return tuple(dict.fromkeys(part for one in self.upstream(step) for part in self.waits[one.id]))

    @cached_property
    def last_steps(self) -> tuple[Step, ...]:
        """The steps after which none comes."""
        before = {name for step in self.order.steps for name in step.after}
        return tuple(step for step in self.order.steps if step.id not in before)


def needs_of(step: Step, order: Order) -> frozenset[str]:
    """Return the needs that a step waits for: those listed, else its own, and everything where it is irreversible."""
    if step.needs is not None:
        return frozenset(step.needs)
    if step.irreversible:
        return frozenset(need.id for need in order.needs)
    return frozenset(need.id for need in order.needs if need.step == step.id)


def together(wanted: Iterable[tuple[Part, date]]) -> float:
    """Return the chance that every part is there by its day; parts of one shipment stand and fall together."""
    groups: dict[str, list[float]] = {}
    for part, day in wanted:
        groups.setdefault(part.shipment, []).append(part.arrival.by(day))
    return product(list(groups.values()))


def first_day(chance_by: Callable[[date], float], begin: date, wanted: float) -> date | None:
    """Return the first day by which something has happened with a chance; None where that is beyond all bounds."""
    low, high = 0, LONGEST_WAIT
    if chance_by(begin + timedelta(days=high)) < wanted:
        return None
    while low < high:
        middle = (low + high) // 2
        if chance_by(begin + timedelta(days=middle)) >= wanted:
            high = middle
        else:
            low = middle + 1
    return begin + timedelta(days=low)


def dates(chance_by: Callable[[date], float], begin: date) -> Dates:
    """Return the days of 50 and 90 %."""
    return Dates(first_day(chance_by, begin, HALF), first_day(chance_by, begin, NINE_TENTHS))


def schedule(order: Order, parts: Sequence[Part]) -> Schedule:
    """Return the dates of an order from the arrivals of everything that it needs."""
    plan = Plan(order, parts)
    undated = tuple(dict.fromkeys(part.id for part in parts if not part.arrival.dated))
    known = [part for part in parts if part.arrival.dated]
    kit_known = kit_dates(known, order.today)
    return Schedule(
        kit=NOBODY_KNOWS if undated else kit_known,
        known=kit_known,
        steps=tuple(_step(plan, step) for step in order.steps),
        deciding=deciding(known, order.today, kit_known),
        order_by=last_orders(plan, known),
        without_date=undated,
        arrivals=_arrivals(parts),
        assumed=_assumed(parts),
        wanted_chance=_wanted_chance(plan, parts),
    )


def kit_dates(parts: Sequence[Part], today: date) -> Dates:
    """Return when all parts are there; today where there are none to wait for."""
    return dates(lambda day: together((part, day) for part in parts), today)


def _step(plan: Plan, step: Step) -> StepDates:
    if step.done_on is not None:
        done = Dates(step.done_on, step.done_on)
        return StepDates(step, done, done, ())
    missing = tuple(dict.fromkeys(part.id for part in plan.all_parts(step) if not part.arrival.dated))
    if missing:
        return StepDates(step, NOBODY_KNOWS, NOBODY_KNOWS, missing)
    start = dates(lambda day: plan.chance(step, day), plan.begin)
    ends = (None if day is None else plan.days.last_of(day, step.days) if step.days else day for day in start)
    return StepDates(step, start, Dates(*ends), ())


def _arrivals(parts: Sequence[Part]) -> Mapping[str, Dates]:
    found: dict[str, Dates] = {}
    for part in parts:
        day = Dates(part.arrival.day(HALF), part.arrival.day(NINE_TENTHS))
        earlier = found.get(part.id)
        found[part.id] = day if earlier is None else Dates(*(_later(*pair) for pair in zip(earlier, day, strict=True)))
    return MappingProxyType(found)


def _later(one: date | None, other: date | None) -> date | None:
    return None if one is None or other is None else max(one, other)


def _assumed(parts: Sequence[Part]) -> tuple[str, ...]:
    leads = [part.arrival.lead_time for part in parts if part.arrival.known is None and part.arrival.lead_time]
    said = [CALENDAR_DAYS] if leads else []
    said += [SINGLE] if any(not lead.deviation for lead in leads) else []
    said += [LOGNORMAL, INDEPENDENT] if any(lead.deviation for lead in leads) else []
    return (*said, AS_ORDERED_TODAY) if any(not part.ordered for part in parts) else tuple(said)


# --- what decides, and until when to order ---------------------------------------------------------------------------


def deciding(parts: Sequence[Part], today: date, kit: Dates) -> tuple[Deciding, ...]:
    """Return the shipments that decide when the kit is complete, by the chance that each is the last to come.

    The chance is summed over the days: that it comes on the day and everything else by then (ties count for each).
    """
    groups: dict[str, list[Part]] = {}
    for part in parts:
        if part.arrival.known is None or part.arrival.known > today:
            groups.setdefault(part.shipment, []).append(part)
    if kit.p90 is None or not groups:
        return ()
    end = first_day(lambda day: together((part, day) for part in parts), today, 0.9999) or kit.p90
    span = range((end - today).days + 1)
    curves = {
        name: [min(part.arrival.by(today + timedelta(days=day)) for part in group) for day in span]
        for name, group in groups.items()
    }
    last = _last_chances(curves)
    first = sorted(last, key=lambda name: (-round(last[name], 9), name))[:MOST_DECIDING]
    found: list[Deciding] = []
    for name in first:
        if last[name] < LEAST_DECIDING:
            continue
        without = kit_dates([part for part in parts if part.shipment != name], today).p90
        saves = (kit.p90 - without).days if without is not None else 0
        found.append(_decides(groups[name], last[name], saves))
    return tuple(sorted(found, key=lambda one: (-round(one.chance_last, 9), -one.saves_days, one.id)))


def _last_chances(curves: Mapping[str, Sequence[float]]) -> dict[str, float]:
    """Return the chance that each comes last, from the chance of each to be there by each day."""
    names = list(curves)
    chances = dict.fromkeys(names, 0.0)
    for day in range(len(curves[names[0]])):
        after = [1.0] * (len(names) + 1)
        for place in range(len(names) - 1, -1, -1):
            after[place] = after[place + 1] * curves[names[place]][day]
        before = 1.0
        for place, name in enumerate(names):
            curve = curves[name]
            comes = curve[day] - (curve[day - 1] if day else 0.0)
            chances[name] += comes * before * after[place + 1]
            before *= curve[day]
    return chances


def _decides(group: Sequence[Part], last: float, saves: int) -> Deciding:
    ids = ", ".join(dict.fromkeys(part.id for part in group))
    slowest = max(group, key=lambda part: (part.arrival.day(NINE_TENTHS) or date.min, part.id))
    arrives = Dates(slowest.arrival.day(HALF), slowest.arrival.day(NINE_TENTHS))
    text = f"{ids}: the last to come with {last:.0%}"
    if saves > 0:
        days = "1 day" if saves == 1 else f"{saves} days"
        text += f"; were it here, the kit would be complete {days} earlier (90 %)"
    suppliers = ", ".join(dict.fromkeys(part.supplier for part in group if part.supplier))
    needs = tuple(dict.fromkeys(part.need for part in group))
    return Deciding(ids, suppliers, needs, arrives, last, saves, text)


def _by_wanted(plan: Plan) -> Mapping[str, date] | None:
    """Return the last day on which each step may start for everything to be done by the wanted day.

    Without a wanted day it is the first day on which each step could start if everything were here.
    """
    if plan.order.wanted_on is not None:
        found: dict[str, date] = {}
        for step in plan.last_steps:
            if step.done_on is not None:
                continue
            last = plan.days.on_or_before(plan.order.wanted_on)
            start = plan.days.first_of(last, step.days) if step.days else last
            latest = plan.latest(step, start)
            if latest is None:
                return None
            for name, day in latest.items():
                found[name] = min(found.get(name, day), day)
        return found
    if plan.order.start_on is None:
        return None
    starts: dict[str, date] = {}
    for step in plan.order.steps:
        ready = [plan.begin]
        for name in step.after:
            before = plan.steps[name]
            done = before.done_on + DAY if before.done_on else plan.free_after(starts[name], before)
            ready.append(done)
        starts[step.id] = plan.days.on_or_after(max(ready))
    return {name: day for name, day in starts.items() if plan.steps[name].done_on is None}


def last_orders(plan: Plan, parts: Sequence[Part]) -> tuple[LastOrder, ...]:
    """Return the last working day to order each line that is not ordered yet, so that all together keep the date.

    The confidence is shared out evenly: each of m independent shipments still to come gets its m-th root.
    """
    wanted = _by_wanted(plan)
    kit_by = plan.order.wanted_on or plan.order.start_on
    if kit_by is None or (plan.order.steps and wanted is None):
        return ()
    days: dict[str, date] = {}
    for part in parts:
        waiting = [wanted[name] for name in wanted if part in plan.waits[name]] if wanted is not None else []
        days[part.id] = min([*waiting, days.get(part.id, date.max)]) if waiting else days.get(part.id, kit_by)
    coming = {part.shipment for part in parts if part.arrival.known is None}
    share = float(plan.order.confidence) ** (1 / len(coming)) if coming else 1.0
    found: dict[str, LastOrder] = {}
    for part in parts:
        lead, since = part.arrival.lead_time, part.arrival.since
        if part.ordered or lead is None or since is None:
            continue
        day = part.arrival.day(share)
        if day is None:
            continue
        by = plan.days.on_or_before(days[part.id] - (day - since))
        late = max((plan.order.today - by).days, 0)
        text = f"{part.id}: order by {by} to have it by {days[part.id]} ({lead.said})"
        text += f"; that is {late} days past" if late else ""
        found[part.id] = LastOrder(part.id, by, late, text)
    return tuple(sorted(found.values(), key=lambda one: (one.order_by, one.line)))


def _wanted_chance(plan: Plan, parts: Sequence[Part]) -> float | None:
    """Return the chance that everything is done by the wanted day."""
    if plan.order.wanted_on is None:
        return None
    latest = _by_wanted(plan)
    if plan.order.steps:
        if latest is None:
            return 0.0
        in_steps = [(part, latest[name]) for name in latest for part in plan.waits[name]]
        stepless = {part for waiting in plan.waits.values() for part in waiting}
        return together([*in_steps, *((part, plan.order.wanted_on) for part in parts if part not in stepless)])
    return together((part, plan.order.wanted_on) for part in parts)
