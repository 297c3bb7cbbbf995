"""Lines that order studs, threaded rods, hanger bolts and dowel screws, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("stud M10 x 50 DIN 938", "stud: size=external thread, thread=M10, length=50, screwed_in_length=10"),
    (
        "Stiftschraube M8x25 DIN 939 5.6",
        "stud: size=external thread, thread=M8, length=25, screwed_in_length=10, property_class=5.6",
    ),
    ("stud DIN 835 M12 x 60", "stud: size=external thread, thread=M12, length=60, screwed_in_length=24"),
    ("espárrago M8x40 DIN 939", "stud: size=external thread, thread=M8, length=40, screwed_in_length=10"),
    ("vite prigioniera M10 x 50 UNI 5911", "stud: size=external thread, thread=M10, length=50, screwed_in_length=10"),
    ("double ended stud M8 x 80 overall", "stud: size=external thread, thread=M8, length=80"),
    ("threaded rod M5 500mm", "threaded rod: size=external thread, thread=M5, length=500"),
    ("threaded rod 8mm x 500", "threaded rod: size=external thread, thread=M8, length=500"),
    ("threaded rod 1/4-20 x 12", "threaded rod: size=external thread, thread=1/4-20 UNC, length=304.8"),
    ("all thread M6 x 1000 A2", "threaded rod: size=external thread, thread=M6, length=1000"),
    ("Gewindestange M10 1m verzinkt", "threaded rod: size=external thread, thread=M10, length=1000"),
    ("GEWINDESTANGE M10 1M VERZINKT", "threaded rod: size=external thread, thread=M10, length=1000"),
    ("Gewindestange M8x1x500", "threaded rod: size=external thread, thread=M8x1, length=500"),
    ("Gewindebolzen M8x60", "threaded rod: size=external thread, thread=M8, length=60"),
    ("fully threaded stud M8x40", "threaded rod: size=external thread, thread=M8, length=40"),
    ("tige filetée M6 1 m", "threaded rod: size=external thread, thread=M6, length=1000"),
    ("tige filetée M10x1 longueur 300", "threaded rod: size=external thread, thread=M10x1, length=300"),
    ("varilla roscada M8 x 1 metro", "threaded rod: size=external thread, thread=M8, length=1000"),
    ("barra filettata Ø10 1000 mm inox", "threaded rod: size=external thread, thread=M10, length=1000"),
    ("M6 studding 300mm", "threaded rod: size=external thread, thread=M6, length=300"),
    ("DIN 975 M16", "threaded rod: size=external thread, thread=M16"),
    ("hanger bolt M6x50", "hanger bolt: size=external thread, thread=M6, length=50"),
    ("Stockschraube 8x80", "hanger bolt: size=external thread, thread=M8, length=80"),
    ("patte à vis M6x40", "hanger bolt: size=external thread, thread=M6, length=40"),
    ("tornillo doble rosca M8 x 60", "hanger bolt: size=external thread, thread=M8, length=60"),
)
OPEN = (
    ("goujon fileté M8 x 40", "? stud"),
    ("dowel screw M8x60", "? hanger bolt, dowel screw"),
    ("Doppelgewindeschraube 6x50", "? dowel screw"),
)
OTHER = (
    ("wheel stud M12x1.5", "unread"),
    ("2x4 wall stud", "unread"),
    ("curtain rod 28mm", "unread"),
    ("fishing rod 2.4m", "unread"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN, *OTHER])
def test_lines_of_studs(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
