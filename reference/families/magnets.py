"""Magnets: discs, rods and rings, blocks, pot magnets.

A round magnet is named by its diameter first. Three plain numbers of a ring leave open which is the hole: sellers swap
hole and thickness. A magnet for an encoder must be magnetised across (diametric), which a line seldom says.

Source: common practice.
"""

from collections.abc import Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Example, Family, Layout, phrases, words
from reference.families.facts import Draft, Facts

_RING = ("ring", "rings", "ringmagnet", "anneau", "annulaire", "anillo", "anello", "annular", "donut", "hohlzylinder")
_HOLED = (*_RING, "hole", "loch", "trou", "agujero", "foro")
_ACROSS = ("diametric", "diametrically", "diametral", "diametrale", "diametralement", "diametralmente", "radial")
_ALONG = ("axial", "axially", "axiale", "axialmente")
_ENCODER = ("encoder", "drehgeber", "codeur", "codificador")


def _magnetised(draft: Draft, facts: Facts) -> None:
    if facts.says(*_ACROSS):
        draft.attributes["magnetisation"] = "diametric"
    elif facts.says(*_ALONG):
        draft.attributes["magnetisation"] = "axial"
    elif facts.says(*_ENCODER):
        draft.doubts.append("Is the magnet magnetised across its diameter, as an encoder needs, or along its axis?")


def _round(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Three plain numbers are a block, or a ring with its hole and thickness in either order."""
    out: list[Draft] = []
    for draft in drafts:
        _magnetised(draft, facts)
        height = next((item for item in facts.classes if item.name[0] == "h"), None)
        if height is not None and "thickness" not in draft.dimensions:  # D12 h4
            facts.classes.remove(height)
            draft.give(
                "thickness", Decimal(height.name[1:]), height.text, "height; a magnet has no class", COMMON_PRACTICE
            )
        if "bore" in draft.dimensions:
            draft.order_text = "Ring magnet, OD {outer_diameter}, hole {bore}, thickness {thickness}, {grade?N35}"
        out.append(draft)
        second, third = draft.dimensions.get("second"), draft.dimensions.get("third")
        if second is None or third is None:
            continue
        outer = draft.dimensions["outer_diameter"]
        others = {k: v for k, v in draft.dimensions.items() if k not in {"outer_diameter", "second", "third"}}
        draft.because = [item for item in draft.because if item[1] not in {"outer diameter", "second", "third"}]
        if facts.says(*_HOLED):
            swapped = draft.copy(
                evidence="assumed", dimensions={"outer_diameter": outer, "bore": third, "thickness": second}
            )
            draft.dimensions = {"outer_diameter": outer, "bore": second, "thickness": third}
            draft.because.append(("ring", "outside, hole, thickness", COMMON_PRACTICE))
            swapped.because.append(("ring", "sellers swap hole and thickness", COMMON_PRACTICE))
            swapped.dimensions |= others
            out.append(swapped)
        else:
            draft.family, draft.size_names = "magnet block", "length"
            draft.dimensions = {"length": outer, "width": second, "thickness": third}
            draft.because.append(("three numbers", "length, width and thickness of a block", COMMON_PRACTICE))
        draft.dimensions |= others
    return out


_BLOCK_LABELS = {"height": "thickness", "depth": "thickness", "hole": "bore"}

MAGNET = Family(
    name="magnet",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "magnet, neodymium magnet, rare earth magnet, disc magnet, disk magnet, rod magnet, cylinder magnet,"
            " ring magnet,"
            " round magnet, countersunk magnet, magnet countersunk hole, neodymium disc, neodymium ring, neodymium"
            " disk,"
            " countersunk ring magnet, neodymium countersunk"
        ),
        "de": phrases(
            "Magnet, Scheibenmagnet, Stabmagnet, Neodymmagnet, Zylindermagnet, Rundmagnet, Ringmagnet, Magnetscheibe,"
            " Magnetring, Rundstabmagnet, Magnet Senkloch, Magnet Senkbohrung, Senkmagnet, Magnet gesenkt, Supermagnet"
        ),
        "fr": phrases(
            "aimant, aimant néodyme, aimant disque, aimant rond, aimant cylindrique, aimant anneau, aimant fraisé,"
            " aimant trou fraisé, aimant tête fraisée"
        ),
        "es": phrases("imán, imán neodimio, imán de disco, imán cilíndrico, imán anillo, imán avellanado, imanes"),
        "it": phrases("magnete, calamita, magnete neodimio, magnete a disco, magnete ad anello, magnete svasato"),
    },
    thread="screw_size",
    layouts=(
        Layout(("outer_diameter", "second", "third")),
        Layout(("outer_diameter", "thickness"), says="diameter first"),
        Layout(("bore", "thickness"), when=lambda v: v["bore"] < v["outer_diameter"]),
        Layout(("outer_diameter",)),
        Layout(("thickness",)),
    ),
    labels={"height": "thickness", "length": "thickness", "depth": "thickness", "hole": "bore", "id": "bore"},
    needs=("outer_diameter", "thickness"),
    identity=("outer_diameter", "thickness"),
    order="Magnet disc, diameter {outer_diameter} x {thickness}, {grade?N35}",
    question="Which diameter and which thickness has the magnet?",
    refine=_round,
    unless=words("wire tape sheet bracelet fridge toy strip school contact whiteboard kuhlschrank frigo nevera valve"),
    words=frozenset({"diametric", "axial", "encoder"}),
    examples=(
        Example(
            "8x3 mm N45 disc magnet",
            dimensions={"outer_diameter": "8", "thickness": "3"},
            size_names="outer diameter",
        ),
        Example("Neodym Magnet Ø12 x 4, 20 Stk", dimensions={"outer_diameter": "12", "thickness": "4"}),
        Example("diametric magnet 6x2.5 for encoder", dimensions={"outer_diameter": "6", "thickness": "2.5"}),
        Example("ring magnet OD 20 hole 10 x 5", dimensions={"outer_diameter": "20", "bore": "10", "thickness": "5"}),
        Example("imán de neodimio 15 x 3", dimensions={"outer_diameter": "15", "thickness": "3"}),
        Example("ring magnet 10x5x3", state="ambiguous"),
        Example("encoder magnet 6 x 2.5", state="ambiguous"),
        Example("magnet 10", state="ambiguous"),
    ),
)

BLOCK = Family(
    name="magnet block",
    size_names="length",
    key="length",
    nouns={
        "en": phrases(
            "block magnet, magnet block, bar magnet, rectangular magnet, cuboid magnet, neodymium block, cube magnet,"
            " square magnet, neodymium bar, neodymium cuboid"
        ),
        "de": phrases(
            "Quadermagnet, Blockmagnet, Magnet Quader, Würfelmagnet, Neodym Quader, Neodym Block, Rechteckmagnet"
        ),
        "fr": phrases(
            "aimant bloc, aimant rectangulaire, aimant parallélépipède, aimant carré, bloc néodyme, aimant barre"
        ),
        "es": phrases("imán rectangular, imán bloque, imán de bloque, imán prismático, imán cuadrado, bloque neodimio"),
        "it": phrases(
            "magnete rettangolare, magnete a blocco, magnete parallelepipedo, magnete quadrato, blocco neodimio"
        ),
    },
    thread="screw_size",
    layouts=(
        Layout(("length", "width", "thickness")),
        Layout(("length", "width")),
    ),
    labels=_BLOCK_LABELS,
    needs=("length", "width", "thickness"),
    identity=("length", "width", "thickness"),
    order="Magnet block {length} x {width} x {thickness}, {grade?N35}",
    question="Which length, width and thickness has the magnet?",
    examples=(
        Example(
            "block magnet 30x10x5 N42",
            dimensions={"length": "30", "width": "10", "thickness": "5"},
            size_names="length",
        ),
        Example("Quadermagnet 20 x 10 x 3", dimensions={"length": "20", "width": "10", "thickness": "3"}),
        Example("aimant rectangulaire 15x5x2", dimensions={"length": "15", "thickness": "2"}),
        Example("block magnet 20x10", state="ambiguous"),
    ),
)

POT = Family(
    name="magnet pot",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "pot magnet, magnet pot, cup magnet, holding magnet, mounting magnet, magnet with stud, base magnet"
        ),
        "de": phrases(
            "Topfmagnet, Flachgreifer, Stabgreifer, Haftmagnet, Magnetfuß, Magnetgreifer, Magnet mit Gewinde"
        ),
        "fr": phrases(
            "aimant pot, aimant en pot, ventouse magnétique, aimant de maintien, aimant taraudé, aimant fileté"
        ),
        "es": phrases(
            "imán en olla, imán de olla, imán con rosca, imán de sujeción, imán base, imán pote, imán de montaje"
        ),
        "it": phrases(
            "magnete a pentola, magnete con filetto, magnete base, magnete di tenuta, base magnetica, magnete filettato"
        ),
    },
    thread="thread",
    layouts=(
        Layout(("outer_diameter", "thickness")),
        Layout(("outer_diameter",)),
    ),
    labels={"height": "thickness", "length": "thickness"},
    needs=("outer_diameter",),
    identity=("outer_diameter",),
    order="Pot magnet, diameter {outer_diameter}, {thread?no thread}",
    question="Which diameter and which thread has the pot magnet?",
    examples=(
        Example("pot magnet D20 M4", dimensions={"outer_diameter": "20", "thread": "M4"}, size_names="outer diameter"),
        Example("Topfmagnet Ø25 M5", dimensions={"outer_diameter": "25", "thread": "M5"}),
        Example("ventouse magnétique 16 mm M4", dimensions={"outer_diameter": "16", "thread": "M4"}),
        Example("pot magnet M4", state="ambiguous"),
    ),
)

FAMILIES = (MAGNET, BLOCK, POT)
