"""A PostgreSQL cluster of the tests' own."""

import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
from itertools import count
from pathlib import Path

import psycopg

STARTED = 15.0


def programs() -> Path | None:
    """Return the folder of PostgreSQL's server programs; Debian keeps it off the path."""
    found = shutil.which("postgres")
    folders = [Path(found).resolve().parent] if found else []
    folders += sorted(Path("/usr/lib/postgresql").glob("*/bin"), reverse=True)
    return next((folder for folder in folders if (folder / "initdb").is_file()), None)


def _user() -> str | None:
    """Return the user to run the server as: it refuses to be run by root."""
    if os.getuid() != 0:
        return None
    names = {entry.pw_name for entry in pwd.getpwall()}
    return "postgres" if "postgres" in names else "nobody"


class Cluster:
    """A PostgreSQL server on a socket of its own, which can be stopped, killed and started again."""

    def __init__(self, folder_of_programs: Path) -> None:
        """Make the cluster; its server is not started yet."""
        self._programs = folder_of_programs
        self._user = _user()
        self.folder = Path(tempfile.mkdtemp(prefix="kitproof-pg-"))
        self._numbers = count()
        self._process: subprocess.Popen[bytes] | None = None
        if self._user is not None:
            shutil.chown(self.folder, self._user)
        trust = ("--username=kitproof", "--auth=trust", "--encoding=UTF8", "--locale=C", "--no-sync")
        subprocess.run(
            [folder_of_programs / "initdb", f"--pgdata={self.folder}/data", *trust],
            check=True,
            capture_output=True,
            user=self._user,
            cwd=self.folder,
        )

    def start(self) -> None:
        """Start the server and wait until it answers."""
        settings = {
            "listen_addresses": "",
            "unix_socket_directories": str(self.folder),
            "fsync": "off",  # the tests end processes, never the machine
            "shared_buffers": "16MB",
            "max_connections": "60",
        }
        options = [part for name, value in settings.items() for part in ("-c", f"{name}={value}")]
        with (self.folder / "log").open("ab") as log:
            self._process = subprocess.Popen(
                [self._programs / "postgres", "-D", self.folder / "data", *options],
                user=self._user,
                cwd=self.folder,
                stdout=log,
                stderr=log,
            )
        end = time.monotonic() + STARTED
        while not self._answers():
            assert self._process.poll() is None, (self.folder / "log").read_text()
            assert time.monotonic() < end, "the server did not start"
            time.sleep(0.05)

    def _answers(self) -> bool:
        try:
            psycopg.connect(self.url()).close()
        except psycopg.OperationalError:
            return False
        return True

    def stop(self) -> None:
        """Stop the server at once, as a crash does: connections break, nothing is said."""
        if self._process is not None and self._process.poll() is None:
            self._process.send_signal(signal.SIGQUIT)
            self._process.wait(STARTED)

    def url(self, database: str = "postgres") -> str:
        """Return the address of a database."""
        return f"postgresql://kitproof@/{database}?host={self.folder}"

    def database(self) -> str:
        """Make an empty database and return its address."""
        name = f"test_{next(self._numbers)}"
        with psycopg.connect(self.url(), autocommit=True) as connection:
            connection.execute(f"CREATE DATABASE {name}".encode())
        return self.url(name)

    def remove(self) -> None:
        """Stop the server and remove its files."""
        self.stop()
        shutil.rmtree(self.folder, ignore_errors=True)
