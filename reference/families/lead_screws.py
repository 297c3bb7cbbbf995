"""Lead screws, their nuts, and ball screws. The travel per turn is the lead = pitch x starts; a pitch alone is open.

``T8x8`` names diameter and lead; in the standard's own style the pitch of a screw with several starts stands in a
bracket: Tr8x8 (P2). ``8 mm lead screw`` may be a trapezoidal thread or a rod M8.

Sources: ISO 2904 and DIN 103 (trapezoidal threads), common practice (several starts, ball screw codes).
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference import lead_screws, threads
from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Mates, Standard, phrases, words
from reference.families.facts import Draft, Facts, Number, ThreadMention
from reference.lead_screws import DESIGNATION, Screw, decode
from reference.quantities import Limits, ThreadSize

_SCREW, _NUT, _BALL, _ROD = "lead screw", "lead screw nut", "ball screw", "threaded rod"
_DIAMETER = r"tr? ?-?(?P<diameter>\d{1,2})"
_NUT_WORD = r"nuts?|mutter|spindelmutter|ecrou|écrou|tuerca|dado|madrevite|chiocciola"
_WITH_NUT = re.compile(
    r"(?:screw|leadscrew|spindel|spindle|vis|husillo|vite|rod|stange).*?"
    rf"(?:\+|\b(?:with|mit|avec|con|incl\w*|inkl\w*|and|und|et|y|e)\b|w/)\W.*?\b(?:{_NUT_WORD})\b"
)
_OR = words("or oder ou o oppure")
_BALL_DIGITS = r"(?P<digits>\d{4})(?=$|[ ,;-])"


def _read(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read diameter, lead, pitch and starts of a trapezoidal screw or nut; every combination left open is a reading."""
    draft = drafts[0]
    name = family.name
    if name == _NUT and _WITH_NUT.search(facts.line.lower()):
        name = _SCREW
        draft.attributes["with"] = "nut"
    draft.family, draft.size_names = name, "external thread" if name == _SCREW else "internal thread"
    numbers = facts.unplaced(draft)
    coded = decode(facts.code) if facts.code else ()
    diameter = coded[0].diameter if coded else draft.nominal("diameter") or draft.nominal("outer_diameter")
    draft.dimensions.pop("diameter", None)
    if diameter is None:
        return _plain(family, draft, numbers)
    draft.dimensions["outer_diameter"] = Limits(diameter)
    stated = {key: draft.nominal(key) for key in ("lead", "pitch", "starts")}
    loose = _sizes(draft, numbers, diameter, name)
    _swapped(draft, stated, loose, diameter)
    pitch = stated["pitch"]
    if pitch is not None and stated["lead"] is None and not coded and not _by_pitch(diameter, pitch):
        # Many write pitch (Steigung, paso) for the travel of a screw with several starts.
        stated["lead"], stated["pitch"] = pitch, None
        draft.dimensions.pop("pitch")
    if not coded and (facts.says(*_OR) or (stated["lead"] is None and stated["pitch"] is None)):
        # A small number beside the letters is a pitch or a lead; beside either of them it has no place.
        draft.drop(*loose)
    screws = list(coded) or _meanings(diameter, stated, loose, facts)
    if facts.says(*_OR) and loose:
        stated["lead"] = None
    fitting = [screw for screw in screws if _agrees(screw, stated)]
    if not fitting:
        draft.doubts.append(_lead_question(diameter, screws, stated))
        draft.order_text = f"{'Lead screw' if name == _SCREW else 'Lead screw nut'} Tr{diameter}"
        return [draft]
    found = [_meant(draft, screw, name) for screw in fitting]
    if len(found) > 1:
        leads = " or ".join(dict.fromkeys(f"{screw.lead} mm ({screw.starts} starts)" for screw in fitting))
        found[0].doubts.append(f"How far does the nut move in one turn: {leads}?")
    return found


def _sizes(draft: Draft, numbers: Sequence[Number], diameter: Decimal, name: str) -> list[Number]:
    """Take the length out of the plain numbers; what stays small is a pitch or a lead."""
    loose = [number for number in numbers if number.value <= 3 * diameter]
    long = [number for number in numbers if number not in loose]
    if name == _SCREW and "length" not in draft.dimensions and len(long) == 1:
        draft.give("length", long[0].value, long[0].text, "length", COMMON_PRACTICE)
        draft.drop(*long)
    return loose


def _swapped(draft: Draft, stated: dict[str, Decimal | None], loose: list[Number], diameter: Decimal) -> None:
    """``300 mm pitch 2 mm``: a pitch or lead that no screw of the diameter has is the length before the label."""
    for key in ("pitch", "lead"):
        value = stated[key]
        if value is not None and value > 3 * diameter and loose and "length" not in draft.dimensions:
            draft.dimensions["length"] = draft.dimensions.pop(key)
            draft.drop(loose[0])
            stated[key] = loose.pop(0).value
            draft.dimensions[key] = Limits(stated[key] or value)


def _meanings(
    diameter: Decimal, stated: Mapping[str, Decimal | None], loose: Sequence[Number], facts: Facts
) -> list[Screw]:
    """Return the screws that lead, pitch and starts of the line allow; a small plain number is a pitch or a lead."""
    lead, pitch, starts = stated["lead"], stated["pitch"], stated["starts"]
    if pitch is not None and starts is not None:
        lead = lead if lead is not None else pitch * starts
        return list(decode(f"Tr{diameter}x{lead}(P{pitch})"))
    leads = [lead] if lead is not None else []
    if lead is not None and facts.says(*_OR):
        leads += [number.value for number in loose]
    elif lead is None and pitch is None:
        leads = [number.value for number in loose]
    if leads:
        found = [screw for value in sorted(leads) for screw in decode(f"Tr{diameter}x{value}")]
        if lead is None:
            # An unlabelled number can be the pitch too.
            found += [screw for value in leads for screw in _by_pitch(diameter, value) if screw.lead != value]
        return found
    pitches = [pitch] if pitch is not None else [lead_screws.usual_pitch(diameter)]
    return [screw for value in pitches if value is not None for screw in _by_pitch(diameter, value)]


def _by_pitch(diameter: Decimal, pitch: Decimal) -> list[Screw]:
    return [
        screw for lead, _ in lead_screws.leads(diameter, pitch) for screw in decode(f"Tr{diameter}x{lead}(P{pitch})")
    ]


def _agrees(screw: Screw, stated: Mapping[str, Decimal | None]) -> bool:
    own = {"lead": screw.lead, "pitch": screw.pitch, "starts": screw.starts}
    return all(value is None or own[key] is None or value == own[key] for key, value in stated.items())


def _lead_question(diameter: Decimal, screws: Sequence[Screw], stated: Mapping[str, Decimal | None]) -> str:
    said = ", ".join(f"{key} {value.normalize():f}" for key, value in stated.items() if value is not None)
    own = " or ".join(dict.fromkeys(screw.designation for screw in screws))
    if said:
        screw = f"a {diameter} mm screw" + (f" ({own})" if own else "")
        return f"{said} do not go together with {screw}: lead = pitch x starts. Which is right?"
    return f"No usual pitch of a {diameter} mm screw is listed. Which lead, pitch and number of starts?"


def _meant(draft: Draft, screw: Screw, name: str) -> Draft:
    """Return the reading of one meaning: lead = pitch x starts."""
    read = draft.copy()
    read.dimensions |= {"lead": Limits(screw.lead)}
    if screw.pitch is not None and screw.starts is not None:
        read.dimensions |= {"pitch": Limits(screw.pitch), "starts": Limits(Decimal(screw.starts))}
    if screw.hand == "left":
        read.attributes["hand"] = "left"
    hand = read.attributes.get("hand", "right")
    designation = screw.designation + (" LH" if hand == "left" and "LH" not in screw.designation else "")
    if screw.pitch is None:
        designation = f"Tr{screw.diameter}x{screw.lead}"
        read.doubts.append(f"No table here lists {designation}. Which pitch and how many starts?")
    thread = ThreadSize(designation, screw.diameter, screw.pitch, "trapezoidal", hand)
    read.dimensions["thread" if name == _SCREW else "internal_thread"] = thread
    if name == _NUT:
        read.dimensions.pop("outer_diameter", None)
        read.dimensions["bore"] = Limits(screw.diameter)
        read.asks.append(f"{designation}, the flange and its hole circle left open")
    elif screw.evidence == "implied" and (screw.starts or 1) > 1:
        read.asks.append(f"{designation}: pitch {screw.pitch} mm, {screw.starts} starts, {screw.lead} mm a turn")
    elif screw.pitch is not None and not screw.listed:
        read.notes.append(("size-not-listed", f"no table here lists {designation}", COMMON_PRACTICE))
    read.because.append((designation, screw.says or "lead = pitch x starts", "ISO 2904, DIN 103"))
    read.order_text = f"{'Lead screw' if name == _SCREW else 'Lead screw nut'} {designation}"
    length = read.nominal("length")
    if length is not None and name == _SCREW:
        read.order_text += f", length {length.normalize():f} mm"
    return read


def _plain(family: Family, draft: Draft, numbers: Sequence[Number]) -> list[Draft]:
    """A diameter without T or Tr: a trapezoidal screw of unknown lead, or a metric rod."""
    mention = next((part for part in draft.rest if isinstance(part, ThreadMention)), None)
    sizes = sorted(numbers, key=lambda number: number.value)
    if mention is not None and mention.thread.system == "metric":
        draft.drop(mention)
        sizes.insert(0, Number(mention.thread.diameter, mention.text))
    if not sizes:
        draft.doubts.append(family.question)
        return [draft]
    draft.drop(*sizes[:2])
    diameter = sizes[0].value
    if len(sizes) > 1:
        draft.dimensions["length"] = Limits(sizes[1].value)
    trapezoidal = draft.copy(dimensions={**draft.dimensions, "outer_diameter": Limits(diameter)}, evidence="assumed")
    shown = format(diameter.normalize(), "f")
    trapezoidal.order_text = f"Lead screw, {shown} mm"
    metric = threads.metric(diameter)
    if metric is None or draft.family != _SCREW:
        trapezoidal.doubts.append(f"Which thread has the {shown} mm screw: lead, pitch and number of starts?")
        return [trapezoidal]
    trapezoidal.doubts.append(f"Is {shown} mm a trapezoidal screw (which lead and starts?) or a rod M{shown}?")
    rod = draft.copy(family=_ROD, evidence="assumed", dimensions={**draft.dimensions, "thread": metric})
    rod.because.append((sizes[0].text, "a rod with a metric thread", COMMON_PRACTICE))
    return [trapezoidal, rod]


def _ball(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read a ball screw: four digits are diameter and lead."""
    draft = drafts[0]
    numbers = facts.unplaced(draft)
    coded = decode(facts.code) if facts.code else ()
    if not coded and len(numbers) >= 2 and numbers[0].value > numbers[1].value:
        coded = decode(f"SFU{int(numbers[0].value):02}{int(numbers[1].value):02}")
        draft.drop(*numbers[:2])
        numbers = numbers[2:]
    if not coded:
        draft.doubts.append(family.question)
        return [draft]
    screw = coded[0]
    if len(numbers) == 1 and "length" not in draft.dimensions:
        draft.give("length", numbers[0].value, numbers[0].text, "length", COMMON_PRACTICE)
        draft.drop(numbers[0])
    draft.dimensions |= {"outer_diameter": Limits(screw.diameter), "lead": Limits(screw.lead)}
    draft.because.append((facts.code or "", screw.says, COMMON_PRACTICE))
    series = f"{screw.nut}{int(screw.diameter):02}{int(screw.lead):02}"
    draft.attributes["series"] = series
    if not screw.listed:
        draft.notes.append(("size-not-listed", f"no table here lists {series}", COMMON_PRACTICE))
    if "length" not in draft.dimensions and facts.says("nut", "mutter", "ecrou", "tuerca", "chiocciola", "madrevite"):
        draft.doubts.append("Is the ball nut alone wanted, or a screw with its nut, and which length?")
    length = draft.nominal("length")
    draft.order_text = f"Ball screw {series}" + (f", length {length.normalize():f} mm" if length is not None else "")
    return [draft]


def _diameter_alone(groups: Mapping[str, str]) -> Draft | None:
    size = Decimal(groups["diameter"])
    return (
        Draft(_SCREW, "external thread", "stated", dimensions={"diameter": Limits(size)}) if 4 <= size <= 60 else None
    )


def _trapezoidal(groups: Mapping[str, str]) -> Draft | None:
    screws = decode(groups["all"])
    trapezoidal = bool(screws) and screws[0].system == "trapezoidal"
    return Draft(_SCREW, "external thread", "stated") if trapezoidal else None


def _sure(groups: Mapping[str, str]) -> Draft | None:
    """Accept a designation without a noun where a table lists the screw."""
    screws = decode(groups["all"])
    sure = bool(screws) and screws[0].system == "trapezoidal" and screws[0].listed
    return Draft(_SCREW, "external thread", "stated") if sure else None


def _ball_code(groups: Mapping[str, str]) -> Draft | None:
    screws = decode(groups["all"])
    return Draft(_BALL, "catalogue number", "stated") if screws and screws[0].system == "ball" else None


_SAYS = "diameter and lead of a trapezoidal screw"
_SOURCE = "ISO 2904, DIN 103"
_T = "t, tr, trapezoidal, acme"
_LABELS = {"flange": "-", "diameter": "outer_diameter", "depth": "-", "width": "-", "height": "-", "thickness": "-"}

LEAD_SCREW = Family(
    name=_SCREW,
    size_names="external thread",
    key="catalogue_number",
    nouns={
        "en": phrases(
            "lead screw, leadscrew, trapezoidal screw, trapezoidal spindle, acme screw, trapezoidal rod, power screw"
        )
        + phrases("t, tr", "rod, screw, spindle, threaded rod, bar"),
        "de": phrases(
            "Trapezgewindespindel, Gewindespindel, Trapezspindel, Trapezgewindestange, Trapezgewinde, Leitspindel"
        )
        + phrases("tr, t", "Spindel, Gewindestange"),
        "fr": phrases("vis trapézoïdale, vis mère, tige trapézoïdale, vis trapézoidale")
        + phrases("tr, t", "vis, tige filetée"),
        "es": phrases(
            "husillo, husillo trapezoidal, husillo roscado, varilla trapezoidal, tornillo trapezoidal, husillo tr"
        )
        + phrases("tr, t", "varilla roscada, husillo"),
        "it": phrases("vite trapezoidale, barra trapezoidale, vite trapezia, barra filettata trapezoidale, vite madre")
        + phrases("tr, t", "vite, barra filettata"),
        "zh": phrases("sigang, tixing sigang"),
    },
    standards=(Standard("ISO 2904"), Standard("DIN 103")),
    table="lead_screw",
    codes=(
        Code(DESIGNATION, identifies=True, decode=_sure, says=_SAYS, source=_SOURCE),
        Code(DESIGNATION, decode=_trapezoidal, says=_SAYS, source=_SOURCE),
        Code(_DIAMETER, decode=_diameter_alone, says=_SAYS, source=_SOURCE),
    ),
    labels=_LABELS,
    needs=("outer_diameter", "lead", "length"),
    order="Lead screw Tr{outer_diameter}x{lead}, length {length} mm",
    question="Which diameter, which lead and number of starts, and which length?",
    refine=_read,
    kin=(_NUT, _BALL),
    unless=words("support bearing block coupling mount holder end ends"),
    examples=(
        Example(
            "T8x8 lead screw 350mm + nut",
            dimensions={"outer_diameter": "8", "lead": "8", "pitch": "2", "starts": "4", "length": "350"},
            size_names="external thread",
        ),
        Example("Tr10x2 L=500", dimensions={"outer_diameter": "10", "pitch": "2", "lead": "2", "length": "500"}),
        Example(
            "T8 lead screw 300mm, 2mm pitch, 2 start 4mm lead",
            dimensions={"lead": "4", "starts": "2", "pitch": "2", "length": "300"},
        ),
        Example("Trapezgewindespindel Tr8x8 (P2) 400", dimensions={"lead": "8", "pitch": "2", "length": "400"}),
        Example("T8 lead screw 300mm pitch 2mm", state="ambiguous"),
        Example("lead screw 8mm x 200", state="ambiguous"),
        Example("T5x2 leadscrew 150mm", state="ambiguous"),
    ),
    source="ISO 2904, DIN 103; common practice",
)

LEAD_SCREW_NUT = Family(
    name=_NUT,
    size_names="internal thread",
    key="catalogue_number",
    nouns={
        "en": phrases("lead screw, leadscrew, trapezoidal, acme", "nut")
        + phrases("tr nut, lead nut, anti backlash nut, antibacklash nut")
        + phrases(
            "t", "brass nut, bronze nut, copper nut, flanged nut, pom nut, screw nut, lead nut, nut brass flange"
        ),
        "de": phrases(
            "Trapezgewindemutter, Spindelmutter, Trapezmutter, Tr Mutter, Trapezgewinde Mutter, Leitspindelmutter"
        ),
        "fr": phrases("écrou trapézoïdal, écrou vis trapézoïdale, tr écrou, écrou vis mère"),
        "es": phrases("tuerca trapezoidal, tuerca husillo, tuerca de husillo, tr tuerca, tuerca latón t"),
        "it": phrases(
            "madrevite, chiocciola, chiocciola trapezoidale, dado trapezoidale, tr dado, madrevite trapezoidale"
        ),
    },
    table="lead_screw_nut",
    codes=(
        Code(rf"{DESIGNATION}(?=.*(?:{_NUT_WORD}))", identifies=True, decode=_trapezoidal, says=_SAYS, source=_SOURCE),
        Code(DESIGNATION, decode=_trapezoidal, says=_SAYS, source=_SOURCE),
        Code(_DIAMETER, decode=_diameter_alone, says=_SAYS, source=_SOURCE),
    ),
    labels=_LABELS,
    needs=("internal_thread",),
    order="Lead screw nut Tr{bore}x{lead}",
    question="For which screw: diameter, lead and number of starts?",
    refine=_read,
    examples=(
        Example(
            "Tr12x3 LH nut bronze",
            dimensions={"internal_thread": "Tr12x3 LH", "pitch": "3", "lead": "3"},
            size_names="internal thread",
        ),
        Example("T8x8 lead screw nut brass", dimensions={"lead": "8", "internal_thread": "Tr8x8 (P2)"}),
        Example("Trapezgewindemutter Tr10x2", dimensions={"lead": "2", "internal_thread": "Tr10x2"}),
        Example("T8 brass nut", state="ambiguous"),
    ),
    source="ISO 2904, DIN 103; common practice",
    mates=Mates(on_shaft=False),
)

BALL_SCREW = Family(
    name=_BALL,
    size_names="catalogue number",
    key="catalogue_number",
    nouns={
        "en": phrases("ball screw, ballscrew, ball lead screw, rolled ball screw, ball nut, ball screw nut, ballnut"),
        "de": phrases("Kugelumlaufspindel, Kugelgewindetrieb, Kugelgewindespindel, Kugelrollspindel, KGT, Kugelmutter"),
        "fr": phrases("vis à billes, vis à bille"),
        "es": phrases("husillo de bolas, husillo a bolas, tornillo de bolas"),
        "it": phrases("vite a ricircolo, vite a ricircolo di sfere, vite a sfere"),
        "zh": phrases("gunzhu sigang"),
    },
    table="ball_screw",
    codes=(
        Code(DESIGNATION, identifies=True, decode=_ball_code, says="diameter and lead of a ball screw"),
        Code(_BALL_DIGITS, decode=_ball_code, says="diameter and lead of a ball screw"),
    ),
    labels={"diameter": "-", "lead": "-", "pitch": "-"},
    needs=("outer_diameter", "lead", "length"),
    order="Ball screw {outer_diameter} x {lead}, length {length} mm",
    question="Which diameter and lead (1605 is 16 x 5), and which length?",
    refine=_ball,
    kin=("screw support",),
    unless=words("support housing mount end"),
    examples=(
        Example(
            "SFU1605 L400",
            dimensions={"outer_diameter": "16", "lead": "5", "length": "400"},
            size_names="catalogue number",
        ),
        Example("Kugelumlaufspindel 1204 300 mm", dimensions={"outer_diameter": "12", "lead": "4", "length": "300"}),
        Example("ball screw 16x5 600", dimensions={"outer_diameter": "16", "lead": "5", "length": "600"}),
        Example("ball screw", state="ambiguous"),
    ),
    source="common practice",
)

FAMILIES = (LEAD_SCREW, LEAD_SCREW_NUT, BALL_SCREW)
