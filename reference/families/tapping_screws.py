"""Screws that make their own thread: wood, tapping and thread forming screws.

Wood and tapping screws have size systems of their own: the number is the outside diameter of a coarse thread, no metric
one, even where a seller writes M before it. Thread forming screws (DIN 7500) roll a true metric thread.

Sources: ISO 1478, ISO 7049, ISO 7050, DIN 7981, DIN 7982, DIN 571 (tables); DIN 7500-1; number sizes: ISO 1478 annex,
common practice.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts
from reference.families.rules import DRIVE_WORDS, drive_of, rows_with, shown, thread_in
from reference.families.screws import LENGTH
from reference.quantities import Limits

_ST_BY_NUMBER = {"2": "2.2", "4": "2.9", "6": "3.5", "7": "3.9", "8": "4.2", "10": "4.8", "12": "5.5", "14": "6.3"}
"""Inch number size -> ST size. Source: ISO 1478, annex with the former screw numbers (common practice)."""

_WOOD_BY_NUMBER = {str(n): Decimal("0.060") + Decimal("0.013") * n for n in (2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14)}
"""Inch number size -> outside diameter of a wood screw [in]: 0.060 + 0.013 n. Source: ASME B18.6.1."""

_COUNTERSUNK = words("countersunk csk flat senkkopf senk fraisee avellanada avellanado svasata bugle raised oval")
_PLASTIC = words(
    "plastic plastics plastik kunststoff kunststoffe plastique plastico plastica pt "
    "thermoplast thermoplastic abs pla nylon printed"
)
_SIZES = (
    Layout(
        ("outer_diameter", "length"),
        when=lambda v: v["outer_diameter"] < v["length"],
        says="outside diameter before length",
    ),
    Layout(
        ("length", "outer_diameter"),
        when=lambda v: v["outer_diameter"] < v["length"],
        says="the larger number is the length",
    ),
    Layout(("length",), when=lambda v: "outer_diameter" in v or "thread" in v),
    Layout(("outer_diameter",)),
)


def _no_metric_thread(draft: Draft, facts: Facts) -> None:
    """Take an M before the size for a careless one: such a thread fits no nut."""
    thread = thread_in(draft, "thread")
    if thread is None or thread.system != "metric":
        return
    del draft.dimensions["thread"]
    said = next((mention.text for mention in facts.threads()), thread.designation)
    draft.because = [item for item in draft.because if item[0] != said]
    draft.give(
        "outer_diameter",
        thread.diameter,
        said,
        "the outside diameter; the M is only written before it",
        COMMON_PRACTICE,
    )
    draft.notes.append(
        ("not-metric", f"the thread of this screw fits no {thread.designation} nut or tapped hole", COMMON_PRACTICE)
    )


def _wood(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read inch number sizes; a hexagon head is DIN 571."""
    out: list[Draft] = []
    for draft in drafts:
        _no_metric_thread(draft, facts)
        number = facts.attributes.get("number size")
        if "outer_diameter" in draft.dimensions and number is not None and "length" not in draft.dimensions:
            draft.dimensions["length"] = draft.dimensions.pop("outer_diameter")
        if number in _WOOD_BY_NUMBER and "outer_diameter" not in draft.dimensions:
            size = _WOOD_BY_NUMBER[number] * Decimal("25.4")
            draft.give(
                "outer_diameter",
                size.quantize(Decimal("0.01")),
                f"#{number}",
                f"number size {number} is {_WOOD_BY_NUMBER[number]} in",
                "ASME B18.6.1",
            )
            draft.table_standard = "ASME B18.6.1"
            draft.order_text = f"Wood screw #{number} x {{length}} in"
        if not draft.dimensions:
            continue
        outer = draft.nominal("outer_diameter")
        if "DIN 571" in draft.standards and outer is not None and not rows_with(family, outer_diameter=outer):
            draft.doubts.append(f"DIN 571 lists no size {shown(outer)}. Which size is meant?")
        if not draft.standards and draft.table_standard is None:
            hexagon = facts.says(
                "hex", "hexagon", "sechskant", "schlusselschraube", "coach", "lag", "tirefond", "tirafondo"
            )
            draft.table_standard = "DIN 571" if hexagon else "practice"
            if hexagon:
                draft.order_text = "Hexagon head wood screw DIN 571 - {outer_diameter} x {length}"
        out.append(draft)
    return out


WOOD_SCREW = Family(
    name="wood screw",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": (
            *phrases(
                "wood screw, woodscrew, chipboard screw, particleboard screw, coach screw, lag screw, "
                "lag bolt, timber screw, deck screw, drywall screw, wood-screw"
            ),
            *phrases(
                "wood screw, woodscrew, chipboard screw",
                "countersunk, csk, flat head, pan head, round head, hex head, hex, torx",
            ),
        ),
        "de": phrases(
            "Holzschraube, Holz Schraube, Spanplattenschraube, Schlüsselschraube, Holzbauschraube, "
            "Holzschrauben, Schnellbauschraube, Sechskant Holzschraube, Senkkopf Holzschraube"
        ),
        "fr": phrases(
            "vis à bois, vis bois, vis agglo, vis agglomérée, vis bois aggloméré, tirefond, "
            "vis à bois tête fraisée, vis à bois tête ronde"
        ),
        "es": phrases(
            "tornillo para madera, tornillo madera, tornillo de madera, tirafondo, "
            "tornillo aglomerado, tornillo rosca madera"
        ),
        "it": phrases(
            "vite per legno, vite legno, vite da legno, vite truciolare, vite autofilettante legno, "
            "vite per truciolare, tirafondi"
        ),
    },
    standards=(
        Standard("DIN 571", order="Hexagon head wood screw DIN 571 - {outer_diameter} x {length}"),
        Standard("DIN 97", order="Slotted countersunk wood screw DIN 97 - {outer_diameter} x {length}"),
        Standard("DIN 96", order="Slotted round head wood screw DIN 96 - {outer_diameter} x {length}"),
        Standard("DIN 95", order="Slotted raised countersunk wood screw DIN 95 - {outer_diameter} x {length}"),
        Standard("DIN 7997", order="Countersunk wood screw DIN 7997 - {outer_diameter} x {length}"),
        Standard("DIN 7996", order="Round head wood screw DIN 7996 - {outer_diameter} x {length}"),
    ),
    table="wood_screw",
    thread="thread",
    layouts=_SIZES,
    labels={"diameter": "outer_diameter", "od": "outer_diameter"},
    needs=("outer_diameter", "length"),
    identity=("outer_diameter",),
    order="Wood screw {outer_diameter} x {length}",
    question="Which diameter and length has the wood screw?",
    length_says="countersunk: over all; other heads: under the head",
    refine=_wood,
    listed_lengths=False,
    listed_sizes=False,
    examples=(
        Example(
            "countersunk wood screw 4x40",
            dimensions={"outer_diameter": "4", "length": "40"},
            size_names="outer diameter",
        ),
        Example("Holzschraube DIN 97 3,5 x 25 Messing", dimensions={"outer_diameter": "3.5", "length": "25"}),
        Example("vis à bois 5x60 tête fraisée", dimensions={"outer_diameter": "5", "length": "60"}),
        Example('#8 x 1 1/2" wood screw', dimensions={"outer_diameter": "4.17", "length": "38.1"}),
        Example("DIN 571 8x60", dimensions={"outer_diameter": "8", "length": "60", "across_flats": "13"}),
    ),
    source="DIN 571, DIN 97",
    mates=Mates(in_bore=False),
)


def _st(draft: Draft, size: str, text: str) -> None:
    row = next(iter(rows_with(SELF_TAPPING, thread=f"ST{size}")), None)
    if row is not None:
        draft.dimensions["thread"] = row.dimensions["thread"]
        draft.because.append((text, f"ST{size}, a tapping screw thread", "ISO 1478"))


def _tapping(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Match plain numbers and inch numbers to ST sizes; an M on a screw for metal may be a thread forming screw."""
    out: list[Draft] = []
    for draft in drafts:
        thread = thread_in(draft, "thread")
        plastic = bool(facts.words & _PLASTIC)
        number = facts.attributes.get("number size")
        if number is not None and "outer_diameter" in draft.dimensions and "length" not in draft.dimensions:
            draft.dimensions["length"] = draft.dimensions.pop("outer_diameter")
        if number in _ST_BY_NUMBER:
            _st(draft, _ST_BY_NUMBER[number], f"#{number}")
        if (
            thread is not None
            and thread.system == "metric"
            and not plastic
            and not draft.standards
            and not _is_drill(facts)
            and not facts.says("sheet", "blech", "tole", "chapa", "lamiera", "blechschraube", "pa", "ka", "pan")
        ):
            out.append(_as_forming(draft))
            draft.doubts.append(
                "Is it a tapping screw (coarse thread of its own) or a screw that forms a metric thread?"
            )
            draft.evidence = "assumed"
        _no_metric_thread(draft, facts)
        outer = draft.nominal("outer_diameter")
        if "thread" not in draft.dimensions and outer is not None and not plastic:
            _st(draft, shown(outer), shown(outer))
        if not draft.dimensions:
            continue
        listed = thread_in(draft, "thread")
        if listed is not None and not rows_with(family, thread=listed.designation):
            draft.doubts.append(f"ISO 1478 lists no thread {listed.designation}. Which size is meant?")
        elif listed is None and draft.standards and outer is not None:
            draft.doubts.append(f"{draft.standards[0]} lists no size {shown(outer)}. Which size is meant?")
        if "thread" in draft.dimensions and not draft.standards:
            head = "ISO 7050" if facts.words & _COUNTERSUNK else "ISO 7049"
            draft.table_standard, draft.order_text = head, _ORDER_BY_HEAD[head]
            if _is_drill(facts):
                draft.order_text = "Drilling screw DIN 7504 - {thread} x {length}"
        elif "thread" not in draft.dimensions:
            draft.table_standard = "practice"
            draft.order_text = "Tapping screw for plastics {outer_diameter} x {length}" if plastic else None
        drive = drive_of(facts)
        if drive:
            draft.attributes["drive"] = drive
        out.insert(0, draft)
    return out


def _is_drill(facts: Facts) -> bool:
    return facts.says(
        "drilling",
        "drill",
        "bohrschraube",
        "tek",
        "teks",
        "autoforante",
        "autoperforante",
        "autoforeuse",
        "autoperceuse",
    )


def _as_forming(draft: Draft) -> Draft:
    return draft.copy(
        family="thread forming screw",
        size_names="external thread",
        evidence="assumed",
        order_text=_FORMING_ORDER,
        dimensions={key: value for key, value in draft.dimensions.items() if key in {"thread", "length"}},
    )


_ORDER_BY_HEAD: Mapping[str, str] = {
    "ISO 7049": "Pan head tapping screw ISO 7049 - {thread} x {length} - C - H",
    "ISO 7050": "Countersunk tapping screw ISO 7050 - {thread} x {length} - C - H",
}
_FORMING_ORDER = "Thread forming screw DIN 7500 - {thread} x {length}"


def _tapping_code(groups: Mapping[str, str]) -> Draft | None:
    """``PA2.6x8``, ``KA3x10``: marketplace letters of tapping screws (P pan, K flat head; A pointed, B blunt)."""
    size, length = (Decimal(groups[name].replace(",", ".")) for name in ("size", "length"))
    if size >= length or size > 8:
        return None
    head = "pan" if groups["letters"].startswith("p") else "countersunk"
    return Draft(
        "self-tapping screw",
        "outer diameter",
        "stated",
        {"outer_diameter": Limits(size), "length": Limits(length)},
        {"head": head},
        order_text=f"Tapping screw {{outer_diameter}} x {{length}}, {head} head",
    )


_TAPPING = (
    "self tapping, self-tapping, selftapping, tapping, self tapper, self tap, self drilling, sheet metal, self-drilling"
)
_FOR_PLASTIC = (
    "screw plastic, screw plastics, PT screw, plastite screw, thread forming plastic, "
    "thread forming plastics, screw PT plastic"
)

SELF_TAPPING = Family(
    name="self-tapping screw",
    size_names="outer diameter",
    key="thread",
    nouns={
        "en": (
            *phrases(_TAPPING, "screw"),
            *phrases(
                _TAPPING,
                "pan head, countersunk, flat head, hex head, round head, washer head, csk, truss head, "
                "button head, flat",
                "screw",
            ),
            *phrases(_TAPPING, "pan head, countersunk, flat head, screw plastic"),
            *phrases(
                "self tapping, self-tapping, selftapping, self tapper, self-tapper, self tappers, "
                "tek screw, tapping screw, tapper screw"
            ),
            *phrases(_FOR_PLASTIC),
            *phrases("pan head, countersunk, flat head", "screw plastic, PT screw"),
        ),
        "de": phrases(
            "Blechschraube, Blech Schraube, Bohrschraube, selbstschneidende Schraube, "
            "Kunststoffschraube, Schraube für Kunststoff, PT Schraube,"
            " selbstbohrende Schraube, Blechschrauben, Linsenkopf Blechschraube, "
            "Senkkopf Blechschraube, Linsenblechschraube, Senkblechschraube,"
            " Linsenkopf Kunststoffschraube, gewindefurchende Schraube Kunststoff, "
            "selbstfurchende Schraube, PT Schraube Kunststoff,"
            " Linsenkopfschraube Kunststoff, Linsenkopf PT Schraube, selbstschneidend Schraube"
        ),
        "fr": phrases(
            "vis à tôle, vis tôle, vis autoforeuse, vis autotaraudeuse, vis autoperceuse, "
            "vis plastique, vis pour plastique, vis auto-taraudeuse, vis autoforante, "
            "vis à tôle tête cylindrique, vis à tôle tête fraisée"
        ),
        "es": phrases(
            "tornillo autorroscante, tornillo rosca chapa, tornillo chapa, tornillo autoperforante, "
            "tornillo para plástico, tornillo plástico, tornillo de chapa, "
            "tornillo autorroscante avellanado, tornillo rosca plástico"
        ),
        "it": phrases(
            "vite autofilettante, vite autoforante, vite per lamiera, vite per plastica, "
            "vite autofilettante svasata, vite plastica, vite autoperforante, autofilettante, "
            "vite autofilettante testa bombata, vite autofilettante testa cilindrica, "
            "vite autofilettante testa svasata"
        ),
        "zh": phrases("zigong luosi, zi gong luo si, zigong"),
    },
    standards=(
        Standard("ISO 7049", order=_ORDER_BY_HEAD["ISO 7049"]),
        Standard("ISO 7050", order=_ORDER_BY_HEAD["ISO 7050"]),
        Standard("DIN 7981", order="Pan head tapping screw DIN 7981 - {thread} x {length} - C - H"),
        Standard("DIN 7982", order="Countersunk tapping screw DIN 7982 - {thread} x {length} - C - H"),
        Standard(
            "DIN 7983", rows="DIN 7982", order="Raised countersunk tapping screw DIN 7983 - {thread} x {length} - C - H"
        ),
        Standard(
            "ISO 7051", rows="ISO 7050", order="Raised countersunk tapping screw ISO 7051 - {thread} x {length} - C - H"
        ),
        Standard(
            "ISO 1481", rows="ISO 7049", order="Slotted pan head tapping screw ISO 1481 - {thread} x {length} - C"
        ),
        Standard(
            "ISO 1482", rows="ISO 7050", order="Slotted countersunk tapping screw ISO 1482 - {thread} x {length} - C"
        ),
        Standard("ISO 1479", rows="ISO 1478", order="Hexagon head tapping screw ISO 1479 - {thread} x {length} - C"),
        Standard("DIN 7976", rows="ISO 1478", order="Hexagon head tapping screw DIN 7976 - {thread} x {length} - C"),
        Standard(
            "DIN 7971", rows="DIN 7981", order="Slotted pan head tapping screw DIN 7971 - {thread} x {length} - C"
        ),
        Standard(
            "DIN 7972", rows="DIN 7982", order="Slotted countersunk tapping screw DIN 7972 - {thread} x {length} - C"
        ),
        Standard("DIN 7504", rows="ISO 1478", order="Drilling screw DIN 7504 - {thread} x {length}"),
        Standard(
            "ISO 14585",
            rows="ISO 7049",
            order="Hexalobular socket pan head tapping screw ISO 14585 - {thread} x {length} - C",
        ),
        Standard("ISO 15481", rows="ISO 7049", order="Drilling screw ISO 15481 - {thread} x {length} - H"),
        Standard("ISO 1478"),
        Standard("UNI 6954", rows="DIN 7981", order="Pan head tapping screw UNI 6954 - {thread} x {length} - C - H"),
        Standard("UNI 6955", rows="DIN 7982", order="Countersunk tapping screw UNI 6955 - {thread} x {length} - C - H"),
    ),
    table="self_tapping_screw",
    codes=(
        Code(
            r"(?P<letters>[pk](?:a|b|wa|wb))[ "
            r"-]?(?P<size>\d(?:[.,]\d)?)\s?[x*]\s?(?P<length>\d{1,2}(?:[.,]\d)?)(?:\s?mm)?",
            decode=_tapping_code,
            says="letters of a tapping screw, then outside diameter x length",
        ),
    ),
    thread="thread",
    layouts=_SIZES,
    labels={"diameter": "outer_diameter", "od": "outer_diameter", "thread": "outer_diameter"},
    needs=("length",),
    identity=("outer_diameter|thread",),
    order="Tapping screw {outer_diameter} x {length}",
    question="Which size (ST or outside diameter) and length has the tapping screw?",
    length_says="pan head: under the head; countersunk: over all",
    refine=_tapping,
    kin=("set screw",),
    listed_lengths=False,
    listed_sizes=False,
    words=_PLASTIC | DRIVE_WORDS,
    examples=(
        Example(
            "ST4.2x19 pan head tapping screw",
            dimensions={"thread": "ST4.2", "length": "19", "outer_diameter": "4.22"},
            size_names="outer diameter",
        ),
        Example(
            "Blechschraube 3,5x16 DIN 7982", dimensions={"outer_diameter": "3.5", "length": "16", "thread": "ST3.5"}
        ),
        Example("PT screw 2.5x8 for plastic", dimensions={"outer_diameter": "2.5", "length": "8"}),
        Example("#6 x 1/2 self tapping screw", dimensions={"thread": "ST3.5", "length": "12.7"}),
        Example("M3x8 self tapping screw", state="ambiguous"),
    ),
    source="ISO 1478",
    mates=Mates(in_bore=False),
)

THREAD_FORMING = Family(
    name="thread forming screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": (
            *phrases("thread forming, thread rolling, threadforming, thread-forming, trilobular", "screw"),
            *phrases("thread forming, thread rolling, threadforming, taptite"),
            *phrases(
                "thread forming, thread rolling",
                "pan head screw, countersunk screw, hex screw, torx screw, hex flange screw",
            ),
        ),
        "de": phrases(
            "gewindefurchende Schraube, gewindeformende Schraube, Gewindefurchschraube, "
            "gewindefurchend, Gewindefurchende, gewindeformend, furchende Schraube"
        ),
        "fr": phrases("vis autoformeuse, vis auto-formeuse, vis à formage, vis trilobée, vis autoformante"),
        "es": phrases("tornillo autoformante, tornillo trilobular, tornillo formador de rosca"),
        "it": phrases("vite autoformante, vite trilobata, vite trilobare, vite autoformatrice"),
    },
    standards=(
        Standard("DIN 7500", order=_FORMING_ORDER),
        Standard("ISO 7085", order="Thread forming screw ISO 7085 - {thread} x {length}"),
    ),
    thread="thread",
    layouts=LENGTH,
    needs=("thread", "length"),
    identity=("thread",),
    order=_FORMING_ORDER,
    question="Which metric thread does the screw form?",
    kin=("self-tapping screw",),
    uniform_length=True,
    examples=(
        Example("DIN 7500 M4x10", dimensions={"thread": "M4", "length": "10"}, size_names="external thread"),
        Example("thread forming screw M3 x 6 torx", dimensions={"thread": "M3", "length": "6"}),
        Example("gewindefurchende Schraube M5x12 DIN 7500 C", dimensions={"thread": "M5", "length": "12"}),
        Example("vite trilobata M4x8", dimensions={"thread": "M4", "length": "8"}),
    ),
    source="DIN 7500-1",
    mates=Mates(through=True, headed=True),
)

FAMILIES = (WOOD_SCREW, SELF_TAPPING, THREAD_FORMING)
