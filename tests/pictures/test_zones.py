"""The zones of a pair: every length on the paper is in proportion to what it stands for."""

from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from service.pictures.zones import Zone, scale_for, zones
from tests.pictures.conftest import Picture

Read = Callable[[str], Picture]

BORE, PIN = Zone("bore 5 H7", 5, 5.012), Zone("pin 5 m6", 5.004, 5.012, True)
WANTED = (-0.016, 0.011)


def test_zones_are_as_tall_as_their_tolerances(picture: Read) -> None:
    """12 and 8 micrometres, and a clearance that spans both."""
    drawn = picture(zones("a", BORE, PIN, 5, "mm", WANTED))
    each = drawn.one("hole")["height"] / 0.012
    assert drawn.one("shaft")["height"] == pytest.approx(each * 0.008, abs=0.02)
    assert drawn.all("clearance")[0]["height"] == pytest.approx(each * 0.020, abs=0.02)
    assert drawn.one("wanted")["height"] == pytest.approx(each * 0.027, abs=0.02)


def test_zones_lie_where_their_limits_are_over_the_zero_line(picture: Read) -> None:
    """The bore stands on it, the pin begins 4 micrometres above, the clearance reaches 12 below."""
    drawn = picture(zones("a", BORE, PIN, 5, "mm", WANTED))
    zero = drawn.one("zero")["y1"]
    each = drawn.one("hole")["height"] / 0.012

    def bottom(shape: dict[str, float]) -> float:
        return shape["y"] + shape["height"]

    assert bottom(drawn.one("hole")) == pytest.approx(zero, abs=0.02)
    assert bottom(drawn.one("shaft")) == pytest.approx(zero - 0.004 * each, abs=0.02)
    assert bottom(drawn.all("clearance")[0]) == pytest.approx(zero + 0.012 * each, abs=0.02)
    assert bottom(drawn.one("wanted")) == pytest.approx(zero + 0.016 * each, abs=0.02)


def test_only_the_clearance_that_is_wanted_is_filled(picture: Read) -> None:
    """An empty box for all of it, and a filled one for the share inside the window."""
    drawn = picture(zones("a", Zone("bore", 7.992, 8, True), Zone("shaft 8 h6", 7.991, 8), 8, "mm", (0, 0.029)))
    whole, filled = drawn.all("clearance")
    assert whole["height"] == pytest.approx(filled["height"] * 17 / 9, abs=0.05)
    assert filled["y"] == pytest.approx(whole["y"], abs=0.01)
    nothing = picture(zones("a", BORE, Zone("pin 8 m6", 8.006, 8.015), 5, "mm", WANTED))
    assert len(nothing.all("clearance")) == 1


def test_the_section_is_to_scale_and_the_part_lies_above_a_hole_that_it_cannot_enter(picture: Read) -> None:
    """An 8 mm pin over a 5 mm hole is 1.6 times as wide."""
    drawn = picture(zones("a", BORE, Zone("pin 8 m6", 8.006, 8.015), 5))
    left, right = drawn.all("block")
    hole = right["x"] - left["x"] - left["width"]
    part = drawn.one("part")
    assert part["width"] / hole == pytest.approx(8.0105 / 5.006, abs=0.01)
    assert part["y"] + part["height"] == pytest.approx(left["y"], abs=0.01)
    assert "does not go in" in drawn.words
    inside = picture(zones("a", BORE, PIN, 5)).one("part")
    assert inside["y"] + inside["height"] > left["y"]


def test_the_magnification_is_stated(picture: Read) -> None:
    """As the ratio of the two scales of the picture."""
    drawn = picture(zones("a", BORE, PIN, 5, "mm", WANTED))
    each = drawn.one("hole")["height"] / 0.012
    times = each / (drawn.one("part")["width"] / 5.008)
    said = next(text for text in drawn.words if "times as large" in text)
    assert float(said.split("limits, ")[1].split(" times")[0]) == pytest.approx(times, rel=0.05)


def test_limits_are_written_in_full(picture: Read) -> None:
    """With a true minus sign, without binary noise, and for screen readers as well."""
    drawn = picture(zones("a", BORE, PIN, 5, "mm", WANTED))
    assert {"5.012", "5.004", "0.008", "−0.012", "−0.016", "0.011"} <= set(drawn.words)
    assert "clearance −0.012 to 0.008 mm" in drawn.text


def test_names_are_escaped(picture: Read) -> None:
    """What a buyer writes never becomes markup."""
    assert "<b>" not in zones("a", Zone("<b>&", 5, 5.012), PIN, 5)
    picture(zones("a", Zone("<b>&", 5, 5.012), PIN, 5))


SIZES = st.floats(0.5, 400)
TOLERANCES = st.floats(0, 0.5)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(SIZES, TOLERANCES, SIZES, TOLERANCES)
def test_any_pair_stays_on_its_paper(picture: Read, hole: float, open_: float, shaft: float, thick: float) -> None:
    """Whatever the sizes are; one scale holds them all."""
    pair = Zone("bore", hole, hole + open_), Zone("part", shaft, shaft + thick)
    drawn = picture(zones("a", *pair, hole))
    scale = scale_for(*pair, hole, None)
    for name, low in (("hole", 0.0), ("shaft", shaft - hole)):
        shape = drawn.one(name)
        assert 0 <= shape["y"] <= shape["y"] + shape["height"] <= 272
        thin = shape["height"] <= 1.5
        assert thin or shape["y"] + shape["height"] == pytest.approx(scale.y(low), abs=0.02)
