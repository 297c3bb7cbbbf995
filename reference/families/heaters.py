"""Heater cartridges and temperature sensors.

A heater is made for one voltage: at twice the voltage it takes four times the power. A thermistor needs its resistance
at
25 degC and its beta; a PT100 has 100 ohm at 0 degC.

Sources: P = U^2 / R; IEC 60751 (platinum sensors); the rest common practice.
"""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Code, Example, Family, Layout, phrases, words
from reference.families.facts import Draft, Facts, Number
from reference.families.tubes import sizes_and_lengths
from reference.quantities import Limits, Rating

_SIZE = (
    Layout(("outer_diameter", "length"), when=lambda v: v["outer_diameter"] < v["length"]),
    Layout(("length", "outer_diameter"), when=lambda v: v["outer_diameter"] < v["length"]),
    Layout(("outer_diameter",)),
)


def _heater(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Work out the resistance; without a voltage the heater is open."""
    for draft in drafts:
        volts, watts = draft.rated("voltage"), draft.rated("power")
        outer = draft.nominal("outer_diameter")
        if outer is None:
            draft.size_names = "rating"
            draft.order_text = "Heater cartridge {voltage} {power}"
        else:
            draft.notes.append(
                ("ground-undersize", f"a {outer.normalize():f} mm cartridge is ground slightly under", COMMON_PRACTICE)
            )
        if volts is None:
            draft.doubts.append("For which voltage is the heater?")
        elif watts:
            ohms = (volts * volts / watts).quantize(Decimal("0.1")).normalize()
            draft.rate("resistance", Rating(Decimal(f"{ohms:f}"), "ohm"), "V and W", "U x U / P", "P = U^2 / R")
        if watts is None:
            draft.order_text = "Heater cartridge {outer_diameter} x {length}, {voltage}" if outer else None
    return drafts


_RESISTANCE = re.compile(
    r"(?<![\w.,])([0-9]+(?:[.,][0-9]+)?) ?[kK](?![A-Za-z0-9])|(?<![\w.,])([0-9])[kK]([0-9])(?![0-9])"
)
_BETA = re.compile(
    r"(?:\bB ?(?:25/[0-9]{2,3})?|β|beta) ?[=:]? ?([0-9]{4})\b|(?<![\w.,x])([34][0-9]{3})(?:K\b|(?![\w.,]))"
)
_TYPE = re.compile(r"(?i:\b(?:type|typ|tipo)[ -]*)([KJTNSREB])\b|\b([KJTNSREB])[- ](?i:type|typ\b)")
_LEADS = re.compile(r"([234])[ -]?(?:wire|leiter|fils|hilos|fili|draht)", re.IGNORECASE)


def _drop_texts(draft: Draft, *texts: str | None) -> None:
    draft.drop(*(part for part in draft.rest if any(text is not None and part.text.startswith(text) for text in texts)))


def _thermistor(draft: Draft, facts: Facts) -> None:
    found, beta = _RESISTANCE.search(facts.line), _BETA.search(facts.line)
    if found and draft.rated("resistance") is None:
        kilo = Decimal(found[1].replace(",", ".")) if found[1] else Decimal(f"{found[2]}.{found[3]}")
        if kilo < 1000:
            rating = Rating(Decimal(f"{(kilo * 1000).normalize():f}"), "ohm")
            draft.rate("resistance", rating, found[0], "resistance at 25 degC", COMMON_PRACTICE)
    if beta and "beta_k" not in draft.attributes:
        draft.attributes["beta_k"] = beta[1] or beta[2]
        draft.because.append((beta[0], "beta, in kelvin", COMMON_PRACTICE))
    tolerance = re.search(r"([0-9]+(?:[.,][0-9]+)?) ?%", facts.line)
    if tolerance:
        draft.attributes["tolerance"] = f"{tolerance[1]} %"
    _drop_texts(draft, *(found.groups() if found else ()), *(beta.groups() if beta else ()), "25", "50", "85", "100")
    if draft.rated("resistance") is None:
        draft.doubts.append("Which resistance has the thermistor at 25 degC, and which beta?")
    elif "beta_k" not in draft.attributes:
        draft.doubts.append("Which beta has the thermistor, between which temperatures (25/50 or 25/85)?")
    draft.order_text = "Thermistor NTC {resistance}, beta {beta_k}"


def _platinum(groups: Mapping[str, str]) -> Draft | None:
    ohms = Decimal(groups["ohms"])
    rating = {"resistance": Rating(ohms, "ohm")}
    return Draft("temperature sensor", "rating", "stated", {"rating": rating}, {"element": f"PT{ohms}"})


def _sensor(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Tell thermistor, platinum sensor and thermocouple apart; a length in metres is the cable."""
    for draft in drafts:
        lengths = sizes_and_lengths(draft.copy())[1]
        draft.drop(*lengths)
        if lengths:
            draft.dimensions["cable_length"] = Limits(lengths[0].value)
        leads = _LEADS.search(facts.line)
        if leads:
            draft.attributes["leads"] = leads[1]
            _drop_texts(draft, leads[1])
        if "thread" in draft.dimensions:
            draft.size_names = "external thread"
        thermocouple = _TYPE.search(facts.line)
        if "element" in draft.attributes:
            draft.order_text = "Temperature sensor {element}" + (" {thread}" if "thread" in draft.dimensions else "")
        elif facts.says("ntc", "thermistor", "heissleiter", "thermistance", "termistor", "termistore"):
            _thermistor(draft, facts)
        elif thermocouple and facts.says(*_THERMOCOUPLE):
            draft.attributes["element"] = f"type {thermocouple[1] or thermocouple[2]}"
            draft.order_text = "Thermocouple {element}" + (" {thread}" if "thread" in draft.dimensions else "")
        else:
            draft.doubts.append("Which element has the sensor (NTC with beta, PT100, thermocouple type)?")
        sizes = [part for part in draft.rest if isinstance(part, Number)]
        if "outer_diameter" not in draft.dimensions and len(sizes) in {1, 2} and sizes[0].value < 20:
            for key, number in zip(("outer_diameter", "length"), sizes, strict=False):
                draft.give(key, number.value, number.text, f"{key.replace('_', ' ')} of the probe", COMMON_PRACTICE)
            draft.drop(*sizes)
    return drafts


_THERMOCOUPLE = (
    "thermocouple",
    "thermoelement",
    "termopar",
    "termocoppia",
    "thermo",
    "couple",
    "thermocouples",
    "termocupla",
)

HEATER = Family(
    name="heater cartridge",
    size_names="outer diameter",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "heater cartridge, cartridge heater, heater, heating cartridge, ceramic heater cartridge, heating element"
        ),
        "de": phrases("Heizpatrone, Heizkartusche, Heizelement, Heizpatronen, Patronenheizung"),
        "fr": phrases("cartouche chauffante, cartouche de chauffe, résistance chauffante, cartouche chauffage"),
        "es": phrases(
            "cartucho calefactor, resistencia calefactora, cartucho calentador, calentador de cartucho, calefactor"
        ),
        "it": phrases(
            "cartuccia riscaldante, resistenza a cartuccia, cartuccia riscaldatrice, riscaldatore a cartuccia"
        ),
    },
    layouts=_SIZE,
    ratings=("voltage", "power", "resistance"),
    needs=("outer_diameter", "length", "voltage", "power"),
    identity=("voltage",),
    order="Heater cartridge {outer_diameter} x {length}, {voltage} {power}",
    question="For which voltage is the heater?",
    refine=_heater,
    unless=words("bed mat pad room water fan oil car aquarium seat silicone space garden patio garage gas hose relay"),
    examples=(
        Example(
            "heater cartridge 6x26 12V 30W",
            dimensions={"outer_diameter": "6", "length": "26"},
            size_names="outer diameter",
        ),
        Example("Heizpatrone 10 x 50, 230 V 200 W", dimensions={"outer_diameter": "10", "length": "50"}),
        Example("cartouche chauffante 24V 50W 6x20", dimensions={"outer_diameter": "6", "length": "20"}),
        Example("heater cartridge 6x20 40W", state="ambiguous"),
        Example("heater 50W", state="ambiguous", size_names="rating"),
    ),
    source="P = U^2 / R; common practice",
)

TEMPERATURE_SENSOR = Family(
    name="temperature sensor",
    size_names="rating",
    key="outer_diameter",
    nouns={
        "en": phrases(
            "temperature sensor, thermistor, NTC, thermocouple, RTD, temp sensor, temperature probe, NTC thermistor,"
            " thermo couple,"
            " temperature sensor probe, NTC sensor, thermocouple probe, thermocouple sensor"
        ),
        "de": phrases(
            "Temperatursensor, Temperaturfühler, Heißleiter, Thermoelement, Thermistor, Temperatur Sensor, Thermofühler"
        ),
        "fr": phrases(
            "sonde de température, thermistance, capteur de température, thermocouple, sonde thermocouple, sonde NTC"
        ),
        "es": phrases("sensor de temperatura, termistor, termopar, sonda de temperatura, termocupla, sonda NTC"),
        "it": phrases("sensore di temperatura, termistore, termocoppia, sonda di temperatura, sonda NTC"),
    },
    codes=(
        Code(
            r"pt[ -]?(?P<ohms>100|500|1000)",
            identifies=True,
            decode=_platinum,
            says="a platinum sensor of this resistance at 0 degC",
            source="IEC 60751",
        ),
        Code(
            r"ds18b20",
            identifies=True,
            decode=lambda groups: Draft("temperature sensor", "rating", "stated", attributes={"element": "DS18B20"}),
            says="a digital sensor",
        ),
    ),
    thread="thread",
    ratings=("resistance", "temperature"),
    labels={"beta": "@beta_k", "length": "length", "diameter": "outer_diameter", "wire": "-"},
    needs=("resistance|thread|outer_diameter",),
    order="Temperature sensor {element}",
    question="Which element has the sensor (NTC with beta, PT100, thermocouple type)?",
    refine=_sensor,
    unless=words("amplifier controller module board regler"),
    words=frozenset({"beta"}),
    examples=(
        Example("NTC 10k B3435", size_names="rating"),
        Example("thermistor 100k 3950 1%", size_names="rating"),
        Example(
            "PT1000 M8 sensor 2m", dimensions={"thread": "M8", "cable_length": "2000"}, size_names="external thread"
        ),
        Example("thermocouple type K M6 1 m", dimensions={"thread": "M6", "cable_length": "1000"}),
        Example("NTC 100k", state="ambiguous"),
        Example("temperature sensor", state="ambiguous"),
    ),
    source="IEC 60751; common practice",
)

FAMILIES = (HEATER, TEMPERATURE_SENSOR)
