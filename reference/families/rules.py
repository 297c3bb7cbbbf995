"""Rules that several part families share: what stays open between standards, the two ends of a part, heads and threads.

What does not belong here: the declaration of a family.
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import Family
from reference.families.facts import Draft, Facts, Number
from reference.quantities import Dimension, Limits, ThreadSize
from reference.sizes import Size, dimension_value
from reference.words import NUT_CLASSES

NO_ROW = "-"
"""A ``table_standard`` that no table has: the table then adds nothing to the draft."""


def shown(value: Decimal) -> str:
    """Return a length without trailing zeros.

    >>> shown(Decimal("6.50"))
    '6.5'
    """
    return format(value.normalize(), "f")


def thread_in(draft: Draft, key: str) -> ThreadSize | None:
    """Return the thread that the draft has under this key, or None."""
    thread = draft.dimensions.get(key)
    return thread if isinstance(thread, ThreadSize) else None


def size_in(row: Size, key: str) -> Limits | None:
    """Return the length that a table row has under this key, or None."""
    size = row.dimensions.get(key)
    return size if isinstance(size, Limits) else None


def rows_with(family: Family, **stated: Decimal | str) -> list[Size]:
    """Return the rows of the family's table that have all these values: lengths in millimetres, thread designations."""
    if family.sizes is None:
        return []
    return [
        row
        for row in family.sizes.rows
        if all(dimension_value(row.dimensions.get(key)) == value for key, value in stated.items())
    ]


def leave_standard_open(family: Family, draft: Draft, key: str, *, ask: bool = True) -> None:
    """Give only what all standards agree in, where the line names none and they differ in ``key``; ask for it.

    A figure of one standard is no fact about a line that names none: the M10 nut measures 16 or 17 across flats.
    """
    value = dimension_value(draft.dimensions.get(family.key))
    if draft.standards or draft.table_standard or family.sizes is None or value is None:
        return
    by_standard = {row.standard: row for row in reversed(family.sizes.agreeing(value, draft.dimensions))}
    rows = list(reversed(by_standard.values()))
    figures = {row.standard: size.nominal for row in rows if (size := size_in(row, key)) is not None}
    if len(set(figures.values())) < 2:
        return
    common = {key: agreed for key in rows[0].dimensions if (agreed := _common(rows, key)) is not None}
    draft.dimensions = {**common, **draft.dimensions}
    draft.table_standard = NO_ROW
    word = key.replace("_", " ")
    text = ", ".join(f"{shown(figure)} mm in {name}" for name, figure in figures.items())
    draft.notes.append(("standards-differ", f"{word}: {text}", "; ".join(row.source for row in rows[:2])))
    if ask:
        draft.asks.append(f"its standard left open ({word} {text})")


def _common(rows: Sequence[Size], key: str) -> Dimension | None:
    """Return what the rows agree in under a key; of equal sizes with other limits only the nominal size."""
    held = [row.dimensions.get(key) for row in rows]
    if all(item == held[0] for item in held):
        return held[0]
    nominal = {item.nominal for item in held if isinstance(item, Limits)}
    alike = len(nominal) == 1 and all(isinstance(item, Limits) for item in held)
    return Limits(nominal.pop()) if alike else None


def row_of_stated(family: Family, draft: Draft, keys: Sequence[str], orders: Mapping[str, str]) -> None:
    """Take the standard whose figures stand in the line, where it names none: a 17 mm hexagon on M10 is DIN 933."""
    value = dimension_value(draft.dimensions.get(family.key))
    stated = {key: draft.nominal(key) for key in keys if draft.nominal(key) is not None}
    if draft.standards or not stated or family.sizes is None or value is None:
        return
    rows = family.sizes.by_key.get(value, ())
    fitting = [row for row in rows if all(_has(row, key, figure) for key, figure in stated.items())]
    if fitting and len(fitting) < len(rows):
        draft.table_standard = fitting[0].standard
        draft.order_text = orders.get(fitting[0].standard, draft.order_text)


def _has(row: Size, key: str, figure: Decimal | None) -> bool:
    size = size_in(row, key)
    return size is not None and size.nominal == figure


DRIVES: Mapping[str, tuple[str, ...]] = {
    "slotted": ("slotted", "schlitz", "slit", "langsschlitz", "fendue", "ranurado", "ranurada", "intaglio", "taglio"),
    "hexalobular": ("torx", "tx", "hexalobular", "innensechsrund", "isr", "lobe"),
    "cross recess": (
        "phillips",
        "philips",
        "philipps",
        "ph",
        "pozi",
        "pozidriv",
        "pozidrive",
        "pz",
        "cross",
        "kreuz",
        "kreuzschlitz",
        "cruciforme",
        "croce",
        "cruz",
        "crosshead",
        "recess",
        "recessed",
        "estrella",
    ),
}
"""Drive -> the words for it."""

DRIVE_WORDS = frozenset(word for drive in DRIVES.values() for word in drive)
"""All words for drives."""


def drive_of(facts: Facts) -> str | None:
    """Return the drive that the line names, or None."""
    if facts.attributes.get("drive_size", "").startswith("T"):
        return "hexalobular"
    return next((drive for drive, words in DRIVES.items() if facts.says(*words)), None)


def with_hexalobular_socket(family: Family, draft: Draft, order: str) -> None:
    """Give the head of the family's usual standard, but no key: the drive is a hexalobular socket."""
    value = dimension_value(draft.dimensions.get(family.key))
    row = family.sizes.find(value) if family.sizes is not None and value is not None else None
    if row is not None:
        head = {key: held for key, held in row.dimensions.items() if key != "across_flats"}
        draft.dimensions = {**head, **draft.dimensions}
    draft.table_standard = NO_ROW
    draft.order_text = order
    draft.attributes["drive"] = "hexalobular"


def class_not_height(family: Family, facts: Facts, draft: Draft) -> None:
    """Take a number that stands alone for the property class where no such height is listed: ``M6 nut DIN 934 8``."""
    height = draft.nominal("height")
    if height is None or "property_class" in draft.attributes:
        return
    alone = [chain[0] for chain in facts.chains if len(chain) == 1 and isinstance(chain[0], Number)]
    part = next((n for n in alone if n.value == height and not n.unit and not n.label and n.text in NUT_CLASSES), None)
    value = dimension_value(draft.dimensions.get(family.key))
    rows = family.sizes.by_key.get(value, ()) if family.sizes is not None and value is not None else ()
    if part is None or (not draft.standards and any(_has(row, "height", height) for row in rows)):
        return
    del draft.dimensions["height"]
    draft.because = [item for item in draft.because if item[0] != part.text]
    draft.attributes["property_class"] = part.text
    draft.because.append((part.text, f"property class {part.text}", "ISO 898-2"))


_SHORT = {"female": "f|i|ig|in", "male": "m|a|ag|out"}
_LONG = {
    "female": "female|femelle|femmina|hembra|innen|innengewinde|int|internal|interno",
    "male": "male|mâle|maschio|macho|aussen|außen|aussengewinde|außengewinde|ext|external|esterno",
}


def _pair(one: str, other: str) -> str:
    short = rf"(?:{_SHORT[one]})\s?[-/&]\s?(?:{_SHORT[other]})"
    long = rf"(?:{_LONG[one]})(?:\s?[-/+&]\s?|\s)(?:(?:to|and|und|et|y|e|x)\s)?(?:{_LONG[other]})"
    return rf"(?<!\w)(?:{short}|{long})(?!\w)"


_ENDS: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern), ends)
    for pattern, ends in (
        (_pair("female", "female"), "female-female"),
        (_pair("male", "male"), "male-male"),
        (_pair("male", "female"), "male-female"),
        (_pair("female", "male"), "male-female"),
        (r"(?<!\w)ff(?!\w)|(?:double|both ends|beidseitig|all) (?:female|tapped|innengewinde)", "female-female"),
        (r"innen-/au(?:ss|ß)en|au(?:ss|ß)en-/innen", "male-female"),
        (r"(?<!\w)(?:mf|fm)(?!\w)|single[- ](?:pass|head)", "male-female"),
        (r"through[- ]?(?:thread|tapped)|double[- ]pass|durchgangsgewinde|tapped|taraud", "female-female"),
    )
)


def ends_of(line: str) -> str | None:
    """Return what the two ends of a threaded pillar are, by the words of the line, or None.

    >>> ends_of("standoff M3x20 M/F"), ends_of("Abstandsbolzen M3 x 10 IG/IG"), ends_of("spacer M3")
    ('male-female', 'female-female', None)
    """
    low = line.lower()
    return next((ends for pattern, ends in _ENDS if pattern.search(low)), None)


def as_machine_screw(draft: Draft, head: str) -> Draft:
    """Return the draft as an inch machine screw with this head: the trade's name of such screws."""
    return draft.copy(
        family="machine screw",
        attributes={**draft.attributes, "head": head},
        standards=("ASME B18.6.3",),
        order_text=f"Machine screw ASME B18.6.3 - {{thread}} x {{length}} in, {head} head",
    )


_THREADS_PER_INCH = {"4": (40, 48), "5": (40, 44), "6": (32, 40), "8": (32, 36), "10": (24, 32), "12": (24, 28)}
"""Inch number size -> threads per inch, coarse and fine. Source: ASME B1.1."""


def ask_pitch(number: str) -> str:
    """Return the question for an inch number size without threads per inch.

    >>> ask_pitch("10")
    'Which thread has the number 10 screw: 10-24 or 10-32?'
    """
    options = " or ".join(f"{number}-{threads}" for threads in _THREADS_PER_INCH.get(number, ()))
    return f"Which thread has the number {number} screw{f': {options}' if options else ''}?"
