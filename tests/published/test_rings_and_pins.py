"""Pins, rings, keys and seals against works that our tables were not taken from.

Each row of ``rings_and_pins.csv`` names the figure (table, standard, size, column), what another work prints, that
work with the place in it, and the work that our own figure comes from. Rows with ``counts`` = no are cells that are
known to be wrong or open: they must keep disagreeing, so that an exclusion that went stale shows.
"""

import csv
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest

from reference import tables
from reference.tables import Row

CHECKS = tuple(csv.DictReader((Path(__file__).parent / "rings_and_pins.csv").read_text("utf-8").splitlines()))
COUNTED = tuple(check for check in CHECKS if check["counts"] == "yes")
EXCLUDED = tuple(check for check in CHECKS if check["counts"] == "no")
MOST_ROWS_OF_ONE_TABLE = 40


def name(check: dict[str, str]) -> str:
    """Return a readable test id."""
    return f"{check['standard']} {check['size']} {check['column']} by {check['work']}"


def row_of(check: dict[str, str]) -> Row:
    """Return the one row of our table that the check is about."""
    key = (check["standard"], check["size"])
    (found,) = (row for row in tables.load(check["table"]) if (row.text("standard"), row.text("size")) == key)
    return found


def agrees(check: dict[str, str]) -> bool:
    """Tell whether our figure is the printed one, within the rounding of the print."""
    row = row_of(check)
    if check["column"] == "thread":
        return row.text("thread") == check["value"]
    return abs(row.decimal(check["column"]) - Decimal(check["value"])) <= Decimal(check["tolerance"])


@pytest.mark.parametrize("check", COUNTED, ids=name)
def test_table_agrees_with_an_independent_work(check: dict[str, str]) -> None:
    """Our figure is what the other work prints."""
    assert agrees(check)


@pytest.mark.parametrize("check", EXCLUDED, ids=name)
def test_known_wrong_cell_still_disagrees(check: dict[str, str]) -> None:
    """A cell known to be wrong is not ours, and the reason names the second work."""
    assert check["note"]
    assert not agrees(check)


@pytest.mark.parametrize("check", CHECKS, ids=name)
def test_check_is_independent_of_the_tables_own_source(check: dict[str, str]) -> None:
    """The work that we took the figure from is named in our row, and is another one than the work checked against."""
    assert check["own"] in row_of(check).source
    assert not check["work"].startswith(check["own"])


def test_no_table_lends_too_many_rows() -> None:
    """At most forty counted rows come from one table of one work, and no figure is checked twice against it."""
    lent = Counter((check["work"], check["place"].partition(",")[0]) for check in COUNTED)
    assert max(lent.values()) <= MOST_ROWS_OF_ONE_TABLE
    assert len({name(check) for check in CHECKS}) == len(CHECKS)
