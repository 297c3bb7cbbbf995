"""Tightening: the screw alone, what limits the joint, warnings, cautions and clear errors."""

import re

import pytest

from service.strength import cautions, screws
from service.strength.screws import Section, tighten


def test_screw_alone_at_ninety_percent_of_yield() -> None:
    """The plain request gives the screw's own preload and torque, and they limit the joint in steel."""
    answer = tighten("M8", "8.8", 0.12, "socket", into="steel", engagement=8)
    assert answer.screw.preload == pytest.approx(18600, abs=50)
    assert answer.screw.torque == pytest.approx(24.9, abs=0.05)
    assert answer.torque.limited_by == "screw"
    assert answer.torque.never_exceed == answer.screw.torque
    assert answer.torque.recommended == pytest.approx(0.8 * answer.torque.never_exceed)


def test_only_the_thread_is_required() -> None:
    """Everything else has a stated assumption."""
    answer = tighten("M5")
    assert answer.property_class == "8.8"
    assert answer.screw.torque == pytest.approx(5.35, abs=0.01)  # friction 0.10, regression
    assert {"friction", "into", "head", "screw", "recommended"} <= set(answer.assumed)
    assert answer.engagement is None


@pytest.mark.parametrize(
    ("thread", "property_class", "friction", "preload", "torque"),
    [
        ("M2", "8.8", 0.10, 1060, 0.33),
        ("M3", "12.9", 0.12, 4380, 2.27),
        ("M4", "10.9", 0.14, 6320, 4.95),
        ("M6", "A2-70", 0.12, 7160, 7.23),
        ("M16", "8.8", 0.10, 82900, 181),
    ],
)
def test_regression_of_the_socket_head_table(
    thread: str, property_class: str, friction: float, preload: float, torque: float
) -> None:
    """Figures worked out once by hand stay what they were."""
    answer = tighten(thread, property_class, friction)
    assert answer.screw.preload == pytest.approx(preload, rel=0.005)
    assert answer.screw.torque == pytest.approx(torque, rel=0.015)


def test_less_friction_means_more_preload_and_less_torque() -> None:
    """A slippery screw reaches its yield at a lower torque: the reason to reckon with the lowest friction."""
    dry, slippery = tighten("M5", friction=0.20), tighten("M5", friction=0.08)
    assert slippery.screw.preload > dry.screw.preload
    assert slippery.screw.torque < dry.screw.torque


def test_friction_class_uses_its_lower_end_and_shows_the_band() -> None:
    """A class of VDI 2230 limits the torque by its lowest friction and the clamping force by its highest."""
    answer = tighten("M5", friction="B")
    assert answer.screw.torque == tighten("M5", friction=0.08).screw.torque
    assert answer.clamp_force[0] < answer.clamp_force[1]
    assert "0.08 to 0.16" in answer.assumed["friction"]


@pytest.mark.parametrize("head", ["button", "countersunk", "low", "pan"])
def test_reduced_heads_carry_less(head: str) -> None:
    """A shallow head limits the joint to 80 % of its thread and says so."""
    answer = tighten("M5", "8.8", 0.12, head)
    assert answer.torque.limited_by == "head"
    assert answer.torque.never_exceed == pytest.approx(0.8 * answer.screw.torque)
    assert cautions.REDUCED_HEAD in answer.cautions


def test_cone_of_a_countersunk_head_takes_more_torque() -> None:
    """The same bearing face as a cone needs more torque for the same preload."""
    section = Section(5, 0.8)
    flat = screws.torque_lever(section, 0.12, 0.12, 9.43, 5.5)
    cone = screws.torque_lever(section, 0.12, 0.12, 9.43, 5.5, 90)
    assert cone > 1.15 * flat


def test_strong_screw_in_aluminium_is_limited_by_the_thread() -> None:
    """A 12.9 screw 6 mm deep in 6061-T6 may not see its full torque, an 8.8 screw may."""
    strong = tighten("M4", "12.9", 0.1, into="6061-T6", engagement=6)
    assert strong.torque.limited_by == "internal thread"
    assert strong.torque.never_exceed < 0.8 * strong.screw.torque
    assert any("does not hold" in warning for warning in strong.warnings)
    assert cautions.SOFT_THREAD in strong.cautions
    assert cautions.BRITTLE_SCREW in strong.cautions
    ordinary = tighten("M4", "8.8", 0.1, into="6061-T6", engagement=6)
    assert ordinary.torque.limited_by == "screw"


def test_small_key_limits_a_strong_screw() -> None:
    """The drive is one of the limits: its key yields at 0.2 S AF^3."""
    assert screws.key_torque(1.5) == pytest.approx(1.02, abs=0.01)
    assert next(part.torque for part in tighten("M3", head="button").limits if part.part == "drive") == pytest.approx(
        2.4
    )


def test_soft_part_under_the_head_is_crushed() -> None:
    """Under a small head on plastic the bearing surface gives first."""
    answer = tighten("M6", "8.8", 0.12, clamped="POM")
    assert answer.torque.limited_by == "bearing surface"
    assert answer.limits[-1].preload == pytest.approx(60 * 3.14159 / 4 * (9.38**2 - 6.6**2), rel=1e-4)


def test_guide_carriage_is_warned_of() -> None:
    """A shallow small thread in a guide carriage gets an explicit warning."""
    answer = tighten("M3", "A2-70", into="guide carriage", engagement=3.5)
    assert any(warning.startswith("Shallow, small and hard to replace") for warning in answer.warnings)
    assert cautions.STAINLESS in answer.cautions
    same = tighten("M3", into="steel", engagement=3.5, hard_to_replace=True)
    assert any(warning.startswith("Shallow, small and hard to replace") for warning in same.warnings)
    assert not any(warning.startswith("Shallow,") for warning in tighten("M8", into="steel", engagement=12).warnings)


def test_plastic_gets_a_caution_instead_of_trust() -> None:
    """In plastic the thread limits the torque and a trial is asked for."""
    answer = tighten("M4", into="POM", engagement=10)
    assert answer.torque.limited_by == "internal thread"
    assert answer.torque.never_exceed < 0.5
    assert cautions.PLASTIC_THREAD in answer.cautions


def test_hand_goes_past_what_a_small_screw_stands() -> None:
    """The figure for the hand names key and lever, and warns where a firm pull is too much."""
    answer = tighten("M3", into="steel", engagement=6)
    assert answer.hand.tool == "2.5 mm hexagon key"
    assert answer.hand.firm == pytest.approx(5.85)
    assert any("firm pull" in warning for warning in answer.warnings)
    assert cautions.SMALL_SCREW in answer.cautions
    assert tighten("M4", head="pan").hand.tool == "screwdriver"
    assert tighten("M12", head="hex").hand.tool == "18 mm spanner"


def test_general_caution_stands_beside_every_torque() -> None:
    """Whatever the joint, the general caution and the scatter of a torque wrench are printed."""
    for answer in (tighten("M2"), tighten("M16", "10.9", into="steel"), tighten("M5", "A4-80", head="button")):
        assert answer.cautions[-2:] == (cautions.TORQUE_SCATTER, cautions.GENERAL)


def test_breaking_torque_from_the_smallest_root() -> None:
    """A steel screw by formula (regression: M3 8.8 is 1.59 N m), a stainless one by the table of ISO 3506-1."""
    assert tighten("M3").breaking_torque == pytest.approx(1.587, abs=0.002)
    assert tighten("M3", "A2-70").breaking_torque == 1.6


def test_short_form_and_its_factor_are_inverse() -> None:
    """T = K F d, and K back from T."""
    torque = screws.short_form_torque(0.2, 5964, 5)
    assert screws.nut_factor(torque, 5964, 5) == pytest.approx(0.2)


@pytest.mark.parametrize(
    ("given", "names"),
    [
        ({"thread": "Q7"}, "thread 'Q7'"),
        ({"thread": "G 1/8"}, "thread 'G 1/8'"),
        ({"thread": "M5", "property_class": "7.7"}, "property_class '7.7'"),
        ({"thread": "M5", "friction": "oily"}, "friction 'oily'"),
        ({"thread": "M5", "friction": 3}, "friction 3"),
        ({"thread": "M5", "head": "mushroom"}, "head 'mushroom'"),
        ({"thread": "M5", "into": "butter"}, "into: material 'butter'"),
        ({"thread": "M5", "into": "steel", "engagement": 0}, "engagement 0"),
        ({"thread": "M30", "property_class": "A2-70"}, "property_class A2-70"),
    ],
)
def test_bad_input_names_field_and_value(given: dict[str, object], names: str) -> None:
    """An unknown input is refused with its field and value."""
    with pytest.raises(ValueError, match=re.escape(names)):
        tighten(**given)  # type: ignore[arg-type]
