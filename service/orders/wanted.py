"""Judges a line against a need: its mate, the mates of its neighbours, the part that is wanted, interface and version.

What only has to be there (a tool, a cable) is taken by the buyer's own word: a line says which need it is for, or holds
the need's own words. Judging one reading against one mate is ``service.verdict``.
"""

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

from reference.families import by_name
from reference.quantities import Dimension, Limits, ThreadSize
from reference.words import fold
from service.orders.model import Judgement, Need, Supply
from service.reading import read
from service.reading.habits import read_from
from service.reading.model import Reading
from service.verdict.combine import combine, worst
from service.verdict.judge import judge, judge_line
from service.verdict.model import Check, Finding, JudgedReading, PresenceMate, Verdict, VerdictWord, Weight

WORDS: tuple[VerdictWord, ...] = ("fits", "marginal", "ask", "wrong", "unread")
"""Verdicts, best first."""

SOURCE = "the order itself"
_ATTRIBUTES = ("property_class", "material", "seal", "hand", "profile", "finish")
"""What a wanted part states besides dimensions and a line has to state as well."""


def worse(*words: VerdictWord) -> VerdictWord:
    """Return the worst of some verdicts."""
    return max(words, key=WORDS.index)


def note(code: str, weight: Weight, text: str) -> Finding:
    """Return a finding that rests on the order alone, without numbers."""
    return Finding(code, weight, text, {}, SOURCE)


def judge_for(supply: Supply, need: Need, others: Mapping[str, Need], named: bool) -> Judgement | None:
    """Return how a line goes with a need; None where nothing says that it is meant for it at all.

    ``others`` are all needs by id: the same part must also go with the mates of the need's neighbours; ``named`` tells
    whether the line says that it is for the need.
    """
    together = near(need, others)
    parts = [
        _mated(supply, one.asks, "" if one is need else f"{one.id}: ")
        for one in together
        if one.asks is not None and not isinstance(one.asks.mate, PresenceMate)
    ]
    if need.part:
        wanted = _wanted(supply, need.part, named)
        if wanted is None:
            return None
        parts.append(wanted)
    if not parts:
        present = _present(supply, need, named)
        if present is None:
            return None
        parts.append(present)
    parts += [one for one in (_same(supply, need, "interface"), _same(supply, need, "version")) if one is not None]
    found = _together(parts)
    if len(parts) > 1 and found.word != "fits":
        found = found._replace(order_text=_going_with_all(parts, together))
    return _citing(supply, found)


def near(need: Need, others: Mapping[str, Need]) -> tuple[Need, ...]:
    """Return the needs whose mates one part must go with: the need itself, and its neighbours."""
    return (need, *(others[name] for name in need.neighbours))


def _going_with_all(parts: Sequence[Judgement], needs: Sequence[Need]) -> str:
    """Return the order text of one part that goes with every mate: what puts one right may be wrong for another."""
    checks = [need.asks for need in needs if need.asks is not None and not isinstance(need.asks.mate, PresenceMate)]
    for text in dict.fromkeys(one.order_text for one in parts if one.order_text):
        if all(judge(check._replace(line=text)).verdict == "fits" for check in checks):
            return text
    return ""


def _citing(supply: Supply, found: Judgement) -> Judgement:
    """Return a judgement with the habits of the supplier that its reading rests on among its findings."""
    if not supply.habits:
        return found
    sources = {habit.source for habit in supply.habits}
    read_so = {
        one: None
        for reading in read_from(supply.line, supply.habits).readings
        for one in reading.because
        if one.source in sources
    }
    cited = tuple(Finding("supplier-habit", "note", f"{one.text}: {one.says}", {}, one.source) for one in read_so)
    return found._replace(findings=found.findings + cited)


def _together(parts: Sequence[Judgement]) -> Judgement:
    word = worse(*(one.word for one in parts))
    at_fault = [one for one in parts if one.word == word]
    shares = [one.share for one in parts if one.share is not None]
    return Judgement(
        word,
        tuple(finding for one in parts for finding in one.findings),
        next((one.question for one in at_fault if one.question), None),
        next((one.order_text for one in (*at_fault, *parts) if one.order_text), ""),
        tuple(dict.fromkeys(caution for one in parts for caution in one.cautions)),
        min(shares, default=None),
    )


# --- a mate ----------------------------------------------------------------------------------------------------------


def verdict_on(supply: Supply, asks: Check) -> Verdict:
    """Return the verdict of a line on a mate, read as its supplier is known to mean it."""
    asked = asks._replace(line=supply.line)
    return judge_line(read_from(supply.line, supply.habits), asked) if supply.habits else judge(asked)


def _mated(supply: Supply, asks: Check, lead: str) -> Judgement:
    """Return the verdict of the line on a mate; ``lead`` names a neighbour before each of its findings."""
    found = verdict_on(supply, asks)
    many = len(found.readings) > 1
    findings = [
        one._replace(text=f"{lead}{reading.reading.family if many else ''}{': ' if many else ''}{one.text}")
        for reading in found.readings
        for one in reading.findings
        if one.weight != "note"
    ]
    findings += [one._replace(text=lead + one.text) for one in found.findings]
    return Judgement(found.verdict, tuple(findings), found.question, found.order_text, found.cautions, found.share)


# --- the part that is wanted -----------------------------------------------------------------------------------------


def _wanted(supply: Supply, part: str, named: bool) -> Judgement | None:
    """Return whether the line is the part that is wanted: by what both say, or word by word where neither is read."""
    asked, offered = read(part), read_from(supply.line, supply.habits)
    if asked.state == "unread":
        if named or fold(part) == fold(supply.line):
            return Judgement("fits", (note("named", "fits", f"taken as {part!r} by the order's own word"),), None, part)
        return _by_words(supply, part)
    if offered.state == "unread":
        reason = offered.reason or "the line names no part that is known here"
        return Judgement("unread", (note("unread", "open", reason),), offered.question, asked.readings[0].order_text)
    if asked.state == "ambiguous":
        kinds = {one.family for one in asked.readings}
        if not named and kinds.isdisjoint(one.family for one in offered.readings):
            return None
        text = f"the part wanted, {part!r}, can mean several things"
        return Judgement("ask", (note("wanted-open", "open", text),), asked.question, "")
    judged = [_compare(one, asked.readings[0]) for one in offered.readings]
    word, _ = combine(judged)
    if offered.state == "ambiguous" and word == "fits":
        word = "ask"
    question = offered.question if word == "ask" else None
    if word == "ask" and question is None:
        opened = next((finding.text for one in judged for finding in one.findings if finding.weight == "open"), "")
        question = f"Please state: {opened}." if opened else None
    findings = tuple(finding for one in judged for finding in one.findings)
    return Judgement(word, findings, question, asked.readings[0].order_text)


def _compare(offered: Reading, wanted: Reading) -> JudgedReading:
    """Compare one reading of the line with the part that is wanted."""
    if offered.family != wanted.family:
        text = f"it is a {offered.family}, wanted is a {wanted.family}"
        return JudgedReading(offered, "wrong", None, (note("other-part", "wrong", text),))
    findings: list[Finding] = []
    keys = _keys(wanted)
    for name, dimension in wanted.dimensions.items():
        held = offered.dimensions.get(name)
        shown = name.replace("_", " ")
        if held is None:
            if name in keys:
                findings.append(note("dimension-missing", "open", f"the {shown}, {_said(dimension)} is wanted"))
        elif (weight := _weight(held, dimension, name in keys)) != "fits":
            text = f"{shown} {_said(held)}, wanted is {_said(dimension)}"
            findings.append(note("other-dimension", weight, text))
    for name in _ATTRIBUTES:
        value, held_value = wanted.attributes.get(name), offered.attributes.get(name)
        if value is None or value == held_value or (held_value is None and value == _usual(offered.family, name)):
            continue
        shown = name.replace("_", " ")
        if held_value is None:
            findings.append(note("attribute-missing", "open", f"the {shown}, {value} is wanted"))
        else:
            findings.append(note("other-attribute", "wrong", f"{shown} {held_value}, wanted is {value}"))
    if not findings:
        findings.append(note("as-wanted", "fits", f"the part that is wanted: {wanted.order_text}"))
    return JudgedReading(offered, worst(findings), None, tuple(findings))


_DEFAULT = r"\{%s\?([^}]*)\}"
_IN_FULL = {"St": "steel"}


@lru_cache(maxsize=1024)
def _usual(family: str, name: str) -> str | None:
    """Return the attribute that a family has where nobody says another: the default of its designation."""
    declared = by_name().get(family)
    match = re.search(_DEFAULT % name, declared.order) if declared else None
    return _IN_FULL.get(match[1], match[1]) if match else None


def _keys(reading: Reading) -> frozenset[str]:
    family = by_name().get(reading.family)
    if family is None:
        return frozenset(reading.dimensions)
    named = {name for need in family.needed for name in need}
    return frozenset({family.key, "length", *named, "thread", "internal_thread"})


def _weight(held: Dimension, wanted: Dimension, key: bool) -> Weight:
    """Return how a dimension of the line weighs beside the one wanted; what only the table adds is never wrong."""
    differs: Weight = "wrong" if key else "open"
    if isinstance(held, Limits) and isinstance(wanted, Limits):
        if held.nominal != wanted.nominal:
            return differs
        if not key or wanted.lower is None or wanted.upper is None or held.lower is None or held.upper is None:
            return "fits"
        if wanted.lower <= held.lower and held.upper <= wanted.upper:
            return "fits"
        # Where the limits overlap the line may mean the wanted class.
        return "open" if held.lower <= wanted.upper and wanted.lower <= held.upper else "wrong"
    if isinstance(held, ThreadSize) and isinstance(wanted, ThreadSize):
        return "fits" if (held.designation, held.hand) == (wanted.designation, wanted.hand) else differs
    return "fits" if held == wanted else differs


def _said(value: Dimension) -> str:
    if isinstance(value, Limits):
        shown = f"{value.nominal} {value.tolerance_class}" if value.tolerance_class else f"{value.nominal}"
        return shown if value.lower is None or value.upper is None else f"{shown} ({value.lower}..{value.upper})"
    if isinstance(value, ThreadSize):
        return value.designation + (" left-hand" if value.hand == "left" else "")
    if isinstance(value, str):
        return value
    return ", ".join(f"{rating.value} {rating.unit}" for rating in value.values())


# --- what only has to be there ---------------------------------------------------------------------------------------


def _present(supply: Supply, need: Need, named: bool) -> Judgement | None:
    """Return whether the line is the thing that has to be there: by the order's own word, or by the need's words."""
    if named:
        text = f"it only has to be there: taken for {need.id} by the order's own word"
        return Judgement("fits", (note("named", "fits", text),), None, "")
    return _by_words(supply, need.description)


def _by_words(supply: Supply, wanted: str) -> Judgement | None:
    """Return whether the line holds the words of what is wanted; alike is sure, more words than wanted are a doubt."""
    asked, offered = _word_set(wanted), _word_set(supply.line)
    if not asked or not asked <= offered:
        return None
    if asked == offered:
        return Judgement("fits", (note("same-words", "fits", f"the same words as {wanted!r}"),), None, "")
    text = f"{supply.line!r} holds all words of {wanted!r}; whether it is that, only the buyer knows: name it by for"
    return Judgement("ask", (note("words-found", "open", text),), f"Is {supply.line!r} meant for {wanted!r}?", "")


@lru_cache(maxsize=8192)
def _word_set(text: str) -> frozenset[str]:
    return frozenset(re.findall(r"[\w.]+", fold(text)))


def _same(supply: Supply, need: Need, name: str) -> Judgement | None:
    """Return whether the line has the interface or version that the need names; None where it names none."""
    wanted, held = str(getattr(need, name)), str(getattr(supply, name))
    if not wanted:
        return None
    if held:
        if _word_set(held) == _word_set(wanted):
            return Judgement("fits", (note(f"{name}-matches", "fits", f"{name} {held}"),), None, "")
        text = f"{name} {held}, needed is {wanted}"
        return Judgement("wrong", (note(f"{name}-differs", "wrong", text),), None, "")
    if _word_set(wanted) <= _word_set(supply.line):
        return Judgement("fits", (note(f"{name}-matches", "fits", f"the line says {wanted}"),), None, "")
    question = f"Which {name} has {supply.line!r}? We need {wanted}."
    return Judgement(
        "ask", (note(f"{name}-not-stated", "open", f"the {name} is not stated, needed is {wanted}"),), question, ""
    )
