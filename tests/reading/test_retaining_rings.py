"""Lines that order retaining rings, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("external circlip 20", "external retaining ring: size=shaft size, shaft_size=20, groove_diameter=19"),
    ("External circlip DIN 471 16x1", "external retaining ring: size=shaft size, shaft_size=16, thickness=1"),
    ("Sicherungsring DIN 471 - 25 x 1,2", "external retaining ring: size=shaft size, shaft_size=25"),
    ("Seegerring außen 30", "external retaining ring: size=shaft size, shaft_size=30"),
    ("Seegerring A20", "external retaining ring: size=shaft size, shaft_size=20"),
    ("Seegerring J 26", "internal retaining ring: size=hole size, hole_diameter=26"),
    ("Seegerringe J22, 20 Stk", "internal retaining ring: size=hole size, hole_diameter=22, quantity=20"),
    ("Sicherungsring für Bohrung 19", "internal retaining ring: size=hole size, hole_diameter=19"),
    ("Sicherungsring innen 32 DIN 472", "internal retaining ring: size=hole size, hole_diameter=32"),
    ("circlip intérieur DIN 472 22", "internal retaining ring: size=hole size, hole_diameter=22"),
    ("circlip pour alésage 16", "internal retaining ring: size=hole size, hole_diameter=16"),
    ("circlip pour arbre 12", "external retaining ring: size=shaft size, shaft_size=12"),
    ("anneau élastique extérieur 25 x 1,2", "external retaining ring: size=shaft size, shaft_size=25"),
    ("anillo elástico para agujero 35 DIN 472", "internal retaining ring: size=hole size, hole_diameter=35"),
    ("anillo seeger exterior 15", "external retaining ring: size=shaft size, shaft_size=15"),
    ("anello seeger per albero 20", "external retaining ring: size=shaft size, shaft_size=20"),
    ("anello elastico interno 28", "internal retaining ring: size=hole size, hole_diameter=28"),
    ("anello seeger per foro 30 DIN 472", "internal retaining ring: size=hole size, hole_diameter=30"),
    ("internal circlip 22 mm", "internal retaining ring: size=hole size, hole_diameter=22"),
    ("internal snap ring for 26mm bore", "internal retaining ring: size=hole size, hole_diameter=26"),
    ("circlip for 8mm shaft", "external retaining ring: size=shaft size, shaft_size=8"),
    ("circlip (bore) 19", "internal retaining ring: size=hole size, hole_diameter=19"),
    ("retaining ring external M10", "external retaining ring: size=shaft size, shaft_size=10"),
    ("shaft circlip Ø12 stainless 10pcs", "external retaining ring: size=shaft size, shaft_size=12, quantity=10"),
    ("hole retaining ring 16mm 304", "internal retaining ring: size=hole size, hole_diameter=16"),
    ("E-clip DIN 6799 4", "E-ring: size=groove diameter, groove_diameter=4"),
    ("E ring 3mm", "E-ring: size=groove diameter, groove_diameter=3"),
    ("Sicherungsscheibe DIN 6799 - 5", "E-ring: size=groove diameter, groove_diameter=5"),
    ("Sicherungsscheiben 2,3 DIN 6799 verzinkt", "E-ring: size=groove diameter, groove_diameter=2.3"),
    ("circlip E 6", "E-ring: size=groove diameter, groove_diameter=6"),
    ("anello benzing 4 DIN 6799", "E-ring: size=groove diameter, groove_diameter=4"),
    ("arandela de retención DIN 6799 8", "E-ring: size=groove diameter, groove_diameter=8"),
    ("E-clip 1/4", "E-ring: size=shaft size, shaft_size=6.35"),
    ("CIRCLIP EXT 12", "external retaining ring: size=shaft size, shaft_size=12"),
    ("CIRCLIP INT 22", "internal retaining ring: size=hole size, hole_diameter=22"),
    ("SEEGERRING DIN471 20X1.2", "external retaining ring: size=shaft size, shaft_size=20"),
    ("Seeger-Ring A 15", "external retaining ring: size=shaft size, shaft_size=15"),
    ("Sicherungsring 25x1,2 DIN 472", "internal retaining ring: size=hole size, hole_diameter=25"),
    ("DIN 471 - 8", "external retaining ring: size=shaft size, shaft_size=8"),
    ("10mm external circlip", "external retaining ring: size=shaft size, shaft_size=10"),
    ("circlip 20 mm shaft", "external retaining ring: size=shaft size, shaft_size=20"),
    ("circlip for shaft 14mm (20pcs)", "external retaining ring: size=shaft size, shaft_size=14, quantity=20"),
    ("304 stainless C-clip external circlip M12 50pcs", "external retaining ring: size=shaft size, shaft_size=12"),
    ("external retaining ring 16 mm x 1 mm", "external retaining ring: size=shaft size, shaft_size=16, thickness=1"),
    ("E-Clip M4 304 stainless 100pcs GB896", "E-ring: size=groove diameter, groove_diameter=4, quantity=100"),
    ("eclips 3mm", "E-ring: size=groove diameter, groove_diameter=3"),
    ("RS-Scheibe 4 DIN 6799", "E-ring: size=groove diameter, groove_diameter=4"),
    ("Sicherungsscheibe für Wellen 6", "E-ring: size=groove diameter, groove_diameter=6"),
)
OPEN = (
    ("circlip 15", "? external retaining ring, internal retaining ring"),
    ("Seegerring 20", "? external retaining ring, internal retaining ring"),
    ("Sprengring 25", "? external retaining ring, internal retaining ring"),
    ("circlips 12 mm", "? external retaining ring, internal retaining ring"),
    ("anillo elástico 20", "? external retaining ring, internal retaining ring"),
    ("anello seeger 16", "? external retaining ring, internal retaining ring"),
    ("E clip for 6 mm shaft", "? E-ring"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_retaining_rings(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
