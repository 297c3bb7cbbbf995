"""Lines that order tubes, heat shrink and hose clamps, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("PU tube 4x2.5", "tube: size=outer diameter, outer_diameter=4, bore=2.5"),
    ("PU-Schlauch 10x6,5 schwarz 10 m", "tube: size=outer diameter, outer_diameter=10, bore=6.5, length=10000"),
    ("PTFE tube 4x2 2 m", "tube: size=outer diameter, outer_diameter=4, bore=2, length=2000"),
    ("tube PU 8x5 bleu 25 m", "tube: size=outer diameter, outer_diameter=8, bore=5"),
    ("tubo PU 6x4 azul", "tube: size=outer diameter, outer_diameter=6, bore=4"),
    ("tubo in poliuretano 8x6 10 m", "tube: size=outer diameter, outer_diameter=8, bore=6"),
    ("silicone tube 3x5 1m", "tube: size=bore, bore=3, outer_diameter=5, length=1000"),
    ("silicone hose ID 4 OD 7", "tube: size=outer diameter, bore=4, outer_diameter=7"),
    ("aluminium tube 10x8x500", "tube: size=outer diameter, outer_diameter=10, bore=8, length=500"),
    ("brass tube OD 4 ID 3", "tube: size=outer diameter, outer_diameter=4, bore=3"),
    ("Messingrohr 4x0,5", "tube: size=outer diameter, outer_diameter=4, bore=3"),
    ("pneumatic tube 6mm", "tube: size=outer diameter, outer_diameter=6"),
    ("Pneumatikschlauch 8 mm blau 5 m", "tube: size=outer diameter, outer_diameter=8, length=5000"),
    ("hose clamp 10-16", "hose clamp: size=clamping range, clamp_min=10, clamp_max=16"),
    ("Schlauchschelle 16-27 mm W2", "hose clamp: size=clamping range, clamp_min=16, clamp_max=27"),
    ("collier de serrage 8-12", "hose clamp: size=clamping range, clamp_min=8, clamp_max=12"),
    ("abrazadera 12-22 inox", "hose clamp: size=clamping range, clamp_min=12, clamp_max=22"),
    ("fascetta stringitubo 20-32", "hose clamp: size=clamping range, clamp_min=20, clamp_max=32"),
    ("jubilee clip 25 - 40 mm", "hose clamp: size=clamping range, clamp_min=25, clamp_max=40"),
    ("heat shrink tube 10mm 3:1", "heat shrink: size=bore, bore=10, shrunk_diameter=3.33"),
    ("Schrumpfschlauch 4,8 mm 2:1 1 m", "heat shrink: size=bore, bore=4.8, length=1000"),
    ("gaine thermo 6 mm", "heat shrink: size=bore, bore=6"),
    ("tubo termorretráctil 3 mm negro 2 m", "heat shrink: size=bore, bore=3, length=2000"),
    ("guaina termorestringente 12 mm", "heat shrink: size=bore, bore=12"),
    ("heatshrink 2.4/1.2 red", "heat shrink: size=bore, bore=2.4, shrunk_diameter=1.2"),
    ("PTFE Schlauch 2/4 mm", "tube: size=bore, bore=2, outer_diameter=4"),
    ("PU Schlauch 6/4", "tube: size=outer diameter, outer_diameter=6, bore=4"),
    ("Silikonschlauch 4x6 mm, 2 m", "tube: size=bore, bore=4, outer_diameter=6, length=2000"),
    ("nylon tube 6 mm x 4 mm 10 m black", "tube: size=outer diameter, outer_diameter=6, bore=4, length=10000"),
    ("copper tube 6 x 1", "tube: size=outer diameter, outer_diameter=6, thickness=1"),
    ("clear PVC hose 8mm", "tube: size=bore, bore=8"),
)
OPEN = (
    ("4 mm tube", "? tube"),
    ("Schlauch 6 mm", "? tube"),
    ("tubo 8 mm", "? tube"),
    ("hose clip 12mm", "? hose clamp"),
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_tubes(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
