"""Does the thread hold: strip areas in the worst corner of the tolerances, the engagement needed, blind holes, length.

Strip areas and the length at which the screw breaks first: FED-STD-H28, as in Machinery's Handbook. The rule of thumb
by material is given beside them. Torque and preload belong to ``service.strength.screws``.
"""

import math
from dataclasses import dataclass
from functools import cache

from reference import tables, threads
from reference.materials import Material, PropertyClass, property_class, property_classes
from reference.quantities import ThreadSize

STRIP_MARGIN = 1.2
"""What a thread must hold, over the preload: ten screws at one torque went 18 % over (Shigley 9th ed. Table 8-14)."""

STRIP_MARGIN_PLASTIC = 3.0
"""The same for plastics, which creep; common practice."""

SCREW_SHEAR_RATIO = 0.6
"""Shear strength of a steel screw divided by its tensile strength; common practice, 0.5 to 0.65 in handbooks."""

POINT_RUNOUT = 1.0
"""Incomplete threads at the point of a screw, in pitches, that do not count as engagement; common practice 1 to 2."""

SOURCE = "FED-STD-H28 and Machinery's Handbook, strip areas from the worst limits of size"


@dataclass(frozen=True, slots=True)
class ThreadLimits:
    """The limits that decide how much of two mating threads is left to shear [mm].

    Smallest screw: ``major_min`` and ``pitch_min`` of 6g. Largest nut: ``minor_max`` and ``nut_pitch_max`` of 6H.
    """

    diameter: float
    pitch: float
    major_min: float
    pitch_min: float
    minor_max: float
    nut_pitch_max: float

    @property
    def root_min(self) -> float:
        """The smallest root diameter of the screw, d3 [mm]: its pitch diameter less 2/3 of the thread's height."""
        return self.pitch_min - self.pitch / math.sqrt(3)


def thread_limits(thread: ThreadSize) -> tuple[ThreadLimits, str]:
    """Return the worst limits of a thread and how they were come by.

    6g and 6H of ISO 965-1 where the tables hold them; for other threads of 60 degrees its formulas for grade 6.

    Raises:
        ThreadError: the thread has no 60 degree profile, or its pitch is not stated.
    """
    basic = threads.profile(thread)
    if thread.pitch is None or thread.system not in ("metric", "unified"):
        raise threads.ThreadError(f"{thread.designation}: strip areas are held for metric and unified threads, e.g. M5")
    diameter, pitch = float(thread.diameter), float(thread.pitch)
    if thread.system == "metric":
        try:
            screw, nut = threads.limits(thread, "6g"), threads.limits(thread, "6H")
        except threads.ThreadError:
            pass
        else:
            ends = (screw.major.low, screw.pitch.low, nut.minor.high, nut.pitch.high)
            return ThreadLimits(diameter, pitch, *map(float, ends)), "limits 6g and 6H of ISO 965-1"
    micrometre = 0.001
    allowance = (15 + 11 * pitch) * micrometre
    crest = (180 * pitch ** (2 / 3) - 3.15 / math.sqrt(pitch)) * micrometre
    flank = 90 * pitch**0.4 * diameter**0.1 * micrometre
    minor = (433 * pitch - 190 * pitch**1.22 if pitch <= 0.8 else 230 * pitch**0.7) * micrometre
    return ThreadLimits(
        diameter,
        pitch,
        diameter - allowance - crest,
        float(basic.pitch_diameter) - allowance - flank,
        float(basic.minor_diameter) + minor,
        float(basic.pitch_diameter) + 1.32 * flank,
    ), f"limits of {thread.designation} by the formulas of ISO 965-1 for grade 6, from memory"


def internal_strip_area(limits: ThreadLimits, length: float) -> float:
    """Return the area over which the nut's threads shear, at the screw's crests [mm2].

    Source: FED-STD-H28: pi L/P dmin (P/2 + 0.57735 (dmin - D2max)).
    """
    overlap = limits.pitch / 2 + (limits.major_min - limits.nut_pitch_max) / math.sqrt(3)
    return math.pi * length / limits.pitch * limits.major_min * max(overlap, 0.0)


def external_strip_area(limits: ThreadLimits, length: float) -> float:
    """Return the area over which the screw's threads shear, at the nut's crests [mm2].

    Source: FED-STD-H28: pi L/P D1max (P/2 + 0.57735 (d2min - D1max)).
    """
    overlap = limits.pitch / 2 + (limits.pitch_min - limits.minor_max) / math.sqrt(3)
    return math.pi * length / limits.pitch * limits.minor_max * max(overlap, 0.0)


def length_for_load(load: float, shear_strength: float, area_per_millimetre: float) -> float:
    """Return the length of full thread that carries a load [mm], for a shear strength [MPa] and strip area [mm2/mm]."""
    return load / (shear_strength * area_per_millimetre)


def equal_material_length(stress_area: float, limits: ThreadLimits) -> float:
    """Return the engagement at which a screw breaks before its thread strips in a nut of the same strength [mm].

    Source: Machinery's Handbook, L = 2 As / (pi D1max (1/2 + 0.57735 (d2min - D1max)/P)).
    """
    return 2 * stress_area / external_strip_area(limits, 1.0)


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule of thumb: the engagement that a material wants, in thread diameters."""

    diameters: float
    source: str
    basis: str


@cache
def _rules() -> dict[str, Rule]:
    return {
        row.text("material"): Rule(float(row.decimal("diameters")), row.source, row.basis)
        for row in tables.load("thread_engagement_rules")
    }


def rule_of_thumb(kind: str) -> Rule:
    """Return the rule of thumb of a kind of material; hardened steel and titanium count as steel."""
    rules = _rules()
    return rules.get(kind) or rules["steel"]


@dataclass(frozen=True, slots=True)
class Engagement:
    """Whether a thread holds a screw: lengths in mm, loads in N.

    ``effective`` is the engagement without the screw's incomplete point threads; ``strip_load`` what it carries;
    ``gives`` the part that strips; ``needed_for_preload`` and ``needed_to_break_screw`` are lengths of engagement to
    ask for, point included; ``margin`` is strip load over preload.
    """

    engaged: float
    effective: float
    diameters: float
    internal_area: float
    external_area: float
    strip_load: float
    gives: str
    preload: float
    breaking_load: float
    margin: float
    needed_margin: float
    holds_preload: bool
    screw_breaks_first: bool
    needed_for_preload: float
    needed_to_break_screw: float
    rule: Rule
    rule_length: float
    meets_rule: bool
    advice: tuple[str, ...]
    assumed: tuple[str, ...]
    source: str = SOURCE


def _lower_classes(strengths: PropertyClass) -> tuple[str, ...]:
    """Return the usual classes below this one, strongest first."""
    usual = ("A4-80", "A2-70", "A2-50") if strengths.stainless else ("12.9", "10.9", "8.8", "5.8", "4.6")
    return tuple(name for name in usual if name in property_classes() and name != strengths.name)


def judge(
    limits: ThreadLimits,
    engaged: float,
    into: Material,
    strengths: PropertyClass,
    stress_area: float,
    preload: float,
    point_runout: float = POINT_RUNOUT,
) -> Engagement:
    """Judge an engagement [mm] of a screw at a preload [N] in a material: by shear area, and by the rule of thumb.

    ``stress_area`` is the screw's [mm2]; ``point_runout`` the incomplete threads of its point that lie inside the
    engagement, in pitches (0 for a screw that passes right through).
    """
    runout = point_runout * limits.pitch
    effective = max(engaged - runout, 0.0)
    internal, external = internal_strip_area(limits, effective), external_strip_area(limits, effective)
    screw_shear = SCREW_SHEAR_RATIO * strengths.tensile_strength
    by_nut, by_screw = into.shear_strength * internal, screw_shear * external
    strip_load = min(by_nut, by_screw)
    per_millimetre = min(
        into.shear_strength * internal_strip_area(limits, 1.0), screw_shear * external_strip_area(limits, 1.0)
    )
    needed_margin = STRIP_MARGIN_PLASTIC if into.kind == "plastic" else STRIP_MARGIN
    breaking_load = strengths.tensile_strength * stress_area
    for_preload = needed_margin * preload / per_millimetre + runout
    to_break = breaking_load / per_millimetre + runout
    rule = rule_of_thumb(into.kind)
    holds = strip_load >= needed_margin * preload
    advice: list[str] = []
    if not holds:
        allowed = strip_load / needed_margin
        advice.append(f"less torque: no more than {100 * allowed / preload:.0f} % of the screw's full torque")
        for name in _lower_classes(strengths):
            lower = property_class(name, limits.diameter)
            if lower.yield_strength < strengths.yield_strength and (
                preload * lower.yield_strength / strengths.yield_strength <= allowed
            ):
                advice.append(f"a lower property class: {name} holds at its own full torque")
                break
        advice.append(
            f"a deeper thread and a longer screw: {math.ceil(for_preload * 10) / 10:g} mm of engagement or more"
        )
        advice.append(
            "a wire thread insert or a press-in insert, which shears the hole's material on a larger diameter"
        )
    elif strip_load < breaking_load:
        advice.append(
            "holds at full torque, but overtightened it strips before the screw breaks: "
            f"{math.ceil(to_break * 10) / 10:g} mm of engagement would save the thread"
        )
    assumed = [
        f"{into.grade} shears at {into.shear_strength:g} MPa",
        f"screw shears at {screw_shear:g} MPa ({SCREW_SHEAR_RATIO:g} of its tensile strength)",
        "smallest screw 6g in the largest hole 6H",
        f"{point_runout:g} pitch of the screw's point carries nothing",
        f"the thread must hold {needed_margin:g} times the preload",
    ]
    if into.assumed:
        assumed.insert(0, into.assumed)
    if not into.minimum:
        assumed.append(f"the strength of {into.grade} is a typical value, not a guaranteed one")
    return Engagement(
        engaged=engaged,
        effective=effective,
        diameters=engaged / limits.diameter,
        internal_area=internal,
        external_area=external,
        strip_load=strip_load,
        gives="internal thread" if by_nut <= by_screw else "screw thread",
        preload=preload,
        breaking_load=breaking_load,
        margin=strip_load / preload if preload else math.inf,
        needed_margin=needed_margin,
        holds_preload=holds,
        screw_breaks_first=strip_load >= breaking_load,
        needed_for_preload=for_preload,
        needed_to_break_screw=to_break,
        rule=rule,
        rule_length=rule.diameters * limits.diameter,
        meets_rule=engaged >= rule.diameters * limits.diameter,
        advice=tuple(advice),
        assumed=tuple(assumed),
    )


# Blind holes, through holes and lengths

TAP_LEADS = {"bottoming": 2.0, "plug": 5.0, "taper": 10.0}
"""Longest chamfer of a tap in pitches: bottoming 1 to 2, plug 3 to 5, taper 7 to 10; from memory."""


def drill_point_length(diameter: float, point_angle: float = 118.0) -> float:
    """Return the length of a drill's point [mm] for its diameter [mm] and point angle [deg]: 0.300 d at 118 degrees."""
    return diameter / 2 / math.tan(math.radians(point_angle / 2))


def tap_drill_depth(thread_depth: float, pitch: float, lead: float, spare_pitches: float = 1.0) -> float:
    """Return how deep to drill at full diameter for a depth of full thread [mm]; ``lead`` is the tap's chamfer [mm].

    Source: full thread + chamfer + at least one pitch (eisc.com machining tip; no second source).
    """
    return thread_depth + lead + spare_pitches * pitch


def usable_thread(drilled_depth: float, pitch: float, lead_pitches: float = 3.0) -> float:
    """Return the depth of full thread in a hole drilled to a depth at full diameter [mm], 0 where there is none."""
    return max(drilled_depth - lead_pitches * pitch, 0.0)


@dataclass(frozen=True, slots=True)
class BlindHole:
    """A screw in a blind hole [mm]: how far it reaches in, how far it may, and whether it bottoms before it clamps."""

    reach: float
    longest_reach: float
    bottoms: bool
    engaged: float
    spare: float
    assumed: tuple[str, ...]


def screw_in_blind_hole(
    length: float, grip: float, thread_depth: float, pitch: float, countersink: float = 0.0
) -> BlindHole:
    """Judge a screw of a length under its head [mm] through a grip [mm] in a blind thread of a full-thread depth [mm].

    One pitch of the depth is kept free; ``countersink`` is the depth of the mouth, which is no thread.
    """
    reach = length - grip
    longest = thread_depth - pitch
    return BlindHole(
        reach=reach,
        longest_reach=longest,
        bottoms=reach > longest,
        engaged=max(min(reach, thread_depth) - countersink, 0.0),
        spare=longest - reach,
        assumed=("one pitch of the thread is kept free below the screw (common practice)",),
    )


LEAST_PROTRUSION = 2.0
"""Threads that stand out of a nut, in pitches: 2 because the end threads may be incomplete (IFI bulletin 2007)."""

MOST_PROTRUSION = 10.0
"""Threads out of a nut at most, in pitches (NSTM 075: 5 where practicable, never over 10)."""


@dataclass(frozen=True, slots=True)
class Protrusion:
    """How far a screw stands out of its nut: in mm and in pitches, and whether that is enough or too much."""

    length: float
    pitches: float
    enough: bool
    too_long: bool
    source: str = "IFI bulletin 2007 (at least 2 pitches); NSTM 075 (at most 10); prevailing torque nuts at least 1"


def nut_protrusion(length: float, grip: float, nut_height: float, pitch: float, prevailing: bool = False) -> Protrusion:
    """Judge the protrusion of a screw of a length [mm] through a grip with washers [mm] and a nut's height [mm].

    ``prevailing``: a nut with a plastic ring or a squeezed crown, beyond which one full thread is enough.
    """
    out = length - grip - nut_height
    pitches = out / pitch
    return Protrusion(out, pitches, pitches >= (1.0 if prevailing else LEAST_PROTRUSION), pitches > MOST_PROTRUSION)


def length_through_nut(grip: float, nut_height: float, pitch: float, washers: float = 0.0) -> float:
    """Return the least length of a screw through a grip, washers and a nut with two pitches out [mm].

    Rounding up to a length that exists belongs to the caller.
    """
    return grip + washers + nut_height + LEAST_PROTRUSION * pitch
