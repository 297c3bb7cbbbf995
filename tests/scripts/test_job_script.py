"""``demo/scripts/job.sh``: a long file is sent as a job, waited for, gated and reported."""

import json
import os
import signal
import subprocess
import time
import urllib.request
from collections.abc import Callable, Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any, ClassVar

import pytest
from junitparser import JUnitXml

from bench.lines import checks

Run = Callable[..., subprocess.CompletedProcess[str]]


def jobs_at(address: str) -> list[dict[str, Any]]:
    """Return the jobs of a service."""
    with urllib.request.urlopen(f"{address}/v1/jobs", timeout=10) as reply:  # noqa: S310 - our own
        found: list[dict[str, Any]] = json.load(reply)["jobs"]
    return found


def test_a_file_that_fits_passes_and_leaves_no_job(run: Run, address: str) -> None:
    """With the report on standard output; the file by its name."""
    done = run("./job.sh", "order.csv")
    assert (done.returncode, done.stdout, done.stderr) == (0, "3 checked: 3 fits\n", "")
    assert jobs_at(address) == []


def test_a_file_that_does_not_fit_fails_with_its_report(run: Run, folder: Path, address: str) -> None:
    """As JUnit XML, the same cases as those of a batch."""
    done = run("./job.sh", "-r", "report.xml", "draft.csv")
    assert (done.returncode, done.stdout) == (1, "draft.csv: wrong\n"), done.stderr
    report = JUnitXml.fromfile(str(folder / "report.xml"))
    assert (report.tests, report.failures) == (3, 2)
    again = run("./order.sh", "-r", "same.xml", "draft.csv")
    assert again.returncode == 1
    assert (folder / "same.xml").read_bytes() == (folder / "report.xml").read_bytes()
    assert jobs_at(address) == []


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        ((), 2, "usage"),
        (("order.csv", "draft.csv"), 2, "usage"),
        (("-x", "order.csv"), 2, "usage"),
        (("missing.csv",), 2, "missing.csv is missing or empty"),
        (("order.sh",), 2, ".csv or .ndjson is read"),
        (("heading.csv",), 3, "error: boer: 'boer' is no field here"),
    ],
)
def test_what_is_no_job_fails_without_a_report(
    run: Run, folder: Path, words: tuple[str, ...], status: int, said: str
) -> None:
    """It says why; the report of an earlier run is not left for that of this one."""
    (folder / "heading.csv").write_text("line,boer\nM5 dowel pin,5 H7\n", "utf-8")
    (folder / "report.xml").write_text("of an earlier run", "utf-8")
    done = run("./job.sh", "-r", "report.xml", *words)
    assert done.returncode == status
    assert said in done.stderr
    assert status == 2 or not (folder / "report.xml").exists()


def test_a_service_that_is_down_proves_nothing(run: Run) -> None:
    """Exit status 3."""
    assert run("./job.sh", "order.csv", url="http://127.0.0.1:9").returncode == 3


def test_whoever_interrupts_it_cancels_the_job(folder: Path, address: str) -> None:
    """So that no rows are worked that nobody waits for."""
    rows = "".join(json.dumps(check) + "\n" for check in checks(30_000))
    (folder / "long.ndjson").write_text(rows, "utf-8")
    script = subprocess.Popen(
        ["./job.sh", "long.ndjson"],
        cwd=folder,
        env={**os.environ, "KITPROOF_URL": address},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
    )
    try:
        job = None
        for _ in range(600):
            job = next((one for one in jobs_at(address) if one["file"] == "long.ndjson"), None)
            if job is not None and job["state"] == "running":
                break
            time.sleep(0.05)
        assert job is not None
        assert job["state"] == "running"
        # The script learns the id in the moment in which the rows are all there.
        time.sleep(1)
    finally:
        script.send_signal(signal.SIGTERM)
        _, said = script.communicate(timeout=30)
    assert script.returncode == 3, said
    with urllib.request.urlopen(address + job["address"], timeout=10) as reply:  # noqa: S310 - our own
        cancelled = json.load(reply)
    assert (cancelled["state"], cancelled["rows_total"]) == ("cancelled", 30_000)
    assert cancelled["rows_done"] < 30_000
    with urllib.request.urlopen(urllib.request.Request(address + job["address"], method="DELETE"), timeout=10) as reply:  # noqa: S310 - our own
        assert json.load(reply)["state"] == "deleted"


class Elsewhere(BaseHTTPRequestHandler):
    """A service whose job ends otherwise than hoped for."""

    id: ClassVar[str] = "0" * 32
    state: ClassVar[str] = "done"
    verdict: ClassVar[str] = "fits"

    def answer(self, status: int, body: str) -> None:
        """Send a reply."""
        self.send_response(status)
        self.send_header("X-Verdict", self.verdict)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body.encode())

    def do_POST(self) -> None:
        """Take a job, or cancel it."""
        self.rfile.read(int(self.headers.get("Content-Length", "0")))
        self.answer(202, self.id)

    def do_GET(self) -> None:
        """Tell its state, or give its result."""
        self.answer(200, "all is well" if "/result" in self.path else self.state)

    def log_message(self, *words: object) -> None:
        """Say nothing."""


@pytest.fixture
def elsewhere() -> Iterator[str]:
    """The address of that service."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), Elsewhere)
    Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("state", "cancelled", "the job was cancelled or deleted"),
        ("verdict", "", "was not checked (curl 0, HTTP 200)"),
        ("verdict", "ask", "was not checked (curl 0, HTTP 200)"),
        ("id", "../../elsewhere", "this is another service"),
    ],
)
def test_only_a_whole_proof_counts(
    run: Run, folder: Path, elsewhere: str, monkeypatch: pytest.MonkeyPatch, name: str, value: str, said: str
) -> None:
    """A cancelled job, a verdict that is missing or contradicts the status, an id that is none."""
    assert run("./job.sh", "order.csv", url=elsewhere).returncode == 0, "else the rest would prove nothing"
    monkeypatch.setattr(Elsewhere, name, value)
    done = run("./job.sh", "-r", "report.xml", "order.csv", url=elsewhere)
    assert (done.returncode, done.stdout) == (3, "")
    assert said in done.stderr
    assert not (folder / "report.xml").exists()
