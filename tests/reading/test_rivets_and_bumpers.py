"""Lines that order blind rivets and adhesive bumpers, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("blind rivet 4x10", "blind rivet: size=outer diameter, outer_diameter=4, length=10, hole_diameter=4.1"),
    (
        "pop rivet 3.2 x 8 aluminium",
        "blind rivet: size=outer diameter, outer_diameter=3.2, length=8, hole_diameter=3.3",
    ),
    ("Blindniete 4,8x12", "blind rivet: size=outer diameter, outer_diameter=4.8, length=12, hole_diameter=4.9"),
    ("rivet pop 4x10 alu", "blind rivet: size=outer diameter, outer_diameter=4, length=10, hole_diameter=4.1"),
    (
        "rivetto 4,8 x 12 a strappo",
        "blind rivet: size=outer diameter, outer_diameter=4.8, length=12, hole_diameter=4.9",
    ),
    ("remache ciego 4 x 12 inox", "blind rivet: size=outer diameter, outer_diameter=4, length=12, hole_diameter=4.1"),
    ("ISO 15977 3 x 8", "blind rivet: size=outer diameter, outer_diameter=3, length=8, hole_diameter=3.1"),
    (
        "countersunk blind rivet 3.2x10 grip 4-6",
        "blind rivet: size=outer diameter, outer_diameter=3.2, length=10, hole_diameter=3.3",
    ),
    ("adhesive bumper 12.7 x 3.5", "bumper: size=outer diameter, outer_diameter=12.7, height=3.5"),
    ("rubber feet adhesive 10x3", "bumper: size=outer diameter, outer_diameter=10, height=3"),
    ("Klebefuß 8 x 2,5", "bumper: size=outer diameter, outer_diameter=8, height=2.5"),
    ("pied adhésif Ø12 x 4", "bumper: size=outer diameter, outer_diameter=12, height=4"),
    ("tope de goma adhesivo 10 x 5", "bumper: size=outer diameter, outer_diameter=10, height=5"),
)
OPEN = (("rivet 4x8", "? blind rivet"),)
OTHER = (
    ("rivet gun", "unread"),
    ("jeans rivets 9mm", "unread"),
    ("rubber bumper car front", "unread"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN, *OTHER])
def test_lines_of_rivets_and_bumpers(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
