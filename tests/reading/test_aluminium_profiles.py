"""Lines that order aluminium profiles, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("3030 aluminium profile 500mm", "profile: size=section, width=30, height=30, length=500"),
    ("2020 V-slot 1000 mm black", "profile: size=section, width=20, height=20, slot=V, length=1000"),
    ("Aluprofil 40x40 Nut 10 600 mm", "profile: size=section, width=40, height=40, slot_width=10, length=600"),
    ("perfil 2020 aluminio 300mm", "profile: size=section, width=20, height=20, length=300"),
    (
        "aluminium profile 2020 length 500 mm slot 6 mm",
        "profile: size=section, width=20, height=20, slot_width=6, length=500",
    ),
    ("3060 extrusion 800", "profile: size=section, width=30, height=60, length=800"),
    ("profile 45x45 600 mm slot 10", "profile: size=section, width=45, height=45, slot_width=10, length=600"),
    ("perfil 3030 1 m", "profile: size=section, width=30, height=30, length=1000"),
    ("Strebenprofil 40x80 Nut 8 L=500", "profile: size=section, width=40, height=80, slot_width=8, length=500"),
    ("1515 extrusion 300 mm", "profile: size=section, width=15, height=15, length=300"),
    ("2020 extrusion 400mm, 6mm slot", "profile: size=section, width=20, height=20, slot_width=6, length=400"),
    ("profilé alu 2040 600 mm", "profile: size=section, width=20, height=40, length=600"),
    ("v-slot 2060, cut 310", "profile: size=section, width=20, height=60, slot=V, length=310"),
    ("Aluprofil 2020 Nut 6 500mm", "profile: size=section, width=20, height=20, slot_width=6, length=500"),
    ("aluminium extrusion 30x30 1 m", "profile: size=section, width=30, height=30, length=1000"),
    ("perfil aluminio 2040 V slot 800mm", "profile: size=section, width=20, height=40, slot=V, length=800"),
    ("20x20 extrusion L=300 x4", "profile: size=section, width=20, height=20, length=300, quantity=4"),
    ("4x 2020 extrusion 400mm", "profile: size=section, width=20, height=20, length=400, quantity=4"),
)
OPEN = (
    ("aluminium extrusion 1 m", "? profile"),
    ("v-slot profile", "? profile"),
)
OTHER_THINGS = (
    "profile picture of a user",
    "2020",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_aluminium_profiles(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
