"""What a measurement proves: the decision rule of ISO 14253-1 for the one who buys, and the instruments of a workshop.

Uncertainty works against the one who wants to prove something. Lengths are exact decimals in millimetres.

>>> decide(Decimal("4.982"), Decimal("5.000"), [Decimal("4.99"), Decimal("4.985")], Decimal("0.03")).decision
'not provable'
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from statistics import NormalDist
from typing import Literal

Decision = Literal["conforming", "not conforming", "not provable"]

SOURCE = "ISO 14253-1: conformity is proved inside the limits by more than U, nonconformity outside by more than U"


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece: its value, how far inside the nearer limit it lies (negative: outside), and what that proves."""

    measured: Decimal
    inside: Decimal
    decision: Decision


@dataclass(frozen=True, slots=True)
class MeasuredDecision:
    """What the measured pieces prove [mm].

    ``acceptance`` is the zone in which a reading proves conformity, None where the uncertainty leaves no such zone;
    ``needed_uncertainty`` is the U that the instrument would have to stay below to prove every piece that is inside,
    None where a reading lies on or outside a limit; ``ratio`` is the tolerance over 2 U.
    """

    decision: Decision
    pieces: tuple[Piece, ...]
    worst: Piece
    acceptance: tuple[Decimal | None, Decimal | None] | None
    needed_uncertainty: Decimal | None
    ratio: Decimal | None
    text: str
    assumed: tuple[str, ...] = ("uncertainty is expanded, k = 2", "the buyer proves")
    source: str = SOURCE


def decide(
    lower: Decimal | None, upper: Decimal | None, measured: Sequence[Decimal], uncertainty: Decimal
) -> MeasuredDecision:
    """Decide whether measured pieces conform to limits, for an expanded uncertainty of the measurement [mm].

    Conforming only if every piece is inside by more than the uncertainty; not conforming if one is outside by more.

    Raises:
        ValueError: nothing measured, no limit, limits the wrong way round, or a negative uncertainty.
    """
    if not measured:
        raise ValueError("measured [] holds no piece; accepted is at least one value, for example [4.99]")
    if lower is None and upper is None:
        raise ValueError('limits name neither lower nor upper, for example {"lower": 4.982, "upper": 5.0}')
    if lower is not None and upper is not None and lower > upper:
        raise ValueError(f"limits lower {lower} is above upper {upper}; accepted is lower 4.982, upper 5.0")
    if uncertainty < 0:
        raise ValueError(f"uncertainty {uncertainty} is negative; accepted is for example 0.03")
    pieces = tuple(_piece(value, lower, upper, uncertainty) for value in measured)
    worst = min(pieces, key=lambda piece: piece.inside)
    if worst.decision == "not conforming":
        decision: Decision = "not conforming"
    elif all(piece.decision == "conforming" for piece in pieces):
        decision = "conforming"
    else:
        decision = "not provable"
    zone = (None if lower is None else lower + uncertainty, None if upper is None else upper - uncertainty)
    width = None if lower is None or upper is None else upper - lower
    has_zone = width is None or width > 2 * uncertainty
    return MeasuredDecision(
        decision=decision,
        pieces=pieces,
        worst=worst,
        acceptance=zone if has_zone else None,
        needed_uncertainty=worst.inside if worst.inside > 0 else None,
        ratio=None if width is None or not uncertainty else round(width / (2 * uncertainty), 3),
        text=_text(decision, worst, uncertainty, has_zone),
    )


def _piece(value: Decimal, lower: Decimal | None, upper: Decimal | None, uncertainty: Decimal) -> Piece:
    below, above = (None if lower is None else value - lower), (None if upper is None else upper - value)
    inside = min(distance for distance in (below, above) if distance is not None)
    if inside > uncertainty:
        return Piece(value, inside, "conforming")
    return Piece(value, inside, "not conforming" if -inside > uncertainty else "not provable")


def _text(decision: Decision, worst: Piece, uncertainty: Decimal, has_zone: bool) -> str:
    if decision == "conforming":
        return f"Every piece is inside the limits by more than the uncertainty of {uncertainty} mm."
    if decision == "not conforming":
        return f"The piece at {worst.measured} mm is outside by {-worst.inside} mm, more than the uncertainty."
    if not has_zone:
        return f"With an uncertainty of {uncertainty} mm no reading can prove conformity: the tolerance is too narrow."
    side = "inside" if worst.inside >= 0 else "outside"
    return (
        f"The piece at {worst.measured} mm is {side} by {abs(worst.inside)} mm, not by more than the uncertainty of "
        f"{uncertainty} mm: undecided, neither a pass nor a fail."
    )


def guard_band_2017(uncertainty: Decimal) -> Decimal:
    """Return the guard band for 95 % conformity [mm]: 1.65 u, with U = 2 u (ISO 14253-1:2017, from memory)."""
    return uncertainty * Decimal("0.825")


def expanded_uncertainty(error_limit: float, repeatability: float, resolution: float) -> float:
    """Return the expanded uncertainty (k = 2) of a small budget [mm].

    The limit of error and the resolution are taken as uniform, the repeatability as a standard deviation (GUM).
    """
    return 2 * math.sqrt(error_limit**2 / 3 + repeatability**2 + resolution**2 / 12)


def small_hole_reading(diameter: float, nib_width: float) -> float:
    """Return what flat calliper nibs read in a hole [mm]: the chord that their width leaves, which is too small."""
    return math.sqrt(diameter**2 - nib_width**2)


def conformance_probability(
    measured: float, lower: float | None, upper: float | None, standard_uncertainty: float
) -> float:
    """Return the probability that a piece lies within its limits, given a reading and its standard uncertainty.

    ``lower`` or ``upper`` may be None for a one-sided limit. Source: JCGM 106:2012, normal, nothing known beforehand.
    """
    low = 0.0 if lower is None else NormalDist(measured, standard_uncertainty).cdf(lower)
    high = 1.0 if upper is None else NormalDist(measured, standard_uncertainty).cdf(upper)
    return high - low
