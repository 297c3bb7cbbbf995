"""``/v1/proposals`` over HTTP."""

from collections.abc import Callable
from typing import Any

from flask.testing import FlaskClient

WANTED = {"mate": {"kind": "bore", "diameter": "5 H7", "depth": 20}, "fit": "location"}


def test_the_example_of_the_contract(client: FlaskClient) -> None:
    """A mate and a fit in, ranked parts out, each with why."""
    reply = client.post("/v1/proposals", json=WANTED).get_json()
    first = reply["proposals"][0]
    assert first["order_text"] == "Parallel pin ISO 8734 - 5 x 20 - A - St"
    assert first["standards"][0] == "ISO 8734"
    assert first["rare"] is False
    assert first["why"]
    assert first["dimensions"]["outer_diameter"] == {
        "nominal": 5,
        "lower": 5.004,
        "upper": 5.012,
        "tolerance_class": "m6",
    }
    assert first["substitutes"][0] == {
        "order_text": "Parallel pin DIN 6325 - 5 m6 x 20",
        "standards": ["DIN 6325"],
        "differs": [],
    }
    assert reply["mate"]["kind"] == "bore"
    assert reply["fit"]["wanted"] == "location"
    assert reply["reason"] is None


def test_a_short_form_serves_as_well(client: FlaskClient) -> None:
    """And lengths can come back in inches."""
    reply = client.post("/v1/proposals?units=in", json={"bore": "12.7 H7", "fit": "-0.05..0.05", "length": "1 in"})
    assert reply.status_code == 200
    assert reply.get_json()["units"] == "in"
    assert reply.get_json()["mate"]["diameter"]["nominal"] == 0.5


def test_the_other_forms(client: FlaskClient) -> None:
    """A row for each proposal; the plain word is the first order text; no proposal is one row with the reason."""
    text = client.post("/v1/proposals.txt", json=WANTED).get_data(as_text=True)
    assert text == "Parallel pin ISO 8734 - 5 x 20 - A - St"
    lines = client.post("/v1/proposals.csv", json=WANTED).get_data(as_text=True).splitlines()
    assert lines[0].startswith("rank,order_text,family,standards,rare,why,")
    assert lines[1].startswith("1,Parallel pin ISO 8734 - 5 x 20 - A - St,parallel pin,")
    assert len(lines) > 3
    none = client.post("/v1/proposals.xml", json={"presence": "yes"}).get_data(as_text=True)
    assert "<reason>a part that only has to be there can be anything</reason>" in none
    assert '<table id="proposals">' in client.post("/v1/proposals.html", json=WANTED).get_data(as_text=True)
    field = client.post("/v1/proposals.txt?field=proposals.1.order_text", json=WANTED).get_data(as_text=True)
    assert field.startswith("Spring pin ISO 8752")


def test_what_is_not_understood_is_named(client: FlaskClient, assert_problem: Callable[..., dict[str, Any]]) -> None:
    """With the value, what is accepted, and an example."""
    for wanted, field in (
        ({"mate": {"kind": "bore", "diameter": "5 Q7"}}, "mate.diameter"),
        ({"mate": {"kind": "bore", "diameter": "5 H7"}, "fit": "snug"}, "fit"),
        ({"mate": {"kind": "hole"}}, "mate.kind"),
        ({"bore": "5 H7", "family": "bolt of lightning"}, "family"),
        ({}, "mate"),
    ):
        body = assert_problem(client.post("/v1/proposals", json=wanted), 422, "bad-value", field)
        assert body["accepted"]
    assert_problem(client.post("/v1/proposals", json={"boar": 5}), 422, "unknown-field", "boar")
    assert_problem(client.get("/v1/proposals"), 405, "method-not-allowed")
