"""The page of one line or need of an order, entered or stored: everything that its entry sums up."""

from typing import Any, ClassVar

import pytest
from flask.testing import FlaskClient

from service.pages.orders import sampler
from tests.pages.browser import Browser
from tests.pages.parsed import Parsed, get, post
from tests.pages.visits import opened, order

MOST_BYTES = 100_000
"""A line's own page; an order of many lines may not make it heavier."""


def shown(client: FlaskClient, **which: str) -> Parsed:
    """Return the page of a line or need of the river sampler's order."""
    return post(client, "/order/why", **sampler(), **which)


def way(page: Parsed) -> dict[str, tuple[str, str]]:
    """Return what the buttons of the way say, each with the field that it sends."""
    buttons = page.all(".//nav[@aria-label='Through the order']//button")
    return {one.text or "": (one.get("name", ""), one.get("value", "")) for one in buttons}


class TestEntered:
    """A line of an order that the service does not keep."""

    def test_every_reading_stands_beside_the_others(self, client: FlaskClient) -> None:
        """With its verdict, its picture, its numbers and their sources."""
        page = shown(client, line="L1")
        assert page.one(".//main/h1") == "M5 dowel pin"
        readings = page.texts(".//article[@class='reading']")
        assert len(readings) == 3
        assert readings[0].startswith("parallel pin with internal thread wrong, clearance −3.015 to −2.994 mm")
        assert readings[1].startswith("parallel pin fits, clearance −0.012 to 0.008 mm")
        assert all("ISO 286-1" in one for one in readings[:2])
        assert len(page.all(".//article//figure/{http://www.w3.org/2000/svg}svg")) == 2

    def test_the_order_text_and_the_question_are_there_to_be_taken(self, client: FlaskClient) -> None:
        """As text, and the question as an e-mail."""
        page = shown(client, line="L1")
        assert page.one(".//div[@class='pencilled']/code") == "Parallel pin ISO 8734 - 5 x <length> - A - St"
        assert page.one(".//p[@class='ask']").startswith("Your line 'M5 dowel pin' can mean")
        assert any((one.get("href") or "").startswith("mailto:?subject=") for one in page.all(".//a"))

    def test_a_clamped_stack_is_drawn_to_scale(self, client: FlaskClient) -> None:
        """With what holds and what is free below."""
        page = shown(client, line="L3")
        assert "42 mm" in page.one(".//figure")
        assert "7 mm free below" in page.one(".//figure")

    def test_the_check_has_an_address_of_its_own(self, client: FlaskClient) -> None:
        """Which shows the same verdict without the order."""
        page = shown(client, line="L3")
        (address,) = [one.get("href", "") for one in page.all(".//a") if "own" in (one.text or "")]
        assert get(client, address).one(".//span[@class='word']") == "wrong"

    def test_it_leads_back_and_on_to_what_is_not_settled(self, client: FlaskClient) -> None:
        """The order goes along, so that each of them can be shown."""
        page = shown(client, line="L4")
        assert way(page) == {
            "Back to the order": ("", ""),
            "Previous to look at: line L3": ("line", "L3"),
            "Next to look at: need N1": ("need", "N1"),
        }
        assert page.one(".//p[@class='kicker']") == "Line L4 of the order; 4 of 9 to look at"
        kept = {one.get("name"): (one.text or "").lstrip("\n") for one in page.all(".//form[@id='sheets']/textarea")}
        assert post(client, "/order/why", **kept, need="N1").one(".//main/h1") == "index pins of the carousel plate"
        assert post(client, "/order", **kept).one(".//main/h1") == "6 lines for 7 needs"

    def test_the_whole_way_can_be_gone(self, client: FlaskClient) -> None:
        """From the first to the last, each once."""
        seen = [("line", "L1")]
        while True:
            page = shown(client, **dict([seen[-1]]))
            following = [to for text, to in way(page).items() if text.startswith("Next")]
            if not following:
                break
            seen += following
        assert [name for _, name in seen] == ["L1", "L2", "L3", "L4", "N1", "N2", "N3", "N4", "N7"]

    def test_a_need_without_a_line_says_what_goes_with_its_mate(self, client: FlaskClient) -> None:
        """Each with its source, ready to copy."""
        page = shown(client, need="N3")
        assert page.one(".//span[@class='word']") == "missing"
        offered = page.texts(".//ul[@class='entries']/li")
        assert any(one.startswith("Hexagon socket head cap screw ISO 4762 - M4 x 50 - 8.8") for one in offered)
        assert any(one.startswith("wrong L3 M4x45 socket head cap screw 8.8") for one in offered)
        pictures = [one.get("href", "") for one in page.all(".//ul[@class='entries']//a")]
        assert len(pictures) == len(offered) - 1
        drawn = get(client, pictures[0])
        assert (drawn.one(".//span[@class='word']"), len(drawn.all(".//figure"))) == ("fits", 1)

    def test_a_need_that_only_has_to_be_there_says_so(self, client: FlaskClient) -> None:
        """Nothing can be proposed for it."""
        page = shown(client, need="N7")
        assert "None: no line of the order goes with it or names it." in page.one(".//main")

    def test_what_only_has_to_be_there_shows_what_would_arrive(self, client: FlaskClient) -> None:
        """And why it is taken for the need."""
        page = shown(client, line="L6")
        assert "taken for N6 by the order's own word" in page.one(".//main")
        assert [one.split(" ", 2)[:2] for one in page.texts(".//article")] == [["storage", "module"]]

    @pytest.mark.parametrize(
        ("which", "says"),
        [({"line": "L99"}, "the order has no such line"), ({}, "neither a line nor a need is named")],
    )
    def test_what_the_order_does_not_have_is_said_above_the_form(
        self, client: FlaskClient, which: dict[str, str], says: str
    ) -> None:
        """What was entered stays."""
        page = post(client, "/order/why", 422, **sampler(), **which)
        assert says in page.one(".//div[@role='alert']")
        entered = {one.get("name"): (one.text or "").lstrip("\n") for one in page.all(".//textarea")}
        assert entered["needs"].rstrip("\n") == sampler()["needs"].rstrip("\n")

    def test_a_line_of_a_settled_order_says_that_nothing_is_left(self, client: FlaskClient) -> None:
        """Not a number without anything behind it; what was measured conforms, which is not yet all of it."""
        receipt = {"measured": [5.008], "uncertainty": 0.001}
        pin = {"id": "L1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 1, "received": 1, "receipt": receipt}
        needs = [{"id": "N1", "quantity": 1, "bore": "5 H7", "fit": "location"}]
        made = client.post("/v1/orders", json={"name": "river sampler", "needs": needs, "lines": [pin]}).get_json()[
            "id"
        ]
        page = get(client, f"/v1/orders/{made}/why.html?line=L1")
        assert page.one(".//p[@class='kicker']") == "Line L1 of the order river sampler; nothing to look at"
        assert "Everything that was measured on it conforms." in page.one(".//main")

    def test_an_order_that_a_program_sends_has_the_same_way(self, client: FlaskClient) -> None:
        """Its page carries the fields of the JSON along, and they are read back alike."""
        given: dict[str, Any] = {
            "needs": [{"id": "N 1", "quantity": 2, "mate": {"kind": "bore", "diameter": "5 H7"}, "fit": "location"}],
            "lines": [{"id": "L/1", "line": "M5 dowel pin ø5", "quantity": 2}],
            "copies": 2,
            "confidence": 0.8,
        }
        reply = client.post("/v1/orders/check.html", json=given)
        page = Parsed(reply.get_data(as_text=True))
        kept = {one.get("name"): (one.text or "").lstrip("\n") for one in page.all(".//form[@id='sheets']/textarea")}
        again = post(client, "/order/why", **kept, line="L/1")
        assert again.one(".//main/h1") == "M5 dowel pin ø5"
        assert "goes with: bore 5 H7" in again.one(".//main")
        assert post(client, "/order", **kept).texts(".//ul[@class='entries']/li") == page.texts(
            ".//ul[@class='entries']/li"
        )


class TestWeight:
    """Many lines."""

    def test_an_order_of_three_hundred_lines_stays_one_that_a_phone_can_load(self, client: FlaskClient) -> None:
        """Pictures stand on the pages of the lines alone, whose weight does not grow with the order much."""
        needs = ["id,quantity,bore,fit"] + [f"N{n},4,{5 + n % 4} H7,location" for n in range(300)]
        lines = ["id,line,quantity,for"] + [f"L{n},M{5 + n % 4} dowel pin,4,N{n}" for n in range(300)]
        sheets = {"needs": "\n".join(needs), "lines": "\n".join(lines)}
        page = post(client, "/order", **sheets)
        assert len(page.text) < 2_000_000
        assert len(page.all(".//figure")) == 1
        assert len(page.all(".//button[@name='line']")) == 300
        assert len(post(client, "/order/why", **sheets, line="L7").text) < MOST_BYTES


class TestStored:
    """A line of an order that is kept."""

    GIVEN: ClassVar = {
        "name": "river sampler",
        "needs": [
            {"id": "N1", "quantity": 2, "bore": "5 H7", "fit": "location"},
            {"id": "N2", "quantity": 1, "bore": "8 H7", "fit": "press"},
        ],
        "lines": [{"id": "L 1", "line": "M5 dowel pin", "quantity": 2}],
    }

    def test_it_has_an_address_of_its_own(self, client: FlaskClient) -> None:
        """Reached from the order, with links back to its entry and on."""
        made = client.post("/v1/orders", json=self.GIVEN).get_json()["id"]
        page = get(client, f"/v1/orders/{made}/check.html")
        links = [one.get("href", "") for one in page.all(".//ul[@class='entries']//a")]
        assert f"/v1/orders/{made}/why.html?line=L+1" in links
        line = get(client, f"/v1/orders/{made}/why.html?line=L+1")
        assert line.one(".//p[@class='kicker']") == "Line L 1 of the order river sampler; 1 of 3 to look at"
        assert len(line.all(".//article")) == 3
        steps = {one.text: one.get("href", "") for one in line.all(".//nav[@aria-label='Through the order']//a")}
        assert steps == {
            "Back to the order": f"/v1/orders/{made}/check.html#line-L%201",
            "Sheet for the bench": f"/bench?order={made}",
            "Next to look at: need N1": f"/v1/orders/{made}/why.html?need=N1",
        }
        assert page.all(".//li[@id='line-L%201']")
        assert "M5 dowel pin" in get(client, steps["Next to look at: need N1"]).one(".//main")

    def test_a_line_that_it_does_not_have_is_an_error(self, client: FlaskClient) -> None:
        """With the lines that there are."""
        made = client.post("/v1/orders", json=self.GIVEN).get_json()["id"]
        assert "one of L 1" in get(client, f"/v1/orders/{made}/why.html?line=L2", 422).text
        assert "there is no such order" in get(client, "/v1/orders/nothing/why.html?line=L1", 404).text


class TestInTheBrowser:
    """As a person goes the way."""

    def test_from_the_order_to_a_line_to_the_next_and_back_to_its_entry(self, browser: Browser, site: str) -> None:
        """By buttons alone."""
        opened("line", "L1")(browser, site)
        browser.submit("nav[aria-label='Through the order'] button[value=L2]")
        assert "dowel pin ISO 8734 6 m6 x 20" in browser.text("h1")
        browser.submit("nav[aria-label='Through the order'] li:first-child button")
        assert browser.text("h1") == "6 lines for 7 needs"
        assert browser.address.endswith("/order#line-L2")
        assert browser.run("return document.querySelector(':target').textContent").strip().startswith("marginal")

    def test_the_order_text_is_taken_whole_by_one_click(self, browser: Browser, site: str) -> None:
        """No script helps."""
        opened("line", "L3")(browser, site)
        browser.click(".pencilled code")
        assert (
            browser.run("return getSelection().toString()").strip()
            == "Hexagon socket head cap screw ISO 4762 - M4 x 50 - 8.8"
        )

    def test_signs_that_are_drawn_once_are_seen_everywhere(self, browser: Browser, site: str) -> None:
        """Each has its size, and refers to one that is there."""
        order(browser, site)
        missing = "[...document.querySelectorAll('use')].filter(u => !document.querySelector(u.getAttribute('href')))"
        assert browser.run(f"return {missing}.length") == 0
        assert browser.run("return document.querySelectorAll('.glyph use').length") > 10
        assert browser.run("return document.querySelector('#lines + ul > li:nth-child(6) .glyph').getBBox().width") > 10
