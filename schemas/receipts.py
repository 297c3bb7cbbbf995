"""The wire of ``/v1/receipts/check``: measured pieces and what they are held against in, what that proves out."""

from marshmallow import fields

from schemas.fields import (
    Closed,
    Flag,
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
from schemas.options import LengthOptions
from schemas.reading import LONGEST_LINE
from schemas.reply import Reply
from schemas.verdict import CHECK

DECISIONS = ("conforming", "not conforming", "not provable")
LABEL_WORDS = ("agrees", "contradicts", "not decided")


class ReceiptQuery(LengthOptions):
    """The options of a receipt check."""

    gate = Flag(metadata=about("answer 409 unless the decision is conforming", "1", "1 or 0"))


class Receipt(Closed):
    """Measured pieces, and what they are held against: limits, or a mate with its fit, or the line that was ordered."""

    measured = fields.Raw(
        required=True, metadata=about("measured values, in mm or with their unit; one or a list", [4.99, 4.985])
    )
    limits = fields.Raw(
        metadata=about(
            "the limits: lower and upper, or a size with its class",
            {"lower": 4.982, "upper": 5.0},
            'an object with lower and upper, or text such as "5 m6" or "5.004..5.012"',
        )
    )
    uncertainty = fields.Raw(metadata=about("expanded uncertainty of the measurement (k = 2) [mm]", 0.03))
    instrument = Text(
        longest=60,
        metadata=about(
            "the instrument, where no uncertainty is given", "micrometer", "calliper, micrometer, plug gauge"
        ),
    )
    line = Text(
        longest=LONGEST_LINE,
        metadata=about("the line that was ordered: its own limits hold", "ISO 8734 - 5 x 20 - A - St"),
    )
    dimension = Text(longest=60, metadata=about("the dimension that was measured", "outer_diameter"))
    label = Text(longest=LONGEST_LINE, metadata=about("what the bag says, to be held against it", "M5 dowel pin"))
    lot = fields.Raw(metadata=about("pieces in the bag that the measured ones were taken from", 100))
    mate = fields.Dict(metadata=CHECK.fields["mate"].metadata)
    bore = Text(longest=200, blank=True, metadata=CHECK.fields["bore"].metadata)
    shaft = Text(longest=200, blank=True, metadata=CHECK.fields["shaft"].metadata)
    fit = fields.Raw(metadata=CHECK.fields["fit"].metadata)


class Piece(Closed):
    """One measured piece."""

    measured = number_field("measured value", 4.985)
    inside = number_field("how far inside the nearer limit; negative is outside", 0.003)
    decision = word_field("what it proves", DECISIONS, "not provable")


class HeldAgainst(Closed):
    """The limits that the pieces were held against."""

    lower = number_field("lower limit, null where there is none", 4.982, nullable=True)
    upper = number_field("upper limit, null where there is none", 5.0, nullable=True)
    from_ = text_field("where they come from", "as given")
    from_.data_key = "from"


class Zone(Closed):
    """The values that prove conformity with this uncertainty."""

    lower = number_field("lower end, null where there is none", 4.985, nullable=True)
    upper = number_field("upper end, null where there is none", 4.997, nullable=True)


class UncertaintyOf(Closed):
    """The uncertainty of the measurement."""

    value = number_field("expanded uncertainty, k = 2", 0.03)
    from_ = text_field("where it comes from", "as given")
    from_.data_key = "from"


class Sample(Closed):
    """What a sample without a piece outside says of its lot."""

    measured = count_field("pieces measured", 2)
    lot = count_field("pieces in the lot, null where that is not given", 100, nullable=True)
    confidence = number_field("confidence", 0.95)
    outside_at_most = number_field("share of the lot that can be outside with that confidence", 0.77)
    for_five_percent = count_field("pieces without one outside that would show 5 %", 59)
    text = text_field("the same in words", "2 measured, none outside")
    source = text_field("how it is computed", "binomial: (1 - p)^n = 5 %")


class Label(Closed):
    """Whether the label can be true."""

    label = text_field("the label as given", "M5 dowel pin")
    word = word_field("whether it agrees with what was measured", LABEL_WORDS, "contradicts")
    text = text_field(
        "each meaning of the label against what was measured", "Measured 7.99; parallel pin: contradicts."
    )


class ReceiptCheck(Reply):
    """What the measured pieces prove, by the rule of ISO 14253-1 for the one who buys."""

    decision = word_field("what all pieces together prove", DECISIONS, "not provable")
    text = text_field("why", "With an uncertainty of 0.03 mm no reading can prove conformity.")
    limits = one_field(HeldAgainst(), "what the pieces were held against")
    pieces = list_field(Piece(), "the pieces in the order given")
    worst = one_field(Piece(), "the worst piece")
    uncertainty = one_field(UncertaintyOf(), "uncertainty of the measurement")
    acceptance = one_field(Zone(), "values that prove conformity, null where none can", nullable=True)
    ratio = number_field("tolerance over twice the uncertainty", 0.3, nullable=True)
    advice = text_field("which instrument would decide, empty where this one does", "")
    sample = one_field(Sample(), "what the sample says of its lot, null where a piece is outside", nullable=True)
    label = one_field(Label(), "whether the label can be true, null where none is given", nullable=True)
    assumed = texts_field("what is taken for granted", ["uncertainty is expanded, k = 2"])
    source = text_field("the rule", "ISO 14253-1")
    units = word_field("unit of the lengths in the reply", ("mm", "in"), "mm")


RECEIPT_QUERY, RECEIPT, RECEIPT_CHECK = ReceiptQuery(), Receipt(), ReceiptCheck()
