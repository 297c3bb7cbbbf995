"""Plain washers. The size names the screw that the washer takes; some lines name the hole instead (``DIN 125 A 5,3``).

Sources: ISO 7089, ISO 7090, ISO 7091, ISO 7092, DIN 125, DIN 433 (tables).
"""

from collections.abc import Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, Mates, Standard, words
from reference.families.facts import Draft, Facts, Number
from reference.families.rules import NO_ROW
from reference.families.screws import screw_name
from reference.quantities import Dimension, Limits, ThreadSize
from reference.words import MM_PER_INCH

WASHER_LAYOUTS = (
    Layout(
        ("bore", "outer_diameter", "thickness"),
        when=lambda v: v["bore"] < v["outer_diameter"] > v["thickness"],
        says="inside x outside x thickness",
    ),
    Layout(
        ("outer_diameter", "bore", "thickness"),
        when=lambda v: v["bore"] < v["outer_diameter"],
        says="the smaller diameter is inside",
    ),
    Layout(("outer_diameter", "thickness"), when=lambda v: v["outer_diameter"] > v["thickness"]),
    Layout(("bore", "outer_diameter"), when=lambda v: v["bore"] < v["outer_diameter"]),
    Layout(("outer_diameter",), when=lambda v: "screw_size" in v and v["outer_diameter"] > v["screw_size"] + 1),
    Layout(("thickness",), when=lambda v: "screw_size" in v and v["thickness"] < v["screw_size"]),
    Layout(("size",)),
)


def _for_inch_screw(draft: Draft, facts: Facts, size: Dimension | None, number: str | None) -> None:
    """``washer 1/4``, ``#8 washer``: the size names the inch screw; the hole is larger."""
    if number is not None:
        text = f"#{number}"
        diameter = (Decimal("0.060") + Decimal("0.013") * int(number)) * MM_PER_INCH if number.isdigit() else Decimal(0)
    else:
        text = next((part.text for chain in facts.chains for part in chain if isinstance(part, Number)), "")
        diameter = size.nominal if isinstance(size, Limits) else Decimal(0)
    name = text.removesuffix('"').removesuffix("in").strip()
    draft.dimensions["screw_size"] = ThreadSize(name, diameter, None, "unified")
    draft.because.append((text, "the size names the screw that it takes", "ASME B18.21.1"))
    draft.table_standard = NO_ROW


def read_washer(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A lone number is the hole where a washer has such a hole (5,3), else the screw it takes (ISO 7089 - 6)."""
    out: list[Draft] = []
    for draft in drafts:
        size = draft.dimensions.pop("size", None)
        sizes = family.sizes
        number = facts.attributes.get("number size")
        if number is not None or (isinstance(size, Limits) and facts.inches):
            _for_inch_screw(draft, facts, size, number)
        elif isinstance(size, Limits) and sizes is not None:
            nominal = size.nominal
            hole = next(
                (
                    row
                    for row in sizes.rows
                    if isinstance(bore := row.dimensions.get("bore"), Limits) and bore.nominal == nominal
                ),
                None,
            )
            screw = sizes.find(f"M{nominal.normalize():f}")
            if screw is not None:
                draft.dimensions["screw_size"] = screw.dimensions["screw_size"]
                draft.because.append(
                    (
                        f"{nominal.normalize():f}",
                        "the size names the screw that it takes",
                        draft.standards[0] if draft.standards else COMMON_PRACTICE,
                    )
                )
            elif hole is not None:
                draft.dimensions["screw_size"] = hole.dimensions["screw_size"]
                draft.dimensions["bore"] = size
                draft.size_names = "bore"
                draft.because.append(
                    (f"{nominal.normalize():f}", f"the hole of the washer for {hole.size}", hole.source)
                )
            else:
                draft.dimensions["bore"] = size
        screw_size, outer = draft.dimensions.get("screw_size"), draft.dimensions.get("outer_diameter")
        if isinstance(screw_size, ThreadSize) and isinstance(outer, Limits) and sizes is not None:
            least = min(
                (
                    o.nominal
                    for row in sizes.by_key.get(screw_size.designation, ())
                    if isinstance(o := row.dimensions.get("outer_diameter"), Limits)
                ),
                default=Decimal("1.6") * screw_size.diameter,
            )
            if outer.nominal < least:
                draft.doubts.append(
                    f"A washer for {screw_size.designation} is at least {least} mm outside. Is this a ring with a hole"
                    f" of {screw_size.diameter} mm?"
                )
        if "screw_size" not in draft.dimensions and "bore" in draft.dimensions:
            draft.size_names = "bore"
        out.append(draft)
    return out


PLAIN_WASHER = Family(
    name="plain washer",
    size_names="screw size",
    key="screw_size",
    nouns={
        "en": screw_name("washer, flat washer, plain washer, form a washer, thin washer, small washer"),
        "de": screw_name("Scheibe, Unterlegscheibe, U-Scheibe, Beilagscheibe, Unterlagscheibe, Unterlegscheiben"),
        "fr": screw_name("rondelle, rondelle plate, rondelle M, rondelles plates"),
        "es": screw_name("arandela, arandela plana"),
        "it": screw_name("rosetta, rosetta piana, rondella, rondella piana, rosette"),
    },
    standards=(
        Standard("ISO 7089"),
        Standard("DIN 125", order="Washer DIN 125 - A {bore} - {hardness?140 HV}"),
        Standard("ISO 7090", order="Washer ISO 7090 - {screw_size_number} - {hardness?200 HV}"),
        Standard("ISO 7091"),
        Standard("ISO 7092"),
        Standard("DIN 433", rows="DIN 433", order="Washer DIN 433 - {bore} - {hardness?140 HV}"),
        Standard("DIN 126", rows="ISO 7091"),
        Standard("UNI 6592", rows="ISO 7089"),
        Standard("GB/T 97.1", rows="ISO 7089"),
        Standard("GB/T 97", rows="ISO 7089"),
    ),
    table="plain_washer",
    thread="screw_size",
    layouts=WASHER_LAYOUTS,
    labels={
        "diameter": "outer_diameter",
        "height": "thickness",
        "hole": "bore",
        "width": "outer_diameter",
        "thread": "-",
    },
    needs=("screw_size|bore",),
    identity=("screw_size|bore",),
    order="Washer ISO 7089 - {screw_size_number} - {hardness?200 HV}",
    question="For which screw is the washer?",
    refine=read_washer,
    unless=words(
        "fluid dish jet vegetable sealing bonded countersunk cup finishing square thrust crush bevel taper dowty"
    ),
    inch_order="Flat washer ASME B18.21.1 for {screw_size}",
    kin=("large washer", "spring washer", "toothed lock washer", "disc spring", "shim"),
    words=frozenset({"id", "od"}),
    examples=(
        Example(
            "ISO 7089 - 6 - 200 HV",
            dimensions={"screw_size": "M6", "bore": "6.4", "outer_diameter": "12"},
            size_names="screw size",
        ),
        Example("Scheibe DIN 125 A 5,3", dimensions={"bore": "5.3", "outer_diameter": "10"}, size_names="bore"),
        Example("M5 washer", dimensions={"screw_size": "M5", "bore": "5.3"}),
        Example("thin washer M6*8*0.5 copper", state="ambiguous"),
    ),
    source="ISO 7089",
    mates=Mates(in_bore=False, on_shaft=False),
)

FAMILY = PLAIN_WASHER
