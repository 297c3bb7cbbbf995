"""Belt paths: the length around pulleys, the centre distance for a belt, tension travel, open belts with clamped tails.

All lengths are millimetres on the pitch line of the belt; a toothed pulley's pitch diameter is z p / pi. Sources:
geometry; the approximate open-belt formula stands in every handbook. Which belts exist belongs to ``reference``.

>>> round(open_belt_length(toothed_diameter(60, 2), toothed_diameter(20, 2), 80), 3)
242.031
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from service.strength import cautions

LEAST_TEETH_IN_MESH = 6
"""Teeth of the small pulley that should be in mesh; from memory, common to makers' catalogues."""


def toothed_diameter(teeth: int, pitch: float) -> float:
    """Return the pitch diameter of a toothed pulley: z p / pi."""
    return teeth * pitch / math.pi


def back_idler_diameter(outer_diameter: float, back_distance: float) -> float:
    """Return the pitch diameter of a smooth idler on the belt's back, ``back_distance`` from back to pitch line."""
    return outer_diameter + 2 * back_distance


def open_belt_length(one: float, other: float, centres: float) -> float:
    """Return the exact length of an open belt around two pulleys of given pitch diameters.

    Raises:
        ValueError: the pulleys overlap.
    """
    _apart(one, other, centres, abs(one - other))
    angle = math.asin((one - other) / (2 * centres))
    return 2 * centres * math.cos(angle) + math.pi * (one + other) / 2 + angle * (one - other)


def open_belt_length_approximate(one: float, other: float, centres: float) -> float:
    """Return the handbook's 2C + pi/2 (D + d) + (D - d)^2 / 4C."""
    return 2 * centres + math.pi / 2 * (one + other) + (one - other) ** 2 / (4 * centres)


def crossed_belt_length(one: float, other: float, centres: float) -> float:
    """Return the exact length of a crossed belt around two pulleys, which then turn against each other.

    Raises:
        ValueError: the pulleys touch or overlap.
    """
    _apart(one, other, centres, one + other)
    angle = math.asin((one + other) / (2 * centres))
    return 2 * centres * math.cos(angle) + (math.pi / 2 + angle) * (one + other)


def crossed_belt_length_approximate(one: float, other: float, centres: float) -> float:
    """Return the handbook's 2C + pi/2 (D + d) + (D + d)^2 / 4C."""
    return 2 * centres + math.pi / 2 * (one + other) + (one + other) ** 2 / (4 * centres)


def wrap_angles(one: float, other: float, centres: float) -> tuple[float, float]:
    """Return the angles of wrap on the two pulleys of an open belt [rad], in the order given."""
    _apart(one, other, centres, abs(one - other))
    angle = 2 * math.asin((one - other) / (2 * centres))
    return math.pi + angle, math.pi - angle


def teeth_in_mesh(teeth: int, wrap: float) -> float:
    """Return how many teeth of a pulley lie in the belt for an angle of wrap [rad]."""
    return teeth * wrap / (2 * math.pi)


def centre_distance(one: float, other: float, length: float) -> float:
    """Return the centre distance at which an open belt of a length is taut around two pulleys.

    Raises:
        ValueError: the belt is so short that the pulleys would touch.
    """
    low, high = (one + other) / 2, length / 2
    if high <= low or open_belt_length(one, other, low) > length:
        raise ValueError(f"pitch_length {length:g} is too short to go around pulleys of {one:g} and {other:g} mm")
    for _ in range(200):
        middle = (low + high) / 2
        if open_belt_length(one, other, middle) < length:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _apart(one: float, other: float, centres: float, least: float) -> None:
    if min(one, other) <= 0 or 2 * centres < least:
        raise ValueError(
            f"centre distance {centres:g} is too small for pulleys of {one:g} and {other:g} mm, e.g. 80 for 38 and 13"
        )


@dataclass(frozen=True, slots=True)
class Pulley:
    """A pulley on a belt's path: centre, pitch diameter, and whether the belt's back runs on it."""

    x: float
    y: float
    diameter: float
    back: bool = False


@dataclass(frozen=True, slots=True)
class Path:
    """A closed path around pulleys: its length, the straight runs, and the wrap on each pulley [rad]."""

    length: float
    runs: tuple[float, ...]
    wraps: tuple[float, ...]


def path(pulleys: Sequence[Pulley]) -> Path:
    """Return the closed path of a belt around pulleys given in the order in which it meets them, counter-clockwise.

    Pulleys inside the loop turn with the belt's teeth, those with ``back`` against them.

    Raises:
        ValueError: fewer than two pulleys, or two neighbours that overlap.
    """
    if len(pulleys) < 2:
        raise ValueError("belt path: at least two pulleys are needed")
    runs, directions = [], []
    for start, end in zip(pulleys, (*pulleys[1:], pulleys[0]), strict=True):
        distance = math.hypot(end.x - start.x, end.y - start.y)
        offset = _signed_radius(end) - _signed_radius(start)
        if abs(offset) >= distance:
            raise ValueError(f"belt path: the pulleys at ({start.x:g}, {start.y:g}) and ({end.x:g}, {end.y:g}) overlap")
        runs.append(math.sqrt(distance**2 - offset**2))
        directions.append(math.atan2(end.y - start.y, end.x - start.x) - math.asin(offset / distance))
    wraps = []
    for index, pulley in enumerate(pulleys):
        turn = directions[index] - directions[index - 1]
        wrap = (-turn if pulley.back else turn) % (2 * math.pi)
        wraps.append(0.0 if wrap > 2 * math.pi - 1e-9 else wrap)
    length = sum(runs) + sum(wrap * pulley.diameter / 2 for wrap, pulley in zip(wraps, pulleys, strict=True))
    return Path(length, tuple(runs), tuple(wraps))


def _signed_radius(pulley: Pulley) -> float:
    return -pulley.diameter / 2 if pulley.back else pulley.diameter / 2


@dataclass(frozen=True, slots=True)
class BeltFit:
    """Whether a belt goes around its pulleys, and what is left to tension it [mm].

    ``centres`` is where the belt is taut; ``travel_left`` what remains of the adjustment beyond it, ``travel_to_fit``
    what can be slackened to lift the belt on.
    """

    fits: bool
    length: float
    centres: float | None
    travel_left: float
    travel_to_fit: float
    teeth_in_mesh: float | None
    text: str
    assumed: tuple[str, ...]
    cautions: tuple[str, ...] = (cautions.BELT, cautions.GENERAL)


def closed_belt(
    one: float,
    other: float,
    length: float,
    centres_min: float,
    centres_max: float,
    small_teeth: int | None = None,
    pitch: float | None = None,
) -> BeltFit:
    """Judge a closed belt of a length around two pulleys whose centre distance can be set between two values.

    ``small_teeth`` of the smaller pulley gives the teeth in mesh; ``pitch`` asks for half a tooth of slack to fit it.

    Raises:
        ValueError: the adjustment is the wrong way round, or the belt cannot go around the pulleys at all.
    """
    if centres_min > centres_max:
        raise ValueError(f"centres_min {centres_min:g} is above centres_max {centres_max:g}")
    centres = centre_distance(one, other, length)
    wrap = wrap_angles(max(one, other), min(one, other), centres)[1]
    mesh = None if small_teeth is None else teeth_in_mesh(small_teeth, wrap)
    fits = centres_min <= centres <= centres_max
    if centres > centres_max:
        text = (
            f"Too long: taut at {centres:.2f} mm between centres, {centres - centres_max:.2f} mm past the adjustment."
        )
    elif centres < centres_min:
        text = (
            f"Too short: taut at {centres:.2f} mm between centres, {centres_min - centres:.2f} mm below the adjustment."
        )
    else:
        text = (
            f"Taut at {centres:.2f} mm between centres; {centres_max - centres:.2f} mm of tension travel left, "
            f"{centres - centres_min:.2f} mm to slacken it for fitting."
        )
        if pitch is not None and centres - centres_min < pitch / 2:
            text += " That is less than half a tooth: the pulleys must be fitted together with the belt."
    if mesh is not None and mesh < LEAST_TEETH_IN_MESH:
        text += f" Only {mesh:.1f} teeth are in mesh; {LEAST_TEETH_IN_MESH} are wanted."
    assumed = ("lengths on the pitch line", "the belt is not stretched")
    return BeltFit(fits, length, centres, centres_max - centres, centres - centres_min, mesh, text, assumed)


@dataclass(frozen=True, slots=True)
class OpenBelt:
    """An open belt on a fixed path with clamped tails: teeth and length needed, and what is left over [mm]."""

    fits: bool
    teeth_needed: int
    length_needed: float
    spare: float | None
    text: str
    assumed: tuple[str, ...]
    cautions: tuple[str, ...] = (cautions.BELT, cautions.GENERAL)


def open_belt(
    path_length: float, pitch: float, clamp_teeth: int, length: float | None = None, tension_travel: float = 0.0
) -> OpenBelt:
    """Judge an open belt for a path between its clamps [mm] with so many teeth clamped at each end.

    ``length`` is the belt at hand, None to learn what to order; ``tension_travel`` is how far the tensioner takes up.

    Raises:
        ValueError: path_length or pitch not above 0, or a negative clamp_teeth.
    """
    if path_length <= 0 or pitch <= 0 or clamp_teeth < 0:
        raise ValueError(
            f"path_length {path_length:g}, pitch {pitch:g}, clamp_teeth {clamp_teeth}: expected e.g. 1200, 2, 6"
        )
    teeth = math.ceil(round(path_length / pitch, 9)) + 2 * clamp_teeth
    needed = teeth * pitch
    spare = None if length is None else length - needed
    fits = spare is None or spare >= 0
    if spare is None:
        text = f"{teeth} teeth, {needed:g} mm, or the next longer piece."
    elif fits:
        text = f"Long enough: {needed:g} mm needed, {spare:g} mm to spare."
    else:
        text = f"Too short by {-spare:g} mm: {needed:g} mm needed with {clamp_teeth} teeth clamped at each end."
    assumed = ["path along the pitch line, half wraps counted as half the pulley's teeth"]
    if tension_travel:
        takes = 2 * tension_travel
        text += f" The tensioner's {tension_travel:g} mm take up {takes:g} mm of belt, {takes / pitch:.1f} teeth."
        assumed.append("the tensioner moves a pulley with half a turn of wrap: it takes up twice its travel")
    return OpenBelt(fits, teeth, needed, spare, text, tuple(assumed))
