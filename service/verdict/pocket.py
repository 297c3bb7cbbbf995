"""Judges a part against the recess that it lies in: a magnet in a round pocket, a block in a square one.

Without a fit the part must go in by hand and not be lost in the pocket: clearance from nothing to 0.5 mm, or to a
fiftieth of its size; common practice, glue wants 0.1 to 0.2 mm.
"""

import re
from decimal import Decimal
from functools import lru_cache

from reference.quantities import Limits
from reference.units import tidy
from service.reading.model import Reading
from service.strength import cautions
from service.verdict.combine import worst
from service.verdict.diameters import between, diameter
from service.verdict.fields import Fields, at, known
from service.verdict.model import CheckError, Finding, FitWanted, JudgedReading, PocketMate, Window
from service.verdict.pairs import compare
from service.verdict.roles import can_have

_FORMS = "a diameter, or length x width, each with its tolerance, then depth"
_EXAMPLE = "8.2 +0.1/0 depth 3, or 20.2 x 10.2 depth 5"
_SPLIT = re.compile(r"(?P<sides>.+?)(?:\s+(?:depth|deep)\s+(?P<depth>.+))?", re.IGNORECASE)
_BY = re.compile(r"\s*[x×*]\s*")

MAGNET_TOLERANCE = Decimal("0.1")
"""What a magnet without stated limits may depart from its size [mm], coating included; common practice."""


def from_text(text: str, field: str) -> PocketMate:
    """Return the pocket of a short form: ``8.2 +0.1/0 depth 3`` (round), ``20.2 x 10.2 depth 5`` (square).

    Raises:
        CheckError: a part of it is not understood.
    """
    match = _SPLIT.fullmatch(text)
    sides = _BY.split(match["sides"]) if match else []
    if match is None or not 1 <= len(sides) <= 2:
        raise CheckError(field, text, _FORMS, _EXAMPLE)
    names = ("diameter",) if len(sides) == 1 else ("length", "width")
    return from_fields({**dict(zip(names, sides, strict=True)), "depth": match["depth"]}, field)


def from_fields(given: Fields, field: str) -> PocketMate:
    """Return the pocket of an object: ``diameter``, or ``length`` and ``width``; and ``depth``.

    Raises:
        CheckError: a part of it is missing or not understood.
    """
    known(given, ("diameter", "length", "width", "depth"), field)
    sizes = {
        name: diameter(given[name], "hole", at(field, name))
        for name in ("diameter", "length", "width", "depth")
        if given.get(name) is not None
    }
    depth = sizes.pop("depth", None)
    if set(sizes) not in ({"diameter"}, {"length", "width"}):
        raise CheckError(field, dict(given), _FORMS, '{"kind": "pocket", "diameter": "8.2 +0.1/0", "depth": 3}')
    text = f"pocket {' x '.join(size.text for size in sizes.values())}"
    limits = {name: size.limits for name, size in sizes.items()}
    return PocketMate(text, **limits, depth=depth.limits if depth else None)


def judge(reading: Reading, mate: PocketMate, fit: FitWanted | None) -> JudgedReading:
    """Judge whether the part lies in the pocket, and how it stands to the face."""
    found, assumed = _sides(reading, mate)
    if isinstance(found, Finding):
        return JudgedReading(reading, worst((found,)), None, (found,))
    pairs = [compare(name, hole, part, mate.text, fit or _by_hand(hole), False) for name, hole, part in found]
    findings = (*(one for pair in pairs for one in pair.findings), *assumed, *_height(reading, mate))
    tightest = min((pair.clearance for pair in pairs), key=lambda clearance: clearance.lower)
    shares = [pair.share for pair in pairs if pair.share is not None]
    carefully = dict.fromkeys(caution for pair in pairs for caution in pair.cautions)
    if reading.family == "magnet":
        carefully = {cautions.MAGNET: None, **carefully}
    return JudgedReading(reading, worst(findings), tightest, findings, min(shares, default=None), tuple(carefully))


@lru_cache(maxsize=512)
def _by_hand(hole: Limits) -> FitWanted:
    """Return the fit of a part that is laid in by hand."""
    most = tidy(max(Decimal("0.5"), hole.nominal / 50))
    return FitWanted("laid in by hand", Window(Decimal(0), most), "it goes in and is not lost in it; common practice")


_Side = tuple[str, Limits, Limits]


def _sides(reading: Reading, mate: PocketMate) -> tuple[list[_Side] | Finding, tuple[Finding, ...]]:
    """Return which side of the pocket meets which dimension of the part, and what had to be assumed for that."""
    outer = reading.dimensions.get("outer_diameter")
    if mate.diameter is not None:
        if isinstance(outer, Limits):
            part, assumed = _with_tolerance(reading.family, outer)
            return [("outer diameter", mate.diameter, part)], assumed
        if "length" in reading.dimensions and "width" in reading.dimensions:
            text = f"a square {reading.family} does not lie in a round pocket of its size"
            return Finding("shape-differs", "wrong", text, {}, "common practice"), ()
        return _missing(reading, "outer diameter"), ()
    assert mate.length is not None and mate.width is not None  # noqa: S101, PT018 - from_fields sees to it
    if isinstance(outer, Limits):
        part, assumed = _with_tolerance(reading.family, outer)
        return [("outer diameter", min(mate.length, mate.width, key=lambda side: side.low), part)], assumed
    long, wide = (reading.dimensions.get(name) for name in ("length", "width"))
    if not isinstance(long, Limits) or not isinstance(wide, Limits):
        return _missing(reading, "length and the width"), ()
    if (long.nominal < wide.nominal) != (mate.length.nominal < mate.width.nominal):
        long, wide = wide, long
    (one, assumed), (two, _) = _with_tolerance(reading.family, long), _with_tolerance(reading.family, wide)
    return [("length", mate.length, one), ("width", mate.width, two)], assumed


def _missing(reading: Reading, names: str) -> Finding:
    if not any(can_have(reading.family, key) for key in ("outer_diameter", "width")):
        text = f"a {reading.family} is no part that lies in a pocket"
        return Finding("wrong-kind", "wrong", text, {}, "common practice")
    return Finding(
        "dimension-missing", "open", f"the line does not say the {names} of the {reading.family}", {}, "the line"
    )


@lru_cache(maxsize=512)
def _with_tolerance(family: str, size: Limits) -> tuple[Limits, tuple[Finding, ...]]:
    """Return a magnet's size with its usual tolerance where none is stated; any other size as it is."""
    if size.lower is not None or family != "magnet":
        return size, ()
    text = (
        f"the magnet's limits are not stated: taken as {size.nominal} mm within {MAGNET_TOLERANCE} mm, coating included"
    )
    note = Finding("tolerance-assumed", "note", text, {"tolerance": MAGNET_TOLERANCE}, "common practice")
    return Limits(size.nominal, size.nominal - MAGNET_TOLERANCE, size.nominal + MAGNET_TOLERANCE), (note,)


def _height(reading: Reading, mate: PocketMate) -> tuple[Finding, ...]:
    """Say how far the part stands out of the pocket or lies below its face."""
    if mate.depth is None:
        return ()
    round_part = "outer_diameter" in reading.dimensions
    names = ("height", "thickness", "width", "length") if round_part else ("height", "thickness")
    height = next((one for name in names if isinstance(one := reading.dimensions.get(name), Limits)), None)
    if height is None:
        return ()
    over = tidy(height.nominal - mate.depth.nominal)
    side = f"stands out by {over} mm" if over > 0 else f"lies {-over} mm below the face" if over < 0 else "lies flush"
    text = f"{between(height)} mm high in a pocket {between(mate.depth)} mm deep: it {side}"
    return (Finding("height", "note", text, {"over": over}, "height minus depth"),)
