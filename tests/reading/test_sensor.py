"""Lines that order sensors, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("M12 inductive proximity sensor PNP NO", "sensor: size=external thread, thread=M12x1"),
    ("M18 Näherungsschalter NPN", "sensor: size=external thread, thread=M18x1"),
    ("capteur inductif M12", "sensor: size=external thread, thread=M12x1"),
    ("sensor inductivo M8 NPN", "sensor: size=external thread, thread=M8x1"),
    ("M30 inductive sensor", "sensor: size=external thread, thread=M30x1.5"),
    ("LJ8A3-2-Z/BX", "sensor: size=external thread, thread=M8x1"),
    ("M8 proximity switch PNP NC 2m", "sensor: size=external thread, thread=M8x1"),
    ("inductive sensor M12 x 1", "sensor: size=external thread, thread=M12x1"),
    ("LJ18A3-8-Z/BX NPN", "sensor: size=external thread, thread=M18x1"),
)
OPEN = ()


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_sensor(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
