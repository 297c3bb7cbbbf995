"""Part-family tables as ready look-ups: (standard, size) -> the dimensions that the standard adds, and its lengths.

The columns of such a table are named by dimension keys; ``<key>_lower``, ``<key>_upper`` and ``<key>_class`` give
limits. Built once per table; what a reading shows of a row is shared, not copied.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from reference import fits, tables, threads
from reference.quantities import Dimension, Limits

THREAD_COLUMNS = frozenset({"thread", "internal_thread", "screw_size", "thread_2"})
_PLAIN = frozenset({"standard", "size", "lengths", "source", "basis", "note"})
_ALSO_CALLED = {"drive_size": "across_flats"}
"""Column -> dimension key: a hexagon socket's key size is its width across flats."""
_SUFFIXES = ("_lower", "_upper", "_class")


@dataclass(frozen=True, slots=True)
class Size:
    """One row: the standard, its dimensions, the lengths that exist (empty where the table lists none), its source."""

    standard: str
    size: str
    dimensions: Mapping[str, Dimension]
    lengths: tuple[Decimal, ...]
    source: str
    basis: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class SizeTable:
    """All rows of a family's table, by standard and by the value of the key dimension.

    ``sized`` holds the standards that name their sizes by the key dimension.
    """

    name: str
    key: str
    rows: tuple[Size, ...]
    by_standard: Mapping[tuple[str, Decimal | str], tuple[Size, ...]]
    by_key: Mapping[Decimal | str, tuple[Size, ...]]
    sized: frozenset[str]

    def find(self, value: Decimal | str, standard: str | None = None) -> Size | None:
        """Return the row of that size, of the standard where one is given, else of the first standard that has it."""
        rows = self.by_key.get(value, ()) if standard is None else self.by_standard.get((standard, value), ())
        return rows[0] if rows else None

    def fitting(self, value: Decimal | str, standard: str | None, stated: Mapping[str, Dimension]) -> Size | None:
        """Return the row of that size which agrees with the dimensions that a line states.

        Where several rows of one standard agree (a disc spring without its thickness), the result holds only what is
        common to them; where several have the size and none agrees, there is no row.
        """
        rows = self.by_key.get(value, ()) if standard is None else self.by_standard.get((standard, value), ())
        if len(rows) < 2:
            return rows[0] if rows else None
        agreed = [row for row in rows if _agrees(row.dimensions, stated)]
        first = (agreed or rows)[0]
        alike = [row for row in agreed or rows if row.standard == first.standard]
        if len(alike) == 1:
            return first
        if not agreed:
            return None
        common = {k: v for k, v in first.dimensions.items() if all(row.dimensions.get(k) == v for row in alike)}
        return replace(first, dimensions=MappingProxyType(common), lengths=())

    def agreeing(self, value: Decimal | str, stated: Mapping[str, Dimension]) -> tuple[Size, ...]:
        """Return the rows of that size, of any standard, which agree with the dimensions that a line states."""
        return tuple(row for row in self.by_key.get(value, ()) if _agrees(row.dimensions, stated))

    def standards(self) -> tuple[str, ...]:
        """Return the standards of the table in its order."""
        return tuple(dict.fromkeys(row.standard for row in self.rows))


def dimension_value(dimension: Dimension | None) -> Decimal | str | None:
    """Return what a table is looked up by: the nominal of a dimension, the designation of a thread."""
    if isinstance(dimension, Limits):
        return dimension.nominal
    if dimension is None or isinstance(dimension, str):
        return dimension
    return getattr(dimension, "designation", None)


def _agrees(held: Mapping[str, Dimension], stated: Mapping[str, Dimension]) -> bool:
    for key, dimension in stated.items():
        own = held.get(key)
        if own is None or own is dimension:
            continue
        if isinstance(own, Limits) and isinstance(dimension, Limits):
            if own.nominal != dimension.nominal and not own.low <= dimension.nominal <= own.high:
                return False
        elif dimension_value(own) != dimension_value(dimension):
            return False
    return True


class _Column(NamedTuple):
    """A column that holds a dimension: its name, the dimension's key, and the columns with its limits and class."""

    name: str
    key: str
    lower: str
    upper: str
    tolerance_class: str
    plain: bool


def _columns(first: Mapping[str, str], ignored: frozenset[str]) -> list[_Column]:
    """Return the columns of a table that hold dimensions."""
    beside = {f"{column}{suffix}" for column in first if column not in _PLAIN for suffix in _SUFFIXES}
    found = []
    for name in first:
        if name in ignored or name in beside or name.endswith("_basis"):
            continue
        lower, upper, tolerance_class = (f"{name}{suffix}" for suffix in _SUFFIXES)
        plain = first.keys().isdisjoint((lower, upper, tolerance_class))
        found.append(_Column(name, _ALSO_CALLED.get(name, name), lower, upper, tolerance_class, plain))
    return found


def _limits(row: tables.Row, column: _Column) -> Limits:
    """Return a dimension with the limits of the table, or with those of its class where the table gives only that."""
    nominal = row.decimal(column.name)
    if column.plain:
        return Limits(nominal)
    cells = row.cells
    name = cells.get(column.tolerance_class) or None
    if name is not None and not cells.get(column.lower) and not cells.get(column.upper):
        return fits.limits(nominal, name)
    return Limits(
        nominal,
        row.number_or_none(column.lower) if column.lower in cells else None,
        row.number_or_none(column.upper) if column.upper in cells else None,
        name,
    )


def _dimensions(row: tables.Row, columns: list[_Column]) -> Mapping[str, Dimension]:
    found: dict[str, Dimension] = {}
    for column in columns:
        cell = row.text(column.name)
        if not cell:
            continue
        if column.name in THREAD_COLUMNS:
            thread = threads.parse(cell)
            if thread is None:
                raise tables.TableError(f"{row.table}.csv row {row.number}: {column.name}={cell!r} is no thread")
            found[column.name] = thread
        elif not cell.replace(".", "", 1).isdigit():
            found[column.key] = cell
        else:
            found[column.key] = _limits(row, column)
    return MappingProxyType(found)


@cache
def size_table(name: str, key: str) -> SizeTable:
    """Return the table ``name`` as a look-up by the dimension ``key``.

    Raises:
        TableError: a cell is not what its column says.
    """
    table = tables.load(name)
    first = table.rows[0].cells if table.rows else {}
    unread = table.about.get("text_columns", [])
    ignored = _PLAIN | (frozenset(map(str, unread)) if isinstance(unread, list) else frozenset())
    columns = _columns(first, ignored)
    rows: list[Size] = []
    by_standard: dict[tuple[str, Decimal | str], tuple[Size, ...]] = {}
    by_key: dict[Decimal | str, tuple[Size, ...]] = {}
    for row in table:
        dimensions = _dimensions(row, columns)
        size = Size(
            row.text("standard"),
            row.text("size"),
            dimensions,
            row.decimals("lengths") if "lengths" in row.cells else (),
            row.source,
            row.basis,
            row.cells.get("note", ""),
        )
        rows.append(size)
        value = dimension_value(dimensions.get(key))
        if value is not None:
            by_standard[size.standard, value] = (*by_standard.get((size.standard, value), ()), size)
            by_key[value] = (*by_key.get(value, ()), size)
    return SizeTable(name, key, tuple(rows), by_standard, by_key, frozenset(name for name, _ in by_standard))
