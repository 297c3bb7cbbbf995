"""``/v1/verdict`` and ``/v1/verdicts``: does the part of this line go with its mate?"""

import logging
from collections.abc import Iterable, Iterator, Mapping
from itertools import islice
from typing import Any
from urllib.parse import urlencode

from flask import Blueprint, Response, current_app, request

from schemas.fields import printable
from schemas.verdict import BATCH_QUERY, CHECK, SEVERAL_QUERY, VERDICT, VERDICT_QUERY, VERDICT_ROW, VERDICTS
from service.api import wire
from service.api.body import Row, body_kind, csv_rows, ndjson_rows, read_json
from service.api.formats import Look, choose, look
from service.api.metrics import count_verdicts, counted_as
from service.api.query import load, not_understood, parse_pairs, parse_query, unique, unknown_field
from service.api.render import Cell, Dress, Layout, Wire, render, stream
from service.api.reports import REPORTS, Case, advice
from service.api.resource import Answer, Headers, Resource, here, register, resource, respond, with_reference
from service.api.spool import Spool
from service.api.trace import request_id
from service.cells import cell_text
from service.config import Settings
from service.errors import BadValue, Internal, MissingField, NothingToCheck, RequestError, TooLarge
from service.pages.illustrations import of_verdict
from service.pages.lines import verdict_page
from service.verdict.judge import judge
from service.verdict.mates import FIELDS, KNOWN_FIELDS, parse_check
from service.verdict.model import Check, CheckError

log = logging.getLogger(__name__)

blueprint = Blueprint("verdict", __name__)

BLOCK = 100
"""Checks that are judged and written at a time."""

MOST_FIELDS = 2000
"""Fields of a query that holds several checks; its length is bounded by the server."""

COLUMNS = (
    "number",
    "verdict",
    "line",
    "order_text",
    "question",
    "reason",
    "mate",
    "fit",
    "window_lower",
    "window_upper",
    "family",
    "size_names",
    "clearance_lower",
    "clearance_upper",
    "share",
    "readings",
    "cautions",
    "units",
    "reference",
    "error",
)

_GATE = {409: "gate=1 and the verdict is not fits; the body is the same"}


# --- one check -----------------------------------------------------------------------------------------------------


def load_check(given: Any) -> Check:
    """Return the check that the fields of a request ask for.

    Raises:
        RequestError: a field is unknown, missing or not understood.
    """
    if not isinstance(given, dict):
        raise BadValue(
            f"a check is an object, not {type(given).__name__}",
            field="check",
            value=given,
            accepted=f"an object with the fields {', '.join(FIELDS)}",
            example='{"line": "M5 dowel pin", "bore": "5 H7"}',
        )
    for name, value in given.items():
        if name not in KNOWN_FIELDS:
            raise unknown_field(name, FIELDS)
        if isinstance(value, str) and not printable(value):
            raise BadValue(
                "control characters and bytes that are not UTF-8 are not read",
                field=name,
                value=value,
                accepted="plain text in UTF-8",
                example=str(CHECK.fields[name].metadata["example"]),
            )
    if not given.get("line"):
        raise MissingField("line is missing", field="line", accepted="a purchase line", example="M5 dowel pin")
    try:
        return parse_check(given)
    except CheckError as error:
        raise not_understood(error) from None


def reply_to(given: Any, units: str, counted: bool = True) -> Wire:
    """Return the answer to a check as it goes over the wire; not ``counted`` for a HEAD, which sheets send with a GET.

    Raises:
        RequestError: a field is unknown, missing or not understood.
    """
    verdict = judge(load_check(given))
    if counted:
        count_verdicts((counted_as(verdict),))
    return with_reference(wire.verdict(verdict, units), units)


def _reason(reply: Wire) -> str:
    """Return why the verdict is what it is, in one text."""
    if error := reply.get("error"):
        return _wrong_with(error)
    readings = reply["readings"]
    reasons = [finding["text"] for finding in reply["findings"]]
    for reading in readings:
        named = f"{reading['family']}: " if len(readings) > 1 else ""
        reasons += [named + finding["text"] for finding in reading["findings"] if finding["weight"] != "note"]
    return "; ".join(reasons)


def _wrong_with(error: Wire) -> str:
    """Return what is wrong with a check in one text."""
    return f"{error['field']}: {error['detail']}; accepted: {error['accepted']}; example: {error['example']}"


def cases(reply: Wire) -> Iterator[Case]:
    """Return a check as a case of a report."""
    word = reply["verdict"]
    then = advice(reply["order_text"], reply["question"])
    yield Case(reply.get("number", 1), reply["line"] or "", word, word == "fits", _reason(reply), then)


def _row(reply: Wire) -> list[Any]:
    best = reply["readings"][0] if reply["readings"] else {}
    clearance = best.get("clearance") or {}
    fit = reply["fit"] or {}
    window = fit.get("window", {})
    error = reply.get("error")
    return [
        reply.get("number"),
        reply["verdict"],
        reply["line"],
        reply["order_text"],
        reply["question"],
        _reason(reply),
        reply["mate"] and reply["mate"]["text"],
        fit.get("wanted"),
        window.get("lower"),
        window.get("upper"),
        best.get("family"),
        best.get("size_names"),
        clearance.get("lower"),
        clearance.get("upper"),
        reply["share"],
        "; ".join(f"{reading['family']}: {reading['verdict']}" for reading in reply["readings"]),
        cell_text(reply["cautions"]),
        reply["units"],
        reply["reference"],
        error and _wrong_with(error),
    ]


def _opened(reply: Wire, row: Mapping[str, Cell]) -> str | None:
    """Return where a row of several leads: the page of its one check, where that can be asked for in an address."""
    asked = reply.get("asked")
    if not asked or not all(isinstance(value, str) for value in asked.values()):
        return None
    return f"/v1/verdict.html?{urlencode(asked)}"


LAYOUT = Layout(
    "verdicts",
    COLUMNS,
    lambda reply: [_row(reply)],
    lambda reply: str(reply["verdict"]),
    cases=cases,
    page=verdict_page,
    picture=of_verdict,
    dress=Dress(
        main=("number", "verdict", "line", "reason", "order_text", "question"),
        signs=frozenset({"verdict"}),
        codes=frozenset({"order_text"}),
        links={"line": _opened},
    ),
)


def _status(word: str, query: Wire) -> int:
    return 409 if query.get("gate") and word != "fits" else 200


@resource(
    blueprint,
    Resource(
        "/v1/verdict",
        "Whether the part of a line goes with its mate",
        VERDICT_QUERY,
        VERDICT,
        LAYOUT,
        forms=("json", "csv", "xml", "html", "word", "svg"),
        description="One line against one mate. A verdict other than fits is an answer with status 200; the verdict "
        "also stands in X-Verdict. CSV, XML and HTML give one row, with the clearance of the best supported reading.",
        statuses=_GATE,
    ),
)
def verdict(query: Wire) -> Answer:
    """Judge one check."""
    given = {name: query[name] for name in FIELDS if name in query}
    reply = reply_to(given, query.get("units", "mm"), request.method != "HEAD")
    return Answer(reply, _status(reply["verdict"], query), _headers(reply["verdict"]))


def _headers(word: str) -> Headers:
    return (("X-Verdict", word),)


# --- many checks ---------------------------------------------------------------------------------------------------


class Tally:
    """How many checks a batch held, and the worst verdict among them."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self.checks = 0
        self.rank = 0

    def add(self, word: str) -> None:
        """Count one verdict."""
        self.checks += 1
        rank = VERDICTS.index(word)
        if rank > self.rank:
            self.rank = rank

    @property
    def worst(self) -> str:
        """The worst verdict so far."""
        return VERDICTS[self.rank]


def _failed(number: int, given: Any, error: RequestError, units: str, request_number: str) -> Wire:
    """Return the row of a check that cannot be read."""
    line = given.get("line") if isinstance(given, dict) else None
    reply = {
        "number": number,
        "verdict": "unread",
        "line": line if isinstance(line, str) and printable(line) else None,
        "state": "unread",
        "mate": None,
        "fit": None,
        "readings": [],
        "findings": [],
        "question": None,
        "order_text": "",
        "cautions": [],
        "share": None,
        "error": error.body(request_number),
    }
    return with_reference(reply, units)


def judged(
    rows: Iterable[Row], units: str, tally: Tally, request_number: str, asked: bool = False, counted: bool = True
) -> Iterator[list[Wire]]:
    """Return the replies to checks, block by block; one that fails never stops the others.

    ``asked`` keeps beside each reply what was asked, for pages that lead on to it.
    """
    remaining = iter(rows)
    while block := list(islice(remaining, BLOCK)):
        replies = []
        counts = []
        for number, given in block:
            try:
                if isinstance(given, RequestError):
                    raise given
                verdict = judge(load_check(given))
                reply = {"number": number, **with_reference(wire.verdict(verdict, units), units), "error": None}
                counts.append(counted_as(verdict))
            except RequestError as error:
                reply = _failed(number, given, error, units, request_number)
            except Exception:
                log.exception("request %s row %s failed", request_number, number)
                reply = _failed(number, given, Internal("the service failed on this check"), units, request_number)
            if asked:
                reply["asked"] = given if isinstance(given, dict) else {}
            tally.add(reply["verdict"])
            replies.append(reply)
        if counted:
            count_verdicts(counts)
        yield replies


def several(suffix: str | None = None) -> Response:
    """Judge the checks of a query: each ``line`` begins one, and what follows it belongs to it."""
    options, lines, rows = _checks(parse_pairs(request.environ.get("QUERY_STRING", ""), MOST_FIELDS))
    query = load(SEVERAL_QUERY, {**options, "line": lines})
    if not lines:
        raise MissingField(
            "line is missing", field="line", accepted="line, once for each check", example="M5 dowel pin"
        )
    form = choose(suffix, query.get("format"), request.environ.get("HTTP_ACCEPT", ""), SEVERAL.forms)
    seen = look(form, query, here=here(SEVERAL, suffix, form))
    return batch(rows, query, seen, current_app.extensions["kitproof.settings"])


def _checks(pairs: list[tuple[str, str]]) -> tuple[Wire, list[str], list[Row]]:
    """Return the options of a query, its lines, and its checks with their places; blank checks are passed over.

    Raises:
        Malformed: an option, or a field of one check, is given twice.
    """
    shared: list[tuple[str, str]] = []
    checks: list[list[tuple[str, str]]] = []
    options = []
    for name, value in pairs:
        if name == "line":
            checks.append([(name, value)])
        elif name in SEVERAL_QUERY.fields and name not in BATCH_QUERY.fields:
            (checks[-1] if checks else shared).append((name, value))
        else:
            options.append((name, value))
    common = _filled(shared)
    filled = enumerate(map(_filled, checks), start=1)
    rows = [(number, {**common, **own}) for number, own in filled if own]
    return unique(options), [own[0][1] for own in checks], rows


def _filled(pairs: list[tuple[str, str]]) -> dict[str, str]:
    """Return fields by name; a sheet also sends its empty cells, which say nothing."""
    return {name: value for name, value in unique(pairs).items() if value.strip()}


def verdicts(suffix: str | None = None) -> Response:
    """Judge the checks of a body: one JSON object, a list of them, CSV, or one JSON object per line."""
    query = load(BATCH_QUERY, parse_query(request.environ.get("QUERY_STRING", "")))
    kind = body_kind(request.environ.get("CONTENT_TYPE", ""))
    # A reply is written as its request is, unless something else is asked for.
    forms = (kind, *(form for form in BATCH.forms if form != kind))
    form = choose(suffix, query.get("format"), request.environ.get("HTTP_ACCEPT", ""), forms)
    seen = look(form, query, by_line=kind != "json", here=here(BATCH, suffix, form))
    settings: Settings = current_app.extensions["kitproof.settings"]
    body: Any = request.stream
    if kind == "csv":
        return batch(csv_rows(body, settings.row_limit, FIELDS), query, seen, settings)
    if kind == "ndjson":
        return batch(ndjson_rows(body, settings.row_limit), query, seen, settings)
    given = read_json(body, settings.body_limit, request.content_length)
    if not isinstance(given, list):
        reply = reply_to(given, query.get("units", "mm"))
        status = _status(reply["verdict"], query)
        return respond(render(reply, seen, LAYOUT, VERDICT), seen.content_type, status, _headers(reply["verdict"]))
    if len(given) > settings.checks_limit:
        raise TooLarge(
            f"{len(given)} checks in one JSON body",
            field="body",
            value=len(given),
            accepted=f"up to {settings.checks_limit} checks; CSV and NDJSON have no limit",
            example="application/x-ndjson",
        )
    return batch(enumerate(given, start=1), query, seen, settings)


def batch(rows: Iterable[Row], query: Wire, seen: Look, settings: Settings) -> Response:
    """Return the replies to all checks, once all are read, so that a client which sends everything first is served."""
    tally = Tally()
    asked = seen.form == "html" and not seen.inline
    counted = request.method != "HEAD"
    replies = judged(rows, query.get("units", "mm"), tally, request_id(), asked, counted)
    # What a gate answers is known only at the end, however long the batch.
    limit = None if query.get("gate") else settings.spool_limit
    spool = Spool(stream(replies, seen, LAYOUT, VERDICT_ROW), limit)
    if not tally.checks:
        spool.close()
        raise NothingToCheck(
            "the body holds no check",
            field="body",
            accepted="one check or more",
            example="line,bore\nM5 dowel pin,5 H7",
        )
    # As long as rows are still to come nothing is proved.
    word = tally.worst if spool.complete else max(tally.worst, "ask", key=VERDICTS.index)
    headers: Headers = (*_headers(word), *((("Content-Length", str(spool.size)),) if spool.complete else ()))
    response = respond(spool.body(), seen.content_type, _status(word, query), headers)
    response.call_on_close(spool.close)
    return response


_FORMS = ("json", "csv", "ndjson", "xml", "html", "word", *REPORTS)

SEVERAL = Resource(
    "/v1/verdicts",
    "Whether the parts of a few lines go with their mates",
    SEVERAL_QUERY,
    VERDICT_ROW,
    LAYOUT,
    forms=_FORMS,
    description="Several checks in one address, for sheets: each line begins a check, and what follows it belongs to "
    "it; what stands before the first line holds for every check that says nothing else. Each check is written as for "
    "/v1/verdict. Checks that are all blank are passed over but counted, so that numbers stay those of the rows. An "
    "address has at most 8190 characters, of which Excel sends 2048. What needs more goes by POST.",
    statuses=_GATE,
    rows=VERDICT_ROW,
)

BATCH = Resource(
    "/v1/verdicts",
    "Whether the parts of many lines go with their mates",
    BATCH_QUERY,
    VERDICT,
    LAYOUT,
    forms=_FORMS,
    method="POST",
    body=CHECK,
    body_types=("application/json", "text/csv", "application/x-ndjson"),
    description="A JSON object is answered as GET /v1/verdict does, a list by a list; CSV and NDJSON take any number "
    "of checks and answer row by row, in order, with the number of the line in the body. A check that cannot be read "
    "is unread and says why; the others are answered. X-Verdict holds the worst verdict of all. The reply begins when "
    "the body has been read. junit, tap, lines and sarif are reports for build tools, with one case a check; file says "
    "which file they point to.",
    statuses=_GATE,
    rows=VERDICT_ROW,
)

register(blueprint, SEVERAL, several)
register(blueprint, BATCH, verdicts)
