"""The first page, and what its forms answer."""

import io

import pytest
from flask.testing import FlaskClient

from service.verdict.kinds import BY_FIELD
from tests.pages.parsed import get, post


def test_it_shows_examples_with_the_verdicts_that_they_get(client: FlaskClient) -> None:
    """Each leads to its page, whose verdict is the same."""
    page = get(client, "/")
    words = page.texts(".//ul[@class='entries']//span[@class='mark']")
    links = [one.get("href", "") for one in page.all(".//ul[@class='entries']//a")]
    assert len(words) == len(links) == 8
    for word, link in zip(words, links, strict=True):
        assert get(client, link).one(".//span[@class='word']") == word
    assert set(words) == {"fits", "marginal", "ask", "wrong", "unread"}


def test_every_kind_of_mate_can_be_chosen(client: FlaskClient) -> None:
    """With an example of how it is written."""
    page = get(client, "/")
    options = {one.get("value"): one.text or "" for one in page.all(".//select[@id='kind']/option")}
    assert {name: kind.example in options[name] for name, kind in BY_FIELD.items()} == dict.fromkeys(BY_FIELD, True)


def test_a_line_with_its_mate_gets_its_verdict(client: FlaskClient) -> None:
    """As its own address has it, except for the address."""
    asked = "line=M5+dowel+pin&bore=5+H7&fit=location"
    entered = get(client, "/proof?line=M5+dowel+pin&kind=bore&mate=5+H7&fit=location&lines=")
    assert entered.text == get(client, f"/v1/verdict.html?{asked}").text


def test_a_line_alone_gets_its_readings(client: FlaskClient) -> None:
    """What would arrive."""
    entered = get(client, "/proof?line=M5+dowel+pin&kind=bore&mate=+&fit=")
    assert entered.text == get(client, "/v1/reading.html?line=M5+dowel+pin").text


@pytest.mark.parametrize(
    ("query", "invalid", "said"),
    [
        ("line=&kind=bore&mate=5+H7", "line", "the line is empty"),
        ("line=M5+dowel+pin&kind=bore&mate=5+Q7", "mate", "5 Q7"),
        ("line=M5+dowel+pin&kind=bore&mate=5+H7&fit=tight", "fit", "tight"),
        ("line=M5+dowel+pin&kind=hole&mate=5+H7", None, "hole"),
        ("line=M5+%00&kind=bore&mate=", "line", "plain text"),
    ],
)
def test_what_is_wrong_is_said_above_the_form_which_keeps_its_values(
    client: FlaskClient, query: str, invalid: str | None, said: str
) -> None:
    """And the field that is meant is marked."""
    page = get(client, f"/proof?{query}", 422)
    assert said in page.one(".//div[@role='alert']")
    marked = [one.get("id") for one in page.all(".//input[@aria-invalid]")]
    assert marked == ([invalid] if invalid else [])
    if "M5+dowel" in query:
        assert [one.get("value") for one in page.all(".//input[@id='line']")] == ["M5 dowel pin"]


def test_lines_as_they_stand_in_a_mail_are_read(client: FlaskClient) -> None:
    """Each leads to its page."""
    page = post(client, "/proof", lines="M5 dowel pin\r\n\r\n- 10 x M5x16 socket head cap screw\r\n608-2RS")
    rows = page.texts(".//tbody/tr/td[@class='line']")
    assert rows == ["M5 dowel pin"] * 3 + ["'- 10 x M5x16 socket head cap screw", "608-2RS"]
    for link in page.all(".//tbody//a"):
        assert client.get(link.get("href", "")).status_code == 200


def test_checks_with_a_heading_are_judged(client: FlaskClient) -> None:
    """A check that cannot be read does not stop the others; each leads to its page."""
    csv = "line;bore;fit\nISO 8734 - 5 x 20 - A - St;5 H7;location\nM5 dowel pin;5 Q7;\nM5 dowel pin;5 H7;location\n"
    page = post(client, "/proof", lines=(io.BytesIO(csv.encode()), "order.csv"))
    assert page.texts(".//tbody/tr/td[@class='verdict']") == ["fits", "unread", "ask"]
    links = [one.get("href", "") for one in page.all(".//tbody//a")]
    assert get(client, links[2]).one(".//div[@class='told']").startswith("ask")


@pytest.mark.parametrize("lines", ["", " \n ", "x" * 501])
def test_lines_that_cannot_be_read_at_all_are_refused(client: FlaskClient, lines: str) -> None:
    """With the form."""
    assert post(client, "/proof", 422, lines=lines).all(".//div[@role='alert']")


def test_lines_and_a_file_together_are_refused(client: FlaskClient) -> None:
    """One of them would be lost."""
    fields = {"lines": ["608", (io.BytesIO(b"609"), "order.txt")]}
    reply = client.post("/proof", data=fields, content_type="multipart/form-data")
    assert reply.status_code == 422
    assert "both lines and a file are given" in reply.get_data(as_text=True)
