"""The recipes of the guide for spreadsheets, each computed by LibreOffice with a decimal point and a decimal comma."""

import re
from collections.abc import Callable
from pathlib import Path
from string import ascii_uppercase
from typing import NamedTuple

import pytest

from demo.sheet.__main__ import Row, flat_ods
from tests.sheets.office import Cells, Office

GUIDE = Path(__file__).resolve().parents[2] / "docs" / "spreadsheets.md"
_BLOCK = re.compile(r"^```calc\n(.*?)^```", re.MULTILINE | re.DOTALL)
_CELL = re.compile(r"([A-Z])(\d+)  (.+)")
_NUMBER = re.compile(r"-?\d+(\.\d+)?")


class Recipe(NamedTuple):
    """One block of the guide: what is typed into cells, and what some of them then show."""

    typed: dict[tuple[int, str], str]
    shown: dict[str, str]


def recipe(block: str) -> Recipe:
    """Return a block as it is to be tried."""
    typed: dict[tuple[int, str], str] = {}
    shown: dict[str, str] = {}
    last = ""
    for line in block.splitlines():
        if line.startswith("    "):
            shown[last] = line.strip()
            continue
        match = _CELL.fullmatch(line)
        assert match is not None, line
        column, row, content = match.groups()
        typed[int(row), column] = content
        last = column + row
    return Recipe(typed, shown)


RECIPES = [recipe(block) for block in _BLOCK.findall(GUIDE.read_text("utf-8"))]


@pytest.fixture(scope="module", params=["en-US", "de-DE"])
def tried(request: pytest.FixtureRequest, office: Callable[[str], Office], trusted: Path, address: str) -> list[Cells]:
    """The cells of every recipe; each is a sheet of one document, so that LibreOffice is started once."""
    sheets = {str(index): _rows(one, address) for index, one in enumerate(RECIPES)}
    path = trusted / "recipes.fods"
    path.write_text(flat_ods(sheets), "utf-8")
    found = office(request.param).cells(path)
    return [found[name] for name in sheets]


def _rows(one: Recipe, address: str) -> list[Row]:
    """Return the rows of a sheet; a number is typed as one."""
    letters = ascii_uppercase[: ascii_uppercase.index(max(column for _, column in one.typed)) + 1]
    typed = {place: content.replace("http://127.0.0.1:8383", address) for place, content in one.typed.items()}
    cells = {place: float(content) if _NUMBER.fullmatch(content) else content for place, content in typed.items()}
    return [
        tuple(cells.get((row, column), "") for column in letters) for row in range(1, max(row for row, _ in typed) + 1)
    ]


@pytest.mark.parametrize("index", range(len(RECIPES)))
def test_a_recipe_shows_what_the_guide_says(tried: list[Cells], index: int) -> None:
    """Numbers are numbers, in every locale."""
    shown = RECIPES[index].shown
    assert shown
    for place, content in shown.items():
        cell = tried[index][place]
        kind = "number" if _NUMBER.fullmatch(content) else "text"
        assert (cell.kind, cell.content) == (kind, content), place


def test_the_guide_has_recipes() -> None:
    """At least six, among them one for an error."""
    assert len(RECIPES) >= 6
    assert any("error: bore" in one.shown.values() for one in RECIPES)
