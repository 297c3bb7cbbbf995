"""Lines that order threaded inserts, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    (
        "heat set insert M3 x 4.6 x 5.7",
        "heat-set insert: size=internal thread, internal_thread=M3, outer_diameter=4.6, length=5.7, hole_diameter=4",
    ),
    (
        "brass knurled insert M4*8*6",
        "heat-set insert: size=internal thread, internal_thread=M4, outer_diameter=6, length=8",
    ),
    ("heat-set M3 L5 D4.5", "heat-set insert: size=internal thread, internal_thread=M3, outer_diameter=4.5, length=5"),
    (
        "M2.5 heat set insert 4mm long OD 3.6",
        "heat-set insert: size=internal thread, internal_thread=M2.5, outer_diameter=3.6, length=4",
    ),
    (
        "M3x5x5 heat set insert",
        "heat-set insert: size=internal thread, internal_thread=M3, outer_diameter=5, length=5, hole_diameter=4.4",
    ),
    ("Einschmelzmutter M3x5,7", "heat-set insert: size=internal thread, internal_thread=M3, length=5.7"),
    (
        "Gewindeeinsatz M4 Messing für Kunststoff Loch 5,6 Länge 8,1",
        "heat-set insert: size=internal thread, internal_thread=M4, length=8.1, hole_diameter=5.6",
    ),
    (
        "insert fileté M4 longueur 8 diamètre 6",
        "heat-set insert: size=internal thread, internal_thread=M4, outer_diameter=6, length=8",
    ),
    ("threaded insert M5 hole 6.4", "heat-set insert: size=internal thread, internal_thread=M5, hole_diameter=6.4"),
    (
        "M8 helicoil 1.5D",
        "wire thread insert: size=internal thread, internal_thread=M8, length=12, hole_diameter=8.3, length_ratio=1.5d",
    ),
    (
        "wire insert M10x1.5 2D",
        "wire thread insert: size=internal thread, internal_thread=M10, length=20, hole_diameter=10.4, length_ratio=2d",
    ),
    (
        "M6x1x9 wire thread insert",
        "wire thread insert: size=internal thread, internal_thread=M6, length=9, hole_diameter=6.3, length_ratio=1.5d",
    ),
    (
        "Drahtgewindeeinsatz M6x12",
        "wire thread insert: size=internal thread, internal_thread=M6, length=12, hole_diameter=6.3, length_ratio=2d",
    ),
    (
        "filet rapporté M8 x 16",
        "wire thread insert: size=internal thread, internal_thread=M8, length=16, hole_diameter=8.3, length_ratio=2d",
    ),
    (
        "inserto helicoidal M5 2.5d",
        "wire thread insert: size=internal thread, internal_thread=M5, length=12.5, "
        "hole_diameter=5.2, length_ratio=2.5d",
    ),
    (
        "helical insert 1/4-20 x 3/8",
        "wire thread insert: size=internal thread, internal_thread=1/4-20 UNC, length=9.525, length_ratio=1.5d",
    ),
    (
        "self clinching nut M4",
        "press-in insert: size=internal thread, internal_thread=M4, outer_diameter=5.38, hole_diameter=5.4",
    ),
    (
        "S-M4-1",
        "press-in insert: size=internal thread, internal_thread=M4, outer_diameter=5.38, "
        "hole_diameter=5.4, min_sheet=1",
    ),
    (
        "CLS-M5-2",
        "press-in insert: size=internal thread, internal_thread=M5, outer_diameter=6.33, "
        "hole_diameter=6.4, min_sheet=1.4",
    ),
    (
        "Einpressmutter M3 für Blech 1 mm",
        "press-in insert: size=internal thread, internal_thread=M3, outer_diameter=4.2, "
        "hole_diameter=4.25, min_sheet=1",
    ),
    ("wood insert M8x25", "wood insert: size=internal thread, internal_thread=M8, length=25"),
    ("D-nut M6x13", "wood insert: size=internal thread, internal_thread=M6, length=13"),
    (
        "heat set insert M3, 4mm OD x 5mm depth",
        "heat-set insert: size=internal thread, internal_thread=M3, outer_diameter=4, length=5",
    ),
    (
        "M3, 4mm deep, and 5mm wide heat insert",
        "heat-set insert: size=internal thread, internal_thread=M3, outer_diameter=5, length=4, hole_diameter=4.4",
    ),
    ("Einschraubmuffe M6 x 15 für Holz", "wood insert: size=internal thread, internal_thread=M6, length=15"),
    ("threaded insert for wood M5 x 10", "wood insert: size=internal thread, internal_thread=M5, length=10"),
    ("insert bois M6x15", "wood insert: size=internal thread, internal_thread=M6, length=15"),
)
OPEN = (
    ("M3x5x4 brass insert", "? heat-set insert"),
    ("M2 x 3 x 3.5 heat set", "? heat-set insert"),
    ("M5 heat set inserts x 20", "? heat-set insert"),
    ("inserto a caldo M3 4,6 x 4", "? heat-set insert"),
    ("press-in insert M3 brass 5x4", "? press-in insert"),
    ("Gewindeeinsatz M4", "? heat-set insert, wire thread insert"),
    ("insert nut M6x13", "? heat-set insert, wood insert"),
    ("insert M6 x 12.7", "? heat-set insert"),
    ("helical insert M3 x 4", "? wire thread insert"),
    ("4x3x5 heat set insert", "? heat-set insert"),
)
OTHER = (
    ("carbide insert CNMG 120408", "unread"),
    ("drawer insert 60 cm", "unread"),
    ("M6 helicoil kit", "unread"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN, *OTHER])
def test_lines_of_inserts(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
