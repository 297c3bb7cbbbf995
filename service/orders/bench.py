"""What lies on the bench: each bag of an order, the needs that it is for, and what to measure on it.

>>> from datetime import date
>>> from service.orders.check import check
>>> from service.orders.intake import parse_order
>>> order = parse_order({"needs": [{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}],
...     "lines": [{"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 6}]}, date(2027, 1, 11))
>>> [(one.dimension, str(one.lower), str(one.upper)) for one in bags(check(order))[0].measures]
[('outer_diameter', '5.001', '5.016')]
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from service.orders.assign import USABLE
from service.orders.model import Cover, LineResult, Need, OrderCheck, Supply
from service.orders.wanted import near
from service.receipts.bench import ToMeasure, to_measure


class Bag(NamedTuple):
    """A line or a piece of stock, the needs that it covers or is for, and what to measure on it."""

    result: LineResult
    needs: tuple[Need, ...]
    measures: tuple[ToMeasure, ...]


def bags(found: OrderCheck) -> tuple[Bag, ...]:
    """Return every bag of a checked order, in the order's own sequence."""
    wanted = {need.id: need for need in found.order.needs}
    covered = covered_by(found.needs)
    return tuple([_bag(one, covered, wanted) for one in found.lines])


def covered_by(covers: Iterable[Cover]) -> dict[str, list[str]]:
    """Return the needs that each line or piece of stock covers."""
    covered: dict[str, list[str]] = {}
    for cover in covers:
        for share in cover.shares:
            covered.setdefault(share.supply, []).append(share.need)
    return covered


def needs_on(supply: Supply, covered: Mapping[str, Sequence[str]], wanted: Mapping[str, Need]) -> tuple[Need, ...]:
    """Return the needs that the bag of a line is for: those that it covers, and those that it names."""
    names = dict.fromkeys((*covered.get(supply.id, ()), *supply.serves))
    return tuple([wanted[name] for name in names if name in wanted])


def _bag(result: LineResult, covered: Mapping[str, Sequence[str]], wanted: Mapping[str, Need]) -> Bag:
    needs = needs_on(result.supply, covered, wanted)
    if not needs and result.proof == "not conforming":
        # It covers nothing any more; what it was held against are the needs that it would go with.
        needs = tuple([wanted[name] for name, judgement in result.judgements if judgement.word in USABLE])
    return Bag(result, needs, measured_for(result.supply.line, needs, wanted))


def asked_for(need: Need, line: str, on_bag: Iterable[Need], others: Mapping[str, Need]) -> tuple[ToMeasure, ...]:
    """Return what the sheet for the bench asks of a bag for one of the needs that it is for."""
    own = {one[:3] for one in measured_for(line, [need], others)}
    return tuple([one for one in measured_for(line, on_bag, others) if one[:3] in own])


def measured_for(line: str, needs: Iterable[Need], others: Mapping[str, Need]) -> tuple[ToMeasure, ...]:
    """Return what to measure on the parts of a line that are for some needs, and so for the neighbours of each."""
    return to_measure(line, [[one.asks for one in near(need, others) if one.asks is not None] for need in needs])
