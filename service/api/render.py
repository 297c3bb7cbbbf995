"""Replies in their forms: JSON as it is, and rows of cells as CSV, XML, HTML or plain text.

A resource gives, besides its reply, a ``Layout``: how the reply becomes rows. Each form is one generator, which takes
replies block by block, so that any number of them needs the memory of one block.
"""

import csv
import io
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from typing import Any

import orjson
from marshmallow import Schema

from service.api.cells import cell_text, defused, xml_name, xml_text
from service.api.formats import Look
from service.api.pick import Path, checked_path, pick
from service.api.reports import REPORTS, Case

Wire = dict[str, Any]
Cell = str | int | float | bool | None
Row = Sequence[Cell]
Blocks = Iterable[Sequence[Any]]

MARK = "\ufeff"

STYLE = (
    "body{font:16px/1.5 sans-serif;max-width:70rem;margin:2rem auto;padding:0 1rem}"
    "table{border-collapse:collapse}th,td{border:1px solid #999;padding:.2rem .5rem;text-align:left;vertical-align:top}"
    "code,pre{background:#f2f2f2}pre{padding:.5rem;overflow:auto}"
)
"""The one style sheet of all pages; the content security policy names it by its digest."""


@dataclass(frozen=True, slots=True)
class Layout:
    """How a reply becomes rows of cells, and the one plain word that stands for it.

    ``single`` says that a reply is one row by nature: XML then puts its cells straight under the root. ``cases`` tells
    what a reply is in a report, where there are reports of it.
    """

    name: str
    columns: tuple[str, ...]
    rows: Callable[[Wire], Iterable[Row]]
    word: Callable[[Wire], str]
    single: bool = True
    cases: Callable[[Wire], Iterable[Case]] | None = None

    def picked(self, name: str, path: Path, decimal: str) -> "Layout":
        """Return the layout of one field of the reply."""
        return Layout(
            self.name,
            (name,),
            lambda reply: [(_cell(pick(reply, path)),)],
            lambda reply: cell_text(pick(reply, path), decimal),
        )


def _cell(value: Any) -> Cell:
    return value if value is None or isinstance(value, str | int | float | bool) else cell_text(value)


def render(reply: Wire, look: Look, layout: Layout, schema: Schema) -> bytes:
    """Return one reply in its form, or the one field of it that is asked for."""
    if look.form == "json" and look.field is None:
        return orjson.dumps(reply)
    return b"".join(stream([[reply]], look, layout, schema, batch=False))


def stream(blocks: Blocks, look: Look, layout: Layout, schema: Schema, batch: bool = True) -> Iterator[bytes]:
    """Return replies in their form piece by piece; a batch is a list of them, however few."""
    if look.form in REPORTS and layout.cases is not None:
        cases = layout.cases
        return REPORTS[look.form]((case for block in blocks for reply in block for case in cases(reply)), look.origin)
    if look.field is not None:
        path = checked_path(schema, look.field)
        layout = layout.picked("value" if look.form == "xml" else look.field, path, look.decimal)
        if look.form in ("json", "ndjson"):
            blocks = ([pick(reply, path) for reply in block] for block in blocks)
    return FORMS[look.form](blocks, look, layout, batch)


def json_pieces(blocks: Blocks, look: Look, layout: Layout, batch: bool) -> Iterator[bytes]:
    """Write one JSON value, for a batch a list; without a line end after it."""
    if not batch:
        for block in blocks:
            yield from map(orjson.dumps, block)
        return
    lead = b"["
    for block in blocks:
        if block:
            yield lead + orjson.dumps(block)[1:-1]
            lead = b","
    yield b"]" if lead == b"," else b"[]"


def ndjson_pieces(blocks: Blocks, look: Look, layout: Layout, batch: bool) -> Iterator[bytes]:
    """Write one JSON value per line."""
    for block in blocks:
        # Kept results of orjson hold 4 kB each, so each is appended at once.
        lines = bytearray()
        for reply in block:
            lines += orjson.dumps(reply, option=orjson.OPT_APPEND_NEWLINE)
        yield bytes(lines)


def csv_pieces(blocks: Blocks, look: Look, layout: Layout, batch: bool) -> Iterator[bytes]:
    """Write a heading and rows, with CRLF line ends as RFC 4180 has them."""
    text = io.StringIO()
    writer = csv.writer(text, delimiter=look.separator)
    if look.mark:
        text.write(MARK)
    writer.writerow(layout.columns)
    for block in blocks:
        for row in _rows(block, layout):
            writer.writerow([defused(cell) if isinstance(cell, str) else cell_text(cell, look.decimal) for cell in row])
        yield text.getvalue().encode()
        text.seek(0)
        text.truncate()


def xml_pieces(blocks: Blocks, look: Look, layout: Layout, batch: bool) -> Iterator[bytes]:
    """Write flat elements without a namespace; every column is always there. Several rows stand in ``row`` elements."""
    tags = [xml_name(column) for column in layout.columns]
    lead, tail = ("<row>", "</row>") if batch or not layout.single else ("", "")
    yield b'<?xml version="1.0" encoding="UTF-8"?>\n<reply>'
    for block in blocks:
        yield "".join(
            lead + "".join(f"<{tag}>{xml_text(cell)}</{tag}>" for tag, cell in zip(tags, row, strict=True)) + tail
            for row in _rows(block, layout)
        ).encode()
    yield b"</reply>"


def html_pieces(blocks: Blocks, look: Look, layout: Layout, batch: bool) -> Iterator[bytes]:
    """Write a page with one table, with an id, and a class on each column for tools that pick cells."""
    classes = [xml_name(column) for column in layout.columns]
    heads = "".join(
        f'<th class="{name}">{escape(column.replace("_", " "))}</th>'
        for name, column in zip(classes, layout.columns, strict=True)
    )
    title = escape(layout.name)
    yield f'{page_head(title)}<table id="{title}"><thead><tr>{heads}</tr></thead><tbody>\n'.encode()
    for block in blocks:
        yield "".join(
            "<tr>" + "".join(_html_cell(name, cell) for name, cell in zip(classes, row, strict=True)) + "</tr>\n"
            for row in _rows(block, layout)
        ).encode()
    yield b"</tbody></table></body></html>"


def _html_cell(name: str, cell: Cell) -> str:
    text = escape(defused(cell_text(cell)))
    if isinstance(cell, int | float) and not isinstance(cell, bool):
        # LibreOffice with a decimal comma takes 0.029 for 29, unless it is told the number and its language.
        return f'<td class="{name}" sdval="{text}" sdnum="1033;">{text}</td>'
    return f'<td class="{name}">{text}</td>'


def word_pieces(blocks: Blocks, look: Look, layout: Layout, batch: bool) -> Iterator[bytes]:
    """Write one plain word or text per reply, a line each, without a line end after the last."""
    lead = ""
    for block in blocks:
        if block:
            yield (lead + "\n".join(map(layout.word, block))).encode()
            lead = "\n"


def _rows(block: Sequence[Wire], layout: Layout) -> Iterator[Row]:
    for reply in block:
        yield from layout.rows(reply)


FORMS: Mapping[str, Callable[[Blocks, Look, Layout, bool], Iterator[bytes]]] = {
    "json": json_pieces,
    "ndjson": ndjson_pieces,
    "csv": csv_pieces,
    "xml": xml_pieces,
    "html": html_pieces,
    "word": word_pieces,
}


def page_head(title: str) -> str:
    """Return the beginning of every HTML page."""
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"/><title>Kitproof: '
        f"{title}</title><style>{STYLE}</style></head><body>\n"
    )
