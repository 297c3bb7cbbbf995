"""Bodies: JSON that is what it seems, and rows that fail one by one."""

import io

import pytest

from service.api.body import body_kind, csv_rows, ndjson_rows, parse_json, physical_lines, read_json
from service.errors import (
    BadValue,
    Malformed,
    MissingField,
    NothingToCheck,
    RequestError,
    TooLarge,
    UnknownField,
    UnsupportedMedia,
)

KNOWN = ("line", "fit", "bore")


def rows_of_csv(text: str | bytes, limit: int = 1000) -> list[tuple[int, object]]:
    """Return the rows of a CSV body; errors as their codes."""
    data = text if isinstance(text, bytes) else text.encode()
    return [
        (number, given.code if isinstance(given, RequestError) else given)
        for number, given in csv_rows(io.BytesIO(data), limit, KNOWN)
    ]


@pytest.mark.parametrize(
    ("content_type", "kind"),
    [
        ("application/json", "json"),
        ("Application/JSON; charset=UTF-8", "json"),
        ("text/csv; header=present", "csv"),
        ("application/x-ndjson", "ndjson"),
    ],
)
def test_the_content_type_says_how_a_body_is_written(content_type: str, kind: str) -> None:
    """In any case, with or without options."""
    assert body_kind(content_type) == kind


@pytest.mark.parametrize(
    "content_type", ["", "text/plain", "application/x-www-form-urlencoded", "text/csv; charset=latin-1"]
)
def test_another_content_type_is_refused(content_type: str) -> None:
    """What curl sends by itself is a form, which a check is not."""
    with pytest.raises(UnsupportedMedia):
        body_kind(content_type)


class TestJson:
    """One JSON value."""

    @pytest.mark.parametrize(
        "text",
        [
            '{"a": 1, "b": {"a": ":"}}',
            '{"a:b": "c:\\u003ad"}',
            "[]",
            '[{"a": 1}, {"a": 2}]',
            '{"a": ["x:y", {"z": 1}]}',
        ],
    )
    def test_a_value_is_read(self, text: str) -> None:
        """Colons in names and texts do not matter."""
        parse_json(text.encode())

    @pytest.mark.parametrize(
        "text",
        [
            '{"line": "M5", "line": "M6"}',
            '{"mate": {"a": 1, "a": 1}}',
            '[{"a": ":"}, {"b": 1, "b": "::"}]',
            '{"a": 1, "a": "\\u003a"}',
            '{"a": 1, "\\u0061": 2}',
            '{"a":',
            "NaN",
            '{"a": Infinity}',
            '{"a": 1e999}',
            '"\\ud800"',
            "[" * 100_000,
            "[" * 31 + "]" * 31,
            '{"a":' * 700 + "1" + "}" * 700,
        ],
    )
    def test_what_is_no_plain_json_is_malformed(self, text: str) -> None:
        """A name that stands twice, a number beyond all bounds, half a surrogate pair, a pit of brackets."""
        with pytest.raises(Malformed):
            parse_json(text.encode())

    @pytest.mark.parametrize("data", [b'"\xff"', b'{"a": "\xc3"}'])
    def test_what_is_not_utf8_is_malformed(self, data: bytes) -> None:
        """No guess is made at other encodings."""
        with pytest.raises(Malformed):
            parse_json(data)

    @pytest.mark.parametrize("declared", [None, 5, 100])
    def test_a_body_over_the_limit_is_too_large(self, declared: int | None) -> None:
        """Whether the length is declared, missing, or wrong."""
        with pytest.raises(TooLarge):
            read_json(io.BytesIO(b'"' + b"x" * 50 + b'"'), 20, declared)

    def test_an_empty_body_is_nothing_to_check(self) -> None:
        """curl posts an empty body where its file is missing."""
        with pytest.raises(NothingToCheck):
            read_json(io.BytesIO(b" \n"), 20, 2)


class TestLines:
    """Lines of a body, piece by piece."""

    def test_lines_are_numbered_and_long_ones_read_over(self) -> None:
        """A line over the limit does not hide the next one, nor fill the memory."""
        data = b"one\n" + b"x" * 200_000 + b"\nthree\n\nfive"
        assert list(physical_lines(io.BytesIO(data), 10)) == [
            (1, b"one"),
            (2, None),
            (3, b"three"),
            (4, b""),
            (5, b"five"),
        ]

    def test_a_long_last_line_without_an_end_is_reported(self) -> None:
        """Also where its end never comes."""
        assert list(physical_lines(io.BytesIO(b"x" * 200_000), 10)) == [(1, None)]

    def test_a_body_that_breaks_off_is_malformed(self) -> None:
        """The server's own errors on a broken connection do not become ours."""

        class Broken(io.BytesIO):
            def read(self, size: int | None = -1, /) -> bytes:
                raise ConnectionResetError

        with pytest.raises(Malformed):
            list(physical_lines(Broken(), 10))


class TestNdjson:
    """One JSON value per line."""

    def test_each_line_stands_for_itself(self) -> None:
        """A broken one is an error in its place; blank ones are passed over; a byte order mark too."""
        data = b'\xef\xbb\xbf{"line": "a"}\r\n\n{broken\n{"line": "\xff"}\n{"line": "b"}'
        found = [(number, getattr(given, "code", given)) for number, given in ndjson_rows(io.BytesIO(data), 100)]
        assert found == [(1, {"line": "a"}), (3, "malformed"), (4, "malformed"), (5, {"line": "b"})]


class TestCsv:
    """Rows under a heading."""

    @pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
    def test_the_separator_is_found_from_the_heading(self, separator: str) -> None:
        """A spreadsheet of a decimal-comma locale writes semicolons."""
        text = separator.join(["line", "bore", "fit"]) + "\r\n" + separator.join(["M5 pin", "5 H7", ""]) + "\r\n"
        assert rows_of_csv(text) == [(2, {"line": "M5 pin", "bore": "5 H7"})]

    def test_rows_keep_the_number_of_their_first_line(self) -> None:
        """Quoted cells run over lines, blank lines are passed over."""
        text = '\ufeff\nLine , BORE\n\n"a\nb",5\nc,6\n'
        assert rows_of_csv(text) == [(4, {"line": "a\nb", "bore": "5"}), (6, {"line": "c", "bore": "6"})]

    def test_text_that_was_defused_is_taken_back(self) -> None:
        """A reply of ours can be sent again."""
        assert rows_of_csv("line,bore\n'=5 pin,5\n") == [(2, {"line": "=5 pin", "bore": "5"})]

    def test_bad_rows_fail_alone(self) -> None:
        """Too many cells, a row over the limit, a cell that never ends."""
        text = "line,bore\na,5,6\n" + "x" * 2000 + ",5\nb,5,,\nc,5\n"
        assert rows_of_csv(text) == [
            (2, "bad-value"),
            (3, "too-large"),
            (4, {"line": "b", "bore": "5"}),
            (5, {"line": "c", "bore": "5"}),
        ]

    def test_a_quote_that_never_ends_fails_and_does_not_fill_the_memory(self) -> None:
        """The reader gives up after its own limit and goes on with the next line."""
        found = rows_of_csv("line,bore\n" + '"x\n' + "y,5\n" * 60_000)
        assert found[0] == (2, "bad-value")
        assert len(found) > 10_000

    def test_bytes_that_are_not_utf8_stay_visible_as_half_surrogates(self) -> None:
        """The check of each field then refuses them, row by row."""
        assert rows_of_csv(b"line,bore\n\xff,5\n") == [(2, {"line": "\udcff", "bore": "5"})]

    @pytest.mark.parametrize(
        ("text", "error"),
        [
            ("", NothingToCheck),
            ("\n \n", NothingToCheck),
            ("line,colour\na,b\n", UnknownField),
            ("bore,fit\n5,location\n", MissingField),
            ("line,bore,line\n", Malformed),
            ("M5 dowel pin\n", UnknownField),
            ("line\rbore\rM5 dowel pin\r5\r", Malformed),
        ],
    )
    def test_a_heading_that_names_no_check_fails_the_whole_body(self, text: str, error: type[RequestError]) -> None:
        """Nothing could be read from the rows."""
        with pytest.raises(error):
            rows_of_csv(text)


def test_a_row_with_cells_beyond_the_heading_says_which() -> None:
    """An unquoted comma in a line is the usual cause."""
    error = next(given for _, given in csv_rows(io.BytesIO(b"line,bore\nM5 pin, hardened,5 H7\n"), 100, KNOWN))
    assert isinstance(error, BadValue)
    assert error.value == "5 H7"
