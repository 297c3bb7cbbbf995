"""Lines that order split pins and spring cotters, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("Splint DIN 94 3,2x40", "split pin: size=hole size, hole_diameter=3.2, length=40"),
    ("Splinte 4x40 verzinkt 100 Stück", "split pin: size=hole size, hole_diameter=4, length=40, quantity=100"),
    ("split pins 2 x 20 A4", "split pin: size=hole size, hole_diameter=2, length=20"),
    ("goupille fendue DIN 94 2,5x25", "split pin: size=hole size, hole_diameter=2.5, length=25"),
    ("goupilles fendues 4x50 zinguées", "split pin: size=hole size, hole_diameter=4, length=50"),
    ("pasador de aletas 3,2 x 32", "split pin: size=hole size, hole_diameter=3.2, length=32"),
    ("coppiglie 2x25 inox", "split pin: size=hole size, hole_diameter=2, length=25"),
    ("cotter pin ISO 1234 1.6 x 16", "split pin: size=hole size, hole_diameter=1.6, length=16"),
    ("M3.2x20 split pin", "split pin: size=hole size, hole_diameter=3.2, length=20"),
    ("Federstecker DIN 11024 3,2", "spring cotter: size=wire diameter, wire_diameter=3.2"),
    ("R-Clip 2mm wire", "spring cotter: size=wire diameter, wire_diameter=2"),
    ("beta pin for 10 mm shaft, wire 2.5", "spring cotter: size=wire diameter, wire_diameter=2.5"),
    ("SPLINT 3,2X32 DIN 94", "split pin: size=hole size, hole_diameter=3.2, length=32"),
    ("cotter pins 2mm x 20mm 50 pcs", "split pin: size=hole size, hole_diameter=2, length=20, quantity=50"),
    ("goupille V 3x30", "split pin: size=hole size, hole_diameter=3, length=30"),
    ("copiglia DIN 94 2,5 x 25", "split pin: size=hole size, hole_diameter=2.5, length=25"),
)
OPEN = (
    ("cotter pin 3/32 x 3/4", "? split pin"),
    ("hitch pin clip 4 mm", "? spring cotter"),
    ("Federstecker 3 mm", "? spring cotter"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_split_pin(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
