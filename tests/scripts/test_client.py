"""A client that is generated from ``/openapi.json``, and used: the description is all that a program needs."""

import importlib
import json
import sys
import urllib.request
from collections.abc import Iterator
from http import HTTPStatus
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from openapi_python_client import generate
from openapi_python_client.config import Config, ConfigFile, MetaType
from openapi_python_client.parser.errors import ErrorLevel

PACKAGE = "kitproof_client"


class Api:
    """The generated package: ``call`` sends one request by the name of its operation."""

    def __init__(self, described: dict[str, Any], address: str) -> None:
        """Import the package and connect it."""
        operations = [operation for path in described["paths"].values() for operation in path.values()]
        self.tags = {operation["operationId"]: operation["tags"][0] for operation in operations}
        self.client = importlib.import_module(PACKAGE).Client(base_url=address)
        self.models = importlib.import_module(f"{PACKAGE}.models")

    def operation(self, name: str) -> ModuleType:
        """Return the module of an operation."""
        return importlib.import_module(f"{PACKAGE}.api.{self.tags[name]}.{name}")

    def call(self, name: str, *path: str, **fields: Any) -> Any:
        """Return the answer to one request: its status and its parsed body."""
        return self.operation(name).sync_detailed(*path, client=self.client, **fields)


@pytest.fixture(scope="module")
def described(address: str) -> dict[str, Any]:
    """The description as it is served."""
    with urllib.request.urlopen(f"{address}/openapi.json") as reply:  # noqa: S310 - the loopback
        found: dict[str, Any] = json.load(reply)
    return found


@pytest.fixture(scope="module")
def api(described: dict[str, Any], address: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Api]:
    """A client generated anew."""
    folder: Path = tmp_path_factory.mktemp("generated")
    source = folder / "openapi.json"
    source.write_text(json.dumps(described), "utf-8")
    config = Config.from_sources(
        ConfigFile(post_hooks=[]), MetaType.NONE, source, "utf-8", overwrite=False, output_path=folder / PACKAGE
    )
    problems = generate(config=config)
    assert [problem for problem in problems if problem.level is ErrorLevel.ERROR] == []
    # It writes no clients for bodies of rows, which are sent as they are; nothing else may be left out.
    left_out = {line for problem in problems for line in str(problem.detail).split("\n")}
    assert left_out <= {"Unsupported content type text/csv", "Unsupported content type application/x-ndjson"}
    sys.path.insert(0, str(folder))
    try:
        found = Api(described, address)
        with found.client:
            yield found
    finally:
        sys.path.remove(str(folder))
        for name in [name for name in sys.modules if name.partition(".")[0] == PACKAGE]:
            del sys.modules[name]


def _takes_rows_only(operation: dict[str, Any]) -> bool:
    """Tell whether an operation takes nothing but bodies of rows, for which the generator writes no client."""
    bodies = set(operation.get("requestBody", {}).get("content", {}))
    return bool(bodies) and bodies <= {"text/csv", "application/x-ndjson"}


def test_every_operation_has_its_function(api: Api, described: dict[str, Any]) -> None:
    """None is passed over but the upload of rows as a job, no two share a name."""
    operations = [one for path in described["paths"].values() for one in path.values()]
    assert len(api.tags) == len(operations) > 10
    of_rows = {one["operationId"] for one in operations if _takes_rows_only(one)}
    assert of_rows == {"post_v1_jobs"}
    for name in set(api.tags) - of_rows:
        assert callable(api.operation(name).sync_detailed), name


def test_a_check_is_answered_with_typed_values(api: Api) -> None:
    """Readings, limits, threads, clearance and the window wanted."""
    answer = api.call("get_v1_verdict", line="M5 dowel pin", bore="5 H7", fit="location")
    verdict = answer.parsed
    assert (answer.status_code, type(verdict)) == (HTTPStatus.OK, api.models.Verdict)
    assert verdict.verdict == "ask"
    first = verdict.readings[0]
    assert (first.clearance.lower, first.clearance.upper) == (-3.015, -2.994)
    assert first.dimensions["outer_diameter"] == api.models.Limits(8, 8.006, 8.015, "m6")
    assert first.dimensions["internal_thread"].designation == "M5"
    assert (verdict.fit.from_, verdict.mate.diameter.upper) == ("H7/k6 to H7/n6 at 5 mm", 5.012)


def test_a_gate_and_an_error_have_their_types(api: Api) -> None:
    """409 carries the verdict, everything else the one shape of errors."""
    gate = api.call("get_v1_verdict", line="M5 dowel pin", bore="5 H7", gate=True)
    assert (gate.status_code, type(gate.parsed)) == (HTTPStatus.CONFLICT, api.models.Verdict)
    error = api.call("get_v1_verdict", line="M5 dowel pin", bore="5 Q7")
    assert (error.status_code, type(error.parsed)) == (HTTPStatus.UNPROCESSABLE_ENTITY, api.models.Problem)
    assert (error.parsed.field, error.parsed.value) == ("bore", "5 Q7")


def test_a_list_of_checks_is_answered_by_a_list(api: Api) -> None:
    """One object by one object."""
    check = api.models.Check
    body = [check(line="M5 dowel pin", bore="5 H7"), check(line="608", shaft="8 h6"), check(line="x", bore="5 Q7")]
    rows = api.call("post_v1_verdicts", body=body).parsed
    assert [(type(row), row.number) for row in rows] == [(api.models.VerdictRow, number) for number in (1, 2, 3)]
    assert rows[2].error.field == "bore"
    one = api.call("post_v1_verdicts", body=body[0]).parsed
    assert (type(one), one.verdict) == (api.models.Verdict, "ask")
    (row,) = api.call("get_v1_verdicts", line=["M5 dowel pin"], bore=["5 H7"]).parsed
    assert row.verdict == "ask"


def test_other_resources_answer_with_typed_values(api: Api) -> None:
    """What a program would ask next."""
    pair = api.call("get_v1_fits", size="25", hole="H8", shaft="f7").parsed
    assert (pair.clearance.lower, pair.clearance.upper, pair.kind) == (0.02, 0.074, "clearance")
    assert api.call("get_v1_reading", line="10 pcs M3x10 SHCS A2-70").parsed.quantity == 10
    assert len(api.call("get_v1_families").parsed.families) > 10
    assert api.call("get_v1_reference_table", "it_grades").parsed.name == "it_grades"
    assert api.call("get_v1_tightening", thread="M8").parsed.cautions
    measured = api.models.Measured.from_dict(
        {"measured": {"outer_diameter": 8.01, "length": 30.1}, "uncertainty": 0.03}
    )
    assert api.call("post_v1_identifications", body=measured).parsed.candidates
