"""Coaxial power plugs, round sensor connectors and ring terminals.

A power plug of 5.5 mm exists with a hole of 2.1 and of 2.5 mm. An M12 connector has the fine thread M12 x 1. The second
number of a ring terminal's code is the stud: RV2-4 goes on M4, its wire is class 2.

Sources: common practice; coupling threads: IEC 61076-2.
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference import threads
from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, phrases, words
from reference.families.facts import Draft, Facts, Number
from reference.families.rules import shown
from reference.families.tubes import sizes_and_lengths
from reference.quantities import Limits, Rating, ThreadSize

_FINE = {"5": "0.5", "8": "1", "12": "1", "16": "0.75", "18": "1", "23": "1", "30": "1.5"}
"""Diameter -> pitch of the threads of round connectors and sensor bodies. Source: IEC 61076-2, common practice."""


def fine_thread(thread: ThreadSize) -> ThreadSize | None:
    """Return the fine thread that a round connector or a sensor body of this diameter has, or None if unknown."""
    pitch = _FINE.get(shown(thread.diameter))
    return (
        None
        if pitch is None
        else threads.metric(thread.diameter, Decimal(pitch))
        or ThreadSize(f"M{shown(thread.diameter)}x{pitch}", thread.diameter, Decimal(pitch))
    )


def give_fine_thread(draft: Draft, facts: Facts, source: str) -> None:
    """Replace a thread without a stated pitch by the fine one of connectors and sensors."""
    thread = draft.dimensions.get("thread")
    if not isinstance(thread, ThreadSize) or any(mention.pitch_stated for mention in facts.threads()):
        return
    fine = fine_thread(thread)
    if fine is None:
        draft.doubts.append(f"Which pitch has the thread {thread.designation}?")
    else:
        draft.dimensions["thread"] = fine
        draft.drop(*(part for part in draft.rest if isinstance(part, Number) and part.value == fine.pitch))
        draft.because.append((thread.designation, f"has the fine thread {fine.designation}", source))


def _dc(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Without the hole the plug is open: name the holes that are sold."""
    for draft in drafts:
        outer, bore = draft.nominal("outer_diameter"), draft.nominal("bore")
        if outer is not None and bore is None and family.sizes is not None:
            rows = family.sizes.by_key.get(outer.normalize(), ())
            holes = [shown(hole.nominal) for row in rows if isinstance(hole := row.dimensions.get("bore"), Limits)]
            draft.doubts.append(f"Which hole has the plug{' (' + ', '.join(holes) + ' mm)' if holes else ''}?")
    return drafts


_PINS = re.compile(
    r"([0-9]{1,2}) ?-?(?:pins?|poles?|pol(?:ig\w*)?|polos|poli|pôles|broches|pines|way|P|core)\b", re.IGNORECASE
)


def _circular(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Give the fine thread and the number of pins; a connector without a thread is no round one."""
    out: list[Draft] = []
    for draft in drafts:
        if "thread" not in draft.dimensions:
            continue
        give_fine_thread(draft, facts, "IEC 61076-2")
        lengths = sizes_and_lengths(draft.copy())[1]
        draft.drop(*lengths)
        if lengths:
            draft.dimensions["cable_length"] = Limits(lengths[0].value)
        pins = _PINS.search(facts.line)
        if pins:
            draft.attributes["pins"] = pins[1]
            draft.drop(*(part for part in draft.rest if part.text.split()[0] == pins[1]))
        out.append(draft)
    return out


_AREAS = {"1.25": "0.5-1.5", "2": "1.5-2.5", "3.5": "2.5-4", "5.5": "4-6", "8": "6-10"}
"""Wire class of a terminal's code -> its wire [mm2]. Source: common practice of JIS C 2805 terminals."""


def _coded(groups: Mapping[str, str]) -> Draft | None:
    """Return stud and wire class of a terminal code."""
    stud = threads.metric(Decimal(groups["stud"].replace(",", ".")))
    if stud is None:
        return None
    wire_class = groups["wire_class"].replace(",", ".")
    draft = Draft("ring terminal", "screw size", "stated", {"screw_size": stud}, {"wire_class": wire_class})
    low, _, high = _AREAS.get(wire_class, "").partition("-")
    if high:
        draft.attributes |= {"wire_area_min": low, "wire_area_max": high}
    draft.because.append((groups["stud"], "the second number is the stud", COMMON_PRACTICE))
    return draft


def _terminal(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Take the wire range; a number before the area is the stud."""
    for draft in drafts:
        area = next((rating for name, rating, _ in facts.ratings if name == "area"), None)
        if area is not None:
            _wire_range(draft, area)
        bore = draft.nominal("bore")
        thread = threads.metric(bore) if bore is not None else None
        if thread is not None and "screw_size" not in draft.dimensions:
            draft.dimensions["screw_size"] = thread
            del draft.dimensions["bore"]
            draft.asks.append(f"{thread.designation} as the stud")
    return drafts


def _wire_range(draft: Draft, area: Rating) -> None:
    if area.upper is None:
        draft.attributes["wire_area"] = shown(area.value)
    else:
        draft.attributes |= {"wire_area_min": shown(area.value), "wire_area_max": shown(area.upper)}


DC_CONNECTOR = Family(
    name="dc connector",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "DC jack, DC plug, DC connector, DC socket, barrel jack, barrel plug, barrel connector, power jack, DC"
            " power jack,"
            " DC power plug, DC barrel, coaxial power plug, DC power connector, DC adapter plug, DC plug adapter, DC"
            " barrel jack"
        ),
        "de": phrases(
            "Hohlstecker, Hohlbuchse, DC Stecker, DC Buchse, Hohlsteckerbuchse, DC Einbaubuchse, Niedervoltstecker"
        ),
        "fr": phrases("jack DC, fiche DC, connecteur DC, prise DC, jack alimentation, connecteur jack alimentation"),
        "es": phrases(
            "conector DC, jack DC, clavija DC, enchufe DC, conector jack alimentación, conector de alimentación DC"
        ),
        "it": phrases("connettore DC, spina DC, presa DC, jack DC, connettore jack alimentazione"),
    },
    table="power_connector",
    layouts=(
        Layout(("outer_diameter", "bore"), when=lambda v: v["bore"] < v["outer_diameter"] < 10),
        Layout(("bore", "outer_diameter"), when=lambda v: v["bore"] < v["outer_diameter"] < 10),
        Layout(("outer_diameter",), when=lambda v: v["outer_diameter"] < 10),
    ),
    needs=("outer_diameter", "bore"),
    identity=("outer_diameter", "bore"),
    order="DC plug {outer_diameter} x {bore}",
    question="Which outside diameter and which hole has the plug?",
    refine=_dc,
    yields=True,
    unless=words("motor converter"),
    examples=(
        Example("DC jack 5.5x2.5 panel mount", dimensions={"outer_diameter": "5.5", "bore": "2.5"}),
        Example("Hohlstecker 3,5 x 1,35", dimensions={"outer_diameter": "3.5", "bore": "1.35"}),
        Example("barrel plug 4.0x1.7", dimensions={"outer_diameter": "4", "bore": "1.7"}, size_names="outer diameter"),
        Example("DC jack 5.5mm", state="ambiguous"),
    ),
)

CIRCULAR_CONNECTOR = Family(
    name="circular connector",
    size_names="coupling thread",
    key="thread",
    nouns={
        "en": phrases(
            "sensor connector, circular connector, pin connector, pole connector, sensor cable, sensor plug, pin plug,"
            " pin socket, coded connector, round connector, coded cable, pin cable, aviation connector, pin female"
            " connector"
        ),
        "de": phrases(
            "Rundsteckverbinder, Sensorstecker, Sensorkabel, Sensorleitung, Rundstecker, polig Stecker, polig Buchse,"
            " polig Steckverbinder, Rundsteckverbinder, polig Kabel, kodiert Stecker, polig Kupplung, Sensor Stecker"
        ),
        "fr": phrases("connecteur circulaire, connecteur capteur, connecteur broches, connecteur pôles, câble capteur"),
        "es": phrases("conector circular, conector pines, conector sensor, conector polos, cable sensor"),
        "it": phrases("connettore circolare, connettore poli, connettore sensore, cavo sensore"),
    },
    thread="thread",
    layouts=(),
    labels={"thread": "thread"},
    needs=("thread",),
    identity=("thread",),
    order="Circular connector {thread}",
    question="Which coupling thread has the connector?",
    refine=_circular,
    unless=words("jst dupont molex usb header xt deans atx rj terminal"),
    examples=(
        Example("M12 5-pin connector A-coded", dimensions={"thread": "M12x1"}, size_names="coupling thread"),
        Example("M8 sensor cable 3-pin 5 m", dimensions={"thread": "M8x1", "cable_length": "5000"}),
        Example("Rundsteckverbinder M16 6-polig", dimensions={"thread": "M16x0.75"}),
        Example("M14 sensor connector", state="ambiguous"),
    ),
    source="IEC 61076-2; common practice",
)

RING_TERMINAL = Family(
    name="ring terminal",
    size_names="screw size",
    key="screw_size",
    nouns={
        "en": phrases(
            "ring terminal, ring lug, cable lug, ring crimp terminal, ring tongue terminal, eyelet terminal, crimp"
            " ring,"
            " ring connector, ring cable lug, crimp lug, wire lug"
        ),
        "de": phrases(
            "Ringkabelschuh, Kabelschuh, Ringkabelschuhe, Ringöse, Quetschkabelschuh, Rohrkabelschuh, Kabelschuhe"
        ),
        "fr": phrases("cosse à oeillet, cosse ronde, cosse œillet, cosse, cosses, cosse à anneau"),
        "es": phrases("terminal de anillo, terminal redondo, terminal de ojal, terminal ojo, terminal anillo"),
        "it": phrases(
            "capocorda ad occhiello, capocorda, terminale ad anello, capicorda, terminale occhiello, occhiello"
        ),
    },
    codes=(
        Code(
            r"r(?:v|nb|vs|nbs|ny|vl)[ -]?(?P<wire_class>1[.,]25|2|3[.,]5|5[.,]5|8)"
            r"-(?P<stud>[0-9]{1,2}(?:[.,][0-9])?)[a-z]?",
            identifies=True,
            decode=_coded,
            says="a terminal code: wire class, then stud",
        ),
    ),
    thread="screw_size",
    ratings=("area",),
    layouts=(Layout(("bore",)),),
    labels={"hole": "bore", "diameter": "bore"},
    needs=("screw_size",),
    identity=("screw_size",),
    order="Ring terminal {screw_size}",
    question="For which stud and for which wire is the terminal?",
    refine=_terminal,
    unless=words("battery forked fork spade"),
    examples=(
        Example("ring terminal M5 2.5-6mm2", dimensions={"screw_size": "M5"}, size_names="screw size"),
        Example("RV2-4", dimensions={"screw_size": "M4"}),
        Example("Ringkabelschuh M6 1,5 mm²", dimensions={"screw_size": "M6"}),
        Example("ring terminal 2.5mm2", state="ambiguous"),
    ),
)

FAMILIES = (DC_CONNECTOR, CIRCULAR_CONNECTOR, RING_TERMINAL)
