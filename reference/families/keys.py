"""Parallel keys and Woodruff keys.

A parallel key is named by width x height x length, not by its shaft: an 8 mm shaft takes a key of 2 x 2, a key 8 x 7
goes on shafts over 22 to 30 mm. The length of form A counts over its round ends. American Woodruff numbers hold the
width in
thirty-seconds and the diameter in eighths of an inch.

Sources: DIN 6885-1, DIN 6888 (tables); Woodruff numbers: ASME B17.2.
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import Code, Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts, Number
from reference.quantities import Limits
from reference.sizes import Size, size_table
from reference.words import MM_PER_INCH

_FORM = re.compile(r"(?<![A-Za-z0-9])(?:[Ff]orm ?)?(AB|[A-HJ])(?=[ -]|[0-9]|$|,)")


def _pair_is_listed(table: str, key: str, one: Decimal, other: Decimal, other_key: str) -> bool:
    return any(
        isinstance(held := row.dimensions.get(other_key), Limits) and held.nominal == other
        for row in size_table(table, key).by_key.get(one.normalize(), ())
    )


def _is_section(values: Mapping[str, Decimal]) -> bool:
    """Tell whether width and height are those of a listed key."""
    return _pair_is_listed("parallel_key", "width", values["width"], values["height"], "height")


def _row_for_shaft(shaft: Decimal) -> Size | None:
    for row in size_table("parallel_key", "width").rows:
        over, up_to = row.dimensions.get("shaft_over"), row.dimensions.get("shaft_up_to")
        if isinstance(over, Limits) and isinstance(up_to, Limits) and over.nominal < shaft <= up_to.nominal:
            return row
    return None


def _by_shaft(draft: Draft, shaft: Decimal, text: str) -> Draft:
    """Return the reading in which a number is the shaft, and the standard gives the key for it."""
    row = _row_for_shaft(shaft)
    found = draft.copy(size_names="shaft size")
    found.dimensions["shaft_size"] = Limits(shaft)
    if row is not None:
        found.dimensions |= {key: row.dimensions[key] for key in ("width", "height")}
        found.because.append((text, f"a shaft of {shaft.normalize():f} mm takes a key of {row.size}", row.source))
    return found


def _key(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A width without a height may be the shaft; form A is the usual one."""
    out: list[Draft] = []
    for draft in drafts:
        form = _FORM.search(facts.line)
        if form is not None:
            draft.attributes["form"] = form[1]
        width, shaft = draft.nominal("width"), draft.nominal("shaft_size")
        if shaft is not None and width is None:
            out.append(_by_shaft(draft, shaft, "shaft"))
            continue
        if width is not None and "height" not in draft.dimensions:
            others = {key: value for key, value in draft.dimensions.items() if key != "width"}
            other = _by_shaft(draft.copy(dimensions=others), width, f"{width.normalize():f}")
            other.evidence = "assumed"
            out += [draft, other]
            draft.doubts.append(f"Is {width.normalize():f} mm the width of the key or the shaft that it is for?")
            continue
        if width is not None and "form" not in draft.attributes and not facts.inches:
            draft.asks.append("form A (round ends, length over all)")
        out.append(draft)
    return out


_ORDER = "Parallel key DIN 6885 - {form?A} - {width} x {height} x {length}"

PARALLEL_KEY = Family(
    name="parallel key",
    size_names="width x height",
    key="width",
    nouns={
        "en": phrases(
            "parallel key, key, feather key, shaft key, keysteel, key steel, machine key, square key, flat key"
        ),
        "de": phrases("Passfeder, Paßfeder, Pass Feder, Paß Feder, Federkeil, Passfedern"),
        "fr": phrases("clavette, clavette parallèle, clavettes, clavette libre"),
        "es": phrases("chaveta, chaveta paralela, chavetas, lengüeta"),
        "it": phrases("linguetta, chiavetta, linguetta parallela, linguette, chiavette, chiavetta parallela"),
        "zh": phrases("pingjian"),
    },
    standards=(
        Standard("DIN 6885", rows="DIN 6885-1"),
        Standard("DIN 6885-1", rows="DIN 6885-1"),
        Standard("DIN 6885-2", order=_ORDER.replace("6885", "6885-2")),
        Standard("DIN 6885-3", order=_ORDER.replace("6885", "6885-3")),
        Standard("ISO 773", rows="DIN 6885-1"),
        Standard("ISO 2491"),
        Standard("UNI 6604", rows="DIN 6885-1", order=_ORDER.replace("DIN 6885", "UNI 6604")),
        Standard("GB/T 1096", rows="DIN 6885-1", order=_ORDER.replace("DIN 6885", "GB/T 1096")),
        Standard("JIS B 1301", rows="DIN 6885-1"),
        Standard("BS 4235", rows="DIN 6885-1"),
        Standard("ASME B17.1", order="Parallel key ASME B17.1 - {width} x {height} x {length} in"),
    ),
    table="parallel_key",
    layouts=(
        Layout(("width", "height", "length"), when=lambda v: v["length"] >= v["width"]),
        Layout(("length", "width", "height"), when=lambda v: v["length"] > v["width"]),
        Layout(("width", "height", "length")),
        Layout(("width", "height"), when=_is_section),
        Layout(("width", "length"), when=lambda v: v["width"] < v["length"]),
        Layout(("length", "width"), when=lambda v: v["width"] < v["length"]),
        Layout(("width", "height")),
        Layout(("width",)),
    ),
    needs=("width", "height", "length"),
    identity=("width",),
    order=_ORDER,
    question="Which width, height and length has the key?",
    length_says="form A: over the round ends",
    refine=_key,
    listed_sizes=False,
    unless=words(
        "hex allen ring rings switch chuck lock torx car house usb piano keyboard board fob chain tag word card spanner"
        " wrench bit set wheel hole holder cutter bolt west code"
    ),
    examples=(
        Example(
            "Parallel key DIN 6885 - A - 8 x 7 x 30",
            dimensions={"width": "8", "height": "7", "length": "30"},
            size_names="width x height",
        ),
        Example("Passfeder 6x6x20", dimensions={"width": "6", "height": "6", "length": "20"}),
        Example("Passfedern A4x4x12, 10 Stück", dimensions={"width": "4", "height": "4", "length": "12"}),
        Example("clavette parallèle 10 x 8 x 40", dimensions={"width": "10", "height": "8", "length": "40"}),
        Example("chaveta para eje de 20 mm", dimensions={"width": "6", "height": "6", "shaft_size": "20"}),
        Example("key 8", state="ambiguous"),
        Example("6mm key x 25", state="ambiguous"),
    ),
    source="DIN 6885-1",
    mates=Mates(in_bore=False),
)


def _woodruff_number(groups: Mapping[str, str]) -> Draft | None:
    """Return what an American number says: width in 1/32 in, diameter in 1/8 in."""
    number = groups["number"]
    width, diameter = Decimal(number[:-2]) / 32, Decimal(number[-2:]) / 8
    if not 0 < width < 1 or not width * 2 < diameter < 4:
        return None
    return Draft(
        "woodruff key",
        "catalogue number",
        "stated",
        {"width": Limits(width * MM_PER_INCH), "outer_diameter": Limits(diameter * MM_PER_INCH)},
        {"number": number},
        ("ASME B17.2",),
    )


def _disc(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """An inch number has its own designation."""
    for draft in drafts:
        if "number" in draft.attributes:
            draft.order_text = "Woodruff key ASME B17.2 no. {number}"
            stated = {draft.nominal("width"), draft.nominal("outer_diameter")}
            draft.drop(*(part for part in draft.rest if isinstance(part, Number) and part.value in stated))
    return drafts


WOODRUFF_KEY = Family(
    name="woodruff key",
    size_names="width x height",
    key="width",
    nouns={
        "en": phrases("woodruff key, woodruff, half moon key, half round key, crescent key, disc key, halfmoon key"),
        "de": phrases("Scheibenfeder, Scheiben Feder, Woodruff Keil, Woodruffkeil, Halbmondkeil, Scheibenfedern"),
        "fr": phrases("clavette disque, clavette demi-lune, clavette woodruff, clavette demi lune"),
        "es": phrases("chaveta woodruff, chaveta de disco, chaveta media luna, chaveta redonda"),
        "it": phrases(
            "linguetta a disco, linguetta woodruff, chiavetta a disco, chiavetta americana, chiavetta woodruff"
        ),
    },
    standards=(
        Standard("DIN 6888"),
        Standard("ISO 3912", rows="DIN 6888", order="Woodruff key ISO 3912 - {width} x {height}"),
        Standard("UNI 6606", rows="DIN 6888", order="Woodruff key UNI 6606 - {width} x {height}"),
        Standard("GB/T 1099", rows="DIN 6888", order="Woodruff key GB/T 1099 - {width} x {height}"),
        Standard("ASME B17.2", order="Woodruff key ASME B17.2 no. {number}"),
    ),
    table="woodruff_key",
    codes=(
        Code(
            r"(?:no|nr|num|number|n°|#)[. ]*(?P<number>[0-9]{3,4})",
            decode=_woodruff_number,
            says="American number: width in 1/32 in, then diameter in 1/8 in",
            source="ASME B17.2",
        ),
    ),
    layouts=(
        Layout(("width", "height", "outer_diameter"), when=lambda v: v["width"] < v["height"] < v["outer_diameter"]),
        Layout(("width", "outer_diameter", "height"), when=lambda v: v["width"] < v["height"] < v["outer_diameter"]),
        Layout(
            ("width", "height"),
            when=lambda v: _pair_is_listed("woodruff_key", "width", v["width"], v["height"], "height"),
        ),
        Layout(
            ("width", "outer_diameter"),
            when=lambda v: _pair_is_listed("woodruff_key", "width", v["width"], v["outer_diameter"], "outer_diameter"),
            says="no key of that height, but one of that disc diameter is listed",
            source="DIN 6888",
        ),
        Layout(("width", "height"), when=lambda v: v["width"] < v["height"]),
    ),
    needs=("width", "height|outer_diameter"),
    identity=("width", "height|outer_diameter"),
    order="Woodruff key DIN 6888 - {width} x {height}",
    question="Which width and height has the Woodruff key?",
    refine=_disc,
    listed_sizes=False,
    examples=(
        Example(
            "Woodruff key DIN 6888 - 4 x 6.5",
            dimensions={"width": "4", "height": "6.5", "outer_diameter": "16"},
            size_names="width x height",
        ),
        Example("Scheibenfeder 5x7,5", dimensions={"width": "5", "height": "7.5"}),
        Example("clavette disque 3x3,7", dimensions={"width": "3", "height": "3.7", "outer_diameter": "10"}),
        Example("woodruff key #404", dimensions={"width": "3.175", "outer_diameter": "12.7"}),
        Example("woodruff key 3", state="ambiguous"),
    ),
    source="DIN 6888; ASME B17.2",
)

FAMILIES = (PARALLEL_KEY, WOODRUFF_KEY)
