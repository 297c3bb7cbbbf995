"""Strip areas, engagement judged by shear area and by rule of thumb, blind holes, protrusion and lengths."""

from decimal import Decimal

import pytest

from reference import threads
from reference.materials import material, property_class
from service.strength import engagement
from service.strength.engagement import Engagement, judge, thread_limits
from service.strength.screws import Section, assembly_preload


def _judge(thread: str, engaged: float, into: str, name: str, friction: float = 0.1) -> Engagement:
    size = threads.parse(thread)
    assert size is not None
    assert size.pitch is not None
    section = Section(float(size.diameter), float(size.pitch))
    strengths = property_class(name, size.diameter)
    preload = assembly_preload(section, strengths.yield_strength, friction)
    return judge(thread_limits(size)[0], engaged, material(into), strengths, section.stress_area, preload)


def test_six_millimetres_of_m4_in_6061() -> None:
    """1.5 d hold an 8.8 screw at full preload and do not hold a 12.9 screw; both ways of judging are shown."""
    ordinary, strong = _judge("M4", 6, "6061-T6", "8.8"), _judge("M4", 6, "6061-T6", "12.9")
    assert ordinary.diameters == strong.diameters == 1.5
    assert ordinary.holds_preload
    assert ordinary.screw_breaks_first
    assert not strong.holds_preload
    assert strong.gives == "internal thread"
    assert not strong.meets_rule
    assert strong.rule_length == 8
    assert strong.needed_for_preload > 6


def test_what_to_do_where_it_does_not_hold() -> None:
    """The advice names less torque, a lower class that holds, a deeper thread and an insert."""
    advice = " / ".join(_judge("M4", 6, "6061-T6", "12.9").advice)
    for part in ("no more than", "8.8 holds", "7.7 mm", "insert"):
        assert part in advice


def test_a_lower_class_is_only_advised_where_it_holds() -> None:
    """With hardly any thread no class holds, and none is named."""
    assert not any("lower property class" in text for text in _judge("M4", 1, "6061-T6", "12.9").advice)


def test_needed_lengths_are_enough() -> None:
    """Engaged by the length asked for, the thread just holds, and just outlasts the screw."""
    short = _judge("M5", 4, "6061-T6", "10.9")
    assert _judge("M5", short.needed_for_preload + 1e-6, "6061-T6", "10.9").holds_preload
    assert not _judge("M5", short.needed_for_preload - 1e-3, "6061-T6", "10.9").holds_preload
    assert _judge("M5", short.needed_to_break_screw + 1e-6, "6061-T6", "10.9").screw_breaks_first


def test_a_thread_that_holds_may_still_strip_before_the_screw_breaks() -> None:
    """Between the two lengths the advice says what would save the thread."""
    between = _judge("M5", 6, "6061-T6", "8.8")
    assert between.holds_preload
    assert not between.screw_breaks_first
    assert "strips before the screw breaks" in between.advice[0]


def test_hard_part_strips_the_screw_instead() -> None:
    """In a part stronger than the screw the screw's own thread gives."""
    assert _judge("M6", 6, "42CrMo4", "5.8").gives == "screw thread"


def test_point_alone_holds_nothing() -> None:
    """An engagement no longer than the incomplete point carries no load."""
    nothing = _judge("M5", 0.8, "steel", "8.8")
    assert nothing.effective == 0
    assert nothing.strip_load == 0
    assert not nothing.holds_preload


def test_regression_of_strip_areas() -> None:
    """Areas per millimetre worked out by hand: M3 5.547, M5 9.999 inside and 7.073 outside."""
    m3, m5 = (thread_limits(threads.metric(Decimal(size)))[0] for size in (3, 5))  # type: ignore[arg-type]
    assert engagement.internal_strip_area(m3, 1) == pytest.approx(5.547, abs=0.001)
    assert engagement.internal_strip_area(m5, 1) == pytest.approx(9.999, abs=0.001)
    assert engagement.external_strip_area(m5, 1) == pytest.approx(7.073, abs=0.001)
    assert engagement.length_for_load(14.2 * 800, 186, 9.999) == pytest.approx(6.108, abs=0.001)


def test_equal_materials_need_less_than_a_diameter() -> None:
    """Machinery's Handbook's length for nut and screw of one strength is about 0.8 d."""
    limits, _ = thread_limits(threads.parse("M10"))  # type: ignore[arg-type]
    assert engagement.equal_material_length(57.99, limits) == pytest.approx(0.745 * 10, abs=0.05)


def test_thread_without_tabulated_limits_is_said_to_be_worked_out() -> None:
    """A unified thread falls back on formulas and says so; they agree with the tables where both exist."""
    limits, how = thread_limits(threads.parse("1/4-20"))  # type: ignore[arg-type]
    assert "by the formulas" in how
    assert limits.minor_max < limits.pitch_min < limits.nut_pitch_max < limits.major_min < 6.35


def test_thread_without_flanks_of_sixty_degrees_is_refused() -> None:
    """A pipe thread has no strip areas here."""
    with pytest.raises(threads.ThreadError, match="metric and unified"):
        thread_limits(threads.parse("G 1/8"))  # type: ignore[arg-type]


@pytest.mark.parametrize(("angle", "depth"), [(118, 0.300), (135, 0.207)])
def test_drill_point(angle: float, depth: float) -> None:
    """The point of a drill is 0.300 d long at 118 degrees and 0.207 d at 135."""
    assert engagement.drill_point_length(1, angle) == pytest.approx(depth, abs=0.0005)


def test_usable_thread_of_a_blind_hole() -> None:
    """14 mm drilled for M5 leave 11.6 mm of full thread with a lead of three pitches; a shallow hole leaves none."""
    assert engagement.usable_thread(14, 0.8, 3) == pytest.approx(11.6)
    assert engagement.usable_thread(1, 0.8, 3) == 0


def test_screw_bottoms_before_it_clamps() -> None:
    """M5x16 through 5 mm reaches 11 mm into 10 mm of thread: it bottoms; M5x14 has 0.2 mm to spare."""
    long, right = (engagement.screw_in_blind_hole(length, 5, 10, 0.8) for length in (16, 14))
    assert long.bottoms
    assert long.reach == 11
    assert not right.bottoms
    assert right.spare == pytest.approx(0.2)
    assert right.engaged == 9


def test_countersink_is_not_engagement() -> None:
    """The mouth of the hole takes away from the thread that is engaged."""
    assert engagement.screw_in_blind_hole(14, 5, 10, 0.8, countersink=1).engaged == 8


def test_protrusion_from_a_nut() -> None:
    """Two pitches are enough, one is not unless the nut is a locking one, more than ten are too many."""
    assert engagement.nut_protrusion(20, 13.5, 4.7, 0.8).enough
    assert not engagement.nut_protrusion(20, 14.4, 4.7, 0.8).enough
    assert engagement.nut_protrusion(20, 14.4, 4.7, 0.8, prevailing=True).enough
    assert engagement.nut_protrusion(40, 13.5, 4.7, 0.8).too_long


def test_length_through_a_nut() -> None:
    """11 mm, two washers of 1 mm and an M5 nut of 4.7 mm want 19.3 mm, before rounding up."""
    assert engagement.length_through_nut(11, 4.7, 0.8, washers=2) == pytest.approx(19.3)


def test_rules_of_thumb_by_material() -> None:
    """1 d in steel, 1.5 d in brass and iron, 2 d in aluminium, 2.5 d in plastic; each with its source."""
    kinds = ("steel", "hardened steel", "brass", "cast iron", "aluminium", "plastic")
    assert [engagement.rule_of_thumb(kind).diameters for kind in kinds] == [1, 1, 1.5, 1.5, 2, 2.5]
    assert engagement.rule_of_thumb("aluminium").source
