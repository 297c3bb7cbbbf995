"""``/v1/orders/{order}/why``: a line or a need of a stored order in full, in every form."""

import csv
import io
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.app import create_app
from service.config import Settings

Check = Callable[..., dict[str, Any]]

ORDER = {
    "needs": [
        {"id": "N1", "quantity": 2, "bore": "5 H7", "fit": "location"},
        {"id": "N2", "quantity": 1, "bore": "8 H7", "fit": "location"},
    ],
    "lines": [{"id": "L1", "line": "M5 dowel pin", "quantity": 2, "supplier": "A"}],
}


@pytest.fixture
def client(tmp_path: Path) -> Iterator[FlaskClient]:
    """A client of an application with a store of its own."""
    app = create_app(Settings(database_url=f"sqlite:///{tmp_path / 'a.sqlite3'}"))
    yield app.test_client()
    app.extensions["kitproof.store"].engine.dispose()


@pytest.fixture
def path(client: FlaskClient) -> str:
    """The path of a stored order."""
    return str(client.post("/v1/orders", json=ORDER).headers["Location"])


def test_a_line_is_shown_as_its_verdict_alone_would_be(client: FlaskClient, path: str) -> None:
    """And the address of that verdict is given."""
    reply = client.get(f"{path}/why?line=L1")
    assert (reply.headers["X-Verdict"], reply.headers["ETag"]) == ("ask", '"1"')
    (mate,) = next(one for one in reply.get_json()["against"] if one["need"] == "N1")["mates"]
    assert client.get(mate["address"]).get_json() == mate["verdict"]


def test_units_are_those_that_are_asked_for(client: FlaskClient, path: str) -> None:
    """In the address of the single verdict as well."""
    found = client.get(f"{path}/why?line=L1&units=in").get_json()
    (mate,) = found["against"][0]["mates"]
    assert (found["units"], mate["verdict"]["units"]) == ("in", "in")
    assert client.get(mate["address"]).get_json() == mate["verdict"]


def test_rows_hold_a_finding_each(client: FlaskClient, path: str) -> None:
    """With the need, the reading and the source."""
    rows = list(csv.DictReader(io.StringIO(client.get(f"{path}/why.csv?line=L1").get_data(as_text=True))))
    assert (rows[0]["kind"], rows[0]["id"], rows[0]["verdict"]) == ("line", "L1", "ask")
    findings = [row for row in rows if row["kind"] == "finding" and row["need"] == "N1"]
    assert {row["family"] for row in findings} >= {"parallel pin", "parallel pin with internal thread"}
    assert all(row["source"] for row in findings)


def test_a_need_says_what_should_be_ordered(client: FlaskClient, path: str) -> None:
    """Its word is its state."""
    reply = client.get(f"{path}/why?need=N2")
    assert "X-Verdict" not in reply.headers
    assert reply.get_json()["proposals"]["proposals"][0]["order_text"].startswith("Parallel pin ISO 8734 - 8 x")
    assert client.get(f"{path}/why.txt?need=N2").get_data(as_text=True) == reply.get_json()["need"]["state"]


def test_a_habit_of_the_supplier_is_read_along(client: FlaskClient, path: str) -> None:
    """The check on its own would read the line otherwise: it has no address then."""
    habit = {"sign": "M", "part": "pin", "means": "internal thread", "noted_on": "2027-01-11"}
    client.post("/v1/suppliers/A/habits", json=habit)
    found = client.get(f"{path}/why?line=L1").get_json()
    assert [one["size_names"] for one in found["reading"]["readings"]] == ["internal thread"]
    assert [mate["address"] for one in found["against"] for mate in one["mates"]] == [""] * len(found["against"])
    assert any(one["source"].startswith("habit of supplier A") for one in found["against"][0]["findings"])


@pytest.mark.parametrize(
    ("query", "code", "field"),
    [
        ("", "missing-field", "line"),
        ("?line=L1&need=N1", "missing-field", "need"),
        ("?line=L2", "bad-value", "line"),
        ("?need=L1", "bad-value", "need"),
        ("?step=x", "unknown-field", "step"),
    ],
)
def test_what_is_not_understood_is_named(
    client: FlaskClient, path: str, assert_problem: Check, query: str, code: str, field: str
) -> None:
    """With what there is."""
    assert_problem(client.get(f"{path}/why{query}"), 422, code, field)
