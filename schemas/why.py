"""The wire of ``/v1/orders/{order}/why``: why a line or a need of an order stands as it does, in full."""

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
from schemas.options import LengthOptions
from schemas.orders import LineReply, NeedReply
from schemas.proposals import PROPOSALS
from schemas.reading import LINE_READING
from schemas.reply import Reply
from schemas.stored_orders import ID, PLAN
from schemas.verdict import VERDICT, VERDICTS, Finding

KINDS = ("line", "need")


class WhyQuery(LengthOptions):
    """Which line or which need is shown: one of the two."""

    line = Text(longest=60, metadata=about("id of the line or piece of stock", "L1"))
    need = Text(longest=60, metadata=about("id of the need, in place of a line", "N1"))


class MateInFull(Closed):
    """The verdict on one mate."""

    need = text_field("the need whose mate it is: the one at hand or one of its neighbours", "N1")
    verdict = one_field(VERDICT, "the verdict with every reading, as GET /v1/verdict gives it")
    address = text_field(
        "the same check on its own, empty where an address cannot say it", "/v1/verdict?line=608&shaft=8+h6&fit=slip"
    )


class Against(Closed):
    """The line against one need."""

    need = text_field("the need", "N1")
    description = text_field("what it is for", "index pins of the carousel")
    verdict = word_field("how the line goes with the need: all its mates and what the order says", VERDICTS, "ask")
    order_text = text_field("what to order instead for this need", "Parallel pin ISO 8734 - 5 x 20 - A - St")
    question = text_field("the question to send", None, nullable=True)
    share = number_field("share of pairs within limits, null where chance does not decide", None, nullable=True)
    mates = list_field(MateInFull(), "the mates that the line has to go with")
    findings = list_field(Finding(), "what else the verdict on this need rests on")


class Other(Closed):
    """A need or a line that is named only."""

    id = text_field("the need or the line", "N2")
    text = text_field("what it is for, or what the line says", "locating pins of the arm")
    verdict = word_field("how line and need go together", VERDICTS, "wrong")


class Place(Closed):
    """A line or a need of the order."""

    kind = word_field("line or need", KINDS, "line")
    id = text_field("its id", "L3")


class Why(Reply):
    """A line or a need in full; what belongs to the other of the two is null or empty."""

    id = text_field("id of the order", ID)
    name = text_field("name of the order", PLAN["name"])
    revision = count_field("the revision that was proved", 3)
    kind = word_field("what is shown", KINDS, "line")
    line = one_field(LineReply(), "the line, as the check has it", nullable=True)
    need = one_field(NeedReply(), "the need, as the check has it", nullable=True)
    reading = one_field(LINE_READING, "what the line means by itself, as GET /v1/reading gives it", nullable=True)
    against = list_field(Against(), "the line against each need that it covers or is for, in full")
    others = list_field(Other(), "other needs of the line, or lines of the need, with their verdict, the best first")
    proposals = one_field(PROPOSALS, "what should be ordered for a need that is not covered", nullable=True)
    proposal_addresses = texts_field(
        "the check of each proposal against the mate on its own, empty where an address cannot say it",
        ["/v1/verdict?line=ISO+8734+-+5+x+20&bore=5+H7&fit=location"],
    )
    number = count_field("its place among all lines and needs that are not settled, 0 where it is settled", 2)
    unsettled = count_field("lines that are not fits or not proved, and needs that are not covered", 7)
    previous = one_field(Place(), "the one before it that is not settled", nullable=True)
    next = one_field(Place(), "the one behind it that is not settled", nullable=True)
    units = word_field("unit of the lengths in the reply", ("mm", "in"), "mm")


WHY_QUERY, WHY = WhyQuery(), Why()
