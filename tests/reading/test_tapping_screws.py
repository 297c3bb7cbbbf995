"""Lines that order wood, tapping and thread forming screws, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("wood screw 4 x 40 countersunk", "wood screw: size=outer diameter, outer_diameter=4, length=40"),
    (
        "countersunk chipboard screws 4x30 (100)",
        "wood screw: size=outer diameter, outer_diameter=4, length=30, quantity=100",
    ),
    ("Spanplattenschraube 3,5x30 TX", "wood screw: size=outer diameter, outer_diameter=3.5, length=30"),
    ("vis agglo 4,5x40 TX20", "wood screw: size=outer diameter, outer_diameter=4.5, length=40"),
    ("Senkkopf Holzschraube 3x16 Messing", "wood screw: size=outer diameter, outer_diameter=3, length=16"),
    ("vis à bois 4x35", "wood screw: size=outer diameter, outer_diameter=4, length=35"),
    ("tornillo para madera 4x40", "wood screw: size=outer diameter, outer_diameter=4, length=40"),
    ("vite per legno 3,5 x 25", "wood screw: size=outer diameter, outer_diameter=3.5, length=25"),
    ("coach screw M8x60", "wood screw: size=outer diameter, outer_diameter=8, length=60"),
    ("lag screw 1/4 x 2", "wood screw: size=outer diameter, outer_diameter=6.35, length=50.8"),
    ("Schlüsselschraube DIN 571 10x80", "wood screw: size=outer diameter, outer_diameter=10, length=80"),
    ("M4 x 40 wood screw", "wood screw: size=outer diameter, outer_diameter=4, length=40"),
    ("#10 x 2 wood screw", "wood screw: size=outer diameter, outer_diameter=4.83, length=50.8"),
    (
        "ST2.9x9.5 self tapping countersunk",
        "self-tapping screw: size=outer diameter, thread=ST2.9, outer_diameter=2.9, length=9.5",
    ),
    (
        "Blechschraube 4,2 x 13 DIN 7981",
        "self-tapping screw: size=outer diameter, thread=ST4.2, outer_diameter=4.2, length=13",
    ),
    ("ISO 7049 ST4.2x16 C H", "self-tapping screw: size=outer diameter, thread=ST4.2, outer_diameter=4.22, length=16"),
    ("DIN 7982 3,9x25 A2", "self-tapping screw: size=outer diameter, thread=ST3.9, outer_diameter=3.9, length=25"),
    ("M2x6 self tapping for plastic", "self-tapping screw: size=outer diameter, outer_diameter=2, length=6"),
    (
        "tornillo rosca chapa 3,5x13",
        "self-tapping screw: size=outer diameter, thread=ST3.5, outer_diameter=3.5, length=13",
    ),
    (
        "tornillo autorroscante 3.9 x 19 avellanado",
        "self-tapping screw: size=outer diameter, thread=ST3.9, outer_diameter=3.9, length=19",
    ),
    ("vis à tôle 3.9x16", "self-tapping screw: size=outer diameter, thread=ST3.9, outer_diameter=3.9, length=16"),
    (
        "vite autofilettante 2,9x13",
        "self-tapping screw: size=outer diameter, thread=ST2.9, outer_diameter=2.9, length=13",
    ),
    ("vite per plastica 3x10", "self-tapping screw: size=outer diameter, outer_diameter=3, length=10"),
    ("Kunststoffschraube 3x12 PT", "self-tapping screw: size=outer diameter, outer_diameter=3, length=12"),
    ("PT screw M3x10", "self-tapping screw: size=outer diameter, outer_diameter=3, length=10"),
    (
        "KA2.5x8 self tapping screw",
        "self-tapping screw: size=outer diameter, outer_diameter=2.5, length=8, head=countersunk",
    ),
    (
        "self drilling screw 4.8x19",
        "self-tapping screw: size=outer diameter, thread=ST4.8, outer_diameter=4.8, length=19",
    ),
    (
        "#8 x 1/2 sheet metal screw",
        "self-tapping screw: size=outer diameter, thread=ST4.2, outer_diameter=4.22, length=12.7",
    ),
    ("thread forming screw M4x12 torx", "thread forming screw: size=external thread, thread=M4, length=12"),
    ("M4x10 DIN 7500 CE", "thread forming screw: size=external thread, thread=M4, length=10"),
    ("gewindeformende Schrauben M6x20", "thread forming screw: size=external thread, thread=M6, length=20"),
    ("thread rolling screw M5 x 12 pan head", "thread forming screw: size=external thread, thread=M5, length=12"),
    ("vis autoformeuse M4x10", "thread forming screw: size=external thread, thread=M4, length=10"),
    ("#8 wood screw", "wood screw: size=outer diameter, outer_diameter=4.17"),
)
OPEN = (("M3x10 self tapping screws", "? self-tapping screw, thread forming screw"),)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_tapping_screws(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
