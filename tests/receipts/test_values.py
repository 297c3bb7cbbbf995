"""Values as they are written down at the bench."""

from decimal import Decimal

import pytest

from service.receipts.values import read_values
from service.verdict.model import CheckError

LOWER, UPPER = Decimal("5.001"), Decimal("5.016")


@pytest.mark.parametrize(
    ("given", "values"),
    [
        ("5.008", ["5.008"]),
        ("5,008", ["5.008"]),
        (" 5.008  5.010\t5.009 ", ["5.008", "5.010", "5.009"]),
        ("5,008; 5,010;5.009", ["5.008", "5.010", "5.009"]),
        ("5,008, 5,010", ["5.008", "5.010"]),
        ("5.008\n5.010", ["5.008", "5.010"]),
        ("5.008 mm 5.010mm", ["5.008", "5.010"]),
        ("5008 µm, 0.1972 in", ["5.008", "5.00888"]),
        ('0.1972"', ["5.00888"]),
        ([5.008, "5,010"], ["5.008", "5.010"]),
        (5, ["5"]),
    ],
)
def test_they_are_read_as_they_come(given: object, values: list[str]) -> None:
    """With a comma or a point, with their unit or without, one or several."""
    assert list(read_values(given, "measured", LOWER, UPPER)) == [Decimal(one) for one in values]


@pytest.mark.parametrize(
    ("given", "at_fault"),
    [
        ("eight", "eight"),
        ("5.008 eight 5.010", "5.008 eight"),
        ("5.008 kg", "5.008 kg"),
        ("5.008 N m", "5.008 N m"),
        ("mm", "mm"),
        ("5.0.8", "5.0.8"),
        ("-5.008", "-5.008"),
        ("0", "0"),
        ("3/16 in", "3/16 in"),
        ("5.008 5.01O", "5.01O"),
        ("5e0x", "5e0x"),
        (True, True),
        ([None], None),
    ],
)
def test_what_is_no_length_is_named_alone(given: object, at_fault: object) -> None:
    """Not all that was typed beside it."""
    with pytest.raises(CheckError) as refused:
        read_values(given, "measurements[0].measured", LOWER, UPPER)
    assert (refused.value.field, refused.value.value) == ("measurements[0].measured", at_fault)
    assert read_values(refused.value.example, "measured", LOWER, UPPER)


@pytest.mark.parametrize("given", [None, "", "  ", [], ";", ["5"] * 1001])
def test_nothing_and_far_too_much_are_no_values(given: object) -> None:
    """Up to a thousand pieces are taken."""
    with pytest.raises(CheckError, match="1 to 1000"):
        read_values(given, "measured", LOWER, UPPER)


@pytest.mark.parametrize("given", ["5008", "50.08", "0.5008", "5.008 in", "5.008 um"])
def test_a_lost_decimal_point_or_another_unit_is_noticed(given: str) -> None:
    """What is so far away was not measured so."""
    with pytest.raises(CheckError, match="lost decimal point"):
        read_values(given, "measured", LOWER, UPPER)


@pytest.mark.parametrize("given", ["8.01", "1.6", "24"])
def test_another_part_in_the_bag_is_no_slip(given: str) -> None:
    """It is measured as it is, and refused for its size."""
    assert read_values(given, "measured", LOWER, UPPER) == (Decimal(given),)


def test_one_limit_or_none_is_enough_to_read() -> None:
    """What is far away is only known beside a limit."""
    assert read_values("5008", "measured", None, None) == (Decimal(5008),)
    with pytest.raises(CheckError):
        read_values("5008", "measured", None, UPPER)
