"""Servers are killed, stopped and doubled under load: what was acknowledged is there, nothing is there by half."""

import http.client
import json
import random
import threading
import time
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import func, select

from service.store import orders, replies
from service.store.model import Check, Order, Revision
from service.store.store import Store
from tests.cluster import Cluster
from tests.faults.conftest import Start
from tests.faults.server import Reply, Server, send

LINE = {"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 1000}
PLAN: dict[str, Any] = {"needs": [{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}], "lines": [LINE]}
BROKEN = (OSError, http.client.HTTPException, ValueError)
"""What a caller sees of a server that is killed: no connection, no reply, or half of one."""


class Writers:
    """Callers that store orders and tell events until they are stopped, and remember what was acknowledged."""

    def __init__(self, server: Server, number: int) -> None:
        """Begin at once."""
        self.made: dict[str, str] = {}
        self.told: dict[str, int] = {}
        self.unknown: list[tuple[str, str]] = []
        self.odd: list[Reply] = []
        self._server = server
        self._stop = threading.Event()
        self._threads = [threading.Thread(target=self._write, args=(place,)) for place in range(number)]
        for thread in self._threads:
            thread.start()

    def _write(self, place: int) -> None:
        with closing(self._server.connect()) as connection:
            self._write_over(connection, place)

    def _write_over(self, connection: http.client.HTTPConnection, place: int) -> None:
        number = 0
        while not self._stop.is_set():
            number += 1
            name = f"{place}-{number}"
            key = f"{self._server.port}-{name}-{random.getrandbits(64)}"
            try:
                made = send(connection, "POST", "/v1/orders", {**PLAN, "name": name}, Idempotency_Key=key)
                if made.status != 201:
                    self.odd.append(made)
                    return
                path = made.headers["Location"]
                self.made[path], self.told[path] = name, 0
                for revision in (1, 2):
                    events = {"events": [{"event": "received", "line": "L1", "quantity": 1}] * 2}
                    told = send(connection, "POST", f"{path}/events", events, If_Match=f'"{revision}"')
                    if told.status != 200:
                        self.odd.append(told)
                        return
                    self.told[path] += 2
            except BROKEN:
                self.unknown.append((name, key))
                return

    def wait_for(self, requests: int) -> None:
        """Wait until so many requests were acknowledged."""
        end = time.monotonic() + 60
        while len(self.made) + sum(self.told.values()) // 2 < requests:
            assert time.monotonic() < end, self.odd
            time.sleep(0.01)

    def stop(self) -> None:
        """Let each finish what it is at."""
        self._stop.set()
        for thread in self._threads:
            thread.join(30)


def require_whole(store: Store) -> None:
    """Hold everything in a store against what an order is: no revision without an order, no order without its proof."""
    with store.read() as session:
        for order in session.execute(select(Order)).scalars():
            numbers = session.execute(select(Revision.number).where(Revision.order_id == order.id)).scalars().all()
            assert sorted(numbers) == list(range(1, order.revision + 1))
            stored = orders.find(session, order.owner, order.id)
            assert stored is not None
            assert stored.plan["lines"] == [LINE]
            assert [entry.number for entry in stored.log] == list(range(1, len(stored.log) + 1))
            assert len(stored.log) == 2 * (order.revision - 1), "the entries of one request are there or not"
            last = orders.last_check(session, order.id)
            assert last is not None
            assert last.revision == order.revision
            assert orders.verdicts(session, order.id)["line", "L1"] == "fits"
        ownerless = select(func.count()).select_from(Revision).where(Revision.order_id.not_in(select(Order.id)))
        assert session.execute(ownerless).scalar_one() == 0
        assert session.execute(select(func.count()).select_from(Check).where(Check.number < 1)).scalar_one() == 0


def test_what_was_acknowledged_survives_a_kill(start: Start, emptied: str) -> None:
    """The server and all its workers are killed in the midst of writing."""
    server = start(emptied)
    made: dict[str, str] = {}
    told: dict[str, int] = {}
    unknown: list[tuple[str, str]] = []
    for _ in range(2 if emptied.startswith("sqlite") else 1):
        writers = Writers(server, 4)
        writers.wait_for(12)
        time.sleep(random.random() * 0.05)  # noqa: S311 - only the moment of the kill
        server.kill()
        writers.stop()
        assert writers.odd == []
        assert len(writers.unknown) == 4, "every caller was at work when it happened"
        made |= writers.made
        told |= writers.told
        unknown += writers.unknown
        server.start()
    assert len(made) + sum(told.values()) // 2 >= 12
    for path, name in made.items():
        found = server.send("GET", path)
        assert (found.status, found.body["plan"]["name"]) == (200, name)
        # One more request may have been carried out whose reply never came.
        assert len(found.body["log"]) in (told[path], told[path] + 2)
    store = Store(emptied)
    require_whole(store)
    # Whoever got no reply sends the same again: it is carried out once, now or then.
    for name, key in unknown:
        before = _count(store)
        known = _kept(store, key)
        again = server.send("POST", "/v1/orders", {**PLAN, "name": name}, Idempotency_Key=key)
        assert again.status == 201
        assert _count(store) == before + (0 if known else 1)
    require_whole(store)
    store.engine.dispose()


def _count(store: Store) -> int:
    with store.read() as session:
        return orders.count(session, "local")


def _kept(store: Store, key: str) -> bool:
    with store.read() as session:
        return replies.find(session, "local", key) is not None


def test_a_stop_lets_running_requests_finish(start: Start, tmp_path: Path) -> None:
    """One whose body is still on its way is answered; new connections are not taken; the exit code is 0."""
    server = start(f"sqlite:///{tmp_path / 'a.sqlite3'}")
    body = json.dumps({**PLAN, "name": "slow"}).encode()
    connection = server.connect()
    connection.putrequest("POST", "/v1/orders")
    connection.putheader("Content-Type", "application/json")
    connection.putheader("Content-Length", str(len(body)))
    connection.endheaders(body[:40])
    time.sleep(0.3)
    server.terminate()
    time.sleep(0.7)
    connection.send(body[40:])
    reply = connection.getresponse()
    assert reply.status == 201
    path = reply.headers["Location"]
    reply.read()
    connection.close()
    assert server.wait() == 0
    with pytest.raises(OSError):
        server.send("GET", "/healthz")
    server.start()
    assert server.send("GET", path).body["plan"]["name"] == "slow"


def test_two_servers_on_one_database_behave_as_one(start: Start, emptied_server: str) -> None:
    """Two processes of two workers each: a revision is taken once, a key is carried out once, each sees all."""
    servers = [start(emptied_server), start(emptied_server)]
    path = servers[0].send("POST", "/v1/orders", {**PLAN, "name": "shared"}).headers["Location"]
    assert servers[1].send("GET", path).headers["ETag"] == '"1"'
    won: list[int] = []
    lost: list[int] = []

    def write(place: int) -> None:
        connection = servers[place % 2].connect()
        for _ in range(4):
            while True:
                tag = send(connection, "GET", path).headers["ETag"]
                events = {"events": [{"event": "received", "line": "L1", "quantity": 1}] * 2}
                reply = send(connection, "POST", f"{path}/events", events, If_Match=tag)
                assert reply.status in (200, 412), reply.body
                if reply.status == 200:
                    won.append(int(reply.headers["ETag"].strip('"')))
                    break
                lost.append(place)
        connection.close()

    _together(write, 4)
    assert sorted(won) == list(range(2, 18)), "each revision was made by one caller"
    assert lost, "they met"
    for server in servers:
        assert server.send("GET", path).body["revision"] == 17
    keyed: list[Reply] = []

    def make(place: int) -> None:
        keyed.append(servers[place % 2].send("POST", "/v1/orders", {**PLAN, "name": "once"}, Idempotency_Key="k"))

    _together(make, 6)
    assert [reply.status for reply in keyed] == [201] * 6
    assert len({reply.body["id"] for reply in keyed}) == 1
    store = Store(emptied_server)
    require_whole(store)
    assert _count(store) == 2
    store.engine.dispose()


def _together(work: Any, number: int) -> None:
    threads = [threading.Thread(target=work, args=(place,)) for place in range(number)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert not any(thread.is_alive() for thread in threads)


def test_a_lost_database_server_is_told_and_comes_back(start: Start, emptied_server: str, cluster: Cluster) -> None:
    """In the meantime everything that needs no store goes on; the service is not restarted."""
    server = start(emptied_server)
    path = server.send("POST", "/v1/orders", PLAN).headers["Location"]
    check = "/v1/verdict.txt?line=ISO+8734+-+5+x+20+-+A+-+St&bore=5+H7&fit=location"
    try:
        cluster.stop()
        for method, where, body in (("GET", path, None), ("POST", "/v1/orders", PLAN), ("GET", "/readyz", None)) * 2:
            reply = server.send(method, where, body)
            assert (reply.status, reply.headers["Content-Type"]) == (503, "application/problem+json")
            assert int(reply.headers["Retry-After"]) > 0
            assert reply.body["type"] == "/docs#not-ready"
            assert "psycopg" not in str(reply.body)
        assert server.send("GET", check).body == b"fits"
        assert server.send("GET", "/healthz").status == 200
    finally:
        cluster.start()
    assert server.send("GET", path).status == 200
    assert server.send("POST", "/v1/orders", PLAN).status == 201
    assert server.send("GET", "/readyz").status == 200
    # A restart that nobody noticed leaves dead connections: none of them is handed to a request.
    cluster.stop()
    cluster.start()
    assert {server.send("GET", path).status for _ in range(8)} == {200}
