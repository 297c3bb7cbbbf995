"""Wordings of bearings, bushes, guides, shafts and drives whose size is not what a buyer assumes.

Each case holds the line, what must be read from it (as ``is_read`` takes it) and a part of the question to the
supplier, or None where nothing is to be asked.
"""

from collections.abc import Callable

import pytest

from service.reading import read

BEARINGS = (
    ("bearing 10x3x4", "ball bearing: size=outer diameter, bore=3, outer_diameter=10, width=4, series=623", None),
    ("bearing 22x8x7", "ball bearing: size=outer diameter, bore=8, outer_diameter=22, width=7, series=608", None),
    ("623 bearing (OD/ID/T 10x3x4)", "ball bearing: size=catalogue number, bore=3, outer_diameter=10, width=4", None),
    ("MR105ZZ", "ball bearing: size=catalogue number, bore=5, outer_diameter=10, width=4", None),
    ("MR128-2RS", "ball bearing: bore=8, outer_diameter=12, width=3.5", None),
    ("MR63ZZ", "ball bearing: bore=3, outer_diameter=6, width=2.5", None),
    ("MR105", "? ball bearing", "3 mm (open) or 4 mm (closed)"),
    ("MR105 open", "ball bearing: width=3", None),
    ("688", "? ball bearing", "Open, or with shields or seals"),
    ("688 open", "ball bearing: bore=8, outer_diameter=16, width=4", None),
    ("688ZZ", "ball bearing: bore=8, outer_diameter=16, width=5", None),
    ("693ZZ", "ball bearing: bore=3, width=4", None),
    ("MR115 5x11x5", "? ball bearing", "(685)"),
    ("685ZZ 5x11x5", "ball bearing: bore=5, outer_diameter=11, width=5", None),
    ("flange bearing 623", "? flanged ball bearing, ball bearing", "Is F623 meant"),
    ("F623ZZ", "flanged ball bearing: bore=3, outer_diameter=10, flange_diameter=11.5", None),
    ("6200", "ball bearing: bore=10, outer_diameter=30, width=9", None),
    ("6201", "ball bearing: bore=12, outer_diameter=32, width=10", None),
    ("6202", "ball bearing: bore=15, outer_diameter=35, width=11", None),
    ("6203", "ball bearing: bore=17, outer_diameter=40, width=12", None),
    ("6204", "ball bearing: bore=20, outer_diameter=47, width=14", None),
    ("8 mm bearing", "? ball bearing, linear ball bearing", "bore x outside x width"),
    ("608", "ball bearing: bore=8, outer_diameter=22", None),
    ("698ZZ", "ball bearing: bore=8, outer_diameter=19", None),
    ("bearing 50x67x7", "? ball bearing", "6810 (50 x 65 x 7)"),
    ("bearing 50x65x7", "ball bearing: bore=50, outer_diameter=65, width=7", None),
    ("bearing 3x10x4", "ball bearing: size=bore, bore=3, outer_diameter=10, width=4, series=623", None),
    ("bearing 18307RS", "? ball bearing", "18 x 30 x 7"),
    ("LM8UU", "linear ball bearing: bore=8, outer_diameter=15, length=24", None),
    ("LME8UU", "linear ball bearing: bore=8, outer_diameter=16, length=25", None),
    ("linear bearing 8 mm", "? linear ball bearing", "LME8UU 8x16"),
    ("HK0810", "needle roller bearing: bore=8, outer_diameter=12, width=10", None),
)
"""Sources: ISO 15, ISO 8443, ISO 3245, makers' catalogues."""

BUSHES_AND_SUPPORTS = (
    ("SF-1 0810", "plain bush: size=bore, bore=8, outer_diameter=10, length=10", None),
    ("PCM 101210", "plain bush: size=bore, bore=10, outer_diameter=12, length=10", None),
    ("bronze bush 8 mm", "? plain bush", "the bore, the outside or the length"),
    ("bronze bush 8x12", "? plain bush", "length 12 mm"),
    ("Gleitlager 8x10x10 Bohrung F7", "plain bush: bore=8, outer_diameter=10", "before pressing in"),
    ("sliding bearing M3 bore", "plain bush: size=bore, bore=3", None),
    ("BK12 + BF12", "? screw support", "BK12 for 12 mm and BF12 for 10 mm"),
    ("BF12", "screw support: bore=10", None),
    ("BF10", "screw support: bore=8", None),
)
"""Sources: ISO 3547, ISO 2795, makers' catalogues of support units."""

LINEAR = (
    ("linear rail 12 mm", "? guide rail, shaft, supported shaft", "profile rail of size class 12"),
    ("MGN12 rail 300 mm", "guide rail: size=size class, size_class=12, length=300", None),
    ("SBR12 400 mm", "supported shaft: size=shaft size, shaft_size=12, length=400", None),
    ("T8 lead screw, pitch 2", "? lead screw", "2 mm (1 starts) or 4 mm (2 starts) or 8 mm (4 starts)"),
    ("Tr8x8", "lead screw: size=external thread, lead=8, pitch=2, starts=4", "(P2)"),
    ("Tr8x8 (P2)", "lead screw: lead=8, pitch=2, starts=4", None),
    ("Tr8x2", "lead screw: lead=2, pitch=2, starts=1", None),
    ("8 mm lead screw", "? lead screw, threaded rod", "a rod M8"),
    ("SFU1605 500 mm", "ball screw: size=catalogue number, outer_diameter=16, lead=5, length=500", None),
)
"""Sources: ISO 2904, DIN 103, common practice."""

DRIVES = (
    ("GT2 pulley 20T 6mm", "? timing pulley", "the bore or the width of the belt"),
    ("GT2 pulley 20T 5mm bore 6mm belt", "timing pulley: size=teeth, teeth=20, bore=5, belt_width=6, pitch=2", None),
    ("GT2 belt 200", "? timing belt", "200 teeth"),
    ("200-2GT-6", "timing belt: size=pitch length, pitch_length=200, teeth=100, belt_width=6", None),
    ("AT3 150 x 10", "timing belt: pitch_length=150, teeth=50, belt_width=10", None),
    ("90XL037", "timing belt: pitch_length=228.6, teeth=45, belt_width=9.525", "45 teeth"),
    ("80MXL", "timing belt: pitch_length=203.2, teeth=100", "100 teeth"),
    ("B80MXL", "timing belt: pitch_length=162.56, teeth=80", "80 teeth"),
    ("HTD 3M pulley 20T bore 5", "timing pulley: profile=HTD 3M, teeth=20, bore=5, pitch=3", None),
    ("5M belt 15 mm, 2 m open", "timing belt: profile=HTD 5M, belt_width=15, length=2000", None),
    ("M1 rack 15x15x500", "rack: size=module, module=1, width=15, height=15, length=500", None),
    ("M1 gear 20T bore 5", "gear: size=module, module=1, teeth=20, bore=5", None),
    ("timing belt 5 mm pitch, 10 mm wide", "? timing belt", "HTD 5M, S5M, T5, AT5, XL"),
    ("XL belt 5 mm pitch 10 mm wide 500 long", "? timing belt", "XL has a pitch of 5.08 mm"),
    ("coupling 5x8", "shaft coupling: size=bore, bore=5, bore_2=8", "outside or length left open"),
    ("coupling 25x30", "? shaft coupling", "the outside and the length, or the two bores"),
    ("NEMA17", "motor: size=size class, size_class=NEMA17, hole_spacing=31", "length, shaft, current left open"),
)
"""Sources: ISO 5296, ISO 17396, ISO 13050, DIN 867, NEMA ICS 16; makers' catalogues and everyday use."""


@pytest.mark.parametrize(("line", "expected", "question"), [*BEARINGS, *BUSHES_AND_SUPPORTS, *LINEAR, *DRIVES])
def test_trap_is_read_and_asked_about(
    line: str, expected: str, question: str | None, is_read: Callable[[str, str], None]
) -> None:
    """The wording gives the reading of the trade, not the one that a buyer assumes, and the right question."""
    is_read(line, expected)
    asked = read(line).question
    if question is None:
        assert asked is None
    else:
        assert asked is not None
        assert question in asked


@pytest.mark.parametrize(
    ("line", "family"),
    [
        ("bearing 8x22x7", "ball bearing"),
        ("bearing 22x8x7", "ball bearing"),
        ("bush 8x12x10", "plain bush"),
        ("bush 12x8x10", "plain bush"),
        ("flanged bush 8x12x10", "flanged bush"),
        ("linear bearing 8x15x24", "linear ball bearing"),
        ("linear bearing 15x8x24", "linear ball bearing"),
    ],
)
def test_of_two_diameters_the_smaller_is_the_bore(line: str, family: str, is_read: Callable[[str, str], None]) -> None:
    """Bearings and bushes are sorted whatever their order."""
    is_read(line, f"{family}: bore=8")


@pytest.mark.parametrize(
    ("line", "expected", "question"),
    [
        ("GT2 belt 280 x 6 closed", "timing belt: pitch_length=280, teeth=140", None),
        ("GT2 belt 281 x 6 closed", "? timing belt", "280 or 282"),
        ("430-5M-10, 86 teeth", "timing belt: pitch_length=430, teeth=86", None),
        ("430-5M-10, 80 teeth", "? timing belt", "teeth 80"),
        ("T8 lead screw, pitch 2, 2 starts, 300 mm", "lead screw: lead=4, pitch=2, starts=2", None),
        ("T8 lead screw, pitch 2, 2 starts, lead 8", "? lead screw", "lead = pitch x starts"),
        ("GT2 pulley 20T 8mm 6mm", "timing pulley: bore=8, belt_width=6", None),
        ("coupling 12 x 14 D14 L25", "? shaft coupling", "not larger than the bore"),
    ],
)
def test_arithmetic_settles_the_order(
    line: str, expected: str, question: str | None, is_read: Callable[[str, str], None]
) -> None:
    """Length = pitch x teeth, lead = pitch x starts, a bore fits inside: numbers that do not go together are asked."""
    is_read(line, expected)
    assert question is None or question in (read(line).question or "")
