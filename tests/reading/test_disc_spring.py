"""Lines that order disc springs, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    (
        "Tellerfeder 12,5x6,2x0,7 DIN 2093",
        "disc spring: size=outer diameter, outer_diameter=12.5, bore=6.2, thickness=0.7",
    ),
    ("disc spring 20x10.2x1", "disc spring: size=outer diameter, outer_diameter=20, bore=10.2, thickness=1"),
    ("Belleville washer 16 x 8.2 x 0.6", "disc spring: size=outer diameter, outer_diameter=16, bore=8.2"),
    ("rondelle Belleville 10x5,2x0,5", "disc spring: size=outer diameter, outer_diameter=10, bore=5.2"),
    ("molla a tazza DIN 2093 25x12,2x1,5", "disc spring: size=outer diameter, outer_diameter=25, thickness=1.5"),
    ("disc spring 10.2x20x1.1", "disc spring: size=bore, bore=10.2, outer_diameter=20"),
    ("arandela belleville 14 x 7.2 x 0.8", "disc spring: size=outer diameter, outer_diameter=14"),
    (
        "Tellerfedern 8 x 4,2 x 0,3 (100 Stk)",
        "disc spring: size=outer diameter, outer_diameter=8, bore=4.2, thickness=0.3, quantity=100",
    ),
    (
        "disk springs OD 20 ID 10.2 t 1.1",
        "disc spring: size=outer diameter, outer_diameter=20, bore=10.2, thickness=1.1",
    ),
)
OPEN = ()


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_disc_spring(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
