"""Thin, square, cap, flange, wing, coupling and knurled nuts. The size is the internal thread.

Where a line names no standard and the standards differ in what a pocket or a spanner meets (square nuts: 1.8 or 2.4 mm
high), that dimension stays open and is asked for.

Sources: ISO 4035, DIN 439-2, DIN 936, DIN 557, DIN 562, DIN 1587, DIN 6923, ISO 4161, DIN 314, DIN 315, DIN 6334,
DIN 466, DIN 467 (tables).
"""

from collections.abc import Sequence

from reference.families.base import Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts
from reference.families.rules import (
    NO_ROW,
    class_not_height,
    leave_standard_open,
    row_of_stated,
    rows_with,
    size_in,
    thread_in,
)

_HEIGHT = (
    Layout(("height",)),
    Layout(("across_flats", "height"), when=lambda v: v["across_flats"] > v["height"]),
    Layout(("height", "across_flats")),
)
_LABELS = {
    "thickness": "height",
    "length": "height",
    "depth": "height",
    "width": "across_flats",
    "diameter": "outer_diameter",
}


def _only_with_thread(draft: Draft) -> bool:
    return thread_in(draft, "internal_thread") is not None or bool(draft.standards)


def _open_height(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take the standard whose height stands in the line; else leave the height open where the standards differ."""
    orders = {item.name: item.order for item in family.standards if item.order}
    for draft in drafts:
        class_not_height(family, facts, draft)
        row_of_stated(family, draft, ("height", "across_flats"), orders)
        leave_standard_open(family, draft, "height")
    return drafts


def _thin_nut(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    for draft in drafts:
        class_not_height(family, facts, draft)
        leave_standard_open(family, draft, "across_flats")
    return drafts


THIN_NUT = Family(
    name="thin nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "thin nut, jam nut, half nut, hex jam nut, low nut, hex thin nut, hexagon thin nut, "
            "thin hex nut, half height nut, check nut, jamnut"
        ),
        "de": phrases(
            "Kontermutter, flache Mutter, niedrige Mutter, Sechskantmutter niedrig, "
            "Sechskantmutter niedrige Form, Flachmutter, Gegenmutter, Mutter niedrig, Mutter flach, "
            "Sechskantmutter flach, Mutter halbhoch"
        ),
        "fr": phrases(
            "écrou bas, écrou Hm, contre-écrou, écrou plat, écrou mince, écrou hexagonal bas, contre écrou, contrécrou"
        ),
        "es": phrases("tuerca baja, contratuerca, tuerca fina, tuerca hexagonal baja, tuerca delgada"),
        "it": phrases("dado basso, controdado, dado ribassato, dado esagonale basso, dado sottile, contro dado"),
    },
    standards=(
        Standard("ISO 4035", order="Hexagon thin nut ISO 4035 - {internal_thread} - {property_class?04}"),
        Standard("DIN 439-2", order="Hexagon thin nut DIN 439-2 - B {internal_thread} - {property_class?04}"),
        Standard(
            "DIN 439", rows="DIN 439-2", order="Hexagon thin nut DIN 439-2 - B {internal_thread} - {property_class?04}"
        ),
        Standard("DIN 936", order="Hexagon thin nut DIN 936 - {internal_thread} - {property_class?17H}"),
        Standard(
            "ISO 8675", rows="ISO 4035", order="Hexagon thin nut ISO 8675 - {internal_thread} - {property_class?04}"
        ),
        Standard("ISO 4036", rows="ISO 4035", order="Hexagon thin nut ISO 4036 - {internal_thread}"),
        Standard("UNI 5589", rows="DIN 439-2", order="Hexagon thin nut UNI 5589 - {internal_thread}"),
        Standard(
            "GB/T 6172", rows="ISO 4035", order="Hexagon thin nut GB/T 6172 - {internal_thread} - {property_class?04}"
        ),
    ),
    table="thin_nut",
    thread="internal_thread",
    plain_thread=True,
    layouts=_HEIGHT,
    labels=_LABELS,
    needs=("internal_thread",),
    identity=("internal_thread",),
    order="Hexagon thin nut ISO 4035 - {internal_thread} - {property_class?04}",
    question="Which thread has the nut?",
    refine=_thin_nut,
    kin=("lock nut (prevailing torque)", "square nut"),
    inch_order="Hex jam nut {internal_thread}",
    unless=words("lathe split leadscrew"),
    examples=(
        Example(
            "jam nut M4 A2",
            dimensions={"internal_thread": "M4", "across_flats": "7", "height": "2.2"},
            size_names="internal thread",
        ),
        Example("ISO 4035 - M8 - 04", dimensions={"internal_thread": "M8", "height": "4"}),
        Example("Kontermutter M6 DIN 439", dimensions={"internal_thread": "M6", "height": "3.2"}),
        Example("écrou bas Hm M5", dimensions={"internal_thread": "M5"}),
        Example("1/4-20 jam nut", dimensions={"internal_thread": "1/4-20 UNC"}),
    ),
    source="ISO 4035, DIN 439-2",
    mates=Mates(in_bore=False, on_shaft=False),
)


def _square(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Thin (DIN 562) or full (DIN 557): by the word, by the height in the line, else open."""
    for draft in drafts:
        if not draft.standards and facts.says(
            "thin", "flach", "flache", "bas", "plat", "fina", "basso", "sottile", "mince", "niedrig", "niedrige"
        ):
            draft.table_standard, draft.order_text = "DIN 562", _THIN_SQUARE
    return _open_height(family, facts, drafts)


_THIN_SQUARE = "Square thin nut DIN 562 - {internal_thread} - {property_class?04}"

SQUARE_NUT = Family(
    name="square nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases("square nut, square thin nut, thin square nut, sq nut, square nuts"),
        "de": phrases(
            "Vierkantmutter, Vierkant Mutter, 4kt Mutter, 4-kt Mutter, Vierkantmuttern, Vierkantmutter flach"
        ),
        "fr": phrases("écrou carré, écrous carrés, écrou carré plat, écrou carré bas"),
        "es": phrases("tuerca cuadrada, tuercas cuadradas, tuerca cuadrada fina"),
        "it": phrases("dado quadro, dadi quadri, dado quadrato, dado quadro basso"),
        "zh": phrases("fang luo mu, fangluomu"),
    },
    standards=(
        Standard("DIN 557", order="Square nut DIN 557 - {internal_thread} - {property_class?5}"),
        Standard("DIN 562", order=_THIN_SQUARE),
    ),
    table="square_nut",
    thread="internal_thread",
    plain_thread=True,
    layouts=(
        Layout(("across_flats", "height"), when=lambda v: v["across_flats"] > v["height"]),
        Layout(("height", "across_flats"), when=lambda v: v["across_flats"] > v["height"]),
        Layout(("height",), when=lambda v: "internal_thread" in v and v["height"] <= v["internal_thread"]),
        Layout(("across_flats",)),
        Layout(("across_flats", "-width", "height"), when=lambda v: v["across_flats"] == v["-width"] > v["height"]),
    ),
    labels=_LABELS,
    needs=("internal_thread",),
    identity=("internal_thread",),
    order="Square nut DIN 557 - {internal_thread} - {property_class?5}",
    question="Which thread has the nut?",
    refine=_square,
    unless=words("foot bar tube tubing root"),
    examples=(
        Example(
            "square nut M4 DIN 562",
            dimensions={"internal_thread": "M4", "across_flats": "7", "height": "2.2"},
            size_names="internal thread",
        ),
        Example("thin square nut M3", dimensions={"internal_thread": "M3", "height": "1.8"}),
        Example("Vierkantmutter DIN 557 M6", dimensions={"internal_thread": "M6", "height": "5"}),
        Example("écrou carré M5 8x2,7", dimensions={"internal_thread": "M5", "across_flats": "8", "height": "2.7"}),
    ),
    source="DIN 557, DIN 562",
    mates=Mates(in_bore=False, on_shaft=False),
)

CAP_NUT = Family(
    name="cap nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "cap nut, blind nut, acorn nut, dome nut, domed nut, domed cap nut, dome cap nut, blind nut cap, "
            "crown hex nut, hex cap nut, hex domed cap nut, acorn hex nut"
        ),
        "de": phrases("Hutmutter, Sechskant Hutmutter, Hutmuttern, Kappenmutter"),
        "fr": phrases("écrou borgne, écrous borgnes, écrou borgne hexagonal, écrou H borgne"),
        "es": phrases("tuerca ciega, tuerca de sombrerete, tuerca ciega hexagonal, tuerca bellota"),
        "it": phrases("dado cieco, dadi ciechi, dado a calotta, dado cieco esagonale, dado a cappello"),
    },
    standards=(
        Standard("DIN 1587", order="Domed cap nut DIN 1587 - {internal_thread} - {property_class?6}"),
        Standard("DIN 917", order="Cap nut DIN 917 - {internal_thread} - {property_class?6}"),
        Standard("DIN 986", order="Prevailing torque domed cap nut DIN 986 - {internal_thread} - {property_class?8}"),
        Standard("UNI 5721", rows="DIN 1587", order="Domed cap nut UNI 5721 - {internal_thread}"),
    ),
    table="cap_nut",
    thread="internal_thread",
    plain_thread=True,
    layouts=_HEIGHT,
    labels=_LABELS,
    needs=("internal_thread",),
    identity=("internal_thread",),
    order="Domed cap nut DIN 1587 - {internal_thread} - {property_class?6}",
    question="Which thread has the nut?",
    refine=_open_height,
    inch_order="Acorn nut {internal_thread}",
    examples=(
        Example(
            "cap nut M6 DIN 1587",
            dimensions={"internal_thread": "M6", "across_flats": "10", "height": "12"},
            size_names="internal thread",
        ),
        Example("Hutmutter M8 A2", dimensions={"internal_thread": "M8", "across_flats": "13"}),
        Example("écrou borgne M5 inox", dimensions={"internal_thread": "M5"}),
        Example("dado cieco M10", dimensions={"internal_thread": "M10"}),
    ),
    source="DIN 1587",
    mates=Mates(in_bore=False, on_shaft=False),
)

FLANGE_NUT = Family(
    name="flange nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "flange nut, flanged nut, hex flange nut, serrated flange nut, flanged hex nut, "
            "flange hex nut, whiz nut, nut with flange, nut flange, hexagon flange nut, "
            "hexagon nut flange"
        ),
        "de": phrases(
            "Flanschmutter, Bundmutter, Mutter Flansch, Sechskantmutter Flansch, Sperrzahnmutter, "
            "Mutter Bund, Sechskantmutter Bund, Flanschmuttern"
        ),
        "fr": phrases(
            "écrou à embase, écrou embase, écrou H embase, écrou hexagonal à embase, "
            "écrou à collerette, écrou embase crantée"
        ),
        "es": phrases(
            "tuerca con brida, tuerca brida, tuerca hexagonal con brida, tuerca con valona, "
            "tuerca con arandela estampada"
        ),
        "it": phrases("dado flangiato, dadi flangiati, dado con flangia, dado flangia, dado esagonale flangiato"),
    },
    standards=(
        Standard("DIN 6923", order="Hexagon flange nut DIN 6923 - {internal_thread} - {property_class?8}"),
        Standard("ISO 4161", order="Hexagon flange nut ISO 4161 - {internal_thread} - {property_class?8}"),
        Standard(
            "ISO 7043",
            rows="ISO 4161",
            order="Prevailing torque hexagon flange nut ISO 7043 - {internal_thread} - {property_class?8}",
        ),
        Standard(
            "DIN 6926",
            rows="DIN 6923",
            order="Prevailing torque hexagon flange nut DIN 6926 - {internal_thread} - {property_class?8}",
        ),
        Standard("DIN 6331", order="Hexagon nut with collar DIN 6331 - {internal_thread} - {property_class?10}"),
        Standard("UNI 5592", rows="DIN 6923", order="Hexagon flange nut UNI 5592 - {internal_thread}"),
    ),
    table="flange_nut",
    thread="internal_thread",
    plain_thread=True,
    layouts=_HEIGHT,
    labels={**_LABELS, "flange": "flange_diameter"},
    needs=("internal_thread",),
    identity=("internal_thread",),
    order="Hexagon flange nut ISO 4161 - {internal_thread} - {property_class?8}",
    question="Which thread has the nut?",
    refine=_open_height,
    kin=("lead screw nut", "lock nut (prevailing torque)", "T-slot nut"),
    inch_order="Hex flange nut {internal_thread}",
    words=words("serrated"),
    examples=(
        Example(
            "flange nut M5 DIN 6923",
            dimensions={"internal_thread": "M5", "across_flats": "8", "height": "5"},
            size_names="internal thread",
        ),
        Example("Flanschmutter M8 verzinkt", dimensions={"internal_thread": "M8", "across_flats": "13"}),
        Example("écrou à embase M6", dimensions={"internal_thread": "M6", "across_flats": "10"}),
        Example("dado flangiato M10 ISO 4161", dimensions={"internal_thread": "M10", "across_flats": "15"}),
    ),
    source="DIN 6923, ISO 4161",
    mates=Mates(in_bore=False, on_shaft=False),
)


def _wing(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    for draft in drafts:
        leave_standard_open(family, draft, "width", ask=False)
    return drafts


WING_NUT = Family(
    name="wing nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases("wing nut, wingnut, butterfly nut, thumb nut wing, wing nuts, fly nut"),
        "de": phrases("Flügelmutter, Flügel Mutter, Flügelmuttern"),
        "fr": phrases("écrou papillon, écrou à oreilles, écrou à ailettes, écrous papillon, écrou à ailes"),
        "es": phrases("tuerca mariposa, tuerca de mariposa, palomilla tuerca, tuerca palomilla, tuerca de orejas"),
        "it": phrases("dado ad alette, galletto, galletti, dado a farfalla, dado galletto, dado alette, dado farfalla"),
    },
    standards=(
        Standard("DIN 315", order="Wing nut DIN 315 - {internal_thread}"),
        Standard("DIN 314", order="Wing nut DIN 314 - {internal_thread}"),
        Standard("UNI 5448", rows="DIN 315", order="Wing nut UNI 5448 - {internal_thread}"),
    ),
    table="wing_nut",
    thread="internal_thread",
    plain_thread=True,
    layouts=(Layout(("width",)),),
    needs=("internal_thread",),
    identity=("internal_thread",),
    order="Wing nut DIN 315 - {internal_thread}",
    question="Which thread has the nut?",
    refine=_wing,
    kin=("wing screw", "knob"),
    unless=words("headphones shirt poster"),
    inch_order="Wing nut {internal_thread}",
    examples=(
        Example("wing nut M6 DIN 315", dimensions={"internal_thread": "M6"}, size_names="internal thread"),
        Example("Flügelmutter M8", dimensions={"internal_thread": "M8"}),
        Example("écrou papillon M5", dimensions={"internal_thread": "M5"}),
        Example("galletto M4 zincato", dimensions={"internal_thread": "M4"}),
    ),
    source="DIN 315, DIN 314",
    mates=Mates(in_bore=False, on_shaft=False),
)


def _coupling(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Doubt a length that the named standard does not have; other lengths are sold without a standard."""
    for draft in drafts:
        thread, length = thread_in(draft, "internal_thread"), draft.nominal("length")
        if thread is None or length is None:
            continue
        sizes = [size_in(row, "length") for row in rows_with(family, internal_thread=thread.designation)]
        if any(size is not None and size.nominal == length for size in sizes):
            continue
        if draft.standards and sizes:
            draft.doubts.append(f"{draft.standards[0]} has another length for {thread.designation}. Which one?")
        elif thread.system == "metric":
            draft.order_text = "Hexagon coupling nut {internal_thread} x {length}"
    return drafts


COUPLING_NUT = Family(
    name="coupling nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "coupling nut, long nut, rod coupling nut, connecting nut, extension nut, "
            "hex coupling nut, long hex nut, rod coupler nut, stud connector nut, joining nut, "
            "threaded rod connector, threaded rod coupler, threaded rod coupling, lengthening nut"
        ),
        "de": phrases(
            "Verbindungsmutter, Langmutter, Gewindemuffe, Sechskant Gewindemuffe, "
            "Verlängerungsmutter, Distanzmutter, Mutter lang, Sechskantmutter lang, "
            "Sechskantmutter 3D hoch, Gewindestangenverbinder, Sechskantmuffe"
        ),
        "fr": phrases(
            "manchon fileté, écrou long, écrou de jonction, écrou prolongateur, manchon taraudé, "
            "écrou manchon, manchon hexagonal taraudé, écrou de raccordement, écrou H long"
        ),
        "es": phrases(
            "tuerca larga, tuerca de unión, manguito roscado, tuerca de acoplamiento, "
            "tuerca hexagonal larga, manguito de unión roscado, tuerca de empalme, tuerca manguito"
        ),
        "it": phrases(
            "dado lungo, manicotto filettato, dado di giunzione, dado di collegamento, "
            "dado esagonale lungo, manicotto esagonale, dado manicotto, dado di prolunga"
        ),
    },
    standards=(Standard("DIN 6334", order="Hexagon coupling nut DIN 6334 - {internal_thread} x {length}"),),
    table="coupling_nut",
    thread="internal_thread",
    plain_thread=True,
    layouts=(
        Layout(("length",)),
        Layout(("across_flats", "length"), when=lambda v: v["across_flats"] < v["length"]),
        Layout(("length", "across_flats")),
    ),
    labels={"height": "length", "thickness": "length", "width": "across_flats"},
    needs=("internal_thread", "length"),
    identity=("internal_thread",),
    order="Hexagon coupling nut DIN 6334 - {internal_thread} x {length}",
    question="Which thread has the nut, and how long is it?",
    length_says="the length is three times the thread",
    refine=_coupling,
    unless=words("hose garden water pipe"),
    inch_order="Coupling nut {internal_thread} x {length} in",
    mates=Mates(in_bore=False, on_shaft=False),
    examples=(
        Example(
            "coupling nut M6x18 DIN 6334",
            dimensions={"internal_thread": "M6", "length": "18", "across_flats": "10"},
            size_names="internal thread",
        ),
        Example("Langmutter M10", dimensions={"internal_thread": "M10", "length": "30"}),
        Example("manchon fileté M8 x 30", dimensions={"internal_thread": "M8", "length": "30"}),
        Example("tuerca larga M12", dimensions={"internal_thread": "M12", "length": "36"}),
    ),
    source="DIN 6334",
)


def _knurled(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Give the standard's other sizes only where all that stands in the line agrees with one standard."""
    out = [draft for draft in drafts if _only_with_thread(draft)]
    for draft in out:
        if draft.standards:
            continue
        if draft.nominal("outer_diameter") is None and draft.nominal("height") is None:
            leave_standard_open(family, draft, "height")
            continue
        row_of_stated(family, draft, ("outer_diameter", "height"), {"DIN 467": _FLAT_KNURLED})
        draft.table_standard = draft.table_standard or NO_ROW
    return out


_FLAT_KNURLED = "Flat knurled nut DIN 467 - {internal_thread}"

KNURLED_NUT = Family(
    name="knurled nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": phrases(
            "knurled nut, knurled thumb nut, thumb nut, knurl nut, knurled nuts, thumbnut, round knurled nut"
        ),
        "de": phrases("Rändelmutter, Rändel Mutter, Rändelmuttern"),
        "fr": phrases("écrou moleté, écrous moletés, écrou à molette"),
        "es": phrases("tuerca moleteada, tuercas moleteadas, tuerca moleteado"),
        "it": phrases("dado zigrinato, dadi zigrinati, dado godronato, dado moleteato"),
    },
    standards=(
        Standard("DIN 466", order="Knurled nut DIN 466 - {internal_thread}"),
        Standard("DIN 467", order=_FLAT_KNURLED),
    ),
    table="knurled_nut",
    thread="internal_thread",
    layouts=(
        Layout(("outer_diameter",)),
        Layout(("height",), competes=True),
        Layout(("outer_diameter", "height"), when=lambda v: v["outer_diameter"] > v["height"]),
        Layout(("height", "outer_diameter")),
    ),
    labels={**_LABELS, "od": "outer_diameter", "width": "outer_diameter", "head": "outer_diameter"},
    needs=("internal_thread",),
    identity=("internal_thread",),
    order="Knurled nut DIN 466 - {internal_thread}",
    question="Which outside diameter and height has the nut?",
    refine=_knurled,
    kin=("heat-set insert", "press-in insert"),
    mates=Mates(in_bore=False, on_shaft=False),
    examples=(
        Example(
            "knurled nut M4 DIN 466",
            dimensions={"internal_thread": "M4", "outer_diameter": "16"},
            size_names="internal thread",
        ),
        Example("Rändelmutter DIN 467 M5", dimensions={"internal_thread": "M5", "height": "4"}),
        Example("knurled nut M3 Ø12 x 8", dimensions={"internal_thread": "M3", "outer_diameter": "12", "height": "8"}),
        Example("knurled nut M6x10", state="ambiguous", size_names="internal thread"),
    ),
    source="DIN 466, DIN 467",
)

FAMILIES = (THIN_NUT, SQUARE_NUT, CAP_NUT, FLANGE_NUT, WING_NUT, COUPLING_NUT, KNURLED_NUT)
