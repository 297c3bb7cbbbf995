"""Every console example in the README and the guides gives, word for word, what stands below it."""

import os
import re
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PAGES = [ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md"))]
_BLOCK = re.compile(r"^```console\n(.*?)^```", re.MULTILINE | re.DOTALL)


def _examples() -> Iterator[tuple[str, str, str]]:
    """Yield page, command and expected output of every example."""
    for page in PAGES:
        for block in _BLOCK.findall(page.read_text("utf-8")):
            for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
                lines = part.split("\n")
                end = 0
                while lines[end].endswith(("\\", "|", "&&", "||")):
                    end += 1
                yield page.name, "\n".join(lines[: end + 1]), "\n".join(lines[end + 1 :]).rstrip("\n")


EXAMPLES = list(_examples())


@pytest.fixture(scope="module")
def port(tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    """Serve the product on a free port of the loopback for the examples of this module."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        free = probe.getsockname()[1]
    folder = tmp_path_factory.mktemp("served")
    environment = {
        **os.environ,
        "KITPROOF_PORT": str(free),
        "KITPROOF_DATABASE_URL": f"sqlite:///{folder / 'kitproof.sqlite'}",
    }
    server = subprocess.Popen(
        [sys.executable, "-m", "gunicorn", "--config", "python:service.serving"],
        cwd=ROOT,
        env=environment,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        for _ in range(150):
            try:
                with urllib.request.urlopen(f"http://127.0.0.1:{free}/healthz", timeout=1):
                    break
            except OSError:
                time.sleep(0.1)
        else:
            pytest.fail("the service did not answer within 15 seconds")
        yield free
    finally:
        server.terminate()
        server.wait(timeout=30)


@pytest.mark.parametrize(("page", "command", "expected"), EXAMPLES, ids=[f"{e[0]}: {e[1][:60]}" for e in EXAMPLES])
def test_example_gives_what_the_page_says(page: str, command: str, expected: str, port: int) -> None:
    """An example typed word for word answers as printed; only the port is another."""
    assert "8383" in command, "an example talks to the service"
    result = subprocess.run(
        ["bash", "-o", "pipefail", "-c", command.replace("8383", str(port))],
        capture_output=True,
        text=True,
        timeout=30,
        check=False,
        cwd=ROOT,
    )
    assert result.stdout.rstrip("\n") == expected


def test_readme_has_worked_examples() -> None:
    """The README shows at least six."""
    assert sum(page == "README.md" for page, _, _ in EXAMPLES) >= 6
