"""The wire of ``/v1/orders/{order}/measurements``: what was measured at the bench on the bags of an order."""

from marshmallow import fields, validate

from schemas.fields import Closed, Text, about, count_field, list_field, one_field, text_field, word_field
from schemas.options import LengthOptions
from schemas.receipts import HeldAgainst, Piece, UncertaintyOf
from schemas.reply import Reply
from schemas.stored_orders import ID, MOMENT, MOST, PLAN

DECISIONS = ("conforming", "not conforming", "not provable")
STATES = ("counts", "replaced", "withdrawn", "passed over")


class MeasurementsQuery(LengthOptions):
    """How measurements are shown."""


class NewMeasurement(Closed):
    """What was measured of one dimension of one bag."""

    line = Text(required=True, longest=60, metadata=about("id of the line or piece of stock", "L1"))
    dimension = Text(required=True, longest=60, metadata=about("which dimension was measured", "outer_diameter"))
    measured = fields.Raw(
        required=True,
        metadata=about(
            "the values in mm or with their unit: a list, or text as it was written down", "5.008 5,010; 5.009"
        ),
    )
    instrument = Text(longest=60, blank=True, metadata=about("instrument, whose uncertainty is known", "micrometer"))
    uncertainty = fields.Raw(
        metadata=about("its expanded uncertainty (k = 2), in mm; goes before that of the instrument", 0.004)
    )
    limits = fields.Raw(
        metadata=about(
            "limits to hold the values against; those of the sheet for the bench where none are given",
            {"lower": 5.001, "upper": 5.016},
        )
    )
    by = Text(longest=60, blank=True, metadata=about("who measured", "the bench by the window"))
    on = fields.Raw(metadata=about("day of the measurement; today where none is given", "2027-02-01"))
    note = Text(longest=500, blank=True, metadata=about("anything to remember", "bag 2 of 3"))


class NewMeasurements(Closed):
    """Measurements; all of them are stored or none."""

    measurements = fields.List(
        fields.Nested(NewMeasurement(), metadata={"description": "one of them"}),
        required=True,
        validate=validate.Length(1, MOST),
        metadata={"description": "what was measured", "x-accepted": f"a list of 1 to {MOST} measurements"},
    )


class Measurement(Closed):
    """One dimension of one bag, as it was measured once."""

    number = count_field("number of its entry in the log", 3)
    revision = count_field("the revision in which it was told", 4)
    made_at = text_field("when it was told", MOMENT)
    made_by = text_field(
        "id of the token that it was told with, empty on the service's own machine", "a709c9185847cb3d"
    )
    by = text_field("who measured, as they were named", "the bench by the window")
    on = text_field("day of the measurement", "2027-02-01")
    line = text_field("the line or piece of stock", "L1")
    dimension = text_field("which dimension", "outer_diameter")
    typed = text_field("the values as they were typed", "5.008 5,010; 5.009")
    values = list_field(Piece(), "the values as they were read, a piece each")
    limits = one_field(HeldAgainst(), "the limits that they were held against")
    uncertainty = one_field(UncertaintyOf(), "the uncertainty of the instrument")
    instrument = text_field("the instrument, empty where only its uncertainty was told", "micrometer")
    decision = word_field("what the values prove of the bag", DECISIONS, "conforming")
    text = text_field("that in words", "Every piece is inside the limits by more than the uncertainty of 0.004 mm.")
    state = word_field("whether it counts for the order", STATES, "counts")
    because = text_field("by which entry, or why it does not count", "")
    note = text_field("what else was told", "bag 2 of 3")


class Measurements(Reply):
    """Everything that was measured of an order."""

    id = text_field("id of the order", ID)
    name = text_field("name of the order", PLAN["name"])
    revision = count_field("number of its latest revision; its ETag", 3)
    measurements = list_field(Measurement(), "the measurements in order; none is ever changed or left out")
    units = word_field("unit of the lengths in the reply", ("mm", "in"), "mm")


MEASUREMENTS_QUERY, NEW_MEASUREMENTS, MEASUREMENTS = MeasurementsQuery(), NewMeasurements(), Measurements()
