"""Machine screws, and lines that leave the head of a screw open."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("6-32 x 3/8 pan head", "machine screw: size=external thread, thread=6-32 UNC, length=9.525, head=pan"),
    (
        "#4-40 x 1/4 phillips pan head machine screw",
        "machine screw: size=external thread, thread=4-40 UNC, length=6.35, head=pan",
    ),
    (
        "10-32 x 1/2 truss head machine screw",
        "machine screw: size=external thread, thread=10-32 UNF, length=12.7, head=truss",
    ),
    (
        "8-32 x 1 flat head machine screw",
        "machine screw: size=external thread, thread=8-32 UNC, length=25.4, head=countersunk",
    ),
    ("4-40 x 1/4 flat head", "machine screw: size=external thread, thread=4-40 UNC, length=6.35, head=countersunk"),
    ("M4x12 pan head machine screw", "pan head screw: size=external thread, thread=M4, length=12"),
    (
        "M5x20 countersunk machine screw",
        "countersunk screw: size=external thread, thread=M5, length=20, across_flats=3",
    ),
    ("1/4 tripod screw 10mm", "machine screw: size=external thread, thread=1/4-20 UNC, length=10"),
    ("3/8 camera screw 15 mm", "machine screw: size=external thread, thread=3/8-16 UNC, length=15"),
    ("Stativschraube 1/4 Zoll 12 mm", "machine screw: size=external thread, thread=1/4-20 UNC, length=12"),
)
OPEN = (
    ("#8 x 3/4 pan head", "? machine screw"),
    ("M3 bolt", "? screw"),
    ("M8x40 bolt 8.8", "? screw"),
    ("M3 screws 10mm long", "? screw"),
    ("M4x20 bolts zinc plated 50 pcs", "? screw"),
    ("Schrauben M5x16 (20 Stk)", "? screw"),
    ("vis M4x16 inox", "? screw"),
    ("tornillo M5x20", "? screw"),
    ("vite M3 x 8", "? screw"),
    ("bullone M8x30", "? screw"),
    ("M3x8 flat head screws 50pcs", "? countersunk screw, screw"),
    ("M4 x 10 large flat head hex socket", "? countersunk screw, screw"),
    ("machine screw M4x20", "? machine screw"),
    ("13 mm bolt", "? hex head screw (threaded to the head)"),
    ("10mm bolt, 30 long", "? hex head screw (threaded to the head), screw"),
    ("10 x 32 screw", "? hex head screw (threaded to the head), screw"),
    ("10-32 screw", "? screw"),
    ("1/4 bolt", "? screw"),
)
OTHER = (
    ("screwdriver PH2", "unread"),
    ("bolt cutter 600 mm", "unread"),
    ("eye bolt M8", "unread"),
    ("screw extractor set M3-M12", "unread"),
    ("drill bit set 3-10mm", "unread"),
    ("U-bolt M8 50", "unread"),
    ("concrete screw 7.5x60", "unread"),
    ("toggle bolt 1/8", "unread"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN, *OTHER])
def test_lines_of_screw(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
