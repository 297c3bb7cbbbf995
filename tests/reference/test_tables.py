"""Every data file is what its description says, names its sources, and a changed digit is noticed."""

import csv
import shutil
from collections.abc import Callable, Iterator
from decimal import Decimal, InvalidOperation
from pathlib import Path

import pytest

from reference import tables
from reference.tables import BASES, TableError

DATA = Path(tables.__file__).parent / "data"
NAMES = tables.names()
SUMMED = tuple((name, column) for name in NAMES for column in dict(tables.load(name).about.get("sums", {})))  # type: ignore[call-overload]


@pytest.fixture
def copy_of(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[str], Path]]:
    """Give what copies one table to where the loader then reads, and forget the copy afterwards."""

    def copied(name: str) -> Path:
        for suffix in (".csv", ".toml"):
            shutil.copy(DATA / (name + suffix), tmp_path)
        monkeypatch.setattr(tables, "_data", lambda: tmp_path)
        forget()
        return tmp_path / f"{name}.csv"

    def forget() -> None:
        tables.load.cache_clear()
        tables.fingerprint.cache_clear()

    yield copied
    forget()


def is_number(cell: str) -> bool:
    """Tell whether a cell holds one number."""
    try:
        return Decimal(cell).is_finite()
    except InvalidOperation:
        return False


def figure_columns(name: str) -> tuple[str, ...]:
    """Return the columns that hold nothing but numbers."""
    rows = tables.load(name).rows
    return tuple(
        column
        for column in rows[0].cells
        if any(row.text(column) for row in rows)
        and all(not row.text(column) or is_number(row.text(column)) for row in rows)
    )


def rewrite(path: Path, change: tuple[int, str, str]) -> None:
    """Write the CSV file again with one cell changed: row, column, new text."""
    number, column, text = change
    with path.open(newline="", encoding="utf-8") as file:
        reader = csv.DictReader(file)
        rows, columns = list(reader), list(reader.fieldnames or ())
    rows[number][column] = text
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, columns, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


def with_other_digit(number: str) -> str:
    """Return the number with its last digit changed."""
    return number[:-1] + str((int(number[-1]) + 1) % 10)


def test_there_are_tables_and_each_has_its_description() -> None:
    """Each CSV file has a TOML file beside it, and no description stands alone."""
    assert len(NAMES) > 10
    assert {path.stem for path in DATA.glob("*.csv")} == {path.stem for path in DATA.glob("*.toml")}


@pytest.mark.parametrize("name", NAMES)
def test_table_loads_and_says_what_it_is(name: str) -> None:
    """A table has rows and a title; its description tells the standard and every column that it names exists."""
    table = tables.load(name)
    assert table.rows
    assert table.title != name
    assert table.about.get("standard")
    described = table.about.get("columns", {})
    assert isinstance(described, dict)
    assert set(described) <= set(table.rows[0].cells)


@pytest.mark.parametrize("name", NAMES)
def test_every_row_names_its_source_and_how_far_to_trust_it(name: str) -> None:
    """Each row has a source and one of the four bases; what is published rests on more than memory."""
    for row in tables.load(name):
        assert row.source
        assert row.basis in BASES
        if row.basis == "published":
            assert not all("from memory" in work for work in row.source.split("; ")), (name, row.number)


@pytest.mark.parametrize("name", NAMES)
def test_sources_show_no_path_and_no_host(name: str) -> None:
    """A source is a citation: no path of a machine stands in it."""
    for row in tables.load(name):
        assert not row.source.startswith("/")
        assert "/work" not in row.source
        assert "/home" not in row.source


@pytest.mark.parametrize("name", [name for name in NAMES if figure_columns(name)])
def test_table_of_figures_has_control_sums(name: str) -> None:
    """A table that holds figures carries control sums over some of them."""
    assert tables.load(name).about.get("sums"), f"{name}.toml has no [sums]; its figures are {figure_columns(name)}"


@pytest.mark.parametrize(("name", "column"), SUMMED)
def test_changed_digit_is_noticed(copy_of: Callable[[str], Path], name: str, column: str) -> None:
    """A digit changed in any summed column stops the table from loading, and the message names file and column."""
    path = copy_of(name)
    rows = tables.load(name).rows
    number, cell = next((i, row.text(column)) for i, row in enumerate(rows) if row.text(column)[-1:].isdigit())
    rewrite(path, (number, column, with_other_digit(cell)))
    tables.load.cache_clear()
    with pytest.raises(TableError, match=rf"{name}\.csv.*({column}|key)"):
        tables.load(name)


def test_changed_text_changes_the_fingerprint(copy_of: Callable[[str], Path]) -> None:
    """Even where no sum is kept, the fingerprint that replies carry changes with any letter."""
    path = copy_of("it_grades")
    before = tables.fingerprint()
    tables.fingerprint.cache_clear()
    assert tables.fingerprint() == before
    tables.fingerprint.cache_clear()
    rewrite(path, (0, "source", "another"))
    assert tables.fingerprint() != before


@pytest.mark.parametrize(
    ("column", "text", "said"),
    [
        ("basis", "rumour", "basis='rumour' is none of published, computed, common practice, from memory"),
        ("source", "", "source is empty"),
        ("IT7", "ten", "IT7='ten' is no number"),
        ("up_to", "6", "adds up to"),
        ("IT7", "", "adds up to"),
    ],
)
def test_broken_row_is_refused_with_its_place(
    copy_of: Callable[[str], Path], column: str, text: str, said: str
) -> None:
    """A row without source, with an unknown basis or a cell that is no number is refused, naming the file."""
    rewrite(copy_of("it_grades"), (0, column, text))
    with pytest.raises(TableError, match=said) as refused:
        tables.load("it_grades")
    assert "it_grades.csv" in str(refused.value)


def test_same_key_twice_is_refused(copy_of: Callable[[str], Path]) -> None:
    """Two rows for the same fact are refused."""
    rewrite(copy_of("clearance_holes"), (1, "series", "fine"))
    with pytest.raises(TableError, match="stands twice"):
        tables.load("clearance_holes")


def test_missing_row_is_refused(copy_of: Callable[[str], Path]) -> None:
    """A row that was lost is noticed."""
    path = copy_of("it_grades")
    path.write_text("".join(path.read_text("utf-8").splitlines(keepends=True)[:-1]), "utf-8")
    with pytest.raises(TableError, match="says rows = 13"):
        tables.load("it_grades")


def test_cell_too_many_is_refused(copy_of: Callable[[str], Path]) -> None:
    """A row with more cells than the heading is refused with its number."""
    path = copy_of("it_grades")
    path.write_text(path.read_text("utf-8").replace("0,3,0.3", "0,3,0.3,0.3", 1), "utf-8")
    with pytest.raises(TableError, match="row 2: more or fewer cells"):
        tables.load("it_grades")
