"""Lines that order magnets, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("10x3 mm neodymium magnet", "magnet: size=outer diameter, outer_diameter=10, thickness=3"),
    ("disc magnet 20 x 5 N35", "magnet: size=outer diameter, outer_diameter=20, thickness=5, grade=N35"),
    ("Scheibenmagnet Ø15x3", "magnet: size=outer diameter, outer_diameter=15, thickness=3"),
    ("Neodym Magnet D12 h4", "magnet: size=outer diameter, outer_diameter=12, thickness=4"),
    ("Stabmagnet 5x20", "magnet: size=outer diameter, outer_diameter=5, thickness=20"),
    ("aimant disque 8x2 (lot de 10)", "magnet: size=outer diameter, outer_diameter=8, thickness=2, quantity=10"),
    ("imán disco 12 x 3 mm N42", "magnet: size=outer diameter, outer_diameter=12, thickness=3"),
    ("magnete al neodimio 6x2", "magnet: size=outer diameter, outer_diameter=6, thickness=2"),
    ("N52 magnets 4mm x 2mm 100pcs", "magnet: size=outer diameter, outer_diameter=4, thickness=2, quantity=100"),
    ("ring magnet OD 15 ID 6 thickness 3", "magnet: size=outer diameter, outer_diameter=15, bore=6, thickness=3"),
    ("countersunk magnet 15 x 4 hole M4", "magnet: size=outer diameter, outer_diameter=15, thickness=4, screw_size=M4"),
    (
        "diametrically magnetised magnet 6x2.5",
        "magnet: size=outer diameter, outer_diameter=6, thickness=2.5, magnetisation=diametric",
    ),
    ("block magnet 40x10x5", "magnet block: size=length, length=40, width=10, thickness=5"),
    ("Quadermagnet 15x5x5 N45", "magnet block: size=length, length=15, width=5, thickness=5"),
    ("neodymium bar 25x6x3", "magnet block: size=length, length=25, width=6, thickness=3"),
    ("aimant bloc 20 x 20 x 3", "magnet block: size=length, length=20, width=20, thickness=3"),
    ("pot magnet D25 M5", "magnet pot: size=outer diameter, outer_diameter=25, thread=M5"),
    ("Topfmagnet 32 mm M6 Innengewinde", "magnet pot: size=outer diameter, outer_diameter=32, thread=M6"),
    ("aimant pot Ø16 M4", "magnet pot: size=outer diameter, outer_diameter=16, thread=M4"),
    ("10 x neodymium magnet 5x2", "magnet: size=outer diameter, outer_diameter=5, thickness=2, quantity=10"),
    ("NEODYMIUM MAGNET D8X3 N52", "magnet: size=outer diameter, outer_diameter=8, thickness=3"),
    ("strong round magnet 12mm x 1.5mm", "magnet: size=outer diameter, outer_diameter=12, thickness=1.5"),
    ("magnets 6 x 2 mm (20)", "magnet: size=outer diameter, outer_diameter=6, thickness=2, quantity=20"),
    ("Magnete 10x2", "magnet: size=outer diameter, outer_diameter=10, thickness=2"),
    ("aimants néodyme 5x5", "magnet: size=outer diameter, outer_diameter=5, thickness=5"),
    ("cube magnet 5x5x5", "magnet block: size=length, length=5, width=5, thickness=5"),
    ("bar magnet 60x10x5", "magnet block: size=length, length=60, width=10"),
)
OPEN = (
    ("ring magnet 12x6x3", "? magnet"),
    ("Ringmagnet 20x10x5", "? magnet"),
    ("encoder magnet 8x3", "? magnet"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_magnets(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
