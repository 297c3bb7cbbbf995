"""Schemas: every field says what it is, and replies hold exactly what their schemas say."""

import dataclasses
from collections.abc import Iterator
from typing import Any, get_args

import pytest
from flask import Flask
from flask.testing import FlaskClient
from marshmallow import Schema, fields

from reference.quantities import Limits, Rating, ThreadSize
from schemas import verdict as verdict_schemas
from schemas.reply import LIMITS, PROBLEM, RATING, THREAD, WINDOW
from schemas.verdict import CHECK, MATE, VERDICT_QUERY, VERDICT_ROW
from service.api.openapi import resources
from service.errors import BadValue
from service.reading.model import Because, LineReading, Note, Reading
from service.verdict.mates import EXAMPLES, FIELDS
from service.verdict.model import Finding, JudgedReading, Mate, NutEnd, Verdict, Window

CHECKS = (
    {"line": "M5 dowel pin", "bore": "5 H7"},
    {"line": "M5 dowel pin", "bore": "5 Q7"},
)


def described(schema: Schema, seen: set[int] | None = None) -> Iterator[tuple[str, fields.Field[Any]]]:
    """Return every field of a schema and of what it holds, with its path."""
    for name, field in schema.fields.items():
        yield f"{type(schema).__name__}.{name}", field
        inner: Any = field
        while not isinstance(inner, fields.Nested):
            following = getattr(inner, "inner", None) or getattr(inner, "value_field", None)
            if following is None:
                break
            inner = following
        if isinstance(inner, fields.Nested):
            yield from described(inner.schema)


def schemas(app: Flask) -> list[Schema]:
    """Return every schema of the wire."""
    found = [schema for one in resources(app) for schema in (one.query, one.reply, one.body) if schema is not None]
    return [*found, PROBLEM, VERDICT_ROW]


def test_every_field_has_a_meaning_and_an_example(app: Flask) -> None:
    """The documentation is made from them."""
    for schema in schemas(app):
        for path, field in described(schema):
            assert field.metadata.get("description"), path
            inner = getattr(field, "inner", None)
            if not isinstance(field, fields.Nested) and not isinstance(inner, fields.Nested):
                assert "example" in field.metadata, path


def test_every_example_of_a_query_is_accepted(app: Flask) -> None:
    """An example that is refused would be worse than none."""
    for one in resources(app):
        for name, field in one.query.fields.items():
            assert not one.query.validate({name: field.metadata["example"]}, partial=True), (one.path, name)


def test_every_good_reply_is_what_its_schema_says(app: Flask, replies: dict[str, list[Any]]) -> None:
    """No field more, none less, each of its kind."""
    for one in resources(app):
        for reply in replies[f"{one.method} {one.path}"]:
            assert not one.reply.validate(reply, many=isinstance(reply, list)), one.path


def test_rows_of_a_batch_are_what_their_schema_says(client: FlaskClient) -> None:
    """Those that were judged and those that could not be read."""
    rows = client.post("/v1/verdicts", json=[*CHECKS, {"lien": "x"}, 7]).get_json()
    assert [row["error"] is None for row in rows] == [True, False, False, False]
    for row in rows:
        assert VERDICT_ROW.validate(row) == {}


def test_an_error_is_what_its_schema_says(client: FlaskClient) -> None:
    """The shape is the same everywhere, so one is enough here."""
    assert PROBLEM.validate(client.get("/v1/verdict?lien=x").get_json()) == {}
    assert set(PROBLEM.fields) == set(BadValue("x").body("1"))


@pytest.mark.parametrize(
    ("values", "schema", "missing", "more"),
    [
        (Limits, LIMITS, set(), set()),
        (ThreadSize, THREAD, set(), set()),
        (Rating, RATING, set(), set()),
        (Window, WINDOW, set(), set()),
        (Because, "Because", set(), set()),
        (Note, "Note", set(), set()),
        (Reading, "Reading", set(), set()),
        (LineReading, "LineReading", set(), {"reference", "units"}),
        (Finding, "Finding", set(), set()),
        (JudgedReading, "JudgedReading", {"reading"}, None),
        (Verdict, "Verdict", set(), {"reference", "units"}),
    ],
)
def test_the_wire_leaves_nothing_out(values: Any, schema: Any, missing: set[str], more: set[str] | None) -> None:
    """A field that is added to a value inside has to be added to the wire, or be left out on purpose."""
    from schemas import reading as reading_schemas

    if isinstance(schema, str):
        schema = getattr(verdict_schemas, schema, None) or getattr(reading_schemas, schema)
        schema = schema()
    inside = set(getattr(values, "_fields", ())) or {field.name for field in dataclasses.fields(values)}
    outside = {field.data_key or name for name, field in schema.fields.items()}
    assert inside - outside == missing
    if more is not None:
        assert outside - inside == more


def test_the_fields_of_a_check_are_those_that_the_verdict_reads() -> None:
    """A mate that is added there has to be added to the wire."""
    assert set(CHECK.fields) == set(FIELDS)
    assert set(FIELDS) - {"mate"} <= set(VERDICT_QUERY.fields)


def test_the_wire_knows_what_every_mate_has() -> None:
    """A kind of mate that is added has to be added to the wire."""
    inside = {field.name for kind in get_args(Mate) for field in dataclasses.fields(kind)} | {
        "kind",
        "height",
        "prevailing",
    }
    assert set(MATE.fields) == inside
    assert {field.name for field in dataclasses.fields(NutEnd)} <= set(verdict_schemas.Hole().fields)


@pytest.mark.parametrize("field", sorted(EXAMPLES))
def test_the_examples_of_the_wire_are_those_of_the_verdict(client: FlaskClient, field: str) -> None:
    """Each is understood."""
    example = CHECK.fields[field].metadata["example"]
    assert client.get("/v1/verdict", query_string={"line": "M5 dowel pin", field: example}).status_code == 200
