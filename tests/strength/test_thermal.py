"""Fits at another temperature and heating to slip on."""

import pytest

from reference.materials import material
from service.strength import cautions, thermal


def test_aluminium_hub_on_a_steel_pin_loosens_when_warm() -> None:
    """10 mm, 60 K: 7.1 micrometres more clearance."""
    warm = thermal.clearance_at(80, 0.0, 0.010, 10, material("6061-T6"), material("S235"))
    assert warm.change[0] == pytest.approx(0.00714, abs=1e-5)
    assert (warm.lower, warm.upper) == pytest.approx((0.00714, 0.01714), abs=1e-5)
    cold = thermal.clearance_at(-20, 0.0, 0.010, 10, material("6061-T6"), material("S235"))
    assert cold.lower < 0


def test_disagreeing_expansions_widen_the_answer() -> None:
    """Where published expansions of a plastic disagree, both ends count and the band is stated."""
    warm = thermal.clearance_at(60, 0.0, 0.0, 10, material("PA66"), material("steel"))
    assert warm.change[1] > 1.5 * warm.change[0]
    assert any("90 to 144" in text for text in warm.assumed)


def test_temperature_to_slip_on() -> None:
    """A 50 H7/s6 hub of steel wants about 135 K with 0.02 mm of play."""
    assert thermal.slip_on_rise(0.059, 0.02, 11.7e-6, 50) == pytest.approx(135.04, abs=0.01)
    heating = thermal.heat_to_slip_on(0.059, 50, material("steel"), play=0.02)
    assert heating.temperature == pytest.approx(155, abs=0.1)
    assert heating.safe
    assert cautions.HEAT in heating.cautions


def test_limits_of_heating() -> None:
    """Aluminium loses its temper and a bearing its life before that temperature: the answer says so."""
    assert not thermal.heat_to_slip_on(0.15, 40, material("aluminium")).safe
    assert not thermal.heat_to_slip_on(0.059, 50, material("steel"), play=0.02, bearing=True).safe


def test_bad_sizes_are_refused() -> None:
    """A negative interference is named."""
    with pytest.raises(ValueError, match="interference -1"):
        thermal.heat_to_slip_on(-1, 50, material("steel"))
