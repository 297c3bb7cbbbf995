"""``/v1/orders/check`` over HTTP; ``tests/orders`` holds what it finds."""

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient

from schemas.orders import LOSS, NEED, ORDER, ORDER_LINE, STEP, STOCK, SUPPLIER
from service.app import create_app
from service.config import Settings
from service.orders import intake

AssertProblem = Callable[..., dict[str, Any]]

ORDER_BODY: dict[str, Any] = {
    "needs": [
        {
            "id": "N1",
            "description": "index pins of the carousel",
            "quantity": 6,
            "step": "plate",
            "mate": {"kind": "bore", "diameter": "5 H7", "depth": 20},
            "fit": "location",
        }
    ],
    "lines": [
        {
            "id": "L1",
            "line": "M5 dowel pin",
            "quantity": 10,
            "for": ["N1"],
            "supplier": "A",
            "lead_time": {"low": 10, "likely": 14, "high": 60},
            "ordered_on": "2027-01-11",
            "received_on": None,
        }
    ],
    "stock": [{"id": "S1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 2}],
    "steps": [{"id": "strip", "after": [], "irreversible": True}, {"id": "plate", "after": ["strip"], "days": 2}],
    "start_on": "2027-02-01",
    "today": "2027-01-15",
}
READY = {**ORDER_BODY, "stock": [{"id": "S1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 6}], "lines": []}


def post(client: FlaskClient, body: Any = ORDER_BODY, path: str = "/v1/orders/check", **query: str) -> Any:
    """Post an order."""
    return client.post(path, json=body, query_string=query)


class TestReply:
    """What an order check answers."""

    def test_the_reply_is_the_one_of_the_contract(self, client: FlaskClient) -> None:
        """Ready first, then lines, needs, what is missing, dates and gates."""
        reply = post(client)
        body = reply.get_json()
        assert (reply.status_code, next(iter(body)), body["ready"]) == (200, "ready", False)
        need = body["needs"][0]
        assert (need["id"], need["required"], need["covered"], need["in_doubt"]) == ("N1", 6, 2, 4)
        assert need["state"] == "in doubt"
        assert [(one["id"], one["quantity"]) for one in need["by"]] == [("S1", 2), ("L1", 4)]
        assert [(one["id"], one["verdict"]) for one in body["lines"]] == [("L1", "ask")]
        assert (body["missing"], body["short"], body["duplicates"]) == ([], [], [])
        assert body["surplus"][0]["quantity"] == 6
        kit = body["schedule"]["kit"]
        assert kit["p50"] < kit["p90"]
        assert [one["id"] for one in body["schedule"]["steps"]] == ["strip", "plate"]
        assert body["schedule"]["deciding"][0]["id"] == "L1"
        assert [(one["step"], one["open"]) for one in body["gates"]] == [("strip", False), ("plate", False)]
        assert body["near_misses"][0]["order_text"] == "Parallel pin ISO 8734 - 5 x 20 - A - St"

    def test_ready_stands_in_a_header_and_is_the_word(self, client: FlaskClient) -> None:
        """X-Verdict is fits only where the order is ready."""
        for body, word, verdict in ((ORDER_BODY, "not ready", "ask"), (READY, "ready", "fits")):
            reply = post(client, body, "/v1/orders/check.txt")
            assert reply.get_data(as_text=True) == reply.headers["X-Ready"] == word
            assert reply.headers["X-Verdict"] == verdict

    def test_what_is_missing_is_never_fits(self, client: FlaskClient) -> None:
        """Though every line there is fits."""
        assert post(client, {**READY, "stock": []}).headers["X-Verdict"] == "ask"

    @pytest.mark.parametrize(("body", "status"), [(ORDER_BODY, 409), (READY, 200)])
    def test_a_gate_stops_what_is_not_ready(self, client: FlaskClient, body: Any, status: int) -> None:
        """The body stays the same."""
        reply = post(client, body, gate="1")
        assert reply.status_code == status
        assert reply.get_json() == post(client, body).get_json()

    def test_every_form_says_the_same(self, client: FlaskClient) -> None:
        """A row for each thing that is said."""
        rows = list(csv.DictReader(io.StringIO(post(client, path="/v1/orders/check.csv").get_data(as_text=True))))
        kinds = [row["kind"] for row in rows]
        assert kinds[:2] == ["order", "reason"]
        assert {"need", "line", "stock", "near miss", "surplus", "step", "deciding"} <= set(kinds)
        assert rows[0]["state"] == "not ready"
        xml = ElementTree.fromstring(post(client, path="/v1/orders/check.xml").data)  # noqa: S314 - our own reply
        assert [row.findtext("kind") for row in xml] == kinds
        assert b'<table id="order">' in post(client, path="/v1/orders/check.html").data

    def test_one_field_can_be_asked_for(self, client: FlaskClient) -> None:
        """As everywhere."""
        reply = post(client, path="/v1/orders/check.txt", field="schedule.kit.p90")
        assert reply.get_data(as_text=True) == post(client).get_json()["schedule"]["kit"]["p90"]

    def test_lengths_leave_in_inches_where_asked(self, client: FlaskClient) -> None:
        """Amounts that are lengths, and the numbers of findings."""
        body = {
            "needs": [{"id": "N1", "quantity": "254 mm", "part": "M8 threaded rod"}],
            "lines": [{"id": "L1", "line": "M8 threaded rod", "quantity": "1 m"}],
        }
        need = post(client, body, units="in").get_json()["needs"][0]
        assert (need["required"], need["unit"]) == (10, "in")


class TestSheets:
    """CSV as spreadsheets save it."""

    NEEDS = "Pos;Menge;Beschreibung;Bohrung;Passung\nN1;6;Stifte;5 H7;location\n"
    LINES = "Pos;Stückzahl;Bezeichnung;Farbe;Lieferzeit [Wochen]\nL1;6;ISO 8734 - 5 x 20 - A - St;rot;2-3\n"

    def upload(self, client: FlaskClient, needs: bytes, lines: bytes, **form: str) -> Any:
        """Upload two sheets."""
        files: dict[str, Any] = {"needs": (io.BytesIO(needs), "needs.csv"), "lines": (io.BytesIO(lines), "lines.csv")}
        return client.post("/v1/orders/check", data={**files, **form}, content_type="multipart/form-data")

    @pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
    def test_an_upload_is_the_same_as_text_in_json(self, client: FlaskClient, encoding: str) -> None:
        """In every encoding that a spreadsheet marks."""
        reply = self.upload(client, self.NEEDS.encode(encoding), self.LINES.encode(encoding), today="2027-01-15")
        inline = post(client, {"needs": self.NEEDS, "lines": self.LINES, "today": "2027-01-15"})
        assert reply.status_code == 200, reply.get_data(as_text=True)
        assert reply.get_json() == inline.get_json()
        assert reply.get_json()["ready"] is True

    def test_a_column_that_is_not_understood_is_named(self, client: FlaskClient) -> None:
        """In the reply and in the table."""
        body = {"needs": self.NEEDS, "lines": self.LINES}
        assert post(client, body).get_json()["columns_not_read"] == [{"sheet": "lines", "column": "Farbe", "cells": 1}]
        table = post(client, body, "/v1/orders/check.csv").get_data(as_text=True)
        assert "column Farbe of lines is not understood (1 cells)" in table

    def test_a_sheet_of_windows_is_read_and_noted(self, client: FlaskClient) -> None:
        """Its encoding is a guess."""
        notes = self.upload(client, self.NEEDS.encode("cp1252"), self.LINES.encode("cp1252")).get_json()["notes"]
        assert "lines is not UTF-8: it is read as Windows-1252" in notes

    def test_other_fields_of_the_form_are_options_of_the_order(self, client: FlaskClient) -> None:
        """Objects as JSON."""
        form = {"copies": "2", "suppliers": json.dumps([{"id": "A", "record": [3]}])}
        body = self.upload(client, self.NEEDS.encode(), self.LINES.encode(), **form).get_json()
        assert body["needs"][0]["required"] == 12

    def test_text_that_was_defused_is_taken_back(self, client: FlaskClient) -> None:
        """A reply of ours may become a sheet again, and is defused in turn."""
        lines = "Pos;Menge;Bezeichnung\nL1;6;'=cmd\n"
        body = post(client, {"needs": self.NEEDS, "lines": lines}).get_json()
        assert body["lines"][0]["line"] == "=cmd"
        table = post(client, {"needs": self.NEEDS, "lines": lines}, "/v1/orders/check.csv").get_data(as_text=True)
        assert "\n=cmd" not in table
        assert "'=cmd" in table

    @pytest.mark.parametrize(
        ("data", "code", "field"),
        [
            ({"lines": "x"}, "missing-field", "needs"),
            ({"needs": "Menge;Bohrung\n6;5 H7\n", "colour": "red"}, "unknown-field", "colour"),
            ({"needs": "Menge;Bohrung\n6;5 H7\n", "copies": "many"}, "bad-value", "copies"),
            ({"needs": "Farbe;Form\nrot;rund\n"}, "bad-value", "needs"),
        ],
    )
    def test_a_fault_of_an_upload_names_its_part(
        self, client: FlaskClient, assert_problem: AssertProblem, data: dict[str, str], code: str, field: str
    ) -> None:
        """As a fault of JSON does."""
        reply = client.post("/v1/orders/check", data=data, content_type="multipart/form-data")
        assert_problem(reply, 422, code, field)

    def test_an_upload_has_its_limit(self, tmp_path: Path, assert_problem: AssertProblem) -> None:
        """The one of a JSON body, whether its length is told beforehand or not."""
        small = create_app(Settings(database_url=f"sqlite:///{tmp_path}/a.sqlite3", body_limit=2000)).test_client()
        assert self.upload(small, self.NEEDS.encode(), self.LINES.encode()).status_code == 200
        assert_problem(self.upload(small, b"x" * 3000, b"x"), 413, "too-large")
        body = b'--b\r\nContent-Disposition: form-data; name="needs"\r\n\r\n' + b"x" * 3000 + b"\r\n--b--\r\n"
        reply = small.post(
            "/v1/orders/check",
            input_stream=io.BytesIO(body),
            content_type="multipart/form-data; boundary=b",
            environ_overrides={"wsgi.input_terminated": True},
        )
        assert_problem(reply, 413, "too-large")


class TestRefused:
    """Orders that cannot be checked."""

    @pytest.mark.parametrize(
        ("body", "code", "field"),
        [
            ({}, "missing-field", "needs"),
            ({"needs": []}, "nothing-to-check", "needs"),
            ({"needs": None}, "bad-value", "needs"),
            ({"needs": ""}, "nothing-to-check", "needs"),
            ({**ORDER_BODY, "colour": 1}, "unknown-field", "colour"),
            ({**ORDER_BODY, "copies": "x"}, "bad-value", "copies"),
            ({**ORDER_BODY, "steps": [{"id": "a", "after": ["a"]}]}, "bad-value", "steps"),
            ({"needs": [{"id": "N1", "bore": "5 H7"}]}, "missing-field", "needs.N1.quantity"),
            ([], "bad-value", "body"),
        ],
    )
    def test_the_field_at_fault_is_named(
        self, client: FlaskClient, assert_problem: AssertProblem, body: Any, code: str, field: str
    ) -> None:
        """An empty order is an error, never ready."""
        assert_problem(post(client, body), 422, code, field)

    def test_an_error_is_one_plain_line_in_text_forms(self, client: FlaskClient) -> None:
        """And 200 where errors are to stand in the sheet."""
        assert post(client, {}, "/v1/orders/check.txt").get_data(as_text=True).startswith("error: needs")
        assert post(client, {}, "/v1/orders/check.csv", errors="inline").status_code == 200

    def test_only_json_and_uploads_are_read(self, client: FlaskClient, assert_problem: AssertProblem) -> None:
        """A bare sheet does not say which it is."""
        reply = client.post("/v1/orders/check", data="needs", content_type="text/csv")
        assert_problem(reply, 415, "unsupported-media", "Content-Type")


@pytest.mark.parametrize(
    ("schema", "fields"),
    [
        (ORDER, intake.ORDER_FIELDS),
        (NEED, intake.NEED_FIELDS),
        (ORDER_LINE, intake.LINE_FIELDS),
        (STOCK, intake.STOCK_FIELDS),
        (STEP, intake.STEP_FIELDS),
        (SUPPLIER, intake.SUPPLIER_FIELDS),
        (LOSS, intake.LOSS_FIELDS),
    ],
)
def test_the_wire_names_what_the_service_reads(schema: Any, fields: tuple[str, ...]) -> None:
    """No field more, none less."""
    assert {field.data_key or name for name, field in schema.fields.items()} == set(fields)


def test_every_example_of_the_wire_is_accepted(client: FlaskClient) -> None:
    """Field by field, in an order that has what they refer to."""
    base: dict[str, Any] = {
        "needs": [{"id": name, "quantity": 1, "presence": "yes"} for name in ("N1", "N2", "N7")],
        "lines": [{"id": name, "line": "cable", "quantity": 9} for name in ("L1", "L3", "L4")],
        "steps": [{"id": "strip"}, {"id": "plate"}],
        "variants": {"short": 2},
        "today": "2027-02-20",
    }
    for entry, schema, own in (
        ("needs", NEED, {"id": "x", "quantity": 1}),
        ("lines", ORDER_LINE, {"id": "x", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 9}),
        ("stock", STOCK, {"id": "x", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 9}),
        ("steps", STEP, {"id": "x"}),
        ("suppliers", SUPPLIER, {"id": "x"}),
        ("losses", LOSS, {"need": "N1"}),
    ):
        for name, field in schema.fields.items():
            key = field.data_key or name
            if key == "id":
                continue
            value = {**own, key: field.metadata["example"]}
            if key in ("fit", "temperature", "part_material"):
                value = {"temperature": "60", **value, "bore": "5 H7"}
            reply = post(client, {**base, entry: [*base.get(entry, []), value]})
            assert reply.status_code == 200, (entry, key, reply.get_data(as_text=True))
    for name, field in ORDER.fields.items():
        if name not in ("needs", "lines", "stock", "steps", "losses", "today"):
            reply = post(client, {**base, name: field.metadata["example"]})
            assert reply.status_code == 200, (name, reply.get_data(as_text=True))
