"""Rolling and linear bearings, by designation or by their sizes, and the word bearing that leaves the kind open.

A designation is a catalogue number: it names the bearing and its table gives the sizes. Sizes without a number are
bore, outside and width; the bore is always the smaller diameter, whichever stands first. A number that no table lists,
and sizes that no table lists, are doubted, never read as they stand.

Sources: ISO 15 (boundary dimensions), ISO 8443 (flanges), ISO 104 and ISO 3031 (thrust), ISO 3245 and ISO 3030 (needle
rollers), ISO 10285 (linear), makers' catalogues (tables).
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from itertools import permutations

from reference import tables
from reference.bearing_designations import DESIGNATION, BearingCode, decode
from reference.bearing_designations import FAMILIES as TABLES
from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts, Number
from reference.quantities import Dimension, Limits
from reference.sizes import size_table

BALL, FLANGED, THRUST, LINEAR = "ball bearing", "flanged ball bearing", "thrust ball bearing", "linear ball bearing"
NEEDLE, ANGULAR = "needle roller bearing", "angular contact ball bearing"

_COUNT = r"(?= ?[,(]? ?(?:x ?\d+|\d+ ?(?:x|pcs?|pieces?|off|stk|st|uds?|pz)\.?)? ?\)?$)"
_BEFORE = r"(?:(?<=^)|(?<=^\dx )|(?<=^\d\dx )|(?<=^\d pcs )|(?<=^\d\d pcs ))"
_LONE = (
    r"(?!79)\d{3,5}(?:x(?!\d))?|\d{2,3}/\d{1,2}(?:\.5)?|r(?:1[34568]\d|1810|[12]-[4-6])"
    r"|(?:f[fk]|e[fk]|as|sk) ?-?\d{1,4}"
)
_NO_COUNT = r"(?! ?(?:[x*\"$€°%]|mm|cm|m|g|kg|km|l|v|w|n|rpm|pcs?|pieces?|off|stk|stck|st|uds?|pz|usd|eur|in)(?![a-z]))"
_DIGITS = r"(?<![\w.,/-])(?:\d{3,5}|\d{2}/\d{2})(?![\w/]|[.,-]\w)"
_LOOSE = re.compile(
    r"(?:FF|FK|EF|EK|AS|SK) ?-?\d|(?:LM\w*|SCS?|SBR) ?-?\d+[SL]?(?!\d|[SL]| ?-?L?UU)"
    r"|\S+ +(?:LB|LU|DU|DD|EE|VV|UU|CM|CN)\b"
)
"""Letters that stand for many things: without the word bearing they name one only where they are the whole line."""

_CLOSED_BY_WORD = {
    "shielded": words("shielded shield deckscheibe deckscheiben blinde blindado schermato zz"),
    "sealed": words("sealed seals gedichtet abgedichtet etanche etanches sellado sigillato stagno dichtscheibe rs"),
    "open": words("open offen ouvert abierto aperto unshielded"),
    "closed": words("closed geschlossen ferme cerrado chiuso"),
}
_SUFFIX_OF = {"shielded": "ZZ", "sealed": "2RS", "open": "OPEN", "closed": "ZZ"}
_FLANGE_WORDS = words("flange flanged flansch bund collerette bride brida valona flangia flangiato pestana")
_INCH_ROUNDING = Decimal("0.02")
"""Inch sizes are printed to a thousandth: 0.196 in stands for 4.978 mm [mm]."""


@dataclass(frozen=True, slots=True)
class _Row:
    """A listed bearing: its designation, bore, outside and the widths (lengths, heights) that it comes in."""

    size: str
    bore: Decimal
    outer: Decimal
    thirds: tuple[Decimal, ...]


@cache
def _rows(family: str) -> tuple[_Row, ...]:
    found: list[_Row] = []
    for row in tables.load(TABLES[family]) if family in TABLES else ():
        if row.text("bore") and row.cells.get("outer_diameter"):
            keys = [key for key in ("width", "length", "height", "width_shielded") if row.cells.get(key)]
            thirds = tuple(dict.fromkeys(row.decimal(key) for key in keys))
            found.append(_Row(row.text("size"), row.decimal("bore"), row.decimal("outer_diameter"), thirds))
    return tuple(found)


def _close(one: Decimal, other: Decimal) -> bool:
    return abs(one - other) <= _INCH_ROUNDING


def _listed(family: str, bore: Decimal, outer: Decimal, third: Decimal | None = None) -> list[_Row]:
    """Return the bearings of a family with these diameters, and this width where one is given."""
    return [
        row
        for row in _rows(family)
        if _close(row.bore, bore)
        and _close(row.outer, outer)
        and (third is None or any(_close(item, third) for item in row.thirds))
    ]


def _near(family: str, bore: Decimal, outer: Decimal, third: Decimal) -> str:
    """Return up to two listed bearings that differ in one of the three sizes, the least different first."""
    near: list[tuple[Decimal, str]] = []
    for row in _rows(family):
        for item in row.thirds:
            off = [abs(row.bore - bore), abs(row.outer - outer), abs(item - third)]
            if sum(value > 0 for value in off) == 1 and max(off) <= Decimal(3):
                near.append((max(off), f"{row.size} ({row.bore} x {row.outer} x {item})"))
    return " or ".join(dict.fromkeys(text for _, text in sorted(near)[:2]))


def _sure(groups: Mapping[str, str]) -> Draft | None:
    """Accept a designation without the word bearing: its letters must mark it as one and a table must list it."""
    text = groups["all"].upper()
    if _LOOSE.match(text) or not _named(text):
        return None
    code = decode(text)
    if code is None or (re.match(r"R\d", code.designation) and not code.seal):
        return None
    return Draft(code.family, "catalogue number", "stated")


def _lone(groups: Mapping[str, str]) -> Draft | None:
    """Accept a number that is the whole line."""
    code = decode(groups["all"])
    return Draft(code.family, "catalogue number", "stated") if code is not None and code.known else None


def _known(groups: Mapping[str, str]) -> Draft | None:
    """Accept a listed designation beside a word that names a bearing."""
    return _lone({"all": _bare(groups["all"])})


def _any(groups: Mapping[str, str]) -> Draft | None:
    """Accept whatever has the form of a designation, beside a word that names a bearing."""
    code = decode(groups["all"])
    if code is None or (code.bare and len(code.designation) < 4):
        return None
    return Draft(code.family, "catalogue number", "stated")


def _named(text: str) -> bool:
    """Tell whether a table lists the designation, or its seal suffix marks it as one (18307RS)."""
    code = decode(text)
    return code is not None and (code.known or (bool(code.suggestion) and code.seal in {"RS", "2RS", "ZZ", "2Z"}))


def _bare(text: str) -> str:
    """Return a designation without the precision before it and the washers behind it."""
    return re.sub(r"^abec[ -]?\d[ ,]+|(?<=axk\d{4}).*|(?<=axk \d{4}).*", "", text)


_ANGULAR_CODE = Code(
    r"7[0-39]\d\d-?(?:becbp|bep|be|ac|a5|a|b|c)",
    identifies=True,
    decode=_lone,
    says="a bearing designation",
)
CODES = (
    Code(DESIGNATION, identifies=True, decode=_sure, says="a bearing designation"),
    Code(_BEFORE + f"(?:{_LONE})" + _COUNT, identifies=True, decode=_lone, says="a bearing designation"),
    _ANGULAR_CODE,
    Code(
        rf"(?:abec[ -]?\d[ ,]+)?(?:{DESIGNATION}|{_DIGITS}|r\d{{1,4}}a?)", decode=_known, says="a bearing designation"
    ),
    Code(DESIGNATION, decode=_any, says="a bearing designation"),
    Code(_DIGITS + _NO_COUNT, decode=_any, says="a bearing designation"),
)
"""Designations: those that letters mark, a number alone, and any number beside a word that names a bearing."""
BESIDE_A_NOUN = (replace(_ANGULAR_CODE, identifies=False), *CODES[3:])
"""Designations of a family that a word names; without such a word only the generic family looks for them."""

_AXIAL_SET = Code(
    r"axk ?\d{4} ?(?:\+|with|mit|and|und|&) ?(?:2 ?x? ?)?as ?\d{4}",
    identifies=True,
    decode=lambda groups: _lone({"all": _bare(groups["all"])}),
    says="a needle cage with its washers",
)


def listed_or_doubted(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read a bearing by its designation where there is one, else by its sizes."""
    code = decode(_bare(facts.code)) if facts.code else None
    if code is not None:
        return _by_number(family, facts, drafts[0], code)
    return [reading for draft in drafts for reading in _by_sizes(family, facts, draft)]


# -- by designation ---------------------------------------------------------------------------------------------


def _by_number(family: Family, facts: Facts, draft: Draft, code: BearingCode) -> list[Draft]:
    numbers = _numbers(facts)
    if not code.known:
        doubted = _kept(draft, code)
        doubted.doubts.append(f"{code.reason[0].upper()}{code.reason[1:]}. Which bore, outside and width?")
        if not code.suggestion:
            return [doubted]
        sizes = dict(zip(("bore", "outer_diameter", "width"), map(Limits, code.suggestion), strict=True))
        return [doubted, doubted.copy(dimensions=sizes, size_names="bore", evidence="assumed")]
    variants = [code] if code.closure else _variants(code, facts)
    fitting = [item for item in variants if not _unmatched(item, numbers)]
    if not fitting:
        return _disagreeing(family, draft, variants[0], numbers)
    found = [_kept(draft, item) for item in fitting]
    for reading, item in zip(found, fitting, strict=True):
        _home(family, facts, reading, item)
    if len(found) > 1:
        widths = " or ".join(f"{item.dimensions['width'].nominal} mm ({item.closure})" for item in fitting)
        found[0].doubts.append(f"{code.designation} is {widths} wide. Open, or with shields or seals?")
    if len(found) == 1 and family.name == FLANGED and code.family == BALL:
        return _flange_forgotten(draft, fitting[0])
    return found


def _numbers(facts: Facts) -> list[Number]:
    """Return the numbers of the line; one that stands before the designation counts pieces."""
    chained = [part for chain in facts.chains for part in chain if isinstance(part, Number)]
    first = chained[0] if chained else None
    if first is not None and first.before_word and facts.line.lstrip().startswith(first.text):
        if facts.quantity is None:
            facts.quantity = int(first.plain)
        if facts.quantity == first.plain:
            chained = chained[1:]
    return [*facts.labelled, *chained]


def _variants(code: BearingCode, facts: Facts) -> list[BearingCode]:
    """Return the code with the closure that words say; both where the sizes depend on it and nothing says it."""
    said = next((name for name, marks in _CLOSED_BY_WORD.items() if facts.says(*marks)), None)
    if said is None:
        return _closures(code)
    closed = decode(f"{code.designation} {_SUFFIX_OF[said]}")
    return [code if closed is None else replace(closed, seal="", clearance=code.clearance)]


_LABEL_KEYS: Mapping[str, tuple[str, ...]] = {
    "id": ("bore",),
    "bore": ("bore",),
    "shaft": ("bore",),
    "od": ("outer_diameter",),
}
_THIRD = ("width", "length", "height", "centre_height")
_NAMED_SIZES = frozenset({"bore", "outer_diameter", "flange_diameter", "shaft_size", *_THIRD})
"""Sizes that a line states beside a designation; no one states a flange's thickness alone."""


def _unmatched(code: BearingCode, numbers: Sequence[Number]) -> list[Number]:
    """Return the numbers of the line that are none of the bearing's sizes."""
    pool = [(key, value.nominal) for key, value in code.dimensions.items() if key in _NAMED_SIZES]
    left: list[Number] = []
    for number in numbers:
        if number.label == "quantity":
            continue
        keys = _LABEL_KEYS.get(number.label or "", ())
        if number.label in {"width", "length", "height", "thickness", "depth"}:
            keys = _THIRD
        hit = next((item for item in pool if _close(item[1], number.value) and (not keys or item[0] in keys)), None)
        if hit is None:
            left.append(number)
        else:
            pool.remove(hit)
    return left


def _kept(draft: Draft, code: BearingCode) -> Draft:
    """Return the reading of a designation: its table's sizes, its suffixes, its order text."""
    attributes = {**draft.attributes, "series": code.designation}
    for key in ("seal", "closure", "clearance", "precision", "form"):
        if value := getattr(code, key):
            attributes[key] = value
    if code.material:
        attributes["material"] = code.material
    because = list(draft.because)
    if code.known:
        because.append((code.designation, _sizes_text(code), code.source))
    kept = draft.copy(
        family=code.family,
        size_names=_SIZE_NAMES.get(code.family, "catalogue number"),
        evidence="stated",
        dimensions={**_also_listed(code), **code.dimensions},
        attributes=attributes,
        because=because,
        rest=[part for part in draft.rest if not isinstance(part, Number)],
    )
    if code.family == NEEDLE and code.designation.startswith("K"):
        kept.size_names = "bore"
    kept.order_text = _order(code)
    return kept


def _also_listed(code: BearingCode) -> Mapping[str, Dimension]:
    """Return what the table says besides the sizes, such as holes and threads, where no closure changes it."""
    if not code.known or code.family in {BALL, FLANGED}:
        return {}
    rows = size_table(TABLES[code.family], "catalogue_number").rows
    return next((row.dimensions for row in rows if row.size == code.designation), {})


_SIZE_NAMES = dict.fromkeys(("linear bearing block", "bearing block", "shaft support"), "shaft size")


def _sizes_text(code: BearingCode) -> str:
    shown = [f"{key.replace('_', ' ')} {value.nominal}" for key, value in code.dimensions.items()]
    return "listed with " + ", ".join(shown[:3])


def _order(code: BearingCode) -> str:
    """Return the designation to order, with the sizes that prove it."""
    sizes = [code.dimensions[key].nominal for key in ("bore", "outer_diameter") if key in code.dimensions]
    sizes += [code.dimensions[key].nominal for key in ("width", "length", "height") if key in code.dimensions][:1]
    closure = code.seal or (f", {code.closure}" if code.closure else "")
    joint = "-" if code.seal and code.seal != "open" else " " if code.seal else ""
    suffix = f" {code.clearance}" if code.clearance else ""
    text = f"{_title(code.family)} {code.designation}{joint}{closure}{suffix}"
    if len(sizes) == 3 and code.family in _SIZED:
        text += ", " + " x ".join(format(size.normalize(), "f") for size in sizes) + " mm"
    return f"{text}, stainless" if code.material else text


def _title(family: str) -> str:
    return family[0].upper() + family[1:]


_SIZED = frozenset({BALL, FLANGED, ANGULAR, THRUST, NEEDLE, LINEAR})


def _home(family: Family, facts: Facts, reading: Draft, code: BearingCode) -> None:
    """Ask where the words name another kind of bearing than the number."""
    if family.generic or code.family == family.name or code.family in family.kin:
        return
    if {family.name, code.family} == {FLANGED, BALL}:
        return
    reading.doubts.append(f"{code.designation} is a {code.family}, but the line says {family.name}. Which one?")


def _flange_forgotten(draft: Draft, code: BearingCode) -> list[Draft]:
    """``flange bearing 623``: the number without F has no flange."""
    flanged = decode(f"F{code.designation} {_SUFFIX_OF.get(code.closure, '')}")
    plain = _kept(draft, code)
    number = f"F{code.designation}"
    plain.doubts.append(f"{code.designation} has no flange; the one with a flange is {number}. Is {number} meant?")
    if flanged is None or not flanged.known:
        return [plain]
    return [_kept(draft, flanged), plain]


def _disagreeing(family: Family, draft: Draft, code: BearingCode, numbers: Sequence[Number]) -> list[Draft]:
    """Number and sizes of the line do not go together: read it both ways, or ask what the odd size is."""
    kept = _kept(draft, code)
    if len(numbers) != 3:
        kept.rest = [*kept.rest, *_unmatched(code, numbers)]
        return [kept]
    one, two, three = (number.value for number in numbers)
    said = " x ".join(format(number.plain.normalize(), "f") for number in numbers)
    own = " x ".join(
        format(code.dimensions[key].nominal.normalize(), "f")
        for key in ("bore", "outer_diameter", "width", "length", "height")
        if key in code.dimensions
    )
    others = [row.size for row in _listed(code.family, min(one, two), max(one, two), three)]
    also = f" ({others[0]})" if others else ""
    kept.doubts.append(f"{code.designation} is {own} mm, the line says {said}{also}. Which one is wanted?")
    other = decode(others[0]) if others else None
    if other is None or not other.known:
        return [kept]
    matching = [item for item in _closures(other) if not _unmatched(item, numbers)]
    return [kept, *(_kept(draft, item) for item in matching[:1])]


def _closures(code: BearingCode) -> list[BearingCode]:
    """Return the code as it is, and open and shielded where its sizes depend on that."""
    if not code.widths:
        return [code]
    found = [(name, decode(f"{code.designation} {_SUFFIX_OF[name]}")) for name in ("open", "shielded")]
    return [
        replace(item, seal="", closure="open" if name == "open" else "closed", clearance=code.clearance)
        for name, item in found
        if item is not None
    ]


# -- by sizes ---------------------------------------------------------------------------------------------------


def _by_sizes(family: Family, facts: Facts, draft: Draft) -> list[Draft]:
    bore, outer = draft.nominal("bore"), draft.nominal("outer_diameter")
    third_key = next((key for key in ("width", "length", "height") if key in draft.dimensions), None)
    third = draft.nominal(third_key) if third_key else None
    if bore is not None and draft.size_names == family.size_names:
        draft.size_names = "bore"
    if bore is not None and outer is not None:
        return _three(family, facts, draft, bore, outer, third)
    single = draft.dimensions.pop("size", None)
    if isinstance(single, Limits):
        return _single(family, draft, single.nominal)
    if bore is not None or outer is not None:
        return _single(family, draft, bore if bore is not None else outer or Decimal(0), "bore" if bore else "outer")
    draft.doubts.append(family.question)
    return [draft]


def _searched(family: Family, facts: Facts) -> tuple[str, ...]:
    """Return the families whose tables may hold the sizes, the likeliest first."""
    if family.name in TABLES and not family.generic:
        return (family.name,)
    if facts.says(*_FLANGE_WORDS):
        return (FLANGED,)
    return (BALL, LINEAR, THRUST, NEEDLE)


def _three(
    family: Family, facts: Facts, draft: Draft, bore: Decimal, outer: Decimal, third: Decimal | None
) -> list[Draft]:
    """Find the listed bearing with these sizes; the width too may stand in another place."""
    for name in _searched(family, facts):
        rows = _listed(name, bore, outer, third)
        if not rows and third is not None:
            largest = max(bore, outer, third)
            orders = {order for order in permutations((bore, outer, third)) if order[1] == largest}
            rows = [row for order in sorted(orders) if order[0] < order[1] for row in _listed(name, *order)]
        if name == LINEAR:
            flanged = facts.says(*_FLANGE_WORDS)
            rows = [row for row in rows if row.size.startswith(("LMF", "LMK", "LMH")) == flanged] or rows
            if flanged and len(rows) > 1:
                draft.doubts.append(f"Round, square or oval flange: {', '.join(row.size for row in rows)}?")
        if rows:
            return _found(draft.copy(family=name), facts, rows, third)
    sized = " x ".join(format(size.normalize(), "f") for size in (bore, outer, third) if size is not None)
    name = _searched(family, facts)[0]
    near = _near(name, bore, outer, third) if third is not None else ""
    draft = draft.copy(family=family.name if family.name in TABLES and not family.generic else name)
    draft.order_text = f"{_title(draft.family)} {sized} mm"
    question = f"No {draft.family} of {sized} mm is listed" + (f"; near it: {near}" if near else "")
    if draft.family in {THRUST, NEEDLE} and third is not None:
        draft.notes.append(("size-not-listed", question, COMMON_PRACTICE))
        return [draft]
    draft.doubts.append(f"{question}. Which number?")
    return [draft]


def _found(draft: Draft, facts: Facts, rows: Sequence[_Row], third: Decimal | None) -> list[Draft]:
    """Return the reading of the first designation with these sizes, or each where the line leaves the width open."""
    size_names = draft.size_names
    if third is None and len({row.thirds for row in rows}) > 1:
        kinds = ", ".join(f"{row.size} ({' or '.join(map(str, row.thirds))} mm)" for row in rows[:4])
        draft.doubts.append(f"These diameters belong to {kinds}. Which width?")
        return [draft]
    codes = [code for row in rows if (code := decode(row.size)) is not None]
    fitting = [item for code in codes for item in _variants(code, facts) if third is None or _has_third(item, third)]
    if third is not None and not fitting:
        fitting = [item for code in codes for item in _closures(code) if _has_third(item, third)]
    alike: dict[tuple[tuple[str, Decimal], ...], list[BearingCode]] = {}
    for item in fitting or codes[:1]:
        alike.setdefault(tuple((key, value.nominal) for key, value in item.dimensions.items()), []).append(item)
    found: list[Draft] = []
    for first, *others in alike.values():
        reading = _kept(draft, first)
        reading.size_names, reading.evidence = size_names, "implied"
        if others:
            same = ", ".join(item.designation for item in others)
            reading.notes.append(("same-sizes", f"{same} has the same sizes", COMMON_PRACTICE))
        found.append(reading)
    _check_stated(draft, found[0])
    if len(found) > 1:
        names = ", ".join(f"{item[0].designation} {item[0].closure}".strip() for item in alike.values())
        found[0].doubts.append(f"{names} have these diameters. Which one, open or with shields or seals?")
    elif third is None:
        found[0].asks.append(f"{found[0].attributes['series']} by its two diameters, the width is not stated")
    return found


def _check_stated(draft: Draft, reading: Draft) -> None:
    """Doubt a further size of the line, such as the flange, that the listed bearing has not."""
    for key, stated in draft.dimensions.items():
        listed = reading.dimensions.get(key)
        if (
            key in {"bore", "outer_diameter", *_THIRD}
            or not isinstance(stated, Limits)
            or not isinstance(listed, Limits)
        ):
            continue
        if not _close(stated.nominal, listed.nominal):
            series, name = reading.attributes.get("series", ""), key.replace("_", " ")
            said = f"{stated.nominal.normalize():f}"
            reading.doubts.append(f"{series} has {name} {listed.nominal}, the line says {said}. Which is right?")


def _has_third(code: BearingCode, third: Decimal) -> bool:
    """Tell whether the width (length, height) of a bearing is the given one."""
    own = next((code.dimensions[key].nominal for key in ("width", "length", "height") if key in code.dimensions), third)
    return _close(own, third)


def _single(family: Family, draft: Draft, size: Decimal, names: str | None = None) -> list[Draft]:
    """One number alone leaves the bearing open: give the meanings that the tables have."""
    shown = format(size.normalize(), "f")
    found: list[Draft] = []
    specific = family.name in TABLES and not family.generic
    for name in (family.name,) if specific else (BALL, LINEAR):
        by_bore = [row for row in _rows(name) if row.bore == size]
        by_outer = [row for row in _rows(name) if row.outer == size] if name == BALL else []
        for key, rows in (("bore", by_bore), ("outer_diameter", by_outer)):
            if rows and names != ("outer" if key == "bore" else "bore"):
                listed = ", ".join(f"{row.size} ({row.outer} outside)" for row in rows[:4])
                reading = draft.copy(family=name, size_names=key.replace("_", " "), evidence="assumed")
                reading.dimensions = {**reading.dimensions, key: Limits(size)}
                reading.because.append((shown, f"{key.replace('_', ' ')} of {listed}", COMMON_PRACTICE))
                found.append(reading)
    if not found:
        found = [draft.copy(dimensions={**draft.dimensions, "bore": Limits(size)}, size_names="bore")]
    kinds = ", ".join(f"{row.size} {row.bore}x{row.outer}" for row in _rows(found[0].family) if row.bore == size)
    known = f" (bore {shown}: {kinds[:60].rpartition(',')[0] or kinds})" if kinds else ""
    found[0].doubts.append(f"{shown} mm alone names no bearing{known}. Which number, or bore x outside x width?")
    return found


def _roller(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A track roller has no listed sizes; one number alone may be its bore or its outside."""
    for draft in drafts:
        single = draft.dimensions.pop("size", None)
        if isinstance(single, Limits):
            draft.doubts.append(f"Is {single.nominal.normalize():f} mm the bore or the outside of the roller?")
    return drafts


# -- declarations -----------------------------------------------------------------------------------------------


def _layouts(third: str) -> tuple[Layout, ...]:
    def right(values: Mapping[str, Decimal]) -> bool:
        return values["bore"] < values["outer_diameter"]

    smaller = "the smaller diameter is the bore"
    return (
        Layout(("bore", "outer_diameter", third), when=right, says=smaller, size_names="bore"),
        Layout(("outer_diameter", "bore", third), when=right, says=smaller, size_names="outer diameter"),
        Layout(("bore", "outer_diameter"), when=right, says=smaller, size_names="bore"),
        Layout(("outer_diameter", "bore"), when=right, says=smaller, size_names="outer diameter"),
        Layout(("size",)),
    )


def _labels(third: str) -> dict[str, str]:
    return {
        **dict.fromkeys(("width", "length", "height", "thickness", "depth"), third),
        **dict.fromkeys(("hole", "shaft"), "bore"),
    }


def _family(name: str, third: str, nouns: Mapping[str, tuple[str, ...]]) -> Family:
    """Return a bearing family with what all of them share; ``third`` is the key of its width."""
    return Family(
        name=name,
        size_names="catalogue number",
        key="catalogue_number",
        nouns=nouns,
        table=TABLES.get(name),
        codes=BESIDE_A_NOUN,
        layouts=_layouts(third),
        labels=_labels(third),
        needs=("bore", "outer_diameter", third),
        order=f"{_title(name)} {{bore}} x {{outer_diameter}} x {{{third}}}",
        question="Which bearing number, or which bore x outside x width?",
        refine=listed_or_doubted,
        unless=_OTHER_THINGS,
    )


_OTHER_THINGS = words(
    "grease fett graisse grasa grasso puller pullers abzieher extractor extracteur estrattore heater adhesive"
    " oil wall load beer bier press splitter scraper packer cleaner seat"
)
_BRG = "bearing, brg, bearings"
_LAGER, _ROULEMENT, _RODAMIENTO, _CUSCINETTO = "Lager", "roulement", "rodamiento, cojinete", "cuscinetto, cuscinetti"

BEARING = replace(
    _family(
        "bearing",
        "width",
        {
            "en": phrases(_BRG),
            "de": phrases("Lager, Wälzlager"),
            "fr": phrases(_ROULEMENT),
            "es": phrases(_RODAMIENTO),
            "it": phrases(_CUSCINETTO),
            "zh": phrases("zhoucheng"),
        },
    ),
    table=None,
    codes=(_AXIAL_SET, *CODES),
    generic=True,
    needs=(),
    order="Bearing {bore?} x {outer_diameter?} x {width?}",
    examples=(
        Example("8 mm bearing", state="ambiguous"),
        Example("bearing 50x67x7", state="ambiguous"),
        Example("bearing 18307RS", state="ambiguous"),
    ),
    source="ISO 15; makers' catalogues",
)

BALL_BEARING = replace(
    _family(
        BALL,
        "width",
        {
            "en": phrases(
                "ball, deep groove, deep groove ball, radial, miniature, radial ball, skate, skateboard, rolling", _BRG
            )
            + phrases("ballbearing, ballbearings"),
            "de": phrases("Kugellager, Rillenkugellager, Miniaturkugellager, Rillenlager, Miniaturlager, Radiallager"),
            "fr": phrases("roulement à billes, roulement à bille, roulement rigide, roulement billes"),
            "es": phrases(
                "rodamiento de bolas, rodamiento rígido, rodamiento bolas, rodamiento radial, cojinete de bolas"
            ),
            "it": phrases("cuscinetto a sfere, cuscinetto sfere, cuscinetto radiale"),
            "zh": phrases("shengou qiu zhoucheng"),
        },
    ),
    standards=(
        Standard("ISO 15"),
        Standard("DIN 625"),
        Standard("DIN 625-1"),
        Standard("GB/T 276"),
    ),
    kin=(FLANGED, ANGULAR, THRUST, NEEDLE, LINEAR, "track roller"),
    examples=(
        Example(
            "608-2RS",
            dimensions={"bore": "8", "outer_diameter": "22", "width": "7"},
            size_names="catalogue number",
        ),
        Example("6203", dimensions={"bore": "17", "outer_diameter": "40", "width": "12"}),
        Example("MR105ZZ", dimensions={"bore": "5", "outer_diameter": "10", "width": "4"}),
        Example(
            "bearing 10x3x4 mm",
            dimensions={"bore": "3", "outer_diameter": "10", "width": "4"},
            size_names="outer diameter",
        ),
        Example("Rillenkugellager 6204-2RS C3", dimensions={"bore": "20", "outer_diameter": "47", "width": "14"}),
        Example("roulement à billes 625 ZZ", dimensions={"bore": "5", "outer_diameter": "16", "width": "5"}),
        Example("MR105 bearing", state="ambiguous"),
        Example("MR115 5x11x5", state="ambiguous"),
    ),
    source="ISO 15; limits ISO 492 Normal class; makers' catalogues",
)

FLANGED_BALL_BEARING = replace(
    _family(
        FLANGED,
        "width",
        {
            "en": phrases("flange, flanged, flanged ball, flange ball", _BRG),
            "de": phrases(
                "Flanschkugellager, Bundkugellager, Kugellager mit Flansch, Kugellager Bund, Kugellager Flansch"
            ),
            "fr": phrases("roulement à collerette, roulement à bride, roulement épaulé, roulement billes collerette"),
            "es": phrases(
                "rodamiento con brida, rodamiento con pestaña, rodamiento con valona, rodamiento bolas brida"
            ),
            "it": phrases("cuscinetto flangiato, cuscinetto con flangia, cuscinetto sfere flangia"),
        },
    ),
    standards=(Standard("ISO 8443"),),
    kin=("bearing block", "flanged bush", LINEAR),
    examples=(
        Example(
            "F623ZZ",
            dimensions={"bore": "3", "outer_diameter": "10", "width": "4", "flange_diameter": "11.5"},
            size_names="catalogue number",
        ),
        Example("flanged brg F624 2RS (4/13/5)", dimensions={"bore": "4", "outer_diameter": "13", "width": "5"}),
        Example("flange bearing 623", state="ambiguous"),
        Example("flanged bearing 5x16x5", dimensions={"bore": "5", "outer_diameter": "16", "width": "5"}),
    ),
    source="ISO 8443; makers' catalogues",
)

ANGULAR_CONTACT = replace(
    _family(
        ANGULAR,
        "width",
        {
            "en": phrases("angular contact, angular contact ball, angular", _BRG),
            "de": phrases("Schrägkugellager, Spindellager"),
            "fr": phrases("roulement à contact oblique, roulement contact oblique"),
            "es": phrases("rodamiento de contacto angular, rodamiento contacto angular"),
            "it": phrases("cuscinetto a contatto obliquo, cuscinetto obliquo"),
        },
    ),
    standards=(Standard("DIN 628"),),
    examples=(
        Example("angular contact bearing 7001", dimensions={"bore": "12", "outer_diameter": "28", "width": "8"}),
        Example("Schrägkugellager 7200B", dimensions={"bore": "10", "outer_diameter": "30", "width": "9"}),
        Example("7204AC angular bearing", dimensions={"bore": "20", "outer_diameter": "47", "width": "14"}),
        Example("angular contact bearing", state="ambiguous"),
    ),
    source="ISO 15; makers' catalogues",
)

THRUST_BEARING = replace(
    _family(
        THRUST,
        "height",
        {
            "en": phrases("thrust, thrust ball, axial, axial ball, thrust needle, needle thrust, thrust roller", _BRG)
            + phrases("thrust washer bearing, thrust cage"),
            "de": phrases(
                "Axiallager, Axialkugellager, Axialrillenkugellager, Axialnadellager, Axialnadelkranz, Drucklager"
            ),
            "fr": phrases("butée à billes, butée à aiguilles, roulement axial, butée billes, butée axiale"),
            "es": phrases("rodamiento axial, cojinete axial, rodamiento de empuje, rodamiento axial de bolas"),
            "it": phrases("cuscinetto assiale, cuscinetto reggispinta, reggispinta, cuscinetto assiale a sfere"),
        },
    ),
    standards=(Standard("ISO 104"), Standard("DIN 711")),
    codes=(_AXIAL_SET, *BESIDE_A_NOUN),
    examples=(
        Example("F8-16M thrust", dimensions={"bore": "8", "outer_diameter": "16", "height": "5"}),
        Example("thrust bearing 51105", dimensions={"bore": "25", "outer_diameter": "42", "height": "11"}),
        Example("AXK1024", dimensions={"bore": "10", "outer_diameter": "24", "height": "2"}),
        Example("Axiallager 8x16x5", dimensions={"bore": "8", "outer_diameter": "16", "height": "5"}),
        Example("thrust bearing 10 mm", state="ambiguous"),
    ),
    source="ISO 104, ISO 3031; makers' catalogues",
)

NEEDLE_BEARING = replace(
    _family(
        NEEDLE,
        "width",
        {
            "en": phrases("needle, needle roller, drawn cup, drawn cup needle", _BRG)
            + phrases("needle cage, needle roller cage, needle roller, drawn cup needle roller"),
            "de": phrases("Nadellager, Nadelhülse, Nadelkranz, Nadelbüchse, Nadelkäfig"),
            "fr": phrases("roulement à aiguilles, douille à aiguilles, cage à aiguilles"),
            "es": phrases("rodamiento de agujas, casquillo de agujas, cojinete de agujas, jaula de agujas"),
            "it": phrases("cuscinetto a rullini, astuccio a rullini, gabbia a rullini, cuscinetto rullini"),
        },
    ),
    standards=(Standard("ISO 3245"), Standard("ISO 3030"), Standard("DIN 618"), Standard("DIN 5405")),
    kin=(THRUST,),
    examples=(
        Example("needle cage K8x11x10", dimensions={"bore": "8", "outer_diameter": "11", "width": "10"}),
        Example(
            "HK0810",
            dimensions={"bore": "8", "outer_diameter": "12", "width": "10"},
            size_names="catalogue number",
        ),
        Example("Nadellager HK 1012", dimensions={"bore": "10", "outer_diameter": "14", "width": "12"}),
        Example("needle bearing 8x12x10", dimensions={"bore": "8", "outer_diameter": "12", "width": "10"}),
        Example("needle bearing 8 mm", state="ambiguous"),
    ),
    source="ISO 3245, ISO 3030; makers' catalogues",
)

TRACK_ROLLER = replace(
    _family(
        "track roller",
        "width",
        {
            "en": phrases("u groove, v groove, groove roller, h groove, track roller, guide roller, v wheel", _BRG)
            + phrases("track roller, cam follower, guide roller bearing, groove roller, roller guide wheel bearing"),
            "de": phrases("Laufrolle, Führungsrolle, Kurvenrolle, Stützrolle, Laufrollenlager"),
            "fr": phrases("galet de came, galet de guidage, roulement gorge, roulement à gorge, galet roulement"),
            "es": phrases(
                "rodillo de leva, rodillo guía, rodamiento ranura U, rodamiento ranura V, rodamiento ranurado"
            ),
            "it": phrases("rotella guida, perno folle, cuscinetto gola, cuscinetto scanalato, rullo guida"),
        },
    ),
    codes=(
        Code(
            r"(?:[uv]|lr|lv|rm|sg|w) ?-?\d{1,4}(?: ?(?:zz|2rs|uu|vv|nppu))?|\d{3,4} ?(?:zz|2rs|uu|vv)",
            says="a maker's designation",
        ),
    ),
    identity=("bore",),
    refine=_roller,
    examples=(
        Example("U groove bearing 4mm x 13mm x 4mm", dimensions={"bore": "4", "outer_diameter": "13", "width": "4"}),
        Example("V groove bearing 623VV 3x12x4", dimensions={"bore": "3", "outer_diameter": "12", "width": "4"}),
        Example("Laufrolle 5 x 17 x 7", dimensions={"bore": "5", "outer_diameter": "17", "width": "7"}),
        Example("cam follower 6 mm", state="ambiguous"),
    ),
)

LINEAR_BEARING = replace(
    _family(
        LINEAR,
        "length",
        {
            "en": phrases("linear, linear ball, linear motion, linear slide", _BRG)
            + phrases("ball bushing, linear bushing, linear ball bushing, linear bush, ball bush"),
            "de": phrases("Linearlager, Linearkugellager, Kugelbuchse, Linear Kugellager, Linearbuchse"),
            "fr": phrases(
                "roulement linéaire, douille à billes, roulement à billes linéaire, guidage à billes linéaire"
            ),
            "es": phrases("rodamiento lineal, casquillo de bolas, rodamiento lineal de bolas, cojinete lineal"),
            "it": phrases("cuscinetto lineare, manicotto a sfere, cuscinetto lineare a sfere, boccola a sfere"),
            "zh": phrases("zhixian zhoucheng"),
        },
    ),
    standards=(Standard("ISO 10285"),),
    kin=("linear bearing block",),
    mates=Mates(housing=("H7", "H7"), seat=("g6", "h6")),
    examples=(
        Example(
            "LM8UU",
            dimensions={"bore": "8", "outer_diameter": "15", "length": "24"},
            size_names="catalogue number",
        ),
        Example("LME8UU", dimensions={"bore": "8", "outer_diameter": "16", "length": "25"}),
        Example("Linearlager LM12UU", dimensions={"bore": "12", "outer_diameter": "21", "length": "30"}),
        Example("LM 8UU linear bearing x2", dimensions={"bore": "8"}),
        Example("linear bearing 8 mm", state="ambiguous"),
    ),
    source="ISO 10285; makers' catalogues",
)

FAMILIES = (
    BEARING,
    BALL_BEARING,
    FLANGED_BALL_BEARING,
    ANGULAR_CONTACT,
    THRUST_BEARING,
    NEEDLE_BEARING,
    TRACK_ROLLER,
    LINEAR_BEARING,
)
