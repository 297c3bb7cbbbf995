"""Pages that repeat what the code knows are made from it: the settings and the table of sources.

Run this file as a script to write them anew.
"""

import re
from dataclasses import MISSING, fields
from pathlib import Path

import pytest

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


PAGES = {"operator.md": ("settings", settings_table), "sources.md": ("sources", sources_table)}


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
