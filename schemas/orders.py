"""The wire of ``/v1/orders/check``: needs, lines, stock and steps in, what is covered, found, dated and open out.

What the fields of an order may say is the service's to know; here they are named, with their meaning and an example.
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
from schemas.reply import Reply
from schemas.verdict import CHECK, VERDICTS, Finding

NEED_STATES = ("covered", "short", "missing", "in doubt")
LINE_STATES = ("here", "part here", "ordered", "not ordered", "out of stock")
UNITS_OF_AMOUNT = ("piece", "mm", "in")


def _raw(description: str, example: object, accepted: str = "") -> fields.Raw:
    return fields.Raw(allow_none=True, metadata=about(description, example, accepted))


_LEAD = "days, a range {low, likely, high}, a list of past lead times, or text such as 2-3 weeks"
_DAY = "a day as ISO 8601 has it"


class OrderQuery(LengthOptions):
    """The options of an order check."""

    gate = Flag(metadata=about("answer 409 unless the order is ready", "1", "1 or 0"))
    file = Text(longest=200, metadata=about("file that the order comes from, as reports name it", "order.json"))


# --- the request -----------------------------------------------------------------------------------------------------


class Need(Closed):
    """What the design requires. A mate stands under its kind, as in a check."""

    id = _raw("name of the need; by default its place", "N1")
    description = _raw("what it is for", "index pins of the carousel")
    quantity = _raw("how many are needed, for one copy", 6, "a whole number, or a length with its unit")
    unit = _raw("unit of the quantity", "pcs")
    step = _raw("step that it is for", "plate")
    mate = _raw("the mate as an object, or as text", {"kind": "bore", "diameter": "5 H7", "depth": 20})
    fit = _raw("what the pair must do", "location")
    part = _raw("the part that is wanted, by its designation or in words", "ISO 8734 - 5 x 20 - A - St")
    interface = _raw("interface that it must have", "USB-C")
    version = _raw("version that it must have", "2.1")
    must_match = _raw("needs with which interface and version have to agree", ["N7"])
    neighbours = _raw("needs whose mates the same part must also go with", ["N2"])
    variants = _raw("variants that it belongs to; all where none is named", ["short"])
    per = _raw("whether it is needed for every copy or once for the order", "copy", "copy or order")
    spare = _raw("spares that are wanted besides", 1)
    lead_time = _raw("how long it takes to get it again", 14, _LEAD)
    fragile = _raw("it breaks easily", True)
    breaks = _raw("share of pieces that break or get lost while building", 0.05)
    hours = _raw("hours of use to keep spares for", 500)
    mtbf_hours = _raw("mean hours between failures of a piece", 8000)
    price = _raw("price of a piece", 0.4)
    measure = _raw("what the sheet for the bench asks for has to be proved before its step may start", True)


_FOR_MATES = {name: field for name, field in CHECK.fields.items() if name not in ("line", "mate", "fit")}


def _with_mates(schema: type[Closed]) -> Closed:
    """Return a schema that also has the short forms of the mates, whatever kinds there are."""
    extra: Any = {name: _raw(field.metadata["description"], field.metadata["example"]) for name, field in
                  _FOR_MATES.items()}  # fmt: skip
    made: Closed = type(schema.__name__, (schema,), {**extra, "__doc__": schema.__doc__})()
    return made


class Stock(Closed):
    """What is there already."""

    id = _raw("name of the entry; by default its place", "S1")
    line = _raw("what it is, in words or by a standard", "ISO 8734 - 5 x 20 - A - St")
    quantity = _raw("how many; of packs where a pack is given", 10)
    unit = _raw("unit of the quantity", "pcs")
    pack = _raw("pieces in a pack", 50)
    for_ = _raw("needs that it is for; the best assignment is found where none is named", ["N1"])
    for_.data_key = "for"
    interface = _raw("interface that it has", "USB-C")
    version = _raw("version that it has", "2.1")
    receipt = _raw(
        "what was measured on it",
        {"measured": [5.01], "instrument": "micrometer"},
        "an object as POST /v1/receipts/check takes it, or a list of them, one for each dimension",
    )
    price = _raw("price of a piece", 0.4)


class OrderLine(Stock):
    """A purchase line with what is known of its supply."""

    supplier = _raw("who sends it", "A")
    lead_time = _raw("calendar days from order to arrival", {"low": 10, "likely": 14, "high": 60}, _LEAD)
    ordered_on = _raw("day of the order, null where it is not ordered", "2027-01-11", _DAY)
    received_on = _raw("day on which it arrived, null where it has not", "2027-01-25", _DAY)
    received = _raw("how much of it has arrived; all where received_on is given", 4)
    shipment = _raw("lines of one shipment come together", "A-1")
    available = _raw("in stock, out of stock, or the day from which it is", "out of stock")
    back_on = _raw("day from which it is to be had again", "2027-02-10", _DAY)
    quote_until = _raw("day on which the quote lapses", "2027-01-31", _DAY)
    second_source_for = _raw("line that it stands in for where that is out of stock", "L4")
    substitute_for = _raw("line that it replaces; it is proofed against the same needs and their neighbours", "L3")


class Step(Closed):
    """A stage of the build."""

    id = _raw("name of the step", "plate")
    after = _raw("steps that come before it", ["strip"])
    days = _raw("working days that it takes", 2)
    irreversible = _raw("it cannot be undone", True)
    needs = _raw("needs that it waits for; an irreversible step waits for everything unless they are listed", ["N1"])
    done_on = _raw("day on which it was done", "2027-02-03", _DAY)


class Supplier(Closed):
    """What is known of a supplier."""

    id = _raw("its name, as in the lines", "A")
    record = _raw("past lead times in days, or quoted and actual ones", [12, 15, {"quoted": 14, "actual": 20}])


class Loss(Closed):
    """Pieces that broke or got lost."""

    need = _raw("need that they served", "N1")
    line = _raw("line or stock that they came from", "L1")
    quantity = _raw("how many", 1)
    why = _raw("broken, lost or used", "broken")
    on = _raw("day", "2027-02-03", _DAY)


def _list_of(schema: Closed, description: str) -> fields.Raw:
    example: list[object] = [{field.data_key or name: field.metadata["example"] for name, field in
                              list(schema.fields.items())[:3]}]  # fmt: skip
    return _raw(description, example, "a list of objects, or the text of a CSV sheet")


NEED, ORDER_LINE, STOCK, STEP, SUPPLIER, LOSS = _with_mates(Need), OrderLine(), Stock(), Step(), Supplier(), Loss()


class Order(Closed):
    """An order to be checked. Needs, lines, stock and steps are lists of objects, or the text of a sheet."""

    needs = fields.Raw(
        required=True, metadata=about("what the design requires", [{"id": "N1", "quantity": 6, "bore": "5 H7"}])
    )
    lines = _list_of(ORDER_LINE, "what is ordered")
    stock = _list_of(STOCK, "what is there already")
    steps = _list_of(STEP, "how it is built")
    suppliers = _list_of(SUPPLIER, "what is known of the suppliers")
    losses = _list_of(LOSS, "what broke or got lost during the build")
    copies = _raw("how many copies are built", 1)
    variants = _raw("how many of each variant are built", {"short": 2, "long": 1})
    today = _raw("day from which everything is looked at; by default today", "2027-01-15", _DAY)
    start_on = _raw("day from which the build can start", "2027-02-01", _DAY)
    wanted_on = _raw("day by which everything is to be done", "2027-03-01", _DAY)
    confidence = _raw("chance with which the wanted day is to be kept", 0.9)
    country = _raw("country whose public holidays count", "DE", "two letters of ISO 3166-1")
    subdivision = _raw("its subdivision", "BY")
    closed_on = _raw("days on which nobody works", ["2027-02-15"])


# --- the reply -------------------------------------------------------------------------------------------------------


class Dates(Closed):
    """Days by which something is there; null where nobody knows."""

    p50 = text_field("day of 50 %", "2027-02-01", nullable=True)
    p90 = text_field("day of 90 %", "2027-02-12", nullable=True)


class Reason(Closed):
    """What keeps the order from being ready."""

    code = text_field("short name of the reason, for programs", "short")
    text = text_field("the reason", "N1 index pins: 6 needed, 4 here, 2 short")
    needs = texts_field("needs that it is about", ["N1"])
    lines = texts_field("lines that it is about", ["L1"])
    delay_days = count_field("days that it costs, null where nobody knows", 14, nullable=True)
    order_text = text_field("what to order to put it right", "Parallel pin ISO 8734 - 5 x 20 - A - St")


class LineCheck(Closed):
    """How a line goes with one need."""

    need = text_field("the need", "N1")
    verdict = word_field("the verdict", VERDICTS, "ask")
    order_text = text_field("what to order instead", "Parallel pin ISO 8734 - 5 x 20 - A - St")
    question = text_field("the question to send", None, nullable=True)
    share = number_field("share of pairs within limits", None, nullable=True)
    findings = list_field(Finding(), "what was checked")


class Covers(Closed):
    """Part of a line that covers a need."""

    id = text_field("the need, or the line", "N1")
    quantity = number_field("how much", 4)
    verdict = word_field("how well", VERDICTS, "fits")
    here = fields.Boolean(required=True, metadata=about("whether it is here", True))


class LineReply(Closed):
    """How a line, or an entry of the stock, stands."""

    id = text_field("the line", "L1")
    verdict = word_field("the worst verdict on what it is for or covers", VERDICTS, "ask")
    line = text_field("the line as given", "M5 dowel pin")
    quantity = number_field("what it brings in all", 10)
    unit = word_field("unit of its amounts", UNITS_OF_AMOUNT, "piece")
    said = text_field("how that comes about", "2 packs of 50 = 100")
    supplier = text_field("who sends it", "A")
    state = word_field("where it is", LINE_STATES, "ordered")
    covers = list_field(Covers(), "needs that it covers")
    left = number_field("what is left over of it", 6)
    proof = text_field("what its measurement proves, null where it was not measured", None, nullable=True)
    arrives = one_field(Dates(), "when what it still brings arrives", nullable=True)
    order_text = text_field("what to order instead", "Parallel pin ISO 8734 - 5 x 20 - A - St")
    question = text_field("the question to send to its supplier", None, nullable=True)
    checks = list_field(LineCheck(), "how it goes with each need that it may be meant for")
    cautions = texts_field("what to mind for safety", [])


class NeedReply(Closed):
    """How a need stands."""

    id = text_field("the need", "N1")
    description = text_field("what it is for", "index pins of the carousel")
    step = text_field("step that it is for", "plate", nullable=True)
    required = number_field("needed in all", 6)
    covered = number_field("covered by what fits", 2)
    in_doubt = number_field("covered only by what is marginal or has to be asked about", 4)
    short = number_field("not covered by anything", 0)
    unit = word_field("unit of its amounts", UNITS_OF_AMOUNT, "piece")
    by = list_field(Covers(), "lines that cover it")
    state = word_field("how it stands", NEED_STATES, "in doubt")
    text = text_field("the same in words", "N1 index pins: 6 needed, 2 here, 4 to be asked about")
    order_text = text_field("what to order where it is not covered", "Parallel pin ISO 8734 - 5 x 20 - A - St")


class OpenNeed(Closed):
    """A need that is not covered."""

    id = text_field("the need", "N1")
    quantity = number_field("how much of it is open", 2)
    text = text_field("in words", "N1 index pins: 6 needed, 4 here, 2 short")
    order_text = text_field("what to order", "Parallel pin ISO 8734 - 5 x 20 - A - St")


class NearMiss(Closed):
    """A line that nearly covers a need."""

    id = text_field("the line", "L1")
    need = text_field("the need", "N1")
    verdict = word_field("its verdict", VERDICTS, "wrong")
    text = text_field("why", "L1 'M5 dowel pin' for N1: ask")
    order_text = text_field("the text that puts it right", "Parallel pin ISO 8734 - 5 x 20 - A - St")
    question = text_field("the question to send", None, nullable=True)


class Surplus(Closed):
    """More than is needed."""

    id = text_field("the line", "L1")
    quantity = number_field("how much too many", 4)
    unavoidable = fields.Boolean(required=True, metadata=about("a pack holds no fewer", False))
    text = text_field("in words", "L1: 10 ordered, 6 used, 4 too many")


class Duplicate(Closed):
    """A line that buys again what others bring."""

    id = text_field("the line", "L7")
    of = texts_field("the lines that bring it already", ["L1"])
    needs = texts_field("needs that both are for", ["N1"])
    text = text_field("in words", "L7 buys again what L1 already brings: 10 too many")


class Variant(Closed):
    """How many copies of a variant can be finished."""

    name = text_field("the variant, empty where there are none", "short")
    wanted = count_field("copies wanted", 2)
    from_here = count_field("copies that can be finished from what is here", 1)
    with_ordered = count_field("copies that can be finished with what is ordered", 2)
    limited_by = texts_field("needs that one more would leave open", ["N1"])
    text = text_field("in words", "2 wanted: 1 can be finished from what is here")


class StepDates(Closed):
    """When a step can start and is done."""

    id = text_field("the step", "plate")
    p50 = text_field("day of 50 % on which it can start", "2027-02-01", nullable=True)
    p90 = text_field("day of 90 % on which it can start", "2027-02-12", nullable=True)
    finish = one_field(Dates(), "when it is done")
    waits_for = texts_field("what has no date", ["N5"])


class Deciding(Closed):
    """A part that decides when the kit is complete."""

    id = text_field("line, or lines of one shipment; a need where it is not ordered", "L1")
    supplier = text_field("who sends it", "A")
    needs = texts_field("needs that wait for it", ["N1"])
    p50 = text_field("day of 50 % on which it arrives", "2027-01-31", nullable=True)
    p90 = text_field("day of 90 % on which it arrives", "2027-02-12", nullable=True)
    chance_last = number_field("chance that it is the last to come", 0.7)
    saves_days = count_field("days by which the kit would be complete earlier were it here (90 %)", 5)
    text = text_field("in words", "L1: the last to come with 70 %")


class LastOrder(Closed):
    """The last day to order something."""

    id = text_field("line, or need where nothing is ordered", "L1")
    order_by = text_field("last working day", "2027-01-20")
    late_by = count_field("days that this is past", 0)
    text = text_field("in words", "L1: order by 2027-01-20")


class Schedule(Closed):
    """When everything is there, and what decides it."""

    kit = one_field(Dates(), "when every part is there; null where one has no date")
    known = one_field(Dates(), "when every part that has a date is there")
    without_date = texts_field("what has no date", ["L5"])
    steps = list_field(StepDates(), "when each step can start, in the order in which they can be done")
    deciding = list_field(Deciding(), "what decides when the kit is complete")
    order_by = list_field(LastOrder(), "until when the rest has to be ordered")
    wanted_chance = number_field("chance that everything is done by the wanted day", 0.8, nullable=True)
    assumed = texts_field("what is taken for granted", ["lead times are calendar days"])


class Gate(Closed):
    """Whether a step may start."""

    step = text_field("the step", "strip")
    open = fields.Boolean(required=True, metadata=about("whether it may start", False))
    irreversible = fields.Boolean(required=True, metadata=about("whether it can be undone", True))
    needs = texts_field("needs that it waits for", ["N1"])
    because = texts_field("what keeps it closed", ["N1 index pins: 6 needed, 4 still to come (L1)"])


class Spare(Closed):
    """What to buy spare."""

    id = text_field("the need", "N1")
    quantity = count_field("how many to buy more", 1)
    have = count_field("how many are left over already", 0)
    why = texts_field("why", ["breaks easily: chips when it snaps to steel"])
    text = text_field("the arithmetic", "6 needed, 5 % break or get lost: with 1 spare the chance of enough is 95.6 %")
    source = text_field("how it is computed, and from which figure", "binomial")


class ColumnNotRead(Closed):
    """A column of a sheet that is not understood."""

    sheet = text_field("the sheet", "lines")
    column = text_field("its heading", "Farbe")
    cells = count_field("cells that are filled in it", 3)


class OrderCheck(Reply):
    """The answer to an order check."""

    ready = fields.Boolean(required=True, metadata=about("whether everything is covered by what fits", False))
    reasons = list_field(Reason(), "what keeps it from being ready, what delays it most first")
    lines = list_field(LineReply(), "how each line stands")
    stock = list_field(LineReply(), "how each entry of the stock stands")
    needs = list_field(NeedReply(), "how each need stands")
    missing = list_field(OpenNeed(), "needs that nothing covers")
    short = list_field(OpenNeed(), "needs that are covered in part")
    in_doubt = list_field(OpenNeed(), "needs that are covered only by what is marginal or has to be asked about")
    near_misses = list_field(NearMiss(), "lines that nearly cover a need, with the text that puts them right")
    surplus = list_field(Surplus(), "what is too many")
    duplicates = list_field(Duplicate(), "what is bought twice")
    variants = list_field(Variant(), "how many copies can be finished")
    schedule = one_field(Schedule(), "when everything is there")
    gates = list_field(Gate(), "which step may start")
    spares = list_field(Spare(), "what to buy spare")
    columns_not_read = list_field(ColumnNotRead(), "columns of sheets that are not understood")
    notes = texts_field("what else to know", ["L3: the line says 10, the quantity 5: taken is 5"])
    today = text_field("day from which everything is looked at", "2027-01-15")
    units = word_field("unit of the lengths in the reply", ("mm", "in"), "mm")


ORDER_QUERY, ORDER, ORDER_CHECK = OrderQuery(), Order(), OrderCheck()
