"""The wire of ``/v1/identifications``: measured values in, the standard parts that they can be out."""

from marshmallow import fields

from schemas.fields import Closed, Text, about, count_field, list_field, number_field, one_field, text_field, word_field
from schemas.options import LengthOptions
from schemas.reading import Reading
from schemas.reply import Reply


class IdentificationQuery(LengthOptions):
    """The options of an identification."""


class Measured(Closed):
    """What was measured on a part."""

    measured = fields.Dict(
        keys=fields.String(metadata=about("name of the dimension", "outer_diameter")),
        values=fields.Raw(metadata=about("length in mm or with its unit, or the designation of a thread", 8.01)),
        required=True,
        metadata=about(
            "any of the dimensions of a part by name",
            {"outer_diameter": 8.01, "length": 30.1, "internal_thread": "M5"},
            "outer_diameter, length, internal_thread, thread, bore, pitch, width and the other dimensions",
        ),
    )
    uncertainty = fields.Raw(metadata=about("expanded uncertainty of the measurements (k = 2) [mm]", 0.03))
    instrument = Text(
        longest=60,
        metadata=about("the instrument, where no uncertainty is given", "calliper", "calliper, micrometer, steel rule"),
    )


class Agreement(Closed):
    """One measured dimension beside the part's own."""

    dimension = text_field("the dimension", "outer_diameter")
    measured = fields.Raw(required=True, metadata=about("the measured value", 8.01))
    lower = number_field("lower limit of the part, null for a thread", 8.006, nullable=True)
    upper = number_field("upper limit of the part, null for a thread", 8.015, nullable=True)
    outside = number_field("how far the value lies outside the limits, within the uncertainty", 0)


class Candidate(Reading):
    """A standard part that the values can be, as a reading."""

    agreement = list_field(Agreement(), "each measured value beside the part's own")
    distance = number_field("how far the values are from the middle of the part's limits; 0 is best", 0.05)
    source = text_field("where the part's dimensions come from", "ISO 8735:1997 Table 1")


class Decider(Closed):
    """The further measurement that separates most of the candidates."""

    dimension = text_field("what to measure", "internal_thread")
    separates = count_field("pairs of candidates that it tells apart", 1)
    of_pairs = count_field("pairs of candidates", 1)


class Identification(Reply):
    """The standard parts that the measured values can be, best first."""

    candidates = list_field(Candidate(), "best first")
    left_out = count_field("candidates that agree less and are not shown", 0)
    tell_apart = text_field(
        "the one further measurement that would decide, null where one candidate is left",
        "internal thread: M5 is Parallel pin ISO 8735 - 8 x 30 - A - St; none is Parallel pin ISO 8734",
        nullable=True,
    )
    decider = one_field(Decider(), "the same for programs", nullable=True)
    searched = count_field("standard sizes that were held against the values", 3169)
    uncertainty = number_field("expanded uncertainty that was reckoned with", 0.03)
    uncertainty_from = text_field("where it comes from", "as given")
    units = word_field("unit of the lengths in the reply", ("mm", "in"), "mm")


IDENTIFICATION_QUERY, MEASURED, IDENTIFICATION = IdentificationQuery(), Measured(), Identification()
