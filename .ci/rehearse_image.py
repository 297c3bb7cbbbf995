"""Runs the steps of the Dockerfile in a clean folder, where no engine is at hand, and starts what it would start.

Folders of the image become folders under a temporary root; the base image is this machine's Python. Not rehearsed: the
base image itself, the user, the isolation. Every step that is left out is named.
"""

import json
import os
import re
import shlex
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
INSIDE = re.compile(r"(?<![\w/.])/(opt|build|srv|var/lib)(?=/|\b)")


def instructions() -> list[tuple[str, str]]:
    """Return the instructions of the Dockerfile in order."""
    text = (ROOT / "Dockerfile").read_text("utf-8")
    lines = [line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    joined = re.sub(r"\\\n\s*", " ", "\n".join(lines))
    return [(line.split(" ", 1)[0], line.split(" ", 1)[1]) for line in joined.splitlines()]


class Rehearsal:
    """What the steps have built so far."""

    def __init__(self, root: Path) -> None:
        """Begin with an empty root."""
        self.root, self.folder = root, root
        self.environ = {
            name: value for name, value in os.environ.items() if not name.startswith(("KITPROOF_", "PYTHON"))
        }
        self.command: list[str] = []
        self.health: list[str] = []

    def inside(self, text: str) -> str:
        """Return the text with the folders of the image under the root."""
        return INSIDE.sub(lambda match: f"{self.root}/{match[1]}", text)

    def carry_out(self, name: str, rest: str) -> None:
        """Do one instruction, or say that it is left out."""
        print(f"{name} {rest}"[:110], flush=True)
        if name == "WORKDIR":
            self.folder = Path(self.inside(rest))
            self.folder.mkdir(parents=True, exist_ok=True)
        elif name == "COPY" and not rest.startswith("--from"):
            *sources, target = rest.split()
            for source in sources:
                self.copy(ROOT / source, self.folder / target, folder=target.endswith("/"))
        elif name == "RUN" and not rest.startswith("useradd"):
            step = self.inside(rest).replace("python -m venv", f"{shlex.quote(sys.executable)} -m venv")
            subprocess.run(["/bin/sh", "-ec", step], cwd=self.folder, env=self.environ, check=True)
        elif name == "ENV":
            given = self.inside(rest).replace("$PATH", self.environ["PATH"])
            self.environ |= dict(part.split("=", 1) for part in shlex.split(given))
        elif name == "HEALTHCHECK":
            self.health = json.loads(self.inside(rest.split(" CMD ", 1)[1]))
        elif name == "CMD":
            self.command = json.loads(self.inside(rest))
        else:
            print("    left out")

    @staticmethod
    def copy(source: Path, target: Path, folder: bool) -> None:
        """Copy a file or the content of a folder, as COPY does."""
        if source.is_dir():
            shutil.copytree(source, target, dirs_exist_ok=True, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            place = target / source.name if folder or target.is_dir() else target
            place.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(source, place)


def serve(built: Rehearsal) -> None:
    """Start the command in its empty folder and run the health check until it passes."""
    assert not list(built.folder.iterdir()), "the working folder is not empty"
    (built.root / "var/lib/kitproof").mkdir(parents=True, exist_ok=True)
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = str(probe.getsockname()[1])
    environ = {**built.environ, "KITPROOF_HOST": "127.0.0.1", "KITPROOF_PORT": port}
    # Who runs the image for others makes a token first.
    token = ["python", "-m", "service", "token", "create", "--owner", "club", "--scope", "write"]
    subprocess.run(token, cwd=built.folder, env=environ, check=True, stdout=subprocess.DEVNULL)
    server = subprocess.Popen(built.command, cwd=built.folder, env=environ)
    try:
        for _ in range(100):
            if subprocess.run(built.health, cwd=built.folder, env=environ, capture_output=True).returncode == 0:
                break
            assert server.poll() is None, "the command ended by itself"
            time.sleep(0.1)
        else:
            raise AssertionError("the health check never passed")
        check = f"http://127.0.0.1:{port}/v1/verdict.txt?line=ISO+8734+-+5+x+20+-+A+-+St&bore=5+H7&fit=location"
        ask = f"from urllib.request import urlopen; print(urlopen({check!r}, timeout=5).read().decode())"
        asked = [built.health[0], "-c", ask]
        word = subprocess.run(asked, cwd=built.folder, check=True, capture_output=True, text=True).stdout.strip()
        assert word == "fits", f"the wheel answers {word!r}"
        print(f"the command answers: {word}; the health check passes")
        # Nothing is connected; without the driver the address would be refused.
        opened = "from service.store.engine import open_engine; open_engine('postgresql://kitproof@database/kitproof')"
        subprocess.run([built.health[0], "-c", opened], cwd=built.folder, check=True)
        print("the image takes a PostgreSQL database")
    finally:
        server.terminate()
        server.wait(10)


def main() -> None:
    """Rehearse the whole file."""
    with tempfile.TemporaryDirectory() as name:
        built = Rehearsal(Path(name))
        for instruction, rest in instructions():
            built.carry_out(instruction, rest)
        serve(built)


if __name__ == "__main__":
    main()
