"""The application under test, and one good reply of every kind."""

import json
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from schemas.stored_orders import PLAN
from service.app import create_app
from service.config import Settings

CHECKS = (
    {"line": "M5 dowel pin", "bore": "5 H7 depth 20 blind in aluminium", "fit": "location"},
    {"line": "M5 dowel pin", "bore": "8 drilled"},
    {"line": "ISO 8734 - 5 x 20 - A - St", "bore": "5.000..5.012", "fit": "-0.02..0.01"},
    {"line": "608 ball bearing", "shaft": "8 h6", "fit": "slip"},
    {"line": "M4x45 socket head cap screw 8.8", "clamp": "42 into M4 depth 10 in aluminium"},
    {"line": "M5x30 hex head bolt 8.8", "clamp": "10+10 into nut M5"},
    {"line": "M3x10 SHCS", "tapped": "M3 depth 6 in aluminium"},
    {"line": "M3x10 SHCS", "presence": "yes"},
    {"line": "ISO 4762 dowel pin", "bore": "5 H7"},
    {"line": "qqqq zzzz", "bore": "5 H7"},
)
RECEIPTS = (
    {"limits": {"lower": 4.982, "upper": 5.0}, "measured": [4.99, 4.985], "uncertainty": 0.03},
    {"limits": {"upper": 5.0}, "measured": [4.99], "instrument": "micrometer", "lot": 50},
    {"bore": "5 H7", "fit": "location", "measured": [7.99], "uncertainty": 0.03, "label": "M5 dowel pin"},
)
ORDERS = (
    {
        "needs": [
            {
                "id": "N1",
                "quantity": 6,
                "step": "plate",
                "mate": {"kind": "bore", "diameter": "5 H7"},
                "fit": "location",
            },
            {"id": "N2", "quantity": 1, "presence": "yes", "description": "cable", "measure": True},
            {"id": "N3", "quantity": "2 m", "part": "threaded rod M8", "breaks": 0.1, "price": 1},
        ],
        "lines": [
            {"id": "L1", "line": "M5 dowel pin", "quantity": 10, "for": ["N1"], "lead_time": [12, 15, 40]},
            {"id": "L2", "line": "M8 threaded rod", "quantity": "3 m", "lead_time": 7},
            {"id": "L3", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 1, "pack": 50, "lead_time": 9},
        ],
        "stock": [
            {
                "id": "S1",
                "line": "ISO 8734 - 5 x 20 - A - St",
                "quantity": 2,
                "receipt": {"measured": [5.008], "uncertainty": 0.03},
            }
        ],
        "steps": [{"id": "strip", "irreversible": True}, {"id": "plate", "after": ["strip"], "days": 2}],
        "start_on": "2027-02-01",
        "wanted_on": "2027-03-01",
        "today": "2027-01-11",
    },
    {
        "needs": "id;Menge;Bohrung;Passung\nN1;6;5 H7;location\n",
        "lines": "Pos;Anzahl;Bezeichnung;Farbe\nL1;20;ISO 8734 - 5 x 20 - A - St;rot\nL2;6;ISO 8734 - 5 x 20 - A;\n",
    },
)
HABIT = {"sign": "M", "part": "pin", "means": "internal thread", "noted_on": "2027-01-11"}
PARTS = (
    {"measured": {"outer_diameter": 8.01, "length": 30.1, "internal_thread": "M5"}, "uncertainty": 0.03},
    {"measured": {"outer_diameter": 8.01, "length": 30.1}, "instrument": "calliper"},
    {"measured": {"outer_diameter": 333}, "uncertainty": 0},
)
LINES = (
    "M5 dowel pin",
    "10 pcs M3x10 SHCS A2-70",
    "24 V 50 W heater cartridge 6x20",
    "20T GT2 pulley",
    "qqqq zzzz",
    "6x30 compression spring",
)
WANTED = (
    {"mate": {"kind": "bore", "diameter": "5 H7"}, "fit": "location"},
    {"clamp": "46 into M3 depth 6 in aluminium"},
    {"presence": "yes"},
)
JOINTS = (
    {"thread": "M8"},
    {"thread": "M4", "property_class": "12.9", "into": "6061-T6", "engagement": "6", "clamped": "aluminium"},
)


@pytest.fixture(scope="session")
def app(tmp_path_factory: pytest.TempPathFactory) -> Flask:
    """The application with a store of its own."""
    return create_app(Settings(database_url=f"sqlite:///{tmp_path_factory.mktemp('store')}/a.sqlite3"))


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A client of the application."""
    return app.test_client()


def stored(client: FlaskClient) -> dict[str, list[Any]]:
    """Good replies of everything that can be done with a stored order, and with a supplier's habits."""
    habits = "/v1/suppliers/A%20%26%20B/habits"
    noted = client.post(habits, json=HABIT).get_json()
    made = client.post("/v1/orders", json={**PLAN, "stock": [{"line": "ISO 8734 - 5 x 20", "quantity": 2}]}).get_json()
    path, anyway = f"/v1/orders/{made['id']}", {"If-Match": "*"}
    events = {"events": [{"event": "received", "line": "L1", "quantity": 4}, {"event": "broken", "need": "N1"}]}
    receipts = {"receipts": [{"line": "S1", "receipt": {"measured": [5.01], "instrument": "micrometer"}}]}
    told = client.post(f"{path}/events", json=events, headers=anyway).get_json()
    values = [{"line": "S1", "dimension": "outer_diameter", "measured": "5.010 5,009", "instrument": "micrometer"}]
    taken = client.post(f"{path}/measurements", json={"measurements": values}, headers=anyway).get_json()
    measured = client.post(f"{path}/receipts", json=receipts, headers=anyway).get_json()
    recorded = client.post(f"{path}/check").get_json()
    patch = {"data": '{"name": "second", "lines": null}', "content_type": "application/merge-patch+json"}
    order, one = "/v1/orders/<name:order>", "/v1/suppliers/<text:supplier>/habits"
    found = {
        f"POST {one}": [noted],
        f"GET {one}": [client.get(habits).get_json()],
        "GET /v1/suppliers": [client.get("/v1/suppliers").get_json()],
        f"DELETE {one}/<name:habit>": [client.delete(f"{habits}/{noted['id']}").get_json()],
        "POST /v1/orders": [made],
        "GET /v1/orders": [client.get("/v1/orders").get_json(), client.get("/v1/orders?limit=1").get_json()],
        f"POST {order}/events": [told],
        f"POST {order}/receipts": [measured],
        f"POST {order}/measurements": [taken],
        f"POST {order}/check": [recorded],
        f"GET {order}/why": [client.get(f"{path}/why?{one}").get_json() for one in ("line=L1", "line=S1", "need=N1")],
        f"GET {order}/gate": [client.get(f"{path}/gate?step=plate").get_json()],
        **{
            f"GET {order}{part}": [client.get(path + part).get_json()]
            for part in (
                "",
                "/log",
                "/events",
                "/receipts",
                "/measurements",
                "/check",
                "/schedule",
                "/history",
                "/revisions",
            )
        },
        f"PUT {order}": [client.put(path, json=PLAN, headers=anyway).get_json()],
        f"PATCH {order}": [client.patch(path, headers=anyway, **patch).get_json()],
    }
    found[f"GET {order}"].append(client.get(f"{path}?revision=1").get_json())
    return {**found, f"DELETE {order}": [client.delete(path, headers=anyway).get_json()]}


def worked(client: FlaskClient) -> dict[str, list[Any]]:
    """Good replies of everything that can be done with a job, before and after it is worked."""
    body = "".join(json.dumps(check) + "\n" for check in CHECKS)
    made = client.post("/v1/jobs", data=body, content_type="application/x-ndjson").get_json()
    waiting = client.get(made["address"]).get_json()
    client.application.extensions["kitproof.jobs"].work(made["id"])
    other = client.post("/v1/jobs", data=body, content_type="application/x-ndjson").get_json()
    cancelled = [client.post(f"{one['address']}/cancel").get_json() for one in (other, made)]
    return {
        "POST /v1/jobs": [made],
        "GET /v1/jobs": [client.get("/v1/jobs").get_json(), client.get("/v1/jobs?limit=1").get_json()],
        "POST /v1/jobs/<name:job>/cancel": cancelled,
        "GET /v1/jobs/<name:job>": [waiting, client.get(made["address"]).get_json()],
        "GET /v1/jobs/<name:job>/result": [client.get(f"{made['address']}/result").get_json()],
        "DELETE /v1/jobs/<name:job>": [client.delete(made["address"]).get_json()],
    }


@pytest.fixture
def replies(client: FlaskClient) -> dict[str, list[Any]]:
    """Good replies by method and path of their resource."""
    return {
        **stored(client),
        **worked(client),
        "GET /healthz": [client.get("/healthz").get_json()],
        "GET /readyz": [client.get("/readyz").get_json()],
        "GET /v1/families": [client.get("/v1/families").get_json()],
        "GET /v1/fits": [client.get("/v1/fits?size=25&hole=H8&shaft=f7").get_json()],
        "GET /v1/reference": [client.get("/v1/reference").get_json()],
        "GET /v1/reference/<name:table>": [client.get("/v1/reference/it_grades?up_to=30").get_json()],
        "POST /v1/proposals": [client.post("/v1/proposals", json=wanted).get_json() for wanted in WANTED],
        "GET /v1/tightening": [client.get("/v1/tightening", query_string=joint).get_json() for joint in JOINTS],
        "POST /v1/tightening": [client.post("/v1/tightening", json=joint).get_json() for joint in JOINTS],
        "POST /v1/orders/check": [client.post("/v1/orders/check", json=one).get_json() for one in ORDERS],
        "POST /v1/receipts/check": [client.post("/v1/receipts/check", json=one).get_json() for one in RECEIPTS],
        "POST /v1/identifications": [client.post("/v1/identifications", json=one).get_json() for one in PARTS],
        "GET /v1/reading": [client.get("/v1/reading", query_string={"line": line}).get_json() for line in LINES],
        "GET /v1/verdict": [client.get("/v1/verdict", query_string=check).get_json() for check in CHECKS],
        "GET /v1/verdicts": [
            client.get("/v1/verdicts?line=M5+dowel+pin&bore=5+H7&line=608&shaft=8+h6&line=x&bore=5+Q7").get_json()
        ],
        "POST /v1/verdicts": [
            client.post("/v1/verdicts", data=json.dumps(check), content_type="application/json").get_json()
            for check in CHECKS
        ],
    }
