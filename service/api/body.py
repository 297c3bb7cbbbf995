"""Request bodies to checks: one JSON value, or rows of CSV or NDJSON that are never held all at once.

A row that cannot be read becomes an error in its place, so that the others are still answered. What a check may hold is
not known here.
"""

import csv
import json
from collections.abc import Iterator
from typing import IO, Any

import orjson
from flask import request
from werkzeug.datastructures import FileStorage, ImmutableMultiDict
from werkzeug.exceptions import RequestEntityTooLarge
from werkzeug.http import parse_options_header

from service.api.query import unknown_field
from service.api.render import MARK
from service.cells import fused
from service.errors import BadValue, Malformed, MissingField, NothingToCheck, RequestError, TooLarge, UnsupportedMedia

Row = tuple[int, Any]
"""The number of a row's first line in the body, and its fields or the error that stands for them."""

BODY_TYPES = {
    "application/json": "json",
    "text/json": "json",
    "application/merge-patch+json": "json",
    "text/csv": "csv",
    "application/csv": "csv",
    "application/x-ndjson": "ndjson",
    "application/ndjson": "ndjson",
    "application/jsonl": "ndjson",
    "application/x-jsonlines": "ndjson",
}

MOST_NESTED = 30
"""Objects and lists of a JSON body within each other."""

MOST_READ_OVER = 16 * 1024 * 1024
"""Bytes of a refused body that are read over."""

_CHUNK = 64 * 1024
_SEPARATORS = ",;\t|"
_EXAMPLE = '{"line": "M5 dowel pin", "bore": "5 H7", "fit": "location"}'


def body_kind(content_type: str) -> str:
    """Return how a body is written: json, csv or ndjson.

    Raises:
        UnsupportedMedia: the Content-Type says something else, or nothing.
    """
    media_type, options = parse_options_header(content_type)
    kind = BODY_TYPES.get(media_type.lower())
    charset = options.get("charset", "utf-8").lower()
    if kind is None or charset not in ("utf-8", "utf8", "us-ascii"):
        raise UnsupportedMedia(
            "the body's type is not read" if kind is None else "the body has to be UTF-8",
            field="Content-Type",
            value=content_type,
            accepted="application/json, text/csv, application/x-ndjson, in UTF-8",
            example="text/csv",
        )
    return kind


# --- JSON ----------------------------------------------------------------------------------------------------------


def read_json(stream: IO[bytes], limit: int, declared: int | None) -> Any:
    """Return the one JSON value of a body.

    Raises:
        TooLarge, NothingToCheck, Malformed: it is over the limit, empty, or no JSON.
    """
    too_large = TooLarge(
        f"a JSON body has at most {limit} bytes",
        field="body",
        value=declared or "",
        accepted=f"up to {limit} bytes; CSV and NDJSON have no limit",
        example="application/x-ndjson",
    )
    if declared is not None and declared > limit:
        raise too_large
    data = bytearray()
    while chunk := read_some(stream, limit + 1 - len(data)):
        data += chunk
        if len(data) > limit:
            raise too_large
    if not data.strip():
        raise NothingToCheck("the body is empty", field="body", accepted="one check or a list", example=_EXAMPLE)
    return parse_json(bytes(data))


def read_form(
    limit: int, too_large: TooLarge
) -> tuple[ImmutableMultiDict[str, FileStorage], ImmutableMultiDict[str, str]]:
    """Return the files and the fields of the form at hand.

    Raises:
        TooLarge: the one given; the form has more bytes than the limit, whether it told its length or not.
    """
    if (request.content_length or 0) > limit:
        raise too_large
    request.max_content_length = limit
    try:
        return request.files, request.form
    except RequestEntityTooLarge:
        request.max_content_length = None
        raise too_large from None


def parse_json(data: bytes) -> Any:
    """Return the value of a JSON text; a name that stands twice in an object is refused, not overwritten.

    Raises:
        Malformed: it is no JSON, not UTF-8, nested too deeply, holds a number beyond all bounds, or a name twice.
    """
    try:
        value = orjson.loads(data)
    except orjson.JSONDecodeError as error:
        raise _malformed(str(error)) from None
    # orjson keeps the last of two equal names. Where no character is escaped, each colon of the text is one name or
    # stands in a text; as many of them as are found again means that no name was lost. Else the library decides.
    colons = data.count(b":")
    if type(value) is dict and colons == len(value) and not any(type(one) in (dict, list) for one in value.values()):
        found = colons  # one flat object with no colon in its texts, as checks are
    else:
        found = _colons(value, MOST_NESTED)
    if colons != found or b"\\u" in data:
        try:
            json.loads(data, object_pairs_hook=_unique)
        except ValueError as error:
            raise _malformed(str(error)) from None
    return value


def _colons(value: object, depth: int) -> int:
    """Return how many colons a value takes as JSON: one for each name, and those within names and texts."""
    if isinstance(value, str):
        return value.count(":")
    if not isinstance(value, dict | list):
        return 0
    if not depth:
        raise _malformed(f"more than {MOST_NESTED} objects and lists within each other")
    if isinstance(value, dict):
        return len(value) + sum(str.count(key, ":") + _colons(one, depth - 1) for key, one in value.items())
    return sum(_colons(one, depth - 1) for one in value)


def _unique(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    unique = dict(pairs)
    if len(unique) < len(pairs):
        twice = next(name for index, (name, _) in enumerate(pairs) if name in dict(pairs[:index]))
        raise ValueError(f"{twice!r} is given twice in one object")
    return unique


def _malformed(why: str) -> Malformed:
    return Malformed(f"no JSON: {why}", field="body", accepted="JSON in UTF-8", example=_EXAMPLE)


# --- rows ----------------------------------------------------------------------------------------------------------


def read_some(stream: IO[bytes], size: int) -> bytes:
    """Return the next piece of a body, empty at its end; a body that breaks off is an error.

    Raises:
        Malformed: the client went away, or the chunks of the body are not as HTTP has them.
    """
    try:
        return stream.read(size)
    except Exception as error:  # each server has its own for a broken connection or a wrong chunk
        raise Malformed("the body breaks off", field="body", accepted="a whole body") from error


def read_over(stream: IO[bytes]) -> None:
    """Take the rest of a body, up to a bound: to close on data not taken would cost the client the reply."""
    taken = 0
    try:
        while taken < MOST_READ_OVER and (chunk := stream.read(_CHUNK)):
            taken += len(chunk)
    except Exception:  # what cannot be read any more has no rest
        return


def physical_lines(stream: IO[bytes], limit: int) -> Iterator[tuple[int, bytes | None]]:
    """Return each line of a body with its number; None stands for one over the limit, which is read over."""
    number, rest, too_long = 0, b"", False
    while chunk := read_some(stream, _CHUNK):
        lines = (rest + chunk).split(b"\n")
        rest = lines.pop()
        for line in lines:
            number += 1
            yield number, None if too_long or len(line) > limit else line
            too_long = False
        if len(rest) > limit:
            rest, too_long = b"", True
    if rest or too_long:
        yield number + 1, None if too_long else rest


def ndjson_rows(stream: IO[bytes], limit: int) -> Iterator[Row]:
    """Return the checks of a body with one JSON object per line; blank lines are passed over."""
    for number, line in physical_lines(stream, limit):
        if line is None:
            yield number, _too_long(limit)
            continue
        if number == 1:
            line = line.removeprefix(MARK.encode())
        if line.isspace() or not line:
            continue
        try:
            yield number, parse_json(line)
        except RequestError as error:
            yield number, error


def csv_rows(stream: IO[bytes], limit: int, known: tuple[str, ...]) -> Iterator[Row]:
    """Return the checks of a CSV body, whose first row names the fields; an empty cell is a field not given.

    The separator is found out from the first row, which holds only names that are known. Text that was defused against
    formulas is taken back.

    Raises:
        UnknownField, MissingField, Malformed, NothingToCheck: the first row does not name fields of a check.
    """
    too_long: set[int] = set()
    lines = Lines(stream, limit, too_long)
    first = next((line for line in lines if line.removeprefix(MARK).strip()), None)
    if first is None:
        raise NothingToCheck("the body is empty", field="body", accepted="a heading and rows", example="line,bore,fit")
    separator = max(_SEPARATORS, key=first.count)
    heading = _heading(first.removeprefix(MARK), separator, known)
    reader = csv.reader(lines, delimiter=separator)
    offset, number = lines.number, lines.number + 1
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            yield number, BadValue(f"the row is no CSV: {error}", field="row", accepted="a row as RFC 4180 has it")
            number = offset + reader.line_num + 1
            continue
        here, number = number, offset + reader.line_num + 1
        if any(here <= line < number for line in too_long):
            too_long.clear()
            yield here, _too_long(limit)
        elif any(cell.strip() for cell in cells):
            yield here, _fields(heading, cells)


class Lines(Iterator[str]):
    """The lines of a body as text; bytes that are not UTF-8 become half surrogates, which no field accepts."""

    def __init__(self, stream: IO[bytes], limit: int, too_long: set[int]) -> None:
        """Begin before the first line; the numbers of lines over the limit are put into ``too_long``."""
        self.number = 0
        self._lines = physical_lines(stream, limit)
        self._too_long = too_long

    def __next__(self) -> str:
        """Return the next line with its end."""
        self.number, line = next(self._lines)
        if line is None:
            self._too_long.add(self.number)
            return "\n"
        return line.decode("utf-8", "surrogateescape") + "\n"


def _heading(line: str, separator: str, known: tuple[str, ...]) -> list[str]:
    example = "line,bore,fit"
    try:
        names = [name.strip().lower() for name in next(csv.reader([line], delimiter=separator))]
    except csv.Error as error:
        raise Malformed(f"the heading is no CSV: {error}", field="body", accepted="RFC 4180", example=example) from None
    while names and not names[-1]:
        names.pop()
    for index, name in enumerate(names):
        if name not in known:
            raise unknown_field(name, known, example)
        if name in names[:index]:
            raise Malformed(f"{name!r} stands twice in the heading", field=name, accepted="each once", example=example)
    if "line" not in names:
        raise MissingField("the heading names no line", field="line", accepted=", ".join(known), example=example)
    return names


def _fields(heading: list[str], cells: list[str]) -> dict[str, str] | RequestError:
    if any(cell.strip() for cell in cells[len(heading) :]):
        return BadValue(
            f"{len(cells)} cells under {len(heading)} names",
            field="row",
            value=cells[len(heading)],
            accepted="as many cells as names in the heading; a cell that holds the separator stands in quotes",
            example='"M5 dowel pin, hardened",5 H7',
        )
    return {name: fused(cell) for name, cell in zip(heading, cells, strict=False) if cell.strip()}


def _too_long(limit: int) -> TooLarge:
    return TooLarge(f"a row has at most {limit} bytes", field="row", accepted=f"up to {limit} bytes")
