"""Errors to replies: one shape on every route, one plain line in the text forms, 200 where ``errors=inline`` asks."""

import logging
from collections.abc import Callable

import orjson
from flask import Flask, Response, current_app, request
from werkzeug.exceptions import HTTPException

from schemas.fields import NO
from service.api.body import read_over
from service.api.formats import CONTENT_TYPES, SUFFIXES, Look, choose
from service.api.mount import page_at
from service.api.query import parse_pairs
from service.api.render import FORMS, Layout, rows_html
from service.api.reports import REPORTS, Case, Origin, junit
from service.api.resource import Resource, respond
from service.api.trace import request_id
from service.cells import cell_text, xml_text
from service.errors import (
    Internal,
    Malformed,
    MethodNotAllowed,
    NotFound,
    NotReady,
    RequestError,
    TooLarge,
    UnsupportedMedia,
)
from service.pages.problems import problem_page
from service.store.engine import Unavailable

log = logging.getLogger(__name__)

_PLAIN = Look("json")
_MANY = 10_000
"""Fields of a query that is looked at for its form alone; its length is bounded by the server."""

_BY_STATUS: dict[int, type[RequestError]] = {404: NotFound, 413: TooLarge, 415: UnsupportedMedia}


def register_problems(app: Flask) -> None:
    """Answer every error of the application in the one shape."""
    app.register_error_handler(RequestError, problem_response)
    app.register_error_handler(Unavailable, lambda error: problem_response(_of_store(error)))
    app.register_error_handler(HTTPException, lambda error: problem_response(_of_http(error)))
    app.register_error_handler(Exception, lambda error: problem_response(_of_fault(error)))


def _of_store(error: Unavailable) -> RequestError:
    """Return what the database cannot do now as an error; the log holds what it said itself."""
    log.warning("request %s %s: %s (%s)", request_id(), request.path, error.reason, error.__cause__)
    return NotReady(error.reason, headers=(("Retry-After", str(error.retry_after)),))


def _of_http(error: HTTPException) -> RequestError:
    """Return an error of the framework as one of ours."""
    status = error.code or 500
    if status == 405:
        methods = ", ".join(sorted(getattr(error, "valid_methods", None) or ()))
        return MethodNotAllowed(
            f"{request.method} is not known at {request.path}",
            field="method",
            value=request.method,
            accepted=methods,
            example=next((one for one in methods.split(", ") if one != "OPTIONS"), "OPTIONS"),
            headers=(("Allow", methods),),
        )
    if status == 404:
        return NotFound(
            f"there is nothing at {request.path}",
            field="path",
            value=request.path,
            accepted="the paths that /docs lists",
            example="/v1/verdict",
        )
    kind = _BY_STATUS.get(status) or (Malformed if 400 <= status < 500 else Internal)
    return kind(error.description or error.name)


def _of_fault(error: Exception) -> RequestError:
    """Return a fault of ours; what happened goes to the log under the request id, not to the client."""
    log.error("request %s %s failed", request_id(), request.path, exc_info=error)
    return Internal("the service failed on this request; its log holds more under the request id")


def problem_response(error: RequestError) -> Response:
    """Return an error in the form that the request asks for."""
    described, seen = _look()
    read_over(request.stream)
    if seen.inline:
        # Pictures and SARIF have no place for it.
        content_type = CONTENT_TYPES["json"] if seen.form in ("svg", "sarif") else seen.content_type
        return respond(_inline(error, described, seen), content_type, 200)
    body, content_type = _written(error, seen)
    return respond(body, content_type, error.status, error.headers)


def _look() -> tuple[Resource | None, Look]:
    """Return the resource asked for and the form of its reply, as far as the request can be understood."""
    view = current_app.view_functions.get(request.endpoint or "")
    described: Resource | None = getattr(view, "resource", None)
    suffix = (request.view_args or {}).get("suffix")
    raw = request.environ.get("QUERY_STRING", "")
    try:
        query = dict(parse_pairs(raw, _MANY))
    except RequestError:
        query = {"errors": "inline"} if "errors=inline" in raw and "gate=" not in raw else {}
    if request.endpoint is None:
        # There is no resource, but who asked for plain text is answered in plain text.
        suffix = next((name for name in SUFFIXES if request.path.endswith(f".{name}")), None)
    # A gate that opens on an error would be none.
    inline = query.get("errors", "").strip().lower() == "inline" and query.get("gate", "0").strip().lower() in NO
    forms = described.forms if described else tuple(_WRITERS)
    if request.blueprint in ("pages", "bench"):
        forms = ("html", *forms)  # what is no resource is a page, whatever a client accepts
    for asked in (query.get("format"), None):
        try:
            form = choose(suffix, asked, request.environ.get("HTTP_ACCEPT", ""), forms)
        except RequestError:
            continue
        return described, Look(form, inline=inline, origin=Origin(query.get("file", "order")))
    return described, Look(_PLAIN.form, inline=inline)


def _inline(error: RequestError, described: Resource | None, seen: Look) -> bytes:
    """Return the error as text where the value would stand: for sheets, which lose the body of a 4xx."""
    if seen.form in ("json", "ndjson", "svg", *REPORTS):
        return _written(error, seen)[0]
    line = error.line()
    columns = described.layout.columns if described and "error" in described.layout.columns else ("error",)
    # A cell picks one column, so that the error stands in all of them.
    row = (line,) * len(columns)
    single = described is None or described.layout.single
    layout = Layout("error", columns, lambda _: [row], lambda _: line, single)
    # Where rows are counted the error is a row, so that none is not taken for all.
    batch = described is not None and described.rows is not None
    return b"".join(FORMS[seen.form]([[{}]], seen, layout, batch))


def _written(error: RequestError, seen: Look) -> tuple[bytes, str]:
    """Return the error in its form, with its media type; a report tells it as its one case."""
    if seen.form == "junit":
        case = Case(1, "the request", error.code, False, error.line())
        return b"".join(junit([case], Origin(seen.origin.file, by_line=False))), seen.content_type
    return _WRITERS.get(seen.form, _as_json)(error)


def _as_json(error: RequestError) -> tuple[bytes, str]:
    return orjson.dumps(error.body(request_id())), "application/problem+json"


def _as_line(error: RequestError) -> tuple[bytes, str]:
    return error.line().encode(), "text/plain; charset=utf-8"


def _as_tap(error: RequestError) -> tuple[bytes, str]:
    return f"Bail out! {error.line()}\n".encode(), "text/plain; charset=utf-8"


def _as_xml(error: RequestError) -> tuple[bytes, str]:
    cells = "".join(f"<{name}>{xml_text(value)}</{name}>" for name, value in error.body(request_id()).items())
    return f'<?xml version="1.0" encoding="UTF-8"?>\n<problem>{cells}</problem>'.encode(), "application/problem+xml"


def _as_html(error: RequestError) -> tuple[bytes, str]:
    body = error.body(request_id())
    layout = Layout("problem", tuple(body), lambda _: [[cell_text(value) for value in body.values()]], lambda _: "")
    table = b"".join(rows_html([[body]], layout)).decode()
    return page_at(problem_page(body, table).encode()), "text/html; charset=utf-8"


_WRITERS: dict[str, Callable[[RequestError], tuple[bytes, str]]] = {
    "json": _as_json,
    "csv": _as_line,
    "xml": _as_xml,
    "html": _as_html,
    "word": _as_line,
    "ndjson": _as_json,
    "tap": _as_tap,
    "lines": _as_line,
}
