"""``/v1/reference``: the tables that every answer rests on, row by row with their sources."""

from collections.abc import Iterable, Mapping
from decimal import Decimal, InvalidOperation

from flask import Blueprint

from reference import tables
from schemas.options import OPTIONS
from schemas.tables import TABLE, TABLE_LIST, TABLE_QUERY, TABLES_QUERY
from service.api.query import unknown_field
from service.api.render import Dress, Layout, Row, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.errors import NotFound

blueprint = Blueprint("reference", __name__)

LIST_COLUMNS = ("name", "title", "standard", "count", "key", "note")


def _list_rows(reply: Wire) -> Iterable[Row]:
    for head in reply["tables"]:
        yield [" ".join(head[name]) if name == "key" else head[name] for name in LIST_COLUMNS]


LIST_LAYOUT = Layout(
    "tables",
    LIST_COLUMNS,
    _list_rows,
    lambda reply: "\n".join(head["name"] for head in reply["tables"]),
    single=False,
    dress=Dress(
        main=("name", "title", "standard", "count"),
        links={"name": lambda reply, row: f"/v1/reference/{row['name']}.html"},
    ),
    title="The tables that every answer rests on",
    text="Row by row, each with the work that it was taken from and how sure that is. The name leads to the table.",
)


def table_layout(
    columns: tuple[str, ...], title: str = "", text: str = "", meanings: Mapping[str, str] | None = None
) -> Layout:
    """Return the layout of one table: its own columns, and what a page says of it."""
    return Layout(
        "table",
        columns,
        lambda reply: ([row[column] for column in columns] for row in reply["rows"]),
        lambda reply: str(len(reply["rows"])),
        single=False,
        title=title,
        text=text,
        meanings=meanings,
    )


def _head(table: tables.Table) -> Wire:
    about = table.about
    key = about["key"]
    return {
        "name": table.name,
        "title": table.title,
        "standard": str(about.get("standard", "")),
        "key": [str(column) for column in key] if isinstance(key, list) else [],
        "count": len(table.rows),
        "note": str(about.get("note", "")),
    }


@resource(
    blueprint,
    Resource(
        "/v1/reference",
        "The tables that every answer rests on",
        TABLES_QUERY,
        TABLE_LIST,
        LIST_LAYOUT,
        description="The plain text is the names of the tables, a line each.",
    ),
)
def reference(query: Wire) -> Answer:
    """List the tables."""
    return Answer(with_reference({"tables": [_head(tables.load(name)) for name in tables.names()]}))


@resource(
    blueprint,
    Resource(
        "/v1/reference/<name:table>",
        "One table with its sources",
        TABLE_QUERY,
        TABLE,
        table_layout(("source", "basis")),
        description="Cells are text as printed in the source. Any column is a filter: size=5 gives the rows of that "
        "size; numbers are compared as numbers, words without regard to case. The plain word is the number of rows.",
        statuses={404: "there is no such table"},
    ),
)
def reference_table(query: Wire, table: str) -> Answer:
    """Show one table, or the rows of it that match."""
    found = _table(table)
    columns = tuple(found.rows[0].cells) if found.rows else ()
    wanted = {name: value for name, value in query.items() if name not in OPTIONS}
    for name in wanted:
        if name not in columns:
            raise unknown_field(name, columns)
    meanings = found.about.get("columns", {})
    reply: Wire = {
        **_head(found),
        "columns": {
            name: str(meanings.get(name, name.replace("_", " "))) if isinstance(meanings, Mapping) else name
            for name in columns
        },
        "rows": [dict(row.cells) for row in found if all(_matches(row.text(name), wanted[name]) for name in wanted)],
    }
    text = ". ".join(part for part in (str(reply["standard"]), str(reply["note"]).rstrip("."), _FILTER) if part)
    return Answer(with_reference(reply), layout=table_layout(columns, str(reply["title"]), text, reply["columns"]))


_FILTER = "Add a column and a value to the address, such as ?size=5, to see only those rows"


def _table(name: str) -> tables.Table:
    # Only names that are listed are loaded: a name never becomes a path by itself.
    if name not in tables.names():
        raise NotFound(
            f"there is no table {name!r}",
            field="table",
            value=name,
            accepted=", ".join(tables.names()),
            example=tables.names()[0],
        )
    return tables.load(name)


def _matches(cell: str, wanted: str) -> bool:
    if cell.casefold() == wanted.strip().casefold():
        return True
    try:
        return Decimal(cell) == Decimal(wanted.strip().replace(",", "."))
    except InvalidOperation:
        return False
