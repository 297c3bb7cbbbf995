"""Aluminium profiles with slots, named by their section: 2040 is 20 x 40 mm. The slot is not fixed by the number.

Source: makers' catalogues (table).
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Code, Example, Family, phrases, words
from reference.families.facts import Draft, Facts
from reference.quantities import Limits

_SECTION = r"(?P<width>15|20|25|30|40|45|50|60|80)(?: ?[x*] ?)?(?P<height>15|20|25|30|40|45|50|60|80|90|160)"
_SLOTS = frozenset(map(Decimal, ("5", "6", "6.2", "8", "8.2", "10")))
"""Slot widths that profiles are sold with [mm]."""
_LEAST_LENGTH = Decimal(12)


def _profile(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """The section stands in the code; a small number is the slot, a large one the length."""
    match = re.search(_SECTION, facts.code or "")
    draft = drafts[0]
    numbers = facts.unplaced(draft)
    if match is None:
        draft.doubts.append(family.question)
        return [draft]
    draft.dimensions |= {"width": Limits(Decimal(match["width"])), "height": Limits(Decimal(match["height"]))}
    draft.attributes["series"] = match["width"] + match["height"]
    draft.evidence = "stated"
    for number in numbers:
        slot = number.value in _SLOTS or (number.label == "slot" and number.value <= _LEAST_LENGTH)
        key = "slot_width" if slot else "length"
        if key == "length" and number.value <= _LEAST_LENGTH:
            continue
        if key not in draft.dimensions:
            draft.give(key, number.value, number.text, key.replace("_", " "), COMMON_PRACTICE)
            draft.drop(number)
    if facts.says("v") and "vslot" in facts.line.lower().replace("-", "").replace(" ", ""):
        draft.attributes["slot"] = "V"
    elif "slot_width" not in draft.dimensions:
        draft.asks.append("the slot width left open")
    width, length = draft.nominal("slot_width"), draft.nominal("length")
    draft.order_text = f"Aluminium profile {draft.attributes['series']}"
    draft.order_text += f", slot {width.normalize():f} mm" if width is not None else ""
    draft.order_text += ", v-slot" if draft.attributes.get("slot") == "V" else ""
    draft.order_text += f", length {length.normalize():f} mm" if length is not None else ""
    return [draft]


def _listed(groups: Mapping[str, str]) -> Draft | None:
    """Accept two sides that make a section: the second is as large as the first or a multiple of it."""
    width, height = int(groups["width"]), int(groups["height"])
    return Draft("profile", "section", "stated") if height % width == 0 or width % height == 0 else None


PROFILE = Family(
    name="profile",
    size_names="section",
    key="catalogue_number",
    nouns={
        "en": phrases("aluminium, aluminum, alu", "profile, extrusion, extruded profile, t slot profile")
        + phrases(
            "extrusion, v slot, t slot extrusion, extruded aluminium, t slot profile,"
            " slotted profile, profile rail slot"
        ),
        "de": phrases(
            "Aluprofil, Aluminiumprofil, Konstruktionsprofil, Nutprofil, Strebenprofil, Alu Profil, Profil Nut"
        )
        + phrases("Aluprofil, Aluminiumprofil, Konstruktionsprofil, Profil, Strebenprofil, Alu Profil", "Nut"),
        "fr": phrases("profilé alu, profilé aluminium, profilé, profilé rainuré"),
        "es": phrases("perfil de aluminio, perfil aluminio, perfil V slot, perfil ranurado, perfil extruido"),
        "it": phrases(
            "profilo alluminio, profilato alluminio, profilo di alluminio, profilato, profilo V slot, profilo estruso"
        ),
        "zh": phrases("lvxingcai, xingcai"),
    },
    table="aluminium_profile",
    codes=(
        Code(rf"(?:profile|profil|profilé|perfil|profilo) {_SECTION}", identifies=True, decode=_listed),
        Code(rf"{_SECTION} (?:profile|profil|perfil|profilo)", identifies=True, decode=_listed),
        Code(_SECTION, decode=_listed, says="the section of a profile"),
    ),
    labels={"slot": "-", "width": "-", "height": "-", "thickness": "-", "depth": "-", "hole": "-", "diameter": "-"},
    needs=("width", "height", "length"),
    order="Aluminium profile",
    question="Which section (2020, 2040) and length?",
    refine=_profile,
    kin=("T-slot nut",),
    unless=words(
        "nuts muttern bracket corner connector wheel wheels led diffuser picture end caps screw gabled cap cover"
    ),
    examples=(
        Example(
            "2020 extrusion 400mm, 6mm slot",
            dimensions={"width": "20", "height": "20", "length": "400", "slot_width": "6"},
            size_names="section",
        ),
        Example("profilé alu 2040 600 mm", dimensions={"width": "20", "height": "40", "length": "600"}),
        Example("v-slot 2060, cut 310", dimensions={"width": "20", "height": "60", "length": "310"}),
        Example("Aluprofil 30x30 Nut 8 1000 mm", dimensions={"width": "30", "slot_width": "8", "length": "1000"}),
        Example("aluminium extrusion 500 mm", state="ambiguous"),
    ),
    source="makers' catalogues",
)

FAMILIES = (PROFILE,)
