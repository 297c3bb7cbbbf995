"""Which part families a line's words name, in any order and any of five languages, and which word was misspelt."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache

from rapidfuzz import process
from rapidfuzz.distance import OSA

from reference import words as trade
from reference.families import all_families
from service.reading.text import words as words_of

_NOT_NOUNS = frozenset(
    "string strings sprint screen screens staff towel vowel towels dollar dollars color colour cellar"
    " table tables space"
    " spaces magnetic rotor marriage wearing hearing tearing inset insect coupon mobile sheet sheets brush print prints"
    " shift shifts painting planting plastic resistor resistors capacitor wood metal shell small spray lumber number"
    " paint timber paper printer cutter cutters board boards light lights"
    " smoke spike spikes chair chairs laser lasers later layer layers larger couple couples coupled doubling stopper"
    " stoppers opinion opinions minion idle profit brushes brushing pushing exclusion trust"
    " header headers record records recorder plus spin reduce reduces draft drafts grant grants matter matters knows"
    " knots hosts swift resort spice ships stems lite votes piped sine study fused heated eclipse spaced inert grain"
    " grains wipes bots spline splines grand owing grabs nets homes houses barks mille horses razor lips litre mole"
    " image images adapted tuning pulled alias macro macros accumulate boots wasser tapis stiff feeder tape tapes file"
    " files names calls well grab grave stamp toner torch bottle crate folder fence profits stepped".split()
)
"""Ordinary words that stand one letter away from a part noun: never taken for a misspelling."""


@dataclass(frozen=True, slots=True)
class NounMatch:
    """The families that words of the line name, with those words; ``corrected`` maps a misspelt word to the noun."""

    families: tuple[tuple[str, tuple[str, ...]], ...]
    corrected: tuple[tuple[str, str], ...] = ()


def _variants(word: str) -> Iterable[str]:
    """Yield the word and its usual plurals and spellings."""
    yield word
    if len(word) > 2:
        yield word + "s"
        if word.endswith(("s", "x", "sh", "ch", "o")):
            yield word + "es"
        if len(word) > 4:
            yield from (word + "e", word + "n", word + "en", word + "es", word + "er")
            if word.endswith(("a", "o", "e")):
                yield from (word[:-1] + "i", word[:-1] + "e", word[:-1] + "as")
            if word.endswith(("ca", "ga", "co", "go")):
                yield word[:-1] + ("he" if word.endswith("a") else "hi")
            if word.endswith("y"):
                yield word[:-1] + "ies"


_LINKING = words_of(
    "a al con d da de del della des di du en for fur la le mit of para per pour with zum zur",
)
"""Words that link the nouns of a phrase and that buyers leave out: ``molla a tazza``, ``molla tazza``."""


def _key(phrase: str) -> frozenset[str]:
    words = words_of(phrase)
    return words - _LINKING or words


@cache
def _written_phrases() -> dict[frozenset[str], tuple[str, ...]]:
    """Return phrase as written (a set of folded words) -> the families it names."""
    found: dict[frozenset[str], tuple[str, ...]] = {}
    for family in all_families():
        for phrases in family.nouns.values():
            for phrase in phrases:
                key = _key(phrase)
                if family.name not in found.get(key, ()):
                    found[key] = (*found.get(key, ()), family.name)
                german = _key(phrase.replace("ä", "ae").replace("ö", "oe").replace("ü", "ue"))
                if german != key and family.name not in found.get(german, ()):
                    found[german] = (*found.get(german, ()), family.name)
    return found


@cache
def _vocabulary() -> dict[str, str]:
    """Return every form of every noun word -> the shortest noun word that it is a form of."""
    forms: dict[str, str] = {}
    for word in sorted({word for phrase in _written_phrases() for word in phrase}, key=lambda item: (len(item), item)):
        stem = forms.setdefault(word, word)
        for form in _variants(word):
            forms.setdefault(form, stem)
    return forms


@cache
def _phrases() -> dict[frozenset[str], tuple[str, ...]]:
    """Return phrase (a set of stems) -> the families it names; ``molle a tazza`` and ``molla a tazza`` are one."""
    stems = _vocabulary()
    found: dict[frozenset[str], tuple[str, ...]] = {}
    for phrase, names in _written_phrases().items():
        key = frozenset(stems[word] for word in phrase)
        found[key] = tuple(dict.fromkeys((*found.get(key, ()), *names)))
    return found


@cache
def _by_word() -> dict[str, tuple[frozenset[str], ...]]:
    found: dict[str, list[frozenset[str]]] = {}
    for phrase in _phrases():
        for word in phrase:
            found.setdefault(word, []).append(phrase)
    return {word: tuple(phrases) for word, phrases in found.items()}


@cache
def known_words() -> frozenset[str]:
    """Return every word that means something to the reader, nouns and all."""
    return frozenset().union(
        _vocabulary(),
        trade.LABELS,
        trade.MATERIALS,
        trade.FINISHES,
        trade.HARDENED,
        trade.FILLERS,
        trade.PIECE_WORDS,
        trade.PACK_WORDS,
        trade.COUNT_WORDS,
        trade.LENGTH_UNITS,
        trade.RATING_UNITS,
        *(family.words | family.unless for family in all_families()),
    )


@cache
def _targets() -> tuple[str, ...]:
    """Return the words that a misspelling may mean: noun words as written and their plural in s, no other forms."""
    written = {word for phrase in _written_phrases() for word in phrase}
    return tuple(sorted(word for word in written | {f"{word}s" for word in written} if len(word) >= 5))


@lru_cache(maxsize=8192)
def corrections(word: str) -> frozenset[str]:
    """Return the noun words that a misspelt word can mean, the nearest ones; more than one where languages tie.

    >>> sorted(corrections("dowl")), sorted(corrections("string"))
    (['dowel'], [])
    """
    if len(word) < 4 or word in known_words() or word in _NOT_NOUNS:
        return frozenset()
    allowed = 1 if len(word) < 10 else 2
    near = process.extract(word, _targets(), scorer=OSA.distance, score_cutoff=allowed, limit=None)
    found = [(distance, target) for target, distance, _ in near if target[0] == word[0]]
    nearest = min((distance for distance, _ in found), default=0)
    return frozenset(_vocabulary()[target] for distance, target in found if distance == nearest)


_SUGGESTED = 5
_COMPARED = 8


@lru_cache(maxsize=4096)
def _resembling(word: str) -> tuple[tuple[float, str], ...]:
    near = process.extract(word, _targets(), scorer=OSA.normalized_similarity, score_cutoff=0.6, limit=_SUGGESTED)
    return tuple((-similarity, _vocabulary()[target]) for target, similarity, _ in near)


def nearest_words(words: Iterable[str]) -> tuple[str, ...]:
    """Return up to five noun words that look most like the given ones, for a line that cannot be read."""
    scored: list[tuple[float, str]] = []
    for word in sorted(word for word in words if len(word) > 2 and word not in known_words())[:_COMPARED]:
        scored += _resembling(word)
    return tuple(dict.fromkeys(target for _, target in sorted(scored)))[:_SUGGESTED]


_MATES = re.compile(
    r"(?:\+|(?<![^\W\d_])(?:with|w/|for|mit|fur|für|avec|pour|con|para|per|incl|including|inkl|and|und|et)(?![^\W\d_]))\.?\s.*$",
    re.IGNORECASE,
)


def before_mates(text: str) -> str:
    """Return the line up to a word that introduces another part: ``lead screw + nut``, ``washer for M5 screw``."""
    return _MATES.sub(" ", text)


_LABELLED = re.compile(r"(?<=\d)\s?(?:mm|cm|m)\s(?:long|lang|lg|wide|breit|high|hoch|thick|dick)(?!\w)", re.IGNORECASE)


def without_labels(text: str) -> str:
    """Return the line without labels behind a length, which are no part of a noun: ``14 mm long`` makes no long nut."""
    return _LABELLED.sub(" ", text) if "m " in text or "M " in text else text


@lru_cache(maxsize=8192)
def _match(nouns: frozenset[str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return the families of the largest phrases whose words are all there."""
    by_word, phrases = _by_word(), _phrases()
    hits = {phrase for word in nouns for phrase in by_word.get(word, ()) if phrase <= nouns}
    largest = [phrase for phrase in hits if not any(phrase < other for other in hits)]
    found: dict[str, tuple[str, ...]] = {}
    for phrase in sorted(largest, key=lambda item: (-len(item), sorted(item))):
        for name in phrases[phrase]:
            found.setdefault(name, tuple(sorted(phrase)))
    return tuple(found.items())


@lru_cache(maxsize=8192)
def match(words: frozenset[str]) -> NounMatch:
    """Return the families that the folded words name; a misspelt word counts only where nothing else names a part."""
    vocabulary = _vocabulary()
    nouns = frozenset(vocabulary[word] for word in words if word in vocabulary)
    found = _match(nouns)
    options = {word: rights for word in sorted(words) if (rights := corrections(word))}
    corrected = {word: next(iter(rights)) for word, rights in options.items() if len(rights) == 1}
    plain = nouns | frozenset(corrected.values())
    for word, rights in options.items():
        telling = [right for right in sorted(rights) if len(rights) > 1 and _match(plain | {right}) != _match(plain)]
        if len(telling) == 1:
            corrected[word] = telling[0]
    if corrected:
        mended = _match(nouns | frozenset(corrected.values()))
        if mended != found:
            used = {word for _, phrase in mended for word in phrase}
            return NounMatch(mended, tuple((wrong, right) for wrong, right in corrected.items() if right in used))
    return NounMatch(found)
