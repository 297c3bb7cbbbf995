"""A line read from a stencil is read exactly as from scratch."""

import csv
import re
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.accuracy import DEVELOPMENT_SET
from bench.lines import checks
from service.reading import read, stencil
from service.reading.reader import from_scratch

FORMS = (
    "{d}x{l} dowel pin",
    "Parallel pin ISO 8734 - {d} x {l} - A - St",
    "M{d}x{l} SHCS 8.8",
    "Senkkopf DIN 7991 M{d} x {l} A2",
    "{n} pcs M{d}x16 socket cap screw",
    "dowel pin {d} m6 x {l}mm, hardened",
    "vis H M{d}x{l} 8.8 ({n})",
    "M{d} x {l} dowel pin",
    "setscrew M{d}x{l}",
    "dowel {l} x {d}",
)


@settings(max_examples=300, deadline=None)
@given(
    st.sampled_from(FORMS),
    st.sampled_from([3, 4, 5, 6, 8, 10, 16, 20]),
    st.lists(st.integers(1, 2500), min_size=4, max_size=6),
    st.integers(1, 900),
)
def test_stencil_equals_reading_from_scratch(form: str, d: int, lengths: list[int], n: int) -> None:
    """Whatever length or count comes after the ones that made the stencil, the answer is the same."""
    stencil.clear()
    for length in lengths:
        line = form.format(d=d, l=length, n=n)
        assert read(line) == from_scratch(line)
        count = form.format(d=d, l=20, n=length)
        assert read(count) == from_scratch(count)


def test_lines_of_all_kinds_in_any_order_are_read_as_from_scratch() -> None:
    """Labelled lines, each with other numbers in its place as well, between thousands of an order's."""
    random = Random(7)  # noqa: S311 - variety, not secrecy
    with DEVELOPMENT_SET.open(encoding="utf-8", newline="") as file:
        labelled = [row["line"] for row in csv.DictReader(file)]
    others = [re.sub(r"\d+", lambda _: str(random.choice((3, 8, 12, 20, 45, 304))), line) for line in labelled * 3]
    lines = [*labelled, *others, *(check["line"] for check in checks(5000, seed=11))]
    random.shuffle(lines)
    assert [line for line in lines if read(line) != from_scratch(line)] == []


def held(line: str) -> bool:
    """Tell whether a stencil fits the line."""
    cut = stencil.cut_out(line)
    assert cut is not None
    return stencil.apply(line, cut) is not None


def test_what_lies_between_two_lengths_is_read_from_a_stencil() -> None:
    """So the comparison above compares something; what was not proved is not taken for granted."""
    stencil.clear()
    for length in (20, 30):
        read(f"9x{length} dowel pin")
    fitting = [length for length in (8, 19, 20, 25, 30, 31, 60) if held(f"9x{length} dowel pin")]
    assert fitting == [20, 25, 30]


def test_the_range_grows_to_all_lengths_that_can_come() -> None:
    """After a few from beyond; a length that is no longer than the diameter can be meant the other way round."""
    stencil.clear()
    for length in (20, 30, 25, 16, 40):
        read(f"11x{length} dowel pin")
    fitting = [length for length in (8, 11, 12, 19, 60, 1999, 2000) if held(f"11x{length} dowel pin")]
    assert fitting == [12, 19, 60, 1999]


@pytest.mark.parametrize("line", ["dowel pin M6 304 long", "pin 5 x 020", "608-2RS", "pin 5 x 20.5"])
def test_what_can_be_no_length_leaves_no_hole(line: str) -> None:
    """A grade of steel, a number with a nought before it, none at all, a part of one."""
    assert stencil.cut_out(line) is None
