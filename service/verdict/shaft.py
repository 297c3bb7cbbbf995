"""Judges a part against a shaft: bearings, bushes, couplings, pulleys and collars by their bore."""

from reference.quantities import Limits
from service.reading.model import Reading
from service.verdict.diameters import diameter
from service.verdict.fields import Fields, at, depth_end_material, known, required, take_options
from service.verdict.model import Finding, FitWanted, JudgedReading, ShaftMate
from service.verdict.pairs import compare, made_for, seat_of, seated
from service.verdict.roles import FOR_A_SHAFT, NOT_ON_A_SHAFT, SEAT, can_have


def from_text(text: str, field: str) -> ShaftMate:
    """Return the shaft of a short form: ``8 h6``.

    Raises:
        CheckError: a part of it is not understood.
    """
    size, options = take_options(text, field)
    return from_fields({"diameter": size, **options}, field)


def from_fields(given: Fields, field: str) -> ShaftMate:
    """Return the shaft of an object: ``diameter``, and ``material``.

    Raises:
        CheckError: a part of it is missing or not understood.
    """
    known(given, ("diameter", "material"), field)
    size = diameter(required(given, "diameter", field, "8 h6"), "shaft", at(field, "diameter"))
    return ShaftMate(f"shaft {size.text}", size.limits, depth_end_material(given, field)[2], size.source)


def judge(reading: Reading, mate: ShaftMate, fit: FitWanted | None) -> JudgedReading:
    """Judge whether the part goes onto the shaft as wanted, for every part within its limits."""
    if reading.family in FOR_A_SHAFT:
        return made_for(reading, FOR_A_SHAFT[reading.family], mate.diameter, mate.text)
    bore = reading.dimensions.get("bore")
    if reading.family in NOT_ON_A_SHAFT or (bore is None and not can_have(reading.family, "bore")):
        text = f"a {reading.family} has no bore that goes onto a shaft"
        return JudgedReading(reading, "wrong", None, (Finding("wrong-kind", "wrong", text, {}, "common practice"),))
    if not isinstance(bore, Limits):
        text = f"the line does not say the bore of the {reading.family}"
        return JudgedReading(reading, "open", None, (Finding("dimension-missing", "open", text, {}, "the line"),))
    classes = SEAT.get(reading.family)
    if fit is None and classes is not None and (seat := seat_of(bore.nominal, classes)) is not None:
        return seated(reading, bore, seat, mate.diameter, mate.text, True)
    pair = compare("bore", bore, mate.diameter, mate.text, fit, True)
    return JudgedReading(reading, pair.verdict, pair.clearance, pair.findings, pair.share, pair.cautions)
