"""Plain values of the service to the plain dicts that replies are made of.

Lengths leave as the shortest numbers that stand for the exact decimals (8, 8.006), or in inches to seven decimals.
Dicts of dimensions are shared between replies: nothing may change them.
"""

import dataclasses
from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import lru_cache
from typing import Any

from reference.materials import Material
from reference.quantities import Dimension, Limits, Rating, ThreadSize
from reference.units import INCH
from service.reading.model import LineReading, Reading
from service.verdict.model import (
    NOT_LENGTHS,
    Finding,
    FitWanted,
    JudgedReading,
    Mate,
    Moves,
    Needed,
    NutEnd,
    PulleyAt,
    TappedHoleMate,
    Verdict,
    Window,
)

Wire = dict[str, Any]

COUNTS = frozenset({"teeth", "starts"})
"""Dimensions that are whole numbers of something: they have no unit of length."""

_INCH_STEP = Decimal("1E-7")


@lru_cache(maxsize=16384)
def number(value: Decimal) -> int | float:
    """Return a decimal as the shortest number of JSON.

    >>> number(Decimal("8.0")), number(Decimal("8.006"))
    (8, 8.006)
    """
    inexact = float(value)
    whole = int(inexact)
    return whole if whole == inexact else inexact


@lru_cache(maxsize=16384)
def _inches(value: Decimal) -> int | float:
    return number((value / INCH).quantize(_INCH_STEP))


_SCALES: Mapping[str, Callable[[Decimal], int | float]] = {"mm": number, "in": _inches}


def length(value: Decimal | None, units: str) -> int | float | None:
    """Return a length [mm] in the units of the reply.

    >>> length(Decimal("12.7"), "in")
    0.5
    """
    return None if value is None else _SCALES[units](value)


@lru_cache(maxsize=16384)
def limits(value: Limits, units: str) -> Wire:
    """Return limits of a dimension."""
    return {
        "nominal": length(value.nominal, units),
        "lower": length(value.lower, units),
        "upper": length(value.upper, units),
        "tolerance_class": value.tolerance_class,
    }


@lru_cache(maxsize=4096)
def thread(value: ThreadSize, units: str) -> Wire:
    """Return a thread by its designation."""
    return {
        "designation": value.designation,
        "pitch": length(value.pitch, units),
        "diameter": length(value.diameter, units),
        "system": value.system,
        "hand": value.hand,
        "tolerance_class": value.tolerance_class,
    }


def rating(value: Rating) -> Wire:
    """Return a rated quantity with its unit."""
    upper = None if value.upper is None else number(value.upper)
    return {"value": number(value.value), "unit": value.unit, "upper": upper}


def dimension(name: str, value: Dimension, units: str) -> Any:
    """Return a dimension of a part."""
    if isinstance(value, Limits):
        return limits(value, "mm" if name in COUNTS else units)
    if isinstance(value, ThreadSize):
        return thread(value, units)
    if isinstance(value, str):
        return value
    return {kind: rating(one) for kind, one in value.items()}


def reading(value: Reading, units: str) -> Wire:
    """Return one possible meaning of a line."""
    return {
        "family": value.family,
        "standards": value.standards,
        "size_names": value.size_names,
        "evidence": value.evidence,
        "dimensions": {name: dimension(name, one, units) for name, one in value.dimensions.items()},
        "attributes": dict(value.attributes),
        "missing": value.missing,
        "because": [{"text": one.text, "says": one.says, "source": one.source} for one in value.because],
        "notes": [{"code": one.code, "text": one.text, "source": one.source} for one in value.notes],
        "order_text": value.order_text,
    }


def line_reading(value: LineReading, units: str) -> Wire:
    """Return all readings of one line."""
    return {
        "line": value.line,
        "state": value.state,
        "readings": [reading(one, units) for one in value.readings],
        "question": value.question,
        "reason": value.reason,
        "nearest": value.nearest,
        "quantity": value.quantity,
        "pack": value.pack,
    }


# --- verdicts ------------------------------------------------------------------------------------------------------


def window(value: Window | None, units: str) -> Wire | None:
    """Return a range of clearance."""
    return None if value is None else {"lower": length(value.lower, units), "upper": length(value.upper, units)}


@lru_cache(maxsize=512)
def mate(value: Mate | NutEnd, units: str) -> Wire:
    """Return a mate with what its kind has. A mate is one object however often it is checked, so this is done once."""
    found: Wire = {"kind": value.kind}
    for one in dataclasses.fields(value):
        found[one.name] = _part(one.name, getattr(value, one.name), units)
    return found


def _part(name: str, value: Any, units: str) -> Any:
    """Return one thing that a mate has."""
    if isinstance(value, Decimal):
        return number(value) if name in NOT_LENGTHS else length(value, units)
    if isinstance(value, Limits):
        return limits(value, units)
    if isinstance(value, ThreadSize):
        return thread(value, units)
    if isinstance(value, Material):
        return {"name": value.name, "grade": value.grade, "assumed": value.assumed}
    if isinstance(value, TappedHoleMate | NutEnd):
        return mate(value, units)
    if isinstance(value, Needed):
        return {"name": value.name, "rating": rating(value.rating), "comparison": value.comparison}
    if isinstance(value, PulleyAt | Moves):
        return {key: _part(key, one, units) for key, one in value._asdict().items()}
    if isinstance(value, tuple):
        return [_part(name, one, units) for one in value]
    return value


def fit(value: FitWanted | None, units: str) -> Wire | None:
    """Return the fit that was judged against."""
    if value is None:
        return None
    return {
        "wanted": value.wanted,
        "window": window(value.window, units),
        "from": value.from_text,
        "loosest_upper": length(value.loosest_upper, units),
    }


def finding(value: Finding, units: str) -> Wire:
    """Return one checked statement."""
    numbers = {
        name: one if isinstance(one, str) else number(one) if name in NOT_LENGTHS else length(one, units)
        for name, one in value.numbers.items()
    }
    return {
        "code": value.code,
        "weight": value.weight,
        "text": value.text,
        "numbers": numbers,
        "source": value.source,
    }


def judged(value: JudgedReading, units: str) -> Wire:
    """Return a reading with its own verdict."""
    found = reading(value.reading, units)
    found["verdict"] = value.verdict
    found["clearance"] = window(value.clearance, units)
    found["share"] = None if value.share is None else number(value.share)
    found["findings"] = [finding(one, units) for one in value.findings]
    found["cautions"] = value.cautions
    return found


def verdict(value: Verdict, units: str) -> Wire:
    """Return the answer to a check, the verdict first."""
    return {
        "verdict": value.verdict,
        "line": value.line,
        "state": value.state,
        "mate": mate(value.mate, units),
        "fit": fit(value.fit, units),
        "readings": [judged(one, units) for one in value.readings],
        "findings": [finding(one, units) for one in value.findings],
        "question": value.question,
        "order_text": value.order_text,
        "cautions": value.cautions,
        "share": None if value.share is None else number(value.share),
    }
