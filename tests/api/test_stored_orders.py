"""Stored orders over HTTP: alike on SQLite and PostgreSQL, in every form, nobody's work overwritten."""

import csv
import io
import json
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from schemas.stored_orders import EVENTS, PLAN
from service.app import create_app
from service.config import Settings
from service.stored import log

Check = Callable[..., dict[str, Any]]

KEY = {"Idempotency-Key": "8e03978e-40d5-43dd-bc93-6894a57f9324"}
ANYWAY = {"If-Match": "*"}
PATCH = "application/merge-patch+json"


@pytest.fixture
def client(emptied: str) -> Iterator[FlaskClient]:
    """A client of the application on each kind of database."""
    app = create_app(Settings(database_url=emptied, body_limit=20_000))
    yield app.test_client()
    app.extensions["kitproof.store"].engine.dispose()


def make(client: FlaskClient, plan: dict[str, Any] = PLAN) -> str:
    """Store an order and return its path."""
    reply = client.post("/v1/orders", json=plan)
    assert reply.status_code == 201, reply.get_data(as_text=True)
    return str(reply.headers["Location"])


def tell(client: FlaskClient, path: str, *events: dict[str, Any], **headers: str) -> TestResponse:
    """Tell events for whichever revision is the latest."""
    return client.post(f"{path}/events", json={"events": list(events)}, headers={**ANYWAY, **headers})


def rows(text: str) -> list[dict[str, str]]:
    """Return the rows of a CSV reply."""
    return list(csv.DictReader(io.StringIO(text)))


# --- making and showing ----------------------------------------------------------------------------------------------


def test_an_order_is_stored_and_shown(client: FlaskClient) -> None:
    """Under an id that nobody guesses; its ETag names the revision."""
    reply = client.post("/v1/orders", json=PLAN)
    assert (reply.status_code, reply.headers["ETag"], reply.headers["X-Ready"]) == (201, '"1"', "not ready")
    made = reply.get_json()
    assert reply.headers["Location"] == f"/v1/orders/{made['id']}"
    assert len(made["id"]) == 32
    assert {"subject": "line", "id": "L1", "before": "", "verdict": "ask", "because": "first"} in made["changes"]
    shown = client.get(reply.headers["Location"])
    assert (shown.status_code, shown.headers["ETag"], shown.headers["X-Verdict"]) == (200, '"1"', "ask")
    body = shown.get_json()
    assert (body["plan"], body["log"], body["revision"]) == (PLAN, [], 1)
    assert {"subject": "need", "id": "N1", "verdict": "in doubt"} in body["verdicts"]


def test_entries_without_an_id_get_one(client: FlaskClient) -> None:
    """The same by which the check calls them, so that events can name them."""
    plan = {
        "needs": [{"quantity": 1, "bore": "5 H7"}],
        "lines": [{"line": "608", "quantity": 1}, {"id": 7, "line": "608", "quantity": 1}],
    }
    path = make(client, plan)
    found = client.get(path).get_json()["plan"]
    assert [one["id"] for one in (*found["needs"], *found["lines"])] == ["N1", "L1", "7"]
    reply = tell(client, path, {"event": "received", "line": "L1"}, {"event": "received", "line": "7"})
    assert (reply.status_code, reply.get_json()["passed_over"]) == (200, [])


@pytest.mark.parametrize(
    ("plan", "code", "field"),
    [
        ({}, "missing-field", "needs"),
        ({**PLAN, "needs": []}, "bad-value", "needs"),
        ({**PLAN, "needs": "id;quantity"}, "bad-value", "needs"),
        ({**PLAN, "lines": [{"line": "608"}]}, "missing-field", "lines.L1.quantity"),
        ({**PLAN, "lines": [{"line": "608", "quantity": 1, "colour": "red"}]}, "bad-value", "lines.L1.colour"),
        ({**PLAN, "nedes": []}, "unknown-field", "nedes"),
        ({**PLAN, "name": "x" * 101}, "bad-value", "name"),
        ({**PLAN, "name": "a\x00b"}, "bad-value", "name"),
        ([PLAN], "bad-value", "body"),
    ],
)
def test_what_is_not_understood_is_not_stored(
    client: FlaskClient, assert_problem: Check, plan: Any, code: str, field: str
) -> None:
    """The error names the field; the list stays empty."""
    assert_problem(client.post("/v1/orders", json=plan), 422, code, field)
    assert client.get("/v1/orders").get_json()["orders"] == []


def test_text_is_kept_to_the_letter(client: FlaskClient) -> None:
    """In every script, and what looks like a formula is defused only where a sheet would run it."""
    name = "=SUM(1) \u00d85 «Probe» 試料 \U0001f527 \u2028 'quoted' \"\\"
    path = make(client, {**PLAN, "name": name})
    assert client.get(path).get_json()["plan"]["name"] == name
    assert rows(client.get(f"{path}.csv").get_data(as_text=True))[0]["name"] == f"'{name}"
    assert client.get("/v1/orders").get_json()["orders"][0]["name"] == name


def test_every_form_shows_the_same(client: FlaskClient) -> None:
    """JSON, CSV, XML, HTML and one plain word, by suffix, format= or Accept."""
    path = make(client)
    table = rows(client.get(f"{path}.csv").get_data(as_text=True))
    assert [(row["kind"], row["id"], row["verdict"]) for row in table] == [
        ("order", "", "not ready"),
        ("need", "N1", "in doubt"),
        ("line", "L1", "ask"),
        ("step", "strip", "closed"),
        ("step", "plate", "closed"),
    ]
    root = ElementTree.fromstring(client.get(f"{path}?format=xml").data)  # noqa: S314 - our own reply
    assert [row.findtext("verdict") for row in root] == [row["verdict"] for row in table]
    assert client.get(path, headers={"Accept": "text/plain"}).data == b"not ready"
    page = client.get(f"{path}.html").get_data(as_text=True)
    assert page.count("<tr>") == len(table) + 1
    assert client.get(f"{path}.txt?field=plan.name").get_data(as_text=True) == PLAN["name"]
    for part in ("log", "events", "receipts", "measurements", "check", "schedule", "history", "revisions"):
        for form in ("csv", "xml", "html", "txt", "json"):
            assert client.get(f"{path}/{part}.{form}").status_code == 200, (part, form)


@pytest.mark.parametrize("part", ["log", "measurements", "history", "revisions", "schedule", "gate?step=strip"])
def test_the_page_of_every_table_leads_back_to_the_order(client: FlaskClient, part: str) -> None:
    """Nobody who came there is left without a way on."""
    path = make(client)
    name, _, query = part.partition("?")
    page = client.get(f"{path}/{name}.html{'?' if query else ''}{query}").get_data(as_text=True)
    assert f'href="{path}/check.html">Back to the order<' in page


def test_orders_are_listed_page_by_page(client: FlaskClient) -> None:
    """The newest first."""
    made = [make(client, {**PLAN, "name": str(number)}).rsplit("/", 1)[1] for number in range(3)]
    first = client.get("/v1/orders?limit=2").get_json()
    assert [one["name"] for one in first["orders"]] == ["2", "1"]
    rest = client.get(f"/v1/orders?after={first['next']}&limit=1000").get_json()
    assert [one["id"] for one in rest["orders"]] == made[:1]
    assert rest["next"] is None
    assert client.get("/v1/orders.txt?limit=1").get_data(as_text=True) == made[2]


def test_what_is_not_there_is_not_found(client: FlaskClient, assert_problem: Check) -> None:
    """On every route alike."""
    path = f"/v1/orders/{'0' * 32}"
    for part in ("", "/log", "/events", "/receipts", "/measurements", "/check", "/schedule", "/history", "/revisions"):
        assert_problem(client.get(path + part), 404, "not-found", "order")
    for part in ("/gate?step=x", "/why?line=L1"):
        assert_problem(client.get(path + part), 404, "not-found", "order")
    body = {"events": [{"event": "in stock", "line": "L1"}]}
    for reply in (
        client.put(path, json=PLAN, headers=ANYWAY),
        client.patch(path, data="{}", content_type=PATCH, headers=ANYWAY),
        client.delete(path, headers=ANYWAY),
        client.post(f"{path}/events", json=body, headers=ANYWAY),
        client.post(f"{path}/check"),
    ):
        assert_problem(reply, 404, "not-found", "order")
    assert_problem(client.get(f"{make(client)}?revision=2"), 404, "not-found")


def test_one_owner_has_so_many_orders_and_no_more(tmp_path: Path, assert_problem: Check) -> None:
    """The setting that allows more is named."""
    settings = Settings(database_url=f"sqlite:///{tmp_path / 'a.sqlite3'}", orders_limit=1, body_limit=3000)
    client = create_app(settings).test_client()
    path = make(client)
    body = assert_problem(client.post("/v1/orders", json=PLAN), 413, "too-large")
    assert "KITPROOF_ORDERS_LIMIT" in body["accepted"]
    note = {"lines": [{"id": f"L{number}", "line": "x" * 400, "quantity": 1} for number in range(5)]}
    grow = {"stock": [{"id": f"S{number}", "line": "y" * 400, "quantity": 1} for number in range(5)]}
    assert client.patch(path, data=json.dumps(note), content_type=PATCH, headers=ANYWAY).status_code == 200
    too_large = client.patch(path, data=json.dumps(grow), content_type=PATCH, headers=ANYWAY)
    assert_problem(too_large, 413, "too-large", "body")


# --- revisions -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("method", ["put", "patch", "delete", "events", "receipts"])
def test_a_change_names_the_revision_that_it_changes(client: FlaskClient, assert_problem: Check, method: str) -> None:
    """Without that 428, for another revision 412 with the ETag of the latest, and nothing is stored."""
    path = make(client)

    def send(headers: dict[str, str]) -> TestResponse:
        if method == "events":
            body: Any = {"events": [{"event": "ordered", "line": "L1", "on": "2026-01-01"}]}
            return client.post(f"{path}/events", json=body, headers=headers)
        if method == "receipts":
            body = {"receipts": [{"line": "L1", "receipt": {"measured": [5], "uncertainty": 0, "limits": "5 m6"}}]}
            return client.post(f"{path}/receipts", json=body, headers=headers)
        kind = PATCH if method == "patch" else "application/json"
        data = None if method == "delete" else json.dumps({**PLAN, "name": "new"})
        return client.open(path, method=method.upper(), data=data, content_type=kind, headers=headers)

    assert_problem(send({}), 428, "no-precondition", "If-Match")
    assert_problem(send({"If-Match": "latest"}), 400, "malformed", "If-Match")
    for stale in ('"2"', 'W/"1"', '"x"', '"0", "7"'):
        reply = send({"If-Match": stale})
        assert_problem(reply, 412, "stale", "If-Match")
        assert reply.headers["ETag"] == '"1"'
    assert client.get(path).get_json()["revision"] == 1
    reply = send({"If-Match": '"7", "1"'})
    assert reply.status_code == 200
    if method != "delete":
        assert reply.headers["ETag"] == '"2"'
        assert_problem(send({"If-Match": '"1"'}), 412, "stale")
        assert send(ANYWAY).headers["ETag"] == '"3"'
    else:
        assert_problem(client.get(path), 404, "not-found")


def test_every_revision_can_be_seen(client: FlaskClient) -> None:
    """Who did what, and the order as it was."""
    path = make(client)
    client.put(path, json={**PLAN, "name": "second"}, headers={"If-Match": '"1"'})
    tell(client, path, {"event": "received", "line": "L1", "quantity": 3})
    data = json.dumps({"steps": None, "name": "third"})
    client.patch(path, data=data, content_type=PATCH, headers={"If-Match": '"3"'})
    shown = [client.get(f"{path}?revision={number}").get_json() for number in (1, 2, 3, 4)]
    assert [one["plan"]["name"] for one in shown] == [PLAN["name"], "second", "second", "third"]
    assert [len(one["log"]) for one in shown] == [0, 0, 1, 1]
    assert ["steps" in one["plan"] for one in shown] == [True, True, True, False]
    assert [one["latest"] for one in shown] == [4] * 4
    assert shown[0]["verdicts"] == []
    revisions = client.get(f"{path}/revisions").get_json()
    assert [one["change"] for one in revisions["revisions"]] == ["patched", "logged", "replaced", "made"]
    page = client.get(f"{path}/revisions?limit=2").get_json()
    assert page["next"] == 3
    assert [one["number"] for one in client.get(f"{path}/revisions?limit=2&before=3").get_json()["revisions"]] == [2, 1]


def test_of_two_writers_one_wins_and_the_other_is_told(client: FlaskClient) -> None:
    """At the same time, from the same revision, again and again."""
    path = make(client)
    for revision in range(1, 6):
        start, statuses = threading.Barrier(4), []

        def write(number: int, revision: int, start: threading.Barrier, statuses: list[tuple[int, int]]) -> None:
            start.wait(20)
            own = client.application.test_client()
            headers = {"If-Match": f'"{revision}"'}
            reply = own.put(path, json={**PLAN, "name": f"{revision}-{number}"}, headers=headers)
            statuses.append((reply.status_code, number))

        writers = [threading.Thread(target=write, args=(number, revision, start, statuses)) for number in range(4)]
        for writer in writers:
            writer.start()
        for writer in writers:
            writer.join(60)
        winners = [number for status, number in statuses if status == 200]
        assert (len(winners), sorted({status for status, _ in statuses})) == (1, [200, 412])
        shown = client.get(path).get_json()
        assert (shown["revision"], shown["plan"]["name"]) == (revision + 1, f"{revision}-{winners[0]}")


# --- once ------------------------------------------------------------------------------------------------------------


def test_the_same_request_again_changes_nothing(client: FlaskClient, assert_problem: Check) -> None:
    """The stored reply comes again, in whatever form; another request under the key is refused."""
    first = client.post("/v1/orders", json=PLAN, headers=KEY)
    again = client.post(
        "/v1/orders", json=dict(reversed(PLAN.items())), headers={"Idempotency-Key": f'"{KEY["Idempotency-Key"]}"'}
    )
    assert (again.status_code, again.get_json()) == (201, first.get_json())
    assert again.headers["Location"] == first.headers["Location"]
    assert client.post("/v1/orders.txt", json=PLAN, headers=KEY).data == b"not ready"
    assert len(client.get("/v1/orders").get_json()["orders"]) == 1
    other = client.post("/v1/orders", json={**PLAN, "name": "other"}, headers=KEY)
    assert_problem(other, 422, "idempotency-key-reused", "Idempotency-Key")
    path = first.headers["Location"]
    assert_problem(client.put(path, json=PLAN, headers={**KEY, **ANYWAY}), 422, "idempotency-key-reused")


def test_a_request_that_was_carried_out_can_be_sent_again_for_its_old_revision(client: FlaskClient) -> None:
    """The reply was lost on the way: the client only knows the revision from before."""
    path = make(client)
    headers = {"If-Match": '"1"', "Idempotency-Key": "events-1"}
    event = {"events": [{"event": "broken", "need": "N1"}]}
    first = client.post(f"{path}/events", json=event, headers=headers)
    again = client.post(f"{path}/events", json=event, headers=headers)
    assert (first.status_code, again.status_code, again.headers["ETag"]) == (200, 200, '"2"')
    assert again.get_json() == first.get_json()
    assert len(client.get(f"{path}/events").get_json()["entries"]) == 1


def test_a_request_that_failed_can_be_put_right_under_its_key(client: FlaskClient) -> None:
    """Errors are not kept."""
    headers = {"Idempotency-Key": "fails"}
    assert client.post("/v1/orders", json={**PLAN, "needs": []}, headers=headers).status_code == 422
    assert client.post("/v1/orders", json=PLAN, headers=headers).status_code == 201


@pytest.mark.parametrize("key", ["", " ", "x" * 256, "a\tb", '"', "ä"])
def test_a_key_that_is_none_is_refused(client: FlaskClient, assert_problem: Check, key: str) -> None:
    """Before anything is done."""
    assert_problem(
        client.post("/v1/orders", json=PLAN, headers={"Idempotency-Key": key}), 400, "malformed", "Idempotency-Key"
    )


def test_of_many_with_one_key_one_is_carried_out(client: FlaskClient) -> None:
    """All get its reply."""
    start, replies = threading.Barrier(4), []
    headers = {"Idempotency-Key": "many"}

    def send() -> None:
        start.wait(20)
        replies.append(client.application.test_client().post("/v1/orders", json=PLAN, headers=headers))

    senders = [threading.Thread(target=send) for _ in range(4)]
    for sender in senders:
        sender.start()
    for sender in senders:
        sender.join(60)
    assert [reply.status_code for reply in replies] == [201] * 4
    assert len({reply.headers["Location"] for reply in replies}) == 1
    assert len(client.get("/v1/orders").get_json()["orders"]) == 1


# --- the log, the proof, the gate ------------------------------------------------------------------------------------


def test_the_wire_knows_every_event() -> None:
    """One that is added has to be added there."""
    assert set(EVENTS) == set(log.EVENTS)


def test_events_move_needs_and_gates(client: FlaskClient, assert_problem: Check) -> None:
    """A closed gate stops a script, an open one lets it go on."""
    path = make(client, {**PLAN, "lines": [{"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 6}]})
    gate = f"{path}/gate?step=strip"
    closed = client.get(f"{gate}&gate=1")
    assert (closed.status_code, closed.headers["X-Gate"], closed.get_json()["open"]) == (409, "closed", False)
    assert closed.get_json()["because"] == ["N1: 6 needed, 6 still to come (L1)"]
    assert client.get(gate).status_code == 200
    assert client.get(f"{path}/gate.txt?step=strip").data == b"closed"
    reply = tell(client, path, {"event": "received", "line": "L1"}).get_json()
    assert {"subject": "gate", "id": "strip", "before": "closed", "verdict": "open", "because": "log"} in reply[
        "changes"
    ]
    opened = client.get(f"{gate}&gate=1")
    assert (opened.status_code, opened.headers["X-Gate"]) == (200, "open")
    reply = tell(client, path, {"event": "broken", "need": "N1", "quantity": 2}).get_json()
    assert {"subject": "need", "id": "N1", "before": "covered", "verdict": "short", "because": "log"} in reply[
        "changes"
    ]
    assert client.get(f"{gate}&gate=1").status_code == 409
    reply = tell(client, path, {"event": "withdrawn", "entry": 2}).get_json()
    assert {"subject": "gate", "id": "strip", "before": "closed", "verdict": "open", "because": "log"} in reply[
        "changes"
    ]
    assert_problem(client.get(f"{path}/gate?step=strop&gate=1"), 422, "bad-value", "step")
    assert_problem(client.get(f"{path}/gate"), 422, "missing-field", "step")


def test_a_log_is_shown_by_its_kind(client: FlaskClient) -> None:
    """Numbered through both."""
    path = make(client)
    tell(client, path, {"event": "ordered", "line": "L1", "on": "2026-01-02", "note": "by telephone"})
    body = {"receipts": [{"line": "L1", "receipt": {"measured": [5.01], "uncertainty": 0.003, "limits": "5 m6"}}]}
    assert client.post(f"{path}/receipts", json=body, headers=ANYWAY).status_code == 200
    (event,) = client.get(f"{path}/events").get_json()["entries"]
    assert event["entry"] == {"event": "ordered", "line": "L1", "on": "2026-01-02", "note": "by telephone"}
    (receipt,) = client.get(f"{path}/receipts").get_json()["entries"]
    assert (receipt["number"], receipt["revision"], receipt["kind"]) == (2, 3, "receipt")
    line = client.get(f"{path}/check").get_json()["lines"][0]
    assert line["proof"] == "not provable"


@pytest.mark.parametrize(
    ("event", "code", "field"),
    [
        ({"event": "received", "line": "L9"}, "bad-value", "events[1].line"),
        ({"event": "received"}, "missing-field", "events[1].line"),
        ({"event": "received", "line": "L1", "quantity": 11}, "bad-value", "lines.L1.received"),
        ({"event": "received", "line": "L1", "quantity": "many"}, "bad-value", "lines.L1.received"),
        ({"event": "received", "line": "L1", "step": "plate"}, "bad-value", "events[1].step"),
        ({"event": "withdrawn", "entry": 5}, "bad-value", "events[1].entry"),
        ({"event": "eaten", "line": "L1"}, "bad-value", "events.1.event"),
        ({"event": "received", "line": "L1", "who": "me"}, "bad-value", "events.1.who"),
    ],
)
def test_events_are_kept_all_or_none(
    client: FlaskClient, assert_problem: Check, event: dict[str, Any], code: str, field: str
) -> None:
    """The error names the one at fault."""
    path = make(client)
    reply = tell(client, path, {"event": "in stock", "line": "L1"}, event)
    assert_problem(reply, 422, code, field)
    assert client.get(f"{path}/events").get_json()["entries"] == []


def test_the_history_holds_every_verdict_with_its_reason(client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """And the fingerprint of the data on which it rests; asking changes nothing, recording does."""
    path = make(client)
    client.post("/v1/suppliers/A/habits", json={"sign": "M", "part": "pin", "means": "outer diameter"})
    asked = client.get(f"{path}/check").get_json()
    wanted = {"subject": "line", "id": "L1", "before": "ask", "verdict": "fits", "because": "habits"}
    assert wanted in asked["changes"]
    sources = {finding["source"] for check in asked["lines"][0]["checks"] for finding in check["findings"]}
    assert any(source.startswith("habit of supplier A, noted ") for source in sources)
    assert len(client.get(f"{path}/history").get_json()["proofs"]) == 1
    assert client.post(f"{path}/check").get_json()["changes"] == asked["changes"]
    assert client.get(f"{path}/check").get_json()["changes"] == []
    monkeypatch.setattr("service.stored.orders.tables.fingerprint", lambda: "0123456789abcdef")
    assert client.post(f"{path}/check").get_json()["changes"] == []
    proofs = client.get(f"{path}/history").get_json()["proofs"]
    assert [(one["number"], one["changes"] != []) for one in proofs] == [(3, False), (2, True), (1, True)]
    assert [one["reference"] == "0123456789abcdef" for one in proofs] == [True, False, False]
    assert [len(one["habits"]) for one in proofs] == [1, 1, 0]
    page = client.get(f"{path}/history?limit=1&before=3").get_json()
    assert ([one["number"] for one in page["proofs"]], page["next"]) == ([2], 2)
    assert len(rows(client.get(f"{path}/history.csv").get_data(as_text=True))) == 1 + 3 + 5


def test_a_check_can_gate_a_script(client: FlaskClient) -> None:
    """The same body, with 409."""
    path = make(client)
    stopped = client.get(f"{path}/check?gate=1")
    assert (stopped.status_code, stopped.headers["X-Ready"]) == (409, "not ready")
    assert stopped.get_json()["needs"][0]["state"] == "in doubt"
    assert client.get(f"{path}/check?units=in").get_json()["units"] == "in"


def test_the_schedule_follows_what_is_told(client: FlaskClient) -> None:
    """Weeks become months."""
    line = {
        "id": "L1",
        "line": "ISO 8734 - 5 x 20 - A - St",
        "quantity": 6,
        "ordered_on": "2027-01-11",
        "lead_time": 14,
    }
    path = make(client, {**PLAN, "lines": [line], "today": "2027-01-12"})
    assert client.get(f"{path}/schedule").get_json()["kit"] == {"p50": "2027-01-25", "p90": "2027-01-25"}
    assert client.get(f"{path}/schedule.txt").data == b"2027-01-25"
    tell(client, path, {"event": "delayed", "line": "L1", "lead_time": 90, "on": "2027-01-12"})
    later = client.get(f"{path}/schedule").get_json()
    assert later["kit"]["p90"] == "2027-04-11"
    assert [one["id"] for one in later["steps"]] == ["strip", "plate"]


def test_head_and_options_are_answered(client: FlaskClient) -> None:
    """Sheets send both before they ask."""
    path = make(client)
    assert client.head(path).status_code == 200
    assert client.head(path).headers["ETag"] == '"1"'
    assert {"GET", "PUT", "PATCH", "DELETE"} <= set(client.options(path).headers["Allow"].split(", "))
