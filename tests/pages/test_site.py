"""What all pages share, and pages that are rows."""

import base64
import hashlib
import re

import pytest
from flask.testing import FlaskClient

from service.pages.site import NAVIGATION, STYLE, shown
from tests.pages.parsed import get


@pytest.mark.parametrize("address", [address for address, _ in NAVIGATION])
def test_every_page_is_reached_from_every_page_and_says_where_it_is(client: FlaskClient, address: str) -> None:
    """By the one navigation."""
    page = get(client, address)
    links = [one.get("href") for one in page.all(".//nav[@aria-label='Pages']//a")]
    assert links == [address for address, _ in NAVIGATION]
    current = [one.get("href") for one in page.all(".//a[@aria-current='page']")]
    assert current == [address]


def test_the_style_sheet_is_the_one_that_the_policy_lets_in(client: FlaskClient) -> None:
    """By its digest, as it stands in the page."""
    reply = client.get("/")
    style = re.search(r"<style>(.*?)</style>", reply.get_data(as_text=True), re.DOTALL)
    assert style is not None
    digest = base64.b64encode(hashlib.sha256(style[1].encode()).digest()).decode()
    assert f"style-src 'sha256-{digest}'" in reply.headers["Content-Security-Policy"]
    assert "script-src" not in reply.headers["Content-Security-Policy"]
    assert "form-action 'self'" in reply.headers["Content-Security-Policy"]


def test_no_rule_of_the_style_sheet_is_for_a_class_that_a_column_may_have() -> None:
    """Cells carry the name of their column as class: a bare rule for it would dress them."""
    bare = set(re.findall(r"(?<![\w\])-])\.([a-z][a-z_-]*)", STYLE))
    columns = {
        "source",
        "order",
        "word",
        "field",
        "limits",
        "problem",
        "reading",
        "ask",
        "text",
        "line",
        "name",
        "state",
    }
    assert bare & columns <= {"problem", "name"}
    assert ".problem:not(td)" in STYLE
    assert re.findall(r"[^{}]*\.name\b[^{}]*\{", STYLE) == ["\n.masthead .name {"]


def test_rows_show_first_what_matters_and_hide_nothing(client: FlaskClient) -> None:
    """Every column is there; those beyond the first are marked, and a box shows them."""
    page = get(client, "/v1/families.html")
    rows = client.get("/v1/families.json").get_json()["families"]
    assert len(page.all(".//tbody/tr")) == len(rows)
    first = page.all(".//tbody/tr")[0]
    cells = {one.get("class"): one for one in first}
    assert {name for name, cell in cells.items() if cell.get("data-more") is None} == {
        "family",
        "size_names",
        "standards",
        "order_text",
        "examples",
    }
    assert cells["words"].get("data-more") == ""
    assert page.all(".//input[@type='checkbox']")
    assert cells["size_names"].get("data-label") == "size names"


def test_every_family_leads_to_its_table(client: FlaskClient) -> None:
    """Where it has one."""
    for link in get(client, "/v1/families.html").all(".//tbody//a"):
        assert client.get(link.get("href", "")).status_code == 200


def test_a_table_says_what_it_is_and_what_its_columns_mean(client: FlaskClient) -> None:
    """Under its own title; a filter of the address leaves those rows."""
    about = client.get("/v1/reference/parallel_pin.json").get_json()
    page = get(client, "/v1/reference/parallel_pin.html")
    assert page.one(".//h1") == about["title"]
    assert set(page.facts()) == {name.replace("_", " ") for name in about["columns"]}
    fewer = get(client, "/v1/reference/parallel_pin.html?size=5")
    assert 0 < len(fewer.all(".//tbody/tr")) < len(page.all(".//tbody/tr"))


def test_every_table_can_be_browsed_from_the_list(client: FlaskClient) -> None:
    """By its name."""
    links = [one.get("href", "") for one in get(client, "/v1/reference.html").all(".//tbody//a")]
    assert len(links) == len(client.get("/v1/reference.json").get_json()["tables"])
    for link in links[::10]:
        assert get(client, link).all(".//table")


def test_values_are_written_for_people() -> None:
    """Numbers in full with a true minus; nothing for null."""
    assert shown(0.0000394) == "0.0000394"
    assert shown(False) == "no"
    assert shown([1, None, "a"]) == "1; ; a"
