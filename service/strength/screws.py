"""How tight a screw may be done up: preload and torque of the screw alone, and what in the joint gives first.

Torque and preload: VDI 2230 Part 1. Breaking torque: ISO 898-7 and ISO 3506-1. Whether the thread holds is judged by
``service.strength.engagement``. Torques are newton metres, forces newtons, lengths millimetres, stresses MPa.

>>> tighten("M8", friction=0.12).screw.torque  # doctest: +ELLIPSIS
24.9...
"""

import math
from dataclasses import dataclass, replace

from reference import materials, threads, workshop
from reference.materials import Material, PropertyClass
from reference.quantities import ThreadSize
from reference.words import fold
from reference.workshop import Head
from service.strength import cautions
from service.strength.engagement import POINT_RUNOUT, Engagement, judge, rule_of_thumb, thread_limits

UTILISATION = 0.9
"""Part of the yield that tension and torsion together may reach while tightening (VDI 2230)."""

RECOMMENDED = 0.8
"""Recommended torque as a part of the one never to exceed; common practice, room for less friction than assumed."""

KEY_STRENGTH = 1500.0
"""Strength of an ordinary hexagon key [MPa]: 0.2 S AF^3 then gives the 1.0 N m at which a 1.5 mm key yields (ANSI)."""

HAND_FORCE = (30.0, 100.0)
"""A gentle and a firm pull at the end of a key's long arm [N]; common practice."""

SCREWDRIVER_TORQUE = (2.0, 5.7)
"""A gentle turn and the mean greatest torque of men on a rubber handle [N m] (Ergonomics 2007, 1404-1418)."""

TORSION_RATIO = {"8.8": 0.84, "9.8": 0.815, "10.9": 0.79, "12.9": 0.75}
"""Torsional strength divided by tensile strength, X of ISO 898-7; from memory."""

SMALL_SCREW_TORQUE = 6.0
"""A screw that breaks below this [N m] is broken by hand: the mean greatest torque on a rubber handle is 5.7."""

SMALL_THREAD = 4.0
"""A thread up to this diameter [mm] is stripped by hand; common practice."""

CARRIAGE = frozenset(("guide carriage", "carriage", "rail carriage", "fuhrungswagen", "laufwagen"))
"""Words for a part whose small shallow threads cannot be replaced; it may also be the name of a material."""

CARRIAGE_NAME = "guide carriage"

SOURCE = "VDI 2230 Part 1 (preload and torque at 90 % of yield); FED-STD-H28 (strip areas)"


@dataclass(frozen=True, slots=True)
class Section:
    """The cross section of a screw thread with 60 degree flanks, from its diameter and pitch [mm]."""

    diameter: float
    pitch: float

    @property
    def pitch_diameter(self) -> float:
        """d2 = d - 0.6495 P."""
        return self.diameter - 3 * math.sqrt(3) / 8 * self.pitch

    @property
    def root_diameter(self) -> float:
        """d3 = d - 1.2269 P."""
        return self.diameter - 17 * math.sqrt(3) / 24 * self.pitch

    @property
    def stress_diameter(self) -> float:
        """ds, the mean of d2 and d3."""
        return (self.pitch_diameter + self.root_diameter) / 2

    @property
    def stress_area(self) -> float:
        """As = pi/4 ds^2 [mm2] (ISO 898-1)."""
        return math.pi / 4 * self.stress_diameter**2


def stress_area(diameter: float, pitch: float) -> float:
    """Return the stress area of a thread [mm2] from its diameter and pitch [mm] (ISO 898-1)."""
    return Section(diameter, pitch).stress_area


def assembly_preload(
    section: Section, yield_strength: float, friction: float, utilisation: float = UTILISATION
) -> float:
    """Return the preload [N] at which tension and torsion reach a part of the yield strength [MPa].

    Source: VDI 2230, FM = nu Rp As / sqrt(1 + 3 (1.5 d2/ds (P/(pi d2) + 1.155 mu))^2); 1.155 is 1/cos 30.
    """
    torsion = (
        1.5
        * section.pitch_diameter
        / section.stress_diameter
        * (section.pitch / (math.pi * section.pitch_diameter) + friction / math.cos(math.pi / 6))
    )
    return utilisation * yield_strength * section.stress_area / math.sqrt(1 + 3 * torsion**2)


def torque_lever(
    section: Section,
    thread_friction: float,
    head_friction: float,
    bearing_diameter: float,
    hole_diameter: float,
    head_angle: float = 180.0,
) -> float:
    """Return the lever by which a preload becomes a tightening torque [mm].

    ``bearing_diameter`` and ``hole_diameter`` bound the bearing face; ``head_angle`` is 180 for a flat face and 90 for
    a countersunk head, whose cone multiplies the friction by 1/sin(45).

    Source: VDI 2230, MA = FM (0.159 P + 0.577 d2 muG + muK DKm/2).
    """
    mean_diameter = (bearing_diameter + hole_diameter) / 2
    under_head = head_friction * mean_diameter / 2 / math.sin(math.radians(head_angle / 2))
    return (
        section.pitch / (2 * math.pi)
        + section.pitch_diameter * thread_friction / (2 * math.cos(math.pi / 6))
        + under_head
    )


def tightening_torque(preload: float, lever: float) -> float:
    """Return the torque [N m] that makes a preload [N] at a lever [mm] of :func:`torque_lever`."""
    return preload * lever / 1000


def short_form_torque(nut_factor: float, preload: float, diameter: float) -> float:
    """Return the torque T = K F d [N m] for a preload [N] and diameter [mm] (Shigley; K 0.2 dry, 0.18 lubricated)."""
    return nut_factor * preload * diameter / 1000


def nut_factor(torque: float, preload: float, diameter: float) -> float:
    """Return the K of a torque [N m] and the preload [N] that it makes at a diameter [mm]."""
    return torque * 1000 / (preload * diameter)


def surface_pressure(preload: float, bearing_diameter: float, hole_diameter: float) -> float:
    """Return the pressure under a head [MPa]: preload [N] over the ring between the two diameters [mm]."""
    return preload / (math.pi / 4 * (bearing_diameter**2 - hole_diameter**2))


def breaking_torque(root_diameter_min: float, strengths: PropertyClass) -> float:
    """Return the least torque that breaks a screw in torsion alone [N m], from its smallest root diameter [mm].

    Source: ISO 898-7, MB = X Rm pi d3min^3 / 16; below class 8.8 the ratio of 8.8 is taken.
    """
    ratio = TORSION_RATIO.get(strengths.name, TORSION_RATIO["8.8"])
    return ratio * strengths.tensile_strength * math.pi * root_diameter_min**3 / 16 / 1000


def key_torque(across_flats: float, strength: float = KEY_STRENGTH) -> float:
    """Return the torque that a hexagon key stands [N m] for its width across flats [mm] and strength [MPa].

    Source: a key maker's note (mercurius.hu/bondhus), T = 0.2 S AF^3.
    """
    return 0.2 * strength * across_flats**3 / 1000


@dataclass(frozen=True, slots=True)
class ScrewAlone:
    """The screw alone at 90 % of its yield: preload [N] and torque [N m]."""

    preload: float
    torque: float


@dataclass(frozen=True, slots=True)
class TorqueAnswer:
    """The torque to use and the one never to exceed [N m], and the part that sets the limit."""

    recommended: float
    never_exceed: float
    limited_by: str


@dataclass(frozen=True, slots=True)
class PartLimit:
    """The torque [N m] and preload [N] at which one part of the joint reaches its limit, and how that was found."""

    part: str
    torque: float
    preload: float
    because: str


@dataclass(frozen=True, slots=True)
class HandTorque:
    """What a hand applies [N m]: gently and firmly, with the tool named."""

    tool: str
    lever: float | None
    gentle: float
    firm: float
    text: str
    source: str


@dataclass(frozen=True, slots=True)
class Tightening:
    """How tight: the screw alone, the torque for this joint, every part's limit, the hand, and what was assumed.

    ``clamp_force`` is the band of preload [N] at the recommended torque, from the highest friction to the lowest.
    """

    thread: str
    property_class: str
    screw: ScrewAlone
    torque: TorqueAnswer
    limits: tuple[PartLimit, ...]
    clamp_force: tuple[float, float]
    breaking_torque: float
    hand: HandTorque
    engagement: Engagement | None
    warnings: tuple[str, ...]
    assumed: dict[str, str]
    cautions: tuple[str, ...]
    source: str = SOURCE


def carriage_body() -> Material:
    """Return the material to reckon with for the body of a guide carriage, under the carriage's own name."""
    body = materials.material("steel")
    return replace(body, name=CARRIAGE_NAME, assumed=f"{CARRIAGE_NAME}: its body taken as {body.grade}")


def _thread(thread: str | ThreadSize) -> ThreadSize:
    """Return the thread that a designation names, if torques are held for its system."""
    size = threads.parse(thread) if isinstance(thread, str) else thread
    if size is None or size.pitch is None or size.system not in ("metric", "unified"):
        raise threads.ThreadError(
            f"thread {thread!r}: torques are held for metric and unified threads; accepted is a designation such as M8"
        )
    return size


def _tapped(into: str | Material | None) -> tuple[Material | None, bool, str]:
    """Return the material of the tapped part, whether it is a guide carriage, and what was assumed."""
    if into is None:
        return None, False, "a nut or thread of at least the screw's class, engaged over its full height"
    if isinstance(into, Material):
        return into, into.name == CARRIAGE_NAME, into.assumed
    if fold(into.strip()) in CARRIAGE:
        body = carriage_body()
        return body, True, body.assumed
    found = _material("into", into)
    return found, False, found.assumed


def _material(field: str, value: str | Material) -> Material:
    """Return a material, or let the error name the field that asked for it."""
    if isinstance(value, Material):
        return value
    try:
        return materials.material(value)
    except materials.UnknownMaterial as error:
        raise materials.UnknownMaterial(f"{field}: {error}") from error


def _hand(head: Head, breaking: float) -> HandTorque:
    """Return what a person applies with the ordinary tool of the head's drive."""
    breaks = f"in torsion alone the screw breaks at {breaking:.2g} N m."
    if head.drive_size is None:
        gentle, firm = SCREWDRIVER_TORQUE
        text = f"A firm turn of a screwdriver reaches {firm:g} N m; {breaks}"
        return HandTorque("screwdriver", None, gentle, firm, text, "Ergonomics 2007, 1404-1418; gentle common practice")
    lever = 12 * head.drive_size
    tool, source = f"{head.drive_size:g} mm spanner", "Spanner of 12 widths across flats; common practice"
    if head.drive == "hexagon socket":
        key = workshop.hexagon_key(head.drive_size)
        lever = key.long_arm if key is not None else lever
        tool, source = f"{head.drive_size:g} mm hexagon key", "ISO 2936 arm, from memory; pulls common practice"
    gentle, firm = (force * lever / 1000 for force in HAND_FORCE)
    text = (
        f"{HAND_FORCE[0]:g} N at the end of a {tool} ({lever:g} mm) make {gentle:.2g} N m, a firm {HAND_FORCE[1]:g} N "
        f"{firm:.2g} N m; {breaks}"
    )
    return HandTorque(tool, lever, gentle, firm, text, source)


def tighten(
    thread: str | ThreadSize,
    property_class: str = "8.8",
    friction: float | str | None = None,
    head: str = "socket",
    into: str | Material | None = None,
    engagement: float | None = None,
    clamped: str | Material | None = None,
    head_friction: float | None = None,
    hard_to_replace: bool = False,
    through: bool = False,
) -> Tightening:
    """Return how tight a screw may be done up in a joint.

    Args:
        thread: designation ("M8", "M8x1", "1/4-20") or thread.
        property_class: "4.6" to "12.9", "A2-50" to "A4-80".
        friction: coefficient, class "A" to "E" of VDI 2230, or None where nothing is stated.
        head: socket, hex, low, button, countersunk, pan, cheese.
        into: material of the tapped part, or "guide carriage"; None for a nut of the screw's class.
        engagement: engaged length of thread, point included [mm]; the rule of thumb where it is not stated.
        clamped: material under the head; None leaves the surface pressure out.
        head_friction: coefficient under the head where it differs from the thread's.
        hard_to_replace: the tapped part cannot be replaced or repaired.
        through: the screw's point stands out of the tapped part, so that all engaged threads are complete.

    Raises:
        ValueError: an input is not known; the message names the field, the value and an accepted example.
    """
    if engagement is not None and engagement <= 0:
        raise ValueError(f"engagement {engagement:g} must be a length above 0 mm, for example 8")
    size = _thread(thread)
    section = Section(float(size.diameter), float(size.pitch or 0))
    strengths = materials.property_class(property_class, size.diameter)
    band = workshop.screw_friction(friction)
    form = workshop.head(head, size.diameter)
    tapped, carriage, into_assumed = _tapped(into)
    strip_limits, limits_from = thread_limits(size)

    def lever(thread_friction: float) -> float:
        under_head = thread_friction if head_friction is None else head_friction
        angle = 90.0 if form.name == "countersunk" else 180.0
        return torque_lever(section, thread_friction, under_head, form.bearing_diameter, form.hole_diameter, angle)

    least, most = lever(band.lower), lever(band.upper)
    preload = assembly_preload(section, strengths.yield_strength, band.lower)
    spread = "" if band.upper == band.lower else f" to {band.upper:g}"
    assumed = {
        "friction": f"{band.lower:g}{spread}, {band.condition}",
        "head": f"{form.standards}: bearing {form.bearing_diameter:g} mm, hole {form.hole_diameter:g} mm",
        "screw": f"minimum yield {strengths.yield_strength:g} MPa ({strengths.source})",
        "recommended": f"{RECOMMENDED:g} of the never-exceed torque (common practice)",
    }
    if into_assumed:
        assumed["into"] = into_assumed

    if tapped is None and engagement is not None:
        assumed["engagement"] = f"{engagement:g} mm not judged: the material that it goes into is not stated"

    limits: list[PartLimit] = []

    def limit(part: str, force: float, because: str) -> None:
        limits.append(PartLimit(part, tightening_torque(force, least), force, because))

    limit("screw", preload, "90 % of the screw's yield in tension and torsion")
    if form.load_factor < 1:
        limit("head", form.load_factor * preload, f"{form.load_factor:.0%} of the thread's load: {form.source}")
    if form.drive == "hexagon socket" and form.drive_size is not None:
        because = f"a {form.drive_size:g} mm key yields: 0.2 x {KEY_STRENGTH:g} MPa x AF^3"
        limit("drive", key_torque(form.drive_size) * 1000 / least, because)
    held: Engagement | None = None
    if tapped is not None:
        if engagement is None:
            engagement = rule_of_thumb(tapped.kind).diameters * section.diameter
            assumed["engagement"] = f"{engagement:g} mm, the rule of thumb for {tapped.kind}"
        runout = 0.0 if through else POINT_RUNOUT
        held = judge(strip_limits, engagement, tapped, strengths, section.stress_area, preload, runout)
        assumed["threads"] = "; ".join((limits_from, *held.assumed))
        because = (
            f"strips at {held.strip_load:.0f} N over {held.effective:.3g} mm of full thread; "
            f"it must hold {held.needed_margin:g} times the preload"
        )
        limit(held.gives, held.strip_load / held.needed_margin, because)
    if clamped is not None:
        under = _material("clamped", clamped)
        face = surface_pressure(1.0, form.bearing_diameter, form.hole_diameter)
        because = f"{under.grade} is crushed above {under.surface_pressure:g} MPa under the head"
        limit("bearing surface", under.surface_pressure / face, because)
        if under.assumed:
            assumed["clamped"] = under.assumed

    weakest = min(limits, key=lambda part: part.torque)
    recommended = RECOMMENDED * weakest.torque
    stainless = workshop.stainless_breaking_torque(strengths.name, size.diameter) if strengths.stainless else None
    breaking = stainless[0] if stainless else breaking_torque(strip_limits.root_min, strengths)
    hand = _hand(form, breaking)
    return Tightening(
        thread=size.designation,
        property_class=strengths.name,
        screw=ScrewAlone(preload, tightening_torque(preload, least)),
        torque=TorqueAnswer(recommended, weakest.torque, weakest.part),
        limits=tuple(limits),
        clamp_force=(recommended * 1000 / most, recommended * 1000 / least),
        breaking_torque=breaking,
        hand=hand,
        engagement=held,
        warnings=_warnings(section, held, hand, weakest.torque, carriage or hard_to_replace),
        assumed=assumed,
        cautions=_cautions(strengths, form, tapped, breaking),
    )


def thread_warning(diameter: float, engaged: float, rule_diameters: float, fragile: bool) -> str:
    """Return what to tell of a small or shallow thread; empty where it is neither.

    Args:
        diameter: thread diameter [mm].
        engaged: engagement [mm].
        rule_diameters: what the rule of thumb asks for, in thread diameters.
        fragile: the tapped part cannot be replaced or repaired (a guide carriage).
    """
    small, shallow = diameter <= SMALL_THREAD, engaged < max(rule_diameters, 1.5) * diameter
    if fragile and (small or shallow):
        return (
            f"Shallow, small and hard to replace: {engaged:g} mm ({engaged / diameter:.2g} d) of thread in a part "
            "that cannot be repaired. Measure the screw against the hole, turn it in by hand to the end, and "
            "tighten with a torque driver; a stripped thread here costs the whole part."
        )
    if small and shallow:
        return (
            f"A shallow thread: {engaged:g} mm are {engaged / diameter:.2g} d, the rule of thumb asks for "
            f"{rule_diameters:g} d. It strips easily; if the part is hard to replace, use a torque driver."
        )
    return ""


def _warnings(
    section: Section, held: Engagement | None, hand: HandTorque, never_exceed: float, fragile: bool
) -> tuple[str, ...]:
    """Return what a builder must be told about this very joint."""
    warnings = []
    if held is not None:
        told = thread_warning(section.diameter, held.engaged, held.rule.diameters, fragile)
        warnings += [told] if told else []
        if not held.holds_preload:
            warnings.append(f"The thread does not hold the screw at its full torque: {'; or '.join(held.advice)}.")
    if hand.firm > never_exceed:
        warnings.append(
            f"A firm pull by hand ({hand.firm:.2g} N m) goes past the {never_exceed:.4g} N m never to exceed."
        )
    return tuple(warnings)


def _cautions(strengths: PropertyClass, head: Head, tapped: Material | None, breaking: float) -> tuple[str, ...]:
    """Return the cautions that belong to this joint, the general ones last."""
    found = [cautions.TORQUE]
    if strengths.name == "12.9":
        found.append(cautions.BRITTLE_SCREW)
    if strengths.stainless:
        found += [cautions.STAINLESS, cautions.SOFT_SOCKET]
    if head.load_factor < 1:
        found.append(cautions.REDUCED_HEAD)
    if tapped is not None and tapped.kind == "plastic":
        found.append(cautions.PLASTIC_THREAD)
    elif tapped is not None and tapped.kind in ("aluminium", "brass", "bronze", "zinc"):
        found.append(cautions.SOFT_THREAD)
    if breaking < SMALL_SCREW_TORQUE:
        found.append(cautions.SMALL_SCREW)
    if tapped is not None:
        found.append(cautions.BLIND_HOLE)
    return (*found, cautions.TORQUE_SCATTER, cautions.GENERAL)
