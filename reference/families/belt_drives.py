"""Timing belts, timing pulleys and idlers. Profile and numbers only mean something together: arithmetic places them.

A pulley's size is its number of teeth; its bore and the belt's width stand beside it and are told apart by what fits:
a width that the profile is made in, a bore that the teeth leave room for. A closed belt is named by its pitch length
(some codes count its teeth), an open one by its width. M in HTD 5M is no thread, XL037 is no 37 mm.

Sources: ISO 5296, ISO 17396, ISO 13050 (profiles and codes), makers' catalogues (tables).
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from itertools import permutations

from reference import belts
from reference.belts import Belt, Profile
from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Mates, phrases, words
from reference.families.facts import Draft, Facts, Number, ThreadMention
from reference.quantities import Limits

_BELT, _PULLEY, _IDLER = "timing belt", "timing pulley", "idler"
_OPEN = words(
    "open offen offener offenes meterware metre meter ouverte ouvert metro abierta abierto aperta aperto roll rolle"
    " rouleau rollo rotolo endlich"
)
_CLOSED = words(
    "closed close loop loops endless geschlossen geschlossener fermee ferme cerrada cerrado chiusa chiuso anillo ring"
    " endlos annular boucle"
)
_PROFILE = (
    r"htd[ -]?\d{1,2}m|htd|gt-?[235](?:m(?![a-z]))?|[2358]m?gt(?:[23](?!\d))?|g2m|s[2358]m|at ?(?:2[.,]5|3|5|10|20)"
    r"|t(?:2[.,]5|2|5|10|20)|mxl|xxl|xl"
)
_LOOSE_PROFILE = r"(?:[358]|14)m"
"""Beside a named profile it is a length in metres."""
_LOOSE_WORD = re.compile(r"(?<![\w.,])(3|5|8|14)m\b")

_PULLEY_CODE = rf"p? ?(?P<count>\d{{2,3}}) ?-? ?(?P<text_profile>{_PROFILE}|{_LOOSE_PROFILE}) ?-? ?(?P<wide>\d{{1,3}})"
_PITCH_LENGTH = re.compile(r"pitch length|wirkl(?:ä|ae)nge|longueur primitive|longitud primitiva|lunghezza primitiva")
_SHORTEST = Decimal(40)
_NARROWEST, _WIDEST = Decimal(2), Decimal(115)
"""No belt profile listed here is narrower or wider [mm]."""


def _spelt(text: str) -> str:
    """Return a profile in the spelling that its table has: ``2gt2`` and ``gt2m`` are 2GT."""
    plain = re.sub(r"[ -]", "", text.lower())
    plain = re.sub(r"^(\d)m?gt[23]$", r"\1gt", plain)
    return re.sub(r"^gt([235])m$", r"\1gt", plain)


def _profile(draft: Draft, facts: Facts) -> Profile | None:
    """Return the profile that stands in the line; HTD with a pitch beside it names one too."""
    said = _spelt(draft.attributes.get("profile", ""))
    pitch = draft.nominal("pitch")
    if said == "htd" and (metric := _LOOSE_WORD.search(facts.line.lower())):
        said = f"htd{metric[1]}m"
        draft.rest = [
            part for part in draft.rest if not (isinstance(part, Number) and part.plain == Decimal(metric[1]))
        ]
    if (not said or said == "htd") and facts.says("htd") and pitch is not None:
        said = f"htd{pitch.normalize():f}m"
    profile = belts.profile_of(said) if said else None
    if profile is None:
        draft.attributes.pop("profile", None)
        return None
    draft.attributes["profile"] = profile.name
    if pitch is not None and pitch != profile.pitch:
        draft.doubts.append(f"{profile.name} has a pitch of {profile.pitch} mm, the line says {pitch}. Which profile?")
    draft.dimensions["pitch"] = Limits(profile.pitch)
    return profile


def _which_profile(draft: Draft) -> str:
    """Return the question for a drive without a profile: a pitch alone is shared by several."""
    pitch = draft.nominal("pitch")
    if pitch is None:
        return "Which profile (GT2, HTD 3M, T5, XL)?"
    same = dict.fromkeys(item.name for item in belts.profiles().values() if abs(item.pitch - pitch) < Decimal("0.1"))
    return f"{pitch.normalize():f} mm is the pitch of {', '.join(same) or 'no listed profile'}. Which profile?"


def _set_screw(draft: Draft) -> None:
    """A thread in the line of a pulley is that of its set screws."""
    for mention in [part for part in draft.rest if isinstance(part, ThreadMention)]:
        draft.attributes["set_screw"] = mention.thread.designation
        draft.drop(mention)


# -- pulleys and idlers -----------------------------------------------------------------------------------------


def _wheel(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Place the plain numbers of a pulley or an idler where they are possible; each possible order is a reading."""
    draft = drafts[0]
    _from_code(draft)
    _set_screw(draft)
    profile = _profile(draft, facts)
    numbers = facts.unplaced(draft)
    missing = [key for key in ("teeth", "bore", "belt_width") if key not in draft.dimensions]
    found: list[Draft] = []
    for keys in permutations(missing, len(numbers)) if numbers else ():
        values = dict(zip(keys, numbers, strict=True))
        if all(_possible(key, number, values, draft, profile) for key, number in values.items()):
            found.append(_placed(draft, values))
    out = found or [draft]
    if len(out) > 1:
        shown = " and ".join(number.text for number in numbers)
        out[0].doubts.append(f"Is {shown} the bore or the width of the belt? Please give teeth, bore and belt width.")
    for reading in out:
        _complete(family, facts, reading, profile)
    return out


def _from_code(draft: Draft) -> None:
    """A code such as ``20-5M-15`` or ``20XL037`` gives teeth, profile and belt width."""
    for key, name in (("count", "teeth"), ("wide", "belt_width")):
        held = draft.dimensions.pop(key, None)
        if isinstance(held, Limits):
            draft.dimensions[name] = held


def _possible(key: str, number: Number, values: Mapping[str, Number], draft: Draft, profile: Profile | None) -> bool:
    if key == "teeth":
        whole = number.plain == number.plain.to_integral_value()
        return number.unit == "" and whole and 8 <= number.plain <= 150
    if key == "belt_width":
        return profile is None or number.value in profile.widths
    teeth = values["teeth"].plain if "teeth" in values else draft.nominal("teeth")
    if profile is None or teeth is None:
        return Decimal(2) <= number.value <= Decimal(25)
    return Decimal(2) <= number.value <= belts.pitch_diameter(int(teeth), profile) * Decimal("0.8")


def _placed(draft: Draft, values: Mapping[str, Number]) -> Draft:
    placed = draft.copy()
    placed.drop(*values.values())
    for key, number in values.items():
        value = number.plain if key == "teeth" else number.value
        says = f"{key.replace('_', ' ')}: the only place where it is possible, or one of them"
        placed.give(key, value, number.text, says, COMMON_PRACTICE)
    return placed


def _complete(family: Family, facts: Facts, draft: Draft, profile: Profile | None) -> None:
    teeth = draft.nominal("teeth")
    if profile is None and (family.name == _PULLEY or teeth is not None):
        draft.doubts.append(_which_profile(draft))
    if teeth is None and family.name == _PULLEY:
        draft.doubts.append("How many teeth?")
    if profile is not None and teeth is not None:
        diameter = belts.pitch_diameter(int(teeth), profile).quantize(Decimal("0.01"))
        draft.dimensions["pitch_diameter"] = Limits(diameter)
    if family.name == _IDLER:
        draft.size_names = "bore" if teeth is None else "teeth"
        if draft.nominal("bore") is None:
            draft.doubts.append(family.question)
    elif draft.nominal("bore") is None:
        draft.asks.append("the bore left open")
    kind = "toothed" if teeth is not None else "smooth"
    name = "Timing pulley" if family.name == _PULLEY else f"Idler, {kind}"
    parts = [f"{name} {draft.attributes.get('profile', '')}".strip()]
    parts += [f"{teeth.normalize():f} teeth"] if teeth is not None else []
    for key, text in (("bore", "bore"), ("belt_width", "for belt width")):
        size = draft.nominal(key)
        parts += [f"{text} {size.normalize():f} mm"] if size is not None else []
    draft.order_text = ", ".join(parts)


# -- belts ------------------------------------------------------------------------------------------------------


def _belt(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read a belt by its code, or by its profile, width and length."""
    draft = drafts[0]
    coded = (
        belts.decode(facts.code) if facts.code and not re.fullmatch(f"{_PROFILE}|{_LOOSE_PROFILE}", facts.code) else ()
    )
    if coded and facts.says(*_OPEN) and coded[0].belt_width is not None:
        draft.attributes["profile"] = coded[0].profile.name
        draft.dimensions |= {"belt_width": Limits(coded[0].belt_width), "length": Limits(coded[0].pitch_length)}
    elif coded:
        return _by_code(draft, coded)
    profile = _profile(draft, facts)
    if profile is None:
        draft.doubts.append(_which_profile(draft))
    return _by_numbers(facts, draft, profile)


def _by_code(draft: Draft, coded: Sequence[Belt]) -> list[Draft]:
    found: list[Draft] = []
    numbers = [part for part in draft.rest if isinstance(part, Number)]
    for belt in coded:
        read = draft.copy(size_names="pitch length", evidence="stated")
        read.attributes["profile"] = belt.profile.name
        said = {key: read.nominal(key) for key in ("length", "teeth", "belt_width")}
        own = {"length": belt.pitch_length, "teeth": belt.teeth, "belt_width": belt.belt_width}
        odd = [f"{key.replace('_', ' ')} {said[key]}" for key in own if said[key] not in {None, own[key]} and own[key]]
        read.dimensions.pop("length", None)
        read.dimensions |= {"pitch_length": Limits(belt.pitch_length), "pitch": Limits(belt.profile.pitch)}
        if belt.teeth is not None:
            read.dimensions["teeth"] = Limits(Decimal(belt.teeth))
        if belt.belt_width is not None:
            read.dimensions["belt_width"] = Limits(belt.belt_width)
        held = {size.nominal for size in read.dimensions.values() if isinstance(size, Limits)}
        read.drop(*(number for number in numbers if number.value in held))
        read.because.append((draft.attributes.get("series", ""), belt.says, belt.profile.source))
        if odd:
            read.doubts.append(f"The code does not have {' and '.join(odd)}. Which size is right?")
        if belt.reason:
            read.doubts.append(f"{belt.reason}. Which length?")
        if belt.profile.inch_code and belt.teeth is not None:
            read.asks.append(f"pitch length {belt.pitch_length} mm, {belt.teeth} teeth")
        _belt_order(read, "closed")
        found.append(read)
    if len(found) > 1:
        found[0].doubts.append("Does the number give millimetres or teeth?")
    return found


def _by_numbers(facts: Facts, draft: Draft, profile: Profile | None) -> list[Draft]:
    numbers = [_width_coded(number, profile) for number in facts.unplaced(draft)]
    draft.rest = [part for part in draft.rest if not isinstance(part, Number)] + list(numbers)
    wide = draft.dimensions.get("belt_width")
    if isinstance(wide, Limits) and wide.nominal > _WIDEST and "length" not in draft.dimensions:
        # 6 mm width 3 m: no belt is that wide, so the label belongs to the number before it
        draft.dimensions["length"] = draft.dimensions.pop("belt_width")
    _place(draft, numbers, profile)
    length, teeth = draft.nominal("length"), draft.nominal("teeth")
    number = next((item for item in _all_numbers(facts) if item.value == length), None)
    metres = number is not None and bool(re.search(r"\d ?(?:m|meter|metre|metro|metri|mtr)\b", number.text.lower()))
    loop = facts.says(*_CLOSED) or teeth is not None or bool(_PITCH_LENGTH.search(facts.line.lower()))
    kind = "closed" if loop else "open" if metres or facts.says(*_OPEN) else ""
    if "belt_width" not in draft.dimensions and length is None and teeth is None:
        draft.doubts.append("Which width and which length, open or closed?")
        return [draft]
    bare = length is not None and number is not None and not number.unit and number.label != "length"
    if length is not None and teeth is None and not kind and "belt_width" not in draft.dimensions:
        return _open_or_closed(draft, profile, length, bare)
    by_teeth = bare and teeth is None and profile is not None and profile.name.startswith("GT")
    if by_teeth and kind == "closed" and "belt_width" not in draft.dimensions:
        return _open_or_closed(draft, profile, length or Decimal(0), bare)[:2]
    if not kind and length is not None:
        kind = "closed" if _length_first(facts, draft) and length < 1000 else ""
        draft.asks.append(f"{'a closed' if kind else 'an open or a closed'} belt")
    draft.size_names = "pitch length" if kind == "closed" else "belt width"
    if kind == "closed":
        _closed(draft, profile, length, teeth)
    _belt_order(draft, kind)
    return [draft]


def _all_numbers(facts: Facts) -> list[Number]:
    return [*facts.labelled, *(part for chain in facts.chains for part in chain if isinstance(part, Number))]


def _place(draft: Draft, numbers: Sequence[Number], profile: Profile | None) -> None:
    """Give the plain numbers to width and length: the smaller is the width; one alone is what it can be."""
    sizes = sorted(numbers[:2], key=lambda number: number.value)
    unplaced = not {"length", "belt_width"} & draft.dimensions.keys()
    if len(sizes) == 2 and unplaced and _NARROWEST <= sizes[0].value <= _WIDEST and sizes[1].value >= _SHORTEST:
        draft.give("belt_width", sizes[0].value, sizes[0].text, "the smaller number is the width", COMMON_PRACTICE)
        draft.give("length", sizes[1].value, sizes[1].text, "the larger number is the length", COMMON_PRACTICE)
        draft.drop(*sizes)
    elif len(sizes) == 1:
        number = sizes[0]
        known = {"length", "teeth"} & draft.dimensions.keys()
        as_width = number.value <= _WIDEST and (known or _width_like(number, profile))
        key = "belt_width" if as_width and "belt_width" not in draft.dimensions else "length"
        draft.give(key, number.value, number.text, key.replace("_", " "), COMMON_PRACTICE)
        draft.drop(number)


def _width_coded(number: Number, profile: Profile | None) -> Number:
    """Return the width that three digits of an inch belt stand for: 037 is 3/8 in."""
    code = re.match(r"0\d\d\b", number.text)
    if profile is None or not profile.inch_code or code is None:
        return number
    coded = belts.decode(f"100XL{code[0]}")
    width = coded[0].belt_width if coded else None
    return number if width is None else number._replace(value=width, unit="in")


def _length_first(facts: Facts, draft: Draft) -> bool:
    """Tell whether the length stands before the width in the line, as it does for closed belts."""
    at = {}
    for key in ("length", "belt_width"):
        size = draft.nominal(key)
        text = next((number.text for number in _all_numbers(facts) if number.value == size), None)
        at[key] = facts.line.find(text) if text is not None else -1
    return -1 not in at.values() and at["length"] < at["belt_width"]


def _width_like(number: Number, profile: Profile | None) -> bool:
    suffix = number.label == "belt" and number.text[:1].isdigit()
    return suffix or (number.value in profile.widths if profile is not None else number.value <= 25)


def _open_or_closed(draft: Draft, profile: Profile | None, length: Decimal, bare: bool) -> list[Draft]:
    """A number alone: millimetres of a closed belt, its teeth, or the length of an open one."""
    shown = format(length.normalize(), "f")
    closed, teeth, opened = (draft.copy(evidence="assumed") for _ in range(3))
    _closed(closed, profile, length, None)
    closed.size_names, closed.doubts = "pitch length", list(draft.doubts)
    del teeth.dimensions["length"]
    if profile is not None:
        teeth.dimensions["teeth"] = Limits(length)
        _closed(teeth, profile, None, length)
    teeth.size_names, opened.size_names = "teeth", "length"
    kinds = "a closed belt or an open one"
    if bare:
        kinds = f"a closed belt of {shown} mm, {shown} teeth, or {shown} mm open"
    for reading, kind in ((closed, "closed"), (teeth, "closed"), (opened, "open")):
        _belt_order(reading, kind)
    closed.doubts.append(f"Is it {kinds}, and how wide?")
    by_teeth = bare and profile is not None and length == length.to_integral_value()
    return [closed, *([teeth] if by_teeth else []), opened]


def _closed(draft: Draft, profile: Profile | None, length: Decimal | None, teeth: Decimal | None) -> None:
    """Complete a closed belt: its length holds a whole number of teeth."""
    draft.dimensions.pop("length", None)
    if length is not None:
        draft.dimensions = {"pitch_length": Limits(length), **draft.dimensions}
    if profile is None:
        return
    if length is None and teeth is not None:
        draft.dimensions["pitch_length"] = Limits(belts.pitch_length(int(teeth), profile))
    elif length is not None:
        count = belts.teeth_in(length, profile)
        if count is None or (teeth is not None and count != teeth):
            near = int(length / profile.pitch)
            said = f", the line says {teeth}" if teeth is not None else ""
            draft.doubts.append(
                f"{length.normalize():f} mm holds {length / profile.pitch:.1f} teeth of {profile.name}{said}."
                f" Which length: {belts.pitch_length(near, profile)} or {belts.pitch_length(near + 1, profile)} mm?"
            )
        else:
            draft.dimensions["teeth"] = Limits(Decimal(count))


def _belt_order(draft: Draft, kind: str) -> None:
    parts = [f"Timing belt {draft.attributes.get('profile', '')}".strip()]
    parts += [kind] if kind else []
    names = {"belt_width": "width", "length": "length", "pitch_length": "pitch length"}
    for key, text in names.items():
        size = draft.nominal(key)
        parts += [f"{text} {size.normalize():f} mm"] if size is not None else []
    draft.order_text = ", ".join(parts)


# -- declarations -----------------------------------------------------------------------------------------------


def _profile_alone(groups: Mapping[str, str]) -> Draft | None:
    said = groups.get("text_profile", groups["all"])
    if _spelt(said) != "htd" and belts.profile_of(_spelt(said)) is None:
        return None
    draft = Draft(_PULLEY, "teeth", "implied", attributes={"profile": said})
    if "count" in groups:
        draft.dimensions["count"] = Limits(Decimal(groups["count"]))
        draft.evidence = "stated"
        wide = groups["wide"]
        coded = belts.decode(f"100XL{wide}") if len(wide) == 3 and wide.startswith("0") else ()
        draft.dimensions["wide"] = Limits(coded[0].belt_width if coded and coded[0].belt_width else Decimal(wide))
    return draft


def _belt_code(groups: Mapping[str, str]) -> Draft | None:
    """Accept a code whose form is that of a belt: a width in it, hyphens, or an inch code."""
    text = groups["all"]
    coded = belts.decode(text)
    inch = bool(coded) and coded[0].profile.inch_code
    if not coded or not (inch or "-" in text or coded[0].belt_width is not None):
        return None
    return Draft(_BELT, "pitch length", "stated", attributes={"profile": coded[0].profile.name})


_PROFILE_CODES = tuple(
    Code(pattern, decode=_profile_alone, says="a belt profile", source="ISO 5296, ISO 17396, ISO 13050")
    for pattern in (_PROFILE, _LOOSE_PROFILE)
)
_WHEEL_LABELS = {
    "thickness": "teeth",
    "width": "belt_width",
    "shaft": "bore",
    "hole": "bore",
    "id": "bore",
    "diameter": "bore",
}
_MARKS = "gt, htd, mxl, xl"

TIMING_BELT = Family(
    name=_BELT,
    size_names="pitch length",
    key="catalogue_number",
    nouns={
        "en": phrases("timing, toothed, synchronous, gt, htd, mxl, xl, t, at, closed loop, m", "belt, belts")
        + phrases("gt, htd, mxl", "open, closed, loop, endless"),
        "de": phrases("Zahnriemen, Synchronriemen, GT Riemen, HTD Riemen") + phrases(_MARKS, "Meterware, Riemen"),
        "fr": phrases("courroie crantée, courroie dentée, courroie synchrone, courroie") + phrases(_MARKS, "courroie"),
        "es": phrases("correa dentada, correa de distribución, correa síncrona, correa abierta, correa cerrada")
        + phrases(_MARKS, "correa"),
        "it": phrases("cinghia dentata, cinghia sincrona, cinghia di trasmissione") + phrases(_MARKS, "cinghia"),
        "zh": phrases("tongbudai"),
    },
    table="belt_profile",
    codes=(
        Code(belts.DESIGNATION, identifies=True, decode=_belt_code, says="a belt code", source="ISO 5296, ISO 17396"),
        *_PROFILE_CODES,
    ),
    labels={"belt": "-", "thickness": "teeth", "width": "belt_width", "depth": "-", "diameter": "-"},
    needs=("belt_width", "length|pitch_length"),
    order="Timing belt {profile}, width {belt_width} mm, length {length} mm",
    question="Which profile, which width, and which length, open or closed?",
    refine=_belt,
    kin=(_PULLEY, _IDLER),
    unless=words(
        "leather buckle sander sanding conveyor seat tool bag trousers strap car engine camshaft v"
        " keilriemen trapezoidale"
        " cuir cuero cuoio guitar tensioner"
    ),
    examples=(
        Example("HTD 430-5M-10", dimensions={"pitch_length": "430", "belt_width": "10"}, size_names="pitch length"),
        Example("90XL037", dimensions={"pitch_length": "228.6", "belt_width": "9.525", "teeth": "45"}),
        Example("GT2 belt 6mm 1m", dimensions={"belt_width": "6", "length": "1000"}, size_names="belt width"),
        Example("T5 330 x 10", dimensions={"pitch_length": "330", "belt_width": "10", "teeth": "66"}),
        Example("courroie GT2 fermée 400 mm largeur 6", dimensions={"pitch_length": "400", "teeth": "200"}),
        Example("2GT belt no. 188", state="ambiguous"),
        Example("timing belt 5 mm pitch 10 wide", state="ambiguous"),
    ),
    source="ISO 5296, ISO 17396, ISO 13050; makers' catalogues",
    mates=Mates(in_bore=False),
)

TIMING_PULLEY = Family(
    name=_PULLEY,
    size_names="teeth",
    key="catalogue_number",
    nouns={
        "en": phrases("pulley, timing pulley, belt pulley, timing belt pulley, pulleys, belt wheel, synchronous wheel")
        + phrases("timing wheel, pinion pulley, teeth bore belt, toothed pulley, synchronous pulley")
        + phrases("gt, htd, mxl, xl", "bore, teeth bore"),
        "de": phrases("Zahnriemenrad, Zahnriemenscheibe, Riemenscheibe, Riemenrad, Synchronscheibe, Pulley")
        + phrases("Zahnscheibe", "Zähne, Riemen, Zahnriemen, Bohrung, GT, HTD, T, AT, XL, MXL")
        + phrases(_MARKS, "Zähne Bohrung"),
        "fr": phrases("poulie, poulie crantée, poulie dentée, poulie courroie, poulie synchrone"),
        "es": phrases("polea, polea dentada, polea síncrona, polea correa"),
        "it": phrases("puleggia, puleggia dentata, puleggia sincrona, puleggia cinghia"),
        "zh": phrases("tongbulun"),
    },
    table="timing_pulley",
    codes=(
        Code(_PULLEY_CODE, decode=_profile_alone, says="teeth, profile and belt width"),
        *_PROFILE_CODES,
    ),
    labels=_WHEEL_LABELS,
    needs=("teeth", "bore", "belt_width"),
    order="Timing pulley {profile}, {teeth} teeth, bore {bore} mm, for belt width {belt_width} mm",
    question="Which profile, how many teeth, which bore and belt width?",
    refine=_wheel,
    kin=(_IDLER,),
    unless=words(
        "rope block hoist cable garage bag washing wire zip gym weight v keilriemenscheibe trapezoidale alternator"
    ),
    examples=(
        Example(
            "GT2 pulley 20T 5mm bore 6mm belt",
            dimensions={"teeth": "20", "bore": "5", "belt_width": "6", "pitch": "2"},
            size_names="teeth",
        ),
        Example("polea GT2 20 dientes eje 5mm correa 6mm", dimensions={"teeth": "20", "bore": "5"}),
        Example("XL pulley 10 teeth 8mm bore", dimensions={"teeth": "10", "bore": "8"}),
        Example("Zahnriemenrad HTD 3M 20 Z Bohrung 6,35 für 9 mm", dimensions={"bore": "6.35", "belt_width": "9"}),
        Example("T5 20 teeth, 8 bore, 10 belt", dimensions={"teeth": "20", "bore": "8", "belt_width": "10"}),
        Example("GT2 pulley 20T 6mm", state="ambiguous"),
        Example("timing pulley 20 teeth bore 5", state="ambiguous"),
    ),
    source="ISO 5296, ISO 17396, ISO 13050; makers' catalogues",
    mates=Mates(in_bore=False),
)

IDLER = Family(
    name=_IDLER,
    size_names="teeth",
    key="catalogue_number",
    nouns={
        "en": phrases(
            "idler, idler pulley, belt idler, idler wheel, tensioner pulley, smooth idler, toothed idler, idlers"
        )
        + phrases("idler pulley bearing, timing belt idler, idler pulley wheel, belt tensioner pulley"),
        "de": phrases("Umlenkrolle, Spannrolle, Umlenkscheibe, Leerlaufrolle, Zahnriemen Umlenkrolle"),
        "fr": phrases("poulie folle, galet tendeur, poulie de renvoi, poulie tendeur, poulie folle crantée"),
        "es": phrases("polea loca, polea tensora, polea loca dentada, rodillo tensor"),
        "it": phrases("puleggia folle, rullo tenditore, puleggia tendicinghia, galoppino"),
        "zh": phrases("duolun"),
    },
    table="idler",
    codes=_PROFILE_CODES,
    labels=_WHEEL_LABELS,
    needs=("bore", "belt_width"),
    order="Idler, bore {bore} mm, for belt width {belt_width} mm",
    question="Toothed or smooth, which bore, and for which belt width?",
    refine=_wheel,
    unless=words("rope car engine alternator rodent"),
    examples=(
        Example("idler GT2 20T toothed 3mm bore 6mm belt", dimensions={"teeth": "20", "bore": "3"}, size_names="teeth"),
        Example("smooth idler bore 5 for 6mm belt", dimensions={"bore": "5", "belt_width": "6"}, size_names="bore"),
        Example("Umlenkrolle GT2 16 Zähne Bohrung 3 für 6 mm Riemen", dimensions={"teeth": "16", "bore": "3"}),
        Example("idler pulley", state="ambiguous"),
    ),
    source="makers' catalogues",
)

FAMILIES = (TIMING_BELT, TIMING_PULLEY, IDLER)
