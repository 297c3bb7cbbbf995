"""Requests made up from the description alone: no fault of ours, and no reply that is not described."""

import re
from collections.abc import Iterator
from typing import Any
from urllib.parse import unquote

import pytest
import schemathesis
from flask import Flask
from hypothesis import HealthCheck, Phase, given, settings
from schemathesis.checks import not_a_server_error
from schemathesis.generation import GenerationMode
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from schemas.stored_orders import PLAN
from service.app import create_app
from service.config import Settings

CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
]
BOUNDED = settings(
    max_examples=4,
    derandomize=True,
    deadline=None,
    database=None,
    phases=(Phase.generate,),
    suppress_health_check=tuple(HealthCheck),
)
"""So many requests of each kind, the same in every run."""


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """The application with a store of its own."""
    made = create_app(Settings(database_url=f"sqlite:///{tmp_path_factory.mktemp('store')}/a.sqlite3"))
    yield made
    made.extensions["kitproof.jobs"].close()
    made.extensions["kitproof.store"].engine.dispose()


@pytest.fixture(scope="module")
def described(app: Flask) -> Any:
    """The description, as a client has it."""

    def here(environ: Any, start_response: Any) -> Any:
        return app({**environ, "REMOTE_ADDR": "127.0.0.1"}, start_response)

    return schemathesis.openapi.from_wsgi("/openapi.json", here)


def existing(app: Flask) -> dict[str, str]:
    """Return names in paths under which there is something."""
    client = app.test_client()
    order = client.post("/v1/orders", json=PLAN).get_json()["id"]
    habit = {"sign": f"M{order[:4]}", "part": "pin", "means": "internal thread"}
    noted = client.post("/v1/suppliers/A/habits", json=habit).get_json()["id"]
    rows = {"data": "line,bore\nM5 dowel pin,5 H7\n", "content_type": "text/csv"}
    job = client.post("/v1/jobs", **rows).get_json()["id"]
    app.extensions["kitproof.jobs"].work(job)
    return {"order": order, "supplier": "A", "habit": noted, "table": "it_grades", "job": job}


@pytest.mark.parametrize("mode", [GenerationMode.POSITIVE, GenerationMode.NEGATIVE], ids=["as described", "otherwise"])
@pytest.mark.parametrize("there", [True, False], ids=["there", "anywhere"])
def test_every_reply_is_described(app: Flask, described: Any, mode: GenerationMode, there: bool) -> None:
    """For every operation, on what is there and on what is not: status, media type, headers and body."""
    count = 0
    for found in described.get_all_operations():
        operation = found.ok()
        named = re.findall(r"{(\w+)}", operation.path)
        if there and not named:
            continue
        options: dict[str, Any] = {}
        if there:
            known = existing(app)
            options["path_parameters"] = {name: known[name] for name in named}
        strategy = operation.as_strategy(mode, **options)

        @BOUNDED
        @given(case=strategy)
        def check(case: schemathesis.Case) -> None:
            case.call_and_validate(checks=_checks(case) if _routed(app, case) else [not_a_server_error])

        check()
        count += 1
    assert count > 10


def _checks(case: schemathesis.Case) -> list[Any]:
    """Return what a reply is held against; what field= picks is no whole reply, which a description cannot tell."""
    picks = "field" in (case.query or {})
    return [check for check in CHECKS if not (picks and check is response_schema_conformance)]


def _routed(app: Flask, case: schemathesis.Case) -> bool:
    """Return whether a made-up name leaves the path one of the operation's own."""
    path = unquote(case.formatted_path)
    return app.url_map.bind("localhost").test(path, case.method)
