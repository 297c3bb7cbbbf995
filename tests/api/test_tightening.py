"""``/v1/tightening`` over HTTP."""

from collections.abc import Callable
from typing import Any

import pytest
from flask.testing import FlaskClient

from service.strength.screws import tighten

EXAMPLE = "thread=M8&property_class=8.8&friction=0.12&head=socket&into=steel&engagement=8"


def test_the_example_of_the_contract(client: FlaskClient) -> None:
    """The screw alone, and the torque for the joint, which the screw limits here."""
    reply = client.get(f"/v1/tightening?{EXAMPLE}").get_json()
    assert reply["screw"] == {"preload": 18620, "torque": 24.9}
    assert reply["torque"] == {"recommended": 19.92, "never_exceed": 24.9, "limited_by": "screw"}
    assert reply["assumed"]["into"] == "steel: taken as S235JR"
    assert reply["cautions"]
    assert "VDI 2230" in reply["source"]


def test_only_the_thread_is_required(client: FlaskClient) -> None:
    """Everything else is assumed, and said."""
    reply = client.get("/v1/tightening?thread=M5&property_class=&into=").get_json()
    assert reply["property_class"] == "8.8"
    assert reply["engagement"] is None
    assert "0.1 to 0.16" in reply["assumed"]["friction"]
    assert reply["clamp_force"]["lower"] < reply["clamp_force"]["upper"] < reply["screw"]["preload"]


def test_the_worked_example(client: FlaskClient) -> None:
    """6 mm of M4 in 6061-T6 hold an 8.8 screw at full preload and not a 12.9 one; what helps is told."""
    joint = {"thread": "M4", "into": "6061-T6", "engagement": 6}
    held = client.post("/v1/tightening", json={**joint, "property_class": "8.8"}).get_json()
    assert held["engagement"]["holds_preload"]
    assert held["engagement"]["rule"] == {
        "diameters": 2,
        "length": 8,
        "met": False,
        "source": held["engagement"]["rule"]["source"],
    }
    assert held["torque"]["limited_by"] == "screw"
    strips = client.post("/v1/tightening", json={**joint, "property_class": "12.9"}).get_json()
    assert not strips["engagement"]["holds_preload"]
    assert strips["torque"]["limited_by"] == "internal thread"
    assert strips["gives_first"].startswith("internal thread: strips at")
    assert strips["torque"]["never_exceed"] < strips["screw"]["torque"]
    advice = "; ".join(strips["engagement"]["advice"])
    for remedy in ("less torque", "8.8 holds", "deeper thread", "insert"):
        assert remedy in advice


def test_the_thread_of_a_guide_carriage_is_warned_of(client: FlaskClient) -> None:
    """Small, shallow, and it costs the whole carriage."""
    reply = client.get("/v1/tightening?thread=M3&into=guide+carriage&engagement=3").get_json()
    assert reply["warnings"][0].startswith("Shallow, small and hard to replace: 3 mm (1 d)")
    plain = client.get("/v1/tightening?thread=M3&into=steel&engagement=3").get_json()
    assert not any("hard to replace:" in warning for warning in plain["warnings"])
    told = client.get("/v1/tightening?thread=M3&into=steel&engagement=3&hard_to_replace=1").get_json()
    assert told["warnings"][0].startswith("Shallow, small and hard to replace")


def test_the_part_that_gives_first_stands_first(client: FlaskClient) -> None:
    """A button head carries less than its thread, and aluminium under the head is crushed."""
    reply = client.get("/v1/tightening?thread=M8&property_class=10.9&head=button&clamped=aluminium").get_json()
    torques = [limit["torque"] for limit in reply["limits"]]
    assert torques == sorted(torques)
    assert {limit["part"] for limit in reply["limits"]} == {"screw", "head", "drive", "bearing surface"}
    assert reply["torque"]["never_exceed"] == torques[0]
    assert reply["limits"][0]["part"] == reply["torque"]["limited_by"]


def test_what_a_hand_applies_with_the_key_of_that_size(client: FlaskClient) -> None:
    """An M4 socket head takes a 3 mm key; a firm pull goes past what the screw bears."""
    reply = client.get("/v1/tightening?thread=M4").get_json()
    assert reply["hand"]["tool"] == "3 mm hexagon key"
    assert reply["hand"]["firm"] > reply["torque"]["never_exceed"]
    warning = next(warning for warning in reply["warnings"] if "firm pull" in warning)
    # As the reply has it: rounded to two digits it could stand above itself.
    assert f"the {reply['torque']['never_exceed']:g} N m never to exceed" in warning


def test_lubrication_stands_for_a_class_of_friction(client: FlaskClient) -> None:
    """Oil on plain steel is class B, on stainless D; the lower end limits the torque."""
    oiled = client.get("/v1/tightening?thread=M8&lubrication=oiled").get_json()
    assert oiled == client.get("/v1/tightening?thread=M8&friction=B").get_json()
    stainless = client.get("/v1/tightening?thread=M8&lubrication=oiled&property_class=A2-70").get_json()
    assert stainless["assumed"]["friction"].startswith("0.2 to 0.35")


def test_a_limit_never_grows_by_rounding(client: FlaskClient) -> None:
    """Torques and loads are rounded down, to four digits."""
    found = tighten("M8", friction=0.12)
    shown = client.get("/v1/tightening?thread=M8&friction=0,12").get_json()
    assert 0 <= found.torque.never_exceed - shown["torque"]["never_exceed"] < 0.01
    assert 0 <= found.screw.preload - shown["screw"]["preload"] < 10


def test_a_query_and_a_body_say_the_same(client: FlaskClient) -> None:
    """Numbers of JSON are taken by their shortest text."""
    body = {"thread": "M8", "property_class": 8.8, "friction": 0.12, "into": "steel", "engagement": 8}
    posted = client.post("/v1/tightening", json=body).get_json()
    assert posted == client.get(f"/v1/tightening?{EXAMPLE}").get_json()


def test_lengths_can_come_and_go_in_inches(client: FlaskClient) -> None:
    """Torques and forces stay what they are."""
    reply = client.get("/v1/tightening?thread=M8&into=steel&engagement=1/2+in&units=in").get_json()
    assert reply["engagement"]["engaged"] == 0.5
    assert reply["units"] == "in"
    assert reply["screw"] == client.get("/v1/tightening?thread=M8").get_json()["screw"]


def test_the_other_forms(client: FlaskClient) -> None:
    """The plain word is the recommended torque; XML holds every column, flat."""
    assert client.get(f"/v1/tightening.txt?{EXAMPLE}").get_data(as_text=True) == "19.92"
    csv = client.get(f"/v1/tightening.csv?{EXAMPLE}").get_data(as_text=True).splitlines()
    assert csv[1].startswith("19.92,24.9,screw,M8,8.8,18620,24.9,")
    xml = client.get(f"/v1/tightening.xml?{EXAMPLE}").get_data(as_text=True)
    assert "<never_exceed>24.9</never_exceed><limited_by>screw</limited_by>" in xml
    assert '<table id="tightening">' in client.get(f"/v1/tightening.html?{EXAMPLE}").get_data(as_text=True)
    assert client.get(f"/v1/tightening.txt?{EXAMPLE}&field=torque.never_exceed").get_data(as_text=True) == "24.9"


@pytest.mark.parametrize(
    ("query", "field"),
    [
        ("thread=Q8", "thread"),
        ("thread=G+1/8", "thread"),
        ("thread=M8&property_class=9", "property_class"),
        ("thread=M8&friction=9", "friction"),
        ("thread=M8&friction=slippery", "friction"),
        ("thread=M8&lubrication=honey", "lubrication"),
        ("thread=M8&friction=0.1&lubrication=oil", "lubrication"),
        ("thread=M8&head=square", "head"),
        ("thread=1/4-20", "head"),
        ("thread=M8&head_friction=B", "head_friction"),
        ("thread=M8&into=cheese", "into"),
        ("thread=M8&clamped=cheese", "clamped"),
        ("thread=M8&engagement=0", "engagement"),
        ("thread=M8&engagement=deep", "engagement"),
        ("thread=M8&through=maybe", "through"),
    ],
)
def test_what_is_not_understood_is_named(
    client: FlaskClient, assert_problem: Callable[..., dict[str, Any]], query: str, field: str
) -> None:
    """With the value, what is accepted, and an example."""
    body = assert_problem(client.get(f"/v1/tightening?{query}"), 422, "bad-value", field)
    assert body["value"]
    assert body["accepted"]
    assert body["example"]


def test_a_thread_has_to_be_given(client: FlaskClient, assert_problem: Callable[..., dict[str, Any]]) -> None:
    """And a name that is not known is refused."""
    assert_problem(client.get("/v1/tightening"), 422, "missing-field", "thread")
    assert_problem(client.get("/v1/tightening?thread=M8&frition=0.1"), 422, "unknown-field", "frition")


def test_a_body_is_one_object(client: FlaskClient, assert_problem: Callable[..., dict[str, Any]]) -> None:
    """A list, a table or nothing is refused."""
    assert_problem(client.post("/v1/tightening", json=[{"thread": "M8"}]), 422, "bad-value", "body")
    assert_problem(client.post("/v1/tightening", data="thread\nM8", content_type="text/csv"), 415, "unsupported-media")
    assert_problem(client.post("/v1/tightening", data="", content_type="application/json"), 422, "nothing-to-check")
    assert_problem(client.post("/v1/tightening", json={"thread": ["M8"]}), 422, "bad-value", "thread")
