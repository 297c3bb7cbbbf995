"""What every reply carries, on every route and for every method."""

import logging
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from reference import tables
from service.app import create_app
from service.config import Settings

ROUTES = (
    "/",
    "/docs",
    "/openapi.json",
    "/healthz",
    "/readyz",
    "/v1/reading?line=M5+dowel+pin",
    "/v1/verdict?line=M5+dowel+pin&bore=5+H7&fit=location",
    "/v1/fits?size=25&hole=H8&shaft=f7",
    "/v1/reference",
    "/v1/reference/it_grades",
)
FAULTY = ("/nowhere", "/v1/verdict", "/v1/reading?lin=x", "/v1/fits?size=-1&hole=H8&shaft=f7", "/v1/reference/none")


@pytest.mark.parametrize("address", ROUTES + FAULTY)
def test_every_reply_names_its_request_its_figures_and_what_it_may_load(client: FlaskClient, address: str) -> None:
    """Request id, fingerprint and security headers stand on answers and on errors alike."""
    headers = client.get(address, headers={"X-Request-Id": "order-7.a"}).headers
    assert headers["X-Request-Id"] == "order-7.a"
    assert headers["X-Reference-Fingerprint"] == tables.fingerprint()
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Cache-Control"] == "no-store"
    assert headers["Content-Security-Policy"].startswith("default-src 'none'; style-src 'sha256-")


@pytest.mark.parametrize("address", ROUTES)
def test_every_answer_is_a_200(client: FlaskClient, address: str) -> None:
    """The examples of this module are answered, so that the tests above look at answers."""
    assert client.get(address).status_code == 200


@pytest.mark.parametrize("address", ROUTES + FAULTY)
def test_head_says_what_get_says_without_its_body(client: FlaskClient, address: str) -> None:
    """A sheet asks HEAD before GET and gives up where HEAD fails."""
    got, headed = client.get(address), client.head(address)
    assert headed.status_code == got.status_code
    assert headed.content_type == got.content_type
    assert headed.headers.get("X-Verdict") == got.headers.get("X-Verdict")
    assert headed.data == b""


@pytest.mark.parametrize("address", ROUTES)
def test_options_names_the_methods(client: FlaskClient, address: str) -> None:
    """A sheet asks OPTIONS first; it costs nothing and judges nothing."""
    reply = client.options(address)
    assert reply.status_code == 200
    assert {"GET", "HEAD", "OPTIONS"} <= set(reply.headers["Allow"].split(", "))
    assert "X-Verdict" not in reply.headers


@pytest.mark.parametrize("address", ["/v1/fits/?size=25&hole=H8&shaft=f7", "/healthz/", "/docs/"])
def test_a_slash_at_the_end_is_no_redirect(client: FlaskClient, address: str) -> None:
    """curl --fail calls a redirect a success, with an empty body."""
    assert client.get(address).status_code == 200


def test_a_doubled_slash_is_no_redirect(client: FlaskClient) -> None:
    """What is not there is said to be not there."""
    assert client.get("/v1//fits?size=25&hole=H8&shaft=f7").status_code == 404


@pytest.mark.parametrize("given", ["a b", "x" * 65, "<script>", ""])
def test_a_request_id_that_is_no_plain_word_is_replaced(client: FlaskClient, given: str) -> None:
    """What a caller sends goes to logs and headers, so only plain words are taken."""
    taken = client.get("/healthz", headers={"X-Request-Id": given}).headers["X-Request-Id"]
    assert taken != given
    assert len(taken) == 16


def test_a_fault_of_ours_is_a_500_of_the_same_shape_and_goes_to_the_log(
    caplog: pytest.LogCaptureFixture, assert_problem: Callable[..., dict[str, Any]], tmp_path: Path
) -> None:
    """The client gets the request id, the log gets what happened."""
    app: Flask = create_app(Settings(database_url=f"sqlite:///{tmp_path}/a.sqlite3"))

    @app.get("/broken")
    def broken() -> str:
        raise RuntimeError("the spanner fell in")

    with caplog.at_level(logging.ERROR):
        reply = app.test_client().get("/broken")
    body = assert_problem(reply, 500, "internal")
    assert "spanner" not in str(body)
    assert "the spanner fell in" in caplog.text
    assert body["request_id"] in caplog.text
