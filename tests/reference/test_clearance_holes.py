"""What users see of clearance holes: three series with their tolerances, and what is refused."""

from decimal import Decimal
from typing import cast

import pytest

from reference import clearance_holes
from reference.clearance_holes import SERIES, Series, UnknownHole, clearance_hole


@pytest.mark.parametrize(
    ("diameter", "series", "nominal", "upper", "tolerance_class"),
    [
        ("5", "fine", "5.3", "5.42", "H12"),
        ("5", "medium", "5.5", "5.68", "H13"),
        ("5", "coarse", "5.8", "6.1", "H14"),
        ("5.0", "medium", "5.5", "5.68", "H13"),
        ("12", "medium", "13.5", "13.77", "H13"),
        ("1", "fine", "1.1", "1.2", "H12"),
        ("64", "coarse", "74", "74.74", "H14"),
    ],
)
def test_hole_has_its_series_tolerance(
    diameter: str, series: Series, nominal: str, upper: str, tolerance_class: str
) -> None:
    """A hole is as large as ISO 273 says, with H12, H13 or H14 by its series."""
    hole = clearance_hole(Decimal(diameter), series)
    assert (hole.nominal, hole.lower, hole.upper) == (Decimal(nominal), Decimal(nominal), Decimal(upper))
    assert hole.tolerance_class == tolerance_class


def test_medium_series_stands_where_none_is_given() -> None:
    """The medium series is the usual one."""
    assert clearance_hole(Decimal(8)) == clearance_hole(Decimal(8), "medium")


@pytest.mark.parametrize("diameter", clearance_holes.diameters(), ids=str)
def test_series_grow_and_clear_the_screw(diameter: Decimal) -> None:
    """Each series is larger than the one before, and the closest one still clears the screw."""
    fine, medium, coarse = (clearance_hole(diameter, series).nominal for series in SERIES)
    assert diameter < fine < medium < coarse


@pytest.mark.parametrize("diameter", ["5.2", "0", "65", "-5", "NaN"])
def test_unlisted_diameter_is_refused_by_name(diameter: str) -> None:
    """A diameter that ISO 273 does not list is refused, with the range that it lists."""
    with pytest.raises(UnknownHole, match=rf"M{diameter}: ISO 273 is held here from M1 to M64, for example M5"):
        clearance_hole(Decimal(diameter))


def test_unknown_series_is_refused_by_name() -> None:
    """A series that is none is refused, with the three that are."""
    with pytest.raises(UnknownHole, match="'tight' is no series of ISO 273: expected fine, medium, coarse"):
        clearance_hole(Decimal(5), cast(Series, "tight"))


def test_older_list_is_shown_where_it_differs() -> None:
    """M12, M14 and M16 had other medium holes in older lists; M5 did not."""
    assert clearance_holes.older_hole(Decimal(12)) == 14
    assert clearance_holes.older_hole(Decimal(5)) is None


def test_source_says_what_is_from_memory() -> None:
    """The source of a hole names the works, or says that there was none."""
    assert "NBK" in clearance_holes.source(Decimal(5))
    assert clearance_holes.source(Decimal("4.5")) == "ISO 273, from memory"
