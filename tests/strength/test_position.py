"""Fixed and floating fasteners; patterns of holes that bolt together or do not."""

import math

import pytest

from service.strength import position
from service.strength.position import pattern_fit, row


def test_floating_has_twice_the_tolerance_of_fixed() -> None:
    """H - F for a bolt and nut, half of it where one part is tapped; and back to the hole."""
    assert position.floating_tolerance(5.5, 5.0) == pytest.approx(0.5)
    assert position.fixed_tolerance(5.5, 5.0) == pytest.approx(0.25)
    assert position.floating_hole(5, 0.5) == pytest.approx(5.5)
    assert position.fixed_hole(5, 0.25, 0.25) == pytest.approx(5.5)


def test_without_a_projected_zone_a_leaning_screw_needs_more() -> None:
    """A screw that leans in 8 mm of thread leans twice more per 8 mm of plate."""
    assert position.fixed_hole(5, 0.2, 0.2, depth=8, clamped_thickness=8) == pytest.approx(5.8)


def test_virtual_condition() -> None:
    """A hole's boundary is smaller than the hole, a pin's larger than the pin."""
    assert position.virtual_condition(5.5, 0.3, hole=True) == pytest.approx(5.2)
    assert position.virtual_condition(5.0, 0.3, hole=False) == pytest.approx(5.3)


def test_replacement_rail_on_the_old_holes() -> None:
    """The same pitch bolts up; 25 mm against 24.5 mm over five holes does not."""
    old = row(25, 5)
    same = pattern_fit(row(25, 5, start=3), old, 3.4, 3.0)
    assert same.fits
    assert same.offset == pytest.approx(0, abs=1e-9)
    assert same.shift == pytest.approx((3, 0))
    other = pattern_fit(row(24.5, 5), old, 3.4, 3.0)
    assert not other.fits
    assert other.offset == pytest.approx(1.0, abs=1e-6)
    assert "does not bolt up" in other.text


def test_error_is_shared_between_both_ends() -> None:
    """0.3 mm over the length of a row is 0.15 at each end, within 0.2 of play."""
    assert pattern_fit(row(100.3, 2), row(100, 2), 3.4, 3.0).offset == pytest.approx(0.15, abs=1e-6)
    assert pattern_fit(row(100.3, 2), row(100, 2), 3.4, 3.0).fits


def test_position_tolerances_make_it_uncertain() -> None:
    """Within the play at best, past it with both tolerances used up: may bolt up."""
    fit = pattern_fit(row(100.3, 2), row(100, 2), 3.4, 3.0, tolerance_one=0.1, tolerance_other=0.1)
    assert fit.fits
    assert not fit.always_fits
    assert "may bolt up" in fit.text


def test_bolts_through_both_parts_have_play_in_both() -> None:
    """A floating joint adds the play of the second hole."""
    fixed = pattern_fit(row(100.7, 2), row(100, 2), 3.4, 3.0)
    floating = pattern_fit(row(100.7, 2), row(100, 2), 3.4, 3.0, "floating")
    assert not fixed.fits
    assert floating.fits
    assert floating.allowed == pytest.approx(2 * fixed.allowed)


def test_a_turned_pattern_is_turned_back() -> None:
    """A square turned by a degree about a far point fits after turning and not without."""
    square = [(0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)]
    cos, sin = math.cos(math.radians(1)), math.sin(math.radians(1))
    turned = [(cos * x - sin * y + 7, sin * x + cos * y - 2) for x, y in square]
    fit = pattern_fit(square, turned, 3.4, 3.0)
    assert fit.offset == pytest.approx(0, abs=1e-6)
    assert fit.turn == pytest.approx(-1, abs=1e-6)
    assert pattern_fit(square, turned, 3.4, 3.0, may_turn=False).offset > 0.3


def test_single_odd_hole_is_named() -> None:
    """The worst pair is the hole that stands apart."""
    holes = list(row(20, 4))
    odd = [*holes[:2], (40.0, 0.9), holes[3]]
    assert pattern_fit(holes, odd, 3.4, 3.0, may_turn=False).offset == pytest.approx(0.45)


def test_patterns_of_different_count_are_refused() -> None:
    """Both parts need the same number of holes."""
    with pytest.raises(ValueError, match="3 holes against 2"):
        pattern_fit(row(20, 3), row(20, 2), 3.4, 3.0)


def test_share_of_parts_that_bolt_together() -> None:
    """One hole on its place follows the Rayleigh distribution; holes multiply; an offset lowers the share."""
    alone = position.share_that_bolts([0.0], 0.3, 0.6)
    assert alone == pytest.approx(1 - math.exp(-(0.3**2) / (2 * 0.1**2)), abs=1e-4)
    assert position.share_that_bolts([0.0] * 4, 0.3, 0.6) == pytest.approx(alone**4)
    assert position.share_that_bolts([0.25], 0.3, 0.6) < position.share_that_bolts([0.1], 0.3, 0.6) < alone
    assert position.share_that_bolts([0.2], 0.3) == 1
    assert position.share_that_bolts([0.2, 0.4], 0.3) == 0
    assert position.share_that_bolts([0.0], 0.0, 0.2) == 0


def test_grids_and_circles() -> None:
    """Two rows are a row twice; four holes on a circle are a square turned by an eighth."""
    assert position.grid(25, 3, 10, 2) == (*row(25, 3), *row(25, 3, y=10))
    square = position.grid(math.sqrt(2) * 10, 2, math.sqrt(2) * 10, 2)
    around = position.circle(20, 4)
    assert math.dist(around[0], around[1]) == pytest.approx(math.dist(square[0], square[1]))
