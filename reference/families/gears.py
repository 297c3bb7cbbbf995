"""Gears and racks, named by their module, and roller chains, named by their number.

M1 on a gear or a rack is the module, no thread: pitch diameter = module x teeth, rack pitch = module x pi. A chain's
number (05B, #25) is a catalogue number; its pitch follows from the table.

Sources: DIN 780 (modules), ISO 606 (chains), common practice.
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import cache

from reference import tables
from reference.belts import PI
from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, Standard, phrases, words
from reference.families.facts import Draft, Facts, ThreadMention
from reference.quantities import Limits
from reference.sizes import Size, size_table
from reference.units import tidy

_GEAR, _RACK, _CHAIN = "gear", "rack", "chain"
_MM_PER_INCH = Decimal("25.4")


def _toothed(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read M1 as the module; complete pitch and pitch diameter."""
    for draft in drafts:
        _module(draft, facts)
        module, teeth = draft.nominal("module"), draft.nominal("teeth")
        if module is None:
            draft.doubts.append(family.question)
            continue
        pitch = (module * PI).quantize(Decimal("0.001"))
        draft.dimensions["pitch"] = Limits(pitch)
        draft.because.append((f"{module.normalize():f}", f"pitch = module x pi = {pitch} mm", "DIN 867"))
        if teeth is not None:
            diameter = tidy(module * teeth)
            draft.dimensions["pitch_diameter"] = Limits(diameter)
            draft.because.append(
                (f"{teeth.normalize():f}", f"pitch diameter = module x teeth = {diameter} mm", "DIN 867")
            )
        if family.name == _GEAR and teeth is None:
            draft.doubts.append("How many teeth has the gear?")
        if family.name == _GEAR:
            _gear_order(draft, module, teeth)
    return drafts


def _module(draft: Draft, facts: Facts) -> None:
    thick = draft.dimensions.pop("thickness", None)
    if isinstance(thick, Limits):
        small_t = any(
            number.value == thick.nominal and re.fullmatch(r"\d+ ?t", number.text) for number in facts.labelled
        )
        draft.dimensions["teeth" if small_t and "teeth" not in draft.dimensions else "width"] = thick  # 20t
    mentions = [part for part in draft.rest if isinstance(part, ThreadMention)]
    inch = draft.dimensions.pop("diametral_pitch", None)
    if "module" not in draft.dimensions and isinstance(inch, Limits):
        module = (_MM_PER_INCH / inch.nominal).quantize(Decimal("0.001"))
        draft.give("module", module, f"{inch.nominal} DP", "diametral pitch: module = 25.4 / DP", COMMON_PRACTICE)
    if "module" not in draft.dimensions and mentions:
        first = mentions.pop(0)
        says = "the module: M beside a toothed part is no thread"
        draft.give("module", first.thread.diameter, first.text, says, "DIN 780")
        draft.drop(first)
    for mention in mentions:
        draft.attributes["set_screw"] = mention.thread.designation
        draft.drop(mention)


def _gear_order(draft: Draft, module: Decimal, teeth: Decimal | None) -> None:
    parts = [f"Gear, module {module.normalize():f}"]
    parts += [f"{teeth.normalize():f} teeth"] if teeth is not None else []
    for key, text in (("bore", "bore"), ("width", "width")):
        size = draft.nominal(key)
        parts += [f"{text} {size.normalize():f} mm"] if size is not None else []
    draft.order_text = ", ".join(parts)


def _chain(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read a chain by its number; the plain number beside it is its length."""
    match = re.search(r"(?P<iso>(?:0[4568]|1[026])[abc])|(?P<ansi>\d\d)h?", facts.code or "")
    strands = re.search(r"-(\d)", facts.code or "")
    for draft in drafts:
        if match is None:
            draft.doubts.append(family.question)
            continue
        size = _sizes().get(match["iso"] or match["ansi"])
        if size is None:
            draft.doubts.append(f"No chain {match[0].upper()} is listed here. Which pitch and inner width?")
            continue
        draft.attributes["series"] = size.size + (f"-{strands[1]}" if strands else "")
        if match["ansi"]:
            draft.attributes["ansi"] = match["ansi"]
        draft.evidence = "stated"
        draft.dimensions = {**size.dimensions, **draft.dimensions}
        draft.because.append((match[0].upper(), f"the chain {size.size}", size.source))
        length = draft.nominal("length")
        draft.order_text = f"Roller chain ISO 606 - {draft.attributes['series']}"
        draft.order_text += f", length {length.normalize():f} mm" if length is not None else ""
    return drafts


@cache
def _sizes() -> Mapping[str, Size]:
    """Return the chains by ISO number and by ANSI number, in small letters."""
    sizes = {row.size: row for row in size_table("roller_chain", "catalogue_number").rows}
    found = {name.lower(): row for name, row in sizes.items()}
    for row in tables.load("roller_chain"):
        if row.cells["ansi"]:
            found[row.cells["ansi"]] = sizes[row.text("size")]
    return found


_LABELS = {"module": "module", "depth": "width", "id": "bore", "hole": "bore", "shaft": "bore", "tube": "-"}
_MODULE = "mod, modul, module, modulo, m"

GEAR = Family(
    name=_GEAR,
    size_names="module",
    key="catalogue_number",
    nouns={
        "en": phrases(
            "gear, spur gear, pinion, pinion gear, gearwheel, gear wheel, gears, helical gear, bevel gear, cog"
        ),
        "de": phrases("Zahnrad, Stirnrad, Ritzel, Stirnzahnrad, Kegelrad, Zahnräder"),
        "fr": phrases("engrenage, pignon, roue dentée, pignon droit, engrenage droit"),
        "es": phrases("engranaje, piñón, rueda dentada, engranaje recto"),
        "it": phrases("ingranaggio, pignone, ruota dentata, ingranaggio cilindrico"),
        "zh": phrases("chilun"),
    },
    standards=(Standard("DIN 867"),),
    table="gear_module",
    codes=(Code(r"(?P<diametral_pitch>\d{1,2}) ?(?:dp|diametral pitch)", says="diametral pitch"),),
    layouts=(
        Layout(("bore", "width"), when=lambda v: "teeth" in v),
        Layout(("bore",), when=lambda v: "teeth" in v),
        Layout(("width",), when=lambda v: "bore" in v),
        Layout(("teeth",), when=lambda v: v["teeth"] == v["teeth"].to_integral_value()),
    ),
    labels={**_LABELS, "length": "width"},
    needs=("module", "teeth", "bore"),
    order="Gear, module {module}, {teeth} teeth, bore {bore} mm",
    question="Which module, how many teeth, and which bore?",
    refine=_toothed,
    kin=(_RACK, "timing pulley"),
    unless=words(
        "oil lever box gearbox landing shift bicycle bike head fishing motor motorreductor diving puller grease knob"
        " camping hub rain audio stick"
    ),
    examples=(
        Example(
            "spur gear mod 0.5 20T bore 5",
            dimensions={"module": "0.5", "teeth": "20", "bore": "5", "pitch_diameter": "10"},
            size_names="module",
        ),
        Example("Zahnrad Modul 1 Z30 Bohrung 8", dimensions={"module": "1", "teeth": "30", "bore": "8"}),
        Example("M1 gear 40 teeth bore 10", dimensions={"module": "1", "teeth": "40", "bore": "10"}),
        Example("gear 20T bore 5", state="ambiguous"),
    ),
    source="DIN 780, DIN 867",
)

RACK = Family(
    name=_RACK,
    size_names="module",
    key="catalogue_number",
    nouns={
        "en": phrases("gear rack, rack gear, toothed rack, rack and pinion, spur rack, pinion rack")
        + phrases(_MODULE, "rack"),
        "de": phrases("Zahnstange"),
        "fr": phrases("crémaillère"),
        "es": phrases("cremallera"),
        "it": phrases("cremagliera"),
        "zh": phrases("chitiao"),
    },
    standards=(Standard("DIN 867"),),
    table="gear_module",
    layouts=(
        Layout(("width", "height", "length"), when=lambda v: max(v["width"], v["height"]) < v["length"]),
        Layout(("length", "width", "height"), when=lambda v: max(v["width"], v["height"]) < v["length"]),
        Layout(("width", "height"), when=lambda v: max(v["width"], v["height"]) <= 60),
        Layout(("length",)),
    ),
    labels=_LABELS,
    needs=("module", "width", "height", "length"),
    order="Gear rack, module {module}, {width} x {height} x {length}",
    question="Which module, and which width x height x length?",
    refine=_toothed,
    unless=words("server dish bike bicycle wine shoe storage roof luggage towel coat zip cremallera-ropa sac bag"),
    examples=(
        Example(
            "M1 gear rack 15x15x500",
            dimensions={"module": "1", "width": "15", "height": "15", "length": "500"},
            size_names="module",
        ),
        Example("Zahnstange Modul 1,5 17x17x1000", dimensions={"module": "1.5", "width": "17", "length": "1000"}),
        Example("cremallera módulo 1 15x15x500", dimensions={"module": "1", "length": "500"}),
        Example("gear rack 500 mm", state="ambiguous"),
    ),
    source="DIN 780, DIN 867",
)

CHAIN = Family(
    name=_CHAIN,
    size_names="catalogue number",
    key="catalogue_number",
    nouns={
        "en": phrases("roller chain, drive chain, transmission chain, simplex chain, duplex chain, iso chain")
        + phrases("a, b, h, ansi", "chain"),
        "de": phrases("Rollenkette, Antriebskette, Simplexkette, Einfachrollenkette"),
        "fr": phrases("chaîne à rouleaux, chaîne de transmission, chaîne simple rouleaux"),
        "es": phrases("cadena de rodillos, cadena de transmisión, cadena rodillos"),
        "it": phrases("catena a rulli, catena di trasmissione, catena rulli"),
    },
    standards=(Standard("ISO 606"), Standard("DIN 8187"), Standard("DIN 8188"), Standard("ASME B29.1")),
    table="roller_chain",
    codes=(
        Code(r"chain #(?:25|35|40|50|60|80)h?|#(?:25|35|40|50|60|80)h? chain", identifies=True, says="a chain number"),
        Code(r"(?:0[4568]|1[026]) ?[abc](?: ?- ?[123])?", says="a chain number", source="ISO 606"),
        Code(
            r"(?:ansi )?#? ?(?:25|35|40|50|60|80)h?(?: ?- ?[123])?(?! ?(?:mm|links|pcs|x|m\b))", says="a chain number"
        ),
    ),
    layouts=(Layout(("length",)),),
    labels={"pitch": "pitch", "diameter": "-"},
    needs=("length",),
    order="Roller chain, length {length} mm",
    question="Which chain number (05B, 08B, #25)?",
    refine=_chain,
    unless=words("saw bike bicycle necklace gold silver key cable drag energy hoist snow anchor lock"),
    examples=(
        Example("#25 roller chain 1m", dimensions={"length": "1000", "pitch": "6.35"}, size_names="catalogue number"),
        Example("Rollenkette 05B-1 1 m", dimensions={"length": "1000", "pitch": "8"}),
        Example("chaîne à rouleaux 06B-1 5 m", dimensions={"length": "5000", "pitch": "9.525"}),
        Example("roller chain 1 m", state="ambiguous"),
    ),
    source="ISO 606",
)

FAMILIES = (GEAR, RACK, CHAIN)
