"""Holes that must line up: floating and fixed fasteners, and whether two hole patterns bolt together.

Position tolerances are diameters of the tolerance zone at maximum material (ASME Y14.5, ISO 5458 and ISO 2692): H is
the smallest clearance hole, F the largest fastener. Lengths are millimetres; patterns are lists of (x, y).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Joint = Literal["floating", "fixed"]
Point = tuple[float, float]

SOURCE = "ASME Y14.5 Appendix B: floating H = F + T, fixed H = F + T1 + T2"


def floating_tolerance(hole_min: float, fastener_max: float) -> float:
    """Return the position tolerance of each of two clearance holes that share a bolt: T = H - F."""
    return hole_min - fastener_max


def fixed_tolerance(hole_min: float, fastener_max: float) -> float:
    """Return the position tolerance of clearance and tapped hole where both get the same: T = (H - F)/2."""
    return (hole_min - fastener_max) / 2


def floating_hole(fastener_max: float, tolerance: float) -> float:
    """Return the smallest clearance hole for a bolt and nut: H = F + T."""
    return fastener_max + tolerance


def fixed_hole(
    fastener_max: float,
    hole_tolerance: float,
    thread_tolerance: float,
    depth: float = 0.0,
    clamped_thickness: float = 0.0,
) -> float:
    """Return the smallest clearance hole over a fixed fastener: H = F + T1 + T2 (1 + 2 P/D).

    With a projected tolerance zone the last factor is 1 (leave depth and clamped_thickness at 0); without one a screw
    that leans in its tapped hole of ``depth`` D leans further over the ``clamped_thickness`` P.
    """
    lean = 1 + 2 * clamped_thickness / depth if depth else 1.0
    return fastener_max + hole_tolerance + thread_tolerance * lean


def virtual_condition(size_at_maximum_material: float, tolerance: float, hole: bool) -> float:
    """Return the boundary that a feature never crosses: a hole's size less its tolerance, a pin's size plus it."""
    return size_at_maximum_material - tolerance if hole else size_at_maximum_material + tolerance


@dataclass(frozen=True, slots=True)
class PatternFit:
    """Whether two patterns bolt together [mm].

    ``offset`` is the largest distance between the holes of a pair after the best shift and turn, ``allowed`` what the
    clearance leaves for it, ``shift`` and ``turn`` [deg] how the second pattern lies best on the first; ``share`` the
    part of all pairs of parts that bolt together (:func:`share_that_bolts`).
    """

    fits: bool
    always_fits: bool
    offset: float
    allowed: float
    allowed_worst: float
    worst_pair: int
    shift: Point
    turn: float
    share: float
    text: str
    assumed: tuple[str, ...]
    source: str = SOURCE


def grid(pitch: float, columns: int, across: float, rows: int) -> tuple[Point, ...]:
    """Return rows of holes along x at a pitch, the rows apart by ``across`` [mm]."""
    return tuple(hole for index in range(rows) for hole in row(pitch, columns, y=index * across))


def circle(diameter: float, count: int) -> tuple[Point, ...]:
    """Return holes evenly on a circle of a diameter [mm], the first on the x axis."""
    angles = (2 * math.pi * index / count for index in range(count))
    return tuple((diameter / 2 * math.cos(angle), diameter / 2 * math.sin(angle)) for angle in angles)


def row(pitch: float, count: int, start: float = 0.0, y: float = 0.0) -> tuple[Point, ...]:
    """Return a row of holes along x from a start at a pitch [mm], as on a rail."""
    return tuple((start + index * pitch, y) for index in range(count))


def pattern_fit(
    one: Sequence[Point],
    other: Sequence[Point],
    hole_min: float,
    fastener_max: float,
    joint: Joint = "fixed",
    other_hole_min: float | None = None,
    tolerance_one: float = 0.0,
    tolerance_other: float = 0.0,
    may_turn: bool = True,
) -> PatternFit:
    """Return whether two patterns of as many holes bolt together, hole by hole in the order given.

    Args:
        one: centres of the clearance holes [mm].
        other: centres of the tapped holes (fixed) or of the other clearance holes (floating) [mm].
        hole_min: smallest clearance hole.
        fastener_max: largest fastener.
        joint: "fixed" screws into the other part, "floating" passes bolts through both.
        other_hole_min: smallest hole of the other part of a floating joint; the same where it is None.
        tolerance_one: position tolerance of the first pattern, diameter of the zone.
        tolerance_other: position tolerance of the second.
        may_turn: the parts may be turned against each other, not only shifted.

    Raises:
        ValueError: the patterns have no hole, or not the same number.
    """
    if not one or len(one) != len(other):
        raise ValueError(
            f"hole pattern: {len(one)} holes against {len(other)}; both parts need the same number, at least 1"
        )
    play = hole_min - fastener_max
    if joint == "floating":
        play += (hole_min if other_hole_min is None else other_hole_min) - fastener_max
    allowed = play / 2
    allowed_worst = allowed - (tolerance_one + tolerance_other) / 2
    turn = _best_turn(one, other) if may_turn and len(one) > 1 else 0.0
    moved = _turned(other, turn)
    differences = [(a[0] - b[0], a[1] - b[1]) for a, b in zip(one, moved, strict=True)]
    centre, radius = _smallest_circle(differences)
    distances = [math.dist(difference, centre) for difference in differences]
    worst = max(range(len(distances)), key=distances.__getitem__)
    fits, always = radius <= allowed + 1e-9, radius <= allowed_worst + 1e-9
    reading = "bolts up" if always else ("may bolt up" if fits else "does not bolt up")
    text = (
        f"The pattern {reading}: hole {worst + 1} is off by {radius:.3f} mm at best, allowed are {allowed:.3f} mm"
        + (
            f", {max(allowed_worst, 0):.3f} mm with both position tolerances used up."
            if allowed_worst < allowed
            else "."
        )
    )
    assumed = ("holes paired in the order given", "smallest holes and largest fasteners")
    share = 1.0 if always else share_that_bolts(distances, allowed, tolerance_one, tolerance_other)
    angle = math.degrees(turn)
    return PatternFit(fits, always, radius, allowed, allowed_worst, worst, centre, angle, share, text, assumed)


def share_that_bolts(
    distances: Sequence[float], allowed: float, tolerance_one: float = 0.0, tolerance_other: float = 0.0
) -> float:
    """Return the share of pairs of parts in which every hole lies within what the clearance allows [mm].

    Each hole of each part lies normal about its place, in x and in y, its position tolerance six standard deviations
    wide; that the parts are shifted to favour what came out is not reckoned with, so the share is on the low side.

    >>> round(share_that_bolts([0.0], 0.3, 0.6), 4)
    0.9889
    """
    deviation = math.hypot(tolerance_one, tolerance_other) / 6
    if deviation == 0:
        return float(all(distance <= allowed + 1e-9 for distance in distances))
    return math.prod(_share_in_circle(distance, allowed, deviation) for distance in distances)


def _share_in_circle(distance: float, radius: float, deviation: float, steps: int = 400) -> float:
    """Return how much of a round normal distribution, its mean at a distance, lies in a circle (Simpson's rule)."""
    if radius <= 0:
        return 0.0
    width = 2 * radius / steps
    total = 0.0
    for index in range(1, steps):  # the ends of the chord carry nothing
        x = -radius + index * width
        chord = math.erf(math.sqrt(radius**2 - x**2) / (deviation * math.sqrt(2)))
        density = math.exp(-(((x - distance) / deviation) ** 2) / 2) / (deviation * math.sqrt(2 * math.pi))
        total += (4 if index % 2 else 2) * density * chord
    return min(total * width / 3, 1.0)


def _turned(points: Sequence[Point], angle: float) -> list[Point]:
    """Return the points turned about their centre of gravity."""
    middle = (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
    cos, sin = math.cos(angle), math.sin(angle)
    return [
        (
            middle[0] + cos * (x - middle[0]) - sin * (y - middle[1]),
            middle[1] + sin * (x - middle[0]) + cos * (y - middle[1]),
        )
        for x, y in points
    ]


def _best_turn(one: Sequence[Point], other: Sequence[Point]) -> float:
    """Return the turn [rad] that brings the second pattern nearest, worst hole first.

    The least-squares turn is exact for patterns that match; a golden section about it serves the worst hole.
    """
    middle_one = (sum(x for x, _ in one) / len(one), sum(y for _, y in one) / len(one))
    middle_other = (sum(x for x, _ in other) / len(other), sum(y for _, y in other) / len(other))
    cross = dot = 0.0
    for (ax, ay), (bx, by) in zip(one, other, strict=True):
        ax, ay, bx, by = ax - middle_one[0], ay - middle_one[1], bx - middle_other[0], by - middle_other[1]
        cross += bx * ay - by * ax
        dot += bx * ax + by * ay
    least_squares = math.atan2(cross, dot)

    def radius(angle: float) -> float:
        moved = _turned(other, angle)
        return _smallest_circle([(a[0] - b[0], a[1] - b[1]) for a, b in zip(one, moved, strict=True)])[1]

    low, high = least_squares - math.radians(2), least_squares + math.radians(2)
    golden = (math.sqrt(5) - 1) / 2
    for _ in range(60):
        left, right = high - golden * (high - low), low + golden * (high - low)
        if radius(left) <= radius(right):
            high = right
        else:
            low = left
    best = (low + high) / 2
    return best if radius(best) < radius(least_squares) else least_squares


def _smallest_circle(points: Sequence[Point]) -> tuple[Point, float]:
    """Return centre and radius of the smallest circle around the points (incremental, exact for few points)."""
    centre, radius = points[0], 0.0

    def outside(point: Point) -> bool:
        return math.dist(point, centre) > radius + 1e-12

    for i, first in enumerate(points):
        if not outside(first):
            continue
        centre, radius = first, 0.0
        for j, second in enumerate(points[:i]):
            if not outside(second):
                continue
            centre, radius = _circle_of(first, second)
            for third in points[:j]:
                if outside(third):
                    centre, radius = _circle_of(first, second, third)
    return centre, radius


def _circle_of(a: Point, b: Point, c: Point | None = None) -> tuple[Point, float]:
    """Return the circle on two points as a diameter, or through three."""
    if c is None:
        return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), math.dist(a, b) / 2
    bx, by, cx, cy = b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]
    twice_area = 2 * (bx * cy - by * cx)
    if abs(twice_area) < 1e-18:
        return max((_circle_of(p, q) for p, q in ((a, b), (a, c), (b, c))), key=lambda circle: circle[1])
    x = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / twice_area
    y = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / twice_area
    return (a[0] + x, a[1] + y), math.hypot(x, y)
