"""Lines that order clevis pins and ball lock pins, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("clevis pin ISO 2341 - B - 8 x 40 x 3.2 - St", "clevis pin: size=outer diameter, outer_diameter=8, length=40"),
    ("clevis pin with head 10x50", "clevis pin: size=outer diameter, outer_diameter=10, length=50"),
    ("Bolzen DIN 1444 B 12x55", "clevis pin: size=outer diameter, outer_diameter=12, length=55"),
    ("Bolzen ohne Kopf 8x30", "clevis pin: size=outer diameter, outer_diameter=8, length=30"),
    ("axe sans tête ISO 2340 8x40", "clevis pin: size=outer diameter, outer_diameter=8, length=40"),
    ("bulón ISO 2341 10x40", "clevis pin: size=outer diameter, outer_diameter=10, length=40"),
    ("perno con testa ISO 2341 6 x 25", "clevis pin: size=outer diameter, outer_diameter=6, length=25"),
    ("ball lock pin 6mm grip 25mm", "quick release pin: size=outer diameter, outer_diameter=6, length=25"),
    ("Kugelsperrbolzen 8x40", "quick release pin: size=outer diameter, outer_diameter=8, length=40"),
    ("quick release pin 10 x 50 stainless", "quick release pin: size=outer diameter, outer_diameter=10, length=50"),
    ("broche à billes 6 x 30", "quick release pin: size=outer diameter, outer_diameter=6, length=30"),
    ("detent pin 5/16 x 2", "quick release pin: size=outer diameter, outer_diameter=7.9375, length=50.8"),
    ("CLEVIS PIN 10 X 45 ISO2341 B", "clevis pin: size=outer diameter, outer_diameter=10, length=45"),
    ("Bolzen m. Kopf ISO 2341-B-8x35-St", "clevis pin: size=outer diameter, outer_diameter=8, length=35"),
    ("axe d'articulation 8 x 40", "clevis pin: size=outer diameter, outer_diameter=8, length=40"),
    ("ball lock pin Ø8 x 50", "quick release pin: size=outer diameter, outer_diameter=8, length=50"),
)
OPEN = (
    ("Bolzen 10x60", "? clevis pin, hex head screw (threaded to the head)"),
    ("8mm Bolzen 20", "? clevis pin, hex head screw (threaded to the head)"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_clevis_pin(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
