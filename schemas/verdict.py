"""The wire of ``/v1/verdict`` and ``/v1/verdicts``: checks in, verdicts out.

A check's mate and fit are taken as they are given: what they may say is the verdict's to know.
"""

from collections.abc import Mapping
from typing import Any

from marshmallow import ValidationError, fields

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
from schemas.reading import LINE, LONGEST_LINE, Reading
from schemas.reply import LIMITS, PROBLEM, RATING, THREAD, WINDOW, Reply

LONGEST_TEXT = 200
"""Most characters of a mate or a fit in words."""

VERDICTS = ("fits", "marginal", "ask", "wrong", "unread")

_FIT = about(
    "what the pair must do",
    "location",
    "a class pair (H7/m6), a window of clearance (0.002..0.014), or slip, location, press",
)


def _mate(description: str, example: str, accepted: str) -> Text:
    # Empty counts as not given: a spreadsheet sends all of its columns.
    return Text(longest=LONGEST_TEXT, blank=True, metadata=about(description, example, accepted))


class Asked(Closed):
    """A line, and one mate in its short text form."""

    line = Text(required=True, longest=LONGEST_LINE, metadata={**LINE, "x-accepted": "1 to 500 characters"})
    bore = _mate(
        "the part goes into this bore",
        "5 H7",
        "size and class (5 H7), deviations (5 +0.012/0), limits (5.000..5.012), how it is made (5 drilled); "
        "then depth, blind or through, material (5 H7 depth 20 blind in aluminium)",
    )
    shaft = _mate("the part goes onto this shaft", "8 h6", "size and class, deviations, or limits")
    tapped = _mate(
        "the part goes into this thread",
        "M3 depth 6 in aluminium",
        "a thread by its designation, then depth, blind or through, material",
    )
    clamp = _mate(
        "the part clamps this stack",
        "46 into M3 depth 6 in aluminium",
        "thicknesses from the head on, with tolerances or not (10 ±0.1), joined by +, then what the screw goes into: "
        "a tapped hole or a nut",
    )
    pocket = _mate(
        "the part lies in this recess",
        "8.2 +0.1/0 depth 3",
        "a diameter, or length x width, each with its tolerance, then depth",
    )
    groove = _mate(
        "the ring sits in this groove",
        "9.6 h11 width 1.1 H13 on shaft 10",
        "diameter of the floor, width, on shaft or in bore with its size; for an O-ring what it seals against",
    )
    pattern = _mate(
        "the part is bolted to these holes",
        "16 x M3 at 25 position 0.2",
        "number of holes x thread or diameter (for a screw), at pitch (x pitch across) or on circle, then position",
    )
    path = _mate(
        "the belt runs on this path",
        "20T and 60T GT2 at 80..84 width 6",
        "two pulleys by their teeth, profile, centre distance; or open, profile, path, clamps; then travel, width",
    )
    rating = _mate(
        "the part must be rated for this",
        "24 V, 40 W margin 20 %",
        "quantities with their units, joined by commas, then a margin",
    )
    presence = _mate("the part only has to be there", "yes", "yes")
    temperature = _mate(
        "the fit is also to hold at this temperature; with a bore or a shaft whose material is given",
        "-10..60",
        "one temperature or a range, in degC or with its unit",
    )
    part_material = _mate(
        "what the part is made of, beside a temperature, where the line does not say",
        "brass",
        "a material by word or grade",
    )


class GateOptions(LengthOptions):
    """How a verdict is to look, and what its status is to say."""

    gate = Flag(metadata=about("answer 409 unless the verdict is fits", "1", "1 or 0"))


class BatchQuery(GateOptions):
    """The options of a batch."""

    file = Text(longest=LONGEST_TEXT, metadata=about("file that the lines come from, as reports name it", "order.csv"))


class VerdictQuery(GateOptions, Asked):
    """One check: a line, one mate in its short text form, and the fit wanted."""

    fit = Text(longest=LONGEST_TEXT, blank=True, metadata=_FIT)


def _each(field: fields.Field[Any]) -> fields.List[Any]:
    """Return a field of a query that stands there once for each check."""
    metadata = {**field.metadata, "example": [field.metadata["example"]]}
    return fields.List(fields.String(metadata=field.metadata), required=field.required, metadata=metadata)


SeveralQuery = BatchQuery.from_dict(
    {name: _each(field) for name, field in VerdictQuery().fields.items() if name not in GateOptions().fields},
    name="SeveralQuery",
)
"""Several checks in a query: each ``line`` begins one, and what follows it belongs to it."""


class Check(Asked):
    """One check of a body: as in a query, and mate and fit also as objects."""

    mate = fields.Dict(metadata=about("the mate as an object", {"kind": "bore", "diameter": "5 H7", "depth": 20}))
    fit = fields.Raw(metadata={**_FIT, "description": "what the pair must do: in words, or a window as an object"})


class Material(Closed):
    """What a hole is made in."""

    name = text_field("the material as it was given", "aluminium")
    grade = text_field("the grade that it stands for", "EN AW-6082 T6")
    assumed = text_field("what was assumed where no grade was given, else empty", "aluminium is taken as EN AW-6082 T6")


class Measure(fields.Field[Any]):
    """A length, or a dimension with its limits. Only replies hold it."""

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Any:
        if isinstance(value, int | float) or not LIMITS.validate(value):
            return value
        raise ValidationError("neither a length nor limits")


def _may(field: type[fields.Field[Any]], description: str, example: object) -> fields.Field[Any]:
    return field(allow_none=True, metadata=about(description, example))


def _limits(description: str) -> fields.Nested:
    return fields.Nested(LIMITS, allow_none=True, metadata={"description": description})


class Needed(Closed):
    """A quantity that the part must be rated for."""

    name = text_field("name of the quantity", "voltage")
    rating = one_field(RATING, "the quantity")
    comparison = word_field("how it is compared", ("at least", "at most", "exactly", "usual"), "at least")


class Hole(Closed):
    """What a screw goes into, and what every kind of mate shares; the rest stands there only for its own kind."""

    kind = text_field("kind of mate", "bore")
    text = text_field("what messages call it", "bore 5 H7 (5..5.012)")
    thread = fields.Nested(
        THREAD, allow_none=True, metadata={"description": "thread of a tapped hole, a nut, or the holes of a pattern"}
    )
    depth = Measure(allow_none=True, metadata=about("depth of a bore, full thread of a tapped hole", 20))
    end = _may(fields.String, "blind or through, null where it is not stated", "blind")
    material = fields.Nested(Material(), allow_none=True, metadata={"description": "what the mate is made of"})
    height = _may(fields.Float, "height of a nut", 4.7)
    prevailing = _may(fields.Boolean, "whether a nut is a lock nut", False)
    source = _may(fields.String, "where its limits or its height come from", "ISO 286-1")


class PulleyAt(Closed):
    """A pulley on a belt's path; one with neither teeth nor diameter is a clamp."""

    x = number_field("where it is", 80)
    y = number_field("where it is", 0)
    teeth = count_field("its teeth, null for a smooth one", 60, nullable=True)
    diameter = number_field("diameter of a smooth one", None, nullable=True)
    back = fields.Boolean(required=True, metadata=about("whether the back of the belt runs on it", False))


class Moves(Closed):
    """What a tensioner does."""

    pulley = count_field("the pulley that it moves, from 1", 2)
    x = number_field("how far along x", 4)
    y = number_field("how far along y", 0)


class Mate(Hole):
    """What the part must go with."""

    diameter = _limits("diameter of a bore, a shaft, a round pocket, or of the floor of a groove")
    process = _may(fields.String, "how a bore is made, where its limits come from that", "drilled")
    layers = fields.List(
        fields.Float(metadata=about("thickness", 12)),
        metadata=about("thicknesses of a clamped stack, from the head on", [10, 12, 20]),
    )
    grip = _may(fields.Float, "thickness of the whole clamped stack", 42)
    parts = fields.List(
        fields.Nested(LIMITS, metadata={"description": "one of them"}),
        metadata={"description": "thicknesses of a clamped stack with their limits, where any has some"},
    )
    into = fields.Nested(Hole(), metadata={"description": "what a clamp ends in"})
    length = _limits("length of a pocket")
    width = _limits("width of a pocket or a groove")
    on = _may(fields.String, "what a groove is turned into: shaft or bore", "shaft")
    size = _limits("diameter of the shaft or bore that a groove is turned into")
    against = _limits("diameter that an O-ring in the groove seals against")
    service = _may(fields.String, "how an O-ring seals: static or dynamic", "static")
    count = _may(fields.Integer, "holes of a pattern", 16)
    hole = _limits("clearance hole of a pattern")
    screw = fields.Nested(THREAD, allow_none=True, metadata={"description": "screw that the holes are for"})
    pitch = Measure(allow_none=True, metadata=about("pitch of the holes in a row, or of the teeth of a belt", 25))
    across = _limits("distance of two rows of holes")
    circle = _limits("diameter of the circle that the holes lie on")
    position = _may(fields.Float, "position tolerance of the holes, null where it is not stated", 0.2)
    profile = _may(fields.String, "profile of a belt", "GT2")
    pulleys = fields.List(
        fields.Nested(PulleyAt(), metadata={"description": "one of them"}),
        metadata={"description": "pulleys of a belt's path, in its order"},
    )
    path = _limits("length of a belt's path on the pitch line, over the tensioner's travel")
    clamp_teeth = _may(fields.Integer, "teeth clamped at each end of an open belt", 6)
    moves = fields.Nested(Moves(), allow_none=True, metadata={"description": "what the tensioner moves"})
    travel = _may(fields.Float, "travel of the tensioner", 4)
    centres = _limits("centre distance of two pulleys")
    belt_width = _may(fields.Float, "belt width that the pulleys are made for", 6)
    needed = fields.List(
        fields.Nested(Needed(), metadata={"description": "one of them"}),
        metadata={"description": "quantities that the part must be rated for"},
    )
    margin = _may(fields.Float, "margin on the ratings; 0.2 is a fifth more", 0.2)


class Fit(Closed):
    """What the pair must do."""

    wanted = text_field("the fit as it was given, or the standard's own", "location")
    window = one_field(WINDOW, "the clearance that it stands for")
    from_ = text_field("where the window comes from", "H7/k6 to H7/n6 at 5 mm")
    from_.data_key = "from"
    loosest_upper = number_field("clearance up to which the pair is marginal", None, nullable=True)


class Finding(Closed):
    """One checked statement."""

    code = text_field("short name of the finding, for programs", "does-not-enter")
    weight = word_field("how it counts", ("fits", "marginal", "wrong", "open", "note"), "wrong")
    text = text_field("the statement", "the pin is 2.994 to 3.015 mm larger than the bore")
    numbers = fields.Dict(
        keys=fields.String(metadata=about("name of the number", "clearance_lower")),
        values=fields.Raw(metadata=about("its value", -3.015)),
        required=True,
        metadata=about("the numbers of the statement", {"clearance_lower": -3.015}),
    )
    source = text_field("where it comes from", "bore minus shaft")


class JudgedReading(Reading):
    """A reading with its own verdict."""

    verdict = word_field("verdict on this reading", ("fits", "marginal", "wrong", "open"), "wrong")
    clearance = one_field(WINDOW, "clearance of the pair", nullable=True)
    share = number_field("share of all pairs within limits, where one is given", 0.93, nullable=True)
    findings = list_field(Finding(), "what was checked")
    cautions = texts_field("what to mind for safety with the figures among the findings", [])


class Verdict(Reply):
    """The answer to a check."""

    verdict = word_field("the verdict on all readings", VERDICTS, "ask")
    line = text_field("the line as given", "M5 dowel pin", nullable=True)
    state = word_field("state of the reading", ("clear", "ambiguous", "unread"), "ambiguous")
    mate = one_field(Mate(), "what the part must go with", nullable=True)
    fit = one_field(Fit(), "what the pair must do", nullable=True)
    readings = list_field(JudgedReading(), "every reading, best supported first; none is hidden")
    findings = list_field(Finding(), "findings on the line as a whole")
    question = text_field("the question to send to the supplier", "Does M5 name the thread?", nullable=True)
    order_text = text_field("what to order instead", "Parallel pin ISO 8734 - 5 x <length> - A - St")
    cautions = texts_field("what to mind for safety", [])
    share = number_field("share of pairs within limits, of the worst reading", None, nullable=True)
    units = word_field("unit of the lengths in the reply", ("mm", "in"), "mm")


class VerdictRow(Verdict):
    """The answer to one check of a batch; a check that cannot be read is ``unread`` and says why in ``error``."""

    number = count_field("position in the list, or line of the body, from 1", 2)
    error = one_field(PROBLEM, "what is wrong with this check, null where nothing is", nullable=True)


VERDICT_QUERY, SEVERAL_QUERY, BATCH_QUERY, CHECK = VerdictQuery(), SeveralQuery(), BatchQuery(), Check()
MATE, VERDICT, VERDICT_ROW = Mate(), Verdict(), VerdictRow()
