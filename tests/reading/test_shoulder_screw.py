"""Lines that order shoulder screws and fit bolts, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("shoulder bolt 8 x 25 M6", "shoulder screw: size=shoulder diameter, thread=M6, shoulder_diameter=8, length=25"),
    ("shoulder screw Ø10x30 M8", "shoulder screw: size=shoulder diameter, thread=M8, shoulder_diameter=10, length=30"),
    ("ISO 7379 10x40", "shoulder screw: size=shoulder diameter, thread=M8, shoulder_diameter=10, length=40"),
    (
        "Passschraube ISO 7379 8x20 M6",
        "shoulder screw: size=shoulder diameter, thread=M6, shoulder_diameter=8, length=20",
    ),
    ("stripper bolt 3/8 x 1", "shoulder screw: size=shoulder diameter, shoulder_diameter=9.525, length=25.4"),
    (
        "shoulder screw 6 mm x 15 mm thread M5",
        "shoulder screw: size=shoulder diameter, thread=M5, shoulder_diameter=6, length=15",
    ),
    ("M3 shoulder screw D4 L8", "shoulder screw: size=external thread, thread=M3, shoulder_diameter=4, length=8"),
    ("M5*6*20 shoulder screw", "shoulder screw: size=external thread, thread=M5, shoulder_diameter=6, length=20"),
    ("M5 x D6 x 12 shoulder screw", "shoulder screw: size=external thread, thread=M5, shoulder_diameter=6, length=12"),
    (
        "4 x shoulder bolt M8x10x30",
        "shoulder screw: size=external thread, thread=M8, shoulder_diameter=10, length=30, quantity=4",
    ),
    (
        "tornillo de hombro 12x50 M10",
        "shoulder screw: size=shoulder diameter, thread=M10, shoulder_diameter=12, length=50",
    ),
    (
        "vite con spallamento 10 x 25 M8",
        "shoulder screw: size=shoulder diameter, thread=M8, shoulder_diameter=10, length=25",
    ),
    ("Schulterschraube 10x25 M8", "shoulder screw: size=shoulder diameter, thread=M8, shoulder_diameter=10, length=25"),
    ("vis à épaulement Ø6 L20 M5", "shoulder screw: size=shoulder diameter, thread=M5, shoulder_diameter=6, length=20"),
    ("DIN 9841 6x30 M5", "shoulder screw: size=shoulder diameter, thread=M5, shoulder_diameter=6, length=30"),
    ("hex fit bolt DIN 609 M12x80", "hex fit bolt: size=external thread, thread=M12, length=80"),
    ("vis ajustée M10x50", "hex fit bolt: size=external thread, thread=M10, length=50"),
    (
        "Passschraube DIN 609 M10x60 8.8",
        "hex fit bolt: size=external thread, thread=M10, length=60, property_class=8.8",
    ),
    ("shoulder bolt 8 x 25 m6", "shoulder screw: size=shoulder diameter, thread=M6, shoulder_diameter=8, length=25"),
)
OPEN = (
    ("socket shoulder screw M8 x 40", "? shoulder screw"),
    ("shoulder screw 6 x 20 M8", "? shoulder screw"),
    ("Passschraube M10 x 50", "? hex fit bolt, shoulder screw"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_shoulder_screw(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
