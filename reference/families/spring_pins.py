"""Spring-type straight pins: slotted (heavy and light duty) and coiled (standard, heavy, light duty).

The size is the hole that the pin is driven into (H12); the free pin is larger. No spring pin has a thread: an M before
the size is only a seller's habit.

Sources: ISO 8752, ISO 13337, ISO 8748, ISO 8750, ISO 8751, ASME B18.8.2 (tables).
"""

from collections.abc import Sequence

from reference.families.base import Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts

_LIGHT = ("light", "leicht", "leichte", "legere", "mince", "ligera", "ligero", "leggera", "leggero", "thin")
_HEAVY = ("heavy", "schwer", "schwere", "schwerspannstift", "forte", "lourde", "pesada", "fuerte", "pesante", "robuste")
_LAYOUTS = (
    Layout(("hole_diameter", "length"), when=lambda v: v["hole_diameter"] <= v["length"], says="hole before length"),
    Layout(
        ("length", "hole_diameter"),
        when=lambda v: v["hole_diameter"] < v["length"],
        says="the larger number is the length",
    ),
    Layout(("hole_diameter",)),
)


def _by_duty(draft: Draft, facts: Facts, light: str, heavy: str | None) -> None:
    """Words such as ``light duty`` decide between the standards of the family."""
    named = light if facts.says(*_LIGHT) else heavy if heavy and facts.says(*_HEAVY) else None
    if named and not draft.standards and not facts.inches:
        draft.standards = (named,)
        draft.table_standard = named
        draft.order_text = f"Spring pin {named} - {{hole_diameter}} x {{length}} - {{material?St}}"


def _free_pin(draft: Draft) -> None:
    """Without a standard, the hole is what the size means by practice: have it confirmed."""
    hole = draft.nominal("hole_diameter")
    if hole is not None and not draft.standards:
        draft.asks.append(f"{hole.normalize():f} mm as the hole (the free pin is larger)")


def _slotted(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    for draft in drafts:
        _free_pin(draft)
        _by_duty(draft, facts, "ISO 13337", None)
        if facts.inches and not draft.standards:
            draft.standards = ("ASME B18.8.2",)
            draft.table_standard = "ASME B18.8.2"
            draft.order_text = _INCH_ORDER
    return drafts


def _coiled(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    for draft in drafts:
        _free_pin(draft)
        _by_duty(draft, facts, "ISO 8751", "ISO 8748")
        if draft.order_text:
            draft.order_text = draft.order_text.replace("Spring pin", "Coiled spring pin")
    return drafts


_INCH_ORDER = "Slotted spring pin ASME B18.8.2 - {hole_diameter} x {length} in"
_ENGLISH = "spring pin, roll pin, rollpin, tension pin, sellock pin, spring dowel, expansion pin, spring roll pin"
_COILED = "coiled, coil, spiral, spirally coiled, spiral wound"

SLOTTED = Family(
    name="slotted spring pin",
    size_names="hole size",
    key="hole_diameter",
    nouns={
        "en": phrases(
            _ENGLISH + ", slotted pin, slotted spring pin, split spring pin, spring tension pin, slotted dowel,"
            " spring dowel pin, spring type straight pin, slotted dowel pin, elastic pin, elastic cylindrical pin,"
            " roll dowel pin, spring parallel pin, spring cylindrical pin, elastic dowel pin"
        ),
        "de": phrases(
            "Spannstift, Spannhülse, Schwerspannstift, Spann Stift, Federstift, Schwerspannhülse, Spannhülsen"
        ),
        "fr": phrases(
            "goupille élastique, goupille élastique fendue, mécanindus, goupille mécanindus, goupille ressort,"
            " goupille tubulaire, goupille élastique cylindrique"
        ),
        "es": phrases(
            "pasador elástico, pasador elástico ranurado, pasador de tensión, pasador de expansión, pasador de muelle,"
            " pasador tubular, pasador elástico hendido, pasador resorte"
        ),
        "it": phrases("spina elastica, spina elastica intagliata, spina elastica cilindrica, spinotto elastico"),
        "zh": phrases("tanxing yuanzhuxiao, tanxingxiao"),
    },
    standards=(
        Standard("ISO 8752"),
        Standard("DIN 1481", rows="ISO 8752", order="Spring pin DIN 1481 - {hole_diameter} x {length} - {material?St}"),
        Standard("ISO 13337", order="Spring pin ISO 13337 - {hole_diameter} x {length} - {material?St}"),
        Standard(
            "DIN 7346", rows="ISO 13337", order="Spring pin DIN 7346 - {hole_diameter} x {length} - {material?St}"
        ),
        Standard("GB/T 879", rows="ISO 8752", order="Spring pin GB/T 879 - {hole_diameter} x {length}"),
        Standard("GB/T 879.1", rows="ISO 8752", order="Spring pin GB/T 879.1 - {hole_diameter} x {length}"),
        Standard("GB/T 879.2", rows="ISO 13337", order="Spring pin GB/T 879.2 - {hole_diameter} x {length}"),
        Standard("UNI 6873", rows="ISO 8752", order="Spring pin UNI 6873 - {hole_diameter} x {length}"),
        Standard("JIS B 2808", rows="ISO 8752", order="Spring pin JIS B 2808 - {hole_diameter} x {length}"),
        Standard("ASME B18.8.2", order=_INCH_ORDER),
    ),
    table="slotted_spring_pin",
    layouts=_LAYOUTS,
    labels={"diameter": "hole_diameter"},
    needs=("hole_diameter", "length"),
    identity=("hole_diameter",),
    order="Spring pin ISO 8752 - {hole_diameter} x {length} - {material?St}",
    question="For which hole is the spring pin, and how long is it?",
    plain_m=True,
    uniform_length=True,
    refine=_slotted,
    kin=("coiled spring pin",),
    unless=words("pogo plunger indexing loaded contact retractable hinge"),
    examples=(
        Example(
            "Spring pin ISO 8752 - 4 x 30 - St",
            dimensions={"hole_diameter": "4", "length": "30", "outer_diameter": "4.5"},
            size_names="hole size",
        ),
        Example("roll pin 2.5 x 16", dimensions={"hole_diameter": "2.5", "length": "16"}),
        Example("M6*30 spring dowel DIN 1481", dimensions={"hole_diameter": "6", "length": "30"}),
        Example('roll pin 3/16" x 1"', dimensions={"hole_diameter": "4.7625", "length": "25.4"}),
        Example("Spannstift leichte Ausführung 5x24", dimensions={"hole_diameter": "5"}),
        Example("Spannstift ISO 8752 - 5,2 x 20", state="ambiguous"),
    ),
    source="ISO 8752, ISO 13337",
    mates=Mates(own_hole="H12"),
)

COILED = Family(
    name="coiled spring pin",
    size_names="hole size",
    key="hole_diameter",
    nouns={
        "en": (
            *phrases(_ENGLISH, _COILED),
            *phrases("coiled pin, spiral pin, coil pin, coiled dowel, spiral wrapped pin"),
        ),
        "de": phrases("Spiralspannstift, Spiral Spannstift, Spiralspannstifte, Spannstift spiralförmig, Spiralstift"),
        "fr": phrases("goupille spiralée, goupille élastique spiralée, goupille spirale, goupille élastique spirale"),
        "es": phrases(
            "pasador espiral, pasador elástico espiral, pasador en espiral, pasador elástico enrollado,"
            " pasador enrollado"
        ),
        "it": phrases("spina a spirale, spina elastica a spirale, spina elastica arrotolata, spina elastica spirale"),
    },
    standards=(
        Standard("ISO 8750"),
        Standard("ISO 8748", order="Coiled spring pin ISO 8748 - {hole_diameter} x {length} - {material?St}"),
        Standard("ISO 8751", order="Coiled spring pin ISO 8751 - {hole_diameter} x {length} - {material?St}"),
        Standard(
            "DIN 7343", rows="ISO 8750", order="Coiled spring pin DIN 7343 - {hole_diameter} x {length} - {material?St}"
        ),
        Standard(
            "DIN 7344", rows="ISO 8748", order="Coiled spring pin DIN 7344 - {hole_diameter} x {length} - {material?St}"
        ),
        Standard("GB/T 879.3", rows="ISO 8748"),
        Standard("GB/T 879.4", rows="ISO 8750"),
        Standard("GB/T 879.5", rows="ISO 8751"),
    ),
    table="coiled_spring_pin",
    layouts=_LAYOUTS,
    labels={"diameter": "hole_diameter"},
    needs=("hole_diameter", "length"),
    identity=("hole_diameter",),
    order="Coiled spring pin ISO 8750 - {hole_diameter} x {length} - {material?St}",
    question="For which hole is the spring pin, and how long is it?",
    plain_m=True,
    uniform_length=True,
    refine=_coiled,
    examples=(
        Example(
            "Coiled spring pin ISO 8750 - 4 x 20 - St",
            dimensions={"hole_diameter": "4", "length": "20"},
            size_names="hole size",
        ),
        Example("Spiralspannstift ISO 8748 6x40", dimensions={"hole_diameter": "6", "length": "40"}),
        Example("goupille élastique spiralée 3x16", dimensions={"hole_diameter": "3", "length": "16"}),
        Example("coiled roll pin heavy duty 5 x 30", dimensions={"hole_diameter": "5", "length": "30"}),
        Example("coiled spring pin", state="ambiguous"),
    ),
    source="ISO 8748, ISO 8750, ISO 8751",
    mates=Mates(own_hole="H12"),
)

FAMILIES = (SLOTTED, COILED)
