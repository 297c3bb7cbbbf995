"""The wire of ``/v1/orders``: orders that are kept, what happens to them, and what that changes."""

from typing import Any

from marshmallow import INCLUDE, fields, validate

from schemas import orders
from schemas.fields import (
    Closed,
    Flag,
    Text,
    Word,
    about,
    count_field,
    list_field,
    text_field,
    texts_field,
    word_field,
)
from schemas.options import ViewOptions
from schemas.reply import Reply

ID = "3f0c9b1e5d7a4c2890ab12cd34ef5678"
MOMENT = "2027-01-11T09:30:00+00:00"
MOST = 1000
SUBJECTS = ("order", "line", "need", "gate")
EVENTS = (
    "ordered",
    "received",
    "quoted",
    "quote lapsed",
    "out of stock",
    "in stock",
    "delayed",
    "broken",
    "lost",
    "used",
    "done",
    "withdrawn",
)

PLAN: dict[str, Any] = {
    "name": "river sampler, second season",
    "needs": [{"id": "N1", "quantity": 6, "step": "plate", "bore": "5 H7", "fit": "location"}],
    "lines": [{"id": "L1", "line": "M5 dowel pin", "quantity": 10, "supplier": "A", "lead_time": "2-3 weeks"}],
    "steps": [{"id": "strip", "irreversible": True}, {"id": "plate", "after": ["strip"], "days": 2}],
}


# --- requests --------------------------------------------------------------------------------------------------------


class OrdersQuery(ViewOptions):
    """Which orders are listed."""

    limit = fields.Integer(
        validate=validate.Range(1, MOST), metadata=about("most orders in the reply", 100, f"1 to {MOST}")
    )
    after = Text(longest=32, metadata=about("id of the order behind which the list goes on", ID))


class OrderQuery(ViewOptions):
    """Which revision of an order is shown."""

    revision = fields.Integer(
        validate=validate.Range(1, 10**9), metadata=about("a revision instead of the latest", 1, "a number from 1 up")
    )


class ChangeQuery(ViewOptions):
    """A change takes the options only."""


class PageQuery(ViewOptions):
    """Which part of a history is shown."""

    limit = fields.Integer(
        validate=validate.Range(1, MOST), metadata=about("most entries in the reply", 100, f"1 to {MOST}")
    )
    before = fields.Integer(
        validate=validate.Range(1, 10**9), metadata=about("only entries before this number", 7, "a number from 1 up")
    )


class GateQuery(ViewOptions):
    """Which step is asked about."""

    step = Text(required=True, longest=60, metadata=about("id of the step", "plate"))
    gate = Flag(metadata=about("answer 409 unless the gate is open", "1", "1 or 0"))


class Plan(orders.Order):
    """What an order says as a whole, as ``POST /v1/orders/check`` takes it, and its name."""

    name = Text(longest=100, blank=True, metadata=about("name of the order", PLAN["name"]))


class Patch(Closed):
    """A merge patch (RFC 7396) of the plan: what it names is replaced, null removes it; a list is replaced whole."""

    class Meta:
        """Options of marshmallow."""

        unknown = INCLUDE

    name = fields.Raw(allow_none=True, metadata=about("name of the order; so any field of a plan", "second season"))


class NewEvent(Closed):
    """Something that happened. Which fields belong to it depends on what it is."""

    event = Word(EVENTS, required=True, metadata=about("what happened", "received"))
    line = Text(longest=60, metadata=about("id of the line, or piece of stock, that it is about", "L1"))
    need = Text(longest=60, metadata=about("id of the need, where something broke, was lost or used", "N1"))
    step = Text(longest=60, metadata=about("id of the step that is done", "plate"))
    entry = fields.Integer(
        validate=validate.Range(1, 10**9), metadata=about("number of the entry that is withdrawn", 3, "a number")
    )
    quantity = fields.Raw(metadata=about("how many; all of it where a line is received without", 10))
    on = fields.Raw(metadata=about("day on which it happened; today where none is given", "2027-02-01"))
    back_on = fields.Raw(metadata=about("day from which it is to be had again", "2027-03-01"))
    until = fields.Raw(metadata=about("last day on which the quote holds", "2027-03-31"))
    lead_time = fields.Raw(metadata=about("the lead time that is told now", "6-8 weeks"))
    price = fields.Raw(metadata=about("price of a piece", "1.20"))
    note = Text(longest=500, metadata=about("anything to remember", "two slipped under the bench"))


class NewEvents(Closed):
    """Things that happened; all of them are stored or none."""

    events = fields.List(
        fields.Nested(NewEvent(), metadata={"description": "one of them"}),
        required=True,
        validate=validate.Length(1, MOST),
        metadata={"description": "what happened, in order", "x-accepted": f"a list of 1 to {MOST} events"},
    )


class NewReceipt(Closed):
    """What was measured on one line."""

    line = Text(required=True, longest=60, metadata=about("id of the line or piece of stock", "L1"))
    receipt = fields.Dict(
        required=True,
        metadata=about(
            "what was measured, as POST /v1/receipts/check takes it; limits come from the line where none are given",
            {"measured": [5.01, 5.009], "instrument": "micrometer"},
        ),
    )
    on = fields.Raw(metadata=about("day of the measurement; today where none is given", "2027-02-01"))
    note = Text(longest=500, metadata=about("anything to remember", "bag 2 of 3"))


class NewReceipts(Closed):
    """Measurements; all of them are stored or none."""

    receipts = fields.List(
        fields.Nested(NewReceipt(), metadata={"description": "one of them"}),
        required=True,
        validate=validate.Length(1, MOST),
        metadata={"description": "what was measured", "x-accepted": f"a list of 1 to {MOST} receipts"},
    )


def _object(description: str, example: dict[str, Any]) -> fields.Dict:
    """Return an object of a reply whose names are not the wire's to know."""
    name = fields.String(metadata=about("name of the field", next(iter(example))))
    value = fields.Raw(allow_none=True, metadata=about("its value", next(iter(example.values()))))
    return fields.Dict(keys=name, values=value, required=True, metadata=about(description, example))


# --- replies ---------------------------------------------------------------------------------------------------------


class OrderHead(Closed):
    """An order in a list."""

    id = text_field("id of the order", ID)
    name = text_field("name of the order", PLAN["name"])
    revision = count_field("number of its latest revision", 3)
    made_at = text_field("when it was made", MOMENT)
    changed_at = text_field("when it was changed last", MOMENT)


class OrderList(Reply):
    """Orders, the newest first."""

    orders = list_field(OrderHead(), "the orders")
    next = text_field("what to give as after for the following ones, null at the end", ID, nullable=True)


class LogEntry(Closed):
    """Something in the log of an order."""

    number = count_field("number of the entry, from 1", 1)
    revision = count_field("the revision in which it was told", 2)
    kind = word_field("event, receipt or measurement", ("event", "receipt", "measurement"), "event")
    entry = _object("the entry as it was told, with its day", {"event": "received", "line": "L1", "on": "2027-02-01"})
    text = text_field("the same in words", "L1 received on 2027-02-01")
    withdrawn_by = count_field("number of the entry that withdraws it, null where none does", None, nullable=True)
    made_at = text_field("when it was told", MOMENT)
    made_by = text_field(
        "id of the token that it was told with, empty on the service's own machine", "a709c9185847cb3d"
    )


class StandingVerdict(Closed):
    """The verdict on one thing."""

    subject = word_field("what the verdict is on", SUBJECTS, "line")
    id = text_field("its id, empty for the order", "L1")
    verdict = text_field("the verdict, or the state of a need, a gate or the order", "fits")


class ChangedVerdict(Closed):
    """A verdict that is another one than before."""

    subject = word_field("what the verdict is on", SUBJECTS, "line")
    id = text_field("its id, empty for the order", "L1")
    before = text_field("the verdict before, empty where there was none", "ask")
    verdict = text_field("the verdict now, empty where there is none any more", "fits")
    because = text_field(
        "what changed it: first, plan, log, data (of reference), software, habits (of suppliers), date", "habits"
    )


class StoredOrder(Reply):
    """An order at one of its revisions."""

    id = text_field("id of the order", ID)
    name = text_field("name of the order", PLAN["name"])
    revision = count_field("number of the revision shown; its ETag", 3)
    latest = count_field("number of the latest revision", 3)
    made_at = text_field("when the order was made", MOMENT)
    changed_at = text_field("when this revision was made", MOMENT)
    plan = _object("what the order says, as it was given, with all ids", PLAN)
    log = list_field(LogEntry(), "what happened, in order")
    verdicts = list_field(StandingVerdict(), "the verdicts recorded last; none for an earlier revision")


class ChangedOrder(Reply):
    """What became of an order by a request, and which verdicts that changed."""

    id = text_field("id of the order", ID)
    name = text_field("name of the order", PLAN["name"])
    state = word_field("what became of it", ("stored", "deleted"), "stored")
    revision = count_field("number of the revision; its ETag", 3)
    ready = fields.Boolean(
        required=True, allow_none=True, metadata=about("whether the order is ready, null for a deleted one", False)
    )
    check = count_field("number of the proof in the history", 3)
    changes = list_field(ChangedVerdict(), "every verdict that is another one than before, and why")
    passed_over = texts_field("entries of the log that the plan has no place for any more", [])


class OrderLog(Reply):
    """Events or receipts of an order."""

    id = text_field("id of the order", ID)
    revision = count_field("number of its latest revision; its ETag", 3)
    entries = list_field(LogEntry(), "the entries, in order")


class RecordedProof(Closed):
    """One proof of the order, with all that it rests on."""

    number = count_field("number of the proof", 3)
    revision = count_field("the revision that was proved", 3)
    made_at = text_field("when", MOMENT)
    reference = text_field("fingerprint of the reference data that it rests on", "1f0c2d3e4b5a6978")
    version = text_field("version of the software", "0.1.0")
    habits = fields.List(
        fields.Dict(
            metadata=about("a habit", {"supplier": "A", "sign": "M", "part": "pin", "means": "internal thread"})
        ),
        required=True,
        metadata=about("what its suppliers were known to mean", []),
    )
    changes = list_field(ChangedVerdict(), "every verdict that it changed, and why; all others held")


class OrderHistory(Reply):
    """The proofs of an order, the latest first."""

    id = text_field("id of the order", ID)
    proofs = list_field(RecordedProof(), "the proofs")
    next = count_field("what to give as before for the earlier ones, null at the end", 3, nullable=True)


class OrderRevision(Closed):
    """One revision of an order."""

    number = count_field("number of the revision", 3)
    change = word_field("what was done", ("made", "replaced", "patched", "logged"), "replaced")
    made_at = text_field("when", MOMENT)
    made_by = text_field(
        "id of the token that it was done with, empty on the service's own machine", "a709c9185847cb3d"
    )


class OrderRevisions(Reply):
    """The revisions of an order, the latest first."""

    id = text_field("id of the order", ID)
    revisions = list_field(OrderRevision(), "the revisions")
    next = count_field("what to give as before for the earlier ones, null at the end", 3, nullable=True)


class ProvedOrder(orders.OrderCheck):
    """The answer to a check of a stored order, and what changed since the verdicts that were recorded last."""

    id = text_field("id of the order", ID)
    name = text_field("name of the order", PLAN["name"])
    revision = count_field("the revision that was proved", 3)
    check = count_field("number of the proof recorded last", 3)
    changes = list_field(ChangedVerdict(), "every verdict that is another one than recorded, and why")
    passed_over = texts_field("entries of the log that the plan has no place for any more", [])


class OrderGate(orders.Gate, Reply):
    """Whether a step of a stored order may start."""

    id = text_field("id of the order", ID)
    revision = count_field("the revision that was looked at", 3)


class OrderSchedule(orders.Schedule, Reply):
    """When everything of a stored order is there."""

    id = text_field("id of the order", ID)
    revision = count_field("the revision that was looked at", 3)
    today = text_field("day from which everything is looked at", "2027-01-15")


ORDERS_QUERY, ORDER_QUERY, CHANGE_QUERY = OrdersQuery(), OrderQuery(), ChangeQuery()
PAGE_QUERY, GATE_QUERY = PageQuery(), GateQuery()
NEW_PLAN, PATCH, NEW_EVENTS, NEW_RECEIPTS = Plan(), Patch(), NewEvents(), NewReceipts()
CHECK_QUERY = orders.OrderQuery()
ORDERS, ORDER, CHANGED, LOG = OrderList(), StoredOrder(), ChangedOrder(), OrderLog()
PROVED, GATE, SCHEDULE = ProvedOrder(), OrderGate(), OrderSchedule()
HISTORY, REVISIONS = OrderHistory(), OrderRevisions()
