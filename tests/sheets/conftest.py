"""The running service, and LibreOffice in folders of the tests' own; without LibreOffice these tests are skipped."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from bench.server import HOST, Server
from tests.sheets.office import SOFFICE, Office


@pytest.fixture(scope="session")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the running service."""
    with Server("service.wsgi:app", "/readyz", tmp_path_factory.mktemp("served"), {"KITPROOF_WORKERS": "1"}) as server:
        yield f"http://{HOST}:{server.port}"


@pytest.fixture(scope="session")
def trusted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder whose sheets may fetch."""
    return tmp_path_factory.mktemp("trusted")


@pytest.fixture(scope="session")
def office(tmp_path_factory: pytest.TempPathFactory, trusted: Path) -> Callable[[str], Office]:
    """LibreOffice by locale."""
    if SOFFICE is None:
        pytest.skip("LibreOffice Calc is not installed (Debian: apt-get install libreoffice-calc)")
    made: dict[str, Office] = {}

    def of(locale: str) -> Office:
        if locale not in made:
            made[locale] = Office(tmp_path_factory.mktemp("office"), trusted, locale)
        return made[locale]

    return of
