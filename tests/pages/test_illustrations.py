"""Which picture belongs to which reply."""

from typing import Any
from xml.etree import ElementTree

import pytest
from flask.testing import FlaskClient

SVG = "{http://www.w3.org/2000/svg}"


def picture(client: FlaskClient, address: str) -> tuple[ElementTree.Element, list[str]]:
    """Return a picture and the texts in it."""
    reply = client.get(address)
    assert reply.status_code == 200
    assert reply.content_type == "image/svg+xml; charset=utf-8"
    root = ElementTree.fromstring(reply.data)  # noqa: S314 - our own
    return root, [one.text or "" for one in root.iter(f"{SVG}text")]


def test_a_verdict_is_drawn_reading_by_reading(client: FlaskClient) -> None:
    """Each under its word; the one without a size has none."""
    root, texts = picture(client, "/v1/verdict.svg?line=M5+dowel+pin&bore=5+H7&fit=location")
    assert [text for text in texts if ": " in text and "parallel" in text] == [
        "wrong: parallel pin with internal thread",
        "fits: parallel pin",
        "open: parallel pin with external thread",
    ]
    assert len(root.findall(f"{SVG}svg")) == 2


@pytest.mark.parametrize(
    ("query", "limits"),
    [
        ("line=dowel+pin+5+m6+x+20&bore=5+H7&fit=location", {"5.004", "5.012", "5", "−0.012", "0.008", "−0.016"}),
        ("line=608-2RS&shaft=8+h6&fit=slip", {"7.992", "8", "7.991", "−0.008", "0.009", "0.029"}),
    ],
)
def test_the_limits_in_the_picture_are_those_that_were_compared(
    client: FlaskClient, query: str, limits: set[str]
) -> None:
    """Of the bore, the part, the clearance and the window."""
    _, texts = picture(client, f"/v1/verdict.svg?{query}")
    assert limits <= set(texts)


def test_a_spring_pin_goes_into_the_smaller_hole_that_it_is_made_for(client: FlaskClient) -> None:
    """Its free diameter is larger, but nobody draws it above its hole."""
    _, texts = picture(client, "/v1/verdict.svg?line=Spring+pin+ISO+8752+-+5+x+24+-+St&bore=5+H12")
    assert "does not go in" not in texts


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("line=M4x45+socket+head+cap+screw&clamp=42+into+M4+depth+10+in+aluminium", "3 mm of thread hold"),
        ("line=M4x60+socket+head+cap+screw&clamp=42+into+M4+depth+10+in+aluminium", "head 8 mm off: bottoms"),
        ("line=M5x45+socket+head+cap+screw&clamp=42+into+M4+depth+10+in+aluminium", "M5 does not go in"),
        ("line=M8x30+hex+bolt&clamp=16+into+nut+M8", "stands out by 7.2 mm"),
        ("line=M4x50+socket+head+cap+screw&clamp=42+into+M4+in+aluminium", "depth not stated"),
        ("line=M4x50+countersunk+screw&clamp=42+into+M4+depth+10+in+aluminium", "8 mm of thread hold"),
    ],
)
def test_a_clamped_stack_is_drawn_with_what_matters(client: FlaskClient, query: str, said: str) -> None:
    """The same numbers as the findings."""
    _, texts = picture(client, f"/v1/verdict.svg?{query}")
    assert said in texts


@pytest.mark.parametrize("query", ["line=two+nice+bottles&bore=5+H7", "line=microSD+card+32+GB&presence=yes"])
def test_what_cannot_be_drawn_is_told_by_its_word_and_sign(client: FlaskClient, query: str) -> None:
    """Never an empty picture."""
    root, texts = picture(client, f"/v1/verdict.svg?{query}")
    assert texts
    assert root.find(f"{SVG}g") is not None


def test_a_fit_is_drawn(client: FlaskClient) -> None:
    """With the names of its classes."""
    _, texts = picture(client, "/v1/fits.svg?size=25&hole=H8&shaft=f7")
    assert {"25 H8", "25 f7", "25.033", "24.959", "0.074"} <= set(texts)


def test_an_order_is_drawn_over_its_days(client: FlaskClient) -> None:
    """Parts, the kit, steps, and the gate of the one that cannot be undone."""
    order: dict[str, Any] = {
        "needs": [{"id": "N1", "quantity": 1, "bore": "5 H7", "fit": "location"}],
        "lines": [{"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 1, "lead_time": "10..20"}],
        "steps": [{"id": "strip", "irreversible": True}],
        "today": "2027-01-11",
    }
    reply = client.post("/v1/orders/check.svg", json=order)
    texts = [one.text for one in ElementTree.fromstring(reply.data).iter(f"{SVG}text")]  # noqa: S314 - our own
    assert {"L1 ISO 8734 - 5 x 20 - A - St", "kit complete", "strip can start, cannot be undone"} <= set(texts)
    assert b'class="gate-closed"' in reply.data


def test_a_picture_has_no_field_and_a_wrong_request_no_picture(client: FlaskClient) -> None:
    """The error is told as to any program."""
    reply = client.get("/v1/verdict.svg?line=M5+dowel+pin&boer=5+H7")
    assert (reply.status_code, reply.content_type) == (422, "application/problem+json")
    inline = client.get("/v1/verdict.svg?line=M5+dowel+pin&bore=5+Q7&errors=inline")
    assert inline.status_code == 200
    assert inline.get_json()["field"] == "bore"
    fielded = client.get("/v1/verdict.svg?line=M5+dowel+pin&bore=5+H7&field=verdict")
    assert (fielded.status_code, fielded.get_json()["field"]) == (422, "field")
