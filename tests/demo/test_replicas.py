"""Two replicas on one PostgreSQL behind the proxy, started by the example's own script with its own files.

Everything goes through the proxy, as callers see it; the logs and counters of the replicas tell which of them did it.
"""

import http.client
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import sysconfig
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing
from pathlib import Path
from typing import Any, NamedTuple

import psycopg
import pytest

from bench.lines import checks
from bench.server import HOST, ROOT, free_port
from service.errors import NotFound, NotReady, RequestError, TooLarge
from service.store.migrate import HEAD
from tests.cluster import programs

CHECK = "/v1/verdict.txt?line=ISO+8734+-+5+x+20+-+A+-+St&bore=5+H7&fit=location"
PLAN: dict[str, Any] = {
    "name": "sampler",
    "needs": [{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}],
    "lines": [{"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 10}],
}
RECEIVED = {"events": [{"event": "received", "line": "L1", "quantity": 1}]}
NDJSON = "application/x-ndjson"


class Reply(NamedTuple):
    """A reply over the wire."""

    status: int
    headers: http.client.HTTPMessage
    body: bytes

    @property
    def json(self) -> Any:
        """The body as JSON."""
        return json.loads(self.body)


class Example:
    """The example as a user starts it, and what it says of itself."""

    def __init__(
        self, python: str = sys.executable, user: str | None = None, environ: Mapping[str, str] | None = None
    ) -> None:
        """Start it on free ports and wait until it says that it is there."""
        self.ports = [free_port() for _ in range(3)]
        outside = {name: value for name, value in os.environ.items() if not name.startswith("KITPROOF_")}
        self.process = subprocess.Popen(
            [python, "-m", "demo.replicas", "--ports", *map(str, self.ports)],
            cwd=ROOT,
            env={
                **outside,
                "KITPROOF_WORKERS": "1",
                "KITPROOF_RATE_LIMIT": "0",
                "PYTHONDONTWRITEBYTECODE": "1",
                **(environ or {}),
            },
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            user=user,
            text=True,
        )
        self.said: list[str] = []
        self._new = threading.Condition()
        self._listener = threading.Thread(target=self._listen, daemon=True)
        self._listener.start()
        self.wait_for("Ctrl-C ends all of them")
        self.token = self.wait_for("token ").split()[-1]
        self.folder = Path(self.wait_for("replica 1 ").split()[-1]).parent
        self.database = self.wait_for("database ").split()[1]

    def _listen(self) -> None:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            with self._new:
                self.said.append(line.rstrip("\n"))
                self._new.notify_all()

    def wait_for(self, start: str, after: int = 0, seconds: float = 60) -> str:
        """Return what it says with this beginning, once it has said it."""
        end = time.monotonic() + seconds
        with self._new:
            while True:
                found = next((line for line in self.said[after:] if line.startswith(start)), None)
                if found is not None:
                    return found
                assert self.process.poll() is None, "\n".join(self.said)
                assert self._new.wait(max(0.0, end - time.monotonic())), "\n".join(self.said)

    def pids(self) -> dict[str, int]:
        """Return the number of each process that is started, the latest where one was started again."""
        found = {}
        for line in self.said:
            match = re.match(r"(replica \d|proxy|database)\b.* process (\d+)", line)
            if match:
                found[match[1]] = int(match[2])
        return found

    def log(self, replica: int) -> list[dict[str, Any]]:
        """Return what a replica logged on requests."""
        lines = (self.folder / f"replica-{replica}.log").read_text("utf-8").splitlines()
        return [json.loads(line) for line in lines if line.startswith("{")]

    def answered_by(self, request_id: str) -> int:
        """Return which replica answered a request."""
        (found,) = [number for number in (1, 2) for one in self.log(number) if one["request_id"] == request_id]
        return found

    def passed(self, request_id: str) -> bool:
        """Tell whether the proxy's log has a request, which it notes once the reply is sent."""
        return f" request={request_id} " in (self.folder / "proxy" / "access.log").read_text("utf-8")

    def send(
        self, method: str, path: str, body: Any = None, *, to: int = 0, form: str = "application/json", **headers: str
    ) -> Reply:
        """Send a request through the proxy, or straight to one replica."""
        data = body if body is None or isinstance(body, bytes) else json.dumps(body).encode()
        given = {name.replace("_", "-"): value for name, value in headers.items()}
        given.setdefault("Authorization", f"Bearer {self.token}")
        if data is not None:
            given["Content-Type"] = form
        with closing(http.client.HTTPConnection(HOST, self.ports[to], timeout=60)) as connection:
            connection.request(method, path, data, given)
            reply = connection.getresponse()
            return Reply(reply.status, reply.headers, reply.read())

    def verdicts(self, replica: int) -> int:
        """Return how many verdicts a replica has given, by its own counters."""
        text = self.send("GET", "/metrics", to=replica).body.decode()
        return int(sum(float(n) for n in re.findall(r"^kitproof_verdicts_total\{.*\} (\S+)$", text, re.MULTILINE)))

    def watch(self, address: str, until: Callable[[dict[str, Any]], bool], seconds: float = 60) -> dict[str, Any]:
        """Return a job once it is so far."""
        end = time.monotonic() + seconds
        while True:
            reply = self.send("GET", address)
            assert reply.status == 200, reply
            if until(reply.json):
                job: dict[str, Any] = reply.json
                return job
            assert time.monotonic() < end, reply.body
            time.sleep(0.05)

    def stop(self) -> int:
        """Tell it to stop, as Ctrl-C and a service manager do, and return its exit code."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGTERM)
        code = self.process.wait(90)
        self._listener.join(10)
        assert self.process.stdout is not None
        self.process.stdout.close()
        return code


def nginx() -> str | None:
    """Return where the proxy's program is."""
    return shutil.which("nginx", path=f"{os.environ.get('PATH', os.defpath)}:/usr/sbin:/usr/local/sbin")


@pytest.fixture(scope="module")
def example() -> Iterator[Example]:
    """The example, started once for this module."""
    if nginx() is None:
        pytest.skip("nginx is not installed (Debian: nginx)")
    if programs() is None:
        pytest.skip("PostgreSQL's server programs (initdb, postgres) are not installed")
    made = Example()
    try:
        yield made
    finally:
        code = made.stop()
    assert code == 0, "\n".join(made.said)


def lines_of(count: int, seed: int = 1) -> bytes:
    """Return that many distinct checks, one a line."""
    return b"".join(json.dumps(check).encode() + b"\n" for check in checks(count, seed))


def numbers(rows: bytes) -> list[int]:
    """Return the number of each row of a result, as it stands there."""
    return [json.loads(row)["number"] for row in rows.splitlines()]


# --- passing on ------------------------------------------------------------------------------------------------------


def test_two_replicas_that_start_at_once_make_the_tables_once(example: Example) -> None:
    """Each brings them to its version first; the second one finds the work done."""
    told = [(example.folder / f"replica-{number}.log").read_text("utf-8").splitlines()[0] for number in (1, 2)]
    assert sorted(told) == [f"the tables are of version {HEAD}", f"the tables are of version {HEAD}; before: none"]


def test_verdicts_come_from_both_replicas(example: Example) -> None:
    """The number of a request stands in its reply and in the log of the replica that answered it."""
    ids = [f"turn-{turn}" for turn in range(12)]
    for number in ids:
        reply = example.send("GET", CHECK, X_Request_Id=number)
        assert (reply.status, reply.body, reply.headers["X-Request-Id"]) == (200, b"fits", number)
    assert {example.answered_by(number) for number in ids} == {1, 2}
    wait_until(lambda: all(example.passed(number) for number in ids), "the proxy's log does not have them all")


def test_a_request_id_that_is_no_plain_word_is_replaced_by_one(example: Example) -> None:
    """The same one at the proxy, at the replica and in the reply."""
    number = example.send("GET", CHECK, X_Request_Id='odd "one"').headers["X-Request-Id"]
    assert re.fullmatch(r"[0-9a-f]{32}", number)
    assert example.answered_by(number) in (1, 2)
    wait_until(lambda: example.passed(number), "the proxy's log does not have it")


def test_who_comes_through_the_proxy_needs_the_token(example: Example) -> None:
    """Though every request comes from this machine; a browser is told to ask for it."""
    with closing(http.client.HTTPConnection(HOST, example.ports[0], timeout=10)) as connection:
        connection.request("GET", "/v1/orders", headers={"Accept": "text/html"})
        reply = connection.getresponse()
        assert reply.status == 401
        assert [value.split()[0] for value in reply.headers.get_all("WWW-Authenticate", [])] == ["Bearer", "Basic"]


def test_what_a_caller_says_of_the_path_is_not_believed(example: Example) -> None:
    """The proxy sets it itself; a replica that is asked straight does not hear of it by its server's own header."""
    assert b'href="/docs"' in example.send("GET", "/", X_Forwarded_Prefix="/elsewhere").body
    connection = http.client.HTTPConnection(HOST, example.ports[1], timeout=10)
    with closing(connection):
        connection.putrequest("GET", "/docs")
        connection.putheader("SCRIPT_NAME", "/elsewhere")
        connection.endheaders()
        assert b'href="/docs"' in connection.getresponse().read()


def test_under_a_path_every_link_form_and_location_leads_through_the_proxy(example: Example) -> None:
    """Followed as a browser does, from the first page on: none leads to anything but a page."""
    assert example.send("GET", "/kitproof").headers["Location"] == "/kitproof/"
    seen: set[str] = set()
    due = ["/kitproof/"]
    while due:
        path = due.pop()
        seen.add(path)
        reply = example.send("GET", path, Accept="text/html")
        assert reply.status == 200, path
        if "text/html" not in reply.headers["Content-Type"] or path.count("/") > 4:
            continue
        leads = re.findall(r'\b(href|action|formaction)="(/[^"#]*)', reply.body.decode())
        assert all(one.startswith("/kitproof/") for _, one in leads), path
        new = {one.replace("&amp;", "&") for name, one in leads if name == "href"} - seen - set(due)
        due += sorted(new)[:4]
    assert len(seen) > 15
    form = b"needs=id%2Cquantity%2Cbore%0AN1%2C6%2C5+H7"
    page = example.send("POST", "/kitproof/order", form, form="application/x-www-form-urlencoded", Accept="text/html")
    assert page.status == 200
    assert b'action="/kitproof/order"' in page.body
    made = example.send("POST", "/kitproof/v1/orders", PLAN)
    assert made.headers["Location"] == f"/kitproof/v1/orders/{made.json['id']}"
    assert example.send("GET", made.headers["Location"]).json["id"] == made.json["id"]


@pytest.mark.parametrize("root", ["", "/kitproof"])
def test_an_address_is_passed_on_as_it_came(example: Example, root: str) -> None:
    """Nothing in it is decoded, joined or cut on the way."""
    assert example.send("GET", f"{root}/v1/suppliers/A%20%26%20B%3F/habits").json["supplier"] == "A & B?"
    line = "%C3%B8" * 500
    assert example.send("GET", f"{root}/v1/reading?line={line}").json["line"] == "ø" * 500


# --- one service -----------------------------------------------------------------------------------------------------


def test_an_order_stored_through_one_replica_is_read_through_the_other(example: Example) -> None:
    """At once, in the same revision."""
    made = example.send("POST", "/v1/orders", PLAN, X_Request_Id="stored-here")
    assert made.status == 201
    other = 3 - example.answered_by("stored-here")
    found = example.send("GET", made.headers["Location"], to=other)
    assert (found.status, found.headers["ETag"], found.json["plan"]["name"]) == (200, '"1"', "sampler")


def test_of_two_changes_of_one_revision_one_is_told_to_look_again(example: Example) -> None:
    """Sent to both replicas at the same time; the order has one new revision."""
    path = example.send("POST", "/v1/orders", PLAN).headers["Location"]
    told: list[int] = []

    def tell(replica: int) -> None:
        told.append(example.send("POST", f"{path}/events", RECEIVED, to=replica, If_Match='"1"').status)

    together(tell, (1, 2))
    assert sorted(told) == [200, 412]
    assert example.send("GET", path).headers["ETag"] == '"2"'


def test_a_key_is_carried_out_once_by_whichever_replica(example: Example) -> None:
    """Sent to both at the same time, and through the proxy afterwards."""
    before = len(example.send("GET", "/v1/orders?limit=1000").json["orders"])
    made: list[Reply] = []
    together(
        lambda replica: made.append(example.send("POST", "/v1/orders", PLAN, to=replica, Idempotency_Key="bags-1")),
        (1, 2, 0, 0),
    )
    assert [one.status for one in made] == [201] * 4
    assert len({one.json["id"] for one in made}) == 1
    assert len(example.send("GET", "/v1/orders?limit=1000").json["orders"]) == before + 1


def together(work: Callable[[int], Any], places: tuple[int, ...]) -> None:
    """Do something at several places at the same time."""
    threads = [threading.Thread(target=work, args=(place,)) for place in places]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert not any(thread.is_alive() for thread in threads)


# --- long bodies -----------------------------------------------------------------------------------------------------


def test_rows_are_judged_while_they_come_in_and_answered_when_all_are_there(example: Example) -> None:
    """The proxy holds nothing back: half an upload is judged while the rest is still to come."""
    rows = lines_of(8_000)
    middle = rows.index(b"\n", len(rows) // 2) + 1
    head = (
        f"POST /v1/verdicts HTTP/1.1\r\nHost: localhost\r\nAuthorization: Bearer {example.token}\r\n"
        f"Content-Type: {NDJSON}\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n"
    )
    given = sum(example.verdicts(replica) for replica in (1, 2))
    with socket.create_connection((HOST, example.ports[0]), timeout=60) as connection:
        connection.sendall(head.encode())
        for start in range(0, middle, 32_768):
            connection.sendall(chunk(rows[start : min(start + 32_768, middle)]))
        end = time.monotonic() + 60
        while sum(example.verdicts(replica) for replica in (1, 2)) < given + 3_500:
            assert time.monotonic() < end, "the rows wait somewhere"
            time.sleep(0.1)
        connection.setblocking(False)
        with pytest.raises(BlockingIOError):
            connection.recv(1)
        connection.settimeout(60)
        connection.sendall(chunk(rows[middle:]) + b"0\r\n\r\n")
        reply = http.client.HTTPResponse(connection)
        reply.begin()
        with closing(reply):
            answered = reply.read()
    assert reply.status == 200
    assert numbers(answered) == list(range(1, 8_001))
    assert len(answered) > 5_000_000


def chunk(data: bytes) -> bytes:
    """Return one chunk of a chunked body."""
    return f"{len(data):x}\r\n".encode() + data + b"\r\n"


def test_the_service_refuses_what_is_too_long_before_the_proxy_does(example: Example) -> None:
    """With its own words; only far beyond its limit the proxy has to."""
    body = b"[" + b" " * 1_500_000 + b"]"
    reply = example.send("POST", "/v1/orders", body)
    assert (reply.status, reply.json["detail"]) == (413, "a JSON body has at most 1048576 bytes")
    require_problem(example.send("POST", "/v1/orders", b" " * 3_000_000), TooLarge)
    rows = b"line\n" + (b"x" * 20_000 + b"\n") * 200
    assert len(rows) > 3_000_000
    reply = example.send("POST", "/v1/jobs", rows, form="text/csv")
    assert reply.status == 202
    assert example.send("DELETE", reply.json["address"]).status == 200
    assert example.send("GET", f"/v1/reading?line={'x' * 9000}").status in (400, 414)


def require_problem(reply: Reply, kind: type[RequestError]) -> None:
    """Hold what the proxy itself says against the one shape of errors."""
    body = kind("").body(reply.headers.get("X-Request-Id", reply.json["request_id"]))
    assert reply.headers["Content-Type"] == "application/problem+json"
    assert reply.json == {**body, **{name: reply.json[name] for name in ("detail", "field", "value", "accepted")}} | {
        "example": reply.json["example"]
    }
    assert reply.status == kind.status
    assert reply.json["detail"]
    assert re.fullmatch(r"[0-9a-f]{32}", reply.json["request_id"])


def test_counters_are_asked_for_at_each_replica(example: Example) -> None:
    """Through the proxy they would be now of this one, now of that one."""
    require_problem(example.send("GET", "/metrics"), NotFound)
    assert all(example.send("GET", "/metrics", to=replica).status == 200 for replica in (1, 2))


def test_a_job_is_worked_by_both_and_no_row_twice(example: Example) -> None:
    """By their counters: each gave verdicts, and together as many as there are rows."""
    rows = lines_of(30_000, seed=2)
    before = {replica: example.verdicts(replica) for replica in (1, 2)}
    made = example.send("POST", "/v1/jobs", rows, form=NDJSON)
    assert made.status == 202
    address = made.headers["Location"]
    example.watch(address, lambda job: job["state"] == "done")
    given = {replica: example.verdicts(replica) - before[replica] for replica in (1, 2)}
    assert all(one > 0 for one in given.values()), given
    assert sum(given.values()) == 30_000, given
    result = example.send("GET", f"{address}/result.ndjson")
    assert numbers(result.body) == list(range(1, 30_001))


# --- a replica fails -------------------------------------------------------------------------------------------------


class Callers:
    """Callers that ask without a pause through the proxy, each over a connection that it keeps; what failed is kept."""

    def __init__(self, example: Example, number: int = 3) -> None:
        """Begin at once."""
        self.answered = 0
        self.failed: list[object] = []
        self.broken: list[http.client.IncompleteRead] = []
        self.number = number
        self.stored: list[str] = []
        self._example = example
        self._stop = threading.Event()
        work = [self._ask] * number + [self._store]
        self._threads = [threading.Thread(target=one) for one in work]
        for thread in self._threads:
            thread.start()

    def _ask(self) -> None:
        headers = {"Authorization": f"Bearer {self._example.token}"}
        with closing(http.client.HTTPConnection(HOST, self._example.ports[0], timeout=60)) as connection:
            while not self._stop.is_set():
                for path in (CHECK, "/v1/orders?limit=1", "/readyz"):
                    try:
                        connection.request("GET", path, headers=headers)
                        reply = connection.getresponse()
                        body = reply.read()
                    except http.client.IncompleteRead as error:
                        self.broken.append(error)  # killed between head and body: the caller sees that, and asks again
                        connection.close()
                        continue
                    except (OSError, http.client.HTTPException) as error:
                        self.failed.append(error)
                        return
                    self.answered += 1
                    time.sleep(0.01)
                    if reply.status != 200:
                        self.failed.append((path, reply.status, body))

    def _store(self) -> None:
        """Store orders, each under a key of its own; one that got no answer is sent again under the same."""
        number = 0
        while not self._stop.is_set():
            number += 1
            for _ in range(10):
                key = f"{id(self)}-{number}"
                reply = self._example.send("POST", "/v1/orders", {**PLAN, "name": key}, Idempotency_Key=key)
                if reply.status == 201:
                    self.stored.append(reply.json["id"])
                    break
                require_problem(reply, NotReady)
                time.sleep(0.2)
            else:
                self.failed.append((key, reply))

    def stop(self) -> None:
        """Let each finish what it is at."""
        self._stop.set()
        for thread in self._threads:
            thread.join(60)
        assert not any(thread.is_alive() for thread in self._threads)


def every_order(example: Example) -> list[Any]:
    """Return all orders that are stored, page by page."""
    found: list[Any] = []
    while True:
        after = f"&after={found[-1]['id']}" if found else ""
        page = example.send("GET", f"/v1/orders?limit=1000{after}").json["orders"]
        found += page
        if len(page) < 1000:
            return found


def test_a_killed_replica_is_stepped_over_and_comes_back(example: Example) -> None:
    """Killed in the midst of a job and of requests: nobody who may ask twice sees it, and the job is done.

    When it is back, the other one is stopped in order, as one does to take in new code.
    """
    made = example.send("POST", "/v1/jobs", lines_of(30_000, seed=3), form=NDJSON)
    address = made.headers["Location"]
    before_all = {order["id"] for order in every_order(example)}
    callers = Callers(example)
    try:
        example.watch(address, lambda job: job["rows_done"] > 0)
        said, killed = len(example.said), example.pids()["replica 1"]
        os.kill(killed, signal.SIGKILL)
        assert example.wait_for("replica 1 ended", said) == f"replica 1 ended (-9), process {killed}"
        before = callers.answered
        example.wait_for("replica 1 started again", said)
        logged = len(example.log(1))
        wait_until(lambda: len(example.log(1)) > logged + 20, "the replica gets no requests again")
        assert callers.answered > before + 20
        assert example.pids()["replica 1"] != killed
        wait_until(lambda: left(example) <= 1, "the other replica does not go on with the job")
        # What the killed one had begun is free after a minute, and found by a replica that starts; here at once.
        with psycopg.connect(example.database, autocommit=True) as connection:
            connection.execute("UPDATE job_chunk SET taken_until = now() WHERE verdict IS NULL")
        restart(example, 2)
    finally:
        callers.stop()
    assert callers.failed == []
    assert len(callers.broken) <= callers.number
    assert len(callers.stored) == len(set(callers.stored))
    assert {order["id"] for order in every_order(example)} == before_all | set(callers.stored)
    done = example.watch(address, lambda job: job["state"] == "done")
    assert (done["rows_done"], done["rows_total"]) == (30_000, 30_000)
    assert numbers(example.send("GET", f"{address}/result.ndjson").body) == list(range(1, 30_001))


def left(example: Example) -> int:
    """Return how many chunks of jobs nobody has worked yet."""
    with psycopg.connect(example.database) as connection:
        found = connection.execute("SELECT count(*) FROM job_chunk WHERE verdict IS NULL").fetchone()
    assert found is not None
    return int(found[0])


def restart(example: Example, replica: int) -> None:
    """Stop a replica in order, and wait until it answers again."""
    said, old = len(example.said), example.pids()[f"replica {replica}"]
    os.kill(old, signal.SIGTERM)
    assert example.wait_for(f"replica {replica} ended", said) == f"replica {replica} ended (0), process {old}"
    example.wait_for(f"replica {replica} started again", said)
    wait_until(lambda: ready(example, replica), f"replica {replica} does not answer again")


def ready(example: Example, replica: int) -> bool:
    """Tell whether a replica answers."""
    try:
        return example.send("GET", "/readyz", to=replica).status == 200
    except OSError:
        return False


def wait_until(so_far: Callable[[], bool], otherwise: str, seconds: float = 60) -> None:
    """Wait for something that has to come about."""
    end = time.monotonic() + seconds
    while not so_far():
        assert time.monotonic() < end, otherwise
        time.sleep(0.1)


def sessions() -> list[list[tuple[str, str]]]:
    """Return the worked sessions of the operator's guide: commands, each with what stands below it."""
    text = (ROOT / "docs" / "operator.md").read_text("utf-8")
    blocks = re.findall(r"^```shell-session\n(.*?)^```", text, re.MULTILINE | re.DOTALL)
    parts = [re.split(r"^\$ ", block, flags=re.MULTILINE)[1:] for block in blocks]
    return [[(part.partition("\n")[0], part.partition("\n")[2]) for part in block] for block in parts]


@pytest.mark.parametrize("session", sessions(), ids=lambda session: session[0][0][:40])
def test_the_guide_works_as_it_is_written(example: Example, session: list[tuple[str, str]]) -> None:
    """Word for word; only the ports are others."""
    folder = programs()
    assert folder is not None
    pids = example.pids()
    environ = {
        **os.environ,
        "PATH": os.pathsep.join((str(Path(sys.executable).parent), os.environ["PATH"], str(folder))),
        "TOKEN": example.token,
        "FOLDER": str(example.folder),
        "DATABASE": example.database,
        "FIRST": str(pids["replica 1"]),
        "SECOND": str(pids["replica 2"]),
    }
    for command, expected in session:
        for written, port in zip((8380, 8391, 8392), example.ports, strict=True):
            command = command.replace(f":{written}/", f":{port}/")
        done = subprocess.run(
            ["bash", "-o", "pipefail", "-c", command],
            cwd=ROOT,
            env=environ,
            capture_output=True,
            text=True,
            check=False,
        )
        assert [line.rstrip() for line in done.stdout.splitlines()] == expected.splitlines(), (command, done.stderr)
        assert done.returncode == 0, done.stderr
        # Nobody types faster; the proxy notes a request once its reply is sent.
        time.sleep(0.2)
    wait_until(lambda: all(ready(example, replica) for replica in (1, 2)), "the replicas do not come back")


def test_a_replica_that_is_taken_out_gets_no_requests(example: Example) -> None:
    """As one does before it is stopped so that not even a POST is lost; the proxy reads its file again."""
    places = example.folder / "proxy" / "places.conf"
    before = places.read_text("utf-8")
    address = f"{HOST}:{example.ports[2]}"
    places.write_text(before.replace(f"server {address}", f"server {address} down"), "utf-8")
    try:
        os.kill(example.pids()["proxy"], signal.SIGHUP)
        wait_until(lambda: {asked(example) for _ in range(6)} == {1}, "the replica is still asked")
    finally:
        places.write_text(before, "utf-8")
        os.kill(example.pids()["proxy"], signal.SIGHUP)
    wait_until(lambda: {asked(example) for _ in range(6)} == {1, 2}, "the replica is not asked again")


def asked(example: Example) -> int:
    """Ask for a verdict and return which replica gave it."""
    return example.answered_by(example.send("GET", CHECK).headers["X-Request-Id"])


# --- start and stop --------------------------------------------------------------------------------------------------


PATHS = os.pathsep.join((str(ROOT), sysconfig.get_path("purelib")))


def without_rights() -> tuple[str, str | None]:
    """Return a Python, and a user without rights who can start with it what this is made of; None for whoever this is.

    Root's own folders may be closed to others.
    """
    for python in (sys.executable, f"/usr/bin/python3.{sys.version_info.minor}"):
        if os.getuid() != 0:
            break
        tried = subprocess.run(
            ["sh", "-c", 'exec "$0" -c "import psycopg, orjson, service.config, demo.replicas"', python],
            cwd="/",
            env={**os.environ, "PYTHONPATH": PATHS},
            user="nobody",
            capture_output=True,
            check=False,
        )
        if tried.returncode == 0:
            return python, "nobody"
    return sys.executable, None


def test_stopping_it_ends_what_it_started_and_nothing_else(example: Example) -> None:
    """Another one beside it goes on; no process, no file is left. Where this is root, a user without rights runs it."""
    python, user = without_rights()
    other = Example(python, user, {"PYTHONPATH": PATHS})
    try:
        assert other.send("GET", CHECK).body == b"fits"
        pids, folder = other.pids(), other.folder
        assert set(pids) == {"replica 1", "replica 2", "proxy", "database"}
        assert len(list(folder.iterdir())) >= 7
    finally:
        code = other.stop()
    assert code == 0, other.said
    assert not folder.exists()
    for pid in pids.values():
        with pytest.raises(ProcessLookupError):
            os.killpg(pid, 0)
    assert example.send("GET", CHECK).body == b"fits"
    assert all(ready(example, replica) for replica in (1, 2))


def test_a_port_that_is_in_use_is_told_and_nothing_is_left(example: Example) -> None:
    """Before anything is started."""
    before = set(Path(example.folder.parent).glob("kitproof-replicas-*"))
    told = subprocess.run(
        [sys.executable, "-m", "demo.replicas", "--ports", str(example.ports[0]), "1024", "1025"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert told.returncode == 1
    assert f"error: port {example.ports[0]} of 127.0.0.1 cannot be used" in told.stderr
    assert "Traceback" not in told.stderr
    assert set(Path(example.folder.parent).glob("kitproof-replicas-*")) == before
