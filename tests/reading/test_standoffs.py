"""Lines that order standoffs and spacers, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("standoff M3x10 F/F", "standoff: size=internal thread, internal_thread=M3, length=10, ends=female-female"),
    (
        "M3x25+6 hex standoff brass male female",
        "standoff: size=internal thread, internal_thread=M3, length=25, stud_length=6, ends=male-female",
    ),
    (
        "M2.5 x 12 mm nylon standoff M/F",
        "standoff: size=internal thread, internal_thread=M2.5, length=12, ends=male-female",
    ),
    (
        "Abstandsbolzen M3 20mm Innen/Außen",
        "standoff: size=internal thread, internal_thread=M3, length=20, ends=male-female",
    ),
    (
        "Abstandsbolzen M4x25 innen-innen SW7",
        "standoff: size=internal thread, internal_thread=M4, length=25, across_flats=7, ends=female-female",
    ),
    (
        "entretoise M3 mâle femelle 15 mm",
        "standoff: size=internal thread, internal_thread=M3, length=15, ends=male-female",
    ),
    (
        "entretoise taraudée M3 x 10",
        "standoff: size=internal thread, internal_thread=M3, length=10, ends=female-female",
    ),
    (
        "separador hexagonal M3 10 mm hembra-hembra",
        "standoff: size=internal thread, internal_thread=M3, length=10, ends=female-female",
    ),
    (
        "distanziale esagonale M3 x 15 maschio/femmina",
        "standoff: size=internal thread, internal_thread=M3, length=15, ends=male-female",
    ),
    (
        "M3*12+6 tong zhu",
        "standoff: size=internal thread, internal_thread=M3, length=12, stud_length=6, ends=male-female",
    ),
    (
        "M3*6+3 single-pass pillar",
        "standoff: size=internal thread, internal_thread=M3, length=6, stud_length=3, ends=male-female",
    ),
    (
        "standoff 8mm M3 F-F SW5.5 (10)",
        "standoff: size=internal thread, internal_thread=M3, length=8, across_flats=5.5, "
        "ends=female-female, quantity=10",
    ),
    (
        "6-32 x 3/4 standoff M/F",
        "standoff: size=internal thread, internal_thread=6-32 UNC, length=19.05, ends=male-female",
    ),
    ("spacer 5x10x8", "spacer: size=bore, outer_diameter=10, bore=5, length=8"),
    ("aluminium spacer 5.1 x 8 x 6", "spacer: size=bore, outer_diameter=8, bore=5.1, length=6"),
    ("spacer OD 10 ID 5 L 20", "spacer: size=bore, outer_diameter=10, bore=5, length=20"),
    ("spacer 10mm long 8mm OD 5mm bore", "spacer: size=bore, outer_diameter=8, bore=5, length=10"),
    ("M5 spacer 35mm OD 8", "spacer: size=screw size, screw_size=M5, outer_diameter=8, length=35"),
    ("Distanzhülse 5,3 x 10 x 15 Alu", "spacer: size=bore, outer_diameter=10, bore=5.3, length=15"),
    ("Abstandshülse Ø6,4 x Ø10 x 12", "spacer: size=bore, outer_diameter=10, bore=6.4, length=12"),
    ("entretoise lisse 5x8x20", "spacer: size=bore, outer_diameter=8, bore=5, length=20"),
    ("boccola distanziale 4,2 x 8 x 10", "spacer: size=bore, outer_diameter=8, bore=4.2, length=10"),
    ("eccentric spacer 6mm M5", "spacer: size=screw size, screw_size=M5, length=6"),
    ("M4 standoff 20mm M-M", "standoff: size=internal thread, internal_thread=M4, length=20, ends=male-male"),
    (
        "entretoise M3 x 20 + 6",
        "standoff: size=internal thread, internal_thread=M3, length=20, stud_length=6, ends=male-female",
    ),
    ("aluminium spacer M5 OD10 x 6", "spacer: size=screw size, screw_size=M5, outer_diameter=10, length=6"),
)
OPEN = (
    ("hex standoff M4 30 mm", "? standoff"),
    ("M4x10 spacer", "? spacer, standoff"),
    ("nylon spacer M3 x 5", "? spacer, standoff"),
    ("spacer 10mm", "? spacer"),
)
OTHER = (
    ("wheel spacer 20mm 5x120", "unread"),
    ("wall standoff sign 19mm", "unread"),
    ("bed pillar 60x60", "unread"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN, *OTHER])
def test_lines_of_standoffs(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
