"""Keys in ways, keys under torque, rings in grooves."""

from decimal import Decimal

import pytest

from reference import fits
from reference.quantities import Limits
from service.strength import keys_and_rings
from service.strength.keys_and_rings import key_fit, key_load, ring_fit


@pytest.mark.parametrize(("way", "word"), [("P9", "tight"), ("N9", "light"), ("D10", "sliding")])
@pytest.mark.parametrize("width", [Decimal(3), Decimal(5), Decimal(10), Decimal(25)])
def test_keyway_classes(way: str, word: str, width: Decimal) -> None:
    """P9 is tight, N9 light and D10 sliding on a key of h9, as DIN 6885-1 names them."""
    fit = key_fit(fits.limits(width, way), fits.limits(width, "h9"))
    assert fit.fit == word
    assert fit.clearance[0] <= fit.clearance[1]


def test_words_for_the_width() -> None:
    """Always tight, and far too wide to enter."""
    key = Limits(Decimal(5), Decimal(5), Decimal("5.01"))
    assert key_fit(Limits(Decimal(5), Decimal("4.98"), Decimal("4.99")), key).fit == "tight"
    assert key_fit(Limits(Decimal("4.9"), Decimal("4.90"), Decimal("4.92")), key).fit == "does not enter"


def test_key_under_torque() -> None:
    """20 N m on a 15 mm shaft: 2667 N on a 5 x 5 key with 20 mm of straight flank."""
    load = key_load(20, 15, 5, 2.3, 25, 235)
    assert load.pressure == pytest.approx(2666.67 / (2.3 * 20), rel=1e-4)
    assert load.shear == pytest.approx(26.667, rel=1e-4)
    assert load.carries
    assert not key_load(200, 15, 5, 2.3, 25, 235).carries
    assert key_load(20, 15, 5, 2.3, 25, 235, form="B").pressure < load.pressure


def test_torque_and_length_are_inverse() -> None:
    """The length for a torque carries that torque."""
    length = keys_and_rings.key_length(20, 15, 2.3, 100)
    assert keys_and_rings.key_torque(100, 15, 2.3, length) == pytest.approx(20)


def test_key_of_round_ends_only_is_refused() -> None:
    """A form A key no longer than it is wide has no straight flank."""
    with pytest.raises(ValueError, match="length 5 is all round ends"):
        key_load(20, 15, 5, 2.3, 5, 235)


def test_ring_in_its_groove() -> None:
    """A 1 mm ring in a 1.1 mm groove has play; the shoulder must be three groove depths."""
    groove, ring = (
        Limits(Decimal("1.1"), Decimal("1.1"), Decimal("1.24")),
        Limits(Decimal(1), Decimal("0.94"), Decimal(1)),
    )
    fit = ring_fit(groove, ring, Decimal(15), Limits(Decimal("14.3")), Decimal("1.1"))
    assert fit.enters
    assert fit.play == (Decimal("0.1"), Decimal("0.30"))
    assert fit.groove_depth == Decimal("0.35")
    assert fit.shoulder_enough
    assert not ring_fit(groove, ring, Decimal(15), Limits(Decimal("14.3")), Decimal("0.9")).shoulder_enough


def test_ring_that_does_not_enter() -> None:
    """A ring thicker than the groove may not or does not enter, as its limits say."""
    ring = Limits(Decimal(1), Decimal("0.94"), Decimal(1))
    perhaps = ring_fit(
        Limits(Decimal("0.97"), Decimal("0.97"), Decimal("0.98")), ring, Decimal(15), Limits(Decimal(14))
    )
    never = ring_fit(Limits(Decimal("0.9"), Decimal("0.9"), Decimal("0.92")), ring, Decimal(15), Limits(Decimal(15)))
    assert "may not enter" in perhaps.findings[0]
    assert "does not enter" in never.findings[0]
    assert "no depth" in never.findings[1]


def test_groove_wall_carries_a_load() -> None:
    """Yield over the ring of the wall, halved for safety; shaft and bore alike."""
    load = keys_and_rings.groove_load(235, 15, 14.3)
    assert load == pytest.approx(235 * 3.14159265 / 4 * (15**2 - 14.3**2) / 2)
    assert keys_and_rings.groove_load(235, 14.3, 15) == pytest.approx(load)
