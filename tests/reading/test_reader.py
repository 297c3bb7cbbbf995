"""What a buyer is told about a line: the words of the contract, one behaviour a test."""

import pytest

from reference.quantities import Limits, ThreadSize
from service.reading import Reading, read


def nominal(reading: Reading, key: str) -> str:
    """Return the nominal size of a dimension, or the designation of a thread, as text."""
    value = reading.dimensions[key]
    if isinstance(value, Limits):
        return format(value.nominal.normalize(), "f")
    assert isinstance(value, ThreadSize)
    return value.designation


def test_m_on_a_pin_gives_every_meaning_the_internal_thread_first() -> None:
    """`M5 dowel pin`: an 8 mm pin with an M5 thread inside, a 5 mm pin, a pin with an M5 thread outside."""
    answer = read("M5 dowel pin")
    assert answer.state == "ambiguous"
    first, second, third = answer.readings
    assert (first.family, first.size_names, first.evidence) == (
        "parallel pin with internal thread",
        "internal thread",
        "implied",
    )
    outer = first.dimensions["outer_diameter"]
    assert isinstance(outer, Limits)
    assert (str(outer.lower), str(outer.upper), outer.tolerance_class) == ("8.006", "8.015", "m6")
    assert first.standards[0] == "ISO 8735"
    assert first.missing == ("length",)
    assert (second.family, second.size_names, second.evidence) == ("parallel pin", "outer diameter", "assumed")
    assert third.family == "parallel pin with external thread"
    assert answer.question is not None
    assert "8 mm" in answer.question
    assert "5 mm" in answer.question


def test_one_thread_stands_in_pins_of_two_diameters() -> None:
    """M6 is in pins of 10 and of 12 mm: both are shown."""
    outers = [
        nominal(item, "outer_diameter")
        for item in read("M6 dowel pin").readings
        if item.size_names == "internal thread"
    ]
    assert outers == ["10", "12"]


def test_a_standard_decides_what_an_m_means() -> None:
    """ISO 8734 has no thread: the M is only written before the diameter."""
    answer = read("ISO 8734 M5 x 20")
    assert answer.state == "clear"
    assert nominal(answer.readings[0], "outer_diameter") == "5"


def test_a_standard_that_contradicts_the_words_is_asked_about() -> None:
    """`ISO 4762 dowel pin` names a screw by number and a pin by word."""
    answer = read("ISO 4762 dowel pin")
    assert answer.state == "ambiguous"
    assert {item.family for item in answer.readings} == {"socket head cap screw", "parallel pin"}


def test_an_unknown_standard_is_never_passed_over() -> None:
    """A number that no table knows weakens the reading."""
    assert read("dowel pin DIN 6335 5x20").state == "ambiguous"
    assert read("ISO 8784 - 5 x 20").state == "unread"


def test_a_number_without_a_place_is_asked_about() -> None:
    """Three numbers on a plain pin: what is the third?"""
    answer = read("dowel pin 5 x 20 x 7")
    assert answer.state == "ambiguous"
    assert "7" in (answer.question or "")


def test_a_misspelt_noun_is_read_and_shown() -> None:
    """The correction stands among the evidence, never silent."""
    answer = read("Paralel pin 5 x 24")
    assert answer.readings[0].family == "parallel pin"
    assert any(item.text == "paralel" and "parallel" in item.says for item in answer.readings[0].because)


@pytest.mark.parametrize(
    "line",
    [
        "2x4 lumber",
        "resistor 10k",
        "string lights 5m",
        "towel 50x100",
        "hello",
        "",
        "4,99 EUR",
        "M5x20",
        "12345",
        "🙂",
        "dowel-free zone",
    ],
)
def test_other_trades_and_junk_are_unread_with_a_reason(line: str) -> None:
    """Nothing is guessed from text that names no part."""
    answer = read(line)
    assert answer.state != "clear"
    assert answer.reason or answer.question


def test_a_class_alone_names_the_usual_screw() -> None:
    """`M4x50 12.9` is read as a socket head cap screw, and the assumption is said."""
    answer = read("M4x50 12.9")
    assert (answer.state, answer.readings[0].family, answer.readings[0].evidence) == (
        "clear",
        "socket head cap screw",
        "assumed",
    )
    assert "socket head cap screw" in (answer.question or "")


@pytest.mark.parametrize(
    ("line", "quantity", "pack"),
    [
        ("10 pcs M3x10 SHCS", 10, None),
        ("M3x10 SHCS x20", 20, None),
        ("M3x10 SHCS (50)", 50, None),
        ("vis BTR M6 x 30 (lot de 20)", 20, 20),
        ("4x 5x20 dowel", 4, None),
        ("M4x12 SHCS, qty 8", 8, None),
        ("Please send 20 dowel pins 6x20", 20, None),
        ("M5x16 SHCS 100 Stk", 100, None),
    ],
)
def test_counts_are_told_from_sizes(line: str, quantity: int, pack: int | None) -> None:
    """A count of pieces or the pieces in a pack, wherever it stands, is no size."""
    answer = read(line)
    assert (answer.state, answer.quantity, answer.pack) == ("clear", quantity, pack)


@pytest.mark.parametrize(
    "line",
    [
        "M3x10 SHCS",
        "M3 x 10 SHCS",
        "M3×10 SHCS",
        "M3*10 SHCS",
        "SHCS M3 10mm",
        "SHCS M3-10",
        "M3 X 10 MM shcs",
        "M3x0.5x10 SHCS",
        "M3 x 0,5 x 10 SHCS",
        "M3 SHCS 10 long",
    ],
)
def test_spellings_of_one_screw_mean_the_same(line: str) -> None:
    """Signs, blanks, units and a stated coarse pitch change nothing."""
    answer = read(line)
    assert answer.state == "clear"
    assert (nominal(answer.readings[0], "thread"), nominal(answer.readings[0], "length")) == ("M3", "10")


@pytest.mark.parametrize(
    ("line", "outer", "length"),
    [
        ('10 pcs 3/16" dowel pin 1"', "4.7625", "25.4"),
        ("dowel pin 1/4 x 1 1/2", "6.35", "38.1"),
        ("dowel pin 0.25 in x 1.5 in", "6.35", "38.1"),
        ("dowel pin 1/4'' x 1-1/2''", "6.35", "38.1"),
    ],
)
def test_inches_are_exact_millimetres(line: str, outer: str, length: str) -> None:
    """A mark or a fraction makes the whole size one of inches."""
    answer = read(line)
    assert answer.state == "clear"
    assert (nominal(answer.readings[0], "outer_diameter"), nominal(answer.readings[0], "length")) == (outer, length)


def test_a_length_beyond_the_list_is_noted() -> None:
    """ISO 4762 lists M4 to 40 mm: 45 is hard to find, and the reading says so."""
    notes = read("M4x45 socket head cap screw 8.8").readings[0].notes
    assert [note.code for note in notes] == ["length-not-listed"]
