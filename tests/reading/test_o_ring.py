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
    ("O-RING 20X2 NBR70", "O-ring: size=bore, bore=20, cross_section=2"),
    ("O/Ring 12x2", "O-ring: size=bore, bore=12, cross_section=2"),
    ("O Ring 40 x 3 mm Viton 75 Shore", "O-ring: size=bore, bore=40, cross_section=3"),
    ("o-rings 6 ID x 1.5 CS", "O-ring: size=bore, bore=6, cross_section=1.5"),
    ("Oring ø10 x 2", "O-ring: size=bore, bore=10, cross_section=2"),
    ("O-ring inner dia 25 thickness 2.5", "O-ring: size=bore, bore=25, cross_section=2.5"),
    ("o-ring 2.62 section 12.37 ID", "O-ring: size=bore, bore=12.37, cross_section=2.62"),
    ("joint torique OD 20 section 2", "O-ring: size=outer diameter, outer_diameter=20, cross_section=2, bore=16"),
    ("dash 014 O-ring", "O-ring: size=catalogue number, bore=12.42"),
    ("AS568A-110 o-ring FKM", "O-ring: size=catalogue number, bore=9.19, cross_section=2.62"),
    ("AS 568-116", "O-ring: size=catalogue number, bore=18.72"),
    ("O-ring #210", "O-ring: size=catalogue number, bore=18.64"),
)
OPEN = (
    ("O-ring 15*2.5", "? O-ring"),
    ("o-ring 3 x 30", "? O-ring"),
    ("o ring 20 mm", "? O-ring"),
    ("O-ring 20x15x2", "? O-ring"),
    ("o-ring 24mm diameter 2mm", "? O-ring"),
    ("O-ring S10", "? O-ring"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_o_ring(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
