"""Keys in their ways and retaining rings in their grooves: fit, pressure, shear, what a groove carries.

Lengths are millimetres, torques newton metres, forces newtons, stresses MPa. Sources: textbook key formulas (Khurmi,
Bhandari), simplified from DIN 6892; DIN 471 and DIN 472 for grooves, from memory. Dimensions belong to ``reference``.
"""

import math
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from reference.quantities import Limits
from service.strength import cautions

FitWord = Literal["sliding", "light", "tight", "does not enter"]


def key_force(torque: float, shaft_diameter: float) -> float:
    """Return the force on the flank of a key [N] for a torque [N m] at the shaft's surface."""
    return 2000 * torque / shaft_diameter


def key_pressure(torque: float, shaft_diameter: float, bearing_height: float, length: float) -> float:
    """Return the pressure on a key's flank [MPa].

    ``bearing_height`` is how much of the flank lies in the hub (t2), or half the key's height in the textbook form;
    ``length`` the straight part of the key (:func:`bearing_length`).
    """
    return key_force(torque, shaft_diameter) / (bearing_height * length)


def key_shear(torque: float, shaft_diameter: float, width: float, length: float) -> float:
    """Return the shear stress in a key [MPa]."""
    return key_force(torque, shaft_diameter) / (width * length)


def key_torque(allowed: float, shaft_diameter: float, loaded_width: float, length: float) -> float:
    """Return the torque [N m] at which pressure or shear over ``loaded_width`` reaches an allowed stress [MPa]."""
    return allowed * loaded_width * length * shaft_diameter / 2000


def key_length(torque: float, shaft_diameter: float, loaded_width: float, allowed: float) -> float:
    """Return the length of key that carries a torque [N m] at an allowed pressure or shear [MPa] over a width."""
    return key_force(torque, shaft_diameter) / (loaded_width * allowed)


def bearing_length(length: float, width: float, form: str = "A") -> float:
    """Return the straight length of a key: form A has two round ends, AB one, B none (DIN 6885-1)."""
    return length - {"A": width, "AB": width / 2, "B": 0.0}[form]


@dataclass(frozen=True, slots=True)
class KeyFit:
    """A key in a keyway: clearance of way minus key [mm], and the word for it."""

    clearance: tuple[Decimal, Decimal]
    fit: FitWord
    text: str
    source: str = "DIN 6885-1: way P9 tight, N9 light, D10 sliding, key h9"


def key_fit(way: Limits, key: Limits) -> KeyFit:
    """Judge the width of a keyway against the width of its key."""
    low, high = way.low - key.high, way.high - key.low
    if high < Decimal("-0.05"):
        word: FitWord = "does not enter"
        text = f"The key is at least {-high} mm too wide for its way."
    elif low >= 0:
        word, text = "sliding", f"The key slides with {low} to {high} mm of play: for a hub that moves along the shaft."
    elif low + high >= -(high - low) / 5:  # the middle lies within a tenth of the range of a line fit
        word, text = "light", f"Between {-low} mm tight and {high} mm loose: fitted by hand or with light taps."
    else:
        word, text = "tight", f"Mostly tight, from {-low} mm tight to {high} mm: for torque that changes direction."
    return KeyFit((low, high), word, text)


@dataclass(frozen=True, slots=True)
class KeyLoad:
    """What a key sees under a torque: pressure and shear [MPa], and how they stand to what is allowed."""

    pressure: float
    shear: float
    pressure_safety: float
    shear_safety: float
    carries: bool
    assumed: tuple[str, ...]
    cautions: tuple[str, ...] = (cautions.GENERAL,)


def key_load(
    torque: float,
    shaft_diameter: float,
    width: float,
    hub_depth: float,
    length: float,
    weakest_yield: float,
    form: str = "A",
    shear_ratio: float = 0.577,
) -> KeyLoad:
    """Judge a key under a torque [N m]; ``hub_depth`` is the flank in the hub, ``weakest_yield`` of key, hub and shaft.

    Raises:
        ValueError: the key is shorter than its round ends.
    """
    straight = bearing_length(length, width, form)
    if straight <= 0:
        raise ValueError(
            f"length {length:g} is all round ends on a key {width:g} wide; accepted is for example {3 * width:g}"
        )
    pressure = key_pressure(torque, shaft_diameter, hub_depth, straight)
    shear = key_shear(torque, shaft_diameter, width, straight)
    pressure_safety = weakest_yield / pressure if pressure else math.inf
    shear_safety = shear_ratio * weakest_yield / shear if shear else math.inf
    assumed = (
        f"form {form}: {straight:g} mm of straight flank",
        "pressure even along the flank, one key, no press fit helping",
        f"shear allowed {shear_ratio:g} of the yield (von Mises)",
    )
    carries = pressure_safety >= 1 and shear_safety >= 1
    return KeyLoad(pressure, shear, pressure_safety, shear_safety, carries, assumed)


@dataclass(frozen=True, slots=True)
class RingFit:
    """A retaining ring in a groove: axial play [mm], whether it enters, how deep the groove holds it."""

    play: tuple[Decimal, Decimal]
    enters: bool
    groove_depth: Decimal
    shoulder: Decimal | None
    shoulder_enough: bool
    findings: tuple[str, ...]
    source: str = "DIN 471 and DIN 472, from memory: shoulder at least 3 times the groove's depth"


def ring_fit(
    groove_width: Limits,
    ring_thickness: Limits,
    shaft_diameter: Decimal,
    groove_diameter: Limits,
    shoulder: Decimal | None = None,
) -> RingFit:
    """Judge a ring in a groove of a shaft or bore; ``shoulder`` is the land between groove and the free end [mm]."""
    play = groove_width.low - ring_thickness.high, groove_width.high - ring_thickness.low
    depth = abs(shaft_diameter - groove_diameter.nominal) / 2
    enough = shoulder is None or shoulder >= 3 * depth
    findings = []
    if play[0] < 0:
        sure = "does not" if play[1] < 0 else "may not"
        findings.append(f"the ring {sure} enter: it is up to {-play[0]} mm thicker than the groove is wide")
    if depth == 0:
        findings.append("the groove has no depth")
    if not enough:
        findings.append(
            f"the shoulder of {shoulder} mm is shorter than three groove depths ({3 * depth} mm): it shears off"
        )
    return RingFit(play, play[0] >= 0, depth, shoulder, enough, tuple(findings))


def groove_load(yield_strength: float, outer: float, inner: float, safety: float = 2.0) -> float:
    """Return the axial force [N] that the wall of a ring groove carries: yield over the ring of the groove's wall.

    ``outer`` and ``inner`` are shaft and groove diameter, or groove and bore diameter [mm].
    """
    return yield_strength * math.pi / 4 * abs(outer**2 - inner**2) / safety
