"""The wire of ``/v1/families``: every part family with what its size names, its words, standards and examples."""

from marshmallow import fields

from schemas.fields import about, list_field, text_field, texts_field
from schemas.options import ViewOptions
from schemas.reply import Reply


class FamiliesQuery(ViewOptions):
    """The list of families takes the options only."""


class Family(Reply):
    """One family of parts."""

    family = text_field("name of the family", "parallel pin")
    size_names = text_field("which dimension the size in a line names", "outer diameter")
    standards = texts_field("standards that name it, the usual one first", ["ISO 8734", "ISO 2338"])
    needs = texts_field("what an order must state", ["outer_diameter", "length"])
    length = text_field("how the length is measured, where that is worth saying", "")
    order_text = text_field("rule of its designation", "Parallel pin ISO 8734 - <outer diameter> x <length> - A - St")
    examples = texts_field("lines that name it", ["ISO 8734 - 6 x 30 - A - St", "5x20 dowel"])
    words = fields.Dict(
        keys=fields.String(metadata=about("language", "en")),
        values=fields.List(fields.String(metadata=about("words", "dowel pin"))),
        required=True,
        metadata=about("nouns that name it, by language", {"en": ["dowel pin"], "de": ["Zylinderstift"]}),
    )
    table = text_field("table of its sizes under /v1/reference, empty where there is none", "parallel_pin")
    source = text_field("where the meaning of its size comes from", "ISO 2338, ISO 8734")


class FamilyList(Reply):
    """All families."""

    families = list_field(Family(exclude=("reference",)), "the families by name")


FAMILIES_QUERY, FAMILY_LIST = FamiliesQuery(), FamilyList()
