"""The pages of jobs: how far each is, in words and as a bar, and a button that cancels it.

A page that loads itself anew takes the focus away, begins to be read out from its top again, and cannot be read in
peace. So none does unless it was asked to by a link, and there is a link that stops it (WCAG 2.2, 2.2.1 and 2.2.2).
"""

from collections.abc import Mapping
from typing import Any
from urllib.parse import parse_qsl, urlencode

from markupsafe import Markup

from service.pages.lines import Forms, heading_of
from service.pages.site import page

Wire = Mapping[str, Any]

SECONDS = 5
"""How often the page is loaded anew where the link to that is followed."""

UPLOAD_MIB = 64
"""The largest file that a browser sends [MiB]: it is kept whole before its first row is read."""

HEADINGS: Mapping[str, str] = {
    "receiving": "Job: its lines are coming in",
    "waiting": "Job: waiting",
    "running": "Job: running",
    "done": "Job: done",
    "cancelled": "Job: cancelled",
    "deleted": "Job: deleted",
}
_RESULTS = (
    ("html", "a page"),
    ("csv", "CSV"),
    ("json", "JSON"),
    ("ndjson", "NDJSON"),
    ("xml", "XML"),
    ("txt", "plain words"),
)
_REPORTS = (("junit", "JUnit XML"), ("tap", "TAP"), ("lines", "one line for each"), ("sarif", "SARIF"))


def lines(number: int) -> str:
    """Return a number of lines in words.

    >>> lines(1), lines(743)
    ('1 line', '743 lines')
    """
    return f"{number} line{'' if number == 1 else 's'}"


def said(job: Wire) -> str:
    """Return how far a job is in one or two sentences."""
    done, total = job["rows_done"], job["rows_total"]
    be = "is" if done == 1 else "are"
    match job["state"]:
        case "receiving":
            return f"The file is still being received. {lines(done)} {be} judged already."
        case "waiting":
            return f"All {lines(total)} are here, and none is judged yet. They are worked as soon as it is their turn."
        case "running":
            return f"{done} of {lines(total)} {be} judged."
        case "cancelled":
            was = "was" if done == 1 else "were"
            if total is None:
                return f"{lines(done)} {was} judged before; the file was still being received. Nothing more is judged."
            return f"{done} of {lines(total)} {was} judged before. The other {total - done} never will be."
        case "deleted":
            return "The job is gone, with its lines and its result."
        case _:
            return f"All {lines(total)} are judged. {_misfits(done - job['verdicts']['fits'], total)}"


def _misfits(number: int, total: int) -> str:
    if not number:
        return "Every one of them fits."
    return "None of them fits." if number == total else f"{number} of them {'does' if number == 1 else 'do'} not fit."


def _answer(job: Wire, asked: str | None) -> str:
    """Return what became of what was asked for with the button, nothing where nothing was."""
    if asked != "cancel":
        return ""
    return {
        "cancelled": "You asked to cancel this job, and it is cancelled.",
        "done": "You asked to cancel this job, but it was done before that. Nothing was changed.",
    }.get(job["state"], "")


def moment(text: str) -> Markup:
    """Return a moment for people, to the second.

    >>> moment("2027-01-11T09:30:00.125000+00:00")
    Markup('<time datetime="2027-01-11T09:30:00Z">2027-01-11 09:30:00 UTC</time>')
    """
    day, time = text[:10], text[11:19]
    return Markup('<time datetime="{0}T{1}Z">{0} {1} UTC</time>').format(day, time)


def _times(job: Wire) -> list[tuple[str, str | Markup]]:
    ended = "cancelled" if job["state"] == "cancelled" else "finished"
    named = (
        ("sent", job["made_at"]),
        ("started", job["started_at"]),
        (ended, job["finished_at"]),
        ("kept until", job["kept_until"]),
    )
    return [(name, moment(text) if text else "not yet") for name, text in named if text or name != "kept until"]


def job_page(reply: Wire, table: str, query: str, forms: Forms) -> str:
    """Return the page of a job."""
    given = dict(parse_qsl(query))
    state = reply["state"]
    result = reply["result"] and f"/v1/jobs/{reply['id']}/result"
    return page(
        "job.html",
        title=f"{HEADINGS[state]}{', ' + reply['file'] if reply['file'] else ''}",
        heading=HEADINGS[state],
        job=reply,
        said=said(reply),
        answer=_answer(reply, given.get("asked")),
        times=_times(reply),
        going=reply["finished_at"] is None and state != "deleted",
        refresh=given.get("refresh"),
        seconds=SECONDS,
        misfits=[{**one, "heading": _heading(one)} for one in reply["first_not_fits"]],
        rest=reply["rows_done"] - reply["verdicts"]["fits"] - len(reply["first_not_fits"]),
        results=[(name, f"{result}.{suffix}") for suffix, name in _RESULTS] if result else [],
        reports=[(name, f"{result}.{suffix}") for suffix, name in _REPORTS] if result else [],
        forms=forms,
        table=Markup(table),  # noqa: S704 - made of escaped cells
        reference=reply["reference"],
    )


def _heading(one: Wire) -> str:
    heading = heading_of(one)
    return "Order instead" if heading == "Order this" else heading


def jobs_page(reply: Wire, table: str, query: str, forms: Forms) -> str:
    """Return the page with all jobs, or those in one state."""
    given = {name: value for name, value in parse_qsl(query) if name in ("state", "limit")}
    state = given.get("state", "").strip().lower()
    following = f"/v1/jobs.html?{urlencode({**given, 'after': reply['next']})}" if reply["next"] else ""
    return page(
        "jobs.html",
        title="Jobs",
        jobs=[
            {
                **job,
                "name": job["file"] or f"Job {job['id'][:8]}",
                "said": said(job),
                "times": _times(job),
                "going": job["finished_at"] is None,
            }
            for job in reply["jobs"]
        ],
        states=[(name, f"/v1/jobs.html?state={name}" if name else "/v1/jobs.html") for name in ("", *_STATES)],
        state=state,
        following=following,
        later="after" in dict(parse_qsl(query)),
        most=UPLOAD_MIB,
        seconds=SECONDS,
        forms=forms,
        table=Markup(table),  # noqa: S704 - made of escaped cells
        reference=reply["reference"],
    )


_STATES = ("receiving", "waiting", "running", "done", "cancelled")
