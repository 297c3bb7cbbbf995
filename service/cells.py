"""Cells of a table as text: numbers in full, free text that no spreadsheet runs as a formula, names for XML."""

import re
from decimal import Decimal
from html import escape
from typing import Any

import orjson

_BLANKS = " \t\xa0\u2000-\u200b\u3000"
_TRIGGERS = r"=+\-@＝＋－＠"
_LINE_START = r"(?:^|(?<=[\r\n]))"
_FORMULA = re.compile(rf"{_LINE_START}(?=[{_BLANKS}]*[{_TRIGGERS}])|^(?=[\t\r])")
_DEFUSED = re.compile(rf"{_LINE_START}'(?=[{_BLANKS}]*[{_TRIGGERS}])|^'(?=[\t\r])")
_NUMBER = re.compile(r"[+-]?\d+(?:\.\d+)?")
_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_NOT_XML_NAME = re.compile(r"[^A-Za-z0-9_.-]|^(?=[^A-Za-z_])")


def cell_text(cell: Any, decimal: str = ".") -> str:
    """Return a cell as text: numbers in full, nothing for null, lists joined, objects as JSON.

    >>> cell_text(0.00001), cell_text(5.012, ","), cell_text(["a", "b"])
    ('0.00001', '5,012', 'a; b')
    """
    if isinstance(cell, str):
        return cell
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "true" if cell else "false"
    if isinstance(cell, int):
        return str(cell)
    if isinstance(cell, float):
        return format(Decimal(repr(cell)), "f").replace(".", decimal)
    if isinstance(cell, list | tuple) and not any(isinstance(item, dict | list | tuple) for item in cell):
        return "; ".join(cell_text(item, decimal) for item in cell)
    return orjson.dumps(cell).decode()


def defused(text: str) -> str:
    """Return free text so that no spreadsheet runs it as a formula; a plain number is left alone.

    >>> defused("=1+1"), defused("-0.02"), defused(" +1/2 in")
    ("'=1+1", '-0.02', "' +1/2 in")
    """
    return text if _NUMBER.fullmatch(text) else _FORMULA.sub("'", text)


def fused(text: str) -> str:
    """Return text that ``defused`` has changed as it was.

    >>> fused("'=1+1"), fused("'tis")
    ('=1+1', "'tis")
    """
    return _DEFUSED.sub("", text) if "'" in text else text


def xml_name(column: str) -> str:
    """Return a column's name as a name of XML.

    >>> xml_name("6H"), xml_name("d min")
    ('_6H', 'd_min')
    """
    return _NOT_XML_NAME.sub("_", column)


def xml_known(text: str) -> str:
    """Return text with a sign in place of each character that XML does not know."""
    return _NOT_XML.sub("\ufffd", text)


def xml_text(cell: Any) -> str:
    """Return a cell as text of XML."""
    return escape(xml_known(cell_text(cell)), quote=False)
