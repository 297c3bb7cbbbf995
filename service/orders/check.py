"""Answers an order check: is every need covered, what is found, when is everything there, which step may start?

>>> from datetime import date
>>> from service.orders.intake import parse_order
>>> order = parse_order({"needs": [{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}],
...     "lines": [{"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 4}]}, date(2027, 1, 11))
>>> found = check(order)
>>> found.ready, found.needs[0].state, found.needs[0].text
(False, 'short', 'N1: 6 needed, 4 on order, 2 short; order text: Parallel pin ISO 8734 - 5 x 20 - A - St')
"""

from collections.abc import Mapping, Sequence

from service.orders.copies import variants
from service.orders.covering import Judged, clashes_of, covers_of, judge_all, lines_of, shares_of
from service.orders.findings import Again, bought_twice, near_misses, reasons, remarks, surplus
from service.orders.gates import gates
from service.orders.holdings import Holdings, hold
from service.orders.model import Cover, Gate, LineResult, Order, OrderCheck
from service.orders.schedule import Part, kit_dates, schedule
from service.orders.spares import spares


def check(order: Order) -> OrderCheck:
    """Return the answer to an order check.

    Raises:
        CheckError: so many lines name no need that not every pair can be judged.
    """
    judged = judge_all(order)
    holdings = hold(order)
    shares = shares_of(order, holdings, judged)
    covers = covers_of(order, shares, judged, {})
    twice = bought_twice(order, shares, judged, holdings, covers)
    if twice:
        # What is bought twice is not counted on, so that all of it shows as too many.
        shares = shares_of(order, holdings, judged, frozenset(one.line for one in twice))
    clashes = clashes_of(order, shares)
    covers = covers_of(order, shares, judged, clashes)
    lines = lines_of(order, shares, judged, holdings)
    again = Again(order, judged)
    plan = schedule(order, parts_of(order, covers, holdings, again))
    known = [part for part in parts_of(order, covers, holdings, None) if part.arrival.dated]
    otherwise = kit_dates(known, order.today).p90
    found = reasons(order, covers, lines, judged, holdings, otherwise, again)
    supplies = {supply.id: supply for supply in order.supplies}
    return OrderCheck(
        order=order,
        ready=not found,
        reasons=found,
        lines=tuple(lines.values()),
        needs=tuple(covers.values()),
        near_misses=near_misses(order, judged, lines, covers),
        surplus=surplus(order, lines, judged, covers, twice),
        duplicates=twice,
        variants=variants(order, holdings, judged),
        schedule=plan,
        gates=gates(order, covers, supplies, holdings.proofs, clashes),
        spares=spares(covers, supplies, _left(judged, lines, covers), again),
        notes=(*order.assumed, *remarks(order), *_overdue(order, holdings)),
    )


def gate_of(order: Order, step: str) -> Gate:
    """Return the gate of one step alone.

    Raises:
        KeyError: there is no such step.
    """
    found = {gate.step.id: gate for gate in check(order).gates}
    return found[step]


def parts_of(order: Order, covers: Mapping[str, Cover], holdings: Holdings, again: Again | None) -> list[Part]:
    """Return everything that has to arrive: what is assigned, and with ``again`` also what is still to be ordered."""
    arrivals = {(one.supply.id, one.here): one for one in holdings.holdings}
    found: list[Part] = []
    for cover in covers.values():
        for share in cover.shares:
            held = arrivals[share.supply, share.here]
            supply = held.supply
            shipment = f"shipment {supply.shipment}" if supply.shipment and not share.here else held.id
            found.append(
                Part(
                    supply.id,
                    cover.need.id,
                    held.arrival,
                    shipment,
                    supply.supplier,
                    supply.ordered_on is not None or share.here,
                )
            )
        if cover.short and again is not None:
            name = cover.need.id
            found.append(Part(name, name, again.arrival(cover.need), f"need {name}", ordered=False))
    return found


def _left(judged: Judged, lines: Mapping[str, LineResult], covers: Mapping[str, Cover]) -> dict[str, int]:
    """Return how many fitting pieces are left over for each need; each piece is counted for one need only."""
    left = {line: result.left for line, result in lines.items()}
    found: dict[str, int] = {}
    for (line, need), judgement in judged.pairs.items():
        if judgement.word == "fits" and left[line] > 0 and covers[need].required:
            found[need] = found.get(need, 0) + left[line]
            left[line] = 0
    return found


def _overdue(order: Order, holdings: Holdings) -> Sequence[str]:
    return [
        f"{one.supply.id} {one.supply.line!r} is overdue ({one.supply.lead_time.said}, ordered on"
        f" {one.supply.ordered_on}): no day can be given, ask {one.supply.supplier or 'the supplier'}"
        for one in holdings.holdings
        if not one.here and one.supply.lead_time is not None and one.supply.ordered_on is not None
        if not one.arrival.dated
    ]
