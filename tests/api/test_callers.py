"""Owners over HTTP: nobody sees, changes or guesses what is someone else's."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from schemas.stored_orders import PLAN
from service.access import NoTokens
from service.app import create_app
from service.config import Settings
from service.store import tokens
from service.store.store import Store

Check = Callable[..., dict[str, Any]]

HABIT = {"sign": "M", "part": "pin", "means": "internal thread"}


@pytest.fixture
def served_elsewhere(emptied: str) -> Iterator[tuple[FlaskClient, dict[str, Any]]]:
    """A client of a service that is reached from elsewhere, and headers by owner and scope."""
    store = Store(emptied)
    with store.write() as session:
        made = {
            name: tokens.make(session, owner, scope)
            for name, owner, scope in (
                ("club", "club", "write"),
                ("reader", "club", "read"),
                ("rival", "rival", "write"),
            )
        }
    store.engine.dispose()
    app = create_app(Settings(database_url=emptied, host="192.0.2.1"))
    yield app.test_client(), {name: {"Authorization": f"Bearer {token}"} for name, token in made.items()}
    app.extensions["kitproof.store"].engine.dispose()


def test_it_does_not_start_without_a_token(tmp_path: Path) -> None:
    """Whatever server is used to start it."""
    with pytest.raises(NoTokens, match="token create"):
        create_app(Settings(database_url=f"sqlite:///{tmp_path / 'a.sqlite3'}", host="192.0.2.1"))


def test_everyone_is_asked_but_for_what_the_service_is(
    served_elsewhere: tuple[FlaskClient, dict[str, Any]], assert_problem: Check
) -> None:
    """Pages, description and health are open; everything else answers 401, also where nothing is."""
    client, headers = served_elsewhere
    for path in ("/", "/docs", "/openapi.json", "/healthz", "/readyz", "/healthz.txt"):
        assert client.get(path).status_code == 200, path
    for path in ("/v1/orders", "/v1/verdict?line=608&bore=22+H7", "/v1/reference", "/nothing", "/v1/suppliers"):
        reply = client.get(path)
        assert_problem(reply, 401, "unauthorized", "Authorization")
        assert reply.headers["WWW-Authenticate"].startswith("Bearer ")
    reply = client.get("/v1/verdict?line=608&bore=22+H7", headers=headers["reader"])
    assert reply.status_code == 200
    assert client.get("/v1/orders.txt").get_data(as_text=True).startswith("error: Authorization: a token is needed")


def test_one_owner_never_sees_the_orders_of_another(
    served_elsewhere: tuple[FlaskClient, dict[str, Any]], assert_problem: Check
) -> None:
    """The answer is the same as for an order that does not exist."""
    client, headers = served_elsewhere
    mine = client.post("/v1/orders", json=PLAN, headers=headers["club"]).headers["Location"]
    rival, anyway = headers["rival"], {**headers["rival"], "If-Match": "*"}
    events = {"events": [{"event": "in stock", "line": "L1"}]}
    for path in (mine, f"/v1/orders/{'0' * 32}"):
        replies = [
            *(
                client.get(path + part, headers=rival)
                for part in ("", "/check", "/history", "/gate?step=plate", "/events")
            ),
            client.put(path, json=PLAN, headers=anyway),
            client.delete(path, headers=anyway),
            client.post(f"{path}/events", json=events, headers=anyway),
            client.post(f"{path}/check", headers=rival),
        ]
        bodies = [assert_problem(reply, 404, "not-found", "order") for reply in replies]
        assert {body["detail"] for body in bodies} == {"there is no such order"}
    assert client.get("/v1/orders", headers=rival).get_json()["orders"] == []
    assert client.get(f"/v1/orders?after={mine[11:]}", headers=rival).get_json()["orders"] == []
    assert client.get(mine, headers=headers["club"]).get_json()["revision"] == 1
    assert client.get(mine, headers=headers["reader"]).status_code == 200
    (revision,) = client.get(f"{mine}/revisions", headers=headers["club"]).get_json()["revisions"]
    assert revision["made_by"] == headers["club"]["Authorization"][10:26]


def test_habits_and_keys_are_their_owners_own(
    served_elsewhere: tuple[FlaskClient, dict[str, Any]], assert_problem: Check
) -> None:
    """The same key of another owner is another key."""
    client, headers = served_elsewhere
    made = client.post("/v1/suppliers/A/habits", json=HABIT, headers=headers["club"]).get_json()
    assert client.get("/v1/suppliers/A/habits", headers=headers["rival"]).get_json()["habits"] == []
    gone = client.delete(f"/v1/suppliers/A/habits/{made['id']}", headers=headers["rival"])
    assert_problem(gone, 404, "not-found", "habit")
    key = {"Idempotency-Key": "shared"}
    ids = {
        client.post("/v1/orders", json=PLAN, headers={**headers[name], **key}).get_json()["id"]
        for name in ("club", "rival")
    }
    assert len(ids) == 2


def test_a_token_that_reads_does_not_write(
    served_elsewhere: tuple[FlaskClient, dict[str, Any]], assert_problem: Check
) -> None:
    """Computing is reading; storing is not."""
    client, headers = served_elsewhere
    path = client.post("/v1/orders", json=PLAN, headers=headers["club"]).headers["Location"]
    reader, anyway = headers["reader"], {**headers["reader"], "If-Match": "*"}
    events = {"events": [{"event": "in stock", "line": "L1"}]}
    for reply in (
        client.post("/v1/orders", json=PLAN, headers=reader),
        client.put(path, json=PLAN, headers=anyway),
        client.patch(path, data="{}", content_type="application/merge-patch+json", headers=anyway),
        client.delete(path, headers=anyway),
        client.post(f"{path}/events", json=events, headers=anyway),
        client.post(f"{path}/check", headers=reader),
        client.post("/v1/suppliers/A/habits", json=HABIT, headers=reader),
        client.delete("/v1/suppliers/A/habits/x", headers=reader),
    ):
        assert_problem(reply, 403, "forbidden", "Authorization")
    assert client.post("/v1/orders/check", json={"needs": PLAN["needs"]}, headers=reader).status_code == 200
    assert client.get(f"{path}/check", headers=reader).status_code == 200


def test_too_many_requests_are_told_when_to_come_again(tmp_path: Path, assert_problem: Check) -> None:
    """On this machine nobody is counted."""
    address = f"sqlite:///{tmp_path / 'a.sqlite3'}"
    client = create_app(Settings(database_url=address, rate_limit=3)).test_client()
    assert {client.get("/v1/suppliers").status_code for _ in range(10)} == {200}
    elsewhere = {"REMOTE_ADDR": "192.0.2.7"}
    statuses = [client.get("/v1/suppliers", environ_base=elsewhere).status_code for _ in range(4)]
    assert statuses == [401, 401, 401, 429]
    reply = client.get("/v1/suppliers", environ_base=elsewhere)
    assert_problem(reply, 429, "too-many-requests")
    assert int(reply.headers["Retry-After"]) > 0


@pytest.mark.parametrize(("proxies", "address"), [(0, "192.0.2.7"), (1, "198.51.100.9")])
def test_an_address_that_is_passed_on_is_believed_only_where_proxies_are_set(
    tmp_path: Path, proxies: int, address: str
) -> None:
    """Else anyone could count as someone else."""
    settings = Settings(
        database_url=f"sqlite:///{tmp_path / 'a.sqlite3'}", rate_limit=2, proxies=proxies, tokens="always"
    )
    client = create_app(settings).test_client()
    passed = {"X-Forwarded-For": "198.51.100.9"}
    for _ in range(3):
        client.get("/v1/suppliers", environ_base={"REMOTE_ADDR": "192.0.2.7"}, headers=passed)
    for remote in ("192.0.2.7", "198.51.100.9"):
        reply = client.get("/v1/suppliers", environ_base={"REMOTE_ADDR": remote}, headers={"X-Forwarded-For": remote})
        assert reply.status_code == (429 if remote == address else 401), remote
