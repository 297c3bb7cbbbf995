"""An order over its days: places in proportion to dates."""

from collections.abc import Callable
from datetime import date

import pytest

from service.pictures.timeline import Bar, days_for, timeline
from tests.pictures.conftest import Picture

Read = Callable[[str], Picture]

TODAY = date(2027, 1, 11)
BARS = (
    Bar("L1 M5 dowel pin", date(2027, 1, 20), date(2027, 3, 20)),
    Bar("L2 Ball bearing 608-2RS", date(2027, 1, 14), date(2027, 1, 16)),
    Bar("kit complete", date(2027, 1, 25), date(2027, 3, 21), "kit"),
    Bar("strip", date(2027, 2, 1), date(2027, 3, 22), "step", "closed"),
)


def test_days_are_in_proportion(picture: Read) -> None:
    """9 days to the first, 68 to the last, from today."""
    drawn = picture(timeline("a", BARS, TODAY))
    start = drawn.one("today")["x1"]
    halves = [one["cx"] - start for one in drawn.all("part-p50")]
    most = [one["cx"] - start for one in drawn.all("part-p90")]
    each = most[0] / 68
    assert halves == pytest.approx([9 * each, 3 * each], abs=0.05)
    assert most[1] == pytest.approx(5 * each, abs=0.05)
    assert drawn.one("kit-p90")["cx"] - start == pytest.approx(69 * each, abs=0.05)
    assert drawn.one("step-span")["x2"] - start == pytest.approx(70 * each, abs=0.05)


def test_a_gate_is_told_by_its_shape_and_in_words(picture: Read) -> None:
    """Open and closed differ."""
    closed = picture(timeline("a", BARS, TODAY))
    opened = picture(timeline("a", [Bar("strip", TODAY, TODAY, "step", "open")], TODAY))
    assert closed.all("gate-closed")
    assert not closed.all("gate-open")
    assert opened.all("gate-open")
    assert "gate closed" in closed.text
    assert "gate open" in opened.text


def test_what_has_no_date_reaches_beyond_the_paper(picture: Read) -> None:
    """And says so."""
    drawn = picture(timeline("a", [Bar("L9", None, None)], TODAY))
    assert drawn.one("no-date")["x1"] == drawn.one("today")["x1"]
    assert "no date" in drawn.words


def test_what_is_left_out_is_said(picture: Read) -> None:
    """Parts that come earlier than those shown."""
    assert "7 more come earlier." in picture(timeline("a", BARS, TODAY, 7)).words


@pytest.mark.parametrize(
    "last", [date(2027, 1, 11), date(2027, 1, 30), date(2027, 7, 1), date(2029, 1, 1), date(2060, 1, 1)]
)
def test_any_span_has_marks_that_do_not_lie_on_each_other(picture: Read, last: date) -> None:
    """Weeks, months, quarters or years."""
    drawn = picture(timeline("a", [Bar("L1", TODAY, last)], TODAY))
    days = days_for([Bar("L1", TODAY, last)], TODAY)
    assert days.last > last
    assert len(drawn.words) >= 4
    assert len([word for word in drawn.words if len(word) <= 6]) <= 12


def test_long_names_are_cut_and_escaped(picture: Read) -> None:
    """60 characters on a phone do not fit."""
    drawn = picture(timeline("a", [Bar("<" * 60, TODAY, TODAY)], TODAY))
    assert f"{'<' * 45}…" in drawn.words
