"""Belt paths: two pulleys, many pulleys, open belts."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.strength import belts
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


def test_open_path_from_clamp_to_clamp() -> None:
    """Out to a pulley, half around it and back: two runs and half a turn; the same mirrored, and over an idler."""
    ends = Pulley(0, -6, 0), Pulley(0, 6, 0)
    path = belts.open_path([ends[0], Pulley(300, 0, 12), ends[1]])
    assert path.length == pytest.approx(600 + math.pi * 6)
    assert path.wraps == pytest.approx((math.pi,))
    over = belts.open_path([ends[0], Pulley(100, -6 - 5, 10, back=True), Pulley(300, 0, 12), ends[1]])
    assert over.length == pytest.approx(path.length)
    assert belts.open_path(ends).length == pytest.approx(12)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: belts.open_belt_length(40, 10, 5), "centre distance 5"),
        (lambda: belts.centre_distance(40, 40, 120), "pitch_length 120"),
        (lambda: belts.path([Pulley(0, 0, 10)]), "at least two"),
        (lambda: belts.path([Pulley(0, 0, 50), Pulley(10, 0, 10)]), "overlap"),
        (lambda: belts.open_path([Pulley(0, 0, 0)]), "two clamps"),
    ],
)
def test_impossible_paths_are_refused(call: object, says: str) -> None:
    """What cannot be is named with its value."""
    with pytest.raises(ValueError, match=says):
        call()  # type: ignore[operator]
