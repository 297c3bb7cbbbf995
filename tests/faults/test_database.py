"""A database that is locked, full or gone: a clear 503, and service again as soon as it can, without a restart."""

import os
import shutil
import sqlite3
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from service import cli
from service.app import create_app
from service.config import Settings
from tests.cluster import Cluster

PLAN: dict[str, Any] = {"needs": [{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}]}


def serve(address: str) -> FlaskClient:
    """Return a client of a service that waits a second for its database."""
    return create_app(Settings(database_url=address, database_wait=1)).test_client()


def close(client: FlaskClient) -> None:
    """Close the connections of a client's service."""
    client.application.extensions["kitproof.store"].engine.dispose()


def require_told(reply: TestResponse, said: str) -> None:
    """Hold a reply against what a caller can act on."""
    assert (reply.status_code, reply.content_type) == (503, "application/problem+json")
    assert int(reply.headers["Retry-After"]) > 0
    body = reply.get_json()
    assert said in body["detail"]
    assert "sqlite3." not in str(body)


def test_a_locked_database_is_told(tmp_path: Path) -> None:
    """Another process holds it; who only reads is not held up."""
    client = serve(f"sqlite:///{tmp_path / 'a.sqlite3'}")
    path = client.post("/v1/orders", json=PLAN).headers["Location"]
    other = sqlite3.connect(tmp_path / "a.sqlite3", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    reply = client.delete(path, headers={"If-Match": "*"})
    require_told(reply, "locked by another writer")
    assert reply.headers["Retry-After"] == "1"
    assert client.get(path).status_code == 200
    other.execute("ROLLBACK")
    other.close()
    assert client.post("/v1/orders", json=PLAN).status_code == 201
    assert len(client.get("/v1/orders").get_json()["orders"]) == 2
    close(client)


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of one megabyte."""
    folder = tmp_path / "disk"
    folder.mkdir()
    mount = shutil.which("mount")
    if os.getuid() != 0 or mount is None:
        pytest.skip("only root can make a small disk")
    made = subprocess.run([mount, "-t", "tmpfs", "-o", "size=1m", "tmpfs", folder], check=False, capture_output=True)
    if made.returncode != 0:
        pytest.skip("no disk can be mounted here")
    yield folder
    subprocess.run(["umount", folder], check=True)


def test_a_full_disk_is_told(small_disk: Path) -> None:
    """What was acknowledged stays and can be read; nothing is there by half; with room it goes on."""
    client = serve(f"sqlite:///{small_disk / 'a.sqlite3'}")
    ballast = small_disk / "ballast"
    ballast.write_bytes(b"x" * 300_000)
    acknowledged = []
    for number in range(200):
        stock = [{"id": f"S{place}", "line": f"{number} " + "x" * 400, "quantity": 1} for place in range(20)]
        reply = client.post("/v1/orders", json={**PLAN, "stock": stock, "name": str(number)})
        if reply.status_code != 201:
            break
        acknowledged.append(reply.headers["Location"])
    require_told(reply, "full")
    assert acknowledged
    require_told(client.post("/v1/orders", json=PLAN | {"stock": stock}), "full")
    for number, path in enumerate(acknowledged):
        found = client.get(path)
        assert (found.status_code, found.get_json()["plan"]["name"]) == (200, str(number))
    assert len(client.get("/v1/orders?limit=1000").get_json()["orders"]) == len(acknowledged)
    ballast.unlink()
    assert client.post("/v1/orders", json=PLAN).status_code == 201
    assert len(client.get("/v1/orders?limit=1000").get_json()["orders"]) == len(acknowledged) + 1
    close(client)
    with sqlite3.connect(small_disk / "a.sqlite3") as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    connection.close()


def test_a_database_that_is_not_there_yet_is_used_once_it_is(tmp_path: Path) -> None:
    """The folder of the file is made later, as a volume is that is mounted late."""
    wall = tmp_path / "volume"
    wall.write_text("in the way")
    client = serve(f"sqlite:///{wall / 'a.sqlite3'}")
    require_told(client.get("/v1/orders"), "cannot be opened")
    require_told(client.get("/readyz"), "cannot be opened")
    wall.unlink()
    assert client.post("/v1/orders", json=PLAN).status_code == 201
    assert client.get("/readyz").status_code == 200
    close(client)


def test_a_server_without_our_tables_is_told_what_to_do(cluster: Cluster, monkeypatch: pytest.MonkeyPatch) -> None:
    """Once they are made the service goes on by itself."""
    address = cluster.database()
    client = serve(address)
    require_told(client.get("/v1/orders"), "python -m service migrate")
    monkeypatch.setenv("KITPROOF_DATABASE_URL", address)
    assert cli.main(["migrate"]) == 0
    assert client.get("/v1/orders").status_code == 200
    close(client)


@pytest.mark.parametrize("path", ["/v1/orders", "/v1/orders.csv", "/v1/orders.xml", "/v1/orders.txt"])
def test_every_form_tells_it(tmp_path: Path, path: str) -> None:
    """Also the plain ones."""
    (tmp_path / "wall").write_text("in the way")
    reply = serve(f"sqlite:///{tmp_path / 'wall' / 'a.sqlite3'}").get(path)
    assert (reply.status_code, "Retry-After" in reply.headers) == (503, True)
    assert "cannot be opened" in reply.get_data(as_text=True)
