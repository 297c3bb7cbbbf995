"""Lines that order shim rings, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("Passscheibe 10x16x0,5 DIN 988", "shim: size=bore, bore=10, outer_diameter=16, thickness=0.5"),
    ("shim ring 6 x 12 x 0.1", "shim: size=bore, bore=6, outer_diameter=12, thickness=0.1"),
    ("shim DIN 988 5x10x1", "shim: size=bore, bore=5, thickness=1"),
    ("M6 shim 0.5mm", "shim: size=screw size, thickness=0.5"),
    ("rondelle de réglage DIN 988 15x21x0,2", "shim: size=bore, bore=15, thickness=0.2"),
    ("arandela de ajuste 12x18x0.5", "shim: size=bore, bore=12, outer_diameter=18"),
    ("Paßscheiben 8 x 14 x 1 mm, 50 Stück", "shim: size=bore, bore=8, quantity=50"),
    ("shim washer 10mm ID 16mm OD 0.2mm thick", "shim: size=bore, bore=10, outer_diameter=16, thickness=0.2"),
    ("PS 10x16x0,2 Passscheibe", "shim: size=bore, bore=10, thickness=0.2"),
    ("shim rings DIN988 8 x 14 x 0.2", "shim: size=bore, bore=8, outer_diameter=14"),
)
OPEN = ()


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_shim(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
