"""Profile guide rails, their carriages, and shafts on a continuous support.

A rail is named by its size class (MGN12, HGR15), which is not always its width. A carriage's designation adds its form
(MGN12H, HGH15CA); sellers name a rail with its carriage by the carriage (``MGN12H 400 mm``). ``Linear rail 12 mm`` can
be a profile rail of class 12, a round shaft of 12 mm or a supported one.

Source: makers' catalogues (tables).
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, Mates, phrases, words
from reference.families.facts import Draft, Facts
from reference.quantities import Dimension, Limits
from reference.sizes import Size, size_table

_RAIL, _CARRIAGE, _SUPPORTED, _SHAFT = "guide rail", "guide carriage", "supported shaft", "shaft"
_RAIL_WORDS = words("rail rails schiene schienen fuhrungsschiene riel carril guia rotaia guida linearschiene")
_CARRIAGE_WORDS = words(
    "carriage carriages block blocks slider wagen laufwagen fuhrungswagen chariot patin carro carrello pattino runner"
)
_PROFILE_WORDS = words(
    "profile profiled profilschiene profilschienenfuhrung profilfuhrung profil perfil profilo square size class"
    " baugrosse taille talla tamano taglia"
)
_LENGTH = r"(?: ?(?:r ?|- ?)?(?P<length>\d{3,4})(?: ?mm|[chm]{1,2})?)?"
_RAIL_CODE = r"(?P<letters>mg[nw]|hgr|egr)r? ?-?(?P<size>\d{1,2})" + _LENGTH
_CARRIAGE_CODE = r"(?P<letters>mg[nw]|[he]g[hw]) ?-?(?P<size>\d{1,2}) ?-?(?P<form>ca|cc|ha|hc|c|h)" + _LENGTH
_SET_CODE = (
    r"(?:mg[nw]|hgr|egr)r? ?-?\d{1,2}(?: ?[r,-]? ?(?:l ?=? ?)?\d{3,4}(?: ?mm)?)?"
    r" ?(?:\+|with|mit|avec|con|and|und) ?(?:\d ?x? ?)?(?:mg[nw]|[he]g[hw]) ?-?\d{1,2} ?-?(?:ca|cc|ha|hc|c|h)"
)
_COUNTED = re.compile(
    r"\b(\d) ?x? ?(?:blocks?|carriages?|sliders?|wagen|laufwagen|f(?:ü|ue)hrungswagen|chariots?|patins?|carros?|patines"
    r"|carrell[oi]|pattin[oi])\b"
)
_LEAST_RAIL = Decimal(50)
"""A length from here on is that of a rail: no carriage listed here is named by its own length [mm]."""


@dataclass(frozen=True, slots=True)
class _Guide:
    """A designation: letters with size class, the form of a carriage, a length that stands in it."""

    rail: str
    carriage: str
    length: Decimal | None
    is_set: bool = False


@cache
def _sizes(name: str) -> Mapping[str, Size]:
    return {row.size: row for row in size_table(name, "catalogue_number").rows}


def _parse(text: str) -> _Guide | None:
    """Return the parts of a designation, or of a rail together with its carriages (``HGR20 L500 + 2 HGH20CA``)."""
    if re.fullmatch(_SET_CODE, text):
        first, second = re.match(_RAIL_CODE.removesuffix(_LENGTH), text), re.search(_CARRIAGE_CODE + "$", text)
        below, above = _parse(first[0]) if first else None, _parse(second[0]) if second else None
        if below is None or above is None:
            return None
        length = re.search(r"\d{3,4}", text)
        return _Guide(below.rail, above.carriage, Decimal(length[0]) if length else None, is_set=True)
    match = re.fullmatch(_CARRIAGE_CODE, text) or re.fullmatch(_RAIL_CODE, text)
    if match is None:
        return None
    groups = match.groupdict()
    letters, size, form = groups["letters"].upper(), str(int(groups["size"])), (groups.get("form") or "").upper()
    rail = f"{letters if letters.startswith('MG') else letters[0] + 'GR'}{size}"
    carriage = f"{letters}{size}{form}" if form else ""
    return _Guide(rail, carriage, Decimal(groups["length"]) if groups["length"] else None)


def _listed(groups: Mapping[str, str]) -> Draft | None:
    guide = _parse(groups["all"])
    known = guide is not None and (guide.rail in _sizes("guide_rail") or guide.carriage in _sizes("guide_carriage"))
    return Draft(_RAIL, "size class", "stated") if known else None


def _read(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    draft = drafts[0]
    guide = _parse(facts.code) if facts.code else None
    _place(facts, draft, guide)
    if guide is None:
        return _without_code(family, facts, draft)
    size, length = draft.dimensions.pop("size_class", None), draft.nominal("length") or guide.length
    if isinstance(size, Limits) and f"{size.nominal.normalize():f}" != re.sub(r"\D", "", guide.rail):
        draft.doubts.append(f"{guide.rail} is no size class {size.nominal.normalize():f}. Which one is wanted?")
    draft.dimensions.pop("length", None)
    own = _sizes("guide_carriage").get(guide.carriage)
    own_length = own.dimensions.get("length") if own else None
    as_rail = (
        guide.is_set
        or (length is not None and length >= _LEAST_RAIL and length != getattr(own_length, "nominal", None))
        or (facts.says(*_RAIL_WORDS) and not (guide.carriage and facts.says(*_CARRIAGE_WORDS)))
    )
    if as_rail or (not guide.carriage and not facts.says(*_CARRIAGE_WORDS)):
        return [_rail(draft, guide, length)]
    return _carriages(draft, guide)


def _place(facts: Facts, draft: Draft, guide: _Guide | None) -> None:
    """Give the plain numbers to the count of carriages, the length and, without a designation, the size class."""
    numbers = facts.unplaced(draft)
    counted = _COUNTED.search(facts.line.lower())
    if counted is not None:
        draft.attributes["carriages"] = counted[1]
        draft.drop(*(number for number in numbers if number.text == counted[1]))
    if guide is not None:
        own = re.sub(r"\D", "", guide.rail)
        draft.drop(*(number for number in facts.unplaced(draft) if f"{number.value.normalize():f}" == own))
    numbers = sorted(facts.unplaced(draft), key=lambda number: number.value)
    if numbers and numbers[-1].value >= _LEAST_RAIL and "length" not in draft.dimensions:
        longest = numbers.pop()
        draft.give("length", longest.value, longest.text, "length", COMMON_PRACTICE)
        draft.drop(longest)
    if guide is None and len(numbers) == 1 and "size_class" not in draft.dimensions:
        draft.give("size_class", numbers[0].value, numbers[0].text, "size class", COMMON_PRACTICE)
        draft.drop(numbers[0])


def _named(draft: Draft, family: str, row: Size) -> Draft:
    """Return the reading of a listed rail or carriage."""
    read = draft.copy(family=family, size_names="size class", evidence="stated", rest=[])
    read.attributes["series"] = row.size
    read.dimensions |= {key: value for key, value in row.dimensions.items() if key not in {"series", "form"}}
    read.because.append((row.size, f"size class {row.size.lstrip('ABCDEFGHMNRW').rstrip('ACH')}", row.source))
    read.order_text = f"{family.capitalize()} {row.size}"
    read.rest = list(draft.rest)
    return read


def _rail(draft: Draft, guide: _Guide, length: Decimal | None) -> Draft:
    row = _sizes("guide_rail").get(guide.rail)
    if row is None:
        draft.doubts.append(f"No guide rail {guide.rail} is listed here. Which size class?")
        return draft
    read = _named(draft, _RAIL, row)
    if length is not None:
        read.dimensions["length"] = Limits(length)
        read.order_text = f"Guide rail {row.size}, length {length.normalize():f}"
    if guide.carriage:
        read.attributes["carriage"] = guide.carriage
        read.asks.append(f"a rail {row.size} together with carriage {guide.carriage}")
    return read


def _carriages(draft: Draft, guide: _Guide) -> list[Draft]:
    rows = _sizes("guide_carriage")
    letters = guide.carriage or guide.rail
    found = [rows[letters]] if letters in rows else []
    if not found and not guide.carriage:
        # HGR15 runs HGH15 and HGW15; MGN12 runs MGN12C and MGN12H.
        stems = (letters, letters.replace("GR", "GH"), letters.replace("GR", "GW"))
        found = [row for size, row in rows.items() if any(re.fullmatch(f"{stem}[A-Z]+", size) for stem in stems)]
    if not found:
        draft.doubts.append(f"No carriage {letters} is listed here. Which size class and form?")
        return [draft]
    drafts = [_named(draft, _CARRIAGE, row) for row in found]
    if len(drafts) > 1:
        forms = " or ".join(row.size for row in found)
        drafts[0].doubts.append(f"Which form of carriage: {forms}?")
    return drafts


def _without_code(family: Family, facts: Facts, draft: Draft) -> list[Draft]:
    """A size without a designation: a class of several series, or the diameter of a round shaft."""
    size = draft.nominal("size_class")
    if size is None:
        draft.doubts.append(family.question)
        return [draft]
    shown = format(size.normalize(), "f")
    table = "guide_carriage" if family.name == _CARRIAGE else "guide_rail"
    series = [row.size for row in _sizes(table).values() if row.dimensions.get("size_class") == Limits(size)]
    profile = family.name == _CARRIAGE or facts.says(*_PROFILE_WORDS)
    if not series and profile:
        draft.doubts.append(f"No {family.name} of size class {shown} is listed here. Which series and size class?")
        return [draft]
    if profile:
        draft.asks.append(f"size class {shown}, the series ({', '.join(series)}) left open")
        return [draft]
    listed = f" ({', '.join(series)})" if series else ""
    draft.doubts.append(f"Is it a profile rail of size class {shown}{listed} or a round shaft?")
    length = {"length": draft.dimensions["length"]} if "length" in draft.dimensions else {}
    round_sizes: dict[str, Dimension] = {"outer_diameter": Limits(size), **length}
    shaft = draft.copy(
        family=_SHAFT, size_names="outer diameter", evidence="assumed", dimensions=round_sizes, doubts=[]
    )
    supported = {"shaft_size": Limits(size), **round_sizes}
    sbr = draft.copy(family=_SUPPORTED, size_names="shaft size", evidence="assumed", dimensions=supported, doubts=[])
    shaft.because.append((shown, "the diameter of a round rail", COMMON_PRACTICE))
    if not series:
        shaft.doubts = list(draft.doubts)
        return [shaft, sbr]
    return [draft, shaft, sbr]


def _supported(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read SBR12: the number is the shaft; a plain size before the length is the shaft too."""
    match = re.search(r"([st]br) ?-?(\d{2})(?:\D+(\d{3,4}))?", facts.code or "")
    for draft in drafts:
        if match is not None:
            draft.attributes["series"] = f"{match[1].upper()}{match[2]}"
            draft.evidence = "stated"
            if (single := draft.dimensions.pop("shaft_size", None)) and "length" not in draft.dimensions:
                draft.dimensions["length"] = single
            if match[3]:
                draft.dimensions["length"] = Limits(Decimal(match[3]))
            draft.dimensions["shaft_size"] = Limits(Decimal(match[2]))
            draft.order_text = f"Supported shaft {draft.attributes['series']}, length {{length}}"
            row = _sizes("supported_shaft").get(draft.attributes["series"])
            if row is not None:
                draft.dimensions = {**row.dimensions, **draft.dimensions}
    return drafts


_OTHER_THINGS = words(
    "din curtain towel hand fence train ticket picatinny garden bolt bolts baby doll camera audio song"
)

GUIDE_RAIL = Family(
    name=_RAIL,
    size_names="size class",
    key="catalogue_number",
    nouns={
        "en": phrases(
            "linear rail, linear guide rail, profile rail, guide rail, linear guide, linear guideway, slide rail"
        )
        + phrases("miniature rail, profiled rail, linear slide rail, linear motion guide, linear motion rail"),
        "de": phrases(
            "Linearschiene, Profilschiene, Führungsschiene, Linearführung, Profilschienenführung, Miniaturführung,"
            " Linearführungsschiene, Miniaturschiene, Schienenführung"
        ),
        "fr": phrases(
            "rail linéaire, rail de guidage, rail profilé, guidage linéaire, glissière linéaire, rail miniature"
        ),
        "es": phrases("guía lineal, riel lineal, carril lineal, carril guía, raíl lineal, riel guía, guía miniatura"),
        "it": phrases(
            "guida lineare, rotaia lineare, guida profilata, rotaia profilata, guida a ricircolo, guida miniatura"
        ),
        "zh": phrases("zhixian daogui, daogui"),
    },
    table="guide_rail",
    codes=(
        Code(_SET_CODE, identifies=True, decode=_listed),
        Code(_RAIL_CODE, identifies=True, decode=_listed),
        Code(_CARRIAGE_CODE, decode=_listed),
    ),
    labels={"width": "size_class", "diameter": "size_class"},
    needs=("size_class", "length"),
    order="Guide rail of size class {size_class}, length {length}",
    question="Which series and size class (MGN12, HGR15), and which length?",
    refine=_read,
    kin=(_CARRIAGE, _SUPPORTED),
    unless=_OTHER_THINGS,
    examples=(
        Example(
            "HGR15-600", dimensions={"size_class": "15", "length": "600", "hole_pitch": "60"}, size_names="size class"
        ),
        Example("MGN12 rail 400 mm", dimensions={"size_class": "12", "length": "400", "hole_pitch": "25"}),
        Example("Linearführung MGN9 L=300", dimensions={"size_class": "9", "length": "300"}),
        Example("MGN12H linear rail 500mm", dimensions={"size_class": "12", "length": "500"}),
        Example("linear rail 12 mm", state="ambiguous"),
        Example("Profilschiene 15 x 600", dimensions={"size_class": "15", "length": "600"}),
    ),
    source="makers' catalogues",
    mates=Mates(in_bore=False),
)

GUIDE_CARRIAGE = Family(
    name=_CARRIAGE,
    size_names="size class",
    key="catalogue_number",
    nouns={
        "en": phrases(
            "linear, guide, rail, linear rail, linear guide, miniature", "carriage, carriages, slider, runner"
        )
        + phrases("guide block, rail block, linear rail block, linear guide block, carriage block, slide block"),
        "de": phrases("Führungswagen, Laufwagen, Linearwagen, Schienenwagen, Miniaturwagen"),
        "fr": phrases("chariot de guidage, patin de guidage, chariot linéaire, patin linéaire, patin à billes"),
        "es": phrases("carro lineal, patín lineal, patín guía, carro guía, carro de guía lineal, carro riel"),
        "it": phrases("carrello lineare, pattino lineare, carrello guida, pattino guida, carrello a ricircolo"),
        "zh": phrases("huakuai"),
    },
    table="guide_carriage",
    codes=(
        Code(_SET_CODE, decode=_listed),
        Code(_CARRIAGE_CODE, identifies=True, decode=_listed),
        Code(_RAIL_CODE, decode=_listed),
    ),
    labels={"width": "size_class"},
    needs=("size_class",),
    order="Guide carriage of size class {size_class}",
    question="Which series, size class and form (MGN12H, HGH15CA)?",
    refine=_read,
    kin=(_RAIL,),
    unless=_OTHER_THINGS,
    examples=(
        Example(
            "MGN12H",
            dimensions={"size_class": "12", "internal_thread": "M3", "length": "45.4"},
            size_names="size class",
        ),
        Example("HGH15CA", dimensions={"size_class": "15", "internal_thread": "M4"}),
        Example("Führungswagen MGN9C", dimensions={"size_class": "9"}),
        Example("MGN12 carriage", state="ambiguous"),
        Example("linear carriage 15", dimensions={"size_class": "15"}),
    ),
    source="makers' catalogues",
    mates=Mates(in_bore=False),
)

SUPPORTED_SHAFT = Family(
    name=_SUPPORTED,
    size_names="shaft size",
    key="shaft_size",
    nouns={
        "en": phrases(
            "supported rail, supported shaft, supported linear rail, sbr rail, sbr linear rail, supported round rail"
        )
        + phrases("sbr guide rail, round rail, fully supported rail, supported linear shaft"),
        "de": phrases(
            "Tragschiene, unterstützte Welle, Wellenunterstützung, Rundschiene, SBR Schiene, SBR Linearführung"
        ),
        "fr": phrases("rail supporté, arbre supporté, rail sur support, rail SBR, guidage linéaire SBR"),
        "es": phrases("eje soportado, guía soportada, riel soportado, riel SBR, guía lineal SBR, varilla soportada"),
        "it": phrases("albero supportato, guida supportata, guida SBR, guida lineare SBR, rotaia SBR"),
    },
    table="supported_shaft",
    codes=(Code(r"[st]br ?-?\d{2}(?: ?- ?\d{3,4}(?: ?mm)?)?", identifies=True),),
    layouts=(
        Layout(("shaft_size", "length"), when=lambda v: v["shaft_size"] < v["length"]),
        Layout(("length", "shaft_size"), when=lambda v: v["shaft_size"] < v["length"]),
        Layout(("shaft_size",)),
    ),
    labels={"diameter": "shaft_size", "od": "shaft_size"},
    needs=("shaft_size", "length"),
    identity=("shaft_size",),
    order="Supported shaft {shaft_size} mm, length {length}",
    question="Which shaft diameter, and which length?",
    refine=_supported,
    kin=("linear bearing block",),
    listed_sizes=False,
    unless=words("din curtain towel"),
    examples=(
        Example("SBR12 supported rail 400", dimensions={"shaft_size": "12", "length": "400"}, size_names="shaft size"),
        Example("SBR16-1000mm", dimensions={"shaft_size": "16", "length": "1000"}),
        Example("supported shaft 20 mm, 800 long", dimensions={"shaft_size": "20", "length": "800"}),
        Example("supported rail", state="ambiguous"),
    ),
    source="makers' catalogues",
)

FAMILIES = (GUIDE_RAIL, GUIDE_CARRIAGE, SUPPORTED_SHAFT)
