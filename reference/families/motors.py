"""Electric motors. NEMA 17 names the face in tenths of an inch: length, shaft and current are not part of it.

Sources: NEMA ICS 16 (faces), makers' catalogues (table).
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Mates, phrases, words
from reference.families.facts import Draft, Facts
from reference.quantities import Limits
from reference.sizes import size_table

_NEMA = re.compile(r"nema ?-? ?(\d{1,2})|(\d{2})hs")

_LEAST_BODY = Decimal(18)
"""A plain number below it is no body length of a motor with a NEMA face [mm]."""
_LONGEST_BODY = Decimal(180)
_STEPS = re.compile(r"(\d{2,3}) ?(?:steps?|schritte|pas|pasos|passi)\b")
_RATIO = re.compile(r"(\d{1,3}(?:[.,]\d+)?) ?: ?1\b")


def _motor(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """A NEMA number gives the face; a motor without one is known by its ratings only."""
    match = _NEMA.search(facts.code or "")
    rows = {row.size: row for row in size_table("motor", "catalogue_number").rows}
    for draft in drafts:
        number = (match[1] or match[2]) if match else ""
        row = rows.get(f"NEMA{number}")
        if match is not None and row is None:
            draft.doubts.append(f"No motor face NEMA {number} is listed here. Which face and hole spacing?")
            continue
        if row is None:
            draft.size_names = "rating"
            if "rating" not in draft.dimensions:
                draft.doubts.append(family.question)
            draft.order_text = ", ".join(["Motor", *_rated(draft)])
            continue
        face = row.dimensions.get("faceplate")
        _place(facts, draft, face.nominal if isinstance(face, Limits) else Decimal(0))
        shaft = draft.dimensions.get("shaft_size")
        draft.dimensions = {**row.dimensions, **draft.dimensions}
        if shaft is None:
            draft.dimensions.pop("shaft_size", None)
        draft.evidence = "stated"
        draft.attributes["series"] = row.size
        draft.because.append((row.size, f"a face of {row.size.removeprefix('NEMA')} tenths of an inch", row.source))
        length = draft.nominal("length")
        draft.order_text = ", ".join(
            [f"Stepper motor {row.size}"] + ([f"length {length.normalize():f} mm"] if length else []) + _rated(draft)
        )
        open_ = [name for name, key in (("length", "length"), ("shaft", "shaft_size")) if key not in draft.dimensions]
        rating = draft.dimensions.get("rating")
        open_ += [] if isinstance(rating, dict) and "current" in rating else ["current"]
        if open_:
            draft.asks.append(f"{', '.join(open_)} left open")
    return drafts


def _rated(draft: Draft) -> list[str]:
    """Return shaft and ratings as the order states them."""
    shaft, rating = draft.nominal("shaft_size"), draft.dimensions.get("rating")
    shown = [f"{shaft.normalize():f} mm shaft"] if shaft is not None else []
    if isinstance(rating, Mapping):
        shown += [f"{held.value.normalize():f} {held.unit.replace(' ', '')}" for held in rating.values()]
    return shown


def _place(facts: Facts, draft: Draft, face: Decimal) -> None:
    """``42x42x48`` beside NEMA 17: two numbers near the face are the face, the last is the length of the body."""
    numbers = facts.unplaced(draft)
    for pattern, name in ((_STEPS, "steps"), (_RATIO, "ratio")):
        said = pattern.search(facts.line.lower())
        if said is not None:
            draft.attributes[name] = said[1]
            # 5:1 holds a second number, which belongs to the ratio too.
            texts = {said[1], "1"} if name == "ratio" else {said[1]}
            draft.drop(*(number for number in numbers if number.text in texts))
    numbers = facts.unplaced(draft)
    ranged = next((number for number in numbers if number.upper and abs(number.value - face) < 1), None)
    if ranged is not None and ranged.upper is not None and "length" not in draft.dimensions:
        draft.give("length", ranged.upper, ranged.text, "face and length of the body", COMMON_PRACTICE)
        draft.drop(ranged)
        numbers = facts.unplaced(draft)
    if len(numbers) > 1:
        near = [number for number in numbers if abs(number.value - face) < 1][:2]
        draft.drop(*near)
        numbers = [number for number in numbers if not any(number is item for item in near)]
    if len(numbers) == 1 and _LEAST_BODY <= numbers[0].value <= _LONGEST_BODY and "length" not in draft.dimensions:
        draft.give("length", numbers[0].value, numbers[0].text, "length of the body", COMMON_PRACTICE)
        draft.drop(numbers[0])


MOTOR = Family(
    name="motor",
    size_names="size class",
    key="catalogue_number",
    nouns={
        "en": phrases(
            "motor, stepper motor, stepper, stepping motor, step motor, servo motor, dc motor, gear motor, motors"
        ),
        "de": phrases("Schrittmotor, Getriebemotor, Gleichstrommotor, Servomotor, Elektromotor"),
        "fr": phrases("moteur, moteur pas à pas, motoréducteur, servomoteur"),
        "es": phrases("motor paso a paso, servomotor, motorreductor"),
        "it": phrases("motore, motore passo passo, servomotore, motoriduttore"),
        "zh": phrases("bujin dianji, dianji"),
    },
    table="motor",
    codes=(
        Code(r"nema ?-? ?\d{1,2}", identifies=True, says="a motor face", source="NEMA ICS 16"),
        Code(r"\d{2}hs\d{2,4}[a-z]?(?:-\w+)?", identifies=True, says="a motor number that begins with its NEMA face"),
        Code(r"28byj ?-?48", says="a maker's number"),
    ),
    labels={
        "height": "length",
        "thickness": "length",
        "body": "length",
        "diameter": "outer_diameter",
        "bore": "shaft_size",
    },
    needs=("size_class|rating",),
    order="Motor",
    question="Which motor: face (NEMA 17), or voltage and power? And which length and shaft?",
    ratings=("current", "voltage", "power", "torque", "speed", "angle"),
    refine=_motor,
    yields=True,
    unless=words(
        "oil mount bracket driver controller cycle motorcycle home boat run capacitor shield cover damper coupling"
        " treiber support halter vibration pump brush brushes start fan"
    ),
    examples=(
        Example(
            "NEMA17 48mm stepper",
            dimensions={"size_class": "NEMA17", "length": "48", "hole_spacing": "31"},
            size_names="size class",
        ),
        Example("NEMA17", dimensions={"size_class": "NEMA17"}),
        Example("Schrittmotor NEMA 23 56 mm", dimensions={"size_class": "NEMA23", "length": "56"}),
        Example("stepper motor", state="ambiguous"),
    ),
    source="NEMA ICS 16; makers' catalogues",
    mates=Mates(in_bore=False),
)

FAMILIES = (MOTOR,)
