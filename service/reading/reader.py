"""Reads a purchase line: which part families its words name, and every meaning its numbers can have in them.

``read`` is the whole interface. Answers are kept, up to a bound, by the line and by its text without the count.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from reference.families import all_families, by_name, by_standard
from reference.families.base import Family, Standard
from reference.families.facts import Draft, Facts, StandardMention
from service.reading import counts, nouns, standards, stencil
from service.reading.assemble import CodeMatch, assemble, finish, impossible, leftovers, match_code, ratings_of
from service.reading.model import Because, LineReading, Reading, State
from service.reading.questions import ask, contradiction, quoted
from service.reading.scan import BLANK, scan
from service.reading.text import normalise, words

MAX_LINE = 500
"""The longest line that is read, in characters."""

CACHE_SIZE = 256


def _identified(low: str, candidates: Sequence[Family], said: frozenset[str]) -> list[tuple[Family, CodeMatch]]:
    """Return the families that a catalogue designation alone names."""
    found: list[tuple[Family, CodeMatch]] = []
    for family in candidates:
        match = match_code(family, low, identifying=True)
        if match is not None and family.unless.isdisjoint(said):
            found.append((family, match))
    longest = max((len(match.text) for _, match in found), default=0)
    return [(family, match) for family, match in found if len(match.text) == longest]


@cache
def _with_codes() -> tuple[Family, ...]:
    return tuple(family for family in all_families() if any(code.identifies for code in family.codes))


def _kin(families: Sequence[Family]) -> list[Family]:
    """Return the families that the given ones may loosely mean."""
    names = by_name()
    kin = dict.fromkeys(name for family in families for name in family.kin if name in names)
    return [names[name] for name in kin]


class _Line:
    """One line on its way to readings."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.standards, self.rest = standards.find(self.text)
        self.words = words(self.rest)
        bare = nouns.without_labels(self.rest)
        self.match = nouns.match(self.words if bare is self.rest else words(bare))
        named = [by_name()[name] for name, _ in self.match.families]
        self.named = [family for family in named if family.unless.isdisjoint(self.words)]
        self.low = self.rest.lower()
        self.facts: Facts | None = None

    def nouns_of(self, family: Family) -> tuple[str, ...]:
        """Return the words that name the family, as far as the line holds them."""
        return next((phrase for name, phrase in self.match.families if name == family.name), ())

    def scanned(self, code: CodeMatch | None) -> Facts:
        """Return the facts of the line, without the catalogue designation where one is given."""
        text = self.rest
        if code is not None:
            at = self.low.find(code.text)
            text = f"{text[:at]} {BLANK} {text[at + len(code.text) :]}"
        elif self.facts is not None:
            return self.facts
        amperes = any("current" in family.ratings for family in self.named)
        facts = scan(text, self.text, self.words, self.standards, amperes)
        if code is None:
            self.facts = facts
        else:
            facts.code = code.text
        return facts

    def candidates(self) -> tuple[list[tuple[Family, Standard | None, CodeMatch | None]], list[str]]:
        """Return the families the line can mean, each with the standard or code that names it, and doubts."""
        doubts: list[str] = []
        by_number: list[tuple[Family, Standard]] = []
        for mention in self.standards:
            by_number += [(family, family.by_standard[mention.name]) for family in by_standard().get(mention.name, ())]
        specific = self._narrowed([family for family in self.named if not family.generic])
        if by_number:
            return self._by_standard(by_number, specific, doubts)
        if self.named:
            return self._by_noun(specific), doubts
        identified = _identified(self.low, _with_codes(), self.words)
        if identified:
            return [(family, None, match) for family, match in identified], doubts
        return [(family, None, None) for family in self._by_class()], doubts

    def _by_class(self) -> list[Family]:
        """Return the family that a property class beside a thread names where no noun does: ``M4x50 12.9``."""
        facts = self.scanned(None)
        held = facts.attributes.get("property_class", "")
        if not held or not any(mention.thread.system == "metric" for mention in facts.threads()):
            return []
        return [family for family in all_families() if held in family.alone]

    def _by_standard(
        self, by_number: list[tuple[Family, Standard]], specific: list[Family], doubts: list[str]
    ) -> tuple[list[tuple[Family, Standard | None, CodeMatch | None]], list[str]]:
        agreed = [(family, standard) for family, standard in by_number if family in specific]
        if not agreed and specific:
            wide = {family.name for family, _ in by_number}
            loosely = {family.name for family in _kin(specific)}
            if wide & loosely:
                agreed = [(family, standard) for family, standard in by_number if family.name in loosely]
        chosen = agreed or by_number
        if len({standard.name for _, standard in chosen}) > 1 and len({family.name for family, _ in chosen}) > 1:
            names = " and ".join(f"{standard.name} ({family.name})" for family, standard in chosen[:2])
            doubts.append(f"The line names {names}. Which one is wanted?")
        found: list[tuple[Family, Standard | None, CodeMatch | None]] = []
        for family, standard in chosen:
            if family.name not in {item[0].name for item in found}:
                found.append((family, standard, match_code(family, self.low)))
        if specific and not agreed:
            doubts.append(contradiction(chosen[0][1].name, chosen[0][0].name, specific[0].name))
            found += [(family, None, match_code(family, self.low)) for family in specific]
        return found, doubts

    def _by_noun(self, specific: list[Family]) -> list[tuple[Family, Standard | None, CodeMatch | None]]:
        named = self.named
        if len(named) > 1:
            named = self._without_mates(named)
            named = [family for family in named if not family.yields] or named
            specific = self._narrowed([family for family in named if not family.generic])
            named = specific or named
        identified = _identified(self.low, _kin(named), self.words) if len(named) == 1 or not specific else []
        own = [(family, match_code(family, self.low)) for family in named]
        if not identified and all(family.yields for family in named):
            identified = _identified(self.low, _with_codes(), self.words)
        if identified and not any(match for _, match in own):
            return [(family, None, match) for family, match in identified]
        return [(family, None, match) for family, match in own]

    def _narrowed(self, families: list[Family]) -> list[Family]:
        """Drop a family whose words may loosely mean another that is named too: ``countersunk`` beside ``wood screw``.

        Families that the same words name stay: those words leave them open.
        """
        if len(families) < 2:
            return families
        said = {family.name: self.nouns_of(family) for family in families}
        kept = [
            family
            for family in families
            if not any(
                name in said and said[name] != said[family.name] and family.name not in by_name()[name].kin
                for name in family.kin
            )
        ]
        return kept or families

    def _without_mates(self, named: list[Family]) -> list[Family]:
        """Drop families that stand only behind a plus sign or a word such as ``for`` or ``with``."""
        alone = nouns.match(words(nouns.before_mates(self.rest)))
        kept = [family for family in named if family.name in {name for name, _ in alone.families}]
        return kept or named


def _differ(one: Reading, other: Reading) -> bool:
    """Tell whether two readings differ in anything that matters for the part."""
    return one.family != other.family or one.dimensions != other.dimensions or one.size_names != other.size_names


def _unread(item: _Line) -> LineReading:
    facts = item.scanned(None)
    if not item.text:
        reason = "the line is empty"
    elif any(not mention.known for mention in item.standards):
        names = ", ".join(mention.name for mention in item.standards)
        reason = f"no table here knows {names}, and no word of the line names a part"
    elif facts.threads() or facts.chains or facts.labelled:
        reason = "the line gives sizes, but no word that names a part"
    else:
        reason = "no word of the line names a part that is known here"
    return LineReading(
        line=item.text,
        state="unread",
        readings=(),
        reason=reason,
        nearest=nouns.nearest_words(item.words),
        quantity=facts.quantity,
        pack=facts.pack,
    )


def _unknown_standards(mentions: Sequence[StandardMention]) -> list[str]:
    return [
        f"No table here knows {mention.name}. Which part does it name?" for mention in mentions if not mention.known
    ]


def _corrections(item: _Line, reading: Reading) -> Reading:
    if not item.match.corrected:
        return reading
    said = tuple(
        Because(wrong, f"read as {right!r}, the one part noun that it resembles", "spelling")
        for wrong, right in item.match.corrected
    )
    return reading._replace(because=reading.because + said)


@dataclass(frozen=True, slots=True)
class Meaning:
    """An answer together with the drafts that it was made from, one for each of its readings."""

    answer: LineReading
    drafts: tuple[Draft, ...]
    inches: bool = False
    doubts: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()


def meaning(text: str) -> Meaning:
    """Read a normalised line, without any memory of lines read before; its question has a gap for the line."""
    item = _Line(text)
    candidates, doubts = item.candidates()
    doubts += _unknown_standards(item.standards)
    pairs: list[tuple[Draft, Reading]] = []
    facts: Facts | None = None
    for family, standard, code in candidates:
        facts = item.scanned(code)
        for draft in assemble(family, facts, standard, item.nouns_of(family), code):
            owner = by_name().get(draft.family, family)
            if not (code or standard or item.named):
                draft.evidence = "assumed"
                draft.asks.append(f"the kind of part taken as {draft.family}, which the line does not say")
            reading = finish(owner, draft, facts, standard if owner is family else None)
            if not pairs or all(_differ(reading, other) for _, other in pairs):
                if (doubt := impossible(reading.dimensions)) is not None:
                    draft.doubts.append(doubt)
                pairs.append((draft, _corrections(item, reading)))
    if not pairs or facts is None:
        return Meaning(_unread(item), ())
    if len(pairs) == 1:
        _check_identity(*pairs[0])
    rests = [leftovers(draft) for draft, _ in pairs]
    if all(rests):
        doubts.append(f"What does {' and '.join(repr(text) for text in min(rests, key=len))} in the line mean?")
    else:
        pairs = [pair for pair, rest in zip(pairs, rests, strict=True) if not rest]
    every = doubts + facts.doubts[:1] + [doubt for draft, _ in pairs for doubt in draft.doubts]
    readings = tuple([reading for _, reading in pairs])
    state: State = "ambiguous" if every or len(readings) > 1 else "clear"
    asks = tuple([text for draft, _ in pairs for text in draft.asks])
    question = ask(readings, every, asks)
    answer = LineReading(text, state, readings, question, quantity=facts.quantity, pack=facts.pack)
    return Meaning(answer, tuple([draft for draft, _ in pairs]), facts.inches, tuple(every), asks)


def _check_identity(draft: Draft, reading: Reading) -> None:
    """Doubt a reading that lacks what makes it a certain part."""
    family = by_name()[draft.family]
    rated = ratings_of(reading.dimensions)
    for names in family.identifying:
        if not any(name in reading.dimensions or name in rated for name in names):
            draft.doubts.append(family.question or f"Please state the {names[0].replace('_', ' ')}.")
            return


@lru_cache(maxsize=4 * CACHE_SIZE)
def _remembered(text: str) -> LineReading:
    return meaning(text).answer


def _part(text: str) -> LineReading:
    """Return the answer for a normalised line without its count of pieces."""
    cut = stencil.cut_out(text)
    if cut is None:
        return _remembered(text)
    found = stencil.apply(text, cut)
    if found is not None:
        return found
    return _remembered(text) if stencil.refused(cut) else stencil.learn(text, cut, meaning)


def _whole(line: str, part: Callable[[str], LineReading]) -> LineReading:
    """Return the answer for a line, its part read by ``part``."""
    text, quantity, pack = counts.take(normalise(line))
    answer = part(text)
    if quantity is None:
        quantity, pack = answer.quantity, answer.pack
    elif answer.quantity is not None:
        pack = answer.pack or answer.quantity
    question = quoted(answer.question, line)
    return LineReading(line, answer.state, answer.readings, question, answer.reason, answer.nearest, quantity, pack)


@lru_cache(maxsize=CACHE_SIZE)
def _read(line: str) -> LineReading:
    return _whole(line, _part)


def from_scratch(line: str) -> LineReading:
    """Return what ``read`` does, without any memory of lines read before: what the short cuts are held against."""
    return _whole(line, lambda text: meaning(text).answer)


def read(line: str) -> LineReading:
    """Return what a purchase line means.

    Raises:
        ValueError: the line is longer than ``MAX_LINE`` characters.

    >>> read("M5 dowel pin").state
    'ambiguous'
    >>> [reading.size_names for reading in read("M5 dowel pin").readings][:2]
    ['internal thread', 'outer diameter']
    """
    if len(line) > MAX_LINE:
        raise ValueError(f"a line has at most {MAX_LINE} characters, this one has {len(line)}")
    return _read(line)
