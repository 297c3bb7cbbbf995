"""``/v1/reading``: what would really arrive for this line?"""

from collections.abc import Iterator
from urllib.parse import urlencode

from flask import Blueprint

from schemas.reading import LINE_READING, READING_QUERY
from service.api import wire
from service.api.render import Dress, Layout, Row, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.cells import cell_text
from service.pages.lines import reading_page
from service.reading import read

blueprint = Blueprint("reading", __name__)

COLUMNS = (
    "state",
    "line",
    "family",
    "standards",
    "size_names",
    "evidence",
    "dimensions",
    "attributes",
    "missing",
    "order_text",
    "question",
    "reason",
    "nearest",
    "quantity",
    "pack",
    "reference",
    "error",
)


DRESS = Dress(
    main=("state", "line", "family", "dimensions", "order_text", "reason"),
    signs=frozenset({"state"}),
    codes=frozenset({"order_text"}),
    links={"line": lambda reply, row: f"/v1/reading.html?{urlencode({'line': reply['line']})}"},
)


def dimension_text(dimension: object) -> str:
    """Return a dimension of a reply in one short text.

    >>> dimension_text({"nominal": 8, "lower": 8.006, "upper": 8.015, "tolerance_class": "m6"})
    '8 m6 (8.006..8.015)'
    """
    if not isinstance(dimension, dict):
        return cell_text(dimension)
    if "designation" in dimension:
        return str(dimension["designation"])
    if "nominal" not in dimension:
        return ", ".join(f"{kind} {cell_text(one['value'])} {one['unit']}" for kind, one in dimension.items())
    size = " ".join(
        cell_text(dimension[name]) for name in ("nominal", "tolerance_class") if dimension[name] is not None
    )
    if dimension["lower"] is None:
        return size
    return f"{size} ({cell_text(dimension['lower'])}..{cell_text(dimension['upper'])})"


def dimensions_text(dimensions: Wire) -> str:
    """Return all dimensions of a reading in one text."""
    return "; ".join(f"{name.replace('_', ' ')} {dimension_text(one)}" for name, one in dimensions.items())


def _rows(reply: Wire) -> Iterator[Row]:
    # An unread line is a row as well: without its readings, with the reason.
    for one in reply["readings"] or [{}]:
        shown = {
            **reply,
            **one,
            "dimensions": dimensions_text(one.get("dimensions", {})),
            "attributes": "; ".join(f"{name} {value}" for name, value in one.get("attributes", {}).items()),
        }
        yield [cell_text(cell) if isinstance(cell := shown.get(name), list | tuple) else cell for name in COLUMNS]


LAYOUT = Layout(
    "readings", COLUMNS, _rows, lambda reply: str(reply["state"]), single=False, page=reading_page, dress=DRESS
)


@resource(
    blueprint,
    Resource(
        "/v1/reading",
        "What a purchase line means",
        READING_QUERY,
        LINE_READING,
        LAYOUT,
        description="Every meaning that the line can have, best supported first, each with its evidence. "
        "CSV, XML and HTML give one row per reading; the plain word is the state.",
    ),
)
def reading(query: Wire) -> Answer:
    """Read one line."""
    units = query.get("units", "mm")
    return Answer(with_reference(wire.line_reading(read(query["line"]), units), units))
