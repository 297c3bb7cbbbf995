"""The application under test, and the one shape that every error has."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from service.app import create_app
from service.config import Settings

PROBLEM_FIELDS = {
    "type",
    "title",
    "status",
    "detail",
    "field",
    "value",
    "accepted",
    "example",
    "also",
    "request_id",
}


@pytest.fixture(scope="session")
def app(tmp_path_factory: pytest.TempPathFactory) -> Flask:
    """The application with small limits and a store of its own."""
    folder: Path = tmp_path_factory.mktemp("store")
    return create_app(
        Settings(database_url=f"sqlite:///{folder / 'kitproof.sqlite3'}", checks_limit=20, row_limit=2000)
    )


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A client of the application."""
    return app.test_client()


@pytest.fixture
def assert_problem() -> Callable[..., dict[str, Any]]:
    """Hold a reply against the one shape of errors, and return its body."""

    def check(reply: TestResponse, status: int, code: str, field: str | None = None) -> dict[str, Any]:
        assert reply.status_code == status, reply.get_data(as_text=True)
        assert reply.content_type == "application/problem+json"
        body: dict[str, Any] = reply.get_json()
        assert set(body) == PROBLEM_FIELDS
        assert body["type"] == f"/docs#{code}"
        assert body["status"] == status
        assert body["title"]
        assert body["detail"]
        assert body["request_id"] == reply.headers["X-Request-Id"]
        if field is not None:
            assert body["field"] == field
        return body

    return check
