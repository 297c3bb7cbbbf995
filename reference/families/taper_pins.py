"""Taper pins: plain, with internal thread for pulling, with a threaded end.

A metric taper pin is named by its small end, taper 1:50; an inch pin by a number that stands for its large end, taper
1:48. The internal thread sits in the large end and is not half the diameter (12 mm: M8); the threaded end carries the
pin's own number up to M16.

Sources: ISO 2339, ISO 8736, ISO 8737, ASME B18.8.2 (tables).
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

from reference.families.base import Code, Example, Family, Layout, Mates, Standard, phrases
from reference.families.facts import Draft, Facts, ThreadMention
from reference.quantities import Limits, ThreadSize
from reference.sizes import size_table

_ENGLISH = "taper pin, tapered pin, taper dowel, conical pin, cone pin, tapered dowel"
_GERMAN = "Kegelstift, Kegel Stift, konischer Stift"
_FRENCH = "goupille conique"
_SPANISH = "pasador cónico, clavija cónica"
_ITALIAN = "spina conica"

_LAYOUTS = (
    Layout(("small_end_diameter", "length"), when=lambda v: v["small_end_diameter"] <= v["length"]),
    Layout(
        ("length", "small_end_diameter"),
        when=lambda v: v["small_end_diameter"] < v["length"],
        says="the larger number is the length",
    ),
    Layout(("small_end_diameter",)),
)
_LABELS = {"diameter": "small_end_diameter", "od": "-", "id": "-", "shaft": "-", "hole": "-"}
_RATIO = re.compile(r"(?<![0-9])1 ?: ?(?:48|50)(?![0-9])")
_INCH_ORDER = "Taper pin ASME B18.8.2 - no. {number} x {length} in"


_NUMBER = r"(?:(?:no|nr|num|number|n°)\.? ?|# ?)(?P<number>[0-9]{1,2})(?!/)"
_ZEROS = r"(?:(?:no|nr)\.? ?|# ?)?(?P<zeros>[2-7]/0)"
_INCHES = r"(?:[0-9][ -])?[0-9]{1,2}/[0-9]{1,2}|[0-9]?\.[0-9]+|[1-9]"


def _inch_number(groups: Mapping[str, str]) -> Draft | None:
    """Return what an inch number stands for: the large end."""
    number = groups.get("number") or groups["zeros"]
    rows = size_table("taper_pin", "large_end_diameter").rows
    row = next((row for row in rows if row.standard == "ASME B18.8.2" and row.size == number), None)
    if row is None:
        return None
    dimensions = {"large_end_diameter": row.dimensions["large_end_diameter"]}
    if "inches" in groups:
        length = sum(Fraction(part) for part in groups["inches"].replace("-", " ").split()) * Fraction("25.4")
        dimensions["length"] = Limits(Decimal(length.numerator) / length.denominator)
    return Draft(
        "taper pin",
        "large end diameter",
        "stated",
        dimensions,
        {"number": number},
        ("ASME B18.8.2",),
        order_text=_INCH_ORDER,
    )


def _ends(draft: Draft, facts: Facts) -> None:
    """Give the other end of the taper, which follows from the length."""
    small, large, length = (draft.nominal(key) for key in ("small_end_diameter", "large_end_diameter", "length"))
    if large is not None:
        if small is not None and length is None:
            draft.dimensions["length"] = draft.dimensions.pop("small_end_diameter")
            length = small
        if length is not None:
            value = (large - length / 48).quantize(Decimal("0.001"))
            draft.give("small_end_diameter", value, "taper", "the large end less length / 48", "ASME B18.8.2")
        draft.attributes["taper"] = "1:48"
        draft.order_text = _INCH_ORDER
        draft.table_standard = "ASME B18.8.2"
        facts.inches = True
        draft.attributes.pop("series", None)
    elif small is not None and facts.inches:
        draft.doubts.append(
            "Inch taper pins are ordered by a number that stands for the large end. Which number, or which diameter at"
            " which end?"
        )
    elif small is not None:
        draft.attributes["taper"] = "1:50"
        if length is not None:
            draft.give("large_end_diameter", small + length / 50, "taper", "the small end plus length / 50", "ISO 2339")
        if not draft.standards:
            draft.asks.append(f"{small.normalize():f} mm as the small end, taper 1:50")


def _refine(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Name the ends; doubt a thread that the words do not place."""
    for draft in drafts:
        if _RATIO.search(facts.line):
            draft.drop(*(part for part in draft.rest if part.text in {"1", "48", "50"}))
        mention = next((part for part in draft.rest if isinstance(part, ThreadMention)), None)
        if mention is not None:
            draft.drop(mention)
            if draft.standards:
                lone = draft.dimensions.pop("small_end_diameter", None)
                if lone is not None:
                    draft.dimensions.setdefault("length", lone)
                draft.dimensions["small_end_diameter"] = Limits(mention.thread.diameter)
            else:
                draft.doubts.append(
                    f"Is {mention.thread.designation} the small end, a thread inside, or a threaded end?"
                )
        elif family.thread is None and not draft.standards and facts.says("threaded", "thread", "gewinde"):
            draft.doubts.append("Is the thread inside the large end, or is it a threaded end?")
        _place_thread_number(family, draft)
        _ends(draft, facts)
    return drafts


def _place_thread_number(family: Family, draft: Draft) -> None:
    """``threaded end M6 x 50``: the number is the thread and, by the standard, the pin; a lone number is the length."""
    thread = draft.dimensions.get(family.thread) if family.thread else None
    if not isinstance(thread, ThreadSize) or family.sizes is None:
        return
    lone, length = draft.nominal("small_end_diameter"), draft.nominal("length")
    rows = [row for row in family.sizes.rows if row.dimensions.get(str(family.thread)) == thread]
    sizes = [row.dimensions["small_end_diameter"] for row in rows]
    fits = any(isinstance(size, Limits) and size.nominal == lone for size in sizes)
    if lone is not None and length is None and not fits and len(sizes) == 1:
        draft.dimensions["length"] = draft.dimensions["small_end_diameter"]
        draft.dimensions["small_end_diameter"] = sizes[0]
        draft.because.append((thread.designation, f"stands in the {rows[0].size} mm pin only", rows[0].source))
    elif lone is None and len(sizes) == 1:
        draft.dimensions["small_end_diameter"] = sizes[0]
        draft.because.append((thread.designation, f"stands in the {rows[0].size} mm pin only", rows[0].source))
    elif lone is not None and not fits:
        known = " or ".join(f"{size.nominal.normalize():f} mm" for size in sizes if isinstance(size, Limits))
        draft.doubts.append(
            f"{family.standards[0].name} has {thread.designation} in pins of {known or 'no size'}."
            " Which diameter and thread?"
        )


TAPER_PIN = Family(
    name="taper pin",
    size_names="small end diameter",
    key="small_end_diameter",
    nouns={
        "en": phrases(_ENGLISH),
        "de": phrases(_GERMAN),
        "fr": phrases(_FRENCH),
        "es": phrases(_SPANISH),
        "it": phrases(_ITALIAN),
        "zh": ("yuanzhuixiao",),
    },
    standards=(
        Standard("ISO 2339"),
        Standard("DIN 1", rows="ISO 2339", order="Taper pin DIN 1 - {small_end_diameter} x {length} - {material?St}"),
        Standard("DIN 22339", rows="ISO 2339"),
        Standard("GB/T 117", rows="ISO 2339", order="Taper pin GB/T 117 - {small_end_diameter} x {length}"),
        Standard("JIS B 1352", rows="ISO 2339"),
        Standard("ASME B18.8.2", order=_INCH_ORDER),
    ),
    table="taper_pin",
    layouts=_LAYOUTS,
    labels=_LABELS,
    codes=(
        Code(
            rf"(?:{_NUMBER}|{_ZEROS})(?: ?[x*] ?(?P<inches>{_INCHES})(?! ?mm)(?: ?in(?:ch)?|\")?)?",
            decode=_inch_number,
            says="the number of an inch taper pin stands for its large end",
            source="ASME B18.8.2",
        ),
    ),
    needs=("small_end_diameter|large_end_diameter", "length"),
    identity=("small_end_diameter|large_end_diameter",),
    order="Taper pin ISO 2339 - A - {small_end_diameter} x {length} - {material?St}",
    question="Which diameter has the small end, and how long is the pin?",
    refine=_refine,
    kin=("taper pin with internal thread", "taper pin with external thread", "grooved pin"),
    examples=(
        Example(
            "ISO 2339 - A - 8 x 50 - St",
            dimensions={"small_end_diameter": "8", "length": "50", "large_end_diameter": "9"},
            size_names="small end diameter",
        ),
        Example("taper pin 4 x 30", dimensions={"small_end_diameter": "4", "large_end_diameter": "4.6"}),
        Example("Kegelstifte 3x24 DIN 1, 50 Stk", dimensions={"small_end_diameter": "3", "length": "24"}),
        Example(
            'taper pin #4 x 1-1/2"',
            dimensions={"large_end_diameter": "6.35", "length": "38.1"},
            size_names="large end diameter",
        ),
        Example("goupille conique M5 x 40", state="ambiguous"),
    ),
    source="ISO 2339, ASME B18.8.2",
    mates=Mates(tapered=True),
)

_INSIDE = (
    "internal thread, internally threaded, tapped, tapped hole, female thread, inner thread, extraction thread, pull"
)

TAPER_PIN_INTERNAL = Family(
    name="taper pin with internal thread",
    size_names="small end diameter",
    key="small_end_diameter",
    nouns={
        "en": phrases(_ENGLISH, _INSIDE),
        "de": phrases(_GERMAN, "Innengewinde, IG, Abziehgewinde"),
        "fr": phrases(_FRENCH, "taraudée, trou taraudé, filetage intérieur, taraudage"),
        "es": phrases(_SPANISH, "rosca interior, rosca interna, rosca hembra"),
        "it": phrases(_ITALIAN, "filettata, filetto interno, foro filettato, filettatura interna"),
    },
    standards=(
        Standard("ISO 8736"),
        Standard("DIN 7978", rows="ISO 8736", order="Taper pin DIN 7978 - A - {small_end_diameter} x {length}"),
        Standard("DIN 28736", rows="ISO 8736"),
        Standard("GB/T 118", rows="ISO 8736", order="Taper pin GB/T 118 - {small_end_diameter} x {length}"),
        Standard("JIS B 1353", rows="ISO 8736"),
    ),
    table="taper_pin_with_internal_thread",
    thread="internal_thread",
    layouts=_LAYOUTS,
    labels=_LABELS,
    needs=("small_end_diameter", "length"),
    identity=("small_end_diameter",),
    order="Taper pin ISO 8736 - A - {small_end_diameter} x {length} - {material?St}",
    question="Which diameter has the small end, and which thread is inside?",
    refine=_refine,
    examples=(
        Example(
            "Taper pin ISO 8736 - A - 10 x 60 - St",
            dimensions={"small_end_diameter": "10", "length": "60", "internal_thread": "M6"},
            size_names="small end diameter",
        ),
        Example("Kegelstift 12x50 mit Innengewinde", dimensions={"small_end_diameter": "12", "internal_thread": "M8"}),
        Example("goupille conique à trou taraudé 8 x 40", dimensions={"internal_thread": "M5"}),
        Example("tapped taper pin 12 x 60 M6", state="ambiguous"),
    ),
    source="ISO 8736",
    mates=Mates(tapered=True),
)

TAPER_PIN_EXTERNAL = Family(
    name="taper pin with external thread",
    size_names="small end diameter",
    key="small_end_diameter",
    nouns={
        "en": phrases(
            _ENGLISH,
            "external thread, externally threaded, threaded end, threaded stud, male thread, threaded shank, stud",
        ),
        "de": phrases(_GERMAN, "Gewindezapfen, Außengewinde, Zapfen"),
        "fr": phrases(_FRENCH, "filetée, bout fileté, queue filetée, tige filetée, extrémité filetée"),
        "es": phrases(_SPANISH, "rosca exterior, espiga roscada, extremo roscado, roscado, vástago roscado"),
        "it": phrases(
            _ITALIAN,
            "filettata, gambo filettato, estremità filettata, filetto esterno, codolo filettato, perno filettato",
        ),
    },
    standards=(
        Standard("ISO 8737"),
        Standard("DIN 7977", rows="ISO 8737", order="Taper pin DIN 7977 - {small_end_diameter} x {length}"),
        Standard("DIN 258", rows="ISO 8737", order="Taper pin DIN 258 - {small_end_diameter} x {length}"),
        Standard("DIN 28737", rows="ISO 8737"),
        Standard("GB/T 881", rows="ISO 8737", order="Taper pin GB/T 881 - {small_end_diameter} x {length}"),
    ),
    table="taper_pin_with_external_thread",
    thread="thread",
    layouts=_LAYOUTS,
    labels=_LABELS,
    needs=("small_end_diameter", "length"),
    identity=("small_end_diameter",),
    order="Taper pin ISO 8737 - {small_end_diameter} x {length} - {material?St}",
    question="Which diameter has the taper, and which thread is on its end?",
    length_says="the length is measured over all, with the thread",
    refine=_refine,
    examples=(
        Example(
            "Taper pin ISO 8737 - 8 x 65 - St",
            dimensions={"small_end_diameter": "8", "length": "65", "thread": "M8"},
            size_names="small end diameter",
        ),
        Example("Kegelstift mit Gewindezapfen 5x40 DIN 7977", dimensions={"small_end_diameter": "5", "thread": "M5"}),
        Example("taper pin with threaded end M6 x 50", dimensions={"small_end_diameter": "6", "length": "50"}),
        Example("goupille conique filetée 12 x 80 M8", state="ambiguous"),
    ),
    source="ISO 8737",
    mates=Mates(tapered=True),
)

FAMILIES = (TAPER_PIN, TAPER_PIN_INTERNAL, TAPER_PIN_EXTERNAL)
