"""Brings the tables of a database to the present version: whole or not at all, by one process at a time.

All steps run in one transaction, together with the note of the version that they reach. Before it reads that version,
PostgreSQL is asked for an advisory lock and SQLite for its write lock, so that of two processes the second one finds
the work done. The steps themselves stand in ``migrations/versions``.
"""

from typing import TYPE_CHECKING

from sqlalchemy import Connection, Engine, inspect, text

from service.store.engine import is_embedded, told_apart

if TYPE_CHECKING:
    from alembic.config import Config

HEAD = "0004"
"""The version that this service works with: the latest of the steps."""

LOCK = 0x4B50524F
"""The advisory lock of PostgreSQL that stands for our tables: any number, as long as it is always the same."""


class NewerDatabase(Exception):  # noqa: N818 - the database is right, this version of the service is too old for it
    """The database was brought to a version that this service does not know."""


def configuration() -> "Config":
    """Return alembic's configuration; the steps are found inside the package."""
    # Only who migrates pays for alembic: a service that finds its tables in order starts without it.
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", "service.store:migrations")
    config.set_main_option("path_separator", "os")
    return config


def migrate(engine: Engine, config: "Config | None" = None) -> str | None:
    """Bring the tables to the latest version and return the version before, None where there were no tables.

    Raises:
        Unavailable: the database does not answer, or another process held it locked too long.
        NewerDatabase: the tables are of a version that is not known here.
    """
    from alembic import command
    from alembic.script import ScriptDirectory

    config = config or configuration()
    known = {step.revision for step in ScriptDirectory.from_config(config).walk_revisions()}
    with told_apart(), engine.connect().execution_options(writes=True) as connection, connection.begin():
        if not is_embedded(engine):
            # Another process may be migrating: wait for it as long as it takes it, not only for a lock's usual time.
            connection.execute(text("SET LOCAL lock_timeout = 0; SET LOCAL statement_timeout = 0"))
            connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": LOCK})
        before = _version(connection)
        if before is not None and before not in known:
            raise NewerDatabase(f"the database is of version {before}, which this version of the service does not know")
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
    return before


def version(engine: Engine) -> str | None:
    """Return the version of the tables, None where there are none.

    Raises:
        Unavailable: the database does not answer.
    """
    with told_apart(), engine.connect() as connection:
        return _version(connection)


def _version(connection: Connection) -> str | None:
    if not inspect(connection).has_table("alembic_version"):
        return None
    return connection.execute(text("SELECT version_num FROM alembic_version")).scalar_one_or_none()
