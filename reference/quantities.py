"""The plain typed values that tables, readings and checks pass to each other: limits, threads, ratings.

Lengths are exact decimals in millimetres. Named tuples, because they are made and looked up for every line.
What does not belong here: parsing text with units (``reference.units``).
"""

from collections.abc import Mapping
from decimal import Decimal
from typing import NamedTuple


class Limits(NamedTuple):
    """A dimension in millimetres: its nominal size and, where known, its limits of size and tolerance class.

    >>> Limits(Decimal(8), Decimal("8.006"), Decimal("8.015"), "m6").width
    Decimal('0.009')
    """

    nominal: Decimal
    lower: Decimal | None = None
    upper: Decimal | None = None
    tolerance_class: str | None = None

    @property
    def width(self) -> Decimal:
        """The tolerance, upper minus lower [mm]; 0 where only the nominal size is known."""
        return self.high - self.low

    @property
    def low(self) -> Decimal:
        """The lower limit, or the nominal size where no limits are known [mm]."""
        return self.nominal if self.lower is None else self.lower

    @property
    def high(self) -> Decimal:
        """The upper limit, or the nominal size where no limits are known [mm]."""
        return self.nominal if self.upper is None else self.upper


class ThreadSize(NamedTuple):
    """A thread by its designation, with the figures that the designation stands for.

    ``designation`` is the standard's own (``M5``, ``M8x1``, ``G 1/8``, ``10-32 UNF``, ``Tr8x8 (P2)``); ``pitch`` and
    ``diameter`` (basic major diameter) are millimetres; ``system`` is one of ``metric``, ``unified``, ``pipe``,
    ``trapezoidal``, ``tapping``, ``conduit``.
    """

    designation: str
    diameter: Decimal
    pitch: Decimal | None
    system: str = "metric"
    hand: str = "right"
    tolerance_class: str | None = None


class Rating(NamedTuple):
    """A named quantity with its unit, as a rated item states it: ``Rating(Decimal(24), "V")``."""

    value: Decimal
    unit: str
    upper: Decimal | None = None


Dimension = Limits | ThreadSize | str | Mapping[str, Rating]
"""What a dimension of a reading can be; a count (teeth, starts) is Limits with a whole nominal."""
