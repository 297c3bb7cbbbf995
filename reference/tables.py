"""Loads the data files of ``reference/data`` once, checks them, and gives the whole set one fingerprint.

A table is ``<name>.csv`` (values as printed in the source, one row per fact, columns ``source`` and ``basis`` always
present) beside ``<name>.toml`` (title, key columns, units and meaning of each column, number of rows, control sums).
Look-ups on the rows belong in the typed modules next to this one, not here.

>>> load("it_grades").title
'ISO 286-1 standard tolerance grades IT01 to IT18'
"""

import csv
import hashlib
import io
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from types import MappingProxyType

BASES = ("published", "computed", "common practice", "from memory")
"""How far a row can be trusted, best first; the only values that the column ``basis`` may hold."""


class TableError(ValueError):
    """A data file is not what its description says; the message names the file, the row and the column."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table, with typed access to its cells."""

    table: str
    number: int
    cells: Mapping[str, str]

    def text(self, column: str) -> str:
        """Return the cell as printed."""
        return self.cells[column]

    def number_or_none(self, column: str) -> Decimal | None:
        """Return the cell as an exact decimal, or None where the source leaves it empty."""
        cell = self.cells[column]
        if not cell:
            return None
        try:
            return Decimal(cell)
        except InvalidOperation as error:
            raise TableError(f"{self.table}.csv row {self.number}: {column}={cell!r} is no number") from error

    def decimal(self, column: str) -> Decimal:
        """Return the cell as an exact decimal; an empty cell is a TableError."""
        value = self.number_or_none(column)
        if value is None:
            raise TableError(f"{self.table}.csv row {self.number}: {column} is empty")
        return value

    def decimals(self, column: str) -> tuple[Decimal, ...]:
        """Return a cell that lists numbers separated by blanks."""
        return tuple(Decimal(part) for part in self.cells[column].split())

    @property
    def source(self) -> str:
        """The source of this row, as it is shown in replies."""
        return self.cells["source"]

    @property
    def basis(self) -> str:
        """How far the row can be trusted: one of BASES."""
        return self.cells["basis"]


@dataclass(frozen=True, slots=True)
class Table:
    """A loaded and checked data file."""

    name: str
    title: str
    about: Mapping[str, object]
    rows: tuple[Row, ...]

    def __iter__(self) -> Iterator[Row]:
        return iter(self.rows)


def _data() -> Traversable:
    return files("reference") / "data"


def names() -> tuple[str, ...]:
    """Return the names of all tables, sorted."""
    return tuple(sorted(entry.name[:-4] for entry in _data().iterdir() if entry.name.endswith(".csv")))


def _check(name: str, about: Mapping[str, object], rows: tuple[Row, ...]) -> None:
    if about.get("rows") != len(rows):
        raise TableError(f"{name}.toml says rows = {about.get('rows')}, {name}.csv has {len(rows)}")
    key = about.get("key")
    if not isinstance(key, list) or not key:
        raise TableError(f"{name}.toml names no key columns")
    seen: set[tuple[str, ...]] = set()
    for row in rows:
        if row.basis not in BASES:
            raise TableError(f"{name}.csv row {row.number}: basis={row.basis!r} is none of {', '.join(BASES)}")
        if not row.source:
            raise TableError(f"{name}.csv row {row.number}: source is empty")
        identity = tuple(row.cells[str(column)] for column in key)
        if identity in seen:
            raise TableError(f"{name}.csv row {row.number}: the key {identity} stands twice")
        seen.add(identity)
    sums = about.get("sums", {})
    if not isinstance(sums, Mapping):
        raise TableError(f"{name}.toml: sums is no table")
    for column, expected in sums.items():
        total = sum((row.number_or_none(column) or Decimal(0) for row in rows), Decimal(0))
        if total != Decimal(str(expected)):
            raise TableError(f"{name}.csv: column {column} adds up to {total}, {name}.toml says {expected}")


@cache
def load(name: str) -> Table:
    """Return the table of that name, read and checked once.

    Raises:
        TableError: the file and its description disagree.
        FileNotFoundError: there is no such table.
    """
    about = tomllib.loads((_data() / f"{name}.toml").read_text("utf-8"))
    reader = csv.reader(io.StringIO((_data() / f"{name}.csv").read_text("utf-8")))
    heading = next(reader)
    rows = []
    same: dict[str, str] = {}  # equal cells, such as a source, are one text
    for number, cells in enumerate(filter(None, reader), start=2):
        if len(cells) != len(heading):
            raise TableError(f"{name}.csv row {number}: more or fewer cells than the heading")
        texts = [same.setdefault(cell, cell) for cell in map(str.strip, cells)]
        rows.append(Row(name, number, MappingProxyType(dict(zip(heading, texts, strict=True)))))
    table = Table(name, str(about.get("title", name)), MappingProxyType(about), tuple(rows))
    _check(name, about, table.rows)
    return table


@cache
def fingerprint() -> str:
    """Return a short digest of every data file: two replies with the same one rest on the same figures."""
    digest = hashlib.sha256()
    for entry in sorted(_data().iterdir(), key=lambda item: item.name):
        if entry.name.endswith((".csv", ".toml")):
            digest.update(entry.name.encode())
            digest.update(entry.read_bytes())
    return digest.hexdigest()[:16]
