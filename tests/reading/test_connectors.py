"""Lines that order connectors and terminals, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("M12 connector 5 pin A coded male", "circular connector: size=coupling thread, thread=M12x1"),
    ("M8 3-pin connector cable 2m", "circular connector: size=coupling thread, thread=M8x1"),
    ("Sensorkabel M12 4-polig 5 m", "circular connector: size=coupling thread, thread=M12x1"),
    ("connecteur M12 5 broches", "circular connector: size=coupling thread, thread=M12x1"),
    ("conector M8 4 pines", "circular connector: size=coupling thread, thread=M8x1"),
    ("connettore M12 4 poli", "circular connector: size=coupling thread, thread=M12x1"),
    ("DC jack 5.5 x 2.1 mm", "dc connector: size=outer diameter, outer_diameter=5.5, bore=2.1"),
    ("DC power plug 5.5x2.5mm male", "dc connector: size=outer diameter, outer_diameter=5.5, bore=2.5"),
    ("Hohlstecker 5,5 x 2,1 mm", "dc connector: size=outer diameter, outer_diameter=5.5, bore=2.1"),
    ("barrel jack 3.5x1.35", "dc connector: size=outer diameter, outer_diameter=3.5, bore=1.35"),
    ("prise DC 5,5 x 2,1", "dc connector: size=outer diameter, outer_diameter=5.5, bore=2.1"),
    ("conector DC 5.5x2.1", "dc connector: size=outer diameter, outer_diameter=5.5, bore=2.1"),
    (
        "ring terminal M5 4-6mm2 yellow",
        "ring terminal: size=screw size, screw_size=M5, wire_area_min=4, wire_area_max=6",
    ),
    (
        "Ringkabelschuh M4 0,5-1,5 mm² rot",
        "ring terminal: size=screw size, screw_size=M4, wire_area_min=0.5, wire_area_max=1.5",
    ),
    ("Kabelschuh M8 10mm²", "ring terminal: size=screw size, screw_size=M8"),
    ("cosse ronde M6", "ring terminal: size=screw size, screw_size=M6"),
    ("RV1.25-4", "ring terminal: size=screw size, screw_size=M4"),
    ("RV5.5-6 ring terminals x50", "ring terminal: size=screw size, screw_size=M6, quantity=50"),
    ("terminal de anillo M5 2,5mm2", "ring terminal: size=screw size, screw_size=M5"),
    ("ring lug M8 16mm2", "ring terminal: size=screw size, screw_size=M8"),
    ("insulated ring terminals red M4 (50)", "ring terminal: size=screw size, screw_size=M4, quantity=50"),
    ("M8 3 pole sensor plug", "circular connector: size=coupling thread, thread=M8x1"),
    ("M12 A-coded 4 pin cable 5m", "circular connector: size=coupling thread, thread=M12x1"),
    ("power jack 5.5mm x 2.5mm", "dc connector: size=outer diameter, outer_diameter=5.5, bore=2.5"),
    ("DC 5.5/2.1 plug", "dc connector: size=outer diameter, outer_diameter=5.5, bore=2.1"),
)
OPEN = (("5.5 mm DC plug", "? dc connector"),)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_connectors(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
