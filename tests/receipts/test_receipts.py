"""Receipts: the buyer's rule, where the limits come from, what a sample says, and whether a label can be true."""

from decimal import Decimal
from itertools import combinations
from math import comb
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.receipts.check import check, sample_of
from service.receipts.intake import FIELDS, parse_receipt
from service.receipts.model import ReceiptCheck
from service.verdict.model import CheckError

PIN = {"limits": {"lower": 4.982, "upper": 5.0}, "measured": [4.99, 4.985]}


def checked(**fields: Any) -> ReceiptCheck:
    """Check a receipt."""
    return check(parse_receipt(fields))


class TestDecision:
    """Uncertainty works against the one who wants to prove something."""

    @pytest.mark.parametrize(
        ("uncertainty", "decision"),
        [(0.03, "not provable"), (0.003, "not provable"), (0.0029, "conforming"), (0, "conforming")],
    )
    def test_conforming_only_inside_by_more_than_the_uncertainty(self, uncertainty: float, decision: str) -> None:
        """The worst of the two pieces lies 0.003 inside."""
        assert checked(**PIN, uncertainty=uncertainty).outcome.decision == decision

    @pytest.mark.parametrize(("measured", "decision"), [(5.03, "not provable"), (5.0301, "not conforming")])
    def test_not_conforming_only_outside_by_more(self, measured: float, decision: str) -> None:
        """At the edge of the band nothing is proved."""
        found = checked(limits={"upper": 5.0}, measured=[4.9, measured], uncertainty=0.03)
        assert found.outcome.decision == decision
        assert found.outcome.worst.measured == Decimal(str(measured))

    def test_the_advice_names_an_instrument_that_would_decide(self) -> None:
        """And none where a piece lies on a limit."""
        assert "micrometer" in checked(limits={"lower": 4.98, "upper": 5}, measured=4.99, uncertainty=0.03).advice
        assert "calliper" in checked(limits={"lower": 4.9, "upper": 5.1}, measured=5.0, uncertainty=0.2).advice
        bore = checked(limits={"lower": 8, "upper": 8.02}, measured=8.011, uncertainty=0.02, dimension="bore")
        assert "bore gauge" in bore.advice
        assert "micrometer" not in bore.advice
        assert "no finer instrument" in checked(limits={"upper": 5.0}, measured=5.0, uncertainty=0.2).advice
        assert checked(limits={"upper": 5.0}, measured=4.0, uncertainty=0.2).advice == ""

    def test_an_instrument_stands_for_its_uncertainty(self) -> None:
        """In five languages; the inside jaws of a calliper are worse in a small hole."""
        outside = checked(limits={"lower": 4.9, "upper": 5.1}, measured=5.0, instrument="Messschieber")
        hole = checked(limits={"lower": 4.9, "upper": 5.1}, measured=5.0, instrument="calliper", dimension="bore")
        large = checked(limits={"lower": 49, "upper": 51}, measured=50, instrument="calliper", dimension="bore")
        assert outside.receipt.uncertainty.value == Decimal("0.03")
        assert hole.receipt.uncertainty.value == Decimal("0.05")
        assert large.receipt.uncertainty.value == Decimal("0.03")
        assert "calliper" in hole.receipt.uncertainty.said


class TestLimits:
    """Limits as given, from the mate with its fit, or from the line that was ordered."""

    @pytest.mark.parametrize("limits", ["5 m6", "5.004..5.012", {"nominal": 5, "tolerance_class": "m6"}])
    def test_limits_are_read_in_every_form(self, limits: Any) -> None:
        """As class, as range, as object."""
        receipt = parse_receipt({"limits": limits, "measured": [5], "uncertainty": 0})
        assert (receipt.lower, receipt.upper) == (Decimal("5.004"), Decimal("5.012"))

    def test_a_hole_class_is_taken_as_well(self) -> None:
        """Where a bore was measured."""
        receipt = parse_receipt({"limits": "5 H7", "measured": "5,005", "uncertainty": "0,002"})
        assert (receipt.lower, receipt.upper, receipt.measured) == (Decimal(5), Decimal("5.012"), (Decimal("5.005"),))

    def test_a_bore_with_its_fit_asks_for_pins_that_go_with_every_such_bore(self) -> None:
        """Clearance between -0.012 and 0.011 in 5 to 5.012 takes 5.001 to 5.012."""
        receipt = parse_receipt({"bore": "5 H7", "fit": "-0.012..0.011", "measured": [5.005], "uncertainty": 0})
        assert (receipt.lower, receipt.upper) == (Decimal("5.001"), Decimal("5.012"))
        shaft = parse_receipt({"shaft": "5 h6", "fit": "0..0.020", "measured": [5.005], "uncertainty": 0})
        assert (shaft.lower, shaft.upper) == (Decimal("5"), Decimal("5.012"))

    def test_a_clear_line_brings_its_own_limits(self) -> None:
        """An ambiguous one brings none."""
        receipt = parse_receipt({"line": "ISO 8734 - 5 x 20 - A - St", "measured": [5.005], "uncertainty": 0})
        assert (receipt.lower, receipt.upper) == (Decimal("5.004"), Decimal("5.012"))
        with pytest.raises(CheckError, match="line"):
            parse_receipt({"line": "M5 dowel pin", "measured": [5.005], "uncertainty": 0})

    def test_several_values_may_stand_in_one_cell(self) -> None:
        """Separated by blanks or semicolons; inches keep their unit."""
        receipt = parse_receipt({"limits": {"upper": 9}, "measured": "4.99; 4.985 5,01", "uncertainty": 0})
        assert receipt.measured == (Decimal("4.99"), Decimal("4.985"), Decimal("5.01"))
        inch = parse_receipt({"limits": {"upper": 9}, "measured": "3/16 in", "uncertainty": 0})
        assert inch.measured == (Decimal("4.7625"),)


class TestRefused:
    """Bad input names the field, the value and an accepted example."""

    @pytest.mark.parametrize(
        ("fields", "field"),
        [
            ({"measured": [5]}, "limits"),
            ({**PIN}, "uncertainty"),
            ({**PIN, "uncertainty": -1}, "uncertainty"),
            ({**PIN, "uncertainty": True}, "uncertainty"),
            ({**PIN, "instrument": "crystal ball"}, "instrument"),
            ({"limits": {"lower": 5, "upper": 4}, "measured": [5], "uncertainty": 0}, "limits"),
            ({"limits": {}, "measured": [5], "uncertainty": 0}, "limits"),
            ({"limits": "5", "measured": [5], "uncertainty": 0}, "limits"),
            ({"limits": {"upper": 5}, "measured": [], "uncertainty": 0}, "measured"),
            ({"limits": {"upper": 5}, "measured": ["x", 5], "uncertainty": 0}, "measured[0]"),
            ({"limits": {"upper": 5}, "uncertainty": 0}, "measured"),
            ({"bore": "5 H7", "measured": [5], "uncertainty": 0}, "fit"),
            ({"bore": "5 H7", "fit": "0..0.001", "measured": [5], "uncertainty": 0}, "fit"),
            ({"bore": "5 H7", "shaft": "5 h6", "fit": "slip", "measured": [5], "uncertainty": 0}, "shaft"),
            ({**PIN, "uncertainty": 0, "lot": 1}, "lot"),
            ({**PIN, "uncertainty": 0, "lot": "many"}, "lot"),
            ({**PIN, "uncertainty": 0, "colour": "red"}, "colour"),
            ({**PIN, "uncertainty": 0, "label": "x" * 501}, "label"),
        ],
    )
    def test_the_field_at_fault_is_named(self, fields: dict[str, Any], field: str) -> None:
        """With what is accepted and an example."""
        with pytest.raises(CheckError) as caught:
            parse_receipt(fields)
        assert caught.value.field == field
        assert caught.value.accepted

    def test_the_field_of_a_receipt_within_something_is_named_by_its_path(self) -> None:
        """An order holds receipts of its lines."""
        with pytest.raises(CheckError) as caught:
            parse_receipt({**PIN}, "lines.L1.receipt")
        assert caught.value.field == "lines.L1.receipt.uncertainty"
        assert set(PIN) <= set(FIELDS)


class TestSample:
    """What a sample without a piece outside says of its bag."""

    @given(lot=st.integers(2, 12), measured=st.integers(1, 12))
    def test_the_share_is_the_largest_that_the_sample_can_miss(self, lot: int, measured: int) -> None:
        """Counted out: every choice of the sample from a lot with so many pieces outside."""
        if measured > lot:
            measured = lot
        at_most = round(sample_of(measured, lot).outside_at_most * lot)

        def missed(outside: int) -> float:
            good = sum(1 for one in combinations(range(lot), measured) if all(piece >= outside for piece in one))
            return good / comb(lot, measured)

        assert at_most == 0 or missed(at_most) > 0.05
        assert at_most + 1 > lot or missed(at_most + 1) <= 0.05

    def test_a_large_bag_is_the_rule_of_three(self) -> None:
        """59 pieces without one outside show 5 %."""
        assert sample_of(59, None).outside_at_most <= Decimal("0.05") < sample_of(58, None).outside_at_most
        assert sample_of(1, None).for_five_percent == 59
        assert sample_of(4, 4).outside_at_most == 0

    def test_a_sample_with_a_piece_outside_says_nothing_of_the_rest(self) -> None:
        """The bag is to be sorted."""
        assert checked(limits={"upper": 5}, measured=[4, 5.1], uncertainty=0.2).sample is None
        assert checked(limits={"upper": 5}, measured=[4], uncertainty=0.2).sample is not None


class TestLabel:
    """The label is not proof."""

    @pytest.mark.parametrize(
        ("label", "measured", "word"),
        [
            ("ISO 8734 - 5 x 20 - A - St", [7.99], "contradicts"),
            ("ISO 8734 - 8 x 20 - A - St", [8.01], "agrees"),
            ("ISO 8734 - 5 x 20 - A - St", [5.012], "not decided"),
            ("qqqq zzzz", [5], "not decided"),
        ],
    )
    def test_it_is_held_against_what_was_measured(self, label: str, measured: list[float], word: str) -> None:
        """Within the uncertainty it may be either."""
        found = checked(limits={"upper": 9}, measured=measured, uncertainty=0.002, label=label)
        assert found.label is not None
        assert found.label.word == word

    def test_each_meaning_of_a_label_is_shown(self) -> None:
        """An M5 dowel pin that measures 8 mm is the one with the thread inside."""
        found = checked(limits={"upper": 9}, measured=[8.01], uncertainty=0.001, label="M5 dowel pin")
        assert found.label is not None
        assert found.label.word == "agrees"
        assert "parallel pin with internal thread with outer diameter 8.006..8.015: agrees" in found.label.text
        assert "parallel pin with outer diameter 5.004..5.012: contradicts" in found.label.text

    def test_a_size_without_limits_is_held_against_a_wide_tolerance(self) -> None:
        """A length on a label is a nominal one."""
        label = "ISO 8734 - 5 x 20 - A - St"
        good = checked(limits={"upper": 99}, measured=[20.1], uncertainty=0.02, label=label, dimension="length")
        bad = checked(limits={"upper": 99}, measured=[24], uncertainty=0.02, label=label, dimension="length")
        assert good.label is not None
        assert bad.label is not None
        assert (good.label.word, bad.label.word) == ("agrees", "contradicts")
