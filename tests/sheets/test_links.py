"""Rows from an address: CSV opened and linked, HTML linked; and text that begins like a formula is never run."""

import csv
import io
import threading
from collections.abc import Callable, Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlencode
from xml.sax.saxutils import quoteattr

import pytest

from demo.sheet.__main__ import flat_ods
from tests.sheets.office import Cells, Office

GetOffice = Callable[[str], Office]

CSV_FILTER = "Text - txt - csv (StarCalc)"
ENGLISH = "44,34,76,1,,1033,false,false"
"""Comma, quote, UTF-8, from line 1, language English (USA)."""

SYSTEM = "59,34,76,1,,0,false,false"
"""Semicolon, and the language of the system."""

PLAIN = "44,34,76,1"
"""Comma, quote, UTF-8, from line 1, and everything else as the import has it by itself."""

HTML_FILTER = "calc_HTML_WebQuery"
LINES = ("ø5 m6 x 20 dowel", "608")
QUERY = urlencode([("line", LINES[0]), ("bore", "5 H7"), ("line", LINES[1]), ("shaft", "8 h6"), ("fit", "slip")])


class Link(NamedTuple):
    """An area behind an address, and how it is imported."""

    area: str
    address: str
    filter: str
    options: str = ""


def linked(**links: Link) -> str:
    """Return a flat ODS with a sheet for each link, whose one cell is linked."""
    namespaces = " ".join(
        f'xmlns:{prefix}="urn:oasis:names:tc:opendocument:xmlns:{prefix}:1.0"' for prefix in ("office", "text", "table")
    )
    tables = "".join(
        f'<table:table table:name="{name}"><table:table-row><table:table-cell><table:cell-range-source '
        f'table:name={quoteattr(link.area)} xlink:type="simple" xlink:href={quoteattr(link.address)} '
        f"table:filter-name={quoteattr(link.filter)} table:filter-options={quoteattr(link.options)} "
        'table:last-column-spanned="1" table:last-row-spanned="1"/></table:table-cell></table:table-row></table:table>'
        for name, link in links.items()
    )
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<office:document {namespaces} '
        'xmlns:xlink="http://www.w3.org/1999/xlink" office:version="1.3" '
        'office:mimetype="application/vnd.oasis.opendocument.spreadsheet"><office:body><office:spreadsheet>'
        f"{tables}</office:spreadsheet></office:body></office:document>"
    )


def by_heading(cells: Cells, row: int) -> dict[str, tuple[str, str]]:
    """Return kind and content of a row's cells by the names of their columns."""
    letters = [place[:-1] for place in cells if place[-1] == "1" and not place[-2].isdigit()]
    found = ((cells[f"{letter}1"].content.replace(" ", "_"), cells.get(f"{letter}{row}")) for letter in letters)
    return {name: (cell.kind, cell.content) for name, cell in found if cell is not None}


@pytest.mark.parametrize("locale", ["en-US", "de-DE"])
def test_linked_rows_are_true_in_every_locale(office: GetOffice, trusted: Path, address: str, locale: str) -> None:
    """0.009 stays 0.009 where the decimal sign is a comma, and ø is ø."""
    page = f"{address}/v1/verdicts.html?errors=inline&{QUERY}"
    links = {
        "csv": Link("CSV_all", f"{address}/v1/verdicts.csv?errors=inline&{QUERY}", CSV_FILTER, ENGLISH),
        "html": Link("HTML_all", page, HTML_FILTER),
        "table": Link("HTML_1 - verdicts", page, HTML_FILTER),
    }
    if locale == "de-DE":
        # Unless told otherwise the import takes the language of the system, which the service can write.
        links["comma"] = Link("CSV_all", f"{address}/v1/verdicts.csv?sep=;&dec=,&{QUERY}", CSV_FILTER, SYSTEM)
    path = trusted / "links.fods"
    path.write_text(linked(**links), "utf-8")
    found = office(locale).cells(path)
    for name in links:
        first, second = by_heading(found[name], 2), by_heading(found[name], 3)
        assert (first["verdict"], first["line"]) == (("text", "fits"), ("text", LINES[0])), name
        assert second["verdict"] == ("text", "marginal"), name
        clearance = second["clearance_lower"], second["clearance_upper"]
        assert clearance == (("number", "-0.008"), ("number", "0.009")), name


def test_an_address_is_opened_as_csv(office: GetOffice, address: str, tmp_path: Path) -> None:
    """Without any trust, as File > Open does."""
    text = office("en-US").converted(f"{address}/v1/verdicts.csv?{QUERY}", f"{CSV_FILTER}:{ENGLISH}", tmp_path)
    rows = list(csv.DictReader(io.StringIO(text)))
    assert [(row["verdict"], row["line"]) for row in rows] == [("fits", LINES[0]), ("marginal", LINES[1])]


# --- text that begins like a formula --------------------------------------------------------------------------------


class Bait(ThreadingHTTPServer):
    """A server that a formula would call; ``pages`` are what it serves, ``called`` the paths that were asked for."""

    def __init__(self) -> None:
        """Listen on a free port."""
        self.pages: dict[str, tuple[str, str]] = {}
        self.called: list[str] = []
        super().__init__(("127.0.0.1", 0), _Handler)

    @property
    def address(self) -> str:
        """Where it listens."""
        return f"http://127.0.0.1:{self.server_port}"


class _Handler(BaseHTTPRequestHandler):
    server: Bait

    def do_GET(self) -> None:
        """Serve a page, or a word."""
        self.server.called.append(self.path)
        content_type, text = self.server.pages.get(self.path, ("text/plain", "caught"))
        body = text.encode()
        self.send_response(200)
        self.send_header("Content-Type", content_type)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        if self.command == "GET":
            self.wfile.write(body)

    do_HEAD = do_OPTIONS = do_GET  # noqa: N815 - the library's names

    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture
def bait() -> Iterator[Bait]:
    """A server that a formula would call."""
    with Bait() as server:
        thread = threading.Thread(target=server.serve_forever, args=(0.02,))
        thread.start()
        yield server
        server.shutdown()
        thread.join()


def malicious(bait: Bait) -> list[str]:
    """Return purchase lines that a sheet would run as they stand."""
    call = f'WEBSERVICE("{bait.address}/hit")'
    return [f"={call}", f"+{call}", f"-{call}", f"@{call}", f"\t={call}", f" ={call}", f"pin\n={call}", f"={call}&1"]


@pytest.mark.parametrize("form", ["csv", "html"])
def test_a_raw_formula_would_be_run(office: GetOffice, trusted: Path, bait: Bait, form: str) -> None:
    """Else the next test would prove nothing."""
    line = malicious(bait)[0]
    quoted = line.replace('"', '""')
    bait.pages["/raw.csv"] = "text/csv", f'"line"\r\n"{quoted}"\r\n'
    bait.pages["/raw.html"] = "text/html", f"<html><body><table><tr><td>{line}</td></tr></table></body></html>"
    address = f"{bait.address}/raw.{form}"
    link = Link("CSV_all", address, CSV_FILTER, PLAIN) if form == "csv" else Link("HTML_all", address, HTML_FILTER)
    path = trusted / "raw.fods"
    path.write_text(linked(rows=link), "utf-8")
    office("en-US").cells(path)
    assert "/hit" in bait.called


def test_a_line_that_begins_like_a_formula_is_not_run(
    office: GetOffice, trusted: Path, address: str, bait: Bait
) -> None:
    """Linked, with the import's options left as they are, from a folder that is trusted; errors show the value, too."""
    lines = malicious(bait)
    query = urlencode([pair for line in lines for pair in (("line", line), ("bore", line))])
    links = {
        "csv": Link("CSV_all", f"{address}/v1/verdicts.csv?{query}", CSV_FILTER, PLAIN),
        "html": Link("HTML_all", f"{address}/v1/verdicts.html?errors=inline&{query}", HTML_FILTER),
    }
    path = trusted / "defused.fods"
    path.write_text(linked(**links), "utf-8")
    found = office("en-US").cells(path)
    assert bait.called == []
    for name in links:
        assert not [cell for cell in found[name].values() if cell.formula]
        # Other sheets run what begins with + and - as well, so that all are defused.
        shown = [by_heading(found[name], row)["line"][1] for row in range(2, len(lines) + 2)]
        assert [text.lstrip()[0] for text in shown] == ["'", "'", "'", "'", "'", "'", "p", "'"]


def test_a_page_for_people_is_not_run_either(office: GetOffice, trusted: Path, address: str, bait: Bait) -> None:
    """Without errors=inline a line stands on the page in other places, too."""
    addresses = [
        f"{address}/v1/{name}.html?{urlencode({'line': line, 'bore': '5 H7'})}"
        for name in ("verdict", "verdicts", "reading")
        for line in malicious(bait)[:2]
    ]
    links = {f"page{index}": Link("HTML_all", one, HTML_FILTER) for index, one in enumerate(addresses)}
    path = trusted / "pages.fods"
    path.write_text(linked(**links), "utf-8")
    found = office("en-US").cells(path)
    assert bait.called == []
    assert {name: [cell for cell in cells.values() if cell.formula] for name, cells in found.items()} == {
        name: [] for name in links
    }


def test_an_answer_in_a_cell_is_never_run(office: GetOffice, trusted: Path, address: str, bait: Bait) -> None:
    """So that plain text and XML give a line as it is."""
    line = malicious(bait)[0]
    query = urlencode({"line": line, "bore": "5 H7"})
    formula = f'=FILTERXML(WEBSERVICE("{address}/v1/verdict.xml?{query}");"/reply/line")'
    text = f'=WEBSERVICE("{address}/v1/verdict.txt?field=line&{query}")'
    path = trusted / "answer.fods"
    path.write_text(flat_ods({"rows": [(formula, text)]}), "utf-8")
    cells = office("en-US").cells(path)["rows"]
    assert [(cells[place].kind, cells[place].content) for place in ("A1", "B1")] == [("text", line)] * 2
    assert bait.called == []
