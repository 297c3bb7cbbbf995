"""Jobs: the same rows as a batch, worked in the background, each once, also when a worker dies."""

import json
import os
import signal
import subprocess
import sys
import time
import urllib.request
from collections import Counter
from collections.abc import Callable, Iterator
from datetime import timedelta
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import update

from bench.client import Connection, post_request
from bench.lines import checks
from bench.server import HOST, ROOT, Server
from service.api import jobs as job_api
from service.api.jobs import CHUNK
from service.jobs.queue import Queue
from service.store import jobs, tokens
from service.store.model import Job, JobChunk, now
from service.store.store import Store
from tests.jobs.working import KEPT, ROWS, post, queue_of, work_all


def test_a_job_answers_what_a_batch_answers(app: Flask, client: FlaskClient) -> None:
    """The same rows in the same order, in every form; watched on the way."""
    queue = queue_of(app)
    made = post(client)
    assert (made["state"], made["rows_done"], made["rows_total"]) == ("waiting", 0, 743)
    assert client.get(made["address"] + "/result").status_code == 404
    huey = queue._opened()[0]
    huey.execute(huey.dequeue())
    running = client.get(made["address"]).json
    assert (running["state"], running["rows_done"], running["result"]) == ("running", CHUNK, None)
    assert work_all(queue) == 2
    done = client.get(made["address"]).json
    assert (done["state"], done["rows_done"]) == ("done", 743)
    for form in ("csv", "ndjson", "xml", "json"):
        batch = client.post(f"/v1/verdicts.{form}", data=ROWS, content_type="application/x-ndjson")
        result = client.get(f"{done['result']}.{form}")
        assert result.data == batch.data
        assert result.headers["X-Verdict"] == batch.headers["X-Verdict"] == done["verdict"]


def test_rows_that_cannot_be_read_stay_what_they_are(app: Flask, client: FlaskClient) -> None:
    """Through the store and back: no UTF-8, too long, too many cells, over several lines."""
    queue = queue_of(app)
    body = b'line,bore\r\n"M5 dowel\npin",5 H7\r\nM6 \xff pin,6 H7\r\n' + b"x" * 3000 + b",\r\na,b,c,d\r\npin,5 Q7\r\n"
    made = post(client, body, "text/csv")
    work_all(queue)
    batch = client.post("/v1/verdicts.csv", data=body, content_type="text/csv").data
    assert client.get(made["address"] + "/result.csv").data == batch


def test_a_deleted_job_is_gone_and_not_worked_on(app: Flask, client: FlaskClient) -> None:
    """In the midst of it: what a worker has begun is thrown away."""
    queue = queue_of(app)
    made = post(client)
    judge = queue._judge

    def deleted_meanwhile(stored: str, units: str) -> jobs.Worked:
        assert client.delete(made["address"]).json["state"] == "deleted"
        return judge(stored, units)

    queue._judge = deleted_meanwhile
    assert work_all(queue) == 3
    assert client.get(made["address"]).status_code == 404
    assert client.delete(made["address"]).status_code == 404


def test_no_row_is_worked_twice_by_several_workers(app: Flask, client: FlaskClient, emptied: str) -> None:
    """Replicas with stores of their own take chunks of the same jobs, and there are tickets too many."""
    queue = queue_of(app)
    made = [post(client), post(client)]
    for one in made * 2:
        queue.ticket(one["id"])
    judged: Counter[str] = Counter()

    def counting(stored: str, units: str) -> jobs.Worked:
        judged[stored] += 1
        return job_api.judge_chunk(stored, units)

    replicas = [Queue(Store(emptied), counting, KEPT) for _ in range(3)]
    threads = [Thread(target=work_all, args=(replica,)) for replica in replicas]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    for replica in replicas:
        replica.close()
        replica._store.engine.dispose()
    assert [client.get(one["address"]).json["state"] for one in made] == ["done", "done"]
    assert sorted(judged.values()) == [2, 2, 2], "two jobs of the same three chunks"


def test_a_chunk_whose_worker_died_is_worked_by_the_next(app: Flask, client: FlaskClient) -> None:
    """Not before its time is over; then a worker that starts puts it back."""
    queue = queue_of(app)
    made = post(client)
    store: Store = app.extensions["kitproof.store"]
    huey = queue._opened()[0]
    huey.dequeue()
    with store.write() as session:
        assert jobs.take(session, made["id"]) is not None
    assert work_all(queue) == 2
    queue.refill()
    assert work_all(queue) == 0
    assert client.get(made["address"]).json["rows_done"] == 743 - CHUNK
    with store.write() as session:
        session.execute(update(JobChunk).values(taken_until=now()))
    queue.refill()
    assert work_all(queue) == 1
    assert client.get(made["address"]).json["state"] == "done"


def test_what_is_stored_for_a_chunk_is_never_replaced(app: Flask, client: FlaskClient) -> None:
    """A worker that comes too late changes nothing."""
    queue = queue_of(app)
    made = post(client)
    work_all(queue)
    store: Store = app.extensions["kitproof.store"]
    with store.write() as session:
        assert jobs.keep(session, made["id"], 1, jobs.Worked("fits", {"fits": 250}, b"late")) is None
        assert jobs.replies(session, made["id"], 1) != b"late"
    assert client.get(made["address"]).json["rows_done"] == 743


@pytest.mark.parametrize(
    ("body", "content_type", "status", "detail"),
    [
        (b"", "text/csv", 422, "the body is empty"),
        (b"line,bore\n", "text/csv", 422, "the body holds no check"),
        (b"bore\n5 H7\n", "text/csv", 422, "the heading names no line"),
        (b"{}", "application/json", 415, "a job takes rows"),
        (ROWS * 2, "application/x-ndjson", 413, "a job has at most 900 rows"),
    ],
)
def test_what_is_no_job_leaves_nothing_behind(
    app: Flask, client: FlaskClient, body: bytes, content_type: str, status: int, detail: str
) -> None:
    """Also when rows of it were stored already."""
    queue_of(app)
    reply = client.post("/v1/jobs", data=body, content_type=content_type)
    assert (reply.status_code, reply.json["detail"]) == (status, detail)
    with app.extensions["kitproof.store"].read() as session:
        assert jobs.free(session) == {}


def test_an_owner_has_only_so_many_jobs(app: Flask, client: FlaskClient) -> None:
    """Results take room; one that is deleted makes room."""
    queue_of(app)
    made = [post(client), post(client)]
    reply = client.post("/v1/jobs", data=ROWS, content_type="application/x-ndjson")
    assert (reply.status_code, reply.json["detail"]) == (413, "one owner has at most 2 jobs")
    client.delete(made[0]["address"])
    post(client)


def test_jobs_of_others_are_not_found(app: Flask, client: FlaskClient) -> None:
    """Nor read, nor cancelled; a token that only reads makes none."""
    queue_of(app)
    with app.extensions["kitproof.store"].write() as session:
        other = {"Authorization": f"Bearer {tokens.make(session, 'other', 'write', '')}"}
        reader = {"Authorization": f"Bearer {tokens.make(session, 'other', 'read', '')}"}
    made = post(client)
    for path in ("", "/result"):
        assert client.get(made["address"] + path, headers=other).status_code == 404
    assert client.delete(made["address"], headers=other).status_code == 404
    assert client.post("/v1/jobs", data=ROWS, content_type="text/csv", headers=reader).status_code == 403
    assert client.get(made["address"]).status_code == 200


def test_an_upload_that_was_cut_off_with_the_service_is_cleared_away(app: Flask, client: FlaskClient) -> None:
    """After a day; a job that is whole stays however old it is."""
    queue = queue_of(app)
    made = post(client)
    with app.extensions["kitproof.store"].write() as session:
        jobs.create(session, "local", "cut0ff", "mm")
        session.flush()
        session.execute(update(Job).values(made_at=now() - timedelta(hours=23)))
    queue.refill()
    assert client.get("/v1/jobs/cut0ff").json["state"] == "receiving"
    with app.extensions["kitproof.store"].write() as session:
        session.execute(update(Job).values(made_at=now() - timedelta(hours=25)))
    queue.refill()
    assert client.get("/v1/jobs/cut0ff").status_code == 404
    assert client.get(made["address"]).status_code == 200


# --- under the real server -------------------------------------------------------------------------------------------


@pytest.fixture
def serve(tmp_path: Path) -> Iterator[Callable[[], Server]]:
    """Give servers on one database, one after the other."""
    started: list[Server] = []

    def started_one() -> Server:
        server = Server("service.wsgi:app", "/readyz", tmp_path, {"KITPROOF_WORKERS": "2"})
        server.__enter__()
        started.append(server)
        return server

    yield started_one
    for server in started:
        server.__exit__(None, None, None)


def watch(server: Server, address: str, until: Callable[[dict[str, Any]], bool]) -> dict[str, Any]:
    """Return the job once it is so far."""
    for _ in range(600):
        with Connection(HOST, server.port) as connection:
            status, body = connection.get(address)
        assert status == 200
        job: dict[str, Any] = json.loads(body)
        if until(job):
            return job
        time.sleep(0.05)
    pytest.fail(f"the job stayed {job}")


def test_a_killed_service_goes_on_where_it_was(serve: Callable[[], Server], tmp_path: Path) -> None:
    """All its processes are killed while they work; the next service finishes the job, and keeps what was done."""
    given = list(checks(5000))
    body = b"".join(json.dumps(check).encode() + b"\n" for check in given)
    server = serve()
    with Connection(HOST, server.port) as connection:
        connection.send(post_request("/v1/jobs", "application/x-ndjson", body))
        status, reply = connection.receive()
    assert status == 202
    address = json.loads(reply)["address"]
    before = watch(server, address, lambda job: job["rows_done"] > 0)
    assert before["rows_done"] < 5000, "killed in the midst of it"
    assert server._process is not None
    for pid in (server._process.pid, *server.workers()):
        os.kill(pid, signal.SIGKILL)
    store = Store(f"sqlite:///{tmp_path / 'bench.sqlite3'}")
    with store.write() as session:
        kept = jobs.find(session, "local", address.rsplit("/", 1)[1])
        assert kept is not None
        # As if a minute had passed since.
        session.execute(update(JobChunk).where(JobChunk.verdict.is_(None)).values(taken_until=now()))
    store.engine.dispose()
    assert 0 < kept.rows_done < 5000
    again = serve()
    done = watch(again, address, lambda job: job["state"] == "done")
    assert done["rows_done"] == 5000
    with urllib.request.urlopen(f"http://{HOST}:{again.port}{address}/result.ndjson", timeout=30) as reply:
        result = reply.read()
    assert [json.loads(row)["line"] for row in result.splitlines()] == [check["line"] for check in given]


def test_a_process_of_its_own_works_jobs_until_it_is_told_to_end(app: Flask, client: FlaskClient, emptied: str) -> None:
    """As several replicas would have it; SIGTERM ends it in order."""
    queue_of(app)
    made = post(client)
    worker = subprocess.Popen(
        [sys.executable, "-m", "service", "work"],
        cwd=ROOT,
        env={**os.environ, "KITPROOF_DATABASE_URL": emptied},
        stderr=subprocess.DEVNULL,
    )
    try:
        for _ in range(400):
            if client.get(made["address"]).json["state"] == "done":
                break
            time.sleep(0.05)
        assert client.get(made["address"]).json["state"] == "done"
    finally:
        worker.terminate()
    assert worker.wait(timeout=15) == 0
