"""The first page, and the documentation as one plain page without anything from outside."""

from collections.abc import Sequence
from functools import cache
from html import escape
from typing import Any

from flask import Blueprint, Flask, Response, current_app

from service.api.formats import SUFFIXES
from service.api.openapi import resources, shown_path, specification
from service.api.render import page_head
from service.api.resource import Resource, respond
from service.errors import EVERY

blueprint = Blueprint("pages", __name__)

SUMMARY = (
    "Proof-reads orders of small machine parts: what would really arrive for this line, does it go with its mate in "
    "the design, and what should stand on the order instead?"
)
CAUTION = (
    "Figures for tightening, pressing, heating and load are guidance for light machinery; the part maker's data, local "
    "codes and a qualified person come first."
)
LINKS = {
    "documentation": "/docs",
    "description for programs": "/openapi.json",
    "what a line means": "/v1/reading?line=M5+dowel+pin",
    "does it fit": "/v1/verdict?line=M5+dowel+pin&bore=5+H7&fit=location",
    "limits and clearance": "/v1/fits?size=25&hole=H8&shaft=f7",
    "tables and their sources": "/v1/reference",
}


@blueprint.get("/")
def first_page() -> Response:
    """Show what this is and where to go."""
    links = "".join(f'<li><a href="{escape(address)}">{escape(name)}</a></li>' for name, address in LINKS.items())
    body = f"<h1>Kitproof</h1><p>{escape(SUMMARY)}</p><ul>{links}</ul><p>{escape(CAUTION)}</p></body></html>"
    return respond((page_head("proof-reads orders of parts") + body).encode(), "text/html; charset=utf-8")


@blueprint.get("/docs")
def docs() -> Response:
    """Show the documentation."""
    return respond(_docs(current_app._get_current_object()), "text/html; charset=utf-8")  # type: ignore[attr-defined]


@cache
def _docs(app: Flask) -> bytes:
    spec = specification(app)
    parts = [page_head("API"), f"<h1>Kitproof API</h1><p>{escape(SUMMARY)}</p><p>{escape(CAUTION)}</p>"]
    suffixes = ", ".join(f".{suffix}" for suffix in SUFFIXES)
    parts.append(
        "<p>The same description for programs: <a href='/openapi.json'>/openapi.json</a>. The form of a reply is "
        f"chosen by a suffix of the path ({suffixes}), by <code>format=</code>, or by "
        "Accept. Every reply carries X-Request-Id and X-Reference-Fingerprint.</p>"
    )
    for one in resources(app):
        shown = shown_path(one)
        operation = spec["paths"][shown][one.method.lower()]
        parts.append(_operation(shown, one, operation))
    parts.append("<h2 id='replies'>Objects</h2>")
    parts += [_schema(name, schema) for name, schema in spec["components"]["schemas"].items()]
    parts.append(_errors())
    parts.append("</body></html>")
    return "".join(parts).encode()


def _operation(path: str, one: Resource, operation: dict[str, Any]) -> str:
    rows = [
        (
            parameter["name"] + (" (required)" if parameter.get("required") else ""),
            parameter["description"],
            str(parameter["example"]),
        )
        for parameter in operation["parameters"]
    ]
    body = f"<p>Body: {escape(', '.join(one.body_types))}.</p>" if one.body_types else ""
    reply = type(one.reply).__name__
    fields = _table(("field", "meaning", "example"), rows)
    return (
        f"<h2>{one.method} {escape(path)}</h2><p>{escape(one.summary)}. {escape(one.description)}</p>{body}"
        f"<p>Reply: <a href='#{reply}'>{reply}</a>, as {', '.join(one.forms)}.</p>{fields}"
    )


def _schema(name: str, schema: dict[str, Any]) -> str:
    rows = [
        (field, str(about.get("description", "")), ", ".join(str(example) for example in about.get("examples", ())))
        for field, about in schema.get("properties", {}).items()
    ]
    return f"<h3 id='{name}'>{name}</h3>{_table(('field', 'meaning', 'example'), rows)}"


def _errors() -> str:
    rows = "".join(
        f"<tr id='{kind.code}'><td>{kind.status}</td><td>{kind.code}</td><td>{escape(kind.title)}</td>"
        f"<td>{escape((kind.__doc__ or '').strip())}</td></tr>"
        for kind in EVERY
    )
    head = "<tr><th>status</th><th>code</th><th>title</th><th>meaning</th></tr>"
    return f"<h2 id='errors'>Errors</h2><table>{head}{rows}</table>"


def _table(heads: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> str:
    head = "".join(f"<th>{escape(name)}</th>" for name in heads)
    body = "".join("<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>" for row in rows)
    return f"<table><tr>{head}</tr>{body}</table>"
