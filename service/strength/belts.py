"""Belt paths: the length around pulleys, the centre distance for a belt, the path of an open belt between clamps.

All lengths are millimetres on the pitch line of the belt; a toothed pulley's pitch diameter is z p / pi. Sources:
geometry; the approximate open-belt formula stands in every handbook. Which belts exist belongs to ``reference``.

>>> round(open_belt_length(toothed_diameter(60, 2), toothed_diameter(20, 2), 80), 3)
242.031
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

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
    """A belt's path: its length, the straight runs, and the wrap on each pulley [rad]."""

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
    legs = [_leg(start, end) for start, end in zip(pulleys, (*pulleys[1:], pulleys[0]), strict=True)]
    turns = [leg[1] - legs[index - 1][1] for index, leg in enumerate(legs)]
    return _path(legs, turns, pulleys)


def open_path(points: Sequence[Pulley]) -> Path:
    """Return the path of a belt from one clamp over pulleys to another clamp; a clamp is a pulley of diameter 0.

    Raises:
        ValueError: fewer than two points, or two neighbours that overlap.
    """
    if len(points) < 2:
        raise ValueError("belt path: at least two clamps are needed")
    legs = [_leg(start, end) for start, end in pairwise(points)]
    turns = [after[1] - before[1] for before, after in pairwise(legs)]
    return _path(legs, turns, points[1:-1])


def _path(legs: Sequence[tuple[float, float]], turns: Sequence[float], pulleys: Sequence[Pulley]) -> Path:
    """Return the path of straight runs and of the turns on the pulleys between them."""
    wraps = tuple(_wrap(turn, pulley) for turn, pulley in zip(turns, pulleys, strict=True))
    runs = tuple(run for run, _ in legs)
    arcs = sum(wrap * pulley.diameter / 2 for wrap, pulley in zip(wraps, pulleys, strict=True))
    return Path(sum(runs) + arcs, runs, wraps)


def _leg(start: Pulley, end: Pulley) -> tuple[float, float]:
    """Return length and direction of the straight run between two pulleys."""
    distance = math.hypot(end.x - start.x, end.y - start.y)
    offset = _signed_radius(end) - _signed_radius(start)
    if abs(offset) >= distance:
        raise ValueError(f"belt path: the pulleys at ({start.x:g}, {start.y:g}) and ({end.x:g}, {end.y:g}) overlap")
    direction = math.atan2(end.y - start.y, end.x - start.x) - math.asin(offset / distance)
    return math.sqrt(distance**2 - offset**2), direction


def _wrap(turn: float, pulley: Pulley) -> float:
    """Return the angle of wrap on a pulley from the turn of the belt's direction, 0 where it is a full turn."""
    wrap = (-turn if pulley.back else turn) % (2 * math.pi)
    return 0.0 if wrap > 2 * math.pi - 1e-9 else wrap


def _signed_radius(pulley: Pulley) -> float:
    return -pulley.diameter / 2 if pulley.back else pulley.diameter / 2
