"""Pages that repeat what the code knows are made from it: the settings, the table of sources, the thresholds.

Run this file as a script to write them anew.
"""

import ast
import inspect
import pkgutil
import re
from collections.abc import Iterator
from dataclasses import MISSING, fields
from decimal import Decimal
from importlib import import_module
from itertools import pairwise
from pathlib import Path

import pytest

import service.strength
from reference import tables
from service.config import PREFIX, Settings

DOCS = Path(__file__).resolve().parents[2] / "docs"


def settings_table() -> str:
    """Return the settings as a table."""
    rows = ["| variable | default | meaning |", "| --- | --- | --- |"]
    for item in fields(Settings):
        default = "" if item.default is MISSING else item.default
        shown = {"database_url": "an SQLite file in `var/`", "workers": "one per core"}.get(item.name, f"`{default}`")
        rows.append(f"| `{PREFIX}{item.name.upper()}` | {shown} | {item.metadata['meaning']} |")
    return "\n".join(rows)


def sources_table() -> str:
    """Return every table with the standing of its rows and the works it rests on."""
    rows = ["| table | holds | rows | published | computed | common practice | from memory |", "| --- " * 7 + "|"]
    for name in tables.names():
        table = tables.load(name)
        counted = [sum(row.basis == basis for row in table) or "" for basis in tables.BASES]
        rows.append(f"| `{name}` | {table.title} | {len(table.rows)} | " + " | ".join(map(str, counted)) + " |")
    return "\n".join(rows)


def _numbers(module: str) -> Iterator[tuple[str, str]]:
    """Yield every number that a module names, and what it says of it."""
    known = import_module(module)
    body = ast.parse(inspect.getsource(known)).body
    for line, below in pairwise(body):
        match line, below:
            case ast.Assign(targets=[ast.Name(name)]), ast.Expr(ast.Constant(str(meaning))):
                if not name.startswith("_") and (value := _shown(getattr(known, name))):
                    yield value, meaning


def _shown(value: object) -> str:
    """Return numbers as a cell shows them, or nothing for anything else."""
    match value:
        case int() | float() | Decimal():
            return f"{value:g}"
        case tuple():
            return ", ".join(map(_shown, value))
        case dict():
            return "; ".join(f"{key}: {_shown(item)}" for key, item in value.items())
    return ""


def figures_table() -> str:
    """Return the thresholds of the calculations as they stand in the code."""
    modules = [f"service.strength.{module.name}" for module in pkgutil.iter_modules(service.strength.__path__)]
    modules += ["service.verdict.belt_path", "service.verdict.hole_pattern"]
    rows = ["| of | figure | what it is |", "| --- | --- | --- |"]
    for module in modules:
        subject = module.rpartition(".")[2].replace("_", " ")
        rows += [f"| {subject} | {value} | {' '.join(meaning.split())} |" for value, meaning in _numbers(module)]
    return "\n".join(rows)


PAGES = {
    "operator.md": ("settings", settings_table),
    "sources.md": ("sources", sources_table),
    "strength.md": ("figures", figures_table),
}


def _between(page: str, name: str) -> re.Pattern[str]:
    return re.compile(rf"(<!-- {name} -->\n).*?(\n?<!-- /{name} -->)", re.DOTALL)


@pytest.mark.parametrize("page", PAGES)
def test_a_page_says_what_the_code_says(page: str) -> None:
    """The block of the page is what the code makes; `python tests/docs/test_pages.py` writes it anew."""
    name, make = PAGES[page]
    text = (DOCS / page).read_text("utf-8")
    match = _between(page, name).search(text)
    assert match is not None
    assert match[0] == f"<!-- {name} -->\n{make()}\n<!-- /{name} -->"


def _reads_environment(node: ast.AST) -> bool:
    match node:
        case ast.Attribute(value=ast.Name("os"), attr="environ" | "environb" | "getenv" | "getenvb"):
            return True
        case ast.ImportFrom(module="os", names=names):
            return any(one.name in ("environ", "environb", "getenv", "getenvb") for one in names)
    return False


def _variables() -> dict[str, set[str]]:
    """Return each module that reads environment variables, with every text in it that could be the name of one."""
    found = {}
    for package in ("service", "schemas", "reference"):
        for path in (DOCS.parent / package).rglob("*.py"):
            nodes = list(ast.walk(ast.parse(path.read_text("utf-8"))))
            if any(map(_reads_environment, nodes)):
                texts = {node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)}
                names = {one for one in texts if re.fullmatch(r"[A-Z][A-Z0-9]*(_[A-Z0-9]+)+", one)}
                found[str(path.relative_to(DOCS.parent))] = names
    return found


def test_every_variable_that_the_code_reads_is_listed() -> None:
    """The settings by the table that is made of them; whatever another module reads is named on the page too."""
    text = (DOCS / "operator.md").read_text("utf-8")
    found = _variables()
    assert found.pop("service/config.py") == set(), "settings are read by the names of their fields"
    assert found
    for module, names in found.items():
        assert names, f"{module} reads the environment by names that are not found in it"
        for name in names:
            assert f"`{name}`" in text, f"{name}, which {module} reads, does not stand in docs/operator.md"


def test_guides_are_linked_from_the_readme() -> None:
    """No guide is left where nobody finds it."""
    readme = (DOCS.parent / "README.md").read_text("utf-8") + (DOCS / "verdicts.md").read_text("utf-8")
    for page in DOCS.glob("*.md"):
        assert page.name in readme, page.name


if __name__ == "__main__":
    for page, (name, make) in PAGES.items():
        path = DOCS / page
        block = f"<!-- {name} -->\n{make()}\n<!-- /{name} -->"
        text = path.read_text("utf-8")
        path.write_text(_between(page, name).sub(lambda match, block=block: block, text), "utf-8")
