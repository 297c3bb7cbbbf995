"""Shim rings: inside x outside x thickness, the inside first.

Source: DIN 988 (table).
"""

from collections.abc import Sequence

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, Standard, phrases, words
from reference.families.facts import Draft, Facts
from reference.quantities import ThreadSize


def _on_screw(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """``M5 shim``: the ring goes over an M5 screw and is close to its diameter inside."""
    for draft in drafts:
        screw = draft.dimensions.get("screw_size")
        if isinstance(screw, ThreadSize):
            draft.size_names = "screw size"
            if "bore" not in draft.dimensions:
                draft.give("bore", screw.diameter, screw.designation, "the ring takes this screw", COMMON_PRACTICE)
            draft.order_text = "Shim ring DIN 988 - {bore} x {outer_diameter} x {thickness}"
    return drafts


FAMILY = Family(
    name="shim",
    size_names="bore",
    key="bore",
    nouns={
        "en": phrases(
            "shim, shim ring, shim washer, shims, adjusting washer, support ring, supporting ring, spacer shim"
        ),
        "de": phrases(
            "Passscheibe, Paßscheibe, Ausgleichsscheibe, Stützscheibe, Distanzscheibe, Pass Scheibe, Einstellscheibe"
        ),
        "fr": phrases(
            "rondelle de réglage, cale de réglage, rondelle d'ajustage, rondelle d'épaisseur, cale d'épaisseur"
        ),
        "es": phrases(
            "arandela de ajuste, arandela de calibración, arandela espaciadora, galga de ajuste, arandela de reglaje"
        ),
        "it": phrases(
            "rosetta di spessore, anello di spessore, rondella di spessore, rasamento, rondella di rasamento"
        ),
    },
    standards=(Standard("DIN 988"),),
    table="shim",
    thread="screw_size",
    layouts=(
        Layout(
            ("bore", "outer_diameter", "thickness"),
            when=lambda v: v["bore"] < v["outer_diameter"] and v["thickness"] < v["bore"],
            says="inside, outside, thickness",
        ),
        Layout(
            ("outer_diameter", "bore", "thickness"),
            when=lambda v: v["bore"] < v["outer_diameter"] and v["thickness"] < v["bore"],
            says="the smaller diameter is the inside",
            size_names="outer diameter",
        ),
        Layout(
            ("outer_diameter", "thickness"), when=lambda v: "screw_size" in v and v["thickness"] < v["outer_diameter"]
        ),
        Layout(("thickness", "outer_diameter"), when=lambda v: "screw_size" in v),
        Layout(("bore", "outer_diameter"), when=lambda v: v["bore"] < v["outer_diameter"]),
        Layout(("outer_diameter", "bore"), when=lambda v: v["bore"] < v["outer_diameter"], size_names="outer diameter"),
        Layout(("thickness",)),
    ),
    labels={"hole": "bore", "shaft": "bore", "height": "thickness", "length": "thickness", "width": "thickness"},
    needs=("bore", "outer_diameter", "thickness"),
    identity=("bore|screw_size", "outer_diameter|thickness"),
    order="Shim ring DIN 988 - {bore} x {outer_diameter} x {thickness}",
    question="Which inside diameter, outside diameter and thickness has the shim?",
    refine=_on_screw,
    listed_sizes=False,
    unless=words("stock sheet foil plate tape roll coil gap"),
    examples=(
        Example(
            "Shim ring DIN 988 - 10 x 16 x 0.5",
            dimensions={"bore": "10", "outer_diameter": "16", "thickness": "0.5"},
            size_names="bore",
        ),
        Example("Passscheiben 6x12x0,2", dimensions={"bore": "6", "outer_diameter": "12", "thickness": "0.2"}),
        Example("M5 x 1mm shim, OD 10", dimensions={"screw_size": "M5", "thickness": "1"}, size_names="screw size"),
        Example("rondelle de réglage 12 x 18 x 0,3", dimensions={"bore": "12"}),
        Example("shim 0.2", state="ambiguous"),
    ),
    source="DIN 988",
)
