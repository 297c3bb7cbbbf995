"""The wire of ``/v1/verdict`` and ``/v1/verdicts``: checks in, verdicts out.

A check's mate and fit are taken as they are given: what they may say is the verdict's to know.
"""

from typing import Any

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
from schemas.reading import LINE, LONGEST_LINE, Reading
from schemas.reply import LIMITS, PROBLEM, THREAD, WINDOW, Reply

LONGEST_TEXT = 200
"""Most characters of a mate or a fit in words."""

VERDICTS = ("fits", "marginal", "ask", "wrong", "unread")

_MATES = {
    "bore": about(
        "the part goes into this bore",
        "5 H7",
        "size and class (5 H7), deviations (5 +0.012/0), limits (5.000..5.012), how it is made (5 drilled); "
        "then depth, blind or through, material (5 H7 depth 20 blind in aluminium)",
    ),
    "shaft": about("the part goes onto this shaft", "8 h6", "size and class, deviations, or limits"),
    "tapped": about(
        "the part goes into this thread",
        "M3 depth 6 in aluminium",
        "a thread by its designation, then depth, blind or through, material",
    ),
    "clamp": about(
        "the part clamps this stack",
        "46 into M3 depth 6 in aluminium",
        "thicknesses from the head on, joined by +, then what the screw goes into: a tapped hole or a nut",
    ),
    "presence": about("the part only has to be there", "yes", "yes"),
}
_FIT = about(
    "what the pair must do",
    "location",
    "a class pair (H7/m6), a window of clearance (0.002..0.014), or slip, location, press",
)


def _given(metadata: dict[str, Any]) -> Text:
    return Text(longest=LONGEST_TEXT, blank=True, metadata=metadata)


class BatchQuery(LengthOptions):
    """The options of a batch."""

    gate = Flag(metadata=about("answer 409 unless the verdict is fits", "1", "1 or 0"))


class VerdictQuery(BatchQuery):
    """One check: a line, one mate in its short text form, and the fit wanted."""

    line = Text(required=True, longest=LONGEST_LINE, metadata={**LINE, "x-accepted": "1 to 500 characters"})
    bore = _given(_MATES["bore"])
    shaft = _given(_MATES["shaft"])
    tapped = _given(_MATES["tapped"])
    clamp = _given(_MATES["clamp"])
    presence = _given(_MATES["presence"])
    fit = _given(_FIT)


class Check(Closed):
    """One check of a body: as in a query, and the mate also as an object."""

    line = Text(required=True, longest=LONGEST_LINE, metadata={**LINE, "x-accepted": "1 to 500 characters"})
    bore = _given(_MATES["bore"])
    shaft = _given(_MATES["shaft"])
    tapped = _given(_MATES["tapped"])
    clamp = _given(_MATES["clamp"])
    presence = _given(_MATES["presence"])
    mate = fields.Dict(metadata=about("the mate as an object", {"kind": "bore", "diameter": "5 H7", "depth": 20}))
    fit = fields.Raw(metadata={**_FIT, "description": "what the pair must do: in words, or a window as an object"})


class Material(Closed):
    """What a hole is made in."""

    name = text_field("the material as it was given", "aluminium")
    grade = text_field("the grade that it stands for", "EN AW-6082 T6")
    assumed = text_field("what was assumed where no grade was given, else empty", "aluminium is taken as EN AW-6082 T6")


class Into(Closed):
    """What a clamp ends in."""

    kind = word_field("kind of end", ("tapped hole", "nut"), "tapped hole")
    text = text_field("what messages call it", "M4 hole, 10 mm deep in EN AW-6082 T6")
    thread = one_field(THREAD, "its thread")
    depth = number_field("full thread of the tapped hole", 10, nullable=True)
    end = text_field("blind or through, null where it is not stated", "blind", nullable=True)
    material = one_field(Material(), "what the hole is made in", nullable=True)
    height = number_field("height of the nut", None, nullable=True)
    source = text_field("where the height of the nut comes from", "")


class Mate(Closed):
    """What the part must go with. Names that a kind of mate has no use for are null."""

    kind = text_field("kind of mate", "bore")
    text = text_field("what messages call it", "bore 5 H7")
    diameter = one_field(LIMITS, "diameter of a bore or a shaft", nullable=True)
    thread = one_field(THREAD, "thread of a tapped hole", nullable=True)
    depth = number_field("depth of a bore, full thread of a tapped hole", 20, nullable=True)
    end = text_field("blind or through, null where it is not stated", "blind", nullable=True)
    material = one_field(Material(), "what the mate is made of", nullable=True)
    process = text_field("how a bore is made, where its limits come from that", "drilled", nullable=True)
    layers = fields.List(
        fields.Float(metadata=about("thickness", 12)),
        required=True,
        metadata=about("thicknesses of a clamped stack, from the head on", [10, 12, 20]),
    )
    grip = number_field("thickness of the whole clamped stack", 42, nullable=True)
    into = one_field(Into(), "what a clamp ends in", nullable=True)
    source = text_field("where the limits come from", "ISO 286-1")


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


VERDICT_QUERY, BATCH_QUERY, CHECK = VerdictQuery(), BatchQuery(), Check()
VERDICT, VERDICT_ROW = Verdict(), VerdictRow()
