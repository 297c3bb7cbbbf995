"""A service on a database of each kind, with nobody who works its jobs."""

from collections.abc import Iterator

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.app import create_app
from service.config import Settings


@pytest.fixture
def app(emptied: str) -> Iterator[Flask]:
    """The service on an empty database of each kind, with nobody who works its jobs."""
    made = create_app(Settings(database_url=emptied, row_limit=2000, jobs_limit=2, job_rows_limit=900))
    yield made
    made.extensions["kitproof.jobs"].close()
    made.extensions["kitproof.store"].engine.dispose()


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A client of it."""
    return app.test_client()
