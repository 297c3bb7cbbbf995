"""``demo/scripts``: an order goes out only where every line of it fits, and the proof itself can be relied on."""

import json
import subprocess
import threading
from collections.abc import Callable, Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

Run = Callable[..., subprocess.CompletedProcess[str]]

SEND = ("touch", "sent")


def test_an_order_that_fits_is_sent(run: Run, folder: Path) -> None:
    """The command gets its arguments, and its status is passed on."""
    done = run("./order.sh", "order.csv", *SEND)
    assert (done.returncode, done.stdout) == (0, "3 checked: 3 fits\n"), done.stderr
    assert (folder / "sent").exists()
    assert run("./order.sh", "order.csv", "sh", "-c", "exit 7").returncode == 7


def test_an_order_that_does_not_fit_is_not_sent(run: Run, folder: Path) -> None:
    """Each line that does not is named as a compiler would, with what to order instead."""
    done = run("./order.sh", "draft.csv", *SEND)
    assert done.returncode == 1
    assert not (folder / "sent").exists()
    lines = done.stdout.splitlines()
    assert lines[0].startswith("draft.csv:2: error: ask: M5 dowel pin: ")
    assert "draft.csv:2: note: order instead: Parallel pin ISO 8734 - 5 x <length> - A - St" in lines
    assert lines[-1].startswith("3 checked: ")


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("order.ndjson", '{"line": "ISO 8734 - 5 x 20 - A - St", "bore": "5 H7", "fit": "location"}\n'),
        ("order.json", '[{"line": "ISO 8734 - 5 x 20 - A - St", "bore": "5 H7", "fit": "location"}]'),
        ("last order.csv", "line;bore;fit\r\nISO 8734 - 5 x 20 - A - St;5 H7;location\r\n"),
    ],
)
def test_other_files_are_read(run: Run, folder: Path, name: str, content: str) -> None:
    """By their suffix; a blank in the name, semicolons and the ends of lines from elsewhere do no harm."""
    (folder / name).write_text(content, "utf-8", newline="")
    done = run("./order.sh", name, *SEND)
    assert (done.returncode, done.stdout) == (0, "1 checked: 1 fits\n"), done.stderr
    assert (folder / "sent").exists()


WHOLE = {
    "needs": [{"id": "N1", "description": "index pins", "quantity": 2, "bore": "5 H7", "fit": "location"}],
    "lines": [{"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 2}],
}


@pytest.mark.parametrize(("quantity", "status"), [(2, 0), (1, 1)])
def test_a_whole_order_is_sent_only_if_it_is_ready(run: Run, folder: Path, quantity: int, status: int) -> None:
    """Enough of what fits for every need."""
    order = {**WHOLE, "lines": [{**WHOLE["lines"][0], "quantity": quantity}]}
    (folder / "whole.json").write_text(json.dumps(order), "utf-8")
    done = run("./order.sh", "-w", "whole.json", *SEND)
    assert done.returncode == status, done.stderr
    assert (folder / "sent").exists() == (status == 0)
    assert ("whole.json: error: short: 2 need N1 index pins: " in done.stdout) == (status == 1)


@pytest.mark.parametrize(
    "words", [(), ("missing.csv",), ("empty.csv",), ("order.txt",), ("-x", "order.csv"), ("-r",)], ids=" ".join
)
def test_wrong_use_is_said(run: Run, folder: Path, words: tuple[str, ...]) -> None:
    """curl would only warn of a file that is missing, and post nothing."""
    (folder / "empty.csv").touch()
    (folder / "order.txt").write_text("M5 dowel pin\n", "utf-8")
    done = run("./order.sh", *words)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("order.sh: ") or "usage" in done.stderr


@pytest.mark.parametrize(
    ("content", "said"),
    [("line,boer\nM5 dowel pin,5 H7\n", "boer"), ("line,bore\n", "no check"), ("\n\n", "empty")],
)
def test_a_file_that_cannot_be_read_is_no_proof(run: Run, folder: Path, content: str, said: str) -> None:
    """The error of the service is shown."""
    (folder / "bad.csv").write_text(content, "utf-8")
    done = run("./order.sh", "bad.csv", *SEND)
    assert done.returncode == 3
    assert said in done.stderr
    assert not (folder / "sent").exists()


class Liar(ThreadingHTTPServer):
    """Some other service, or ours behind something that spoils it: answers every POST as it is told."""

    status = 200
    headers: tuple[tuple[str, str], ...] = ()
    body = b"fits"


class _Handler(BaseHTTPRequestHandler):
    server: Liar

    def do_POST(self) -> None:
        """Answer."""
        self.rfile.read(int(self.headers["Content-Length"]))
        self.send_response(self.server.status)
        for name, value in self.server.headers:
            self.send_header(name, value)
        self.end_headers()
        self.wfile.write(self.server.body)

    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture
def liar() -> Iterator[Liar]:
    """Some other service."""
    with Liar(("127.0.0.1", 0), _Handler) as server:
        thread = threading.Thread(target=server.serve_forever, args=(0.02,))
        thread.start()
        yield server
        server.shutdown()
        thread.join()


@pytest.mark.parametrize(
    ("status", "headers", "body"),
    [
        (200, (), b"fits"),
        (200, (("X-Verdict", "ask"),), b""),
        (200, (("X-Verdict", "fits"), ("Content-Length", "100")), b"short"),
        (201, (("X-Verdict", "fits"),), b""),
        (302, (("X-Verdict", "fits"), ("Location", "/")), b""),
        (409, (), b""),
        (409, (("X-Verdict", "fits"),), b""),
        (503, (("X-Verdict", "fits"),), b""),
    ],
    ids=["no verdict", "no gate", "cut off", "201", "redirect", "409 alone", "409 that fits", "503"],
)
def test_an_answer_that_is_no_proof_stops_the_order(
    run: Run, folder: Path, liar: Liar, status: int, headers: tuple[tuple[str, str], ...], body: bytes
) -> None:
    """Status, header and end of transfer all have to say so."""
    liar.status, liar.headers, liar.body = status, headers, body
    done = run("./order.sh", "order.csv", *SEND, url=f"http://127.0.0.1:{liar.server_port}")
    assert done.returncode == 3
    assert "was not checked" in done.stderr
    assert not (folder / "sent").exists()


def test_no_answer_is_no_proof(run: Run, folder: Path) -> None:
    """Also, the report of an earlier run is gone."""
    (folder / "order.xml").write_text("<old/>", "utf-8")
    done = run("./order.sh", "-r", "order.xml", "order.csv", *SEND, url="http://127.0.0.1:9")
    assert done.returncode == 3
    assert not (folder / "sent").exists()
    assert not (folder / "order.xml").exists()


class TestMake:
    """The Makefile: a stamp that is newer than the order, or none."""

    def test_an_order_is_checked_once_and_sent(self, run: Run, folder: Path) -> None:
        """Checked again only after a change."""
        first = run("make", "sent")
        assert (first.returncode, "sending order.csv" in first.stdout) == (0, True), first.stderr
        assert (folder / "order.csv.checked").read_text("utf-8") == "3 checked: 3 fits\n"
        again = run("make", "sent")
        assert (again.returncode, "order.sh" in again.stdout) == (0, False)

    @pytest.mark.parametrize("url", [None, "http://127.0.0.1:9"], ids=["wrong line", "no service"])
    def test_without_a_proof_there_is_no_stamp_and_nothing_is_sent(
        self, run: Run, folder: Path, url: str | None
    ) -> None:
        """Neither a bad order nor a service that is down leaves one."""
        done = run("make", "sent", "ORDER=draft.csv", **({"url": url} if url else {}))
        assert done.returncode == 2
        assert "sending" not in done.stdout
        assert not (folder / "draft.csv.checked").exists()
        assert ("draft.csv:2: error: ask" in done.stdout) == (url is None)
