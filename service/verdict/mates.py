"""Request fields to a ``Check``: every mate in its short text form and as an object, and the fit wanted.

A mate is parsed once per distinct text and then shared, so that a check against a known mate costs one look-up.
What does not belong here: lengths and diameters (``diameters.py``), the line itself (``service.reading``), judging.

>>> check = parse_check({"line": "M5 dowel pin", "bore": "5 H7 depth 20 blind", "fit": "location"})
>>> check.mate.diameter.upper, check.mate.depth, check.fit.window.upper
(Decimal('5.012'), Decimal('20'), Decimal('0.011'))
"""

import re
from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from typing import Literal, TypeVar

from reference import fits, materials, threads
from reference.materials import Material
from reference.quantities import ThreadSize
from reference.sizes import size_table
from reference.units import tidy
from service.verdict.diameters import LONGEST_TEXT, MEASURE, diameter, length, signed_length, window
from service.verdict.model import (
    BoreMate,
    Check,
    CheckError,
    ClampMate,
    FitWanted,
    Mate,
    NutEnd,
    PresenceMate,
    ShaftMate,
    TappedHoleMate,
    Window,
)

LONGEST_LINE = 500
"""Characters of a line."""

MOST_LAYERS = 50
"""Parts of a clamped stack."""

Fields = Mapping[str, object]
End = Literal["blind", "through"]
T = TypeVar("T")


# --- texts: what may follow the size in any short form ---------------------------------------------------------------

_DEPTH = re.compile(rf"\b(?:depth|deep)\s+(?P<after>{MEASURE})(?=\s|$)|\s(?P<before>{MEASURE})\s+deep\b", re.IGNORECASE)
_END = re.compile(r"\b(blind|through|thru)\b(?:\s+hole\b)?", re.IGNORECASE)
_MATERIAL = re.compile(r"\s+in\s+(?P<material>[^\s\d].*|\d\.\d{4}|\d{4}[\w-]*)$", re.IGNORECASE)
_BORE_CLASS = re.compile(r"[A-Za-z]{1,2}\d{1,2}\b")


def _take(text: str, field: str) -> tuple[str, dict[str, object]]:
    """Split a short form into what it starts with and its options: depth, end, material."""
    options: dict[str, object] = {}
    match = _MATERIAL.search(text)
    if match and not _BORE_CLASS.match(match["material"]) and not _DEPTH.search(match["material"]):
        options["material"] = match["material"]
        text = text[: match.start()]
    for match in _DEPTH.finditer(text):
        if "depth" in options:
            raise CheckError(field, text, "one depth", "5 H7 depth 20")
        options["depth"] = match["after"] or match["before"]
    text = _DEPTH.sub(" ", text)
    ends = _END.findall(text)
    if len(ends) > 1:
        raise CheckError(field, text, "blind or through, not both", "5 H7 depth 20 blind")
    if ends:
        options["end"] = ends[0]
        text = _END.sub(" ", text)
    return " ".join(text.split()), options


def _text(value: object, field: str, accepted: str, example: str) -> str:
    if isinstance(value, str) and 0 < len(value.strip()) <= LONGEST_TEXT:
        return " ".join(value.split())
    raise CheckError(field, value, accepted, example)


def _end(value: object, field: str) -> End:
    end = value.lower() if isinstance(value, str) else value
    if end == "blind":
        return "blind"
    if end in ("through", "thru"):
        return "through"
    raise CheckError(field, value, "blind or through", "blind")


def _depth_end_material(given: Fields, where: str) -> tuple[Decimal | None, End | None, Material | None]:
    prefix = f"{where}." if where.startswith("mate") else ""
    depth, end, material = (given.get(name) for name in ("depth", "end", "material"))
    return (
        None if depth is None else length(depth, f"{prefix}depth"),
        None if end is None else _end(end, f"{prefix}end"),
        None if material is None else _material(material, f"{prefix}material"),
    )


def _material(value: object, field: str) -> Material:
    try:
        return materials.material(value if isinstance(value, str) else repr(value))
    except materials.UnknownMaterial as error:
        raise CheckError(field, value, str(error), "aluminium or 6061-T6") from None


def _known(given: Fields, fields: Sequence[str], where: str) -> None:
    """Refuse a field that nothing reads: it may be a misspelt one that matters."""
    for key, value in given.items():
        if key not in fields:
            raise CheckError(f"{where}.{key}" if where else key, value, f"the fields {', '.join(fields)}", fields[0])


# --- one pair of parsers per kind of mate: from its text, from its object --------------------------------------------


def _bore_text(text: str, field: str) -> BoreMate:
    size, options = _take(text, field)
    return _bore({"diameter": size, **options}, field)


def _bore(given: Fields, field: str) -> BoreMate:
    _known(given, ("kind", "diameter", "depth", "end", "material", "process"), field)
    where = field if "diameter" not in given or not field.startswith("mate") else f"{field}.diameter"
    size = diameter(_required(given, "diameter", field, "5 H7"), "hole", where)
    process = given.get("process")
    if process is not None and size.process is None:
        size = diameter({"nominal": size.limits.nominal, "process": process}, "hole", where)
    return BoreMate(f"bore {size.text}", size.limits, *_depth_end_material(given, field), size.process, size.source)


def _shaft_text(text: str, field: str) -> ShaftMate:
    size, options = _take(text, field)
    return _shaft({"diameter": size, **options}, field)


def _shaft(given: Fields, field: str) -> ShaftMate:
    _known(given, ("kind", "diameter", "material"), field)
    where = f"{field}.diameter" if field.startswith("mate") else field
    size = diameter(_required(given, "diameter", field, "8 h6"), "shaft", where)
    return ShaftMate(f"shaft {size.text}", size.limits, _depth_end_material(given, field)[2], size.source)


_THREAD_FORMS = "a thread by its designation (M3, M8x1, 1/4-20 UNC, G 1/8), then depth, blind or through, material"
_TAPPED_EXAMPLE = "M3 depth 6 in aluminium"


def _thread(value: object, field: str) -> ThreadSize:
    found = threads.parse(_text(value, field, _THREAD_FORMS, _TAPPED_EXAMPLE))
    if found is None:
        raise CheckError(field, value, _THREAD_FORMS, _TAPPED_EXAMPLE)
    return found


def _tapped_text(text: str, field: str) -> TappedHoleMate:
    thread, options = _take(text, field)
    return _tapped({"thread": thread, **options}, field)


def _tapped(given: Fields, field: str) -> TappedHoleMate:
    _known(given, ("kind", "thread", "depth", "end", "material"), field)
    where = f"{field}.thread" if field.startswith("mate") else field
    thread = _thread(_required(given, "thread", field, _TAPPED_EXAMPLE), where)
    depth, end, material = _depth_end_material(given, field)
    deep = f", {depth} mm deep" if depth is not None else ""
    text = f"{thread.designation} hole{deep}{f' in {material.grade}' if material else ''}"
    return TappedHoleMate(text, thread, depth, end, material)


_CLAMP_FORMS = "thicknesses from the head on, then what the screw goes into: a tapped hole, or a nut"
_CLAMP_EXAMPLE = "10+12+20 into M4 depth 10 in aluminium, or 20 into nut M5"
_INTO = re.compile(r"(?P<stack>.+?)\s+into\s+(?P<end>.+)", re.IGNORECASE)
_NUT = re.compile(
    rf"(?P<kind>lock\s+|thin\s+)?nut\s+(?P<thread>\S+(?:\s+UN[A-Z]*)?)(?:\s+height\s+(?P<height>{MEASURE}))?"
    rf"|(?P<first>\S+(?:\s+UN[A-Z]*)?)\s+(?P<last>lock\s+|thin\s+)?nut",
    re.IGNORECASE,
)
_NUT_TABLES = {"": "hex_nut", "lock": "lock_nut", "thin": "thin_nut"}


def _clamp_text(text: str, field: str) -> ClampMate:
    match = _INTO.fullmatch(text)
    if match is None:
        raise CheckError(field, text, _CLAMP_FORMS, _CLAMP_EXAMPLE)
    return _stack(_layers(match["stack"].split("+"), field), _end_text(match["end"], field), field)


def _end_text(text: str, field: str) -> TappedHoleMate | NutEnd:
    if match := _NUT.fullmatch(text):
        kind = (match["kind"] or match["last"] or "").strip().lower()
        return _nut(match["thread"] or match["first"], kind, match["height"], field)
    return _tapped_text(text, field)


def _nut(thread_text: object, kind: str, height: object, field: str) -> NutEnd:
    thread = _thread(thread_text, field)
    if height is not None:
        return NutEnd(f"{thread.designation} nut", thread, length(height, field), "as given")
    table = _NUT_TABLES.get(kind)
    if table is None:
        raise CheckError(field, kind, "a hex nut, or a lock or a thin nut", "nut M5")
    row = size_table(table, "internal_thread").find(thread.designation)
    known = row.dimensions.get("height") if row else None
    if row is None or known is None:
        raise CheckError(field, thread_text, "a nut of a size that the tables hold, or its height", "nut M5 height 4.7")
    return NutEnd(f"{thread.designation} {table.replace('_', ' ')}", thread, known.nominal, row.source)  # type: ignore[union-attr]


def _layers(parts: Sequence[object], field: str) -> tuple[Decimal, ...]:
    if not 0 < len(parts) <= MOST_LAYERS:
        raise CheckError(field, list(parts), f"1 to {MOST_LAYERS} thicknesses", _CLAMP_EXAMPLE)
    return tuple(length(part, field) for part in parts)


def _stack(layers: tuple[Decimal, ...], into: TappedHoleMate | NutEnd, field: str) -> ClampMate:
    grip = length(sum(layers, Decimal(0)), field)
    return ClampMate(f"{grip} mm clamped by {into.text}", layers, grip, into)


def _clamp(given: Fields, field: str) -> ClampMate:
    _known(given, ("kind", "layers", "grip", "into"), field)
    if ("layers" in given) == ("grip" in given):
        raise CheckError(field, dict(given), "layers or grip, one of the two", '"layers": [10, 12, 20]')
    parts = given.get("layers", given.get("grip"))
    name = f"{field}.{'layers' if 'layers' in given else 'grip'}"
    if isinstance(parts, str):
        parts = parts.split("+")
    layers = _layers(parts if isinstance(parts, (list, tuple)) else [parts], name)
    into = _required(given, "into", field, '"M4 depth 10 in aluminium"')
    where = f"{field}.into"
    if isinstance(into, Mapping):
        if into.get("kind") == "nut":
            _known(into, ("kind", "thread", "height", "type"), where)
            thread = _required(into, "thread", where, "M5")
            return _stack(layers, _nut(thread, str(into.get("type", "")), into.get("height"), where), field)
        return _stack(layers, _tapped(into, where), field)
    return _stack(layers, _end_text(_text(into, where, _THREAD_FORMS, _TAPPED_EXAMPLE), where), field)


def _presence_text(text: str, field: str) -> PresenceMate:
    if text.lower() not in ("yes", "1", "true"):
        raise CheckError(field, text, "yes", "yes")
    return PresenceMate("presence")


def _presence(given: Fields, field: str) -> PresenceMate:
    _known(given, ("kind",), field)
    return PresenceMate("presence")


def _required(given: Fields, name: str, field: str, example: str) -> object:
    value = given.get(name)
    if value is None:
        raise CheckError(f"{field}.{name}", None, "a value: it is required", example)
    return value


SHORT_FORMS: Mapping[str, Callable[[str, str], Mate]] = {
    "bore": _bore_text,
    "shaft": _shaft_text,
    "tapped": _tapped_text,
    "clamp": _clamp_text,
    "presence": _presence_text,
}
"""Field of a check -> parser of its short text form."""

KINDS: Mapping[str, Callable[[Fields, str], Mate]] = {
    "bore": _bore,
    "shaft": _shaft,
    "tapped hole": _tapped,
    "clamp": _clamp,
    "presence": _presence,
}
"""``kind`` of a mate given as an object -> its parser."""

EXAMPLES: Mapping[str, str] = {
    "bore": "5 H7",
    "shaft": "8 h6",
    "tapped": _TAPPED_EXAMPLE,
    "clamp": "46 into M3 depth 6 in aluminium",
    "presence": "yes",
}
"""An accepted value of every short form."""

FIELDS = ("line", "fit", "mate", *SHORT_FORMS)
"""The fields of a check."""


# --- fits ------------------------------------------------------------------------------------------------------------

_FIT_FORMS = "a class pair (H7/m6), a window of clearance in mm (0.002..0.014), or slip, location, press"


def _fit(value: object, nominal: Decimal) -> FitWanted:
    if isinstance(value, Mapping):
        _known(value, ("lower", "upper", "wanted"), "fit")
        if "wanted" in value and value["wanted"] is not None and not isinstance(value["wanted"], Mapping):
            return _fit(value["wanted"], nominal)
        lower, upper = (
            signed_length(_required(value, key, "fit", "0.002"), f"fit.{key}") for key in ("lower", "upper")
        )
        return _fit_window(f"{lower}..{upper}", lower, upper)
    text = _text(value, "fit", _FIT_FORMS, "location")
    if ends := window(text, "fit"):
        return _fit_window(text, *ends)
    try:
        named = fits.window(text, nominal)
    except fits.UndefinedClass as error:
        raise CheckError("fit", value, f"{_FIT_FORMS} ({error})", "location") from None
    return FitWanted(text, Window(named.lower, named.upper), named.text, named.loosest_upper)


def _fit_window(wanted: str, lower: Decimal, upper: Decimal) -> FitWanted:
    if lower > upper:
        raise CheckError("fit", wanted, "a window with its lower end first", "-0.010..0")
    return FitWanted(wanted, Window(tidy(lower), tidy(upper)), "as given")


# --- the check -------------------------------------------------------------------------------------------------------


class _Memory(dict[str, T]):
    """Values by text, forgotten all at once when there are too many: bounded, and a hit costs one look-up."""

    def keep(self, key: str, value: T) -> T:
        """Remember the value and return it."""
        if len(self) >= 2048:
            self.clear()
        self[key] = value
        return value


_mates: _Memory[Mate] = _Memory()
_fits: _Memory[FitWanted] = _Memory()


def parse_mate(field: str, value: object) -> Mate:
    """Return the mate that a field gives: ``bore`` and the like as text, ``mate`` as an object or text ``bore=5 H7``.

    Raises:
        CheckError: names the field, the value, what is accepted and an example.
    """
    key = f"{field}={value!r}"
    known = _mates.get(key)
    if known is not None:
        return known
    if field != "mate":
        text = _text(value, field, f"the short form of a mate, up to {LONGEST_TEXT} characters", EXAMPLES[field])
        return _mates.keep(key, SHORT_FORMS[field](text, field))
    if isinstance(value, Mapping):
        kind = value.get("kind")
        parser = KINDS.get(kind) if isinstance(kind, str) else None
        if parser is None:
            raise CheckError("mate.kind", kind, f"one of {', '.join(KINDS)}", "bore")
        return _mates.keep(key, parser(value, "mate"))
    raise CheckError("mate", value, "an object with a kind", '{"kind": "bore", "diameter": "5 H7"}')


def parse_fit(value: object, mate: Mate) -> FitWanted:
    """Return the fit wanted, with its window of clearance at the mate's nominal size.

    Raises:
        CheckError: the value is no fit, or the mate has no diameter that a fit could apply to.
    """
    limits = getattr(mate, "diameter", None)
    if limits is None:
        raise CheckError("fit", value, f"no fit with a {mate.kind}: only bores, shafts and pockets have one", "")
    key = f"{value!r}@{limits.nominal}"
    return _fits.get(key) or _fits.keep(key, _fit(value, limits.nominal))


def parse_check(fields: Fields) -> Check:
    """Return the check that the fields of a request ask for: ``line``, one mate, and ``fit`` where one is wanted.

    A field that is empty counts as absent, as spreadsheets send it.

    Raises:
        CheckError: a field is missing, unknown, given twice or not understood.
    """
    line = fit = mate_field = mate_value = None
    for field, value in fields.items():
        if field not in FIELDS:
            raise CheckError(field, value, f"the fields {', '.join(FIELDS)}", "line")
        if value is None or value == "":
            continue
        if field == "line":
            line = value
        elif field == "fit":
            fit = value
        elif mate_field is None:
            mate_field, mate_value = field, value
        else:
            raise CheckError(field, value, f"one mate; {mate_field} is given already", f"{field} without {mate_field}")
    if not isinstance(line, str) or not line.strip() or len(line) > LONGEST_LINE:
        raise CheckError("line", line, f"one purchase line of 1 to {LONGEST_LINE} characters", "M5 dowel pin")
    if mate_field is None:
        raise CheckError("mate", None, f"one of {', '.join(FIELDS[2:])}", "bore=5 H7")
    mate = parse_mate(mate_field, mate_value)
    return Check(line, mate, None if fit is None else parse_fit(fit, mate))
