"""``/v1/reading`` over HTTP."""

import csv
import io
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient

ADDRESS = "/v1/reading"
LINE = {"line": "M5 dowel pin"}


def test_the_reply_is_the_one_of_the_contract(client: FlaskClient) -> None:
    """The first two meanings of the line, with what supports them."""
    reply = client.get(ADDRESS, query_string=LINE).get_json()
    assert (reply["line"], reply["state"]) == ("M5 dowel pin", "ambiguous")
    first, second = reply["readings"][:2]
    assert first["family"] == "parallel pin with internal thread"
    assert first["size_names"] == "internal thread"
    assert first["evidence"] == "implied"
    assert first["dimensions"]["outer_diameter"] == {
        "nominal": 8,
        "lower": 8.006,
        "upper": 8.015,
        "tolerance_class": "m6",
    }
    assert first["dimensions"]["internal_thread"]["designation"] == "M5"
    assert second["dimensions"]["outer_diameter"]["upper"] == 5.012
    assert "length" in second["missing"]


def test_numbers_are_exact_and_short(client: FlaskClient) -> None:
    """A whole number has no decimal point, a fraction no float noise."""
    body = client.get(ADDRESS, query_string=LINE).get_data(as_text=True)
    assert '"nominal":8,"lower":8.006,"upper":8.015' in body


def test_an_unread_line_is_an_answer(client: FlaskClient) -> None:
    """With the reason, and a row of its own in a table."""
    reply = client.get(ADDRESS, query_string={"line": "qqqq zzzz"})
    assert (reply.status_code, reply.get_json()["state"]) == (200, "unread")
    assert reply.get_json()["reason"]
    rows = list(csv.DictReader(io.StringIO(client.get("/v1/reading.csv?line=qqqq+zzzz").get_data(as_text=True))))
    assert [row["state"] for row in rows] == ["unread"]
    assert rows[0]["family"] == ""


def test_csv_and_xml_give_a_row_per_reading(client: FlaskClient) -> None:
    """Each row repeats the line and its state."""
    readings = client.get(ADDRESS, query_string=LINE).get_json()["readings"]
    rows = list(csv.DictReader(io.StringIO(client.get("/v1/reading.csv", query_string=LINE).get_data(as_text=True))))
    assert [row["family"] for row in rows] == [reading["family"] for reading in readings]
    assert {row["line"] for row in rows} == {"M5 dowel pin"}
    assert rows[0]["dimensions"].startswith("outer diameter 8 m6 (8.006..8.015); internal thread M5")
    root = ElementTree.fromstring(client.get("/v1/reading.xml", query_string=LINE).data)  # noqa: S314 - our own reply
    assert [one.findtext("family") for one in root.iter("row")] == [reading["family"] for reading in readings]


def test_the_word_is_the_state(client: FlaskClient) -> None:
    """Without a line end, so that a cell can be compared."""
    reply = client.get("/v1/reading.txt", query_string=LINE)
    assert (reply.data, reply.content_type) == (b"ambiguous", "text/plain; charset=utf-8")


def test_inches_are_converted_and_counts_are_not(client: FlaskClient) -> None:
    """8 mm is 0.3149606 in; a pulley keeps its teeth."""
    reply = client.get(ADDRESS, query_string={**LINE, "units": "in"}).get_json()
    assert reply["units"] == "in"
    assert reply["readings"][0]["dimensions"]["outer_diameter"]["nominal"] == 0.3149606
    assert client.get(ADDRESS, query_string=LINE).get_json()["units"] == "mm"


@pytest.mark.parametrize(
    ("form", "expected"),
    [
        ("txt", b"8.015"),
        ("json", b"8.015"),
        ("csv", b"readings.0.dimensions.outer_diameter.upper\r\n8.015\r\n"),
        ("xml", b'<?xml version="1.0" encoding="UTF-8"?>\n<reply><value>8.015</value></reply>'),
    ],
)
def test_one_field_can_be_picked(client: FlaskClient, form: str, expected: bytes) -> None:
    """In every form."""
    query = {**LINE, "field": "readings.0.dimensions.outer_diameter.upper"}
    assert client.get(f"/v1/reading.{form}", query_string=query).data == expected


def test_a_line_that_a_sheet_would_run_is_defused(client: FlaskClient) -> None:
    """In CSV and HTML, not in JSON, XML and text."""
    line = '=WEBSERVICE("http://127.0.0.1/")'
    assert client.get(ADDRESS, query_string={"line": line}).get_json()["line"] == line
    rows = client.get("/v1/reading.csv", query_string={"line": line}).get_data(as_text=True)
    assert next(csv.DictReader(io.StringIO(rows)))["line"] == "'" + line
    page = client.get("/v1/reading.html", query_string={"line": line}).get_data(as_text=True)
    assert '<td class="line">&#x27;=WEBSERVICE(' in page
    assert client.get("/v1/reading.txt", query_string={"line": line, "field": "line"}).get_data(as_text=True) == line


def test_a_page_has_one_table_with_an_id(client: FlaskClient) -> None:
    """Web queries pick it by that."""
    page = client.get("/v1/reading.html", query_string=LINE).get_data(as_text=True)
    assert page.count("<table") == 1
    assert '<table id="readings">' in page
    ElementTree.fromstring(page.split("\n", 1)[1])  # noqa: S314 - well-formed, for tools that read it as XML


def test_csv_can_be_written_for_a_decimal_comma(client: FlaskClient) -> None:
    """Semicolons, commas and a byte order mark, for a double click in a spreadsheet."""
    query = "size=25&hole=H8&shaft=f7&sep=;&dec=,&bom=1"
    text = client.get(f"/v1/fits.csv?{query}").data
    assert text.startswith("\ufeffkind;size;".encode())
    assert b";0,02;0,074;" in text


def test_text_has_no_byte_order_mark(client: FlaskClient) -> None:
    """With one, ="clear" is false."""
    assert client.get("/v1/reading.txt", query_string={**LINE, "bom": "1"}).data == b"ambiguous"
