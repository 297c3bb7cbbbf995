"""``/openapi.json``: valid, complete, and true to the replies."""

import re
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from jsonschema import Draft202012Validator
from openapi_spec_validator import OpenAPIV31SpecValidator

UNDOCUMENTED = {
    "/",
    "/proof",
    "/order",
    "/order/edit",
    "/order/why",
    "/order/keep",
    "/bench",
    "/job",
    "/docs",
    "/openapi.json",
    "/metrics",
}
"""Pages, the description itself, and what monitoring systems read in a form of their own."""


@pytest.fixture
def spec(client: FlaskClient) -> dict[str, Any]:
    """The description as it is served."""
    found: dict[str, Any] = client.get("/openapi.json").get_json()
    return found


def test_the_description_is_valid(spec: dict[str, Any]) -> None:
    """By the specification's own schema."""
    assert spec["openapi"].startswith("3.1")
    assert list(OpenAPIV31SpecValidator(spec).iter_errors()) == []


def test_every_route_is_described(app: Flask, spec: dict[str, Any]) -> None:
    """But for pages; a form by suffix is the same resource."""
    rules = {re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", rule.rule) for rule in app.url_map.iter_rules()}
    assert {rule for rule in rules if not rule.endswith(".{suffix}")} - UNDOCUMENTED == set(spec["paths"])


def test_every_parameter_and_object_has_a_meaning_and_an_example(spec: dict[str, Any]) -> None:
    """A client can be written from the description alone."""
    for path, operations in spec["paths"].items():
        for operation in operations.values():
            assert operation["summary"], path
            for parameter in operation["parameters"]:
                assert parameter["description"], (path, parameter["name"])
                assert "example" in parameter, (path, parameter["name"])
    for name, schema in spec["components"]["schemas"].items():
        for field, about in schema["properties"].items():
            assert about.get("description"), (name, field)


def test_every_operation_documents_errors(spec: dict[str, Any]) -> None:
    """By the one shape."""
    for operations in spec["paths"].values():
        for operation in operations.values():
            problem = operation["responses"]["default"]["content"]["application/problem+json"]
            assert problem["schema"] == {"$ref": "#/components/schemas/Problem"}


def test_good_replies_are_as_described(spec: dict[str, Any], replies: dict[str, list[Any]]) -> None:
    """Held against the JSON schema that a client would use."""
    for name, found in replies.items():
        method, path = name.split()
        shown = re.sub(r"<(?:\w+:)?(\w+)>", r"{\1}", path)
        responses = spec["paths"][shown][method.lower()]["responses"]
        content = next(responses[status] for status in ("202", "201", "200") if status in responses)["content"]
        schema = {**content["application/json"]["schema"], "components": spec["components"]}
        for reply in found:
            errors = [error.message for error in Draft202012Validator(schema).iter_errors(reply)]
            assert errors == [], path


def test_an_error_is_as_described(client: FlaskClient, spec: dict[str, Any]) -> None:
    """Also held against the JSON schema."""
    schema = {"$ref": "#/components/schemas/Problem", "components": spec["components"]}
    Draft202012Validator(schema).validate(client.get("/v1/verdict?lien=x").get_json())
