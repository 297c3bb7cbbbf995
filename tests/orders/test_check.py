"""Whole orders: what is covered, missing, short, in doubt, too many, bought twice; ready or not, and why not."""

from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.orders.check import check, gate_of
from service.orders.intake import parse_order
from service.orders.model import Cover, Gate, LineResult, OrderCheck
from service.verdict.model import CheckError

TODAY = date(2027, 1, 15)
PIN = "ISO 8734 - 5 x 20 - A - St"
NEED: dict[str, Any] = {"id": "N1", "quantity": 6, "description": "index pins", "bore": "5 H7", "fit": "location"}


def line(id_: str, text: str = PIN, quantity: Any = 6, **fields: Any) -> dict[str, Any]:
    """Return a line."""
    return {"id": id_, "line": text, "quantity": quantity, **fields}


def checked(**fields: Any) -> OrderCheck:
    """Check an order with one need unless others are given."""
    return check(parse_order({"needs": [NEED], "today": str(TODAY), **fields}, TODAY))


def need(found: OrderCheck, id_: str = "N1") -> Cover:
    """Return how a need stands."""
    return next(cover for cover in found.needs if cover.need.id == id_)


def result(found: OrderCheck, id_: str) -> LineResult:
    """Return how a line stands."""
    return next(one for one in found.lines if one.supply.id == id_)


class TestCoverage:
    """Each need: covered, short, missing or in doubt."""

    @pytest.mark.parametrize(
        ("lines", "state", "text"),
        [
            ([line("L1")], "covered", "N1 index pins: 6 needed, 6 on order"),
            ([line("L1", quantity=4)], "short", "N1 index pins: 6 needed, 4 on order, 2 short"),
            ([], "missing", "N1 index pins: 6 needed, none ordered"),
            ([line("L1", "M5 dowel pin")], "in doubt", "N1 index pins: 6 needed, 6 to be asked about"),
            ([line("L1", received_on="2027-01-11")], "covered", "N1 index pins: 6 needed, 6 here"),
            ([line("L1", received=2)], "covered", "N1 index pins: 6 needed, 2 here, 4 on order"),
            ([line("L1", "ISO 8734 - 6 x 20 - A - St")], "missing", "N1 index pins: 6 needed, none ordered"),
        ],
    )
    def test_the_state_and_its_words(self, lines: list[dict[str, Any]], state: str, text: str) -> None:
        """Only what fits covers; what is marginal or to be asked about leaves it in doubt."""
        found = checked(lines=lines)
        assert need(found).state == state
        assert need(found).text.split("; order text")[0] == text
        assert found.ready == (state == "covered")

    def test_what_is_short_says_what_to_order(self) -> None:
        """The designation of what is ordered already."""
        assert need(checked(lines=[line("L1", quantity=4)])).order_text == f"Parallel pin {PIN}"

    def test_stock_is_used_first_and_never_twice(self) -> None:
        """Two needs of four from six pieces are two short."""
        found = checked(needs=[{**NEED, "quantity": 4}, {**NEED, "id": "N2", "quantity": 4}], stock=[line("S1")])
        assert sum(cover.covered for cover in found.needs) == 6
        assert sorted(cover.state for cover in found.needs) == ["covered", "short"]

    def test_lengths_are_covered_by_lengths(self) -> None:
        """Pieces do not cover them."""
        rod = {"id": "N1", "quantity": "1.5 m", "part": "M8 threaded rod"}
        assert need(checked(needs=[rod], lines=[line("L1", "M8 threaded rod", "2 m")])).text == (
            "N1: 1500 mm needed, 1500 mm on order"
        )
        assert need(checked(needs=[rod], lines=[line("L1", "M8 threaded rod", 2)])).state == "missing"

    def test_an_order_that_names_its_needs_is_taken_at_its_word(self) -> None:
        """A line for N2 does not cover N1, though it would fit."""
        needs = [NEED, {**NEED, "id": "N2"}]
        found = checked(needs=needs, lines=[line("L1", quantity=12, **{"for": ["N2"]})])
        assert [cover.state for cover in found.needs] == ["missing", "covered"]

    def test_copies_and_variants_multiply(self) -> None:
        """A tool that is needed once is not."""
        needs = [{**NEED, "per": "copy"}, {"id": "T", "quantity": 1, "presence": "yes", "per": "order"}]
        found = checked(needs=needs, copies=3)
        assert [cover.required for cover in found.needs] == [18, 1]

    def test_a_line_whose_only_use_has_other_words_is_asked_about(self) -> None:
        """A pin goes into the bore, but the need speaks of a bearing."""
        needs = [{**NEED, "description": "ball bearing of the arm"}]
        assert need(checked(needs=needs, lines=[line("L1")])).state == "in doubt"
        assert need(checked(needs=needs, lines=[line("L1", **{"for": "N1"})])).state == "covered"

    def test_too_many_pairs_are_refused(self) -> None:
        """Lines that say what they are for make few."""
        needs = [{**NEED, "id": f"N{n}"} for n in range(300)]
        lines = [line(f"L{n}") for n in range(300)]
        with pytest.raises(CheckError, match="pairs"):
            checked(needs=needs, lines=lines)


class TestFindings:
    """Near misses, surplus, bought twice."""

    def test_a_near_miss_brings_the_text_that_puts_it_right(self) -> None:
        """And the question, where one has to be asked."""
        found = checked(lines=[line("L1", "ISO 8734 - 6 x 20 - A - St"), line("L2", "M5 dowel pin", **{"for": ["N1"]})])
        texts = {one.line: one for one in found.near_misses}
        assert texts["L1"].order_text == f"Parallel pin {PIN}"
        assert texts["L2"].question
        assert texts["L2"].word == "ask"

    def test_a_line_on_the_wrong_need_is_told_where_it_fits(self) -> None:
        """Two lines that were exchanged."""
        needs = [NEED, {**NEED, "id": "N2", "bore": "6 H7"}]
        lines = [line("L1", "ISO 8734 - 6 x 20 - A - St", **{"for": ["N1"]}), line("L2", PIN, **{"for": ["N2"]})]
        found = checked(needs=needs, lines=lines)
        assert [cover.state for cover in found.needs] == ["missing", "missing"]
        texts = {one.line: one.text for one in found.near_misses}
        assert texts["L1"].endswith("; it fits N2, which is open")
        assert texts["L2"].endswith("; it fits N1, which is open")

    def test_what_is_left_over_is_surplus(self) -> None:
        """Less the spares that are wanted; a pack that holds no fewer is said to."""
        assert [one.over.number for one in checked(lines=[line("L1", quantity=10)]).surplus] == [4]
        kept = checked(needs=[{**NEED, "spare": 3}], lines=[line("L1", quantity=10)])
        assert [one.over.number for one in kept.surplus] == [1]
        packed = checked(lines=[line("L1", quantity=1, pack=10)]).surplus[0]
        assert (packed.over.number, packed.unavoidable) == (4, True)
        assert "a pack holds 10" in packed.text

    def test_stock_is_no_surplus(self) -> None:
        """It is simply there."""
        assert checked(stock=[line("S1", quantity=99)]).surplus == ()

    def test_a_quantity_that_was_meant_in_pieces_is_asked_about(self) -> None:
        """50 packs of 50 for six pins."""
        text = checked(lines=[line("L1", quantity=50, pack=50)]).surplus[0].text
        assert "is the quantity meant in pieces?" in text
        assert "50 packs of 50 = 2500" in text

    def test_a_line_that_no_need_asks_for_is_surplus(self) -> None:
        """Whether it is read or not."""
        found = checked(lines=[line("L1"), line("L2", "608 ball bearing", 2), line("L3", "qqqq zzzz", 3)])
        assert {one.line: one.over.number for one in found.surplus} == {"L2": 2, "L3": 3}
        assert (result(found, "L2").word, result(found, "L3").word) == ("wrong", "unread")
        assert found.ready

    def test_the_same_part_twice_is_bought_twice(self) -> None:
        """In whatever words; the later line is named."""
        found = checked(lines=[line("L1", quantity=8), line("L2", "parallel pin 5 m6 x 20 ISO 8734", 6)])
        assert [(one.line, one.of, one.needs) for one in found.duplicates] == [("L2", ("L1",), ("N1",))]
        assert {one.line: one.over.number for one in found.surplus} == {"L1": 2, "L2": 6}

    def test_two_lines_that_are_both_needed_are_not_bought_twice(self) -> None:
        """Six and four of ten."""
        found = checked(needs=[{**NEED, "quantity": 10}], lines=[line("L1"), line("L2", quantity=4)])
        assert found.duplicates == ()
        assert found.surplus == ()

    def test_what_is_in_stock_already_is_bought_twice(self) -> None:
        """And the stock is named."""
        found = checked(lines=[line("L1")], stock=[line("S1")])
        assert [(one.line, one.of) for one in found.duplicates] == [("L1", ("S1",))]

    def test_a_later_delivery_does_not_stand_in_for_an_earlier_one(self) -> None:
        """It would come too late."""
        early, late = line("L1", lead_time=5), line("L2", lead_time=50)
        assert [one.line for one in checked(lines=[late, early]).duplicates] == ["L2"]


class TestReady:
    """Ready only if everything is covered by what fits, and no line is at fault."""

    def test_reasons_stand_in_the_order_of_the_delay_they_cause(self) -> None:
        """What nobody can date first."""
        needs = [
            {**NEED, "id": "quick", "lead_time": 3},
            {**NEED, "id": "unknown", "bore": "6 H7"},
            {**NEED, "id": "slow", "bore": "8 H7", "lead_time": 60},
        ]
        found = checked(needs=needs)
        assert [(one.needs[0], one.delay_days) for one in found.reasons] == [
            ("unknown", None),
            ("slow", 60),
            ("quick", 3),
        ]
        assert "Nobody knows" in found.reasons[0].text

    def test_the_delay_counts_from_when_the_rest_is_there(self) -> None:
        """What takes no longer than that delays nothing."""
        needs = [{**NEED, "lead_time": 20}, {**NEED, "id": "N2", "bore": "6 H7"}]
        lines = [line("L2", "ISO 8734 - 6 x 20 - A - St", lead_time=15)]
        assert checked(needs=needs, lines=lines).reasons[0].delay_days == 5

    def test_a_line_at_fault_keeps_an_order_from_being_ready(self) -> None:
        """Even where others cover its need: it would still be bought."""
        lines = [line("L1"), line("L2", "ISO 8734 - 6 x 20 - A - St", **{"for": ["N1"]})]
        found = checked(lines=lines)
        assert need(found).state == "covered"
        assert [one.code for one in found.reasons] == ["line-at-fault"]

    def test_a_quote_that_lapsed_has_to_be_asked_for_again(self) -> None:
        """Unless the line is ordered."""
        lapsed = line("L1", quote_until="2027-01-14", supplier="B")
        assert [one.code for one in checked(lines=[lapsed]).reasons] == ["quote-lapsed"]
        assert checked(lines=[{**lapsed, "ordered_on": "2027-01-10"}]).ready
        assert checked(lines=[{**lapsed, "quote_until": "2027-01-15"}]).ready

    def test_out_of_stock_covers_nothing_and_a_second_source_steps_in(self) -> None:
        """Only then: until then it would be bought twice."""
        out = line("L1", available="out of stock", supplier="A", **{"for": ["N1"]})
        second = line("L2", supplier="B", second_source_for="L1")
        assert "L1 brings nothing: out of stock at A" in checked(lines=[out]).reasons[0].text
        found = checked(lines=[out, second])
        assert found.ready
        assert [share.supply for share in need(found).shares] == ["L2"]
        there = checked(lines=[{**out, "available": "in stock"}, second])
        assert [share.supply for share in need(there).shares] == ["L1"]
        assert there.duplicates == ()
        assert checked(lines=[{**out, "ordered_on": "2027-01-10"}]).ready

    def test_notes_tell_what_the_line_says_against_its_fields(self) -> None:
        """Nothing is passed over."""
        found = checked(lines=[line("L1", "6 pcs ISO 8734 - 5 x 20 - A - St", 8)])
        assert found.notes == ("L1: the line says 6, the quantity 8: taken is 8",)


class TestLosses:
    """A part breaks or is lost: its need opens again."""

    def test_a_spare_is_drawn_where_there_is_one(self) -> None:
        """The need asks for one more, and the surplus shrinks."""
        lines = [line("L1", quantity=8, received_on="2027-01-11")]
        before, after = checked(lines=lines), checked(lines=lines, losses=[{"need": "N1", "why": "broken"}])
        assert (before.surplus[0].over.number, after.surplus[0].over.number) == (2, 1)
        assert need(after).text == "N1 index pins: 7 needed, 7 here, 1 broken included"
        assert after.ready

    def test_without_a_spare_it_is_short_and_dates_move(self) -> None:
        """The gate closes again."""
        fields: dict[str, Any] = {
            "lines": [line("L1", received_on="2027-01-11", lead_time=20)],
            "steps": [{"id": "strip", "irreversible": True}],
        }
        before, after = checked(**fields), checked(**fields, losses=[{"line": "L1", "quantity": 2, "why": "lost"}])
        assert (before.gates[0].open, after.gates[0].open) == (True, False)
        assert need(after).text.startswith("N1 index pins: 6 needed, 4 here, 2 short")
        assert (before.schedule.kit.p90, after.schedule.kit.p90) == (TODAY, date(2027, 2, 4))

    def test_a_substitute_is_proofed_against_the_same_needs_and_their_neighbours(self) -> None:
        """It is for what the first line was for."""
        needs = [{**NEED, "neighbours": ["N2"]}, {"id": "N2", "quantity": 1, "bore": "5 G7", "fit": "0.0..0.02"}]
        lines = [line("L1", **{"for": ["N1"]}), line("L2", "ISO 2338 - 5 h8 x 20 - St", substitute_for="L1")]
        found = checked(needs=needs, lines=lines)
        judgement = dict(result(found, "L2").judgements)["N1"]
        assert any(one.text.startswith("N2: ") for one in judgement.findings)
        assert dict(result(found, "L2").judgements).keys() == {"N1"}


class TestReceived:
    """What was measured."""

    STEPS = [{"id": "strip", "irreversible": True}]  # noqa: RUF012

    def measured(self, *values: float, uncertainty: float = 0.001, **fields: Any) -> OrderCheck:
        """Check an order whose line is here and was measured."""
        receipt = {"measured": list(values), "uncertainty": uncertainty}
        return checked(
            needs=[{**NEED, **fields}],
            lines=[line("L1", received_on="2027-01-11", receipt=receipt)],
            steps=self.STEPS,
        )

    def test_what_is_proved_opens_the_gate(self) -> None:
        """Conforming to the line's own limits."""
        found = self.measured(5.008, 5.007)
        assert result(found, "L1").proof == "conforming"
        assert found.gates[0].open

    def test_what_proves_nothing_keeps_it_closed(self) -> None:
        """A calliper cannot tell; the need stays covered."""
        found = self.measured(5.008, uncertainty=0.03)
        assert need(found).state == "covered"
        assert found.gates[0].because == (
            "N1 index pins: what was measured on L1 proves nothing; measure with a finer instrument",
        )

    def test_what_is_proved_wrong_covers_nothing(self) -> None:
        """The bag goes back."""
        found = self.measured(4.99)
        assert need(found).state == "missing"
        assert "L1 was measured and does not conform" not in need(found).text
        assert not found.gates[0].open

    def test_what_has_to_be_measured_keeps_the_gate_closed_until_it_is(self) -> None:
        """A need can ask for it."""
        found = checked(needs=[{**NEED, "measure": True}], stock=[line("S1")], steps=self.STEPS)
        assert found.gates[0].because == (
            f"N1 index pins: S1 ({PIN}) has to be measured and is not: outer diameter 5.001 to 5.016 mm",
        )
        assert self.measured(5.008, measure=True).gates[0].open


class TestMeasuredInFull:
    """A need that has to be measured waits for every dimension that the sheet for the bench asks for."""

    BEARING: dict[str, Any] = {  # noqa: RUF012
        "id": "N1",
        "quantity": 2,
        "description": "bearings of the crank",
        "shaft": "8 h6",
        "fit": "-0.010..0.010",
        "measure": True,
    }
    BORE: dict[str, Any] = {"measured": [7.996], "dimension": "bore", "uncertainty": 0.001}  # noqa: RUF012
    OUTSIDE: dict[str, Any] = {"measured": [21.996], "dimension": "outer_diameter", "uncertainty": 0.001}  # noqa: RUF012
    LEAD = "N1 bearings of the crank: L1 (608-2RS)"

    def gate(self, *receipts: dict[str, Any], needs: Any = None, text: str = "608-2RS") -> Gate:
        """Return the gate of an order whose line is here with these receipts."""
        fields = {"received_on": "2027-01-11"} | ({"receipt": list(receipts)} if receipts else {})
        return checked(
            needs=needs or [self.BEARING],
            lines=[line("L1", text, 2, **{"for": [one["id"] for one in needs or [self.BEARING]]}, **fields)],
            steps=[{"id": "arm", "irreversible": True}],
        ).gates[0]

    def test_one_dimension_of_two_opens_nothing(self) -> None:
        """The reason names the other one, with its limits; whichever came first."""
        assert self.gate().because == (
            f"{self.LEAD} has to be measured and is not: bore 7.99 to 8.001 mm, outer diameter 21.991 to 22 mm",
        )
        assert self.gate(self.BORE).because == (
            f"{self.LEAD} is not measured in full; still to be measured: outer diameter 21.991 to 22 mm",
        )
        assert self.gate(self.OUTSIDE).because == (
            f"{self.LEAD} is not measured in full; still to be measured: bore 7.99 to 8.001 mm",
        )
        both = self.gate(self.BORE, self.OUTSIDE)
        assert (both.open, both.because) == (True, ())

    def test_without_being_asked_to_measure_one_dimension_is_enough(self) -> None:
        """What was measured of its own accord must not be wrong, and need not be all."""
        assert self.gate(self.BORE, needs=[{**self.BEARING, "measure": False}]).open

    def test_what_was_measured_besides_takes_no_dimension_s_place(self) -> None:
        """The width of a bearing says nothing of its bore."""
        width = {"measured": [6.95], "dimension": "width", "limits": {"lower": 6.88, "upper": 7}, "uncertainty": 0.01}
        assert "still to be measured: bore" in self.gate(width, self.OUTSIDE).because[0]

    @pytest.mark.parametrize(
        ("limits", "measured", "opens"),
        [
            ({"lower": 4.9, "upper": 5.1}, 5.01, True),
            ({"lower": 4.9, "upper": 5.1}, 5.05, False),
            ({"lower": 5.001, "upper": 5.016}, 5.01, True),
        ],
    )
    def test_one_receipt_is_enough_for_one_dimension_if_it_proves_what_the_design_asks(
        self, limits: dict[str, float], measured: float, opens: bool
    ) -> None:
        """It need not name the dimension; wide limits of its own do not make a pin fit its bore."""
        receipt = {"measured": [measured], "limits": limits, "uncertainty": 0.001}
        gate = self.gate(receipt, needs=[{**NEED, "quantity": 2, "measure": True}], text=PIN)
        assert gate.open == opens
        if not opens:
            assert gate.because == (
                f"N1 index pins: L1 ({PIN}) was measured, but what it is for asks for more than that proves:"
                " outer diameter 5.001 to 5.016 mm",
            )

    def test_where_the_sheet_asks_for_nothing_any_measurement_proves_the_bag(self) -> None:
        """No dimension of it has limits: what somebody measured on it is all there is."""
        needs = [{"id": "N1", "quantity": 2, "description": "standoffs", "measure": True}]
        text = "standoff M3 x 10 female female"
        assert self.gate(needs=needs, text=text).because == (
            f"N1 standoffs: L1 ({text}) has to be measured and is not",
        )
        receipt = {"measured": [10.01], "limits": {"lower": 9.9, "upper": 10.1}, "uncertainty": 0.03}
        assert self.gate(receipt, needs=needs, text=text).open

    def test_a_part_is_proved_for_its_neighbours_too(self) -> None:
        """What goes into the lever and not into the fork opens nothing."""
        lever = {"id": "N1", "quantity": 1, "bore": "4 H7", "fit": "-0.02..0.02", "measure": True, "neighbours": ["N2"]}
        fork = {"id": "N2", "quantity": 1, "bore": "4 G7", "fit": "-0.010..0.02"}
        text = "ISO 8734 - 4 x 16 - A - St"
        pin = {"limits": {"lower": 3.9, "upper": 4.1}, "uncertainty": 0.0005}
        assert self.gate({**pin, "measured": [4.009]}, needs=[lever, fork], text=text).open
        assert self.gate({**pin, "measured": [4.017]}, needs=[lever, fork], text=text).because == (
            f"N1: L1 ({text}) was measured, but what it is for asks for more than that proves:"
            " outer diameter 3.996 to 4.014 mm",
        )
        alone = {**lever, "neighbours": []}
        assert self.gate({**pin, "measured": [4.017]}, needs=[alone, fork], text=text).open

    def test_a_bag_for_two_mates_is_proved_for_each(self) -> None:
        """Every need waits for the limits of its own mate, whichever of them a receipt names."""
        tight = {"id": "N1", "quantity": 1, "bore": "5 H7", "fit": "location", "measure": True}
        loose = {"id": "N2", "quantity": 1, "bore": "5 F8", "fit": "-0.010..0.030", "measure": True}
        one = {"measured": [5.009], "dimension": "outer_diameter", "uncertainty": 0.001}
        assert self.gate(one, needs=[tight, loose], text=PIN).open
        high = {**one, "measured": [5.0139], "limits": {"lower": 4.998, "upper": 5.02}}
        for_tight = {**one, "limits": {"lower": 5.001, "upper": 5.016}}
        assert self.gate(high, for_tight, needs=[tight], text=PIN).open


class TestGates:
    """Which step may start."""

    def test_a_step_waits_for_its_own_needs_an_irreversible_one_for_all(self) -> None:
        """Unless they are listed."""
        needs = [{**NEED, "step": "plate"}, {**NEED, "id": "N2", "step": "arm", "bore": "6 H7"}]
        steps = [
            {"id": "strip", "irreversible": True},
            {"id": "plate"},
            {"id": "arm"},
            {"id": "cut", "irreversible": True, "needs": ["N1"]},
        ]
        found = {gate.step.id: gate for gate in checked(needs=needs, stock=[line("S1")], steps=steps).gates}
        assert {name: gate.open for name, gate in found.items()} == {
            "strip": False,
            "plate": True,
            "arm": False,
            "cut": True,
        }
        assert found["strip"].needs == ("N1", "N2")
        assert (
            found["strip"].because
            == found["arm"].because
            == ("N2 index pins: 6 needed, none ordered; order text: Parallel pin ISO 8734 - 6 x 20 - A - St",)
        )

    def test_what_is_on_its_way_is_not_here(self) -> None:
        """Covered and not received."""
        found = checked(lines=[line("L1", received=4)], steps=[{"id": "strip", "irreversible": True}])
        assert found.ready
        assert found.gates[0].because == ("N1 index pins: 6 needed, 2 still to come (L1)",)

    def test_a_step_that_waits_for_nothing_may_start(self) -> None:
        """Its gate is open."""
        found = checked(steps=[{"id": "talk"}])
        assert found.gates[0].open

    def test_things_that_must_match_each_other_have_to(self) -> None:
        """In interface and version; two that do not keep order and gate."""
        needs = [
            {"id": "N1", "quantity": 1, "presence": "yes", "must_match": ["N2"]},
            {"id": "N2", "quantity": 1, "presence": "yes"},
        ]

        def matched(one: dict[str, str], other: dict[str, str]) -> OrderCheck:
            stock = [
                line("S1", "logger", 1, **{"for": ["N1"], **one}),
                line("S2", "image", 1, **{"for": ["N2"], **other}),
            ]
            return checked(needs=needs, stock=stock, steps=[{"id": "strip", "irreversible": True}])

        good = matched({"interface": "SD", "version": "2"}, {"interface": "sd", "version": "2"})
        assert (good.ready, good.gates[0].open) == (True, True)
        for one, other, says in (
            ({"version": "2"}, {"version": "3"}, "S1 has version 2, S2 3"),
            ({"version": "2"}, {}, "S1 has version 2, S2 states none"),
            ({}, {}, "neither S1 nor S2 states"),
        ):
            bad = matched(one, other)
            assert [cover.state for cover in bad.needs] == ["in doubt", "in doubt"]
            assert not bad.ready
            assert says in bad.gates[0].because[0]

    def test_the_gate_of_one_step_can_be_asked_for(self) -> None:
        """As a script does."""
        order = parse_order(
            {"needs": [NEED], "stock": [line("S1")], "steps": [{"id": "strip", "irreversible": True}]}, TODAY
        )
        assert gate_of(order, "strip").open
        with pytest.raises(KeyError):
            gate_of(order, "stripe")


class TestCopies:
    """How many can be finished."""

    def test_what_is_here_and_what_is_ordered(self) -> None:
        """Six pins a copy: fourteen here make two, ten more make four."""
        found = checked(stock=[line("S1", quantity=14)], lines=[line("L1", quantity=10)], copies=5).variants
        assert [(one.wanted, one.from_here, one.with_ordered, one.limited_by) for one in found] == [(5, 2, 4, ("N1",))]

    def test_each_variant_has_its_own_needs(self) -> None:
        """A tool that is needed once limits all of them, or none."""
        needs = [
            NEED,
            {**NEED, "id": "N2", "bore": "6 H7", "quantity": 2, "variants": ["long"]},
            {"id": "T", "quantity": 1, "presence": "yes", "per": "order", "description": "pin punch"},
        ]
        stock = [line("S1", quantity=30), line("S2", "ISO 8734 - 6 x 20 - A - St", 3)]
        without = checked(needs=needs, stock=stock, variants={"short": 1, "long": 1}).variants
        assert [(one.name, one.from_here) for one in without] == [("short", 0), ("long", 0)]
        found = checked(needs=needs, stock=[*stock, line("S3", "pin punch", 1)], variants={"short": 1, "long": 1})
        assert [(one.name, one.from_here, one.limited_by) for one in found.variants] == [
            ("short", 5, ("N1",)),
            ("long", 1, ("N2",)),
        ]

    def test_doubtful_pieces_finish_nothing(self) -> None:
        """Only what fits counts."""
        assert checked(stock=[line("S1", "M5 dowel pin", 99)]).variants[0].from_here == 0


class TestSpares:
    """What to buy spare, with the arithmetic."""

    def test_what_breaks_easily_and_takes_long(self) -> None:
        """Binomial: of six with one in ten broken, three more are needed for 95 %."""
        found = checked(needs=[{**NEED, "breaks": 0.1, "lead_time": 30}], lines=[line("L1")]).spares[0]
        assert (found.need, found.buy, found.have) == ("N1", 2, 0)
        assert (
            "6 needed, 10% break or get lost: with 2 spare the chance of enough is 96.2%, with 1 spare 85.0%"
            in found.text
        )
        assert found.why == ("breaks easily: by the order's own figure", "takes 30 days to replace")

    def test_what_is_left_over_already_counts(self) -> None:
        """One of two is there."""
        found = checked(needs=[{**NEED, "breaks": 0.1, "lead_time": 30}], lines=[line("L1", quantity=7)]).spares[0]
        assert (found.buy, found.have) == (1, 1)

    def test_what_is_solid_or_quickly_had_needs_none(self) -> None:
        """A pin that can be had tomorrow."""
        assert checked(needs=[{**NEED, "lead_time": 2}], lines=[line("L1")]).spares == ()
        assert checked(needs=[{**NEED, "breaks": 0.1, "lead_time": 2}], lines=[line("L1")]).spares == ()

    def test_cheap_small_parts_that_take_long_are_worth_a_spare(self) -> None:
        """A figure for what gets lost is an estimate, and says so."""
        found = checked(needs=[{**NEED, "lead_time": 30, "price": 0.2}], lines=[line("L1")]).spares[0]
        assert found.buy == 1
        assert "an estimate of 1 %" in found.source
        assert "costs 0.2 apiece" in found.why

    def test_a_family_that_is_known_to_break_brings_its_own_figure(self) -> None:
        """A retaining ring flies off."""
        needs = [{"id": "N1", "quantity": 4, "part": "retaining ring DIN 471 10x1", "price": 0.1}]
        found = checked(needs=needs, lines=[line("L1", "DIN 471 - 10 x 1", 4)]).spares[0]
        assert "flies off" in found.why[0]

    def test_what_fails_in_use_is_counted_by_poisson(self) -> None:
        """Four pieces in 500 hours with 1000 between failures: two are expected, five cover them."""
        needs = [{**NEED, "quantity": 4, "hours": 500, "mtbf_hours": 1000}]
        found = checked(needs=needs, lines=[line("L1", quantity=4)]).spares[0]
        assert "In use 2.00 failures are expected; 5 spare cover them with 98.3%" in found.text
        assert "first interval only" in found.source

    def test_what_is_cut_to_length_has_no_spare_pieces(self) -> None:
        """A share of a length breaks nobody's heart."""
        rod = {"id": "N1", "quantity": "1.5 m", "part": "M8 threaded rod", "breaks": 0.2, "lead_time": 40}
        assert checked(needs=[rod], lines=[line("L1", "M8 threaded rod", "2 m")]).spares == ()


SIZES = ("4", "5", "6")


@st.composite
def small_orders(draw: st.DrawFn) -> dict[str, Any]:
    """Return an order of a few needs and lines of pins in three sizes, some of them named, some here, some stock."""
    needs = [
        {**NEED, "id": f"N{n}", "quantity": draw(st.integers(1, 5)), "bore": f"{draw(st.sampled_from(SIZES))} H7"}
        for n in range(draw(st.integers(1, 3)))
    ]
    supplies = []
    for n in range(draw(st.integers(0, 5))):
        fields: dict[str, Any] = {}
        if draw(st.booleans()):
            fields["for"] = [draw(st.sampled_from([need["id"] for need in needs]))]
        if draw(st.booleans()):
            fields["lead_time"] = draw(st.sampled_from([3, 9]))
        text = f"ISO 8734 - {draw(st.sampled_from(SIZES))} x 20 - A - St"
        supplies.append(line(f"L{n}", text, draw(st.integers(1, 6)), **fields))
    cut = draw(st.integers(0, len(supplies)))
    stock = [{name: one[name] for name in one if name != "lead_time"} for one in supplies[cut:]]
    return {"needs": needs, "lines": supplies[:cut], "stock": stock}


@settings(max_examples=80, deadline=None)
@given(small_orders())
def test_without_what_is_bought_twice_every_need_is_covered_as_before(fields: dict[str, Any]) -> None:
    """All such lines may be left out at once."""
    found = checked(**fields)
    twice = {one.line for one in found.duplicates}
    rest = checked(**{**fields, "lines": [one for one in fields["lines"] if one["id"] not in twice]})
    assert {one.need.id: (one.state, one.covered) for one in rest.needs} == {
        one.need.id: (one.state, one.covered) for one in found.needs
    }
    for one in found.duplicates:
        assert not twice & set(one.of)
        assert result(found, one.line).used == 0


@settings(max_examples=80, deadline=None)
@given(small_orders())
def test_what_is_used_and_what_is_left_is_what_there_is(fields: dict[str, Any]) -> None:
    """No piece appears or vanishes; ready means that every need is covered by what fits."""
    found = checked(**fields)
    for one in found.lines:
        assert one.used + one.left == one.supply.amount.number
        assert one.used == sum(
            share.quantity for cover in found.needs for share in cover.shares if share.supply == one.supply.id
        )
    for cover in found.needs:
        assert cover.covered <= cover.required
        assert (cover.state == "covered") == (cover.covered == cover.required)
    if found.ready:
        assert all(cover.state == "covered" for cover in found.needs)
    kit = found.schedule.kit
    assert (kit.p50 is None) == (kit.p90 is None)
    assert kit.p50 is None or kit.p90 is None or TODAY <= kit.p50 <= kit.p90
