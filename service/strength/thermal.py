"""Fits at another temperature, and the temperature at which a part slips on: unlike materials grow unlike.

Source: linear expansion, delta d = alpha d delta T. Expansions are 1/K, temperatures degrees Celsius, lengths
millimetres. The pressure of the fit that results belongs to ``service.strength.press_fit``.
"""

from dataclasses import dataclass

from reference.materials import Material
from service.strength import cautions

ROOM = 20.0
"""Reference temperature of dimensions [degC] (ISO 1)."""

SOFTENS = {"aluminium": 150.0, "plastic": 80.0, "zinc": 100.0, "brass": 200.0, "bronze": 200.0, "hardened steel": 150.0}
"""Above this a part of the kind loses strength or shape [degC]; from memory."""

BEARING_LIMIT = 120.0
"""A bearing should not be heated above this [degC]; from memory, common to makers' catalogues."""


def fit_change(hub_expansion: float, shaft_expansion: float, diameter: float, rise: float) -> float:
    """Return how much the clearance of a fit grows [mm] with a rise of temperature [K]; negative: it shrinks."""
    return (hub_expansion - shaft_expansion) * diameter * rise


def slip_on_rise(interference: float, play: float, expansion: float, diameter: float) -> float:
    """Return the rise of temperature [K] that opens a hub past an interference and a play for handling [mm]."""
    return (interference + play) / (expansion * diameter)


@dataclass(frozen=True, slots=True)
class WarmFit:
    """The clearance of a fit at a temperature [mm], at both ends of the parts' limits and of the expansions."""

    temperature: float
    lower: float
    upper: float
    change: tuple[float, float]
    assumed: tuple[str, ...]
    source: str = "linear expansion; figures of the materials' tables"


def clearance_at(
    temperature: float, lower: float, upper: float, diameter: float, hub: Material, shaft: Material
) -> WarmFit:
    """Return the clearance at a temperature [degC] of a fit whose clearance at 20 degC is lower to upper [mm].

    Where published expansions of a material disagree, both ends are reckoned with.
    """
    rise = temperature - ROOM
    changes = [
        fit_change(of_hub, of_shaft, diameter, rise)
        for of_hub in hub.expansion_band
        for of_shaft in shaft.expansion_band
    ]
    assumed = [text for text in (hub.assumed, shaft.assumed) if text]
    assumed += [
        f"{part} {material.grade}: {low * 1e6:g} to {high * 1e6:g} e-6/K"
        if low < high
        else f"{part} {material.grade}: {low * 1e6:g} e-6/K"
        for part, material in (("hub", hub), ("shaft", shaft))
        for low, high in (material.expansion_band,)
    ]
    assumed.append("both parts at the same temperature, dimensions given at 20 degC")
    return WarmFit(
        temperature, lower + min(changes), upper + max(changes), (min(changes), max(changes)), tuple(assumed)
    )


@dataclass(frozen=True, slots=True)
class Heating:
    """How hot a hub, or how cold a shaft, must be to slip together [degC], and whether the material bears it."""

    temperature: float
    rise: float
    safe: bool
    text: str
    assumed: tuple[str, ...]
    cautions: tuple[str, ...] = (cautions.HEAT, cautions.GENERAL)


def heat_to_slip_on(
    interference: float, diameter: float, hub: Material, play: float | None = None, bearing: bool = False
) -> Heating:
    """Return the temperature at which a hub of a material slips over a shaft with that much interference [mm].

    ``play`` is the clearance wanted while joining [mm], by default a thousandth of the diameter; ``bearing`` applies
    the limit for bearings.

    Raises:
        ValueError: interference below 0 or diameter not above 0.
    """
    if interference < 0 or diameter <= 0:
        raise ValueError(f"interference {interference:g} must not be negative and diameter {diameter:g} above 0 mm")
    wanted = diameter / 1000 if play is None else play
    rise = slip_on_rise(interference, wanted, hub.expansion_band[0], diameter)
    temperature = ROOM + rise
    limit = BEARING_LIMIT if bearing else SOFTENS.get(hub.kind)
    safe = limit is None or temperature <= limit
    text = f"Heat the hub to {temperature:.0f} degC, {rise:.0f} K above the shaft."
    if not safe:
        text += f" That is past the {limit:g} degC that the part bears: cool the shaft as well, or press."
    assumed = (
        f"{wanted:.3g} mm of play while joining",
        f"{hub.grade} expands by {hub.expansion_band[0] * 1e6:g} e-6/K",
    )
    return Heating(temperature, rise, safe, text, assumed)
