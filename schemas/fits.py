"""The wire of ``/v1/fits``: a nominal size and two tolerance classes in, limits and clearance out."""

from schemas.fields import Text, about, number_field, one_field, text_field, word_field
from schemas.options import LengthOptions
from schemas.reply import LIMITS, WINDOW, Reply


class FitsQuery(LengthOptions):
    """A pair of ISO 286 at one nominal size."""

    size = Text(
        required=True,
        longest=40,
        metadata=about("nominal size, in millimetres or with its unit", "25", "a length over 0 up to 500 mm"),
    )
    hole = Text(
        required=True,
        longest=10,
        metadata=about("tolerance class of the hole", "H8", "a letter, capital for a hole, and a grade"),
    )
    shaft = Text(
        required=True,
        longest=10,
        metadata=about("tolerance class of the shaft", "f7", "a letter, small for a shaft, and a grade"),
    )


class Pair(Reply):
    """What the pair gives."""

    size = number_field("nominal size", 25)
    hole = one_field(LIMITS, "limits of the hole")
    shaft = one_field(LIMITS, "limits of the shaft")
    clearance = one_field(WINDOW, "clearance of the pair, hole minus shaft; negative is interference")
    kind = word_field("kind of fit", ("clearance", "transition", "interference"), "clearance")
    source = text_field("where the figures come from", "ISO 286-2:2010")
    units = word_field("unit of the lengths in the reply", ("mm", "in"), "mm")


FITS_QUERY, PAIR = FitsQuery(), Pair()
