"""Threaded standoffs and plain spacers.

A standoff is named by its thread and the length of its body; a stud is counted apart (``20+6``). Whether both ends are
tapped or one is a stud must be said. A spacer is a tube, inside x outside x length; an M beside it names the screw it
lets through - or a thread, if it is no plain spacer, so that ``M5x30 spacer`` is open.

Sources: standoffs as sold (table: common practice).
"""

import re
from collections.abc import Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, Mates, phrases, words
from reference.families.facts import Draft, Facts, Number
from reference.families.rules import NO_ROW, ends_of, rows_with, shown, size_in, thread_in

_TAPPED = words(
    "threaded tapped taraudee taraude filetee filettato filettata roscado roscada gewinde "
    "innengewinde female femelle hembra femmina"
)
_PLAIN = words(
    "plain round unthreaded clearance tube sleeve bush bushing eccentric hulse distanzhulse "
    "abstandshulse distanzrohr distanzbuchse rohr"
    " exzenter lisse douille tubo casquillo boccola liscio liso through durchgang glatt ring "
    "distanzring bague exzentrisch excentrique excentrica eccentrico"
)
_FLATS = {
    Decimal(2): (4,),
    Decimal("2.5"): (4, Decimal("4.5"), 5),
    Decimal(3): (5, Decimal("5.5"), 6),
    Decimal(4): (7, 8),
    Decimal(5): (8,),
    Decimal(6): (10,),
}
"""Thread -> usual widths across flats of a hexagonal standoff. Source: common practice."""


def _is_flats(thread: Decimal | None, value: Decimal) -> bool:
    return thread is not None and value in _FLATS.get(thread, ())


def _ends(draft: Draft, facts: Facts) -> str | None:
    if "stud_length" in draft.dimensions:
        return "male-female"
    return ends_of(facts.line)


def _standoff(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Both ends tapped, or a stud at one: by the words or the stud's length, else open."""
    out: list[Draft] = []
    for draft in drafts:
        if thread_in(draft, "internal_thread") is None:
            if not facts.words & _THREADLESS:
                out.append(draft)
            continue
        ends = _ends(draft, facts)
        flats, stud = draft.nominal("across_flats"), draft.nominal("stud_length")
        draft.table_standard = NO_ROW
        if flats is None and not facts.says("round", "rund", "rond", "redondo", "tondo"):
            thread = thread_in(draft, "internal_thread")
            for row in rows_with(family, internal_thread=thread.designation) if thread else ():
                usual = size_in(row, "across_flats")
                if usual is not None:
                    draft.notes.append(("usual-size", f"usually {shown(usual.nominal)} mm across flats", row.source))
        if ends is None:
            draft.doubts.append(
                "Are both ends tapped, or is one a stud and how long is it? Is the length that of the body?"
            )
        else:
            draft.attributes["ends"] = ends
            if ends == "male-female":
                draft.order_text = _ORDER_STUD
                if stud is None:
                    draft.asks.append("the body's length, the stud counted apart (how long?)")
            elif ends == "male-male":
                draft.order_text = "Standoff {internal_thread} x {length} male-male"
        out.append(draft)
    return out


_THREADLESS = words("pillar column post")
_ORDER_STUD = "Standoff {internal_thread} x {length} + {stud_length} male-female"

STANDOFF = Family(
    name="standoff",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": (
            *phrases(
                "standoff, stand-off, stand off, hex spacer, hex pillar, threaded spacer, "
                "PCB standoff, hexagonal spacer, hexagon spacer, hex standoff, brass standoff, "
                "threaded pillar, tapped spacer, PCB pillar, brass pillar, hex post, "
                "motherboard standoff, threaded standoff, nylon standoff, hex stand-off, "
                "hexagonal pillar, copper pillar, pillar, pillars, pillar standoff, jack post"
            ),
            *phrases("hex, hexagon, hexagonal", "standoff spacer, standoff, spacer, column"),
        ),
        "de": phrases(
            "Abstandsbolzen, Abstandshalter, Distanzbolzen, Sechskant Abstandsbolzen, "
            "Gewindeabstandshalter, Sechskant Abstandshalter, Abstandsbolzen Sechskant, "
            "Distanzhalter, Leiterplatten Abstandshalter, Abstand Bolzen, Sechskant Distanzbolzen"
        ),
        "fr": phrases(
            "entretoise hexagonale, entretoise taraudée, entretoise filetée, entretoise mâle femelle, "
            "entretoise femelle, colonnette, entretoise hexa, entretoise laiton, entretoise six pans, "
            "colonnette hexagonale, entretoise mâle, entretoise FF, plot entretoise"
        ),
        "es": phrases(
            "separador hexagonal, separador roscado, separador hembra, separador macho hembra, "
            "separador latón, poste hexagonal, columna hexagonal, espaciador hexagonal, "
            "espaciador roscado, separador PCB, separador macho, separadores hexagonales"
        ),
        "it": phrases(
            "distanziale esagonale, distanziale filettato, colonnetta, colonnina, torretta, "
            "distanziale maschio femmina, distanziale femmina, torretta esagonale, "
            "colonnetta esagonale, colonnina esagonale, distanziatore esagonale, distanziale ottone, "
            "distanziale PCB, distanziali esagonali"
        ),
        "zh": phrases("tong zhu, tongzhu, liujiao zhu, luozhu, zhu pillar"),
    },
    table="standoff",
    thread="internal_thread",
    layouts=(
        Layout(("length",)),
        Layout(
            ("length", "across_flats"),
            when=lambda v: (
                _is_flats(v.get("internal_thread"), v["across_flats"])
                and not _is_flats(v.get("internal_thread"), v["length"])
            ),
        ),
        Layout(
            ("across_flats", "length"),
            when=lambda v: _is_flats(v.get("internal_thread"), v["across_flats"]) and v["length"] > v["across_flats"],
        ),
        Layout(("length", "stud_length"), when=lambda v: v["length"] > v["stud_length"]),
        Layout(("stud_length", "length")),
    ),
    labels={
        "stud": "stud_length",
        "thread": "stud_length",
        "id": "length",
        "body": "length",
        "height": "length",
        "width": "across_flats",
        "diameter": "across_flats",
        "od": "across_flats",
    },
    needs=("internal_thread", "length"),
    identity=("internal_thread",),
    order="Standoff {internal_thread} x {length} female-female",
    question="Which thread has the standoff?",
    length_says="the length is that of the body",
    refine=_standoff,
    listed_sizes=False,
    unless=words("wall socket candle scope rifle sign bicycle bike fence scissors missile"),
    words=words("male female ff mf fm pass body in out"),
    examples=(
        Example(
            "standoff M3x15+6 brass hex M/F",
            dimensions={"internal_thread": "M3", "length": "15", "stud_length": "6"},
            size_names="internal thread",
        ),
        Example("Abstandsbolzen M4 x 20 IG/IG", dimensions={"internal_thread": "M4", "length": "20"}),
        Example(
            "entretoise hexagonale M2.5 10 mm mâle/femelle", dimensions={"internal_thread": "M2.5", "length": "10"}
        ),
        Example("M3*8+4 brass pillar", dimensions={"internal_thread": "M3", "length": "8", "stud_length": "4"}),
        Example("standoff M4 25mm", state="ambiguous", size_names="internal thread"),
    ),
    mates=Mates(on_shaft=False),
)


def _spacer(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Beside an M number the spacer is a tube where a bore, an outside diameter or a word says so, else open."""
    out: list[Draft] = []
    for draft in drafts:
        screw = thread_in(draft, "screw_size")
        ends = ends_of(facts.line)
        if screw is None:
            if facts.words & _TAPPED and not draft.dimensions:
                continue
            if draft.dimensions or draft.rest or not facts.says("spacer", "spacers", "entretoise", "separador"):
                out.append(draft)
            continue
        threaded = draft.copy(
            family="standoff",
            size_names="internal thread",
            evidence="implied",
            dimensions={
                "internal_thread": screw,
                **{k: v for k, v in draft.dimensions.items() if k in {"length", "outer_diameter"}},
            },
            table_standard=NO_ROW,
        )
        if ends or facts.words & _TAPPED or "stud_length" in draft.dimensions:
            if "stud_length" in draft.dimensions:
                threaded.dimensions["stud_length"] = draft.dimensions["stud_length"]
            threaded.attributes["ends"] = ends or (
                "male-female" if "stud_length" in draft.dimensions else "female-female"
            )
            if threaded.attributes["ends"] == "male-female":
                threaded.order_text = _ORDER_STUD
            out.append(threaded)
            continue
        draft.size_names = "screw size"
        draft.order_text = "Spacer for {screw_size}, outside diameter {outer_diameter} x {length}"
        if facts.words & _PLAIN or "bore" in draft.dimensions or _outside_stated(facts):
            if "bore" not in draft.dimensions and not facts.says("eccentric", "exzentrisch", "excentrique"):
                draft.asks.append(f"a clearance hole for {screw.designation}")
            out.append(draft)
            continue
        draft.evidence = "implied"
        threaded.evidence = "assumed"
        threaded.because.append((screw.designation, "a thread, if the spacer is a threaded one", COMMON_PRACTICE))
        draft.doubts.append(
            f"Does an {screw.designation} screw pass through the spacer (which bore and outside "
            "diameter?), or is it threaded?"
        )
        out += [draft, threaded]
    return out


def _outside_stated(facts: Facts) -> bool:
    parts = [*facts.labelled, *(part for chain in facts.chains for part in chain if isinstance(part, Number))]
    return any(part.label in {"od", "diameter", "id", "bore", "hole"} for part in parts) or bool(
        re.search(r"\bod\b", facts.line.lower())
    )


SPACER = Family(
    name="spacer",
    size_names="bore",
    key="bore",
    nouns={
        "en": phrases(
            "spacer, spacer sleeve, distance sleeve, spacer tube, spacer bush, spacer bushing, "
            "round spacer, unthreaded spacer, clearance spacer, eccentric spacer, aluminium spacer, "
            "aluminum spacer, plain spacer, distance tube, spacing sleeve, spacer ring, "
            "standoff sleeve, distance piece, eccentric nut"
        ),
        "de": phrases(
            "Distanzhülse, Abstandshülse, Distanzrohr, Distanzring, Distanzbuchse, Distanzhuelse, "
            "Abstandsrohr, Abstandsrolle, Distanzrolle, Exzenter Distanz, Distanzhülse exzentrisch, "
            "Abstandsring, Distanzstück, Exzenterhülse, Distanzhülsen"
        ),
        "fr": phrases(
            "entretoise, entretoise lisse, douille entretoise, entretoise tube, entretoise ronde, "
            "entretoise excentrique, bague entretoise, tube entretoise, canon entretoise, entretoises"
        ),
        "es": phrases(
            "separador, casquillo separador, distanciador, espaciador, separador liso, "
            "separador excéntrico, tubo separador, separadores, casquillo distanciador, "
            "espaciador excéntrico"
        ),
        "it": phrases(
            "distanziale, boccola distanziale, distanziale liscio, distanziale tondo, "
            "tubetto distanziale, distanziale eccentrico, distanziali, anello distanziale, "
            "bussola distanziale, distanziatore"
        ),
    },
    thread="screw_size",
    layouts=(
        Layout(("length",), when=lambda v: "screw_size" in v),
        Layout(
            ("outer_diameter", "length"), when=lambda v: "screw_size" in v and v["outer_diameter"] > v["screw_size"]
        ),
        Layout(("length", "outer_diameter"), when=lambda v: "screw_size" in v),
        Layout(
            ("bore", "outer_diameter", "length"),
            when=lambda v: v["bore"] < v["outer_diameter"],
            says="inside x outside x length",
        ),
        Layout(
            ("outer_diameter", "bore", "length"),
            when=lambda v: v["bore"] < v["outer_diameter"],
            says="the smaller diameter is inside",
        ),
        Layout(("bore", "outer_diameter"), when=lambda v: "length" in v and v["bore"] < v["outer_diameter"]),
        Layout(("outer_diameter", "bore"), when=lambda v: "length" in v and v["bore"] < v["outer_diameter"]),
        Layout(("length",), when=lambda v: "bore" in v or "outer_diameter" in v),
    ),
    labels={
        "diameter": "-",
        "hole": "bore",
        "shaft": "bore",
        "height": "length",
        "thickness": "length",
        "stud": "stud_length",
        "width": "length",
        "thread": "-",
        "tube": "-",
        "body": "length",
    },
    needs=("bore|screw_size", "outer_diameter", "length"),
    identity=("bore|screw_size",),
    order="Spacer {bore} x {outer_diameter} x {length} (inside x outside x length)",
    question="Which bore, outside diameter and length has the spacer?",
    refine=_spacer,
    kin=("standoff", "shim", "plain washer", "ball bearing"),
    unless=words("wheel wheels hubcentric hub car rim headset fork hair teether ear bike bicycle tile tiles brake"),
    words=words("male female od id ff round eccentric"),
    examples=(
        Example(
            "spacer 5 x 8 x 10 aluminium",
            dimensions={"bore": "5", "outer_diameter": "8", "length": "10"},
            size_names="bore",
        ),
        Example("Distanzhülse 6,4x10x20", dimensions={"bore": "6.4", "outer_diameter": "10", "length": "20"}),
        Example(
            "entretoise lisse M4 Ø8 x 12",
            dimensions={"screw_size": "M4", "outer_diameter": "8", "length": "12"},
            size_names="screw size",
        ),
        Example("eccentric spacer M5 10mm", dimensions={"screw_size": "M5", "length": "10"}, size_names="screw size"),
        Example("M4x20 spacer", state="ambiguous"),
    ),
)

FAMILIES = (STANDOFF, SPACER)
