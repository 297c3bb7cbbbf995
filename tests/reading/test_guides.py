"""Lines that order guide rails, carriages and supported shafts, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("MGN12 300mm", "guide rail: size=size class, series=MGN12, size_class=12, length=300, hole_pitch=25"),
    ("MGN9 linear rail L=250", "guide rail: size=size class, series=MGN9, size_class=9, length=250, hole_pitch=20"),
    ("HGR20 1000mm", "guide rail: size=size class, series=HGR20, size_class=20, length=1000, hole_pitch=60"),
    (
        "Linearschiene MGN15 400 mm",
        "guide rail: size=size class, series=MGN15, size_class=15, length=400, hole_pitch=40",
    ),
    (
        "rail linéaire MGN12 400 mm",
        "guide rail: size=size class, series=MGN12, size_class=12, length=400, hole_pitch=25",
    ),
    (
        "guida lineare HGR15 L 500",
        "guide rail: size=size class, series=HGR15, size_class=15, length=500, hole_pitch=60",
    ),
    ("MGN7 150mm rail", "guide rail: size=size class, series=MGN7, size_class=7, length=150, hole_pitch=15"),
    ("MGN12C", "guide carriage: size=size class, series=MGN12C, size_class=12, internal_thread=M3"),
    ("HGW20CC", "guide carriage: size=size class, series=HGW20CC, size_class=20, internal_thread=M6"),
    ("carriage MGN15H", "guide carriage: size=size class, series=MGN15H, size_class=15, internal_thread=M3"),
    ("chariot MGN12H", "guide carriage: size=size class, series=MGN12H, size_class=12, internal_thread=M3"),
    ("EGH15CA block", "guide carriage: size=size class, series=EGH15CA, size_class=15, internal_thread=M4"),
    ("SBR20 600mm", "supported shaft: size=shaft size, shaft_size=20, length=600"),
    ("SBR16 rail 500", "supported shaft: size=shaft size, shaft_size=16, length=500"),
    (
        "linear rail MGN12 length 400mm",
        "guide rail: size=size class, series=MGN12, size_class=12, length=400, hole_pitch=25",
    ),
    (
        "MGN12 length: 350 mm linear guide",
        "guide rail: size=size class, series=MGN12, size_class=12, length=350, hole_pitch=25",
    ),
    ("MGN15C carriage", "guide carriage: size=size class, series=MGN15C, size_class=15, internal_thread=M3"),
    ("MGW12H", "guide carriage: size=size class, series=MGW12H, size_class=12, internal_thread=M3"),
    ("HGH25CA", "guide carriage: size=size class, series=HGH25CA, size_class=25, internal_thread=M6"),
    ("MGN12H rail 350mm", "guide rail: size=size class, series=MGN12, size_class=12, length=350, hole_pitch=25"),
    ("HGW25CC", "guide carriage: size=size class, series=HGW25CC, size_class=25, internal_thread=M8"),
    ("guía lineal MGN9 300 mm", "guide rail: size=size class, series=MGN9, size_class=9, length=300, hole_pitch=20"),
    ("Profilschienenführung Baugröße 15, 500 mm", "guide rail: size=size class, size_class=15, length=500"),
    ("SBR25-1000", "supported shaft: size=shaft size, shaft_size=25, length=1000"),
    ("supported rail SBR16 L=800", "supported shaft: size=shaft size, shaft_size=16, length=800"),
)
OPEN = (
    ("linear rail 15mm 500", "? guide rail, shaft, supported shaft"),
    ("linear rail", "? guide rail"),
    ("MGN12 carriage", "? guide carriage"),
    ("guide carriage", "? guide carriage"),
    ("Linearschiene 16 mm 800", "? shaft, supported shaft"),
)
OTHER_THINGS = (
    "DIN rail 35 mm",
    "curtain rail 2 m",
    "MGN8",
    "HGR17 600",
    "train ticket rail pass",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_guides(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
