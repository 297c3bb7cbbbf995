"""Rated items against what is needed."""

from decimal import Decimal

import pytest

from reference.quantities import Rating
from service.reading.model import LineReading, Reading
from service.verdict.judge import judge_line
from service.verdict.mates import parse_check, parse_mate
from service.verdict.model import CheckError, RatingMate, Verdict


def judge(family: str, rating: str, **rated: tuple[str, str] | tuple[str, str, str]) -> Verdict:
    """Judge a rated item, made by hand from (value, unit) or (lower, unit, upper), against a rating."""
    ratings = {
        name: Rating(Decimal(one[0]), one[1], Decimal(one[2]) if len(one) > 2 else None) for name, one in rated.items()
    }
    reading = Reading(family, (), "rating", "stated", {"rating": ratings})
    return judge_line(LineReading("by hand", "clear", (reading,)), parse_check({"line": "by hand", "rating": rating}))


def code(found: Verdict) -> str:
    """Return the code of the first finding."""
    return found.readings[0].findings[0].code


@pytest.mark.parametrize(
    ("text", "values", "margin"),
    [
        ("24 V", ["24"], "0"),
        ("24 V, 40 W", ["24", "40"], "0"),
        ("24 V,40 W", ["24", "40"], "0"),
        ("at least 250 mA", ["0.25"], "0"),
        ("64 GB margin 20 %", ["64"], "0.2"),
        ("40 GiB +20%", ["40"], "0.2"),
        ("2,5 A", ["2.5"], "0"),
        ("10 kN", ["10000"], "0"),
    ],
)
def test_rating_is_read(text: str, values: list[str], margin: str) -> None:
    """Quantities with units, several by commas, and a margin in per cent."""
    mate = parse_mate("rating", text)
    assert isinstance(mate, RatingMate)
    assert [one.rating.value for one in mate.needed] == [Decimal(value) for value in values]
    assert mate.margin == Decimal(margin)


@pytest.mark.parametrize("text", ["24", "V", "24 frogs", "24 V margin 2000 %", "64 Gb", ", "])
def test_bad_rating_is_refused(text: str) -> None:
    """A number without a unit, an unknown unit, bits and an absurd margin are refused."""
    with pytest.raises(CheckError):
        parse_mate("rating", text)


def test_rating_as_object() -> None:
    """Needs can be a list and the margin a share; anything else is refused."""
    mate = parse_mate("mate", {"kind": "rating", "needed": ["24 V", "40 W"], "margin": 0.2})
    assert isinstance(mate, RatingMate)
    assert mate.margin == Decimal("0.2")
    for bad in (
        {"needed": []},
        {"needed": [5]},
        {"needed": "24 V", "margin": -1},
        {"needed": "24 V", "margin": True},
        {},
    ):
        with pytest.raises(CheckError):
            parse_mate("mate", {"kind": "rating", **bad})


def test_capacity_tells_decimal_from_binary_prefixes() -> None:
    """64 GB are 59.6 GiB: enough for 40 GiB and a fifth, not for 64 GiB; 128 GB are enough for 64 GiB."""
    assert judge("storage module", "40 GiB margin 20 %", capacity=("64", "GB")).verdict == "fits"
    found = judge("storage module", "64 GiB", capacity=("64", "GB"))
    assert (found.verdict, code(found)) == ("wrong", "rating-too-low")
    assert "59.6 GiB" in found.readings[0].findings[0].text
    assert judge("storage module", "64 GiB", capacity=("128", "GB")).verdict == "fits"
    assert judge("storage module", "1 TB", capacity=("1000", "GB")).verdict == "fits"


def test_margin_that_is_not_there_is_marginal() -> None:
    """64 GB meet 60 GB, but not with a fifth to spare."""
    found = judge("storage module", "60 GB margin 20 %", capacity=("64", "GB"))
    assert (found.verdict, code(found)) == ("marginal", "margin-short")


@pytest.mark.parametrize(
    ("family", "rating", "rated", "expected"),
    [
        ("power supply", "24 V", {"voltage": ("24", "V")}, "fits"),
        ("power supply", "24 V", {"voltage": ("48", "V")}, "wrong"),
        ("power supply", "24 V, 40 W", {"voltage": ("24", "V"), "power": ("60", "W")}, "fits"),
        ("power supply", "24 V, 40 W", {"voltage": ("24", "V"), "power": ("30", "W")}, "wrong"),
        ("power supply", "230 V", {"voltage": ("100", "V", "240")}, "fits"),
        ("power supply", "24 V, 40 W", {"voltage": ("24", "V")}, "ask"),
        ("heater cartridge", "24 V, 40 W", {"voltage": ("24", "V"), "power": ("50", "W")}, "wrong"),
        ("fuse", "2 A", {"current": ("2", "A")}, "fits"),
        ("fuse", "2 A", {"current": ("3.15", "A")}, "wrong"),
        ("fuse", "125 V", {"voltage": ("250", "V")}, "fits"),
        ("motor", "at most 2 A", {"current": ("1.5", "A")}, "fits"),
        ("motor", "at most 2 A", {"current": ("2.5", "A")}, "wrong"),
        ("motor", "exactly 1.8 deg", {"angle": ("0.9", "deg")}, "wrong"),
        ("temperature sensor", "250 degC", {"temperature": ("-50", "degC", "300")}, "fits"),
        ("parallel pin", "24 V", {}, "wrong"),
    ],
)
def test_comparison_is_the_usual_one_unless_said(
    family: str, rating: str, rated: dict[str, tuple[str, str]], expected: str
) -> None:
    """A supply must have the voltage and at least the power, a fuse the current; at most and exactly are as said."""
    assert judge(family, rating, **rated).verdict == expected


def test_electrical_ratings_are_cautioned() -> None:
    """A voltage carries the caution that a circuit is not approved; a capacity does not."""
    assert any("circuit is not approved" in text for text in judge("fuse", "125 V", voltage=("250", "V")).cautions)
    assert judge("storage module", "64 GB", capacity=("64", "GB")).cautions == ()
