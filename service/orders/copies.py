"""How many copies, of which variant, can be finished from what is here, and with what is ordered?"""

from collections.abc import Mapping, Sequence

from service.orders.assign import Lot
from service.orders.covering import Judged, Pair, demands, enough
from service.orders.holdings import Holdings
from service.orders.model import Order, Variant
from service.verdict.model import VerdictWord

MOST = 1000
"""Copies up to which is searched."""


def variants(order: Order, holdings: Holdings, judged: Judged) -> tuple[Variant, ...]:
    """Return for each variant alone how many can be finished; one entry without a name where there are no variants."""
    names = list(order.variants.items()) if order.variants else [("", order.copies)]
    return tuple(_variant(name, wanted, order, holdings, judged) for name, wanted in names)


def _variant(name: str, wanted: int, order: Order, holdings: Holdings, judged: Judged) -> Variant:
    here, _ = _most(name, order, holdings, judged, here_only=True)
    ordered, limits = _most(name, order, holdings, judged, here_only=False)
    of = f" of {name}" if name else ""
    text = f"{wanted}{of} wanted: {here} can be finished from what is here, {ordered} with what is ordered"
    text += f"; {', '.join(limits[:5])} keep it there" if ordered < wanted else ""
    return Variant(name, wanted, here, ordered, tuple(limits), text)


def _most(name: str, order: Order, holdings: Holdings, judged: Judged, *, here_only: bool) -> tuple[int, list[str]]:
    """Return the most copies whose needs are all covered by what fits, and the needs that one more would leave open."""
    lots = holdings.lots(here_only=here_only)
    words = judged.words(holdings)

    def open_for(copies: int) -> list[str]:
        return enough(demands(order, copies, name or None), lots, words)

    most = min([MOST, *_bounds(name, order, lots, words)])
    if not open_for(most):
        return most, open_for(most + 1)
    low, high = 0, most - 1
    while low < high:
        middle = (low + high + 1) // 2
        if open_for(middle):
            high = middle - 1
        else:
            low = middle
    return low, open_for(low + 1)


def _bounds(name: str, order: Order, lots: Sequence[Lot], words: Mapping[Pair, VerdictWord]) -> list[int]:
    """Return for each need how many copies what fits it would do for, were it there for that need alone."""
    quantities = {lot.id: lot.quantity for lot in lots}
    fitting: dict[str, int] = {}
    for (lot, need), word in words.items():
        if word == "fits":
            fitting[need] = fitting.get(need, 0) + quantities.get(lot, 0)
    enough_for = {one.id: fitting.get(one.id, 0) // one.quantity for one in demands(order, 1, name or None)}
    once = {need.id for need in order.needs if need.per == "order"}
    return [copies for need, copies in enough_for.items() if need not in once or not copies]
