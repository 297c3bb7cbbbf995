"""Opens the database that the settings name; an SQLite file is created with its folder on first use."""

from pathlib import Path
from typing import Any

from sqlalchemy import Engine, create_engine, event, text
from sqlalchemy.engine import make_url


def open_engine(url: str) -> Engine:
    """Return an engine for the address; nothing is connected yet, so it may be opened before workers are forked."""
    address = make_url(url)
    engine = create_engine(address)
    if address.get_backend_name() == "sqlite":
        if address.database and address.database != ":memory:":
            Path(address.database).parent.mkdir(parents=True, exist_ok=True)
        event.listen(engine, "connect", _set_up_sqlite)
    return engine


def _set_up_sqlite(connection: Any, _record: object) -> None:
    # Readers and the one writer do not block each other; a commit survives a crash of the process.
    cursor = connection.cursor()
    cursor.execute("PRAGMA journal_mode=WAL")
    cursor.execute("PRAGMA synchronous=NORMAL")
    cursor.execute("PRAGMA foreign_keys=ON")
    cursor.close()


def answers(engine: Engine) -> None:
    """Ask the database for one value; raises SQLAlchemyError where it does not answer."""
    with engine.connect() as connection:
        connection.execute(text("SELECT 1"))
