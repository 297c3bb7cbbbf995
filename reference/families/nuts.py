"""Hexagon nuts, plain and prevailing torque. The size is the internal thread.

Sources: ISO 4032, DIN 934 (their widths across flats differ at M10, M12, M14, M22), ISO 7040, ISO 10511, DIN 985.
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import Example, Family, Layout, Mates, Standard, words
from reference.families.facts import Draft, Facts, Number
from reference.families.rules import class_not_height, leave_standard_open, row_of_stated, shown, size_in
from reference.families.screws import screw_name
from reference.quantities import Limits


def is_width(values: Mapping[str, Decimal]) -> bool:
    """Tell whether the number can be the nut's width across flats: 1.4 to 2.3 times its thread."""
    thread = values["internal_thread"]
    return Decimal("1.4") * thread <= values["across_flats"] <= Decimal("2.3") * thread


def is_height(values: Mapping[str, Decimal]) -> bool:
    """Tell whether the number can be the nut's height: at most 1.6 times its thread."""
    return values["height"] <= Decimal("1.6") * values["internal_thread"]


_HEIGHT = (
    Layout(("across_flats",), when=is_width),
    Layout(("height",), when=is_height),
    Layout(("across_flats", "height"), when=lambda v: is_width(v) and is_height(v)),
    Layout(("height", "across_flats"), when=lambda v: is_width(v) and is_height(v)),
)


_HEX_NUT_ORDERS = {
    "DIN 934": "Hexagon nut DIN 934 - {internal_thread} - {property_class?8}",
    "ISO 4033": "Hexagon nut ISO 4033 - {internal_thread} - {property_class?8}",
}


def _hexagon(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take the standard from spanner and height in the line, else leave open what the standards differ in."""
    out: list[Draft] = []
    for draft in drafts:
        if _D_NUT.search(facts.line.lower()):
            out.append(_wood_insert(draft))
            continue
        class_not_height(family, facts, draft)
        spanner = _by_spanner(family, facts, draft)
        row_of_stated(family, draft, ("across_flats", "height"), _HEX_NUT_ORDERS)
        leave_standard_open(family, draft, "across_flats")
        out += [draft, *spanner]
    return out


_D_NUT = re.compile(r"(?<!\w)d-? ?nuts?(?!\w)")


def _wood_insert(draft: Draft) -> Draft:
    """``D-nut M6x13``: a nut to be screwed into wood; the number beside the thread is its length."""
    numbers = [draft.dimensions[key] for key in ("across_flats", "height", "length") if key in draft.dimensions]
    length = {"length": numbers[0]} if numbers else {}
    thread = {key: held for key, held in draft.dimensions.items() if key == "internal_thread"}
    return draft.copy(family="wood insert", dimensions={**thread, **length})


def _by_spanner(family: Family, facts: Facts, draft: Draft) -> list[Draft]:
    """``10 mm nut``: workshops name the spanner, so a length in millimetres may be that of the M6 nut."""
    first = next((part for chain in facts.chains for part in chain if isinstance(part, Number)), None)
    if facts.threads() or draft.standards or first is None or first.unit != "mm" or first.label:
        return []
    sizes = (
        {
            row.size: row
            for row in family.sizes.rows
            if (flats := size_in(row, "across_flats")) is not None and flats.nominal == first.value
        }
        if family.sizes is not None
        else {}
    )
    if sizes:
        draft.doubts.append(f"Is {first.text} the spanner or the thread?")
    return [
        draft.copy(
            size_names="across flats",
            evidence="assumed",
            dimensions={"internal_thread": row.dimensions["internal_thread"], "across_flats": Limits(first.value)},
            because=[*draft.because, (first.text, f"a {shown(first.value)} mm spanner turns {size}", row.source)],
            notes=[],
            doubts=[f"Is {first.text} the spanner or the thread?"],
            rest=[],
        )
        for size, row in sizes.items()
    ]


def _locking(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Leave the height open where no standard is named: 5 or 6.8 mm for M5."""
    orders = {item.name: item.order for item in family.standards if item.order}
    for draft in drafts:
        class_not_height(family, facts, draft)
        row_of_stated(family, draft, ("height",), orders)
        if not draft.standards and facts.says(*_FLANGED):
            draft.attributes["form"] = "with flange"
            draft.order_text = _FLANGED_ORDER
        leave_standard_open(family, draft, "height")
    return drafts


_FLANGED_ORDER = "Prevailing torque hexagon nut with flange DIN 6926 - {internal_thread} - {property_class?8}"
_FLANGED = ("flange", "flanged", "flansch", "bund", "embase", "brida", "flangiato")


HEX_NUT = Family(
    name="hex nut",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": screw_name("hex nut, hexagon nut, nut, full nut, hex full nut"),
        "de": screw_name("Mutter, Sechskantmutter, Muttern, 6kt Mutter, Skt Mutter"),
        "fr": screw_name("écrou, écrou H, écrou hexagonal, écrous"),
        "es": screw_name("tuerca, tuerca hexagonal"),
        "it": screw_name("dado, dado esagonale, dadi"),
    },
    standards=(
        Standard("ISO 4032"),
        Standard("DIN 934", order="Hexagon nut DIN 934 - {internal_thread} - {property_class?8}"),
        Standard("ISO 4033", order="Hexagon nut ISO 4033 - {internal_thread} - {property_class?8}"),
        Standard("ISO 8673", rows="ISO 4032"),
        Standard("ISO 4034", rows="ISO 4032"),
        Standard("UNI 5588", rows="DIN 934"),
        Standard("GB/T 6170", rows="ISO 4032"),
        Standard("ASME B18.2.2"),
    ),
    table="hex_nut",
    thread="internal_thread",
    plain_thread=True,
    layouts=_HEIGHT,
    labels={"thickness": "height", "length": "height", "width": "across_flats", "depth": "height"},
    needs=("internal_thread",),
    identity=("internal_thread",),
    order="Hexagon nut ISO 4032 - {internal_thread} - {property_class?8}",
    refine=_hexagon,
    unless=words(
        "milk cracker driver drivers splitter butter roasted salted brazil castle castellated slotted crown weld cage"
        " welding caged captive speed push clip ring wheel lug union panel floating anchor souder soudage crenele roue"
        " fendu raccord almenada enjaulada soldar rueda corona gabbia saldare"
    ),
    kin=(
        "thin nut",
        "lock nut (prevailing torque)",
        "square nut",
        "cap nut",
        "flange nut",
        "wing nut",
        "T-slot nut",
        "rivet nut",
        "lead screw nut",
        "coupling nut",
        "knurled nut",
        "press-in insert",
        "heat-set insert",
        "wire thread insert",
        "wood insert",
        "tee nut",
        "cross dowel",
        "sleeve nut",
    ),
    examples=(
        Example(
            "nut M3 DIN 934 A2 x 100", dimensions={"internal_thread": "M3", "across_flats": "5.5", "height": "2.4"}
        ),
        Example("M8 nut 13mm", dimensions={"internal_thread": "M8", "across_flats": "13"}),
        Example("hex nut M6, 5 mm thick", dimensions={"internal_thread": "M6", "height": "5"}),
    ),
    inch_order="Hex nut ASME B18.2.2 - {internal_thread}",
    inch_standard="ASME B18.2.2",
    source="ISO 4032, DIN 934",
    mates=Mates(in_bore=False, on_shaft=False),
)

LOCK_NUT = Family(
    name="lock nut (prevailing torque)",
    size_names="internal thread",
    key="internal_thread",
    nouns={
        "en": screw_name(
            "lock nut, locknut, nyloc, nylock, nyloc nut, nylock nut, nylon insert nut, "
            "prevailing torque nut, self locking nut, nyl insert nut, stop nut, nylon lock nut,"
            " nylon nut, nylon insert lock nut, aero nut, lock nut nylon insert"
        ),
        "de": screw_name(
            "Stoppmutter, selbstsichernde Mutter, Sicherungsmutter, Stopmutter, Klemmmutter, "
            "Sechskantmutter Klemmteil, Mutter selbstsichernd"
        ),
        "fr": screw_name(
            "écrou frein, écrou autofreiné, écrou nylstop, nylstop, écrou indesserrable, "
            "écrou auto-freinant, écrou frein nylon"
        ),
        "es": screw_name(
            "tuerca autoblocante, tuerca de seguridad, tuerca autofrenante, tuerca con freno, tuerca autobloqueante"
        ),
        "it": screw_name("dado autobloccante, dado autobloccanti, dado di sicurezza, dado autofrenante"),
    },
    standards=(
        Standard("ISO 7040"),
        Standard(
            "ISO 10511",
            order="Prevailing torque type hexagon thin nut ISO 10511 - {internal_thread} - {property_class?05}",
        ),
        Standard(
            "DIN 985", order="Prevailing torque type hexagon nut DIN 985 - {internal_thread} - {property_class?8}"
        ),
        Standard(
            "DIN 982", order="Prevailing torque type hexagon nut DIN 982 - {internal_thread} - {property_class?8}"
        ),
        Standard(
            "ISO 7042",
            order="Prevailing torque type all-metal hexagon nut ISO 7042 - {internal_thread} - {property_class?8}",
        ),
        Standard(
            "DIN 980",
            order="Prevailing torque type all-metal hexagon nut DIN 980 - {internal_thread} - {property_class?8}",
        ),
    ),
    table="lock_nut",
    thread="internal_thread",
    plain_thread=True,
    layouts=_HEIGHT,
    labels={"thickness": "height", "length": "height"},
    needs=("internal_thread",),
    identity=("internal_thread",),
    order="Prevailing torque type hexagon nut ISO 7040 - {internal_thread} - {property_class?8}",
    unless=words("conduit bicycle pliers bearing km kmt"),
    refine=_locking,
    examples=(
        Example("ISO 7040 M5 - 8", dimensions={"internal_thread": "M5", "height": "6.8", "across_flats": "8"}),
        Example("nylock nuts m6 qty 20", dimensions={"internal_thread": "M6", "across_flats": "10"}),
    ),
    source="ISO 7040, ISO 10511, DIN 985",
    mates=Mates(in_bore=False, on_shaft=False),
)

FAMILIES = (HEX_NUT, LOCK_NUT)
