"""Press fits by thick cylinders: states over the limits, yield, friction bands, losses."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference.materials import material
from reference.quantities import Limits
from service.strength import cautions, press_fit

HOLE = Limits(Decimal(5), Decimal("5.000"), Decimal("5.012"), "H7")
PIN = Limits(Decimal(5), Decimal("5.004"), Decimal("5.012"), "m6")
STEEL = (210000.0, 0.3)
ALUMINIUM = (69000.0, 0.33)


def test_dowel_in_an_aluminium_boss() -> None:
    """At worst 91 MPa, regression: 5 m6 in H7, boss of 15 mm."""
    pressure = press_fit.interface_pressure(0.012, 5, 15, ALUMINIUM, STEEL)
    assert pressure == pytest.approx(91.49, abs=0.01)
    assert press_fit.press_force(pressure, 5, 10, 0.12) == pytest.approx(1724.5, abs=0.5)
    assert pressure * press_fit.hub_factor(5, 15) == pytest.approx(114.4, abs=0.1)


def test_regressions_by_hand() -> None:
    """Aluminium gear on aluminium shaft: pressure and equivalent stress; tube pressures."""
    one = (69000.0, 0.33)
    pressure = press_fit.interface_pressure(0.1, 30, 55, one, one)
    assert pressure == pytest.approx(80.785, abs=0.001)
    assert press_fit.von_mises(pressure * press_fit.hub_factor(30, 55), -pressure) == pytest.approx(202.1, abs=0.05)
    assert 100 / press_fit.hub_factor(180, 220) == pytest.approx(19.802, abs=0.001)


def test_state_over_the_limits() -> None:
    """A transition fit is loose at one end and pressed at the other, and is not called a press."""
    fit = press_fit.press_fit(HOLE, PIN, 10, material("6061-T6"), material("hardened steel"), hub_outer=15)
    assert fit.loosest.interference == pytest.approx(-0.008)
    assert fit.loosest.pressure == fit.loosest.holds == 0
    assert fit.tightest.interference == pytest.approx(0.012)
    assert fit.tightest.press_in > fit.tightest.holds > 0
    assert not fit.always_presses
    assert cautions.PRESS in fit.cautions


def test_hub_that_yields_is_told() -> None:
    """A brutal interference in a thin weak hub yields, a mild one does not."""
    brutal = Limits(Decimal(5), Decimal("5.050"), Decimal("5.060"))
    fit = press_fit.press_fit(HOLE, brutal, 10, material("POM"), material("steel"), hub_outer=7)
    assert not fit.tightest.hub_yields  # plastic is soft: much strain, little stress
    fit = press_fit.press_fit(HOLE, brutal, 10, material("brass"), material("steel"), hub_outer=7)
    assert fit.tightest.hub_yields
    assert fit.tightest.hub_safety < 1


def test_roughness_eats_interference() -> None:
    """Rz 3 on both parts takes 2.4 micrometres by the newer rule and 4.8 by the older."""
    assert press_fit.roughness_loss(3, 3) == pytest.approx(2.4)
    assert press_fit.roughness_loss(6.3, 10, press_fit.ROUGHNESS_2001) == pytest.approx(13.04)
    smooth = press_fit.press_fit(HOLE, PIN, 10, material("steel"), material("steel"))
    rough = press_fit.press_fit(HOLE, PIN, 10, material("steel"), material("steel"), roughness=(3, 3))
    assert rough.tightest.effective == pytest.approx(smooth.tightest.effective - 0.0024)
    assert rough.tightest.pressure < smooth.tightest.pressure


def test_bush_bore_closes() -> None:
    """Most of the interference of a thin bush reaches its bore."""
    bush = Limits(Decimal(10), Decimal("10.020"), Decimal("10.030"))
    hole = Limits(Decimal(10), Decimal("10.000"), Decimal("10.015"))
    fit = press_fit.press_fit(hole, bush, 10, material("steel"), material("bronze"), shaft_bore=8)
    assert 0.7 * fit.tightest.interference < fit.tightest.bore_closing < 1.1 * fit.tightest.interference
    assert fit.loosest.bore_closing < fit.tightest.bore_closing


@given(
    st.floats(2, 50),
    st.floats(1.1, 5),
    st.floats(0, 0.8),
    st.floats(1e4, 3e5),
    st.floats(0.2, 0.45),
    st.floats(1e-4, 0.1),
)
def test_both_surfaces_give_way_by_the_interference(
    diameter: float, wall: float, bore: float, modulus: float, ratio: float, interference: float
) -> None:
    """Hub bore growth plus shaft shrinkage at the pressure found make up the interference exactly."""
    hub, shaft = (modulus, ratio), STEEL
    pressure = press_fit.interface_pressure(interference, diameter, wall * diameter, hub, shaft, bore * diameter)
    growth = pressure * diameter * (press_fit.hub_factor(diameter, wall * diameter) + ratio) / modulus
    shrinkage = pressure * diameter * (press_fit.hub_factor(bore * diameter, diameter) - STEEL[1]) / STEEL[0]
    assert growth + shrinkage == pytest.approx(interference, rel=1e-9)
    back = press_fit.interference_for_pressure(pressure, diameter, wall * diameter, hub, shaft, bore * diameter)
    assert back == pytest.approx(interference, rel=1e-9)


def test_bad_sizes_are_refused() -> None:
    """Diameters that do not nest and a length of nothing are named."""
    with pytest.raises(ValueError, match="must nest"):
        press_fit.interface_pressure(0.01, 5, 4, STEEL, STEEL)
    with pytest.raises(ValueError, match="length 0"):
        press_fit.press_fit(HOLE, PIN, 0, material("steel"), material("steel"))


def test_bearing_ring_loses_less_on_a_ground_seat() -> None:
    """The effective interference of a ring is d/(d + 2) on a ground seat and less on a turned one."""
    ground = press_fit.effective_ring_interference(20, 0.011)
    assert ground == pytest.approx(0.010)
    assert press_fit.effective_ring_interference(20, 0.011, ground=False) < ground


def test_bare_words_are_stated() -> None:
    """The grade that a bare word was taken for stands among the assumptions."""
    fit = press_fit.press_fit(HOLE, PIN, 10, material("Messing"), material("Stahl"))
    assert {"brass: taken as CW614N", "steel: taken as S235JR"} <= set(fit.assumed)
