"""Lines that order heaters and temperature sensors, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    (
        "heater cartridge 6x20 12V 40W",
        "heater cartridge: size=outer diameter, outer_diameter=6, length=20, voltage=12, power=40",
    ),
    (
        "Heizpatrone 8x60 230V 250W",
        "heater cartridge: size=outer diameter, outer_diameter=8, length=60, voltage=230, power=250",
    ),
    ("cartouche chauffante 6x30 24V 50W", "heater cartridge: size=outer diameter, outer_diameter=6, length=30"),
    ("cartucho calefactor 6,5x40 220V 150W", "heater cartridge: size=outer diameter, outer_diameter=6.5, power=150"),
    ("24V 60W heater cartridge 6mm x 20mm", "heater cartridge: size=outer diameter, outer_diameter=6, voltage=24"),
    ("heater 24V 40W", "heater cartridge: size=rating, voltage=24, power=40"),
    ("thermistor 100k B4092", "temperature sensor: size=rating, resistance=100000, beta_k=4092"),
    ("NTC 10k 3950", "temperature sensor: size=rating, resistance=10000, beta_k=3950"),
    ("NTC 100K 1% B25/50 3950", "temperature sensor: size=rating, resistance=100000, beta_k=3950"),
    ("NTC thermistor 3950 100k with 1m wire", "temperature sensor: size=rating, resistance=100000, beta_k=3950"),
    ("PT100 sensor M8 2 m", "temperature sensor: size=external thread, thread=M8, cable_length=2000"),
    ("PT100", "temperature sensor: size=rating, resistance=100"),
    ("PT1000 4x30", "temperature sensor: size=rating, resistance=1000, outer_diameter=4"),
    ("thermocouple type K M6 2m", "temperature sensor: size=external thread, thread=M6"),
    ("Thermoelement Typ K 3 mm", "temperature sensor: size=rating, outer_diameter=3"),
    ("sonde PT100 M6", "temperature sensor: size=external thread, thread=M6"),
    ("ceramic cartridge heater 24V 50W 6x20mm", "heater cartridge: size=outer diameter, outer_diameter=6, length=20"),
    ("hotend heater cartridge 12V40W", "heater cartridge: size=rating, voltage=12, power=40"),
    (
        "Heizpatrone Ø6,5 x 40 mm 230 V 160 W",
        "heater cartridge: size=outer diameter, outer_diameter=6.5, length=40, voltage=230",
    ),
    ("thermistor NTC 100K 3950", "temperature sensor: size=rating, resistance=100000, beta_k=3950"),
    ("NTC 10 kOhm B=3435", "temperature sensor: size=rating, resistance=10000, beta_k=3435"),
    ("PT100 3-wire 1m", "temperature sensor: size=rating, cable_length=1000"),
    ("thermocouple K-type M6 thread 1m", "temperature sensor: size=external thread, thread=M6"),
)
OPEN = (
    ("heater cartridge 30W 6x20", "? heater cartridge"),
    ("NTC 10k", "? temperature sensor"),
    ("thermistor 100k", "? temperature sensor"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_heaters(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
