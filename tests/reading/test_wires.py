"""Lines that order wires and cable ties, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("wire 0.5mm2 black 25m", "wire: size=cross section area, wire_area=0.5, length=25000"),
    ("Litze 0,75 mm² blau 10 m", "wire: size=cross section area, wire_area=0.75, length=10000"),
    ("Kabel 2x0,75 mm² 5 m", "wire: size=cross section area, wire_area=0.75, length=5000"),
    ("fil souple 1,5 mm² rouge 5 m", "wire: size=cross section area, wire_area=1.5, length=5000"),
    ("cable 1.5 mm2 negro 10 m", "wire: size=cross section area, wire_area=1.5, length=10000"),
    ("cavo 3x1,5 mm² 10 m", "wire: size=cross section area, wire_area=1.5, length=10000"),
    ("AWG 18 wire red", "wire: size=gauge number, series=AWG18"),
    ("20AWG silicone wire 2m", "wire: size=gauge number, length=2000"),
    ("wire AWG24", "wire: size=gauge number, series=AWG24"),
    ("H07V-K 1,5 mm² schwarz", "wire: size=cross section area, wire_area=1.5"),
    ("cable tie 3.6 x 150", "cable tie: size=width, width=3.6, length=150"),
    ("Kabelbinder 2,5x100 schwarz 100 Stk", "cable tie: size=width, width=2.5, length=100, quantity=100"),
    ("zip tie 4.8x300", "cable tie: size=width, width=4.8, length=300"),
    ("collier rilsan 2,5 x 100", "cable tie: size=width, width=2.5, length=100"),
    ("brida nylon 3,6x200", "cable tie: size=width, width=3.6, length=200"),
    ("fascette 4,8 x 200 nere", "cable tie: size=width, width=4.8, length=200"),
    ("cable ties 100mm", "cable tie: size=length, length=100"),
    ("stranded wire 0.5 mm2", "wire: size=cross section area, wire_area=0.5"),
    ("0,75mm² Kabel", "wire: size=cross section area, wire_area=0.75"),
    ("22AWG hookup wire red 5m", "wire: size=gauge number, length=5000"),
    ("cable 4x0.5mm2 shielded 3 m", "wire: size=cross section area, wire_area=0.5, length=3000"),
    ("silicone wire 18 AWG", "wire: size=gauge number, series=AWG18"),
    ("nylon cable ties 3x150 black", "cable tie: size=width, width=3, length=150"),
    ("100 cable ties 2.5 x 100", "cable tie: size=width, width=2.5, length=100, quantity=100"),
)
OPEN = (
    ("1.5 wire", "? wire"),
    ("0.75 cable red", "? wire"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_wires(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
