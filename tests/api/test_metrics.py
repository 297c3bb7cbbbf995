"""``/metrics`` counts requests, verdicts and unread lines; the log has one line of JSON a request."""

import json

import pytest
from flask.testing import FlaskClient

from service.app import create_app
from service.config import Settings


def counted(client: FlaskClient, name: str) -> float:
    """Return the value of one counter, 0 where it has not counted yet."""
    text = client.get("/metrics").get_data(as_text=True)
    return next((float(line.rsplit(" ", 1)[1]) for line in text.splitlines() if line.startswith(name)), 0.0)


def test_verdicts_are_counted_by_word(client: FlaskClient) -> None:
    """One more of the word after a verdict; a batch counts each row."""
    name = 'kitproof_verdicts_total{verdict="ask"}'
    before = counted(client, name)
    client.get("/v1/verdict?line=M5+dowel+pin&bore=5+H7&fit=location")
    client.post("/v1/verdicts", json=[{"line": "M5 dowel pin", "bore": "5 H7", "fit": "location"}] * 2)
    assert counted(client, name) == before + 3


@pytest.mark.parametrize(
    ("line", "reason"),
    [
        ("two nice bottles", "no part named"),
        ("M5x20", "sizes without a noun"),
        ("ISO 8784 - 5 x 20", "unknown standard"),
    ],
)
def test_unread_lines_are_counted_by_reason(client: FlaskClient, line: str, reason: str) -> None:
    """What callers write that cannot be read is worth knowing."""
    name = f'kitproof_unread_lines_total{{reason="{reason}"}}'
    before = counted(client, name)
    client.get("/v1/verdict", query_string={"line": line, "bore": "5 H7"})
    assert counted(client, name) == before + 1


def test_requests_are_counted_by_resource_and_status(client: FlaskClient) -> None:
    """Names in a path and the suffix make no counters of their own; what does not exist is one."""
    name = 'kitproof_requests_total{path="/v1/fits",status="200"}'
    before = counted(client, name)
    client.get("/v1/fits.csv?size=25&hole=H8&shaft=f7")
    assert counted(client, name) == before + 1
    client.get("/v1/something-else-entirely")
    assert counted(client, 'kitproof_requests_total{path="other",status="404"}') >= 1


def test_a_request_is_one_line_of_json(tmp_path: object, capsys: pytest.CaptureFixture[str]) -> None:
    """With the request id that the reply carries, and without the query."""
    app = create_app(Settings(log="json", database_url=f"sqlite:///{tmp_path}/store.sqlite3"))
    reply = app.test_client().get("/v1/verdict.txt?line=M5+dowel+pin&bore=5+H7&fit=location")
    line = json.loads(capsys.readouterr().err.strip().splitlines()[-1])
    assert line["request_id"] == reply.headers["X-Request-Id"]
    assert (line["method"], line["path"], line["status"], line["verdict"]) == ("GET", "/v1/verdict.txt", 200, "ask")
    assert "dowel" not in json.dumps(line)


def test_a_sheet_that_asks_three_times_is_counted_once(client: FlaskClient) -> None:
    """LibreOffice sends OPTIONS and HEAD before each GET; a line that a person enters counts as well."""
    name = 'kitproof_verdicts_total{verdict="ask"}'
    before = counted(client, name)
    address = "/v1/verdict.txt?line=M5+dowel+pin&bore=5+H7&fit=location"
    client.options(address)
    client.head(address)
    client.head(address.replace("verdict.txt", "verdicts.txt"))
    assert counted(client, name) == before
    client.get(address)
    client.get("/proof?line=M5+dowel+pin&kind=bore&mate=5+H7&fit=location")
    assert counted(client, name) == before + 2
