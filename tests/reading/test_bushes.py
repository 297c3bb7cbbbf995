"""Lines that order plain and flanged bushes, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("bronze bush 10x14x20", "plain bush: size=bore, bore=10, outer_diameter=14, length=20"),
    ("Sinterbuchse 6/10/10", "plain bush: size=bore, bore=6, outer_diameter=10, length=10"),
    ("bague bronze 12x16x15", "plain bush: size=bore, bore=12, outer_diameter=16, length=15"),
    ("casquillo 8x10x8", "plain bush: size=bore, bore=8, outer_diameter=10, length=8"),
    ("boccola bronzo 10x12x10", "plain bush: size=bore, bore=10, outer_diameter=12, length=10"),
    ("bushing 5 x 8 x 6, qty 8", "plain bush: size=bore, bore=5, outer_diameter=8, length=6, quantity=8"),
    ("GSM-0810-10", "plain bush: size=bore, bore=8, outer_diameter=10, length=10"),
    ("SF-1 1215", "plain bush: size=bore, bore=12, outer_diameter=14, length=15"),
    ("PCM 081010 E", "plain bush: size=bore, bore=8, outer_diameter=10, length=10"),
    ("DU 1010", "plain bush: size=bore, bore=10, outer_diameter=12, length=10"),
    ("drill bush 6 bore 10 OD 12 long", "plain bush: size=bore, bore=6, outer_diameter=10, length=12"),
    ("Gleitlager ID 8 OD 10 L 12", "plain bush: size=bore, bore=8, outer_diameter=10, length=12"),
    ("12x8x10 sleeve bearing", "plain bush: size=bore, bore=8, outer_diameter=12, length=10"),
    (
        "flange bush 6x10x8 flange 14",
        "flanged bush: size=bore, bore=6, outer_diameter=10, length=8, flange_diameter=14",
    ),
    ("Bundbuchse 8x12x8", "flanged bush: size=bore, bore=8, outer_diameter=12, length=8"),
    ("GFM-0608-06", "flanged bush: size=bore, bore=6, outer_diameter=8, length=6, flange_diameter=12"),
    ("bush 8mm bore OD 12mm length 10mm", "plain bush: size=bore, bore=8, outer_diameter=12, length=10"),
    ("bush 8mm bore 12mm OD 10mm length", "plain bush: size=bore, bore=8, outer_diameter=12, length=10"),
    ("Buchse innen 8 außen 12 Länge 10", "plain bush: size=bore, bore=8, outer_diameter=12, length=10"),
    ("Gleitlager 20x23x20", "plain bush: size=bore, bore=20, outer_diameter=23, length=20"),
    ("bague 8x12x12 bronze fritté", "plain bush: size=bore, bore=8, outer_diameter=12, length=12"),
    ("boccola 12/14x15", "plain bush: size=bore, bore=12, outer_diameter=14, length=15"),
    ("buje 10x16x12", "plain bush: size=bore, bore=10, outer_diameter=16, length=12"),
    ("bush 1/2 x 5/8 x 3/4 bronze", "plain bush: size=bore, bore=12.7, outer_diameter=15.875, length=19.05"),
    ("COB 1010", "plain bush: size=bore, bore=10, outer_diameter=12, length=10"),
    (
        "flanged bushing 8 ID 10 OD 10 long flange 15",
        "flanged bush: size=bore, bore=8, outer_diameter=10, length=10, flange_diameter=15",
    ),
    ("casquillo con valona 8x12x10", "flanged bush: size=bore, bore=8, outer_diameter=12, length=10"),
)
OPEN = (
    ("Gleitlager 10 mm", "? plain bush"),
    ("bronze bush", "? plain bush"),
    ("bush 8x12", "? plain bush"),
    ("SF-1 0810 8x12x10", "? plain bush"),
    ("flanged bush 10 mm", "? flanged bush"),
    ("PCM 101410", "? plain bush"),
)
OTHER_THINGS = (
    "bush hammer 3kg",
    "rose bush 2 m",
    "brushes 5 pcs",
    "DU 5",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_bushes(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
