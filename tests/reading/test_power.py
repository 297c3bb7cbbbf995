"""Lines that order power supplies and batteries, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("PSU 12V 10A 120W", "power supply: size=rating, voltage=12, current=10, power=120"),
    ("power supply 24V 5A", "power supply: size=rating, voltage=24, current=5"),
    ("Schaltnetzteil 24V 6,5A 156W", "power supply: size=rating, voltage=24, current=6.5, power=156"),
    ("Netzteil 5V 4A Hohlstecker 5,5x2,1", "power supply: size=rating, voltage=5, current=4, outer_diameter=5.5"),
    ("alimentation 12V 3A", "power supply: size=rating, voltage=12, current=3"),
    ("fuente de alimentación 24V 10A 240W", "power supply: size=rating, voltage=24, power=240"),
    ("alimentatore 12V 2A", "power supply: size=rating, voltage=12, current=2"),
    ("24V 400W power supply", "power supply: size=rating, voltage=24, power=400"),
    ("24V PSU", "power supply: size=rating, voltage=24"),
    ("18650 3.7V 2500mAh", "battery: size=body size, series=18650, charge=2500"),
    ("18650 Akku 3,7V 3400mAh", "battery: size=body size, series=18650"),
    ("21700 cell 5000mAh", "battery: size=body size, series=21700, charge=5000"),
    ("CR2032 battery 3V", "battery: size=body size, series=CR2032, voltage=3"),
    ("AAA battery 1.5V", "battery: size=body size, voltage=1.5"),
    ("LiPo 2S 7.4V 1000mAh", "battery: size=rating, voltage=7.4, charge=1000"),
    ("12V 5A power supply", "power supply: size=rating, voltage=12, current=5, power=60"),
    ("DC power supply 24V/10A 240W", "power supply: size=rating, voltage=24, current=10, power=240"),
    ("24VDC 5A DIN rail power supply", "power supply: size=rating, voltage=24, current=5"),
    ("AC adapter 9V 2A 5.5x2.1mm", "power supply: size=rating, voltage=9, current=2, bore=2.1"),
    ("power supply 5 V 3 A", "power supply: size=rating, voltage=5, current=3"),
    ("Hutschienennetzteil 24 V 2,5 A 60 W", "power supply: size=rating, voltage=24, current=2.5, power=60"),
    ("18650 Li-ion 3.7 V 3500 mAh", "battery: size=body size, charge=3500"),
    ("CR2032", "battery: size=body size, series=CR2032"),
)
OPEN = (
    ("power supply 12V 20A 200W", "? power supply"),
    ("power supply 48V 10A 600W", "? power supply"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_power(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
