"""Tubes and hoses, heat shrink, and the clamps on hoses.

Two numbers of a tube are outside and inside in either order; of a metal tube the second may be the wall. One number
alone
is the outside of a pneumatic tube and the inside of a silicone hose; without the material it is open. Heat shrink is
named by its inside before shrinking.

Source: common practice.
"""

import re
from collections.abc import Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Code, Example, Family, phrases, words
from reference.families.facts import Draft, Facts, Number
from reference.quantities import Limits

_METRES = re.compile(r"[0-9] ?(?:m|mtr|met(?:er|re|ers|res|ro|ros|ri)|ft|feet)(?![a-z0-9])", re.IGNORECASE)
_METALS = frozenset({"brass", "copper", "aluminium", "steel", "stainless steel", "titanium", "bronze", "304", "316"})
_PNEUMATIC = (
    "pneumatic", "pneumatik", "pneumatikschlauch", "druckluft", "druckluftschlauch", "pneumatique", "neumatico",
    "pneumatico", "air", "pun", "pan", "compressed",
)  # fmt: skip
_SOFT = frozenset({"silicone", "rubber"})
_SOFT_WORDS = (
    "hose",
    "silikonschlauch",
    "pvc",
    "manguera",
    "gummischlauch",
    "pvcschlauch",
    "wasserschlauch",
    "fuel",
    "benzinschlauch",
)
_PIPE_WORDS = ("rohr", "messingrohr", "alurohr", "kupferrohr", "stahlrohr", "edelstahlrohr", "pipe", "prazisionsrohr")
_WALL_RATIO, _SURE_WALL_RATIO = Decimal("0.35"), Decimal("0.2")
"""A second number below this part of the first may be the wall; of a metal tube it surely is below the second"
" figure."""


def sizes_and_lengths(draft: Draft) -> tuple[list[Number], list[Number]]:
    """Take the unplaced numbers out of a draft: sizes in the order of the line, and lengths written in metres or"
    " feet."""
    numbers = [part for part in draft.rest if isinstance(part, Number)]
    draft.drop(*numbers)
    lengths = [number for number in numbers if _METRES.search(number.text)]
    return [number for number in numbers if not any(number is other for other in lengths)], lengths


def give_length(draft: Draft, sizes: list[Number], lengths: list[Number], least: Decimal) -> None:
    """Give the length: in metres, or else a last size that is far too long for a diameter."""
    if not lengths and len(sizes) > 1 and sizes[-1].value >= least and sizes[-1].value > 8 * sizes[0].value:
        lengths.append(sizes.pop())
    if lengths and "length" not in draft.dimensions:
        number = lengths.pop(0)
        draft.give("length", number.value, number.text, "length", "the line's own words")
    draft.rest += lengths


def _tube(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    return [item for draft in drafts for item in _read_tube(draft, facts)]


def _read_tube(draft: Draft, facts: Facts) -> list[Draft]:
    sizes, lengths = sizes_and_lengths(draft)
    give_length(draft, sizes, lengths, Decimal(100))
    outer, bore, wall = (draft.nominal(key) for key in ("outer_diameter", "bore", "thickness"))
    if wall is not None and (outer is not None or sizes):
        if outer is None:
            outer = sizes[0].value
            draft.give(
                "outer_diameter", outer, sizes.pop(0).text, "outside, the wall stands beside it", COMMON_PRACTICE
            )
        draft.give("bore", outer - 2 * wall, "wall", "outside less two walls", "arithmetic")
    elif outer is not None or bore is not None:
        if bore is None and sizes:
            draft.give("bore", sizes[0].value, sizes.pop(0).text, "inside", COMMON_PRACTICE)
        elif outer is None and sizes:
            draft.give("outer_diameter", sizes[0].value, sizes.pop(0).text, "outside", COMMON_PRACTICE)
    elif len(sizes) >= 2:
        first, second = sizes.pop(0), sizes.pop(0)
        draft.rest += sizes
        return _two_sizes(draft, facts, first, second)
    elif len(sizes) == 1:
        return _one_size(draft, facts, sizes[0])
    draft.rest += sizes
    return [draft]


def _two_sizes(draft: Draft, facts: Facts, first: Number, second: Number) -> list[Draft]:
    """The smaller of two is the inside, or the wall where it is a small part of the other."""
    small, large = sorted((first.value, second.value))
    draft.size_names = "outer diameter" if first.value == large else "bore"
    metal = draft.attributes.get("material") in _METALS or facts.says(*_PIPE_WORDS)
    inside = draft.copy()
    inside.dimensions |= {"outer_diameter": Limits(large), "bore": Limits(small)}
    inside.because.append(
        (f"{first.text} {second.text}", "the smaller of two diameters is the inside", COMMON_PRACTICE)
    )
    wall = draft.copy(size_names="outer diameter")
    wall.dimensions |= {"outer_diameter": Limits(large), "thickness": Limits(small), "bore": Limits(large - 2 * small)}
    wall.because.append((f"{first.text} {second.text}", "outside and wall of the tube", COMMON_PRACTICE))
    wall.order_text = "Tube OD {outer_diameter}, wall {thickness}, length {length?any}"
    if small > _WALL_RATIO * large or 2 * small >= large:
        return [inside]
    if metal and small <= _SURE_WALL_RATIO * large:
        wall.asks.append(f"{small.normalize():f} mm as the wall")
        return [wall]
    inside.evidence = wall.evidence = "assumed"
    return [wall, inside] if metal else [inside, wall]


def _one_size(draft: Draft, facts: Facts, size: Number) -> list[Draft]:
    """A pneumatic tube is named by its outside, a soft hose by its inside."""
    material = draft.attributes.get("material")
    pneumatic = facts.says(*_PNEUMATIC) or material in {"polyurethane", "nylon"}
    soft = facts.says(*_SOFT_WORDS) or material in _SOFT
    outside, inside = draft.copy(), draft.copy(size_names="bore")
    outside.dimensions["outer_diameter"] = Limits(size.value)
    outside.because.append((size.text, "pneumatic tube is named by its outside", COMMON_PRACTICE))
    outside.order_text = "Tube OD {outer_diameter}"
    inside.dimensions["bore"] = Limits(size.value)
    inside.because.append((size.text, "hose is named by its inside", COMMON_PRACTICE))
    inside.order_text = "Hose ID {bore}"
    if pneumatic and not soft:
        outside.asks.append(f"{size.value.normalize():f} mm as the outside diameter")
        return [outside]
    if soft and not pneumatic:
        inside.asks.append(f"{size.value.normalize():f} mm as the inside diameter")
        return [inside]
    outside.evidence = inside.evidence = "assumed"
    return [outside, inside]


def _clamp(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A range is what the clamp spans; one number alone leaves open whether hose or clamp is meant."""
    for draft in drafts:
        numbers = [part for part in draft.rest if isinstance(part, Number)]
        span = next((number for number in numbers if number.upper is not None), None)
        if span is not None and span.upper is not None:
            low, high, used = span.value, span.upper, [span]
        elif len(numbers) >= 2 and numbers[0].value < numbers[1].value:
            low, high, used = numbers[0].value, numbers[1].value, numbers[:2]
        else:
            draft.doubts.append("Which range does the clamp span, from and to which diameter?")
            if len(numbers) == 1:
                draft.dimensions["clamp_max"] = Limits(numbers[0].value)
                draft.drop(*numbers)
            continue
        draft.drop(*used)
        draft.dimensions |= {"clamp_min": Limits(low), "clamp_max": Limits(high)}
        draft.because.append((used[0].text, "the range that the clamp spans", COMMON_PRACTICE))
        width = [number for number in numbers if not any(number is other for other in used)]
        if len(width) == 1 and width[0].value < low * 2:
            draft.give("width", width[0].value, width[0].text, "width of the band", COMMON_PRACTICE)
            draft.drop(*width)
    return drafts


def _shrink(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """The size is the inside before shrinking; the ratio gives it after."""
    for draft in drafts:
        draft.attributes.pop("series", None)
        sizes, lengths = sizes_and_lengths(draft)
        give_length(draft, sizes, lengths, Decimal(40))
        if "bore" not in draft.dimensions and sizes:
            size = sizes.pop(0)
            draft.give("bore", size.value, size.text, "the inside before shrinking", COMMON_PRACTICE)
        bore = draft.nominal("bore")
        if sizes and bore is not None and sizes[0].value < bore:
            size = sizes.pop(0)
            draft.give("shrunk_diameter", size.value, size.text, "the inside after shrinking", COMMON_PRACTICE)
        elif bore is not None and "ratio" in draft.attributes:
            ratio = Decimal(draft.attributes["ratio"][0])
            draft.give(
                "shrunk_diameter", (bore / ratio).quantize(Decimal("0.01")), "ratio", "after shrinking", "arithmetic"
            )
        elif bore is not None:
            draft.asks.append(f"{bore.normalize():f} mm inside before shrinking")
        draft.rest += sizes
    return drafts


TUBE = Family(
    name="tube",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases("tube, tubing, hose, pipe, brass tube, pneumatic tube, air hose, capillary tube, bowden tube"),
        "de": phrases(
            "Schlauch, Rohr, Pneumatikschlauch, Silikonschlauch, Druckluftschlauch, Messingrohr, Alurohr,"
            " Kupferrohr, Röhrchen,"
            " Stahlrohr, Edelstahlrohr, Schläuche, Rohre, Gummischlauch, Wasserschlauch, Benzinschlauch,"
            " Präzisionsrohr,"
            " Aluminiumrohr, Kapillarrohr, Rundrohr"
        ),
        "fr": phrases("tube, tuyau, tuyaux, tubes, tuyau souple, tube laiton"),
        "es": phrases("tubo, manguera, tubos, tubo flexible, tubo de latón"),
        "it": phrases("tubo, tubi, tubo flessibile, tubicino, tubetto, tubo in ottone"),
    },
    labels={"height": "length", "diameter": "outer_diameter", "hole": "bore", "shaft": "bore", "tube": "-"},
    needs=("outer_diameter", "bore"),
    identity=("outer_diameter|bore",),
    order="Tube OD {outer_diameter}, ID {bore}",
    question="Which outside and which inside diameter has the tube?",
    refine=_tube,
    yields=True,
    unless=words(
        "inner test glue light lamp led fluorescent neon toothpaste vacuum boom sock socks"
        " top garden shower washing trousers panty den jeans"
        " bicycle bike tyre"
        " tire paint"
        " chambre cutter organ smoking drum bombs amp amplifier head seat video you"
    ),
    examples=(
        Example(
            "PU tube 8x5 blue",
            dimensions={"outer_diameter": "8", "bore": "5"},
            size_names="outer diameter",
        ),
        Example(
            "PTFE tube 3x4 2m", dimensions={"outer_diameter": "4", "bore": "3", "length": "2000"}, size_names="bore"
        ),
        Example("Messingrohr 6x0,5 L=500", dimensions={"outer_diameter": "6", "thickness": "0.5", "bore": "5"}),
        Example("aluminium tube OD 12 wall thickness 1", dimensions={"outer_diameter": "12", "bore": "10"}),
        Example("silicone tube 6mm", dimensions={"bore": "6"}, size_names="bore"),
        Example("8mm tubing", state="ambiguous"),
        Example("Schlauch 8x1", state="ambiguous"),
    ),
)

HOSE_CLAMP = Family(
    name="hose clamp",
    size_names="clamping range",
    key="clamp_min",
    nouns={
        "en": phrases(
            "hose clamp, hose clip, jubilee clip, worm drive clamp, pipe clamp, tube clamp, hose band, tubing clamp"
        ),
        "de": phrases("Schlauchschelle, Schlauchklemme, Schneckengewindeschelle, Rohrschelle, Spannschelle, Ohrklemme"),
        "fr": phrases("collier de serrage, collier, collier tuyau, collier durite, collier à vis, collier à oreille"),
        "es": phrases("abrazadera, abrazadera manguera, abrazadera sin fin, abrazaderas, abrazadera de tornillo"),
        "it": phrases(
            "fascetta stringitubo, fascetta metallica, stringitubo, fascetta a vite, fascetta tubo, collare stringitubo"
        ),
    },
    labels={"width": "width", "diameter": "-", "belt": "width"},
    needs=("clamp_min", "clamp_max"),
    identity=("clamp_min", "clamp_max"),
    order="Hose clamp {clamp_min}-{clamp_max}",
    question="Which range does the clamp span?",
    refine=_clamp,
    unless=words("dog chien perro shirt chemise cane pince"),
    examples=(
        Example("hose clamp 12-20", dimensions={"clamp_min": "12", "clamp_max": "20"}, size_names="clamping range"),
        Example("Schlauchschelle 8-12/9 W4", dimensions={"clamp_min": "8", "clamp_max": "12"}),
        Example("collier de serrage 16-27 mm inox", dimensions={"clamp_min": "16", "clamp_max": "27"}),
        Example("hose clamp 12 mm", state="ambiguous"),
    ),
)

HEAT_SHRINK = Family(
    name="heat shrink",
    size_names="bore",
    key="bore",
    nouns={
        "en": phrases(
            "heat shrink, heatshrink, shrink tube, shrink tubing, heat shrinkable, heat shrink tubing, shrink sleeve"
        ),
        "de": phrases("Schrumpfschlauch, Schrumpf Schlauch, Schrumpfschläuche, Wärmeschrumpfschlauch"),
        "fr": phrases(
            "gaine thermo, gaine thermorétractable, thermorétractable, gaine thermo rétractable, tube thermo"
        ),
        "es": phrases(
            "termorretráctil, tubo termorretráctil, tubo retráctil, funda termorretráctil, macarrón termorretráctil"
        ),
        "it": phrases(
            "termorestringente, guaina termorestringente, tubo termorestringente, termoretraibile, guaina"
            " termoretraibile"
        ),
    },
    codes=(
        Code(
            r"(?P<ratio>[2-6]) ?(?:[:.]|/) ?1",
            decode=lambda groups: Draft("heat shrink", "", "", attributes={"ratio": f"{groups['ratio']}:1"}),
            says="how much it shrinks",
        ),
    ),
    labels={"diameter": "bore", "od": "outer_diameter", "tube": "-"},
    needs=("bore",),
    identity=("bore",),
    order="Heat shrink {bore} mm {ratio?2:1}",
    question="Which inside diameter before shrinking?",
    refine=_shrink,
    unless=words("gun pistolet film wrap bag"),
    examples=(
        Example(
            "heat shrink 3mm 2:1 black 5m",
            dimensions={"bore": "3", "length": "5000", "shrunk_diameter": "1.5"},
            size_names="bore",
        ),
        Example("Schrumpfschlauch 6,4/3,2 schwarz", dimensions={"bore": "6.4", "shrunk_diameter": "3.2"}),
        Example("gaine thermorétractable 12 mm 3:1", dimensions={"bore": "12", "shrunk_diameter": "4"}),
        Example("heat shrink tubing", state="ambiguous"),
    ),
)

FAMILIES = (TUBE, HOSE_CLAMP, HEAT_SHRINK)
