"""Lines that order taper pins, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    (
        "Kegelstift ISO 2339 A 6x50 St",
        "taper pin: size=small end diameter, small_end_diameter=6, length=50, large_end_diameter=7",
    ),
    ("taper pin 5 x 40 mm, 20 pcs", "taper pin: size=small end diameter, small_end_diameter=5, length=40, quantity=20"),
    ("Kegelstifte DIN EN 22339 3 x 20", "taper pin: size=small end diameter, small_end_diameter=3, length=20"),
    ("goupille conique 6x60 ISO 2339", "taper pin: size=small end diameter, small_end_diameter=6, length=60"),
    ("pasador cónico DIN 1 4x32", "taper pin: size=small end diameter, small_end_diameter=4, length=32"),
    ("spina conica 8 x 70", "taper pin: size=small end diameter, small_end_diameter=8, length=70"),
    ("conical pin M6*40 GB117", "taper pin: size=small end diameter, small_end_diameter=6, length=40"),
    ("10 taper pins 2.5x16", "taper pin: size=small end diameter, small_end_diameter=2.5, length=16"),
    (
        "Kegelstift mit Innengewinde DIN 7978 A 10x60",
        "taper pin with internal thread: size=small end diameter, small_end_diameter=10, length=60, internal_thread=M6",
    ),
    (
        "taper pin with internal thread ISO 8736 8x50",
        "taper pin with internal thread: size=small end diameter, small_end_diameter=8, internal_thread=M5",
    ),
    (
        "taper pin internal thread 12 x 60",
        "taper pin with internal thread: size=small end diameter, small_end_diameter=12, internal_thread=M8",
    ),
    (
        "goupille conique taraudée ISO 8736 16x80",
        "taper pin with internal thread: size=small end diameter, small_end_diameter=16, length=80",
    ),
    (
        "pasador cónico con rosca interior 10x50",
        "taper pin with internal thread: size=small end diameter, small_end_diameter=10, internal_thread=M6",
    ),
    (
        "Kegelstift Gewindezapfen DIN 7977 8x65",
        "taper pin with external thread: size=small end diameter, small_end_diameter=8, length=65, thread=M8",
    ),
    (
        "taper pin external thread 10 x 75 ISO 8737",
        "taper pin with external thread: size=small end diameter, small_end_diameter=10, thread=M10",
    ),
    (
        "goupille conique à bout fileté 6x50",
        "taper pin with external thread: size=small end diameter, small_end_diameter=6, thread=M6",
    ),
    ('Taper pin #3 x 1-1/4"', "taper pin: size=large end diameter, large_end_diameter=5.5626, length=31.75"),
    ("taper pin number 5, 2 inch long", "taper pin: size=large end diameter, large_end_diameter=7.3406, length=50.8"),
    ("goupille ISO 2339 4x30", "taper pin: size=small end diameter, small_end_diameter=4"),
    ("Kegelstift 5x50", "taper pin: size=small end diameter, small_end_diameter=5, length=50"),
    ("KEGELSTIFT DIN1 4X30", "taper pin: size=small end diameter, small_end_diameter=4"),
    (
        "Kegelstift m. Innengew. DIN 7978 A 8x50",
        "taper pin with internal thread: size=small end diameter, small_end_diameter=8, internal_thread=M5",
    ),
    ("tapered dowel pin 6 x 40 1:50", "taper pin: size=small end diameter, small_end_diameter=6, length=40"),
    ("Taper pin No.4 x 1.5 in", "taper pin: size=large end diameter, large_end_diameter=6.35, length=38.1"),
)
OPEN = (
    ("taper pin M5", "? taper pin"),
    ("threaded taper pin 8x50", "? taper pin"),
    ("taper pin 1/4 x 2", "? taper pin"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_taper_pins(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
