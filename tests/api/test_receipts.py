"""``/v1/receipts/check`` and ``/v1/identifications`` over HTTP; ``tests/receipts`` holds what they decide."""

import csv
import io
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient

AssertProblem = Callable[..., dict[str, Any]]

PIN = {"limits": {"lower": 4.982, "upper": 5.0}, "measured": [4.99, 4.985], "uncertainty": 0.03}
PART = {"measured": {"outer_diameter": 8.01, "length": 30.1, "internal_thread": "M5"}, "uncertainty": 0.03}


class TestReceipts:
    """Measured pieces."""

    def test_the_reply_is_the_one_of_the_contract(self, client: FlaskClient) -> None:
        """The decision first, in the body and in the header."""
        reply = client.post("/v1/receipts/check", json=PIN)
        body = reply.get_json()
        assert (reply.status_code, next(iter(body)), body["decision"]) == (200, "decision", "not provable")
        assert reply.headers["X-Decision"] == "not provable"
        assert body["worst"] == {"measured": 4.985, "inside": 0.003, "decision": "not provable"}
        assert body["acceptance"] is None

    @pytest.mark.parametrize(("uncertainty", "status"), [(0.03, 409), (0.001, 200)])
    def test_a_gate_stops_what_is_not_conforming(self, client: FlaskClient, uncertainty: float, status: int) -> None:
        """The body stays the same."""
        reply = client.post("/v1/receipts/check?gate=1", json={**PIN, "uncertainty": uncertainty})
        assert reply.status_code == status
        assert reply.get_json()["decision"] == reply.headers["X-Decision"]

    def test_every_form_says_the_same(self, client: FlaskClient) -> None:
        """A row per piece, the plain word the decision."""
        assert client.post("/v1/receipts/check.txt", json=PIN).get_data(as_text=True) == "not provable"
        rows = list(csv.DictReader(io.StringIO(client.post("/v1/receipts/check.csv", json=PIN).get_data(as_text=True))))
        assert [(row["measured"], row["inside"]) for row in rows] == [("4.99", "0.008"), ("4.985", "0.003")]
        xml = ElementTree.fromstring(client.post("/v1/receipts/check.xml", json=PIN).data)  # noqa: S314 - our own reply
        assert [one.findtext("decision") for one in xml] == ["not provable"] * 2
        assert b"not provable" in client.post("/v1/receipts/check.html", json=PIN).data

    def test_lengths_leave_in_inches_where_asked(self, client: FlaskClient) -> None:
        """The figures of the reply, not of the request."""
        body = client.post("/v1/receipts/check?units=in", json={**PIN, "measured": [2.54]}).get_json()
        assert body["pieces"][0]["measured"] == 0.1

    def test_a_fault_names_its_field(self, client: FlaskClient, assert_problem: AssertProblem) -> None:
        """Whether missing, unknown or not understood."""
        assert_problem(client.post("/v1/receipts/check", json={"measured": [5]}), 422, "missing-field", "limits")
        assert_problem(
            client.post("/v1/receipts/check", json={**PIN, "uncertainty": "wide"}), 422, "bad-value", "uncertainty"
        )
        assert_problem(client.post("/v1/receipts/check", json={**PIN, "colour": 1}), 422, "unknown-field", "colour")


class TestIdentifications:
    """Measured values to parts."""

    def test_the_reply_is_the_one_of_the_contract(self, client: FlaskClient) -> None:
        """Candidates are readings, best first."""
        body = client.post("/v1/identifications", json=PART).get_json()
        best = body["candidates"][0]
        assert (best["family"], best["size_names"]) == ("parallel pin with internal thread", "outer diameter")
        assert best["dimensions"]["outer_diameter"]["nominal"] == 8
        assert body["tell_apart"] is None

    def test_what_would_tell_them_apart_is_said(self, client: FlaskClient) -> None:
        """In words and by the name of the dimension."""
        body = client.post(
            "/v1/identifications", json={"measured": {"outer_diameter": 8.01, "length": 30.1}, "instrument": "calliper"}
        ).get_json()
        assert len(body["candidates"]) > 1
        assert body["tell_apart"].startswith("internal thread: ")
        assert body["decider"]["dimension"] == "internal_thread"
        assert body["uncertainty_from"].startswith("calliper, outside")

    def test_the_plain_word_is_what_to_order(self, client: FlaskClient) -> None:
        """unread where nothing is found; a table then has one row."""
        nothing = {"measured": {"outer_diameter": 333}, "uncertainty": 0}
        assert client.post("/v1/identifications.txt", json=PART).get_data(as_text=True).startswith("Parallel pin ISO")
        assert client.post("/v1/identifications.txt", json=nothing).get_data(as_text=True) == "unread"
        assert len(client.post("/v1/identifications.csv", json=nothing).get_data(as_text=True).splitlines()) == 2

    def test_a_fault_names_its_field(self, client: FlaskClient, assert_problem: AssertProblem) -> None:
        """By its path."""
        for given, code, field in (
            ({"measured": {"outer_diameter": 8}}, "missing-field", "uncertainty"),
            ({"uncertainty": 0.03}, "missing-field", "measured"),
            ({"measured": {"weight": 8}, "uncertainty": 0.03}, "bad-value", "measured.weight"),
            ({"measured": 7, "uncertainty": 0.03}, "bad-value", "measured"),
        ):
            assert_problem(client.post("/v1/identifications", json=given), 422, code, field)
