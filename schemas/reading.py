"""The wire of ``/v1/reading``: one line in, all its readings out."""

from collections.abc import Mapping
from typing import Any

from marshmallow import Schema, ValidationError, fields

from schemas.fields import Closed, Text, about, count_field, list_field, text_field, texts_field, word_field
from schemas.options import LengthOptions
from schemas.reply import LIMITS, RATING, THREAD, Reply

LONGEST_LINE = 500
"""Most characters of a line."""

LINE = {"description": "the purchase line, as the buyer or the supplier words it", "example": "M5 dowel pin"}


class ReadingQuery(LengthOptions):
    """What is to be read."""

    line = Text(required=True, longest=LONGEST_LINE, metadata={**LINE, "x-accepted": "1 to 500 characters"})


class Dimension(fields.Field[Any]):
    """A dimension: limits, a thread, a word, or ratings by name. Only replies hold it."""

    forms: tuple[Schema, ...] = (LIMITS, THREAD)

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Any:
        if isinstance(value, str) or any(not form.validate(value) for form in self.forms):
            return value
        if isinstance(value, dict) and value and all(not RATING.validate(one) for one in value.values()):
            return value
        raise ValidationError("neither limits, nor a thread, nor a word, nor ratings by name")


class Because(Closed):
    """One piece of the line and what it says."""

    text = text_field("the piece of the line", "M5")
    says = text_field("what it says", "M marks an ISO metric thread")
    source = text_field("where that comes from", "ISO 965-1")


class Note(Closed):
    """Something a buyer should know about a reading."""

    code = text_field("short name of the note, for programs", "rare-length")
    text = text_field("the note", "45 mm is beyond the lengths that ISO 4762 lists for M4")
    source = text_field("where that comes from", "ISO 4762:2004 Table 1")


class Reading(Closed):
    """One possible meaning of a line."""

    family = text_field("kind of part", "parallel pin with internal thread")
    standards = texts_field("standards of the part, the first named first", ["ISO 8735", "ISO 8733"])
    size_names = text_field("dimension that the size in the line names", "internal thread")
    evidence = word_field("how the reading is supported", ("stated", "implied", "assumed"), "implied")
    dimensions = fields.Dict(
        keys=fields.String(metadata=about("name of the dimension", "outer_diameter")),
        values=Dimension(metadata=about("limits, a thread, a word, or ratings by name", {"nominal": 8})),
        required=True,
        metadata=about(
            "dimensions of the part by name",
            {"outer_diameter": {"nominal": 8, "lower": 8.006, "upper": 8.015, "tolerance_class": "m6"}},
        ),
    )
    attributes = fields.Dict(
        keys=fields.String(metadata=about("name of the attribute", "property_class")),
        values=fields.String(metadata=about("its value", "8.8")),
        required=True,
        metadata=about("what is no dimension: material, property class, finish", {"material": "hardened steel"}),
    )
    missing = texts_field("what an order would still need", ["length"])
    because = list_field(Because(), "the evidence, piece by piece of the line")
    notes = list_field(Note(), "what a buyer should know")
    order_text = text_field("unambiguous designation to order instead", "Parallel pin ISO 8735 - 8 x <length> - A - St")


class LineReading(Reply):
    """All readings of one line, best supported first."""

    line = text_field("the line as given", "M5 dowel pin")
    state = word_field(
        "clear: one reading, or all agree on what matters; ambiguous; unread",
        ("clear", "ambiguous", "unread"),
        "ambiguous",
    )
    readings = list_field(Reading(), "every reading, best supported first; none is hidden")
    question = text_field("the question to send to the supplier", "Does M5 name the thread?", nullable=True)
    reason = text_field("why the line cannot be read", None, nullable=True)
    nearest = texts_field("the nearest words that are known, for an unread line", [])
    quantity = count_field("pieces ordered, where the line says so", 10, nullable=True)
    pack = count_field("pieces in a pack, where the line says so", None, nullable=True)
    units = word_field("unit of the lengths in the reply", ("mm", "in"), "mm")


READING_QUERY, LINE_READING = ReadingQuery(), LineReading()
