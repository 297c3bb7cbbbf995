"""What is found beyond each need and line: near misses, surplus, lines bought twice, reasons against ready."""

from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from service.orders.assign import USABLE
from service.orders.covering import Judged, serves
from service.orders.holdings import Holdings
from service.orders.leadtime import Arrival, recorded
from service.orders.model import (
    Amount,
    Cover,
    Duplicate,
    Judgement,
    LineResult,
    NearMiss,
    Need,
    Order,
    Reason,
    Share,
    Supply,
    Surplus,
)
from service.orders.wanted import judge_for
from service.reading import read

SURE = 0.9
"""Chance with which a replacement is reckoned to be here."""

MOST_INSTEAD = 50
"""Open needs that are looked at for a line that does not go where it is meant to."""


def near_misses(
    order: Order, judged: Judged, lines: Mapping[str, LineResult], covers: Mapping[str, Cover]
) -> tuple[NearMiss, ...]:
    """Return the lines that are for a need and do not fit it, or are left over and nearly cover one that is open."""
    supplies = {supply.id: supply for supply in order.supplies}
    open_needs = [cover.need for cover in covers.values() if cover.state != "covered"][:MOST_INSTEAD]
    found: list[NearMiss] = []
    for (line, need), judgement in judged.pairs.items():
        if judgement.word == "fits":
            continue
        meant = serves(supplies[line], supplies)
        named = need in meant
        unused = not lines[line].used and lines[line].word != "fits"
        nearly = judgement.order_text and unused and covers[need].state != "covered" and not supplies[line].stock
        if named or nearly:
            instead = _fits_instead(supplies[line], meant, open_needs, order) if named else ""
            found.append(_near_miss(supplies[line], covers[need], judgement, instead))
    return tuple(found)


def _near_miss(supply: Supply, cover: Cover, judgement: Judgement, instead: str) -> NearMiss:
    need = cover.need
    because = [one.text for one in judgement.findings if one.weight not in ("fits", "note")]
    text = f"{supply.id} {supply.line!r} for {need.name}: {judgement.word}"
    text += f", {'; '.join(because[:3])}" if because else ""
    text += f"; it fits {instead}, which is open" if instead else ""
    # A designation that still lacks a length gives way to one that the need has in full.
    whole = judgement.order_text if "<" not in judgement.order_text else cover.order_text or judgement.order_text
    return NearMiss(supply.id, need.id, judgement.word, text, whole, judgement.question)


def _fits_instead(supply: Supply, named: tuple[str, ...], open_needs: Sequence[Need], order: Order) -> str:
    """Return the open needs that a line would fit though it is for others: two lines may have been exchanged."""
    needs = {need.id: need for need in order.needs}
    found: list[str] = []
    for need in open_needs:
        if need.id in named or need.required.unit != supply.amount.unit:
            continue
        judgement = judge_for(supply, need, needs, named=False)
        if judgement is not None and judgement.word == "fits":
            found.append(need.id)
    return ", ".join(found)


# --- more than needed ------------------------------------------------------------------------------------------------


def bought_twice(
    order: Order, shares: Sequence[Share], judged: Judged, holdings: Holdings, covers: Mapping[str, Cover]
) -> tuple[Duplicate, ...]:
    """Return the order lines without which every need stays covered just as well by what the others bring too much.

    The last line is looked at first; what stands in for one line stands in for no other.
    """
    ranks = {lot.id: lot.rank for lot in holdings.lots()}
    left = {one.id: one.quantity for one in holdings.holdings}
    lots_of: dict[str, list[str]] = {}
    for one in holdings.holdings:
        lots_of.setdefault(one.supply.id, []).append(one.id)
    last = {line: max(ranks[lot] for lot in lots) for line, lots in lots_of.items()}
    used: dict[str, dict[str, int]] = {line: {} for line in lots_of}
    takers: dict[str, list[str]] = {}
    for share in shares:
        left[f"{share.supply}\n{'here' if share.here else 'coming'}"] -= share.quantity
        used[share.supply][share.need] = used[share.supply].get(share.need, 0) + share.quantity
        takers.setdefault(share.need, []).append(share.supply)
    found: list[Duplicate] = []
    for supply in reversed(order.supplies):
        line = supply.id
        if supply.stock or line not in lots_of:
            continue
        fits = [need for need, one in judged.of_line.get(line, {}).items() if one.word == "fits"]
        if not fits or not set(used[line]) <= set(fits):
            continue
        if not used[line] and not any(covers[need].required and covers[need].state == "covered" for need in fits):
            continue
        helpers = {other: lots for other, lots in lots_of.items() if other != line and last[other] <= last[line]}
        stand_in = _stand_in(used[line], helpers, left, judged)
        if stand_in is None:
            continue
        for lot, need, quantity in stand_in:
            helper = lot.split("\n")[0]
            left[lot] -= quantity
            used[helper][need] = used[helper].get(need, 0) + quantity
        needs = tuple(used[line]) or tuple(need for need in fits if covers[need].required)
        # It helps no other line any more, and what it covered is carried by those that stand in.
        del lots_of[line]
        of = dict.fromkeys(lot.split("\n")[0] for lot, _, _ in stand_in)
        of.update((taker, None) for need in fits for taker in takers.get(need, ()) if taker in lots_of)
        bring = "bring" if len(of) > 1 else "brings"
        text = f"{line} {supply.line!r} buys again what {' and '.join(of)} already {bring}"
        found.append(Duplicate(line, tuple(of), needs, f"{text}: {supply.amount.said()} too many"))
    return tuple(reversed(found))


def _stand_in(
    used: Mapping[str, int], helpers: Mapping[str, Sequence[str]], left: Mapping[str, int], judged: Judged
) -> list[tuple[str, str, int]] | None:
    """Return which other lots can take over what a line covers, as (lot, need, quantity); None where they cannot."""
    spent: dict[str, int] = {}
    taken: list[tuple[str, str, int]] = []
    for need, quantity in used.items():
        for line in sorted(judged.of_need.get(need, {})):
            if line not in helpers or judged.of_need[need][line].word != "fits":
                continue
            for lot in helpers[line]:
                some = min(left[lot] - spent.get(lot, 0), quantity)
                if some > 0:
                    spent[lot] = spent.get(lot, 0) + some
                    taken.append((lot, need, some))
                    quantity -= some
        if quantity > 0:
            return None
    return taken


def surplus(
    order: Order,
    lines: Mapping[str, LineResult],
    judged: Judged,
    covers: Mapping[str, Cover],
    twice: Sequence[Duplicate],
) -> tuple[Surplus, ...]:
    """Return what order lines bring beyond every need and its wanted spares; pieces in stock are no surplus."""
    supplies = {supply.id: supply for supply in order.supplies}
    spare = {name: cover.need.spare for name, cover in covers.items()}
    duplicates = {one.line for one in twice}
    found: list[Surplus] = []
    for result in lines.values():
        supply = result.supply
        if supply.stock or result.left <= 0:
            continue
        usable = [need for need, one in judged.of_line.get(supply.id, {}).items() if one.word in USABLE]
        if not usable and serves(supply, supplies):
            continue
        over = result.left
        for need in usable:
            kept = min(spare[need], over)
            spare[need] -= kept
            over -= kept
        if not over:
            continue
        said = supply.amount.said
        if not usable:
            text = f"{supply.id} {supply.line!r}: {said(over)} ordered, no need asks for it"
        else:
            text = f"{supply.id} {supply.line!r}: {said()} ordered, {said(result.used)} used, {said(over)} too many"
        unavoidable = bool(result.used) and over < supply.pack and supply.id not in duplicates
        text += f"; a pack holds {supply.pack}" if unavoidable else ""
        if supply.pack > 1 and result.used and over >= supply.pack * result.used:
            text += f"; is the quantity meant in pieces? It is taken as {supply.said}"
        found.append(Surplus(supply.id, Amount(over, supply.amount.unit), unavoidable, text))
    return tuple(found)


# --- reasons against ready -------------------------------------------------------------------------------------------


class Again:
    """When more for a need would be here if it were ordered today: as the need says itself, else as its lines do."""

    def __init__(self, order: Order, judged: Judged) -> None:
        """Take the order and how its lines go with its needs."""
        self._order = order
        self._lines: dict[str, list[Supply]] = {need.id: [] for need in order.needs}
        supplies = {supply.id: supply for supply in order.supplies}
        for (line, need), judgement in judged.pairs.items():
            if judgement.word in USABLE or need in serves(supplies[line], supplies):
                self._lines[need].append(supplies[line])
        self._kept: dict[str, Arrival] = {}

    def __call__(self, need: Need) -> int | None:
        """Return the days until more is here with 90 %, None where nobody knows."""
        day = self.arrival(need).day(SURE)
        return None if day is None else (day - self._order.today).days

    def arrival(self, need: Need) -> Arrival:
        """Return when more would be here: from whoever is fastest."""
        if need.id not in self._kept:
            self._kept[need.id] = self._fastest(need)
        return self._kept[need.id]

    def _fastest(self, need: Need) -> Arrival:
        today = self._order.today
        if need.lead_time is not None:
            return Arrival(since=today, lead_time=need.lead_time)
        known: list[tuple[date, int, Arrival]] = []
        for place, supply in enumerate(self._lines[need.id]):
            if supply.out_of_stock and supply.back_on is None:
                continue
            supplier = self._order.suppliers.get(supply.supplier)
            lead = supply.lead_time
            if lead is None and supplier is not None and supplier.record:
                lead = recorded(supplier.record, supplier.id)
            arrival = Arrival(since=max(today, supply.back_on or today), lead_time=lead)
            day = arrival.day(SURE)
            if day is not None:
                known.append((day, place, arrival))
        return min(known)[2] if known else Arrival()


def reasons(
    order: Order,
    covers: Mapping[str, Cover],
    lines: Mapping[str, LineResult],
    judged: Judged,
    holdings: Holdings,
    otherwise: date | None,
    again: Again,
) -> tuple[Reason, ...]:
    """Return what keeps an order from being ready, what delays it most first; what nobody can date comes before all.

    ``otherwise`` is when the kit is complete (90 %) without what is not covered: the delay is counted from then.
    """
    supplies = {supply.id: supply for supply in order.supplies}
    known = max(otherwise or order.today, order.today)
    found: list[tuple[Reason, int | None]] = []
    for cover in covers.values():
        if cover.state == "covered":
            continue
        named = [line for line, result in lines.items() if _counted_on(result, cover.need.id, supplies, judged)]
        causes = [cause for line in named if (cause := _cause(lines[line], cover.need.id, judged, holdings))]
        days = again(cover.need)
        text = ". ".join([cover.text, *causes])
        text += f". More is here in {days} days (90 %)" if days is not None else ". Nobody knows how long more takes"
        taken = tuple(dict.fromkeys((*(share.supply for share in cover.shares), *named)))
        code = cover.state.replace(" ", "-")
        delay = None if days is None else max((order.today + timedelta(days=days) - known).days, 0)
        found.append((Reason(code, text, (cover.need.id,), taken, delay, cover.order_text), days))
    for line, result in lines.items():
        if result.supply.stock or line in holdings.nothing:
            continue
        for need in serves(result.supply, supplies):
            judgement = judged.pairs.get((line, need))
            if judgement is not None and judgement.word != "fits" and covers[need].state == "covered":
                cause = f"{line} {result.supply.line!r} is for {need}: {judgement.word}"
                text = f"{cause}; {need} is covered without it"
                found.append((Reason("line-at-fault", text, (need,), (line,), 0, judgement.order_text), 0))
    for supply in order.supplies:
        lapsed = supply.quote_until is not None and supply.quote_until < order.today
        if lapsed and supply.ordered_on is None and not supply.received and supply.id not in holdings.nothing:
            whose = supply.supplier or "its supplier"
            text = f"{supply.id} {supply.line!r}: the quote of {whose} lapsed on {supply.quote_until}, ask again"
            found.append((Reason("quote-lapsed", text, serves(supply, supplies), (supply.id,), 0), 0))
    worst = 10**6
    found.sort(
        key=lambda one: (
            -(worst if one[0].delay_days is None else one[0].delay_days),
            -(worst if one[1] is None else one[1]),
            one[0].needs,
            one[0].lines,
        )
    )
    return tuple(reason for reason, _ in found)


def _counted_on(result: LineResult, need: str, supplies: Mapping[str, Supply], judged: Judged) -> bool:
    """Tell whether a need could count on a line: it names the need, or would cover it were its bag not proved wrong."""
    named = serves(result.supply, supplies)
    if named or result.proof != "not conforming":
        return need in named
    judgement = judged.pairs.get((result.supply.id, need))
    return judgement is not None and judgement.word in USABLE


def _cause(result: LineResult, need: str, judged: Judged, holdings: Holdings) -> str:
    """Return why a line that is for a need does not cover it, empty where it does."""
    supply = result.supply
    if supply.id in holdings.nothing:
        why = holdings.nothing[supply.id]
        return f"{supply.id} brings nothing: {why}{f' at {supply.supplier}' if supply.supplier else ''}"
    if holdings.proofs.get(supply.id) == "not conforming":
        return f"{supply.id} was measured and does not conform"
    judgement = judged.pairs.get((supply.id, need))
    if judgement is None:
        return f"{supply.id} is counted in another unit"
    if judgement.word in ("wrong", "unread"):
        because = next((one.text for one in judgement.findings if one.weight in ("wrong", "open")), "")
        return f"{supply.id} {supply.line!r} is {judgement.word}{f': {because}' if because else ''}"
    return ""


def remarks(order: Order) -> tuple[str, ...]:
    """Return notes on lines that a buyer should look at: what the line says against its fields, overdue, unread."""
    notes = [f"{supply.id}: {one}" for supply in order.supplies for one in supply.notes]
    for supply in order.supplies:
        reading = read(supply.line)
        if reading.pack and supply.pack not in (1, reading.pack):
            notes.append(f"{supply.id}: the line says packs of {reading.pack}, the pack field {supply.pack}")
    return tuple(notes)
