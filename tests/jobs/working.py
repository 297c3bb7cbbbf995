"""What tests of jobs do: send rows, and work them as a worker does."""

import json
from datetime import timedelta
from typing import Any

from flask import Flask
from flask.testing import FlaskClient

from bench.lines import checks
from service.api.jobs import CHUNK
from service.jobs.queue import Queue

ROWS = b"".join(json.dumps(check).encode() + b"\n" for check in checks(3 * CHUNK - 7))
KEPT = timedelta(days=30)


def queue_of(app: Flask) -> Queue:
    """Return the queue of a service, emptied of what other tests left in the same database."""
    queue: Queue = app.extensions["kitproof.jobs"]
    queue._opened()[0].flush()
    return queue


def post(client: FlaskClient, body: bytes = ROWS, content_type: str = "application/x-ndjson") -> dict[str, Any]:
    """Make a job and return the reply."""
    reply = client.post("/v1/jobs", data=body, content_type=content_type)
    assert reply.status_code == 202, reply.text
    assert reply.headers["Location"] == reply.json["address"]
    made: dict[str, Any] = reply.json
    return made


def work_all(queue: Queue) -> int:
    """Work tickets until none is left, as a worker does, and return how many there were."""
    huey = queue._opened()[0]
    worked = 0
    while task := huey.dequeue():
        huey.execute(task)
        worked += 1
    return worked


def work_one(queue: Queue) -> None:
    """Work one ticket."""
    huey = queue._opened()[0]
    huey.execute(huey.dequeue())
