"""Fits away from 20 degC: unlike materials grow unlike, so a pair that is right on the bench may seize or let go.

Adds one finding to a reading that has been judged against a bore or a shaft. A clearance fit has to keep a clearance,
an interference fit its interference; what comes between is told without being weighed, as is a pair without a fit.
Figures and formula: ``service.strength.thermal``.
"""

import math
import re
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from reference import materials
from reference.materials import Material
from reference.quantities import Limits
from reference.units import tidy
from service.reading.model import Reading
from service.strength import cautions, thermal
from service.verdict.combine import worst
from service.verdict.model import (
    BoreMate,
    CheckError,
    Finding,
    FitWanted,
    JudgedReading,
    Mate,
    ShaftMate,
    Temperatures,
    Window,
)
from service.verdict.pairs import CHANCE, percent, share_between
from service.verdict.roles import BORE_KEY, CLEARANCE_HOLE, FOR_A_BORE, FOR_A_SHAFT, OWN_HOLE, TAPERED

COLDEST, HOTTEST = Decimal(-200), Decimal(600)
"""Temperatures that a check may give [degC]."""

ROOM = Decimal(20)
"""Dimensions hold at this temperature [degC] (ISO 1)."""

HOT = Decimal(60)
"""Above this a part burns the skin [degC]."""

MADE_OF = {
    "parallel pin": "hardened steel",
    "parallel pin with internal thread": "hardened steel",
    "parallel pin with external thread": "hardened steel",
    "ball bearing": "100Cr6",
    "flanged ball bearing": "100Cr6",
    "angular contact ball bearing": "100Cr6",
    "needle roller bearing": "100Cr6",
    "linear ball bearing": "100Cr6",
    "shaft": "hardened steel",
    "shoulder screw": "42CrMo4",
}
"""What parts are made of where the line does not say; common practice."""

_SKIPPED = frozenset({*OWN_HOLE, *CLEARANCE_HOLE, *FOR_A_BORE, *FOR_A_SHAFT, *TAPERED})
_FORMS = f"one temperature or a range, in degC or with its unit, from {COLDEST} to {HOTTEST} degC"
_TEMPERATURE = re.compile(
    r"(?P<low>[+−-]?\d{1,3}(?:[.,]\d+)?)(?:\s*(?:\.\.+|…|\bto\b)\s*(?P<high>[+−-]?\d{1,3}(?:[.,]\d+)?))?"
    r"\s*(?P<unit>°\s?[CF]|deg\s?[CF]|℃|℉|[CF]|K)?",
    re.IGNORECASE,
)


def temperatures(value: object, field: str) -> Temperatures:
    """Return the temperatures at which a fit has to hold: ``60``, ``-10..60``, ``140 °F``.

    Raises:
        CheckError: the value is no temperature, or none that a machine sees.

    >>> temperatures("-10..60 °C", "temperature").upper, temperatures("140 F", "temperature").lower
    (Decimal('60'), Decimal('60'))
    """
    text = str(value) if isinstance(value, int | float | Decimal) and not isinstance(value, bool) else value
    match = _TEMPERATURE.fullmatch(text.strip()) if isinstance(text, str) and len(text) <= 60 else None
    if match is None:
        raise CheckError(field, value, _FORMS, "-10..60")
    unit = (match["unit"] or "C")[-1].upper().replace("℃", "C").replace("℉", "F")
    ends = sorted(_celsius(match[name], unit) for name in ("low", "high") if match[name])
    if not COLDEST <= ends[0] <= ends[-1] <= HOTTEST:
        raise CheckError(field, value, _FORMS, "-10..60")
    return Temperatures(ends[0], ends[-1])


def _celsius(text: str, unit: str) -> Decimal:
    number = Decimal(text.replace(",", ".").replace("−", "-"))
    if unit == "F":
        number = ((number - 32) * 5 / 9).quantize(Decimal("0.01"))
    return tidy(number - Decimal("273.15") if unit == "K" else number)


def at_temperature(
    judged: JudgedReading, mate: Mate, fit: FitWanted | None, range_: Temperatures, part_material: Material | None
) -> JudgedReading:
    """Return a reading with what its fit does at a temperature among its findings, weighed in its verdict."""
    if judged.verdict == "wrong" or not isinstance(mate, BoreMate | ShaftMate):
        return judged
    if judged.clearance is None:
        found = _not_judged(judged.reading)
    else:
        found = _finding(judged.reading, mate, fit, range_, part_material)
    findings = (*judged.findings, found)
    share = judged.share
    if "share" in found.numbers:
        warm = Decimal(found.numbers["share"])
        share = warm if share is None else min(share, warm)
    careful = (cautions.HEAT, cautions.GENERAL) if range_.upper > HOT else ()
    together = tuple(dict.fromkeys((*judged.cautions, *careful)))
    verdict = worst(findings)
    shown = share if verdict in ("fits", "marginal") else None
    return judged._replace(verdict=verdict, findings=findings, share=shown, cautions=together)


def _not_judged(reading: Reading) -> Finding:
    text = f"what the temperature does to this {reading.family} is not reckoned with"
    return Finding("temperature-not-judged", "note", text, {}, "common practice")


def _finding(
    reading: Reading, mate: BoreMate | ShaftMate, fit: FitWanted | None, range_: Temperatures, given: Material | None
) -> Finding:
    key = "bore" if isinstance(mate, ShaftMate) else BORE_KEY.get(reading.family, "outer_diameter")
    size = reading.dimensions.get(key)
    if reading.family in _SKIPPED or not isinstance(size, Limits):
        return _not_judged(reading)
    part = given or _material(reading)
    of_mate = mate.material
    for what, material in ((f"the {mate.kind}", of_mate), (f"the {reading.family}", part)):
        if material is None:
            text = f"what {what} is made of is not stated, so the fit at {range_.text} is not known"
            return Finding("material-missing", "open", text, {}, "the check")
    assert part is not None  # noqa: S101 - looked at above
    assert of_mate is not None  # noqa: S101 - looked at above
    hole, shaft = (size, mate.diameter) if isinstance(mate, ShaftMate) else (mate.diameter, size)
    hub, pin = (part, of_mate) if isinstance(mate, ShaftMate) else (of_mate, part)
    return _changed(hole, shaft, hub, pin, fit, range_)


def _material(reading: Reading) -> Material | None:
    """Return what the part is made of: as the line says, else as such parts are."""
    name = reading.attributes.get("material") or MADE_OF.get(reading.family)
    try:
        return None if name is None else materials.material(name)
    except materials.UnknownMaterial:
        return None


class _End(NamedTuple):
    """The fit at one temperature: its clearance [mm], and the mean change."""

    temperature: Decimal
    clearance: Window
    change: float


@lru_cache(maxsize=2048)
def _changed(
    hole: Limits, shaft: Limits, hub: Material, pin: Material, fit: FitWanted | None, range_: Temperatures
) -> Finding:
    """Say what the clearance becomes at both ends of a range of temperature."""
    cold = Window(tidy(hole.low - shaft.high), tidy(hole.high - shaft.low))
    size = float(hole.nominal)
    ends: list[_End] = []
    assumed: tuple[str, ...] = ()
    for temperature in dict.fromkeys((range_.lower, range_.upper)):
        warm = thermal.clearance_at(float(temperature), float(cold.lower), float(cold.upper), size, hub, pin)
        window = Window(_micrometres(warm.lower), _micrometres(warm.upper))
        ends.append(_End(temperature, window, sum(warm.change) / 2))
        assumed = warm.assumed
    lower, upper = min(end.clearance.lower for end in ends), max(end.clearance.upper for end in ends)
    numbers: dict[str, Decimal | str] = {
        "temperature_lower": range_.lower,
        "temperature_upper": range_.upper,
        "clearance_lower": lower,
        "clearance_upper": upper,
    }
    becomes = "; ".join(f"{end.clearance.lower}..{end.clearance.upper} mm at {end.temperature} degC" for end in ends)
    text = f"clearance {cold.lower}..{cold.upper} mm at 20 degC becomes {becomes}"
    source = "linear expansion; figures of the materials' tables"
    told = _weighed(hole, shaft, cold, ends, fit, text, numbers)
    limit = _limit(cold, hub, pin, size, fit)
    if limit is not None:
        numbers["limit_temperature"] = limit[0]
        told = told._replace(text=f"{told.text}; {limit[1]}")
    return told._replace(text=f"{told.text} ({'; '.join(assumed)})", numbers=numbers, source=source)


def _weighed(
    hole: Limits,
    shaft: Limits,
    cold: Window,
    ends: list[_End],
    fit: FitWanted | None,
    text: str,
    numbers: dict[str, Decimal | str],
) -> Finding:
    """Weigh the clearance at temperature against what the fit is for."""
    lower, upper = min(end.clearance.lower for end in ends), max(end.clearance.upper for end in ends)
    slides = fit is not None and fit.window.lower >= 0
    if fit is None or not (slides or fit.window.upper <= 0):
        return Finding("fit-at-temperature", "note", text, {}, "")
    loses, verb = ("seize", "seizes") if slides else ("loosen", "loosens")
    within = lower >= 0 if slides else upper <= 0
    if within:
        keeps = "a clearance" if slides else "its interference"
        return Finding("fit-holds-at-temperature", "fits", f"{text}: every pair keeps {keeps}", {}, "")
    lost = any(end.clearance.upper < 0 if slides else end.clearance.lower > 0 for end in ends)
    if lost:
        return Finding(f"{verb}-at-temperature", "wrong", f"{text}: it {verb}", {}, "")
    if hole.lower is None or shaft.lower is None:
        return Finding("limits-not-stated", "open", f"{text} by nominal size", {}, "")
    mean, deviation = float(cold.lower + cold.upper) / 2, math.hypot(float(hole.width), float(shaft.width)) / 6
    bounds = (0.0, math.inf) if slides else (-math.inf, 0.0)
    share = min(share_between(*bounds, mean + end.change, deviation) for end in ends)
    numbers["share"] = share
    kept = "keep a clearance" if slides else "keep their interference"
    text += f": {percent(share)} of pairs {kept}, the others {loses} ({CHANCE})"
    return Finding(f"some-{loses}-at-temperature", "marginal", text, {}, "")


def _limit(
    cold: Window, hub: Material, pin: Material, size: float, fit: FitWanted | None
) -> tuple[Decimal, str] | None:
    """Return the temperature up (or down) to which every pair holds, and that in words; None where there is none."""
    if fit is None or not (fit.window.lower >= 0 or fit.window.upper <= 0):
        return None
    slides = fit.window.lower >= 0
    margin = float(cold.lower if slides else cold.upper)
    rates = [(one - other) * size for one in hub.expansion_band for other in pin.expansion_band]
    if (margin < 0 if slides else margin > 0) or margin == 0:
        return None
    # The clearance that shrinks fastest decides where it slides, the one that grows fastest where it is pressed.
    reached = [-margin / rate for rate in rates if rate]
    nearest = min(reached, key=abs, default=None)
    if nearest is None:
        return None
    temperature = ROOM + Decimal(math.trunc(nearest))
    if not COLDEST <= temperature <= HOTTEST:
        return None
    what = "the tightest pair seizes" if slides else "the loosest pair lets go"
    side = "above" if nearest > 0 else "below"
    return temperature, f"{what} {side} {temperature} degC"


def _micrometres(value: float) -> Decimal:
    return tidy(Decimal(f"{value:.4f}"))
