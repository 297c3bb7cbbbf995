"""Lines that order keys, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("Parallel key 8x7x40 DIN 6885", "parallel key: size=width x height, width=8, height=7, length=40"),
    ("Passfeder DIN 6885 B 6x6x32", "parallel key: size=width x height, width=6, height=6, length=32"),
    ("Passfeder 10x8x50 C45", "parallel key: size=width x height, width=10, height=8, length=50"),
    ("Paßfeder A5x5x16", "parallel key: size=width x height, width=5, length=16"),
    ("clavette parallèle A 8x7x32", "parallel key: size=width x height, width=8, height=7, length=32"),
    ("clavette 5 x 5 x 25 inox", "parallel key: size=width x height, width=5, length=25"),
    ("chaveta DIN 6885 A 6x6x28", "parallel key: size=width x height, width=6, length=28"),
    ("chavetas paralelas 4x4x14", "parallel key: size=width x height, width=4, length=14"),
    ("linguetta UNI 6604 A 8x7x30", "parallel key: size=width x height, width=8, length=30"),
    ("chiavetta 3x3x10", "parallel key: size=width x height, width=3, length=10"),
    ("feather key 2x2x8", "parallel key: size=width x height, width=2, length=8"),
    ("key 6x6x20 mm keyway steel", "parallel key: size=width x height, width=6, length=20"),
    ("key for 12 mm shaft", "parallel key: size=shaft size, width=4, height=4, shaft_size=12"),
    ("Passfeder für Welle 20", "parallel key: size=shaft size, width=6, height=6"),
    ("woodruff key 4x6.5", "woodruff key: size=width x height, width=4, height=6.5, outer_diameter=16"),
    ("Scheibenfeder DIN 6888 3x6,5", "woodruff key: size=width x height, width=3, height=6.5, outer_diameter=16"),
    ("clavette woodruff 2x3,7", "woodruff key: size=width x height, width=2, height=3.7"),
    ("chaveta de disco 5x6,5 DIN 6888", "woodruff key: size=width x height, width=5, height=6.5"),
    ("linguetta a disco 4 x 7,5", "woodruff key: size=width x height, width=4, height=7.5"),
    ("woodruff key #606", "woodruff key: size=catalogue number, width=4.7625, outer_diameter=19.05"),
    ("PASSFEDER DIN6885-A-8X7X32", "parallel key: size=width x height, width=8, height=7, length=32"),
    ("Passfeder 8 x 7 x 40 mm, Form A, C45", "parallel key: size=width x height, width=8, height=7, length=40"),
    ("clavette 6x6 L=30", "parallel key: size=width x height, width=6, height=6, length=30"),
    ("key 5 x 5 x 30 form B", "parallel key: size=width x height, width=5, length=30"),
    ("parallel keys 3 x 3 x 10 stainless 5 off", "parallel key: size=width x height, width=3, length=10, quantity=5"),
    ("square key 4x4x20", "parallel key: size=width x height, width=4, length=20"),
)
OPEN = (
    ("key 6", "? parallel key"),
    ("Passfeder 8 x 30", "? parallel key"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_keys(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
