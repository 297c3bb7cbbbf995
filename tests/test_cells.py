"""Cells: what a spreadsheet would run is defused, numbers stay numbers."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.cells import cell_text, defused, fused, xml_name, xml_text

RUN = ["=1+1", "+1+1", "-1+1", "@SUM(1)", "\t=1", "\r=1", " =1", "\xa0=1", "ab\n=1+1", "ab\r\n @x", "-", "＝1"]


@pytest.mark.parametrize("text", RUN)
def test_what_a_spreadsheet_would_run_is_defused(text: str) -> None:
    """An apostrophe stands before it, also after a line end within the cell."""
    changed = defused(text)
    assert changed != text
    assert fused(changed) == text
    assert not re.search(r"(?:^|[\r\n])\s*[=+\-@＝]", changed.lstrip("\t"))


@pytest.mark.parametrize("text", ["-0.02", "+3", "5", "", "M5 dowel pin", "3/16", "±0.01", "a=b", "x - y", "'tis"])
def test_numbers_and_harmless_text_are_left_alone(text: str) -> None:
    """-0.02 has to stay a number."""
    assert defused(text) == text
    assert fused(text) == text


@given(st.text(alphabet="=+-@'\t\r\n 1a\xa0", max_size=12))
def test_defusing_can_be_undone_unless_the_text_was_in_quotes_already(text: str) -> None:
    """A CSV reply that is sent back as a request says the same."""
    if "'" not in text:
        assert fused(defused(text)) == text


@pytest.mark.parametrize(
    ("cell", "text"),
    [
        (None, ""),
        (True, "true"),
        (8, "8"),
        (8.006, "8.006"),
        (1e-7, "0.0000001"),
        (-0.0001, "-0.0001"),
        ([], ""),
        (("a", None, 2.5), "a; ; 2.5"),
        ({"lower": 5}, '{"lower":5}'),
        ([{"a": 1}], '[{"a":1}]'),
    ],
)
def test_a_cell_is_written_in_full(cell: object, text: str) -> None:
    """No exponents: a spreadsheet may take them for text."""
    assert cell_text(cell) == text


def test_the_decimal_sign_can_be_a_comma() -> None:
    """For spreadsheets of locales that have it so."""
    assert cell_text(-0.016, ",") == "-0,016"


def test_xml_takes_what_it_can_hold() -> None:
    """Control characters cannot stand in XML at all."""
    assert xml_text("a<b & c\x00\ufffe") == "a&lt;b &amp; c\ufffd\ufffd"


@pytest.mark.parametrize(("column", "name"), [("6H", "_6H"), ("up to", "up_to"), ("verdict", "verdict"), ("ø", "_")])
def test_a_column_becomes_a_name_of_xml(column: str, name: str) -> None:
    """Names begin with a letter or an underscore."""
    assert xml_name(column) == name
