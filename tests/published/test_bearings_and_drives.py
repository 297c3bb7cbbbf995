"""Bearings and linear motion against data sets and pages that the tables were not taken from.

Each row of ``bearings_and_drives.csv`` compares cells of one table row with what another work prints. ``agrees`` is
``no`` for cells of that work that are known to be wrong: such a row fails when the two begin to agree, so that a stale
exception shows.
"""

import csv
from collections import Counter
from decimal import Decimal
from pathlib import Path

import pytest

from reference import tables

with (Path(__file__).parent / "bearings_and_drives.csv").open(encoding="utf-8") as file:
    CASES = list(csv.DictReader(file))

# How a table's own source column would name the work, had its figures been taken from it.
NAMED_AS = {
    "bosl2": "BOSL2",
    "bd": "bd-warehouse",
    "mcad": "MCAD",
    "melib": "melib",
    "omdl": "omdl",
    "nop": "NopSCADlib",
    "gbt": "GB/T 7218",
    "tpi": "TPI catalogue",
    "list": "power transmission",
    "robot": "robot project",
    "soft": "softsolder",
    "gist": "nagae",
    "kcomp": "kcomp",
}


def row_of(case: dict[str, str]) -> tables.Row:
    """Return the table row that a case compares."""
    return next(row for row in tables.load(case["table"]) if row.text("size") == case["size"])


@pytest.mark.parametrize("case", CASES, ids=[f"{c['work']}-{c['size']}-{c['columns'].split()[-1]}" for c in CASES])
def test_cells_against_another_work(case: dict[str, str]) -> None:
    """The cells are those that the other work prints, or differ where that work is known to be wrong."""
    row = row_of(case)
    ours = [row.decimal(column) for column in case["columns"].split()]
    printed = [Decimal(value) for value in case["printed"].split()]
    assert len(ours) == len(printed)
    assert (ours == printed) == (case["agrees"] == "yes"), (ours, printed)
    assert case["agrees"] == "yes" or case["note"], "a known wrong cell says why it is wrong"


def test_works_are_independent_of_the_rows_they_check() -> None:
    """No row is confirmed by the work that its own source column names."""
    for case in CASES:
        if case["agrees"] == "yes":
            assert NAMED_AS[case["work"]] not in row_of(case).source, (case["work"], case["size"])


def test_no_work_dominates() -> None:
    """At most 40 rows come from one work, and at least 50 rows agree in all."""
    counts = Counter(case["work"] for case in CASES if case["agrees"] == "yes")
    assert max(counts.values()) <= 40
    assert sum(counts.values()) >= 50
    assert set(counts) <= set(NAMED_AS)
