"""Lines that order springs, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    (
        "compression spring OD 8mm wire 0.8mm length 30mm",
        "compression spring: size=wire diameter, wire_diameter=0.8, outer_diameter=8, free_length=30",
    ),
    (
        "compression spring 1.2 wire, 12 OD, 50 long",
        "compression spring: size=wire diameter, wire_diameter=1.2, outer_diameter=12, free_length=50",
    ),
    ("Druckfeder 10 x 40", "compression spring: size=outer diameter, outer_diameter=10, free_length=40"),
    (
        "Druckfeder Draht 1 Da 10 L0 35",
        "compression spring: size=wire diameter, wire_diameter=1, outer_diameter=10, free_length=35",
    ),
    (
        "Druckfeder DIN 2098 1,6x12,5x50",
        "compression spring: wire_diameter=1.6, mean_diameter=12.5, outer_diameter=14.1, free_length=50",
    ),
    ("ressort de compression 8 x 30 mm", "compression spring: size=outer diameter, outer_diameter=8, free_length=30"),
    (
        "ressort compression fil 1,5 Ø ext 15 longueur 60",
        "compression spring: size=wire diameter, wire_diameter=1.5, outer_diameter=15, free_length=60",
    ),
    ("muelle de compresión 12 x 45", "compression spring: size=outer diameter, outer_diameter=12, free_length=45"),
    (
        "molla di compressione filo 0,8 diametro esterno 6 lunghezza 25",
        "compression spring: size=wire diameter, wire_diameter=0.8, outer_diameter=6, free_length=25",
    ),
    (
        "compression spring 0.5x5x20 (wire x OD x length)",
        "compression spring: size=wire diameter, wire_diameter=0.5, outer_diameter=5, free_length=20",
    ),
    (
        "extension spring OD 6 wire 0.7, 30 mm inside hooks",
        "extension spring: size=wire diameter, wire_diameter=0.7, outer_diameter=6, free_length=30",
    ),
    (
        "Schenkelfeder Draht 1,5 Da 12 90°",
        "torsion spring: size=wire diameter, wire_diameter=1.5, outer_diameter=12, angle=90",
    ),
    (
        "torsion spring 180 deg, OD 10, wire 1",
        "torsion spring: size=wire diameter, wire_diameter=1, outer_diameter=10, angle=180",
    ),
    (
        "ressort de torsion fil 2 Øext 16 120°",
        "torsion spring: size=wire diameter, wire_diameter=2, outer_diameter=16, angle=120",
    ),
    (
        "die spring ISO 10243 16 x 51 green",
        "die spring: size=hole size, hole_diameter=16, free_length=51, shaft_size=8",
    ),
    ("die spring 25x76", "die spring: size=hole size, hole_diameter=25, free_length=76"),
    (
        "Druckfeder VD-115 d=1,0 De=8,0 L0=29",
        "compression spring: size=wire diameter, wire_diameter=1, outer_diameter=8, free_length=29",
    ),
    (
        "compression spring, wire dia 0.8 mm, outer dia 8 mm, free length 25 mm",
        "compression spring: size=wire diameter, wire_diameter=0.8, outer_diameter=8, free_length=25",
    ),
    ("compression spring 10mm OD x 50mm", "compression spring: size=outer diameter, outer_diameter=10, free_length=50"),
    ("compression springs OD8 L30", "compression spring: size=outer diameter, outer_diameter=8, free_length=30"),
    ("Zugfeder d=0,8 Da=8 mit Ösen", "extension spring: size=outer diameter, wire_diameter=0.8, outer_diameter=8"),
    ("pressure spring 6x15 mm", "compression spring: size=outer diameter, outer_diameter=6, free_length=15"),
)
OPEN = (
    ("10 pcs compression spring 0.5*5*20mm", "? compression spring"),
    ("Druckfeder 1x10x40", "? compression spring"),
    ("compression spring", "? compression spring"),
    ("extension spring 1x10x50", "? extension spring"),
    ("Zugfeder 0,8 x 8 x 40", "? extension spring"),
    ("ressort de traction fil 1 Øext 8 longueur 40", "? extension spring"),
    ("muelle de tracción 10 x 60", "? extension spring"),
    ("spring 1x10x30", "? compression spring"),
    ("Feder 0,5 x 5 x 20", "? compression spring"),
    ("spring 8 x 25", "? compression spring"),
    ("Werkzeugfeder rot 20x51", "? die spring"),
    ("steel spring 0.8 x 8 x 30", "? compression spring"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_springs(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
