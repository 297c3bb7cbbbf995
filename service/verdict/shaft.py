"""Judges a part against a shaft: bearings, bushes, couplings, pulleys and collars by their bore."""

from reference.quantities import Limits
from service.reading.model import Reading
from service.verdict.model import Finding, FitWanted, JudgedReading, ShaftMate
from service.verdict.pairs import compare
from service.verdict.roles import NOT_ON_A_SHAFT


def judge(reading: Reading, mate: ShaftMate, fit: FitWanted | None) -> JudgedReading:
    """Judge whether the part goes onto the shaft as wanted, for every part within its limits."""
    bore = reading.dimensions.get("bore")
    if reading.family in NOT_ON_A_SHAFT or (bore is None and "bore" not in reading.missing):
        text = f"a {reading.family} has no bore that goes onto a shaft"
        return JudgedReading(reading, "wrong", None, (Finding("wrong-kind", "wrong", text, {}, "common practice"),))
    if not isinstance(bore, Limits):
        text = f"the line does not say the bore of the {reading.family}"
        return JudgedReading(reading, "open", None, (Finding("dimension-missing", "open", text, {}, "the line"),))
    pair = compare("bore", bore, mate.diameter, mate.text, fit, True)
    return JudgedReading(reading, pair.verdict, pair.clearance, pair.findings, pair.share, pair.cautions)
