"""The ready sheet of the river sampler's order, computed by LibreOffice against the running service."""

import json
import re
import urllib.request
from collections.abc import Callable, Mapping
from pathlib import Path
from urllib.parse import urlencode

import pytest
from openpyxl import load_workbook

from demo.sheet.__main__ import (
    FIRST,
    FOLDER,
    GIVEN,
    LETTERS,
    ROWS,
    Row,
    excel_formula,
    flat_ods,
    order,
    rows,
    save_xlsx,
)
from tests.sheets.office import Cell, Cells, Office

GetOffice = Callable[[str], Office]

ORDER = order()
FITTING: Row = ("index pins", "ISO 8734 - 5 x 20 - A - St", "bore", "5 H7", "location")
NO_SERVICE = "http://127.0.0.1:9"


def computed(office: Office, trusted: Path, lines: list[Row], service: str, form: str = "fods") -> Cells:
    """Return the cells of the proof of an order."""
    path = trusted / f"order.{form}"
    if form == "fods":
        path.write_text(flat_ods({"order": rows(lines, service)}), "utf-8")
    else:
        save_xlsx(rows(lines, service), path)
    return office.cells(path)["order"]


def column(cells: Cells, name: str, lines: int) -> list[str]:
    """Return what the first cells of a column show."""
    return [cells[f"{LETTERS[name]}{row}"].content for row in range(FIRST, FIRST + lines)]


def asked(service: str, line: Row) -> Mapping[str, str]:
    """Return what the service itself answers."""
    given = dict(zip(GIVEN, line, strict=True))
    query = {"line": given["line"], given["kind"]: given["mate"], "fit": given["fit"]}
    with urllib.request.urlopen(f"{service}/v1/verdict?{urlencode(query)}") as reply:  # noqa: S310 - the loopback
        found: Mapping[str, str] = json.load(reply)
    return found


@pytest.mark.parametrize(("form", "locale"), [("fods", "en-US"), ("fods", "de-DE"), ("xlsx", "de-DE")])
def test_the_sheet_says_what_the_service_says(
    office: GetOffice, trusted: Path, address: str, form: str, locale: str
) -> None:
    """Verdict, text to order and question of every line, with a decimal point and a decimal comma."""
    cells = computed(office(locale), trusted, ORDER, address, form)
    answers = [asked(address, line) for line in ORDER]
    verdicts = [answer["verdict"] for answer in answers]
    assert column(cells, "verdict", len(ORDER)) == verdicts
    assert column(cells, "order instead", len(ORDER)) == [answer["order_text"] for answer in answers]
    assert column(cells, "ask the supplier", len(ORDER)) == [answer["question"] or "" for answer in answers]
    assert all(column(cells, "why", len(ORDER)))
    assert column(cells, "decision", len(ORDER)) == ["order" if word == "fits" else "STOP" for word in verdicts]
    assert column(cells, "decision", ROWS)[len(ORDER) :] == [""] * (ROWS - len(ORDER))
    assert cells["B3"].content == "STOP"
    assert cells["C3"].content == f"{verdicts.count('fits')} of {len(ORDER)} lines fit"
    assert not [cell for cell in cells.values() if cell.kind == "error"]


BAD = {
    "error: mate: ": ("pin without a mate", "M5 dowel pin", "", "", ""),
    "error: line: ": ("mate without a line", "", "bore", "5 H7", ""),
    "error: bore: ": ("no such class", "M5 dowel pin", "bore", "5 Q7", ""),
    "error: boer: ": ("no such mate", "M5 dowel pin", "boer", "5 H7", ""),
}


@pytest.fixture(scope="module")
def proofs(office: GetOffice, trusted: Path, address: str) -> Mapping[str, Cells]:
    """The proofs of several orders, each a sheet of one document, so that LibreOffice is started once."""
    sheets = {
        "fitting": rows([FITTING] * 3, address),
        "bad": rows([*BAD.values(), FITTING], address),
        "empty": rows([], address),
        "long": [*rows([FITTING], address), ("pasted", "M5 dowel pin", "bore", "5 H7", "")],
        "down": rows([FITTING], NO_SERVICE),
    }
    path = trusted / "proofs.fods"
    path.write_text(flat_ods(sheets), "utf-8")
    return office("en-US").cells(path)


def test_an_order_of_which_every_line_fits_may_go(proofs: Mapping[str, Cells]) -> None:
    """So that STOP elsewhere means something."""
    cells = proofs["fitting"]
    assert (cells["B3"].content, cells["C3"].content) == ("ORDER", "3 of 3 lines fit")


def test_what_cannot_be_checked_stops_and_is_readable(proofs: Mapping[str, Cells]) -> None:
    """The error stands as text in the cell of the verdict."""
    cells = proofs["bad"]
    assert cells["B3"].content == "STOP"
    *shown, last = column(cells, "verdict", len(BAD) + 1)
    assert [one[: len(start)] for one, start in zip(shown, BAD, strict=True)] == list(BAD)
    assert last == "fits"
    assert column(cells, "decision", len(BAD) + 1) == ["STOP"] * len(BAD) + ["order"]
    assert not [cell for cell in cells.values() if cell.kind == "error"]


def test_an_empty_order_stops(proofs: Mapping[str, Cells]) -> None:
    """None of none is not all."""
    cells = proofs["empty"]
    assert (cells["B3"].content, cells["C3"].content) == ("STOP", "0 of 0 lines fit")


def test_a_line_below_the_formulas_stops(proofs: Mapping[str, Cells]) -> None:
    """Nothing has looked at it."""
    cells = proofs["long"]
    assert (cells["B3"].content, cells["C3"].content) == ("STOP", "1 of 2 lines fit")


def test_without_the_service_it_stops(proofs: Mapping[str, Cells]) -> None:
    """It says so in words."""
    cells = proofs["down"]
    assert (cells["B3"].content, cells[f"F{FIRST}"].content) == ("STOP", "no answer")
    assert "Does the service run?" in cells[f"J{FIRST}"].content


def test_yesterdays_verdict_is_not_shown_where_the_sheet_may_not_ask(
    office: GetOffice, tmp_path: Path, address: str
) -> None:
    """A sheet keeps what it showed when it was saved; here it was ORDER, and this folder is not trusted."""
    sheet = flat_ods({"order": rows([FITTING], address)})
    saved = re.sub(r'table:formula="', 'office:value-type="string" office:string-value="ORDER" \\g<0>', sheet)
    assert saved.count('office:string-value="ORDER"') > ROWS
    path = tmp_path / "saved.fods"
    path.write_text(saved, "utf-8")
    cells = office("en-US").cells(path)["order"]
    assert cells["B3"].content == "STOP"
    assert cells[f"F{FIRST}"] == Cell("text", "no answer", cells[f"F{FIRST}"].formula)


def test_the_files_are_made_from_this_description() -> None:
    """Run ``python -m demo.sheet`` after a change of it or of the order."""
    cells = rows(ORDER)
    assert (FOLDER / "order.fods").read_text("utf-8") == flat_ods({"order": cells})
    sheet = load_workbook(FOLDER / "order.xlsx").active
    found = [["" if cell is None else cell for cell in row] for row in sheet.iter_rows(values_only=True)]
    width = max(map(len, cells))
    made = [[excel_formula(cell) if cell.startswith("=") else cell for cell in row] for row in cells]
    assert found == [[*row, *[""] * (width - len(row))] for row in made]
