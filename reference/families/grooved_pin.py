"""Grooved pins: driven into a drilled hole, held by three rolled grooves; with or without a head.

The size is the body before grooving and the drilled hole (H11); over the grooves the pin is larger, so a reamed hole
jams it. The standard's number fixes the form of the grooves.

Source: ISO 8739 to ISO 8747 (table); hole class as in DIN 1469.
"""

from collections.abc import Mapping, Sequence

from reference.families.base import Example, Family, Layout, Mates, Standard, phrases
from reference.families.facts import Draft, Facts

_BY_WORD: Mapping[str, tuple[str, ...]] = {
    "ISO 8744": ("kegelkerbstift", "taper", "tapered", "conique"),
    "ISO 8745": ("passkerbstift",),
    "ISO 8741": ("steckkerbstift",),
    "ISO 8742": ("knebelkerbstift",),
    "ISO 8740": ("zylinderkerbstift",),
    "ISO 8746": ("halbrundkerbnagel",),
    "ISO 8747": ("senkkerbnagel",),
}
"""Standard -> the word that alone names its form. Source: titles of DIN 1471 to DIN 1477."""


def _form(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take the form from the words; without one it has to be confirmed."""
    for draft in drafts:
        if draft.standards:
            continue
        named = next((name for name, said in _BY_WORD.items() if facts.says(*said)), None)
        if named:
            draft.standards = (named,)
            draft.table_standard = named
            draft.order_text = f"Grooved pin {named} - {{hole_diameter}} x {{length}} - {{material?St}}"
            continue
        draft.table_standard = "ISO 8740"
        if not (facts.says("full", "ganzer", "toute") and facts.says("length", "lange", "longueur")):
            draft.asks.append("grooves over the full length (ISO 8740)")
    return drafts


def _standard(name: str, rows: str | None = None) -> Standard:
    return Standard(name, rows, order=f"Grooved pin {name} - {{hole_diameter}} x {{length}} - {{material?St}}")


FAMILY = Family(
    name="grooved pin",
    size_names="hole size",
    key="hole_diameter",
    nouns={
        "en": phrases(
            "grooved pin, groove pin, grooved dowel pin, grooved dowel, grooved taper pin, grooved parallel pin,"
            " grooved straight pin, grooved drive pin, grooved stud, grooved spring pin, taper grooved pin"
        ),
        "de": phrases(
            "Kerbstift, Zylinderkerbstift, Kegelkerbstift, Passkerbstift, Paßkerbstift, Steckkerbstift,"
            " Knebelkerbstift, Kerbnagel, Halbrundkerbnagel, Senkkerbnagel, Kerb Stift, Kerbnägel"
        ),
        "fr": phrases(
            "goupille cannelée, goupille à encoches, goupille rainurée, goupille cannelée conique, clou cannelé"
        ),
        "es": phrases("pasador estriado, pasador ranurado, pasador acanalado, pasador con ranuras, pasador entallado"),
        "it": phrases("spina intagliata, spina scanalata, spina con intagli, spina a intagli, spina zigrinata"),
    },
    standards=(
        _standard("ISO 8740"),
        _standard("DIN 1473", "ISO 8740"),
        _standard("ISO 8739"),
        _standard("DIN 1470", "ISO 8739"),
        _standard("ISO 8741"),
        _standard("DIN 1474", "ISO 8741"),
        _standard("ISO 8742"),
        _standard("DIN 1475", "ISO 8742"),
        _standard("ISO 8743"),
        _standard("ISO 8744"),
        _standard("DIN 1471", "ISO 8744"),
        _standard("ISO 8745"),
        _standard("DIN 1472", "ISO 8745"),
        _standard("ISO 8746"),
        _standard("DIN 1476", "ISO 8746"),
        _standard("ISO 8747"),
        _standard("DIN 1477", "ISO 8747"),
    ),
    table="grooved_pin",
    layouts=(
        Layout(("hole_diameter", "length"), when=lambda v: v["hole_diameter"] <= v["length"]),
        Layout(
            ("length", "hole_diameter"),
            when=lambda v: v["hole_diameter"] < v["length"],
            says="the larger number is the length",
        ),
        Layout(("hole_diameter",)),
    ),
    labels={"diameter": "hole_diameter", "od": "hole_diameter"},
    needs=("hole_diameter", "length"),
    identity=("hole_diameter",),
    order="Grooved pin ISO 8740 - {hole_diameter} x {length} - {material?St}",
    question="Which diameter has the grooved pin, and how long is it?",
    plain_m=True,
    refine=_form,
    uniform_length=True,
    examples=(
        Example(
            "Grooved pin ISO 8740 - 6 x 30 - St",
            dimensions={"hole_diameter": "6", "outer_diameter": "6", "length": "30"},
            size_names="hole size",
        ),
        Example("Kerbstift DIN 1474 5x24", dimensions={"hole_diameter": "5", "length": "24"}),
        Example("goupille cannelée 3 x 16", dimensions={"hole_diameter": "3", "length": "16"}),
        Example("Passkerbstift 8x40", dimensions={"hole_diameter": "8", "length": "40"}),
        Example("Kerbstift ISO 8740 4,5 x 20", state="ambiguous"),
    ),
    source="ISO 8739 to ISO 8747",
    mates=Mates(own_hole="H11"),
)
