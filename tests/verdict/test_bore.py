"""Parts against a bore."""

from decimal import Decimal

import pytest

from service.verdict.model import Window


def codes(found) -> list[str]:
    """Return the codes of all findings of the only reading."""
    return [finding.code for finding in found.readings[0].findings]


def test_pin_in_its_bore(reading, verdict) -> None:
    """A pin 5 m6 in 5 H7 for location fits: clearance -0.012..0.008 within -0.016..0.011; a press is cautioned."""
    found = verdict(reading("parallel pin", outer_diameter="5 m6"), bore="5 H7", fit="location")
    assert found.verdict == "fits"
    assert found.readings[0].clearance == Window(Decimal("-0.012"), Decimal("0.008"))
    assert codes(found) == ["within-fit", "transition"]
    assert found.readings[0].findings[1].numbers["interference_share"] == Decimal("0.7973")
    assert any("eye protection" in caution for caution in found.cautions)


def test_larger_pin_does_not_enter(reading, verdict) -> None:
    """A pin 8 m6 in 5 H7 is wrong by three millimetres, without a caution about pressing."""
    found = verdict(reading("parallel pin", outer_diameter="8 m6"), bore="5 H7", fit="location")
    assert (found.verdict, codes(found)) == ("wrong", ["does-not-enter"])
    assert found.readings[0].clearance == Window(Decimal("-3.015"), Decimal("-2.994"))
    assert found.cautions == ()


def test_pin_without_a_fit_is_judged_by_its_usual_hole(reading, verdict) -> None:
    """An m6 pin is made for H7: without a fit that is the requirement; an h8 pin has no such hole, so it is open."""
    assert verdict(reading("parallel pin", outer_diameter="5 m6"), bore="5 H7").verdict == "fits"
    assert verdict(reading("parallel pin", outer_diameter="5 m6"), bore="5 H11").verdict == "marginal"
    found = verdict(reading("parallel pin", outer_diameter="5 h8"), bore="5 H7")
    assert (found.verdict, codes(found)) == ("ask", ["fit-not-stated"])
    assert found.question is not None
    assert "fit" in found.question


def test_missing_diameter_is_open(reading, verdict) -> None:
    """A pin whose diameter the line does not say leaves the verdict open."""
    found = verdict(reading("parallel pin", missing=("outer_diameter",), length="20"), bore="5 H7", fit="location")
    assert (found.verdict, codes(found)) == ("ask", ["dimension-missing"])


@pytest.mark.parametrize(
    ("bore", "expected", "code"),
    [
        ("5 H12", "fits", "hole-as-made-for"),
        ("5 H7", "fits", "hole-as-made-for"),
        ("5 drilled", "marginal", "some-holes-outside"),
        ("5.4..5.6", "wrong", "hole-too-large"),
        ("4.8 H7", "wrong", "hole-too-small"),
        ("5", "ask", "limits-not-stated"),
        ("6", "wrong", "wrong-hole"),
    ],
)
def test_spring_pin_wants_its_own_hole(reading, verdict, bore: str, expected: str, code: str) -> None:
    """A 5 mm spring pin is made for a hole 5 H12, though it measures 5.4 to 5.6 mm."""
    pin = reading("slotted spring pin", hole_diameter="5 H12", outer_diameter="5.4..5.6")
    found = verdict(pin, bore=bore)
    assert (found.verdict, codes(found)) == (expected, [code])


def test_spring_pin_without_limits_takes_the_class_of_its_standard(reading, verdict) -> None:
    """Where only the size of the hole is known, H12 is what a spring pin's standard gives it."""
    assert verdict(reading("slotted spring pin", hole_diameter="5"), bore="5 H12").verdict == "fits"
    assert verdict(reading("slotted spring pin", hole_diameter="5"), bore="5.2 H12").verdict == "wrong"


def test_spring_pin_never_slips(reading, verdict) -> None:
    """A spring pin grips its hole: a slip fit is wrong, a press is what it is for."""
    pin = reading("slotted spring pin", hole_diameter="5 H12", outer_diameter="5.4..5.6")
    assert codes(verdict(pin, bore="5 H12", fit="slip")) == ["grips"]
    assert verdict(pin, bore="5 H12", fit="press").verdict == "fits"


@pytest.mark.parametrize(
    ("bore", "expected", "code"),
    [
        ("5.5 H13", "fits", "passes"),
        ("5.3 H12", "fits", "passes"),
        ("5 H7", "marginal", "closer-than-fine"),
        ("5 drilled", "marginal", "some-do-not-enter"),
        ("4.5 H13", "wrong", "does-not-enter"),
        ("7 H13", "marginal", "wider-than-coarse"),
        ("9 H13", "wrong", "head-falls-through"),
    ],
)
def test_screw_passes_a_clearance_hole(reading, verdict, bore: str, expected: str, code: str) -> None:
    """An M5 screw through a bore is compared with ISO 273: fine 5.3, medium 5.5, coarse 5.8 mm."""
    screw = reading("socket head cap screw", thread="M5", head_diameter="8.28..8.5", length="20")
    found = verdict(screw, bore=bore)
    assert (found.verdict, codes(found)) == (expected, [code])


def test_screw_does_not_locate(reading, verdict) -> None:
    """A fit by word is not for a screw; a window is compared with the crests of its thread 6g, 4.826..4.976."""
    screw = reading("socket head cap screw", thread="M5", length="20")
    assert codes(verdict(screw, bore="5 H7", fit="location")) == ["screw-does-not-locate"]
    found = verdict(screw, bore="5 H7", fit="0.02..0.19")
    assert found.verdict == "fits"
    assert found.readings[0].clearance == Window(Decimal("0.024"), Decimal("0.186"))


@pytest.mark.parametrize(
    ("family", "code"),
    [("hex nut", "wrong-kind"), ("storage module", "wrong-kind"), ("taper pin", "needs-tapered-hole")],
)
def test_other_kinds_do_not_go_into_a_bore(reading, verdict, family: str, code: str) -> None:
    """A nut goes into no bore, and a taper pin not into a parallel one."""
    found = verdict(reading(family, outer_diameter="5 m6"), bore="5 H7", fit="location")
    assert (found.verdict, codes(found)) == ("wrong", [code])


def test_shoulder_screw_goes_in_by_its_shoulder(reading, verdict) -> None:
    """The shoulder, not the thread, meets the bore."""
    screw = reading("shoulder screw", shoulder_diameter="6 f9", thread="M5")
    found = verdict(screw, bore="6 H7", fit="slip")
    assert found.readings[0].clearance == Window(Decimal("0.01"), Decimal("0.052"))
    assert found.verdict == "marginal"


def test_blind_hole_tells_how_a_pin_sits_and_comes_out(reading, verdict) -> None:
    """In a blind hole a tight pin without a thread cannot be pulled, traps air, and may stand out or sink."""
    long = verdict(
        reading("parallel pin", outer_diameter="5 m6", length="30"), bore="5 H7 depth 20 blind", fit="location"
    )
    assert codes(long)[2:] == ["stands-out", "not-removable", "trapped-air"]
    assert long.readings[0].findings[2].text.endswith("it stands out by 10 mm")
    short = reading("parallel pin with internal thread", outer_diameter="6 m6", internal_thread="M4", length="16")
    assert codes(verdict(short, bore="6 H7 depth 20 blind", fit="location"))[2:] == ["sits-below", "trapped-air"]
    assert long.verdict == "fits"


def test_bush_without_a_fit_wants_its_housing(reading, verdict) -> None:
    """Bushes and linear bearings are made for H7, whether their own limits are known or not."""
    bush = reading("plain bush", outer_diameter="10", bore="8")
    assert codes(verdict(bush, bore="10 H7")) == ["seat-as-made-for"]
    assert verdict(bush, bore="10 H7").verdict == "fits"
    assert codes(verdict(bush, bore="10 E8")) == ["wrong-seat"]
    wide = verdict(bush, bore="10 H9")
    assert (wide.verdict, codes(wide)) == ("marginal", ["some-seats-outside"])
    assert 0 < wide.share < 1
    assert verdict(bush, bore="10").verdict == "ask"
    assert verdict(bush, bore="12 H7").verdict == "wrong"
    assert verdict(bush, bore="10 H7", fit="press").verdict == "ask"
