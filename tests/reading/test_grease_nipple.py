"""Grease nipples: the size is a fine thread, also where the pitch is left out."""

import pytest

from reference.quantities import ThreadSize
from service.reading import read


@pytest.mark.parametrize(
    ("line", "thread"),
    [
        ("grease nipple M6", "M6"),
        ("10 pcs zerk fitting M6x1 straight", "M6"),
        ("Schmiernippel M8", "M8x1"),
        ("Kegelschmiernippel DIN 71412 A M10x1", "M10x1"),
        ("engrasador M10", "M10x1"),
        ("graisseur G1/8", "G 1/8"),
    ],
)
def test_the_thread_is_the_nipples_own(line: str, thread: str) -> None:
    """M8 on a nipple is M8x1, not M8x1.25."""
    answer = read(line)
    assert answer.state == "clear", answer.question
    found = answer.readings[0].dimensions["thread"]
    assert isinstance(found, ThreadSize)
    assert (answer.readings[0].family, found.designation) == ("grease nipple", thread)


def test_a_coarse_pitch_that_is_stated_is_asked_about() -> None:
    """M8x1.25 is no thread of a nipple: the table does not list it."""
    answer = read("grease nipple DIN 71412 M8x1.25")
    assert answer.state == "ambiguous" or any(note.code == "size-not-listed" for note in answer.readings[0].notes)


@pytest.mark.parametrize("line", ["grease 400 g", "baby bottle nipple", "grease gun"])
def test_other_trades_are_not_read_as_nipples(line: str) -> None:
    """Words that nipples share with other things name no nipple."""
    assert all(reading.family != "grease nipple" for reading in read(line).readings)
