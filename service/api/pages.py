"""The pages that are no resource: the first page, forms of an order, the sheet for the bench, the documentation.

What is entered in a form is answered by the same functions as a request of a program; what is wrong with it is said
above the form, which keeps what was entered.
"""

import csv
import hashlib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields
from functools import cache
from io import BytesIO
from typing import Any
from urllib.parse import urlencode

import orjson
from flask import Blueprint, Flask, Response, current_app, request
from marshmallow import Schema

from schemas.fields import printable
from schemas.reading import LINE_READING, LONGEST_LINE
from schemas.verdict import CHECK
from service.api import orders, reading, verdict, why, wire
from service.api.body import csv_rows
from service.api.callers import writer
from service.api.formats import SUFFIXES, Here, Look
from service.api.mount import page_at
from service.api.once import store
from service.api.openapi import resources, shown_path, specification
from service.api.render import render, rows_html, stream
from service.api.resource import Resource, respond, with_reference
from service.api.stored_orders import change_order
from service.api.trace import request_id
from service.cells import fused
from service.config import PREFIX, Settings
from service.errors import EVERY, BadValue, MissingField, NothingToCheck, RequestError
from service.orders.intake import as_objects
from service.orders.model import OrderCheck
from service.pages import home
from service.pages import orders as order_pages
from service.pages.site import page
from service.pages.why import why_page
from service.reading import read
from service.reading.model import LineReading
from service.stored.orders import prepare_new
from service.verdict.judge import judge
from service.verdict.kinds import BY_FIELD, KINDS
from service.verdict.mates import FIELDS, parse_check

blueprint = Blueprint("pages", __name__)

SUMMARY = (
    "Proof-reads orders of small machine parts: what would really arrive for this line, does it go with its mate in "
    "the design, and what should stand on the order instead?"
)

HTML = "text/html; charset=utf-8"
LONGEST_NAME = 100
"""Characters of the name of an order that is kept."""
_SEPARATORS = ",;\t|"
VALUES = ("measured.", "instrument.", "of.")
"""What the fields of the bench begin with."""

_OTHERS = ("Other lines", "/#many")
"""Where the page of many lines leads back to."""

_OPENED = ("line", "need")
"""Fields of a form that name what is opened of an order."""

_BESIDE = (*_OPENED, "name")
"""Fields of a form that are none of the order: what is opened, and what it is to be called if it is kept."""


def html(text: str, status: int = 200) -> Response:
    """Return a page as a response."""
    return respond(page_at(text.encode()), HTML, status)


# --- one line, or many -----------------------------------------------------------------------------------------------


@cache
def _kinds() -> list[tuple[str, str, str]]:
    meanings = {kind.field: CHECK.fields[kind.field].metadata["description"] for kind in KINDS}
    return [(kind.field, meanings[kind.field], kind.example) for kind in KINDS]


@cache
def _examples() -> list[home.Example]:
    found = []
    for row in home.example_rows():
        asked = {"line": row["line"], row["kind"]: row["mate"], **({"fit": row["fit"]} if row["fit"] else {})}
        word = judge(parse_check(asked)).verdict
        mate = f"{row['kind']} {row['mate']}" + (f", {row['fit']}" if row["fit"] else "")
        found.append(home.Example(row["line"], mate, row["what"], word, f"/v1/verdict.html?{urlencode(asked)}"))
    return found


def _first_page(given: Mapping[str, str], error: RequestError | None = None) -> Response:
    problem = None if error is None else error.body(request_id())
    return html(home.first_page(_kinds(), _examples(), given, problem), 200 if error is None else error.status)


@blueprint.get("/")
def first_page() -> Response:
    """Show what this is, and the forms to begin with."""
    return _first_page(request.args)


@blueprint.get("/proof")
def proof() -> Response:
    """Proof one line that was entered; without a mate, say what would arrive."""
    given = {name: request.args.get(name, "").strip() for name in home.FIELDS}
    units = request.args.get("units", "mm")
    try:
        if not given["line"]:
            raise MissingField("the line is empty", field="line", accepted="a purchase line", example="M5 dowel pin")
        if not given["mate"]:
            return _one("/v1/reading", {"line": given["line"]}, units)
        if given["kind"] not in BY_FIELD:
            kinds = ", ".join(BY_FIELD)
            raise BadValue("no such mate", field="kind", value=given["kind"], accepted=kinds, example="bore")
        asked = {"line": given["line"], given["kind"]: given["mate"], "fit": given["fit"]}
        return _one("/v1/verdict", {name: value for name, value in asked.items() if value}, units)
    except RequestError as error:
        return _first_page(given, error)


def _one(path: str, asked: Mapping[str, str], units: str) -> Response:
    """Return the page of a reading or a verdict, as its own address has it."""
    described = next(one for one in resources(_app()) if one.path == path and one.method == "GET")
    query = urlencode({**asked, **({"units": "in"} if units == "in" else {})})
    units = "in" if units == "in" else "mm"
    if path == "/v1/reading":
        reply = with_reference(wire.line_reading(reading_of(asked["line"]), units), units)
    else:
        reply = verdict.reply_to(asked, units)
    seen = Look("html", here=Here(described.summary, "", path, query, described.forms))
    return respond(render(reply, seen, described.layout, described.reply), HTML)


def reading_of(line: str) -> LineReading:
    """Return the readings of one line of a form.

    Raises:
        BadValue: it is too long, or holds what no line does.
    """
    if len(line) > LONGEST_LINE or not line.isprintable():
        raise BadValue(
            "the line is not read",
            field="line",
            value=line,
            accepted=f"1 to {LONGEST_LINE} characters of plain text",
            example="M5 dowel pin",
        )
    return read(line)


@blueprint.post("/proof")
def proof_many() -> Response:
    """Proof lines that were pasted or uploaded: checks, where a heading names them, else what would arrive for each."""
    text = ""
    try:
        text = _text_of(orders.sent(), "lines")
        settings: Settings = current_app.extensions["kitproof.settings"]
        if _has_heading(text):
            here = Here("Many lines", "Each line against its mate. Open one to see why.", back=_OTHERS)
            rows = csv_rows(BytesIO(text.encode()), settings.row_limit, FIELDS)
            return verdict.batch(rows, {}, Look("html", here=here), settings)
        said = "What would arrive for each, lengths in mm. Open one to see why, or to say what it goes with."
        here = Here("Many lines", said, back=_OTHERS)
        lines = [reading_of(fused(line.strip())) for line in text.splitlines() if line.strip()]
        replies = [[with_reference(wire.line_reading(one, "mm"), "mm")] for one in lines]
        body = b"".join(stream(replies, Look("html", here=here), reading.LAYOUT, LINE_READING))
        return respond(body, HTML)
    except RequestError as error:
        return _first_page({"lines": text}, error)


def _text_of(parts: list[tuple[str, bytes | str]], name: str) -> str:
    """Return the one part of a form that is wanted, as text.

    Raises:
        RequestError: it is missing, there twice, or among others.
    """
    found = [part for key, part in parts if key == name]
    if len(found) != 1:
        raise NothingToCheck(
            "there is no line" if not found else "both lines and a file are given",
            field=name,
            accepted="lines, or a file with lines",
            example="M5 dowel pin",
        )
    return found[0] if isinstance(found[0], str) else orders.decoded(found[0], name, [])


def _has_heading(text: str) -> bool:
    """Tell whether the first row names fields of a check, the line among them."""
    first = next((line for line in text.removeprefix("\ufeff").splitlines() if line.strip()), "")
    separator = max(_SEPARATORS, key=first.count)
    names = {cell.strip().lower() for cell in next(csv.reader([first], delimiter=separator), [])} - {""}
    return "line" in names and names <= set(FIELDS)


# --- an order --------------------------------------------------------------------------------------------------------


def _as_text(parts: list[tuple[str, bytes | str]]) -> dict[str, str]:
    """Return what was entered in the form of an order, files as their text, so that it can be sent again."""
    return {name: part if isinstance(part, str) else orders.decoded(part, name, []) for name, part in parts}


def _given_by(parts: list[tuple[str, bytes | str]]) -> tuple[dict[str, Any], list[str]]:
    """Return the fields of an order from the parts of a form, and notes on how they were read.

    Raises:
        RequestError: a part is not understood, or there is no need.
    """
    given, notes = orders.given_by(parts)
    if "needs" not in given:
        raise MissingField("the sheet of needs is empty", field="needs", accepted="at least one need", example=_NEEDS)
    return given, notes


def proofed_form(show: Callable[[OrderCheck, Mapping[str, str]], Response]) -> Response:
    """Proof the order of a form and show it; or show the form again with what is wrong."""
    parts: list[tuple[str, bytes | str]] = []
    try:
        parts = [(name, part) for name, part in orders.sent() if not name.startswith(VALUES) and name not in _BESIDE]
        return show(orders.proofed(*_given_by(parts)), _as_text(parts))
    except RequestError as error:
        return html(order_pages.order_form(_as_text(parts), error.body(request_id())), error.status)


_NEEDS = "id,quantity,bore,fit and below it N1,6,5 H7,location"


@blueprint.get("/order")
def order_form() -> Response:
    """Show the form of an order, empty or filled with that of the river sampler."""
    given = order_pages.sampler() if request.args.get("example") == "sampler" else {}
    return html(order_pages.order_form(given))


@blueprint.post("/order/edit")
def edit_order() -> Response:
    """Show the form of an order with what was entered before."""
    try:
        return html(order_pages.order_form(_as_text(orders.sent())))
    except RequestError as error:
        return html(order_pages.order_form({}, error.body(request_id())), error.status)


@blueprint.post("/order")
def proof_order() -> Response:
    """Proof an order that was entered."""

    def show(found: OrderCheck, kept: Mapping[str, str]) -> Response:
        reply = with_reference(orders.reply_of(found, "mm"), "mm")
        table = b"".join(rows_html([[reply]], orders.LAYOUT)).decode()
        return html(order_pages.order_page({**reply, "asked": kept}, table, "", []))

    return proofed_form(show)


@blueprint.post("/order/keep")
def keep_order() -> Response:
    """Store an order that was entered, and lead to its own page; sent twice, it is stored once."""
    parts: list[tuple[str, bytes | str]] = []
    try:
        parts = [part for part in orders.sent() if part[0] not in ("name", "today")]
        name = request.form.get("name", "").strip()
        given, notes = _given_by(parts)
        orders.proofed(given, notes)
        if len(name) > LONGEST_NAME or not printable(name):
            raise BadValue(
                "the name is not taken",
                field="name",
                value=name,
                accepted=f"up to {LONGEST_NAME} characters of plain text",
                example="river sampler",
            )
        plan = as_objects(given, fused) | ({"name": name} if name else {})
        owner = writer().owner
        key = hashlib.sha256(orjson.dumps(plan, option=orjson.OPT_SORT_KEYS, default=str)).hexdigest()
        made = change_order(plan, lambda: prepare_new(store(), owner, plan), new=True, key=f"keep-{key}")
    except RequestError as error:
        return html(order_pages.order_form(_as_text(parts), error.body(request_id())), error.status)
    address = f"/v1/orders/{made.reply['id']}/check.html"
    return respond(b"", HTML, 303, (("Location", address),))


@blueprint.post("/order/why")
def why_of_entered() -> Response:
    """Show a line or a need of an order that was entered, in full; the order goes along in the page."""

    def show(found: OrderCheck, kept: Mapping[str, str]) -> Response:
        asked = {name: request.form.get(name, "") for name in _OPENED}
        reply = with_reference(why.reply_of(found, asked, "mm"), "mm") | {"id": "", "name": "", "revision": 0}
        table = b"".join(rows_html([[reply]], why.LAYOUT)).decode()
        return html(why_page({**reply, "asked": kept}, table, "", []))

    return proofed_form(show)


# --- the documentation -----------------------------------------------------------------------------------------------


@blueprint.get("/docs")
def docs() -> Response:
    """Show the documentation."""
    return html(_docs(_app()))


def _app() -> Flask:
    return current_app._get_current_object()  # type: ignore[attr-defined, no-any-return]


@cache
def _docs(app: Flask) -> str:
    spec = specification(app)
    return page(
        "docs.html",
        title="Documentation",
        here="/docs",
        summary=SUMMARY,
        suffixes=", ".join(f".{suffix}" for suffix in SUFFIXES),
        operations=[_operation(one, spec["paths"][shown_path(one)][one.method.lower()]) for one in resources(app)],
        objects=[
            {"name": name, "rows": list(_properties(schema))} for name, schema in spec["components"]["schemas"].items()
        ],
        settings=list(_settings()),
        errors=[
            {"code": kind.code, "status": kind.status, "title": kind.title, "meaning": (kind.__doc__ or "").strip()}
            for kind in EVERY
        ],
    )


def _operation(one: Resource, operation: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "id": operation["operationId"],
        "method": one.method,
        "path": shown_path(one),
        "summary": one.summary,
        "description": one.description,
        "body_types": one.body_types,
        "body": _name(one.body),
        "reply": _name(one.reply),
        "forms": one.forms,
        "rows": [
            (
                parameter["name"] + (" (required)" if parameter.get("required") else ""),
                parameter["description"],
                str(parameter["example"]),
            )
            for parameter in operation["parameters"]
        ],
    }


def _name(schema: Schema | None) -> str:
    return "" if schema is None else type(schema).__name__


def _properties(schema: Mapping[str, Any]) -> Iterator[tuple[str, str, str]]:
    for field, about in schema.get("properties", {}).items():
        yield field, str(about.get("description", "")), ", ".join(str(example) for example in about.get("examples", ()))


def _settings() -> Iterator[tuple[str, str, str]]:
    """Return every setting: its variable, its meaning, and its value where none is set and it is the same anywhere."""
    for item in fields(Settings):
        default = item.default if isinstance(item.default, int | str) else ""
        yield PREFIX + item.name.upper(), item.metadata["meaning"], str(default)
