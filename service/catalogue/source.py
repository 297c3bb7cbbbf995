"""A catalogue on disk, CSV or Parquet, and the partitions that it is read by.

A partition holds whole rows and is found again without reading what stands before it. Each row keeps its number: the
line of the file where a CSV row begins, as a batch of ``/v1/verdicts`` numbers it; the row of a Parquet file, from 1.
"""

import hashlib
import io
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from service.api.body import Row, csv_rows
from service.api.render import MARK
from service.cells import cell_text
from service.errors import RequestError
from service.verdict.mates import FIELDS

FORMS = {".csv": "csv", ".parquet": "parquet"}
"""How a catalogue is written, by the end of its name."""

_CHUNK = 1024 * 1024
_ROWS_READ = 5000


class CatalogueError(ValueError):
    """A catalogue cannot be read, or its results cannot be kept where they are wanted; the message says why."""


class MissingExtraError(ValueError):
    """What judging by partition needs is not installed."""

    def __init__(self, package: str) -> None:
        """Name the package and how it is had."""
        super().__init__(
            f"{package} is not installed; it comes with the extra: pip install --require-hashes -r "
            "requirements/distributed.txt; a CSV file is also judged without it, with --workers 0"
        )


@dataclass(frozen=True, slots=True)
class Partition:
    """Rows that stand one behind the other: ``first`` is the number of the first one.

    ``start`` and ``end`` are bytes of a CSV file, rows of a Parquet file; the end is not in it.
    """

    index: int
    first: int
    rows: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Source:
    """A file, how it is written, its heading (CSV only), and the longest row that is read [bytes]."""

    path: str
    form: str
    heading: bytes
    row_limit: int

    def rows(self, partition: Partition) -> Iterator[Row]:
        """Return the checks of a partition with their numbers, or the errors that stand for them."""
        return _csv_part(self, partition) if self.form == "csv" else _parquet_part(self, partition)


def form_of(path: Path) -> str:
    """Return how a file is written.

    Raises:
        CatalogueError: its name does not say.
    """
    form = FORMS.get(path.suffix.lower())
    if form is None:
        raise CatalogueError(f"{path.name!r}: a name that ends in .csv or .parquet is accepted, for example lines.csv")
    return form


def digest(path: Path) -> str:
    """Return the SHA-256 of a file."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def opened(path: Path, rows: int, row_limit: int) -> tuple[Source, list[Partition]]:
    """Return a catalogue and its partitions of so many rows each.

    Raises:
        CatalogueError: it has no column ``line``, an unknown column, or no rows.
        MissingExtraError: it is Parquet, and nothing here reads that.
    """
    form = form_of(path)
    try:
        heading, partitions = _csv_plan(path, rows, row_limit) if form == "csv" else (b"", _parquet_plan(path, rows))
    except RequestError as error:
        raise CatalogueError(f"{path.name}: {error.line().removeprefix('error: ')}") from None
    if not partitions:
        raise CatalogueError(f"{path.name} holds no check; one row or more below the heading is accepted")
    return Source(str(path.resolve()), form, heading, row_limit), partitions


# --- CSV -----------------------------------------------------------------------------------------------------------


def _csv_plan(path: Path, rows: int, row_limit: int) -> tuple[bytes, list[Partition]]:
    """Read the whole file once, as its partitions will be read, and note where each of them begins."""
    firsts: list[int] = []
    count = 0
    with path.open("rb") as file:
        for number, _ in csv_rows(file, row_limit, FIELDS):
            if count % rows == 0:
                firsts.append(number)
            count += 1
    heading, starts, end = _positions(path, firsts, row_limit)
    ends = [*starts, end][1:]
    return heading, [
        Partition(index, first, min(rows, count - index * rows), start, stop)
        for index, (first, start, stop) in enumerate(zip(firsts, starts, ends, strict=True))
    ]


def _positions(path: Path, numbers: list[int], row_limit: int) -> tuple[bytes, list[int], int]:
    """Return the heading, where the lines of these numbers begin, and where the file ends [bytes]."""
    heading, starts, position = b"", [], 0
    wanted = iter([*numbers, 0])
    following = next(wanted)
    with path.open("rb") as file:
        for number, line in enumerate(file, start=1):
            if not heading and len(line) <= row_limit and _names(line):
                heading = line
            if number == following:
                starts.append(position)
                following = next(wanted)
            position += len(line)
    return heading, starts, position


def _names(line: bytes) -> bool:
    return bool(line.decode("utf-8", "surrogateescape").removeprefix(MARK).strip())


def _csv_part(source: Source, partition: Partition) -> Iterator[Row]:
    with Path(source.path).open("rb") as file:
        file.seek(partition.start)
        stream = io.BytesIO(source.heading + file.read(partition.end - partition.start))
    # The heading is line 1 of what is read here, and the partition's first row line 2.
    moved = partition.first - 2
    for number, row in csv_rows(stream, source.row_limit, FIELDS):
        yield number + moved, row


# --- Parquet -------------------------------------------------------------------------------------------------------


def parquet() -> Any:
    """Return the library that reads and writes Parquet.

    Raises:
        MissingExtraError: it is not installed.
    """
    try:
        import pyarrow.parquet
    except ImportError:
        raise MissingExtraError("pyarrow") from None
    return pyarrow.parquet


def _parquet_plan(path: Path, rows: int) -> list[Partition]:
    library = parquet()
    from pyarrow import ArrowInvalid, types

    try:
        with library.ParquetFile(path) as file:
            schema, count = file.schema_arrow, file.metadata.num_rows
    except ArrowInvalid as error:
        raise CatalogueError(f"{path.name} is no Parquet file: {error}") from None
    for column in schema:
        if column.name not in FIELDS:
            raise CatalogueError(f"{column.name!r} is no column here; there are: {', '.join(FIELDS)}; for example line")
        kind = column.type.value_type if types.is_dictionary(column.type) else column.type
        text = types.is_string(kind) or types.is_large_string(kind) or types.is_string_view(kind)
        if not (text or types.is_integer(kind) or types.is_floating(kind)):
            raise CatalogueError(f"column {column.name} holds {column.type}; text and numbers are accepted")
    if len(set(schema.names)) < len(schema.names) or "line" not in schema.names:
        raise CatalogueError(f"{path.name} has the columns {', '.join(schema.names)}; line once, and each other once")
    return [
        Partition(index, start + 1, min(rows, count - start), start, min(start + rows, count))
        for index, start in enumerate(range(0, count, rows))
    ]


def _parquet_part(source: Source, partition: Partition) -> Iterator[Row]:
    with parquet().ParquetFile(source.path) as file:
        groups: list[int] = []
        begins = position = 0
        for index in range(file.metadata.num_row_groups):
            following = position + file.metadata.row_group(index).num_rows
            if following > partition.start and position < partition.end:
                begins = begins if groups else position
                groups.append(index)
            position = following
        for batch in file.iter_batches(_ROWS_READ, row_groups=groups):
            first = max(partition.start - begins, 0)
            last = min(partition.end - begins, batch.num_rows)
            for at, given in enumerate(batch.slice(first, max(last - first, 0)).to_pylist(), start=begins + first + 1):
                texts = {name: cell_text(value) for name, value in given.items()}
                yield at, {name: text for name, text in texts.items() if text.strip()}
            begins += batch.num_rows
            if begins >= partition.end:
                return
