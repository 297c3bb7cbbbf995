"""Fuses: a body (5 x 20, 6.3 x 32, blade) and a rating; the letter tells how fast it breaks.

A cartridge fuse without F (quick) or T (time-lag) is not named fully: both are sold in every body and current.

Sources: IEC 60127-2, IEC 60269-2 (table of bodies); blade fuses: common practice.
"""

import re
from collections.abc import Mapping, Sequence

from reference.families.base import Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts
from reference.quantities import Limits

_LETTER = re.compile(
    r"(?<![A-Za-z0-9])(FF|F|M|TT|T) ?[0-9]|(?<![A-Za-z])(FF|F|TT|T|gG|gL|aM)(?![A-Za-z0-9])|[0-9] ?A ?(F|T)\b"
)
_SPEED_WORDS: Mapping[str, tuple[str, ...]] = {
    "F": ("fast", "quick", "flink", "rapide", "rapido", "rapida", "acting"),
    "T": (
        "slow", "slowblow", "lag", "trage", "lent", "lente", "temporise", "temporisee", "retardado", "lento",
        "ritardato", "delay", "delayed",
    ),
}  # fmt: skip
_BLADE = (
    "blade",
    "flachsicherung",
    "flachstecksicherung",
    "kfz",
    "ato",
    "atc",
    "automotive",
    "lame",
    "lames",
    "lamellare",
    "coche",
)


def _speed(line: str, facts: Facts) -> str | None:
    if facts.says("superflink"):
        return "FF"
    named = next((letter for letter, said in _SPEED_WORDS.items() if facts.says(*said)), None)
    found = _LETTER.search(line)
    return named or (next(filter(None, found.groups())) if found else None)


def _fuse(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take the speed; name what is missing; tell the true body behind its trade size."""
    for draft in drafts:
        blade = facts.says(*_BLADE)
        speed = _speed(facts.line, facts)
        if speed is not None and not blade:
            draft.attributes["speed"] = speed
        outer, length = draft.nominal("outer_diameter"), draft.nominal("length")
        if outer is None:
            draft.size_names = "rating"
        if blade:
            draft.attributes["form"] = "blade"
            draft.order_text = "Blade fuse {current}"
            continue
        if draft.rated("voltage") is None:
            draft.order_text = "Fuse {outer_diameter} x {length}, {speed?F} {current}"
        if outer is not None and length is not None and family.sizes is not None:
            named = f"{outer.normalize():f}x{length.normalize():f}"
            row = next((row for row in family.sizes.rows if row.size == named), None)
            body = row.dimensions["outer_diameter"] if row else None
            if row is not None and isinstance(body, Limits) and body.nominal != outer:
                draft.notes.append(("body-size", f"the {named} body measures {body.nominal} mm", row.source))
        if speed is None:
            draft.doubts.append("Is the fuse quick-acting (F) or time-lag (T), and for which voltage?")
    return drafts


FAMILY = Family(
    name="fuse",
    size_names="body size",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "fuse, glass fuse, blade fuse, cartridge fuse, ceramic fuse, tube fuse, microfuse, mini blade fuse"
        ),
        "de": phrases(
            "Sicherung, Feinsicherung, Glassicherung, Flachsicherung, Schmelzsicherung, Flachstecksicherung,"
            " Glasrohrsicherung"
        ),
        "fr": phrases("fusible, fusible verre, fusible à lame, fusibles"),
        "es": phrases("fusible, fusible de cristal, fusible de vidrio, fusibles"),
        "it": phrases("fusibile, fusibile in vetro, fusibile lamellare, fusibili"),
    },
    standards=(Standard("IEC 60127"), Standard("IEC 60127-2"), Standard("IEC 60269-2"), Standard("DIN 72581")),
    table="fuse",
    layouts=(
        Layout(("outer_diameter", "length"), when=lambda v: v["outer_diameter"] < v["length"], says="body"),
        Layout(("length", "outer_diameter"), when=lambda v: v["outer_diameter"] < v["length"], says="body"),
    ),
    ratings=("current", "voltage"),
    needs=("current", "voltage"),
    identity=("current",),
    order="Fuse {outer_diameter} x {length}, {speed?F} {current} {voltage}",
    question="Which current, speed (F or T) and voltage has the fuse?",
    refine=_fuse,
    listed_sizes=False,
    unless=words(
        "holder halter porte portafusible portafusibles portafusibili box block sicherungshalter puller wire tap"
    ),
    examples=(
        Example("fuse 5x20 F1A 250V", dimensions={"outer_diameter": "5", "length": "20"}, size_names="body size"),
        Example("Feinsicherung 5x20 2 A träge 250 V", dimensions={"outer_diameter": "5", "length": "20"}),
        Example("fusible verre 6x30 T10A 250V", dimensions={"outer_diameter": "6", "length": "30"}),
        Example("blade fuse 10A", size_names="rating"),
        Example("5x20 fuse 2A", state="ambiguous"),
        Example("fuse 5x20", state="ambiguous"),
    ),
    source="IEC 60127-2, IEC 60269-2",
    mates=Mates(in_bore=False, on_shaft=False),
)
