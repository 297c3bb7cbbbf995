"""Lines that order socket head, button head, countersunk and hexagon head screws, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("M4x10 T20 button head screw", "button head screw: size=external thread, thread=M4, length=10, drive=hexalobular"),
    ("BHCS M3x6 torx", "button head screw: size=external thread, thread=M3, length=6, drive=hexalobular"),
    (
        "M3x8 button head 50 pcs",
        "button head screw: size=external thread, thread=M3, length=8, across_flats=2, quantity=50",
    ),
    (
        "torx socket head cap screw M5x20",
        "socket head cap screw: size=external thread, thread=M5, length=20, drive=hexalobular",
    ),
    (
        "M5x20 cap head 12.9",
        "socket head cap screw: size=external thread, thread=M5, length=20, across_flats=4, property_class=12.9",
    ),
    ("M6x16 countersunk Phillips", "countersunk screw: size=external thread, thread=M6, length=16, drive=cross recess"),
    ("DIN 965 M4x10 A2", "countersunk screw: size=external thread, thread=M4, length=10"),
    ("M4x12 countersunk torx", "countersunk screw: size=external thread, thread=M4, length=12, drive=hexalobular"),
    (
        "M8x30 hex head 8.8",
        "hex head screw (threaded to the head): size=external thread, thread=M8, length=30, "
        "across_flats=13, property_class=8.8",
    ),
    (
        "hex bolt M10x40 spanner 17",
        "hex head screw (threaded to the head): size=external thread, thread=M10, length=40, across_flats=17",
    ),
    (
        "hex bolt M10x40 spanner 16",
        "hex head screw (threaded to the head): size=external thread, thread=M10, length=40, across_flats=16",
    ),
    ("M12 x 50 hex bolt", "hex head screw (threaded to the head): size=external thread, thread=M12, length=50"),
    ("button head hex screw M4x10", "button head screw: size=external thread, thread=M4, length=10, across_flats=2.5"),
    ("8-32 x 1/2 SHCS", "socket head cap screw: size=external thread, thread=8-32 UNC, length=12.7"),
    (
        "1/4-20 x 1 hex bolt",
        "hex head screw (threaded to the head): size=external thread, thread=1/4-20 UNC, length=25.4",
    ),
)
OPEN = (("1/4 x 1 hex bolt", "? hex head screw (threaded to the head)"),)
OTHER = (("screw cap bottle 28mm", "unread"),)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN, *OTHER])
def test_lines_of_screws(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
