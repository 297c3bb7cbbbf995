"""Lines that order storage modules, and what each of them means."""

from collections.abc import Callable

import pytest

CLEAR = (
    ("microSD 64GB", "storage module: size=rating, capacity=64"),
    ("SD card 32GB class 10", "storage module: size=rating, capacity=32"),
    ("microSD 32 GB A1 U1", "storage module: size=rating, capacity=32"),
    ("Speicherkarte microSD 256GB", "storage module: size=rating, capacity=256"),
    ("tarjeta microSD 64GB", "storage module: size=rating, capacity=64"),
    ("SSD 1TB M.2 2280", "storage module: size=size class, capacity=1000, width=22, length=80"),
    ("NVMe SSD M.2 2242 512GB", "storage module: size=size class, capacity=512, width=22, length=42"),
    ("M.2 SATA SSD 2280 250GB", "storage module: size=size class, capacity=250, length=80"),
    ('SSD 2.5" 240GB SATA', "storage module: size=rating, capacity=240"),
    ("microSD 128G", "storage module: size=rating, capacity=128"),
    ("micro SD card 16GB", "storage module: size=rating, capacity=16"),
    ("1TB NVMe M.2 2280", "storage module: size=size class, capacity=1000, length=80"),
    ("SSD 512GB M.2 2230", "storage module: size=size class, capacity=512, length=30"),
)
OPEN = ()


@pytest.mark.parametrize(("line", "expected"), [*CLEAR, *OPEN])
def test_lines_of_storage_module(line: str, expected: str, is_read: Callable[[str, str], None]) -> None:
    """Plain lines are read, open ones are asked about, with every meaning that they have."""
    is_read(line, expected)
