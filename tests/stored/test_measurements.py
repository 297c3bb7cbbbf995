"""What was measured at the bench on a stored order: which of it counts, and what it does to the order."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from service.store.store import Store
from service.stored import orders as stored
from service.stored.measurements import Entry
from service.stored.orders import Prepared
from service.verdict.model import CheckError

PIN = "ISO 8734 - 5 x 20 - A - St"
PLAN: dict[str, Any] = {
    "name": "river sampler",
    "needs": [{"id": "N1", "quantity": 2, "step": "plate", "bore": "5 H7", "fit": "location", "measure": True}],
    "lines": [{"id": "L1", "line": PIN, "quantity": 2, "lead_time": 5}],
    "steps": [{"id": "plate"}],
}
GOOD = {"line": "L1", "dimension": "outer_diameter", "measured": "5.010 5,009", "instrument": "micrometer"}
BAD = {**GOOD, "measured": "4.9"}
DOUBTFUL = {**GOOD, "instrument": "calliper"}


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """A store of its own."""
    made = Store(f"sqlite:///{tmp_path / 'a.sqlite3'}")
    made.prepare()
    yield made
    made.engine.dispose()


@pytest.fixture
def order(store: Store) -> str:
    """An order that is kept."""
    change = stored.prepare_new(store, "club", PLAN)
    keep(store, change)
    return change.order_id


def keep(store: Store, change: Prepared) -> Prepared:
    """Carry out a change."""
    with store.write() as session:
        stored.carry_out(session, change, "token 1")
    return change


def tell(store: Store, order: str, kind: str, *given: dict[str, Any]) -> Prepared:
    """Tell entries of a kind."""
    return keep(store, stored.prepare_entries(store, "club", order, None, kind, given))


def patch(store: Store, order: str, **fields: Any) -> Prepared:
    """Change the plan."""
    return keep(store, stored.prepare_plan(store, "club", order, None, fields, "patched"))


def entries(store: Store, order: str) -> list[Entry]:
    """Return the measurements of an order."""
    return stored.measured(store, "club", order)[1]


def states(store: Store, order: str) -> list[tuple[int, str]]:
    """Return the number and the state of each measurement."""
    return [(one.number, one.state) for one in entries(store, order)]


def standing(store: Store, order: str) -> tuple[str | None, str, bool]:
    """Return what the bag L1 is proved to be, the state of N1, and whether its step may start."""
    found = stored.prepare_check(store, "club", order).proof.result
    return found.lines[0].proof, found.needs[0].state, found.gates[0].open


def test_what_is_proved_right_is_here_and_opens_the_gate(store: Store, order: str) -> None:
    """Though nobody told that it arrived: who measures it has it."""
    assert standing(store, order) == (None, "covered", False)
    change = tell(store, order, "measurement", GOOD)
    assert standing(store, order) == ("conforming", "covered", True)
    assert [share.here for share in change.proof.result.needs[0].shares] == [True]
    assert ("gate", "plate", "closed", "open", "log") in change.proof.changes


def test_what_is_proved_wrong_covers_nothing(store: Store, order: str) -> None:
    """It is here, is not to be used, and the reason says so though the line names no need."""
    change = tell(store, order, "measurement", BAD)
    assert standing(store, order) == ("not conforming", "missing", False)
    assert not change.proof.result.ready
    assert "L1 was measured and does not conform" in change.proof.result.reasons[0].text


def test_what_proves_nothing_keeps_the_gate_closed(store: Store, order: str) -> None:
    """A calliper cannot tell fifteen micrometres."""
    tell(store, order, "measurement", DOUBTFUL)
    assert standing(store, order) == ("not provable", "covered", False)


def test_several_dimensions_count_together_the_worst_first(store: Store, order: str) -> None:
    """One that is right does not outweigh one that is wrong."""
    length = {"line": "L1", "dimension": "length", "measured": 20.4, "uncertainty": 0.03}
    tell(store, order, "measurement", GOOD, {**length, "limits": {"lower": 19.75, "upper": 20.25}})
    assert standing(store, order)[0] == "not conforming"
    assert states(store, order) == [(1, "counts"), (2, "counts")]


class TestSeveralDimensions:
    """A bag of which the sheet asks more than one dimension."""

    NEED: dict[str, Any] = {"id": "N1", "quantity": 2, "step": "plate", "shaft": "8 h6", "fit": "-0.010..0.010"}  # noqa: RUF012
    BORE: dict[str, Any] = {"line": "L1", "dimension": "bore", "measured": "7.996", "uncertainty": 0.001}  # noqa: RUF012
    OUTSIDE: dict[str, Any] = {**BORE, "dimension": "outer_diameter", "measured": "21.996"}  # noqa: RUF012

    @pytest.fixture
    def order(self, store: Store) -> str:
        """An order of bearings that are to be measured."""
        lines = [{"id": "L1", "line": "608-2RS", "quantity": 2, "lead_time": 5}]
        change = stored.prepare_new(store, "club", {**PLAN, "needs": [{**self.NEED, "measure": True}], "lines": lines})
        return keep(store, change).order_id

    def because(self, store: Store, order: str) -> tuple[str, ...]:
        """Return what keeps the gate closed."""
        return stored.prepare_check(store, "club", order).proof.result.gates[0].because

    def test_the_gate_opens_with_the_last_of_them_and_closes_when_one_is_withdrawn(
        self, store: Store, order: str
    ) -> None:
        """The reason says which is still to be measured."""
        tell(store, order, "measurement", self.BORE)
        assert standing(store, order) == ("conforming", "covered", False)
        left = "is not measured in full; still to be measured: outer diameter 21.991 to 22 mm"
        assert self.because(store, order) == (f"N1: L1 (608-2RS) {left}",)
        tell(store, order, "measurement", self.OUTSIDE)
        assert standing(store, order) == ("conforming", "covered", True)
        tell(store, order, "event", {"event": "withdrawn", "entry": 1})
        assert self.because(store, order)[0].endswith("still to be measured: bore 7.99 to 8.001 mm")

    def test_a_receipt_and_a_measurement_count_together(self, store: Store, order: str) -> None:
        """One dimension in the receipt of the line, the other told from the bench after it."""
        bore = {"measured": [7.996], "dimension": "bore", "uncertainty": 0.001}
        tell(store, order, "event", {"event": "received", "line": "L1"})
        tell(store, order, "receipt", {"line": "L1", "receipt": bore})
        assert standing(store, order) == ("conforming", "covered", False)
        tell(store, order, "measurement", self.OUTSIDE)
        assert standing(store, order) == ("conforming", "covered", True)

    def test_receipts_in_the_plan_count_as_well(self, store: Store, order: str) -> None:
        """A list of them in the line itself."""
        receipts = [
            {"measured": [value], "dimension": name, "uncertainty": 0.001}
            for name, value in (("bore", 7.996), ("outer_diameter", 21.996))
        ]
        line = {"id": "L1", "line": "608-2RS", "quantity": 2, "received_on": "2026-01-05"}
        patch(store, order, lines=[{**line, "receipt": receipts[:1]}])
        assert standing(store, order)[2] is False
        patch(store, order, lines=[{**line, "receipt": receipts}])
        assert standing(store, order)[2] is True


def test_what_arrived_in_part_stays_what_was_told(store: Store, order: str) -> None:
    """In either order; what came later adds to it."""
    tell(store, order, "event", {"event": "received", "line": "L1", "quantity": 1})
    tell(store, order, "measurement", GOOD)
    (share,) = [one for one in stored.prepare_check(store, "club", order).proof.result.needs[0].shares if one.here]
    assert share.quantity == 1
    tell(store, order, "event", {"event": "received", "line": "L1", "quantity": 1})
    assert standing(store, order) == ("conforming", "covered", True)


def test_arrival_can_be_told_after_the_measurement(store: Store, order: str) -> None:
    """It is not counted twice."""
    tell(store, order, "measurement", GOOD)
    tell(store, order, "event", {"event": "received", "line": "L1", "quantity": 2})
    assert standing(store, order) == ("conforming", "covered", True)


class TestCounts:
    """Which of several measurements counts."""

    def test_the_last_one_and_the_one_before_stays_to_be_seen(self, store: Store, order: str) -> None:
        """A correction is a new entry."""
        tell(store, order, "measurement", BAD)
        tell(store, order, "measurement", GOOD)
        first, second = entries(store, order)
        assert (first.state, first.because, first.body["measured"]) == ("replaced", "by entry 2", "4.9")
        assert (second.state, second.body["measured"], second.body["values"]) == (
            "counts",
            "5.010 5,009",
            ["5.01", "5.009"],
        )
        assert standing(store, order)[0] == "conforming"

    def test_one_that_is_withdrawn_does_not(self, store: Store, order: str) -> None:
        """The one before it does then; and a withdrawal can be withdrawn."""
        tell(store, order, "measurement", GOOD)
        tell(store, order, "measurement", BAD)
        tell(store, order, "event", {"event": "withdrawn", "entry": 2})
        assert states(store, order) == [(1, "counts"), (2, "withdrawn")]
        assert standing(store, order)[0] == "conforming"
        tell(store, order, "event", {"event": "withdrawn", "entry": 3})
        assert states(store, order) == [(1, "replaced"), (2, "counts")]
        assert standing(store, order)[0] == "not conforming"

    def test_a_receipt_of_the_whole_line_takes_the_place_of_what_was_measured_before(
        self, store: Store, order: str
    ) -> None:
        """What is measured after it counts beside it, or in its place where it is of the same dimension."""
        tell(store, order, "measurement", GOOD)
        receipt = {"measured": [4.9], "uncertainty": 0.004, "dimension": "outer_diameter"}
        tell(store, order, "receipt", {"line": "L1", "receipt": receipt})
        assert states(store, order) == [(1, "replaced")]
        assert standing(store, order)[0] == "not conforming"
        tell(store, order, "measurement", GOOD)
        assert standing(store, order)[0] == "conforming"

    @pytest.mark.parametrize(
        ("change", "because"),
        [
            ({"lines": [{"id": "L1", "line": "ISO 8734 - 6 x 20 - A - St", "quantity": 2}]}, "as 'ISO 8734 - 5 x 20"),
            ({"needs": [{**PLAN["needs"][0], "fit": "slip"}]}, "the design does not ask for any more"),
            ({"needs": [{**PLAN["needs"][0], "bore": "6 H7"}]}, "the design does not ask for any more"),
            ({"lines": []}, "the plan has no L1 any more"),
            (
                {
                    "needs": [*PLAN["needs"], {"id": "N2", "quantity": 1, "bore": "5 H7", "fit": "press"}],
                    "lines": [{**PLAN["lines"][0], "for": ["N1", "N2"]}],
                },
                "before it was for N2 too",
            ),
        ],
    )
    def test_none_that_the_plan_has_left_behind(
        self, store: Store, order: str, change: dict[str, Any], because: str
    ) -> None:
        """The same values may prove something else; they are named, and shown still."""
        tell(store, order, "measurement", GOOD)
        proof = patch(store, order, **change).proof
        (one,) = entries(store, order)
        assert one.state == "passed over"
        assert because in one.because
        assert len(proof.passed_over) == 1
        assert "entry 1" in proof.passed_over[0]
        assert [line.proof for line in proof.result.lines] in ([None], [])

    def test_a_change_that_leaves_line_and_limits_alone_keeps_it(self, store: Store, order: str) -> None:
        """Another quantity, another name."""
        tell(store, order, "measurement", GOOD)
        patch(store, order, name="second season", needs=[{**PLAN["needs"][0], "quantity": 1}])
        assert states(store, order) == [(1, "counts")]

    def test_limits_of_its_own_hold_whatever_the_design_asks(self, store: Store, order: str) -> None:
        """They were given on purpose."""
        tell(store, order, "measurement", {**GOOD, "limits": {"lower": 5, "upper": 5.02}})
        patch(store, order, needs=[{**PLAN["needs"][0], "fit": "slip"}])
        assert states(store, order) == [(1, "counts")]


@pytest.mark.parametrize(
    ("change", "field", "accepted"),
    [
        ({"line": "L7"}, "line", "one of L1"),
        ({"line": None}, "line", "one of L1"),
        ({"dimension": "length"}, "dimension", "outer_diameter"),
        ({"dimension": ""}, "dimension", "outer_diameter"),
        ({"measured": "eight"}, "measured", "lengths in mm"),
        ({"measured": "5010"}, "measured", "lost decimal point"),
        ({"measured": None}, "measured", "1 to 1000"),
        ({"instrument": None}, "uncertainty", "the instrument"),
        ({"instrument": "eye"}, "instrument", "calliper"),
        ({"uncertainty": -1}, "uncertainty", "0 or more"),
        ({"limits": "5 Q7"}, "limits", ""),
        ({"limits": {"lower": 6, "upper": 5}}, "limits", "lower first"),
        ({"by": "x" * 61}, "by", "up to 60"),
        ({"note": "a\x00b"}, "note", "up to"),
        ({"on": "yesterday"}, "on", "a day"),
        ({"colour": "red"}, "colour", "the fields line"),
    ],
)
def test_what_is_not_understood_is_not_kept(
    store: Store, order: str, change: dict[str, Any], field: str, accepted: str
) -> None:
    """Nor is anything that was told with it."""
    with pytest.raises(CheckError) as refused:
        stored.prepare_entries(store, "club", order, None, "measurement", [GOOD, {**GOOD, **change}])
    assert refused.value.field == f"measurements[1].{field}"
    assert accepted in refused.value.accepted
    assert entries(store, order) == []


def test_a_bag_with_two_sets_of_limits_has_to_say_which(store: Store, order: str) -> None:
    """The limits of the sheet are known as the design's own."""
    needs = [*PLAN["needs"], {"id": "N2", "quantity": 1, "bore": "5 H7", "fit": "press"}]
    patch(store, order, needs=needs, lines=[{**PLAN["lines"][0], "quantity": 3, "for": ["N1", "N2"]}])
    with pytest.raises(CheckError) as refused:
        stored.prepare_entries(store, "club", order, None, "measurement", [GOOD])
    assert refused.value.field == "measurements[0].limits"
    tell(store, order, "measurement", {**GOOD, "limits": {"lower": "5.001", "upper": "5.016"}})
    assert entries(store, order)[0].body["limits"]["from"].startswith("goes with every bore 5 H7")


def test_who_told_it_and_when_is_known(store: Store, order: str) -> None:
    """By the revision; and who measured, where that was said."""
    tell(store, order, "measurement", {**GOOD, "by": "the bench by the window", "on": "2026-01-05", "note": "bag 2"})
    found, (one,), made = stored.measured(store, "club", order)
    assert made[found.log[0].revision][1] == "token 1"
    assert (one.body["by"], one.body["on"], one.body["note"]) == ("the bench by the window", "2026-01-05", "bag 2")
