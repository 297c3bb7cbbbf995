"""Lines that order grooved pins, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("Kerbstift DIN 1473 4x20", "grooved pin: size=hole size, hole_diameter=4, length=20"),
    ("Zylinderkerbstift ISO 8740 - 6 x 30 - St", "grooved pin: size=hole size, hole_diameter=6, length=30"),
    ("goupille cannelée ISO 8744 5x25", "grooved pin: size=hole size, hole_diameter=5, length=25"),
    ("pasador estriado ISO 8740 3x16", "grooved pin: size=hole size, hole_diameter=3, length=16"),
    ("spina intagliata 4x16", "grooved pin: size=hole size, hole_diameter=4, length=16"),
    ("grooved dowel pin half length 5 x 20", "grooved pin: size=hole size, hole_diameter=5, length=20"),
    ("Kerbnagel ISO 8746 3x8", "grooved pin: size=hole size, hole_diameter=3, length=8"),
    ("Zylinderkerbstift 3x20", "grooved pin: size=hole size, hole_diameter=3, length=20"),
    ("grooved pins GP 4 x 16", "grooved pin: size=hole size, hole_diameter=4, length=16"),
)
OPEN = ()


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_grooved_pin(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
