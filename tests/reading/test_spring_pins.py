"""Lines that order spring pins, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("slotted spring pin 4x24", "slotted spring pin: size=hole size, hole_diameter=4, length=24"),
    ("Spannstift 3x12 DIN 1481", "slotted spring pin: size=hole size, hole_diameter=3, length=12"),
    (
        "Spannstifte ISO 8752 8x40 A2 (25)",
        "slotted spring pin: size=hole size, hole_diameter=8, length=40, quantity=25",
    ),
    ("Spannhülse schwere Ausführung 6x40", "slotted spring pin: size=hole size, hole_diameter=6, length=40"),
    ("roll pin M3x20", "slotted spring pin: size=hole size, hole_diameter=3, length=20"),
    (
        "spring roll pin Ø2 x 10mm stainless 50pcs",
        "slotted spring pin: size=hole size, hole_diameter=2, length=10, quantity=50",
    ),
    ("goupille mécanindus 5x30", "slotted spring pin: size=hole size, hole_diameter=5, length=30"),
    ("goupilles élastiques ISO 8752 3 x 18", "slotted spring pin: size=hole size, hole_diameter=3, length=18"),
    ("pasador elástico DIN 1481 6x36", "slotted spring pin: size=hole size, hole_diameter=6, length=36"),
    ("pasadores elásticos 4 x 20 mm", "slotted spring pin: size=hole size, hole_diameter=4, length=20"),
    ("spina elastica ISO 8752 5 x 26", "slotted spring pin: size=hole size, hole_diameter=5, length=26"),
    ("spine elastiche 3x14", "slotted spring pin: size=hole size, hole_diameter=3, length=14"),
    ("spring tension pin 5/32 x 1", "slotted spring pin: size=hole size, hole_diameter=3.96875, length=25.4"),
    ("DIN 7346 4x20 Spannhülse", "slotted spring pin: size=hole size, hole_diameter=4, length=20"),
    ('sellock pin 1/4" x 1-1/2"', "slotted spring pin: size=hole size, hole_diameter=6.35, length=38.1"),
    ("Spanstift 4x20", "slotted spring pin: size=hole size, hole_diameter=4, length=20"),
    ("coiled spring pin ISO 8750 3x16", "coiled spring pin: size=hole size, hole_diameter=3, length=16"),
    ("Spiralspannstift 5x24 DIN 7343", "coiled spring pin: size=hole size, hole_diameter=5, length=24"),
    ("goupille spiralée ISO 8748 4x24", "coiled spring pin: size=hole size, hole_diameter=4, length=24"),
    ("spina elastica a spirale 6 x 30", "coiled spring pin: size=hole size, hole_diameter=6, length=30"),
    ("pasador elástico en espiral 2x12", "coiled spring pin: size=hole size, hole_diameter=2, length=12"),
    ("spiral roll pin 4 x 16 light duty", "coiled spring pin: size=hole size, hole_diameter=4, length=16"),
    ("pin ISO 8752 4x20", "slotted spring pin: size=hole size, hole_diameter=4, length=20"),
    ("ROLL PIN 1/8 X 1", "slotted spring pin: size=hole size, hole_diameter=3.175, length=25.4"),
    ("SPANNSTIFT DIN1481 5X30 ZN", "slotted spring pin: size=hole size, hole_diameter=5, length=30"),
    ("SPANNHUELSE 6X40 DIN EN ISO 8752", "slotted spring pin: size=hole size, hole_diameter=6, length=40"),
    ("spring pin 5 dia x 24 lg", "slotted spring pin: size=hole size, hole_diameter=5, length=24"),
    ("spring pin, 24 long, 5 mm", "slotted spring pin: size=hole size, hole_diameter=5, length=24"),
    ("tension pins dia 3 length 20", "slotted spring pin: size=hole size, hole_diameter=3, length=20"),
    ("4mm roll pin 20mm", "slotted spring pin: size=hole size, hole_diameter=4, length=20"),
    (
        "304 stainless slotted spring pin M4*16mm GB879 20PCS",
        "slotted spring pin: size=hole size, hole_diameter=4, length=16, quantity=20",
    ),
    ("split spring dowel pins 3x10", "slotted spring pin: size=hole size, hole_diameter=3, length=10"),
)
OPEN = ()


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_spring_pins(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
