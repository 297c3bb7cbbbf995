"""What a supplier means by a sign: narrows readings, is cited, never invents or hides anything else."""

from datetime import date

import pytest

from service.reading import read
from service.reading.habits import Habit, read_from

LINE = "M5 dowel pin, 20 long"
THREAD = Habit("A", "M", "pin", "internal thread", date(2027, 1, 11))
OUTSIDE = Habit("B", "M", "pin", "outer diameter", date(2027, 2, 1))


def test_a_habit_decides_and_is_cited() -> None:
    """The line is ambiguous by itself; the evidence says whose habit it is and since when."""
    assert read(LINE).state == "ambiguous"
    found = read_from(LINE, (THREAD,))
    assert (found.state, found.question) == ("clear", None)
    (reading,) = found.readings
    assert reading.family == "parallel pin with internal thread"
    said = reading.because[-1]
    assert (said.text, said.source) == ("M5", "habit of supplier A, noted 2027-01-11")
    assert said.says == "M names the internal thread here"


def test_another_supplier_may_mean_the_other_thing() -> None:
    """What was only assumed is then implied."""
    (reading,) = read_from(LINE, (OUTSIDE,)).readings
    assert (reading.family, reading.evidence) == ("parallel pin", "implied")
    before = next(one for one in read(LINE).readings if one.family == "parallel pin")
    assert before.evidence == "assumed"
    assert reading.dimensions == before.dimensions


@pytest.mark.parametrize(
    ("line", "habit"),
    [
        ("m5 dowel pin, 20 long", THREAD),  # another sign: m6 is a tolerance class
        ("ISO 8734 - 5 x 20 - A - St", THREAD),  # the standard says it
        (LINE, THREAD._replace(part="screw")),
        (LINE, THREAD._replace(means="shoulder diameter")),  # no reading of the line
        (LINE, THREAD._replace(sign="Ø")),
        ("qqqq zzzz", THREAD),
    ],
)
def test_a_habit_of_something_else_changes_nothing(line: str, habit: Habit) -> None:
    """Neither readings nor evidence."""
    assert read_from(line, (habit,)) == read(line)


def test_a_doubt_about_the_line_stays() -> None:
    """A bare pin may be of several kinds, whatever the M means."""
    found = read_from("M5 pin", (OUTSIDE,))
    assert found.state == "ambiguous"
    assert found.question is not None


def test_of_two_habits_that_contradict_each_other_the_first_decides_nothing_more_is_hidden() -> None:
    """The second one finds no reading of its kind any more."""
    assert read_from(LINE, (THREAD, OUTSIDE._replace(supplier="A"))) == read_from(LINE, (THREAD,))
