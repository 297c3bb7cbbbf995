"""What measured pieces prove: conforming, not conforming, or not provable."""

from decimal import Decimal

import pytest

from service.strength import measuring
from service.strength.measuring import decide

LOWER, UPPER = Decimal("4.982"), Decimal("5.000")


def _d(*values: str) -> list[Decimal]:
    return [Decimal(value) for value in values]


def test_a_calliper_cannot_accept_a_five_h8_shaft() -> None:
    """Uncertainty 0.03 against a tolerance of 0.018: no reading proves conformity."""
    result = decide(LOWER, UPPER, _d("4.99", "4.985"), Decimal("0.03"))
    assert result.decision == "not provable"
    assert result.acceptance is None
    assert result.ratio == Decimal("0.3")
    assert "too narrow" in result.text


def test_a_micrometer_can() -> None:
    """With 0.003 the zone is 4.985 to 4.997, and pieces inside it conform."""
    result = decide(LOWER, UPPER, _d("4.99", "4.986"), Decimal("0.003"))
    assert result.decision == "conforming"
    assert result.acceptance == (Decimal("4.985"), Decimal("4.997"))


@pytest.mark.parametrize(
    ("measured", "decision"),
    [
        ("4.985", "not provable"),  # inside by exactly the uncertainty is not inside by more
        ("4.9851", "conforming"),
        ("5.003", "not provable"),  # outside by exactly the uncertainty is not outside by more
        ("5.0031", "not conforming"),
        ("4.979", "not provable"),
        ("4.9789", "not conforming"),
    ],
)
def test_edges_are_strict(measured: str, decision: str) -> None:
    """At exactly one uncertainty from a limit nothing is proved."""
    assert decide(LOWER, UPPER, _d(measured), Decimal("0.003")).decision == decision


def test_one_bad_piece_decides() -> None:
    """One piece proved outside makes the lot not conforming, whatever the others are."""
    result = decide(LOWER, UPPER, _d("4.99", "5.010", "4.984"), Decimal("0.003"))
    assert result.decision == "not conforming"
    assert result.worst.measured == Decimal("5.010")
    assert [piece.decision for piece in result.pieces] == ["conforming", "not conforming", "not provable"]


def test_one_undecided_piece_leaves_the_lot_undecided() -> None:
    """Every piece must be proved for the lot to conform, and the text says what would do it."""
    result = decide(LOWER, UPPER, _d("4.99", "4.984"), Decimal("0.003"))
    assert result.decision == "not provable"
    assert result.needed_uncertainty == Decimal("0.002")
    assert "undecided" in result.text


def test_no_uncertainty_leaves_only_the_limit_itself_open() -> None:
    """Without uncertainty a piece inside conforms and one outside does not; on the limit nothing is proved."""
    for measured, decision in (("4.99", "conforming"), ("5.001", "not conforming"), ("5.000", "not provable")):
        assert decide(LOWER, UPPER, _d(measured), Decimal(0)).decision == decision


def test_one_sided_limits() -> None:
    """Only a lower or only an upper limit is enough."""
    assert decide(Decimal(3), None, _d("3.5"), Decimal("0.1")).decision == "conforming"
    assert decide(None, Decimal(3), _d("3.5"), Decimal("0.1")).decision == "not conforming"
    assert decide(None, Decimal(3), _d("2"), Decimal("0.1")).acceptance == (None, Decimal("2.9"))


@pytest.mark.parametrize(
    ("lower", "upper", "measured", "uncertainty", "says"),
    [
        ("1", "2", [], "0.1", "measured"),
        (None, None, ["1"], "0.1", "limits name neither"),
        ("2", "1", ["1"], "0.1", "limits lower 2 is above upper 1"),
        ("1", "2", ["1"], "-0.1", "uncertainty -0.1"),
    ],
)
def test_bad_input_is_refused(
    lower: str | None, upper: str | None, measured: list[str], uncertainty: str, says: str
) -> None:
    """What is missing or the wrong way round is named."""
    with pytest.raises(ValueError, match=says):
        decide(lower and Decimal(lower), upper and Decimal(upper), _d(*measured), Decimal(uncertainty))  # type: ignore[arg-type]


def test_budget_of_a_calliper() -> None:
    """MPE 0.02, repeatability 0.01 and resolution 0.01 make about 0.03."""
    assert measuring.expanded_uncertainty(0.02, 0.01, 0.01) == pytest.approx(0.03109, abs=1e-5)
    assert measuring.guard_band_2017(Decimal("0.003")) == Decimal("0.002475")


def test_nibs_make_a_small_hole_read_small() -> None:
    """Flats of 0.5 mm read 4.975 in a 5 mm hole."""
    assert measuring.small_hole_reading(5, 0.5) == pytest.approx(4.975, abs=0.0001)


def test_one_sided_conformance_probability() -> None:
    """A reading on the limit is even odds."""
    assert measuring.conformance_probability(5, None, 5, 0.01) == pytest.approx(0.5)
    assert measuring.conformance_probability(5, 5, None, 0.01) == pytest.approx(0.5)
