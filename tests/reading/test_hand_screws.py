"""Lines that order knurled screws, wing screws and knobs, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("thumb screw M3 x 6", "knob: size=external thread, thread=M3, length=6"),
    ("M4x16 knurled thumb screw", "knurled screw: size=external thread, thread=M4, length=16"),
    ("Rändelschraube DIN 464 M5x20", "knurled screw: size=external thread, thread=M5, length=20"),
    ("Rändelschraube M3x6 hoch", "knurled screw: size=external thread, thread=M3, length=6"),
    ("vis moletée M4 x 10 laiton", "knurled screw: size=external thread, thread=M4, length=10"),
    ("vite zigrinata M5x12", "knurled screw: size=external thread, thread=M5, length=12"),
    ("tornillo moleteado M6x15", "knurled screw: size=external thread, thread=M6, length=15"),
    ("thumbscrew M6 knurled head 20mm long", "knurled screw: size=external thread, thread=M6, length=20"),
    ("flat knurled thumb screw DIN 653 M4x10", "knurled screw: size=external thread, thread=M4, length=10"),
    ("wing screw M5x20", "wing screw: size=external thread, thread=M5, length=20"),
    ("Flügelschraube DIN 316 M6x25", "wing screw: size=external thread, thread=M6, length=25"),
    ("vis à ailettes M6x20", "wing screw: size=external thread, thread=M6, length=20"),
    ("vite ad alette M8x20", "wing screw: size=external thread, thread=M8, length=20"),
    ("tornillo de palomilla M6x30", "wing screw: size=external thread, thread=M6, length=30"),
    ("Sterngriff M8x30", "knob: size=external thread, thread=M8, length=30"),
    ("star knob 40mm M8 x 20", "knob: size=external thread, thread=M8, outer_diameter=40, length=20"),
    ("star knob 40mm m8 x 20", "knob: size=external thread, thread=M8, outer_diameter=40, length=20"),
    ("pomello M8 x 25", "knob: size=external thread, thread=M8, length=25"),
    ("bouton étoile M6x20", "knob: size=external thread, thread=M6, length=20"),
    ("Kreuzgriff M10 Innengewinde", "knob: size=internal thread, internal_thread=M10"),
    ("pomo M8 hembra", "knob: size=internal thread, internal_thread=M8"),
    ("knob M5 female thread", "knob: size=internal thread, internal_thread=M5"),
    ("Sterngriffmutter M6", "knob: size=internal thread, internal_thread=M6"),
)
OPEN = (("ball knob M8 Ø32", "? knob"),)
OTHER = (
    ("volume knob 6mm shaft", "unread"),
    ("cabinet knob 32mm", "unread"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN, *OTHER])
def test_lines_of_hand_screws(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
