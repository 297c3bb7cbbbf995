"""Lines that order fuses, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("fuse 5x20 F500mA 250V", "fuse: size=body size, outer_diameter=5, length=20, current=0.5, voltage=250"),
    ("Feinsicherung 5x20 T1A 250V", "fuse: size=body size, outer_diameter=5, current=1"),
    ("Glassicherung 6,3x32 10A flink", "fuse: size=body size, outer_diameter=6.3, length=32, current=10"),
    ("fusible 5x20 2A rapide", "fuse: size=body size, outer_diameter=5, length=20, current=2"),
    ("fusible 5x20 T3,15A 250V", "fuse: size=body size, current=3.15"),
    ("fusibile 5x20 1A ritardato 250V", "fuse: size=body size, outer_diameter=5, current=1"),
    ("blade fuse 20A", "fuse: size=rating, current=20"),
    ("Flachsicherung 10A", "fuse: size=rating, current=10"),
    ("mini blade fuse 7.5A", "fuse: size=rating, current=7.5"),
    ("fuse T1.6A 250V 5x20mm", "fuse: size=body size, current=1.6, outer_diameter=5"),
    ("5x20mm glass fuse F3A 250V", "fuse: size=body size, current=3"),
    ("ceramic fuse 6.3x32 T10A 500V", "fuse: size=body size, current=10, outer_diameter=6.3"),
    ("fuse 3A slow blow 5x20", "fuse: size=body size, current=3"),
    ("ATO blade fuse 5A", "fuse: size=rating, current=5"),
)
OPEN = (
    ("fuse 5x20 5A", "? fuse"),
    ("Feinsicherung 2A 5x20", "? fuse"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_fuse(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
