"""Starts two replicas of the service on one PostgreSQL behind nginx, on this machine: ``python -m demo.replicas``.

Everything lies in a temporary folder and is gone when this ends (Ctrl-C, or SIGTERM to its process). A replica that
ends is started again after a pause, so that one can be killed, or stopped to take in new code, while the other serves.
Needed are nginx, PostgreSQL's server programs and ``requirements/postgres.txt``; no container engine.
"""

import argparse
import importlib.util
import os
import pwd
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from threading import Event

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
HOST = "127.0.0.1"
PROXY, FIRST, SECOND = 8380, 8391, 8392
"""The ports as ``places.conf`` has them."""

READY = 60.0
"""Longest wait for a process that is started [s]."""

GRACE = 35.0
"""Longest wait for a process that is told to end [s]: the service lets requests finish for 30."""


class NotStarted(Exception):  # noqa: N818 - it is what did not happen
    """Something that is needed is missing or did not start; the message says what to do."""


class Process:
    """One process with all that it starts, in a group of its own: it is ended by that number, and nothing else is."""

    def __init__(
        self,
        name: str,
        command: Sequence[str],
        log: Path,
        stop: signal.Signals = signal.SIGTERM,
        user: str | None = None,
        environ: Mapping[str, str] | None = None,
    ) -> None:
        """Say what to run; nothing is started yet. ``stop`` is the signal that ends it in order."""
        self.name, self.log = name, log
        self._command, self._stop, self._user, self._environ = command, stop, user, environ
        self._process: subprocess.Popen[bytes] | None = None

    @property
    def pid(self) -> int:
        """The number of the process, and of its group."""
        assert self._process is not None  # noqa: S101 - asked for once it is started
        return self._process.pid

    def start(self) -> None:
        """Start it; what it says goes to its log."""
        with self.log.open("ab") as log:
            self._process = subprocess.Popen(  # noqa: S603 - our own commands
                self._command,
                cwd=self.log.parent,
                env=self._environ,
                user=self._user,
                stdin=subprocess.DEVNULL,
                stdout=log,
                stderr=log,
                start_new_session=True,
            )

    def ended(self) -> bool:
        """Tell whether it was started and has ended. It is not waited for here: so long its number stays its own."""
        if self._process is None or self._process.returncode is not None:
            return self._process is not None
        return os.waitid(os.P_PID, self.pid, os.WEXITED | os.WNOHANG | os.WNOWAIT) is not None

    def bury(self) -> int:
        """Kill what is left of it and of its group, and return its exit code.

        A worker that outlived the others would keep the port, and go on answering.
        """
        assert self._process is not None  # noqa: S101 - asked for once it is started
        if self._process.returncode is None:
            with suppress(ProcessLookupError):
                os.killpg(self.pid, signal.SIGKILL)
        return self._process.wait()

    def stop(self) -> None:
        """Tell it to end, wait, and make sure."""
        if self._process is None or self._process.returncode is not None:
            return
        if not self.ended():
            os.kill(self.pid, self._stop)
        end = time.monotonic() + GRACE
        while not self.ended() and time.monotonic() < end:
            time.sleep(0.05)
        self.bury()


class Database(Process):
    """A PostgreSQL cluster of this example's own, on a socket in its folder and on no port."""

    def __init__(self, folder: Path) -> None:
        """Make the cluster; its server is not started yet.

        Raises:
            NotStarted: the server programs are missing.
        """
        found = shutil.which("postgres")
        folders = [Path(found).resolve().parent] if found else []
        folders += sorted(Path("/usr/lib/postgresql").glob("*/bin"), reverse=True)
        programs = next((one for one in folders if (one / "initdb").is_file()), None)
        if programs is None:
            raise NotStarted("PostgreSQL's server programs are not here: apt-get install postgresql, or --database")
        # PostgreSQL refuses to be run by root.
        names = {entry.pw_name for entry in pwd.getpwall()}
        user = None if os.getuid() else "postgres" if "postgres" in names else "nobody"
        self.folder = folder / "database"
        self.folder.mkdir(mode=0o700)
        if user is not None:
            shutil.chown(self.folder, user)
        data = self.folder / "data"
        # Whoever may enter the folder may enter the database, and that is only its owner, and root.
        options = ["--username=kitproof", "--auth=trust", "--encoding=UTF8", "--locale=C", "--no-instructions"]
        subprocess.run(  # noqa: S603 - our own command
            [programs / "initdb", f"--pgdata={data}", *options],
            user=user,
            cwd=self.folder,
            check=True,
            stdout=subprocess.DEVNULL,
        )
        settings = {"listen_addresses": "", "unix_socket_directories": str(self.folder), "max_connections": "60"}
        command = [str(programs / "postgres"), "-D", str(data)]
        command += [part for name, value in settings.items() for part in ("-c", f"{name}={value}")]
        super().__init__("database", command, self.folder.with_name("database.log"), signal.SIGINT, user)
        self.url = f"postgresql://kitproof@/kitproof?host={self.folder}"

    def start(self) -> None:
        """Start the server, wait until it answers, and make the one database."""
        import psycopg

        super().start()
        end = time.monotonic() + READY
        while True:
            try:
                connection = psycopg.connect(self.url.replace("/kitproof?", "/postgres?"), autocommit=True)
                break
            except psycopg.OperationalError:
                if self.ended() or time.monotonic() > end:
                    raise NotStarted(f"the database did not start:\n{self.log.read_text()}") from None
                time.sleep(0.1)
        with connection:
            connection.execute("CREATE DATABASE kitproof")


def replica(number: int, port: int, folder: Path, database: str) -> Process:
    """Return a replica: it brings the tables to its version, waiting for another one that is at it, and serves."""
    command = '"$0" -m service migrate && exec "$0" -m service serve'
    environ = {**environment(folder, database), "KITPROOF_HOST": HOST, "KITPROOF_PORT": str(port)}
    log = folder / f"replica-{number}.log"
    return Process(f"replica {number}", ["/bin/sh", "-c", command, sys.executable], log, environ=environ)


def environment(folder: Path, database: str) -> dict[str, str]:
    """Return the environment of every replica and command; what is set outside and not here is passed on."""
    # Counters are each replica's own.
    outside = {name: value for name, value in os.environ.items() if name != "PROMETHEUS_MULTIPROC_DIR"}
    return {
        "KITPROOF_LOG": "json",
        **outside,
        "PYTHONPATH": os.pathsep.join(filter(None, (str(ROOT), os.environ.get("PYTHONPATH")))),
        # What a killed replica could not remove is removed with the folder.
        "TMPDIR": str(folder / "temp"),
        "KITPROOF_DATABASE_URL": database,
        # One proxy of ours stands in front: its word on the caller's address and the path counts.
        "KITPROOF_PROXIES": "1",
        # nginx passes no more of an upload once the reply has begun: it begins only when the upload has ended.
        "KITPROOF_SPOOL_LIMIT": str(1 << 40),
    }


def proxy(folder: Path, ports: tuple[int, int, int]) -> Process:
    """Return the proxy with the files of this folder; only the three addresses are replaced.

    Raises:
        NotStarted: nginx is missing.
    """
    program = shutil.which("nginx", path=f"{os.environ.get('PATH', os.defpath)}:/usr/sbin:/usr/local/sbin")
    if program is None:
        raise NotStarted("nginx is not here: apt-get install nginx")
    place = folder / "proxy"
    # Root's nginx hands requests to a user who has to reach the folders for what it writes, and no more.
    place.mkdir(mode=0o711)
    for name in ("nginx.conf", "site.conf"):
        shutil.copy(HERE / name, place)
    text = (HERE / "places.conf").read_text("utf-8")
    for port, written in zip(ports, (PROXY, FIRST, SECOND), strict=True):
        text = text.replace(f"{HOST}:{written}", f"{HOST}:@{port}")
    (place / "places.conf").write_text(text.replace(":@", ":"), "utf-8")
    more = "daemon off;"
    if os.getuid() == 0 and any(entry.pw_name == "www-data" for entry in pwd.getpwall()):
        more += " user www-data;"
    command = [program, "-p", str(place), "-c", str(place / "nginx.conf"), "-e", "stderr", "-g", more]
    return Process("proxy", command, folder / "proxy.log")


class Example:
    """All processes of the example, each started and ended here and nowhere else."""

    def __init__(self, ports: tuple[int, int, int], database: str | None, pause: float) -> None:
        """Use a database that is there, or start one; ``pause`` is the time until a replica is started again [s]."""
        self.ports, self.pause = ports, pause
        self.folder = Path(tempfile.mkdtemp(prefix="kitproof-replicas-"))
        self.folder.chmod(0o711)
        (self.folder / "temp").mkdir(mode=0o700)
        self._address = database
        self._running: list[Process] = []
        self.stopped = Event()

    def start(self) -> None:
        """Start everything in order and say where it is.

        Raises:
            NotStarted: something is missing or does not start.
        """
        for port in self.ports:
            _require_free(port)
        front = proxy(self.folder, self.ports)
        own = None
        if self._address is None:
            own = Database(self.folder)
            self._start(own)
            self._address = own.url
        self.replicas = [
            replica(number, port, self.folder, self._address) for number, port in enumerate(self.ports[1:], start=1)
        ]
        # Both at once: each wants to make the tables, and the second one waits for the first.
        for one in self.replicas:
            self._start(one)
        for one, port in zip(self.replicas, self.ports[1:], strict=True):
            self._wait(one, f"http://{HOST}:{port}/readyz")
        self._start(front)
        self._wait(front, f"http://{HOST}:{self.ports[0]}/readyz")
        token = self._token() if own is not None else "(as you made it with python -m service token create)"
        self._say(token, front, own)

    def _start(self, process: Process) -> None:
        self._running.append(process)
        process.start()

    def _wait(self, process: Process, address: str) -> None:
        end = time.monotonic() + READY
        while not _answers(address):
            if process.ended() or time.monotonic() > end:
                raise NotStarted(f"{process.name} did not start:\n{process.log.read_text()}")
            if self.stopped.wait(0.1):
                raise NotStarted("stopped before it was ready")

    def _token(self) -> str:
        assert self._address is not None  # noqa: S101 - asked for once the database is started
        made = subprocess.run(
            [sys.executable, "-m", "service", "token", "create", "--owner", "club", "--scope", "write"],
            cwd=ROOT,
            env=environment(self.folder, self._address),
            check=True,
            capture_output=True,
            text=True,
        )
        return made.stdout.strip()

    def _say(self, token: str, front: Process, own: Process | None) -> None:
        site = f"http://{HOST}:{self.ports[0]}"
        print(f"Kitproof answers at {site}/ and at {site}/kitproof/")
        print(f"token     {token}")
        for one, port in zip(self.replicas, self.ports[1:], strict=True):
            print(f"{one.name} http://{HOST}:{port}  process {one.pid}  {one.log}")
        print(f"proxy     {site}  process {front.pid}  {self.folder / 'proxy' / 'access.log'}")
        print(f"database  {self._address}" + (f"  process {own.pid}" if own else ""))
        print("Ctrl-C ends all of them and removes what they wrote", flush=True)

    def watch(self) -> int:
        """Start replicas again that end, until told to stop; return the exit code.

        Where the proxy or the database ends by itself, so does the example.
        """
        due: dict[str, float] = {}
        while not self.stopped.wait(0.1):
            for process in self._running:
                if not process.ended():
                    continue
                if process not in self.replicas:
                    print(f"the {process.name} ended by itself:\n{process.log.read_text()}", file=sys.stderr)
                    return 1
                if process.name not in due:
                    print(f"{process.name} ended ({process.bury()}), process {process.pid}", flush=True)
                    due[process.name] = time.monotonic() + self.pause
                elif time.monotonic() >= due[process.name]:
                    del due[process.name]
                    process.start()
                    print(f"{process.name} started again, process {process.pid}", flush=True)
        return 0

    def stop(self) -> None:
        """End everything in reverse order and remove the folder."""
        for process in reversed(self._running):
            process.stop()
        shutil.rmtree(self.folder)


def _answers(address: str) -> bool:
    try:
        with urllib.request.urlopen(address, timeout=5):  # noqa: S310 - our own address
            return True
    except OSError:
        return False


def _require_free(port: int) -> None:
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((HOST, port))
        except OSError as error:
            raise NotStarted(f"port {port} of {HOST} cannot be used: {error.strerror}; --ports names others") from None


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the example until it is told to stop."""
    parser = argparse.ArgumentParser(prog="python -m demo.replicas", description=(__doc__ or "").split("\n", 1)[0])
    parser.add_argument(
        "--ports", type=int, nargs=3, default=(PROXY, FIRST, SECOND), metavar=("PROXY", "FIRST", "SECOND")
    )
    parser.add_argument("--database", metavar="URL", help="a PostgreSQL that is there, instead of one of its own")
    parser.add_argument("--pause", type=float, default=1.0, help="seconds until a replica that ended is started again")
    parsed = parser.parse_args(arguments)
    if importlib.util.find_spec("psycopg") is None:
        print("error: psycopg is not here: pip install -r requirements/postgres.txt", file=sys.stderr)
        return 1
    example = Example(tuple(parsed.ports), parsed.database, parsed.pause)
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
        signal.signal(number, lambda *_: example.stopped.set())
    try:
        example.start()
        return example.watch()
    except NotStarted as error:
        print(f"error: {error}", file=sys.stderr)
        return 1
    finally:
        example.stop()


if __name__ == "__main__":
    sys.exit(main())
