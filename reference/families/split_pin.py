"""Split pins and spring cotters.

The size of a split pin is the hole; the folded wire is thinner. American ``cotter pins`` in inches are named by the
pin, and in the United Kingdom the word also names a tapered crank cotter: an inch cotter pin without a standard stays
open.

Sources: ISO 1234 (table); inch cotter pins and spring cotters: common practice.
"""

from collections.abc import Sequence

from reference.families.base import Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts

_LAYOUTS = (
    Layout(("hole_diameter", "length"), when=lambda v: v["hole_diameter"] <= v["length"], says="hole before length"),
    Layout(
        ("length", "hole_diameter"),
        when=lambda v: v["hole_diameter"] < v["length"],
        says="the larger number is the length",
    ),
    Layout(("hole_diameter",)),
)


def _hole(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Inch sizes name the pin in America; a metric size without a standard is the hole and has to be confirmed."""
    for draft in drafts:
        size = draft.nominal("hole_diameter")
        if size is None or draft.standards:
            continue
        if facts.inches:
            draft.doubts.append("Is the inch size the split pin itself or its hole, or is a crank cotter meant?")
        else:
            draft.asks.append(f"{size.normalize():f} mm as the hole (the wire is thinner)")
    return drafts


def _wire_or_shaft(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """One number of a spring cotter is its wire or the shaft that it grips; only the standard or a label decides."""
    out: list[Draft] = []
    for draft in drafts:
        wire = draft.nominal("wire_diameter")
        if wire is None or draft.standards or "shaft_size" in draft.dimensions or facts.says("wire", "draht", "fil"):
            out.append(draft)
            continue
        shaft = {key: value for key, value in draft.dimensions.items() if key != "wire_diameter"}
        shaft["shaft_size"] = draft.dimensions["wire_diameter"]
        out += [draft, draft.copy(dimensions=shaft, size_names="shaft size", evidence="assumed")]
    return out


SPLIT_PIN = Family(
    name="split pin",
    size_names="hole size",
    key="hole_diameter",
    nouns={
        "en": phrases("split pin, cotter pin, split cotter, split cotter pin, cotterpin, splitpin, cotter"),
        "de": phrases("Splint, Splinte, Splintstift, Sicherungssplint"),
        "fr": phrases("goupille fendue, goupille V, goupille fendue V, goupille fendues, goupille de sécurité fendue"),
        "es": phrases(
            "pasador de aletas, pasador partido, chaveta partida, pasador hendido, pasador abierto, chaveta de aletas"
        ),
        "it": phrases("copiglia, coppiglia, copiglie, coppiglie, spina spaccata"),
        "zh": phrases("kaikouxiao"),
    },
    standards=(
        Standard("ISO 1234"),
        Standard("DIN 94", rows="ISO 1234", order="Split pin DIN 94 - {hole_diameter} x {length} - {material?St}"),
        Standard("GB/T 91", rows="ISO 1234", order="Split pin GB/T 91 - {hole_diameter} x {length}"),
        Standard("UNI 1336", rows="ISO 1234", order="Split pin UNI 1336 - {hole_diameter} x {length}"),
        Standard("JIS B 1351", rows="ISO 1234", order="Split pin JIS B 1351 - {hole_diameter} x {length}"),
    ),
    table="split_pin",
    layouts=_LAYOUTS,
    labels={"diameter": "hole_diameter", "od": "wire_diameter"},
    needs=("hole_diameter", "length"),
    identity=("hole_diameter",),
    order="Split pin ISO 1234 - {hole_diameter} x {length} - {material?St}",
    question="For which hole is the split pin, and how long is it?",
    plain_m=True,
    refine=_hole,
    uniform_length=True,
    kin=("spring cotter",),
    unless=words("crank bicycle hairpin"),
    examples=(
        Example(
            "Split pin ISO 1234 - 4 x 32 - St",
            dimensions={"hole_diameter": "4", "length": "32", "wire_diameter": "3.6"},
            size_names="hole size",
        ),
        Example("Splinte 2,5x20 verzinkt, 100 Stk", dimensions={"hole_diameter": "2.5", "length": "20"}),
        Example("goupille fendue 3,2 x 25 inox", dimensions={"hole_diameter": "3.2", "length": "25"}),
        Example("cotter pin 1/16 x 1/2", state="ambiguous"),
    ),
    source="ISO 1234",
    mates=Mates(own_hole="H14"),
)

SPRING_COTTER = Family(
    name="spring cotter",
    size_names="wire diameter",
    key="wire_diameter",
    nouns={
        "en": phrases(
            "R clip, R pin, spring cotter, spring cotter pin, hitch pin clip, hairpin cotter, hair pin cotter,"
            " beta pin, beta clip, hairpin clip, bridge pin, hitch clip, hairpin cotter pin, R clips, retaining pin R"
        ),
        "de": phrases("Federstecker, Federsplint, Federvorstecker, Beta Splint"),
        "fr": phrases("goupille bêta, goupille clip, clips bêta, goupille R, goupille épingle"),
        "es": phrases("pasador beta, pasador R, clip R, pasador de horquilla R, pasador clip"),
        "it": phrases(
            "copiglia a molla, coppiglia a molla, copiglia R, spina R, copiglia beta, clip R, copiglia elastica"
        ),
    },
    standards=(Standard("DIN 11024", order="Spring cotter DIN 11024 - {wire_diameter}"),),
    layouts=(
        Layout(("wire_diameter", "length"), when=lambda v: v["wire_diameter"] < v["length"]),
        Layout(("wire_diameter",)),
    ),
    labels={"diameter": "wire_diameter"},
    needs=("wire_diameter",),
    identity=("wire_diameter|shaft_size",),
    order="Spring cotter, wire {wire_diameter}",
    question="Which wire has the spring cotter, and for which shaft is it?",
    refine=_wire_or_shaft,
    examples=(
        Example("Federstecker DIN 11024 - 4", dimensions={"wire_diameter": "4"}, size_names="wire diameter"),
        Example("R clip wire 2 mm for 10 mm shaft", dimensions={"wire_diameter": "2"}),
        Example("R-clip 4 mm", state="ambiguous"),
        Example("goupille bêta 3", state="ambiguous"),
    ),
    source="DIN 11024 (from memory); common practice",
)

FAMILIES = (SPLIT_PIN, SPRING_COTTER)
