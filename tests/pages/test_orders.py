"""The pages of an order, from its form to the sheet for the bench."""

import io
from pathlib import Path
from typing import ClassVar

import pytest
from flask.testing import FlaskClient

from service.pages.orders import SHEETS, sampler
from tests.pages.browser import Browser
from tests.pages.parsed import Parsed, get, post
from tests.pages.visits import bench as visit_bench
from tests.pages.visits import measured, order

LINES = ".//ul[@class='entries']/li"


def proofed(client: FlaskClient, **changes: str) -> Parsed:
    """Return the page of the river sampler's order, with some of its sheets changed."""
    return post(client, "/order", **{**sampler(), **changes})


class TestForm:
    """Where an order is entered."""

    def test_it_holds_what_is_given(self, client: FlaskClient) -> None:
        """The river sampler's sheets, as they were written."""
        page = get(client, "/order?example=sampler")
        entered = {one.get("name"): (one.text or "").lstrip("\n") for one in page.all(".//textarea")}
        assert entered == {name: sampler()[name].rstrip("\n") + "\n" for name, *_ in SHEETS}

    def test_every_field_has_a_label(self, client: FlaskClient) -> None:
        """By its id."""
        page = get(client, "/order")
        labels = {one.get("for") for one in page.all(".//label")}
        fields = {one.get("id") for tag in ("input", "textarea") for one in page.all(f".//{tag}")}
        assert fields <= labels

    def test_what_is_wrong_is_said_above_and_what_was_entered_stays(self, client: FlaskClient) -> None:
        """With the field, the value, what is accepted and an example."""
        needs = "id,quantity,bore\nN1,six,5 H7\n"
        page = post(client, "/order", 422, needs=needs, lines="line,quantity\n608,1\n")
        problem = page.one(".//div[@role='alert']")
        assert "needs.N1.quantity" in problem
        assert "six" in problem
        entered = {one.get("name"): (one.text or "").lstrip("\n") for one in page.all(".//textarea")}
        assert entered["needs"] == needs
        assert entered["lines"].startswith("line,quantity")
        assert [one.get("id") for one in page.all(".//textarea[@aria-invalid]")] == ["needs"]
        assert page.one("./head/title").startswith("Error: ")

    @pytest.mark.parametrize("fields", [{}, {"needs": "  "}, {"lines": "line\n608\n"}])
    def test_an_order_without_a_need_is_refused(self, client: FlaskClient, fields: dict[str, str]) -> None:
        """It is never ready."""
        assert "at least one need" in post(client, "/order", 422, **fields).one(".//div[@role='alert']")

    def test_a_sheet_is_not_given_twice(self, client: FlaskClient) -> None:
        """As text and as a file: one of them would be lost."""
        file = (io.BytesIO(b"id,quantity\nN1,1\n"), "needs.csv")
        fields = {"needs": ["id,quantity\nN2,1\n", file]}
        reply = client.post("/order", data=fields, content_type="multipart/form-data")
        assert reply.status_code == 422
        assert "needs is sent twice" in reply.get_data(as_text=True)

    def test_files_are_read_like_pasted_rows(self, client: FlaskClient) -> None:
        """In the encoding that a spreadsheet on Windows saves."""
        needs = (io.BytesIO("id;Menge;Bohrung;Passung\nN1;2;5 H7;location\n".encode("cp1252")), "needs.csv")
        lines = (io.BytesIO("Bezeichnung;Menge\nZylinderstift ø5 m6 x 20;2\n".encode("cp1252")), "lines.csv")
        page = post(client, "/order", needs=needs, lines=lines)
        assert any(text.startswith("covered N1") for text in page.texts(LINES))
        assert any("Zylinderstift ø5 m6 x 20" in text for text in page.texts(LINES))
        assert any("Windows-1252" in text for text in page.texts(".//ul/li"))


class TestPage:
    """What an order check shows."""

    def test_every_line_has_its_verdict_and_can_be_opened(self, client: FlaskClient) -> None:
        """With what to order, what to ask, and why."""
        entries = proofed(client).texts(LINES)
        pins = next(text for text in entries if text.startswith("ask L1"))
        assert "Parallel pin ISO 8734 - 5 x <length> - A - St" in pins
        assert "Ask this: Your line 'M5 dowel pin' can mean" in pins
        assert "Why L1 is judged “ask”" in pins
        assert "source" not in pins
        assert "ISO 286-1" in pins
        assert any(text.startswith("wrong L3 M4x45 socket head cap screw 8.8") for text in entries)
        assert any(text.startswith("fits S1") for text in entries)

    def test_every_need_says_what_it_lacks(self, client: FlaskClient) -> None:
        """In pieces."""
        entries = proofed(client).texts(LINES)
        assert any(text.startswith("in doubt N1") and "12 needed, 3 covered, 9 in doubt" in text for text in entries)
        assert any(text.startswith("missing N3") and "4 short" in text for text in entries)
        assert any(text.startswith("covered N5") for text in entries)

    def test_what_is_ordered_already_is_no_remedy(self, client: FlaskClient) -> None:
        """A pin that is marginal stays so however it is written; a screw of another length is another part."""
        page = proofed(client)
        entries = page.texts(LINES)
        assert any(
            one.startswith("marginal L2") and "The same, written out: it stays marginal" in one for one in entries
        )
        assert any(
            one.startswith("in doubt N2") and "What is ordered, written out: it stays marginal" in one
            for one in entries
        )
        assert any(one.startswith("missing N3") and "Order this: Hexagon socket head cap" in one for one in entries)

    def test_the_step_that_cannot_be_undone_is_held_up_first(self, client: FlaskClient) -> None:
        """Its gate says what keeps it closed."""
        page = proofed(client)
        assert "Do not begin “strip”: it cannot be undone." in page.one(".//div[@class='told']")
        strip = next(text for text in page.texts(LINES) if text.startswith("closed strip"))
        assert "N3 screws of the arm" in strip
        assert "2027-02-17 with 50 %" in page.text.replace("&#160;", " ")

    def test_an_order_that_is_complete_is_ready(self, client: FlaskClient) -> None:
        """And its gate open."""
        fields = {
            "needs": "id,quantity,bore,fit\nN1,2,5 H7,location\n",
            "lines": "id,line,quantity,received_on\nL1,ISO 8734 - 5 x 20 - A - St,2,2027-01-04\n",
            "steps": "id,irreversible\nstrip,yes\n",
            "today": "2027-01-11",
        }
        page = post(client, "/order", **fields)
        assert page.one(".//div[@class='told']").startswith("ready")
        assert any(text.startswith("open strip") for text in page.texts(LINES))

    def test_a_column_that_is_not_understood_is_named(self, client: FlaskClient) -> None:
        """Never dropped."""
        page = proofed(client, stock="id,line,quantity,shelf\nS1,ISO 8734 - 5 x 20 - A - St,3,B2\n")
        assert "column shelf of stock is not understood (1 cells)" in page.texts(".//ul/li")

    def test_it_leads_on_with_what_was_entered(self, client: FlaskClient) -> None:
        """To the form and to the bench: the same sheets again."""
        page = proofed(client)
        kept = {one.get("name"): (one.text or "").lstrip("\n") for one in page.all(".//textarea")}
        assert {name: text.rstrip("\n") for name, text in kept.items()} == {
            name: text.rstrip("\n") for name, text in sampler().items()
        }
        again = post(client, "/order/edit", **kept)
        assert [one.get("value") for one in again.all(".//input[@name='start_on']")] == ["2027-02-01"]

    def test_a_program_that_asks_for_html_gets_the_same_page(self, client: FlaskClient) -> None:
        """With one table, in which every row of the check stands."""
        given = {"needs": [{"id": "N1", "quantity": 1, "bore": "5 H7"}], "lines": [{"line": "608", "quantity": 1}]}
        reply = client.post("/v1/orders/check.html", json=given)
        page = Parsed(reply.get_data(as_text=True))
        assert page.one("./body/main/h1") == "1 line for 1 need"
        assert [one.get("id") for one in page.all(".//table")] == ["order"]


class TestBench:
    """The sheet for the bench."""

    def test_it_says_what_to_measure_within_which_limits_and_with_what(self, client: FlaskClient) -> None:
        """On each bag."""
        page = post(client, "/bench", **sampler())
        bags = page.texts(".//section[@class='bag']")
        assert len(bags) == 7
        assert "outer diameter5.001 to 5.016 mmgoes with every bore 5 H7" in bags[0]
        assert "with a micrometer (± 0.004 mm); a reading above 5.005 and below 5.012 mm proves a piece" in bags[0]
        assert "Tell apart first: parallel pin with internal thread: outer diameter 8 mm" in bags[0]
        assert "crests of the thread M4" in bags[2]

    def test_values_are_held_against_the_limits(self, client: FlaskClient) -> None:
        """Proved, refused, not provable, and what is no number."""
        values = {
            "measured.L1.1": "5.008 5,010; 5.009",
            "measured.L2.1": "6.014",
            "measured.L3.1": "4.5",
            "measured.L4.1": "eight",
        }
        page = post(client, "/bench", **sampler(), **values)
        words = page.texts(".//div[@class='told']//span[@class='word']")
        assert words == ["conforming", "not provable", "not conforming"]
        told = page.texts(".//div[@class='told']")
        assert "3 measured, none outside" in told[0]
        assert "of the 20 in the bag" in told[0]
        assert "eight" in page.one(".//p[@class='problem']")
        entered = {one.get("name"): one.get("value") for one in page.all(".//input[@type='text']")}
        assert entered["measured.L1.1"] == "5.008 5,010; 5.009"

    def test_the_instrument_is_the_one_that_was_used(self, client: FlaskClient) -> None:
        """A calliper proves nothing within 15 micrometres."""
        values = {"measured.L1.1": "5.008", "instrument.L1.1": "calliper"}
        page = post(client, "/bench", **sampler(), **values)
        assert page.texts(".//div[@class='told']//span[@class='word']") == ["not provable"]
        chosen = page.all(".//select[@name='instrument.L1.1']/option[@selected]")
        assert [one.text for one in chosen] == ["calliper"]


class TestInTheBrowser:
    """The way through, as a person goes it."""

    def test_from_the_form_to_the_order_and_back(self, browser: Browser, site: str) -> None:
        """What was entered survives."""
        order(browser, site)
        assert "not ready" in browser.text(".told")
        browser.submit("button[formaction='/order/edit']")
        entered = browser.run("return document.querySelector('#needs').value")
        assert entered.rstrip("\n") == sampler()["needs"].rstrip("\n")

    def test_values_are_entered_at_the_bench(self, browser: Browser, site: str) -> None:
        """And what they prove stands beside them."""
        measured(browser, site)
        assert "conforming" in browser.text("[aria-labelledby=bag-1]")

    def test_a_file_is_uploaded(self, browser: Browser, site: str, tmp_path: Path) -> None:
        """From the machine of the person."""
        sheet = tmp_path / "needs.csv"
        sheet.write_text(sampler()["needs"], "utf-8")
        browser.open(f"{site}/order")
        browser.type("#needs-file", str(sheet))
        browser.submit("main button")
        assert "0 lines for 7 needs" in browser.text("h1")

    def test_a_line_is_opened_to_see_why(self, browser: Browser, site: str) -> None:
        """Its findings are hidden until then."""
        order(browser, site)
        assert "too little" not in browser.text("#lines + ul > li:nth-child(3)")
        browser.click("#lines + ul > li:nth-child(3) summary")
        assert "too little" in browser.text("#lines + ul > li:nth-child(3)")

    def test_the_sheet_of_a_bench_is_reached(self, browser: Browser, site: str) -> None:
        """By a button."""
        visit_bench(browser, site)
        assert browser.text("h1") == "Sheet for the bench"

    def test_from_the_sheet_to_a_bag_and_back_to_the_order(self, browser: Browser, site: str) -> None:
        """Nothing is entered anew, though the order is not kept."""
        visit_bench(browser, site)
        browser.click("nav[aria-label=Bags] summary")
        browser.click("nav[aria-label=Bags] a[href='#bag-4']")
        assert browser.run("return document.querySelector('#bag-4').getBoundingClientRect().top") < 100
        browser.submit("form[action='/order'] button")
        assert browser.text("h1") == "6 lines for 7 needs"


class TestStored:
    """An order that is kept."""

    GIVEN: ClassVar = {
        "name": "river sampler",
        "needs": [{"id": "N1", "quantity": 2, "bore": "5 H7", "fit": "location"}],
        "lines": [{"id": "L1", "line": "M5 dowel pin", "quantity": 2}],
    }

    def test_it_is_found_in_the_list_and_leads_to_the_bench(self, client: FlaskClient) -> None:
        """Its page is that of any order."""
        made = client.post("/v1/orders", json=self.GIVEN).get_json()["id"]
        listed = [one.get("href", "") for one in get(client, "/v1/orders.html").all(".//td[@class='id']/a")]
        assert f"/v1/orders/{made}/check.html" in listed
        page = get(client, f"/v1/orders/{made}/check.html")
        assert page.one(".//main/p[@class='kicker']").startswith("Order river sampler, reckoned on")
        sheet = next(one.get("href", "") for one in page.all(".//p[@class='actions screen']/a"))
        assert "5.001 to 5.016" in get(client, sheet).one(".//section[@class='bag']")

    def test_values_are_held_against_its_limits(self, client: FlaskClient) -> None:
        """Without the order being sent along."""
        made = client.post("/v1/orders", json=self.GIVEN).get_json()["id"]
        page = post(client, f"/bench?order={made}", **{"measured.L1.1": "5.010"})
        assert page.texts(".//div[@class='told']//span[@class='word']") == ["conforming"]

    def test_one_that_is_not_there_has_no_sheet(self, client: FlaskClient) -> None:
        """The error says so."""
        assert "there is no such order" in get(client, "/bench?order=nothing", 404).text


class TestKeeping:
    """An order that was entered is kept."""

    def test_it_leads_to_a_page_of_its_own(self, client: FlaskClient) -> None:
        """With the same lines and needs, as of the present day, under its name."""
        page = proofed(client, name="river sampler, second season")
        reply = client.post("/order/keep", data={**sampler(), "name": "river sampler, second season"})
        assert (reply.status_code, reply.get_data()) == (303, b"")
        kept = get(client, reply.headers["Location"])
        assert kept.one(".//main/p[@class='kicker']").startswith("Order river sampler, second season, reckoned on")
        assert "2027-01-11" not in kept.one(".//main/p[@class='kicker']")
        marks = ".//ul[@class='entries']/li//span[@class='mark']"
        assert kept.texts(marks) == page.texts(marks)
        plan = client.get(reply.headers["Location"].replace("/check.html", "")).get_json()["plan"]
        assert [one["id"] for one in plan["needs"]] == [f"N{number}" for number in range(1, 8)]
        assert plan["start_on"] == "2027-02-01"
        assert "today" not in plan

    def test_sent_twice_it_is_kept_once(self, client: FlaskClient) -> None:
        """By a second click, or a page that is loaded again."""
        given = {**sampler(), "name": "sent twice"}
        first, second = (client.post("/order/keep", data=given).headers["Location"] for _ in range(2))
        assert first == second
        assert client.post("/order/keep", data={**given, "name": "another"}).headers["Location"] != first

    @pytest.mark.parametrize(
        ("change", "says"),
        [({"needs": "id,quantity,bore\nN1,six,5 H7\n"}, "six"), ({"needs": ""}, "need"), ({"name": "x" * 101}, "100")],
    )
    def test_what_is_not_understood_is_not_kept(self, client: FlaskClient, change: dict[str, str], says: str) -> None:
        """It is said above the form, with what was entered."""
        before = client.get("/v1/orders?limit=1000").get_json()["orders"]
        page = post(client, "/order/keep", 422, **{**sampler(), **change})
        assert says in page.one(".//div[@role='alert']")
        entered = {one.get("name"): (one.text or "").lstrip("\n") for one in page.all(".//textarea")}
        assert entered["lines"].rstrip("\n") == sampler()["lines"].rstrip("\n")
        assert client.get("/v1/orders?limit=1000").get_json()["orders"] == before

    def test_sheets_with_quotes_and_receipts_are_read_back_alike(self, client: FlaskClient) -> None:
        """What a cell was saved with for safety is taken off, as in any sheet."""
        given = {
            "needs": "id,quantity,bore,fit\nN1,2,5 H7,location\n",
            "lines": 'id,line,quantity,measured,instrument\nL1,\'=ISO 8734 - 5 x 20 - A - St,2,"5,010",micrometer\n',
        }
        kept = client.post("/order/keep", data=given).headers["Location"]
        (line,) = client.get(kept.replace("/check.html", "")).get_json()["plan"]["lines"]
        assert line["line"] == "=ISO 8734 - 5 x 20 - A - St"
        assert line["receipt"] == {"measured": "5,010", "instrument": "micrometer"}

    def test_from_the_form_to_kept_values(self, browser: Browser, site: str) -> None:
        """As a person goes it, by buttons and links alone."""
        order(browser, site)
        browser.click("#sheets summary")
        browser.type("#name", "kept in the browser")
        browser.submit("button[formaction='/order/keep']")
        assert "kept in the browser" in browser.text(".kicker")
        browser.submit("a[href^='/bench?order=']")
        browser.type("#S1\\.1", "5.008")
        browser.submit("button[name=store]")
        assert "Kept with the order" in browser.text(".notice")
        browser.submit("main a[href$='check.html']")
        assert "Measured: conforming" in browser.text("[id=line-S1]")
