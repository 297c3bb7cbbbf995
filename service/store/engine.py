"""Opens the database that the settings name, and tells a database that cannot serve now from a fault of ours."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, Pool, create_engine, event, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError
from sqlalchemy.exc import TimeoutError as NoConnectionFree

WAIT = 5
"""Seconds for which a statement waits for a lock, and a new connection for the server."""

LONGEST_STATEMENT = 30
"""Seconds after which PostgreSQL gives a statement up."""


class Unavailable(Exception):  # noqa: N818 - it is a state of the database, no error of the caller
    """The database cannot serve now; the same request may succeed later. ``reason`` is fit to be shown."""

    def __init__(self, reason: str, retry_after: int = WAIT) -> None:
        super().__init__(reason)
        self.reason = reason
        self.retry_after = retry_after


class AddressError(ValueError):
    """The address names no database that the service can use; the message says what is accepted."""


def open_engine(url: str, *, wait: float = WAIT, poolclass: type[Pool] | None = None) -> Engine:
    """Return an engine for the address; nothing is connected yet, so it may be opened before workers are forked.

    Raises:
        AddressError: it is no address, or one of a database that is not served.
    """
    address = _address(url)
    if address.get_backend_name() == "sqlite":
        return _sqlite(address, wait, poolclass)
    return _postgresql(address, wait, poolclass)


def _address(url: str) -> URL:
    accepted = "accepted: sqlite:////folder/file.sqlite3 or postgresql://user@host/database"
    try:
        address = make_url(url)
        backend = address.get_backend_name()
    except (ArgumentError, ValueError):
        # Not shown: what is no address may still hold a password.
        raise AddressError(f"KITPROOF_DATABASE_URL is no database address; {accepted}") from None
    if backend == "postgresql":
        return address.set(drivername="postgresql+psycopg")
    if backend != "sqlite":
        raise AddressError(f"KITPROOF_DATABASE_URL names {backend}, which is not served; {accepted}")
    if not address.database or address.database == ":memory:":
        raise AddressError(f"KITPROOF_DATABASE_URL names no file, so nothing would be kept; {accepted}")
    return address


def _sqlite(address: URL, wait: float, poolclass: type[Pool] | None) -> Engine:
    engine = create_engine(address, connect_args={"timeout": wait}, poolclass=poolclass)
    file = file_of(engine)

    @event.listens_for(engine, "do_connect")
    def make_file(*_: object) -> None:
        # Readable by the owner only; SQLite gives its other files the same rights. What fails here fails again at the
        # connection itself, which says why. A file that is there is never opened here: to close it again would drop the
        # locks of every connection of this process, and another process could then throw the log away under them.
        with suppress(OSError):
            file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_RDONLY, 0o600))

    event.listen(engine, "connect", _set_up_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


def _postgresql(address: URL, wait: float, poolclass: type[Pool] | None) -> Engine:
    options = f"-c lock_timeout={int(wait * 1000)} -c statement_timeout={LONGEST_STATEMENT * 1000} -c timezone=UTC"
    arguments = {
        "connect_timeout": max(2, int(wait)),
        "options": options,
        "application_name": "kitproof",
        # A server that vanished without a word is noticed after this many milliseconds.
        "tcp_user_timeout": LONGEST_STATEMENT * 1000,
    }
    try:
        # Asking a pooled connection for a sign of life first is what makes a restarted server go unnoticed.
        return create_engine(address, connect_args=arguments, poolclass=poolclass, pool_pre_ping=True)
    except (ImportError, NoSuchModuleError) as error:
        raise AddressError("PostgreSQL needs psycopg: install kitproof-service[postgres]") from error


def _set_up_sqlite(connection: sqlite3.Connection, _record: object) -> None:
    # The driver's own transactions would leave changes of tables outside; ours begin in _begin_sqlite.
    connection.isolation_level = None
    cursor = connection.cursor()
    # Readers and the one writer do not block each other.
    cursor.execute("PRAGMA journal_mode=WAL")
    # What was acknowledged also survives a loss of power.
    cursor.execute("PRAGMA synchronous=FULL")
    cursor.execute("PRAGMA foreign_keys=ON")
    cursor.close()


def _begin_sqlite(connection: Connection) -> None:
    # A transaction that will write takes the lock at once: one that reads first could not wait for it any more.
    kind = "IMMEDIATE" if connection.get_execution_options().get("writes") else "DEFERRED"
    connection.exec_driver_sql(f"BEGIN {kind}")


def answers(engine: Engine) -> None:
    """Ask the database for one value.

    Raises:
        Unavailable: it does not answer.
    """
    with told_apart(), engine.connect() as connection:
        connection.execute(text("SELECT 1"))


@contextmanager
def told_apart() -> Iterator[None]:
    """Raise ``Unavailable`` for what a database says when it cannot serve now; let every other error through."""
    try:
        yield
    except NoConnectionFree as error:
        raise Unavailable("every connection to the database is in use", 1) from error
    except DBAPIError as error:
        known = _reason(error)
        if known is None:
            raise
        raise Unavailable(*known) from error


_SQLITE: dict[int, tuple[str, int]] = {
    sqlite3.SQLITE_BUSY: ("the database is locked by another writer", 1),
    sqlite3.SQLITE_LOCKED: ("the database is locked by another writer", 1),
    sqlite3.SQLITE_FULL: ("the disk of the database is full; nothing of this request was stored", 60),
    sqlite3.SQLITE_IOERR: ("the disk of the database fails", 60),
    sqlite3.SQLITE_CANTOPEN: ("the file of the database cannot be opened", 30),
    sqlite3.SQLITE_READONLY: ("the file of the database cannot be written", 30),
    sqlite3.SQLITE_NOTADB: ("the file of the database is none", 60),
    sqlite3.SQLITE_CORRUPT: ("the file of the database is damaged", 60),
}
_POSTGRESQL: dict[str, tuple[str, int]] = {
    "08": ("the database does not answer", WAIT),
    "28": ("the database refuses the connection", 30),
    "3D": ("the database does not exist", 30),
    "40": ("the database is busy with other writers", 1),
    "53": ("the database has no room or no connection left", 30),
    "55": ("the database is locked by another writer", 1),
    "57": ("the database is shutting down or gave the statement up", WAIT),
    "58": ("the disk of the database fails", 60),
}
"""SQLSTATE class -> what to say and when to come back."""


def _reason(error: DBAPIError) -> tuple[str, int] | None:
    original: Any = error.orig
    if isinstance(original, sqlite3.Error):
        # The extended codes of SQLite hold the plain one in their lowest byte.
        code = getattr(original, "sqlite_errorcode", None)
        return None if code is None else _SQLITE.get(code & 0xFF)
    state = getattr(original, "sqlstate", None)
    if state:
        return _POSTGRESQL.get(state[:2])
    # Without a code nothing came from the server: the connection is lost, or was never made.
    lost = error.connection_invalidated or type(original).__name__ == "OperationalError"
    return ("the database does not answer", WAIT) if lost else None


def is_embedded(engine: Engine) -> bool:
    """Return whether the database is a file of this service and no server of its own."""
    return engine.dialect.name == "sqlite"


def file_of(engine: Engine) -> Path:
    """Return the file of an embedded database."""
    return Path(str(engine.url.database))
