"""What all tests share: no time limit on made-up examples, a PostgreSQL cluster of the tests' own, fresh stores."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from sqlalchemy import NullPool, text

from service.store.engine import open_engine
from service.store.migrate import migrate
from service.store.model import Base
from service.store.store import Store
from tests.cluster import Cluster, programs

# No test is timed: an example that takes long on a busy machine is no fault.
settings.register_profile("kitproof", deadline=None)
settings.load_profile("kitproof")


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    """A PostgreSQL cluster for the whole run, where the server's programs are installed."""
    found = programs()
    if found is None:
        pytest.skip("PostgreSQL's server programs (initdb, postgres) are not installed")
    made = Cluster(found)
    try:
        made.start()
        yield made
    finally:
        made.remove()


@pytest.fixture(params=["sqlite", "postgresql"])
def address(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The address of an empty database of each kind."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'kitproof.sqlite3'}"
    made: Cluster = request.getfixturevalue("cluster")
    return made.database()


@pytest.fixture(scope="session")
def served(cluster: Cluster) -> str:
    """The address of a database of the cluster with tables, shared by all tests of a run."""
    address = cluster.database()
    migrate(open_engine(address, poolclass=NullPool))
    return address


@pytest.fixture
def emptied_server(served: str) -> str:
    """The address of a database of the cluster with tables and nothing in them."""
    with open_engine(served, poolclass=NullPool).begin() as connection:
        connection.execute(text(f"TRUNCATE {', '.join(Base.metadata.tables)}"))
    return served


@pytest.fixture(params=["sqlite", "postgresql"])
def emptied(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The address of a database with tables and nothing in them, of each kind."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'kitproof.sqlite3'}"
    address: str = request.getfixturevalue("emptied_server")
    return address


@pytest.fixture
def store(emptied: str) -> Iterator[Store]:
    """An empty store with tables, on each kind of database."""
    made = Store(emptied, wait=2)
    yield made
    made.engine.dispose()
