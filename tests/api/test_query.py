"""Query strings: UTF-8, each field once, nothing unknown."""

import pytest

from schemas.fits import FITS_QUERY
from schemas.reading import READING_QUERY
from service.api.query import load, parse_query
from service.errors import Malformed, MissingField, UnknownField


@pytest.mark.parametrize(
    ("raw", "given"),
    [
        ("", {}),
        ("line=M5+dowel%20pin", {"line": "M5 dowel pin"}),
        ("line=%C3%B85+%C2%B10.01", {"line": "ø5 ±0.01"}),
        ("line=ø5".encode().decode("latin-1"), {"line": "ø5"}),
        ("line=a&fit=", {"line": "a", "fit": ""}),
        ("line=a=b", {"line": "a=b"}),
    ],
)
def test_a_query_is_read(raw: str, given: dict[str, str]) -> None:
    """Escaped or not, as spreadsheets and curl send it."""
    assert parse_query(raw) == given


@pytest.mark.parametrize("raw", ["line=%FF", "line=\xff", "line=a&line=b", "&".join(["a=1"] * 101)])
def test_a_query_that_cannot_be_read_is_malformed(raw: str) -> None:
    """Not UTF-8, a field twice, or too many of them."""
    with pytest.raises(Malformed):
        parse_query(raw)


def test_a_missing_field_says_what_it_takes() -> None:
    """With an example that is accepted."""
    with pytest.raises(MissingField) as caught:
        load(FITS_QUERY, {"hole": "H8", "shaft": "f7"})
    assert (caught.value.field, caught.value.example) == ("size", "25")


def test_an_unknown_field_lists_the_known_ones_its_own_first() -> None:
    """The names of the resource come before the options that all resources share."""
    with pytest.raises(UnknownField) as caught:
        load(READING_QUERY, {"line": "M5", "text": "x"})
    assert caught.value.accepted == "line, format, field, errors, sep, dec, bom, units"
