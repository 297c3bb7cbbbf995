"""``/v1/verdict`` and ``/v1/verdicts`` over HTTP; what a verdict says is tested with ``service.verdict``."""

import csv
import io
import json
from collections.abc import Callable
from typing import Any
from urllib.parse import urlencode
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient

from service.app import create_app
from service.config import Settings

AssertProblem = Callable[..., dict[str, Any]]

ASK = {"line": "M5 dowel pin", "bore": "5 H7", "fit": "location"}
FITS = {"line": "ISO 8734 - 5 x 20 - A - St", "bore": "5 H7", "fit": "location"}
WRONG = {"line": "ISO 8734 - 6 x 20 - A - St", "bore": "5 H7", "fit": "location"}
UNREAD = {"line": "qqqq zzzz", "bore": "5 H7", "fit": "location"}


class TestOne:
    """One check by GET."""

    def test_the_reply_is_the_one_of_the_contract(self, client: FlaskClient) -> None:
        """Mate, fit, readings with their clearance, and what to order."""
        reply = client.get("/v1/verdict", query_string=ASK)
        body = reply.get_json()
        assert (reply.status_code, reply.headers["X-Verdict"], body["verdict"]) == (200, "ask", "ask")
        assert next(iter(body)) == "verdict"
        assert body["mate"]["kind"] == "bore"
        assert body["mate"]["diameter"] == {"nominal": 5, "lower": 5, "upper": 5.012, "tolerance_class": "H7"}
        assert body["fit"]["wanted"] == "location"
        assert body["fit"]["window"] == {"lower": -0.016, "upper": 0.011}
        assert body["fit"]["from"] == "H7/k6 to H7/n6 at 5 mm"
        first, second = body["readings"][:2]
        assert (first["verdict"], first["clearance"]) == ("wrong", {"lower": -3.015, "upper": -2.994})
        assert (second["verdict"], second["clearance"]) == ("fits", {"lower": -0.012, "upper": 0.008})
        assert body["question"]
        assert body["order_text"] == "Parallel pin ISO 8734 - 5 x <length> - A - St"

    @pytest.mark.parametrize(("check", "word"), [(ASK, "ask"), (FITS, "fits"), (WRONG, "wrong"), (UNREAD, "unread")])
    def test_the_verdict_stands_in_the_header_and_is_the_word(
        self, client: FlaskClient, check: dict[str, str], word: str
    ) -> None:
        """Any verdict is an answer with status 200."""
        reply = client.get("/v1/verdict.txt", query_string=check)
        assert (reply.status_code, reply.get_data(as_text=True), reply.headers["X-Verdict"]) == (200, word, word)

    @pytest.mark.parametrize(("check", "status"), [(ASK, 409), (FITS, 200), (WRONG, 409), (UNREAD, 409)])
    @pytest.mark.parametrize("gate", ["1", "true", "yes"])
    def test_a_gate_turns_all_but_fits_into_409(
        self, client: FlaskClient, check: dict[str, str], status: int, gate: str
    ) -> None:
        """The body stays the verdict."""
        reply = client.get("/v1/verdict", query_string={**check, "gate": gate})
        assert reply.status_code == status
        assert reply.get_json()["verdict"] == reply.headers["X-Verdict"]
        assert client.head("/v1/verdict", query_string={**check, "gate": gate}).status_code == status

    def test_an_open_gate_is_no_gate(self, client: FlaskClient) -> None:
        """gate=0 says so."""
        assert client.get("/v1/verdict", query_string={**ASK, "gate": "0"}).status_code == 200

    def test_a_decimal_comma_is_understood(self, client: FlaskClient) -> None:
        """A sheet of a decimal-comma locale sends it."""
        reply = client.get("/v1/verdict", query_string={**FITS, "bore": "5,000..5,012"})
        assert reply.get_json()["mate"]["diameter"]["upper"] == 5.012

    def test_every_element_is_in_the_xml(self, client: FlaskClient) -> None:
        """Also where there is nothing to say; numbers are elements of their own."""
        roots = [
            ElementTree.fromstring(client.get("/v1/verdict.xml", query_string=check).data)  # noqa: S314 - our own reply
            for check in (ASK, UNREAD)
        ]
        assert [one.tag for one in roots[0]] == [one.tag for one in roots[1]]
        assert roots[0].findtext("verdict") == "ask"
        assert roots[0].findtext("clearance_lower") == "-3.015"
        assert "does not go in" in str(roots[0].findtext("reason"))

    def test_a_number_on_a_page_says_its_value_and_language(self, client: FlaskClient) -> None:
        """Sheets with a decimal comma took -3.015 for -3015."""
        page = client.get("/v1/verdict.html", query_string=ASK).get_data(as_text=True)
        assert '<td class="clearance_lower" sdval="-3.015" sdnum="1033;">-3.015</td>' in page
        assert '<td class="verdict">ask</td>' in page

    def test_inches_in_the_reply(self, client: FlaskClient) -> None:
        """Limits, clearance and the numbers of findings; shares have no unit."""
        body = client.get("/v1/verdict", query_string={**ASK, "units": "in"}).get_json()
        assert body["units"] == "in"
        assert body["mate"]["diameter"]["nominal"] == 0.1968504
        assert body["readings"][0]["clearance"]["upper"] == -0.117874


class TestSeveral:
    """A few checks by GET: each line begins one."""

    def test_each_line_begins_a_check(self, client: FlaskClient) -> None:
        """What follows a line belongs to it; the replies are those of one check each, in order."""
        query = "&".join(urlencode(check) for check in (FITS, ASK, WRONG))
        reply = client.get(f"/v1/verdicts?{query}")
        rows = reply.get_json()
        assert [(row["number"], row["verdict"]) for row in rows] == [(1, "fits"), (2, "ask"), (3, "wrong")]
        assert reply.headers["X-Verdict"] == "wrong"
        for check, row in zip((FITS, ASK, WRONG), rows, strict=True):
            one = client.get("/v1/verdict", query_string=check).get_json()
            assert {**one, "number": row["number"], "error": None} == row

    def test_what_stands_before_the_first_line_holds_for_all(self, client: FlaskClient) -> None:
        """Unless a check says something else; an empty cell says nothing."""
        query = urlencode(
            [("bore", "5 H7"), ("fit", "location"), ("line", FITS["line"]), ("fit", ""), ("line", WRONG["line"])]
        )
        assert client.get(f"/v1/verdicts.txt?{query}").data == b"fits\nwrong"
        assert client.get(f"/v1/verdicts.txt?{query}&bore=6+H7").data == b"fits\nfits"

    def test_blank_rows_are_passed_over_and_counted(self, client: FlaskClient) -> None:
        """So that a number is that of the row in the sheet."""
        rows = client.get(f"/v1/verdicts?line=&bore=&fit=&line=+&{urlencode(FITS)}").get_json()
        assert [(row["number"], row["verdict"]) for row in rows] == [(3, "fits")]

    def test_a_mate_without_its_line_is_unread(self, client: FlaskClient) -> None:
        """It is no blank row: somebody forgot something."""
        (row,) = client.get("/v1/verdicts?line=&bore=5+H7").get_json()
        assert (row["verdict"], row["error"]["field"]) == ("unread", "line")

    @pytest.mark.parametrize(
        ("query", "status", "code", "field"),
        [
            ("line=a&line=b&bore=5+H7&bore=6+H7", 400, "malformed", "bore"),
            ("line=a&bore=5+H7&gate=1&gate=0", 400, "malformed", "gate"),
            ("line=a&boer=5+H7", 422, "unknown-field", "boer"),
            ("bore=5+H7", 422, "missing-field", "line"),
            ("lien=a&bore=5+H7", 422, "unknown-field", "lien"),
            ("line=&line=", 422, "nothing-to-check", "body"),
            ("", 422, "missing-field", "line"),
        ],
    )
    def test_a_query_that_is_no_list_of_checks_is_refused(
        self, client: FlaskClient, assert_problem: AssertProblem, query: str, status: int, code: str, field: str
    ) -> None:
        """Fields that come sorted by name, as some clients send them, are no checks either."""
        assert_problem(client.get(f"/v1/verdicts?{query}"), status, code, field)

    def test_a_gate_opens_only_if_all_fit(self, client: FlaskClient) -> None:
        """For GET and for HEAD."""
        good, bad = (f"/v1/verdicts?gate=1&{urlencode(FITS)}&{urlencode(check)}" for check in (FITS, ASK))
        assert [client.get(good).status_code, client.get(bad).status_code] == [200, 409]
        assert [client.head(good).status_code, client.head(bad).status_code] == [200, 409]

    def test_a_hundred_checks_are_taken(self, client: FlaskClient) -> None:
        """More than a query of one check has fields."""
        query = "&".join(["bore=5+H7", *["line=M5+dowel+pin"] * 150])
        assert len(client.get(f"/v1/verdicts?{query}").get_json()) == 150


class TestJsonBatch:
    """Checks in a JSON body."""

    def test_one_object_is_answered_like_a_get(self, client: FlaskClient) -> None:
        """The same body and the same headers."""
        posted, got = client.post("/v1/verdicts", json=ASK), client.get("/v1/verdict", query_string=ASK)
        assert posted.get_json() == got.get_json()
        assert posted.headers["X-Verdict"] == "ask"

    def test_a_list_is_answered_by_a_list(self, client: FlaskClient) -> None:
        """In order, numbered from 1; the header holds the worst."""
        reply = client.post("/v1/verdicts", json=[FITS, WRONG, ASK])
        body = reply.get_json()
        assert [(row["number"], row["verdict"], row["error"]) for row in body] == [
            (1, "fits", None),
            (2, "wrong", None),
            (3, "ask", None),
        ]
        assert reply.headers["X-Verdict"] == "wrong"

    def test_a_mate_can_be_an_object(self, client: FlaskClient) -> None:
        """As a design file would hold it."""
        check = {**FITS, "mate": {"kind": "bore", "diameter": {"nominal": 5, "tolerance_class": "H7"}, "depth": 20}}
        del check["bore"]
        body = client.post("/v1/verdicts", json=check).get_json()
        assert (body["verdict"], body["mate"]["depth"]) == ("fits", 20)

    @pytest.mark.parametrize(
        ("bad", "code", "field"),
        [
            ({"line": "M5 dowel pin", "bore": "5 Q7"}, "bad-value", "bore"),
            ({"bore": "5 H7"}, "missing-field", "line"),
            ({"line": 5, "bore": "5 H7"}, "bad-value", "line"),
            ({"line": "", "bore": "5 H7"}, "missing-field", "line"),
            ({"line": "a\x00", "bore": "5 H7"}, "bad-value", "line"),
            ({"line": "x" * 501, "bore": "5 H7"}, "bad-value", "line"),
            ({"lien": "M5 dowel pin", "bore": "5 H7"}, "unknown-field", "lien"),
            ({"line": "M5 dowel pin", "mate": {"kind": "bore", "diamter": 5}}, "bad-value", "mate.diamter"),
            ("M5 dowel pin", "bad-value", "check"),
            (None, "bad-value", "check"),
            ([], "bad-value", "check"),
            (7, "bad-value", "check"),
        ],
    )
    def test_a_bad_check_fails_alone_in_a_list_and_the_request_by_itself(
        self, client: FlaskClient, assert_problem: AssertProblem, bad: Any, code: str, field: str
    ) -> None:
        """The row is unread and holds the same error that the request would be."""
        reply = client.post("/v1/verdicts", json=[FITS, bad, WRONG])
        assert reply.status_code == 200
        assert [row["verdict"] for row in reply.get_json()] == ["fits", "unread", "wrong"]
        error = reply.get_json()[1]["error"]
        assert (error["type"], error["field"]) == (f"/docs#{code}", field)
        assert error["accepted"]
        assert reply.headers["X-Verdict"] == "unread"
        if bad != []:
            single = assert_problem(
                client.post("/v1/verdicts", data=json.dumps(bad), content_type="application/json"), 422, code, field
            )
            assert {**single, "request_id": ""} == {**error, "request_id": ""}

    def test_a_gate_on_a_list_opens_only_if_all_fit(self, client: FlaskClient) -> None:
        """Fail closed."""
        assert client.post("/v1/verdicts?gate=1", json=[FITS, FITS]).status_code == 200
        assert client.post("/v1/verdicts?gate=1", json=[FITS, ASK]).status_code == 409
        assert client.post("/v1/verdicts?gate=1", json=[FITS, {}]).status_code == 409

    @pytest.mark.parametrize(("data", "code"), [("[]", "nothing-to-check"), ("", "nothing-to-check")])
    def test_an_empty_order_is_an_error(
        self, client: FlaskClient, assert_problem: AssertProblem, data: str, code: str
    ) -> None:
        """Never "all good"."""
        reply = client.post("/v1/verdicts?gate=1", data=data, content_type="application/json")
        assert_problem(reply, 422, code)

    def test_too_many_checks_are_refused(self, client: FlaskClient, assert_problem: AssertProblem) -> None:
        """With a word on what has no limit."""
        assert client.post("/v1/verdicts", json=[FITS] * 20).status_code == 200
        body = assert_problem(client.post("/v1/verdicts", json=[FITS] * 21), 413, "too-large", "body")
        assert "NDJSON" in body["accepted"]

    def test_a_body_over_a_mebibyte_is_refused(self, client: FlaskClient, assert_problem: AssertProblem) -> None:
        """Before it is read."""
        data = '["' + "x" * 1024 * 1024 + '"]'
        reply = client.post("/v1/verdicts", data=data, content_type="application/json")
        assert_problem(reply, 413, "too-large", "body")

    def test_a_list_can_be_answered_in_every_form(self, client: FlaskClient) -> None:
        """A line, a row or an element for each check."""
        checks = [FITS, WRONG]
        assert client.post("/v1/verdicts.txt", json=checks).data == b"fits\nwrong"
        rows = client.post("/v1/verdicts.csv", json=checks).get_data(as_text=True)
        assert [row["verdict"] for row in csv.DictReader(io.StringIO(rows))] == ["fits", "wrong"]
        lines = client.post("/v1/verdicts.ndjson", json=checks).get_data(as_text=True).splitlines()
        assert [json.loads(line)["verdict"] for line in lines] == ["fits", "wrong"]
        root = ElementTree.fromstring(client.post("/v1/verdicts.xml", json=checks).data)  # noqa: S314 - our own reply
        assert [row.findtext("verdict") for row in root.iter("row")] == ["fits", "wrong"]
        assert client.post("/v1/verdicts.html", json=checks).get_data(as_text=True).count("<tr>") == 3
        assert client.post("/v1/verdicts?field=verdict", json=checks).get_json() == ["fits", "wrong"]


class TestRows:
    """Checks in rows, any number of them."""

    def test_csv_is_answered_by_csv(self, client: FlaskClient) -> None:
        """Row for row, with the number of the line in the body."""
        body = "line;bore;fit\nM5 dowel pin;5 H7;location\n\n;5 H7;\nISO 8734 - 5 x 20 - A - St;5 Q7;\n"
        reply = client.post("/v1/verdicts", data=body, content_type="text/csv")
        rows = list(csv.DictReader(io.StringIO(reply.get_data(as_text=True))))
        assert reply.content_type.startswith("text/csv")
        assert [(row["number"], row["verdict"]) for row in rows] == [("2", "ask"), ("4", "unread"), ("5", "unread")]
        assert rows[1]["error"].startswith("line: ")
        assert rows[2]["error"].startswith("bore: ")
        assert rows[2]["reason"] == rows[2]["error"]
        assert rows[2]["line"] == "ISO 8734 - 5 x 20 - A - St"

    def test_ndjson_is_answered_by_ndjson(self, client: FlaskClient) -> None:
        """Line for line."""
        body = "\n".join([json.dumps(FITS), "", "{", '"text"', json.dumps(ASK)])
        reply = client.post("/v1/verdicts", data=body, content_type="application/x-ndjson")
        rows = [json.loads(line) for line in reply.get_data(as_text=True).splitlines()]
        assert reply.content_type == "application/x-ndjson"
        assert [(row["number"], row["verdict"]) for row in rows] == [
            (1, "fits"),
            (3, "unread"),
            (4, "unread"),
            (5, "ask"),
        ]
        assert rows[1]["error"]["type"] == "/docs#malformed"
        assert reply.headers["X-Verdict"] == "unread"

    @pytest.mark.parametrize("content_type", ["text/csv", "application/x-ndjson"])
    @pytest.mark.parametrize("body", ["", "\n\n", " "])
    def test_an_empty_order_is_an_error(
        self, client: FlaskClient, assert_problem: AssertProblem, content_type: str, body: str
    ) -> None:
        """curl only warns where its file is missing, and posts nothing."""
        reply = client.post("/v1/verdicts.json", data=body, content_type=content_type)
        assert_problem(reply, 422, "nothing-to-check", "body")

    def test_a_heading_alone_is_an_error(self, client: FlaskClient, assert_problem: AssertProblem) -> None:
        """It holds no check."""
        reply = client.post("/v1/verdicts.json", data="line,bore\n", content_type="text/csv")
        assert_problem(reply, 422, "nothing-to-check", "body")

    def test_another_content_type_is_refused(self, client: FlaskClient, assert_problem: AssertProblem) -> None:
        """Also none at all."""
        assert_problem(client.post("/v1/verdicts", data="line,bore\n"), 415, "unsupported-media", "Content-Type")

    def test_more_rows_than_a_json_body_may_hold_are_answered(self, client: FlaskClient) -> None:
        """Several blocks, in order."""
        body = "line,bore\n" + "ISO 8734 - 5 x 20 - A - St,5 H7\n" * 600
        reply = client.post("/v1/verdicts.ndjson?field=number", data=body, content_type="text/csv")
        assert reply.get_data(as_text=True).split() == [str(number) for number in range(2, 602)]
        listed = client.post("/v1/verdicts.json", data=body, content_type="text/csv").get_json()
        assert [row["number"] for row in listed] == list(range(2, 602))

    def test_a_row_that_breaks_us_is_a_row_and_the_others_are_answered(
        self, client: FlaskClient, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
    ) -> None:
        """One fault of ours does not cost a batch of thousands."""
        from service.api import verdict

        judge = verdict.judge

        def faulty(check: Any) -> Any:
            if check.line == WRONG["line"]:
                raise ZeroDivisionError("the spanner fell in")
            return judge(check)

        monkeypatch.setattr(verdict, "judge", faulty)
        rows = client.post("/v1/verdicts", json=[FITS, WRONG, FITS]).get_json()
        assert [row["verdict"] for row in rows] == ["fits", "unread", "fits"]
        assert rows[1]["error"]["type"] == "/docs#internal"
        assert "spanner" not in json.dumps(rows)
        assert "the spanner fell in" in caplog.text


def test_what_goes_over_the_spool_is_sent_while_it_comes(tmp_path: Any) -> None:
    """Nothing is lost, and the header claims no more than is known by then."""
    settings = Settings(database_url=f"sqlite:///{tmp_path}/a.sqlite3", spool_limit=50_000)
    client = create_app(settings).test_client()
    body = "\n".join([json.dumps(FITS)] * 2000 + [json.dumps(WRONG)])
    reply = client.post("/v1/verdicts", data=body, content_type="application/x-ndjson")
    rows = [json.loads(line) for line in reply.get_data(as_text=True).splitlines()]
    assert [row["number"] for row in rows] == list(range(1, 2002))
    assert reply.headers["X-Verdict"] == "ask"
    gated = client.post("/v1/verdicts?gate=1", data=body, content_type="application/x-ndjson")
    assert (gated.status_code, gated.headers["X-Verdict"]) == (409, "wrong")


def test_the_fit_at_another_temperature(client: FlaskClient) -> None:
    """Asked beside the mate; its degrees are no lengths, whatever the units."""
    check = {"line": "ISO 8734 - 5 x 20 - A - St", "bore": "4.990..5.000 in aluminium", "fit": "-0.030..0"}
    query = {**check, "temperature": "-10..60", "units": "in"}
    found = client.get("/v1/verdict", query_string=query).get_json()["readings"][0]["findings"][-1]
    assert found["code"] == "fit-holds-at-temperature"
    assert found["numbers"]["temperature_upper"] == 60
    assert -0.001 < found["numbers"]["clearance_lower"] < 0
    posted = client.post("/v1/verdicts", json={**check, "temperature": 60, "part_material": "brass"})
    assert posted.get_json()["readings"][0]["findings"][-1]["code"] == "fit-holds-at-temperature"
