"""Turns what a line says into readings of one part family, by that family's declaration.

Numbers with labels go where the label says, threads where the family has its thread, the rest in the family's order;
then the family's table adds what the standard fixes. Whatever number finds no place is a doubt, never dropped.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache, lru_cache
from types import MappingProxyType
from typing import NamedTuple, cast

from reference import fits, threads
from reference.families import by_name
from reference.families.base import COMMON_PRACTICE, Code, Family, Layout, Standard
from reference.families.facts import Draft, Facts, Number, ThreadMention
from reference.lookalikes import lookalikes
from reference.quantities import Dimension, Limits, Rating, ThreadSize
from reference.sizes import Size, dimension_value
from reference.units import tidy
from reference.words import MM_PER_INCH
from service.reading.model import Because, Evidence, Note, Reading

SIZE_NAMES: Mapping[str, str] = {
    "outer_diameter": "outer diameter",
    "bore": "bore",
    "internal_thread": "internal thread",
    "thread": "external thread",
    "screw_size": "screw size",
    "shaft_size": "shaft size",
    "hole_diameter": "hole size",
    "across_flats": "across flats",
    "cross_section": "cross-section",
    "shoulder_diameter": "shoulder diameter",
    "small_end_diameter": "small end diameter",
    "wire_diameter": "wire diameter",
    "size_class": "size class",
    "teeth": "teeth",
    "pitch_length": "pitch length",
    "groove_diameter": "groove diameter",
    "belt_width": "belt width",
}
"""Dimension key -> the contract's word for a size that names it."""

_LARGEST = Decimal(100_000)
"""No bought part is longer than this [mm]: a mistyped number."""

_COUNTS = frozenset({"teeth", "starts"})


@dataclass(frozen=True, slots=True)
class CodeMatch:
    """A catalogue designation found in the line."""

    code: Code
    text: str
    groups: Mapping[str, str]


@lru_cache(maxsize=16384)
def limits_of(value: Decimal, upper: Decimal | None = None) -> Limits:
    """Return a dimension of which only the nominal size is known."""
    return Limits(tidy(value)) if upper is None else Limits(tidy(value), tidy(value), tidy(upper))


@lru_cache(maxsize=32768)
def class_limits(nominal: Decimal, name: str) -> Limits | None:
    """Return the limits of a tolerance class at a size, or None where the standard defines none."""
    try:
        return fits.limits(nominal, name)
    except ValueError:
        return None


def _say(draft: Draft, text: str, says: str, source: str) -> None:
    draft.because.append((text, says, source))


def _label(family: Family, draft: Draft, number: Number) -> bool:
    label = number.label or ""
    key = family.label_keys.get(label)
    if label == "diameter" and key is None:
        key = family.key if family.key.endswith(("diameter", "bore", "shaft_size")) else "outer_diameter"
    if label == "thread" and key is None and family.thread:
        thread = threads.metric(number.value)
        if thread is None:
            return False
        draft.dimensions[family.thread] = thread
        _say(draft, number.text, f"names the {family.thread.replace('_', ' ')}", COMMON_PRACTICE)
        return True
    if key is None or key == "-" or key in draft.dimensions:
        return False
    if key.startswith("@"):
        draft.attributes[key[1:]] = str(tidy(number.plain))
    elif key == "quantity":
        return False
    else:
        value = number.plain if key in _COUNTS else number.value
        draft.dimensions[key] = limits_of(value, number.upper)
    _say(draft, number.text, f"names the {key.strip('@').replace('_', ' ')}", "the line's own words")
    return True


def _thread(family: Family, draft: Draft, mention: ThreadMention) -> bool:
    if family.thread is None or family.thread in draft.dimensions:
        return False
    thread = mention.thread
    if draft.attributes.get("hand") == "left":
        thread = thread._replace(hand="left")
    draft.dimensions[family.thread] = thread
    if thread.system == "metric" and thread.pitch is None and not threads.pitches(thread.diameter):
        draft.doubts.append(f"ISO 261 lists no thread {thread.designation}. Which thread is meant?")
    says = {
        "metric": "M marks an ISO metric thread",
        "unified": f"an inch thread, {tidy(thread.diameter)} mm outside: size and threads per inch, no millimetres",
        "pipe": "the letter marks a pipe thread; its number is no diameter",
        "tapping": "ST marks a tapping screw thread",
    }.get(thread.system, "names the thread")
    source = {"metric": "ISO 965-1", "unified": "ASME B1.1", "pipe": "ISO 228-1 / ISO 7-1", "tapping": "ISO 1478"}
    if family.thread == "screw_size":
        says = "names the screw that it takes"
    _say(draft, mention.text, says, source.get(thread.system, COMMON_PRACTICE))
    return True


def _layouts(family: Family, draft: Draft, numbers: Sequence[Number]) -> list[tuple[Layout, tuple[str, ...]]]:
    """Return the layouts that these unlabelled numbers fill, the preferred one first."""
    count = len(numbers)
    found: list[tuple[Layout, tuple[str, ...]]] = []
    for layout in family.layouts:
        left = layout.keys
        if not draft.dimensions.keys().isdisjoint(left):
            left = tuple([key for key in left if key not in draft.dimensions])
        if len(left) != count:
            continue
        if found and not layout.competes:
            continue
        if layout.when is not None:
            values = {key: number.value for key, number in zip(left, numbers, strict=True)}
            for key, dimension in draft.dimensions.items():
                value = dimension_value(dimension)
                if isinstance(value, Decimal):
                    values.setdefault(key, value)
                elif isinstance(dimension, ThreadSize):
                    values.setdefault(key, dimension.diameter)
            try:
                if not layout.when(values):
                    continue
            except KeyError:  # the rule compares with a dimension that the line does not give
                continue
        found.append((layout, left))
    return found


def _copy(draft: Draft) -> Draft:
    return replace(
        draft,
        dimensions=dict(draft.dimensions),
        attributes=dict(draft.attributes),
        because=list(draft.because),
        notes=list(draft.notes),
        doubts=list(draft.doubts),
        asks=list(draft.asks),
        rest=list(draft.rest),
    )


def _place(family: Family, base: Draft, numbers: list[Number], facts: Facts) -> list[Draft]:
    """Give the unlabelled numbers to dimension keys; one draft for each order that the family allows."""
    if not numbers:
        return [base]
    if not family.layouts and family.refine is not None:
        base.rest.extend(numbers)  # a family without orders places its numbers itself
        return [base]
    fitting = _layouts(family, base, numbers)
    rest: list[Number] = []
    taken = numbers
    if not fitting and facts.quantity is None and (counted := next((n for n in numbers if n.before_word), None)):
        sizes = [number for number in numbers if number is not counted]
        if not sizes or _layouts(family, base, sizes):
            facts.quantity = int(counted.plain)
            _say(
                base, counted.text, "a whole number before the noun, beside a full size, counts pieces", COMMON_PRACTICE
            )
            if not sizes:
                return [base]
            taken, fitting = sizes, _layouts(family, base, sizes)
    while not fitting and len(taken) > 1:
        rest.insert(0, taken[-1])
        taken = taken[:-1]
        fitting = _layouts(family, base, taken)
    if not fitting:
        base.rest.extend(numbers)
        return [base]
    drafts: list[Draft] = []
    for layout, keys in fitting:
        draft = base if len(fitting) == 1 else _copy(base)
        for key, number in zip(keys, taken, strict=True):
            if key.startswith("-"):
                continue
            if key.startswith("@"):
                draft.attributes[key[1:]] = str(tidy(number.plain))
                continue
            draft.dimensions[key] = limits_of(number.plain if key in _COUNTS else number.value, number.upper)
            says = f"{key.replace('_', ' ')}"
            if layout.says:
                says += f": {layout.says}"
            _say(draft, number.text, says, layout.source)
        if layout.size_names:
            draft.size_names = layout.size_names
        draft.rest.extend(rest)
        drafts.append(draft)
    return drafts


_CLASSED_KEYS = frozenset({"outer_diameter", "small_end_diameter", "large_end_diameter", "shaft_size"})
"""Sizes that may carry a tolerance class m."""


def _class_as_thread(family: Family, facts: Facts) -> ThreadMention | None:
    """Return the thread that ``M8`` behind a number is in a part whose size takes no class m: ``knob 40 m8 x 20``."""
    mention = facts.classes[0] if facts.classes else None
    if mention is None or family.thread is None or family.key in _CLASSED_KEYS or facts.threads():
        return None
    size = mention.name[1:]
    thread = threads.metric(Decimal(size)) if mention.name[0] in "mM" and size.isdigit() else None
    return ThreadMention(thread, mention.text) if thread is not None else None


def _apply_class(family: Family, draft: Draft, facts: Facts) -> None:
    """Put a stated, a standard's or an assumed tolerance class on the key dimension."""
    key = family.key
    dimension = draft.dimensions.get(key)
    if not isinstance(dimension, Limits):
        return
    mention = facts.classes[0] if facts.classes and _class_as_thread(family, facts) is None else None
    if mention is not None and not mention.hole:
        limits = class_limits(dimension.nominal, mention.name)
        if limits is not None:
            draft.dimensions[key] = limits
            draft.attributes["tolerance_class"] = mention.name
            _say(draft, mention.text, f"tolerance class {mention.name} of the {key.replace('_', ' ')}", "ISO 286-2")
            return
        draft.doubts.append(f"ISO 286-2 defines no class {mention.name} at {tidy(dimension.nominal)} mm. Which class?")
        return
    if mention is not None and family.tolerance_class is not None:
        name = mention.name[0].upper() + mention.name[1:]
        draft.doubts.append(
            f"{name} is a class of holes. Is {family.tolerance_class} or {name.lower()} meant for the part,"
            f" or a part for a hole {name}?"
        )
        _say(draft, mention.text, "a capital letter marks the tolerance class of a hole", "ISO 286-1")
        return
    if dimension.lower is None and dimension.upper is None and family.tolerance_class:
        name = draft.attributes.get("tolerance_class", family.tolerance_class)
        limits = class_limits(dimension.nominal, name)
        if limits is not None:
            draft.dimensions[key] = limits
            if "tolerance_class" not in draft.attributes:
                draft.attributes["tolerance_class"] = name
                draft.asks.append(f"class {name}")


_CITED = re.compile(
    r" (?:\{standard\?[^}]*\}|(?:ISO|DIN|EN|UNI|GB/T|ASME|JIS)(?: [A-Z](?= ))? [A-Z]?[0-9][0-9A-Z.-]*)(?: -)?(?= |$)"
)
"""The standard in a designation: left out for a size that the standard does not have."""


def _from_table(family: Family, draft: Draft, standard: Standard | None) -> None:
    """Add what the family's table says of this size, and note where line and table disagree."""
    table = family.sizes
    if table is None:
        return
    value = dimension_value(draft.dimensions.get(family.key))
    if value is None:
        return
    if isinstance(value, Decimal):
        value = tidy(value)
    if draft.table_standard == "":
        return
    named = draft.table_standard or (None if standard is None else standard.rows or standard.name)
    key = draft.dimensions[family.key]
    row: Size | None = None
    for wanted in (value, *((f"M{tidy(key.diameter)}",) if isinstance(key, ThreadSize) else ())):
        row = table.fitting(wanted, named, draft.dimensions)
        if row is not None:
            break
    if row is None:
        if not family.listed_sizes:
            return
        if standard is not None and named in table.sized:
            draft.notes.append(
                (
                    "size-not-listed",
                    f"{standard.name} lists no size {_shown(value)}",
                    f"{standard.name} ({table.name} table)",
                )
            )
            draft.doubts.append(f"{standard.name} lists no size {_shown(value)}. Which size is meant?")
        elif (
            standard is None
            and (named is None or named in table.sized)
            and not (isinstance(key, ThreadSize) and key.system == "unified")
        ):
            by = f"{named} lists no" if named else "no table here lists the"
            draft.notes.append(("size-not-listed", f"{by} size {_shown(value)}", named or COMMON_PRACTICE))
            draft.order_text = _CITED.sub("", draft.order_text or family.order)
        return
    lister = family.by_standard.get(row.standard)
    if named is None and lister is not None and lister.order and draft.order_text is None:
        usual = family.standards[0]
        if table.find(value, usual.rows or usual.name) is None:  # the usual standard has no such size
            draft.order_text = lister.order
    for key, dimension in row.dimensions.items():
        stated = draft.dimensions.get(key)
        if stated is None:
            draft.dimensions[key] = dimension
        elif key == family.key:
            if isinstance(dimension, Limits) and isinstance(stated, Limits) and stated.lower is None:
                draft.dimensions[key] = dimension
                if dimension.tolerance_class:
                    draft.attributes.setdefault("tolerance_class", dimension.tolerance_class)
        elif isinstance(stated, Limits) and isinstance(dimension, Limits):
            off = abs(stated.nominal - dimension.nominal)
            if off == 0 and stated.lower is None:
                draft.dimensions[key] = dimension
            elif off > 0 and not (dimension.low <= stated.nominal <= dimension.high):
                draft.notes.append(
                    (
                        "differs-from-table",
                        f"{key.replace('_', ' ')} {tidy(stated.nominal)} stands in the line, {row.standard} {row.size}"
                        f" has {tidy(dimension.nominal)}",
                        row.source,
                    )
                )
    _check_length(family, draft, row)


def _shown(value: Decimal | str) -> str:
    return str(value)


def _check_length(family: Family, draft: Draft, row: Size) -> None:
    if not row.lengths or not family.listed_lengths:
        return
    draft.listed = (row.standard, row.size, row.lengths, row.source)
    length = draft.dimensions.get("length")
    if isinstance(length, Limits):
        note = length_note(draft.listed, length.nominal)
        if note is not None:
            draft.notes.append(note)


def length_note(listed: tuple[str, str, tuple[Decimal, ...], str], length: Decimal) -> tuple[str, str, str] | None:
    """Return the note on a length that the standard does not list for this size, or None where it does."""
    standard, size, lengths, source = listed
    if length in lengths:
        return None
    text = (
        f"{standard} lists lengths {lengths[0]} to {lengths[-1]} mm for size {size}; {tidy(length)} is not one of"
        " them, so it is hard to find"
    )
    return "length-not-listed", text, source


def match_code(family: Family, low: str, identifying: bool = False) -> CodeMatch | None:
    """Return the first catalogue designation of the family that stands in the lower-case line.

    ``identifying`` asks only for those that name the family without a noun.
    """
    for code in family.codes:
        if identifying and not code.identifies:
            continue
        for found in _compiled(code.pattern).finditer(low):
            groups = {key: value for key, value in found.groupdict().items() if value}
            if code.decode is not None and code.decode(groups | {"all": found.group()}) is None:
                continue
            return CodeMatch(code, found.group(), groups)
    return None


@cache
def _compiled(pattern: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![\w.,])(?:{pattern})(?![a-z0-9])")


def _from_code(draft: Draft, match: CodeMatch) -> None:
    if match.code.decode is not None:
        decoded = match.code.decode(dict(match.groups) | {"all": match.text})
        if decoded is not None:
            draft.dimensions.update(decoded.dimensions)
            draft.attributes.update(decoded.attributes)
            draft.because.extend(decoded.because)
            draft.notes.extend(decoded.notes)
            draft.doubts.extend(decoded.doubts)
            draft.standards = decoded.standards or draft.standards
            if decoded.size_names:
                draft.size_names = decoded.size_names
    else:
        for key, value in match.groups.items():
            number = value.replace(",", ".")
            if re.fullmatch(r"\d+(?:\.\d+)?", number) and not key.startswith("text_"):
                draft.dimensions[key] = limits_of(Decimal(number))
            else:
                draft.attributes[key.removeprefix("text_")] = value.upper()
    draft.attributes.setdefault("series", match.text.upper().strip())
    _say(draft, match.text.upper(), match.code.says, match.code.source)


def _plain_thread(family: Family, draft: Draft, numbers: list[Number]) -> list[Number]:
    """Take a plain number for the thread where a family is also written so (``tige filetée Ø8``); return the others."""
    key = family.thread
    if key is None or not family.plain_thread or key in draft.dimensions:
        return numbers
    diameter = draft.dimensions.get("outer_diameter")
    thread = threads.metric(diameter.nominal) if isinstance(diameter, Limits) else None
    if thread is not None:
        del draft.dimensions["outer_diameter"]
    elif not numbers:
        return numbers
    elif numbers[0].unit == "in":
        size = inch_text(numbers[0].value)
        thread = threads.unified(f"{size} UNC")
        fine = threads.unified(f"{size} UNF")
        if thread is None:
            return numbers
        draft.doubts.append(f"Which inch thread: {' or '.join(item.designation for item in (thread, fine) if item)}?")
    else:
        thread = threads.metric(numbers[0].value)
        if thread is None:
            return numbers
        says = "a plain number before the length of a threaded part names its thread"
        _say(draft, numbers[0].text, says, COMMON_PRACTICE)
    draft.dimensions[key] = thread
    if not draft.standards:
        _note_lookalikes(draft, thread)
    return numbers if diameter is not None and "outer_diameter" not in draft.dimensions else numbers[1:]


def _note_lookalikes(draft: Draft, thread: ThreadSize) -> None:
    """Note the threads of the other system that are taken for this one, where neither M nor a standard settles it."""
    for other in lookalikes(thread):
        says = f"{thread.designation} is taken for {other.name}, which measures {tidy(other.diameter)} mm"
        draft.notes.append(("look-alike", says, other.source))


_SAID = ("material", "property_class", "finish", "grade", "hardness", "treatment", "hand")
"""Attributes that any part can have, as far as a line says them."""


def assemble(
    family: Family, facts: Facts, standard: Standard | None, nouns: Iterable[str], code: CodeMatch | None
) -> list[Draft]:
    """Return the readings of the line as this family, best first; they are not yet checked against each other."""
    draft = Draft(family.name, family.size_names, "implied")
    if standard is not None:
        draft.standards = (standard.name,)
        draft.evidence = "stated"
        draft.attributes.update(standard.fixed)
        draft.dimensions.update(standard.implies)
        said = next((item.text for item in facts.standards if item.name == standard.name), standard.name)
        _say(draft, said, f"names a {family.name}", standard.name)
    words = tuple(nouns)
    if words:
        _say(draft, " ".join(words), f"names a {family.name}", COMMON_PRACTICE)
    if code is not None:
        draft.evidence = "stated"
        _from_code(draft, code)
    for name in _SAID if facts.attributes else ():
        if name in facts.attributes:
            draft.attributes[name] = facts.attributes[name]
            _say(
                draft,
                facts.attribute_texts[name],
                f"{name.replace('_', ' ')}: {facts.attributes[name]}",
                COMMON_PRACTICE,
            )
    classed = _class_as_thread(family, facts)
    if classed is not None:
        _thread(family, draft, classed)
    numbers: list[Number] = []
    for number in facts.labelled:
        if not _label(family, draft, number):
            if number.label in {"series", "stud", "quantity"}:
                draft.attributes[number.label] = str(tidy(number.plain))
            else:
                numbers.append(number)
    for chain in facts.chains:
        for part in chain:
            if isinstance(part, ThreadMention):
                if _thread(family, draft, part):
                    continue
                if family.thread is None and family.plain_m:
                    numbers.append(Number(part.thread.diameter, part.text))
                else:
                    draft.rest.append(part)
            elif part.label is None or not _label(family, draft, part):
                numbers.append(part)
    if "number size" not in facts.attributes:
        numbers = _plain_thread(family, draft, numbers)
    for name, rating, text in facts.ratings:
        if name in family.ratings:
            held = cast(dict[str, Rating], draft.dimensions.setdefault("rating", {}))
            held.setdefault(name, rating)
            _say(draft, text, f"{name} {rating.value} {rating.unit}", "the line's own words")
    drafts = _place(family, draft, numbers, facts)
    if family.refine is not None:
        drafts = list(family.refine(family, facts, drafts))
    for item in drafts:
        owner = family if item.family == family.name else by_name()[item.family]
        _from_table(owner, item, standard if owner is family else None)
        _apply_class(owner, item, facts)
        if owner.length_says and "length" in item.dimensions:
            _say(item, "length", owner.length_says, owner.source)
    return drafts


@lru_cache(maxsize=16384)
def in_text(value: Decimal) -> str:
    """Return a number without trailing zeros and without an exponent.

    >>> in_text(Decimal("6.50"))
    '6.5'
    """
    return format(tidy(value), "f")


# -- from draft to reading --------------------------------------------------------------------------------------


def shown(dimension: Dimension | str | None, inches: bool = False) -> str:
    """Return a dimension as it stands in a designation.

    >>> shown(Limits(Decimal("6.50")))
    '6.5'
    """
    if isinstance(dimension, Limits):
        if inches:
            return inch_text(dimension.nominal)
        return in_text(dimension.nominal)
    if isinstance(dimension, ThreadSize):
        return dimension.designation + (" LH" if dimension.hand == "left" else "")
    return str(dimension)


@lru_cache(maxsize=4096)
def inch_text(mm: Decimal) -> str:
    """Return a length as inches, as a fraction where it is one.

    >>> inch_text(Decimal("4.7625"))
    '3/16'
    """
    sixty_fourths = mm / MM_PER_INCH * 64
    if sixty_fourths != sixty_fourths.to_integral_value():
        return format(tidy((mm / MM_PER_INCH).quantize(Decimal("0.0001"))), "f")
    whole, part = divmod(int(sixty_fourths), 64)
    if not part:
        return str(whole)
    denominator = 64
    while part % 2 == 0:
        part, denominator = part // 2, denominator // 2
    return f"{whole} {part}/{denominator}" if whole else f"{part}/{denominator}"


_IN_DESIGNATIONS = {"steel": "St"}
"""How a designation writes a material that the line gives as a word."""

_FIELD = re.compile(r"\{(\w+)(?:\?([^}]*))?\}")


_STAINLESS_CLASSES: Mapping[str, str] = {
    "stainless steel": "A2",
    "A1": "A1",
    "A2": "A2",
    "A4": "A4",
    "304": "A2",
    "316": "A4",
}


def class_of_material(material: str | None, default: str) -> str | None:
    """Return the property class that goes with a material, or None where the default for steel holds.

    Stainless steel classes: ISO 3506-1 and -3; 70 is the one usually stocked (common practice). Other materials have no
    class of this kind: the material stands in its place.

    >>> class_of_material("A2", "8.8"), class_of_material("A4", "45H"), class_of_material("steel", "8.8")
    ('A2-70', 'A4-21H', None)
    """
    if material is None or material in {"steel", "alloy steel"}:
        return None
    grade = _STAINLESS_CLASSES.get(material)
    if grade is None:
        return material
    return f"{grade}-{'21H' if default.endswith('H') else '070' if default.startswith('08') else '70'}"


class _Blank(NamedTuple):
    """A field of a designation: the text before it, its name, its default, and the dimension of which it is only the
    number (``{thread_number}``).
    """

    before: str
    name: str
    default: str | None
    number_of: str | None


@cache
def _template(template: str) -> tuple[tuple[_Blank, ...], str]:
    """Cut ``Parallel pin {standard} - {outer_diameter}`` into its fields and the text behind the last."""
    blanks: list[_Blank] = []
    end = 0
    for match in _FIELD.finditer(template):
        number_of = match[1][:-7] if match[1].endswith("_number") else None
        blanks.append(_Blank(template[end : match.start()], match[1], match[2], number_of))
        end = match.end()
    return tuple(blanks), template[end:]


def order_text(
    template: str, dimensions: Mapping[str, Dimension], attributes: Mapping[str, str], inches: bool = False
) -> str:
    """Fill a designation template; ``{length}`` without a value stays ``<length>``, ``{material?St}`` has a default.

    >>> order_text("Pin {outer_diameter} x {length} - {material?St}", {"outer_diameter": Limits(Decimal(5))}, {})
    'Pin 5 x <length> - St'
    """
    out: list[str] = []
    blanks, tail = _template(template)
    for text, name, default, number_of in blanks:
        out.append(text)
        value: Dimension | str | None
        if number_of is not None:
            value = shown(dimensions.get(number_of, f"<{number_of}>")).lstrip("M")
        else:
            value = dimensions.get(name) or attributes.get(name)
        if value is None and name == "property_class" and default is not None:
            value = class_of_material(attributes.get("material"), default)
        if value is None and (rated := ratings_of(dimensions).get(name)) is not None:
            value = f"{format(tidy(rated.value), 'f')} {rated.unit}"
        if value is None:
            out.append(f"<{name.replace('_', ' ')}>" if default is None else default)
        else:
            text_ = shown(value, inches)
            out.append(_IN_DESIGNATIONS.get(text_, text_) if name == "material" else text_)
    out.append(tail)
    return "".join(out)


def impossible(dimensions: Mapping[str, Dimension]) -> str | None:
    """Return the question for a dimension that no part can have, or None."""
    for key, dimension in dimensions.items():
        if isinstance(dimension, Limits) and not 0 < dimension.nominal <= _LARGEST:
            return f"{dimension.nominal:f} mm is no {key.replace('_', ' ')} of a part. Which size is meant?"
    return None


def missing(family: Family, dimensions: Mapping[str, Dimension]) -> tuple[str, ...]:
    """Return what an order of this family must state and the line does not."""
    rated = ratings_of(dimensions)
    found = []
    for need in family.needed:
        for key in need:
            if key in dimensions or key in rated:
                break
        else:
            found.append(need[0])
    return tuple(found)


_NO_RATINGS: Mapping[str, Rating] = MappingProxyType({})


def ratings_of(dimensions: Mapping[str, Dimension]) -> Mapping[str, Rating]:
    """Return the rated quantities among a reading's dimensions."""
    rating = dimensions.get("rating")
    return _NO_RATINGS if rating is None or not isinstance(rating, Mapping) else rating


def finish(family: Family, draft: Draft, facts: Facts, standard: Standard | None) -> Reading:
    """Return the finished reading of a draft; the draft keeps the designation template that was used."""
    template = draft.order_text or (standard.order if standard and standard.order else family.order)
    unified = bool(family.thread) and _unified(draft)
    if unified and family.inch_order and draft.order_text is None:
        template = family.inch_order
        draft.standards = draft.standards or (family.inch_standard,) if family.inch_standard else draft.standards
    elif unified and not draft.standards:
        template = _CITED.sub("", template)
    attributes = draft.attributes
    if "{standard" in template and "standard" not in attributes and draft.standards:
        attributes = {**attributes, "standard": draft.standards[0]}
    draft.order_text = template
    return Reading(
        family=draft.family,
        standards=draft.standards or family.usual_standards,
        size_names=draft.size_names,
        evidence=cast(Evidence, draft.evidence),
        dimensions=MappingProxyType(draft.dimensions),
        missing=missing(family, draft.dimensions),
        because=tuple([Because(*item) for item in draft.because]),
        order_text=order_text(template, draft.dimensions, attributes, facts.inches),
        attributes=MappingProxyType(draft.attributes),
        notes=tuple([Note(*item) for item in draft.notes]),
    )


def _unified(draft: Draft) -> bool:
    return any(isinstance(item, ThreadSize) and item.system == "unified" for item in draft.dimensions.values())


def leftovers(draft: Draft) -> list[str]:
    """Return the sizes of the line that found no place in this reading."""
    return [part.text for part in draft.rest]


__all__ = [
    "CodeMatch",
    "assemble",
    "finish",
    "impossible",
    "leftovers",
    "length_note",
    "limits_of",
    "match_code",
    "order_text",
    "ratings_of",
    "shown",
]
