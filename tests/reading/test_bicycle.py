"""Lines that order bicycle parts, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("seatpost 31.6 x 400", "bicycle: size=outer diameter, kind=seat post, outer_diameter=31.6, length=400"),
    ("tija de sillín 27,2 x 350", "bicycle: size=outer diameter, kind=seat post, outer_diameter=27.2, length=350"),
    ("Sattelstütze 30,9 x 400", "bicycle: size=outer diameter, kind=seat post, outer_diameter=30.9, length=400"),
    ("spokes 2.0 x 262 (36)", "bicycle: size=wire diameter, kind=spoke, wire_diameter=2, length=262, quantity=36"),
)
OPEN = (
    ("spoke 260", "? bicycle"),
    ("seat post", "? bicycle"),
    ("bottom bracket", "? bicycle"),
)
OTHER_THINGS = (
    "smoke detector",
    "post 350",
    "bracket 68 x 113",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_bicycle(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
