"""Lines that order gears, racks and chains, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("gear module 1 20 teeth bore 6", "gear: size=module, module=1, teeth=20, bore=6, pitch_diameter=20"),
    ("Zahnrad M1 Z25 Bohrung 6", "gear: size=module, module=1, teeth=25, bore=6, pitch_diameter=25"),
    ("rack module 1 15x15x1000", "rack: size=module, module=1, width=15, height=15, length=1000"),
    ("08B-1 roller chain 5 m", "chain: size=catalogue number, series=08B-1, pitch=12.7, length=5000"),
    ("chain #35 2m", "chain: size=catalogue number, series=06C, pitch=9.525, length=2000"),
    (
        "gear 20 teeth module 1 bore 8mm width 10mm",
        "gear: size=module, module=1, teeth=20, bore=8, width=10, pitch_diameter=20",
    ),
    (
        "rack module 1 length 500mm width 15mm height 15mm",
        "rack: size=module, module=1, width=15, height=15, length=500",
    ),
    ("gear mod 1.5 z=18 bore 10", "gear: size=module, module=1.5, teeth=18, bore=10, pitch_diameter=27"),
    ("pinion 0.5 module 12T 2mm bore", "gear: size=module, module=0.5, teeth=12, bore=2, pitch_diameter=6"),
    ("helical gear module 2 30 teeth", "gear: size=module, module=2, teeth=30, pitch_diameter=60"),
    ("rack M1.5 17x17x500", "rack: size=module, module=1.5, width=17, height=17, length=500"),
    ("roller chain 06B-1, 2 m", "chain: size=catalogue number, series=06B-1, pitch=9.525, length=2000"),
    ("ANSI #40 chain 3m", "chain: size=catalogue number, series=08A, pitch=12.7, length=3000"),
    ("M1 gear rack 15x15x500", "rack: size=module, module=1, width=15, height=15, length=500"),
    ("spur gear mod 0.5 20T bore 5", "gear: size=module, module=0.5, teeth=20, bore=5, pitch_diameter=10"),
    ("Zahnrad Modul 1 Z30 Bohrung 8", "gear: size=module, module=1, teeth=30, bore=8, pitch_diameter=30"),
    ("#25 roller chain 1m", "chain: size=catalogue number, series=04C, pitch=6.35, length=1000"),
    ("Rollenkette 05B-1 1 m", "chain: size=catalogue number, series=05B-1, pitch=8, length=1000"),
    ("gear M1 30T bore 8 M4 set screw", "gear: size=module, module=1, teeth=30, bore=8, pitch_diameter=30"),
    ("engranaje módulo 1 20 dientes agujero 5", "gear: size=module, module=1, teeth=20, bore=5, pitch_diameter=20"),
    ("pignon module 0,8 15 dents alésage 4", "gear: size=module, module=0.8, teeth=15, bore=4, pitch_diameter=12"),
    ("Zahnstange Modul 1 15x15x1000", "rack: size=module, module=1, width=15, height=15, length=1000"),
    ("chain 06B-1 5m", "chain: size=catalogue number, series=06B-1, pitch=9.525, length=5000"),
    ("25H chain 2m", "chain: size=catalogue number, series=04C, pitch=6.35, length=2000"),
    ("spur gear M0.5 60T", "gear: size=module, module=0.5, teeth=60, pitch_diameter=30"),
)
OPEN = (
    ("gear 20T bore 5", "? gear"),
    ("roller chain 2 m", "? chain"),
    ("gear rack 500 mm", "? rack"),
    ("chain 07B", "? chain"),
    ("gear module 1", "? gear"),
)
OTHER_THINGS = (
    "rack 19 inch 2U",
    "chain saw 16 inch",
    "drag chain 10x20 1m",
    "gear oil 75W90",
    "key chain",
    "an opinion",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_gears(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
