"""Judges a part against a tapped hole: the thread, and what its length needs."""

from reference.materials import Material
from reference.quantities import Limits, ThreadSize
from reference.units import tidy
from service.reading.model import Reading
from service.strength.screws import CARRIAGE_NAME
from service.verdict.combine import worst
from service.verdict.fields import TAPPED_EXAMPLE, Fields, at, depth_end_material, known, required, take_options, thread
from service.verdict.model import Finding, FitWanted, JudgedReading, TappedHoleMate
from service.verdict.roles import can_have
from service.verdict.threads import match

_NOT_FOR_A_HOLE = frozenset({"parallel pin with external thread", "taper pin with external thread"})
"""Their thread takes the nut that pulls them out."""


def from_text(text: str, field: str) -> TappedHoleMate:
    """Return the tapped hole of a short form: ``M3 depth 6 in aluminium``.

    Raises:
        CheckError: a part of it is not understood.
    """
    designation, options = take_options(text, field)
    return from_fields({"thread": designation, **options}, field)


def from_fields(given: Fields, field: str) -> TappedHoleMate:
    """Return the tapped hole of an object: ``thread``, and ``depth``, ``end``, ``material``.

    Raises:
        CheckError: a part of it is missing or not understood.
    """
    known(given, ("thread", "depth", "end", "material"), field)
    size = thread(required(given, "thread", field, TAPPED_EXAMPLE), at(field, "thread"))
    depth, end, material = depth_end_material(given, field)
    deep = f", {depth} mm deep" if depth is not None else ""
    made_in = "" if material is None else f" in {_called(material)}"
    text = f"{size.designation} hole{deep}{made_in}"
    return TappedHoleMate(text, size, depth, end, material)


def _called(material: Material) -> str:
    return material.name if material.name == CARRIAGE_NAME else material.grade


def judge(reading: Reading, mate: TappedHoleMate, fit: FitWanted | None) -> JudgedReading:
    """Judge whether the part's external thread goes into the tapped hole."""
    screw = reading.dimensions.get("thread")
    if reading.family in _NOT_FOR_A_HOLE or (screw is None and not can_have(reading.family, "thread")):
        text = f"a {reading.family} has no thread that goes into a tapped hole"
        return JudgedReading(reading, "wrong", None, (Finding("wrong-kind", "wrong", text, {}, "common practice"),))
    if not isinstance(screw, ThreadSize):
        text = f"the line does not say the thread of the {reading.family}"
        return JudgedReading(reading, "open", None, (Finding("dimension-missing", "open", text, {}, "the line"),))
    findings = [match(screw, mate.thread, mate.text)]
    length = reading.dimensions.get("length")
    if mate.depth is not None and isinstance(length, Limits) and findings[0].weight == "fits":
        over = tidy(length.nominal - mate.depth)
        if over > 0 and mate.end != "through":
            text = f"{length.nominal} mm long in {mate.depth} mm of thread: it needs at least {over} mm under the head"
            if reading.family == "set screw":
                text = f"{length.nominal} mm long in {mate.depth} mm of thread: it stands out by {over} mm"
            findings.append(Finding("longer-than-the-thread", "note", text, {"over": over}, "length minus depth"))
    return JudgedReading(reading, worst(findings), None, tuple(findings))
