"""What lies on the bench: each bag of an order, the needs that it is for, and what to measure on it.

>>> from datetime import date
>>> from service.orders.check import check
>>> from service.orders.intake import parse_order
>>> order = parse_order({"needs": [{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}],
...     "lines": [{"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 6}]}, date(2027, 1, 11))
>>> [(one.dimension, str(one.lower), str(one.upper)) for one in bags(check(order))[0].measures]
[('outer_diameter', '5.001', '5.016')]
"""

from collections.abc import Iterable
from typing import NamedTuple

from service.orders.assign import USABLE
from service.orders.model import LineResult, Need, OrderCheck
from service.receipts.bench import ToMeasure, to_measure


class Bag(NamedTuple):
    """A line or a piece of stock, the needs that it covers or is for, and what to measure on it."""

    result: LineResult
    needs: tuple[Need, ...]
    measures: tuple[ToMeasure, ...]


def bags(found: OrderCheck) -> tuple[Bag, ...]:
    """Return every bag of a checked order, in the order's own sequence."""
    wanted = {need.id: need for need in found.order.needs}
    covered: dict[str, list[str]] = {}
    for cover in found.needs:
        for share in cover.shares:
            covered.setdefault(share.supply, []).append(share.need)
    return tuple([_bag(one, covered.get(one.supply.id, []), wanted) for one in found.lines])


def _bag(result: LineResult, covered: list[str], wanted: dict[str, Need]) -> Bag:
    supply = result.supply
    names = [*covered, *supply.serves]
    if not names and result.proof == "not conforming":
        # It covers nothing any more; what it was held against are the needs that it would go with.
        names = [name for name, judgement in result.judgements if judgement.word in USABLE]
    needs = tuple([wanted[name] for name in dict.fromkeys(names) if name in wanted])
    return Bag(result, needs, measured_for(supply.line, needs))


def measured_for(line: str, needs: Iterable[Need]) -> tuple[ToMeasure, ...]:
    """Return what to measure on the parts of a line that are for some needs."""
    return to_measure(line, [need.asks for need in needs if need.asks is not None])
