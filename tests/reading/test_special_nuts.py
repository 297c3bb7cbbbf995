"""Lines that order thin, square, cap, flange, wing, coupling and knurled nuts, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("nut M5 thin", "thin nut: size=internal thread, internal_thread=M5, across_flats=8, height=2.7"),
    ("Kontermutter M8", "thin nut: size=internal thread, internal_thread=M8, across_flats=13, height=4"),
    ("half nut M6 DIN 439", "thin nut: size=internal thread, internal_thread=M6, across_flats=10, height=3.2"),
    (
        "thin nut M8 ISO 4035 04",
        "thin nut: size=internal thread, internal_thread=M8, across_flats=13, height=4, property_class=04",
    ),
    ("écrou Hm M6 zingué", "thin nut: size=internal thread, internal_thread=M6, across_flats=10, height=3.2"),
    ("dado basso M8", "thin nut: size=internal thread, internal_thread=M8, across_flats=13, height=4"),
    ("M10x1 jam nut", "thin nut: size=internal thread, internal_thread=M10x1, across_flats=16, height=5"),
    ("1/2-13 jam nut", "thin nut: size=internal thread, internal_thread=1/2-13 UNC"),
    ("contratuerca M10", "thin nut: size=internal thread, internal_thread=M10"),
    ("M4 square nuts", "square nut: size=internal thread, internal_thread=M4, across_flats=7"),
    ("square nut M3 5.5x1.8", "square nut: size=internal thread, internal_thread=M3, across_flats=5.5, height=1.8"),
    ("5.5 x 1.8 square nut M3", "square nut: size=internal thread, internal_thread=M3, across_flats=5.5, height=1.8"),
    (
        "Vierkantmutter M4 DIN 562 A2",
        "square nut: size=internal thread, internal_thread=M4, across_flats=7, height=2.2",
    ),
    ("dado quadro M5 DIN 562", "square nut: size=internal thread, internal_thread=M5, across_flats=8, height=2.7"),
    ("tuerca cuadrada M6 DIN 557", "square nut: size=internal thread, internal_thread=M6, across_flats=10, height=5"),
    ("M8 acorn nut", "cap nut: size=internal thread, internal_thread=M8, across_flats=13, height=15"),
    ("10-32 acorn nut", "cap nut: size=internal thread, internal_thread=10-32 UNF"),
    (
        "M6 cap nut DIN 1587 6",
        "cap nut: size=internal thread, internal_thread=M6, across_flats=10, height=12, property_class=6",
    ),
    ("écrou borgne M8 DIN 1587", "cap nut: size=internal thread, internal_thread=M8, across_flats=13, height=15"),
    ("tuerca ciega M5", "cap nut: size=internal thread, internal_thread=M5, across_flats=8, height=10"),
    ("Flanschmutter DIN 6923 M6", "flange nut: size=internal thread, internal_thread=M6, across_flats=10, height=6"),
    (
        "ISO 4161 M8 10",
        "flange nut: size=internal thread, internal_thread=M8, across_flats=13, height=8, property_class=10",
    ),
    (
        "hex flange nut M8 class 8",
        "flange nut: size=internal thread, internal_thread=M8, across_flats=13, height=8, property_class=8",
    ),
    ("écrou embase M8", "flange nut: size=internal thread, internal_thread=M8, across_flats=13, height=8"),
    ("1/4-20 flange nut", "flange nut: size=internal thread, internal_thread=1/4-20 UNC"),
    ("wing nut M4", "wing nut: size=internal thread, internal_thread=M4"),
    ("écrou papillon M6 DIN 315", "wing nut: size=internal thread, internal_thread=M6, height=16"),
    ("galletti M6", "wing nut: size=internal thread, internal_thread=M6"),
    ("coupling nut M10x30", "coupling nut: size=internal thread, internal_thread=M10, length=30, across_flats=17"),
    ("M8 rod coupling nut", "coupling nut: size=internal thread, internal_thread=M8, length=24, across_flats=13"),
    (
        "Verbindungsmutter M10x40 SW 17",
        "coupling nut: size=internal thread, internal_thread=M10, length=40, across_flats=17",
    ),
    ("manicotto filettato M10", "coupling nut: size=internal thread, internal_thread=M10, length=30, across_flats=17"),
    ("knurled nut M5 OD 20 x 4", "knurled nut: size=internal thread, internal_thread=M5, outer_diameter=20, height=4"),
    (
        "dado zigrinato M6 DIN 466",
        "knurled nut: size=internal thread, internal_thread=M6, outer_diameter=24, height=15",
    ),
)
OPEN = (
    ("knurled nut M5x20", "? knurled nut"),
    ("M3x10 knurled nut", "? knurled nut"),
    ("1/4 wing nut", "? wing nut"),
)
OTHER = (("wingnut headphones", "unread"),)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN, *OTHER])
def test_lines_of_special_nuts(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
