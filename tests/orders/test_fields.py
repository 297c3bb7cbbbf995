"""Amounts, days, lead times and names, as JSON has them and as sheets write them."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from service.orders.fields import amount, amount_or_packs, day, lead_time, names, number, switch, text, whole
from service.orders.model import Amount
from service.verdict.model import CheckError


class TestAmounts:
    """Pieces, groups of them, packs, and what is cut to length."""

    @pytest.mark.parametrize(
        ("value", "unit", "expected"),
        [
            (6, None, Amount(6)),
            ("6", None, Amount(6)),
            ("6 Stk.", None, Amount(6)),
            ("12", "Stück", Amount(12)),
            ("2 pairs", None, Amount(4)),
            (2, "Paar", Amount(4)),
            ("3 douzaines", None, Amount(36)),
            ("1 000", None, Amount(1000)),
            ("1'000 pcs", None, Amount(1000)),
            (4.0, None, Amount(4)),
            ("2,5 m", None, Amount(2_500_000, "length")),
            ("2.5", "m", Amount(2_500_000, "length")),
            ("600 mm", None, Amount(600_000, "length")),
            ("10 in", None, Amount(254_000, "length")),
            ("3", "lfm", Amount(3_000_000, "length")),
        ],
    )
    def test_amounts_are_read_with_their_units(self, value: Any, unit: Any, expected: Amount) -> None:
        """In five languages, with decimal commas and thousands apart."""
        assert amount(value, unit, "quantity") == expected

    @pytest.mark.parametrize(
        ("value", "unit"),
        [
            ("1.000", None),
            ("1,000", None),
            ("1,5", None),
            ("6 hands", None),
            ("six", None),
            (True, None),
            (-1, None),
            ("6 pcs", "pcs"),
            (None, None),
            ([6], None),
            ("0.0005 mm", None),
            ("2 boxes", None),
        ],
    )
    def test_what_could_be_another_number_is_refused(self, value: Any, unit: Any) -> None:
        """1.000 is a thousand here and one there; half a pin is none; two boxes say nothing without their size."""
        with pytest.raises(CheckError) as caught:
            amount(value, unit, "quantity")
        assert caught.value.field == "quantity"

    def test_packs_are_told_from_pieces(self) -> None:
        """By their word."""
        assert amount_or_packs("3 VPE", None, "quantity") == (Amount(3), True)
        assert amount_or_packs("3", "boîte", "quantity") == (Amount(3), True)
        assert amount_or_packs("3", "pezzi", "quantity") == (Amount(3), False)

    def test_amounts_are_shown_in_pieces_or_millimetres(self) -> None:
        """As messages have them."""
        assert (Amount(6).said(), Amount(2_500_000, "length").said(), Amount(6).said(2)) == ("6", "2500 mm", "2")


class TestDays:
    """ISO 8601, dots, and nothing that can be read two ways."""

    @pytest.mark.parametrize(
        ("value", "expected"),
        [
            ("2027-02-01", date(2027, 2, 1)),
            ("01.02.2027", date(2027, 2, 1)),
            ("1. 2. 2027", date(2027, 2, 1)),
            ("13/02/2027", date(2027, 2, 13)),
            ("02/13/2027", date(2027, 2, 13)),
            ("2027-02-01T00:00:00", date(2027, 2, 1)),
            ("2027-02-01 00:00", date(2027, 2, 1)),
            ("", None),
            (None, None),
        ],
    )
    def test_days_are_read(self, value: Any, expected: date | None) -> None:
        """Where day and month can be told."""
        assert day(value, "on") == expected

    @pytest.mark.parametrize("value", ["02/01/2027", "2027-02-30", "soon", 20270201, "31.02.2027", "2027"])
    def test_other_texts_are_refused(self, value: Any) -> None:
        """With an example."""
        with pytest.raises(CheckError) as caught:
            day(value, "on")
        assert caught.value.example == "2027-02-01"


class TestLeadTimes:
    """Days, ranges, records, and the words of five languages."""

    @pytest.mark.parametrize(
        ("value", "mean", "spread"),
        [
            (14, 14, False),
            ("14", 14, False),
            ("2 weeks", 14, False),
            ("2 Wochen", 14, False),
            ("3 settimane", 21, False),
            ("1 mois", 30, False),
            ("5 Arbeitstage", 7, False),
            ("ab Lager", 0, False),
            ("en stock", 0, False),
            ("10-14 days", 12, True),
            ("2 bis 3 Wochen", 17.5, True),
            ("10/14/60", 21, True),
            ({"low": 10, "likely": 14, "high": 60}, 21, True),
            ({"low": 10, "high": 14}, 12, True),
            ({"days": 9}, 9, False),
            ([10, 20], 15, True),
            ({"record": [10, 20]}, 15, True),
            ([10], 10, False),
        ],
    )
    def test_lead_times_are_read(self, value: Any, mean: float, spread: bool) -> None:
        """With their mean, and with a spread where they have one."""
        found = lead_time(value, "lead_time")
        assert found is not None
        assert found.mean == pytest.approx(mean)
        assert (found.deviation > 0) == spread

    @pytest.mark.parametrize(
        "value",
        [
            "soon",
            "2 fortnights",
            {"low": 14, "likely": 10, "high": 60},
            {"low": 14},
            {"low": 1, "high": 2, "days": 3},
            {"hi": 3},
            [],
            ["x"],
            -3,
            True,
            "99999 days",
        ],
    )
    def test_what_is_none_is_refused(self, value: Any) -> None:
        """By name, down to the part at fault."""
        with pytest.raises(CheckError) as caught:
            lead_time(value, "lead_time")
        assert caught.value.field.startswith("lead_time")

    def test_nothing_is_no_lead_time(self) -> None:
        """Not one of zero days."""
        assert lead_time(None, "x") is None
        assert lead_time("", "x") is None


class TestWords:
    """Names, switches, numbers, texts."""

    def test_names_are_a_list_or_a_text(self) -> None:
        """Each once, whatever stands between them."""
        assert names(["N1", "N2", "N1"], "for") == names("N1, N2; N1", "for") == names("N1 N2", "for") == ("N1", "N2")
        assert names(None, "for") == ()
        assert names([7], "for") == ("7",)

    @pytest.mark.parametrize("value", [[""], [None], [["N1"]], {"N1": 1}])
    def test_what_is_no_name_is_refused(self, value: Any) -> None:
        """A list of lists is none."""
        with pytest.raises(CheckError):
            names(value, "for")

    @pytest.mark.parametrize(("value", "on"), [("ja", True), ("x", True), (True, True), ("non", False), ("", False)])
    def test_switches_are_words_of_five_languages(self, value: Any, on: bool) -> None:
        """As cells have them."""
        assert switch(value, "irreversible") is on

    def test_a_word_that_is_no_switch_is_refused(self) -> None:
        """Perhaps is neither."""
        with pytest.raises(CheckError):
            switch("perhaps", "irreversible")

    def test_numbers_have_bounds_and_either_decimal_sign(self) -> None:
        """And a text is none."""
        assert number("2,50", "price", Decimal(0), Decimal(9)) == number(2.5, "price", Decimal(0), Decimal(9))
        with pytest.raises(CheckError):
            number("2,50", "price", Decimal(3), Decimal(9))
        with pytest.raises(CheckError):
            whole("many", "n")
        with pytest.raises(CheckError):
            whole(7, "n", most=6)

    @pytest.mark.parametrize("value", ["a\x00b", "\ud800", "x" * 501, ["a"], True])
    def test_texts_are_printable_and_bounded(self, value: Any) -> None:
        """Tabs and line ends become blanks."""
        with pytest.raises(CheckError):
            text(value, "description")
        assert text("a\tb\n c", "description") == "a b c"
