"""The list of jobs: one's own alone, the newest first, page by page, by state, in every form."""

import csv
import io
from datetime import timedelta
from xml.etree import ElementTree

import pytest
from flask import Flask
from flask.testing import FlaskClient
from sqlalchemy import update

from service.api.jobs import COLUMNS
from service.store import jobs, tokens
from service.store.model import Job, now
from tests.jobs.working import post, queue_of, work_all, work_one


def made(app: Flask, *names: str) -> None:
    """Store jobs of one row with these ids, the first the oldest."""
    with app.extensions["kitproof.store"].write() as session:
        for age, name in enumerate(reversed(names)):
            jobs.create(session, "local", name, "mm")
            session.flush()
            jobs.received(session, name, 1)
            session.execute(update(Job).where(Job.id == name).values(made_at=now() - timedelta(minutes=age)))


def ids(client: FlaskClient, query: str = "") -> list[str]:
    """Return the ids of a page of the list."""
    return [one["id"] for one in client.get(f"/v1/jobs{query}").json["jobs"]]


def test_every_form_lists_the_same_jobs(app: Flask, client: FlaskClient) -> None:
    """JSON, CSV, XML, plain text and a page; each job as its own address has it."""
    queue = queue_of(app)
    first, second = post(client), post(client)
    work_one(queue)
    client.post(second["address"] + "/cancel")
    found = client.get("/v1/jobs").json
    assert [one["id"] for one in found["jobs"]] == [second["id"], first["id"]]
    for one in found["jobs"]:
        alone = client.get(one["address"]).json
        assert {name: alone[name] for name in one} == one
    rows = list(csv.DictReader(io.StringIO(client.get("/v1/jobs.csv").text)))
    assert tuple(rows[0]) == COLUMNS
    assert [(row["id"], row["state"], row["rows_done"]) for row in rows] == [
        (second["id"], "cancelled", "0"),
        (first["id"], "running", "250"),
    ]
    assert sum(int(rows[1][word]) for word in ("fits", "marginal", "ask", "wrong", "unread")) == 250
    tree = ElementTree.fromstring(client.get("/v1/jobs.xml").text)  # noqa: S314 - our own
    assert [row.findtext("state") for row in tree.findall("row")] == ["cancelled", "running"]
    assert all(len(row) == len(COLUMNS) for row in tree.findall("row"))
    assert client.get("/v1/jobs.txt").text == f"{second['id']}\n{first['id']}"
    assert client.get("/v1/jobs.txt?field=jobs.1.state").text == "running"
    page = client.get("/v1/jobs.html").text
    assert page.count("<table") == 1
    assert f'href="{first["address"]}.html"' in page


def test_pages_follow_each_other_without_a_gap(app: Flask, client: FlaskClient) -> None:
    """The newest first; ids decide where two were made at the same moment."""
    names = [f"job{number}" for number in range(7)]
    made(app, *names)
    with app.extensions["kitproof.store"].write() as session:
        session.execute(update(Job).where(Job.id.in_(("job2", "job3", "job4"))).values(made_at=now()))
    expected = ids(client)
    assert expected == ["job4", "job3", "job2", "job6", "job5", "job1", "job0"]
    found, query = [], "?limit=3"
    for _ in range(4):
        reply = client.get(f"/v1/jobs{query}").json
        found += [one["id"] for one in reply["jobs"]]
        if reply["next"] is None:
            break
        query = f"?limit=3&after={reply['next']}"
    assert found == expected


def test_jobs_are_listed_by_their_state(app: Flask, client: FlaskClient) -> None:
    """Each in one of them; in any case of letters, and page by page as well."""
    queue = queue_of(app)
    made(app, "waiting1", "waiting2", "waiting3")
    with app.extensions["kitproof.store"].write() as session:
        jobs.create(session, "local", "receiving", "mm")
        session.execute(update(Job).values(owner="other"))
    finished, running = post(client), None
    work_all(queue)
    running = post(client)
    work_one(queue)
    with app.extensions["kitproof.store"].write() as session:
        session.execute(update(Job).values(owner="local"))
        jobs.cancel(session, "local", "waiting1")
    for state, expected in {
        "receiving": ["receiving"],
        "waiting": ["waiting3", "waiting2"],
        "running": [running["id"]],
        "done": [finished["id"]],
        "Cancelled": ["waiting1"],
    }.items():
        assert ids(client, f"?state={state}") == expected
        assert [client.get(f"/v1/jobs/{name}").json["state"] for name in expected] == [state.lower()] * len(expected)
    first = client.get("/v1/jobs?state=waiting&limit=1").json
    assert first["next"] == "waiting3"
    assert ids(client, "?state=waiting&limit=1&after=waiting3") == ["waiting2"]


def test_jobs_of_others_are_not_listed(app: Flask, client: FlaskClient) -> None:
    """All tokens of one owner see the same jobs, also one that only reads; another owner sees none of them."""
    queue_of(app)
    one = post(client)
    with app.extensions["kitproof.store"].write() as session:
        other = {"Authorization": f"Bearer {tokens.make(session, 'other', 'write', '')}"}
        reader = {"Authorization": f"Bearer {tokens.make(session, 'local', 'read', '')}"}
    assert client.get("/v1/jobs", headers=other).json["jobs"] == []
    assert [job["id"] for job in client.get("/v1/jobs", headers=reader).json["jobs"]] == [one["id"]]
    forged = client.get(f"/v1/jobs?after={one['id']}", headers=other)
    unknown = client.get(f"/v1/jobs?after={'0' * 32}", headers=other)
    assert (forged.status_code, forged.json["detail"]) == (unknown.status_code, unknown.json["detail"])


@pytest.mark.parametrize(
    ("query", "field", "accepted"),
    [
        ("state=finished", "state", "receiving, waiting, running, done, cancelled"),
        ("state=", "state", "receiving, waiting, running, done, cancelled"),
        ("state=" + "x" * 3000, "state", "receiving, waiting, running, done, cancelled"),
        ("state=done%00", "state", "receiving, waiting, running, done, cancelled"),
        ("limit=0", "limit", "1 to 1000"),
        ("limit=1001", "limit", "1 to 1000"),
        ("limit=many", "limit", "1 to 1000"),
        ("after=" + "0" * 33, "after", "id of the job behind which the list goes on"),
        ("after=nobody", "after", "next of the reply before, or nothing, to begin anew"),
        ("after=%27%20OR%201=1--", "after", "next of the reply before, or nothing, to begin anew"),
        ("owner=other", "owner", "state, limit, after, format, field, errors, sep, dec, bom"),
    ],
)
def test_what_is_no_list_is_an_error_that_helps(client: FlaskClient, query: str, field: str, accepted: str) -> None:
    """It names the field, what was given, what is accepted, and an example; never an empty list."""
    reply = client.get(f"/v1/jobs?{query}")
    assert reply.status_code == 422
    assert (reply.json["field"], reply.json["accepted"]) == (field, accepted)
    assert reply.json["example"]
    assert len(reply.json["value"]) <= 201
    inline = client.get(f"/v1/jobs.txt?{query}&errors=inline")
    assert (inline.status_code, inline.text[:7]) == (200, "error: ")


def test_an_empty_list_is_none_of_an_error(client: FlaskClient) -> None:
    """Nothing in every form, and a page that says how a job is made."""
    assert client.get("/v1/jobs").json["jobs"] == []
    assert client.get("/v1/jobs.txt").text == ""
    assert client.get("/v1/jobs.csv").text == ",".join(COLUMNS) + "\r\n"
    assert "There is no job." in client.get("/v1/jobs.html").text
    assert "No job is done." in client.get("/v1/jobs.html?state=done").text
