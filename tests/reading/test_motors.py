"""Lines that order motors, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("NEMA 23 stepper 76mm", "motor: size=size class, size_class=NEMA23, length=76"),
    ("NEMA14", "motor: size=size class, size_class=NEMA14"),
    ("stepper motor NEMA17 1.7A", "motor: size=size class, size_class=NEMA17, current=1.7"),
    (
        "stepper motor NEMA17, body length 40 mm, shaft 5 mm, 1.5 A",
        "motor: size=size class, size_class=NEMA17, length=40, shaft_size=5, current=1.5",
    ),
    ("NEMA11 stepper 33mm", "motor: size=size class, size_class=NEMA11, length=33"),
    ("NEMA 34 stepper motor 8.5 Nm", "motor: size=size class, size_class=NEMA34"),
    ("stepper motor NEMA17 59 Ncm 2A", "motor: size=size class, size_class=NEMA17, current=2"),
    ("DC gear motor 12V 30rpm", "motor: size=rating, voltage=12"),
    ("NEMA17 48mm stepper", "motor: size=size class, size_class=NEMA17, length=48"),
    ("NEMA17", "motor: size=size class, size_class=NEMA17"),
    ("NEMA 23 stepper motor 76mm 2.8A 1.9Nm", "motor: size=size class, size_class=NEMA23, length=76, current=2.8"),
    ("42x42x40 NEMA17 stepper motor 1.5A", "motor: size=size class, size_class=NEMA17, length=40, current=1.5"),
    ("17HS4401", "motor: size=size class, size_class=NEMA17"),
    (
        "nema 17 stepper motor 5mm shaft 1.7A 40mm",
        "motor: size=size class, size_class=NEMA17, length=40, shaft_size=5, current=1.7",
    ),
    ("Schrittmotor NEMA17 Länge 48", "motor: size=size class, size_class=NEMA17, length=48"),
    ("DC motor 12V 100rpm", "motor: size=rating, voltage=12"),
    ("stepper motor 28BYJ-48 5V", "motor: size=rating, voltage=5"),
    ("moteur pas à pas nema 17 1.5A 40 mm", "motor: size=size class, size_class=NEMA17, length=40, current=1.5"),
)
OPEN = (
    ("NEMA99", "? motor"),
    ("stepper motor", "? motor"),
    ("NEMA 18 motor", "? motor"),
)
OTHER_THINGS = (
    "motor oil 5W-30",
    "NEMA 17 bracket",
    "motor mount NEMA17",
    "stepper driver A4988",
    "rubber stopper 20",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_motors(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
