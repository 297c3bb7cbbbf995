"""A small load client: kept-alive connections on plain sockets, several processes, no more parsing than needed."""

import multiprocessing
import socket
import time
from collections.abc import Sequence
from types import TracebackType

Target = tuple[str, int]


class Connection:
    """One kept-alive connection."""

    def __init__(self, host: str, port: int) -> None:
        """Connect; OSError where nothing listens."""
        self._socket = socket.create_connection((host, port), timeout=120)
        self._socket.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        self._rest = b""

    def __enter__(self) -> "Connection":
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._socket.close()

    def send(self, request: bytes) -> None:
        """Send a whole request."""
        self._socket.sendall(request)

    def receive(self) -> tuple[int, bytes]:
        """Return status and body of the next reply, which has to declare its length."""
        data = self._rest
        while (end := data.find(b"\r\n\r\n")) < 0:
            data += self._more()
        head = data[:end].lower()
        start = head.index(b"content-length:") + 15
        length = int(head[start:].split(b"\r\n", 1)[0])
        body = bytearray(data[end + 4 :])
        while len(body) < length:
            body += self._more()
        self._rest = bytes(body[length:])
        return int(head.split(b" ", 2)[1]), bytes(body[:length])

    def _more(self) -> bytes:
        chunk = self._socket.recv(256 * 1024)
        if not chunk:
            raise ConnectionResetError("the server closed the connection")
        return chunk

    def get(self, path: str) -> tuple[int, bytes]:
        """Send a GET and return its reply."""
        self.send(get_request(path))
        return self.receive()


def get_request(path: str) -> bytes:
    """Return a GET as bytes."""
    return f"GET {path} HTTP/1.1\r\nHost: localhost\r\nAccept: */*\r\n\r\n".encode()


def post_request(path: str, content_type: str, body: bytes) -> bytes:
    """Return a POST as bytes."""
    head = (
        f"POST {path} HTTP/1.1\r\nHost: localhost\r\nAccept: */*\r\n"
        f"Content-Type: {content_type}\r\nContent-Length: {len(body)}\r\n\r\n"
    )
    return head.encode() + body


def _drive(target: Target, requests: Sequence[bytes], connections: int, seconds: float, results: object) -> None:
    """Keep a few connections busy with the requests in turn, and put how many were answered, and how many with 200."""
    opened = [Connection(*target) for _ in range(connections)]
    answered = good = turn = 0
    until = time.perf_counter() + seconds
    while time.perf_counter() < until:
        for connection in opened:
            connection.send(requests[turn % len(requests)])
            turn += 1
        for connection in opened:
            status, _ = connection.receive()
            answered += 1
            good += status == 200
    for connection in opened:
        connection.__exit__(None, None, None)
    results.put((answered, good))  # type: ignore[attr-defined]


def load(target: Target, requests: Sequence[bytes], seconds: float, processes: int = 2, connections: int = 4) -> int:
    """Return how many requests were answered; every one has to be answered by 200.

    Each process begins at another place of the list, so that distinct requests stay distinct.
    """
    context = multiprocessing.get_context("fork")
    results = context.SimpleQueue()
    share = len(requests) // processes or 1
    drivers = []
    for place in range(processes):
        own = requests[place * share :] + requests[: place * share] if len(requests) > 1 else requests
        drivers.append(context.Process(target=_drive, args=(target, own, connections, seconds, results)))
    for driver in drivers:
        driver.start()
    counts = [results.get() for _ in drivers]
    for driver in drivers:
        driver.join()
    answered, good = (sum(column) for column in zip(*counts, strict=True))
    assert good == answered, f"{answered - good} of {answered} requests were not answered by 200"
    return answered
