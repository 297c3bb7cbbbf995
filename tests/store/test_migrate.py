"""Tables are brought to the present version whole or not at all, by one process at a time."""

import multiprocessing
import signal
import subprocess
import sys
import time
import zlib
from collections.abc import Iterator
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Engine, NullPool, inspect, select, text
from sqlalchemy.orm import Session

from service.store import jobs
from service.store.engine import Unavailable, open_engine
from service.store.migrate import HEAD, NewerDatabase, configuration, migrate, version
from service.store.model import Base, Job
from service.store.store import Store

ROOT = Path(__file__).resolve().parents[2]
STEP = """
from alembic import op
import sqlalchemy as sa
import pathlib
import time

revision, down_revision = "next", "{head}"

def upgrade():
    op.create_table("half", sa.Column("id", sa.Integer, primary_key=True))
    op.add_column("token", sa.Column("half", sa.Integer))
    {then}
    op.create_table("other_half", sa.Column("id", sa.Integer, primary_key=True))
"""


@pytest.fixture
def engine(address: str) -> Iterator[Engine]:
    """An empty database of each kind."""
    made = open_engine(address, wait=10, poolclass=NullPool)
    yield made
    made.dispose()


def tables(engine: Engine) -> set[str]:
    """Return the tables of a database."""
    return set(inspect(engine).get_table_names())


def columns(engine: Engine) -> set[str]:
    """Return the columns of the tokens' table."""
    return {column["name"] for column in inspect(engine).get_columns("token")}


def with_step(folder: Path, then: str) -> Config:
    """Return a configuration with one more step, which does something halfway."""
    (folder / "step.py").write_text(STEP.format(head=HEAD, then=then))
    config = configuration()
    config.set_main_option("version_locations", f"{ROOT / 'service/store/migrations/versions'}:{folder}")
    return config


def test_an_empty_database_gets_every_table(engine: Engine) -> None:
    """Once; a second time nothing is left to do."""
    assert migrate(engine) is None
    assert tables(engine) == {*Base.metadata.tables, "alembic_version"}
    assert migrate(engine) == HEAD
    assert version(engine) == HEAD
    assert ScriptDirectory.from_config(configuration()).get_heads() == [HEAD]


def test_the_steps_lead_to_what_the_classes_say(engine: Engine) -> None:
    """No column, index or key is in one and not in the other."""
    migrate(engine)
    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, Base.metadata) == []


def test_only_an_embedded_database_is_migrated_by_itself(address: str) -> None:
    """A server may have other users: there the operator says when, and is told how."""
    store = Store(address)
    if address.startswith("sqlite"):
        store.check()
    else:
        with pytest.raises(Unavailable, match="python -m service migrate"):
            store.check()
        migrate(open_engine(address, poolclass=NullPool))
        store.check()
    store.engine.dispose()


def test_a_service_that_finds_its_tables_does_without_alembic(engine: Engine, address: str) -> None:
    """It would be a good part of every start."""
    migrate(engine)
    done = subprocess.run(
        [sys.executable, "-c", STARTED, address], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert done.stdout == "False\n"


STARTED = """
import sys
from service.store.store import Store
Store(sys.argv[1]).prepare()
print("alembic" in sys.modules)
"""


def test_a_step_that_fails_leaves_nothing(engine: Engine, tmp_path: Path) -> None:
    """Neither a table, nor a column, nor the note of a version."""
    migrate(engine)
    before = tables(engine), columns(engine)
    with pytest.raises(RuntimeError, match="halfway"):
        migrate(engine, with_step(tmp_path, 'raise RuntimeError("halfway")'))
    assert (tables(engine), columns(engine)) == before
    assert version(engine) == HEAD


def test_the_same_step_without_the_fault_is_taken(engine: Engine, tmp_path: Path) -> None:
    """So that the test above cannot pass for another reason."""
    migrate(engine)
    assert migrate(engine, with_step(tmp_path, "pass")) == HEAD
    assert {"half", "other_half"} <= tables(engine)
    with pytest.raises(NewerDatabase, match="next"):
        migrate(engine)


def test_a_process_killed_halfway_leaves_nothing(engine: Engine, address: str, tmp_path: Path) -> None:
    """Not even what it had done before it was killed."""
    migrate(engine)
    before = tables(engine), columns(engine)
    with_step(tmp_path, f"pathlib.Path({str(tmp_path / 'reached')!r}).touch(); time.sleep(60)")
    process = subprocess.Popen([sys.executable, "-c", KILLED, address, str(tmp_path)], cwd=ROOT)
    end = time.monotonic() + 20
    while not (tmp_path / "reached").exists():
        assert time.monotonic() < end
        assert process.poll() is None
        time.sleep(0.02)
    process.send_signal(signal.SIGKILL)
    process.wait(10)
    # The server may need a moment to notice.
    while time.monotonic() < end and (tables(engine), columns(engine)) != before:
        time.sleep(0.05)
    assert (tables(engine), columns(engine)) == before
    assert migrate(engine) == HEAD


KILLED = """
import sys
from service.store.engine import open_engine
from service.store.migrate import configuration, migrate
config = configuration()
config.set_main_option("version_locations", "service/store/migrations/versions:" + sys.argv[2])
migrate(open_engine(sys.argv[1]), config)
"""


def test_many_at_once_do_it_once(engine: Engine, address: str) -> None:
    """Each finds the work done or does it; none fails."""
    with multiprocessing.get_context("spawn").Pool(3) as pool:
        found = pool.map(_migrated, [address] * 3, chunksize=1)
    assert sorted(map(str, found)) == sorted(["None", HEAD, HEAD])
    with engine.connect() as connection:
        assert connection.execute(text("SELECT count(*) FROM alembic_version")).scalar_one() == 1


def _migrated(address: str) -> str | None:
    return migrate(open_engine(address, wait=10, poolclass=NullPool))


def test_jobs_that_were_there_are_counted(engine: Engine) -> None:
    """Before step 3 jobs did not know themselves how far they were: one is done, one half, one waits, one comes in."""
    from alembic import command

    moment = "2025-01-11 09:30:00"
    with engine.connect().execution_options(writes=True) as connection, connection.begin():
        config = configuration()
        config.attributes["connection"] = connection
        command.upgrade(config, "0002")
        replies = {
            word: zlib.compress(b'{"verdict":"fits"}\n{"verdict":"' + word.encode() + b'"}') for word in ("fits", "ask")
        }
        for job, rows, chunks in (
            ("done", 4, ("fits", "ask")),
            ("half", 4, ("ask", None)),
            ("waits", 2, (None,)),
            ("comes", None, ("fits",)),
        ):
            given = {"id": job, "rows": rows, "made_at": moment}
            values = "(id, owner, units, rows, made_at) VALUES (:id, 'local', 'mm', :rows, :made_at)"
            connection.execute(text(f"INSERT INTO job {values}"), given)
            for number, word in enumerate(chunks, start=1):
                given = {"id": job, "number": number, "word": word, "replies": replies.get(word or "")}
                values = (
                    "(job_id, number, rows, checks, verdict, replies) VALUES (:id, :number, 2, '[]', :word, :replies)"
                )
                connection.execute(text(f"INSERT INTO job_chunk {values}"), given)
    assert migrate(engine) == "0002"
    with Session(engine) as session:
        found = {job.id: job for job in session.execute(select(Job)).scalars()}
    assert {name: (jobs.state_of(job), job.rows_done, job.verdicts) for name, job in found.items()} == {
        "done": ("done", 4, {"fits": 3, "ask": 1}),
        "half": ("running", 2, {"fits": 1, "ask": 1}),
        "waits": ("waiting", 0, {}),
        "comes": ("receiving", 2, {"fits": 2}),
    }
    assert found["done"].started_at == found["done"].made_at < found["done"].finished_at  # type: ignore[operator]
    with engine.connect().execution_options(writes=True) as connection, connection.begin():
        config.attributes["connection"] = connection
        command.downgrade(config, "0002")
        assert connection.execute(text("SELECT count(*) FROM job_chunk")).scalar_one() == 6
    assert "rows_done" not in {column["name"] for column in inspect(engine).get_columns("job")}
