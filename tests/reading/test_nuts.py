"""Lines that order hexagon and prevailing torque nuts, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    (
        "M6 hexagon nut DIN 934 8 zinc (100)",
        "hex nut: size=internal thread, internal_thread=M6, across_flats=10, height=5, property_class=8, quantity=100",
    ),
    (
        "nut M10 DIN 934 8",
        "hex nut: size=internal thread, internal_thread=M10, across_flats=17, height=8, property_class=8",
    ),
    (
        "écrou M6 classe 8",
        "hex nut: size=internal thread, internal_thread=M6, across_flats=10, height=5.2, property_class=8",
    ),
    ("M4 hex nut 7mm AF", "hex nut: size=internal thread, internal_thread=M4, across_flats=7, height=3.2"),
    ("nut M10 16mm across flats", "hex nut: size=internal thread, internal_thread=M10, across_flats=16, height=8.4"),
    ("tuerca M8 inox", "hex nut: size=internal thread, internal_thread=M8, across_flats=13, height=6.8"),
    ("hex nut 1/4-20", "hex nut: size=internal thread, internal_thread=1/4-20 UNC"),
    (
        "self-locking nut M4 DIN 985",
        "lock nut (prevailing torque): size=internal thread, internal_thread=M4, across_flats=7, height=5",
    ),
    ("nyloc M8 A2", "lock nut (prevailing torque): size=internal thread, internal_thread=M8, across_flats=13"),
    ("Stoppmutter M5", "lock nut (prevailing torque): size=internal thread, internal_thread=M5, across_flats=8"),
    (
        "tuerca autoblocante M6",
        "lock nut (prevailing torque): size=internal thread, internal_thread=M6, across_flats=10",
    ),
    (
        "dado autobloccante M5 DIN 982",
        "lock nut (prevailing torque): size=internal thread, internal_thread=M5, across_flats=8, height=6.3",
    ),
    ("flanged lock nut M5", "lock nut (prevailing torque): size=internal thread, internal_thread=M5, across_flats=8"),
    ("M8 LH nut", "hex nut: size=internal thread, internal_thread=M8, across_flats=13, height=6.8"),
)
OPEN = (
    ("8 mm nut", "? hex nut"),
    ("13 mm nut", "? hex nut"),
    ("1/4 nut", "? hex nut"),
)
OTHER = (
    ("nut milk bag", "unread"),
    ("castle nut M8", "unread"),
    ("cage nut M6", "unread"),
    ("wheel nut M12x1.5", "unread"),
    ("nut driver 7 mm", "unread"),
    ("nut cracker", "unread"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN, *OTHER])
def test_lines_of_nuts(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
