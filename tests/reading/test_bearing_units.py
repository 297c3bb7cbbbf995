"""Lines that order bearing blocks and supports of shafts and screws, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("SCS12UU", "linear bearing block: size=shaft size, shaft_size=12, internal_thread=M5"),
    ("SC8UU linear bearing block", "linear bearing block: size=shaft size, shaft_size=8, internal_thread=M4"),
    ("SBR16UU open linear block", "linear bearing block: size=shaft size, shaft_size=16, internal_thread=M5"),
    ("KP001 pillow block bearing", "bearing block: size=shaft size, series=KP001, shaft_size=12"),
    ("UCP204", "bearing block: size=shaft size, series=UCP204, shaft_size=20"),
    ("KFL08 flange", "bearing block: size=shaft size, series=KFL08, shaft_size=8"),
    ("Stehlager KP08", "bearing block: size=shaft size, series=KP08, shaft_size=8"),
    ("SK8", "shaft support: size=shaft size, series=SK8, shaft_size=8"),
    ("SHF12 flange support", "shaft support: size=shaft size, series=SHF12, shaft_size=12"),
    ("SK12 shaft support x2", "shaft support: size=shaft size, series=SK12, shaft_size=12, quantity=2"),
    ("BK12", "screw support: size=catalogue number, series=BK12, bore=12"),
    ("FK12", "screw support: size=catalogue number, series=FK12, bore=12"),
    ("EF8", "screw support: size=catalogue number, series=EF8, bore=6"),
    ("KP000", "bearing block: size=shaft size, series=KP000, shaft_size=10"),
    ("KFL002 flange bearing", "bearing block: size=shaft size, series=KFL002, shaft_size=15"),
    ("UCF205", "bearing block: size=shaft size, series=UCF205, shaft_size=25"),
    ("SC10UU", "linear bearing block: size=shaft size, shaft_size=10, internal_thread=M5"),
    ("SK16 x4", "shaft support: size=shaft size, series=SK16, shaft_size=16, quantity=4"),
    ("SHF8", "shaft support: size=shaft size, series=SHF8, shaft_size=8"),
    ("FF12", "screw support: size=catalogue number, series=FF12, bore=10"),
    ("BK15", "screw support: size=catalogue number, series=BK15, bore=15"),
    ("EK12", "screw support: size=catalogue number, series=EK12, bore=12"),
    ("pillow block 12 mm", "bearing block: size=shaft size, shaft_size=12"),
    ("shaft support 8mm", "shaft support: size=shaft size, shaft_size=8"),
)
OPEN = (
    ("linear bearing block", "? linear bearing block"),
    ("pillow block", "? bearing block"),
    ("LM8UU bearing block", "? linear ball bearing"),
    ("BK12, BF12", "? screw support"),
)
OTHER_THINGS = (
    "EF 50 mm",
    "BF245 transistor",
    "FK",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_bearing_units(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
