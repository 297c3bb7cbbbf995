"""Screws, nuts and washers against works that our tables were not taken from.

Each row of ``fasteners.csv`` names the figure (table, standard, size, column), what another work prints, that work with
its file and licence, and the source of our own figure. Rows with ``counts`` = no are cells that are known to be wrong
or to mean something else: they must keep disagreeing, so that an exclusion that went stale shows. ``cell`` tells where
a package keeps the value; it is read again where the package is installed (as data, nothing of it is imported).
"""

import csv
import json
import re
from collections import Counter
from decimal import Decimal
from functools import cache
from importlib.metadata import PackageNotFoundError, files
from pathlib import Path

import pytest

from reference import tables
from reference.tables import Row

CHECKS = tuple(csv.DictReader((Path(__file__).parent / "fasteners.csv").read_text("utf-8").splitlines()))
COUNTED = tuple(check for check in CHECKS if check["counts"] == "yes")
EXCLUDED = tuple(check for check in CHECKS if check["counts"] == "no")
IN_PACKAGES = tuple(check for check in CHECKS if check["cell"])
MOST_ROWS_OF_ONE_TABLE = 40
SAME_WORK = {
    "bd-warehouse": "bd-warehouse",
    "BOSL2": "BOSL2",
    "BOLTS": "cq-queryabolt",
    "FastenersWB": "FreeCAD_FastenersWB",
    "creativefasteners": "creativefasteners",
    "schrauben-ratgeber": "schrauben-ratgeber",
}
"""Name of a work in our sources -> its name in the sources of the checks (cq-queryabolt carries the BOLTS data)."""


def name(check: dict[str, str]) -> str:
    """Return a readable test id."""
    return f"{check['id']} {check['standard']} {check['size']} {check['column']}"


def row_of(check: dict[str, str]) -> Row:
    """Return the one row of our table that the check is about."""
    key = (check["standard"], check["size"])
    (found,) = (row for row in tables.load(check["table"]) if (row.text("standard"), row.text("size")) == key)
    return found


def agrees(check: dict[str, str]) -> bool:
    """Tell whether our figure is the printed one, within the rounding of the print."""
    difference = row_of(check).decimal(check["column"]) - Decimal(check["expected"])
    return abs(difference) <= Decimal(check["tolerance"])


@cache
def package_file(package: str, file: str) -> str:
    """Return the text of a data file of an installed package; skip the test where it is not installed."""
    try:
        entries = files(package) or []
    except PackageNotFoundError:
        pytest.skip(f"{package} is not installed")
    (entry,) = (entry for entry in entries if entry.name == file)
    return entry.read_text("utf-8-sig")


def package_value(check: dict[str, str]) -> str:
    """Return the value that the package holds in the cell that the check names."""
    file, *place = check["cell"].split("|")
    package = check["source"].split()[0]
    text = package_file(package, file)
    if file.endswith(".csv"):
        lines = csv.DictReader(text.splitlines())
        key = (lines.fieldnames or [""])[0]
        line = next(line for line in lines if line[key] == place[0])
        return next(value for heading, value in line.items() if heading.strip() == place[1]).strip()
    if file.endswith(".json"):
        part, dimension = place[1].split(".")
        return str(json.loads(text)[place[0]][part][dimension])
    array, diameter, index = place
    entry = re.search(rf"\[\s*{re.escape(diameter)}\s*,\s*\[([^\]]*)\]", text[text.index(f"{array} =") :])
    assert entry is not None
    return entry[1].split(",")[int(index)].strip()


@pytest.mark.parametrize("check", COUNTED, ids=name)
def test_table_agrees_with_an_independent_work(check: dict[str, str]) -> None:
    """Our figure is what the other work prints."""
    assert agrees(check)


@pytest.mark.parametrize("check", EXCLUDED, ids=name)
def test_known_wrong_cell_still_disagrees(check: dict[str, str]) -> None:
    """A cell known to be wrong is not ours, and its note says why, by which second work."""
    assert check["note"]
    assert not agrees(check)


@pytest.mark.parametrize("check", IN_PACKAGES, ids=name)
def test_frozen_value_is_the_one_in_the_package(check: dict[str, str]) -> None:
    """The value kept here is what the named cell of the installed package holds."""
    assert Decimal(package_value(check)) == Decimal(check["expected"])


@pytest.mark.parametrize("check", CHECKS, ids=name)
def test_check_is_independent_of_the_tables_own_source(check: dict[str, str]) -> None:
    """Our row names another work than the one it is checked against, and the check states our source as it is."""
    own = row_of(check).source
    assert check["own"] == own
    figures = own.partition("); ")[0]
    borrowed = any(ours in figures and theirs in check["source"] for ours, theirs in SAME_WORK.items())
    assert not borrowed or check["counts"] == "no"


def test_no_table_lends_too_many_rows() -> None:
    """At most forty counted rows come from one file of one work, and no figure is checked twice against it."""
    lent = Counter(check["source"] for check in COUNTED)
    assert max(lent.values()) <= MOST_ROWS_OF_ONE_TABLE
    figures = Counter(
        (check["table"], check["standard"], check["size"], check["column"], check["source"]) for check in CHECKS
    )
    assert max(figures.values()) == 1
