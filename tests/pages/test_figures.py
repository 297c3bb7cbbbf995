"""The pages of fits and of tightening."""

from flask.testing import FlaskClient

from tests.pages.parsed import get

JOINT = "/v1/tightening.html?thread=M5&into=aluminium&engagement=8"


def test_a_fit_shows_its_limits_and_their_source(client: FlaskClient) -> None:
    """ISO 286: 25 H8/f7."""
    page = get(client, "/v1/fits.html?size=25&hole=H8&shaft=f7")
    facts = page.facts()
    assert facts["hole"] == "25 H8 (25 to 25.033) mm"
    assert facts["clearance"] == "0.02 to 0.074 mm"
    assert "ISO 286-1" in page.one(".//p[@class='source']")
    assert len(page.all(".//figure")) == 1


def test_another_pair_can_be_asked_for_from_there(client: FlaskClient) -> None:
    """The form holds what was asked."""
    page = get(client, "/v1/fits.html?size=25&hole=H8&shaft=f7")
    assert {one.get("name"): one.get("value") for one in page.all(".//input")} == {
        "size": "25",
        "hole": "H8",
        "shaft": "f7",
    }


def test_a_joint_shows_its_torque_what_it_rests_on_and_its_cautions(client: FlaskClient) -> None:
    """What was not given is said to be assumed."""
    page = get(client, JOINT)
    reply = client.get(JOINT.replace(".html", ".json")).get_json()
    assert page.one(".//span[@class='word']").replace("\u00a0", " ") == f"{reply['torque']['recommended']} N m"
    assert page.texts(".//section[@class='cautions']//li") == reply["cautions"]
    assert set(reply["assumed"]) <= {name.replace(" ", "_") for name in page.facts()}
    assert page.facts()["engaged"] == f"8 mm, {reply['engagement']['diameters']} times the diameter"


def test_a_form_that_is_sent_with_empty_fields_is_understood(client: FlaskClient) -> None:
    """A browser sends them all."""
    page = get(client, "/v1/tightening.html?thread=M5&property_class=&head=&friction=&into=&engagement=&clamped=")
    assert page.one(".//h1") == "How tight M5, class 8.8, may be done up"
