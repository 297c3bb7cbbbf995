"""Stacks: worst case, root sum square, shims."""

from decimal import Decimal

import pytest

from reference.quantities import Limits
from service.strength.stacks import Link, share_below, shim_for, stack


def _link(nominal: str, tolerance: str, sign: int = 1) -> Link:
    size, width = Decimal(nominal), Decimal(tolerance)
    return Link(Limits(size, size - width, size + width), sign)


def test_worst_case_is_exact() -> None:
    """Decimals at the limits carry no noise."""
    sum_of = stack([_link("1.750", "0.003"), _link("0.750", "0.001", -1), _link("0.995", "0.006", -1)])
    assert sum_of.worst == (Decimal("-0.005"), Decimal("0.015"))
    assert sum_of.worst_tolerance == Decimal("0.010")


def test_root_sum_square_is_narrower_and_only_fair_for_many() -> None:
    """Four equal parts: half the worst case; fewer parts carry a warning."""
    four = stack([_link("5", "0.1")] * 4)
    assert four.worst_tolerance == Decimal("0.4")
    assert four.root_sum_square_tolerance == Decimal("0.2")
    assert four.root_sum_square_fair
    two = stack([_link("5", "0.1")] * 2)
    assert not two.root_sum_square_fair
    assert any("worst case" in text for text in two.assumed)


def test_unequal_limits_move_the_middle() -> None:
    """A tolerance to one side shifts the middle of the sum."""
    sided = Link(Limits(Decimal(10), Decimal(10), Decimal("10.2")))
    assert stack([sided, sided]).middle == Decimal("20.2")


def test_share_of_stacks_below_a_value() -> None:
    """Half lie below the middle, 0.135 % below three deviations."""
    four = stack([_link("5", "0.1")] * 4)
    assert share_below(four, Decimal(20)) == pytest.approx(0.5)
    assert share_below(four, Decimal("19.8")) == pytest.approx(0.00135, abs=1e-5)
    assert share_below(stack([Link(Limits(Decimal(5)))]), Decimal(6)) == 1


def test_shims_fill_the_gap_over_its_whole_range() -> None:
    """The range of shims follows the worst case and the preload; a gap that is never open needs none."""
    gap = stack([_link("10.0", "0.1"), _link("9.5", "0.1", -1)])
    shim = shim_for(gap, Decimal("0.05"))
    assert shim is not None
    assert (shim.thinnest, shim.thickest) == (Decimal("0.35"), Decimal("0.75"))
    assert shim_for(stack([_link("9", "0.1"), _link("10", "0.1", -1)])) is None


def test_empty_stack_is_refused() -> None:
    """A stack needs parts, and signs of one."""
    with pytest.raises(ValueError, match="at least one part"):
        stack([])
    with pytest.raises(ValueError, match="sign"):
        stack([_link("1", "0.1", 2)])
