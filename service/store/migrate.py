"""Brings the tables of a database to the present version: whole or not at all, by one process at a time.

All steps run in one transaction, together with the note of the version that they reach. Before it reads that version,
PostgreSQL is asked for an advisory lock and SQLite for its write lock, so that of two processes the second one finds
the work done. The steps themselves stand in ``migrations/versions``.
"""

from contextlib import suppress

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, text

from service.store.engine import Unavailable, file_of, is_embedded, told_apart

LOCK = 0x4B50524F
"""The advisory lock of PostgreSQL that stands for our tables: any number, as long as it is always the same."""


class NewerDatabase(Exception):  # noqa: N818 - the database is right, this version of the service is too old for it
    """The database was brought to a version that this service does not know."""


class OutOfDate(Unavailable):
    """The tables are of an older version, or there are none."""

    def __init__(self) -> None:
        super().__init__("the tables of the database are not of this version: run `python -m service migrate`", 60)


def configuration() -> Config:
    """Return alembic's configuration; the steps are found inside the package."""
    config = Config()
    config.set_main_option("script_location", "service.store:migrations")
    config.set_main_option("path_separator", "os")
    return config


def migrate(engine: Engine, config: Config | None = None) -> str | None:
    """Bring the tables to the latest version and return the version before, None where there were no tables.

    Raises:
        Unavailable: the database does not answer, or another process held it locked too long.
        NewerDatabase: the tables are of a version that is not known here.
    """
    config = config or configuration()
    if is_embedded(engine):
        # Read by the owner only; SQLite gives its other files the same rights.
        with suppress(OSError):
            file_of(engine).touch(mode=0o600)
    with told_apart(), engine.connect().execution_options(writes=True) as connection, connection.begin():
        if not is_embedded(engine):
            # Another process may be migrating: wait for it as long as it takes it, not only for a lock's usual time.
            connection.execute(text("SET LOCAL lock_timeout = 0; SET LOCAL statement_timeout = 0"))
            connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": LOCK})
        before = _version(connection)
        if before is not None and before not in _known(config):
            raise NewerDatabase(f"the database is of version {before}, which this version of the service does not know")
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
    return before


def require_current(engine: Engine) -> None:
    """Raise where the tables are not of the version that this service works with.

    Raises:
        Unavailable: the database does not answer.
        OutOfDate: the tables are older, newer, or not there.
    """
    with told_apart(), engine.connect() as connection:
        if _version(connection) != head():
            raise OutOfDate


def head() -> str | None:
    """Return the latest version of the tables."""
    return ScriptDirectory.from_config(configuration()).get_current_head()


def _known(config: Config) -> set[str]:
    return {step.revision for step in ScriptDirectory.from_config(config).walk_revisions()}


def _version(connection: Connection) -> str | None:
    return MigrationContext.configure(connection).get_current_revision()
