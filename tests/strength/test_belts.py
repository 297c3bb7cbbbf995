"""Belt paths: two pulleys, many pulleys, tension travel, open belts."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.strength import belts, cautions
from service.strength.belts import Pulley

LARGE, SMALL = belts.toothed_diameter(60, 2), belts.toothed_diameter(20, 2)


def test_regressions_of_toothed_belts() -> None:
    """Lengths and centre distances of 2 mm and 5 mm belts, worked out by hand."""
    assert belts.open_belt_length(LARGE, SMALL, 80) == pytest.approx(242.031, abs=0.001)
    difference = belts.open_belt_length_approximate(LARGE, SMALL, 80) - belts.open_belt_length(LARGE, SMALL, 80)
    assert difference == pytest.approx(-0.00431, abs=1e-5)
    assert belts.centre_distance(LARGE, SMALL, 280) == pytest.approx(99.1816, abs=1e-4)
    assert belts.centre_distance(SMALL, SMALL, 400) == pytest.approx(180)
    five = belts.toothed_diameter(40, 5), belts.toothed_diameter(20, 5)
    assert belts.open_belt_length(*five, 200) == pytest.approx(551.267, abs=0.001)
    assert belts.centre_distance(*five, 560) == pytest.approx(204.380, abs=0.001)


@given(one=st.floats(5, 80), other=st.floats(5, 80), gap=st.floats(0.5, 500))
def test_path_of_two_pulleys_is_the_open_belt(one: float, other: float, gap: float) -> None:
    """The general path around two pulleys is the open-belt formula, and its wraps are the angles of wrap."""
    centres = (one + other) / 2 + gap
    path = belts.path([Pulley(0, 0, one), Pulley(centres, 0, other)])
    assert path.length == pytest.approx(belts.open_belt_length(one, other, centres), rel=1e-9)
    assert path.wraps == pytest.approx(belts.wrap_angles(one, other, centres))
    assert belts.centre_distance(one, other, path.length) == pytest.approx(centres, rel=1e-6)


def test_path_with_the_back_on_a_pulley_is_the_crossed_belt() -> None:
    """A pulley that the back runs on turns the other way, as in a crossed belt."""
    path = belts.path([Pulley(0, 0, 40), Pulley(100, 0, 20, back=True)])
    assert path.length == pytest.approx(belts.crossed_belt_length(40, 20, 100))


def test_triangle_of_equal_pulleys() -> None:
    """Three equal pulleys: the sides of the triangle and one full turn."""
    corners = [(0.0, 0.0), (60.0, 0.0), (0.0, 80.0)]
    path = belts.path([Pulley(x, y, 10) for x, y in corners])
    assert path.length == pytest.approx(60 + 80 + 100 + math.pi * 10)
    assert sum(path.wraps) == pytest.approx(2 * math.pi)


def test_back_idler_lengthens_the_path() -> None:
    """An idler pressed into the slack run from outside takes up belt."""
    plain = belts.path([Pulley(0, 0, 20), Pulley(100, 0, 20)])
    pressed = belts.path([Pulley(0, 0, 20), Pulley(100, 0, 20), Pulley(50, 12, 10, back=True)])
    assert pressed.length > plain.length
    assert belts.back_idler_diameter(12, 0.6) == pytest.approx(13.2)


def test_tension_travel_left() -> None:
    """A belt that is taut within the adjustment fits and tells what is left at either end."""
    fit = belts.closed_belt(LARGE, SMALL, 280, 97, 101, small_teeth=20, pitch=2)
    assert fit.fits
    assert fit.travel_left == pytest.approx(101 - 99.1816, abs=1e-4)
    assert fit.travel_to_fit == pytest.approx(99.1816 - 97, abs=1e-4)
    assert fit.teeth_in_mesh == pytest.approx(9.18, abs=0.005)
    assert cautions.BELT in fit.cautions


def test_belt_too_long_or_too_short() -> None:
    """Outside the adjustment the text says by how much."""
    assert not belts.closed_belt(LARGE, SMALL, 300, 97, 101).fits
    assert "Too long" in belts.closed_belt(LARGE, SMALL, 300, 97, 101).text
    assert "Too short" in belts.closed_belt(LARGE, SMALL, 260, 97, 101).text


def test_hints_at_few_teeth_and_no_slack() -> None:
    """Few teeth in mesh and no slack for fitting are said."""
    fit = belts.closed_belt(LARGE, SMALL, 280, 99, 101, small_teeth=10, pitch=2)
    assert "half a tooth" in fit.text
    assert "teeth are in mesh" in fit.text


def test_open_belt_between_clamps() -> None:
    """1203.4 mm of path and six teeth clamped at each end want 614 teeth of a 2 mm belt."""
    belt = belts.open_belt(1203.4, 2, 6)
    assert belt.teeth_needed == 614
    assert belt.length_needed == 1228
    assert belts.open_belt(1203.4, 2, 6, length=1230).spare == pytest.approx(2)
    short = belts.open_belt(1203.4, 2, 6, length=1200)
    assert not short.fits
    assert "Too short by 28 mm" in short.text
    assert "take up 10 mm" in belts.open_belt(1203.4, 2, 6, tension_travel=5).text


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: belts.open_belt_length(40, 10, 5), "centre distance 5"),
        (lambda: belts.centre_distance(40, 40, 120), "pitch_length 120"),
        (lambda: belts.path([Pulley(0, 0, 10)]), "at least two"),
        (lambda: belts.path([Pulley(0, 0, 50), Pulley(10, 0, 10)]), "overlap"),
        (lambda: belts.closed_belt(10, 10, 200, 90, 80), "centres_min 90"),
        (lambda: belts.open_belt(0, 2, 6), "path_length 0"),
    ],
)
def test_impossible_paths_are_refused(call: object, says: str) -> None:
    """What cannot be is named with its value."""
    with pytest.raises(ValueError, match=says):
        call()  # type: ignore[operator]
