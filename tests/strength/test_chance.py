"""Shares of pairs within a window, dates, good pieces and spares."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference.quantities import Limits
from service.strength import chance
from service.strength.chance import Distribution, Duration

HOLE = Limits(Decimal(5), Decimal("5.000"), Decimal("5.012"), "H7")
PIN = Limits(Decimal(5), Decimal("5.004"), Decimal("5.012"), "m6")


def _limits(lower: str, upper: str) -> Limits:
    return Limits(Decimal(lower), Decimal(lower), Decimal(upper))


def test_a_fifth_of_the_pins_of_a_press_fit_are_loose() -> None:
    """5 m6 in H7: 20.3 % of pairs have play under centred normal distributions."""
    assert 1 - chance.share_of_interference(HOLE, PIN).share == pytest.approx(0.2027, abs=0.0001)


def test_window_that_holds_the_worst_case_holds_every_pair() -> None:
    """No share is lost to the tails of the assumed distribution where every piece is within limits."""
    assert chance.share_within(Decimal("-0.012"), Decimal("0.008"), HOLE, PIN).share == 1
    assert chance.share_within(Decimal("-0.016"), Decimal("0.011"), HOLE, PIN).share == 1
    assert chance.share_within(Decimal("0.009"), Decimal("0.020"), HOLE, PIN).share == 0
    assert chance.share_within(Decimal("-0.03"), Decimal("-0.013"), HOLE, PIN).share == 0


def test_share_within_part_of_the_range() -> None:
    """Half of a symmetrical range holds half of the pairs; the worst case stands beside the share."""
    result = chance.share_within(Decimal("-0.012"), Decimal("-0.002"), HOLE, PIN)
    assert result.share == pytest.approx(0.5, abs=0.0001)
    assert result.worst_case == pytest.approx((-0.012, 0.008))
    assert result.mean == pytest.approx(-0.002)
    assert any("T/6" in text for text in result.assumed)


def test_uniform_is_the_cautious_choice() -> None:
    """Equal uniform tolerances give a triangle: exact shares; more pairs lie far out than under a normal."""
    one, other = _limits("10.0", "10.1"), _limits("10.0", "10.1")
    assert chance.share_within(-0.05, 0.05, one, other, "uniform").share == pytest.approx(0.75)
    assert chance.share_within(0.05, 1.0, one, other, "uniform").share == pytest.approx(0.125)
    assert chance.share_within(0.05, 1.0, one, other).share < 0.125


def test_uniform_against_an_exact_size() -> None:
    """A shaft without tolerance leaves the hole's own uniform distribution."""
    hole, shaft = _limits("10.0", "10.1"), _limits("10.0", "10.0")
    assert chance.share_within(0, 0.025, hole, shaft, "uniform").share == pytest.approx(0.25)


def test_sizes_without_tolerance() -> None:
    """Two exact sizes either lie in the window or do not."""
    hole, shaft = _limits("5.01", "5.01"), _limits("5.0", "5.0")
    assert chance.share_within(0, 0.02, hole, shaft).share == 1
    assert chance.share_of_interference(hole, shaft).share == 0


@given(
    widths=st.tuples(st.integers(0, 50), st.integers(0, 50)),
    cut=st.integers(-120, 120),
    distribution=st.sampled_from(["normal", "uniform"]),
)
def test_shares_on_both_sides_of_a_cut_make_one(widths: tuple[int, int], cut: int, distribution: Distribution) -> None:
    """What lies below and what lies above a clearance adds up to all pairs."""
    hole = Limits(Decimal(10), Decimal(10), Decimal(10) + Decimal(widths[0]) / 1000)
    shaft = Limits(Decimal(10), Decimal(10), Decimal(10) + Decimal(widths[1]) / 1000)
    at = (cut + 0.5) / 1000
    below = chance.share_within(-1.0, at, hole, shaft, distribution).share
    above = chance.share_within(at, 1.0, hole, shaft, distribution).share
    assert 0 <= below <= 1
    # The normal's tails beyond the worst case are cut off only where the window holds all of it.
    assert below + above == pytest.approx(1, abs=0.004)


def test_window_the_wrong_way_round_is_refused() -> None:
    """The message names both ends."""
    with pytest.raises(ValueError, match=r"window_lower 1 is above window_upper 0"):
        chance.share_within(1, 0, HOLE, PIN)


@pytest.mark.parametrize(
    ("given_values", "expected"),
    [
        ((1.005, 0.003, 0.995, 0.004), 0.02275),
        ((1.063, 0.0025, 1.048, 0.005), 0.003645),
        ((5.4, 0.735, 3.93, 0.413), 0.04061),
    ],
)
def test_regression_of_exercises_without_an_answer(
    given_values: tuple[float, float, float, float], expected: float
) -> None:
    """Chances of interference of textbook exercises, worked out by hand."""
    assert chance.interference_chance(*given_values) == pytest.approx(expected, abs=5e-6)


def test_share_outside_limits() -> None:
    """The valve shafts of an exercise: 93.7 % lie within 21.990 to 22.010."""
    assert 1 - chance.share_outside(21.990, 22.010, 22.002, 0.005) == pytest.approx(0.937, abs=0.0003)


def test_three_point_estimate() -> None:
    """PERT: mean (a + 4m + b)/6, and an order that does not rise is refused."""
    assert chance.pert(10, 14, 60) == Duration(21, pytest.approx(8.3333, abs=1e-4))  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="must rise"):
        chance.pert(14, 10, 60)


def test_steps_in_series_add_variances() -> None:
    """Means add, standard deviations do not."""
    total = chance.in_series([Duration(3, 3), Duration(4, 4)])
    assert total == Duration(7, 5)
    assert chance.date_for(0.95, Duration(21, 2)) == pytest.approx(24.2898, abs=0.001)
    assert chance.done_by(7, Duration(7, 0)) == 1


def test_lognormal_lead_time() -> None:
    """Mean 14, deviation 7: 86.3 % are there after 21 days, 95 % after 27.2; both ways agree."""
    lead_time = Duration(14, 7)
    assert chance.arrived_by(21, lead_time) == pytest.approx(0.86314, abs=1e-4)
    assert chance.arrival_for(0.95, lead_time) == pytest.approx(27.234, abs=0.001)
    assert chance.arrived_by(chance.arrival_for(0.7, lead_time), lead_time) == pytest.approx(0.7)
    assert chance.arrived_by(0, lead_time) == 0
    assert chance.arrived_by(13, Duration(14, 0)) == 0
    assert chance.arrival_for(0.9, Duration(14, 0)) == 14


def test_one_supplier_fails_together() -> None:
    """Three suppliers multiply; parts of one supplier count as its worst."""
    assert chance.all_arrived([[0.9], [0.8], [0.5]]) == pytest.approx(0.36)
    assert chance.all_arrived([[0.9, 0.8], [0.5]]) == pytest.approx(0.4)


def test_good_pieces_and_how_many_to_buy() -> None:
    """Five spares on 130 at 4 % are enough in 54.5 % of cases; the number to buy is the smallest that serves."""
    assert chance.enough_good(135, 130, 0.04) == pytest.approx(0.54473, abs=1e-5)
    bought = chance.buy_for(100, 0.02)
    assert chance.enough_good(bought, 100, 0.02) >= 0.95 > chance.enough_good(bought - 1, 100, 0.02)
    assert chance.enough_good(3, 4, 0.0) == 0
    with pytest.raises(ValueError, match="defect_rate 2"):
        chance.enough_good(3, 2, 2)


def test_spares_by_poisson() -> None:
    """Three failures expected want six spares for 95 %; none expected wants none."""
    assert chance.spares_for(3) == 6
    assert chance.spares_for(chance.expected_failures(45, 2160, 300000)) == 1
    assert chance.spares_for(0) == 0
