"""Orders and events in which one thing is odd: stored or refused, never a fault of ours."""

import copy
from collections.abc import Iterator
from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from schemas.stored_orders import EVENTS
from service.app import create_app
from service.config import Settings

PLAN: dict[str, Any] = {
    "name": "sampler",
    "needs": [
        {
            "id": "N1",
            "description": "index pins",
            "quantity": 6,
            "step": "plate",
            "bore": "5 H7",
            "fit": "location",
            "neighbours": ["N2"],
            "spare": 1,
            "breaks": 0.05,
            "hours": 500,
            "mtbf_hours": 8000,
            "measure": True,
        },
        {"id": "N2", "quantity": "2.5 m", "mate": {"kind": "shaft", "diameter": "8 h6"}, "variants": ["long"]},
        {"id": "N3", "quantity": 1, "presence": "yes", "interface": "USB-C", "version": "2.1", "must_match": ["N4"]},
        {"id": "N4", "quantity": 1, "part": "ISO 4762 - M4 x 20 - 8.8", "lead_time": {"low": 1, "high": 9}},
    ],
    "lines": [
        {
            "id": "L1",
            "line": "M5 dowel pin",
            "quantity": 2,
            "pack": 50,
            "for": ["N1"],
            "supplier": "A",
            "lead_time": "2-3 weeks",
            "ordered_on": "2026-01-11",
            "received": 4,
            "quote_until": "2027-01-31",
            "receipt": {"measured": [5.01], "instrument": "micrometer", "limits": "5 m6"},
        },
        {"id": "L2", "line": "608", "quantity": 1, "second_source_for": "L1", "available": "out of stock"},
    ],
    "stock": [{"id": "S1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 2}],
    "steps": [{"id": "strip", "irreversible": True}, {"id": "plate", "after": ["strip"], "days": 2, "needs": ["N1"]}],
    "suppliers": [{"id": "A", "record": [12, {"quoted": 14, "actual": 20}]}],
    "losses": [{"need": "N1", "quantity": 1, "why": "broken", "on": "2026-02-01"}],
    "variants": {"short": 1, "long": 2},
    "start_on": "2027-02-01",
    "confidence": 0.9,
    "country": "DE",
    "closed_on": ["2027-02-15"],
}


def places(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Return the path of everything in a JSON value."""
    if path:
        yield path
    if isinstance(value, dict | list):
        for key, one in value.items() if isinstance(value, dict) else enumerate(value):
            yield from places(one, (*path, key))


def changed(value: Any, path: tuple[Any, ...], to: Any) -> Any:
    """Return a JSON value in which something else stands at a path."""
    made = copy.deepcopy(value)
    here = made
    for key in path[:-1]:
        here = here[key]
    here[path[-1]] = to
    return made


WORDS = st.sampled_from(
    (
        *("", " ", "0", "-1", "1e5", "NaN", "5 H7", "N1", "L1", "strip", "A", "yes", "in stock", "half", "²", "=1+1"),
        *(
            "2027-02-30",
            "9999-12-31",
            "0001-01-01",
            "3 weeks",
            "100 years",
            "1'000",
            "1/3",
            "5..4",
            "\u0000",
            "x" * 600,
        ),
    )
)
NUMBERS = st.one_of(st.integers(-2, 3), st.sampled_from([0.1, -0.0, 1e300, 10**9, 10**17, 2**63, 1e-300]))
ODD: st.SearchStrategy[Any] = st.recursive(
    st.one_of(st.none(), st.booleans(), NUMBERS, WORDS, st.text(max_size=8)),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(
            st.one_of(st.sampled_from(["id", "kind", "low", "high", "bore", "days"]), st.text(max_size=5)),
            inner,
            max_size=3,
        ),
    ),
    max_leaves=5,
)
BOUNDED = settings(
    max_examples=60, derandomize=True, deadline=None, database=None, suppress_health_check=tuple(HealthCheck)
)


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[FlaskClient]:
    """A client of an application with a store of its own."""
    app = create_app(Settings(database_url=f"sqlite:///{tmp_path_factory.mktemp('store')}/a.sqlite3"))
    yield app.test_client()
    app.extensions["kitproof.store"].engine.dispose()


def test_the_plan_itself_is_stored(client: FlaskClient) -> None:
    """So that the test below changes something that is right."""
    assert client.post("/v1/orders", json=PLAN).status_code == 201


@BOUNDED
@given(path=st.sampled_from(list(places(PLAN))), to=ODD)
def test_an_odd_plan_is_stored_or_refused(client: FlaskClient, path: tuple[Any, ...], to: Any) -> None:
    """What is stored can be shown, checked and dated; what is refused names its field."""
    plan = changed(PLAN, path, to)
    checked = client.post("/v1/orders/check", json={name: value for name, value in plan.items() if name != "name"})
    assert checked.status_code in (200, 422), checked.get_data(as_text=True)
    reply = client.post("/v1/orders", json=plan)
    assert reply.status_code in (201, 422), reply.get_data(as_text=True)
    if reply.status_code == 422:
        assert reply.get_json()["field"]
        return
    order = reply.headers["Location"]
    for part in ("", "/check", "/schedule", "/history", "/gate?step=strip"):
        assert client.get(order + part).status_code in ((200, 422) if "gate" in part else (200,)), part


@BOUNDED
@given(
    name=st.sampled_from(EVENTS),
    about=st.sampled_from([{"line": "L1"}, {"line": "S1"}, {"need": "N1"}, {"step": "strip"}, {"entry": 1}, {}]),
    field=st.sampled_from(["quantity", "on", "back_on", "until", "lead_time", "price", "note", "line", "entry"]),
    to=ODD,
)
def test_an_odd_event_is_stored_or_refused(
    client: FlaskClient, name: str, about: dict[str, Any], field: str, to: Any
) -> None:
    """On an order that is there."""
    order = client.post("/v1/orders", json=PLAN).headers["Location"]
    first, odd = {"event": "ordered", "line": "L2", "on": "2026-01-01"}, {"event": name, **about, field: to}
    reply = client.post(f"{order}/events", json={"events": [first, odd]}, headers={"If-Match": '"1"'})
    assert reply.status_code in (200, 422), reply.get_data(as_text=True)
    assert client.get(f"{order}/check").status_code == 200
    assert client.get(order).get_json()["revision"] == (2 if reply.status_code == 200 else 1)
