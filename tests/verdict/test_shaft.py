"""Parts on a shaft."""

from decimal import Decimal

from service.verdict.model import Window


def test_bearing_on_a_shaft(reading, verdict) -> None:
    """A bore of 7.992..8 on 8 h6 has -0.008..0.009: bore minus shaft."""
    bearing = reading("ball bearing", bore="7.992..8.000", outer_diameter="22 h6")
    found = verdict(bearing, shaft="8 h6", fit="-0.010..0.010")
    assert found.verdict == "fits"
    assert found.readings[0].clearance == Window(Decimal("-0.008"), Decimal("0.009"))


def test_smaller_bore_does_not_go_on(reading, verdict) -> None:
    """A 6 mm bore does not go onto 8 mm."""
    found = verdict(reading("ball bearing", bore="6 H7"), shaft="8 h6", fit="slip")
    assert (found.verdict, found.readings[0].findings[0].code) == ("wrong", "does-not-enter")


def test_pin_has_no_bore(reading, verdict) -> None:
    """A pin, and a nut with its threaded hole, go onto no shaft."""
    for part in (reading("parallel pin", outer_diameter="8 m6"), reading("hex nut", internal_thread="M8", bore="8 H7")):
        assert verdict(part, shaft="8 h6", fit="slip").readings[0].findings[0].code == "wrong-kind"


def test_missing_bore_is_open(reading, verdict) -> None:
    """A coupling whose bore the line does not say must be asked for."""
    assert verdict(reading("shaft coupling", missing=("bore",)), shaft="8 h6", fit="slip").verdict == "ask"


def test_retaining_ring_is_made_for_one_shaft(reading, verdict) -> None:
    """A ring for 10 mm goes onto a 10 mm shaft and no other; one for a bore goes into that bore."""
    ring = reading("external retaining ring", shaft_size="10")
    assert verdict(ring, shaft="10 h9").verdict == "fits"
    assert verdict(ring, shaft="12 h9").readings[0].findings[0].code == "wrong-size"
    assert verdict(reading("external retaining ring"), shaft="12 h9").verdict == "ask"
    assert verdict(reading("internal retaining ring", hole_diameter="22"), bore="22 H8").verdict == "fits"


def test_linear_bearing_without_a_fit_wants_its_shaft(reading, verdict) -> None:
    """It runs on g6 to h6."""
    bearing = reading("linear ball bearing", bore="8", outer_diameter="15")
    assert verdict(bearing, shaft="8 h6").verdict == "fits"
    assert verdict(bearing, shaft="8 g6").verdict == "fits"
    assert verdict(bearing, shaft="8 f7").verdict == "marginal"
    assert verdict(bearing, shaft="8 m6").verdict == "wrong"


def test_collar_is_bought_for_its_shaft(reading, verdict) -> None:
    """By the nominal size: it is clamped."""
    collar = reading("shaft collar", bore="8", shaft_size="8")
    assert verdict(collar, shaft="8 h9").verdict == "fits"
    assert verdict(collar, shaft="10 h9").verdict == "wrong"
