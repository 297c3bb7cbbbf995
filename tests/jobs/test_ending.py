"""Jobs that end: cancelled with what was judged, deleted for good, removed when their time is over."""

import threading
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import func, select, update

from service.api.jobs import CHUNK, judge_chunk
from service.app import create_app
from service.config import Settings
from service.jobs.queue import Queue
from service.store import jobs, tokens
from service.store.model import Job, JobChunk, now
from service.store.store import Store
from tests.jobs.working import KEPT, ROWS, post, queue_of, work_all, work_one


def store_of(app: Flask) -> Store:
    """Return the store of a service."""
    found: Store = app.extensions["kitproof.store"]
    return found


def counted(client: FlaskClient, event: str) -> float:
    """Return how many jobs /metrics says this happened to."""
    start = f'kitproof_jobs_total{{event="{event}"}}'
    lines = client.get("/metrics").text.splitlines()
    return next((float(line.rsplit(" ", 1)[1]) for line in lines if line.startswith(start)), 0.0)


def test_a_cancelled_job_stays_with_what_was_judged(app: Flask, client: FlaskClient) -> None:
    """It answers 200 and says how much that is; its other rows are never worked, and not kept."""
    queue = queue_of(app)
    made = post(client)
    work_one(queue)
    before = counted(client, "cancelled")
    reply = client.post(made["address"] + "/cancel")
    assert reply.status_code == 200
    assert (reply.json["state"], reply.json["rows_done"], reply.json["rows_total"]) == ("cancelled", CHUNK, 743)
    assert work_all(queue) == 2, "the tickets are still there"
    queue.refill()
    assert work_all(queue) == 0
    shown = client.get(made["address"])
    assert shown.status_code == 200
    assert shown.json == reply.json
    assert sum(shown.json["verdicts"].values()) == CHUNK
    assert shown.json["finished_at"] < shown.json["kept_until"]
    with store_of(app).read() as session:
        chunks = session.execute(select(JobChunk.rows).where(JobChunk.job_id == made["id"])).scalars().all()
    assert chunks == [CHUNK]
    assert counted(client, "cancelled") == before + 1


def test_what_a_worker_is_at_when_a_job_is_cancelled_is_thrown_away(app: Flask, client: FlaskClient) -> None:
    """What the reply said was judged stays true."""
    queue = queue_of(app)
    made = post(client)
    judge = queue._judge

    def cancelled_meanwhile(stored: str, units: str) -> jobs.Worked:
        assert client.post(made["address"] + "/cancel").json["rows_done"] == 0
        return judge(stored, units)

    queue._judge = cancelled_meanwhile
    work_one(queue)
    job = client.get(made["address"]).json
    assert (job["state"], job["rows_done"], job["verdict"], job["result"]) == ("cancelled", 0, None, None)
    reply = client.get(made["address"] + "/result")
    assert (reply.status_code, reply.json["type"]) == (404, "/docs#not-done")
    assert "Retry-After" not in reply.headers, "to wait would be in vain"


def test_to_cancel_twice_is_to_cancel_once(app: Flask, client: FlaskClient) -> None:
    """A double click changes nothing, and is counted once."""
    queue_of(app)
    made = post(client)
    before = counted(client, "cancelled")
    first, second = (client.post(made["address"] + "/cancel") for _ in range(2))
    assert (first.status_code, second.status_code) == (200, 200)
    assert first.json == second.json
    assert counted(client, "cancelled") == before + 1


def test_a_job_that_is_done_stays_done(app: Flask, client: FlaskClient) -> None:
    """To cancel it changes nothing; the reply says that it is done."""
    queue = queue_of(app)
    made = post(client)
    work_all(queue)
    done = client.get(made["address"]).json
    reply = client.post(made["address"] + "/cancel")
    assert (reply.status_code, reply.json) == (200, done)
    assert client.get(done["result"]).status_code == 200


def test_workers_and_callers_that_end_a_job_at_once_agree(app: Flask, client: FlaskClient, emptied: str) -> None:
    """Whoever comes first, on whichever replica: it is done with all rows, or cancelled with those it names."""
    queue_of(app)
    replicas = [Queue(Store(emptied), judge_chunk, KEPT) for _ in range(2)]
    for _ in range(2):
        made = post(client)
        callers = [threading.Thread(target=app.test_client().post, args=(made["address"] + "/cancel",)) for _ in "123"]
        workers = [threading.Thread(target=work_all, args=(replica,)) for replica in replicas]
        for one in (*workers, *callers):
            one.start()
        for one in (*workers, *callers):
            one.join()
        job = client.get(made["address"]).json
        assert job["state"] in ("done", "cancelled")
        assert (job["rows_done"] == 743) == (job["state"] == "done")
        result = client.get(made["address"] + "/result.ndjson")
        rows = result.text.splitlines() if job["rows_done"] else []
        assert len(rows) == job["rows_done"] == sum(job["verdicts"].values())
    for replica in replicas:
        replica.close()
        replica._store.engine.dispose()


def test_the_button_leads_to_a_page_that_says_what_became_of_it(app: Flask, client: FlaskClient) -> None:
    """Loaded anew, that page cancels nothing more (303)."""
    queue = queue_of(app)
    made = post(client)
    work_one(queue)
    for _ in range(2):
        reply = client.post(made["address"] + "/cancel.html")
        assert (reply.status_code, reply.headers["Location"]) == (303, f"{made['address']}.html?asked=cancel")
    page = client.get(reply.headers["Location"]).text
    assert "You asked to cancel this job, and it is cancelled." in page
    assert f"{CHUNK} of 743 lines were judged before. The other 493 never will be." in page
    assert 'method="post"' not in page
    done = post(client)
    work_all(queue)
    reply = client.post(done["address"] + "/cancel.html")
    page = client.get(reply.headers["Location"]).text
    assert "it was done before that. Nothing was changed." in page


@pytest.mark.parametrize("path", ["nothing", "x" * 5000, "0" * 32, "__proto__"])
def test_a_job_that_is_not_there_cannot_be_ended(app: Flask, client: FlaskClient, path: str) -> None:
    """Whatever is forged; the error names what was asked for, cut short."""
    for reply in (
        client.post(f"/v1/jobs/{path}/cancel"),
        client.post(f"/v1/jobs/{path}/cancel.html", headers={"Accept": "application/json"}),
        client.delete(f"/v1/jobs/{path}"),
        client.get(f"/v1/jobs/{path}/result?gate=1"),
    ):
        assert reply.status_code == 404
        assert len(reply.data) < 40_000
    error = client.post(f"/v1/jobs/{path}/cancel").json
    assert (error["field"], error["value"][:100]) == ("job", path[:100])
    assert client.get(f"/v1/jobs/{path}/cancel").status_code == 405


def test_jobs_of_others_are_not_cancelled(app: Flask, client: FlaskClient) -> None:
    """Nor by a token that only reads: that is told why."""
    queue_of(app)
    with store_of(app).write() as session:
        other = {"Authorization": f"Bearer {tokens.make(session, 'other', 'write', '')}"}
        reader = {"Authorization": f"Bearer {tokens.make(session, 'local', 'read', '')}"}
    made = post(client)
    assert client.post(made["address"] + "/cancel", headers=other).status_code == 404
    assert client.post(made["address"] + "/cancel", headers=reader).status_code == 403
    assert client.get(made["address"], headers=reader).json["state"] == "waiting"


def test_deleting_leaves_nothing_in_any_state(app: Flask, client: FlaskClient) -> None:
    """No row, no verdict, no line of what was sent: waiting, done and cancelled."""
    queue = queue_of(app)
    before = counted(client, "deleted")
    for number, end in enumerate((lambda job: None, lambda job: work_all(queue), lambda job: cancel(client, job))):
        made = post(client)
        end(made)
        assert client.delete(made["address"]).json["state"] == "deleted"
        assert client.get(made["address"]).status_code == 404
        assert client.get(made["address"] + "/result").status_code == 404
        with store_of(app).read() as session:
            assert session.execute(select(func.count()).select_from(JobChunk)).scalar_one() == 0
        assert counted(client, "deleted") == before + number + 1


def cancel(client: FlaskClient, job: dict[str, str]) -> None:
    """Cancel a job."""
    assert client.post(job["address"] + "/cancel").status_code == 200


def test_jobs_that_ended_are_removed_when_their_time_is_over(app: Flask, client: FlaskClient) -> None:
    """Done or cancelled, after thirty days, and not before; one that waits stays however long it does."""
    queue = queue_of(app)
    ended = [post(client), post(client)]
    cancel(client, ended[0])
    work_all(queue)
    store = store_of(app)
    with store.write() as session:
        jobs.create(session, "local", "waits", "mm")
        session.flush()
        jobs.received(session, "waits", 1)
        session.execute(update(Job).values(made_at=now() - timedelta(days=400)))
        session.execute(
            update(Job).where(Job.finished_at.is_not(None)).values(finished_at=now() - timedelta(days=29, hours=23))
        )
    before = counted(client, "removed")
    queue.refill()
    assert [client.get(one["address"]).status_code for one in ended] == [200, 200]
    with store.write() as session:
        session.execute(
            update(Job).where(Job.finished_at.is_not(None)).values(finished_at=now() - timedelta(days=30, minutes=1))
        )
    queue.refill()
    assert [client.get(one["address"]).status_code for one in ended] == [404, 404]
    assert client.get("/v1/jobs/waits").json["state"] == "waiting"
    assert counted(client, "removed") == before + 2


def test_how_long_jobs_are_kept_can_be_set(tmp_path: Path) -> None:
    """In days; the reply says until when."""
    app = create_app(Settings(database_url=f"sqlite:///{tmp_path / 'a.sqlite3'}", job_days=2))
    client = app.test_client()
    made = post(client)
    cancel(client, made)
    with store_of(app).write() as session:
        session.execute(update(Job).values(finished_at=now() - timedelta(days=1)))
    queue = queue_of(app)
    queue.refill()
    job = client.get(made["address"]).json
    assert job["kept_until"][:10] == (now() + timedelta(days=1)).date().isoformat()
    with store_of(app).write() as session:
        session.execute(update(Job).values(finished_at=now() - timedelta(days=2)))
    queue.refill()
    assert client.get(made["address"]).status_code == 404
    queue.close()
    store_of(app).engine.dispose()


@pytest.mark.parametrize("how", ["cancel", "delete"])
def test_an_upload_whose_job_is_ended_meanwhile_is_told_so(app: Flask, client: FlaskClient, how: str) -> None:
    """It is broken off (410), takes nothing more, and leaves a cancelled job as it is."""
    queue_of(app)
    seen: list[str] = []

    def body() -> Iterator[bytes]:
        lines = ROWS.splitlines(keepends=True)
        yield b"".join(lines[:600])
        (job,) = app.test_client().get("/v1/jobs").json["jobs"]
        assert (job["state"], job["rows_total"]) == ("receiving", None)
        seen.append(job["address"])
        if how == "cancel":
            cancel(app.test_client(), job)
        else:
            assert app.test_client().delete(job["address"]).status_code == 200
        yield b"".join(lines[600:])

    slowly = {"wsgi.input": Pieces(body()), "wsgi.input_terminated": True}
    reply = client.post("/v1/jobs", environ_overrides=slowly, content_type="application/x-ndjson")
    assert (reply.status_code, reply.json["type"]) == (410, "/docs#gone")
    shown = client.get(seen[0])
    if how == "cancel":
        assert (shown.json["state"], shown.json["rows_total"]) == ("cancelled", None)
    else:
        assert shown.status_code == 404
    with store_of(app).read() as session:
        assert session.execute(select(func.count()).select_from(JobChunk)).scalar_one() == 0


class Pieces:
    """A body that comes in pieces, as that of a slow sender does."""

    def __init__(self, pieces: Iterator[bytes]) -> None:
        """Take the pieces."""
        self.pieces = pieces

    def read(self, size: int = -1) -> bytes:
        """Return the next piece."""
        return next(self.pieces, b"")
