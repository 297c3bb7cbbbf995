"""Health and readiness."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from flask.testing import FlaskClient

from reference import tables
from service.app import create_app
from service.config import Settings


def test_a_process_that_answers_is_healthy(client: FlaskClient) -> None:
    """Whatever else is wrong."""
    assert client.get("/healthz").get_json()["status"] == "ok"
    assert client.get("/healthz.txt").data == b"ok"


def test_ready_is_who_can_reach_the_database(client: FlaskClient) -> None:
    """The tables were loaded before the first request."""
    reply = client.get("/readyz").get_json()
    assert (reply["status"], reply["reference"]) == ("ready", tables.fingerprint())


def test_not_ready_without_the_database(tmp_path: Path, assert_problem: Callable[..., dict[str, Any]]) -> None:
    """A folder stands where the file should be; the process still answers."""
    (tmp_path / "store").mkdir()
    client = create_app(Settings(database_url=f"sqlite:///{tmp_path / 'store'}")).test_client()
    body = assert_problem(client.get("/readyz"), 503, "not-ready", "KITPROOF_DATABASE_URL")
    assert str(tmp_path) not in str(body)
    assert client.get("/healthz").status_code == 200


def test_the_store_is_made_on_first_use(tmp_path: Path) -> None:
    """With its folder, in write-ahead mode."""
    database = tmp_path / "new" / "kitproof.sqlite3"
    client = create_app(Settings(database_url=f"sqlite:///{database}")).test_client()
    assert client.get("/readyz").status_code == 200
    assert database.is_file()
