"""Screws named by the form of their head: low, pan, cheese, hexagon with flange. The size is the external thread.

Low heads have a smaller key than full ones, and the two German standards differ in it; flanged heads differ in the
width across flats. Where a line names no standard, such figures stay open.

Sources: DIN 7984, DIN 6912, ISO 7045, ISO 1580, DIN 7985, DIN 85, ISO 1207, DIN 84, DIN 6921, EN 1665, ISO 4162.
"""

from collections.abc import Mapping, Sequence

from reference.families.base import Example, Family, Mates, Standard, phrases
from reference.families.facts import Draft, Facts
from reference.families.rules import (
    DRIVE_WORDS,
    DRIVES,
    as_machine_screw,
    ask_pitch,
    drive_of,
    leave_standard_open,
    row_of_stated,
    thread_in,
)
from reference.families.screws import LENGTH, UNDER_HEAD


def _low(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Leave the key size open where no standard is named: 3 or 4 mm for M5."""
    for draft in drafts:
        row_of_stated(family, draft, ("across_flats", "head_height"), {"DIN 6912": _DIN_6912})
        leave_standard_open(family, draft, "across_flats")
    return drafts


_DIN_6912 = (
    "Hexagon socket head cap screw with low head and pilot recess DIN 6912 - {thread} x {length} - {property_class?8.8}"
)

LOW_HEAD = Family(
    name="low head cap screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": (
            *phrases(
                "low head, low profile head, thin head, ultra low head, extra low head, super low head, "
                "low profile, low-profile",
                "cap screw, socket cap screw, socket screw, screw, socket, SHCS, allen screw, "
                "socket head cap screw, bolt,"
                " hex socket, socket head, allen bolt, allen",
            ),
            *phrases(
                "low head, low profile SHCS, low head cap, low height cap screw, low head SHCS, reduced head cap screw"
            ),
        ),
        "de": phrases(
            "Zylinderschraube, Zylinderkopfschraube, Inbus, Inbusschraube, Innensechskantschraube, "
            "Zylinderschraube ISK,"
            " Zylinderschraube Innensechskant, Schraube, Zylinderkopf",
            "niedriger Kopf, niedrigem Kopf, flacher Kopf, flachem Kopf, niedrig, niedrige Form, "
            "flache Form, niederer Kopf",
        ),
        "fr": phrases(
            "vis, vis CHC, CHC, vis BTR, vis cylindrique, vis six pans creux",
            "tête basse, tête réduite, tête plate basse",
        ),
        "es": phrases(
            "tornillo, tornillo allen, allen, tornillo cilíndrico", "cabeza baja, cabeza rebajada, cabeza reducida"
        ),
        "it": phrases(
            "vite, TCEI, vite TCEI, vite brugola, brugola", "testa ribassata, testa bassa, ribassata, testa ridotta"
        ),
    },
    standards=(
        Standard("DIN 7984"),
        Standard("DIN 6912", order=_DIN_6912),
    ),
    table="low_head_cap_screw",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    needs=("thread", "length"),
    identity=("thread",),
    order="Hexagon socket head cap screw with low head DIN 7984 - {thread} x {length} - {property_class?8.8}",
    question="Which thread has the screw?",
    length_says=UNDER_HEAD,
    refine=_low,
    uniform_length=True,
    words=frozenset({"profile"}),
    examples=(
        Example(
            "low head cap screw DIN 7984 M5x12 8.8",
            dimensions={"thread": "M5", "length": "12", "across_flats": "3", "head_height": "3.5"},
            size_names="external thread",
        ),
        Example("DIN 6912 M6x16", dimensions={"thread": "M6", "length": "16", "across_flats": "5"}),
        Example("Inbus M4x10 niedriger Kopf", dimensions={"thread": "M4", "length": "10"}),
        Example("vite TCEI testa ribassata M8x20", dimensions={"thread": "M8", "length": "20"}),
    ),
    source="DIN 7984, DIN 6912",
    mates=Mates(through=True, headed=True),
)

_PAN_BY_DRIVE: Mapping[str, tuple[str, str]] = {
    "cross recess": ("ISO 7045", "Pan head screw ISO 7045 - {thread} x {length} - {property_class?4.8} - H"),
    "slotted": ("ISO 1580", "Slotted pan head screw ISO 1580 - {thread} x {length} - {property_class?4.8}"),
    "hexalobular": (
        "ISO 7045",
        "Hexalobular socket pan head screw ISO 14583 - {thread} x {length} - {property_class?4.8}",
    ),
}


def _pan(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take the drive from the words; a pan head on an inch thread is a machine screw."""
    out: list[Draft] = []
    for draft in drafts:
        thread, drive = thread_in(draft, "thread"), drive_of(facts)
        if drive:
            draft.attributes["drive"] = drive
        number = facts.attributes.get("number size")
        if thread is None and number is not None:
            draft.doubts.append(ask_pitch(number))
        if number is not None or (thread is not None and thread.system == "unified"):
            out.append(as_machine_screw(draft, "pan"))
            continue
        if not draft.standards:
            if drive is None:
                draft.asks.append("a cross recess")
            draft.table_standard, draft.order_text = _PAN_BY_DRIVE[drive or "cross recess"]
        out.append(draft)
    return out


PAN_HEAD = Family(
    name="pan head screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": (
            *phrases("pan head, panhead, pan hd, pan-head, raised cheese head"),
            *phrases("pan head, panhead, pan", "screw, bolt, phillips, pozi, torx"),
            *phrases("round head phillips screw, round head cross screw, cross round head screw, PM screw"),
        ),
        "de": (
            *phrases(
                "Linsenkopf, Linsenkopfschraube, Linsenschraube, Linsenkopf Schraube, Flachkopfschraube, "
                "Flachkopf Schraube",
                "Kreuzschlitz, Schlitz, Torx, Innensechsrund, PH, PZ, Pozidriv, TX, Phillips, ISR, Kreuz",
            ),
            *phrases("Flachkopfschraube, Linsenkopfschraube, Linsenschraube, Linsenkopf, Linsenkopf Schraube"),
        ),
        "fr": phrases(
            "vis tête cylindrique bombée, vis CBL, vis à tête cylindrique large, vis CBLZ, "
            "vis à métaux tête cylindrique bombée,"
            " vis tête cylindrique bombée large, vis tête ronde cruciforme, "
            "vis tête bombée cruciforme, vis tête bombée fendue,"
            " vis tête bombée torx, vis PAN, vis tête pan, vis Z cylindrique large"
        ),
        "es": phrases(
            "tornillo cabeza alomada, tornillo alomado, tornillo cabeza redonda",
            "phillips, pozidriv, philips, ranurada, ranurado, estrella, cruz, torx, din 7985",
        ),
        "it": (
            *phrases(
                "vite testa bombata, vite a testa bombata, vite bombata",
                "croce, taglio, torx, intaglio, impronta a croce",
            ),
            *phrases(
                "vite TCB, vite testa cilindrica bombata, vite TC croce, vite testa cilindrica croce, "
                "vite testa tonda croce, vite testa cilindrica con calotta"
            ),
        ),
        "zh": ("pan tou luo ding", "yuan tou luo ding"),
    },
    standards=(
        Standard("ISO 7045", fixed={"drive": "cross recess"}, order=_PAN_BY_DRIVE["cross recess"][1]),
        Standard("ISO 1580", fixed={"drive": "slotted"}, order=_PAN_BY_DRIVE["slotted"][1]),
        Standard(
            "DIN 7985",
            fixed={"drive": "cross recess"},
            order="Pan head screw DIN 7985 - {thread} x {length} - {property_class?4.8} - H",
        ),
        Standard(
            "DIN 85",
            fixed={"drive": "slotted"},
            order="Slotted pan head screw DIN 85 - {thread} x {length} - {property_class?4.8}",
        ),
        Standard("ISO 14583", rows="ISO 7045", fixed={"drive": "hexalobular"}, order=_PAN_BY_DRIVE["hexalobular"][1]),
        Standard(
            "GB/T 818",
            rows="ISO 7045",
            fixed={"drive": "cross recess"},
            order="Pan head screw GB/T 818 - {thread} x {length} - {property_class?4.8}",
        ),
        Standard(
            "UNI 7687",
            rows="DIN 7985",
            fixed={"drive": "cross recess"},
            order="Pan head screw UNI 7687 - {thread} x {length} - {property_class?4.8}",
        ),
    ),
    table="pan_head_screw",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    needs=("thread", "length"),
    identity=("thread",),
    order=_PAN_BY_DRIVE["cross recess"][1],
    question="Which thread has the screw?",
    length_says=UNDER_HEAD,
    refine=_pan,
    kin=("self-tapping screw", "wood screw", "thread forming screw"),
    uniform_length=True,
    words=DRIVE_WORDS,
    examples=(
        Example(
            "ISO 7045 - M4 x 12 - 4.8 - H", dimensions={"thread": "M4", "length": "12"}, size_names="external thread"
        ),
        Example("pan head phillips screw M3x8 zinc", dimensions={"thread": "M3", "length": "8"}),
        Example("Linsenkopfschraube Kreuzschlitz M2,5x6 DIN 7985", dimensions={"thread": "M2.5", "length": "6"}),
        Example("Linsenkopfschraube M4x16", state="ambiguous"),
    ),
    source="ISO 7045, ISO 1580, DIN 7985, DIN 85",
    mates=Mates(through=True, headed=True),
)

CHEESE_HEAD = Family(
    name="cheese head screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": (
            *phrases(
                "cheese head, cheesehead, cheese hd, slotted cheese head, slotted cylinder head, "
                "slotted cylindrical head"
            ),
            *phrases("cheese head, cheesehead, slotted cheese head, slotted cylinder head", "screw, machine screw"),
        ),
        "de": phrases(
            "Zylinderschraube, Zylinderkopfschraube, Zylinder Schraube, Zylinderkopf, Zyl Schraube",
            "Schlitz, geschlitzt, Längsschlitz",
        ),
        "fr": phrases(
            "vis tête cylindrique fendue, vis à tête cylindrique fendue, vis cylindrique fendue, "
            "vis CS, vis tête cylindrique à fente"
        ),
        "es": phrases(
            "tornillo cabeza cilíndrica, tornillo cilíndrico, tornillo de cabeza cilíndrica",
            "ranurada, ranurado, ranura",
        ),
        "it": phrases("vite testa cilindrica, vite a testa cilindrica, vite cilindrica", "taglio, intaglio"),
    },
    standards=(
        Standard("ISO 1207"),
        Standard("DIN 84", order="Slotted cheese head screw DIN 84 - {thread} x {length} - {property_class?4.8}"),
        Standard(
            "UNI 6107",
            rows="DIN 84",
            order="Slotted cheese head screw UNI 6107 - {thread} x {length} - {property_class?4.8}",
        ),
        Standard(
            "ISO 14580",
            fixed={"drive": "hexalobular"},
            order="Hexalobular socket cheese head screw ISO 14580 - {thread} x {length} - {property_class?4.8}",
        ),
        Standard(
            "GB/T 65",
            rows="ISO 1207",
            order="Slotted cheese head screw GB/T 65 - {thread} x {length} - {property_class?4.8}",
        ),
    ),
    table="cheese_head_screw",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    labels={"slot": "-"},
    needs=("thread", "length"),
    identity=("thread",),
    order="Slotted cheese head screw ISO 1207 - {thread} x {length} - {property_class?4.8}",
    question="Which thread has the screw?",
    length_says=UNDER_HEAD,
    uniform_length=True,
    words=frozenset(DRIVES["slotted"]),
    examples=(
        Example(
            "Slotted cheese head screw ISO 1207 - M5 x 20 - 4.8",
            dimensions={"thread": "M5", "length": "20", "head_diameter": "8.5"},
        ),
        Example("cheese head screw M3x10 brass", dimensions={"thread": "M3", "length": "10"}),
        Example("Zylinderschraube mit Schlitz M4x8", dimensions={"thread": "M4", "length": "8"}),
        Example("vis tête cylindrique fendue M2x5", dimensions={"thread": "M2", "length": "5"}),
    ),
    source="ISO 1207, DIN 84",
    mates=Mates(through=True, headed=True),
)

_FLANGE_ORDERS = {
    name: f"Hexagon flange screw {name} - {{thread}} x {{length}} - {{property_class?8.8}}"
    for name in ("EN 1665", "ISO 4162", "DIN 6921")
}


def _flanged(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Leave the width across flats open where no standard is named: 13, 15 or 16 mm for M10."""
    for draft in drafts:
        row_of_stated(family, draft, ("across_flats", "flange_diameter"), _FLANGE_ORDERS)
        leave_standard_open(family, draft, "across_flats")
    return drafts


HEX_FLANGE = Family(
    name="hex flange screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": (
            *phrases(
                "hex flange, hexagon flange, flange, flanged, flanged hex, flange head, hex washer head, "
                "serrated flange",
                "screw, bolt",
            ),
            *phrases("flanged hexagon, hex flanged, hex head flange", "bolt, screw"),
        ),
        "de": (
            *phrases("Sechskantschraube, Sechskant Schraube, 6kt Schraube", "Flansch, Bund"),
            *phrases(
                "Flanschschraube, Bundschraube, Sechskant Flanschschraube, Sechskantflanschschraube, "
                "Sperrzahnschraube, Sechskantbundschraube"
            ),
        ),
        "fr": phrases(
            "vis à embase, vis embase, vis H embase, vis hexagonale à embase, vis TH à embase, "
            "vis tête hexagonale à embase, vis à collerette, boulon à embase"
        ),
        "es": phrases("tornillo, tornillo hexagonal, perno", "brida, valona, arandela estampada"),
        "it": phrases(
            "vite flangiata, vite TE flangiata, vite con flangia, vite testa esagonale flangiata, "
            "bullone flangiato, vite esagonale flangiata"
        ),
    },
    standards=(
        Standard("EN 1665", order=_FLANGE_ORDERS["EN 1665"]),
        Standard("ISO 4162", order=_FLANGE_ORDERS["ISO 4162"]),
        Standard("DIN 6921", order=_FLANGE_ORDERS["DIN 6921"]),
    ),
    table="hex_flange_screw",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    needs=("thread", "length"),
    identity=("thread",),
    order=_FLANGE_ORDERS["EN 1665"],
    question="Which thread has the screw?",
    length_says=UNDER_HEAD,
    refine=_flanged,
    kin=("button head screw", "self-tapping screw", "wood screw"),
    inch_order="Hex flange screw {thread} x {length} in",
    uniform_length=True,
    words=frozenset({"serrated", "washer"}),
    examples=(
        Example(
            "Hexagon flange screw DIN 6921 - M8 x 25 - 8.8",
            dimensions={"thread": "M8", "length": "25"},
            size_names="external thread",
        ),
        Example("flange bolt M6x20 10.9", dimensions={"thread": "M6", "length": "20"}),
        Example("Sechskantschraube mit Flansch M10x30", dimensions={"thread": "M10", "length": "30"}),
        Example("vis à embase M5 x 16 inox", dimensions={"thread": "M5", "length": "16"}),
    ),
    source="EN 1665, ISO 4162, DIN 6921",
    mates=Mates(through=True, headed=True),
)

FAMILIES = (LOW_HEAD, PAN_HEAD, CHEESE_HEAD, HEX_FLANGE)
