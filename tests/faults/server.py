"""The service as it is really run: gunicorn with its workers, in processes that can be killed."""

import http.client
import json
import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path
from typing import Any, NamedTuple

ROOT = Path(__file__).resolve().parents[2]
STARTED = 30.0


class Reply(NamedTuple):
    """A reply over the wire."""

    status: int
    headers: dict[str, str]
    body: Any


class Server:
    """One server with two workers; its address stays the same when it is started again."""

    def __init__(self, database: str, folder: Path) -> None:
        """Choose a port; nothing is started yet."""
        with socket.socket() as probe:
            probe.bind(("127.0.0.1", 0))
            self.port = int(probe.getsockname()[1])
        self.database = database
        self.log = folder / f"{self.port}.log"
        self._process: subprocess.Popen[bytes] | None = None

    def start(self) -> "Server":
        """Start it by the service's own command and wait until it is ready."""
        own = {name: value for name, value in os.environ.items() if not name.startswith("KITPROOF_")}
        environ = {
            **own,
            "KITPROOF_DATABASE_URL": self.database,
            "KITPROOF_PORT": str(self.port),
            "KITPROOF_WORKERS": "2",
            "KITPROOF_DATABASE_WAIT": "2",
        }
        with self.log.open("ab") as log:
            self._process = subprocess.Popen(
                [sys.executable, "-m", "service", "serve"],
                cwd=ROOT,
                env=environ,
                stdout=log,
                stderr=log,
                start_new_session=True,
            )
        end = time.monotonic() + STARTED
        while not self._ready():
            assert self._process.poll() is None, self.log.read_text()
            assert time.monotonic() < end, self.log.read_text()
            time.sleep(0.05)
        return self

    def _ready(self) -> bool:
        try:
            return self.send("GET", "/readyz").status == 200
        except OSError:
            return False

    def kill(self) -> None:
        """Kill it and all its workers at once, without a word."""
        assert self._process is not None
        os.killpg(self._process.pid, signal.SIGKILL)
        self._process.wait(10)

    def terminate(self) -> None:
        """Ask it to stop."""
        assert self._process is not None
        self._process.send_signal(signal.SIGTERM)

    def wait(self) -> int:
        """Wait until it has stopped and return its exit code."""
        assert self._process is not None
        return self._process.wait(20)

    def remove(self) -> None:
        """Make sure that nothing of it is left."""
        if self._process is not None and self._process.poll() is None:
            self.kill()

    def connect(self) -> http.client.HTTPConnection:
        """Return a connection of a caller's own."""
        return http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)

    def send(self, method: str, path: str, body: Any = None, **headers: str) -> Reply:
        """Send one request over a connection of its own."""
        connection = self.connect()
        try:
            return send(connection, method, path, body, **headers)
        finally:
            connection.close()


def send(connection: http.client.HTTPConnection, method: str, path: str, body: Any = None, **headers: str) -> Reply:
    """Send a request and return its reply; underscores in names of headers stand for hyphens."""
    given = {name.replace("_", "-"): value for name, value in headers.items()}
    if body is not None:
        given["Content-Type"] = "application/json"
    connection.request(method, path, None if body is None else json.dumps(body), given)
    response = connection.getresponse()
    data = response.read()
    kind = response.headers.get_content_type()
    return Reply(response.status, dict(response.headers), json.loads(data) if kind.endswith("json") else data)
