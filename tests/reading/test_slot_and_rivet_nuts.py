"""Lines that order T-slot, rivet, tee and barrel nuts, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("T-slot nut M6 slot 8", "T-slot nut: size=internal thread, internal_thread=M6, slot_width=8"),
    ("T nut M4 slot 6", "T-slot nut: size=internal thread, internal_thread=M4, slot_width=6"),
    ("drop in T-nut M5 for 2020 profile", "T-slot nut: size=internal thread, internal_thread=M5, profile=20"),
    ("2020 M5 sliding T nut x 20", "T-slot nut: size=internal thread, internal_thread=M5, profile=20, quantity=20"),
    (
        "4040 slot 8 M5 T-nut 10 pcs",
        "T-slot nut: size=internal thread, internal_thread=M5, slot_width=8, profile=40, quantity=10",
    ),
    (
        "Nutenstein Nut 10 M8 Profil 40",
        "T-slot nut: size=internal thread, internal_thread=M8, slot_width=10, profile=40",
    ),
    ("Hammermutter Nut 8 M6", "T-slot nut: size=internal thread, internal_thread=M6, slot_width=8"),
    ("hammermutter nut 8 m6", "T-slot nut: size=internal thread, internal_thread=M6, slot_width=8"),
    ("écrou marteau M5 rainure 8", "T-slot nut: size=internal thread, internal_thread=M5, slot_width=8"),
    ("tuerca martillo M6 ranura 8", "T-slot nut: size=internal thread, internal_thread=M6, slot_width=8"),
    ("dado a martello M5 cava 6", "T-slot nut: size=internal thread, internal_thread=M5, slot_width=6"),
    ("slot 8 T-nut M6 30 series", "T-slot nut: size=internal thread, internal_thread=M6, slot_width=8, profile=30"),
    ("T-slot nut DIN 508 M10x12", "T-slot nut: size=internal thread, internal_thread=M10, slot_width=12"),
    ("tee nut M5 wood", "tee nut: size=internal thread, internal_thread=M5"),
    ("Einschlagmutter M6", "tee nut: size=internal thread, internal_thread=M6"),
    ("T nut wood M8", "tee nut: size=internal thread, internal_thread=M8"),
    (
        "blind rivet nut M6 steel flat head grip 0.5-3",
        "rivet nut: size=internal thread, internal_thread=M6, hole_diameter=9, grip_min=0.5, grip_max=3",
    ),
    ("M6 rivet nut hex 1.5-4 mm grip", "rivet nut: size=internal thread, internal_thread=M6, grip_min=1.5, grip_max=4"),
    (
        "rivnut M6 grip 1.5 - 4.5 mm hex",
        "rivet nut: size=internal thread, internal_thread=M6, grip_min=1.5, grip_max=4.5",
    ),
    ("Blindnietmutter M5 Senkkopf Alu", "rivet nut: size=internal thread, internal_thread=M5, hole_diameter=7"),
    ("écrou à sertir M4 alu", "rivet nut: size=internal thread, internal_thread=M4, hole_diameter=6"),
    ("tuerca remachable M6 acero", "rivet nut: size=internal thread, internal_thread=M6, hole_diameter=9"),
    ("inserto filettato a rivetto M5", "rivet nut: size=internal thread, internal_thread=M5, hole_diameter=7"),
    ("rivnut 1/4-20", "rivet nut: size=internal thread, internal_thread=1/4-20 UNC"),
    (
        "cross dowel M6 x 12 10mm dia",
        "cross dowel: size=internal thread, internal_thread=M6, outer_diameter=10, length=12",
    ),
    (
        "cross dowel nut M8 14mm long 10mm dia",
        "cross dowel: size=internal thread, internal_thread=M8, outer_diameter=10, length=14",
    ),
    (
        "Quermutterbolzen M8 12x20",
        "cross dowel: size=internal thread, internal_thread=M8, outer_diameter=12, length=20",
    ),
    ("furniture barrel nut M6 x 15", "cross dowel: size=internal thread, internal_thread=M6, length=15"),
    ("sex bolt M6x20", "sleeve nut: size=internal thread, internal_thread=M6, length=20"),
)
OPEN = (
    ("T-nut M5", "? T-slot nut, tee nut"),
    ("T nut 6", "? T-slot nut, tee nut, lead screw nut"),
    ("rivet nut hole 7", "? rivet nut"),
    ("5 mm rivnut", "? rivet nut"),
    ("barrel nut M8", "? cross dowel, sleeve nut"),
    ("blind nut M4", "? cap nut, rivet nut"),
)
OTHER = (("rivet gun", "unread"),)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN, *OTHER])
def test_lines_of_slot_and_rivet_nuts(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
