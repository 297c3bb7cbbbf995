"""A copy of an embedded database while it is in use."""

import os
import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import Engine

from service.store.engine import file_of, is_embedded


class NoBackup(Exception):  # noqa: N818 - it is what the caller gets
    """No copy was made; the message says why."""


def back_up(engine: Engine, target: Path) -> int:
    """Copy the database to a new file and return its size [bytes]; writers are not held up.

    Raises:
        NoBackup: the database is no file of this service, there is none, or the target is there already.
    """
    if not is_embedded(engine):
        raise NoBackup("the database is a PostgreSQL server's: use pg_dump")
    source = file_of(engine)
    if not source.is_file():
        raise NoBackup(f"there is no database at {source}")
    if target.exists():
        raise NoBackup(f"{target} is there already: a backup never overwrites")
    partial = target.with_name(target.name + ".part")
    partial.unlink(missing_ok=True)
    try:
        # Read by the owner only, as the database itself.
        os.close(os.open(partial, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
        address = f"{source.resolve().as_uri()}?mode=ro"
        with closing(sqlite3.connect(address, uri=True)) as original, closing(sqlite3.connect(partial)) as copy:
            original.backup(copy)
            (state,) = copy.execute("PRAGMA integrity_check").fetchone()
        if state != "ok":
            raise NoBackup(f"the copy is damaged: {state}")
        with partial.open("rb") as file:
            os.fsync(file.fileno())
        # A link, unlike a rename, fails where the target has come to be in the meantime.
        os.link(partial, target)
    except (sqlite3.Error, OSError) as error:
        raise NoBackup(f"no copy was made: {error}") from error
    finally:
        partial.unlink(missing_ok=True)
    return target.stat().st_size
