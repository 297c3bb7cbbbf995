"""Bearings in housings and what holds shafts and screws: bearing blocks, linear blocks, shaft and screw supports.

The number in a designation is the shaft (SK10, KP08, SCS8UU) or a bore code (KP001 and UCP201 are 12 mm); of a screw
support it names the screw, and the journal in the floating side is smaller (BF12: 10 mm).

Source: makers' catalogues (tables).
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from reference.bearing_designations import FAMILIES as TABLES
from reference.bearing_designations import decode
from reference.families.base import Code, Example, Family, Layout, Mates, phrases, words
from reference.families.bearings import BESIDE_A_NOUN, listed_or_doubted
from reference.families.facts import Draft, Facts
from reference.quantities import Limits

_SUPPORT = re.compile(r"(?:bk|bf|fk|ff|ek|ef) ?-?\d{1,2}")


def _unit(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read a unit by its designation; a plain size names the shaft."""
    if facts.code is not None:
        return listed_or_doubted(family, facts, drafts)
    for draft in drafts:
        shaft = draft.dimensions.get("shaft_size", draft.dimensions.get("bore"))
        if isinstance(shaft, Limits):
            draft.dimensions["shaft_size"] = shaft
            if family.name != "linear bearing block":
                draft.dimensions["bore"] = shaft
            draft.asks.append("the size as the shaft, the kind (foot, flange) and its height left open")
    return drafts


def _pair(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """``BK12 + BF12``: the two sides of a screw take different journals, so each is a reading of its own."""
    sides = list(dict.fromkeys(_SUPPORT.findall(facts.code or "")))
    if len(sides) < 2:
        return _unit(family, facts, drafts)
    codes = [code for side in sides if (code := decode(side)) is not None and code.known]
    found: list[Draft] = []
    for code in codes:
        reading = drafts[0].copy(evidence="stated", dimensions=dict(code.dimensions))
        reading.attributes["series"] = code.designation
        reading.order_text = f"Screw support {code.designation}"
        reading.because.append((code.designation, f"journal {code.dimensions['bore'].nominal} mm", code.source))
        found.append(reading)
    if found:
        journals = " and ".join(f"{code.designation} for {code.dimensions['bore'].nominal} mm" for code in codes)
        found[0].doubts.append(f"Two supports with different journals ({journals}). Which journals has the screw?")
    return found or drafts


def _two_sides(groups: Mapping[str, str]) -> Draft | None:
    sides = [decode(side) for side in _SUPPORT.findall(groups["all"])]
    if len(sides) != 2 or not all(side is not None and side.known for side in sides):
        return None
    return Draft("screw support", "catalogue number", "stated")


def _family(name: str, nouns: Mapping[str, tuple[str, ...]]) -> Family:
    """Return the declaration of a unit with what all of them share."""
    return Family(
        name=name,
        size_names="shaft size",
        key="catalogue_number",
        nouns=nouns,
        table=TABLES[name],
        codes=BESIDE_A_NOUN,
        layouts=(Layout(("shaft_size",)),),
        labels={"bore": "shaft_size", "id": "shaft_size", "diameter": "shaft_size"},
        needs=("shaft_size",),
        identity=("shaft_size",),
        order=f"{name[0].upper()}{name[1:]} for a {{shaft_size}} mm shaft",
        question="For which shaft, and which designation?",
        refine=_unit,
        mates=Mates(for_shaft="shaft_size"),
        source="makers' catalogues",
    )


LINEAR_BLOCK = replace(
    _family(
        "linear bearing block",
        {
            "en": phrases(
                "linear bearing, linear ball bearing, linear motion, linear", "block, housing, pillow block, unit"
            )
            + phrases(
                "slide unit, linear slide block, linear slide unit, linear case unit, linear bearing pillow block"
            ),
            "de": phrases(
                "Linearlagergehäuse, Linearlager Gehäuse, Linearlagereinheit, Linear Gehäuselager, Lineareinheit"
            ),
            "fr": phrases("palier linéaire, palier à billes linéaire, bloc roulement linéaire"),
            "es": phrases(
                "soporte rodamiento lineal, bloque rodamiento lineal, rodamiento lineal soporte, bloque lineal"
            ),
            "it": phrases("supporto cuscinetto lineare, blocco cuscinetto lineare, unità lineare"),
        },
    ),
    kin=("linear ball bearing", "bearing block", "guide carriage"),
    examples=(
        Example("SCS8UU block", dimensions={"shaft_size": "8", "internal_thread": "M4"}, size_names="shaft size"),
        Example("Linearlager Gehäuse SCS10UU", dimensions={"shaft_size": "10"}),
        Example("SBR12UU", dimensions={"shaft_size": "12"}),
        Example("linear bearing block", state="ambiguous"),
    ),
)

BEARING_BLOCK = replace(
    _family(
        "bearing block",
        {
            "en": phrases(
                "pillow block, pillow bearing, pillow block bearing, plummer block, flange block, flange block bearing,"
                " bearing block, bearing housing, mounted bearing, flange bearing unit, bearing unit"
            ),
            "de": phrases(
                "Stehlager, Flanschlager, Gehäuselager, Lagerbock, Stehlagereinheit, Lagereinheit, Lagergehäuse"
            ),
            "fr": phrases("palier à semelle, palier applique, palier auto-aligneur, palier roulement, support palier"),
            "es": phrases(
                "chumacera, soporte de rodamiento, soporte con rodamiento, soporte de pie, soporte rodamiento"
            ),
            "it": phrases(
                "supporto ritto, supporto per cuscinetto, supporto con cuscinetto, supporto cuscinetto, supporto UCP"
            ),
        },
    ),
    kin=("linear bearing block", "screw support", "shaft support"),
    examples=(
        Example("KP08 pillow block", dimensions={"shaft_size": "8", "bore": "8"}, size_names="shaft size"),
        Example("Stehlager UCP204", dimensions={"shaft_size": "20"}),
        Example("KFL001 flange bearing 12mm", dimensions={"shaft_size": "12"}),
        Example("pillow block bearing 10 mm", dimensions={"shaft_size": "10"}),
        Example("pillow block", state="ambiguous"),
    ),
)

SHAFT_SUPPORT = replace(
    _family(
        "shaft support",
        {
            "en": phrases(
                "shaft, rod, linear shaft, linear rail, smooth rod, linear rod, rail", "support, holder, mount, clamp"
            )
            + phrases("rail shaft support, shaft support block, shaft end support"),
            "de": phrases("Wellenhalter, Wellenbock, Wellenbefestigung, Wellenauflage, Wellenklemme, Wellenstütze"),
            "fr": phrases("support d'arbre, support de tige, support arbre, support tige lisse, bride d'arbre"),
            "es": phrases("soporte de eje, soporte para varilla, soporte varilla, soporte eje lineal, soporte guía"),
            "it": phrases("supporto albero, supporto per albero, supporto barra, supporto guida"),
        },
    ),
    kin=("bearing block",),
    unless=words("curtain towel wardrobe handrail motor pump tool lamp camera"),
    examples=(
        Example("SHF8 shaft support", dimensions={"shaft_size": "8"}, size_names="shaft size"),
        Example("SK10", dimensions={"shaft_size": "10", "centre_height": "20"}),
        Example("Wellenhalter SK16", dimensions={"shaft_size": "16"}),
        Example("shaft support 12 mm", dimensions={"shaft_size": "12"}),
        Example("shaft support", state="ambiguous"),
    ),
)

SCREW_SUPPORT = replace(
    _family(
        "screw support",
        {
            "en": phrases(
                "ball screw, ballscrew, lead screw, leadscrew, screw", "support, end support, support unit, block"
            )
            + phrases("screw bearing support, fixed side support, floating side support, ball screw bearing block"),
            "de": phrases(
                "Spindellager, Festlager, Loslager, Spindelfestlager, Spindelloslager, Kugelgewindetrieb Lager"
            ),
            "fr": phrases("palier de vis, support de vis à billes, palier vis à billes, support vis"),
            "es": phrases("soporte de husillo, soporte husillo, soporte para husillo de bolas"),
            "it": phrases("supporto vite, supporto per vite a ricircolo, supporto vite a sfere"),
        },
    ),
    size_names="catalogue number",
    codes=(
        Code(
            r"(?:bk|fk|ek) ?-?\d{1,2} ?(?:\+|/|&|,|and|und|et|y|e) ?(?:bf|ff|ef) ?-?\d{1,2}",
            identifies=True,
            decode=_two_sides,
            says="the two supports of a screw",
        ),
        *BESIDE_A_NOUN,
    ),
    layouts=(Layout(("bore",)),),
    labels={"id": "bore", "diameter": "bore"},
    needs=("bore",),
    identity=("bore",),
    order="Screw support, journal {bore} mm",
    question="Which support (BK, BF, FK, FF and its number), and which journal has the screw?",
    refine=_pair,
    kin=("bearing block",),
    examples=(
        Example("BF12", dimensions={"bore": "10"}, size_names="catalogue number"),
        Example("BK12 ball screw support", dimensions={"bore": "12"}),
        Example("BK12 + BF12", state="ambiguous"),
        Example("Festlager BK15", dimensions={"bore": "15"}),
    ),
)

FAMILIES = (LINEAR_BLOCK, BEARING_BLOCK, SHAFT_SUPPORT, SCREW_SUPPORT)
