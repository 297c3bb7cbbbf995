"""The pages of jobs: how far each is in words, a button that cancels it, and no reload that nobody asked for."""

import json
import time
from io import BytesIO
from pathlib import Path
from typing import Any
from urllib.request import Request, urlopen

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.api.jobs import CHUNK
from tests.pages.browser import Browser
from tests.pages.conftest import ROWS
from tests.pages.parsed import Parsed, get

TOTAL = CHUNK + 30


@pytest.fixture
def job(client: FlaskClient) -> dict[str, Any]:
    """A job that waits."""
    made: dict[str, Any] = client.post("/v1/jobs", data=ROWS, content_type="application/x-ndjson").get_json()
    return made


def work(app: Flask, job: dict[str, Any], chunks: int = 1) -> None:
    """Work chunks of a job."""
    for _ in range(chunks):
        app.extensions["kitproof.jobs"].work(job["id"])


def verdicts(page: Parsed) -> dict[str, int]:
    """Return how many lines have which verdict, as the page says it."""
    words = ("fits", "marginal", "ask", "wrong", "unread")
    return {name: int(number) for name, number in page.facts().items() if name in words}


def test_a_job_is_told_in_words_from_beginning_to_end(app: Flask, client: FlaskClient, job: dict[str, Any]) -> None:
    """State, lines of all lines, verdicts so far, when it was sent, begun and finished; then what does not fit."""
    waiting = get(client, f"{job['address']}.html")
    assert waiting.one(".//h1") == "Job: waiting"
    assert f"All {TOTAL} lines are here, and none is judged yet." in waiting.text
    assert {"sent", "started", "finished"} <= set(waiting.facts())
    assert waiting.facts()["started"] == "not yet"
    assert waiting.facts()["sent"] == job["made_at"][:19].replace("T", " ") + " UTC"
    assert verdicts(waiting) == {}
    work(app, job)
    running = get(client, f"{job['address']}.html")
    told = client.get(job["address"]).get_json()
    assert running.one(".//h1") == "Job: running"
    assert f"{CHUNK} of {TOTAL} lines are judged." in running.text
    assert verdicts(running) == told["verdicts"]
    assert running.facts()["started"] != "not yet"
    assert running.all(".//progress")[0].attrib == {"id": "progress", "max": str(TOTAL), "value": str(CHUNK)}
    work(app, job)
    done = get(client, f"{job['address']}.html")
    told = client.get(job["address"]).get_json()
    assert done.one(".//h1") == "Job: done"
    others = TOTAL - told["verdicts"]["fits"]
    assert f"All {TOTAL} lines are judged. {others} of them do not fit." in done.text
    assert verdicts(done) == told["verdicts"]
    assert done.facts()["kept until"] == told["kept_until"][:19].replace("T", " ") + " UTC"
    entries = done.texts(".//ul[@class='entries']/li")
    assert len(entries) == 10
    for entry, first in zip(entries, told["first_not_fits"], strict=True):
        assert entry.startswith(f"{first['verdict']} line {first['number']} of the file:")
    assert f"{others - 10} more do not fit" in done.text


def test_the_result_is_linked_in_every_form_once_there_is_one(
    app: Flask, client: FlaskClient, job: dict[str, Any]
) -> None:
    """No link leads nowhere, before or after."""
    before = get(client, f"{job['address']}.html")
    assert [one.get("href") for one in before.all(".//a") if "/result" in one.get("href", "")] == []
    work(app, job, 2)
    page = get(client, f"{job['address']}.html")
    links = {one.get("href", "") for one in page.all(".//main//a")}
    forms = ("html", "csv", "json", "ndjson", "xml", "txt", "junit", "tap", "lines", "sarif")
    assert {f"{job['address']}/result.{form}" for form in forms} <= links
    for link in links:
        assert client.get(link).status_code == 200, link


def test_no_page_loads_itself_anew_unasked(app: Flask, client: FlaskClient, job: dict[str, Any]) -> None:
    """There is a link to look again and one to have that done; where it is done, one that stops it."""
    address = f"{job['address']}.html"
    still = client.get(address)
    assert "Refresh" not in still.headers
    assert 'http-equiv="refresh"' not in still.text
    assert {address, f"{address}?refresh=5"} <= {one.get("href") for one in Parsed(still.text).all(".//a")}
    watched = client.get(f"{address}?refresh=5")
    assert watched.headers["Refresh"] == "5"
    assert address in {one.get("href") for one in Parsed(watched.text).all(".//a")}
    work(app, job, 2)
    assert "Refresh" not in client.get(f"{address}?refresh=5").headers, "it stops when the job is done"


@pytest.mark.parametrize("query", ["refresh=0", "refresh=1", "refresh=601", "refresh=soon", "asked=delete", "after=x"])
def test_what_no_page_can_do_is_an_error(client: FlaskClient, job: dict[str, Any], query: str) -> None:
    """It says what is accepted."""
    page = get(client, f"{job['address']}.html?{query}", 422)
    assert page.facts()["field"] == query.partition("=")[0]
    assert page.facts()["accepted"]


def test_lines_that_hold_markup_are_shown_as_they_are(app: Flask, client: FlaskClient) -> None:
    """Nor does a sheet that imports the page run one."""
    body = "line,bore\n<b>M5</b> & pin,5 H7\n=1+1,5 H7\n"
    job = client.post("/v1/jobs", data=body, content_type="text/csv").get_json()
    work(app, job)
    page = get(client, f"{job['address']}.html")
    assert page.texts(".//ul[@class='entries']//strong") == ["<b>M5</b> & pin", "'=1+1"]


def test_the_list_shows_each_job_and_a_button_where_it_can_be_cancelled(app: Flask, client: FlaskClient) -> None:
    """By state; older ones on further pages."""
    rows = {"data": ROWS, "content_type": "application/x-ndjson"}
    waiting, done = (client.post("/v1/jobs", **rows).get_json() for _ in range(2))
    work(app, done, 2)
    page = get(client, "/v1/jobs.html?limit=2")
    first, second = page.all(".//ul[@class='entries']/li")
    assert [first.find(".//h2/a").get("href"), second.find(".//h2/a").get("href")] == [  # type: ignore[union-attr]
        f"{done['address']}.html",
        f"{waiting['address']}.html",
    ]
    assert first.find(".//form") is None
    form = second.find(".//form")
    assert form is not None
    assert (form.get("method"), form.get("action")) == ("post", f"{waiting['address']}/cancel.html")
    (older,) = [one.get("href", "") for one in page.all(".//a") if "".join(one.itertext()) == "Older jobs"]
    assert older == f"/v1/jobs.html?limit=2&after={waiting['id']}"
    assert waiting["id"] not in client.get(older).text.replace(f"after={waiting['id']}", "")
    chosen = get(client, "/v1/jobs.html?state=Done")
    assert [one.text for one in chosen.all(".//nav[@class='choices']//a[@aria-current='true']")] == ["done"]
    assert set(chosen.texts(".//ul[@class='entries']/li//span[@class='mark']")) == {"done"}


# --- in a browser ----------------------------------------------------------------------------------------------------


def send(site: str) -> str:
    """Make a job over HTTP and return its address."""
    request = Request(f"{site}/v1/jobs", ROWS.encode(), {"Content-Type": "application/x-ndjson"})  # noqa: S310
    with urlopen(request, timeout=10) as reply:  # noqa: S310 - our own
        return str(json.load(reply)["address"])


def test_a_job_is_cancelled_by_keyboard_from_the_list(browser: Browser, site: str) -> None:
    """Without a script: the page that follows says what was done, and loaded anew does nothing more."""
    address = send(site)
    browser.open(f"{site}/v1/jobs.html")
    browser.run("document.querySelector('.entries form button').focus()")
    assert "Cancel the job" in browser.run("return document.activeElement.textContent")
    browser.press("\ue007")
    browser.wait_for("[role=status]")
    assert browser.address == f"{site}{address}.html?asked=cancel"
    assert browser.text("[role=status]") == "You asked to cancel this job, and it is cancelled."
    assert f"0 of {TOTAL} lines were judged before. The other {TOTAL} never will be." in browser.text()
    browser.command("Page.reload", {})
    browser.wait_for("[role=status]")
    assert browser.run("return document.querySelectorAll('form').length") == 0


def test_a_double_click_cancels_once(browser: Browser, site: str) -> None:
    """The page that follows is the same."""
    address = send(site)
    browser.open(f"{site}{address}.html")
    browser.run("const b = document.querySelector('form button'); b.click(); b.click()")
    browser.wait_for("[role=status]")
    assert browser.text("[role=status]") == "You asked to cancel this job, and it is cancelled."


def test_the_focus_stays_while_nobody_asked_for_a_reload(browser: Browser, site: str) -> None:
    """The plain page stands still; the one that was asked to load itself anew does so by itself."""
    address = send(site)
    browser.open(f"{site}{address}.html")
    browser.run("document.querySelector('form button').focus(); document.documentElement.dataset.before = ''")
    time.sleep(2.5)
    assert browser.run("return document.activeElement.tagName") == "BUTTON"
    browser.open(f"{site}{address}.html?refresh=2")
    browser.run("document.documentElement.dataset.before = ''")
    browser.wait_for("html:not([data-before])")
    browser.open(f"{site}/")


# --- a file from a browser -------------------------------------------------------------------------------------------

CSV = "line,bore,fit\nM5 dowel pin,5 H7,location\nISO 8734 - 5 x 20 - A - St,5 H7,location\n"


def test_a_file_that_is_chosen_becomes_a_job(browser: Browser, site: str, tmp_path: Path) -> None:
    """From the list of jobs, without a script; the page of the job follows."""
    (tmp_path / "carousel pins.csv").write_text(CSV)
    browser.open(f"{site}/v1/jobs.html")
    browser.type("#rows", str(tmp_path / "carousel pins.csv"))
    browser.submit("form.sheet button")
    assert "carousel pins.csv" in browser.text("main")
    assert "/v1/jobs/" in browser.address


@pytest.mark.parametrize(
    ("name", "data", "rows"),
    [
        ("pins.csv", CSV, 2),
        ("orders/pins.txt", CSV, 2),
        ("pins.ndjson", '{"line": "M5 dowel pin", "bore": "5 H7"}\n', 1),
    ],
)
def test_the_file_is_read_by_its_name(client: FlaskClient, name: str, data: str, rows: int) -> None:
    """CSV, unless it ends as NDJSON does; of the name only what is no folder is kept."""
    sent = client.post("/job", data={"rows": (BytesIO(data.encode()), name)})
    assert sent.status_code == 303
    made = client.get(sent.headers["Location"].removesuffix(".html")).get_json()
    assert (made["rows_total"], made["file"]) == (rows, name.rpartition("/")[2])


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ({}, "no file was chosen"),
        ({"rows": (BytesIO(b""), "empty.csv")}, "the body is empty"),
        ({"rows": (BytesIO(b"colour,size\nred,5\n"), "other.csv")}, "&#39;colour&#39; is no field here"),
    ],
)
def test_a_file_that_is_no_order_is_refused_in_words(client: FlaskClient, data: dict[str, Any], says: str) -> None:
    """On a page, and nothing is left behind."""
    before = client.get("/v1/jobs").get_json()["jobs"]
    reply = client.post("/job", data=data, headers={"Accept": "text/html"})
    assert (reply.status_code, reply.content_type) == (422, "text/html; charset=utf-8")
    assert says in reply.text
    assert client.get("/v1/jobs").get_json()["jobs"] == before


def test_a_file_that_is_too_long_is_refused(client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the way that takes files of any length."""
    monkeypatch.setattr("service.api.jobs.UPLOAD_MIB", 0)
    reply = client.post("/job", data={"rows": (BytesIO(CSV.encode()), "long.csv")})
    assert reply.status_code == 413
    assert "POST /v1/jobs" in reply.get_json()["accepted"]


def test_a_page_of_another_site_sends_no_file(client: FlaskClient) -> None:
    """As with every form."""
    sent = client.post(
        "/job", data={"rows": (BytesIO(CSV.encode()), "a.csv")}, headers={"Sec-Fetch-Site": "cross-site"}
    )
    assert sent.status_code == 403
