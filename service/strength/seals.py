"""O-rings in their grooves: squeeze, stretch and how full the groove is, over the limits of ring and groove.

Lengths are millimetres, shares from 0 to 1. Sources: sealing makers' handbooks (squeeze, stretch up to 5 %, fill up to
85 %); the bands are common practice and the ring maker's own come first.
"""

import math
from dataclasses import dataclass
from typing import Literal

from reference.quantities import Limits
from service.strength.chance import normal_share

Service = Literal["static", "moving"]

SQUEEZE = {"static": (0.10, 0.30), "moving": (0.08, 0.20)}
"""Least and greatest squeeze; common practice, makers print 15 to 30 % static and 8 to 20 % moving."""

MOST_STRETCH = 0.05
"""Greatest lasting stretch of the bore of a ring: 5 % (Parker, via gallagherseals.com)."""

MOST_FILL = 0.85
"""Greatest share of the groove that the ring may fill; common practice, leaves room for swelling and heat."""


def squeeze(cross_section: float, gland_depth: float) -> float:
    """Return the squeeze of a ring, (section - depth)/section; the depth runs from groove floor to mating face."""
    return (cross_section - gland_depth) / cross_section


def stretch(inner_diameter: float, seat_diameter: float) -> float:
    """Return the stretch of a ring's bore on its seat, (seat - bore)/bore; negative where it lies loose."""
    return (seat_diameter - inner_diameter) / inner_diameter


def stretched_section(cross_section: float, stretch_share: float) -> float:
    """Return the cross section of a stretched ring: rubber keeps its volume, so it thins by 1/sqrt(1 + stretch)."""
    return cross_section / math.sqrt(1 + max(stretch_share, 0.0))


def gland_fill(cross_section: float, gland_depth: float, gland_width: float) -> float:
    """Return the share of the groove's section that the ring fills."""
    return math.pi / 4 * cross_section**2 / (gland_depth * gland_width)


@dataclass(frozen=True, slots=True)
class SealFit:
    """A ring in its groove, from the slackest to the tightest pair of limits; what is wrong stands in ``findings``."""

    squeeze: tuple[float, float]
    stretch: tuple[float, float]
    fill: tuple[float, float] | None
    seals: bool
    findings: tuple[str, ...]
    assumed: tuple[str, ...]
    source: str = "sealing makers' handbooks; bands common practice"


def seal_fit(
    inner_diameter: Limits,
    cross_section: Limits,
    seat: Limits,
    gland_depth: Limits,
    gland_width: Limits | None = None,
    service: Service = "static",
) -> SealFit:
    """Judge an O-ring on a seat (groove floor or rod) in a gland of a depth and width.

    Raises:
        ValueError: a diameter or depth is not above 0.
    """
    for name, limits in (
        ("inner_diameter", inner_diameter),
        ("cross_section", cross_section),
        ("gland_depth", gland_depth),
    ):
        if limits.low <= 0:
            raise ValueError(f"{name} {limits.low} must be above 0 mm, for example 2")
    least_stretch = stretch(float(inner_diameter.high), float(seat.low))
    most_stretch = stretch(float(inner_diameter.low), float(seat.high))
    thinnest = stretched_section(float(cross_section.low), most_stretch)
    thickest = stretched_section(float(cross_section.high), least_stretch)
    squeezes = squeeze(thinnest, float(gland_depth.high)), squeeze(thickest, float(gland_depth.low))
    fills = None
    if gland_width is not None:
        fills = (
            gland_fill(thinnest, float(gland_depth.high), float(gland_width.high)),
            gland_fill(thickest, float(gland_depth.low), float(gland_width.low)),
        )
    low, high = SQUEEZE[service]
    findings = []
    if squeezes[0] < low:
        findings.append(f"squeeze as little as {squeezes[0]:.1%}: {low:.0%} is wanted, it may leak")
    if squeezes[1] > high:
        findings.append(f"squeeze up to {squeezes[1]:.1%}: above {high:.0%} it is hard to assemble and takes a set")
    if most_stretch > MOST_STRETCH:
        findings.append(f"stretched by up to {most_stretch:.1%}: above {MOST_STRETCH:.0%} it thins and ages early")
    if least_stretch < 0:
        findings.append(f"the ring may lie loose by {-least_stretch:.1%} on its seat and be pinched on assembly")
    if fills is not None and fills[1] > MOST_FILL:
        findings.append(f"the groove is up to {fills[1]:.0%} full: above {MOST_FILL:.0%} a swollen ring has no room")
    assumed = (f"{service} seal", "the ring thins as it stretches, its volume constant", "no swelling, no eccentricity")
    return SealFit(squeezes, (least_stretch, most_stretch), fills, squeezes[0] > 0, tuple(findings), assumed)


def share_squeezed(
    inner_diameter: Limits,
    cross_section: Limits,
    seat: Limits,
    gland_depth: Limits,
    depth_tolerance: float,
    service: Service = "static",
) -> float:
    """Return the share of rings whose squeeze lies within the band of its service.

    Section and depth lie normal about the middle of their tolerances, six standard deviations wide; ``depth_tolerance``
    is that of the depth by chance [mm], less than the worst case. To first order about the mean.
    """
    stretched = stretch(_middle(inner_diameter), _middle(seat))
    section, depth = stretched_section(_middle(cross_section), stretched), _middle(gland_depth)
    mean = squeeze(section, depth)
    deviation = math.hypot(depth_tolerance / section, float(cross_section.width) * depth / section**2) / 6
    low, high = SQUEEZE[service]
    return float(low <= mean <= high) if deviation == 0 else normal_share(low, high, mean, deviation)


def _middle(limits: Limits) -> float:
    return float(limits.low + limits.high) / 2
