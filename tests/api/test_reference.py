"""``/v1/reference`` over HTTP: tables as they were loaded."""

import csv
import io
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient

from reference import tables
from schemas.options import OPTIONS


def test_every_table_is_listed(client: FlaskClient) -> None:
    """With its title and the number of its rows."""
    listed = client.get("/v1/reference").get_json()["tables"]
    assert [one["name"] for one in listed] == list(tables.names())
    assert {one["name"]: one["count"] for one in listed}["it_grades"] == len(tables.load("it_grades").rows)
    assert client.get("/v1/reference.txt").get_data(as_text=True).splitlines() == list(tables.names())


@pytest.mark.parametrize("name", tables.names())
def test_every_table_is_shown_as_printed(client: FlaskClient, name: str) -> None:
    """Each row with its source and its basis; as JSON, CSV and XML alike."""
    rows = [dict(row.cells) for row in tables.load(name)]
    assert client.get(f"/v1/reference/{name}").get_json()["rows"] == rows
    text = client.get(f"/v1/reference/{name}.csv").get_data(as_text=True)
    assert [row["source"] for row in csv.DictReader(io.StringIO(text))] == [row["source"] for row in rows]
    root = ElementTree.fromstring(client.get(f"/v1/reference/{name}.xml").data)  # noqa: S314 - our own reply
    assert len(root) == len(rows)


@pytest.mark.parametrize("name", tables.names())
def test_no_column_is_called_like_an_option(name: str) -> None:
    """Else it could not be a filter."""
    assert not OPTIONS & set(tables.load(name).rows[0].cells)


@pytest.mark.parametrize("upper", ["30", "30.0", "30,0", " 30 "])
def test_a_column_filters(client: FlaskClient, upper: str) -> None:
    """Numbers are compared as numbers."""
    rows = client.get("/v1/reference/it_grades", query_string={"up_to": upper}).get_json()["rows"]
    assert [(row["over"], row["up_to"], row["IT7"]) for row in rows] == [("18", "30", "21")]


def test_several_filters_narrow(client: FlaskClient) -> None:
    """Words match in any case; what matches nothing is an empty table."""
    query = {"standard": "iso 8734", "size": "5"}
    assert len(client.get("/v1/reference/parallel_pin", query_string=query).get_json()["rows"]) == 1
    query["size"] = "5.5"
    assert client.get("/v1/reference/parallel_pin", query_string=query).get_json()["rows"] == []


@pytest.mark.parametrize("name", ["..%2Fsources", "it_grades%2F..%2Fit_grades", "IT_GRADES", "sources"])
def test_only_listed_tables_are_there(client: FlaskClient, name: str) -> None:
    """A name is never a path."""
    assert client.get(f"/v1/reference/{name}").status_code == 404
