"""Clevis pins with and without head, and ball lock pins.

The size is the shank (h11). Headless pins (ISO 2340) are measured over all, headed ones (ISO 2341) under the head, ball
lock pins over the grip. Form A has no hole for a split pin, form B has. German ``Bolzen`` alone is a clevis pin in
standards and a screw in everyday speech.

Sources: ISO 2340, ISO 2341 (table); ball lock pins: common practice.
"""

import re
from collections.abc import Sequence

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, Standard, phrases
from reference.families.facts import Draft, Facts, ThreadMention
from reference.quantities import Limits
from reference.threads import metric

_FORM = re.compile(r"(?<![A-Za-z0-9])(?:[Ff]orm )?([AB])(?= |-|,|$|[0-9]+(?:[.,][0-9]+)? ?[xX×*])")
_HEADLESS = ("headless", "ohne", "kopflos", "kopfloser", "sans", "lisse", "senza")
_HOLE_WORDS = ("hole", "holes", "loch", "splintloch", "bohrung", "trou", "trous", "agujero", "agujeros", "foro", "fori")
_SIZE_LAYOUTS = (
    Layout(("outer_diameter", "length"), when=lambda v: v["outer_diameter"] <= v["length"]),
    Layout(
        ("length", "outer_diameter"),
        when=lambda v: v["outer_diameter"] < v["length"],
        says="the larger number is the length",
    ),
    Layout(("outer_diameter", "length", "split_pin_hole")),
    Layout(("outer_diameter",)),
)


def _clevis(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Tell head and form; ``Bolzen`` without a standard may be a screw."""
    out: list[Draft] = []
    for draft in drafts:
        mention = next((part for part in draft.rest if isinstance(part, ThreadMention)), None)
        if facts.says("bolzen") and not draft.standards and not facts.says("kopf", "splintloch", "gabel"):
            out += _pin_or_screw(draft, mention)
            continue
        if not draft.standards:
            draft.table_standard = "ISO 2340" if facts.says(*_HEADLESS) else "ISO 2341"
            draft.standards = (draft.table_standard,)
            draft.order_text = _order(draft.table_standard)
            if "outer_diameter" in draft.dimensions:
                draft.asks.append("class h11" + ("" if facts.says(*_HEADLESS) else ", length under the head"))
        form = _FORM.search(facts.line)
        if form is not None or facts.says(*_HOLE_WORDS):
            draft.attributes["form"] = form[1] if form is not None else "B"
        if draft.attributes.get("form", "A") == "A":
            says = "none" if "form" in draft.attributes else "form B only"
            draft.dimensions |= {"split_pin_hole": says, "end_to_hole": says}
        out.append(draft)
    return out


def _pin_or_screw(draft: Draft, mention: ThreadMention | None) -> list[Draft]:
    if mention is not None:
        draft.drop(mention)
        draft.dimensions.setdefault("outer_diameter", Limits(mention.thread.diameter))
    outer = draft.nominal("outer_diameter")
    if outer is None:
        return [draft]
    plain = {"split_pin_hole": "form B only", "end_to_hole": "form B only"}
    draft.because.append(("Bolzen", "in standards a pin without thread", "ISO 2340"))
    pin = draft.copy(evidence="assumed", dimensions={**draft.dimensions, **plain}, table_standard="ISO 2340")
    thread = mention.thread if mention else metric(outer)
    if thread is None:
        pin.doubts.append("Is it a plain pin or a screw? Please give its standard.")
        return [pin]
    others = {key: value for key, value in draft.dimensions.items() if key != "outer_diameter"}
    screw = draft.copy(
        family="hex head screw (threaded to the head)",
        size_names="external thread",
        evidence="assumed",
        dimensions={"thread": thread, **others},
        because=[("Bolzen", "in everyday German a screw with a hexagon head", COMMON_PRACTICE)],
    )
    return [pin, screw] if mention is None else [screw, pin]


def _grip(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """The length of a ball lock pin is its grip, by practice."""
    for draft in drafts:
        outer, length = draft.nominal("outer_diameter"), draft.nominal("length")
        if outer is not None and length is not None and outer > length:  # 6 mm grip 25 mm
            draft.dimensions |= {"outer_diameter": Limits(length), "length": Limits(outer)}
        if length is not None and not facts.says("grip", "klemmlange", "serrage"):
            draft.because.append(("length", "is the grip between head and balls", COMMON_PRACTICE))
            draft.asks.append(f"{length.normalize():f} mm as the grip")
    return drafts


def _order(standard: str) -> str:
    return f"Clevis pin {standard} - {{form?A}} - {{outer_diameter}} x {{length}} - {{material?St}}"


CLEVIS_PIN = Family(
    name="clevis pin",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases("clevis pin, clevis, headed clevis pin, headless clevis pin, fork pin, hinge pin, linkage pin"),
        "de": phrases("Bolzen, Gabelbolzen, Bolzen mit Kopf, Bolzen ohne Kopf, Gelenkbolzen, Splintbolzen"),
        "fr": phrases(
            "axe de chape, axe lisse, axe à tête, axe avec tête, axe sans tête, axe d'articulation, axe épaulé"
        ),
        "es": phrases(
            "pasador de horquilla, bulón, bulón con cabeza, pasador con cabeza, eje de horquilla, perno de horquilla,"
            " pasador de clevis, bulón sin cabeza"
        ),
        "it": phrases(
            "perno con testa, perno per forcella, perno senza testa, perno per copiglia, perno forcella, perno liscio"
        ),
    },
    standards=(
        Standard("ISO 2341", order=_order("ISO 2341")),
        Standard("ISO 2340", order=_order("ISO 2340")),
        Standard("DIN 1443", rows="ISO 2340", order=_order("DIN 1443")),
        Standard("DIN 1444", rows="ISO 2341", order=_order("DIN 1444")),
        Standard("DIN 22340", rows="ISO 2340", order=_order("ISO 2340")),
        Standard("DIN 22341", rows="ISO 2341", order=_order("ISO 2341")),
        Standard("GB/T 880", rows="ISO 2340", order=_order("GB/T 880")),
        Standard("GB/T 882", rows="ISO 2341", order=_order("GB/T 882")),
    ),
    table="clevis_pin",
    layouts=_SIZE_LAYOUTS,
    labels={"hole": "split_pin_hole", "shaft": "outer_diameter"},
    needs=("outer_diameter", "length"),
    identity=("outer_diameter",),
    order=_order("ISO 2341"),
    question="Which diameter has the clevis pin, and how long is it under the head?",
    length_says="with head: under the head; without: over all",
    refine=_clevis,
    uniform_length=True,
    unless=frozenset({"lug", "hanger"}),
    examples=(
        Example(
            "ISO 2341 - B - 10 x 50 - St",
            dimensions={"outer_diameter": "10", "length": "50", "split_pin_hole": "3.2"},
            size_names="outer diameter",
        ),
        Example("Bolzen DIN 1443 A 8x40", dimensions={"outer_diameter": "8", "length": "40", "split_pin_hole": "none"}),
        Example("clevis pin 6 x 25", dimensions={"outer_diameter": "6", "length": "25"}),
        Example("axe de chape 12x45 inox", dimensions={"outer_diameter": "12", "length": "45"}),
        Example("Bolzen 10 x 30", state="ambiguous", size_names="outer diameter"),
    ),
    source="ISO 2340, ISO 2341",
)

QUICK_RELEASE = Family(
    name="quick release pin",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "ball lock pin, quick release pin, ball locking pin, ball detent pin, detent pin, quick pin,"
            " quick lock pin, lock pin, ball pin, release pin, self locking pin"
        ),
        "de": phrases("Kugelsperrbolzen, Kugelsperrstift, Arretierstift Kugel, Schnellverschlussbolzen"),
        "fr": phrases(
            "broche à billes, axe à billes, goupille à billes, broche autobloquante,"
            " goupille à verrouillage par billes, axe à verrouillage par billes"
        ),
        "es": phrases("pasador de bolas, perno de bolas, pasador de liberación rápida, pasador de bloqueo por bolas"),
        "it": phrases(
            "perno a sfere, spina a sfere, spinotto a sfere, perno a sgancio rapido, perno di bloccaggio a sfere"
        ),
    },
    layouts=_SIZE_LAYOUTS,
    labels={"grip": "length", "shaft": "outer_diameter", "hole": "outer_diameter"},
    needs=("outer_diameter", "length"),
    identity=("outer_diameter",),
    order="Ball lock pin {outer_diameter} x {length} (diameter x grip)",
    question="Which diameter has the pin, and how long is the grip?",
    length_says="the length is the grip",
    refine=_grip,
    examples=(
        Example(
            "ball lock pin 8 x 30", dimensions={"outer_diameter": "8", "length": "30"}, size_names="outer diameter"
        ),
        Example("Kugelsperrbolzen 6x20", dimensions={"outer_diameter": "6", "length": "20"}),
        Example("quick release pin Ø10 grip 40", dimensions={"outer_diameter": "10", "length": "40"}),
        Example("broche à billes", state="ambiguous"),
    ),
)

FAMILIES = (CLEVIS_PIN, QUICK_RELEASE)
