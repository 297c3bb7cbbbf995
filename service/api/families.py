"""``/v1/families``: the part families that lines are read as, each with what its size names and examples."""

from collections.abc import Iterable

from flask import Blueprint

from reference.families import all_families
from reference.families.base import Family
from schemas.families import FAMILIES_QUERY, FAMILY_LIST
from service.api.render import Dress, Layout, Row, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.reading.assemble import order_text

blueprint = Blueprint("families", __name__)

COLUMNS = ("family", "size_names", "standards", "needs", "length", "order_text", "examples", "words", "table", "source")


def _rows(reply: Wire) -> Iterable[Row]:
    for family in reply["families"]:
        words = dict.fromkeys(word for phrases in family["words"].values() for word in phrases)
        flat = {**family, "words": list(words)}
        yield ["; ".join(value) if isinstance(value := flat[name], list) else value for name in COLUMNS]


LAYOUT = Layout(
    "families",
    COLUMNS,
    _rows,
    lambda reply: "\n".join(family["family"] for family in reply["families"]),
    single=False,
    dress=Dress(
        main=("family", "size_names", "standards", "order_text", "examples"),
        codes=frozenset({"order_text"}),
        links={"family": lambda reply, row: f"/v1/reference/{row['table']}.html" if row["table"] else None},
    ),
    title="The kinds of part that lines are read as",
    text="What the size in a line names, the standards, how the part is ordered, and examples of lines. The name of a "
    "kind leads to its table of sizes.",
)


def _wire(family: Family) -> Wire:
    return {
        "family": family.name,
        "size_names": family.size_names,
        "standards": [standard.name for standard in family.standards],
        "needs": list(family.needs),
        "length": family.length_says,
        "order_text": order_text(family.order, {}, {}),
        "examples": [example.line for example in family.examples],
        "words": {language: list(phrases) for language, phrases in family.nouns.items()},
        "table": family.table or "",
        "source": family.source,
    }


@resource(
    blueprint,
    Resource(
        "/v1/families",
        "The part families that lines are read as",
        FAMILIES_QUERY,
        FAMILY_LIST,
        LAYOUT,
        description="With what the size in a line names, the words and standards that name the family, and examples. "
        "The plain text is the names of the families, a line each.",
    ),
)
def families(query: Wire) -> Answer:
    """List the families."""
    return Answer(with_reference({"families": [_wire(family) for family in all_families() if not family.generic]}))
