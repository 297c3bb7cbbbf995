"""Request fields to an ``Order``: every list as JSON objects or as the text of a sheet, every reference checked.

A field that is not known is refused; a column of a sheet that is not known is named in the answer.

>>> order = parse_order({"needs": [{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}],
...     "lines": [{"id": "L1", "line": "ISO 8734 - 5 x 20", "quantity": 1, "pack": 10}]}, date(2027, 1, 11))
>>> order.supplies[0].amount.number, order.needs[0].mate.kind
(10, 'bore')
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal
from graphlib import CycleError, TopologicalSorter
from types import MappingProxyType
from typing import Any, NamedTuple, TypeVar

from reference.units import tidy
from reference.words import fold
from service.orders import sheets
from service.orders.fields import (
    LONGEST_NAME,
    amount,
    amount_or_packs,
    day,
    days_list,
    lead_time,
    names,
    number,
    some_of,
    switch,
    text,
    whole,
)
from service.orders.leadtime import recorded, scaled
from service.orders.model import (
    Amount,
    ColumnNotRead,
    LeadTime,
    Loss,
    Need,
    Order,
    Per,
    Step,
    Supplier,
    Supply,
    Why,
)
from service.orders.workdays import UnknownCountry, WorkDays
from service.reading import read
from service.receipts.intake import parse_receipt
from service.receipts.model import Receipt
from service.verdict.kinds import BY_FIELD
from service.verdict.mates import FIELDS, LONGEST_LINE, parse_check
from service.verdict.model import Check, CheckError

Fields = Mapping[str, Any]

CHECK_FIELDS = tuple(name for name in FIELDS if name != "line")
"""What a need may ask of its part: the fields of a check but its line."""

ORDER_FIELDS = (
    "needs",
    "lines",
    "stock",
    "steps",
    "suppliers",
    "losses",
    "copies",
    "variants",
    "today",
    "start_on",
    "wanted_on",
    "confidence",
    "country",
    "subdivision",
    "closed_on",
)
NEED_FIELDS = (
    "id",
    "description",
    "quantity",
    "unit",
    "step",
    *CHECK_FIELDS,
    "part",
    "interface",
    "version",
    "must_match",
    "neighbours",
    "variants",
    "per",
    "spare",
    "lead_time",
    "fragile",
    "breaks",
    "hours",
    "mtbf_hours",
    "price",
    "measure",
)
STOCK_FIELDS = (
    "id",
    "line",
    "quantity",
    "unit",
    "pack",
    "for",
    "interface",
    "version",
    "receipt",
    "price",
)
LINE_FIELDS = (
    *STOCK_FIELDS,
    "supplier",
    "lead_time",
    "ordered_on",
    "received_on",
    "received",
    "shipment",
    "available",
    "back_on",
    "quote_until",
    "second_source_for",
    "substitute_for",
)
STEP_FIELDS = ("id", "after", "days", "irreversible", "needs", "done_on")
SUPPLIER_FIELDS = ("id", "record")
LOSS_FIELDS = ("need", "line", "quantity", "why", "on")

MOST_ENTRIES = 1000
"""Needs, lines or pieces of stock in one order."""
MOST_STEPS = 200
MOST_COPIES = 1000

_NO_LINE = "-"
"""Stands where a check has its line: which one is judged is found out later."""

_RECEIPT_COLUMNS = ("measured", "dimension", "instrument", "uncertainty")
"""Columns of a sheet that make the receipt of a line."""

_OUT = frozenset({"out of stock", "out", "no", "sold out", "nicht lieferbar", "nein", "ausverkauft", "rupture", "non"})
_OUT |= frozenset({"agotado", "esaurito", "epuise", "unavailable", "false", "0", "not available", "non disponibile"})
_IN = frozenset({"in stock", "yes", "available", "lieferbar", "ja", "lagernd", "oui", "disponible", "si", "true", "1"})
_IN |= frozenset({"disponibile", "en stock", "ab lager", "auf lager"})

T = TypeVar("T")


def parse_order(given: Fields, today: date, clean: Callable[[str], str] = str) -> Order:
    """Return the order that the fields of a request give.

    ``today`` is taken where the request names no day of its own; a later day on which something is said to have arrived
    or been done moves it on. ``clean`` is put to every cell of a sheet.

    Raises:
        CheckError: a field is missing or not understood, an id is unknown or stands twice, steps form a circle.
    """
    _known(given, ORDER_FIELDS, "")
    lists = {name: _entries(given.get(name), name, clean) for name in ("needs", "lines", "stock", "steps")}
    not_read = tuple(column for one in lists.values() for column in one.not_read)
    assumed = [note for one in lists.values() for note in one.notes]
    needs = _each(lists["needs"], "needs", "N", _need)
    if not needs:
        raise CheckError("needs", given.get("needs"), "at least one need: an empty order is never ready", _NEED_EXAMPLE)
    lines = _each(lists["lines"], "lines", "L", _line)
    stock = _each(lists["stock"], "stock", "S", _stock)
    steps = _steps(_each(lists["steps"], "steps", "step ", _step), needs)
    losses = tuple(_loss(one, f"losses[{place}]") for place, one in enumerate(_list(given.get("losses"), "losses")))
    supplies = (*lines, *stock)
    now = _today(given.get("today"), today, supplies, steps, losses, assumed)
    suppliers = _suppliers(_list(given.get("suppliers"), "suppliers"), lines)
    variants = _variants(given.get("variants"))
    order = Order(
        needs=needs,
        supplies=tuple(_with_record(one, suppliers) for one in supplies),
        steps=steps,
        suppliers=suppliers,
        losses=losses,
        copies=whole(given.get("copies") or 1, "copies", 1, MOST_COPIES, "2"),
        variants=variants,
        today=now,
        start_on=day(given.get("start_on"), "start_on"),
        wanted_on=day(given.get("wanted_on"), "wanted_on"),
        confidence=_confidence(given.get("confidence")),
        country=text(given.get("country"), "country", 2, "DE").upper(),
        subdivision=text(given.get("subdivision"), "subdivision", 6, "BY").upper(),
        closed_on=_days(given.get("closed_on"), "closed_on"),
        not_read=not_read,
        assumed=tuple(assumed),
    )
    _refuse_unknown(order)
    return order


# --- lists -----------------------------------------------------------------------------------------------------------


class _Entries(NamedTuple):
    entries: tuple[tuple[str, Fields], ...]
    not_read: tuple[ColumnNotRead, ...] = ()
    notes: tuple[str, ...] = ()


_NEED_EXAMPLE = '[{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}]'


def _entries(value: object, name: str, clean: Callable[[str], str]) -> _Entries:
    """Return the entries of a list with what messages call each: by its place, or by its row in a sheet."""
    if isinstance(value, str):
        if not value.strip("\ufeff \r\n"):
            return _Entries(())
        sheet = sheets.rows(value, name, clean)
        return _Entries(
            tuple((f"{name} row {row.number}", _with_receipt(row.fields)) for row in sheet.rows),
            sheet.not_read,
            sheet.notes,
        )
    found = _list(value, name)
    return _Entries(tuple((f"{name}[{place}]", one) for place, one in enumerate(found)))


def as_objects(given: Fields, clean: Callable[[str], str] = str) -> dict[str, Any]:
    """Return the fields of an order with every sheet as a list of objects, so that it can be kept; the rest as it is.

    Columns that are not understood are left out: a check of the same fields names them.

    Raises:
        CheckError: a sheet cannot be read, or a list is none of objects.
    """
    found = dict(given)
    for name in ("needs", "lines", "stock", "steps"):
        if name in given:
            found[name] = [dict(entry) for _, entry in _entries(given[name], name, clean).entries]
    return found


def _with_receipt(cells: Mapping[str, str]) -> Fields:
    """Return the cells of a row with those of a measurement put together as a receipt."""
    measurement = {name: cells[name] for name in _RECEIPT_COLUMNS if name in cells}
    if not measurement:
        return cells
    return {**{name: cell for name, cell in cells.items() if name not in measurement}, "receipt": measurement}


def _list(value: object, name: str) -> Sequence[Fields]:
    if value is None:
        return ()
    if not isinstance(value, list | tuple) or len(value) > MOST_ENTRIES:
        raise CheckError(name, value, f"a list of up to {MOST_ENTRIES} objects, or the text of a sheet", "[]")
    for place, one in enumerate(value):
        if not isinstance(one, Mapping):
            raise CheckError(f"{name}[{place}]", one, "an object", '{"id": "N1"}')
    return value


def _known(given: Fields, fields: Sequence[str], where: str) -> None:
    for name, value in given.items():
        if name not in fields:
            raise CheckError(f"{where}.{name}" if where else name, value, f"the fields {', '.join(fields)}", fields[0])


def _each(found: _Entries, name: str, letter: str, parse: Callable[[Fields, str, str], T]) -> tuple[T, ...]:
    """Return each entry parsed; one without an id is called by its place."""
    parsed: list[T] = []
    ids: set[str] = set()
    for place, (where, fields) in enumerate(found.entries, start=1):
        id_ = text(fields.get("id"), f"{where}.id", LONGEST_NAME, f"{letter}1") or f"{letter}{place}"
        if id_ in ids:
            raise CheckError(f"{where}.id", id_, "each id once", f"{id_}b")
        ids.add(id_)
        parsed.append(parse(fields, id_, f"{name}.{id_}"))
    return tuple(parsed)


# --- needs -----------------------------------------------------------------------------------------------------------


def _need(given: Fields, id_: str, where: str) -> Need:
    _known(given, NEED_FIELDS, where)
    filled = {name: value for name, value in given.items() if value is not None and value != ""}
    interface, version = filled.get("interface"), filled.get("version")
    mate_given = filled.get("mate")
    if isinstance(mate_given, Mapping) and mate_given.get("kind") == "presence":
        # What two things must share is a matter of the order, not of one part against its mate.
        interface, version = mate_given.get("interface", interface), mate_given.get("version", version)
        rest = {name: one for name, one in mate_given.items() if name not in ("interface", "version")}
        filled = {**filled, "mate": rest}
    asks, asked = _asks(filled, where)
    if "quantity" not in filled:
        raise CheckError(f"{where}.quantity", None, "how many are needed", "6")
    required = amount(filled["quantity"], filled.get("unit"), f"{where}.quantity")
    if not required.number:
        raise CheckError(f"{where}.quantity", filled["quantity"], "more than nothing", "6")
    part = text(filled.get("part"), f"{where}.part", LONGEST_LINE, "ISO 8734 - 5 x 20 - A - St")
    return Need(
        id=id_,
        required=required,
        description=text(filled.get("description"), f"{where}.description"),
        step=text(filled.get("step"), f"{where}.step", LONGEST_NAME, "plate") or None,
        asks=asks,
        asked=asked,
        part=part,
        interface=text(interface, f"{where}.interface", LONGEST_NAME, "USB-C"),
        version=text(version, f"{where}.version", LONGEST_NAME, "2.1"),
        must_match=names(filled.get("must_match"), f"{where}.must_match"),
        neighbours=names(filled.get("neighbours"), f"{where}.neighbours"),
        variants=names(filled.get("variants"), f"{where}.variants"),
        per=_per(filled.get("per", "copy"), f"{where}.per"),
        spare=whole(filled.get("spare", 0), f"{where}.spare"),
        lead_time=lead_time(filled.get("lead_time"), f"{where}.lead_time"),
        fragile=switch(filled.get("fragile"), f"{where}.fragile"),
        breaks=_share(filled.get("breaks"), f"{where}.breaks"),
        hours=_positive(filled.get("hours"), f"{where}.hours"),
        mtbf_hours=_positive(filled.get("mtbf_hours"), f"{where}.mtbf_hours"),
        price=_price(filled.get("price"), f"{where}.price"),
        measure=switch(filled.get("measure"), f"{where}.measure"),
    )


def _asks(given: Fields, where: str) -> tuple[Check | None, tuple[tuple[str, str], ...]]:
    """Return the check that a need asks for, None where it names no mate, and its fields where all of them are text."""
    asked = {name: given[name] for name in CHECK_FIELDS if name in given}
    mates = [name for name in ("mate", *BY_FIELD) if name in asked]
    if not mates:
        if asked:
            name = next(iter(asked))
            raise CheckError(f"{where}.{name}", asked[name], f"no {name} without a mate", "bore=5 H7")
        return None, ()
    first = asked[mates[0]]
    if mates[0] == "mate" and isinstance(first, str):
        name, _, short = (part.strip() for part in first.partition("="))
        if name not in BY_FIELD or not short:
            accepted = f"an object with a kind, or text with one of {', '.join(BY_FIELD)} before an equals sign"
            raise CheckError(f"{where}.mate", first, accepted, "bore=5 H7")
        asked = {name: short, **{other: value for other, value in asked.items() if other != "mate"}}
    if isinstance(asked.get("presence"), str):
        # A cross or a word for yes in the cell of a sheet.
        asked["presence"] = "yes" if switch(asked["presence"], f"{where}.presence") else asked["presence"]
    said = tuple(asked.items()) if all(isinstance(value, str) for value in asked.values()) else ()
    try:
        return parse_check({"line": _NO_LINE, **asked}), said
    except CheckError as error:
        raise CheckError(f"{where}.{error.field}", error.value, error.accepted, error.example) from None


def _per(value: object, field: str) -> Per:
    word = fold(str(value).strip())
    if word in {"order", "once", "auftrag", "commande", "pedido", "ordine"}:
        return "order"
    if word in {"copy", "assembly", "piece", "stuck", "exemplaire", "unidad", "copia", "gerat", "machine"}:
        return "copy"
    raise CheckError(field, value, "copy (needed for every copy) or order (needed once)", "order")


def _share(value: object, field: str) -> Decimal | None:
    if value is None:
        return None
    if isinstance(value, str) and value.strip().endswith("%"):
        return number(value.strip()[:-1].strip(), field, Decimal(0), Decimal(90), "5 %") / 100
    return number(value, field, Decimal(0), Decimal("0.9"), "0.05")


def _positive(value: object, field: str) -> Decimal | None:
    return None if value is None else number(value, field, Decimal(0), Decimal(10) ** 9, "500")


def _price(value: object, field: str) -> Decimal | None:
    if isinstance(value, str):
        value = "".join(char for char in value if char.isdigit() or char in ".,")
    return None if value is None else number(value, field, Decimal(0), Decimal(10) ** 9, "1.20")


# --- lines and stock -------------------------------------------------------------------------------------------------


def _stock(given: Fields, id_: str, where: str) -> Supply:
    return _supply(given, id_, where, STOCK_FIELDS, stock=True)


def _line(given: Fields, id_: str, where: str) -> Supply:
    return _supply(given, id_, where, LINE_FIELDS, stock=False)


def _supply(given: Fields, id_: str, where: str, fields: Sequence[str], *, stock: bool) -> Supply:
    _known(given, fields, where)
    filled = {name: value for name, value in given.items() if value is not None and value != ""}
    line = text(filled.get("line"), f"{where}.line", LONGEST_LINE, "ISO 8734 - 5 x 20 - A - St")
    if not line:
        raise CheckError(f"{where}.line", None, "the purchase line", "ISO 8734 - 5 x 20 - A - St")
    much, pack, said, notes = _amount(filled, line, where)
    ordered_on, received_on = (day(filled.get(name), f"{where}.{name}") for name in ("ordered_on", "received_on"))
    if ordered_on is not None and received_on is not None and received_on < ordered_on:
        raise CheckError(f"{where}.received_on", str(received_on), f"a day from {ordered_on} on", str(ordered_on))
    lead = lead_time(filled.get("lead_time"), f"{where}.lead_time")
    out, back_on = _availability(filled.get("available"), f"{where}.available")
    return Supply(
        id=id_,
        line=line,
        amount=much,
        said=said,
        stock=stock,
        pack=pack,
        serves=names(filled.get("for"), f"{where}.for"),
        supplier=text(filled.get("supplier"), f"{where}.supplier", LONGEST_NAME, "A"),
        lead_time=lead,
        quoted=tidy(Decimal(repr(lead.mean))) if lead is not None and not lead.deviation else None,
        ordered_on=ordered_on,
        received_on=received_on,
        received=_received(filled, much, stock, received_on, where),
        shipment=text(filled.get("shipment"), f"{where}.shipment", LONGEST_NAME, "A-1"),
        interface=text(filled.get("interface"), f"{where}.interface", LONGEST_NAME, "USB-C"),
        version=text(filled.get("version"), f"{where}.version", LONGEST_NAME, "2.1"),
        out_of_stock=out,
        back_on=day(filled.get("back_on"), f"{where}.back_on") or back_on,
        quote_until=day(filled.get("quote_until"), f"{where}.quote_until"),
        second_source_for=text(filled.get("second_source_for"), f"{where}.second_source_for", LONGEST_NAME) or None,
        substitute_for=text(filled.get("substitute_for"), f"{where}.substitute_for", LONGEST_NAME) or None,
        receipts=_receipts(filled.get("receipt"), line, f"{where}.receipt"),
        price=_price(filled.get("price"), f"{where}.price"),
        notes=notes,
    )


def _receipts(given: object, line: str, where: str) -> tuple[Receipt, ...]:
    """Return what was measured on a line: one receipt, or several, as for several dimensions of its parts."""
    if given is None:
        return ()
    many = isinstance(given, list | tuple)
    found = []
    for place, one in enumerate(given if isinstance(given, list | tuple) else [given]):
        field = f"{where}[{place}]" if many else where
        if not isinstance(one, Mapping):
            raise CheckError(field, one, "an object with measured values", '{"measured": [5.01]}')
        stated = any(name in one for name in ("limits", "line", "mate", "bore", "shaft"))
        found.append(parse_receipt(one if stated else {**one, "line": line}, field))
    return tuple(found)


def _amount(given: Fields, line: str, where: str) -> tuple[Amount, int, str, tuple[str, ...]]:
    """Return how much a line brings, its pack, that in words, and what to know about it.

    A quantity counts packs where a pack is given, in its field or by the line, and its unit does not say pieces.
    """
    reading = read(line)
    stated, unit = given.get("quantity"), given.get("unit")
    notes: list[str] = []
    if stated is None:
        if reading.quantity is None:
            raise CheckError(f"{where}.quantity", None, "how many are ordered", "10")
        return Amount(reading.quantity), 1, f"{reading.quantity} as the line says", ()
    much, packs = amount_or_packs(stated, unit, f"{where}.quantity")
    own = whole(given["pack"], f"{where}.pack", 1, example="50") if "pack" in given else None
    pack = own if own is not None else reading.pack
    if packs and pack is None:
        raise CheckError(f"{where}.pack", None, "the pieces in one pack, as the quantity counts packs", "50")
    if reading.quantity is not None and much.unit == "piece" and not packs and reading.quantity != much.number:
        notes.append(f"the line says {reading.quantity}, the quantity {much.number}: taken is {much.number}")
    if much.unit == "length" or pack is None or pack == 1:
        return much, 1, much.said(), tuple(notes)
    counts_pieces = not packs and unit is not None
    if counts_pieces:
        return much, pack, f"{much.number} in packs of {pack}", tuple(notes)
    total = much.number * pack
    noun = "pack" if much.number == 1 else "packs"
    return Amount(total), pack, f"{much.number} {noun} of {pack} = {total}", tuple(notes)


def _received(given: Fields, much: Amount, stock: bool, received_on: date | None, where: str) -> int:
    if stock:
        return much.number
    if "received" not in given:
        return much.number if received_on is not None else 0
    here = amount(given["received"], None if much.unit == "piece" else given.get("unit"), f"{where}.received")
    if here.number > much.number or here.unit != much.unit:
        raise CheckError(f"{where}.received", given["received"], f"at most the {much.said()} ordered", much.said())
    return here.number


def _availability(value: object, field: str) -> tuple[bool, date | None]:
    """Return whether a line is out of stock, and from when it is to be had again."""
    if value is None or value is True:
        return False, None
    word = fold(str(value).strip())
    if value is False or word in _OUT:
        return True, None
    if word in _IN:
        return False, None
    try:
        return True, day(value, field)
    except CheckError:
        raise CheckError(field, value, "in stock, out of stock, or the day from which it is", "out of stock") from None


# --- steps, losses, suppliers, days ----------------------------------------------------------------------------------


def _step(given: Fields, id_: str, where: str) -> Step:
    _known(given, STEP_FIELDS, where)
    return Step(
        id=id_,
        after=names(given.get("after"), f"{where}.after"),
        days=whole(given.get("days") or 0, f"{where}.days", 0, 1000, "2"),
        irreversible=switch(given.get("irreversible"), f"{where}.irreversible"),
        needs=None if given.get("needs") in (None, "") else names(given["needs"], f"{where}.needs"),
        done_on=day(given.get("done_on"), f"{where}.done_on"),
    )


def _steps(steps: tuple[Step, ...], needs: Iterable[Need]) -> tuple[Step, ...]:
    """Return the steps in an order in which they can be done; where none are given, those that the needs name."""
    if not steps:
        return tuple(Step(name) for name in dict.fromkeys(need.step for need in needs if need.step))
    if len(steps) > MOST_STEPS:
        raise CheckError("steps", f"{len(steps)} steps", f"up to {MOST_STEPS} steps", "fewer steps")
    known = {step.id: step for step in steps}
    for step in steps:
        for name in step.after:
            if name not in known:
                raise CheckError(f"steps.{step.id}.after", name, f"one of the steps {', '.join(known)}", steps[0].id)
    try:
        sequence = tuple(TopologicalSorter({step.id: step.after for step in steps}).static_order())
    except CycleError as error:
        circle = " -> ".join(reversed(error.args[1]))
        raise CheckError("steps", circle, "steps without a circle", f"{steps[0].id} without after") from None
    return tuple(known[name] for name in sequence)


def _loss(given: Fields, where: str) -> Loss:
    _known(given, LOSS_FIELDS, where)
    need, line = (text(given.get(name), f"{where}.{name}", LONGEST_NAME) or None for name in ("need", "line"))
    if need is None and line is None:
        raise CheckError(where, dict(given), "the need or the line that the piece belonged to", '{"need": "N1"}')
    words: Mapping[str, Why] = {"broken": "broken", "lost": "lost", "used": "used"}
    why = words.get(fold(text(given.get("why") or "broken", f"{where}.why")))
    if why is None:
        raise CheckError(f"{where}.why", given["why"], "broken, lost or used", "broken")
    quantity = whole(given.get("quantity", 1), f"{where}.quantity", 1, example="1")
    return Loss(quantity, need, line, why, day(given.get("on"), f"{where}.on"))


def _suppliers(given: Sequence[Fields], lines: Iterable[Supply]) -> Mapping[str, Supplier]:
    """Return each supplier's record: what is given, and what this order has already shown."""
    days: dict[str, list[Decimal]] = {}
    ratios: dict[str, list[Decimal]] = {}
    for place, one in enumerate(given):
        where = f"suppliers[{place}]"
        _known(one, SUPPLIER_FIELDS, where)
        name = text(one.get("id"), f"{where}.id", LONGEST_NAME, "A")
        if not name or name in days:
            raise CheckError(f"{where}.id", one.get("id"), "the name of a supplier, each once", "A")
        days[name] = []
        record = one.get("record") or []
        if not isinstance(record, list | tuple):
            raise CheckError(f"{where}.record", record, "a list of past lead times", "[12, 15, 40]")
        for index, entry in enumerate(record):
            taken, quote = _past(entry, f"{where}.record[{index}]")
            days[name].append(taken)
            if quote:
                ratios.setdefault(name, []).append(taken / quote)
    for line in lines:
        if line.supplier and line.ordered_on and line.received_on:
            taken = Decimal((line.received_on - line.ordered_on).days)
            days.setdefault(line.supplier, []).append(taken)
            if line.quoted:
                ratios.setdefault(line.supplier, []).append(taken / line.quoted)
    return MappingProxyType(
        {name: Supplier(name, tuple(record), tuple(ratios.get(name, ()))) for name, record in days.items()}
    )


def _past(entry: object, field: str) -> tuple[Decimal, Decimal | None]:
    """Return how long an order took, and how long it was quoted where that is given."""
    if isinstance(entry, Mapping):
        _known(entry, ("quoted", "actual"), field)
        if entry.get("actual") is None:
            raise CheckError(f"{field}.actual", None, "the days that it really took", "20")
        quote = entry.get("quoted")
        return days_list([entry["actual"]], field)[0], None if quote is None else days_list([quote], field)[0]
    return days_list([entry], field)[0], None


ENOUGH_RATIOS = 2
"""Comparisons of quote and delivery from which a supplier's quotes are corrected by its record."""


def _with_record(supply: Supply, suppliers: Mapping[str, Supplier]) -> Supply:
    """Return a line with its lead time as its supplier's record has it: a corrected quote, or the record itself."""
    supplier = suppliers.get(supply.supplier)
    if supplier is None or supply.received_on is not None:
        return supply
    lead: LeadTime | None = supply.lead_time
    if supply.quoted and len(supplier.ratios) >= ENOUGH_RATIOS:
        lead = scaled(supply.quoted, supplier.ratios, supplier.id)
    elif lead is None and supplier.record:
        lead = recorded(supplier.record, supplier.id)
    if lead is supply.lead_time:
        return supply
    return replace(supply, lead_time=lead)


def _variants(value: object) -> Mapping[str, int]:
    if value is None:
        return MappingProxyType({})
    if not isinstance(value, Mapping):
        raise CheckError("variants", value, "how many of each variant", '{"short": 2, "long": 1}')
    return MappingProxyType(
        {text(name, "variants", LONGEST_NAME): whole(many, f"variants.{name}", 0, MOST_COPIES, "2")
         for name, many in value.items()}
    )  # fmt: skip


def _confidence(value: object) -> Decimal:
    return Decimal("0.9") if value is None else number(value, "confidence", Decimal("0.5"), Decimal("0.999"), "0.9")


def _days(value: object, field: str) -> tuple[date, ...]:
    if value is None:
        return ()
    if not isinstance(value, list | tuple) or len(value) > MOST_ENTRIES:
        raise CheckError(field, value, "a list of days", '["2027-02-15"]')
    found = (day(one, f"{field}[{place}]") for place, one in enumerate(value))
    return tuple(one for one in found if one is not None)


def _today(
    value: object,
    today: date,
    supplies: Iterable[Supply],
    steps: Iterable[Step],
    losses: Iterable[Loss],
    assumed: list[str],
) -> date:
    """Return the day from which everything is looked at: what has happened already cannot lie after it."""
    events = [
        *((f"{one.id} received_on", one.received_on) for one in supplies),
        *((f"steps.{one.id}.done_on", one.done_on) for one in steps),
        *(("losses on", one.on) for one in losses),
    ]
    latest = max((when for _, when in events if when is not None), default=date.min)
    given = day(value, "today")
    if given is None:
        if latest > today:
            assumed.append(f"today is taken as {latest}, the last day on which something is said to have happened")
        return max(latest, today)
    for field, when in events:
        if when is not None and when > given:
            raise CheckError(field, str(when), f"a day up to today, {given}", str(given))
    return given


# --- references between the parts ------------------------------------------------------------------------------------


def _refuse_unknown(order: Order) -> None:
    """Refuse ids that nothing has.

    Raises:
        CheckError: names the field and the ids that there are.
    """
    needs = {need.id for need in order.needs}
    steps = {step.id for step in order.steps}
    supplies: set[str] = set()
    for supply in order.supplies:
        if supply.id in supplies:
            raise CheckError(f"stock.{supply.id}.id", supply.id, "an id that no line has", f"S{supply.id}")
        supplies.add(supply.id)
    for need in order.needs:
        where = f"needs.{need.id}"
        _refuse([need.step] if need.step else [], steps, f"{where}.step")
        _refuse(need.must_match, needs - {need.id}, f"{where}.must_match")
        _refuse(need.neighbours, needs - {need.id}, f"{where}.neighbours")
        _refuse(need.variants, set(order.variants), f"{where}.variants")
    for supply in order.supplies:
        where = f"{'stock' if supply.stock else 'lines'}.{supply.id}"
        others = supplies - {supply.id}
        _refuse(supply.serves, needs, f"{where}.for")
        _refuse([supply.second_source_for] if supply.second_source_for else [], others, f"{where}.second_source_for")
        _refuse([supply.substitute_for] if supply.substitute_for else [], others, f"{where}.substitute_for")
    for step in order.steps:
        _refuse(step.needs or (), needs, f"steps.{step.id}.needs")
    for place, loss in enumerate(order.losses):
        _refuse([loss.need] if loss.need else [], needs, f"losses[{place}].need")
        _refuse([loss.line] if loss.line else [], supplies, f"losses[{place}].line")
    try:
        WorkDays(order.country, order.subdivision)
    except UnknownCountry as error:
        field = "subdivision" if "subdivision" in str(error) else "country"
        raise CheckError(field, getattr(order, field), str(error), "BY" if field == "subdivision" else "DE") from None


def _refuse(given: Sequence[str], known: Iterable[str], field: str) -> None:
    for name in given:
        if name not in known:
            listed = sorted(known)
            raise CheckError(
                field, name, f"one of {some_of(listed)}" if listed else "none: there are none", "".join(listed[:1])
            )
