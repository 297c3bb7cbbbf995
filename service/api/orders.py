"""``/v1/orders/check``: is the order ready, and if not, why not?"""

import json
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from typing import Any

from flask import Blueprint, Response, current_app, request

from schemas.fields import printable
from schemas.orders import ORDER, ORDER_CHECK, ORDER_QUERY
from schemas.verdict import VERDICTS
from service.api import wire
from service.api.body import parse_json, read_form
from service.api.formats import choose, look
from service.api.query import load, parse_query, unknown_field
from service.api.receipts import refused
from service.api.render import Layout, Row, Wire, render
from service.api.reports import REPORTS, Case, advice
from service.api.resource import Headers, Resource, here, posted, register, respond, with_reference
from service.cells import cell_text, fused
from service.config import Settings
from service.errors import BadValue, MissingField, NothingToCheck, TooLarge
from service.orders.check import check
from service.orders.intake import ORDER_FIELDS, parse_order
from service.orders.model import (
    Amount,
    Cover,
    Dates,
    Gate,
    Judgement,
    LineResult,
    OrderCheck,
    Schedule,
    Share,
    Supply,
)
from service.pages.illustrations import of_order
from service.pages.orders import order_page
from service.verdict.model import CheckError

blueprint = Blueprint("orders", __name__)

SHEETS = ("needs", "lines", "stock", "steps")
READY, NOT_READY = "ready", "not ready"
COVERED = "covered"

COLUMNS = (
    "kind",
    "id",
    "state",
    "text",
    "order_text",
    "question",
    "required",
    "covered",
    "in_doubt",
    "short",
    "quantity",
    "p50",
    "p90",
    "units",
    "reference",
    "error",
)


# --- the request -----------------------------------------------------------------------------------------------------


def _given() -> tuple[Wire, list[str]]:
    """Return the fields of an order from a JSON body or from an upload of sheets, and notes on how they were read."""
    content_type = request.environ.get("CONTENT_TYPE", "")
    if not content_type.lower().startswith("multipart/form-data"):
        return posted(ORDER), []
    given, notes = given_by(sent())
    if "needs" not in given:
        raise MissingField("needs is missing", field="needs", accepted="a sheet of needs", example="needs=@needs.csv")
    return given, notes


def sent() -> list[tuple[str, bytes | str]]:
    """Return the parts of an upload: files, then fields; a browser also sends those that nobody filled in.

    Raises:
        TooLarge: it is over the limit of a body.
    """
    settings: Settings = current_app.extensions["kitproof.settings"]
    limit = settings.body_limit
    request.max_form_memory_size = limit
    too_large = TooLarge(
        f"an upload has at most {limit} bytes",
        field="body",
        accepted=f"up to {limit} bytes",
        example="a smaller sheet",
    )
    files, form = read_form(limit, too_large)
    parts: list[tuple[str, bytes | str]] = []
    for name, upload in files.items(multi=True):
        with upload.stream as stream:
            data = stream.read()
        if data or upload.filename:
            parts.append((name, data))
    return [*parts, *((name, value) for name, value in form.items(multi=True) if value.strip())]


def text_fields() -> dict[str, str]:
    """Return the fields of a form as they were typed, also those that were left empty.

    Raises:
        RequestError: it is over the limit of a body, or a field holds what nobody types.
    """
    sent()
    fields = dict(request.form.items())
    for name, value in fields.items():
        if not printable(name) or not printable(value):
            raise BadValue("control characters are not read", field=name, value=value, accepted="plain text in UTF-8")
    return fields


def given_by(parts: Iterable[tuple[str, bytes | str]]) -> tuple[Wire, list[str]]:
    """Return the fields of an order that the parts of an upload give, and notes on how they were read.

    Raises:
        RequestError: a part is not known, stands there twice, or holds what is no text.
    """
    notes: list[str] = []
    given: Wire = {}
    for name, part in parts:
        if isinstance(part, bytes):
            given[_once(name, given, SHEETS)] = decoded(part, name, notes)
        else:
            given[_once(name, given, ORDER_FIELDS)] = _form_value(name, part)
    return given, notes


def _once(name: str, given: Wire, known: tuple[str, ...]) -> str:
    if name not in known:
        raise unknown_field(name, known, known[0])
    if name in given:
        raise BadValue(f"{name} is sent twice", field=name, accepted="each part once", example=name)
    return name


def decoded(data: bytes, name: str, notes: list[str]) -> str:
    """Return the text of a sheet: UTF-8, UTF-16 by its mark, else as Excel saves CSV on Windows, which is noted."""
    encoding = "utf-16" if data[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8"
    try:
        return data.decode(encoding)
    except UnicodeDecodeError:
        notes.append(f"{name} is not UTF-8: it is read as Windows-1252")
        return data.decode("cp1252", "replace")


def _form_value(name: str, value: str) -> Any:
    """Return a field of a form: JSON where it begins like an object or a list, else text; a sheet stays text."""
    if not printable(value):
        raise BadValue("control characters are not read", field=name, value=value, accepted="plain text in UTF-8")
    return parse_json(value.encode()) if value[:1] in ("{", "[") else value


def _form_text(value: Any) -> str:
    """Return a field of an order as the form of a page sends it again; ``_form_value`` is the way back."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False, default=str)


# --- the reply -------------------------------------------------------------------------------------------------------


def _day(value: date | None) -> str | None:
    return None if value is None else value.isoformat()


def _dates(value: Dates) -> Wire:
    return {"p50": _day(value.p50), "p90": _day(value.p90)}


def _much(number: int, amount: Amount, units: str) -> int | float | None:
    """Return an amount: pieces, or a length in the units of the reply."""
    return number if amount.unit == "piece" else wire.length(Amount(number, "length").millimetres, units)


def _unit(amount: Amount, units: str) -> str:
    return "piece" if amount.unit == "piece" else units


def _share(one: Share, name: str, amount: Amount, units: str) -> Wire:
    return {"id": name, "quantity": _much(one.quantity, amount, units), "verdict": one.word, "here": one.here}


def _check(need: str, found: Judgement, units: str) -> Wire:
    return {
        "need": need,
        "verdict": found.word,
        "order_text": found.order_text,
        "question": found.question,
        "share": None if found.share is None else wire.number(found.share),
        "findings": [wire.finding(one, units) for one in found.findings],
    }


def _state(supply: Supply) -> str:
    if supply.received:
        return "here" if supply.received == supply.amount.number else "part here"
    if supply.ordered_on is not None:
        return "ordered"
    return "out of stock" if supply.out_of_stock else "not ordered"


def line_reply(result: LineResult, found: OrderCheck, units: str) -> Wire:
    """Return how a line or a piece of stock stands as it goes over the wire."""
    supply = result.supply
    covers = [share for cover in found.needs for share in cover.shares if share.supply == supply.id]
    # What a line covers or is for comes first: its text and question stand for the line.
    first = (*(share.need for share in covers), *supply.serves)
    judged = sorted(result.judgements, key=lambda pair: (pair[1].word != result.word, pair[0] not in first))
    best = judged[0][1] if judged else None
    arrives = found.schedule.arrivals.get(supply.id)
    return {
        "id": supply.id,
        "verdict": result.word,
        "line": supply.line,
        "quantity": _much(supply.amount.number, supply.amount, units),
        "unit": _unit(supply.amount, units),
        "said": supply.said,
        "supplier": supply.supplier,
        "state": _state(supply),
        "covers": [_share(share, share.need, supply.amount, units) for share in covers],
        "left": _much(result.left, supply.amount, units),
        "proof": result.proof,
        "arrives": None if arrives is None else _dates(arrives),
        "order_text": best.order_text if best else "",
        "question": best.question if best else None,
        "checks": [_check(need, judgement, units) for need, judgement in result.judgements],
        "cautions": list(dict.fromkeys(one for _, judgement in result.judgements for one in judgement.cautions)),
    }


def need_reply(cover: Cover, units: str) -> Wire:
    """Return how a need stands as it goes over the wire."""
    need, amount = cover.need, cover.need.required
    return {
        "id": need.id,
        "description": need.description,
        "step": need.step,
        "required": _much(cover.required, amount, units),
        "covered": _much(cover.covered, amount, units),
        "in_doubt": _much(cover.doubtful, amount, units),
        "short": _much(cover.short, amount, units),
        "unit": _unit(amount, units),
        "by": [_share(share, share.supply, amount, units) for share in cover.shares],
        "state": cover.state,
        "text": cover.text,
        "order_text": cover.order_text,
    }


def _open(found: OrderCheck, state: str, units: str) -> list[Wire]:
    return [
        {
            "id": cover.need.id,
            "quantity": _much(cover.required - cover.covered, cover.need.required, units),
            "text": cover.text,
            "order_text": cover.order_text,
        }
        for cover in found.needs
        if cover.state == state
    ]


def schedule_reply(found: Schedule) -> Wire:
    """Return a schedule as it goes over the wire."""
    return {
        "kit": _dates(found.kit),
        "known": _dates(found.known),
        "without_date": list(found.without_date),
        "steps": [
            {
                "id": one.step.id,
                **_dates(one.start),
                "finish": _dates(one.finish),
                "waits_for": list(one.waits_for),
            }
            for one in found.steps
        ],
        "deciding": [
            {
                "id": one.id,
                "supplier": one.supplier,
                "needs": list(one.needs),
                **_dates(one.arrives),
                "chance_last": round(one.chance_last, 4),
                "saves_days": one.saves_days,
                "text": one.text,
            }
            for one in found.deciding
        ],
        "order_by": [
            {"id": one.line, "order_by": _day(one.order_by), "late_by": one.late_by, "text": one.text}
            for one in found.order_by
        ],
        "wanted_chance": None if found.wanted_chance is None else round(found.wanted_chance, 4),
        "assumed": list(found.assumed),
    }


def gate_reply(gate: Gate) -> Wire:
    """Return the gate of a step as it goes over the wire."""
    return {
        "step": gate.step.id,
        "open": gate.open,
        "irreversible": gate.step.irreversible,
        "needs": list(gate.needs),
        "because": list(gate.because),
    }


def reply_of(found: OrderCheck, units: str) -> Wire:
    """Return a checked order as it goes over the wire."""
    lines = [(result.supply.stock, line_reply(result, found, units)) for result in found.lines]
    amounts = {result.supply.id: result.supply.amount for result in found.lines}
    return {
        "ready": found.ready,
        "reasons": [
            {
                "code": one.code,
                "text": one.text,
                "needs": list(one.needs),
                "lines": list(one.lines),
                "delay_days": one.delay_days,
                "order_text": one.order_text,
            }
            for one in found.reasons
        ],
        "lines": [line for stock, line in lines if not stock],
        "stock": [line for stock, line in lines if stock],
        "needs": [need_reply(cover, units) for cover in found.needs],
        "missing": _open(found, "missing", units),
        "short": _open(found, "short", units),
        "in_doubt": _open(found, "in doubt", units),
        "near_misses": [
            {
                "id": one.line,
                "need": one.need,
                "verdict": one.word,
                "text": one.text,
                "order_text": one.order_text,
                "question": one.question,
            }
            for one in found.near_misses
        ],
        "surplus": [
            {
                "id": one.line,
                "quantity": _much(one.over.number, amounts[one.line], units),
                "unavoidable": one.unavoidable,
                "text": one.text,
            }
            for one in found.surplus
        ],
        "duplicates": [
            {"id": one.line, "of": list(one.of), "needs": list(one.needs), "text": one.text} for one in found.duplicates
        ],
        "variants": [{**one._asdict(), "limited_by": list(one.limited_by)} for one in found.variants],
        "schedule": schedule_reply(found.schedule),
        "gates": [gate_reply(one) for one in found.gates],
        "spares": [
            {
                "id": one.need,
                "quantity": one.buy,
                "have": one.have,
                "why": list(one.why),
                "text": one.text,
                "source": one.source,
            }
            for one in found.spares
        ],
        "columns_not_read": [
            {"sheet": one.sheet, "column": one.column, "cells": one.cells} for one in found.order.not_read
        ],
        "notes": list(found.notes),
        "today": found.order.today.isoformat(),
    }


def word_of(reply: Wire) -> str:
    """Return the one word for an order."""
    return READY if reply["ready"] else NOT_READY


def headers_of(reply: Wire) -> Headers:
    """Return what an order check says in its headers: ready or not; the worst verdict, fits only if ready."""
    words = ["fits"] if reply["ready"] else ["ask", *(line["verdict"] for line in reply["lines"])]
    return ("X-Ready", word_of(reply)), ("X-Verdict", max(words, key=VERDICTS.index))


def _row(reply: Wire, kind: str, **cells: Any) -> Row:
    shown = {"kind": kind, "units": reply["units"], "reference": reply["reference"], **cells}
    return [cell_text(one) if isinstance(one := shown.get(name), list | tuple) else one for name in COLUMNS]


def rows_of(reply: Wire) -> Iterator[Row]:
    """Return an order check as rows: the order, the reasons, then every need, line, finding, step and spare."""
    yield _row(
        reply, "order", state=word_of(reply), text=f"{len(reply['reasons'])} reasons", **reply["schedule"]["kit"]
    )
    for place, one in enumerate(reply["reasons"], start=1):
        yield _row(reply, "reason", id=str(place), state=one["code"], text=one["text"], order_text=one["order_text"])
    for one in reply["needs"]:
        yield _row(reply, "need", **{name: one[name] for name in _NEED_CELLS})
    for kind, name in (("line", "lines"), ("stock", "stock")):
        for one in reply[name]:
            arrives = one["arrives"] or {}
            text = f"{one['line']}: {one['said']}, {one['state']}"
            cells = {key: one[key] for key in ("id", "order_text", "question", "quantity")}
            yield _row(reply, kind, state=one["verdict"], text=text, **cells, **arrives)
    for one in reply["near_misses"]:
        cells = {key: one[key] for key in ("id", "text", "order_text", "question")}
        yield _row(reply, "near miss", state=one["verdict"], **cells)
    for one in reply["surplus"]:
        yield _row(reply, "surplus", **{key: one[key] for key in ("id", "text", "quantity")})
    for one in reply["duplicates"]:
        yield _row(reply, "bought twice", id=one["id"], text=one["text"])
    for one in reply["variants"]:
        yield _row(reply, "copies", id=one["name"], quantity=one["from_here"], text=one["text"])
    dates = {one["id"]: one for one in reply["schedule"]["steps"]}
    for one in reply["gates"]:
        step = dates[one["step"]]
        state = "open" if one["open"] else "closed"
        yield _row(
            reply, "step", id=one["step"], state=state, text=cell_text(one["because"]), p50=step["p50"], p90=step["p90"]
        )
    for one in reply["schedule"]["deciding"]:
        yield _row(reply, "deciding", **{key: one[key] for key in ("id", "text", "p50", "p90")})
    for one in reply["schedule"]["order_by"]:
        yield _row(reply, "order by", id=one["id"], text=one["text"], p90=one["order_by"])
    for one in reply["spares"]:
        yield _row(reply, "spare", **{key: one[key] for key in ("id", "text", "quantity")})
    for one in reply["columns_not_read"]:
        text = f"column {one['column']} of {one['sheet']} is not understood ({one['cells']} cells)"
        yield _row(reply, "column", id=one["column"], text=text)
    for one in reply["notes"]:
        yield _row(reply, "note", text=one)


def cases_of(reply: Wire) -> Iterator[Case]:
    """Return an order check as cases of a report: the order as a whole, each need, each line."""
    ready = word_of(reply)
    reasons = "; ".join(one["text"] for one in reply["reasons"])
    cases: list[tuple[str, str, bool, str, tuple[str, ...]]] = [("the order", ready, ready == READY, reasons, ())]
    for one in reply["needs"]:
        title = f"need {one['id']} {one['description']}"
        cases.append((title, one["state"], one["state"] == COVERED, one["text"], advice(one["order_text"], None)))
    for one in reply["lines"]:
        findings = (finding for check in one["checks"] for finding in check["findings"])
        reason = "; ".join(dict.fromkeys(finding["text"] for finding in findings if finding["weight"] != "note"))
        then = advice(one["order_text"], one["question"])
        cases.append((f"line {one['id']} {one['line']}", one["verdict"], one["verdict"] == "fits", reason, then))
    for number, case in enumerate(cases, start=1):
        yield Case(number, *case)


_NEED_CELLS = ("id", "state", "text", "order_text", "required", "covered", "in_doubt", "short")

LAYOUT = Layout("order", COLUMNS, rows_of, word_of, single=False, cases=cases_of, page=order_page, picture=of_order)

CHECKED = Resource(
    "/v1/orders/check",
    "Whether an order covers what a design needs, and when",
    ORDER_QUERY,
    ORDER_CHECK,
    LAYOUT,
    forms=("json", "csv", "xml", "html", "word", "svg", *REPORTS),
    method="POST",
    body=ORDER,
    body_types=("application/json", "multipart/form-data"),
    description="Judges every line, assigns lines and stock to needs so that as much as possible is covered by what "
    "fits, and says what is missing, short, in doubt, too many or bought twice, when the kit is complete, and which "
    "step may start. Needs, lines, stock and steps are lists of objects, or CSV as a spreadsheet saves it: as text in "
    "the JSON body, or as parts of an upload. X-Ready says ready or not ready. CSV, XML and HTML give a row for each "
    "thing that is said; the reports for build tools a case for the order, each need and each line.",
    statuses={409: "gate=1 and the order is not ready; the body is the same"},
)


def proofed(given: Wire, notes: list[str]) -> OrderCheck:
    """Return the answer to an order that is given.

    Raises:
        RequestError: it has no need, or something of it is not understood.
    """
    if given["needs"] in ([], None, ""):
        raise NothingToCheck(
            "an order without a need is never ready",
            field="needs",
            accepted="at least one need",
            example='[{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}]',
        )
    try:
        order = parse_order(given, datetime.now(UTC).date(), fused)
        return check(replace(order, assumed=(*notes, *order.assumed)))
    except CheckError as error:
        raise refused(error) from None


def check_order(suffix: str | None = None) -> Response:
    """Check an order that is sent along."""
    query = load(ORDER_QUERY, parse_query(request.environ.get("QUERY_STRING", "")))
    accept = request.environ.get("HTTP_ACCEPT", "")
    form = choose(suffix, query.get("format"), accept, CHECKED.forms)
    seen = look(form, query, here=here(CHECKED, suffix, form))
    given, notes = _given()
    found = proofed(given, notes)
    units = query.get("units", "mm")
    reply = with_reference(reply_of(found, units), units)
    if form == "html":
        reply["asked"] = {name: _form_text(value) for name, value in given.items() if value is not None}
    status = 409 if query.get("gate") and not found.ready else 200
    return respond(render(reply, seen, LAYOUT, ORDER_CHECK), seen.content_type, status, headers_of(reply))


register(blueprint, CHECKED, check_order)
