"""Does the engaged thread hold the screw: by shear area where the property class is known, by rule of thumb beside it.

What counts, in this order (common practice, but for the figures):

* less than one diameter of thread is ``wrong`` in any material, whatever the shear areas say;
* with a known property class the shear areas decide: the thread holds the screw's full preload with the margin of
  ``service.strength.engagement``, or it is ``marginal`` and the torque must stay below the screw's;
* otherwise the rule of thumb decides: met, or ``marginal``; without a material 1 to 2.5 diameters are ``open``.
"""

from decimal import ROUND_CEILING, Decimal
from functools import lru_cache
from typing import NamedTuple

from reference.materials import Material, UnknownMaterial, UnknownPropertyClass
from reference.quantities import ThreadSize
from reference.threads import ThreadError
from reference.units import tidy
from reference.workshop import UnknownFigure
from service.reading.model import Reading
from service.strength.engagement import Engagement, rule_of_thumb
from service.strength.screws import CARRIAGE_NAME, Tightening, thread_warning, tighten
from service.verdict.model import Finding

MOST_RULE = Decimal("2.5")
"""The most diameters that the rule of thumb asks for in any material (plastic)."""


class Held(NamedTuple):
    """What was found about an engagement, and the cautions that its figures carry."""

    findings: tuple[Finding, ...]
    cautions: tuple[str, ...]


def property_class(reading: Reading) -> str | None:
    """Return the property class of a screw: as stated, or a stainless grade with its class (``A2-70``)."""
    return reading.attributes.get("property_class") or next(
        (
            grade
            for grade in (reading.attributes.get("grade"), reading.attributes.get("material"))
            if grade and "-" in grade
        ),
        None,
    )


@lru_cache(maxsize=512)
def judge_engagement(
    thread: ThreadSize, engaged: Decimal, material: Material | None, strength: str | None, family: str
) -> Held:
    """Judge an engagement [mm] of a screw of a property class in a material; either may be unknown (None)."""
    held = _judge(thread, engaged, material, strength, family)
    if material is None or engaged < thread.diameter:
        return held
    rule = rule_of_thumb(material.kind).diameters
    told = thread_warning(float(thread.diameter), float(engaged), rule, material.name == CARRIAGE_NAME)
    numbers: dict[str, Decimal | str] = {"engagement": engaged}
    warning = (Finding("fragile-thread", "note", told, numbers, "common practice"),) if told else ()
    return held._replace(findings=(*held.findings, *warning))


def _judge(thread: ThreadSize, engaged: Decimal, material: Material | None, strength: str | None, family: str) -> Held:
    diameters = (engaged / thread.diameter).quantize(Decimal("0.01"))
    numbers: dict[str, Decimal | str] = {"engagement": engaged, "diameters": tidy(diameters)}
    head = f"{engaged} mm of thread engage, {tidy(diameters)} d"
    if engaged <= 0:
        return Held(
            (Finding("does-not-reach", "wrong", "the screw does not reach the thread", numbers, _GEOMETRY),), ()
        )
    joint = None if material is None or strength is None else _joint(thread, engaged, material, strength, family)
    held = None if joint is None else joint.engagement
    rule, source = _rule(thread, engaged, material, numbers)
    if held is not None and joint is not None:
        rule += _shear(joint.property_class, held, numbers)
        source = f"{held.source}; {source}"
    text = head + rule
    if engaged < thread.diameter:
        text = f"{head}, less than one diameter: too little{rule}"
        return Held((Finding("too-little-thread", "wrong", text, numbers, source),), ())
    if held is not None and joint is not None:
        return _by_shear(joint, held, text, numbers, source)
    if material is None:
        if engaged >= MOST_RULE * thread.diameter:
            return Held((Finding("enough-thread", "fits", f"{text}: enough in any material", numbers, source),), ())
        text += "; whether that is enough depends on the material, which is not stated"
        return Held((Finding("material-not-stated", "open", text, numbers, source),), ())
    if numbers["rule_met"] == "yes":
        return Held((Finding("enough-thread", "fits", text, numbers, source),), ())
    text += "; state the property class to have it judged by shear area"
    return Held((Finding("less-thread-than-usual", "marginal", text, numbers, source),), ())


_GEOMETRY = "length minus what is clamped"


def _rule(
    thread: ThreadSize, engaged: Decimal, material: Material | None, numbers: dict[str, Decimal | str]
) -> tuple[str, str]:
    """Return what the rule of thumb says, in words, and its source; its figures go into the numbers."""
    if material is None:
        return "", "Rule of thumb by material"
    rule = rule_of_thumb(material.kind)
    wanted = tidy(Decimal(str(rule.diameters)) * thread.diameter)
    numbers |= {"rule": wanted, "rule_met": "yes" if engaged >= wanted else "no"}
    taken = f", taken as {material.grade}," if material.assumed else f" ({material.grade})"
    return f"; the rule of thumb for {material.kind}{taken} is {rule.diameters:g} d, {wanted} mm", rule.source


@lru_cache(maxsize=256)
def _joint(thread: ThreadSize, engaged: Decimal, material: Material, strength: str, family: str) -> Tightening | None:
    """Return how tight the screw may be done up, or None where a figure for that is not held."""
    try:
        return tighten(thread, strength, head=family, into=material, engagement=float(engaged))
    except (UnknownFigure, UnknownPropertyClass, UnknownMaterial, ThreadError):
        return None


def _shear(strength: str, held: Engagement, numbers: dict[str, Decimal | str]) -> str:
    """Return what the shear areas say, in words; the figures go into the numbers."""
    numbers |= {
        "strip_load": _newtons(held.strip_load),
        "preload": _newtons(held.preload),
        "breaking_load": _newtons(held.breaking_load),
        "needed": Decimal(held.needed_for_preload).quantize(Decimal("0.1"), ROUND_CEILING),
    }
    return (
        f"; by shear area the thread strips at {held.strip_load:.0f} N, the full preload of a class {strength} screw is"
        f" {held.preload:.0f} N"
    )


def _by_shear(joint: Tightening, held: Engagement, text: str, numbers: dict[str, Decimal | str], source: str) -> Held:
    """Let the shear areas decide, and say how tight the screw may be done up."""
    if held.holds_preload:
        first = (
            "the screw breaks first" if held.screw_breaks_first else "overtightened, it strips before the screw breaks"
        )
        findings = [Finding("thread-holds", "fits", f"{text}: it holds, and {first}", numbers, source)]
    else:
        text += f": too little with a margin of {held.needed_margin:g}. What helps: {'; or '.join(held.advice)}"
        findings = [Finding("thread-strips-at-full-preload", "marginal", text, numbers, source)]
    torque = joint.torque
    figures: dict[str, Decimal | str] = {
        "recommended": Decimal(f"{torque.recommended:.2f}"),
        "never_exceed": Decimal(f"{torque.never_exceed:.2f}"),
        "limited_by": torque.limited_by,
    }
    text = (
        f"tighten to {torque.recommended:.2f} N m, never over {torque.never_exceed:.2f} N m"
        f" (the {torque.limited_by} decides; friction {joint.assumed['friction']})"
    )
    findings.append(Finding("tightening", "note", text, figures, joint.source))
    return Held(tuple(findings), joint.cautions)


def _newtons(load: float) -> Decimal:
    return Decimal(load).quantize(Decimal(1))
