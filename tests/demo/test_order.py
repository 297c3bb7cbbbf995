"""The order of the river sampler: every trap that is planted in it is found, and nothing else is held against it."""

import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from service.orders.check import check
from service.orders.intake import parse_order
from service.orders.model import ColumnNotRead, Cover, LineResult, Order, OrderCheck

DEMO = Path(__file__).parents[2] / "demo" / "order"
TODAY = date(2027, 1, 25)


@pytest.fixture(scope="module")
def order() -> Order:
    """The order as JSON."""
    return parse_order(json.loads((DEMO / "order.json").read_text("utf-8")), TODAY)


@pytest.fixture(scope="module")
def found(order: Order) -> OrderCheck:
    """What is found in it."""
    return check(order)


@pytest.fixture(scope="module")
def needs(found: OrderCheck) -> dict[str, Cover]:
    """How each need stands."""
    return {cover.need.id: cover for cover in found.needs}


@pytest.fixture(scope="module")
def lines(found: OrderCheck) -> dict[str, LineResult]:
    """How each line stands."""
    return {result.supply.id: result for result in found.lines}


def test_the_sheets_hold_the_same_order(order: Order) -> None:
    """But for a title above the heading and a column that nobody understands, which are named."""
    sheets = {name: (DEMO / f"{name}.csv").read_text("utf-8") for name in ("needs", "lines", "stock", "steps")}
    read = parse_order({**json.loads((DEMO / "options.json").read_text("utf-8")), **sheets}, TODAY)
    assert read.not_read == (ColumnNotRead("lines", "Lagerplatz", 2),)
    assert read.assumed == ("lines row 1: 'Bestellung Wasserprobennehmer, Stand 25.01.2027' stands above the heading",)
    assert replace(read, not_read=(), assumed=()) == order


def test_its_size_is_that_of_a_real_order(order: Order) -> None:
    """Lines of three suppliers."""
    assert len(order.supplies) >= 57
    assert {one.supplier for one in order.supplies if one.supplier} == {"A", "B", "C"}
    assert len(order.needs) == 50


COVERED = [
    *("N02", "N03", "N05", "N07", "N08", "N09", "N11", "N13", "N17", "N18", "N19", "N20", "N22", "N24", "N25", "N26"),
    *("N28", "N33", "N34", "N35", "N36", "N38", "N39", "N40", "N41", "N42", "N43", "N44", "N45", "N46", "N48", "N49"),
]


def test_what_is_right_is_covered(needs: dict[str, Cover]) -> None:
    """In whatever language and words it is ordered."""
    assert [name for name, cover in needs.items() if cover.state == "covered"] == COVERED


def test_the_order_is_not_ready_and_every_open_need_is_a_reason(found: OrderCheck, needs: dict[str, Cover]) -> None:
    """What nobody can date comes first."""
    assert not found.ready
    about = {one.needs[0] for one in found.reasons if one.code != "quote-lapsed"}
    assert about == set(needs) - set(COVERED)
    assert [one.needs for one in found.reasons if one.delay_days is None] == [("N37",)]
    assert found.reasons[0].needs == ("N37",)
    delays = [one.delay_days for one in found.reasons[1:]]
    assert delays == sorted(delays, key=lambda one: -(one or 0))


class TestTraps:
    """Each by its name."""

    def test_an_m5_dowel_pin_can_be_three_pins(self, needs: dict[str, Cover], lines: dict[str, LineResult]) -> None:
        """In doubt, with the question and the text that puts it right."""
        assert (lines["L01"].word, needs["N01"].state) == ("ask", "in doubt")
        assert needs["N01"].text.startswith(
            "N01 index pins of the carousel plate: 6 needed, 2 here, 4 to be asked about"
        )
        assert needs["N01"].order_text == "Parallel pin ISO 8734 - 5 x 20 - A - St"

    def test_pins_that_were_measured_wrong_cover_nothing(
        self, needs: dict[str, Cover], lines: dict[str, LineResult], found: OrderCheck
    ) -> None:
        """7.962 is no 8 m6."""
        assert (lines["L04"].proof, needs["N04"].state) == ("not conforming", "missing")
        reason = next(one for one in found.reasons if one.needs == ("N04",))
        assert "L04 was measured and does not conform" in reason.text

    def test_a_screw_that_bottoms_is_put_right(self, needs: dict[str, Cover], lines: dict[str, LineResult]) -> None:
        """50 mm through 38 mm into 8 mm of thread."""
        assert (lines["L06"].word, needs["N06"].state) == ("wrong", "missing")
        assert any("it bottoms" in one.text for one in dict(lines["L06"].judgements)["N06"].findings)
        assert needs["N06"].order_text == "Hexagon socket head cap screw ISO 4762 - M4 x 45 - 8.8"

    def test_two_nuts_are_short(self, needs: dict[str, Cover]) -> None:
        """Eight needed, six ordered."""
        assert (needs["N10"].state, needs["N10"].short) == ("short", 2)
        assert needs["N10"].order_text == "Hexagon nut ISO 4032 - M8 - A2-70"

    def test_fifty_packs_were_meant_as_pieces(self, found: OrderCheck) -> None:
        """Asked about, not assumed."""
        text = next(one.text for one in found.surplus if one.line == "L11")
        assert "2500 ordered, 16 used" in text
        assert "is the quantity meant in pieces?" in text

    def test_an_inch_screw_is_no_m5(self, needs: dict[str, Cover], lines: dict[str, LineResult]) -> None:
        """10-32 goes into M5 for a turn."""
        assert (lines["L12"].word, needs["N12"].state, needs["N12"].covered) == ("wrong", "short", 2)

    @pytest.mark.parametrize(
        ("line", "need", "says"),
        [
            ("L14", "N14", "property class"),
            ("L23", "N23", "outer diameter 9, wanted is 8"),
            ("L27", "N27", "A2-70 is wanted"),
        ],
    )
    def test_what_a_line_leaves_open_is_asked(
        self, needs: dict[str, Cover], lines: dict[str, LineResult], line: str, need: str, says: str
    ) -> None:
        """A class, a mean diameter, a material."""
        assert (lines[line].word, needs[need].state) == ("ask", "in doubt")
        judgement = dict(lines[line].judgements)[need]
        assert any(says in one.text for one in judgement.findings)
        assert judgement.question

    def test_two_exchanged_lines_are_told_where_they_fit(self, found: OrderCheck, needs: dict[str, Cover]) -> None:
        """6000 and 608."""
        assert (needs["N15"].state, needs["N16"].state) == ("missing", "missing")
        texts = {one.line: one.text for one in found.near_misses}
        assert "it fits N16, which is open" in texts["L15"]
        assert "it fits N15, which is open" in texts["L16"]

    def test_a_quote_has_lapsed(self, found: OrderCheck) -> None:
        """The seals are covered and cannot be ordered as quoted."""
        assert [one.lines for one in found.reasons if one.code == "quote-lapsed"] == [("L20",)]

    def test_a_belt_of_the_same_pitch_is_another_belt(
        self, needs: dict[str, Cover], lines: dict[str, LineResult]
    ) -> None:
        """T5 and HTD 5M are both 5 mm."""
        assert (lines["L21"].word, needs["N21"].state) == ("wrong", "missing")

    @pytest.mark.parametrize(("line", "need"), [("L29", "N29"), ("L49", "N50")])
    def test_ratings_that_are_too_small_or_other_ones(
        self, needs: dict[str, Cover], lines: dict[str, LineResult], line: str, need: str
    ) -> None:
        """32 of 64 GB, 12 for 24 V."""
        assert (lines[line].word, needs[need].state) == ("wrong", "missing")

    def test_board_and_firmware_do_not_match(self, found: OrderCheck, needs: dict[str, Cover]) -> None:
        """Version 2 and version 3: neither is wrong alone."""
        assert (needs["N30"].state, needs["N31"].state) == ("in doubt", "in doubt")
        control = next(gate for gate in found.gates if gate.step.id == "control")
        assert "N30 and N31 must match: L30 has version 2, L31 3" in control.because

    def test_the_board_is_overdue(self, found: OrderCheck) -> None:
        """Nobody can give a day, so the kit has none; what has one keeps it."""
        assert "L30" in found.schedule.without_date
        assert any("L30 'controller board' is overdue" in one and "ask C" in one for one in found.notes)
        assert found.schedule.kit.p90 is None
        assert found.schedule.known.p90 is not None

    def test_a_cable_with_another_plug(self, needs: dict[str, Cover], lines: dict[str, LineResult]) -> None:
        """USB-B where USB-C is needed."""
        assert (lines["L32"].word, needs["N32"].state) == ("wrong", "missing")

    def test_a_second_source_steps_in(self, needs: dict[str, Cover], lines: dict[str, LineResult]) -> None:
        """B is out of stock, C delivers."""
        assert [share.supply for share in needs["N33"].shares] == ["L34"]
        assert (lines["L33"].left, lines["L34"].used) == (0, 1)

    def test_a_pin_must_also_go_with_the_fork_beside(
        self, needs: dict[str, Cover], lines: dict[str, LineResult]
    ) -> None:
        """It fits its lever alone."""
        assert (lines["L46"].word, needs["N47"].state) == ("marginal", "in doubt")
        assert any(one.text.startswith("N48: ") for one in dict(lines["L46"].judgements)["N47"].findings)

    def test_the_same_bolts_from_two_suppliers(self, found: OrderCheck) -> None:
        """B brings them already."""
        assert [(one.line, one.of, one.needs) for one in found.duplicates] == [("L47", ("L09",), ("N09",))]

    def test_lines_that_no_need_asks_for(self, found: OrderCheck, lines: dict[str, LineResult]) -> None:
        """One that nobody can read, one that is simply not needed."""
        over = {one.line: one.over.number for one in found.surplus}
        assert (over["L50"], over["L53"], over["L47"]) == (2, 20, 8)
        assert (lines["L50"].word, lines["L53"].word) == ("unread", "wrong")

    def test_a_line_that_says_another_number_than_its_quantity(self, found: OrderCheck) -> None:
        """The quantity counts, and it is said."""
        assert "L51: the line says 10, the quantity 4: taken is 4" in found.notes

    def test_a_tool_is_missing_before_the_machine_is_taken_apart(
        self, found: OrderCheck, needs: dict[str, Cover]
    ) -> None:
        """The hex key was found by its words, the puller is nowhere."""
        assert (needs["N36"].state, needs["N37"].state) == ("covered", "missing")
        assert found.schedule.without_date == ("L30", "N37")

    def test_a_calliper_cannot_prove_the_pins(self, found: OrderCheck, lines: dict[str, LineResult]) -> None:
        """They are here, and the need asks for proof; the doubt about the others comes first."""
        assert lines["S01"].proof == "not provable"
        plate = next(gate for gate in found.gates if gate.step.id == "plate")
        assert not plate.open

    def test_a_broken_magnet_is_replaced_from_the_bag(self, needs: dict[str, Cover]) -> None:
        """Six came, four are needed, one broke: one is left."""
        assert needs["N24"].text == "N24 magnets of the lid: 5 needed, 5 here, 1 broken included"

    def test_what_is_bought_by_the_pack_leaves_some_over(self, found: OrderCheck) -> None:
        """Which cannot be helped."""
        assert [one.line for one in found.surplus if one.unavoidable] == ["L25"]

    def test_the_stock_saves_half_of_the_rings(self, needs: dict[str, Cover]) -> None:
        """Three are here, three are taken of the six ordered."""
        assert [(share.supply, share.quantity) for share in needs["N19"].shares] == [("S03", 3), ("L19", 3)]


def test_the_machine_is_not_taken_apart_yet(found: OrderCheck) -> None:
    """Every need keeps that gate closed until it is here; only the trial waits for no part of its own."""
    gates = {gate.step.id: gate for gate in found.gates}
    strip = gates["strip"]
    assert strip.step.irreversible
    assert (strip.open, len(strip.needs), len(strip.because)) == (False, 50, 49)
    assert [name for name, gate in gates.items() if gate.open] == ["trial"]


def test_what_is_known_of_the_dates(found: OrderCheck) -> None:
    """The slow supplier decides; what was ordered three weeks ago does not any more."""
    plan = found.schedule
    assert plan.known.p50 is not None
    assert plan.known.p90 is not None
    assert TODAY < plan.known.p50 < plan.known.p90
    assert {one.supplier for one in plan.deciding} <= {"C", ""}
    assert not {"L37", "L38"} & {one.id for one in plan.deciding}
    assert plan.arrivals["L37"] == plan.arrivals["L38"]
    assert plan.wanted_chance == 0


def test_what_is_worth_a_spare(found: OrderCheck) -> None:
    """What flies off, is nicked or used once, and costs little; what is left over counts."""
    buy = {one.need: one.buy for one in found.spares}
    assert buy == {
        "N01": 1,
        "N05": 1,
        "N13": 1,
        "N18": 1,
        "N19": 0,
        "N20": 2,
        "N24": 0,
        "N25": 1,
        "N34": 1,
        "N41": 1,
        "N42": 1,
        "N45": 2,
    }


def test_it_is_the_same_in_any_sequence(order: Order, found: OrderCheck) -> None:
    """Lines and needs turned round give the same answer."""
    turned = check(replace(order, needs=order.needs[::-1], supplies=order.supplies[::-1]))
    assert {one.need.id: one.state for one in turned.needs} == {one.need.id: one.state for one in found.needs}
    assert {one.supply.id: one.word for one in turned.lines} == {one.supply.id: one.word for one in found.lines}
    assert turned.schedule.known == found.schedule.known
