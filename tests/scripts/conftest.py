"""The running service, and the scripts of the demo in a folder of the test's own."""

import os
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from bench.server import HOST, ROOT, Server

Run = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture(scope="session")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the running service."""
    with Server("service.wsgi:app", "/readyz", tmp_path_factory.mktemp("served"), {"KITPROOF_WORKERS": "1"}) as server:
        yield f"http://{HOST}:{server.port}"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the demo's scripts, to write beside them."""
    shutil.copytree(ROOT / "demo" / "scripts", tmp_path / "scripts")
    return tmp_path / "scripts"


@pytest.fixture
def run(folder: Path, address: str) -> Run:
    """Run a command in that folder; ``url`` puts another service in place of ours."""

    def command(*words: str, url: str = address) -> subprocess.CompletedProcess[str]:
        environ = {**os.environ, "KITPROOF_URL": url, "LC_ALL": "C.UTF-8"}
        return subprocess.run(words, cwd=folder, env=environ, capture_output=True, text=True, timeout=60, check=False)

    return command
