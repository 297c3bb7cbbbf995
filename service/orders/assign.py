"""Which supply covers which need: the best assignment there is, found as a flow of least cost.

A piece is never counted twice. What counts, in this order: as many pieces as possible covered by what fits, then by
what is marginal, then by what is still to be asked; needs of earlier steps; what is here, or comes first, to the steps
that want it first; then the order of the ids, so that the same order gives the same answer, however it is sorted. Each
rank weighs more than everything below it together.

>>> assign([Demand("N1", 6, 0)], [Lot("L1", 10, 0), Lot("S1", 2, 0)], {("L1", "N1"): "ask", ("S1", "N1"): "fits"})
[('S1', 'N1', 2, 'fits'), ('L1', 'N1', 4, 'ask')]
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from service.verdict.model import VerdictWord

USABLE: tuple[VerdictWord, ...] = ("fits", "marginal", "ask")
"""Verdicts with which a piece covers a need, best first; only the first covers it without doubt."""

_SOURCE, _SINK = "source", "sink"


class Demand(NamedTuple):
    """A need: how much of it, and its rank in the order of the steps (0 is first)."""

    id: str
    quantity: int
    rank: int


class Lot(NamedTuple):
    """What a supply brings at one time, and the rank of that time (0 is first)."""

    id: str
    quantity: int
    rank: int


Assigned = tuple[str, str, int, VerdictWord]


def assign(
    demands: Sequence[Demand], lots: Sequence[Lot], words: Mapping[tuple[str, str], VerdictWord]
) -> list[Assigned]:
    """Return how much of each lot goes to each need, as (lot, need, quantity, verdict); best verdicts first.

    ``words`` holds the verdict of every pair that may be; a pair that is not in it, or neither fits nor may, is never
    used.
    """
    needs = {one.id: one for one in demands if one.quantity}
    supplies = {one.id: one for one in lots if one.quantity}
    edges: dict[str, dict[str, VerdictWord]] = {}
    for (lot, need), word in words.items():
        if word in USABLE and lot in supplies and need in needs:
            edges.setdefault(lot, {})[need] = word
    found: list[Assigned] = []
    # What has nothing to do with each other is assigned apart: that is the same and far less work.
    for part in _parts(edges):
        ours = sorted({need for lot in part for need in edges[lot]}, key=lambda name: (needs[name].rank, name))
        theirs = sorted(part, key=lambda name: (supplies[name].rank, name))
        found += _assign([needs[name] for name in ours], [supplies[name] for name in theirs], edges)
    place = {name: number for number, name in enumerate(sorted(needs, key=lambda name: (needs[name].rank, name)))}
    return sorted(found, key=lambda one: (USABLE.index(one[3]), place[one[1]], supplies[one[0]].rank, one[0]))


def _parts(edges: Mapping[str, Mapping[str, VerdictWord]]) -> list[list[str]]:
    """Return the lots in groups that share no need with each other."""
    by_need: dict[str, list[str]] = {}
    for lot, own in edges.items():
        for need in own:
            by_need.setdefault(need, []).append(lot)
    left, parts = dict.fromkeys(edges), []
    while left:
        part = [next(iter(left))]
        del left[part[0]]
        for lot in part:
            for need in edges[lot]:
                for other in by_need.pop(need, ()):
                    if other in left:
                        del left[other]
                        part.append(other)
        parts.append(part)
    return parts


def _assign(
    demands: Sequence[Demand], lots: Sequence[Lot], edges: Mapping[str, Mapping[str, VerdictWord]]
) -> list[Assigned]:
    """Return the assignment of one group."""
    if len(lots) == 1 and len(demands) == 1:
        lot, demand = lots[0], demands[0]
        return [(lot.id, demand.id, min(lot.quantity, demand.quantity), edges[lot.id][demand.id])]
    # A library of graphs is worth its loading only to those who check orders.
    import networkx as nx  # type: ignore[import-untyped]

    total = sum(one.quantity for one in demands)
    graph = nx.DiGraph()
    graph.add_node(_SOURCE, demand=-total)
    graph.add_node(_SINK, demand=total)
    graph.add_edge(_SOURCE, _SINK, weight=0, capacity=total)
    for demand in demands:
        graph.add_edge(("need", demand.id), _SINK, weight=0, capacity=demand.quantity)
    for place, lot in enumerate(lots):
        graph.add_edge(_SOURCE, ("lot", lot.id), weight=0, capacity=lot.quantity)
        for demand in demands:
            word = edges[lot.id].get(demand.id)
            if word is not None:
                cost = _cost(demand, lot, place, word, demands, lots, total)
                graph.add_edge(("lot", lot.id), ("need", demand.id), weight=cost, capacity=total)
    flow = nx.min_cost_flow(graph)
    return [
        (lot.id, demand.id, quantity, edges[lot.id][demand.id])
        for demand in demands
        for lot in lots
        if (quantity := flow[("lot", lot.id)].get(("need", demand.id), 0))
    ]


def _cost(
    demand: Demand,
    lot: Lot,
    place: int,
    word: VerdictWord,
    demands: Sequence[Demand],
    lots: Sequence[Lot],
    total: int,
) -> int:
    """Return the cost of one piece: negative, so that covering beats leaving open; each rank in its own digits."""
    most_demand = max(one.rank for one in demands) + 1
    most_lot = max(one.rank for one in lots) + 1
    gain: int = (total + 1) ** (len(USABLE) - 1 - USABLE.index(word))
    early = most_demand - demand.rank
    # Late pieces cost most where they are wanted first, so the earliest go there.
    timely = lot.rank * early
    for value, most in ((early, most_demand), (-timely, most_demand * most_lot), (-place, len(lots))):
        gain = gain * (total * most + 1) + value
    return -gain
