"""The wire of ``/v1/reference``: the list of tables, and one table with its rows as printed in the source."""

from marshmallow import INCLUDE, fields

from schemas.fields import about, count_field, list_field, text_field, texts_field
from schemas.options import ViewOptions
from schemas.reply import Reply


class TablesQuery(ViewOptions):
    """The list of tables takes the options only."""


class TableQuery(ViewOptions):
    """A table takes, besides the options, any of its columns as a filter; the resource knows their names."""

    class Meta:
        """Options of marshmallow."""

        unknown = INCLUDE


class TableHead(Reply):
    """What a table holds."""

    name = text_field("name of the table, as in its address", "it_grades")
    title = text_field("what it holds", "ISO 286-1 standard tolerance grades IT01 to IT18")
    standard = text_field("standard that the figures belong to", "ISO 286-1:2010")
    key = texts_field("columns that name a row", ["over", "up_to"])
    count = count_field("number of rows in the whole table", 21)
    note = text_field("what to know before relying on it", "")


class TableList(Reply):
    """All tables."""

    tables = list_field(TableHead(exclude=("reference",)), "the tables by name")


class Table(TableHead):
    """One table. Cells are text, as printed in the source; each row has its source and its basis."""

    columns = fields.Dict(
        keys=fields.String(metadata=about("name of the column", "IT7")),
        values=fields.String(metadata=about("meaning and unit", "tolerance of grade 7 [µm]")),
        required=True,
        metadata=about("meaning of each column, in the order of the file", {"IT7": "tolerance of grade 7 [µm]"}),
    )
    rows = fields.List(
        fields.Dict(
            keys=fields.String(metadata=about("name of the column", "IT7")),
            values=fields.String(metadata=about("cell as printed", "21")),
            metadata=about("a row by column", {"over": "18", "up_to": "30", "IT7": "21"}),
        ),
        required=True,
        metadata=about("the rows that match the filter", [{"over": "18", "up_to": "30", "IT7": "21"}]),
    )


TABLES_QUERY, TABLE_QUERY, TABLE_LIST, TABLE = TablesQuery(), TableQuery(), TableList(), Table()
