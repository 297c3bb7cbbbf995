"""Plain and flanged bushes. The size names the bore: bore x outside x length, the bore being the smaller diameter.

A bush's code names bore and length only (SF-1 0810), or bore, outside and length (PCM 101210); its outside follows from
the table. The bore closes when the bush is pressed in: a class that a line gives holds before or after that, which has
to be asked.

Sources: ISO 3547 (wrapped), ISO 4379 (solid copper alloy), ISO 2795 (sintered), makers' codes (tables).
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.bush_designations import DESIGNATION, BushCode, decode
from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts
from reference.quantities import Limits

_PLAIN, _FLANGED = "plain bush", "flanged bush"
_SINTERED = words(
    "sintered sinter sinterbronze sinterbuchse frittee fritte sinterizado sinterizada sinterizzata impregnated"
    " selbstschmierend autolubrifiante autolubrificante autolubricante"
)
_WRAPPED = words("wrapped gerollt gerollte gerollter roulee pcm")
_BORE_WORDS = ("bore", "bored", "bohrung", "alesage", "foro", "agujero", "id", "innen")


def _read(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read a bush by its code or by its sizes; a single plain number leaves it open."""
    code = decode(facts.code) if facts.code else None
    if code is not None:
        return [_coded(drafts[0], code)]
    out: list[Draft] = []
    for draft in drafts:
        if not draft.standards:
            # No class is taken from a kind of bush that the line does not name.
            kind = "ISO 2795" if facts.says(*_SINTERED) else "ISO 3547" if facts.says(*_WRAPPED) else ""
            draft.table_standard = kind if draft.nominal("outer_diameter") is not None else ""
        for mention in facts.classes:
            if mention.hole and mention.name[0] in "EFGH":
                draft.asks.append(f"class {mention.name} of the bore before pressing in (pressing in closes it)")
        single = draft.dimensions.pop("size", None)
        out += _single(facts, draft, single) if isinstance(single, Limits) else [draft]
    return out


def _coded(draft: Draft, code: BushCode) -> Draft:
    """Return the reading of a code, and doubt sizes of the line that are not the code's."""
    own = {
        "bore": code.bore,
        "outer_diameter": code.outer_diameter,
        "length": code.length,
        "flange_diameter": code.flange_diameter,
        "flange_thickness": code.flange_thickness,
    }
    known = {key: value for key, value in own.items() if value is not None}
    single = draft.nominal("size")
    odd = [
        f"{key.replace('_', ' ')} {said}"
        for key, value in known.items()
        if (said := draft.nominal(key)) is not None and said != value
    ]
    if single is not None and single not in known.values():
        odd.append(str(single))
    read = draft.copy(family=code.family, size_names="bore", evidence="stated", table_standard="")
    read.attributes["series"] = code.designation
    if odd:
        read.doubts.append(f"{code.designation} has not {' and '.join(odd)}. Which size is right?")
    if code.reason:
        read.doubts.append(f"{code.reason[0].upper()}{code.reason[1:]}. Which outside has the bush?")
    read.dimensions = {key: value for key, value in read.dimensions.items() if key not in {*own, "size"}}
    read.dimensions |= {key: Limits(value) for key, value in known.items()}
    read.because.append((code.designation, "bore and length stand in the code", code.source or COMMON_PRACTICE))
    read.order_text = f"{code.family.capitalize()} {code.designation}"
    return read


def _single(facts: Facts, draft: Draft, size: Limits) -> list[Draft]:
    """One number alone is the bore where the line says bore, else bore, outside or length."""
    if facts.says(*_BORE_WORDS):
        draft.dimensions["bore"] = size
        return [draft]
    drafts = [
        draft.copy(dimensions={**draft.dimensions, key: size}, size_names=key.replace("_", " "), evidence="assumed")
        for key in ("bore", "outer_diameter", "length")
        if key not in draft.dimensions
    ]
    shown = format(size.nominal.normalize(), "f")
    drafts[0].doubts.append(f"Is {shown} mm the bore, the outside or the length? Please give bore x outside x length.")
    return drafts


def _smaller_inside(values: Mapping[str, Decimal]) -> bool:
    return values["bore"] < values["outer_diameter"]


_SAYS = "the smaller diameter is the bore"
_LAYOUTS = (
    Layout(("bore", "outer_diameter", "length"), when=_smaller_inside, says=_SAYS),
    Layout(("outer_diameter", "bore", "length"), when=_smaller_inside, says=_SAYS),
    Layout(("bore", "outer_diameter"), when=_smaller_inside, says=_SAYS),
    Layout(("bore", "length"), competes=True, when=lambda v: "outer_diameter" not in v and v["bore"] < v["length"]),
    Layout(("outer_diameter", "bore"), when=_smaller_inside, says=_SAYS),
    Layout(("size",)),
)
_CODE = (Code(DESIGNATION, identifies=True, decode=lambda groups: _bush(groups), says="a bush code"),)
_LABELS = {
    **dict.fromkeys(("width", "height", "depth"), "length"),
    **dict.fromkeys(("hole", "shaft"), "bore"),
    "thickness": "wall_thickness",
}


def _bush(groups: Mapping[str, str]) -> Draft | None:
    code = decode(groups["all"])
    return Draft(code.family, "bore", "stated") if code is not None else None


_OTHER_THINGS = words(
    "hammer tree trees rose garden trimmer plant knife pilot suspension rubber gummi brush insulator cable strain"
)
_QUESTION = "Which bore x outside x length has the bush?"

PLAIN_BUSH = Family(
    name=_PLAIN,
    size_names="bore",
    key="bore",
    nouns={
        "en": phrases("bush, bushing, bushes, bushings")
        + phrases("plain, sleeve, slide, sliding, friction, bronze, sintered, journal, polymer, dry", "bearing, brg")
        + phrases("sleeve bush, bronze sleeve, drill bush"),
        "de": phrases(
            "Buchse, Gleitlager, Gleitlagerbuchse, Lagerbuchse, Sinterbuchse, Bronzebuchse, Sinterlager, Gleitbuchse,"
            " Sinterbronzebuchse, Büchse, Kunststoffgleitlager, Bohrbuchse"
        ),
        "fr": phrases(
            "bague autolubrifiante, bague bronze, coussinet, bague lisse, bague de palier, palier lisse, douille lisse,"
            " bague frittée, bague autolub, douille bronze, bague cylindrique"
        ),
        "es": phrases(
            "cojinete de bronce, cojinete sinterizado, casquillo, casquillo de bronce, buje, cojinete liso,"
            " cojinete de fricción, casquillo autolubricante"
        ),
        "it": phrases("boccola, bronzina, boccola bronzo, boccola autolubrificante, cuscinetto liso, boccole, bussola"),
        "zh": phrases("zhoutao, tongtao"),
    },
    standards=(
        Standard("ISO 4379"),
        Standard("ISO 2795"),
        Standard("ISO 3547"),
        Standard("DIN 1850", rows="ISO 4379"),
        Standard("DIN 1850-1", rows="ISO 4379"),
        Standard("DIN 1850-3", rows="ISO 2795"),
        Standard("DIN 1494", rows="ISO 3547"),
        Standard("ISO 3547-1", rows="ISO 3547"),
    ),
    table="plain_bush",
    codes=_CODE,
    layouts=_LAYOUTS,
    labels=_LABELS,
    plain_m=True,
    needs=("bore", "outer_diameter", "length"),
    identity=("bore",),
    listed_sizes=False,
    order="Plain bush {bore} x {outer_diameter} x {length}",
    question=_QUESTION,
    uniform_length=True,
    refine=_read,
    kin=(_FLANGED,),
    unless=_OTHER_THINGS,
    examples=(
        Example("sintered bush 6x10x10 bronze", dimensions={"bore": "6", "outer_diameter": "10", "length": "10"}),
        Example("wrapped bushing SF-1 0810", dimensions={"bore": "8", "outer_diameter": "10", "length": "10"}),
        Example("Gleitlager 12x8x10", dimensions={"bore": "8", "outer_diameter": "12", "length": "10"}),
        Example("casquillo de bronce 8/12/10", dimensions={"bore": "8", "outer_diameter": "12", "length": "10"}),
        Example("PCM 101210 E", dimensions={"bore": "10", "outer_diameter": "12", "length": "10"}, size_names="bore"),
        Example("bronze bush 8 mm", state="ambiguous"),
    ),
    source="ISO 4379, ISO 2795, ISO 3547; makers' codes",
    mates=Mates(housing=("H7", "H7")),
)

FLANGED_BUSH = Family(
    name=_FLANGED,
    size_names="bore",
    key="bore",
    nouns={
        "en": phrases("flanged, flange, collared", "bush, bushing, bushes, bushings, sleeve bearing, plain bearing"),
        "de": phrases(
            "Bundbuchse, Flanschbuchse, Gleitlager mit Bund, Gleitlager Bund, Flanschlagerbuchse, Buchse mit Bund,"
            " Gleitlager Flansch, Buchse Flansch, Bundlager"
        ),
        "fr": phrases(
            "bague à collerette, coussinet à collerette, bague épaulée, coussinet épaulé, bague bronze collerette,"
            " bague autolubrifiante collerette, palier lisse collerette"
        ),
        "es": phrases(
            "casquillo con brida, casquillo con valona, buje con brida, casquillo con pestaña, casquillo bronce valona,"
            " casquillo bronce brida, casquillo de collar"
        ),
        "it": phrases(
            "boccola flangiata, bronzina flangiata, boccola con flangia, boccola con collare, boccola bronzo flangiata"
        ),
    },
    standards=(Standard("ISO 2795"), Standard("ISO 3547"), Standard("DIN 1850-3", rows="ISO 2795")),
    table="flanged_bush",
    codes=_CODE,
    layouts=(
        Layout(
            ("bore", "outer_diameter", "flange_diameter", "length"),
            when=lambda v: v["bore"] < v["outer_diameter"] < v["flange_diameter"],
            says="bore, outside, flange, length",
        ),
        *_LAYOUTS,
    ),
    labels={**_LABELS, "head": "flange_diameter"},
    plain_m=True,
    needs=("bore", "outer_diameter", "length", "flange_diameter"),
    identity=("bore",),
    listed_sizes=False,
    order="Flanged bush {bore} x {outer_diameter} x {length}, flange {flange_diameter}",
    question=_QUESTION,
    uniform_length=True,
    refine=_read,
    unless=_OTHER_THINGS,
    examples=(
        Example(
            "flanged bush 5x8x8 flange 12",
            dimensions={"bore": "5", "outer_diameter": "8", "length": "8", "flange_diameter": "12"},
            size_names="bore",
        ),
        Example("Bundbuchse 6 x 10 x 6, Bund 14", dimensions={"bore": "6", "flange_diameter": "14", "length": "6"}),
        Example("GFM-0810-10 flange", dimensions={"bore": "8", "outer_diameter": "10", "length": "10"}),
        Example("flanged bush 8 mm", state="ambiguous"),
    ),
    source="ISO 2795, ISO 3547; makers' codes",
    mates=Mates(housing=("H7", "H7")),
)

FAMILIES = (PLAIN_BUSH, FLANGED_BUSH)
