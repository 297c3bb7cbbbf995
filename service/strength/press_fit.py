"""Press fits: pressure, stress, force and torque of a shaft, pin or bush in a hub, by thick-cylinder theory (Lamé).

Elastic rings of the same length in plane stress, free ends. Sources: Shigley, Mechanical Engineering Design, Sec. 3-16
and 7-8; roughness loss DIN 7190 (second-hand). Fits at another temperature: ``service.strength.thermal``. Lengths are
millimetres, forces newtons, torques newton metres, stresses MPa; an interference is positive and diametral.
"""

import math
from dataclasses import dataclass

from reference.materials import Material
from reference.quantities import Limits
from reference.workshop import Friction, press_friction
from service.strength import cautions

ROUGHNESS_2001 = 0.8
"""Part of Rz1 + Rz2 that is pressed flat, on the diameter: DIN 7190:2001."""

ROUGHNESS_2017 = 0.4
"""The same by DIN 7190-1:2017 (second-hand); some authors doubt that a fixed part has any physical ground."""

SOURCE = "Lamé thick cylinders as in Shigley, Mechanical Engineering Design, 9th ed. Sec. 3-16, 7-8; plane stress"


def interface_pressure(
    interference: float,
    diameter: float,
    hub_outer: float,
    hub: Material | tuple[float, float],
    shaft: Material | tuple[float, float],
    shaft_bore: float = 0.0,
) -> float:
    """Return the pressure between shaft and hub [MPa] for a diametral interference [mm]; 0 where there is none.

    ``hub`` and ``shaft`` are materials, or pairs of Young's modulus [MPa] and Poisson's ratio. ``hub_outer`` may be
    infinite.

    Raises:
        ValueError: the diameters do not nest: shaft_bore < diameter < hub_outer.
    """
    _nested(diameter, hub_outer, shaft_bore)
    hub_modulus, hub_ratio = _elastic(hub)
    shaft_modulus, shaft_ratio = _elastic(shaft)
    compliance = (hub_factor(diameter, hub_outer) + hub_ratio) / hub_modulus
    compliance += (hub_factor(shaft_bore, diameter) - shaft_ratio) / shaft_modulus
    return max(interference, 0.0) / diameter / compliance


def hub_factor(inner: float, outer: float) -> float:
    """Return (outer^2 + inner^2)/(outer^2 - inner^2): the hoop stress at a ring's bore per pressure on it."""
    ratio = (inner / outer) ** 2
    return (1 + ratio) / (1 - ratio)


def interference_for_pressure(
    pressure: float,
    diameter: float,
    hub_outer: float,
    hub: Material | tuple[float, float],
    shaft: Material | tuple[float, float],
    shaft_bore: float = 0.0,
) -> float:
    """Return the diametral interference [mm] that makes a pressure [MPa]."""
    return pressure / interface_pressure(1.0, diameter, hub_outer, hub, shaft, shaft_bore)


def von_mises(hoop: float, radial: float) -> float:
    """Return the equivalent stress of two principal stresses [MPa], the third being zero."""
    return math.sqrt(hoop**2 - hoop * radial + radial**2)


def press_force(pressure: float, diameter: float, length: float, friction: float) -> float:
    """Return the axial force that slides the joint [N]: mu p pi d L."""
    return friction * pressure * math.pi * diameter * length


def torque_capacity(pressure: float, diameter: float, length: float, friction: float) -> float:
    """Return the torque at which the joint slips [N m]."""
    return press_force(pressure, diameter, length, friction) * diameter / 2 / 1000


def roughness_loss(roughness_hub: float, roughness_shaft: float, part: float = ROUGHNESS_2017) -> float:
    """Return how much of the diametral interference the roughness eats, in the unit of the two Rz."""
    return part * (roughness_hub + roughness_shaft)


def bore_closing(pressure: float, bore: float, diameter: float, youngs_modulus: float) -> float:
    """Return how much the bore of a pressed-in bush closes [mm] under a pressure [MPa] on its outside diameter [mm]."""
    return 2 * pressure * bore * diameter**2 / (youngs_modulus * (diameter**2 - bore**2))


def hub_growth(pressure: float, diameter: float, hub_outer: float, youngs_modulus: float) -> float:
    """Return how much the outside of a hub grows [mm] under a pressure [MPa] in its bore."""
    return 2 * pressure * hub_outer * diameter**2 / (youngs_modulus * (hub_outer**2 - diameter**2))


@dataclass(frozen=True, slots=True)
class FitState:
    """One press fit at one interference: stresses in MPa, forces in N, torque in N m, lengths in mm.

    ``press_in`` reckons with the highest friction, ``holds`` and ``torque`` with the lowest.
    """

    interference: float
    effective: float
    pressure: float
    hub_hoop: float
    hub_stress: float
    hub_yields: bool
    hub_safety: float
    shaft_stress: float
    shaft_yields: bool
    press_in: float
    holds: float
    torque: float
    bore_closing: float
    hub_growth: float


@dataclass(frozen=True, slots=True)
class PressFit:
    """A press fit over the limits of both parts: its loosest and its tightest pair, with what was assumed."""

    loosest: FitState
    tightest: FitState
    friction: Friction
    always_presses: bool
    assumed: tuple[str, ...]
    cautions: tuple[str, ...] = (cautions.PRESS, cautions.GENERAL)
    source: str = SOURCE


def press_fit(
    hole: Limits,
    shaft: Limits,
    length: float,
    hub_material: Material,
    shaft_material: Material,
    hub_outer: float | None = None,
    shaft_bore: float = 0.0,
    roughness: tuple[float, float] = (0.0, 0.0),
) -> PressFit:
    """Return the press fit of a shaft in a hole over the limits of both.

    Args:
        hole: limits of the hole [mm].
        shaft: limits of the shaft, pin or bush [mm].
        length: engaged length [mm].
        hub_material: material of the part with the hole.
        shaft_material: material of what is pressed in.
        hub_outer: outside diameter around the hole [mm]; None for a large block, taken as three times the hole.
        shaft_bore: bore of a bush or hollow shaft [mm].
        roughness: Rz of hole and shaft [micrometres]; 0.4 (Rz1 + Rz2) of the interference is lost.

    Raises:
        ValueError: the diameters do not nest, or the length is not positive.
    """
    if length <= 0:
        raise ValueError(f"length {length:g} must be above 0 mm, for example 10")
    diameter = float(hole.nominal)
    outer = 3 * diameter if hub_outer is None else hub_outer
    _nested(diameter, outer, shaft_bore)
    friction = press_friction(hub_material.kind)
    loss = roughness_loss(*roughness) / 1000
    tightest, loosest = float(shaft.high - hole.low), float(shaft.low - hole.high)

    def state(interference: float) -> FitState:
        effective = max(interference - loss, 0.0)
        pressure = interface_pressure(effective, diameter, outer, hub_material, shaft_material, shaft_bore)
        hoop = pressure * hub_factor(diameter, outer)
        hub_stress = von_mises(hoop, -pressure)
        # A solid shaft is under -p all through; the bore of a hollow one is under -2 p d^2/(d^2 - di^2).
        shaft_stress = pressure if not shaft_bore else pressure * (1 + hub_factor(shaft_bore, diameter))
        modulus = shaft_material.youngs_modulus
        return FitState(
            interference=interference,
            effective=effective,
            pressure=pressure,
            hub_hoop=hoop,
            hub_stress=hub_stress,
            hub_yields=hub_stress > hub_material.yield_strength,
            hub_safety=hub_material.yield_strength / hub_stress if hub_stress else math.inf,
            shaft_stress=shaft_stress,
            shaft_yields=shaft_stress > shaft_material.yield_strength,
            press_in=press_force(pressure, diameter, length, friction.upper),
            holds=press_force(pressure, diameter, length, friction.lower),
            torque=torque_capacity(pressure, diameter, length, friction.lower),
            bore_closing=bore_closing(pressure, shaft_bore, diameter, modulus) if shaft_bore else 0.0,
            hub_growth=hub_growth(pressure, diameter, outer, hub_material.youngs_modulus),
        )

    assumed = [text for text in (hub_material.assumed, shaft_material.assumed) if text]
    if hub_outer is None:
        assumed.append(f"a large block: taken as a ring of {outer:g} mm, three times the hole")
    assumed.append(f"friction {friction.lower:g} to {friction.upper:g}, {friction.condition} ({friction.source})")
    assumed.append(
        f"Rz {roughness[0]:g} and {roughness[1]:g} micrometres take {loss * 1000:.2g} micrometres of interference"
        if any(roughness)
        else "no roughness loss; Rz 3 on both parts would take 2.4 micrometres (DIN 7190-1:2017) to 4.8 (2001)"
    )
    assumed.append("elastic: where a part yields, pressure and force stay below the figures")
    return PressFit(state(loosest), state(tightest), friction, loosest - loss > 0, tuple(assumed))


def _elastic(material: Material | tuple[float, float]) -> tuple[float, float]:
    return material if isinstance(material, tuple) else (material.youngs_modulus, material.poisson_ratio)


def _nested(diameter: float, hub_outer: float, shaft_bore: float) -> None:
    if not 0 <= shaft_bore < diameter < hub_outer:
        raise ValueError(
            f"hub_outer {hub_outer:g}, diameter {diameter:g} and shaft_bore {shaft_bore:g} must nest, "
            "for example hub_outer 15, diameter 5, shaft_bore 0"
        )


def effective_ring_interference(diameter: float, interference: float, ground: bool = True) -> float:
    """Return the interference left for a bearing ring on a seat [mm], after its surface has been pressed flat.

    Source: makers' catalogues, d/(d + 2) on a ground seat and d/(d + 3) on a turned one; from memory.
    """
    return interference * diameter / (diameter + (2 if ground else 3))


MOST_RING_INTERFERENCE = 0.001
"""The interference of a bearing ring should stay below this part of its diameter (NTN catalogue)."""
