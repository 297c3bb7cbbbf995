"""Stacks of several parts: worst case, and root sum square where that is justified; grips and shims.

Exact decimals in millimetres. Root sum square holds only for at least four similar, independent, centred parts; for a
machine that is built once the worst case decides, and the root sum square stands beside it.

>>> sheet = Link(Limits(Decimal(3), Decimal("2.9"), Decimal("3.1")))
>>> stack([sheet, sheet]).worst
(Decimal('5.8'), Decimal('6.2'))
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from reference.quantities import Limits

LEAST_PARTS = 4
"""Below this number of parts a root sum square is no fair estimate; common practice."""


@dataclass(frozen=True, slots=True)
class Link:
    """One part of a stack: its limits, and whether it adds to the sum (1) or takes from it (-1)."""

    limits: Limits
    sign: int = 1


@dataclass(frozen=True, slots=True)
class Stack:
    """The sum of a stack [mm]: middle, worst case and root sum square as (lower, upper)."""

    middle: Decimal
    worst: tuple[Decimal, Decimal]
    root_sum_square: tuple[Decimal, Decimal]
    worst_tolerance: Decimal
    root_sum_square_tolerance: Decimal
    root_sum_square_fair: bool
    assumed: tuple[str, ...]
    source: str = "worst case: tolerances add; root sum square: their squares add"


def stack(links: Sequence[Link]) -> Stack:
    """Return the sum of a chain of dimensions, worst case and root sum square.

    Raises:
        ValueError: no link, or a sign that is neither 1 nor -1.
    """
    if not links or any(link.sign not in (1, -1) for link in links):
        raise ValueError("stack needs at least one part, each with sign 1 (adds) or -1 (takes away)")
    middle = sum((link.sign * (link.limits.low + link.limits.high) / 2 for link in links), Decimal(0))
    half = [link.limits.width / 2 for link in links]
    worst = sum(half, Decimal(0))
    square = sum((width * width for width in half), Decimal(0)).sqrt().quantize(Decimal("0.00001"))
    fair = len(links) >= LEAST_PARTS
    assumed = ["root sum square: independent, centred, normal parts with tolerances of six standard deviations"]
    if not fair:
        assumed.append(f"fewer than {LEAST_PARTS} parts: go by the worst case")
    return Stack(
        middle=middle,
        worst=(middle - worst, middle + worst),
        root_sum_square=(middle - square, middle + square),
        worst_tolerance=worst,
        root_sum_square_tolerance=square,
        root_sum_square_fair=fair,
        assumed=tuple(assumed),
    )


def share_below(sum_of: Stack, value: Decimal) -> float:
    """Return the share of stacks that come out below a value, normal with the root sum square as three deviations."""
    deviation = float(sum_of.root_sum_square_tolerance) / 3
    if deviation == 0:
        return float(sum_of.middle < value)
    return 0.5 * math.erfc((float(sum_of.middle) - float(value)) / (deviation * math.sqrt(2)))


@dataclass(frozen=True, slots=True)
class Shim:
    """The shims that close a gap [mm]: the thinnest and the thickest that may be needed."""

    thinnest: Decimal
    thickest: Decimal
    text: str


def shim_for(gap: Stack, preload: Decimal = Decimal(0)) -> Shim | None:
    """Return the range of shims that fills a gap and squeezes it by a preload [mm]; None where no gap is left."""
    thinnest, thickest = gap.worst[0] + preload, gap.worst[1] + preload
    if thickest <= 0:
        return None
    thinnest = max(thinnest, Decimal(0))
    return Shim(thinnest, thickest, f"shims from {thinnest} to {thickest} mm in all, chosen by measuring the gap")
