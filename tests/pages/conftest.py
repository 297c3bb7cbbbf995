"""The service on a port of its own and a browser in front of it, both for all tests of the pages."""

import threading
from collections.abc import Iterator

import pytest
from flask import Flask
from flask.testing import FlaskClient
from werkzeug.serving import make_server

from service.app import create_app
from service.config import Settings
from tests.pages import browser as driven


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
def site(app: Flask) -> Iterator[str]:
    """Serve the application on the loopback; return its address."""
    server = make_server("127.0.0.1", 0, app, threaded=True)
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
