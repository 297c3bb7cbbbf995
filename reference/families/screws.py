"""Screws with a metric or unified thread: socket head, button head, countersunk, hexagon head, set screws.

The size is the outside (external) thread. The length is measured under the head, for countersunk screws and set screws
over all.

Sources: ISO 4762, ISO 7380-1, ISO 10642, ISO 4014, ISO 4017, ISO 4026..4029 (tables); lengths ISO 888.
"""

from collections.abc import Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, Mates, Standard
from reference.families.facts import Draft, Facts
from reference.families.rules import DRIVE_WORDS, drive_of, leave_standard_open, row_of_stated, with_hexalobular_socket
from reference.quantities import Limits, ThreadSize

UNDER_HEAD = "the length is measured under the head"
OVER_ALL = "the length is measured over all, with the head"

LENGTH = (Layout(("length",)),)


def screw_name(text: str) -> tuple[str, ...]:
    """Return the noun phrases written one to a line or comma."""
    return tuple(part.strip() for part in text.replace("\n", ",").split(",") if part.strip())


_TORX_SOCKET = "Hexalobular socket head cap screw ISO 14579 - {thread} x {length} - {property_class?8.8}"
_TORX_BUTTON = "Hexalobular socket button head screw {thread} x {length} - {property_class?08.8}"


def _button(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A button head with a hexalobular socket has no hexagon key."""
    if drive_of(facts) == "hexalobular" and not facts.standards:
        for draft in drafts:
            with_hexalobular_socket(family, draft, _TORX_BUTTON)
    return drafts


def _key_size(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """``5mm allen bolt``: bicycle trade names the key, so a plain number may be the key size or the thread."""
    if drive_of(facts) == "hexalobular" and not facts.standards:
        for draft in drafts:
            with_hexalobular_socket(family, draft, _TORX_SOCKET)
        return drafts
    if not facts.says("allen") or facts.threads() or family.sizes is None:
        return drafts
    out: list[Draft] = []
    for draft in drafts:
        thread = draft.dimensions.get("thread")
        if not isinstance(thread, ThreadSize):
            out.append(draft)
            continue
        by_key = [
            row
            for row in family.sizes.rows
            if row.standard == "ISO 4762"
            and isinstance(key := row.dimensions.get("across_flats"), Limits)
            and key.nominal == thread.diameter
        ]
        for row in by_key:
            other = row.dimensions["thread"]
            draft_by_key = Draft(
                draft.family,
                "across flats",
                "assumed",
                {**draft.dimensions, "thread": other},
                dict(draft.attributes),
                draft.standards,
                [*draft.because, ("allen", f"a {thread.diameter} mm key turns {row.size}", row.source)],
                list(draft.notes),
                rest=list(draft.rest),
            )
            out.append(draft_by_key)
        draft.evidence = "assumed"
        out.append(draft)
    return out


SOCKET = Family(
    name="socket head cap screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": screw_name(
            "socket head cap screw, SHCS, socket cap screw, socket cap, cap screw, hex socket screw, "
            "allen screw, allen bolt,"
            " allen head, hex socket head, socket head screw, socket screw, cap head screw, "
            "allen cap, cap head, socket head,"
            " hexagon socket head, socket bolt, cylinder head screw, allen key bolt, socket cap bolt, "
            "hex socket cap, caphead, hex socket cap screw, hexagon socket cap screw, "
            "hex socket head cap screw"
        ),
        "de": screw_name(
            "Zylinderschraube, Zylinderschraube Innensechskant, Zylinderschraube ISK, Inbus, "
            "Inbusschraube, Zylinderkopfschraube, Innensechskantschraube, Zyl Schraube, Imbus, "
            "Imbusschraube"
        ),
        "fr": screw_name(
            "vis CHC, vis BTR, vis à tête cylindrique hexagonale creuse, "
            "vis tête cylindrique six pans creux, CHC, BTR, vis allen, vis tête cylindrique, "
            "vis six pans creux"
        ),
        "es": screw_name(
            "tornillo allen, tornillo cilíndrico allen, tornillo de cabeza cilíndrica, "
            "tornillo hexágono interior, tornillo hueco hexagonal"
        ),
        "it": screw_name(
            "vite TCEI, TCEI, vite a brugola, vite testa cilindrica esagono incassato, brugola, vite testa cilindrica"
        ),
    },
    standards=(
        Standard("ISO 4762"),
        Standard("DIN 912", order="Hexagon socket head cap screw DIN 912 - {thread} x {length} - {property_class?8.8}"),
        Standard("ISO 14579", order=_TORX_SOCKET),
        Standard("GB/T 70", rows="ISO 4762"),
        Standard("GB/T 70.1", rows="ISO 4762"),
        Standard("ASME B18.3"),
        Standard("UNI 5931", rows="ISO 4762"),
    ),
    alone=frozenset({"12.9"}),
    table="socket_head_cap_screw",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    uniform_length=True,
    labels={"diameter": "outer_diameter", "across flats": "across_flats", "depth": "length"},
    needs=("thread", "length"),
    identity=("thread",),
    order="Hexagon socket head cap screw ISO 4762 - {thread} x {length} - {property_class?8.8}",
    question="Which thread has the screw?",
    length_says=UNDER_HEAD,
    unless=frozenset({"bottle", "jar", "lid", "baseball", "wrench", "spanner"}),
    refine=_key_size,
    kin=(
        "low head cap screw",
        "button head screw",
        "countersunk screw",
        "shoulder screw",
        "cheese head screw",
        "set screw",
    ),
    examples=(
        Example("DIN 912 M3x50 12.9", dimensions={"thread": "M3", "length": "50"}),
        Example("M3x10 SHCS", dimensions={"thread": "M3", "length": "10"}, size_names="external thread"),
        Example("Inbus M8x35", dimensions={"thread": "M8", "length": "35", "across_flats": "6"}),
        Example("M8x1x20 cap screw fine", dimensions={"thread": "M8x1", "length": "20"}),
        Example("5mm allen bolt x 20", state="ambiguous"),
    ),
    inch_order="Socket head cap screw ASME B18.3 - {thread} x {length} in",
    inch_standard="ASME B18.3",
    source="ISO 4762",
    mates=Mates(through=True, headed=True),
)

BUTTON = Family(
    name="button head screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": screw_name(
            "button head screw, BHCS, button head, button socket, button head cap screw, "
            "button screw, button cap screw, button bolt, buttonhead"
        ),
        "de": screw_name(
            "Linsenkopf ISK, Linsenkopf, Linsenkopfschraube, Linsenschraube, "
            "Linsenkopfschraube Innensechskant, Flachrundschraube Innensechskant, Linsenflachkopf, "
            "Halbrundkopf ISK, Linsenkopf Innensechskant, Flachrundkopf Innensechskant, "
            "Linsenflanschkopf ISK, Linsenkopfschraube ISK"
        ),
        "fr": screw_name(
            "vis BHC, BHC, vis tête bombée, vis à tête bombée, vis TBHC, TBHC, tête bombée hexagonale creuse"
        ),
        "es": screw_name(
            "tornillo cabeza de botón, tornillo cabeza redonda allen, tornillo alomado allen, "
            "tornillo cabeza alomada allen, tornillo botón"
        ),
        "it": screw_name("vite testa bombata, vite a testa bombata, vite TBEI, TBEI, vite bombata"),
    },
    standards=(
        Standard("ISO 7380", rows="ISO 7380-1"),
        Standard("ISO 7380-1"),
        Standard(
            "ISO 7380-2",
            rows="ISO 7380-1",
            order="Hexagon socket button head screw with collar ISO 7380-2 - {thread} x {length} - "
            "{property_class?08.8}",
        ),
        Standard("GB/T 70.2", rows="ISO 7380-1"),
        Standard("ASME B18.3"),
    ),
    table="button_head_screw",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    uniform_length=True,
    needs=("thread", "length"),
    identity=("thread",),
    order="Hexagon socket button head screw ISO 7380-1 - {thread} x {length} - {property_class?08.8}",
    length_says=UNDER_HEAD,
    kin=("pan head screw",),
    refine=_button,
    examples=(
        Example("BHCS M5x10 ss", dimensions={"thread": "M5", "length": "10", "across_flats": "3"}),
        Example("ISO 7380-1 M4x8 A2 (50)", dimensions={"thread": "M4", "length": "8"}),
    ),
    inch_order="Button head screw ASME B18.3 - {thread} x {length} in",
    inch_standard="ASME B18.3",
    source="ISO 7380-1",
    mates=Mates(through=True, headed=True),
)

_COUNTERSUNK_BY_DRIVE = {
    "cross recess": (
        "ISO 7046-1",
        "Countersunk flat head screw ISO 7046-1 - {thread} x {length} - {property_class?4.8} - H",
    ),
    "slotted": (
        "ISO 2009",
        "Slotted countersunk flat head screw ISO 2009 - {thread} x {length} - {property_class?4.8}",
    ),
    "hexalobular": (
        "ISO 2009",
        "Hexalobular socket countersunk flat head screw ISO 14581 - {thread} x {length} - {property_class?4.8}",
    ),
}


def _countersunk(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take the drive from the words; a ``large flat head`` of a marketplace may also be a low cylindrical one."""
    out: list[Draft] = []
    for draft in drafts:
        drive = drive_of(facts)
        if drive and not draft.standards and not facts.inches:
            draft.attributes["drive"] = drive
            draft.table_standard, draft.order_text = _COUNTERSUNK_BY_DRIVE[drive]
        out.append(draft)
        flat = facts.says("flat") and facts.says("large", "thin", "ultra", "big", "wide", "low", "super")
        if flat and not facts.says("countersunk", "csk") and not draft.standards and not facts.inches:
            says = "marketplaces: a low head with a flat top, not countersunk"
            out.append(
                draft.copy(
                    family="screw",
                    evidence="assumed",
                    attributes={**draft.attributes, "head": "flat-topped"},
                    because=[*draft.because, ("flat head", says, COMMON_PRACTICE)],
                )
            )
    return out


COUNTERSUNK = Family(
    name="countersunk screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": screw_name(
            "countersunk screw, FHCS, countersunk, CSK, flat head socket cap screw, "
            "flat head cap screw, countersunk socket, csk screw, flat head countersunk,"
            " flat countersunk head, countersunk bolt, countersunk head, csk head, "
            "flat head socket screw, counter sunk, flat head hex socket, flat head allen, "
            "flat head allen screw,"
            " flat head hex socket screw, raised countersunk"
        ),
        "de": screw_name(
            "Senkschraube, Senkkopf, Senkkopfschraube, Senkschraube ISK, Senk Schraube, Senkkopf ISK,"
            " Linsensenkschraube"
        ),
        "fr": screw_name(
            "vis FHC, FHC, vis tête fraisée, vis à tête fraisée, tête fraisée, vis TFHC, TFHC, vis fraisée"
        ),
        "es": screw_name("tornillo avellanado, tornillo cabeza avellanada, avellanado, tornillo avellanada"),
        "it": screw_name(
            "vite testa svasata, vite a testa svasata, vite TSPEI, TSPEI, vite svasata, testa svasata, TPSEI"
        ),
    },
    standards=(
        Standard("ISO 10642"),
        Standard(
            "DIN 7991",
            order="Hexagon socket countersunk head screw DIN 7991 - {thread} x {length} - {property_class?8.8}",
        ),
        Standard(
            "ISO 2009",
            order="Slotted countersunk flat head screw ISO 2009 - {thread} x {length} - {property_class?4.8}",
        ),
        Standard(
            "ISO 7046",
            rows="ISO 7046-1",
            order="Countersunk flat head screw ISO 7046-1 - {thread} x {length} - {property_class?4.8}",
        ),
        Standard("ISO 7046-1", order=_COUNTERSUNK_BY_DRIVE["cross recess"][1]),
        Standard(
            "DIN 963",
            rows="ISO 2009",
            order="Slotted countersunk flat head screw DIN 963 - {thread} x {length} - {property_class?4.8}",
        ),
        Standard(
            "DIN 965",
            rows="ISO 7046-1",
            order="Countersunk flat head screw DIN 965 - {thread} x {length} - {property_class?4.8} - H",
        ),
        Standard("ISO 14581", rows="ISO 2009", order=_COUNTERSUNK_BY_DRIVE["hexalobular"][1]),
        Standard("GB/T 70.3", rows="ISO 10642"),
        Standard(
            "ISO 2010",
            rows="ISO 2009",
            order="Slotted raised countersunk head screw ISO 2010 - {thread} x {length} - {property_class?4.8}",
        ),
        Standard(
            "ISO 7047",
            rows="ISO 7046-1",
            order="Raised countersunk head screw ISO 7047 - {thread} x {length} - {property_class?4.8} - H",
        ),
        Standard("ASME B18.3"),
    ),
    table="countersunk_screw",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    uniform_length=True,
    needs=("thread", "length"),
    identity=("thread",),
    order="Hexagon socket countersunk head screw ISO 10642 - {thread} x {length} - {property_class?08.8}",
    length_says=OVER_ALL,
    refine=_countersunk,
    kin=(
        "wood screw",
        "self-tapping screw",
        "thread forming screw",
        "rivet nut",
        "blind rivet",
        "plain washer",
        "magnet",
    ),
    words=DRIVE_WORDS,
    examples=(
        Example("FHCS M3-10", dimensions={"thread": "M3", "length": "10"}),
        Example("Senkkopf DIN 7991 M4x20 A2", dimensions={"thread": "M4", "length": "20", "across_flats": "2.5"}),
    ),
    inch_order="Flat countersunk head cap screw ASME B18.3 - {thread} x {length} in",
    inch_standard="ASME B18.3",
    source="ISO 10642",
    mates=Mates(through=True, headed=True, over_all=True),
)

_HEX_ORDERS = {
    "ISO 4017": "Hexagon head screw ISO 4017 - {thread} x {length} - {property_class?8.8}",
    "DIN 933": "Hexagon head screw DIN 933 - {thread} x {length} - {property_class?8.8}",
    "ISO 4014": "Hexagon head bolt ISO 4014 - {thread} x {length} - {property_class?8.8}",
    "DIN 931": "Hexagon head bolt DIN 931 - {thread} x {length} - {property_class?8.8}",
}


def _hexagon(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take the standard from the spanner in the line, else leave the width across flats open where standards differ."""
    for draft in drafts:
        row_of_stated(family, draft, ("across_flats",), _HEX_ORDERS)
        leave_standard_open(family, draft, "across_flats")
    return drafts


HEX_SCREW = Family(
    name="hex head screw (threaded to the head)",
    size_names="external thread",
    key="thread",
    nouns={
        "en": screw_name(
            "hex head screw, hex screw, hexagon head screw, hex bolt, hexagon bolt, hexagon screw, "
            "hex head bolt, full thread bolt, fully threaded bolt, hex cap screw, hexhead screw, "
            "hex head, hexagon head bolt, hex set screw, hexagon set screw"
        ),
        "de": screw_name(
            "Sechskantschraube, 6kt Schraube, Sechskant Schraube, 6-kt-Schraube, SKT Schraube, Sechskantkopf"
        ),
        "fr": screw_name(
            "vis H, vis TH, vis tête hexagonale, vis à tête hexagonale, boulon H, boulon hexagonal, vis hexagonale"
        ),
        "es": screw_name("tornillo hexagonal, tornillo cabeza hexagonal, perno hexagonal, tornillo hex"),
        "it": screw_name("vite TE, vite testa esagonale, vite a testa esagonale, bullone esagonale, vite esagonale"),
    },
    standards=(
        Standard("ISO 4017"),
        Standard("DIN 933", order="Hexagon head screw DIN 933 - {thread} x {length} - {property_class?8.8}"),
        Standard("DIN 961", rows="DIN 933"),
        Standard("ISO 8676", rows="ISO 4017"),
        Standard("ISO 4018", rows="ISO 4017"),
        Standard("UNI 5739", rows="DIN 933"),
        Standard("GB/T 5783", rows="ISO 4017"),
        Standard("ASME B18.2.1"),
    ),
    table="hex_head_screw",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    uniform_length=True,
    needs=("thread", "length"),
    identity=("thread",),
    order="Hexagon head screw ISO 4017 - {thread} x {length} - {property_class?8.8}",
    length_says=UNDER_HEAD,
    refine=_hexagon,
    kin=(
        "hex head bolt",
        "hex flange screw",
        "shoulder screw",
        "wood screw",
        "self-tapping screw",
        "thread forming screw",
        "socket head cap screw",
        "low head cap screw",
        "button head screw",
        "countersunk screw",
    ),
    examples=(
        Example("vis H M6x50 8.8", dimensions={"thread": "M6", "length": "50", "across_flats": "10"}),
        Example(
            "Sechskantschraube M10x30 DIN 933 A4", dimensions={"thread": "M10", "length": "30", "across_flats": "17"}
        ),
        Example("ISO 4017 M10 x 30", dimensions={"thread": "M10", "length": "30", "across_flats": "16"}),
    ),
    inch_order="Hex head screw ASME B18.2.1 - {thread} x {length} in",
    inch_standard="ASME B18.2.1",
    source="ISO 4017",
    mates=Mates(through=True, headed=True),
)

HEX_BOLT = Family(
    name="hex head bolt",
    size_names="external thread",
    key="thread",
    nouns={
        "en": screw_name(
            "partially threaded hex bolt, hex bolt with shank, part thread hex bolt, "
            "hex bolt partial thread, hexagon bolt with shank"
        ),
        "de": screw_name("Sechskantschraube mit Schaft, Sechskantschraube Teilgewinde, Sechskantschraube Schaft"),
        "fr": screw_name("vis H partiellement filetée, vis tête hexagonale partiellement filetée"),
        "es": screw_name("tornillo hexagonal rosca parcial"),
        "it": screw_name("vite TE gambo parzialmente filettato, vite testa esagonale parzialmente filettata"),
    },
    standards=(
        Standard("ISO 4014"),
        Standard("DIN 931", order="Hexagon head bolt DIN 931 - {thread} x {length} - {property_class?8.8}"),
        Standard("ISO 4016", rows="ISO 4014"),
        Standard("DIN 960", rows="DIN 931"),
        Standard("UNI 5737", rows="DIN 931"),
        Standard("GB/T 5782", rows="ISO 4014"),
    ),
    table="hex_head_bolt",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    uniform_length=True,
    needs=("thread", "length"),
    identity=("thread",),
    order="Hexagon head bolt ISO 4014 - {thread} x {length} - {property_class?8.8}",
    length_says=UNDER_HEAD,
    refine=_hexagon,
    examples=(Example("ISO 4014 M8x80 8.8", dimensions={"thread": "M8", "length": "80", "across_flats": "13"}),),
    source="ISO 4014",
    mates=Mates(through=True, headed=True),
)

_POINTS = {
    "flat": ("flat", "kegelkuppe", "plat", "plate", "piatta", "plana"),
    "cone": ("cone", "spitze", "pointu", "conica", "conique"),
    "dog": ("dog", "zapfen", "teton", "pilot", "cilindrica"),
    "cup": ("cup", "ringschneide", "cuvette", "coppa", "copa", "hollow"),
}
_BY_POINT = {"flat": "ISO 4026", "cone": "ISO 4027", "dog": "ISO 4028", "cup": "ISO 4029"}


def _set_screw(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take the point from the words; a long British ``setscrew`` may be a hexagon head screw threaded to the head."""
    out: list[Draft] = []
    for draft in drafts:
        point = next((name for name, words in _POINTS.items() if facts.says(*words)), None)
        if point and "point" not in draft.attributes:
            draft.attributes["point"] = point
            draft.table_standard = _BY_POINT[point]
            draft.order_text = (
                f"Hexagon socket set screw {_BY_POINT[point]} - {{thread}} x {{length}} - {{property_class?45H}}"
            )
        out.append(draft)
        thread, length = draft.dimensions.get("thread"), draft.dimensions.get("length")
        headless = facts.says(
            "grub",
            "headless",
            "socket",
            "allen",
            "gewindestift",
            "madenschraube",
            "sthc",
            "grano",
            "prisionero",
            "stiftschraube",
            "wurmschraube",
        )
        british = facts.says("setscrew", "setscrews") or (facts.says("set") and facts.says("screw", "screws"))
        if (
            british
            and not headless
            and not draft.standards
            and not point
            and "property_class" not in draft.attributes
            and isinstance(thread, ThreadSize)
            and thread.system == "metric"
            and isinstance(length, Limits)
            and length.nominal >= Decimal("2.5") * thread.diameter
        ):
            out.append(
                Draft(
                    "hex head screw (threaded to the head)",
                    "external thread",
                    "assumed",
                    {"thread": thread, "length": length},
                    dict(draft.attributes),
                    (),
                    [
                        *draft.because,
                        ("set screw", "British trade: a hexagon head screw threaded to the head", "common practice"),
                    ],
                    order_text="Hexagon head screw ISO 4017 - {thread} x {length} - {property_class?8.8}",
                )
            )
    return out


SET_SCREW = Family(
    name="set screw",
    size_names="external thread",
    key="thread",
    nouns={
        "en": screw_name(
            "set screw, setscrew, grub screw, grubscrew, headless screw, socket set screw, grub, "
            "hex socket set screw, hexagon socket set screw, headless set screw"
        ),
        "de": screw_name("Gewindestift, Madenschraube, Wurmschraube, Gewindestifte, Gewinde Stift"),
        "fr": screw_name("vis STHC, STHC, vis sans tête, vis de pression, vis HC sans tête, vis pointeau"),
        "es": screw_name("prisionero, tornillo prisionero, espárrago allen, esparrago allen, tornillo sin cabeza"),
        "it": screw_name("grano, vite senza testa, vite STEI, STEI, grani, grano filettato"),
    },
    standards=(
        Standard("ISO 4026", fixed={"point": "flat"}),
        Standard("ISO 4027", fixed={"point": "cone"}),
        Standard("ISO 4028", fixed={"point": "dog"}),
        Standard("ISO 4029", fixed={"point": "cup"}),
        Standard("DIN 913", rows="ISO 4026", fixed={"point": "flat"}),
        Standard("DIN 914", rows="ISO 4027", fixed={"point": "cone"}),
        Standard("DIN 915", rows="ISO 4028", fixed={"point": "dog"}),
        Standard("DIN 916", rows="ISO 4029", fixed={"point": "cup"}),
        Standard("DIN 551", fixed={"point": "flat"}),
        Standard("DIN 553", fixed={"point": "cone"}),
        Standard("GB/T 77", rows="ISO 4026"),
        Standard("GB/T 80", rows="ISO 4029"),
        Standard("ASME B18.3"),
    ),
    table="set_screw",
    thread="thread",
    plain_thread=True,
    layouts=LENGTH,
    uniform_length=True,
    needs=("thread", "length"),
    identity=("thread",),
    order="Hexagon socket set screw {standard?ISO 4026} - {thread} x {length} - {property_class?45H}",
    length_says="the length is measured over all",
    unless=frozenset({"extractor", "extractors", "driver", "drivers", "bits"}),
    refine=_set_screw,
    kin=("hex head screw (threaded to the head)", "shoulder screw"),
    words=frozenset(word for words in _POINTS.values() for word in words) | {"pt", "point", "bout", "punta", "mit"},
    examples=(
        Example("set screw M3x4 DIN 916 45H", dimensions={"thread": "M3", "length": "4", "across_flats": "1.5"}),
        Example("grub screw M5x5 cup pt", dimensions={"thread": "M5", "length": "5", "across_flats": "2.5"}),
        Example("setscrew M8x30 zinc", state="ambiguous"),
    ),
    inch_order="Socket set screw ASME B18.3 - {thread} x {length} in",
    inch_standard="ASME B18.3",
    source="ISO 4026..4029",
    mates=Mates(through=True, over_all=True),
)

FAMILIES = (SOCKET, BUTTON, COUNTERSUNK, HEX_SCREW, HEX_BOLT, SET_SCREW)
__all__ = ["FAMILIES", "LENGTH", "OVER_ALL", "UNDER_HEAD", "screw_name"]
