"""Lines that order large, spring and toothed washers, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("large washer M6", "large washer: size=screw size, screw_size=M6, outer_diameter=18, bore=6.4, thickness=1.6"),
    ("penny washer M8 x 30", "large washer: size=screw size, screw_size=M8, outer_diameter=30, bore=8.4"),
    (
        "Karosseriescheibe M6 DIN 9021",
        "large washer: size=screw size, screw_size=M6, outer_diameter=18, bore=6.4, thickness=1.6",
    ),
    ("rondelle large M8", "large washer: size=screw size, screw_size=M8, outer_diameter=24, bore=8.4, thickness=2"),
    (
        "arandela ancha M5 DIN 9021",
        "large washer: size=screw size, screw_size=M5, outer_diameter=15, bore=5.3, thickness=1.2",
    ),
    (
        "rondella grembialina M6 UNI 6593",
        "large washer: size=screw size, screw_size=M6, outer_diameter=18, bore=6.4, thickness=1.6",
    ),
    ("washer DIN 9021 A2 6,4", "large washer: size=bore, screw_size=M6, outer_diameter=18, bore=6.4, thickness=1.6"),
    (
        "M6x18x1.6 fender washer",
        "large washer: size=screw size, screw_size=M6, outer_diameter=18, bore=6.4, thickness=1.6",
    ),
    ("fender washer 1/4", "large washer: size=screw size, screw_size=1/4"),
    ("#8 fender washer", "large washer: size=screw size, screw_size=#8"),
    (
        "spring washer M6 DIN 127",
        "spring washer: size=screw size, screw_size=M6, outer_diameter=11.8, bore=6.1, thickness=1.6",
    ),
    (
        "Federring DIN 127 B 8",
        "spring washer: size=screw size, screw_size=M8, outer_diameter=14.8, bore=8.1, thickness=2",
    ),
    (
        "rondelle grower M5",
        "spring washer: size=screw size, screw_size=M5, outer_diameter=9.2, bore=5.1, thickness=1.2",
    ),
    (
        "arandela grower M6",
        "spring washer: size=screw size, screw_size=M6, outer_diameter=11.8, bore=6.1, thickness=1.6",
    ),
    (
        "rosetta elastica M8",
        "spring washer: size=screw size, screw_size=M8, outer_diameter=14.8, bore=8.1, thickness=2",
    ),
    (
        "split lock washer M4",
        "spring washer: size=screw size, screw_size=M4, outer_diameter=7.6, bore=4.1, thickness=0.9",
    ),
    ("lock washer M5", "spring washer: size=screw size, screw_size=M5, outer_diameter=9.2, bore=5.1, thickness=1.2"),
    ("1/4 split lock washer", "spring washer: size=screw size, screw_size=1/4"),
    (
        "tooth lock washer M5 internal DIN 6797 J",
        "toothed lock washer: size=screw size, screw_size=M5, outer_diameter=10, bore=5.3, thickness=0.6",
    ),
    (
        "Zahnscheibe A 5,3 DIN 6797",
        "toothed lock washer: size=bore, screw_size=M5, outer_diameter=10, bore=5.3, thickness=0.6",
    ),
    (
        "Fächerscheibe DIN 6798 A M4",
        "toothed lock washer: size=screw size, screw_size=M4, outer_diameter=8, bore=4.3, thickness=0.5",
    ),
    (
        "star washer M3",
        "toothed lock washer: size=screw size, screw_size=M3, outer_diameter=6, bore=3.2, thickness=0.4",
    ),
    (
        "rondelle éventail M4",
        "toothed lock washer: size=screw size, screw_size=M4, outer_diameter=8, bore=4.3, thickness=0.5",
    ),
    (
        "rondella dentata M5 DIN 6797",
        "toothed lock washer: size=screw size, screw_size=M5, outer_diameter=10, bore=5.3, thickness=0.6",
    ),
    ("washer 1/4", "plain washer: size=screw size, screw_size=1/4"),
)
OPEN = ()
OTHER = (
    ("lock washer pliers", "unread"),
    ("sealing washer M6", "unread"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OTHER])
def test_lines_of_more_washers(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about with every meaning, lines of other trades stay unread."""
    is_read(line, expected)
