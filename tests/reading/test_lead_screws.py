"""Lines that order lead screws, their nuts and ball screws, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("T8x8 500mm", "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=500"),
    (
        "T8x2 lead screw 300mm",
        "lead screw: size=external thread, outer_diameter=8, lead=2, pitch=2, starts=1, length=300",
    ),
    ("Tr12x3 1000", "lead screw: size=external thread, outer_diameter=12, lead=3, pitch=3, starts=1, length=1000"),
    (
        "lead screw T8 lead 8mm 400mm",
        "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=400",
    ),
    (
        "Trapezgewindespindel Tr16x4 500 mm",
        "lead screw: size=external thread, outer_diameter=16, lead=4, pitch=4, starts=1, length=500",
    ),
    (
        "T8 lead screw 4 starts pitch 2 mm 300 mm",
        "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=300",
    ),
    ("T8x8 brass nut", "lead screw nut: size=internal thread, internal_thread=Tr8x8 (P2), lead=8"),
    ("Tr10x2 nut", "lead screw nut: size=internal thread, internal_thread=Tr10x2, lead=2"),
    (
        "Trapezgewindemutter Tr12x3 links",
        "lead screw nut: size=internal thread, internal_thread=Tr12x3 LH, lead=3, hand=left",
    ),
    ("SFU1204 500mm", "ball screw: size=catalogue number, series=SFU1204, outer_diameter=12, lead=4, length=500"),
    (
        "ball screw SFU2005 L=600",
        "ball screw: size=catalogue number, series=SFU2005, outer_diameter=20, lead=5, length=600",
    ),
    (
        "vis à billes 1605 400 mm",
        "ball screw: size=catalogue number, series=1605, outer_diameter=16, lead=5, length=400",
    ),
    (
        "lead screw T8 length 400mm lead 8mm",
        "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=400",
    ),
    (
        "lead screw T8 length 400mm pitch 2mm lead 8mm",
        "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=400",
    ),
    (
        "T8 lead screw, length: 500 mm, lead: 8 mm, pitch: 2 mm",
        "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=500",
    ),
    (
        "trapezoidal lead screw Tr8 pitch 2 starts 4 length 400",
        "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=400",
    ),
    (
        "ball screw SFU1605 length 600mm",
        "ball screw: size=catalogue number, series=SFU1605, outer_diameter=16, lead=5, length=600",
    ),
    ("Tr8x1.5 300 mm", "lead screw: size=external thread, outer_diameter=8, lead=1.5, pitch=1.5, starts=1, length=300"),
    ("Tr20x4 1 m", "lead screw: size=external thread, outer_diameter=20, lead=4, pitch=4, starts=1, length=1000"),
    (
        "Tr8x4(P2) lead screw 200",
        "lead screw: size=external thread, outer_diameter=8, lead=4, pitch=2, starts=2, length=200",
    ),
    (
        "T10 lead screw lead 2 300 mm",
        "lead screw: size=external thread, outer_diameter=10, lead=2, pitch=2, starts=1, length=300",
    ),
    (
        "Tr10x2 LH lead screw 400",
        "lead screw: size=external thread, outer_diameter=10, lead=2, pitch=2, starts=1, length=400, hand=left",
    ),
    ("anti-backlash nut T8x8", "lead screw nut: size=internal thread, internal_thread=Tr8x8 (P2), lead=8"),
    ("Spindelmutter Tr12x3", "lead screw nut: size=internal thread, internal_thread=Tr12x3, lead=3"),
    ("écrou trapézoïdal Tr10x2", "lead screw nut: size=internal thread, internal_thread=Tr10x2, lead=2"),
    ("SFU2010 1000mm", "ball screw: size=catalogue number, series=SFU2010, outer_diameter=20, lead=10, length=1000"),
    ("ball screw 1204 250 mm", "ball screw: size=catalogue number, series=1204, outer_diameter=12, lead=4, length=250"),
    (
        "T8x8 lead screw 350mm + nut",
        "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=350",
    ),
    (
        "T8 lead screw 300mm, 2mm pitch, 2 start 4mm lead",
        "lead screw: size=external thread, outer_diameter=8, lead=4, pitch=2, starts=2, length=300",
    ),
    ("Tr10x2 L=500", "lead screw: size=external thread, outer_diameter=10, lead=2, pitch=2, starts=1, length=500"),
    ("Tr12x3 LH nut bronze", "lead screw nut: size=internal thread, internal_thread=Tr12x3 LH, lead=3, hand=left"),
    ("SFU1605 L400", "ball screw: size=catalogue number, series=SFU1605, outer_diameter=16, lead=5, length=400"),
    (
        "Kugelumlaufspindel 1204 300 mm",
        "ball screw: size=catalogue number, series=1204, outer_diameter=12, lead=4, length=300",
    ),
    ("Tr8x8", "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4"),
    ("Tr8x8 (P2) 400", "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=400"),
    (
        "T8 lead screw 300mm lead 8",
        "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=300",
    ),
    (
        "T8x2 lead screw 300 mm",
        "lead screw: size=external thread, outer_diameter=8, lead=2, pitch=2, starts=1, length=300",
    ),
    ("T8x8 lead screw nut brass", "lead screw nut: size=internal thread, internal_thread=Tr8x8 (P2), lead=8"),
    ("lead screw nut T8 lead 8mm", "lead screw nut: size=internal thread, internal_thread=Tr8x8 (P2), lead=8"),
    ("Trapezgewindemutter Tr10x2", "lead screw nut: size=internal thread, internal_thread=Tr10x2, lead=2"),
    (
        "Trapezgewindespindel Tr12x3 1 m links",
        "lead screw: size=external thread, outer_diameter=12, lead=3, pitch=3, starts=1, length=1000, hand=left",
    ),
    (
        "husillo T8 avance 8 mm, 400 mm",
        "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=400",
    ),
    (
        "vis trapézoïdale Tr10x3 500",
        "lead screw: size=external thread, outer_diameter=10, lead=3, pitch=3, starts=1, length=500",
    ),
    (
        "vite trapezoidale Tr16x4 1000",
        "lead screw: size=external thread, outer_diameter=16, lead=4, pitch=4, starts=1, length=1000",
    ),
    (
        "T8 leadscrew 8mm lead 500mm with brass nut",
        "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=500",
    ),
    (
        "lead screw Tr8x4(P2) 250",
        "lead screw: size=external thread, outer_diameter=8, lead=4, pitch=2, starts=2, length=250",
    ),
    ("ball screw 1605 500mm", "ball screw: size=catalogue number, series=1605, outer_diameter=16, lead=5, length=500"),
    ("ball screw 16x5 600", "ball screw: size=catalogue number, series=SFU1605, outer_diameter=16, lead=5, length=600"),
    ("SFU1605-600", "ball screw: size=catalogue number, series=SFU1605, outer_diameter=16, lead=5, length=600"),
    (
        "T8 lead screw 4 start pitch 2 length 500",
        "lead screw: size=external thread, outer_diameter=8, lead=8, pitch=2, starts=4, length=500",
    ),
    ("Tr14x4 nut", "lead screw nut: size=internal thread, internal_thread=Tr14x4, lead=4"),
)
OPEN = (
    ("T8 lead screw 400mm", "? lead screw"),
    ("10 mm lead screw 300", "? lead screw, threaded rod"),
    ("T12 lead screw 3mm pitch 500", "? lead screw"),
    ("T6 rod, 2 or 4 mm lead, 160 mm", "? lead screw"),
    ("T8 lead screw 300mm pitch 2mm", "? lead screw"),
    ("lead screw 8mm x 200", "? lead screw, threaded rod"),
    ("8 mm lead screw", "? lead screw, threaded rod"),
    ("T5x2 leadscrew 150mm", "? lead screw"),
    ("T8 lead screw 400", "? lead screw"),
    ("T8 brass nut", "? lead screw nut"),
    ("husillo T8 paso 2 mm 300 mm", "? lead screw"),
    ("SFU2510 800mm BK20 BF20", "? ball screw"),
    ("M8 lead screw 300", "? lead screw, threaded rod"),
    ("ACME lead screw 1/2-10 12 inch", "? lead screw"),
    ("lead screw", "? lead screw"),
    ("lead screw nut", "? lead screw nut"),
    ("ball screw", "? ball screw"),
    ("Tr10x7 lead screw", "? lead screw"),
    ("T8 lead screw pitch 2 starts 2 lead 8", "? lead screw"),
)
OTHER_THINGS = (
    "T10 torx bit 50",
    "T8 fluorescent lamp 1200",
    "Tr10x7 500",
    "lead free solder 0.8 mm",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_lead_screws(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
