"""What is built and installed: the wheel, the pinned requirements, the image."""

import re
import tomllib
import zipfile
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest
from hatchling.builders.wheel import WheelBuilder

ROOT = Path(__file__).resolve().parents[1]
PACKAGES = ("reference", "schemas", "service")
REQUIREMENTS = sorted((ROOT / "requirements").glob("*.txt"))


def named(line: str) -> str:
    """Return the name of a requirement, as the index writes it."""
    return re.split(r"[\s=<>!~;\[]", line.strip(), maxsplit=1)[0].lower().replace("_", "-")


def wanted(path: Path) -> set[str]:
    """Return the requirements that a list names itself, whole."""
    lines = [line.split("#")[0].strip() for line in path.read_text("utf-8").splitlines()]
    return {line for line in lines if line and not line.startswith("-r")}


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    """The names of the files in a wheel of this checkout."""
    folder = tmp_path_factory.mktemp("wheel")
    built = next(WheelBuilder(str(ROOT)).build(directory=str(folder), versions=["standard"]))
    with zipfile.ZipFile(built) as archive:
        return set(archive.namelist())


def test_the_wheel_holds_every_module_and_every_table(wheel: set[str]) -> None:
    """A table that is left out would only be missed at its first use."""
    sources = {
        str(path.relative_to(ROOT))
        for package in PACKAGES
        for path in (ROOT / package).rglob("*")
        if path.suffix in (".py", ".csv", ".toml", ".txt", ".json", ".html", ".css") and "__pycache__" not in path.parts
    }
    assert sum(name.endswith(".csv") for name in sources) > 50
    assert sources == {name for name in wheel if not name.startswith("kitproof_service-")}


def test_the_wheel_holds_nothing_else(wheel: set[str]) -> None:
    """No tests, no data of a run, no other top-level name."""
    assert {name.split("/")[0] for name in wheel} - set(PACKAGES) == {
        name.split("/")[0] for name in wheel if ".dist-info/" in name
    }


def test_no_other_distribution_ships_a_package_of_our_names() -> None:
    """The names are plain words; another one of the same name would shadow ours or be overwritten."""
    owners = packages_distributions()
    for package in PACKAGES:
        assert set(owners.get(package, [])) <= {"kitproof-service"}


@pytest.mark.parametrize("path", REQUIREMENTS, ids=lambda path: path.name)
def test_every_requirement_is_pinned_by_hashes_and_names_no_address(path: Path) -> None:
    """The same files wherever they come from."""
    text = path.read_text("utf-8")
    blocks = [block for block in re.split(r"\n(?=\S)", re.sub(r"(?m)^\s*#.*\n?", "", text)) if block.strip()]
    assert blocks
    for block in blocks:
        assert re.match(r"[a-z0-9][a-z0-9._-]*==\S+ \\\n", block, re.IGNORECASE), block.splitlines()[0]
        assert "--hash=sha256:" in block
    assert not re.search(r"https?:|file:|--index-url|--find-links|--trusted-host|@ ", text)


def test_pins_of_the_lists_agree() -> None:
    """What is tested is what is served, all of it."""
    pins: dict[str, set[str]] = {}
    for path in REQUIREMENTS:
        for name, version in re.findall(r"(?m)^([A-Za-z0-9._-]+)==(\S+)", path.read_text("utf-8")):
            pins.setdefault(name.lower(), set()).add(version)
    assert {name: found for name, found in pins.items() if len(found) > 1} == {}
    listed = {path.stem: set(re.findall(r"(?m)^[A-Za-z0-9._-]+==", path.read_text("utf-8"))) for path in REQUIREMENTS}
    assert listed["run"] | listed["build"] <= listed["dev"]


def test_the_lists_name_what_the_project_names() -> None:
    """Requirements stand in two places, so that they are compared."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    assert wanted(ROOT / "requirements/run.in") == set(project["project"]["dependencies"])
    assert wanted(ROOT / "requirements/dev.in") == set(project["dependency-groups"]["dev"])
    assert wanted(ROOT / "requirements/build.in") == set(project["build-system"]["requires"])
    assert wanted(ROOT / "requirements/postgres.in") == set(project["project"]["optional-dependencies"]["postgres"])


@pytest.mark.parametrize("name", ["run", "postgres", "build", "dev"])
def test_every_named_requirement_is_pinned(name: str) -> None:
    """A list that was changed has to be resolved anew."""
    text = (ROOT / f"requirements/{name}.txt").read_text("utf-8")
    pinned = {named(line) for line in text.splitlines() if "==" in line}
    assert {named(line) for line in wanted(ROOT / f"requirements/{name}.in")} <= pinned


class TestImage:
    """The Dockerfile; its steps are run by ``.ci/rehearse_image.py``."""

    TEXT = (ROOT / "Dockerfile").read_text("utf-8")

    def test_it_is_pinned_and_installs_by_hashes(self) -> None:
        """The base image by a full version, every package by its hash."""
        bases = re.findall(r"(?m)^FROM (\S+)", self.TEXT)
        assert bases
        assert all(re.fullmatch(r"python:3\.\d+\.\d+-slim-\w+", base) for base in bases)
        for step in re.findall(r"pip install [^&\n]*", self.TEXT):
            assert "--require-hashes" in step or "--no-index" in step

    def test_it_runs_as_a_user_of_its_own_in_an_empty_folder(self) -> None:
        """After USER nothing is copied or run any more."""
        after = self.TEXT.split("\nUSER kitproof\n", 1)[1]
        assert re.search(r"(?m)^WORKDIR ", after)
        assert re.search(r"(?m)^HEALTHCHECK ", after)
        assert not re.search(r"(?m)^(COPY|ADD|RUN|USER) ", after)

    def test_all_that_it_copies_is_sent_to_the_engine(self) -> None:
        """.dockerignore begins with nothing at all."""
        kept = set(re.findall(r"(?m)^!(\S+)", (ROOT / ".dockerignore").read_text("utf-8")))
        for sources in re.findall(r"(?m)^COPY (?!--from)(.+) \S+$", self.TEXT):
            for source in sources.split():
                assert source.split("/")[0] in kept
                assert (ROOT / source).exists(), source
