"""The service on a port of its own and a browser in front of it, both for all tests of the pages."""

import json
import threading
from collections.abc import Iterator

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.serving import make_server

from bench.lines import checks
from service.api.jobs import CHUNK
from service.app import create_app
from service.config import Settings
from tests.pages import browser as driven

ROWS = "".join(json.dumps(check) + "\n" for check in checks(CHUNK + 30))
"""A job of two chunks."""


@pytest.fixture(scope="session")
def app(tmp_path_factory: pytest.TempPathFactory) -> Flask:
    """The application with a store of its own."""
    folder = tmp_path_factory.mktemp("site")
    return create_app(Settings(database_url=f"sqlite:///{folder / 'kitproof.sqlite3'}"))


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A client of the application, for what a browser need not look at."""
    return app.test_client()


@pytest.fixture(scope="session")
def with_jobs(app: Flask) -> Flask:
    """The application with a job in each state that a person sees: done, cancelled, running, waiting."""
    client, queue = app.test_client(), app.extensions["kitproof.jobs"]
    for chunks, cancelled in ((2, False), (1, True), (1, False), (0, False)):
        job = client.post("/v1/jobs", data=ROWS, content_type="application/x-ndjson").get_json()
        for _ in range(chunks):
            queue.work(job["id"])
        if cancelled:
            client.post(f"{job['address']}/cancel")
    return app


@pytest.fixture(scope="session")
def site(with_jobs: Flask) -> Iterator[str]:
    """Serve the application on the loopback; return its address."""
    server = make_server("127.0.0.1", 0, with_jobs, threaded=True)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        thread.join(timeout=10)
        server.server_close()


@pytest.fixture(scope="session")
def window() -> Iterator[driven.Browser]:
    """A real browser without a screen."""
    if driven.MISSING:
        pytest.skip(f"no browser to look with: {driven.MISSING} is not installed")
    with driven.Browser() as browser:
        yield browser


@pytest.fixture
def browser(window: driven.Browser) -> driven.Browser:
    """The browser with a page as wide as a desk's."""
    window.on("screen")
    window.resize(1280)
    return window
