"""``/v1/fits`` over HTTP."""

import pytest
from flask.testing import FlaskClient


def test_the_example_of_the_contract(client: FlaskClient) -> None:
    """25 H8/f7, with its source."""
    reply = client.get("/v1/fits?size=25&hole=H8&shaft=f7").get_json()
    assert reply["hole"] == {"nominal": 25, "lower": 25, "upper": 25.033, "tolerance_class": "H8"}
    assert reply["shaft"] == {"nominal": 25, "lower": 24.959, "upper": 24.98, "tolerance_class": "f7"}
    assert reply["clearance"] == {"lower": 0.02, "upper": 0.074}
    assert reply["kind"] == "clearance"
    assert "ISO 286-1" in reply["source"]


@pytest.mark.parametrize("size", ["12,7", "12.7", "0.5 in", '1/2"', "12,7 mm"])
def test_a_size_can_have_a_decimal_comma_or_a_unit(client: FlaskClient, size: str) -> None:
    """A sheet of a decimal-comma locale sends commas."""
    reply = client.get("/v1/fits", query_string={"size": size, "hole": "H7", "shaft": "h6"}).get_json()
    assert reply["size"] == 12.7


def test_the_reply_can_be_in_inches(client: FlaskClient) -> None:
    """To a ten millionth."""
    reply = client.get("/v1/fits?size=25.4&hole=H7&shaft=h6&units=in").get_json()
    assert reply["size"] == 1
    assert reply["hole"]["upper"] == 1.0008268


@pytest.mark.parametrize(("shaft", "kind"), [("g6", "clearance"), ("k6", "transition"), ("s6", "interference")])
def test_the_word_is_the_kind(client: FlaskClient, shaft: str, kind: str) -> None:
    """As ISO 286-1 names it."""
    assert client.get(f"/v1/fits.txt?size=25&hole=H7&shaft={shaft}").get_data(as_text=True) == kind
