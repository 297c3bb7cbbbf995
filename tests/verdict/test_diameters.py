"""Lengths and diameters as requests write them."""

from decimal import Decimal

import pytest

from service.verdict.diameters import diameter, length, window
from service.verdict.model import CheckError


@pytest.mark.parametrize(
    ("text", "nominal", "lower", "upper"),
    [
        ("5 H7", "5", "5", "5.012"),
        ("5H7", "5", "5", "5.012"),
        ("Ø5 H7", "5", "5", "5.012"),
        ("5 mm H7", "5", "5", "5.012"),
        ("5,0 H7", "5", "5", "5.012"),
        ("3/16 in H7", "4.7625", "4.7625", "4.7745"),
        ('0.25" H7', "6.35", "6.35", "6.365"),
        ("5 +0.012/0", "5", "5", "5.012"),
        ("5 +0,012/0", "5", "5", "5.012"),
        ("5  0.012/0", "5", "5", "5.012"),
        ("5 +0.012 -0.003", "5", "4.997", "5.012"),
        ("5 ±0.01", "5", "4.99", "5.01"),
        ("5 +/-0.01", "5", "4.99", "5.01"),
        ("5.000..5.012", "5", "5", "5.012"),
        ("5,000 .. 5,012 mm", "5", "5", "5.012"),
        ("0.25..0.2505 in", "6.35", "6.35", "6.3627"),
        ("0.25 +0.0005/-0 in", "6.35", "6.35", "6.3627"),
        ("4.95 to 4.98", "4.95", "4.95", "4.98"),
        ("4.991..4.998", "4.991", "4.991", "4.998"),
    ],
)
def test_diameter_is_understood_in_every_form(text: str, nominal: str, lower: str, upper: str) -> None:
    """Class, deviations and limits give exact limits in millimetres, whatever the unit and the decimal sign."""
    limits = diameter(text, "hole", "bore").limits
    assert (limits.nominal, limits.lower, limits.upper) == (Decimal(nominal), Decimal(lower), Decimal(upper))


def test_bare_size_has_no_limits() -> None:
    """A size alone is a nominal size, its limits stay unknown."""
    limits = diameter("1 1/4", "hole", "bore").limits
    assert limits.nominal == Decimal("31.75")
    assert limits.lower is None


def test_drilled_hole_takes_the_spread_of_drilling() -> None:
    """A hole given by how it is made gets that process's limits and their source: AND10387, +0.005/-0.001 in."""
    made = diameter("5 drilled", "hole", "bore")
    assert (made.limits.lower, made.limits.upper) == (Decimal("4.9746"), Decimal("5.127"))
    assert made.process == "drilled"
    assert "AND10387" in made.source


@pytest.mark.parametrize(
    ("value", "lower", "upper"),
    [
        ({"nominal": 5, "tolerance_class": "H7"}, "5", "5.012"),
        ({"nominal": 5, "lower": 5, "upper": 5.012, "tolerance_class": "H7"}, "5", "5.012"),
        ({"lower": 5.1, "upper": 5.3}, "5.1", "5.3"),
        ({"lower": "0.2 in", "upper": "0.21 in"}, "5.08", "5.334"),
    ],
)
def test_diameter_as_object(value: object, lower: str, upper: str) -> None:
    """An object with class or limits is exact too: a number of JSON counts by its shortest text."""
    limits = diameter(value, "hole", "mate.diameter").limits
    assert (limits.lower, limits.upper) == (Decimal(lower), Decimal(upper))


@pytest.mark.parametrize(
    "value",
    [
        "abc", "", "nan", "inf", "-5", "0", "5..4", "0..5", "-1..2", "5 +1", "5 Q7", "5 K9", "5 m6", "1e400", "9" * 300,
        "600 H7", "5 welded", "60 drilled", float("nan"), float("inf"), -1, 0, True, None, [5], 1e-30, 10**9,
        {"nominal": 5, "lower": 5}, {"lower": 5, "upper": 4}, {"tolerance_class": "H7"}, {"diameter": 5},
        {"nominal": 5, "lower": 5, "upper": 5.012, "tolerance_class": "H8"},
    ],
)  # fmt: skip
def test_bad_diameter_is_refused_with_field_value_and_example(value: object) -> None:
    """What is no diameter of a hole is refused; the error names the field, keeps the value and shows a good one."""
    with pytest.raises(CheckError) as caught:
        diameter(value, "hole", "bore")
    assert caught.value.field.startswith("bore")
    assert caught.value.accepted
    assert caught.value.example


def test_shaft_wants_a_shaft_class() -> None:
    """A hole's class on a shaft is refused, and a shaft's class is taken."""
    assert diameter("8 h6", "shaft", "shaft").limits.lower == Decimal("7.991")
    with pytest.raises(CheckError, match="small letter"):
        diameter("8 H7", "shaft", "shaft")


def test_length_bounds() -> None:
    """A length is above zero, at most ten metres, and has at most nine decimals."""
    assert length("0.000000001", "depth") == Decimal("0.000000001")
    assert length("10000", "depth") == Decimal(10000)
    for bad in ("10000.1", "0.0000000001", "0"):
        with pytest.raises(CheckError):
            length(bad, "depth")


def test_window_may_be_negative_and_takes_units() -> None:
    """A window of clearance may reach below zero; a unit may follow its last number only."""
    assert window("-0.010..0", "fit") == (Decimal("-0.01"), Decimal(0))
    assert window("-0.0005 .. 0.001 in", "fit") == (Decimal("-0.0127"), Decimal("0.0254"))
    assert window("location", "fit") is None
