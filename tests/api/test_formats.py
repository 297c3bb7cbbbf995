"""Which form a reply takes: suffix, then ``format=``, then Accept."""

import pytest

from service.api.formats import choose, look
from service.errors import BadValue, NotAcceptable, NotFound

ALL = ("json", "csv", "xml", "html", "word")


@pytest.mark.parametrize(
    ("suffix", "asked", "accept", "form"),
    [
        (None, None, "", "json"),
        (None, None, "*/*", "json"),
        ("csv", None, "*/*", "csv"),
        ("txt", None, "application/json", "word"),
        ("XML", None, "", "xml"),
        ("csv", "csv", "", "csv"),
        (None, "html", "application/json", "html"),
        (None, None, "text/csv", "csv"),
        (None, None, "text/plain;q=0.5, application/xml", "xml"),
        (None, None, "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8", "html"),
        (None, None, "image/png, */*;q=0.1", "json"),
        (None, None, "application/*", "json"),
    ],
)
def test_the_form_is_chosen(suffix: str | None, asked: str | None, accept: str, form: str) -> None:
    """The suffix wins, since a spreadsheet can say nothing else; a browser gets a page."""
    assert choose(suffix, asked, accept, ALL) == form


def test_a_suffix_and_a_format_that_disagree_are_refused() -> None:
    """Neither is silently passed over."""
    with pytest.raises(BadValue):
        choose("csv", "xml", "", ALL)


@pytest.mark.parametrize("suffix", ["pdf", "svg", "ndjson", "tx"])
def test_a_suffix_that_is_no_form_is_not_found(suffix: str) -> None:
    """The message lists the suffixes that are."""
    with pytest.raises(NotFound) as caught:
        choose(suffix, None, "", ALL)
    assert caught.value.accepted == ".json, .csv, .xml, .html, .txt"


def test_nothing_acceptable_is_said() -> None:
    """q=0 rules a form out."""
    with pytest.raises(NotAcceptable):
        choose(None, None, "image/png, application/json;q=0", ALL)


def test_the_look_takes_the_options_of_csv() -> None:
    """Separator, decimal sign and byte order mark."""
    seen = look("csv", {"sep": "tab", "dec": ",", "bom": True, "errors": "inline", "field": "verdict"})
    assert (seen.separator, seen.decimal, seen.mark, seen.inline, seen.field) == ("\t", ",", True, True, "verdict")
