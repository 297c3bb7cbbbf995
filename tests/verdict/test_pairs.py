"""A hole and what goes into it: exact limits, and shares by chance."""

import math
from decimal import Decimal
from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference import fits
from reference.quantities import Limits
from service.verdict.model import FitWanted, Window
from service.verdict.pairs import beyond_any_fit, compare, share_between

THOUSANDTHS = st.integers(4000, 6000).map(lambda n: Decimal(n).scaleb(-3))


def wanted(lower: str, upper: str, loosest: str | None = None) -> FitWanted:
    """Return a window as a fit."""
    return FitWanted("a window", Window(Decimal(lower), Decimal(upper)), "as given", loosest and Decimal(loosest))


def limits(one: Decimal, other: Decimal) -> Limits:
    """Return limits between two sizes in any order."""
    return Limits(Decimal(5), min(one, other), max(one, other))


@pytest.mark.parametrize(
    ("window", "verdict", "code"),
    [
        (("-0.012", "0.008"), "fits", "within-fit"),
        (("-0.0119", "0.008"), "marginal", "some-pairs-tighter"),
        (("-0.012", "0.0079"), "marginal", "some-pairs-looser"),
        (("0", "0.001"), "marginal", "some-pairs-tighter-or-looser"),
        (("0.008", "0.02"), "marginal", "some-pairs-tighter"),
        (("0.0080001", "0.02"), "wrong", "too-tight"),
        (("-0.02", "-0.0120001"), "wrong", "too-loose"),
    ],
)
def test_limits_compare_exactly_both_ends_included(window: tuple[str, str], verdict: str, code: str) -> None:
    """A pin 5 m6 in 5 H7 has -0.012..0.008: a window that ends there is met, one that ends just before is not."""
    five = Decimal(5)
    pair = compare("pin", fits.limits(five, "H7"), fits.limits(five, "m6"), "bore", wanted(*window), False)
    assert (pair.verdict, pair.findings[0].code) == (verdict, code)
    assert pair.clearance == Window(Decimal("-0.012"), Decimal("0.008"))


def test_slip_is_marginal_up_to_its_loosest() -> None:
    """Between the window and the loosest allowance a slip fit is marginal, beyond it wrong."""
    fit = wanted("0", "0.024", "0.09")
    hole = Limits(Decimal(5), Decimal(5), Decimal("5.012"))
    shafts = {"4.95": "marginal", "4.92": "marginal", "4.9": "wrong"}
    for size, verdict in shafts.items():
        shaft = Limits(Decimal(size), Decimal(size), Decimal(size))
        assert compare("pin", hole, shaft, "bore", fit, False).verdict == verdict


def test_names_of_misfits_follow_the_preferred_fits() -> None:
    """Beyond the tightest and loosest preferred fit a part does not enter or rattles, within it is tight or loose."""
    hole = fits.limits(Decimal(5), "H7")
    fit = wanted("-0.001", "0")
    for size, code in {"8": "does-not-enter", "5.02": "too-tight", "4.98": "too-loose", "3": "rattles"}.items():
        shaft = Limits(Decimal(size), Decimal(size), Decimal(size))
        assert compare("pin", hole, shaft, "bore", fit, False).findings[0].code == code
    assert beyond_any_fit(Decimal(5)) == Window(Decimal("-0.031"), Decimal("0.220"))


def test_unknown_limits_are_open_unless_wrong_in_any_case() -> None:
    """A size without limits leaves the verdict open, but a pin of 8 mm never goes into 5 mm."""
    hole = fits.limits(Decimal(5), "H7")
    near, far = Limits(Decimal(5)), Limits(Decimal(8))
    assert compare("pin", hole, near, "bore", wanted("-0.01", "0.01"), False).verdict == "open"
    assert compare("pin", hole, far, "bore", wanted("-0.01", "0.01"), False).verdict == "wrong"
    assert compare("pin", far, hole, "bore", None, False).verdict == "wrong"


def test_no_fit_is_open_within_any_fit_and_wrong_beyond() -> None:
    """Without a fit wanted a pair that some fit covers is open; one that none covers is wrong."""
    hole = fits.limits(Decimal(5), "H7")
    assert compare("pin", hole, fits.limits(Decimal(5), "h6"), "bore", None, False).findings[0].code == "fit-not-stated"
    assert compare("pin", hole, fits.limits(Decimal(4), "h6"), "bore", None, False).verdict == "wrong"


def test_share_agrees_with_the_normal_distribution() -> None:
    """The share within a window is that of the standard library's normal distribution."""
    hole, shaft = fits.limits(Decimal(5), "H7"), fits.limits(Decimal(5), "m6")
    pair = compare("pin", hole, shaft, "bore", wanted("0", "0.02"), False)
    clearance = NormalDist(-0.002, math.hypot(0.012, 0.008) / 6)
    assert pair.share is not None
    assert float(pair.share) == pytest.approx(clearance.cdf(0.02) - clearance.cdf(0), abs=6e-5)


def test_share_of_equal_parts_is_all_or_none() -> None:
    """Without spread every pair is inside or none is."""
    assert share_between(0, 1, 1, 0) == 1
    assert share_between(0, 1, 2, 0) == 0


@given(THOUSANDTHS, THOUSANDTHS, THOUSANDTHS, THOUSANDTHS, st.integers(1, 500))
def test_clearance_grows_with_the_bore(a: Decimal, b: Decimal, c: Decimal, d: Decimal, more: int) -> None:
    """A bore that is larger by some amount gives exactly that much more clearance at both ends."""
    hole, shaft, step = limits(a, b), limits(c, d), Decimal(more).scaleb(-4)
    wider = Limits(hole.nominal, hole.low + step, hole.high + step)
    one = compare("pin", hole, shaft, "bore", None, False).clearance
    other = compare("pin", wider, shaft, "bore", None, False).clearance
    assert (other.lower - one.lower, other.upper - one.upper) == (step, step)


@given(
    THOUSANDTHS, THOUSANDTHS, THOUSANDTHS, THOUSANDTHS, st.integers(-800, 800), st.integers(0, 800), st.integers(0, 400)
)
def test_wider_window_never_judges_worse(
    a: Decimal, b: Decimal, c: Decimal, d: Decimal, low: int, width: int, more: int
) -> None:
    """Whatever fits a window fits a wider one, and what is not wrong for it is not wrong for the wider one."""
    ranks = {"wrong": 0, "marginal": 1, "fits": 2}
    lower, upper, step = Decimal(low).scaleb(-3), Decimal(low + width).scaleb(-3), Decimal(more).scaleb(-3)
    hole, shaft = limits(a, b), limits(c, d)
    narrow = FitWanted("narrow", Window(lower, upper), "")
    wide = FitWanted("wide", Window(lower - step, upper + step), "")
    one = compare("pin", hole, shaft, "bore", narrow, False)
    other = compare("pin", hole, shaft, "bore", wide, False)
    assert ranks[one.verdict] <= ranks[other.verdict]


@given(THOUSANDTHS, THOUSANDTHS, THOUSANDTHS, THOUSANDTHS, st.integers(2, 9))
def test_verdict_is_the_same_in_any_scale(a: Decimal, b: Decimal, c: Decimal, d: Decimal, factor: int) -> None:
    """All sizes and the window multiplied by one factor leave the verdict as it is."""
    window = Window(Decimal("-0.3"), Decimal("0.2"))
    scaled = Window(window.lower * factor, window.upper * factor)
    one = compare("pin", limits(a, b), limits(c, d), "bore", FitWanted("one", window, ""), False)
    other = compare(
        "pin",
        limits(a * factor, b * factor),
        limits(c * factor, d * factor),
        "bore",
        FitWanted("other", scaled, ""),
        False,
    )
    assert (one.verdict, one.share) == (other.verdict, other.share)
