"""Properties of reading: no text breaks it, order and case of words do not matter, a changed line is read otherwise."""

import itertools
import string

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.reading import MAX_LINE, LineReading, read
from service.reading.reader import from_scratch

PIECES = (
    *"M5 m6 M x × 5 20 0,5 12.7 3/16 1/4-20 #6-32 ISO DIN 8734 912 4762 dowel pin SHCS Mutter rondelle 608 2RS".split(),
    *"Ø h8 H7 A2 8.8 pcs ( ) qty - / + G1/8 Tr8x8 O-ring circlip 24V mm in bore OD L= St . , GT2 20T".split(),
    *('"', "lot de"),
)

LINES = (
    ("M5", "dowel", "pin"),
    ("5x20", "dowel", "pin", "hardened"),
    ("ISO 8734", "5 x 20", "St"),
    ("DIN 912", "M3x50", "12.9"),
    ("M3x10", "SHCS", "A2"),
    ("nut", "M6", "zinc"),
    ("M8x30", "hex", "bolt", "8.8"),
    ("10 pcs", "M4x12", "countersunk", "screw"),
    ("washer", "M5", "stainless"),
    ("dowel", "pin", "M4x20"),
)


def _meaning(answer: LineReading) -> object:
    """Return what must not change: state, families, sizes, dimensions."""
    return (
        answer.state,
        answer.quantity,
        [(item.family, item.size_names, dict(item.dimensions), item.standards) for item in answer.readings],
    )


@settings(max_examples=400, deadline=None)
@given(st.text(max_size=MAX_LINE))
def test_any_text_is_answered(line: str) -> None:
    """Whatever stands in a line, the answer is one of the three states and says why where it is unread."""
    answer = from_scratch(line)
    assert answer.state in {"clear", "ambiguous", "unread"}
    assert bool(answer.readings) == (answer.state != "unread")
    assert answer.state != "unread" or answer.reason
    assert answer.state != "ambiguous" or answer.question


@settings(max_examples=600, deadline=None)
@given(st.lists(st.sampled_from(PIECES), max_size=14), st.sampled_from(["", " "]))
def test_pieces_of_the_trade_in_any_mix_are_answered(pieces: list[str], gap: str) -> None:
    """Sizes, signs and nouns thrown together give an answer, never an error."""
    answer = from_scratch(gap.join(pieces))
    assert answer.state != "ambiguous" or answer.question


@pytest.mark.parametrize("pieces", LINES, ids=" ".join)
def test_word_order_case_and_spacing_do_not_matter(pieces: tuple[str, ...]) -> None:
    """The same words in any order, case and spacing mean the same."""
    expected = _meaning(read(" ".join(pieces)))
    for order in itertools.permutations(pieces):
        line = " ".join(order)
        assert _meaning(read(line)) == expected, line
        assert _meaning(read(f"  {line.replace(' ', '   ')} ")) == expected
        assert _meaning(read(line.upper())) == expected, line.upper()
        assert _meaning(read(line.lower())) == expected, line.lower()


SIZES = (
    "Parallel pin ISO 8734 - 5 x 20 - A - St",
    "M4x16 SHCS 8.8",
    "DIN 934 M10 nut",
    "dowel pin 8 m6 x 30",
    "washer M8 ISO 7089",
)


@pytest.mark.parametrize("line", SIZES)
def test_a_changed_digit_never_leaves_the_reading_as_it_was(line: str) -> None:
    """Each digit replaced by each other one changes the reading or weakens it."""
    before = read(line)
    assert before.state == "clear"
    for at, char in enumerate(line):
        if char not in string.digits:
            continue
        for digit in string.digits:
            if digit == char:
                continue
            changed = line[:at] + digit + line[at + 1 :]
            after = read(changed)
            same = after.state == "clear" and _meaning(after) == _meaning(before)
            attributes = [dict(item.attributes) for item in after.readings] != [
                dict(item.attributes) for item in before.readings
            ]
            assert not same or attributes, changed


@pytest.mark.parametrize(
    ("line", "other"), [("5 mm x 20 mm dowel pin", "5 in x 20 mm dowel pin"), ("M8 x 30 mm SHCS", "M8 x 30 in SHCS")]
)
def test_swapped_units_change_the_reading(line: str, other: str) -> None:
    """Inches for millimetres is another part."""
    assert _meaning(read(line)) != _meaning(read(other))


def test_a_line_that_is_too_long_is_refused() -> None:
    """A line has at most 500 characters; the error says how many this one has."""
    with pytest.raises(ValueError, match="501"):
        read("x" * (MAX_LINE + 1))
