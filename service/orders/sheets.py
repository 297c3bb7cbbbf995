"""CSV as a spreadsheet saves it, to rows of fields: headings in any order and in the words of five languages.

Separators (comma, semicolon, tab, bar), a byte order mark, a line ``sep=;``, titles above the heading, decimal commas
and units in the heading (``Lieferzeit [Wochen]``) are understood. A column that is not is named in the result, never
dropped. What a cell may hold is not known here (``intake``).

>>> sheet = rows("Pos;Menge [Stk];Bezeichnung;Farbe\\nA1;6;ISO 8734 - 5 x 20;rot\\n", "lines")
>>> sheet.rows[0].fields, [column.column for column in sheet.not_read]
({'id': 'A1', 'unit': 'Stk', 'quantity': '6', 'line': 'ISO 8734 - 5 x 20'}, ['Farbe'])
"""

import csv
import io
import re
from collections.abc import Callable, Mapping
from functools import cache
from typing import NamedTuple

from reference import tables
from reference.words import fold
from service.orders.model import ColumnNotRead
from service.verdict.model import CheckError

SEPARATORS = ",;\t|"
MOST_ROWS = 5000
TITLE_ROWS = 10
"""Rows above the heading in which it is sought."""

_SEP_LINE = re.compile(r"sep=(.)\r?\n", re.IGNORECASE)
_UNIT = re.compile(r"(?P<name>.*?)\s*[\[(](?P<unit>[^\])]*)[\])]\s*", re.DOTALL)
_PLAIN = re.compile(r"[\d.,\s/–-]+")
_TOTALS = frozenset(
    {"total", "totals", "sum", "summe", "gesamt", "somme", "totale", "suma", "subtotal", "zwischensumme"}
)
_JOINED = "line"
"""The field whose columns are joined: designation, standard, size and material make one line."""


class SheetRow(NamedTuple):
    """A row below the heading: its number in the sheet, and its cells by field."""

    number: int
    fields: Mapping[str, str]


class Sheet(NamedTuple):
    """What a sheet holds, the columns that are not understood, and what was passed over (titles, totals)."""

    rows: tuple[SheetRow, ...]
    not_read: tuple[ColumnNotRead, ...]
    notes: tuple[str, ...]


class _Column(NamedTuple):
    heading: str
    field: str | None
    unit: str


@cache
def _headings(sheet: str) -> Mapping[str, str]:
    """Return heading -> field for a sheet; its own words before those of any sheet."""
    found: dict[str, str] = {}
    for wanted in ("lines" if sheet == "stock" else sheet, "any"):
        for row in tables.load("order_headings"):
            if row.text("sheet") == wanted:
                found.setdefault(row.text("word"), row.text("column"))
    names = {row.text("column") for row in tables.load("order_headings")}
    return {**{name.replace("_", " "): name for name in names if name in found.values()}, **found}


def plain(heading: str) -> str:
    """Return a heading as the table writes it: lower case, without accents and punctuation.

    >>> plain("Stück-Zahl:"), plain(" Qty. ")
    ('stuck zahl', 'qty')
    """
    return " ".join(re.sub(r"[^\w#]+", " ", fold(heading)).replace("_", " ").split())


def _column(cell: str, sheet: str) -> _Column:
    """Return what a heading stands for: as it is, or with its unit taken off."""
    heading = " ".join(cell.split())
    field = _headings(sheet).get(plain(heading))
    match = _UNIT.fullmatch(heading)
    if field is None and match is not None:
        return _Column(heading, _headings(sheet).get(plain(match["name"])), match["unit"].strip())
    return _Column(heading, field, "")


def rows(text: str, sheet: str, clean: Callable[[str], str] = str) -> Sheet:
    """Return the rows of a sheet (``needs``, ``lines``, ``stock`` or ``steps``); ``clean`` is put to every cell.

    Raises:
        CheckError: no row names the columns, a field has two columns, or a row has more cells than the heading.
    """
    text = text.removeprefix("\ufeff")
    declared = _SEP_LINE.match(text)
    lines = text[declared.end() :] if declared else text
    separator = declared[1] if declared else _separator(lines, sheet)
    try:
        cells = list(csv.reader(io.StringIO(lines, newline=""), delimiter=separator))
    except csv.Error as error:
        raise CheckError(sheet, str(error), "CSV as a spreadsheet saves it", "id,quantity,line") from None
    if len(cells) > MOST_ROWS:
        raise CheckError(sheet, f"{len(cells)} rows", f"up to {MOST_ROWS} rows", "a smaller sheet")
    top = _heading_row(cells, sheet)
    columns = [_column(cell, sheet) for cell in cells[top]]
    _refuse_twice(columns, sheet)
    first = 1 + top + (1 if declared else 0)
    notes = [f"{sheet} row {place + 1}: {' '.join(row).strip()!r} stands above the heading" for place, row in
             enumerate(cells[:top]) if any(cell.strip() for cell in row)]  # fmt: skip
    found: list[SheetRow] = []
    filled = [0] * len(columns)
    for number, row in enumerate(cells[top + 1 :], start=first + 1):
        values = [clean(cell).strip() for cell in row]
        if not any(values):
            continue
        if any(values[len(columns) :]):
            raise CheckError(
                f"{sheet} row {number}",
                values[len(columns)],
                "as many cells as the heading has; a cell that holds the separator stands in quotes",
                '"M5 dowel pin, hardened"',
            )
        if plain(next(value for value in values if value)) in _TOTALS:
            notes.append(f"{sheet} row {number}: taken as a total")
            continue
        for place, value in enumerate(values):
            filled[place] += bool(value)
        found.append(SheetRow(number, _fields(columns, values)))
    not_read = tuple(
        ColumnNotRead(sheet, column.heading or f"column {place + 1}", filled[place])
        for place, column in enumerate(columns)
        if column.field is None and (column.heading or filled[place])
    )
    return Sheet(tuple(found), not_read, tuple(notes))


def _separator(text: str, sheet: str) -> str:
    """Return the separator that makes the most known headings of the first rows."""
    first = text.splitlines()[:TITLE_ROWS]

    def known(separator: str) -> int:
        return max((_known(row, sheet) for row in csv.reader(first, delimiter=separator)), default=0)

    return max(SEPARATORS, key=known)


def _known(row: list[str], sheet: str) -> int:
    return sum(_column(cell, sheet).field is not None for cell in row)


def _heading_row(cells: list[list[str]], sheet: str) -> int:
    known = [_known(row, sheet) for row in cells[:TITLE_ROWS]]
    best = max(known, default=0)
    if best < 1 or (best < 2 and len(cells[known.index(best)]) > 2):
        words = ", ".join(sorted(set(_headings(sheet).values())))
        first = cells[0] if cells else []
        raise CheckError(sheet, ", ".join(first), f"a heading that names the columns: {words}", "id,quantity,line")
    return known.index(best)


def _refuse_twice(columns: list[_Column], sheet: str) -> None:
    seen: dict[str, str] = {}
    for column in columns:
        if column.field is None or column.field == _JOINED:
            continue
        if column.field in seen:
            both = f"{seen[column.field]}, {column.heading}"
            raise CheckError(sheet, both, f"one column for {column.field}", seen[column.field])
        seen[column.field] = column.heading


def _fields(columns: list[_Column], values: list[str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for column, value in zip(columns, values, strict=False):
        if column.field is None or not value:
            continue
        if column.field == "quantity" and column.unit:
            found.setdefault("unit", column.unit)
        elif column.unit and column.field != "price" and _PLAIN.fullmatch(value):
            value = f"{value} {column.unit}"
        found[column.field] = f"{found[_JOINED]} {value}" if column.field == _JOINED and _JOINED in found else value
    return found
