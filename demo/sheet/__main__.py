"""Writes ``order.fods`` and ``order.xlsx`` from the river sampler's order: ``python -m demo.sheet``. Needs openpyxl.

The sheet stops on everything but ``fits``: on an error, on no answer, on a line below the last formula. A sheet keeps
what a formula gave when it was saved; ``NOW()`` makes these formulas ask again at each opening, and where that is not
allowed they say so instead of showing yesterday's verdict.
"""

import csv
import re
from collections.abc import Mapping, Sequence
from html import escape
from pathlib import Path

FOLDER = Path(__file__).parent
CHECKS = FOLDER.parent / "checks.csv"
SERVICE = "http://127.0.0.1:8383"

HEADING = 5
FIRST = HEADING + 1
ROWS = 40
"""Lines for which there are formulas."""

COUNTED = 2000
"""Last row that is looked at: a line that stands below the formulas has to stop the order."""

MATES = ("bore", "shaft", "tapped", "clamp", "pocket", "groove", "rating", "presence")

GIVEN = ("what", "line", "kind", "mate", "fit")
FORMULAS = {
    "verdict": 'IF({address}="";"";IFERROR(FILTERXML({reply};"/reply/verdict");"no answer"))',
    "decision": 'IF({address}="";"";IF(IFERROR({verdict};"")="fits";"order";"STOP"))',
    "order instead": 'IF({address}="";"";IFERROR(FILTERXML({reply};"/reply/order_text");""))',
    "ask the supplier": 'IF({address}="";"";IFERROR(FILTERXML({reply};"/reply/question");""))',
    "why": 'IF({address}="";"";IFERROR(FILTERXML({reply};"/reply/reason");"Does the service run? May the sheet ask?"))',
    "cautions": 'IF({address}="";"";IFERROR(FILTERXML({reply};"/reply/cautions");""))',
    "reply": 'IF({address}="";"";IF(NOW()>0;IFERROR(WEBSERVICE({address});"no answer")))',
    "address": 'IF(TRIM({line}&{mate})="";"";$B$2&"/v1/verdict.xml?errors=inline&line="'
    '&IF({line}="";"";ENCODEURL({line}&""))&IF({mate}="";"";"&"&TRIM({kind})&"="&ENCODEURL({mate}&""))'
    '&IF({fit}="";"";"&fit="&ENCODEURL({fit}&"")))',
}
"""The formula of each column, with the names of columns for its cells; arguments stand as LibreOffice has them."""

LETTERS = dict(zip((*GIVEN, *FORMULAS), "ABCDEFGHIJKLM", strict=True))


def _column(name: str) -> str:
    return f"{LETTERS[name]}{FIRST}:{LETTERS[name]}{COUNTED}"


LINES = f"SUMPRODUCT(--(LEN({_column('line')}&{_column('mate')})>0))"
FITTING = f'COUNTIF({_column("decision")};"order")'
DECISION = f'IF(AND({LINES}>0;{FITTING}={LINES});"ORDER";"STOP")'
COUNT = f'{FITTING}&" of "&{LINES}&" lines fit"'
NOTE = (
    "Anything but ORDER means: do not send this order. Fill in the columns from what to fit. LibreOffice asks whether "
    "the sheet may be updated: allow it, or make its folder a trusted location. Excel for Windows: enable the content."
)

LONG = ("reply", "address")
"""Columns that are not shown in full: wrapped they would make each row as high as a page."""

WIDTHS = (32, 40, 10, 34, 10, 12, 10, 46, 60, 90, 60, 12, 12)
_FUNCTIONS = re.compile(r"\b(WEBSERVICE|FILTERXML|ENCODEURL)\(")

Row = tuple[str | float, ...]


def order() -> list[Row]:
    """Return the order of the river sampler, one row a line."""
    with CHECKS.open(encoding="utf-8", newline="") as file:
        return [
            (row["what"], row["line"], *next((kind, row[kind]) for kind in MATES if row.get(kind)), row["fit"])
            for row in csv.DictReader(file)
        ]


def rows(lines: Sequence[Row], service: str = SERVICE) -> list[Row]:
    """Return all cells of the proof of an order, a formula with its equals sign in front."""
    blank = [("",) * len(GIVEN)] * (ROWS - len(lines))
    return [
        ("Kitproof: the proof of an order",),
        ("service", service),
        ("decision", f"={DECISION}", f"={COUNT}"),
        (NOTE,),
        (*GIVEN, *FORMULAS),
        *((*line, *_formulas(row)) for row, line in enumerate((*lines, *blank), FIRST)),
    ]


def _formulas(row: int) -> Row:
    cells = {name: f"{letter}{row}" for name, letter in LETTERS.items()}
    return tuple("=" + formula.format_map(cells) for formula in FORMULAS.values())


# --- flat ODS ------------------------------------------------------------------------------------------------------

_NAMESPACES = " ".join(
    f'xmlns:{prefix}="urn:oasis:names:tc:opendocument:xmlns:{name}"'
    for prefix, name in (
        ("office", "office:1.0"),
        ("style", "style:1.0"),
        ("fo", "xsl-fo-compatible:1.0"),
        ("table", "table:1.0"),
        ("text", "text:1.0"),
        ("of", "of:1.2"),
    )
)
_REFERENCE = re.compile(r"(\$?[A-Z]\$?\d+)(?::(\$?[A-Z]\$?\d+))?")


def open_formula(formula: str) -> str:
    """Return a formula as OpenDocument writes it: references in brackets, functions by their registered names."""
    parts = re.split(r'("[^"]*")', _FUNCTIONS.sub(r"COM.MICROSOFT.\1(", formula))
    references = (part if part.startswith('"') else _REFERENCE.sub(_bracketed, part) for part in parts)
    return "of:" + "".join(references)


def _bracketed(match: re.Match[str]) -> str:
    first, last = match.groups()
    return f"[.{first}:.{last}]" if last else f"[.{first}]"


def _ods_cell(cell: str | float, style: str) -> str:
    if isinstance(cell, float):
        return f'<table:table-cell table:style-name="{style}" office:value-type="float" office:value="{cell}"/>'
    if cell.startswith("="):
        return f'<table:table-cell table:style-name="{style}" table:formula="{escape(open_formula(cell))}"/>'
    if not cell:
        return f'<table:table-cell table:style-name="{style}"/>'
    return (
        f'<table:table-cell table:style-name="{style}" office:value-type="string">'
        f"<text:p>{escape(cell, quote=False)}</text:p></table:table-cell>"
    )


def flat_ods(sheets: Mapping[str, Sequence[Row]]) -> str:
    """Return sheets by name as flat ODS, one row a line so that changes can be compared."""
    columns = "".join(
        f'<style:style style:name="c{index}" style:family="table-column">'
        f'<style:table-column-properties style:column-width="{width * 2}mm"/></style:style>\n'
        for index, width in enumerate(WIDTHS)
    )
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<office:document {_NAMESPACES} office:version="1.3" '
        'office:mimetype="application/vnd.oasis.opendocument.spreadsheet">\n<office:automatic-styles>\n'
        f"{columns}"
        '<style:style style:name="head" style:family="table-cell"><style:text-properties fo:font-weight="bold"/>'
        "</style:style>\n"
        '<style:style style:name="cell" style:family="table-cell"><style:table-cell-properties '
        'style:vertical-align="top" fo:wrap-option="wrap"/></style:style>\n'
        '<style:style style:name="long" style:family="table-cell"><style:table-cell-properties '
        'style:vertical-align="top"/></style:style>\n'
        "</office:automatic-styles>\n<office:body><office:spreadsheet>\n"
        + "".join(_ods_table(name, cells) for name, cells in sheets.items())
        + "</office:spreadsheet></office:body></office:document>\n"
    )


def _style(row: int, column: int) -> str:
    """Return how a cell looks; rows count from 1, columns from 0."""
    if row <= HEADING:
        return "head"
    return "long" if column < len(LETTERS) and tuple(LETTERS)[column] in LONG else "cell"


def _ods_table(name: str, cells: Sequence[Row]) -> str:
    columns = "".join(f'<table:table-column table:style-name="c{index}"/>' for index in range(len(WIDTHS)))
    body = "".join(
        "<table:table-row>"
        + "".join(_ods_cell(cell, _style(row, column)) for column, cell in enumerate(line))
        + "</table:table-row>\n"
        for row, line in enumerate(cells, 1)
    )
    return f'<table:table table:name="{name}">\n{columns}\n{body}</table:table>\n'


# --- XLSX ----------------------------------------------------------------------------------------------------------


def save_xlsx(cells: Sequence[Row], path: Path) -> None:
    """Write the sheet as XLSX."""
    from openpyxl import Workbook
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    book = Workbook()
    sheet = book.active
    sheet.title = "order"
    for row, line in enumerate(cells, 1):
        for column, content in enumerate(line, 1):
            cell = sheet.cell(row, column)
            style = _style(row, column - 1)
            if style == "head":
                cell.font = Font(bold=True)
            else:
                cell.alignment = Alignment(vertical="top", wrap_text=style == "cell")
            if isinstance(content, str) and content.startswith("="):
                content = excel_formula(content)
            cell.value = content or None
    for index, width in enumerate(WIDTHS, 1):
        sheet.column_dimensions[get_column_letter(index)].width = width
    sheet.freeze_panes = f"A{FIRST}"
    book.save(path)


def excel_formula(formula: str) -> str:
    """Return a formula as the file of Excel holds it: commas, and the prefix of functions younger than the format."""
    parts = re.split(r'("[^"]*")', _FUNCTIONS.sub(r"_xlfn.\1(", formula))
    return "".join(part if part.startswith('"') else part.replace(";", ",") for part in parts)


def main() -> None:
    """Write both files."""
    cells = rows(order())
    (FOLDER / "order.fods").write_text(flat_ods({"order": cells}), "utf-8")
    save_xlsx(cells, FOLDER / "order.xlsx")


if __name__ == "__main__":
    main()
