"""Sheets: headings in any order and five languages, as spreadsheets save them."""

import csv
import io
from typing import Any

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reference import tables
from service.orders import sheets
from service.orders.intake import LINE_FIELDS, NEED_FIELDS, STEP_FIELDS
from service.orders.sheets import plain, rows
from service.verdict.model import CheckError

LANGUAGES = {
    "en": "Pos;Qty;Description;Pack size;Supplier;Lead time",
    "de": "Pos;Menge;Bezeichnung;VPE;Lieferant;Lieferzeit",
    "fr": "Repère;Quantité;Désignation;Conditionnement;Fournisseur;Délai",
    "es": "Posición;Cantidad;Descripción;Paquete;Proveedor;Plazo",
    "it": "Posizione;Quantità;Descrizione;Confezione;Fornitore;Tempo di consegna",
}


@pytest.mark.parametrize("language", sorted(LANGUAGES))
@pytest.mark.parametrize("separator", [";", ",", "\t", "|"])
def test_the_usual_headings_are_understood(language: str, separator: str) -> None:
    """With any separator, and in any order."""
    heading = LANGUAGES[language].split(";")
    cells = ["L1", "6", "ISO 8734 - 5 x 20", "10", "A", "14"]
    expected = {
        "id": "L1",
        "quantity": "6",
        "line": "ISO 8734 - 5 x 20",
        "pack": "10",
        "supplier": "A",
        "lead_time": "14",
    }
    for order in (range(6), reversed(range(6))):
        places = list(order)
        text = separator.join(heading[n] for n in places) + "\n" + separator.join(cells[n] for n in places) + "\n"
        sheet = rows(text, "lines")
        assert [row.fields for row in sheet.rows] == [expected]
        assert sheet.not_read == ()


def test_a_byte_order_mark_a_separator_line_and_a_title_are_passed_over() -> None:
    """The rows keep their numbers in the sheet."""
    sheet = rows("\ufeffsep=;\r\nBestellung 2027;;\r\n;;\r\nMenge;Bezeichnung;\r\n6;Stift 5x20;\r\n", "lines")
    assert [(row.number, row.fields) for row in sheet.rows] == [(5, {"quantity": "6", "line": "Stift 5x20"})]
    assert sheet.notes == ("lines row 1: 'Bestellung 2027' stands above the heading",)


def test_a_column_that_is_not_understood_is_named_with_its_cells() -> None:
    """Also one without a heading, where it holds something."""
    sheet = rows("Menge;Bezeichnung;Farbe;\n6;Stift 5x20;rot;x\n7;Stift 6x20;;\n", "lines")
    assert [(one.column, one.cells) for one in sheet.not_read] == [("Farbe", 1), ("column 4", 1)]


def test_columns_that_make_the_line_are_joined() -> None:
    """Designation, standard, size and material."""
    sheet = rows("Qty,Description,Standard,Size,Material\n6,Dowel pin,ISO 8734,5 x 20,steel\n", "lines")
    assert sheet.rows[0].fields["line"] == "Dowel pin ISO 8734 5 x 20 steel"


def test_a_unit_in_the_heading_goes_with_its_cells() -> None:
    """Unless the cell says its own."""
    sheet = rows("Menge [Stk];Bezeichnung;Lieferzeit (Wochen)\n6;x;2-3\n7;y;5 Tage\n", "lines")
    assert [(row.fields["unit"], row.fields["lead_time"]) for row in sheet.rows] == [
        ("Stk", "2-3 Wochen"),
        ("Stk", "5 Tage"),
    ]


def test_a_row_of_totals_is_none_of_the_order() -> None:
    """And is said to be passed over."""
    sheet = rows("Pos;Menge;Bezeichnung\nL1;6;x\nSumme;6;\n", "lines")
    assert len(sheet.rows) == 1
    assert sheet.notes == ("lines row 3: taken as a total",)


def test_cells_in_quotes_hold_separators_quotes_and_line_ends() -> None:
    """As RFC 4180 has it."""
    sheet = rows('qty,line\n6,"pin, hardened 1/4"" x 1""\nlong"\n', "lines")
    assert sheet.rows[0].fields["line"] == 'pin, hardened 1/4" x 1"\nlong'


@pytest.mark.parametrize(
    ("text", "field"),
    [
        ("Farbe;Form\nrot;rund\n", "lines"),
        ("Menge;Anzahl;Bezeichnung\n6;6;x\n", "lines"),
        ("Menge;Bezeichnung\n6;x;und mehr\n", "lines row 2"),
        ("", "lines"),
    ],
)
def test_what_is_no_such_sheet_is_refused(text: str, field: str) -> None:
    """With the headings that are known."""
    with pytest.raises(CheckError) as caught:
        rows(text, "lines")
    assert caught.value.field == field


def test_a_sheet_of_many_rows_is_bounded() -> None:
    """Rather refused than half read."""
    with pytest.raises(CheckError, match="rows"):
        rows("qty,line\n" + "1,x\n" * (sheets.MOST_ROWS + 1), "lines")


def test_every_heading_of_the_table_names_a_field() -> None:
    """Of its sheet, or of the receipt of a line; and is written as headings are compared."""
    known: dict[str, set[str]] = {
        "needs": set(NEED_FIELDS),
        "lines": {*LINE_FIELDS, "measured", "dimension", "instrument", "uncertainty"},
        "steps": set(STEP_FIELDS),
        "any": set(NEED_FIELDS) & set(LINE_FIELDS) | {"for"},
    }
    for row in tables.load("order_headings"):
        assert row.text("column") in known[row.text("sheet")], row.cells
        assert plain(row.text("word")) == row.text("word"), row.cells


CELLS = st.text(st.characters(codec="utf-8", exclude_categories=("Cs", "Cc")), max_size=12)


@given(st.lists(st.tuples(st.integers(1, 999), CELLS), min_size=1, max_size=5))
def test_whatever_stands_in_a_cell_comes_back(cells: list[tuple[int, str]]) -> None:
    """Written by the library that spreadsheets are like."""
    out = io.StringIO()
    writer = csv.writer(out, delimiter=";")
    writer.writerow(["Menge", "Bezeichnung"])
    writer.writerows([(many, f"part {cell}") for many, cell in cells])
    found = [row.fields for row in rows(out.getvalue(), "lines").rows]
    assert found == [{"quantity": str(many), "line": f"part {cell}".strip()} for many, cell in cells]


def test_cells_are_cleaned_by_who_calls() -> None:
    """Text that was defused against formulas."""
    sheet = rows("qty,line\n6,'=1+1\n", "lines", lambda cell: cell.removeprefix("'"))
    assert sheet.rows[0].fields["line"] == "=1+1"


def test_a_workbook_saved_as_csv_is_the_same_order() -> None:
    """Numbers as the library writes them: 6, 0.5, dates as text."""
    book = openpyxl.Workbook()
    page: Any = book.active
    page.append(["Pos", "Qty", "Description", "Price"])
    page.append(["L1", 6, "ISO 8734 - 5 x 20", 0.5])
    out = io.StringIO()
    csv.writer(out).writerows(page.iter_rows(values_only=True))
    assert rows(out.getvalue(), "lines").rows[0].fields == {
        "id": "L1",
        "quantity": "6",
        "line": "ISO 8734 - 5 x 20",
        "price": "0.5",
    }
