"""What to measure on a bag."""

from decimal import Decimal
from typing import Any

import pytest

from service.receipts.bench import ToMeasure, not_proved, tells_apart, to_measure
from service.receipts.intake import parse_receipt
from service.strength.measuring import decide
from service.verdict.mates import parse_check


def measures(**fields: str) -> dict[str, ToMeasure]:
    """Return what to measure by dimension."""
    check = parse_check(fields)
    return {one.dimension: one for one in to_measure(check.line, [[check]])}


def test_the_design_asks_for_what_goes_with_every_mate() -> None:
    """A bore of 5.000 to 5.012 with a clearance of -0.016 to 0.011 takes pins of 5.001 to 5.016."""
    pin = measures(line="dowel pin 5 m6 x 20", bore="5 H7", fit="location")["outer_diameter"]
    assert (pin.lower, pin.upper) == (Decimal("5.001"), Decimal("5.016"))
    assert "goes with every bore 5 H7" in pin.limits_from


def test_a_shaft_asks_for_a_bore() -> None:
    """Which is measured with what goes into a small hole, never with a calliper."""
    bearing = measures(line="608-2RS", shaft="8 h6", fit="slip")["bore"]
    assert (bearing.lower, bearing.upper) == (Decimal(8), Decimal("8.02"))
    assert bearing.instrument == "bore gauge"


def test_a_window_that_no_size_meets_leaves_the_standard_s_own_limits() -> None:
    """The design cannot be proved by one size then."""
    pin = measures(line="dowel pin 5 m6 x 20", bore="5 H7", fit="0..0.001")["outer_diameter"]
    assert (pin.lower, pin.upper) == (Decimal("5.004"), Decimal("5.012"))


def test_a_screw_is_told_by_its_crests_and_its_length() -> None:
    """6g of M4 lies within 3.838 and 3.978 (ISO 965)."""
    screw = measures(line="M4x45 socket head cap screw 8.8", clamp="42 into M4 depth 10 in aluminium")
    assert (screw["thread"].lower, screw["thread"].upper) == (Decimal("3.838"), Decimal("3.978"))
    assert (screw["length"].lower, screw["length"].upper) == (Decimal("44.5"), Decimal("45.5"))


def test_the_hole_that_a_spring_pin_is_made_for_is_not_in_the_bag() -> None:
    """Its free diameter is."""
    assert "hole_diameter" not in measures(line="Spring pin ISO 8752 - 5 x 24 - St", bore="5 drilled")


def test_an_instrument_is_a_quarter_of_the_tolerance_or_the_finest() -> None:
    """And what it then can prove is the tolerance less its uncertainty at both ends."""
    coarse = measures(line="M4x45 socket head cap screw 8.8", clamp="42 into M4 depth 10 in aluminium")["length"]
    assert (coarse.instrument, coarse.uncertainty) == ("calliper", Decimal("0.03"))
    assert coarse.zone == (Decimal("44.53"), Decimal("45.47"))
    fine = measures(line="dowel pin 5 m6 x 20", bore="5 H7", fit="location")["outer_diameter"]
    assert (fine.instrument, fine.zone) == ("micrometer", (Decimal("5.005"), Decimal("5.012")))


def test_a_reading_on_the_end_of_the_zone_proves_nothing() -> None:
    """By more than the uncertainty, as it is decided: a zone without anything between its ends is none."""
    pin = measures(line="dowel pin 5 m6 x 20", bore="5 H7", fit="location")["outer_diameter"]
    assert pin.zone is not None
    for reading, decision in ((pin.zone[0], "not provable"), (pin.zone[0] + Decimal("0.001"), "conforming")):
        assert decide(pin.lower, pin.upper, [reading], pin.uncertainty).decision == decision
    # 8 micrometres, and twice 4 of uncertainty.
    assert measures(line="dowel pin 5 m6 x 20", bore="5 H7", fit="-0.010..0.010")["outer_diameter"].zone is None


def test_what_no_instrument_can_prove_has_no_zone() -> None:
    """A tolerance of 6 micrometres with an uncertainty of 4."""
    pin = measures(line="dowel pin 5 m6 x 20", bore="5 H7", fit="-0.009..0.009")["outer_diameter"]
    assert pin.upper is not None
    assert pin.lower is not None
    assert pin.upper - pin.lower == Decimal("0.006")
    assert pin.zone is None


@pytest.mark.parametrize("line", ["two nice bottles", "608-2RS"])
def test_one_meaning_or_none_is_not_told_apart(line: str) -> None:
    """There is nothing to choose."""
    assert tells_apart(line) == ""


def test_several_meanings_are_told_apart_by_their_sizes() -> None:
    """8 mm with a thread inside, or 5 mm."""
    said = tells_apart("M5 dowel pin")
    assert "parallel pin with internal thread: outer diameter 8 mm, internal thread M5" in said
    assert "parallel pin: outer diameter 5 mm" in said


class TestNotProved:
    """Which of the dimensions that are asked for a bag's receipts leave open."""

    def left(self, *receipts: dict[str, Any], **fields: str) -> list[tuple[str, bool]]:
        """Return the dimensions that are left, and whether they were measured."""
        check = parse_check(fields)
        asked = to_measure(check.line, [[check]])
        return [(one.asked.dimension, one.measured) for one in not_proved(asked, [parse_receipt(r) for r in receipts])]

    SCREW: dict[str, str] = {"line": "M4x45 socket head cap screw 8.8", "clamp": "42 into M4 depth 10 in aluminium"}  # noqa: RUF012

    def test_all_of_them_before_anything_is_measured(self) -> None:
        """In the sequence of the sheet."""
        assert self.left(**self.SCREW) == [("thread", False), ("length", False), ("head_diameter", False)]

    def test_a_receipt_without_a_dimension_is_told_by_its_limits(self) -> None:
        """Where several are asked and no limits agree, nothing is guessed."""
        length = {"measured": [45.1], "limits": {"lower": 44.5, "upper": 45.5}, "uncertainty": 0.03}
        assert self.left(length, **self.SCREW) == [("thread", False), ("head_diameter", False)]
        assert len(self.left({**length, "limits": {"lower": 44, "upper": 46}}, **self.SCREW)) == 3

    def test_values_count_and_not_the_limits_that_a_receipt_states(self) -> None:
        """One that is outside, or too near for the instrument, leaves the dimension open."""
        pin = {"line": "dowel pin 5 m6 x 20", "bore": "5 H7", "fit": "location"}
        receipt = {"dimension": "outer_diameter", "limits": {"lower": 4, "upper": 6}, "uncertainty": 0.004}
        assert self.left({**receipt, "measured": [5.006, 5.011]}, **pin) == []
        assert self.left({**receipt, "measured": [5.006, 5.018]}, **pin) == [("outer_diameter", True)]
        assert self.left({**receipt, "measured": [5.003]}, **pin) == [("outer_diameter", True)]
        # A second measurement of the same that is right does not outweigh it.
        two = [{**receipt, "measured": [value]} for value in (5.018, 5.008)]
        assert self.left(*two, **pin) == [("outer_diameter", True)]


def test_a_part_that_goes_with_two_mates_is_asked_for_what_suits_both() -> None:
    """One dimension, within the limits of both; two needs of one bag are asked for each alone."""
    lever, fork = (
        parse_check({"line": "ISO 2338 - 4 h8 x 16 - St", "bore": bore, "fit": fit})
        for bore, fit in (("4 H7", "location"), ("4 F8", "0..0.05"))
    )
    (both,) = to_measure(lever.line, [[lever, fork]])
    assert (both.lower, both.upper) == (Decimal("4.001"), Decimal("4.01"))
    assert "4 H7" in both.limits_from
    assert "4 F8" in both.limits_from
    assert [(one.lower, one.upper) for one in to_measure(lever.line, [[lever], [fork]])] == [
        (Decimal("4.001"), Decimal("4.016")),
        (Decimal("3.978"), Decimal("4.01")),
    ]


def test_what_the_design_asks_for_is_never_left_out() -> None:
    """However many mates a bag is for."""
    checks = [
        parse_check({"line": "608-2RS", "shaft": f"8 {grade}", "fit": "slip"}) for grade in ("h5", "h6", "h7", "h8")
    ]
    assert [one.dimension for one in to_measure("608-2RS", [[one] for one in checks])] == ["bore"] * 4
