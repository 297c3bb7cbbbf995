"""Lines that order plungers, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("spring plunger M5", "plunger: size=external thread, thread=M5"),
    ("ball plunger M10x1", "plunger: size=external thread, thread=M10x1"),
    ("spring plunger M6x14", "plunger: size=external thread, thread=M6, length=14"),
    ("federndes Druckstück M8", "plunger: size=external thread, thread=M8"),
)
OPEN = ()


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_plunger(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
