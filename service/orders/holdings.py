"""What there is to cover needs with: what is here of each supply and what is still to come, less what broke.

A line whose supplier is out of stock brings nothing unless it was ordered before or says when it is to be had; a second
source counts only then. A bag that was measured and proved wrong brings nothing either.
"""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from service.orders.assign import Lot
from service.orders.leadtime import Arrival
from service.orders.model import Order, Supply
from service.receipts.check import check as check_receipt
from service.receipts.model import Receipt

_DECISIONS = ("conforming", "not provable", "not conforming")
"""What a measurement can prove, best first."""

NOT_HERE = timedelta(days=1)


class Holding(NamedTuple):
    """A part of a supply: what is here of it, or what is to come, and when it arrives."""

    supply: Supply
    here: bool
    quantity: int
    arrival: Arrival

    @property
    def id(self) -> str:
        """The holding's own name; a supply of which a part is here has two."""
        return f"{self.supply.id}\n{'here' if self.here else 'coming'}"


class Holdings(NamedTuple):
    """All holdings, the decision on each receipt, and why a supply brings nothing."""

    holdings: tuple[Holding, ...]
    proofs: Mapping[str, str]
    nothing: Mapping[str, str]

    def lots(self, without: frozenset[str] = frozenset(), *, here_only: bool = False) -> list[Lot]:
        """Return the holdings as lots, ranked by when they come with 50 %; what nobody knows comes last."""
        taken = [one for one in self.holdings if one.supply.id not in without and (one.here or not here_only)]
        days = {one.id: date.min if one.here else one.arrival.day(0.5) or date.max for one in taken}
        ranks = {day: place for place, day in enumerate(sorted({date.min, *days.values()}))}
        return [Lot(one.id, one.quantity, ranks[days[one.id]]) for one in taken]


def hold(order: Order) -> Holdings:
    """Return what there is to cover the needs of an order with."""
    proofs = {supply.id: proof_of(supply.receipts) for supply in order.supplies if supply.receipts}
    nothing = _nothing(order)
    lost: dict[str, int] = {}
    for loss in order.losses:
        if loss.line is not None:
            lost[loss.line] = lost.get(loss.line, 0) + loss.quantity
    found: list[Holding] = []
    for supply in order.supplies:
        if supply.id in nothing:
            continue
        gone = lost.get(supply.id, 0)
        here = max(supply.received - gone, 0)
        coming = supply.amount.number - supply.received - max(gone - supply.received, 0)
        if here and proofs.get(supply.id) != "not conforming":
            found.append(Holding(supply, True, here, Arrival(known=supply.received_on or order.today)))
        if coming > 0:
            found.append(Holding(supply, False, coming, arrival(supply, order)))
    return Holdings(tuple(found), proofs, nothing)


def proof_of(receipts: Sequence[Receipt]) -> str:
    """Return what several measurements of one bag prove together: the worst of what each does."""
    return max((check_receipt(one).outcome.decision for one in receipts), key=_DECISIONS.index)


def _nothing(order: Order) -> dict[str, str]:
    """Return the supplies that bring nothing, each with the reason."""
    out = {
        supply.id
        for supply in order.supplies
        if supply.out_of_stock and supply.back_on is None and supply.ordered_on is None and not supply.received
    }
    nothing = dict.fromkeys(out, "out of stock")
    for supply in order.supplies:
        first = supply.second_source_for
        if first is not None and first not in out and supply.ordered_on is None and not supply.received:
            nothing[supply.id] = f"second source for {first}, which is to be had"
    return nothing


def arrival(supply: Supply, order: Order) -> Arrival:
    """Return when what is still to come of a supply arrives: from the day it was ordered, or can be."""
    if supply.ordered_on is None:
        start = max(order.today, supply.back_on) if supply.back_on is not None else order.today
        return Arrival(since=start, lead_time=supply.lead_time)
    # What was not here yesterday may still come today.
    awaited = order.today - NOT_HERE if order.today > supply.ordered_on else None
    return Arrival(since=supply.ordered_on, lead_time=supply.lead_time, awaited=awaited)
