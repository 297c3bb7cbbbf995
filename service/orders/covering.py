"""Joins needs and supplies: judges every pair that may be, assigns, and says how each need and each line stands."""

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

from reference.families import by_name
from reference.families.base import Family
from service.orders.assign import USABLE, Demand, Lot, assign
from service.orders.holdings import Holdings
from service.orders.model import Cover, Judgement, LineResult, Need, NeedState, Order, Share, Supply
from service.orders.wanted import judge_for, note, worse
from service.reading import read
from service.reading.habits import read_from
from service.reading.nouns import before_mates, match
from service.reading.text import normalise, words
from service.verdict.model import CheckError, PresenceMate, VerdictWord

MOST_PAIRS = 40_000
"""Pairs of a need and a line that are judged at most; lines that say what they are for make few."""

SHORTEST_NOUN = 3

Pair = tuple[str, str]


class Judged:
    """How every line goes with every need that it may be meant for: by (line, need), by line and by need."""

    def __init__(self, pairs: Mapping[Pair, Judgement]) -> None:
        """Keep the judgements in all three ways: orders of many lines are looked through often."""
        self.pairs = pairs
        self.of_line: dict[str, dict[str, Judgement]] = {}
        self.of_need: dict[str, dict[str, Judgement]] = {}
        for (line, need), judgement in pairs.items():
            self.of_line.setdefault(line, {})[need] = judgement
            self.of_need.setdefault(need, {})[line] = judgement

    def words(self, holdings: Holdings) -> dict[Pair, VerdictWord]:
        """Return the verdict of every pair of a holding and a need."""
        return {
            (one.id, need): judgement.word
            for one in holdings.holdings
            for need, judgement in self.of_line.get(one.supply.id, {}).items()
        }


def judge_all(order: Order) -> Judged:
    """Return how every line goes with every need that it is for, or with all where it says none.

    Raises:
        CheckError: there are more pairs than can be judged in one go.
    """
    needs = {need.id: need for need in order.needs}
    supplies = {supply.id: supply for supply in order.supplies}
    pairs = [
        (supply, needs[name], bool(named))
        for supply in order.supplies
        for named in [serves(supply, supplies)]
        for name in named or needs
        if needs[name].required.unit == supply.amount.unit
    ]
    if len(pairs) > MOST_PAIRS:
        free = sum(1 for supply in order.supplies if not supply.serves)
        raise CheckError(
            "lines",
            f"{free} lines that name no need",
            f"at most {MOST_PAIRS} pairs of a line and a need",
            '"for": ["N1"]',
        )
    found: dict[Pair, Judgement] = {}
    for supply, need, named in pairs:
        judgement = judge_for(supply, need, needs, named)
        if judgement is not None:
            found[supply.id, need.id] = judgement if named else _meant(judgement, supply, need)
    return Judged(found)


def serves(supply: Supply, supplies: Mapping[str, Supply]) -> tuple[str, ...]:
    """Return the needs that a line is for: its own, and as a substitute or second source those of the first line."""
    names = list(supply.serves)
    for other in (supply.substitute_for, supply.second_source_for):
        if other is not None and not supply.serves:
            names += supplies[other].serves
    return tuple(dict.fromkeys(names))


def _meant(judgement: Judgement, supply: Supply, need: Need) -> Judgement:
    """Return the judgement; asked about where only the size goes and the need's own words name another kind of part."""
    if judgement.word not in ("fits", "marginal") or need.part:
        return judgement
    if need.mate is None or isinstance(need.mate, PresenceMate):
        return judgement
    kinds = _kinds(need.description)
    families = frozenset(reading.family for reading in read_from(supply.line, supply.habits).readings)
    if not kinds or kinds & families or _speaks_of(need.description, families):
        return judgement
    text = f"it goes, but {need.description!r} speaks of {_listed(kinds)}"
    question = f"Is {supply.line!r} meant for {need.name}?"
    finding = note("other-kind", "open", text)
    return judgement._replace(word="ask", findings=(*judgement.findings, finding), question=question)


@lru_cache(maxsize=4096)
def _kinds(description: str) -> frozenset[str]:
    """Return the kinds of part that a description names; none where it names only a general one (``pin``)."""
    families = by_name()
    found = [name for name, _ in match(words(normalise(before_mates(description)))).families]
    if any(families[name].generic or families[name].yields for name in found):
        return frozenset()
    return frozenset(name for one in found for name in (one, *families[one].kin))


@lru_cache(maxsize=4096)
def _speaks_of(description: str, names: frozenset[str]) -> bool:
    """Tell whether a description holds a word of the families' nouns, be it in another form (pin, pins)."""
    families = by_name()
    nouns = {word for name in names for noun in _nouns(families[name]) for word in words(normalise(noun))}
    said = words(normalise(description))
    return any(one.startswith(noun) for one in said for noun in nouns if len(noun) >= SHORTEST_NOUN)


def _nouns(family: Family) -> Iterable[str]:
    return (phrase for phrases in family.nouns.values() for phrase in phrases)


def _listed(names: Iterable[str]) -> str:
    return " or ".join(f"a {name}" for name in sorted(names)[:3])


# --- assignment ------------------------------------------------------------------------------------------------------


def demands(order: Order, times: int | None = None, variant: str | None = None) -> list[Demand]:
    """Return how much of each need is wanted in all, losses included; or for so many copies, of one variant."""
    sequence = {step.id: place for place, step in enumerate(order.steps)}
    found: list[Demand] = []
    for need in order.needs:
        if times is None:
            lost = sum(loss.quantity for loss in order.losses if loss.need == need.id and loss.line is None)
            quantity = need.required.number * order.built(need) + lost
        elif variant is not None and need.variants and variant not in need.variants:
            continue
        else:
            quantity = need.required.number * (1 if need.per == "order" else times)
        found.append(Demand(need.id, quantity, sequence.get(need.step or "", len(sequence))))
    return found


def shares_of(order: Order, holdings: Holdings, judged: Judged, without: frozenset[str] = frozenset()) -> list[Share]:
    """Return which part of which supply covers which need."""
    by_id = {one.id: one for one in holdings.holdings}
    found = assign(demands(order), holdings.lots(without), judged.words(holdings))
    return [Share(by_id[lot].supply.id, need, quantity, word, by_id[lot].here) for lot, need, quantity, word in found]


def enough(wanted: Sequence[Demand], lots: Sequence[Lot], words_: Mapping[Pair, VerdictWord]) -> list[str]:
    """Return the needs that what fits does not cover; empty where everything is."""
    fitting = {pair: word for pair, word in words_.items() if word == "fits"}
    got: dict[str, int] = {}
    for _, need, quantity, _ in assign(wanted, lots, fitting):
        got[need] = got.get(need, 0) + quantity
    return [one.id for one in wanted if got.get(one.id, 0) < one.quantity]


# --- how needs and lines stand ---------------------------------------------------------------------------------------


def covers_of(order: Order, shares: Sequence[Share], judged: Judged, clashes: Mapping[str, str]) -> dict[str, Cover]:
    """Return how each need stands; ``clashes`` are needs whose parts do not match each other."""
    wanted = {one.id: one.quantity for one in demands(order)}
    by_need: dict[str, list[Share]] = {}
    for share in shares:
        by_need.setdefault(share.need, []).append(share)
    found: dict[str, Cover] = {}
    for need in order.needs:
        own = tuple(by_need.get(need.id, ()))
        required = wanted[need.id]
        covered = sum(one.quantity for one in own if one.word == "fits")
        doubtful = sum(one.quantity for one in own if one.word != "fits")
        state = _state(required, covered, doubtful)
        if state == "covered" and need.id in clashes:
            state = "in doubt"
        text = _cover_text(need, required, own, order)
        order_text = "" if state == "covered" else _order_text(need, own, judged)
        if order_text:
            text += f"; order text: {order_text}"
        if need.id in clashes:
            text += f"; {clashes[need.id]}"
        found[need.id] = Cover(need, required, covered, doubtful, state, own, text, order_text)
    return found


def _state(required: int, covered: int, doubtful: int) -> NeedState:
    if covered >= required:
        return "covered"
    if covered + doubtful >= required:
        return "in doubt"
    return "short" if covered + doubtful else "missing"


def _cover_text(need: Need, required: int, shares: Sequence[Share], order: Order) -> str:
    said = need.required.said
    here = sum(one.quantity for one in shares if one.here and one.word == "fits")
    coming = sum(one.quantity for one in shares if not one.here and one.word == "fits")
    parts = [f"{need.name}: {said(required)} needed"]
    parts += [f"{said(here)} here"] if here else []
    parts += [f"{said(coming)} on order"] if coming else []
    for word, label in (("marginal", "marginal"), ("ask", "to be asked about")):
        much = sum(one.quantity for one in shares if one.word == word)
        parts += [f"{said(much)} {label}"] if much else []
    short = required - sum(one.quantity for one in shares)
    parts += [f"{said(short)} short"] if 0 < short < required else ["none ordered"] if short else []
    lost = {loss.why: 0 for loss in order.losses if loss.need == need.id and loss.line is None}
    for loss in order.losses:
        if loss.why in lost and loss.need == need.id:
            lost[loss.why] += loss.quantity
    parts += [f"{many} {why} included" for why, many in lost.items()]
    return ", ".join(parts)


def _order_text(need: Need, shares: Sequence[Share], judged: Judged) -> str:
    """Return what to order for a need that is not covered: what its lines should say, else the part that is wanted."""
    own = [judgement for judgement in judged.of_need.get(need.id, {}).values() if judgement.order_text]
    fitting = [one.order_text for one in own if one.word == "fits"]
    if need.part:
        readings = read(need.part).readings
        return readings[0].order_text if len(readings) == 1 else need.part
    taken = [judged.pairs[one.supply, need.id].order_text for one in shares]
    named = [one.order_text for one in own]
    return next((text for text in (*fitting, *taken, *named) if text), "")


def lines_of(order: Order, shares: Sequence[Share], judged: Judged, holdings: Holdings) -> dict[str, LineResult]:
    """Return how each line and each piece of stock stands."""
    supplies = {supply.id: supply for supply in order.supplies}
    held: dict[str, int] = {}
    for one in holdings.holdings:
        held[one.supply.id] = held.get(one.supply.id, 0) + one.quantity
    by_line = by_supply(shares)
    found: dict[str, LineResult] = {}
    for supply in order.supplies:
        own = tuple(judged.of_line.get(supply.id, {}).items())
        used = sum(one.quantity for one in by_line.get(supply.id, ()))
        taken = {one.need for one in by_line.get(supply.id, ())}
        found[supply.id] = LineResult(
            supply,
            _line_word(supply, own, taken, serves(supply, supplies)),
            own,
            used,
            held.get(supply.id, 0) - used,
            holdings.proofs.get(supply.id),
        )
    return found


def by_supply(shares: Iterable[Share]) -> dict[str, list[Share]]:
    """Return the shares of each line."""
    found: dict[str, list[Share]] = {}
    for share in shares:
        found.setdefault(share.supply, []).append(share)
    return found


def _line_word(
    supply: Supply, own: Sequence[tuple[str, Judgement]], taken: set[str], named: tuple[str, ...]
) -> VerdictWord:
    """Return the verdict of a line: the worst over what it is for, else over what it covers, else the best it has."""
    judged = dict(own)
    if named:
        of = [judged[name].word for name in named if name in judged]
        return worse(*of) if of else _alone(supply)
    if taken:
        return worse(*(judged[name].word for name in taken))
    words_ = [judgement.word for judgement in judged.values()]
    usable = [word for word in USABLE if word in words_]
    return usable[0] if usable else _alone(supply) if "wrong" not in words_ else "wrong"


def _alone(supply: Supply) -> VerdictWord:
    return "unread" if read_from(supply.line, supply.habits).state == "unread" else "ask"


# --- things that must match each other -------------------------------------------------------------------------------


def clashes_of(order: Order, shares: Sequence[Share]) -> dict[str, str]:
    """Return the needs whose parts do not match those of another need in interface and version, with why."""
    supplies = {supply.id: supply for supply in order.supplies}
    by_need: dict[str, list[Supply]] = {}
    for share in shares:
        by_need.setdefault(share.need, []).append(supplies[share.supply])
    found: dict[str, str] = {}
    for need in order.needs:
        for other in need.must_match:
            for one, match_ in ((one, two) for one in by_need.get(need.id, ()) for two in by_need.get(other, ())):
                why = _clash(one, match_)
                if why:
                    found.setdefault(need.id, f"{need.id} and {other} must match: {why}")
                    found.setdefault(other, f"{need.id} and {other} must match: {why}")
    return found


def _clash(one: Supply, other: Supply) -> str:
    """Return why two things do not match, empty where they do."""
    for name in ("interface", "version"):
        mine, theirs = str(getattr(one, name)), str(getattr(other, name))
        if mine and theirs and mine.casefold() != theirs.casefold():
            return f"{one.id} has {name} {mine}, {other.id} {theirs}"
        if bool(mine) != bool(theirs):
            silent, said = (one, other) if theirs else (other, one)
            return f"{said.id} has {name} {mine or theirs}, {silent.id} states none"
    if not any((one.interface, one.version, other.interface, other.version)):
        return f"neither {one.id} nor {other.id} states interface or version"
    return ""
