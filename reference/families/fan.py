"""Fans and blowers: a code of width and thickness (4010 is 40 x 40 x 10), and the voltage.

Source: common practice (table of frames).
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import Code, Example, Family, Layout, Mates, phrases, words
from reference.families.facts import Draft, Facts
from reference.quantities import Limits

_WIDTHS, _THICKNESSES = range(15, 251), range(4, 61)


def _frame(groups: Mapping[str, str]) -> Draft | None:
    """Return width and thickness of a code of four or five figures."""
    width, thickness = int(groups["frame"][:-2]), int(groups["frame"][-2:])
    if width not in _WIDTHS or thickness not in _THICKNESSES or thickness > width:
        return None
    return Draft(
        "fan",
        "body size",
        "stated",
        {"width": Limits(Decimal(width)), "thickness": Limits(Decimal(thickness))},
    )


def _fan(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A blower's frame has other holes than an axial fan's."""
    blower = facts.says("blower", "radiallufter", "radial", "turbine", "turbina", "centrifugal", "radiallufters")
    for draft in drafts:
        draft.attributes.pop("series", None)
        if draft.dimensions.get("height") == draft.dimensions.get("width"):
            draft.dimensions.pop("height", None)
        elif "height" in draft.dimensions and not blower:
            draft.doubts.append("An axial fan is square. Which width and which thickness has it?")
        if blower:
            draft.attributes["form"] = "radial"
            draft.dimensions["hole_pitch"] = "of the maker"
        noun = "Blower" if blower else "Fan"
        volts = " {voltage}" if draft.rated("voltage") is not None else ""
        draft.order_text = f"{noun} {{width}} x {{width}} x {{thickness}}{volts}"
    return drafts


FAMILY = Family(
    name="fan",
    size_names="body size",
    key="width",
    nouns={
        "en": phrases(
            "fan, blower, cooling fan, axial fan, blower fan, radial fan, brushless fan, case fan, radial blower"
        ),
        "de": phrases("Lüfter, Ventilator, Radiallüfter, Axiallüfter, Gebläse, Lüfterrad, Gehäuselüfter"),
        "fr": phrases("ventilateur, turbine, ventilo, ventilateur axial, ventilateur radial"),
        "es": phrases("ventilador, turbina, ventilador axial, soplador, ventilador radial"),
        "it": phrases("ventola, ventilatore, ventola radiale, ventola assiale, ventoline"),
    },
    table="fan",
    codes=(
        Code(
            r"(?P<frame>[1-9][0-9]{3,4})(?! ?(?:rpm|u/min|tr|min|v|ma|mm))",
            decode=_frame,
            says="frame code: width, then thickness in two figures",
        ),
    ),
    ratings=("voltage", "current", "power", "speed"),
    layouts=(
        Layout(("width", "height", "thickness"), when=lambda v: v["thickness"] <= v["width"]),
        Layout(("width", "thickness"), when=lambda v: v["thickness"] < v["width"]),
        Layout(("width",)),
    ),
    labels={"diameter": "width", "height": "thickness", "depth": "thickness", "length": "thickness"},
    needs=("width", "thickness", "voltage"),
    identity=("width",),
    order="Fan {width} x {width} x {thickness} {voltage}",
    question="Which width, thickness and voltage has the fan?",
    refine=_fan,
    listed_sizes=False,
    unless=words("belt heater club ceiling table desk pedal coil art hand leaf snow mail shop coulter clutch"),
    examples=(
        Example("4010 fan 24V", dimensions={"width": "40", "thickness": "10"}, size_names="body size"),
        Example("Lüfter 60x60x15 mm 12 V", dimensions={"width": "60", "thickness": "15"}),
        Example("blower 5015 24V", dimensions={"width": "50", "thickness": "15"}),
        Example("ventilateur 120 x 25 12V", dimensions={"width": "120", "thickness": "25"}),
        Example("fan 24V", state="ambiguous"),
    ),
    mates=Mates(in_bore=False),
)
