"""Errors: one shape on every route, and the same error in every form."""

from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient

AssertProblem = Callable[..., dict[str, Any]]

LINE = "line=M5+dowel+pin"

CASES = (
    ("/nowhere", 404, "not-found", "path"),
    ("/v1/verdict.pdf?" + LINE + "&bore=5+H7", 404, "not-found", "format"),
    ("/v1/reference/nothing", 404, "not-found", "table"),
    ("/v1/reading", 422, "missing-field", "line"),
    ("/v1/reading?line=", 422, "bad-value", "line"),
    ("/v1/reading?line=%20%20", 422, "bad-value", "line"),
    ("/v1/reading?line=" + "x" * 501, 422, "bad-value", "line"),
    ("/v1/reading?line=a%00b", 422, "bad-value", "line"),
    ("/v1/reading?lin=M5", 422, "unknown-field", "lin"),
    ("/v1/reading?" + LINE + "&line=M6", 400, "malformed", "line"),
    ("/v1/reading?line=%ff%fe", 400, "malformed", None),
    ("/v1/reading?" + LINE + "&units=ell", 422, "bad-value", "units"),
    ("/v1/reading?" + LINE + "&format=pdf", 422, "bad-value", "format"),
    ("/v1/reading?" + LINE + "&format=ndjson", 422, "bad-value", "format"),
    ("/v1/reading.json?" + LINE + "&format=csv", 422, "bad-value", "format"),
    ("/v1/reading?" + LINE + "&field=readings.0.colour", 422, "bad-value", "field"),
    ("/v1/verdict?" + LINE, 422, "bad-value", "mate"),
    ("/v1/verdict?" + LINE + "&bore=5+Q7", 422, "bad-value", "bore"),
    ("/v1/verdict?" + LINE + "&bore=five", 422, "bad-value", "bore"),
    ("/v1/verdict?" + LINE + "&bore=5+H7&fit=snug", 422, "bad-value", "fit"),
    ("/v1/verdict?" + LINE + "&bore=5+H7&gate=perhaps", 422, "bad-value", "gate"),
    ("/v1/verdict?" + LINE + "&bore=5+H7&shaft=5+h6", 422, "bad-value", "shaft"),
    ("/v1/verdict?" + LINE + "&diameter=5", 422, "unknown-field", "diameter"),
    ("/v1/fits?size=25&hole=H8", 422, "missing-field", "shaft"),
    ("/v1/fits?size=0&hole=H8&shaft=f7", 422, "bad-value", "size"),
    ("/v1/fits?size=501&hole=H8&shaft=f7", 422, "bad-value", "size"),
    ("/v1/fits?size=25&hole=h8&shaft=f7", 422, "bad-value", "hole"),
    ("/v1/fits?size=25&hole=H8&shaft=F7", 422, "bad-value", "shaft"),
    ("/v1/fits?size=25&hole=Q8&shaft=f7", 422, "bad-value", "hole"),
    ("/v1/reference/it_grades?size=3", 422, "unknown-field", "size"),
    ("/healthz?verbose=1", 422, "unknown-field", "verbose"),
    ("/readyz?" + "&".join(f"a{number}=1" for number in range(101)), 400, "malformed", None),
)


@pytest.mark.parametrize(("address", "status", "code", "field"), CASES)
def test_every_error_has_the_one_shape(
    client: FlaskClient, assert_problem: AssertProblem, address: str, status: int, code: str, field: str | None
) -> None:
    """The same names stand in every error, and those at fault say what is accepted and give an example."""
    body = assert_problem(client.get(address), status, code, field)
    assert body["accepted"]
    assert body["example"]


@pytest.mark.parametrize("address", ["/", "/v1/verdict", "/v1/reference", "/openapi.json", "/v1/verdicts"])
def test_a_method_that_is_not_known_says_which_are(
    client: FlaskClient, assert_problem: AssertProblem, address: str
) -> None:
    """405 carries Allow, as RFC 9110 wants it."""
    reply = client.delete(address)
    assert_problem(reply, 405, "method-not-allowed", "method")
    assert reply.headers["Allow"]
    assert reply.get_json()["example"] != "OPTIONS"


def test_the_value_is_given_back_short_and_printable(client: FlaskClient, assert_problem: AssertProblem) -> None:
    """What a caller sent cannot flood or break the reply that shows it."""
    body = assert_problem(client.get("/v1/fits?hole=H8&shaft=f7&size=%01" + "9" * 5000), 422, "bad-value", "size")
    assert str(body["value"]).startswith("\\x01999")
    assert len(str(body["value"])) < 220


def test_further_faults_are_named_as_well(client: FlaskClient, assert_problem: AssertProblem) -> None:
    """One round trip is enough to learn of all of them, the unknown name first."""
    body = assert_problem(client.get("/v1/fits?sise=25&hole=H8&units=ell"), 422, "unknown-field", "sise")
    assert "'size' is" in str(body["detail"])
    assert [str(line).split(":")[0] for line in body["also"]] == ["size", "shaft", "units"]


def test_accept_that_names_nothing_offered_is_a_406(client: FlaskClient, assert_problem: AssertProblem) -> None:
    """The client is told what is offered."""
    reply = client.get(f"/v1/reading?{LINE}", headers={"Accept": "image/png"})
    body = assert_problem(reply, 406, "not-acceptable", "Accept")
    assert "text/csv" in str(body["accepted"])


@pytest.mark.parametrize(
    ("suffix", "content_type"),
    [("csv", "text/plain; charset=utf-8"), ("txt", "text/plain; charset=utf-8")],
)
def test_text_forms_get_the_error_as_one_line(client: FlaskClient, suffix: str, content_type: str) -> None:
    """A shell script prints it as it is."""
    reply = client.get(f"/v1/verdict.{suffix}?{LINE}&bore=5+Q7")
    text = reply.get_data(as_text=True)
    assert (reply.status_code, reply.content_type) == (422, content_type)
    assert text.startswith("error: bore: ")
    assert "given: 5 Q7" in text
    assert "accepted: " in text
    assert text.endswith("example: 5 H7")
    assert "\n" not in text


def test_xml_and_html_get_the_error_in_their_form(client: FlaskClient) -> None:
    """The names are the same as in JSON."""
    reply = client.get(f"/v1/verdict.xml?{LINE}&bore=5+Q7")
    root = ElementTree.fromstring(reply.data)  # noqa: S314 - our own reply
    assert (reply.status_code, reply.content_type) == (422, "application/problem+xml")
    assert (root.tag, root.findtext("field"), root.findtext("value")) == ("problem", "bore", "5 Q7")
    page = client.get(f"/v1/verdict.html?{LINE}&bore=%3Cb%3E")
    assert page.status_code == 422
    assert "&lt;b&gt;" in page.get_data(as_text=True)
    assert "<b>" not in page.get_data(as_text=True)


class TestInline:
    """``errors=inline``: sheets lose the body of a 4xx."""

    ADDRESS = f"/v1/verdict%s?{LINE}&bore=5+Q7&errors=inline"

    def test_text_is_a_200_with_the_line(self, client: FlaskClient) -> None:
        """A cell that compares it with "fits" finds something else."""
        reply = client.get(self.ADDRESS % ".txt")
        assert (reply.status_code, reply.content_type) == (200, "text/plain; charset=utf-8")
        assert reply.get_data(as_text=True).startswith("error: bore: ")

    def test_a_single_field_is_replaced_by_the_line(self, client: FlaskClient) -> None:
        """A sheet that asks for one number sees why there is none."""
        assert client.get(self.ADDRESS % ".txt" + "&field=readings.0.clearance.lower").data.startswith(b"error: bore")

    def test_xml_keeps_every_element(self, client: FlaskClient) -> None:
        """A missing element would be #N/A; whichever a cell picks, it holds the error."""
        good = ElementTree.fromstring(client.get(f"/v1/verdict.xml?{LINE}&bore=5+H7").data)  # noqa: S314 - our own reply
        root = ElementTree.fromstring(client.get(self.ADDRESS % ".xml").data)  # noqa: S314 - our own reply
        assert [one.tag for one in root] == [one.tag for one in good]
        assert all(str(one.text).startswith("error: bore: ") for one in root)

    def test_csv_keeps_every_column(self, client: FlaskClient) -> None:
        """The heading is that of an answer."""
        good = client.get(f"/v1/verdict.csv?{LINE}&bore=5+H7").get_data(as_text=True)
        bad = client.get(self.ADDRESS % ".csv").get_data(as_text=True)
        assert bad.splitlines()[0] == good.splitlines()[0]
        assert "error: bore: " in bad

    def test_json_is_the_problem_with_status_200(self, client: FlaskClient) -> None:
        """The body still says which status it would have been."""
        reply = client.get(self.ADDRESS % ".json")
        assert reply.status_code == 200
        assert reply.get_json(force=True)["status"] == 422

    def test_a_gate_goes_before_it(self, client: FlaskClient) -> None:
        """A gate that an error opens would be none."""
        assert client.get(self.ADDRESS % ".txt" + "&gate=1").status_code == 422
        assert client.get(self.ADDRESS % ".txt" + "&gate=maybe").status_code == 422
        assert client.get(self.ADDRESS % ".txt" + "&gate=0").status_code == 200

    @pytest.mark.parametrize("more", ["&line=x" * 3000, "&bore=%FF"], ids=["too many fields", "not UTF-8"])
    def test_a_gate_goes_before_it_in_a_query_that_cannot_be_read(self, client: FlaskClient, more: str) -> None:
        """However much stands between the two."""
        assert client.get(f"/v1/verdicts.txt?errors=inline{more}&gate=1").status_code == 400
        assert client.get(f"/v1/verdicts.txt?errors=inline{more}").status_code == 200

    def test_several_checks_that_cannot_be_read_are_one_row(self, client: FlaskClient) -> None:
        """A sheet that counts rows other than fits must not count none."""
        root = ElementTree.fromstring(client.get("/v1/verdicts.xml?line=&errors=inline").data)  # noqa: S314 - our own
        assert [str(row.findtext("verdict"))[:13] for row in root.iter("row")] == ["error: body: "]

    def test_what_is_not_there_is_said_in_plain_text(self, client: FlaskClient) -> None:
        """A misspelt address in a cell shows the error, not JSON."""
        reply = client.get("/v1/verdikt.txt?errors=inline")
        assert (reply.status_code, reply.content_type) == (200, "text/plain; charset=utf-8")
        assert reply.get_data(as_text=True).startswith("error: path: there is nothing at /v1/verdikt.txt")

    @pytest.mark.parametrize("query", ["line=a&line=b", "line=%FF", "&".join(["a=1"] * 101)])
    def test_also_where_the_query_cannot_be_read(self, client: FlaskClient, query: str) -> None:
        """What is left of it still says so."""
        reply = client.get(f"/v1/verdict.txt?errors=inline&{query}")
        assert (reply.status_code, reply.data[:7]) == (200, b"error: ")

    def test_a_table_has_a_column_for_it(self, client: FlaskClient) -> None:
        """Where the columns are those of a table, the error stands alone."""
        reply = client.get("/v1/reference/nothing.csv?errors=inline")
        assert reply.status_code == 200
        assert reply.get_data(as_text=True).startswith("error\r\n")
