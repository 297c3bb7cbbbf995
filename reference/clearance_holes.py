"""ISO 273: clearance holes for bolts and screws, in three series with their tolerances.

Whether a hole goes with a screw is judged in ``service.verdict``.

>>> clearance_hole(Decimal(5), "medium")
Limits(nominal=Decimal('5.5'), lower=Decimal('5.5'), upper=Decimal('5.68'), tolerance_class='H13')
"""

from collections.abc import Mapping
from decimal import Decimal
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Literal, get_args

from reference import fits, tables
from reference.quantities import Limits
from reference.units import tidy

Series = Literal["fine", "medium", "coarse"]
SERIES: tuple[Series, ...] = get_args(Series)
"""The series of ISO 273, closest first."""

TOLERANCES: Mapping[Series, str] = MappingProxyType({"fine": "H12", "medium": "H13", "coarse": "H14"})
"""The tolerance class that ISO 273 gives each series."""


class UnknownHole(ValueError):  # noqa: N818 - it is the hole that is unknown
    """ISO 273 lists no clearance hole for this thread, or has no such series; the message says what it lists."""


@cache
def _rows() -> Mapping[tuple[Decimal, str], tables.Row]:
    rows = tables.load("clearance_holes")
    return MappingProxyType({(row.decimal("diameter"), row.text("series")): row for row in rows})


def diameters() -> tuple[Decimal, ...]:
    """Return the thread diameters for which holes are listed [mm]."""
    return tuple(tidy(diameter) for diameter, series in _rows() if series == "medium")


def _row(diameter: Decimal, series: str) -> tables.Row:
    if series not in SERIES:
        raise UnknownHole(f"{series!r} is no series of ISO 273: expected {', '.join(SERIES)}")
    row = _rows().get((diameter, series))
    if row is None:
        held = diameters()
        raise UnknownHole(
            f"no clearance hole is listed for M{diameter}: ISO 273 is held here from M{held[0]} to M{held[-1]}, "
            "for example M5"
        )
    return row


@lru_cache(maxsize=1024)
def clearance_hole(diameter: Decimal, series: Series = "medium") -> Limits:
    """Return the clearance hole for a metric thread of that diameter, with its limits of size [mm].

    Raises:
        UnknownHole: no hole is listed for the diameter, or there is no such series.

    Source: ISO 273, tolerances H12, H13 and H14 by ISO 286.

    >>> clearance_hole(Decimal(12), "coarse").nominal
    Decimal('14.5')
    """
    return fits.limits(_row(diameter, series).decimal("hole"), TOLERANCES[series])


def older_hole(diameter: Decimal, series: Series = "medium") -> Decimal | None:
    """Return the hole that the older BS 4186 lists give where it differs from ISO 273 [mm], otherwise None.

    >>> older_hole(Decimal(12), "medium")
    Decimal('14')
    """
    return _row(diameter, series).number_or_none("older_list")


def source(diameter: Decimal, series: Series = "medium") -> str:
    """Return where the hole comes from, as replies show it.

    >>> source(Decimal("4.5"))
    'ISO 273, from memory'
    """
    return _row(diameter, series).source
