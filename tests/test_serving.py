"""The service under its real server: long uploads, broken ones, and clients that read only when they have sent all."""

import json
import socket
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import quote

import pytest

from bench.client import Connection, get_request, post_request
from bench.server import HOST, Server

CHECK = json.dumps({"line": "ISO 8734 - 5 x 20 - A - St", "bore": "5 H7", "fit": "location"}).encode() + b"\n"
HEAD = b"POST /v1/verdicts HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/x-ndjson\r\n"


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """The service as ``make run`` starts it, from an empty folder, on a free port."""
    folder: Path = tmp_path_factory.mktemp("serving")
    with Server("service.wsgi:app", "/readyz", folder, {"KITPROOF_WORKERS": "1"}) as running:
        yield running


@pytest.fixture
def connection(server: Server) -> Iterator[Connection]:
    """A connection to the service."""
    with Connection(HOST, server.port) as opened:
        yield opened


def chunk(data: bytes) -> bytes:
    """Return one chunk of a chunked body."""
    return f"{len(data):x}\r\n".encode() + data + b"\r\n"


def test_a_client_that_sends_everything_first_is_served(connection: Connection) -> None:
    """Far more comes back than the buffers between the two can hold."""
    connection.send(post_request("/v1/verdicts", "application/x-ndjson", CHECK * 8000))
    status, body = connection.receive()
    assert status == 200
    assert len(body) > 10_000_000
    assert body.count(b"\n") == 8000


def test_a_body_of_unknown_length_is_read_in_chunks(connection: Connection) -> None:
    """A line may lie across chunks; the connection goes on afterwards."""
    parts = [CHECK[:10], CHECK[10:] + CHECK[:3], CHECK[3:]]
    connection.send(HEAD + b"Transfer-Encoding: chunked\r\n\r\n" + b"".join(map(chunk, parts)) + b"0\r\n\r\n")
    status, body = connection.receive()
    assert (status, body.count(b'"verdict":"fits","line"')) == (200, 2)
    assert connection.get("/healthz")[0] == 200


def test_a_chunk_that_is_none_is_malformed(connection: Connection) -> None:
    """It is the client's fault, and said so."""
    connection.send(HEAD + b"Transfer-Encoding: chunked\r\n\r\n" + chunk(CHECK) + b"nonsense\r\n")
    status, body = connection.receive()
    assert (status, json.loads(body)["type"]) == (400, "/docs#malformed")


def test_an_upload_that_breaks_off_harms_nobody(server: Server) -> None:
    """Whoever comes next is served."""
    for _ in range(6):
        with socket.create_connection((HOST, server.port)) as broken:
            broken.sendall(HEAD + b"Content-Length: 100000\r\n\r\n" + CHECK)
    with Connection(HOST, server.port) as connection:
        assert connection.get("/healthz")[0] == 200


def test_a_body_that_is_not_read_does_not_spoil_the_connection(connection: Connection) -> None:
    """The error comes before the body was looked at; the next request is understood all the same."""
    connection.send(post_request("/v1/verdicts", "application/json", b"[" + b" " * 2_000_000 + b"]"))
    assert connection.receive()[0] == 413
    connection.send(post_request("/v1/verdicts", "text/plain", CHECK * 1000))
    assert connection.receive()[0] == 415
    assert connection.get("/healthz")[0] == 200


def test_a_line_of_500_letters_outside_ascii_fits_into_an_address(connection: Connection) -> None:
    """Each takes six characters there."""
    assert connection.get(f"/v1/reading?line={quote('ø' * 500)}")[0] == 200


def test_requests_in_a_row_are_answered_in_order(connection: Connection) -> None:
    """Sent at once, on one connection."""
    connection.send(get_request("/healthz.txt") + get_request("/v1/fits.txt?size=25&hole=H8&shaft=f7"))
    assert [connection.receive()[1] for _ in range(2)] == [b"ok", b"clearance"]
