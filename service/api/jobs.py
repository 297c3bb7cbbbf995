"""``/v1/jobs``: long uploads that are answered at once, worked in the background, watched and cancelled."""

import json
import zlib
from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Any

import orjson
from flask import Blueprint, Response, current_app, request

from schemas.jobs import JOB, JOB_QUERY, NEW_JOB_QUERY
from schemas.verdict import CHECK, VERDICT_ROW, VERDICTS
from service.api import verdict as checks
from service.api.body import Row, body_kind, csv_rows, ndjson_rows
from service.api.callers import caller, writer
from service.api.formats import choose, look
from service.api.once import store
from service.api.query import load, parse_query
from service.api.render import Layout, Wire, render, stream
from service.api.resource import Answer, Headers, Resource, here, register, resource, respond, with_reference
from service.api.trace import request_id
from service.config import Settings
from service.errors import NotFound, NothingToCheck, RequestError, TooLarge, UnsupportedMedia
from service.jobs.queue import Queue
from service.pages.jobs import job_page
from service.store import jobs
from service.store.orders import new_id
from service.store.store import Store
from service.verdict.mates import FIELDS

blueprint = Blueprint("jobs", __name__)

COLUMNS = ("id", "state", "rows_done", "rows_total", "verdict", "made_at", "address", "result", "reference")

LAYOUT = Layout(
    "job",
    COLUMNS,
    lambda reply: [[reply[name] for name in COLUMNS]],
    lambda reply: str(reply["state"]),
    page=job_page,
)

_ONE = "/v1/jobs/<name:job>"
_MISSING = {404: "there is no such job"}


def _found(job: str) -> jobs.Progress:
    with store().read() as session:
        found = jobs.progress(session, caller().owner, job)
    if found is None:
        raise NotFound("there is no such job", field="job", value=job, accepted="an id that POST /v1/jobs gave")
    return found


def _state(found: jobs.Progress) -> str:
    if found.job.rows is None:
        return "receiving"
    if not found.chunks_open:
        return "done"
    return "running" if found.rows_done else "waiting"


def _reply(found: jobs.Progress, state: str | None = None) -> Wire:
    address = f"/v1/jobs/{found.job.id}"
    state = state or _state(found)
    return with_reference(
        {
            "id": found.job.id,
            "state": state,
            "rows_done": found.rows_done,
            "rows_total": found.job.rows,
            "verdict": max(found.verdicts, key=VERDICTS.index, default=None),
            "made_at": found.job.made_at.isoformat(),
            "address": address,
            "result": f"{address}/result" if state == "done" else None,
        }
    )


# --- rows to chunks and back -----------------------------------------------------------------------------------------


def _stored(block: Iterable[Row], units: str) -> str:
    """Return rows as they are kept until they are worked; one that cannot be read has its reply already.

    Escaped to ASCII, so that what is no UTF-8 comes back as it came.
    """
    kept: list[tuple[int, Any, Wire | None]] = []
    for number, given in block:
        if isinstance(given, RequestError):
            replies = next(checks.judged([(number, given)], units, checks.Tally(), request_id()))
            kept.append((number, None, replies[0]))
        else:
            kept.append((number, given, None))
    return json.dumps(kept, separators=(",", ":"))


def judge_chunk(stored: str, units: str) -> tuple[str, bytes]:
    """Return the worst verdict on the rows of a chunk, and the replies, compressed."""
    tally = checks.Tally()
    kept = json.loads(stored)
    rows = ((number, given) for number, given, known in kept if known is None)
    fresh = (reply for block in checks.judged(rows, units, tally, "job") for reply in block)
    replies = []
    for _, _, known in kept:
        if known is not None:
            tally.add(known["verdict"])
        replies.append(orjson.dumps(known or next(fresh)))
    return tally.worst, zlib.compress(b"\n".join(replies), 1)


def _blocks(kept: Store, job: str, chunks: int) -> Iterator[list[Wire]]:
    for number in range(1, chunks + 1):
        with kept.read() as session:
            worked = jobs.replies(session, job, number)
        if worked is None:
            raise ConnectionAbortedError(f"job {job} was deleted while its result was read")
        yield [orjson.loads(line) for line in zlib.decompress(worked).split(b"\n")]


# --- resources -------------------------------------------------------------------------------------------------------


def new_job(suffix: str | None = None) -> Response:
    """Store the rows of a body and have them worked."""
    owner = writer().owner
    query = load(NEW_JOB_QUERY, parse_query(request.environ.get("QUERY_STRING", "")))
    form = choose(suffix, query.get("format"), request.environ.get("HTTP_ACCEPT", ""), NEW_JOB.forms)
    seen = look(form, query, here=here(NEW_JOB, suffix))
    settings: Settings = current_app.extensions["kitproof.settings"]
    queue: Queue = current_app.extensions["kitproof.jobs"]
    content_type = request.environ.get("CONTENT_TYPE", "")
    kind = body_kind(content_type)
    body: Any = request.stream
    if kind == "json":
        raise UnsupportedMedia(
            "a job takes rows",
            field="Content-Type",
            value=content_type,
            accepted="text/csv, application/x-ndjson",
            example="text/csv",
        )
    rows = csv_rows(body, settings.row_limit, FIELDS) if kind == "csv" else ndjson_rows(body, settings.row_limit)
    job, units = new_id(), query.get("units", "mm")
    blocks = iter(lambda: list(islice(rows, checks.BLOCK)), [])
    first = next(blocks, None)
    if first is None:
        raise NothingToCheck("the body holds no check", field="body", accepted="one or more", example="line,bore")
    with store().write() as session:
        if jobs.count(session, owner) >= settings.jobs_limit:
            raise TooLarge(
                f"one owner has at most {settings.jobs_limit} jobs",
                field="body",
                accepted="deleting jobs that are done, or a larger KITPROOF_JOBS_LIMIT",
            )
        jobs.create(session, owner, job, units)
    try:
        total = _receive(job, [first], blocks, units, queue, settings)
        with store().write() as session:
            jobs.received(session, job, total)
    except BaseException:
        with store().write() as session:
            jobs.remove(session, owner, job)
        raise
    reply = _reply(_found(job))
    headers: Headers = (("Location", reply["address"]),)
    return respond(render(reply, seen, LAYOUT, JOB), seen.content_type, 202, headers)


def _receive(
    job: str, first: list[list[Row]], blocks: Iterator[list[Row]], units: str, queue: Queue, settings: Settings
) -> int:
    """Store the chunks of a job as they come in, and return how many rows they hold."""
    total = 0
    for number, block in enumerate((block for part in (first, blocks) for block in part), start=1):
        total += len(block)
        if total > settings.job_rows_limit:
            raise TooLarge(
                f"a job has at most {settings.job_rows_limit} rows",
                field="body",
                accepted="several jobs, or `python -m service catalogue` on a file",
            )
        with store().write() as session:
            jobs.add(session, job, number, len(block), _stored(block, units))
        queue.ticket(job)
    return total


NEW_JOB = Resource(
    "/v1/jobs",
    "Have many lines judged in the background",
    NEW_JOB_QUERY,
    JOB,
    LAYOUT,
    method="POST",
    body=CHECK,
    body_types=("text/csv", "application/x-ndjson"),
    description="Rows as POST /v1/verdicts takes them. The reply comes as soon as they are stored; Location names the "
    "job. It goes on after a restart, and every replica works on it; no row is judged twice unless its worker died.",
    statuses={403: "the token only reads"},
    success=202,
)

register(blueprint, NEW_JOB, new_job)


@resource(
    blueprint,
    Resource(
        _ONE,
        "How far a job is",
        JOB_QUERY,
        JOB,
        LAYOUT,
        description="As HTML a page with a progress bar that loads itself anew until the job is done.",
        statuses=_MISSING,
    ),
)
def get_job(query: Wire, job: str) -> Answer:
    """Show a job."""
    return Answer(_reply(_found(job)))


@resource(
    blueprint,
    Resource(
        _ONE,
        "Cancel a job, or delete one that is done",
        JOB_QUERY,
        JOB,
        LAYOUT,
        method="DELETE",
        description="With its rows and its result. Rows that are not judged yet are not judged any more.",
        statuses={**_MISSING, 403: "the token only reads"},
    ),
)
def delete_job(query: Wire, job: str) -> Answer:
    """Delete a job."""
    owner = writer().owner
    found = _found(job)
    with store().write() as session:
        jobs.remove(session, owner, job)
    return Answer(_reply(found, "deleted"))


def get_result(job: str, suffix: str | None = None) -> Response:
    """Return the rows of a job that is done."""
    query = load(JOB_QUERY, parse_query(request.environ.get("QUERY_STRING", "")))
    form = choose(suffix, query.get("format"), request.environ.get("HTTP_ACCEPT", ""), RESULT.forms)
    seen = look(form, query, by_line=True, here=here(RESULT, suffix))
    reply = _reply(_found(job))
    if reply["state"] != "done":
        raise NotFound(
            f"the job is not done: {reply['state']}, {reply['rows_done']} rows are judged",
            field="job",
            value=job,
            accepted="a job whose state is done",
            headers=(("Retry-After", "2"),),
        )
    chunks = -(-reply["rows_total"] // checks.BLOCK)
    body = stream(_blocks(store(), job, chunks), seen, checks.LAYOUT, VERDICT_ROW)
    return respond(body, seen.content_type, 200, (("X-Verdict", reply["verdict"]),))


RESULT = Resource(
    _ONE + "/result",
    "The rows of a job that is done",
    JOB_QUERY,
    VERDICT_ROW,
    checks.LAYOUT,
    forms=("json", "csv", "ndjson", "xml", "html", "word"),
    description="The same rows, in the same order, as POST /v1/verdicts answers to the same body.",
    statuses={404: "there is no such job, or it is not done yet"},
    rows=VERDICT_ROW,
)

register(blueprint, RESULT, get_result)
