"""Lines that order fans, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("fan 4010 24V", "fan: size=body size, width=40, thickness=10, voltage=24"),
    ("4020 fan 12V 0.1A", "fan: size=body size, width=40, thickness=20"),
    ("Lüfter 40x40x10 24V", "fan: size=body size, width=40, thickness=10"),
    ("blower fan 5015 24V", "fan: size=body size, width=50, thickness=15"),
    ("Radiallüfter 5015 12V", "fan: size=body size, width=50, thickness=15"),
    ("ventilateur 8025 12V", "fan: size=body size, width=80, thickness=25"),
    ("ventilador 40x40x20", "fan: size=body size, width=40, thickness=20"),
    ("120mm fan 12V", "fan: size=body size, width=120"),
    ("40x40x10 fan 24V", "fan: size=body size, width=40, thickness=10"),
    ("4010 blower 5V", "fan: size=body size, width=40, thickness=10"),
    ("fan 80mm 12V 0.2A", "fan: size=body size, width=80"),
)
OPEN = ()


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_fan(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
