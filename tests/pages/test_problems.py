"""The page of an error: the same facts as a program gets."""

import pytest
from flask.testing import FlaskClient

from tests.pages.parsed import get


@pytest.mark.parametrize(
    ("address", "status"),
    [
        ("/v1/verdict{}?line=M5+dowel+pin&boer=5+H7", 422),
        ("/v1/fits{}?size=25&hole=f7&shaft=f7", 422),
        ("/v1/reference/nothing{}", 404),
        ("/v1/nothing{}", 404),
    ],
)
def test_every_fact_of_an_error_stands_on_its_page(client: FlaskClient, address: str, status: int) -> None:
    """Field, value, what is accepted, an example; the anchor of its kind is there."""
    problem = client.get(address.format(".json")).get_json()
    page = get(client, address.format(".html"), status)
    assert page.one("./body/main/h1") == problem["title"]
    assert problem["detail"].replace(".json", ".html") in page.one(".//div[@class='problem']")
    facts = page.facts()
    for key, name in (("field", "field"), ("accepted", "accepted"), ("example", "example")):
        assert " ".join(problem[key].split()) == facts.get(name, "")
    link = next(one.get("href", "") for one in page.all("./body/main//a") if one.get("href", "").startswith("/docs#"))
    assert link == problem["type"]
    assert f'id="{link.removeprefix("/docs#")}"' in client.get("/docs").get_data(as_text=True)


def test_what_was_given_is_shown_and_never_becomes_markup(client: FlaskClient) -> None:
    """Not even where it is a field's name."""
    page = get(client, "/v1/verdict.html?line=x&%3Cb%3Ebore=5+H7", 422)
    assert page.facts()["field"] == "<b>bore"
    assert page.all(".//b") == []
