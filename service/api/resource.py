"""The decorator that makes a function a resource.

A view gets the loaded query, and the loaded body where the resource has one, and returns an ``Answer``; what a resource
is called, takes and gives is said once, in the decorator, and serves routing, loading, rendering and the documentation
alike.
"""

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import wraps
from typing import Any

from flask import Blueprint, Response, current_app, request
from marshmallow import Schema
from werkzeug.routing import BaseConverter

from reference import tables
from service.api.body import body_kind, read_json
from service.api.formats import NOWHERE_ELSE, Here, choose, look
from service.api.mount import at
from service.api.query import load, parse_query
from service.api.render import Layout, Wire, render
from service.errors import BadValue, UnsupportedMedia

Headers = tuple[tuple[str, str], ...]


class NameConverter(BaseConverter):
    """A name in a path; it holds no dot, so that a suffix can follow."""

    regex = "[A-Za-z0-9_]+"
    part_isolating = True


class TextConverter(BaseConverter):
    """A text in a path, of any characters but a slash; no suffix can follow it."""

    regex = "[^/]{1,100}"
    part_isolating = True


CONVERTERS: Mapping[str, type[BaseConverter]] = {"name": NameConverter, "text": TextConverter}


@dataclass(frozen=True, slots=True)
class Answer:
    """What a view gives: the reply, and what the resource's own description leaves open."""

    reply: Wire
    status: int = 200
    headers: Headers = ()
    layout: Layout | None = None


@dataclass(frozen=True, slots=True)
class RequestHeader:
    """A header of the request that a resource looks at."""

    name: str
    meaning: str
    example: str
    required: bool = False


@dataclass(frozen=True, slots=True)
class Resource:
    """All that is to know about a resource. ``path`` holds names in angle brackets; the first form is the default.

    ``rows`` is what a list of replies holds; where it is the reply itself, there is always a list. ``success`` is the
    status of a request that was carried out.
    """

    path: str
    summary: str
    query: Schema
    reply: Schema
    layout: Layout
    forms: tuple[str, ...] = ("json", "csv", "xml", "html", "word")
    method: str = "GET"
    body: Schema | None = None
    body_types: tuple[str, ...] = ()
    description: str = ""
    statuses: Mapping[int, str] | None = None
    rows: Schema | None = None
    success: int = 200
    headers: tuple["RequestHeader", ...] = ()


View = Callable[..., Answer]


def resource(blueprint: Blueprint, described: Resource) -> Callable[[View], View]:
    """Register a view as a resource, under its path and under its path with a suffix."""

    def decorate(view: View) -> View:
        @wraps(view)
        def endpoint(suffix: str | None = None, **path: Any) -> Response:
            query = load(described.query, parse_query(request.environ.get("QUERY_STRING", "")))
            accept = request.environ.get("HTTP_ACCEPT", "")
            form = choose(suffix, query.get("format"), accept, described.forms)
            seen = look(form, query, here=here(described, suffix, form))
            given = (query,) if described.body is None else (query, posted(described.body))
            answer = view(*given, **path)
            layout = answer.layout or described.layout
            body = render(answer.reply, seen, layout, described.reply)
            return respond(body, seen.content_type, answer.status, answer.headers)

        register(blueprint, described, endpoint)
        return view

    return decorate


def here(described: "Resource", suffix: str | None, form: str = "html") -> Here:
    """Return what the page of the resource at hand says of itself; nothing in any other form."""
    if form != "html":
        return NOWHERE_ELSE
    if described.method != "GET":
        return Here(described.summary, described.description)
    path = request.path.removesuffix(f".{suffix}") if suffix else request.path
    query = request.environ.get("QUERY_STRING", "")
    return Here(described.summary, described.description, path, query, described.forms)


def posted(schema: Schema) -> Wire:
    """Return the values of the one JSON object that a request's body is.

    Raises:
        RequestError: it is no JSON object, or not what the schema says.
    """
    content_type = request.environ.get("CONTENT_TYPE", "")
    if body_kind(content_type) != "json":
        raise UnsupportedMedia(
            "one JSON object is read here",
            field="Content-Type",
            value=content_type,
            accepted="application/json",
            example="application/json",
        )
    limit = current_app.extensions["kitproof.settings"].body_limit
    stream: Any = request.stream
    given = read_json(stream, limit, request.content_length)
    if not isinstance(given, dict):
        name, field = next(iter(schema.fields.items()))
        raise BadValue(
            f"the body is no object but {type(given).__name__}",
            field="body",
            value=given,
            accepted=f"an object with the fields {', '.join(schema.fields)}",
            example=json.dumps({name: field.metadata.get("example")}),
        )
    return load(schema, given)


def register(blueprint: Blueprint, described: Resource, endpoint: Callable[..., Response]) -> None:
    """Bind an endpoint to the paths of its resource; the description goes with it."""
    endpoint.resource = described  # type: ignore[attr-defined]
    name = endpoint.__name__
    rules = [described.path] if described.path == "/" else [described.path, described.path + ".<name:suffix>"]
    for rule in rules:
        blueprint.add_url_rule(rule, name, endpoint, methods=[described.method])


def respond(body: bytes | Iterable[bytes], content_type: str, status: int = 200, headers: Headers = ()) -> Response:
    """Return a response; what every reply carries is added by the application."""
    seen = [(name, at(value) if name == "Location" else value) for name, value in headers]
    return Response(body, status, [("Content-Type", content_type), ("Vary", "Accept"), *seen])


def with_reference(reply: Wire, units: str | None = None) -> Wire:
    """Return the reply with the fingerprint of the reference data, and with its unit of length where it has one."""
    reply["reference"] = tables.fingerprint()
    if units is not None:
        reply["units"] = units
    return reply
