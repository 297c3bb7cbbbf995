"""Lines that order the bare word pin, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("Stift DIN 7 4m6x20", "parallel pin: size=outer diameter, outer_diameter=4, length=20"),
    ("pasador DIN 6325 6x24", "parallel pin: size=outer diameter, outer_diameter=6, length=24"),
    ("Stift 4 h8 x 20", "parallel pin: size=outer diameter, outer_diameter=4, length=20"),
)
OPEN = (
    ("pin 4x20", "? parallel pin, slotted spring pin, taper pin"),
    ("Stift 6 x 30 gehärtet", "? parallel pin, slotted spring pin, taper pin"),
    ("goupille 5x30", "? parallel pin, slotted spring pin, taper pin"),
    ("pasador 6 mm", "? parallel pin, slotted spring pin, taper pin"),
    ("spina Ø8x40", "? parallel pin, slotted spring pin, taper pin"),
    ("steel pin M4 x 20", "? parallel pin with internal thread, parallel pin, parallel pin with external thread"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_pin(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
