"""``/v1/jobs``: long uploads that are answered at once, worked in the background, listed, watched and cancelled."""

import json
import re
import zlib
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import datetime, timedelta
from itertools import chain, islice
from typing import Any

import orjson
from flask import Blueprint, Response, current_app, request

from schemas.jobs import (
    FIRST,
    JOB,
    JOB_QUERY,
    JOBS,
    JOBS_QUERY,
    NEW_JOB_QUERY,
    RESULT_QUERY,
    WATCH_QUERY,
)
from schemas.verdict import CHECK, LONGEST_TEXT, VERDICT_ROW, VERDICTS
from service.api import verdict as checks
from service.api.body import Row, body_kind, csv_rows, ndjson_rows, read_form
from service.api.callers import caller, writer
from service.api.formats import CONTENT_TYPES, choose, look
from service.api.metrics import count_job
from service.api.mount import at
from service.api.once import store
from service.api.query import load, parse_query
from service.api.render import Layout, Wire, render, stream
from service.api.reports import REPORTS, Case
from service.api.resource import Answer, Headers, Resource, here, register, resource, respond, with_reference
from service.api.trace import request_id
from service.config import Settings
from service.errors import (
    BadValue,
    Gone,
    NotDone,
    NotFound,
    NothingToCheck,
    RequestError,
    TooLarge,
    UnsupportedMedia,
)
from service.jobs.queue import Queue
from service.pages.jobs import UPLOAD_MIB, job_page, jobs_page
from service.store import jobs
from service.store.model import Job
from service.store.orders import new_id
from service.store.store import Store
from service.verdict.mates import FIELDS

blueprint = Blueprint("jobs", __name__)

COLUMNS = (
    "id",
    "file",
    "state",
    "rows_done",
    "rows_total",
    "verdict",
    *VERDICTS,
    "made_at",
    "started_at",
    "finished_at",
    "kept_until",
    "address",
    "result",
    "reference",
)
_PAGE = 100


def _row(one: Wire, reference: str) -> list[Any]:
    cells = {**one, **one["verdicts"], "reference": reference}
    return [cells[name] for name in COLUMNS]


LAYOUT = Layout(
    "job",
    COLUMNS,
    lambda reply: [_row(reply, reply["reference"])],
    lambda reply: str(reply["state"]),
    page=job_page,
)
CHUNK = 250
"""Rows of a job that are stored and worked together."""

LIST_LAYOUT = Layout(
    "jobs",
    COLUMNS,
    lambda reply: [_row(one, reply["reference"]) for one in reply["jobs"]],
    lambda reply: "\n".join(one["id"] for one in reply["jobs"]),
    single=False,
    page=jobs_page,
)

_ONE = "/v1/jobs/<name:job>"
_MISSING = {404: "there is no such job"}
_CHANGES = {**_MISSING, 403: "the token only reads"}


def queue_of(store: Store, settings: Settings) -> Queue:
    """Return the queue of a service, with all that it does for each chunk and each job."""
    return Queue(store, judge_chunk, timedelta(days=settings.job_days), count_job)


def _settings() -> Settings:
    found: Settings = current_app.extensions["kitproof.settings"]
    return found


def _missing(job: str) -> NotFound:
    return NotFound("there is no such job", field="job", value=job, accepted="an id of GET /v1/jobs")


def _found(job: str) -> Job:
    with store().read() as session:
        found = jobs.find(session, caller().owner, job)
    if found is None:
        raise _missing(job)
    return found


# --- replies ---------------------------------------------------------------------------------------------------------


def _head(job: Job) -> Wire:
    """Return a job as it stands in a list."""
    address, state = at(f"/v1/jobs/{job.id}"), jobs.state_of(job)
    kept_until = job.finished_at and job.finished_at + timedelta(days=_settings().job_days)
    return {
        "id": job.id,
        "file": job.file,
        "state": state,
        "rows_done": job.rows_done,
        "rows_total": job.rows,
        "verdict": _worst(job.verdicts) if job.rows_done else None,
        "verdicts": {word: job.verdicts.get(word, 0) for word in VERDICTS},
        "made_at": job.made_at.isoformat(),
        "started_at": _moment(job.started_at),
        "finished_at": _moment(job.finished_at),
        "kept_until": _moment(kept_until),
        "address": address,
        "result": f"{address}/result" if job.finished_at is not None and job.rows_done else None,
    }


def _worst(verdicts: Iterable[str]) -> str:
    return max(verdicts, key=VERDICTS.index)


def _moment(moment: datetime | None) -> str | None:
    return None if moment is None else moment.isoformat()


def _reply(job: Job) -> Wire:
    return with_reference({**_head(job), "first_not_fits": list(_first_not_fits(job))})


def _first_not_fits(job: Job) -> Iterator[Wire]:
    """Return the first rows of a finished job that do not fit; only chunks that hold some are read."""
    if job.finished_at is None or job.rows_done == job.verdicts.get("fits", 0):
        return
    with store().read() as session:
        numbers = jobs.worked(session, job.id, FIRST, but="fits")
    rows = (row for block in _blocks(store(), job.id, numbers) for row in block if row["verdict"] != "fits")
    for row in islice(rows, FIRST):
        case = next(checks.cases(row))
        yield {
            "number": case.number,
            "verdict": case.word,
            "line": row["line"],
            "reason": case.reason,
            "order_text": row["order_text"],
            "question": row["question"],
        }


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


def judge_chunk(stored: str, units: str) -> jobs.Worked:
    """Return what comes out for the rows of a chunk; the replies compressed."""
    kept = json.loads(stored)
    rows = ((number, given) for number, given, known in kept if known is None)
    fresh = (reply for block in checks.judged(rows, units, checks.Tally(), "job") for reply in block)
    verdicts: Counter[str] = Counter()
    replies = []
    for _, _, known in kept:
        reply = known or next(fresh)
        verdicts[reply["verdict"]] += 1
        replies.append(orjson.dumps(reply))
    return jobs.Worked(_worst(verdicts), verdicts, zlib.compress(b"\n".join(replies), 1))


def _blocks(kept: Store, job: str, chunks: Iterable[int]) -> Iterator[list[Wire]]:
    """Return the replies of chunks one after the other, each read when it is wanted."""
    for number in chunks:
        with kept.read() as session:
            worked = jobs.replies(session, job, number)
        if worked is None:
            raise ConnectionAbortedError(f"job {job} was deleted while its result was read")
        yield [orjson.loads(line) for line in zlib.decompress(worked).split(b"\n")]


# --- a new job -------------------------------------------------------------------------------------------------------


def new_job(suffix: str | None = None) -> Response:
    """Store the rows of a body and have them worked."""
    writer()
    query = load(NEW_JOB_QUERY, parse_query(request.environ.get("QUERY_STRING", "")))
    form = choose(suffix, query.get("format"), request.environ.get("HTTP_ACCEPT", ""), NEW_JOB.forms)
    seen = look(form, query, here=here(NEW_JOB, suffix))
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
    limit = _settings().row_limit
    rows = csv_rows(body, limit, FIELDS) if kind == "csv" else ndjson_rows(body, limit)
    job = _take(rows, query.get("units", "mm"), query.get("file"))
    reply = _reply(_found(job))
    headers: Headers = (("Location", f"/v1/jobs/{job}"),)
    return respond(render(reply, seen, LAYOUT, JOB), seen.content_type, 202, headers)


@blueprint.post("/job")
def upload() -> Response:
    """Have the file judged that a browser sends, and lead to the page of its job."""
    writer()
    limit = UPLOAD_MIB * 1024 * 1024
    too_large = TooLarge(
        f"a browser sends at most {UPLOAD_MIB} MiB",
        field="rows",
        accepted="a smaller file; a program sends any to POST /v1/jobs",
        example="order.csv",
    )
    sent = read_form(limit, too_large)[0].get("rows")
    if sent is None or not sent.filename:
        raise NothingToCheck("no file was chosen", field="rows", accepted="a CSV or NDJSON file", example="order.csv")
    name = "".join(filter(str.isprintable, re.split(r"[/\\]", sent.filename)[-1]))[:LONGEST_TEXT]
    longest = _settings().row_limit
    with sent.stream as stream:
        ndjson = name.lower().endswith((".ndjson", ".jsonl"))
        rows = ndjson_rows(stream, longest) if ndjson else csv_rows(stream, longest, FIELDS)
        job = _take(rows, "mm", name or None)
    return respond(b"", CONTENT_TYPES["html"], 303, (("Location", f"/v1/jobs/{job}.html"),))


def _take(rows: Iterator[Row], units: str, name: str | None) -> str:
    """Store rows as a job of the caller's, and return its id.

    Raises:
        RequestError: there is no row, there are too many of them or of the caller's jobs, or one cannot be read.
    """
    settings, owner, job = _settings(), writer().owner, new_id()
    queue: Queue = current_app.extensions["kitproof.jobs"]
    blocks = iter(lambda: list(islice(rows, CHUNK)), [])
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
        jobs.create(session, owner, job, units, name)
    try:
        total = _receive(job, [first], blocks, units, queue, settings)
        with store().write() as session:
            if not jobs.received(session, job, total):
                raise _ended(job)
    except BaseException:
        with store().write() as session:
            jobs.give_up(session, job)
        raise
    count_job("received")
    return job


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
        stored = _stored(block, units)
        with store().write() as session:
            if not jobs.add(session, job, number, len(block), stored):
                raise _ended(job)
        queue.ticket(job)
    return total


def _ended(job: str) -> Gone:
    return Gone(
        "the job was cancelled or deleted while its rows were received; the rest was not taken",
        field="job",
        value=job,
        accepted="the same rows as a new job",
    )


NEW_JOB = Resource(
    "/v1/jobs",
    "Have many lines judged in the background",
    NEW_JOB_QUERY,
    JOB,
    LAYOUT,
    method="POST",
    body=CHECK,
    body_types=("text/csv", "application/x-ndjson"),
    description="Rows as POST /v1/verdicts takes them; file= says which file they are of. The reply comes as soon as "
    "they are stored; Location names the job. It goes on after a restart, and every replica works on it; no row is "
    "judged twice unless its worker died.",
    statuses={403: "the token only reads", 410: "the job was cancelled or deleted while its rows were received"},
    success=202,
)

register(blueprint, NEW_JOB, new_job)


# --- watching --------------------------------------------------------------------------------------------------------


@resource(
    blueprint,
    Resource(
        "/v1/jobs",
        "Your jobs",
        JOBS_QUERY,
        JOBS,
        LIST_LAYOUT,
        description="The newest first, page by page: next is what to give as after for the following ones. Jobs of "
        "others are never listed. As HTML a page on which jobs are watched and cancelled.",
    ),
)
def list_jobs(query: Wire) -> Answer:
    """List jobs."""
    limit, owner = query.get("limit", _PAGE), caller().owner
    with store().read() as session:
        after = jobs.find(session, owner, query["after"]) if "after" in query else None
        if "after" in query and after is None:
            # It may have been removed since; an empty list would pass for the end.
            raise BadValue(
                "there is no such job (any more)",
                field="after",
                value=query["after"],
                accepted="next of the reply before, or nothing, to begin anew",
                example=str(JOBS_QUERY.fields["after"].metadata["example"]),
            )
        found = jobs.listing(session, owner, limit + 1, after, query.get("state"))
    following = found[limit - 1].id if len(found) > limit else None
    return Answer(with_reference({"jobs": [_head(job) for job in found[:limit]], "next": following}))


@resource(
    blueprint,
    Resource(
        _ONE,
        "How far a job is",
        WATCH_QUERY,
        JOB,
        LAYOUT,
        description="With how many rows have which verdict, and once it is done or cancelled the first rows that do "
        "not fit. As HTML a page with a progress bar; refresh= has a browser load it anew until then, and nothing "
        "else does. A job is removed by itself at kept_until.",
        statuses=_MISSING,
    ),
)
def get_job(query: Wire, job: str) -> Answer:
    """Show a job."""
    found = _found(job)
    watched = "refresh" in query and found.finished_at is None
    return Answer(_reply(found), headers=(("Refresh", str(query["refresh"])),) if watched else ())


# --- ending ----------------------------------------------------------------------------------------------------------


def cancel_job(job: str, suffix: str | None = None) -> Response:
    """End a job before it is done."""
    owner = writer().owner
    query = load(JOB_QUERY, parse_query(request.environ.get("QUERY_STRING", "")))
    form = choose(suffix, query.get("format"), request.environ.get("HTTP_ACCEPT", ""), CANCEL.forms)
    seen = look(form, query, here=here(CANCEL, suffix))
    with store().write() as session:
        ended = jobs.cancel(session, owner, job)
    if ended is None:
        raise _missing(job)
    if ended.now:
        count_job("cancelled")
    if form == "html" and not seen.inline and seen.field is None:
        # A browser that loads the next page anew must not send the form again.
        to = f"/v1/jobs/{ended.job.id}.html?asked=cancel"
        return respond(b"", CONTENT_TYPES["html"], 303, (("Location", to),))
    return respond(render(_reply(ended.job), seen, LAYOUT, JOB), seen.content_type)


CANCEL = Resource(
    _ONE + "/cancel",
    "Cancel a job",
    JOB_QUERY,
    JOB,
    LAYOUT,
    method="POST",
    description="Rows that are not judged yet are deleted and never judged; what was judged before stays, with the "
    "result, for as long as that of a job that is done. To cancel twice is to cancel once; a job that is done stays "
    "done: the state in the reply says which. As HTML, for the button of pages, the reply leads to the job's page.",
    statuses={**_CHANGES, 303: "as HTML: see the page of the job"},
)

register(blueprint, CANCEL, cancel_job)


@resource(
    blueprint,
    Resource(
        _ONE,
        "Delete a job for good",
        JOB_QUERY,
        JOB,
        LAYOUT,
        method="DELETE",
        description="With its rows and its result, in whatever state it is; nothing of it is kept. This cannot be "
        "undone. To stop a job and keep what was judged, cancel it.",
        statuses=_CHANGES,
    ),
)
def delete_job(query: Wire, job: str) -> Answer:
    """Delete a job."""
    owner = writer().owner
    found = _found(job)
    with store().write() as session:
        removed = jobs.remove(session, owner, job)
    if not removed:
        raise _missing(job)
    count_job("deleted")
    gone: Wire = {"state": "deleted", "result": None, "kept_until": None, "first_not_fits": []}
    return Answer(with_reference({**_head(found), **gone}))


# --- the result ------------------------------------------------------------------------------------------------------


def get_result(job: str, suffix: str | None = None) -> Response:
    """Return the rows of a job that is done, or those that were judged before it was cancelled."""
    query = load(RESULT_QUERY, parse_query(request.environ.get("QUERY_STRING", "")))
    form = choose(suffix, query.get("format"), request.environ.get("HTTP_ACCEPT", ""), RESULT.forms)
    place = here(RESULT, suffix, form)
    found = _found(job)
    state = jobs.state_of(found)
    if found.finished_at is None:
        raise NotDone(
            f"the job is not done: {state}, {found.rows_done} rows are judged",
            field="job",
            value=job,
            accepted="a job whose state is done",
            headers=(("Retry-After", "2"),),
        )
    if not found.rows_done:
        raise NotDone(
            "the job was cancelled before a row was judged", field="job", value=job, accepted="the rows as a new job"
        )
    word, layout = _worst(found.verdicts), checks.LAYOUT
    with store().read() as session:
        blocks: Iterator[list[Wire]] = _blocks(store(), job, jobs.worked(session, job))
    if state == "cancelled":
        # Of rows that were never judged nothing is proved.
        word = _worst((word, "ask"))
        place = replace(place, text=_cut(found))
        if form in REPORTS:
            layout = replace(layout, cases=lambda reply: _cases(reply, found))
            blocks = chain([[{}]], blocks)
    named = {"file": found.file} if found.file is not None else {}
    seen = look(form, {**named, **query}, by_line=True, here=place)
    body = stream(blocks, seen, layout, VERDICT_ROW)
    status = 409 if query.get("gate") and word != "fits" else 200
    return respond(body, seen.content_type, status, (("X-Verdict", word),))


def _cut(found: Job) -> str:
    total = "" if found.rows is None else f" of {found.rows}"
    return f"The job was cancelled: {found.rows_done}{total} rows were judged before, the others never will be."


def _cases(reply: Wire, found: Job) -> Iterator[Case]:
    """Return a row of a job that was cancelled as a case; the one that holds nothing stands for those not judged."""
    if reply:
        yield from checks.cases(reply)
    else:
        yield Case(1, "the job", "cancelled", False, _cut(found))


RESULT = Resource(
    _ONE + "/result",
    "The rows of a job",
    RESULT_QUERY,
    VERDICT_ROW,
    checks.LAYOUT,
    forms=("json", "csv", "ndjson", "xml", "html", "word", *REPORTS),
    description="The same rows, in the same order, as POST /v1/verdicts answers to the same body, and the same "
    "reports for build tools. X-Verdict holds the worst verdict. Of a job that was cancelled the rows that were judged "
    "before: then X-Verdict is never fits, and a report has one failed case more. Until the job is done there is "
    "nothing here: 404 not-done with Retry-After, with gate=1 as well.",
    statuses={
        404: "there is no such job (not-found), or it has no result yet (not-done)",
        409: "gate=1 and not every row is judged and fits; the body is the same",
    },
    rows=VERDICT_ROW,
)

register(blueprint, RESULT, get_result)
