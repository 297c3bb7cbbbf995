"""What happened to an order: events, receipts, measurements, checked when told and put into the fields of a check.

The log is only added to. An entry that was wrong is withdrawn by another one; an entry about a line, need or step that
a later plan does not have any more is passed over and named.

>>> plan = {"lines": [{"id": "L1", "line": "M5 dowel pin", "quantity": 10}]}
>>> told = [(1, "event", {"event": "received", "line": "L1", "quantity": 4, "on": "2027-02-01"})]
>>> document(plan, told, {"L1": Amount(10)}).fields["lines"]
[{'id': 'L1', 'line': 'M5 dowel pin', 'quantity': 10, 'received': 4}]
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from types import MappingProxyType
from typing import Any

from service.orders.fields import LONGEST_NAME, LONGEST_TEXT, amount, day, some_of, text, whole
from service.orders.model import Amount
from service.strength.measuring import MeasuredDecision, decide
from service.verdict.model import CheckError

Fields = dict[str, Any]
Told = tuple[int, str, Mapping[str, Any]]
"""Number, kind and body of an entry."""


@dataclass(frozen=True, slots=True)
class _Event:
    """What an event is about, and which other fields it has; those in ``required`` have to be there."""

    about: tuple[str, ...]
    fields: tuple[str, ...] = ()
    required: tuple[str, ...] = ()


EVENTS: Mapping[str, _Event] = {
    "ordered": _Event(("line",), ("lead_time",)),
    "received": _Event(("line",), ("quantity",)),
    "quoted": _Event(("line",), ("until", "lead_time", "price")),
    "quote lapsed": _Event(("line",)),
    "out of stock": _Event(("line",), ("back_on",)),
    "in stock": _Event(("line",)),
    "delayed": _Event(("line",), ("lead_time",), ("lead_time",)),
    "broken": _Event(("need", "line"), ("quantity",)),
    "lost": _Event(("need", "line"), ("quantity",)),
    "used": _Event(("need", "line"), ("quantity",)),
    "done": _Event(("step",)),
    "withdrawn": _Event(("entry",)),
}
"""Everything that can happen."""

_LOSSES = frozenset({"broken", "lost", "used"})
_LISTS = {"line": ("lines", "stock"), "need": ("needs",), "step": ("steps",)}


@dataclass(frozen=True, slots=True)
class Document:
    """The fields of a check with the log put in, and a line for each entry that was passed over."""

    fields: Fields
    passed_over: tuple[str, ...]


# --- entries as they are told ----------------------------------------------------------------------------------------


def event(given: Mapping[str, Any], where: str, today: date) -> Fields:
    """Return an event as it is kept: its fields checked, the day filled in.

    Raises:
        CheckError: it is none of the events, a field is missing, or one does not belong to it.
    """
    name = given.get("event")
    known = EVENTS.get(name) if isinstance(name, str) else None
    if known is None or not isinstance(name, str):
        raise CheckError(f"{where}.event", name, f"one of {', '.join(EVENTS)}", "received")
    allowed = ("event", *known.about, *known.fields, "on", "note")
    for field, value in given.items():
        if field not in allowed:
            raise CheckError(f"{where}.{field}", value, f"with {name!r} the fields {', '.join(allowed)}", allowed[1])
    kept = {field: value for field, value in given.items() if value is not None and value != ""}
    if not any(field in kept for field in known.about):
        raise CheckError(
            f"{where}.{known.about[0]}", None, f"the {' or the '.join(known.about)} that it is about", "L1"
        )
    for field in known.required:
        if field not in kept:
            raise CheckError(f"{where}.{field}", None, f"needed with {name!r}", "2-3 weeks")
    on = day(kept.get("on"), f"{where}.on") or today
    for field in ("line", "need", "step"):
        if field in kept:
            kept[field] = text(kept[field], f"{where}.{field}", LONGEST_NAME, "L1")
    if "entry" in kept:
        kept["entry"] = whole(kept["entry"], f"{where}.entry", 1, example="3")
    if "note" in kept:
        kept["note"] = text(kept["note"], f"{where}.note", LONGEST_TEXT, "two slipped under the bench")
    for field in ("until", "back_on"):
        if field in kept:
            kept[field] = str(day(kept[field], f"{where}.{field}"))
    return {**kept, "on": on.isoformat()}


def receipt(given: Mapping[str, Any], where: str, today: date) -> Fields:
    """Return a receipt as it is kept: what was measured on which line, with the day filled in.

    Raises:
        CheckError: a field is missing, not known, or not of its kind; the measurement itself is read with the order.
    """
    allowed = ("line", "receipt", "on", "note")
    for field, value in given.items():
        if field not in allowed:
            raise CheckError(f"{where}.{field}", value, f"the fields {', '.join(allowed)}", "receipt")
    if not isinstance(given.get("receipt"), Mapping):
        example = '{"measured": [5.01, 5.009], "instrument": "micrometer"}'
        raise CheckError(f"{where}.receipt", given.get("receipt"), "an object with measured values", example)
    line = text(given.get("line"), f"{where}.line", LONGEST_NAME, "L1")
    if not line:
        raise CheckError(f"{where}.line", None, "the line or piece of stock that was measured", "L1")
    kept = {"line": line, "receipt": dict(given["receipt"])}
    if given.get("note"):
        kept["note"] = text(given["note"], f"{where}.note", LONGEST_TEXT, "two slipped under the bench")
    return {**kept, "on": (day(given.get("on"), f"{where}.on") or today).isoformat()}


def require_known(plan: Mapping[str, Any], log: Sequence[Told], entry: Mapping[str, Any], where: str) -> None:
    """Refuse an entry about a line, need, step or entry that the order does not have.

    Raises:
        CheckError: names the ids that there are.
    """
    for field, lists in _LISTS.items():
        if field in entry:
            ids = [str(one["id"]) for name in lists for one in plan.get(name) or ()]
            if entry[field] not in ids:
                raise CheckError(
                    f"{where}.{field}", entry[field], f"one of {some_of(ids)}" if ids else f"a known {field}", "L1"
                )
    if "entry" in entry and not 1 <= entry["entry"] <= len(log):
        raise CheckError(f"{where}.entry", entry["entry"], f"the number of an entry, 1 to {len(log)}", "1")


# --- measurements ----------------------------------------------------------------------------------------------------


def key_of(body: Mapping[str, Any]) -> tuple[str, str | None, str | None]:
    """Return what a measurement is of: the dimension and the limits that it is held against."""
    return body["dimension"], body["limits"]["lower"], body["limits"]["upper"]


def receipt_of(body: Mapping[str, Any]) -> Fields:
    """Return a measurement as the receipt of a line."""
    limits = {name: body["limits"][name] for name in ("lower", "upper") if body["limits"][name] is not None}
    return {
        "measured": list(body["values"]),
        "dimension": body["dimension"],
        "limits": limits,
        "uncertainty": body["uncertainty"]["value"],
    }


def outcome(body: Mapping[str, Any]) -> MeasuredDecision:
    """Return what a measurement proves against its limits."""
    ends = (body["limits"][name] for name in ("lower", "upper"))
    lower, upper = (None if one is None else Decimal(one) for one in ends)
    return decide(lower, upper, [Decimal(one) for one in body["values"]], Decimal(body["uncertainty"]["value"]))


# --- in words --------------------------------------------------------------------------------------------------------


def said(kind: str, body: Mapping[str, Any]) -> str:
    """Return an entry in words.

    >>> said("event", {"event": "received", "line": "L1", "quantity": 4, "on": "2027-02-01", "note": "one bag torn"})
    'L1 received: 4, on 2027-02-01 (one bag torn)'
    """
    note = f" ({body['note']})" if body.get("note") else ""
    if kind == "measurement":
        return _measurement_said(body) + note
    if kind == "receipt":
        measured = body["receipt"].get("measured")
        values = " ".join(map(str, measured)) if isinstance(measured, list | tuple) else str(measured)
        return f"{body['line']} measured: {values}, on {body['on']}{note}"
    if body["event"] == "withdrawn":
        return f"entry {body['entry']} withdrawn, on {body['on']}{note}"
    about = " of ".join(str(body[name]) for name in ("need", "line", "step") if name in body)
    rest = [
        f"{name.replace('_', ' ')} {body[name]}" for name in ("lead_time", "until", "price", "back_on") if name in body
    ]
    more = [str(body["quantity"])] if "quantity" in body else []
    told = ", ".join([*more, *rest])
    return f"{about} {body['event']}{': ' if told else ''}{told}, on {body['on']}{note}"


def _measurement_said(body: Mapping[str, Any]) -> str:
    limits = body["limits"]
    ends = " to ".join(limits[name] for name in ("lower", "upper") if limits[name] is not None)
    with_ = f", {body['instrument']}" if body.get("instrument") else ""
    by = f", by {body['by']}" if body.get("by") else ""
    lead = f"{body['line']} measured, {body['dimension'].replace('_', ' ')}: {' '.join(body['values'])} mm"
    uncertainty = f"± {body['uncertainty']['value']}"
    return f"{lead} ({uncertainty}{with_}) against {ends} mm: {outcome(body).decision}{by}, on {body['on']}"


# --- the log put into the fields of a check --------------------------------------------------------------------------


def document(
    plan: Mapping[str, Any],
    log: Iterable[Told],
    ordered: Mapping[str, Amount],
    outdated: Mapping[int, str] = MappingProxyType({}),
) -> Document:
    """Return the fields of a check: the plan with everything that happened since.

    ``ordered`` holds how much each line brings in all; ``outdated`` the measurements that the plan has left behind, by
    number, with the reason.

    Raises:
        CheckError: an amount that came is none.
    """
    fields: Fields = {name: value for name, value in plan.items() if name != "name"}
    for name in ("lines", "stock", "steps"):
        if name in fields:
            fields[name] = [dict(one) for one in fields[name] or ()]
    fields["losses"] = list(fields.get("losses") or ())
    told = list(log)
    gone = withdrawn(told)
    passed_over = []
    measured: dict[str, list[Mapping[str, Any]]] = {}
    for number, kind, body in told:
        if number in gone or body.get("event") == "withdrawn":
            continue
        missing = _missing(fields, body)
        if missing:
            passed_over.append(f"entry {number} is about {missing}, which the plan does not have any more")
        elif number in outdated:
            passed_over.append(outdated[number])
        elif kind == "measurement":
            measured.setdefault(body["line"], []).append(body)
        elif kind == "receipt":
            # It stands for the whole line.
            _entry(fields, body["line"])["receipt"] = body["receipt"]
            measured.pop(body["line"], None)
        else:
            _happened(fields, body, ordered)
    for line, bodies in measured.items():
        _measured(fields, line, bodies)
    if not fields["losses"]:
        del fields["losses"]
    return Document(fields, tuple(passed_over))


def withdrawn(told: Sequence[Told]) -> dict[int, int]:
    """Return the numbers of entries that are withdrawn, each with that of the entry which does so and counts itself."""
    gone: dict[int, int] = {}
    for number, _, body in reversed(told):
        if body.get("event") == "withdrawn" and number not in gone:
            gone.setdefault(body["entry"], number)
    return gone


def _measured(fields: Fields, name: str, bodies: Sequence[Mapping[str, Any]]) -> None:
    """Put what was measured on a bag into its line: who measures it has it, whatever else was told."""
    line = _entry(fields, name)
    latest = {key_of(body): body for body in bodies}
    receipts = [receipt_of(body) for body in latest.values()]
    before = line.get("receipt") or []
    before = before if isinstance(before, list) else [before]
    dimensions = {one["dimension"] for one in receipts}
    line["receipt"] = [*(one for one in before if one.get("dimension") not in dimensions), *receipts]
    is_line = any(one is line for one in fields.get("lines") or ())
    if is_line and not line.get("received_on") and line.get("received") in (None, ""):
        ordered_on = day(line.get("ordered_on"), f"lines.{name}.ordered_on")
        first = min(date.fromisoformat(body["on"]) for body in bodies)
        as_of = day(fields.get("today"), "today")
        here = first if ordered_on is None else max(first, ordered_on)
        # A plan that is looked at as of a day of its own knows of nothing later.
        line["received_on"] = str(here if as_of is None else min(here, as_of))


def _missing(fields: Fields, body: Mapping[str, Any]) -> str:
    for field, lists in _LISTS.items():
        if field in body and not any(one.get("id") == body[field] for name in lists for one in fields.get(name) or ()):
            return f"{field} {body[field]}"
    return ""


def _entry(fields: Fields, id_: str, lists: tuple[str, ...] = ("lines", "stock")) -> Fields:
    found: Fields = next(one for name in lists for one in fields.get(name) or () if one.get("id") == id_)
    return found


def _happened(fields: Fields, body: Mapping[str, Any], ordered: Mapping[str, Amount]) -> None:
    name, on = body["event"], body["on"]
    if name in _LOSSES:
        loss = {field: body[field] for field in ("need", "line", "quantity") if field in body}
        fields["losses"].append({**loss, "why": name, "on": on})
        return
    if name == "done":
        _entry(fields, body["step"], ("steps",))["done_on"] = on
        return
    line = _entry(fields, body["line"])
    if name == "ordered":
        line["ordered_on"] = on
    elif name == "received":
        _received(line, body, ordered[body["line"]])
    elif name == "quoted":
        line.pop("quote_until", None)
    elif name == "quote lapsed":
        line["quote_until"] = (date.fromisoformat(on) - timedelta(days=1)).isoformat()
    elif name == "out of stock":
        line["available"] = "out of stock"
        line["back_on"] = body.get("back_on")
    elif name == "in stock":
        line["available"] = "in stock"
        line.pop("back_on", None)
    for field, held in (("lead_time", "lead_time"), ("price", "price"), ("until", "quote_until")):
        if field in body:
            line[held] = body[field]


def _received(line: Fields, body: Mapping[str, Any], ordered: Amount) -> None:
    """Add what came to what had come; without a quantity all of it came."""
    here = ordered.number
    if "quantity" in body:
        unit = None if ordered.unit == "piece" else line.get("unit")
        before = ordered.number if "received_on" in line and "received" not in line else 0
        if "received" in line:
            before = amount(line["received"], unit, f"lines.{line['id']}.received").number
        here = before + amount(body["quantity"], unit, f"lines.{line['id']}.received").number
        line["received"] = _shown(here, ordered, unit)
    # Only what is here whole has arrived: a part of it says nothing about how long the supplier takes.
    if here >= ordered.number:
        line["received_on"] = body["on"]
    if here == ordered.number:
        line.pop("received", None)


def _shown(number: int, ordered: Amount, unit: object) -> int | str:
    """Return an amount as the field of a line takes it: pieces, or a length in the unit of the line."""
    if ordered.unit == "piece":
        return number
    return ordered.said(number) if unit is None else f"{Decimal(number) / amount(1, unit, 'unit').number:f}"
