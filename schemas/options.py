"""The options that every resource takes in its query: the form of the reply, not its content."""

from marshmallow import Schema

from schemas.fields import Closed, Flag, Text, Word, about

FORMATS = ("json", "csv", "xml", "html", "word", "ndjson", "svg", "junit", "tap", "lines", "sarif")
"""The forms of a reply by name; ``word`` is plain text, the last four are reports for build tools."""

UNITS = ("mm", "in")
SEPARATORS = {",": ",", ";": ";", "tab": "\t", "|": "|"}
DECIMALS = (".", ",")


class ViewOptions(Closed):
    """How the reply is to look."""

    format = Word(
        FORMATS,
        metadata=about(
            "form of the reply; a suffix of the path (.json, .csv, .xml, .html, .txt, ...) says the same",
            "csv",
            ", ".join(FORMATS),
        ),
    )
    field = Text(
        longest=100,
        metadata=about(
            "one field of the reply, by its path, instead of the whole",
            "readings.0.dimensions.outer_diameter.upper",
            "names and list positions joined by dots",
        ),
    )
    errors = Word(
        ("problem", "inline"),
        metadata=about(
            "inline answers 200 with the error as text, for sheets that lose the body of a 4xx; gate=1 goes before it",
            "inline",
        ),
    )
    sep = Word(tuple(SEPARATORS), metadata=about("separator of CSV", ";", ", ".join(SEPARATORS)))
    dec = Word(DECIMALS, metadata=about("decimal sign of CSV and plain text", ",", "a point or a comma"))
    bom = Flag(metadata=about("begin CSV with a byte order mark, which Excel needs", "1", "1 or 0"))


class LengthOptions(ViewOptions):
    """How a reply that holds lengths is to look."""

    units = Word(UNITS, metadata=about("unit of the lengths in the reply", "in", "mm or in"))


OPTIONS: frozenset[str] = frozenset(ViewOptions().fields)
"""Names of the options; no column of a table may be called so."""


def names(schema: Schema) -> tuple[str, ...]:
    """Return the names that a request schema knows, its own before the options."""
    return tuple(sorted(schema.load_fields, key=lambda name: name in OPTIONS or name in ("units", "gate")))
