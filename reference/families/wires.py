"""Wire and cable by area or gauge, and cable ties.

A plain number before ``wire`` may be the area of the copper or the diameter. A gauge runs the other way: a higher
number
is a thinner wire.

Sources: ASTM B258 (table of gauges); the rest common practice.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, phrases, words
from reference.families.facts import Draft, Facts, Number
from reference.families.rules import shown
from reference.families.tubes import give_length, sizes_and_lengths
from reference.quantities import Limits, Rating
from reference.sizes import size_table

_SOLID = (
    "draht",
    "alambre",
    "enamelled",
    "enameled",
    "kupferlackdraht",
    "lackdraht",
    "nichrome",
    "piano",
    "federdraht",
    "magnet",
)
_STRANDED = ("litze", "schaltlitze", "silikonlitze", "aderleitung", "hookup", "stranded")
_METALS = frozenset({"steel", "stainless steel", "brass", "titanium", "304", "316"})


def _gauge(groups: Mapping[str, str]) -> Draft | None:
    number = groups.get("gauge") or groups["gauge_before"]
    row = next((row for row in size_table("wire_gauge", "wire_diameter").rows if row.size == number), None)
    area = row.dimensions.get("area") if row else None
    if row is None or not isinstance(area, Limits):
        return None
    draft = Draft(
        "wire",
        "gauge number",
        "stated",
        {},
        {"series": f"AWG{number}", "wire_area": shown(area.nominal.quantize(Decimal("0.001")))},
    )
    draft.rate(
        "area", Rating(area.nominal, "mm2"), f"AWG {number}", f"gauge {number} has {area.nominal} mm2", row.source
    )
    return draft


def _wire(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take area, cores and length; a plain number is a diameter for solid wire, else open."""
    return [item for draft in drafts for item in _read(draft, facts)]


def _read(draft: Draft, facts: Facts) -> list[Draft]:
    sizes, lengths = sizes_and_lengths(draft)
    area = draft.rated("area")
    if "series" in draft.attributes and draft.attributes["series"].startswith("AWG"):
        draft.order_text = "Wire {series}"
    elif area is not None:
        draft.size_names = "cross section area"
        draft.attributes["wire_area"] = shown(area)
        draft.order_text = "Wire {area}"
    open_size = area is None and draft.order_text is None
    give_length(draft, sizes, lengths, Decimal(40))
    if not open_size:
        cores = next(
            (size for size in sizes if size.unit == "" and size.plain == int(size.plain) and size.plain <= 60), None
        )
        if cores is not None:
            draft.attributes["cores"] = shown(cores.plain)
            draft.because.append((cores.text, "number of cores", COMMON_PRACTICE))
            sizes.remove(cores)
    elif len(sizes) == 1 and "wire_diameter" not in draft.dimensions:
        return _plain_size(draft, facts, sizes[0])
    draft.rest += sizes
    return [draft]


def _plain_size(draft: Draft, facts: Facts, size: Number) -> list[Draft]:
    """``0.5 wire``: area or diameter."""
    by_diameter = draft.copy(size_names="wire diameter", order_text="Solid wire, diameter {wire_diameter}")
    by_diameter.dimensions["wire_diameter"] = Limits(size.value)
    stranded = facts.says(*_STRANDED)
    if facts.says(*_SOLID) or (draft.attributes.get("material") in _METALS and not stranded):
        return [by_diameter]
    by_area = draft.copy(size_names="cross section area", evidence="assumed", order_text="Wire {area}")
    by_area.rate("area", Rating(size.plain, "mm2"), size.text, "area in mm2", COMMON_PRACTICE)
    by_area.attributes["wire_area"] = shown(size.plain)
    if stranded:
        by_area.evidence = "implied"
        by_area.asks.append(f"{size.text} mm2 as the area")
        return [by_area]
    by_diameter.evidence = "assumed"
    by_area.doubts.append(f"Is {size.text} the area in mm2 or the diameter?")
    return [by_area, by_diameter]


WIRE = Family(
    name="wire",
    size_names="cross section area",
    key="wire_diameter",
    nouns={
        "en": phrases(
            "wire, cable, stranded wire, hookup wire, hook up wire, electric wire, silicone wire, copper wire"
        ),
        "de": phrases(
            "Litze, Kabel, Draht, Leitung, Schaltlitze, Aderleitung, Kupferlackdraht, Schaltdraht, Silikonlitze"
        ),
        "fr": phrases("fil, câble, fil électrique, fil souple, câble électrique, fil de cuivre"),
        "es": phrases("cable, hilo, alambre, cable eléctrico, hilo eléctrico, cable unipolar"),
        "it": phrases("cavo, filo, filo elettrico, cavo elettrico, cavetto"),
    },
    codes=(
        Code(
            r"awg[ #-]?(?P<gauge>[0-9]{1,2}(?:/0)?)|(?P<gauge_before>[0-9]{1,2}(?:/0)?)[ -]?(?:awg|gauge|ga)",
            identifies=True,
            decode=_gauge,
            says="an American wire gauge",
            source="ASTM B258",
        ),
        Code(
            r"h0[357][a-z0-9]{1,7}(?:-[a-z])?(?= )",
            identifies=True,
            decode=lambda groups: Draft("wire", "", "", attributes={"series": groups["all"].upper()}),
            says="a harmonised cable type",
            source="HD 361",
        ),
    ),
    ratings=("area",),
    labels={"wire": "-", "diameter": "wire_diameter", "od": "outer_diameter"},
    needs=("area|wire_diameter",),
    identity=("area|wire_diameter",),
    order="Wire {area}",
    question="Which area (mm2) or gauge has the wire?",
    refine=_wire,
    yields=True,
    unless=words(
        "brush fence mesh rope stripper strippers cutter cutters bra ferrule usb hdmi ethernet lan network charging"
        " data crimper"
        " gun hanger chain duct tray drag mouse tv printer jumper dupont clip holder channel rj"
    ),
    examples=(
        Example("wire 1.5mm2 black 25 m", dimensions={"length": "25000"}, size_names="cross section area"),
        Example("AWG24 hookup wire 10m", dimensions={"length": "10000"}, size_names="gauge number"),
        Example("Litze 0,25 mm² rot", size_names="cross section area"),
        Example("Kupferlackdraht 0,5 mm", dimensions={"wire_diameter": "0.5"}, size_names="wire diameter"),
        Example("0.5 wire", state="ambiguous"),
    ),
    source="ASTM B258; common practice",
)


def _tie(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A tie named by one number is named by its length."""
    for draft in drafts:
        if "width" not in draft.dimensions:
            draft.size_names = "length"
            draft.order_text = "Cable tie, length {length}"
    return drafts


CABLE_TIE = Family(
    name="cable tie",
    size_names="width",
    key="width",
    nouns={
        "en": phrases(
            "cable tie, zip tie, tie wrap, wire tie, ziptie, cable ties, tywrap, ty rap, nylon tie, plastic tie"
        ),
        "de": phrases("Kabelbinder, Kabel Binder, Ratschenband"),
        "fr": phrases(
            "collier rilsan, serre-câble, collier de câblage, attache-câble, collier nylon, collier plastique,"
            " rilsan, colson,"
            " collier de serrage nylon, collier de serrage plastique, serre câble, collier colson"
        ),
        "es": phrases(
            "brida, bridas, brida nylon, brida de plástico, abrazadera nylon, abrazadera plástica, precinto,"
            " sujetacables"
        ),
        "it": phrases(
            "fascetta, fascette, fascetta nylon, fascetta plastica, fascetta elettricista, fascetta cablaggio"
        ),
    },
    layouts=(
        Layout(("width", "length"), when=lambda v: v["width"] < v["length"]),
        Layout(("length", "width"), when=lambda v: v["width"] < v["length"], says="the larger number is the length"),
        Layout(("length",), when=lambda v: v["length"] >= 40),
        Layout(("width",)),
    ),
    labels={"flange": "-", "diameter": "-", "height": "length"},
    needs=("width", "length"),
    identity=("length",),
    order="Cable tie {width} x {length}",
    question="Which width and which length has the cable tie?",
    refine=_tie,
    unless=words("mount base gun saw"),
    examples=(
        Example("cable tie 3.6x200 black", dimensions={"width": "3.6", "length": "200"}, size_names="width"),
        Example("Kabelbinder 4,8 x 300, 100 Stk", dimensions={"width": "4.8", "length": "300"}),
        Example("zip ties 200mm", dimensions={"length": "200"}, size_names="length"),
        Example("bridas 2,5 x 100", dimensions={"width": "2.5", "length": "100"}),
        Example("cable ties", state="ambiguous"),
    ),
)

FAMILIES = (WIRE, CABLE_TIE)
