"""The result of a job: a gate, reports for build tools; what there is before it is done, and after it is cancelled."""

import json
from collections.abc import Sequence
from xml.etree import ElementTree

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.api.jobs import CHUNK
from service.api.reports import REPORTS
from service.store import jobs
from tests.jobs.working import ROWS, post, queue_of, work_all, work_one

GOOD = b"line,bore,fit\n" + b"ISO 8734 - 5 x 20 - A - St,5 H7,location\n" * (CHUNK + 3)
BAD = GOOD + b"M5 dowel pin,5 H7,location\n"
FORMS = ("json", "csv", "ndjson", "xml", "html", "txt", *REPORTS)


@pytest.mark.parametrize("form", FORMS)
def test_a_gate_stops_unless_every_line_fits(app: Flask, client: FlaskClient, form: str) -> None:
    """409 with the same body; 200 without a gate, and where all fit."""
    queue = queue_of(app)
    good, bad = post(client, GOOD, "text/csv"), post(client, BAD, "text/csv")
    work_all(queue)
    for job, status, word in ((good, 200, "fits"), (bad, 409, "ask")):
        gated = client.get(f"{job['address']}/result.{form}?gate=1")
        assert (gated.status_code, gated.headers["X-Verdict"]) == (status, word)
        free = client.get(f"{job['address']}/result.{form}?gate=0")
        assert (free.status_code, free.headers["X-Verdict"], free.content_type) == (200, word, gated.content_type)
        if form != "html":
            assert free.data == gated.data


@pytest.mark.parametrize("form", REPORTS)
def test_reports_are_those_of_a_batch(app: Flask, client: FlaskClient, form: str) -> None:
    """Byte for byte, with the file's name and the lines of the file."""
    queue = queue_of(app)
    made = post(client)
    work_all(queue)
    batch = client.post(
        f"/v1/verdicts.{form}?file=sampler.ndjson&gate=1", data=ROWS, content_type="application/x-ndjson"
    )
    result = client.get(f"{made['address']}/result.{form}?file=sampler.ndjson&gate=1")
    assert result.data == batch.data
    assert (
        (result.status_code, result.content_type)
        == (batch.status_code, batch.content_type)
        == (409, batch.content_type)
    )
    assert b"sampler.ndjson" in result.data


@pytest.mark.parametrize("query", ["", "?gate=1", "?gate=1&errors=inline"])
def test_until_a_job_is_done_there_is_no_result(app: Flask, client: FlaskClient, query: str) -> None:
    """A gate that is not decided is neither 200 nor 409; the reply says when to come again, to a wrong id not."""
    queue = queue_of(app)
    made = post(client)
    for state, rows in (("waiting", 0), ("running", CHUNK)):
        for form in FORMS:
            reply = client.get(f"{made['address']}/result.{form}{query}")
            assert (reply.status_code, reply.headers["Retry-After"]) == (404, "2"), form
        error = client.get(f"{made['address']}/result{query}").json
        assert error["type"] == "/docs#not-done"
        assert error["detail"] == f"the job is not done: {state}, {rows} rows are judged"
        work_one(queue)
    unknown = client.get(f"/v1/jobs/{'0' * 32}/result{query}")
    assert (unknown.status_code, unknown.json["type"]) == (404, "/docs#not-found")
    assert "Retry-After" not in unknown.headers


def test_a_sheet_that_asks_too_early_is_told_in_its_cell(app: Flask, client: FlaskClient) -> None:
    """errors=inline, without a gate."""
    queue_of(app)
    reply = client.get(post(client)["address"] + "/result.txt?errors=inline")
    assert reply.status_code == 200
    assert reply.text.startswith("error: job: the job is not done: waiting, 0 rows are judged")


class TestCancelled:
    """What was judged before a job was cancelled may be had, but never passes for the whole."""

    @pytest.fixture
    def address(self, app: Flask, client: FlaskClient) -> str:
        """The result of a job of which all rows that were judged fit."""
        queue = queue_of(app)
        made = post(client, GOOD, "text/csv")
        work_one(queue)
        job = client.post(made["address"] + "/cancel").json
        assert (job["verdict"], job["rows_done"], job["rows_total"]) == ("fits", CHUNK, CHUNK + 3)
        assert job["result"] == made["address"] + "/result"
        return str(job["result"])

    def test_rows_are_those_that_were_judged(self, client: FlaskClient, address: str) -> None:
        """The verdict in the header is none that lets anything pass, nor does the gate."""
        reply = client.get(f"{address}.ndjson")
        assert (reply.status_code, reply.headers["X-Verdict"]) == (200, "ask")
        assert [json.loads(row)["number"] for row in reply.text.splitlines()] == list(range(2, CHUNK + 2))
        gated = client.get(f"{address}.ndjson?gate=1")
        assert (gated.status_code, gated.data) == (409, reply.data)
        page = client.get(f"{address}.html").text
        assert f"The job was cancelled: {CHUNK} of {CHUNK + 3} rows were judged before" in page

    def test_every_report_has_a_failure(self, client: FlaskClient, address: str) -> None:
        """Whoever reads it without the status is not told that all is well."""
        said = f"The job was cancelled: {CHUNK} of {CHUNK + 3} rows were judged before, the others never will be."
        junit = ElementTree.fromstring(client.get(f"{address}.junit").text)  # noqa: S314 - our own
        (suite,) = junit
        assert (suite.get("tests"), suite.get("failures")) == (str(CHUNK + 1), "1")
        (failure,) = junit.iter("failure")
        assert (failure.get("type"), failure.get("message")) == ("cancelled", said)
        tap = client.get(f"{address}.tap").text
        assert tap.splitlines()[1] == "not ok 1 - 1 the job"
        assert tap.endswith(f"1..{CHUNK + 1}\n")
        lines = client.get(f"{address}.lines?file=sampler.csv").text.splitlines()
        assert lines[0] == f"sampler.csv:1: error: cancelled: the job: {said}"
        (run,) = client.get(f"{address}.sarif").json["runs"]
        assert [result["ruleId"] for result in run["results"]] == ["cancelled"]


def test_rows_are_read_when_they_are_sent(app: Flask, client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """A chunk at a time, in every form, so that a result needs the memory of one; HEAD reads none."""
    queue = queue_of(app)
    made = post(client)
    work_all(queue)
    read: list[int] = []
    replies = jobs.replies

    def counting(session: object, job: str, number: int) -> bytes | None:
        read.append(number)
        return replies(session, job, number)  # type: ignore[arg-type]

    monkeypatch.setattr(jobs, "replies", counting)
    for form in FORMS:
        read.clear()
        sent = client.get(f"{made['address']}/result.{form}", buffered=False)
        pieces = iter(sent.response)
        # JUnit counts first: it holds its cases on disk, not in memory.
        wanted: Sequence[int] = [1, 2, 3] if form == "junit" else [1]
        while not read:
            next(pieces)
        assert read == wanted, form
        for _ in pieces:
            pass
        assert read == [1, 2, 3], form
        read.clear()
        assert client.head(f"{made['address']}/result.{form}").headers["X-Verdict"]
        assert read == [], form


def test_the_first_lines_that_do_not_fit_stand_with_the_job(app: Flask, client: FlaskClient) -> None:
    """Ten of them, once it is done, found without reading what fits."""
    queue = queue_of(app)
    made = post(client, GOOD + b"M5 dowel pin,5 H7,location\n" * 12, "text/csv")
    work_one(queue)
    assert client.get(made["address"]).json["first_not_fits"] == []
    work_all(queue)
    job = client.get(made["address"]).json
    assert job["verdicts"] == {"fits": CHUNK + 3, "marginal": 0, "ask": 12, "wrong": 0, "unread": 0}
    first = job["first_not_fits"]
    assert [one["number"] for one in first] == list(range(CHUNK + 5, CHUNK + 15))
    assert (first[0]["verdict"], first[0]["line"]) == ("ask", "M5 dowel pin")
    assert first[0]["order_text"] == "Parallel pin ISO 8734 - 5 x <length> - A - St"
    assert first[0]["reason"]
    assert first[0]["question"]


def test_a_job_keeps_the_name_of_its_file(app: Flask, client: FlaskClient) -> None:
    """Lists, pages and reports name it; a report can be told another one."""
    queue = queue_of(app)
    rows = {"data": b"line,bore\nM5 dowel pin,5 H7\n", "content_type": "text/csv"}
    made = client.post("/v1/jobs?file=sampler+%26+arm.csv", **rows).json
    work_all(queue)
    assert client.get("/v1/jobs").json["jobs"][0]["file"] == made["file"] == "sampler & arm.csv"
    for page in ("/v1/jobs.html", f"{made['address']}.html"):
        assert "sampler &amp; arm.csv" in client.get(page).text
    assert client.get(f"{made['address']}/result.lines").text.startswith("sampler & arm.csv:2: error: ask: ")
    assert client.get(f"{made['address']}/result.lines?file=x.csv").text.startswith("x.csv:2: error: ask: ")
    assert client.post("/v1/jobs?file=" + "x" * 201, **rows).json["field"] == "file"
