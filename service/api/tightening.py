"""``/v1/tightening``: how tight a screw may be done up, what gives first, and what a hand applies.

Figures are rounded down to four digits, lengths that are needed up to a tenth of a millimetre.
"""

import math
from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any, TypeVar

from flask import Blueprint

from reference import materials, threads, workshop
from reference.materials import Material
from reference.quantities import ThreadSize
from schemas.options import LengthOptions
from schemas.tightening import JOINT, TIGHTENING, TIGHTENING_QUERY
from service.api import wire
from service.api.render import Layout, Row, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.cells import cell_text
from service.errors import BadValue
from service.pages.figures import tightening_page
from service.strength.engagement import Engagement
from service.strength.screws import CARRIAGE, PartLimit, Tightening, tighten
from service.verdict.diameters import length
from service.verdict.model import CheckError

blueprint = Blueprint("tightening", __name__)

COLUMNS = (
    "recommended",
    "never_exceed",
    "limited_by",
    "thread",
    "property_class",
    "preload",
    "screw_torque",
    "clamp_force_lower",
    "clamp_force_upper",
    "breaking_torque",
    "gives_first",
    "engagement",
    "holds_preload",
    "rule_met",
    "hand",
    "advice",
    "warnings",
    "assumed",
    "cautions",
    "source",
    "units",
    "reference",
    "error",
)

NUT = frozenset({"nut", "a nut", "mutter", "ecrou", "tuerca", "dado"})
"""Words for a nut of the screw's own class, which holds it at full preload."""

T = TypeVar("T")


# --- the joint that is asked for -------------------------------------------------------------------------------------


def _bad(field: str, value: object, detail: str) -> BadValue:
    about = JOINT.fields[field].metadata
    accepted = str(about.get("x-accepted") or about["description"])
    return BadValue(detail, field=field, value=value, accepted=accepted, example=str(about["example"]))


def _known(given: Mapping[str, str], field: str, look_up: Callable[[str], T]) -> T | None:
    """Return what a field stands for, None where it is not given or empty.

    Raises:
        BadValue: it is not known; names the field.
    """
    value = given.get(field, "").strip()
    if not value:
        return None
    try:
        return look_up(value)
    except ValueError as error:
        raise _bad(field, given[field], str(error)) from None


def _thread(text: str) -> ThreadSize:
    size = threads.parse(text)
    if size is None:
        raise _bad("thread", text, "no thread is designated so")
    if size.pitch is None or size.system not in ("metric", "unified"):
        raise _bad("thread", text, "torques are held for metric and unified threads only")
    return size


def _into(text: str) -> Material | str | None:
    folded = " ".join(text.lower().split())
    if folded in NUT:
        return None
    return folded if folded in CARRIAGE else materials.material(text)


def _length(text: str) -> Decimal:
    try:
        return length(text, "engagement")
    except CheckError as error:
        raise ValueError(f"no length that a thread can have: {error.accepted}") from None


def joint(given: Mapping[str, Any]) -> Tightening:
    """Return how tight the screw of the fields given may be done up.

    Raises:
        BadValue: a field is not understood, or contradicts another.
    """
    size = _known(given, "thread", _thread)
    if size is None:
        raise _bad("thread", given["thread"], "the thread is empty")
    strengths = _known(given, "property_class", lambda text: materials.property_class(text, size.diameter))
    strengths = strengths or materials.property_class("8.8", size.diameter)
    band = _known(given, "friction", workshop.screw_friction)
    treated = _known(given, "lubrication", lambda text: workshop.lubrication_friction(text, strengths.stainless))
    if band and treated:
        raise _bad("lubrication", given["lubrication"], "friction is given already: one of the two")
    band = band or treated
    head = given.get("head", "").strip() or "socket"
    _known({"head": head}, "head", lambda text: workshop.head(text, size.diameter))
    under = _known(given, "head_friction", workshop.screw_friction)
    if under and under.lower != under.upper:
        raise _bad("head_friction", given["head_friction"], "no class is known under the head, only a coefficient")
    engaged = _known(given, "engagement", _length)
    return tighten(
        size,
        strengths.name,
        None if band is None or band.name == "unknown" else band.name,
        head,
        _known(given, "into", _into),
        None if engaged is None else float(engaged),
        _known(given, "clamped", materials.material),
        None if under is None else under.lower,
        bool(given.get("hard_to_replace")),
        bool(given.get("through")),
    )


# --- the reply -------------------------------------------------------------------------------------------------------


def figure(value: float) -> int | float:
    """Return a figure rounded down to four digits: a limit must not grow by rounding.

    >>> figure(24.9296), figure(18634.9), figure(0.0)
    (24.92, 18630, 0)
    """
    if value == 0:
        return 0
    step = Decimal(10) ** (math.floor(math.log10(abs(value))) - 3)
    return wire.number((Decimal(repr(value)) // step * step).normalize())


def _needed(value: float, units: str) -> int | float | None:
    """Return a length that is needed, rounded up to a tenth of a millimetre."""
    return wire.length(Decimal(math.ceil(round(value * 10, 6))) / 10, units)


def _size(value: float, units: str) -> int | float | None:
    return wire.length(Decimal(repr(round(value, 4))), units)


def _engagement(held: Engagement, units: str) -> Wire:
    return {
        "engaged": _size(held.engaged, units),
        "effective": _size(held.effective, units),
        "diameters": figure(held.diameters),
        "gives": held.gives,
        "strip_load": figure(held.strip_load),
        "preload": figure(held.preload),
        "breaking_load": figure(held.breaking_load),
        "margin": figure(held.margin),
        "needed_margin": held.needed_margin,
        "holds_preload": held.holds_preload,
        "screw_breaks_first": held.screw_breaks_first,
        "needed_for_preload": _needed(held.needed_for_preload, units),
        "needed_to_break_screw": _needed(held.needed_to_break_screw, units),
        "rule": {
            "diameters": held.rule.diameters,
            "length": _size(held.rule_length, units),
            "met": held.meets_rule,
            "source": held.rule.source,
        },
        "advice": list(held.advice),
        "source": held.source,
    }


def _limit(limit: PartLimit) -> Wire:
    return {
        "part": limit.part,
        "torque": figure(limit.torque),
        "preload": figure(limit.preload),
        "because": limit.because,
    }


def reply_of(found: Tightening, units: str) -> Wire:
    """Return the answer as it goes over the wire."""
    limits = sorted(found.limits, key=lambda limit: limit.torque)
    hand = found.hand
    lower, upper = found.clamp_force
    return {
        "thread": found.thread,
        "property_class": found.property_class,
        "screw": {"preload": figure(found.screw.preload), "torque": figure(found.screw.torque)},
        "torque": {
            "recommended": figure(found.torque.recommended),
            "never_exceed": figure(found.torque.never_exceed),
            "limited_by": found.torque.limited_by,
        },
        "gives_first": f"{limits[0].part}: {limits[0].because}",
        "limits": [_limit(limit) for limit in limits],
        "clamp_force": {"lower": figure(lower), "upper": figure(upper)},
        "breaking_torque": figure(found.breaking_torque),
        "hand": {
            "tool": hand.tool,
            "lever": None if hand.lever is None else _size(hand.lever, units),
            "gentle": figure(hand.gentle),
            "firm": figure(hand.firm),
            "text": hand.text,
            "source": hand.source,
        },
        "engagement": None if found.engagement is None else _engagement(found.engagement, units),
        "warnings": list(found.warnings),
        "assumed": dict(found.assumed),
        "cautions": list(found.cautions),
        "source": found.source,
    }


def _row(reply: Wire) -> Row:
    held = reply["engagement"] or {"engaged": None, "holds_preload": None, "rule": {"met": None}, "advice": []}
    return [
        *(reply["torque"][name] for name in ("recommended", "never_exceed", "limited_by")),
        reply["thread"],
        reply["property_class"],
        *(reply["screw"][name] for name in ("preload", "torque")),
        *(reply["clamp_force"][name] for name in ("lower", "upper")),
        reply["breaking_torque"],
        reply["gives_first"],
        held["engaged"],
        held["holds_preload"],
        held["rule"]["met"],
        reply["hand"]["text"],
        cell_text(held["advice"]),
        cell_text(reply["warnings"]),
        "; ".join(f"{name}: {text}" for name, text in reply["assumed"].items()),
        cell_text(reply["cautions"]),
        reply["source"],
        reply["units"],
        reply["reference"],
        None,
    ]


LAYOUT = Layout(
    "tightening",
    COLUMNS,
    lambda reply: [_row(reply)],
    lambda reply: cell_text(reply["torque"]["recommended"]),
    page=tightening_page,
)

DESCRIPTION = (
    "Preload and torque of the screw alone at 90 % of its yield, and the torque for this joint: the smallest of screw, "
    "head, drive, the thread that it goes into and the surface under the head. What is not given is assumed, and said. "
    "The plain word is the recommended torque in newton metres."
)


@resource(
    blueprint,
    Resource(
        "/v1/tightening",
        "How tight a screw may be done up",
        TIGHTENING_QUERY,
        TIGHTENING,
        LAYOUT,
        description=DESCRIPTION,
    ),
)
def tightening(query: Wire) -> Answer:
    """Answer a joint given in the query."""
    units = query.get("units", "mm")
    return Answer(with_reference(reply_of(joint(query), units), units))


@resource(
    blueprint,
    Resource(
        "/v1/tightening",
        "How tight a screw may be done up",
        LengthOptions(),
        TIGHTENING,
        LAYOUT,
        method="POST",
        body=JOINT,
        body_types=("application/json",),
        description=f"{DESCRIPTION} The joint is a JSON object with the fields that a query has.",
    ),
)
def tightening_of_body(query: Wire, body: Wire) -> Answer:
    """Answer a joint given as an object."""
    units = query.get("units", "mm")
    return Answer(with_reference(reply_of(joint(body), units), units))
