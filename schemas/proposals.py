"""The wire of ``/v1/proposals``: a mate and a fit in, standard parts that go with it out."""

from typing import Any

from marshmallow import fields

from schemas.fields import (
    Closed,
    Text,
    about,
    count_field,
    list_field,
    number_field,
    one_field,
    text_field,
    texts_field,
    word_field,
)
from schemas.reading import Dimension
from schemas.reply import Reply
from schemas.tightening import Given
from schemas.verdict import Asked, Fit, Mate

_SHORT_FORMS: dict[str, fields.Field[Any]] = {
    name: field for name, field in Asked().fields.items() if name not in ("line", "fit", "temperature", "part_material")
}

ShortForms = Closed.from_dict(_SHORT_FORMS, name="ShortForms")
"""A mate in its short text form."""


class Wanted(ShortForms):  # type: ignore[misc, valid-type]
    """What a part is wanted for: one mate, as an object or in its short form, and the fit."""

    mate = fields.Dict(metadata=about("the mate as an object", {"kind": "bore", "diameter": "5 H7", "depth": 20}))
    fit = fields.Raw(
        metadata=about(
            "what the pair must do: in words, or a window as an object",
            "location",
            "a class pair (H7/m6), a window of clearance (0.002..0.014), or slip, location, press",
        )
    )
    family = Text(longest=100, blank=True, metadata=about("only parts of this family", "parallel pin"))
    length = Given(longest=100, blank=True, metadata=about("length that the part is to have", "20", "a length above 0"))
    material = Text(
        longest=100, blank=True, metadata=about("material, as designations write it", "A2", "A2, A4, stainless, St")
    )


class Substitute(Closed):
    """The same part by another standard."""

    order_text = text_field("what to order", "Parallel pin DIN 6325 - 5 m6 x 20")
    standards = texts_field("its standard", ["DIN 6325"])
    differs = texts_field("where it differs, nothing where it does not", [])


class Proposal(Closed):
    """A standard part that is judged to fit."""

    order_text = text_field("what to order", "Parallel pin ISO 8734 - 5 x 20 - A - St")
    standards = texts_field("its standards, the one of the order text first", ["ISO 8734"])
    family = text_field("kind of part", "parallel pin")
    why = text_field(
        "why it goes with the mate", "outer diameter 5 m6 (5.004..5.012), bore 5 H7: within H7/k6 to H7/n6"
    )
    rare = fields.Boolean(required=True, metadata=about("whether it is hard to find", False))
    missing = texts_field("what an order would still need", ["length"])
    share = number_field("share of pairs within limits", 1, nullable=True)
    dimensions = fields.Dict(
        keys=fields.String(metadata=about("name of the dimension", "outer_diameter")),
        values=Dimension(metadata=about("limits, a thread, a word, or ratings by name", {"nominal": 5})),
        required=True,
        metadata=about("its dimensions by name", {"outer_diameter": {"nominal": 5, "lower": 5.004, "upper": 5.012}}),
    )
    substitutes = list_field(Substitute(), "the same part by other standards, and where they differ")
    source = text_field("where its sizes stand", "ISO 8734:1997 Table 1")
    cautions = texts_field("what to mind for safety", [])


class Proposals(Reply):
    """What should be ordered for the mate."""

    mate = one_field(Mate(), "what the part must go with")
    fit = one_field(Fit(), "the fit that it was judged against", nullable=True)
    proposals = list_field(
        Proposal(), "parts that fit for every part within limits, the likeliest first, rare ones last"
    )
    tried = count_field("parts that were tried", 62)
    reason = text_field("why nothing is proposed, null where something is", None, nullable=True)
    units = word_field("unit of the lengths in the reply", ("mm", "in"), "mm")


WANTED, PROPOSALS = Wanted(), Proposals()
