"""What a press fit does: pressure, stress in the hole's wall, force to press in and to pull out; told beside a verdict.

The figures never change a verdict: the fit wanted decides that. They are told where the material of the hole and the
engaged length are known.
"""

from decimal import Decimal
from functools import lru_cache

from reference import materials
from reference.materials import Material
from reference.quantities import Limits
from reference.workshop import UnknownFigure
from service.reading.model import Reading
from service.strength.press_fit import press_fit
from service.verdict.model import BoreMate, Finding


def press_finding(reading: Reading, mate: BoreMate, shaft: Limits) -> Finding | None:
    """Return what pressing the part into the bore takes, or None where that cannot be said."""
    length = reading.dimensions.get("length")
    if mate.material is None or mate.diameter.lower is None or not isinstance(length, Limits):
        return None
    engaged = length.nominal if mate.depth is None else min(length.nominal, mate.depth)
    bore = reading.dimensions.get("bore")
    inner = bore.nominal if isinstance(bore, Limits) else Decimal(0)
    return _press(mate.diameter, shaft, engaged, mate.material, _material(reading), inner)


def _material(reading: Reading) -> Material:
    """Return the part's material: as the line says, else hardened steel, which pins and rings are made of."""
    try:
        return materials.material(reading.attributes.get("material", "hardened steel"))
    except materials.UnknownMaterial:
        return materials.material("hardened steel")


@lru_cache(maxsize=1024)
def _press(
    hole: Limits, shaft: Limits, length: Decimal, hub: Material, part: Material, inner: Decimal
) -> Finding | None:
    try:
        fit = press_fit(hole, shaft, float(length), hub, part, shaft_bore=float(inner))
    except (UnknownFigure, ValueError):
        return None
    tight = fit.tightest
    numbers: dict[str, Decimal | str] = {
        "pressure": _figure(tight.pressure),
        "stress": _figure(tight.hub_stress),
        "press_in": _figure(tight.press_in),
        "holds": _figure(fit.loosest.holds),
    }
    text = (
        f"the tightest pair, {tight.interference:.3f} mm over {length} mm in {hub.grade}: {tight.pressure:.0f} MPa,"
        f" up to {tight.press_in:.0f} N to press in; {tight.hub_stress:.0f} MPa in the wall of the hole"
    )
    if tight.hub_yields:
        text += f", above the {hub.yield_strength:.0f} MPa at which it yields: the wall may split or the hold slacken"
    if fit.loosest.holds:
        text += f"; the loosest pair holds {fit.loosest.holds:.0f} N"
    return Finding("press-fit", "note", f"{text} ({'; '.join(fit.assumed)})", numbers, fit.source)


def _figure(value: float) -> Decimal:
    return Decimal(f"{value:.4g}").quantize(Decimal(1)) if value >= 1000 else Decimal(f"{value:.3g}")
