"""``/openapi.json``: the description of every resource, made from its schemas at the first request."""

import re
from functools import cache
from typing import Any

import orjson
from apispec import APISpec
from apispec.ext.marshmallow import MarshmallowPlugin
from apispec.ext.marshmallow.openapi import OpenAPIConverter
from flask import Blueprint, Flask, Response, current_app
from marshmallow import Schema, fields

from schemas.reading import Dimension
from schemas.reply import LIMITS, PROBLEM, RATING, THREAD
from schemas.verdict import Measure
from service.api.formats import CONTENT_TYPES
from service.api.mount import mount
from service.api.resource import Resource, respond
from service.errors import EVERY
from service.version import service_version

blueprint = Blueprint("openapi", __name__)

_IN_PATH = re.compile(r"<(?:\w+:)?(\w+)>")
_PATH_EXAMPLES = {
    "job": "3f0c9b1e5d7a4c2890ab12cd34ef5678",
    "table": "it_grades",
    "order": "3f0c9b1e5d7a4c2890ab12cd34ef5678",
    "supplier": "A",
    "habit": "3f0c9b1e5d7a4c2890ab12cd34ef5678",
}
_PATH_MEANINGS = {"job": "id of the job", "order": "id of the order", "habit": "id of the habit"}


def resources(app: Flask) -> list[Resource]:
    """Return every resource of the application, in the order of its paths."""
    found = [view.resource for view in app.view_functions.values() if hasattr(view, "resource")]
    return sorted(found, key=lambda described: (described.path, described.method))


def shown_path(described: Resource) -> str:
    """Return the path of a resource as the description writes it."""
    return _IN_PATH.sub(r"{\1}", described.path)


def specification(app: Flask) -> dict[str, Any]:
    """Return the OpenAPI document of the application."""
    plugin = MarshmallowPlugin(schema_name_resolver=_schema_name)
    spec = APISpec(
        title="Kitproof",
        version=service_version(),
        openapi_version="3.1.0",
        info={"description": "Proof-reads orders of small machine parts against the design.", "license": _LICENSE},
        plugins=[plugin],
    )
    converter = plugin.converter
    assert converter is not None  # noqa: S101 - apispec makes it when the plugin is handed to it
    for function in (_forms, _example):
        converter.add_attribute_function(function)  # type: ignore[no-untyped-call]
    for name, schema in (("Limits", LIMITS), ("Thread", THREAD), ("Rating", RATING), ("Problem", PROBLEM)):
        spec.components.schema(name, schema=schema)
    for described in resources(app):
        operation = _operation(described, converter)
        spec.path(path=shown_path(described), operations={described.method.lower(): operation})
    return spec.to_dict()


_LICENSE = {"name": "MIT", "identifier": "MIT"}


def _schema_name(schema: Schema | type[Schema] | str) -> str:
    made = schema if isinstance(schema, type) else type(schema)
    return made.__name__ if isinstance(made, type) else str(made)


def _forms(self: OpenAPIConverter, field: fields.Field[Any], **_: Any) -> dict[str, Any]:
    """Describe a field of several forms by them."""
    limits, thread, rating = ({"$ref": f"#/components/schemas/{name}"} for name in ("Limits", "Thread", "Rating"))
    if isinstance(field, Dimension):
        ratings = {"type": "object", "additionalProperties": rating}
        return {"anyOf": [limits, thread, {"type": "string"}, ratings]}
    if isinstance(field, Measure):
        return {"anyOf": [{"type": "number"}, limits, {"type": "null"}]}
    return {}


def _example(self: OpenAPIConverter, field: fields.Field[Any], **_: Any) -> dict[str, Any]:
    """Give the example as OpenAPI 3.1 has it, as a list."""
    example = field.metadata.get("example")
    return {} if example is None else {"examples": [example]}


def _operation(described: Resource, converter: OpenAPIConverter) -> dict[str, Any]:
    parameters = converter.schema2parameters(described.query, location="query")
    for parameter in parameters:
        field = described.query.fields[parameter["name"]]
        parameter["example"] = field.metadata["example"]
        parameter.setdefault("description", field.metadata["description"])
    parameters += [
        {
            "name": name,
            "in": "path",
            "required": True,
            "description": _PATH_MEANINGS.get(name, f"name of the {name}"),
            "schema": {"type": "string"},
            "example": _PATH_EXAMPLES[name],
        }
        for name in _IN_PATH.findall(described.path)
    ]
    parameters += [
        {
            "name": header.name,
            "in": "header",
            "required": header.required,
            "description": header.meaning,
            "schema": {"type": "string"},
            "example": header.example,
        }
        for header in described.headers
    ]
    operation: dict[str, Any] = {
        "operationId": re.sub(r"\W+", "_", described.method.lower() + _IN_PATH.sub(r"\1", described.path)),
        "tags": [described.path.removeprefix("/v1/").strip("/").split("/")[0]],
        "summary": described.summary,
        "description": described.description or described.summary,
        "parameters": parameters,
        "responses": _responses(described),
    }
    if described.body is not None:
        operation["requestBody"] = {
            "required": True,
            "content": {media_type: _body(described, media_type) for media_type in described.body_types},
        }
    return operation


def _body(described: Resource, media_type: str) -> dict[str, Any]:
    """Describe a body; what takes rows also takes a list of objects."""
    if media_type in ("application/json", "application/merge-patch+json") and described.body is not None:
        one = described.body
        return {"schema": {"anyOf": [one, {"type": "array", "items": one}]} if described.rows is not None else one}
    if media_type == "multipart/form-data" and described.body is not None:
        parts = {name: {"type": "string", "description": field.metadata["description"]} for name, field in
                 described.body.fields.items()}  # fmt: skip
        return {"schema": {"type": "object", "properties": parts}}
    return {"schema": {"type": "string", "description": "one check per row or line"}}


_TEXT = {"schema": {"type": "string"}}
_INLINE = "an error as text, where errors=inline asks for that"
_ERRORS = {
    "application/problem+json": {"schema": PROBLEM},
    **dict.fromkeys(("text/plain", "text/html", "application/problem+xml", "application/xml"), _TEXT),
}
"""An error in the forms that it takes, whatever the form of the reply would have been."""


def _reply(described: Resource) -> list[Any]:
    """Describe a JSON reply: one object, a list of them, or either as the request has it."""
    if described.rows is None:
        return [described.reply]
    rows = {"type": "array", "items": described.rows}
    return [rows] if described.rows is described.reply else [described.reply, rows]


def _responses(described: Resource) -> dict[str, Any]:
    types = {form: CONTENT_TYPES[form].partition(";")[0] for form in described.forms}

    def content(*json: Any) -> dict[str, Any]:
        schema = json[0] if len(json) == 1 else {"anyOf": list(json)}
        forms = {"json": {"schema": schema}, "sarif": {"schema": {"type": "object"}}}
        return {media_type: forms.get(form, _TEXT) for form, media_type in types.items()}

    good, summary = _reply(described), described.summary
    # Inline errors have the status 200, whatever the status of success is.
    responses: dict[str, Any] = {"200": {"description": f"{summary}; or {_INLINE}", "content": content(*good, PROBLEM)}}
    if described.success != 200:
        responses["200"] = {"description": _INLINE, "content": content(PROBLEM)}
        responses[str(described.success)] = {"description": summary, "content": content(*good)}
    for status, meaning in (described.statuses or {}).items():
        responses[str(status)] = {"description": meaning, "content": content(*good) if status == 409 else _ERRORS}
    responses["default"] = {
        "description": "an error: " + "; ".join(f"{kind.status} {kind.title}" for kind in EVERY),
        "content": _ERRORS,
    }
    return responses


@cache
def _document(app: Flask) -> bytes:
    return orjson.dumps(specification(app))


@blueprint.get("/openapi.json")
def openapi() -> Response:
    """Give the description of the service."""
    document = _document(current_app._get_current_object())  # type: ignore[attr-defined]
    if root := mount():
        document = orjson.dumps({**orjson.loads(document), "servers": [{"url": root}]})
    return respond(document, "application/json")
