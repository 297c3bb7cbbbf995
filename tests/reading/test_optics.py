"""Lines that order lenses and the rings of their mounts, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("M12 lens 3.6mm", "lens: size=external thread, thread=M12x0.5, focal_length=3.6"),
    ("C-mount lens 12mm f/1.4", "lens: size=external thread, thread=1-32 UN, focal_length=12, aperture=1.4"),
    ("CS mount ring 5 mm", "lens mount: size=external thread, thread=1-32 UN, length=5"),
    ("M7 lens 3mm", "lens: size=external thread, thread=M7x0.35, focal_length=3"),
    ("S-mount lens 8 mm", "lens: size=external thread, thread=M12x0.5, focal_length=8"),
    ("M16 lens 25mm", "lens: size=external thread, thread=M16x0.5, focal_length=25"),
    ("CS mount extension ring 5mm", "lens mount: size=external thread, thread=1-32 UN, length=5"),
    ("M12 lens 6 mm f/2", "lens: size=external thread, thread=M12x0.5, focal_length=6, aperture=2"),
    ("M42x1 extension ring", "lens mount: size=external thread, thread=M42x1"),
    ("C-mount ring 5mm", "lens mount: size=external thread, thread=1-32 UN, length=5"),
    ("2.8mm M12 lens", "lens: size=external thread, thread=M12x0.5, focal_length=2.8"),
    ("lens 16mm CS mount f1.4", "lens: size=external thread, thread=1-32 UN, focal_length=16, aperture=1.4"),
    ("M12 lens holder", "lens mount: size=external thread, thread=M12x0.5"),
    ("C mount lens 25mm", "lens: size=external thread, thread=1-32 UN, focal_length=25"),
    ("M42x0.75 extension tube 20 mm", "lens mount: size=external thread, thread=M42x0.75, length=20"),
)
OPEN = (
    ("M42 to C-mount adapter", "? lens mount"),
    ("extension ring M42 9mm", "? lens mount"),
    ("camera lens 25 mm", "? lens"),
    ("extension ring 10 mm", "? lens mount"),
)
OTHER_THINGS = (
    "contact lens",
    "lens cleaning cloth",
    "hair extension ring",
)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_optics(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)


@pytest.mark.parametrize("line", OTHER_THINGS)
def test_words_of_other_trades_are_unread(line: str, is_read: Callable[[str, str], None]) -> None:
    """The same words in lines of other trades order none of these parts."""
    is_read(line, "unread")
