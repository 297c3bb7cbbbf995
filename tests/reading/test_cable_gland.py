"""Lines that order cable glands, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("M20x1.5 cable gland", "cable gland: size=external thread, thread=M20x1.5"),
    ("M25 gland", "cable gland: size=external thread, thread=M25x1.5"),
    ("cable gland M12 black nylon 10 pcs", "cable gland: size=external thread, thread=M12x1.5, quantity=10"),
    ("Kabelverschraubung M32 grau", "cable gland: size=external thread, thread=M32x1.5"),
    ("Kabelverschraubung PG 13,5", "cable gland: size=trade size, thread=PG13.5"),
    ("PG11 cable gland", "cable gland: size=trade size, thread=PG11"),
    ("presse-étoupe M20 laiton", "cable gland: size=external thread, thread=M20x1.5"),
    ("presse étoupe PG16", "cable gland: size=trade size, thread=PG16"),
    ("prensaestopas M16", "cable gland: size=external thread, thread=M16x1.5"),
    ("pressacavo PG21", "cable gland: size=trade size, thread=PG21"),
    ("Kabelverschraubungen M25x1,5 (10 Stk)", "cable gland: size=external thread, thread=M25x1.5, quantity=10"),
    ("Cable gland PG-9", "cable gland: size=trade size, thread=PG9"),
    ("NPT 1/2 cable gland", "cable gland: size=external thread, thread=1/2-14 NPT"),
)
OPEN = (("gland for 8 mm cable", "? cable gland"),)


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_cable_gland(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
