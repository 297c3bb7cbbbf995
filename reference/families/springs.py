"""Compression, extension, torsion and die springs, and the bare word spring.

DIN 2098 names a compression spring by wire x MEAN diameter x free length; sellers write wire x outside x length in the
same form, so three plain numbers without a standard give both readings. A die spring (ISO 10243) is named by its hole.
The length of an extension spring can be its body, inside the hooks, or over the hooks.

Sources: DIN 2098-1, EN 15800 (mean diameter), ISO 10243 (table); sellers' orders: common practice.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts
from reference.quantities import Limits

_COILS = frozenset({"od", "id", "bore", "diameter", "mean"})
_LABELS = {
    "length": "free_length",
    "height": "free_length",
    "depth": "free_length",
    "body": "free_length",
    "diameter": "outer_diameter",
    "mean": "mean_diameter",
    "thickness": "wire_diameter",
    "section": "wire_diameter",
    "hole": "hole_diameter",
    "shaft": "shaft_size",
}


def _is_wire(values: Mapping[str, Decimal]) -> bool:
    """Tell whether the first number of two can only be a wire: thin, and a fifth of the other or less."""
    return values["wire_diameter"] <= Decimal("1.5") and values["wire_diameter"] * 5 <= values["outer_diameter"]


_LAYOUTS = (
    Layout(
        ("wire_diameter", "outer_diameter", "free_length"),
        when=lambda v: v["wire_diameter"] < v["outer_diameter"],
        says="wire, coil, length",
    ),
    Layout(
        ("outer_diameter", "wire_diameter", "free_length"),
        when=lambda v: v["wire_diameter"] < v["outer_diameter"],
        says="coil, wire, length",
    ),
    Layout(("wire_diameter", "outer_diameter"), when=_is_wire),
    Layout(("outer_diameter", "free_length"), size_names="outer diameter", says="outside before length"),
    Layout(("free_length",), when=lambda v: "outer_diameter" in v or "bore" in v or "mean_diameter" in v),
    Layout(("outer_diameter",), size_names="outer diameter"),
)
_NO_LAYOUT = Layout(("wire_diameter",))


def _coil_is_labelled(facts: Facts) -> bool:
    chained = (getattr(part, "label", None) for chain in facts.chains for part in chain)
    return any(label in _COILS for label in (*chained, *(number.label for number in facts.labelled)))


def _as_mean(draft: Draft, source: str) -> Draft:
    """Return the draft with its coil diameter as the mean one."""
    mean = draft.nominal("outer_diameter")
    others = {key: value for key, value in draft.dimensions.items() if key != "outer_diameter"}
    found = draft.copy(dimensions=others)
    if mean is not None:
        found.because = [item for item in draft.because if not item[1].startswith("outer diameter")]
        found.give("mean_diameter", mean, f"{mean.normalize():f}", "mean diameter of the coil", source)
    return found


def _complete(draft: Draft) -> Draft:
    """Work out the coil diameters that follow from the wire."""
    wire, outer, mean, inner = (
        draft.nominal(key) for key in ("wire_diameter", "outer_diameter", "mean_diameter", "bore")
    )
    if wire is None:
        if "outer_diameter" in draft.dimensions:
            draft.size_names = "outer diameter"
        return draft
    if outer is None and (mean is not None or inner is not None):
        outer = mean + wire if mean is not None else (inner or Decimal(0)) + 2 * wire
        draft.give("outer_diameter", outer, "wire", "outside = mean + wire = inside + 2 wires", "arithmetic")
    if outer is not None and inner is None:
        draft.give("bore", outer - 2 * wire, "wire", "inside = outside - 2 wires", "arithmetic")
    return draft


_SYMBOLS = {"od": "outer_diameter", "mean": "mean_diameter", "id": "bore"}


def _symbols(draft: Draft, facts: Facts) -> None:
    """``d=1 Da=10``: beside another diameter of the coil, the smaller plain d is the wire."""
    labelled = {number.label: number for number in facts.labelled}
    small = labelled.get("diameter")
    for label, key in _SYMBOLS.items():
        coil = labelled.get(label)
        if small is None or coil is None or small.value >= coil.value:
            continue
        if key != "outer_diameter" and draft.nominal("outer_diameter") == small.value:
            del draft.dimensions["outer_diameter"]
        draft.dimensions |= {"wire_diameter": Limits(small.value), key: Limits(coil.value)}
        if not labelled.keys() & {"length", "free length", "height"} and draft.nominal("free_length") == coil.value:
            del draft.dimensions["free_length"]


def _both(draft: Draft, facts: Facts) -> list[Draft]:
    """Return the readings of the coil diameter: by the standard mean, by label as it says, else outside or mean."""
    _symbols(draft, facts)
    if {"wire_diameter", "outer_diameter"} <= draft.dimensions.keys() and not _coil_is_labelled(facts):
        mean = _as_mean(draft, "DIN 2098-1" if draft.standards else "DIN 2098-1 writes the mean diameter here")
        if draft.standards:
            return [_complete(mean)]
        mean.evidence = "assumed"
        draft.because.append(("order", "sellers write wire x outside x length", COMMON_PRACTICE))
        return [_complete(draft), _complete(mean)]
    return [_complete(draft)]


def _compression(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    return [item for draft in drafts for item in _both(draft, facts)]


_HOOKS = (
    "hook",
    "hooks",
    "haken",
    "osen",
    "body",
    "crochet",
    "crochets",
    "gancho",
    "ganchos",
    "gancio",
    "ganci",
    "loop",
    "loops",
)


def _extension(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """The length is open unless the line says where it is measured."""
    hooks = facts.says(*_HOOKS)
    for draft in drafts:
        inside, outer = draft.nominal("bore"), draft.nominal("outer_diameter")
        if hooks and inside is not None and "free_length" not in draft.dimensions and inside >= (outer or 0):
            draft.dimensions["free_length"] = draft.dimensions.pop("bore")  # 30 mm inside hooks
    out = _compression(family, facts, drafts)
    if not hooks:
        for draft in out:
            draft.doubts.append("Is the length that of the body, inside the hooks, or over the hooks?")
    return out


def _torsion(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Keep the angle between the legs; an unlabelled coil diameter is open."""
    for name, rating, text in facts.ratings:
        if name == "angle":
            for draft in drafts:
                draft.attributes["angle"] = f"{rating.value.normalize():f}"
                draft.because.append((text, "angle between the legs", "the line's own words"))
    return _compression(family, facts, drafts)


def _spring(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """The bare word names no kind of spring."""
    out: list[Draft] = []
    for draft in drafts:
        out += _both(draft.copy(family="compression spring"), facts)
    out[0].doubts.append("Is it a compression, an extension or a torsion spring?")
    return out


_COLOURS = {
    **dict.fromkeys(("blue", "blau", "bleu", "azul", "blu"), "blue"),
    **dict.fromkeys(("green", "grun", "vert", "verde"), "green"),
    **dict.fromkeys(("red", "rot", "rouge", "rojo", "rosso"), "red"),
    **dict.fromkeys(("yellow", "gelb", "jaune", "amarillo", "giallo"), "yellow"),
}


def _die(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """The colour names the load, by a code that differs between countries."""
    colour = next((name for word, name in _COLOURS.items() if facts.says(word)), None)
    for draft in drafts:
        if colour:
            draft.attributes["colour"] = colour
        if draft.standards:
            continue
        hole = draft.nominal("hole_diameter")
        if colour:
            draft.doubts.append(f"Is {colour} the load of the ISO 10243 colours, or of another maker's code?")
        elif hole is not None:
            draft.asks.append(f"{hole.normalize():f} mm as the hole")
    return drafts


_NEEDS = ("wire_diameter", "outer_diameter", "free_length")

COMPRESSION = Family(
    name="compression spring",
    size_names="wire diameter",
    key="wire_diameter",
    nouns={
        "en": phrases("compression spring, compression coil spring, pressure spring, push spring, compressed spring"),
        "de": phrases("Druckfeder, Schraubendruckfeder, Druck Feder, Druckfedern"),
        "fr": phrases("ressort de compression, ressort compression, ressorts de compression"),
        "es": phrases("muelle de compresión, resorte de compresión, muelle compresión, resortes de compresión"),
        "it": phrases("molla a compressione, molla di compressione, molle a compressione, molla compressione"),
    },
    standards=(
        Standard("DIN 2098", order="Compression spring DIN 2098 - {wire_diameter} x {mean_diameter} x {free_length}"),
        Standard("DIN 2098-1", order="Compression spring DIN 2098 - {wire_diameter} x {mean_diameter} x {free_length}"),
    ),
    table="compression_spring",
    layouts=(*_LAYOUTS, _NO_LAYOUT),
    labels=_LABELS,
    needs=_NEEDS,
    identity=("outer_diameter|bore|hole_diameter|shaft_size", "free_length"),
    order="Compression spring, wire {wire_diameter}, OD {outer_diameter}, L0 {free_length}",
    question="Which wire, which outside diameter and which free length has the spring?",
    refine=_compression,
    listed_sizes=False,
    kin=("die spring",),
    examples=(
        Example(
            "Druckfeder DIN 2098 2 x 16 x 60",
            dimensions={"wire_diameter": "2", "mean_diameter": "16", "outer_diameter": "18", "free_length": "60"},
            size_names="wire diameter",
        ),
        Example("compression spring OD 10 wire 1.2 free length 40", dimensions={"outer_diameter": "10", "bore": "7.6"}),
        Example("ressort de compression fil 1 Øext 12 L0 50", dimensions={"wire_diameter": "1", "free_length": "50"}),
        Example("molla a compressione 6 x 20", dimensions={"outer_diameter": "6", "free_length": "20"}),
        Example("compression spring 1 x 8 x 25", state="ambiguous"),
        Example("compression spring 20", state="ambiguous"),
    ),
    source="DIN 2098-1; common practice",
)

EXTENSION = Family(
    name="extension spring",
    size_names="wire diameter",
    key="wire_diameter",
    nouns={
        "en": phrases("extension spring, tension spring, pull spring, tensile spring, expansion spring"),
        "de": phrases("Zugfeder, Zug Feder, Zugfedern, Schraubenzugfeder"),
        "fr": phrases("ressort de traction, ressort traction, ressort d'extension, ressort de rappel"),
        "es": phrases(
            "muelle de tracción, resorte de tracción, muelle de extensión, resorte de extensión, muelle de tensión"
        ),
        "it": phrases("molla a trazione, molla di trazione, molle a trazione, molla trazione"),
    },
    standards=(
        Standard("DIN 2097", order="Extension spring, wire {wire_diameter}, OD {outer_diameter}, body {free_length}"),
    ),
    layouts=(*_LAYOUTS, _NO_LAYOUT),
    labels=_LABELS,
    needs=_NEEDS,
    identity=("outer_diameter|bore",),
    order="Extension spring, wire {wire_diameter}, OD {outer_diameter}, body {free_length}",
    question="Which wire, which outside diameter and which length has the spring?",
    refine=_extension,
    examples=(
        Example(
            "extension spring wire 0.8 OD 6 body 30",
            dimensions={"wire_diameter": "0.8", "outer_diameter": "6", "free_length": "30"},
        ),
        Example("Zugfeder 1x8x40", state="ambiguous"),
        Example("ressort de traction Ø6 longueur 25", state="ambiguous"),
        Example("tension spring OD 10, 60 long", state="ambiguous", size_names="outer diameter"),
    ),
    mates=Mates(in_bore=False),
)

TORSION = Family(
    name="torsion spring",
    size_names="wire diameter",
    key="wire_diameter",
    nouns={
        "en": phrases("torsion spring, torsional spring, leg spring"),
        "de": phrases("Schenkelfeder, Drehfeder, Torsionsfeder, Schenkelfedern"),
        "fr": phrases("ressort de torsion, ressort torsion, ressort à branches"),
        "es": phrases("muelle de torsión, resorte de torsión, muelle torsión"),
        "it": phrases("molla a torsione, molla di torsione, molle a torsione"),
    },
    layouts=(
        Layout(("wire_diameter", "outer_diameter"), when=lambda v: v["wire_diameter"] < v["outer_diameter"]),
        Layout(("outer_diameter", "wire_diameter"), when=lambda v: v["wire_diameter"] < v["outer_diameter"]),
    ),
    labels={key: value for key, value in _LABELS.items() if value != "free_length"} | {"length": "leg_length"},
    needs=("wire_diameter", "outer_diameter"),
    identity=("wire_diameter", "outer_diameter"),
    order="Torsion spring, wire {wire_diameter}, OD {outer_diameter}, {angle?<angle>} deg",
    question="Which wire and which outside diameter has the spring, and which angle between the legs?",
    refine=_torsion,
    examples=(
        Example(
            "torsion spring wire 1.5 OD 12 180deg",
            dimensions={"wire_diameter": "1.5", "outer_diameter": "12", "bore": "9"},
            size_names="wire diameter",
        ),
        Example("Schenkelfeder Draht 2 Außendurchmesser 20 90°", dimensions={"wire_diameter": "2"}),
        Example("muelle de torsión 1x10", state="ambiguous"),
        Example("torsion spring 90 deg", state="ambiguous"),
    ),
)

DIE = Family(
    name="die spring",
    size_names="hole size",
    key="hole_diameter",
    nouns={
        "en": phrases("die spring, mould spring, mold spring, tool spring"),
        "de": phrases("Werkzeugfeder, Systemdruckfeder, Formfeder, Stanzfeder, Werkzeugfedern"),
        "fr": phrases("ressort d'outillage, ressort de matrice, ressort outillage"),
        "es": phrases("muelle de matriz, resorte de matriz, muelle para moldes, muelle de troquel"),
        "it": phrases("molla per stampi, molla stampo, molle per stampi"),
    },
    standards=(Standard("ISO 10243"),),
    table="die_spring",
    layouts=(
        Layout(("hole_diameter", "shaft_size", "free_length"), when=lambda v: v["shaft_size"] < v["hole_diameter"]),
        Layout(("hole_diameter", "free_length")),
        Layout(("hole_diameter",)),
    ),
    labels={"length": "free_length", "diameter": "hole_diameter", "od": "hole_diameter", "id": "shaft_size"},
    needs=("hole_diameter", "free_length"),
    identity=("hole_diameter", "free_length"),
    order="Die spring ISO 10243 - {hole_diameter} x {free_length} {colour?<colour>}",
    question="For which hole, how long and of which load (colour) is the spring?",
    refine=_die,
    examples=(
        Example(
            "die spring 20 x 64",
            dimensions={"hole_diameter": "20", "free_length": "64", "shaft_size": "10"},
            size_names="hole size",
        ),
        Example("ISO 10243 25x51 blue", dimensions={"hole_diameter": "25", "free_length": "51"}),
        Example("Werkzeugfeder 16 x 38", dimensions={"hole_diameter": "16"}),
        Example("die spring 10 x 25 blue", state="ambiguous"),
    ),
    source="ISO 10243",
)

SPRING = Family(
    name="spring",
    size_names="wire diameter",
    key="wire_diameter",
    nouns={
        "en": phrases("spring, coil spring, helical spring, springs, wire spring"),
        "de": phrases("Feder, Federn, Schraubenfeder, Spiralfeder"),
        "fr": phrases("ressort, ressorts"),
        "es": phrases("muelle, muelles, resorte, resortes"),
        "it": phrases("molla, molle"),
    },
    layouts=(*_LAYOUTS, _NO_LAYOUT),
    labels=_LABELS,
    order="Spring, wire {wire_diameter}, OD {outer_diameter}, L0 {free_length}",
    refine=_spring,
    generic=True,
    yields=True,
    kin=("compression spring", "extension spring", "torsion spring", "die spring", "disc spring"),
    unless=words(
        "onion onions roll rolls water break time gas gaz leaf box bed mattress balance clamp band lever cleaning"
        " strip"
        " plunger plungers flower flowers dress loaded boot boots binder matelas colchon materasso gasfeder"
        " bike suspension shock fork sale"
    ),
    examples=(
        Example("spring 0.8*6*20", state="ambiguous", size_names="wire diameter"),
        Example("Feder 8 x 30", state="ambiguous"),
        Example("muelle", state="ambiguous"),
    ),
    source="DIN 2098-1; common practice",
)

FAMILIES = (COMPRESSION, EXTENSION, TORSION, DIE, SPRING)
