"""A server of one application with the settings of production: started, watched and ended by its own process id."""

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Mapping
from pathlib import Path
from types import TracebackType

from bench.client import Connection

ROOT = Path(__file__).resolve().parents[1]
HOST = "127.0.0.1"


def free_port() -> int:
    """Return a port that nothing listens on."""
    with socket.socket() as probe:
        probe.bind((HOST, 0))
        return int(probe.getsockname()[1])


class Server:
    """gunicorn with one application; ``started_in`` is the time from its start to its first answer [s]."""

    def __init__(self, application: str, ready: str, folder: Path, environ: Mapping[str, str] | None = None) -> None:
        """Say what to serve, and which path tells that it is served; ``folder`` takes its database and its log."""
        self.application, self.ready, self.folder = application, ready, folder
        self.environ = dict(environ or {})
        self.port = free_port()
        self.started_in = 0.0
        self._process: subprocess.Popen[bytes] | None = None

    def __enter__(self) -> "Server":
        environ = {
            **os.environ,
            "PYTHONPATH": str(ROOT),
            "KITPROOF_HOST": HOST,
            "KITPROOF_PORT": str(self.port),
            "KITPROOF_DATABASE_URL": f"sqlite:///{self.folder / 'bench.sqlite3'}",
            **self.environ,
        }
        environ.pop("PYTHONDONTWRITEBYTECODE", None)  # any start but the first finds its modules compiled
        command = [sys.executable, "-m", "gunicorn", "--config", "python:service.serving", self.application]
        with (self.folder / f"{self.port}.log").open("wb") as log:
            began = time.perf_counter()
            self._process = subprocess.Popen(command, cwd=self.folder, env=environ, stderr=log, stdout=log)
        while True:
            try:
                with Connection(HOST, self.port) as connection:
                    status, _ = connection.get(self.ready)
                break
            except OSError:
                if self._process.poll() is not None or time.perf_counter() - began > 30:
                    self._end()
                    raise RuntimeError(f"{self.application} did not start:\n{Path(log.name).read_text()}") from None
                time.sleep(0.005)
        self.started_in = time.perf_counter() - began
        assert status == 200, f"{self.ready} answered {status}"
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._end()

    def _end(self) -> None:
        process = self._process
        if process is None or process.poll() is not None:
            return
        process.send_signal(signal.SIGTERM)
        try:
            process.wait(10)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()

    def workers(self) -> list[int]:
        """Return the process ids of the workers."""
        assert self._process is not None
        master = self._process.pid
        return [int(pid) for pid in Path(f"/proc/{master}/task/{master}/children").read_text().split()]

    def cpu(self) -> float:
        """Return the time that the workers have spent on a core so far [s]."""
        spent = 0
        for pid in self.workers():
            for task in Path(f"/proc/{pid}/task").iterdir():
                spent += int((task / "schedstat").read_text().split()[0])
        return spent / 1e9

    def memory(self, field: str = "VmRSS") -> list[int]:
        """Return what each worker holds [bytes]: ``VmRSS`` now, ``VmHWM`` at most since ``reset_peak``."""
        found = []
        for pid in self.workers():
            for line in Path(f"/proc/{pid}/status").read_text().splitlines():
                if line.startswith(f"{field}:"):
                    found.append(int(line.split()[1]) * 1024)
        return found

    def reset_peak(self) -> None:
        """Begin anew with the peak of memory."""
        for pid in self.workers():
            Path(f"/proc/{pid}/clear_refs").write_text("5")
