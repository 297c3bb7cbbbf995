"""A line or a need of an order in full, and the way through what is not settled."""

from datetime import date
from typing import Any

import pytest

from service.orders.check import check
from service.orders.intake import parse_order
from service.orders.model import OrderCheck
from service.orders.why import MOST_IN_FULL, Place, line_in_full, need_in_full, unsettled

BORE = {"quantity": 2, "bore": "5 H7", "fit": "location"}
PIN = "ISO 8734 - 5 x 20 - A - St"


def checked(needs: list[dict[str, Any]], lines: list[dict[str, Any]], **more: Any) -> OrderCheck:
    """Return the check of an order."""
    return check(parse_order({"needs": needs, "lines": lines, **more}, date(2027, 1, 11)))


def test_a_line_has_every_reading_against_what_it_covers() -> None:
    """None is left out, though the order sums them up in one word."""
    found = line_in_full(checked([{"id": "N1", **BORE}], [{"id": "L1", "line": "M5 dowel pin", "quantity": 2}]), "L1")
    (against,) = found.against
    (mate,) = against.mates
    assert [one.reading.family for one in mate.verdict.readings] == [
        "parallel pin with internal thread",
        "parallel pin",
        "parallel pin with external thread",
    ]
    assert mate.verdict.verdict == against.judgement.word == found.result.word == "ask"
    assert dict(mate.asked) == {"bore": "5 H7", "fit": "location"}


def test_a_line_for_several_needs_is_shown_against_each() -> None:
    """What it covers first."""
    needs = [{"id": "N1", **BORE}, {"id": "N2", "quantity": 2, "bore": "6 H7", "fit": "location"}]
    found = line_in_full(checked(needs, [{"id": "L1", "line": PIN, "quantity": 4, "for": ["N2", "N1"]}]), "L1")
    assert [(one.need.id, one.judgement.word) for one in found.against] == [("N1", "fits"), ("N2", "wrong")]
    assert found.others == ()


def test_a_line_that_names_no_need_is_shown_against_the_best_and_the_others_are_named() -> None:
    """Where it covers none either."""
    needs = [{"id": f"N{size}", "quantity": 1, "bore": f"{size} H7", "fit": "press"} for size in range(10, 16)]
    found = line_in_full(checked(needs, [{"id": "L1", "line": PIN, "quantity": 1}]), "L1")
    assert len(found.against) == MOST_IN_FULL
    assert {one.id for one in found.others} | {one.need.id for one in found.against} == {need["id"] for need in needs}
    assert {one.word for one in found.others} == {"wrong"}


def test_neighbours_are_mates_of_the_same_part() -> None:
    """Each is shown under the need that it belongs to."""
    needs = [{"id": "N1", **BORE, "neighbours": ["N2"]}, {"id": "N2", "quantity": 1, "bore": "5 H7", "fit": "slip"}]
    order = checked(needs, [{"id": "L1", "line": PIN, "quantity": 2, "for": "N1"}])
    found = line_in_full(order, "L1")
    assert [one.need for one in found.against[0].mates] == ["N1", "N2"]
    assert found.against[0].judgement.word != "fits"


def test_what_rests_on_the_order_itself_stands_beside_the_mates() -> None:
    """Interface and version, and the part that is wanted, which has no mate."""
    needs = [{"id": "N1", **BORE, "interface": "USB-C"}, {"id": "N2", "quantity": 1, "part": PIN}]
    lines = [{"id": "L1", "line": PIN, "quantity": 3, "for": ["N1", "N2"]}]
    first, second = line_in_full(checked(needs, lines), "L1").against
    assert [one.code for one in first.beside] == ["interface-not-stated"]
    assert (second.mates, [one.code for one in second.beside]) == ((), ["as-wanted"])


def test_a_mate_that_is_an_object_has_no_address() -> None:
    """A query says text only."""
    needs = [{"id": "N1", "quantity": 1, "mate": {"kind": "bore", "diameter": "5 H7"}, "fit": "location"}]
    found = line_in_full(checked(needs, [{"id": "L1", "line": PIN, "quantity": 1}]), "L1")
    assert found.against[0].mates[0].asked == ()


def test_a_need_without_a_line_says_what_should_be_ordered() -> None:
    """Judged to fit its mate."""
    found = need_in_full(checked([{"id": "N1", **BORE}], []), "N1")
    assert (found.cover.state, found.lines) == ("missing", ())
    assert found.proposals is not None
    assert found.proposals.proposals[0].order_text == "Parallel pin ISO 8734 - 5 x <length> - A - St"


def test_a_need_names_the_lines_that_may_be_meant_for_it() -> None:
    """The best first; a line that is used elsewhere and wrong here is none of them."""
    needs = [{"id": "N1", **BORE}, {"id": "N2", "quantity": 1, "bore": "8 H7", "fit": "location"}]
    lines = [
        {"id": "L1", "line": "M5 dowel pin", "quantity": 2},
        {"id": "L2", "line": "ISO 8734 - 8 x 20 - A - St", "quantity": 1},
        {"id": "L3", "line": "ISO 8734 - 12 x 20 - A - St", "quantity": 1},
        {"id": "L4", "line": "ISO 8734 - 14 x 20 - A - St", "quantity": 1, "for": "N1"},
    ]
    found = need_in_full(checked(needs, lines), "N1")
    assert [(one.id, one.word) for one in found.lines] == [("L1", "ask"), ("L3", "wrong"), ("L4", "wrong")]
    assert need_in_full(checked(needs, lines), "N2").proposals is None


def test_what_is_not_there_is_not_shown() -> None:
    """The caller says what there is."""
    order = checked([{"id": "N1", **BORE}], [])
    for show in (line_in_full, need_in_full):
        with pytest.raises(KeyError):
            show(order, "X9")


class TestWay:
    """From one line that is not settled to the next."""

    NEEDS = ({"id": "N1", **BORE}, {"id": "N2", "quantity": 1, "bore": "8 H7", "fit": "location"})
    LINES = (
        {"id": "L1", "line": "M5 dowel pin", "quantity": 2, "for": "N1"},
        {"id": "L2", "line": PIN, "quantity": 2, "for": "N1"},
        {"id": "L3", "line": "M5 pin", "quantity": 2, "for": "N1"},
    )

    def test_it_leads_over_lines_that_are_not_fits_and_then_over_open_needs(self) -> None:
        """In the sequence of the order."""
        order = checked(list(self.NEEDS), list(self.LINES))
        assert unsettled(order) == [Place("line", "L1"), Place("line", "L3"), Place("need", "N2")]
        first = line_in_full(order, "L1").way
        assert (first.number, first.of, first.previous, first.next) == (1, 3, None, Place("line", "L3"))
        last = need_in_full(order, "N2").way
        assert (last.number, last.previous, last.next) == (3, Place("line", "L3"), None)

    def test_a_line_that_fits_has_its_place_between_the_others(self) -> None:
        """It is none of those to look at."""
        way = line_in_full(checked(list(self.NEEDS), list(self.LINES)), "L2").way
        assert (way.number, way.previous, way.next) == (0, Place("line", "L1"), Place("line", "L3"))

    def test_a_bag_that_was_measured_and_is_wrong_has_to_be_looked_at(self) -> None:
        """Though its line is right."""
        receipt = {"measured": [4.9], "instrument": "micrometer"}
        order = checked(
            [{"id": "N1", **BORE}], [], stock=[{"id": "S1", "line": PIN, "quantity": 2, "receipt": receipt}]
        )
        assert unsettled(order)[0] == Place("line", "S1")
