"""O-rings: squeeze, stretch and fill over the limits, and what is said of them."""

from decimal import Decimal

import pytest

from reference.quantities import Limits
from service.strength import seals


def _limits(nominal: str, tolerance: str) -> Limits:
    size, width = Decimal(nominal), Decimal(tolerance)
    return Limits(size, size - width, size + width)


def test_ring_that_seals() -> None:
    """20 x 2 on a 20.4 seat in a 1.6 deep, 2.7 wide gland is within every band."""
    fit = seals.seal_fit(
        _limits("20", "0.1"),
        _limits("2", "0.05"),
        _limits("20.4", "0.02"),
        _limits("1.6", "0.02"),
        _limits("2.7", "0.05"),
    )
    assert fit.seals
    assert fit.findings == ()
    assert fit.squeeze[0] < 0.2 < fit.squeeze[1]
    assert fit.stretch[0] == pytest.approx((20.38 - 20.1) / 20.1)
    assert fit.fill is not None
    assert fit.fill[0] < 0.73 < fit.fill[1]


@pytest.mark.parametrize(
    ("seat", "depth", "width", "says"),
    [
        ("20.4", "1.9", "2.7", "it may leak"),
        ("20.4", "1.2", "2.7", "hard to assemble"),
        ("22", "1.6", "2.7", "thins and ages"),
        ("19", "1.6", "2.7", "lie loose"),
        ("20.4", "1.6", "2.2", "no room"),
    ],
)
def test_what_is_wrong_is_said(seat: str, depth: str, width: str, says: str) -> None:
    """Too little or much squeeze, stretch, looseness and a full groove are each found."""
    fit = seals.seal_fit(
        _limits("20", "0.1"),
        _limits("2", "0.05"),
        _limits(seat, "0.02"),
        _limits(depth, "0.02"),
        _limits(width, "0.05"),
    )
    assert any(says in text for text in fit.findings)


def test_a_moving_seal_wants_less_squeeze() -> None:
    """What suits a static seal is too much for a moving one."""
    sizes = (_limits("20", "0.1"), _limits("2", "0.05"), _limits("20.4", "0.02"), _limits("1.5", "0.02"))
    assert seals.seal_fit(*sizes).findings == ()
    assert any("above 20%" in text for text in seals.seal_fit(*sizes, service="moving").findings)


def test_no_squeeze_does_not_seal() -> None:
    """A gland as deep as the ring is thick leaves nothing to seal with."""
    fit = seals.seal_fit(_limits("20", "0.1"), _limits("2", "0.05"), _limits("20.4", "0.02"), _limits("2", "0.02"))
    assert not fit.seals


def test_stretched_ring_keeps_its_volume() -> None:
    """Length times section stays the same; a loose ring is not thickened."""
    assert seals.stretched_section(2, 0.05) ** 2 * 1.05 == pytest.approx(4)
    assert seals.stretched_section(2, -0.05) == 2


def test_size_of_nothing_is_refused() -> None:
    """A gland without depth is named."""
    with pytest.raises(ValueError, match="gland_depth 0"):
        seals.seal_fit(_limits("20", "0.1"), _limits("2", "0.05"), _limits("20.4", "0"), _limits("0", "0"))


def test_share_of_rings_squeezed_within_the_band() -> None:
    """All where both limits are far, half where the mean lies on one, none where it lies beyond."""
    inner, section = _limits("20", "0.1"), _limits("2", "0.08")
    seat = _limits("20", "0")

    def share(depth: str) -> float:
        return seals.share_squeezed(inner, section, seat, _limits(depth, "0.02"), 0.03)

    assert share("1.6") == pytest.approx(1)
    assert share("1.8") == pytest.approx(0.5)
    assert share("1.95") == pytest.approx(0, abs=1e-3)
    assert seals.share_squeezed(inner, _limits("2", "0"), seat, _limits("1.6", "0"), 0.0) == 1
