"""Servers that a test can start, of which none is left in the end."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.faults.server import Server

Start = Callable[[str], Server]


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Start]:
    """Start a server on a database; none is left in the end."""
    servers: list[Server] = []

    def make(database: str) -> Server:
        servers.append(Server(database, tmp_path))
        return servers[-1].start()

    yield make
    for server in servers:
        server.remove()
