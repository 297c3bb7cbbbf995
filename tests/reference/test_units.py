"""What users may write as a length or a rating, and what is refused."""

from collections.abc import Callable
from decimal import Decimal
from typing import TypeVar

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference.quantities import Rating
from reference.units import RATINGS, UnitError, convert, length, quantity, registry, tidy

Read = TypeVar("Read")


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("5", "5"),
        ("5.000", "5"),
        ("12,7 mm", "12.7"),
        ("12.7mm", "12.7"),
        ("5MM", "5"),
        ('0.25"', "6.35"),
        ('.25"', "6.35"),
        ("0.25 in", "6.35"),
        ("5 in.", "127"),
        ("3/16 in", "4.7625"),
        ("3/16", "4.7625"),
        ('1 1/4"', "31.75"),
        ('1-1/4"', "31.75"),
        ("½ in", "12.7"),
        ('1½"', "38.1"),
        ('7/64"', "2.778125"),
        ("1 m", "1000"),
        ("3 cm", "30"),
        ("5'", "1524"),
        ("20 thou", "0.508"),
        ("3 µm", "0.003"),
        ("3 μm", "0.003"),
        ("10 Zoll", "254"),
        ("-0.012", "-0.012"),
        ("−0,012 mm", "-0.012"),
        ("+0.012 mm", "0.012"),
        ("1e-05", "0.00001"),
        ("1 yd", "914.4"),
        ("2 nautical_mile", "3704000"),
    ],
)
def test_length_is_read_exactly(text: str, millimetres: str) -> None:
    """A length with or without a unit is exact millimetres; a bare fraction is inches."""
    assert length(text) == Decimal(millimetres)


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "NaN",
        "inf",
        "-inf",
        "1e999",
        "1e-999",
        "1e9 m",
        "five",
        "5 kg",
        "5 s",
        "5 M",
        "5 mm mm",
        "5 mm 3",
        "1.2.3",
        "1/0",
        "5**2",
        "1 m**9",
        "1 m^2",
        "__import__('os')",
        "٥",
        "0x10",
        "1_000",
        "5 " + "m" * 100,
        "9" * 100,
        "5\x00",
        "1 light_year",
    ],
)
def test_what_is_no_length_is_refused_with_an_example(text: str) -> None:
    """Anything but a finite number with a length unit is refused, with accepted examples."""
    with pytest.raises(UnitError, match=r"is no length.*for example 12\.7 mm, 0\.25 in or 3/16"):
        length(text)


def test_error_repeats_the_text_and_names_the_unit() -> None:
    """The error says which text and which unit was not understood, and cuts a long text."""
    with pytest.raises(UnitError, match=r"'5 kg' is no length \('kg' is no length unit\)"):
        length("5 kg")
    with pytest.raises(UnitError) as refused:
        length("x" * 5000)
    assert len(str(refused.value)) < 300


def test_fraction_that_is_no_decimal_is_refused() -> None:
    """A third of an inch has no exact decimal, so it is refused and not rounded."""
    with pytest.raises(UnitError, match="no finite decimal"):
        length("1/3 in")


@given(st.decimals(min_value="0.0001", max_value=100000, places=4))
def test_inch_and_millimetre_agree(value: Decimal) -> None:
    """The same number in inches is 25.4 times as long, with point or comma, with any spacing."""
    assert length(f"{value} in") == Decimal("25.4") * length(f"{value}mm")
    assert length(f" {str(value).replace('.', ',')}  mm ") == length(str(value)) == value


@given(st.integers(0, 12), st.integers(1, 63), st.sampled_from((2, 4, 8, 16, 32, 64)))
def test_mixed_fractions_are_exact(whole: int, over: int, under: int) -> None:
    """A whole number and a binary fraction of an inch is exact."""
    assert length(f'{whole} {over}/{under}"') * under == (whole * under + over) * Decimal("25.4")


def or_refusal(read: Callable[..., Read], *arguments: str) -> Read | UnitError:
    """Return what was read, or the refusal that came instead."""
    try:
        return read(*arguments)
    except UnitError as refusal:
        return refusal


@given(st.text(max_size=80))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text ends in another error than UnitError, and what is read is finite."""
    found = or_refusal(length, text)
    assert "for example" in str(found) if isinstance(found, UnitError) else found.is_finite()


@pytest.mark.parametrize(
    ("text", "dimension", "value", "unit"),
    [
        ("24V", "voltage", "24", "V"),
        ("24 v", "voltage", "24", "V"),
        ("24 V DC", "voltage", "24", "V"),
        ("250 mA", "current", "0.25", "A"),
        ("250ma", "current", "0.25", "A"),
        ("40W", "power", "40", "W"),
        ("16 GB", "data", "16", "GB"),
        ("16gb", "data", "16", "GB"),
        ("16 GiB", "data", "17.179869184", "GB"),
        ("1 TB", "data", "1000", "GB"),
        ("-20 °C", "temperature", "-20", "degC"),
        ("212 degF", "temperature", "100", "degC"),
        ("4,7 kΩ", "resistance", "4700", "ohm"),
        ("100 N", "force", "100", "N"),
        ("2 kgf", "force", "19.6133", "N"),
        ("1.5 N*m", "torque", "1.5", "N*m"),
        ("1.5 N m", "torque", "1.5", "N*m"),
        ("150 Ncm", "torque", "1.5", "N*m"),
        ("3000 rpm", "rotation", "3000", "r/min"),
        ("800 Mbit/s", "data_rate", "100", "MB/s"),
        ("2000 mAh", "charge", "2", "A*h"),
    ],
)
def test_rating_is_given_in_the_unit_of_its_kind(text: str, dimension: str, value: str, unit: str) -> None:
    """A rating is exact in the one unit in which its kind is compared."""
    assert quantity(text, dimension) == Rating(Decimal(value), unit)


@pytest.mark.parametrize("text", ["100-240 V", "100..240 V", "100 to 240V", "100 – 240 V"])
def test_range_of_a_rating_keeps_both_ends(text: str) -> None:
    """A rating may be a range."""
    assert quantity(text, "voltage") == Rating(Decimal(100), "V", Decimal(240))


@pytest.mark.parametrize(
    ("text", "dimension"),
    [
        ("5", "voltage"),
        ("5 V", "current"),
        ("16 Gb", "data"),
        ("240-100 V", "voltage"),
        ("NaN V", "voltage"),
        ("1e99 V", "voltage"),
        ("", "power"),
        ("5 W" + "x" * 100, "power"),
        ("5 V**9", "voltage"),
    ],
)
def test_what_is_no_such_rating_is_refused_with_an_example(text: str, dimension: str) -> None:
    """A rating of another kind, bits for bytes, or no number is refused, naming what was expected."""
    with pytest.raises(UnitError, match=rf"is no {dimension}.*for example"):
        quantity(text, dimension)


def test_milli_and_mega_stay_apart() -> None:
    """Case is forgiven, except where it tells milli from mega."""
    assert quantity("5 mW", "power").value == Decimal("0.005")
    assert quantity("5 MW", "power").value == Decimal(5_000_000)


@given(st.text(max_size=30), st.sampled_from(tuple(RATINGS)))
def test_any_text_is_a_rating_or_refused(text: str, dimension: str) -> None:
    """No text ends in another error than UnitError."""
    found = or_refusal(quantity, text, dimension)
    assert "for example" in str(found) if isinstance(found, UnitError) else found.value.is_finite()


def test_conversion_is_exact_where_it_can_be() -> None:
    """Millimetres and inches convert exactly, and back."""
    assert convert(Decimal("12.7"), "mm", "in") == Decimal("0.5")
    assert convert(convert(Decimal("3.175"), "mm", "in"), "in", "mm") == Decimal("3.175")
    assert convert(Decimal(212), "degF", "degC") == 100
    assert convert(Decimal(1), "bar", "kPa") == 100


@pytest.mark.parametrize(
    ("value", "here", "there"),
    [("1", "mm", "kg"), ("1", "mm", "nonsense"), ("NaN", "mm", "in"), ("1E+999", "mm", "in"), ("1", "m**2", "mm")],
)
def test_impossible_conversion_is_refused(value: str, here: str, there: str) -> None:
    """Units of different kinds, unknown units, expressions and endless numbers are refused."""
    with pytest.raises(UnitError):
        convert(Decimal(value), here, there)


def test_there_is_one_registry_in_exact_decimals() -> None:
    """The pint registry is built once and works in decimals."""
    assert registry() is registry()
    assert isinstance(registry().Quantity(Decimal(1), "yard").to("mm").magnitude, Decimal)


def test_tidy_drops_zeros_and_exponent() -> None:
    """A tidied number prints as one would write it."""
    assert [str(tidy(Decimal(text))) for text in ("5.0120", "5E+1", "0.000", "-0.50")] == ["5.012", "50", "0", "-0.5"]
