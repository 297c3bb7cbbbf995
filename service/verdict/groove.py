"""Judges retaining rings and O-rings against the groove that is turned for them.

A retaining ring is made for one shaft or bore, and its standard gives the groove; an O-ring is judged by squeeze,
stretch and fill (``service.strength.seals``).
"""

import math
import re
from decimal import Decimal
from functools import lru_cache
from typing import Literal

from reference.quantities import Limits
from reference.units import tidy
from service.reading.model import Reading
from service.strength.seals import SealFit, seal_fit, share_squeezed
from service.verdict.combine import worst
from service.verdict.diameters import between, diameter
from service.verdict.fields import Fields, at, known, required
from service.verdict.model import CheckError, Finding, FitWanted, GrooveMate, JudgedReading
from service.verdict.pairs import CHANCE, mean_and_deviation, percent, share_between, to_four_decimals

_FORMS = "diameter of the floor, width, on shaft or in bore with its size; for an O-ring what it seals against"
_EXAMPLE = "9.6 h11 width 1.1 H13 on shaft 10, or 6.4 h9 width 2.4 on shaft against bore 9 H8"
_GROOVE = re.compile(
    r"(?P<floor>.+?)(?:\s+width\s+(?P<width>.+?))?\s+(?P<on>on shaft|in bore)"
    r"(?:\s+(?P<size>(?!against|static|moving).+?))?"
    r"(?:\s+against\s+(?:bore|shaft)\s+(?P<against>.+?))?(?:\s+(?P<service>static|moving))?",
    re.IGNORECASE,
)
_RINGS = {
    "external retaining ring": "shaft_size",
    "internal retaining ring": "hole_diameter",
    "E-ring": "groove_diameter",
}
_ON = {"external retaining ring": "shaft", "internal retaining ring": "bore", "E-ring": "shaft"}
_FLOOR: dict[str, Literal["hole", "shaft"]] = {"shaft": "shaft", "bore": "hole"}


def from_text(text: str, field: str) -> GrooveMate:
    """Return the groove of a short form: ``9.6 h11 width 1.1 H13 on shaft 10``.

    Raises:
        CheckError: a part of it is not understood.
    """
    match = _GROOVE.fullmatch(text)
    if match is None:
        raise CheckError(field, text, _FORMS, _EXAMPLE)
    found = {name: match[name] for name in ("width", "size", "against", "service")}
    return from_fields({"diameter": match["floor"], "on": match["on"].lower().split()[1], **found}, field)


def from_fields(given: Fields, field: str) -> GrooveMate:
    """Return the groove of an object: ``on``, ``diameter`` of its floor, ``width``, ``size``, ``against``, ``service``.

    Raises:
        CheckError: a part of it is missing or not understood.
    """
    known(given, ("on", "diameter", "width", "size", "against", "service"), field)
    on = required(given, "on", field, "shaft")
    if on not in ("shaft", "bore"):
        raise CheckError(at(field, "on"), on, "shaft or bore", "shaft")
    service = given.get("service") or "static"
    if isinstance(service, str):
        service = service.lower()
    if service not in ("static", "moving"):
        raise CheckError(at(field, "service"), service, "static or moving", "static")
    place = _FLOOR[on]
    other: Literal["hole", "shaft"] = "hole" if place == "shaft" else "shaft"
    floor = diameter(required(given, "diameter", field, "9.6 h11"), place, at(field, "diameter"))
    kinds = {"width": "hole", "size": place, "against": other}
    found = {
        name: diameter(given[name], kind, at(field, name)).limits
        for name, kind in kinds.items()
        if given.get(name) is not None
    }
    size = found.get("size")
    text = f"groove {floor.text} in the {on}{f' {size.nominal}' if size else ''}"
    return GrooveMate(
        text,
        on,
        floor.limits,
        found.get("width"),
        size,
        found.get("against"),
        service,
    )


def judge(reading: Reading, mate: GrooveMate, fit: FitWanted | None) -> JudgedReading:
    """Judge whether the ring is the one that the groove is made for."""
    if reading.family == "O-ring":
        findings = _seal(reading, mate)
    elif reading.family in _RINGS:
        findings = _ring(reading, mate)
    else:
        text = f"a {reading.family} is no ring that lies in a groove"
        findings = (Finding("wrong-kind", "wrong", text, {}, "common practice"),)
    shares = [one.numbers["share"] for one in findings if "share" in one.numbers]
    return JudgedReading(reading, worst(findings), None, findings, min((Decimal(one) for one in shares), default=None))


# --- retaining rings -------------------------------------------------------------------------------------------------


def _ring(reading: Reading, mate: GrooveMate) -> tuple[Finding, ...]:
    dimensions = reading.dimensions
    source = reading.standards[0] if reading.standards else "common practice"
    name = _RINGS[reading.family]
    if _ON[reading.family] != mate.on:
        text = f"an {reading.family} lies in a groove of a {_ON[reading.family]}, not of a {mate.on}"
        return (Finding("wrong-kind", "wrong", text, {}, source),)
    size = dimensions.get(name)
    if not isinstance(size, Limits):
        text = f"the line does not say the {name.replace('_', ' ')} of the {reading.family}"
        return (Finding("dimension-missing", "open", text, {}, "the line"),)
    findings = [*_for_size(reading, size, mate, source)]
    floor, thick, wide = (dimensions.get(key) for key in ("groove_diameter", "thickness", "groove_width"))
    if isinstance(floor, Limits):
        findings.append(_floor(floor, mate, source))
    if isinstance(thick, Limits) and mate.width is not None:
        findings.append(_width(thick, wide if isinstance(wide, Limits) else None, mate.width, source))
    return tuple(findings)


def _for_size(reading: Reading, size: Limits, mate: GrooveMate, source: str) -> tuple[Finding, ...]:
    """Compare the shaft or bore that the ring is made for with the one there is."""
    if mate.size is None:
        return ()
    low, high = (reading.dimensions.get(key) for key in ("shaft_size_lower", "shaft_size_upper"))
    if isinstance(low, Limits) and isinstance(high, Limits):
        size = Limits(size.nominal, low.nominal, high.nominal)
    elif reading.family == "E-ring":
        return ()
    numbers: dict[str, Decimal | str] = {"made_for": size.nominal, "size": mate.size.nominal}
    text = f"the ring is made for a {mate.on} of {between(size)} mm, this one is {mate.size.nominal} mm"
    if size.low <= mate.size.nominal <= size.high:
        return (Finding("size-matches", "fits", text, numbers, source),)
    return (Finding("wrong-size", "wrong", text, numbers, source),)


def _floor(wanted: Limits, mate: GrooveMate, source: str) -> Finding:
    """Compare the floor of the groove with the standard's."""
    floor = mate.diameter
    numbers: dict[str, Decimal | str] = {"floor_lower": wanted.low, "floor_upper": wanted.high}
    text = f"the standard's groove is {between(wanted)} mm across its floor, this one {between(floor)} mm"
    if wanted.low <= floor.low and floor.high <= wanted.high:
        return Finding("floor-as-standard", "fits", text, numbers, source)
    if floor.high < wanted.low or wanted.high < floor.low:
        shallow = (floor.low > wanted.high) == (mate.on == "shaft")
        says = "too shallow: the ring does not seat" if shallow else "too deep: the ring lies loose"
        return Finding("floor-differs", "wrong", f"{text}: {says}", numbers, source)
    share = share_between(float(wanted.low), float(wanted.high), *mean_and_deviation(floor))
    text += f": {percent(share)} of such grooves are within it ({CHANCE})"
    return Finding("floor-partly-outside", "marginal", text, {**numbers, "share": share}, source)


def _width(thick: Limits, wanted: Limits | None, width: Limits, source: str) -> Finding:
    """Compare the width of the groove with the thickness of the ring and the standard's least width."""
    play = tidy(width.low - thick.high)
    numbers: dict[str, Decimal | str] = {"thickness": thick.nominal, "play": play}
    text = f"a ring {between(thick)} mm thick in a groove {between(width)} mm wide"
    if width.high < thick.low:
        return Finding("ring-too-thick", "wrong", f"{text} does not go in", numbers, source)
    if play < 0 or (wanted is not None and width.low < wanted.low):
        least = f"; the standard wants {wanted.low} mm" if wanted is not None else ""
        (wide, of_width), (ring, of_ring) = mean_and_deviation(width), mean_and_deviation(thick)
        share = share_between(0.0, math.inf, wide - ring, math.hypot(of_width, of_ring))
        text += f" may not go in{least}; {percent(share)} of pairs go together ({CHANCE})"
        return Finding("groove-narrow", "marginal", text, {**numbers, "share": share}, source)
    return Finding("ring-goes-in", "fits", f"{text} has at least {play} mm of play", numbers, source)


# --- O-rings ---------------------------------------------------------------------------------------------------------


def _seal(reading: Reading, mate: GrooveMate) -> tuple[Finding, ...]:
    inner, section = (reading.dimensions.get(name) for name in ("bore", "cross_section"))
    if not isinstance(inner, Limits) or not isinstance(section, Limits):
        text = "the line does not say the inside diameter and the cross-section of the O-ring"
        return (Finding("dimension-missing", "open", text, {}, "the line"),)
    if mate.against is None:
        text = "what the O-ring seals against is not stated: the bore around the shaft, or the shaft in the bore"
        return (Finding("counterpart-missing", "open", text, {}, "the check"),)
    return _squeezed(inner, section, mate)


@lru_cache(maxsize=1024)
def _squeezed(inner: Limits, section: Limits, mate: GrooveMate) -> tuple[Finding, ...]:
    """Judge squeeze, stretch and fill of an O-ring in its gland."""
    assert mate.against is not None  # noqa: S101 - the caller has looked
    outside, inside = (mate.against, mate.diameter) if mate.on == "shaft" else (mate.diameter, mate.against)
    depth = Limits(
        (outside.nominal - inside.nominal) / 2, (outside.low - inside.high) / 2, (outside.high - inside.low) / 2
    )
    if depth.low <= 0:
        text = f"{mate.text}: no depth is left for a ring against {between(mate.against)} mm"
        return (Finding("no-gland", "wrong", text, {"gland_depth": tidy(depth.low)}, "difference of the diameters"),)
    seat = mate.diameter if mate.on == "shaft" else mate.against
    fit = seal_fit(inner, section, seat, depth, mate.width, mate.service)
    numbers = _shares(fit)
    numbers["gland_depth"] = tidy(depth.nominal)
    text = (
        f"an O-ring {between(inner)} x {between(section)} in a gland {between(_tidy(depth))} mm deep:"
        f" squeezed {fit.squeeze[0]:.0%} to {fit.squeeze[1]:.0%},"
        f" stretched {fit.stretch[0]:.0%} to {fit.stretch[1]:.0%}"
    )
    if fit.fill is not None:
        text += f", the groove up to {fit.fill[1]:.0%} full"
    text += "".join(f"; {finding}" for finding in fit.findings)
    if not fit.seals:
        return (Finding("does-not-seal", "wrong", text, numbers, fit.source),)
    if fit.findings:
        of_depth = math.hypot(float(outside.width), float(inside.width)) / 2
        share = to_four_decimals(share_squeezed(inner, section, seat, depth, of_depth, mate.service))
        numbers["share"] = share
        text += f"; {percent(share)} are squeezed within the usual band ({CHANCE})"
        return (Finding("seal-outside-the-usual", "marginal", text, numbers, fit.source),)
    return (Finding("seals", "fits", text, numbers, fit.source),)


def _shares(fit: SealFit) -> dict[str, Decimal | str]:
    shares = {
        "squeeze_lower": fit.squeeze[0],
        "squeeze_upper": fit.squeeze[1],
        "stretch_lower": fit.stretch[0],
        "stretch_upper": fit.stretch[1],
    }
    if fit.fill is not None:
        shares["fill_upper"] = fit.fill[1]
    return {name: Decimal(f"{share:.4f}") for name, share in shares.items()}


def _tidy(limits: Limits) -> Limits:
    return Limits(tidy(limits.nominal), tidy(limits.low), tidy(limits.high))
