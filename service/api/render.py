"""Replies in their forms: JSON as it is, and rows of cells as CSV, XML, HTML or plain text.

A resource gives, besides its reply, a ``Layout``: how the reply becomes rows. Each form is one generator, which takes
replies block by block, so that any number of them needs the memory of one block.
"""

import csv
import io
import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from types import MappingProxyType
from typing import Any, NamedTuple

import orjson
from marshmallow import Schema

from service.api.formats import Look
from service.api.mount import pages_at
from service.api.pick import Path, checked_path, pick
from service.api.reports import REPORTS, Case
from service.cells import cell_text, defused, xml_name, xml_text
from service.pages.site import around
from service.pictures.glyphs import glyph

Wire = dict[str, Any]
Cell = str | int | float | bool | None
Row = Sequence[Cell]
Blocks = Iterable[Sequence[Any]]

MARK = "\ufeff"
_UNIT = re.compile(r"\[[^\]]*\]$")
"""The unit of a column, at the end of what is said of it."""


class Dress(NamedTuple):
    """How a page shows rows to people: the columns it shows at first (all, where none is named), those whose words have
    a sign as well, those in the letters of code, those that hold names of fields, and where cells lead by the reply and
    the row. Moments, in columns that end in ``_at``, are shown to the minute.
    """

    main: tuple[str, ...] = ()
    signs: frozenset[str] = frozenset()
    codes: frozenset[str] = frozenset()
    spoken: frozenset[str] = frozenset()
    links: Mapping[str, Callable[[Wire, Mapping[str, Cell]], str | None]] = MappingProxyType({})


PLAIN = Dress()


@dataclass(frozen=True, slots=True)
class Layout:
    """How a reply becomes rows of cells, and the one plain word that stands for it.

    ``single`` says that a reply is one row by nature: XML then puts its cells straight under the root. ``cases`` tells
    what a reply is in a report, where there are reports of it. ``page`` makes the page of one reply for people, from
    the reply, its rows, the query and the addresses of its other forms; without it a page shows the rows, as ``dress``
    says, under ``title``, ``text`` and what the columns mean; ``back`` is the address of the order that they belong to,
    by their own. ``picture`` draws a reply.
    """

    name: str
    columns: tuple[str, ...]
    rows: Callable[[Wire], Iterable[Row]]
    word: Callable[[Wire], str]
    single: bool = True
    cases: Callable[[Wire], Iterable[Case]] | None = None
    page: Callable[[Wire, str, str, list[tuple[str, str]]], str] | None = None
    picture: Callable[[Wire], str] | None = None
    dress: Dress = PLAIN
    title: str = ""
    text: str = ""
    meanings: Mapping[str, str] | None = None
    back: Callable[[str], str] | None = None

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
    """Write a page with one table, with an id, and a class on each column for tools that pick cells.

    For people more stands around the table, or before it. A sheet that asks for its errors inline, or for one field,
    gets nothing but the table.
    """
    # Here, since pieces may be taken when the request is no longer at hand.
    return pages_at(_html_pieces(blocks, look, layout, batch))


def _html_pieces(blocks: Blocks, look: Look, layout: Layout, batch: bool) -> Iterator[bytes]:
    if look.inline or look.field is not None or layout.name == "error":
        yield page_head(escape(layout.name)).encode()
        yield from rows_html(blocks, layout)
        yield b"</body></html>"
    elif layout.page is not None and not batch:
        for block in blocks:
            for reply in block:
                table = b"".join(rows_html([[reply]], layout)).decode()
                yield layout.page(reply, table, look.here.query, look.here.others()).encode()
    else:
        before, after = around(
            "table.html",
            title=layout.title or look.here.title or layout.name,
            text=layout.text if layout.title else look.here.text,
            back=("Back to the order", layout.back(look.here.path))
            if layout.back is not None and look.here.path
            else look.here.back,
            meanings=layout.meanings or {},
            forms=look.here.others(),
            more=bool(layout.dress.main),
            here=f"{look.here.path}.html",
        )
        yield before.encode()
        yield from rows_html(blocks, layout, layout.dress)
        yield after.encode()


def rows_html(blocks: Blocks, layout: Layout, dress: Dress | None = None) -> Iterator[bytes]:
    """Write the one table of a page, block by block; dressed for people where they are to read it."""
    named = {column: xml_name(column) for column in layout.columns}
    main = dress.main if dress else ()
    hidden = {column: ' data-more=""' if main and column not in main else "" for column in layout.columns}
    labels = {column: escape(_label(column, layout, dress)) for column in layout.columns}
    heads = "".join(
        f'<th class="{name}" scope="col"{hidden[column]}>{labels[column]}</th>' for column, name in named.items()
    )
    yield f'<table id="{escape(layout.name)}"><thead><tr>{heads}</tr></thead><tbody>\n'.encode()
    cells = []
    for column, name in named.items():
        label = f' data-label="{labels[column]}"' if dress else ""
        cells.append(_Cell(column, name, label + hidden[column], dress))
    for block in blocks:
        rows = []
        for reply in block:
            for row in layout.rows(reply):
                shown = "".join(
                    cell.html(value, reply, layout.columns, row) for cell, value in zip(cells, row, strict=True)
                )
                rows.append(f"<tr>{shown}</tr>\n")
        yield "".join(rows).encode()
    yield b"</tbody></table>"


def _label(column: str, layout: Layout, dress: Dress | None) -> str:
    """Return what a column is called; for people with the unit that its meaning ends in."""
    unit = _UNIT.search((layout.meanings or {}).get(column, "")) if dress is not None else None
    return column.replace("_", " ") + (f" {unit[0]}" if unit else "")


class _Cell(NamedTuple):
    """How the cells of one column are written."""

    column: str
    name: str
    extra: str
    dress: Dress | None

    def html(self, value: Cell, reply: Wire, columns: Sequence[str], row: Row) -> str:
        """Return a cell; a number carries its language, in which LibreOffice would else read 0.029 as 29."""
        text = escape(defused(cell_text(value)))
        number = ""
        if isinstance(value, int | float) and not isinstance(value, bool):
            number = f' sdval="{text}" sdnum="1033;"'
        if self.dress is not None and text:
            text = self._dressed(text, reply, columns, row)
        return f'<td class="{self.name}"{number}{self.extra}>{text}</td>'

    def _dressed(self, text: str, reply: Wire, columns: Sequence[str], row: Row) -> str:
        assert self.dress is not None  # noqa: S101 - asked for by html alone
        if self.column.endswith("_at"):
            return f'<time datetime="{text}">{text[:10]} {text[11:16]}&#160;UTC</time>'
        if self.column in self.dress.spoken:
            text = text.replace("_", " ")
        sign = glyph(text, 18) if self.column in self.dress.signs else ""
        if self.column in self.dress.codes:
            text = f"<code>{text}</code>"
        link = self.dress.links.get(self.column)
        address = link(reply, dict(zip(columns, row, strict=True))) if link else None
        text = f'<a href="{escape(address)}">{text}</a>' if address else text
        # One child, so that a card can set it beside the name of its column.
        return f"<span>{sign} {text}</span>" if sign else text


def word_pieces(blocks: Blocks, look: Look, layout: Layout, batch: bool) -> Iterator[bytes]:
    """Write one plain word or text per reply, a line each, without a line end after the last."""
    lead = ""
    for block in blocks:
        if block:
            yield (lead + "\n".join(map(layout.word, block))).encode()
            lead = "\n"


def svg_pieces(blocks: Blocks, look: Look, layout: Layout, batch: bool) -> Iterator[bytes]:
    """Write the picture of one reply."""
    assert layout.picture is not None  # noqa: S101 - only what has a picture offers this form
    for block in blocks:
        for reply in block:
            yield layout.picture(reply).encode()


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
    "svg": svg_pieces,
}


def page_head(title: str) -> str:
    """Return the beginning of a page that holds nothing but rows, for sheets."""
    return (
        f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"/><title>Kitproof: {title}</title></head><body>\n'
    )
