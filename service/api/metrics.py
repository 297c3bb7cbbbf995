"""``/metrics`` in the text form that monitoring systems read, and one line of JSON for each request where it is wanted.

Counters are kept by ``prometheus_client``; under gunicorn all workers share them (``service.serving``).
"""

import json
import os
import sys
import time
from collections import Counter as Counted
from collections.abc import Iterable
from functools import cache

from flask import Blueprint, Response
from prometheus_client import CONTENT_TYPE_LATEST, REGISTRY, CollectorRegistry, Counter, generate_latest
from prometheus_client.multiprocess import MultiProcessCollector

from service.verdict.model import Verdict

blueprint = Blueprint("metrics", __name__)

SHARED = "PROMETHEUS_MULTIPROC_DIR"
"""Environment variable: the folder in which the workers of one server share their counters."""

REQUESTS = Counter(
    "kitproof_requests_total", "Requests answered, by the first two parts of the path", ("path", "status")
)
VERDICTS = Counter("kitproof_verdicts_total", "Verdicts given, by word", ("verdict",))
UNREAD = Counter("kitproof_unread_lines_total", "Lines that could not be read, by reason", ("reason",))
JOBS = Counter("kitproof_jobs_total", "Jobs, by what happened to them", ("event",))

_WORDS = {word: VERDICTS.labels(word) for word in ("fits", "marginal", "ask", "wrong", "unread")}
_REASONS = (
    ("the line is empty", "empty"),
    ("no table here knows", "unknown standard"),
    ("the line gives sizes", "sizes without a noun"),
    ("", "no part named"),
)
_KNOWN = frozenset(
    "reading verdict verdicts fits families reference tightening proposals orders receipts identifications suppliers"
    " jobs".split()
)


def counted_as(verdict: Verdict) -> tuple[str, str]:
    """Return what a verdict is counted under: its word, and why the line was not read where it was not."""
    if verdict.verdict != "unread":
        return verdict.verdict, ""
    text = verdict.findings[0].text if verdict.findings else ""
    return "unread", next(word for start, word in _REASONS if text.startswith(start))


def count_verdicts(counted: Iterable[tuple[str, str]]) -> None:
    """Count verdicts, each by its word and its reason; many together cost hardly more than one."""
    for (word, reason), number in Counted(counted).items():
        _WORDS[word].inc(number)
        if reason:
            UNREAD.labels(reason).inc(number)


def count_job(event: str) -> None:
    """Count what happened to a job: received, done, cancelled, deleted, or removed when its time was over."""
    JOBS.labels(event).inc()


def path_of(path: str) -> str:
    """Return what a request is counted under: the resource, without names, numbers and suffix.

    >>> path_of("/v1/orders/4f7a/check"), path_of("/v1/verdict.csv"), path_of("/v1/nonsense"), path_of("/healthz")
    ('/v1/orders', '/v1/verdict', 'other', '/healthz')
    """
    parts = path.split("/", 3)
    if len(parts) > 2 and parts[1] == "v1":
        name = parts[2].partition(".")[0]
        return f"/v1/{name}" if name in _KNOWN else "other"
    name = parts[1].partition(".")[0] if len(parts) > 1 else ""
    return (
        f"/{name}"
        if name in {"", "docs", "openapi", "healthz", "readyz", "metrics", "order", "proof", "bench", "job"}
        else "other"
    )


def count_request(path: str, status: str) -> None:
    """Count a request by its resource and the class of its status."""
    _counter(path_of(path), status[:3]).inc()


@cache
def _counter(path: str, status: str) -> Counter:
    return REQUESTS.labels(path, status)


def log_request(number: str, method: str, path: str, status: str, began: float, verdict: str) -> None:
    """Write one line of JSON on a request to standard error; the query is left out, for it may hold what is private."""
    line = {
        "time": time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime()),
        "request_id": number,
        "method": method,
        "path": path,
        "status": int(status[:3]),
        "ms": round((time.monotonic() - began) * 1000, 2),
        "verdict": verdict,
    }
    sys.stderr.write(json.dumps(line, ensure_ascii=True) + "\n")


@blueprint.get("/metrics")
def metrics() -> Response:
    """Give the counters of this server, of all its workers where they share them."""
    registry = REGISTRY
    if SHARED in os.environ:
        registry = CollectorRegistry()
        MultiProcessCollector(registry)  # type: ignore[no-untyped-call]
    return Response(generate_latest(registry), content_type=CONTENT_TYPE_LATEST)
