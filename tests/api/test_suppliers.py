"""Suppliers' habits: noted, listed, forgotten; never two that contradict each other."""

from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient

Check = Callable[..., dict[str, Any]]

HABIT = {"sign": "M", "part": "pin", "means": "internal thread", "noted_on": "2027-01-11", "note": "catalogue, page 3"}
PATH = "/v1/suppliers/{}/habits"


def test_a_habit_is_noted_listed_and_forgotten(client: FlaskClient, assert_problem: Check) -> None:
    """Under the supplier's name, whatever it holds."""
    path = PATH.format("B%C3%B6hm%20%26%20Co.")
    reply = client.post(path, json=HABIT)
    made = reply.get_json()
    assert reply.status_code == 201
    assert {name: made[name] for name in HABIT} == HABIT
    assert made["supplier"] == "Böhm & Co."
    assert reply.headers["Location"] == f"{path}/{made['id']}"
    assert [one["id"] for one in client.get(path).get_json()["habits"]] == [made["id"]]
    assert {"supplier": "Böhm & Co.", "habits": 1} in client.get("/v1/suppliers").get_json()["suppliers"]
    assert client.get(f"{path}.txt").data == b"M on pin: internal thread"
    assert "catalogue, page 3" in client.get(f"{path}.csv").get_data(as_text=True)
    assert client.delete(f"{path}/{made['id']}").get_json()["habits"] == []
    assert_problem(client.delete(f"{path}/{made['id']}"), 404, "not-found", "habit")
    assert client.get(path).get_json()["habits"] == []


def test_a_habit_needs_only_what_it_says(client: FlaskClient) -> None:
    """The day is today; blanks around a name are none of it."""
    given = {name: HABIT[name] for name in ("sign", "part", "means")}
    made = client.post(PATH.format("%20C%20"), json=given).get_json()
    assert (made["supplier"], made["note"]) == ("C", "")
    assert len(made["noted_on"]) == 10
    assert len(client.get(PATH.format("C")).get_json()["habits"]) == 1


@pytest.mark.parametrize(
    ("change", "code", "field"),
    [
        ({"means": "colour"}, "bad-value", "means"),
        ({"part": "sausage"}, "bad-value", "part"),
        ({"part": "pni"}, "bad-value", "part"),
        ({"sign": ""}, "bad-value", "sign"),
        ({"sign": "much too long"}, "bad-value", "sign"),
        ({"noted_on": "yesterday"}, "bad-value", "noted_on"),
        ({"because": "x"}, "unknown-field", "because"),
    ],
)
def test_what_is_not_understood_is_not_noted(
    client: FlaskClient, assert_problem: Check, change: dict[str, str], code: str, field: str
) -> None:
    """The error names the field, and the nearest part that is known."""
    body = assert_problem(client.post(PATH.format("D"), json={**HABIT, **change}), 422, code, field)
    if change.get("part") == "pni":
        assert body["example"] == "pin"
    assert client.get(PATH.format("D")).get_json()["habits"] == []


def test_a_habit_that_contradicts_another_is_refused(client: FlaskClient, assert_problem: Check) -> None:
    """The one that is known is named; for another supplier it may be so."""
    made = client.post(PATH.format("E"), json=HABIT).get_json()
    body = assert_problem(
        client.post(PATH.format("E"), json={**HABIT, "means": "outer diameter"}), 422, "bad-value", "means"
    )
    assert made["id"] in body["detail"]
    assert client.post(PATH.format("F"), json={**HABIT, "means": "outer diameter"}).status_code == 201


def test_a_habit_is_noted_once(client: FlaskClient) -> None:
    """However often the request is sent with its key."""
    key = {"Idempotency-Key": "habit-1"}
    replies = [client.post(PATH.format("G"), json=HABIT, headers=key) for _ in range(2)]
    assert replies[0].get_json() == replies[1].get_json()
    assert len(client.get(PATH.format("G")).get_json()["habits"]) == 1


def test_a_name_that_is_none_is_refused(client: FlaskClient, assert_problem: Check) -> None:
    """Control characters never reach the store."""
    assert_problem(client.get(PATH.format("%00")), 422, "bad-value", "supplier")
    assert_problem(client.get(PATH.format("%20")), 422, "bad-value", "supplier")
    assert client.get(PATH.format("x" * 101)).status_code == 404
