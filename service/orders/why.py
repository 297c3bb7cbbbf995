"""Why a line or a need of a checked order stands as it does, in full: each mate with every reading of the line.

The order check keeps of a line what decides; here the same is judged again with everything that a person wants to see.

>>> from datetime import date
>>> from service.orders.check import check
>>> from service.orders.intake import parse_order
>>> order = parse_order({"needs": [{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}],
...     "lines": [{"id": "L1", "line": "M5 dowel pin", "quantity": 6}]}, date(2027, 1, 11))
>>> found = line_in_full(check(order), "L1")
>>> [(one.need.id, [reading.verdict for reading in one.mates[0].verdict.readings]) for one in found.against]
[('N1', ['wrong', 'fits', 'open'])]
"""

from collections.abc import Iterable, Mapping
from typing import Literal, NamedTuple

from service.orders.covering import serves
from service.orders.model import Cover, Judgement, LineResult, Need, OrderCheck, Supply
from service.orders.wanted import SOURCE, WORDS, near, verdict_on
from service.proposals.model import Proposals, Wanted
from service.proposals.propose import propose
from service.reading.habits import read_from
from service.reading.model import LineReading
from service.verdict.model import Finding, PresenceMate, Verdict, VerdictWord

MOST_IN_FULL = 3
"""Needs that a line is shown against where it says none and covers none; the others are named with their word."""

MOST_NAMED = 40
"""Needs of a line, or lines of a need, that are named at most."""

Kind = Literal["line", "need"]

_UNPROVED = ("not conforming", "not provable")


class MateInFull(NamedTuple):
    """The verdict on one mate, with every reading: that of the need itself, or of one of its neighbours.

    ``asked`` are the fields of the same check on its own, empty where they cannot be said in an address or where it
    would not read the line as here, by what its supplier is known to mean.
    """

    need: str
    verdict: Verdict
    asked: tuple[tuple[str, str], ...]


class Against(NamedTuple):
    """A line against one need: the judgement, its mates in full, and what rests on the order itself."""

    need: Need
    judgement: Judgement
    mates: tuple[MateInFull, ...]
    beside: tuple[Finding, ...]


class Other(NamedTuple):
    """A need that a line may be meant for besides, or a line that a need may be covered by, with the verdict."""

    id: str
    said: str
    word: VerdictWord


class Place(NamedTuple):
    """A line or a need of the order."""

    kind: Kind
    id: str


class Way(NamedTuple):
    """The way through what is not settled: how much of it there is, and what lies before and behind the one shown.

    ``number`` is the place of the one shown among them, 0 where it is settled.
    """

    number: int
    of: int
    previous: Place | None
    next: Place | None


class LineInFull(NamedTuple):
    """A line or a piece of stock with all that is known of it."""

    result: LineResult
    reading: LineReading
    against: tuple[Against, ...]
    others: tuple[Other, ...]
    way: Way


class NeedInFull(NamedTuple):
    """A need with the lines that may be meant for it, and what should be ordered where it is not covered."""

    cover: Cover
    lines: tuple[Other, ...]
    proposals: Proposals | None
    way: Way


def line_in_full(found: OrderCheck, line: str) -> LineInFull:
    """Return why a line stands as it does.

    Raises:
        KeyError: the order has no such line or piece of stock.
    """
    results = {one.supply.id: one for one in found.lines}
    result = results[line]
    needs = {need.id: need for need in found.order.needs}
    supplies = {supply.id: supply for supply in found.order.supplies}
    judged = dict(result.judgements)
    covers = [cover.need.id for cover in found.needs for share in cover.shares if share.supply == line]
    first = [name for name in dict.fromkeys((*covers, *serves(result.supply, supplies))) if name in judged]
    ranked = sorted((name for name in judged if name not in first), key=lambda name: WORDS.index(judged[name].word))
    if not first:
        first, ranked = ranked[:MOST_IN_FULL], ranked[MOST_IN_FULL:]
    return LineInFull(
        result,
        read_from(result.supply.line, result.supply.habits),
        tuple([_against(result.supply, needs[name], judged[name], found) for name in first]),
        tuple([Other(name, needs[name].description, judged[name].word) for name in ranked[:MOST_NAMED]]),
        way_at(found, Place("line", line)),
    )


def _against(supply: Supply, need: Need, judgement: Judgement, found: OrderCheck) -> Against:
    others = {one.id: one for one in found.order.needs}
    mates = tuple(
        [
            MateInFull(one.id, verdict_on(supply, one.asks), () if supply.habits else one.asked)
            for one in near(need, others)
            if one.asks is not None and not isinstance(one.asks.mate, PresenceMate)
        ]
    )
    habits = {habit.source for habit in supply.habits}
    beside = [one for one in judgement.findings if not mates or one.source == SOURCE or one.source in habits]
    return Against(need, judgement, mates, tuple(beside))


def need_in_full(found: OrderCheck, need: str) -> NeedInFull:
    """Return why a need stands as it does.

    Raises:
        KeyError: the order has no such need.
    """
    cover = {one.need.id: one for one in found.needs}[need]
    supplies = {supply.id: supply for supply in found.order.supplies}
    judged = [
        (one, judgement)
        for one in found.lines
        for name, judgement in one.judgements
        if name == need and (judgement.word != "wrong" or _meant(one, need, supplies))
    ]
    judged.sort(key=lambda pair: WORDS.index(pair[1].word))
    lines = [Other(one.supply.id, one.supply.line, judgement.word) for one, judgement in judged[:MOST_NAMED]]
    asks = cover.need.asks
    wanted = cover.state != "covered" and asks is not None and not isinstance(asks.mate, PresenceMate)
    proposals = propose(Wanted(asks.mate, asks.fit)) if wanted and asks is not None else None
    return NeedInFull(cover, tuple(lines), proposals, way_at(found, Place("need", need)))


def _meant(line: LineResult, need: str, supplies: Mapping[str, Supply]) -> bool:
    """Tell whether a line that is wrong for a need may still have been meant for it."""
    named = serves(line.supply, supplies)
    return need in named if named else not line.used


# --- the way through what is not settled -----------------------------------------------------------------------------


def unsettled(found: OrderCheck) -> list[Place]:
    """Return what a person has to look at: every line that is not ``fits`` and proved, every need not covered."""
    lines = [Place("line", one.supply.id) for one in found.lines if one.word != "fits" or one.proof in _UNPROVED]
    return [*lines, *(Place("need", one.need.id) for one in found.needs if one.state != "covered")]


def way_at(found: OrderCheck, place: Place) -> Way:
    """Return the way from one line or need on; settled ones have their place in the order's own sequence too."""
    every = [Place("line", one.supply.id) for one in found.lines] + [Place("need", one.need.id) for one in found.needs]
    rest = unsettled(found)
    sequence = {one: number for number, one in enumerate(every)}
    at = sequence[place]
    before = [one for one in rest if sequence[one] < at]
    behind = [one for one in rest if sequence[one] > at]
    return Way(rest.index(place) + 1 if place in rest else 0, len(rest), _last(before), next(iter(behind), None))


def _last(places: Iterable[Place]) -> Place | None:
    return next(reversed(list(places)), None)
