"""Reads bearing designations: series and bore code, prefixes for flange and steel, suffixes for seals and clearance.

A number that is in no series stays unknown: the decoder then says why and what it might have meant, and gives no
dimensions. What does not belong here: finding a designation in a whole line, and plain sizes such as ``8x22x7``.

Sources: ISO 15 (series, bore code), ISO 5753-1 (clearance groups), makers' catalogues (prefixes, suffixes).

>>> code = decode("6204-2RS C3")
>>> code.designation, str(code.dimensions["bore"].nominal), code.seal, code.clearance
('6204', '20', '2RS', 'C3')
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from fractions import Fraction
from functools import cache

from reference import tables
from reference.quantities import Limits

FAMILIES: Mapping[str, str] = {
    "ball bearing": "ball_bearing",
    "flanged ball bearing": "flanged_ball_bearing",
    "angular contact ball bearing": "angular_contact_ball_bearing",
    "thrust ball bearing": "thrust_ball_bearing",
    "needle roller bearing": "needle_roller_bearing",
    "linear ball bearing": "linear_ball_bearing",
    "linear bearing block": "linear_bearing_block",
    "shaft support": "shaft_support",
    "bearing block": "bearing_block",
    "screw support": "screw_support",
}
"""Family -> the table that lists its designations."""

_CONTACT_SEALS = "2RS1|2RSH|2RSR|2HRS|2RS|HRS|RSH|RSR|RS1|RS|DDU|DDW|DD|DU|LLU|LLH|LU|EE|UU"
_LOW_FRICTION_SEALS = "2RSL|RSL|2RZ|RZ|LLB|LB|VV"
_SHIELDS = "ZZ1|ZZS|ZZ|2Z|Z"
_OPEN = "OPEN|OFFEN|OUVERT|ABIERTO|APERTO"
_CLOSURES = {
    **dict.fromkeys(f"{_CONTACT_SEALS}|{_LOW_FRICTION_SEALS}".split("|"), "sealed"),
    **dict.fromkeys(_SHIELDS.split("|"), "shielded"),
    "open": "open",
}
_SEAL = rf"2RSL|{_CONTACT_SEALS}|{_LOW_FRICTION_SEALS}|{_SHIELDS}|2[ -](?:RS|Z)|{_OPEN}"
_CLEARANCE = "C[0-5]|CN|CM|MC[1-6]"
_PRECISION = "P[024-6]X?|ABEC[ -]?[13579]"
_CAGE = "ETN9|TN9|TNG|TNH|TVH|TVP|TV|TN|JR|MA|M|J|Y"
_GREASE = r"5K|2AS|MT\d\d|LHT\d*|WT|GJN"
_SUFFIX = re.compile(
    rf"[\s\-/]*(?:(?P<seal>{_SEAL})|(?P<clearance>{_CLEARANCE})|(?P<precision>{_PRECISION})|(?P<bore>\d/\d{{1,2}})"
    rf"|(?<! )(?P<cage>{_CAGE})|(?P<grease>{_GREASE})|(?P<angle>A5|AC|A|BECBP|BEP|BE|B|C)|(?P<ring>NR|N))"
)
_ANY_SUFFIX = rf"(?:[\s\-/]*(?:{_SEAL}|{_CLEARANCE}|{_PRECISION}|{_GREASE})|-?(?:{_CAGE}|NR|N|\d/\d{{1,2}}))"
_LINEAR = "LMEF|LMEK|LME|LMF|LMK|LMH|LM|KH|SCS|SC|SBR"
_OTHERS = "SHF|SK|UCFL|UCF|UCP|KFL|KP|AXK|AS|HK|BK|BF|FK|FF|EK|EF"
DESIGNATION = (
    r"(?<![\w.,/])(?i:"
    rf"(?:SS?-?)?M[RF]-?\d{{2,3}}X?{_ANY_SUFFIX}*"
    rf"|(?:SS?-?)?FL?-?\d{{3,5}}X?{_ANY_SUFFIX}*"
    rf"|(?:SS?|W)?-?(?:\d{{2,3}}/\d{{1,2}}|\d{{3,5}})X?(?:[\s\-]*(?:{_SEAL}|{_CLEARANCE}))+{_ANY_SUFFIX}*"
    rf"|(?:SS?)?R(?:[12]-[4-6]{_ANY_SUFFIX}*|\d{{1,4}}A?{_ANY_SUFFIX}+)"
    r"|F\d{1,2}(?:\.\d)?-\d{1,2}M"
    r"|K ?\d+[x*]\d+[x*]\d+"
    r"|RJ(?:4JP|MP|M)-\d\d-\d\d"
    rf"|(?:{_LINEAR}) ?-?\d{{1,4}}[SL]?[ -]?(?:UU)?(?:OP|AJ)?|(?:{_OTHERS}) ?-?\d{{1,4}}{_ANY_SUFFIX}*"
    r")(?!\w)"
)
"""Finds, in a line of either case, designations that letters mark as such; what it finds still has to be decoded."""

NUMBER = r"(?<![\w.,/-])(?:\d{3,5}|\d{2}/\d{2})(?![\w.,/-])"
"""Finds digits that may be a designation; only the word bearing beside them makes them one."""

_SEPARATORS = re.compile(r"[\s\-]+")
_DIGITS = re.compile(r"(?P<steel>SS|S|W)?-?(?P<flange>FL|F)?[ -]?(?P<number>\d{2,3}/\d{1,2}(?:\.5)?|\d{3,5}X?)")
_OUTSIDE_BORE = re.compile(r"(?P<steel>SS|S)?-?(?P<letters>MR|MF)[ -]?(?P<number>\d{2,3}X?)")
_INCH = re.compile(r"(?P<steel>SS|S)?-?(?P<number>R ?(?:1-4|1-5|2-5|2-6|\d{1,4}A?))")
_AXIAL = re.compile(r"F(?P<bore>\d{1,2}(?:\.\d)?)-(?P<outer>\d{1,2})M?")
_LINER = re.compile(r"RJ(?:4JP|MP|M)-\d\d-\d\d")
_CAGE_SIZES = re.compile(r"K ?(?P<bore>\d+)[X*](?P<outer>\d+)[X*](?P<width>\d+)")
_LETTERED = re.compile(
    rf"(?P<letters>{_LINEAR}|{_OTHERS})[ -]?(?P<number>\d{{1,5}})"
    r"(?P<length>S|L)?[ -]?(?P<seals>UU)?[ -]?(?P<form>OP|AJ)?"
)
_FORMS = {"OP": "open", "AJ": "adjustable"}
_SERIES = (
    "160",
    "617",
    "618",
    "619",
    "622",
    "623",
    "630",
    "60",
    "62",
    "63",
    "64",
    "67",
    "68",
    "69",
    "70",
    "72",
    "73",
    "79",
)
_BORE_CODES = {"00": Decimal(10), "01": Decimal(12), "02": Decimal(15), "03": Decimal(17)}
_MM_PER_INCH = Decimal("25.4")
_SIZES = (
    "bore",
    "outer_diameter",
    "width",
    "length",
    "height",
    "flange_diameter",
    "flange_thickness",
    "shaft_size",
    "centre_height",
    "hole_spacing",
)
_DIFFERS_WITH_SHIELDS = ("width", "flange_diameter", "flange_thickness")


@dataclass(frozen=True, slots=True)
class BearingCode:
    """A designation, part by part.

    ``dimensions`` hold what the tables add (millimetres; empty where the number is in no table, ``reason`` then says
    why). ``closure`` is ``open``, ``shielded``, ``sealed`` or '' (not stated); ``widths`` lists the widths that are
    possible where the width depends on a closure that is not stated. ``form`` is ``open`` or ``adjustable`` for slit
    linear bearings. ``bare`` marks digits (or R and digits) without any prefix or suffix: too little to be a bearing
    without a noun. ``suggestion`` is a size that an unknown number may stand for.
    """

    family: str
    designation: str
    dimensions: Mapping[str, Limits] = field(default_factory=dict)
    closure: str = ""
    seal: str = ""
    clearance: str = ""
    precision: str = ""
    cage: str = ""
    material: str = ""
    form: str = ""
    widths: tuple[Decimal, ...] = ()
    bare: bool = False
    reason: str = ""
    suggestion: tuple[Decimal, ...] = ()
    source: str = ""
    basis: str = ""

    @property
    def known(self) -> bool:
        """Whether the designation stands in a table, so that its dimensions are sure."""
        return bool(self.dimensions) and not self.reason


@dataclass(frozen=True, slots=True)
class _Listed:
    """A row of one of the tables: its family, its dimensions, and those that change when the bearing is closed."""

    family: str
    size: str
    dimensions: Mapping[str, Limits]
    shielded: Mapping[str, Limits]
    source: str
    basis: str


def _limits(row: tables.Row, key: str) -> Limits | None:
    nominal = row.number_or_none(key) if key in row.cells else None
    if nominal is None:
        return None
    lower, upper = (
        row.number_or_none(f"{key}_{end}") if f"{key}_{end}" in row.cells else None for end in ("lower", "upper")
    )
    return Limits(nominal, lower, upper)


@cache
def _index() -> Mapping[str, _Listed]:
    """Return designation -> its row; where two families use one designation the family further up wins."""
    found: dict[str, _Listed] = {}
    for family, table in FAMILIES.items():
        for row in tables.load(table):
            dimensions = {key: value for key in _SIZES if (value := _limits(row, key))}
            shielded = {key: value for key in _DIFFERS_WITH_SHIELDS if (value := _limits(row, f"{key}_shielded"))}
            size = row.text("size")
            found.setdefault(size, _Listed(family, size, dimensions, shielded, row.source, row.basis))
    return found


@cache
def _by_dimensions() -> Mapping[tuple[str, Decimal, Decimal, Decimal], tuple[str, ...]]:
    """Return (family, bore, outside, width | length | height) -> designations in the order of the tables."""
    found: dict[tuple[str, Decimal, Decimal, Decimal], tuple[str, ...]] = {}
    for row in _index().values():
        sizes = row.dimensions
        thirds = [sizes[key] for key in ("width", "length", "height") if key in sizes][:1]
        thirds += [row.shielded["width"]] if "width" in row.shielded else []
        if "bore" in sizes and "outer_diameter" in sizes:
            for third in thirds:
                key = (row.family, sizes["bore"].nominal, sizes["outer_diameter"].nominal, third.nominal)
                found[key] = (*found.get(key, ()), row.size)
    return found


def from_dimensions(bore: Decimal, outer: Decimal, width: Decimal, family: str = "ball bearing") -> tuple[str, ...]:
    """Return the designations that have these boundary dimensions [mm], the trade's usual one first.

    ``width`` is the width, the length of a linear bearing or the height of a thrust bearing. The two diameters may
    come in either order, since the bore is always the smaller one. An empty result means: no such bearing is listed.

    >>> from_dimensions(Decimal(22), Decimal(8), Decimal(7))
    ('608',)
    """
    return _by_dimensions().get((family, min(bore, outer), max(bore, outer), width), ())


def bore_of(number: str) -> Decimal | None:
    """Return the bore [mm] that the bore code of a four- or five-digit number gives, or None outside the known series.

    The last two digits are the code: 00, 01, 02 and 03 are 10, 12, 15 and 17 mm, from 04 on the bore is five times
    the code (ISO 15 practice of designation).

    >>> bore_of("6203"), bore_of("6205")
    (Decimal('17'), Decimal('25'))
    """
    series, code = number[:-2], number[-2:]
    if series not in _SERIES or not code.isdigit() or int(code) > 96:
        return None
    return _BORE_CODES.get(code, Decimal(5 * int(code)))


def decode(text: str) -> BearingCode | None:
    """Return what a designation says, or None where the text has not the form of one.

    Case, blanks and hyphens do not matter: ``608 2RS``, ``608-2RS`` and ``6082rs`` are the same bearing.
    """
    upper = " ".join(text.upper().split())
    if _LINER.fullmatch(upper) and upper in _index():
        return _listed(upper, {})
    for read in (_lettered, _axial, _cage_sizes, _outside_bore, _inch, _numbered):
        if (code := read(upper)) is not None:
            return code
    return None


def _suffixes(text: str, position: int, angular: bool = False) -> dict[str, str] | None:
    """Return the suffixes from ``position`` on, by kind, or None where the text holds anything else."""
    found: dict[str, str] = {}
    while position < len(text):
        match = _SUFFIX.match(text, position)
        if match is None:
            return None
        kind = str(match.lastgroup)
        if kind in found or (kind == "angle" and not angular):
            return None
        found[kind] = _SEPARATORS.sub("", match[kind])
        position = match.end()
    if found.get("seal") in _OPEN.split("|"):
        found["seal"] = "open"
    return found


def _steel(mark: str | None) -> str:
    return "stainless steel" if mark else ""


def _sized(row: _Listed, closure: str) -> tuple[dict[str, Limits], tuple[Decimal, ...]]:
    """Return the dimensions that hold for this closure, and the possible widths where it is not stated."""
    dimensions = dict(row.dimensions)
    if closure == "open" or not row.shielded:
        return dimensions, ()
    if closure:
        return {**dimensions, **row.shielded}, ()
    for key in row.shielded:
        del dimensions[key]
    if "width" not in row.shielded:
        return dimensions, ()
    return dimensions, (row.dimensions["width"].nominal, row.shielded["width"].nominal)


def _listed(key: str, suffixes: Mapping[str, str], material: str = "", bare: bool = False) -> BearingCode:
    """Build the code of a designation that stands in a table."""
    row = _index()[key]
    seal = suffixes.get("seal", "")
    closure = _CLOSURES.get(seal, "")
    dimensions, widths = _sized(row, closure)
    if "bore" in suffixes:
        inches = Fraction(suffixes["bore"])
        dimensions["bore"] = Limits(_MM_PER_INCH * inches.numerator / inches.denominator)
    return BearingCode(
        row.family,
        row.size,
        dimensions,
        closure,
        seal,
        suffixes.get("clearance", ""),
        suffixes.get("precision", ""),
        suffixes.get("cage", ""),
        material,
        widths=widths,
        bare=bare and not suffixes,
        source=row.source,
        basis=row.basis,
    )


def _unlisted(
    family: str, designation: str, reason: str, suffixes: Mapping[str, str], suggestion: tuple[Decimal, ...] = ()
) -> BearingCode:
    """Build the code of a designation that no table lists."""
    seal = suffixes.get("seal", "")
    return BearingCode(
        family,
        designation,
        closure=_CLOSURES.get(seal, ""),
        seal=seal,
        clearance=suffixes.get("clearance", ""),
        bare=not suffixes,
        reason=reason,
        suggestion=suggestion,
    )


def _numbered(upper: str) -> BearingCode | None:
    match = _DIGITS.match(upper)
    if match is None:
        return None
    number, start = match["number"], match.start("number")
    flange, steel = "F" if match["flange"] else "", match["steel"]
    bare = not flange and not steel
    for cut in range(len(number), 2, -1):
        # 6082RS is 608-2RS: the longest beginning that is listed and leaves only suffixes is meant.
        key = f"{flange}{number[:cut]}"
        if key in _index() and (suffixes := _suffixes(upper, start + cut, angular=number[0] == "7")) is not None:
            return _listed(key, suffixes, _steel(steel), bare)
    suffixes = _suffixes(upper, match.end())
    if suffixes is None or ((suffixes or steel) and suffixes.keys().isdisjoint(("seal", "clearance"))):
        return None
    family = "flanged ball bearing" if flange else "ball bearing"
    bore = bore_of(number)
    if bore is not None:
        reason = f"{number} would have a bore of {bore} mm by its bore code; its outside and width are not listed here"
        return _unlisted(family, flange + number, reason, suffixes)
    suggestion = _split(number)
    reason = f"{flange}{number} is in no bearing series listed here"
    if suggestion:
        reason += f"; it may be a seller's number for {' x '.join(map(str, suggestion))}"
    return _unlisted(family, flange + number, reason, suffixes, suggestion)


def _split(number: str) -> tuple[Decimal, ...]:
    """Return bore, outside and width that a run of digits may spell (18307 -> 18, 30, 7), or nothing."""
    cuts = {4: (1, 3), 5: (2, 4), 6: (2, 4)}.get(len(number))
    if cuts is None or not number.isdigit():
        return ()
    bore, outer, width = (Decimal(part) for part in (number[: cuts[0]], number[cuts[0] : cuts[1]], number[cuts[1] :]))
    return (bore, outer, width) if 0 < width < outer and bore + 3 <= outer <= 4 * bore else ()


def _outside_bore(upper: str) -> BearingCode | None:
    match = _OUTSIDE_BORE.match(upper)
    if match is None or (suffixes := _suffixes(upper, match.end())) is None:
        return None
    key = match["letters"] + match["number"]
    if key in _index():
        return _listed(key, suffixes, _steel(match["steel"]))
    family = "flanged ball bearing" if match["letters"] == "MF" else "ball bearing"
    digits = match["number"].rstrip("X")
    reason = f"{key} would be {digits[:-1]} mm outside with a bore of {digits[-1]} mm; no such bearing is listed here"
    return _unlisted(family, key, reason, suffixes)


def _inch(upper: str) -> BearingCode | None:
    match = _INCH.match(upper)
    if match is None or (suffixes := _suffixes(upper, match.end())) is None:
        return None
    key = match["number"].replace(" ", "")
    if key not in _index():
        return None
    return _listed(key, suffixes, _steel(match["steel"]), bare=not match["steel"])


def _axial(upper: str) -> BearingCode | None:
    match = _AXIAL.fullmatch(upper)
    if match is None:
        return None
    key = f"F{match['bore']}-{match['outer']}M"
    if key in _index():
        return _listed(key, {})
    reason = f"{key} would be {match['bore']} mm bore and {match['outer']} mm outside; its height is not listed here"
    return _unlisted("thrust ball bearing", key, reason, {})


def _cage_sizes(upper: str) -> BearingCode | None:
    match = _CAGE_SIZES.match(upper)
    if match is None or _suffixes(upper, match.end()) is None:
        return None
    names = {"bore": "bore", "outer": "outer_diameter", "width": "width"}
    dimensions = {key: Limits(Decimal(match[group])) for group, key in names.items()}
    return BearingCode(
        "needle roller bearing",
        "K" + "x".join(match[group] for group in names),
        dimensions,
        source="ISO 3030 (the designation states bore, outside and width)",
        basis="published",
    )


def _lettered(upper: str) -> BearingCode | None:
    match = _LETTERED.match(upper)
    if match is None or (suffixes := _suffixes(upper, match.end())) is None:
        return None
    letters, number = match["letters"], match["number"]
    linear = letters.startswith(("LM", "SC", "SBR"))
    if not linear and (match["seals"] or match["form"] or match["length"]):
        return None
    letters = "SCS" if letters == "SC" else letters
    key = f"{letters}{number}{match['length'] or ''}{'UU' if linear else ''}"
    if key not in _index():
        return None
    if letters in ("HK", "BK") and suffixes.get("seal"):
        reason = f"{key} with seals is wider than the open one; its width is not listed here"
        return _unlisted(_index()[key].family, key, reason, suffixes)
    code = _listed(key, suffixes)
    return replace(code, form=_FORMS[match["form"]]) if match["form"] else code
