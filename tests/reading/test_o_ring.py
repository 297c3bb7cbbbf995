"""Lines that order O-rings, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("O-ring 25x3 NBR", "O-ring: size=bore, bore=25, cross_section=3"),
    ("O-Ring 8 x 1,5", "O-ring: size=bore, bore=8, cross_section=1.5"),
    ("O-ring ID 12 CS 2", "O-ring: size=bore, bore=12, cross_section=2"),
    ("O-ring ID=30mm, section 3mm, EPDM", "O-ring: size=bore, bore=30, cross_section=3"),
    ("O-Ring Innendurchmesser 16 Schnurstärke 2", "O-ring: size=bore, bore=16, cross_section=2"),
    ("joint torique 18x2,5 FKM", "O-ring: size=bore, bore=18, cross_section=2.5"),
    ("joint torique diamètre intérieur 10 tore 2", "O-ring: size=bore, bore=10, cross_section=2"),
    ("junta tórica 22 x 2", "O-ring: size=bore, bore=22, cross_section=2"),
    ("junta tórica interior 14 sección 2", "O-ring: size=bore, bore=14, cross_section=2"),
    ("OR 3x1 guarnizione NBR70", "O-ring: size=bore, bore=3, cross_section=1"),
    ("anello OR 20x3 viton", "O-ring: size=bore, bore=20, cross_section=3"),
    ("O-ring AS568-210 NBR 70", "O-ring: size=catalogue number, bore=18.64, cross_section=3.53"),
    ("O-ring -113 viton", "O-ring: size=catalogue number, bore=13.94, cross_section=2.62"),
    ("O-Ring 2-012", "O-ring: size=catalogue number, bore=9.25, cross_section=1.78"),
    ("o-ring BS 016", "O-ring: size=catalogue number, bore=15.6, cross_section=1.78"),
    ("O-ring 014 EPDM", "O-ring: size=catalogue number, bore=12.42"),
    ("O-ring G25", "O-ring: size=catalogue number, bore=24.4, cross_section=3.1"),
    ("O-ring P22A NBR", "O-ring: size=catalogue number, bore=21.7, cross_section=3.5"),
    ("O-ring JIS B 2401 P18", "O-ring: size=catalogue number, bore=17.8, cross_section=2.4"),
    ("O-Ring 12,37x2,62 (112)", "O-ring: size=bore, bore=12.37, cross_section=2.62"),
    ("O-ring 9.25 x 1.78", "O-ring: size=bore, bore=9.25, cross_section=1.78"),
    ("o-ring OD 16 x 2", "O-ring: size=outer diameter, outer_diameter=16, bore=12"),
    ("oring 30mm outside 3mm thick", "O-ring: size=outer diameter, outer_diameter=30, bore=24"),
    ("O-ring 14x10x2", "O-ring: size=outer diameter, outer_diameter=14, bore=10, cross_section=2"),
    ("O-ring 20x26x3", "O-ring: size=bore, outer_diameter=26, bore=20, cross_section=3"),
    ("O ring 10pcs 6mm x 1mm silicone", "O-ring: size=bore, bore=6, cross_section=1, quantity=10"),
)
OPEN = (
    ("O-ring 15*2.5", "? O-ring"),
    ("o-ring 3 x 30", "? O-ring"),
    ("o ring 20 mm", "? O-ring"),
    ("O-ring 20x15x2", "? O-ring"),
    ("o-ring 24mm diameter 2mm", "? O-ring"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_o_ring(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
