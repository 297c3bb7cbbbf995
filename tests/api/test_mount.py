"""Behind a proxy, under another host and under a path: links, forms and Location lead where the caller came from."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from flask.testing import FlaskClient

from service.app import create_app
from service.config import Settings
from service.store import tokens
from service.store.store import Store

NEEDS = "id,quantity,bore,fit\nN1,6,5 H7,location\n"
LINES = "id,line,quantity\nL1,ISO 8734 - 5 x 20 - A - St,10\n"
ORDER = {"needs": [{"id": "N1", "quantity": 6, "bore": "5 H7", "fit": "location"}]}
CHECKS = "line,bore\nISO 8734 - 5 x 20 - A - St,5 H7\n"
_ADDRESS = re.compile(r'\b(?:href|action|formaction|src)="([^"]*)"')

Pages = dict[str, tuple[str, str, dict[str, str] | None]]

PAGES: Pages = {
    "first page": ("GET", "/", None),
    "first page with an error": ("GET", "/proof?line=M5+dowel+pin&kind=bore&mate=5+Q7", None),
    "proofed line": ("GET", "/proof?line=M5+dowel+pin&kind=bore&mate=5+H7", None),
    "read line": ("GET", "/proof?line=M5+dowel+pin", None),
    "proofed lines": ("POST", "/proof", {"lines": "M5 dowel pin\n608-2RS"}),
    "proofed checks": ("POST", "/proof", {"lines": CHECKS}),
    "verdict": ("GET", "/v1/verdict.html?line=M5+dowel+pin&bore=5+H7&fit=location", None),
    "verdicts": ("GET", "/v1/verdicts.html?line=M5+dowel+pin&bore=5+H7", None),
    "reading": ("GET", "/v1/reading.html?line=M5+dowel+pin", None),
    "form of an order": ("GET", "/order", None),
    "order": ("POST", "/order", {"needs": NEEDS, "lines": LINES}),
    "edited order": ("POST", "/order/edit", {"needs": NEEDS}),
    "bench": ("POST", "/bench", {"needs": NEEDS, "lines": LINES}),
    "families": ("GET", "/v1/families.html", None),
    "tables": ("GET", "/v1/reference.html", None),
    "table": ("GET", "/v1/reference/parallel_pin.html", None),
    "fits": ("GET", "/v1/fits.html?size=25&hole=H8&shaft=f7", None),
    "tightening": ("GET", "/v1/tightening.html?thread=M5", None),
    "stored orders": ("GET", "/v1/orders.html", None),
    "documentation": ("GET", "/docs", None),
    "error": ("GET", "/v1/verdict.html?line=M5&boer=5", None),
    "nothing there": ("GET", "/v1/nothing.html", None),
}

Behind = Callable[[str], FlaskClient]


@pytest.fixture
def behind(tmp_path: Path) -> Behind:
    """Give a client whose requests come through one proxy that tells a path."""
    address = f"sqlite:///{tmp_path / 'a.sqlite3'}"
    app = create_app(Settings(database_url=address, proxies=1))
    store: Store = app.extensions["kitproof.store"]
    with store.write() as session:
        token = tokens.make(session, "club", "write", "")

    def client(path: str) -> FlaskClient:
        made = app.test_client()
        made.environ_base.update(
            {
                "HTTP_AUTHORIZATION": f"Bearer {token}",
                "HTTP_HOST": "127.0.0.1:8391",
                "HTTP_X_FORWARDED_FOR": "198.51.100.9",
                "HTTP_X_FORWARDED_HOST": "proof.example:8443",
                "HTTP_X_FORWARDED_PROTO": "https",
                "HTTP_X_FORWARDED_PREFIX": path,
            }
        )
        return made

    return client


def addresses(client: FlaskClient, page: str) -> list[str]:
    """Return where a page leads, but for places in itself and mail."""
    method, path, form = PAGES[page]
    client.post("/v1/orders", json=ORDER, headers={"Idempotency-Key": "the one that is stored"})
    reply = client.open(path, method=method, data=form)
    assert reply.content_type.startswith("text/html")
    found = [one.replace("&amp;", "&") for one in _ADDRESS.findall(reply.text)]
    return [one for one in found if not one.startswith(("#", "mailto:"))]


@pytest.mark.parametrize("page", PAGES)
def test_every_link_and_form_of_a_page_leads_through_the_proxy(behind: Behind, page: str) -> None:
    """It is the page shown at the root, with the path before each address of it."""
    under, root = addresses(behind("/parts/kitproof"), page), addresses(behind(""), page)
    assert len(root) >= 8
    assert all(re.match(r"/(?!/)", one) for one in root)
    assert under == ["/parts/kitproof" + one for one in root]


def test_what_is_made_is_found_where_its_location_says(behind: Behind) -> None:
    """A browser and a program join it to the proxy's host, which therefore stands in no reply."""
    client = behind("/kitproof")
    rows = {"data": "line,bore\nM5 dowel pin,5 H7\n", "content_type": "text/csv"}
    order = client.post("/v1/orders", json=ORDER, headers={"Idempotency-Key": "once"})
    job = client.post("/v1/jobs", **rows)
    habit = client.post(
        "/v1/suppliers/A%20%26%20B/habits",
        json={"sign": "M", "part": "pin", "means": "internal thread", "noted_on": "2027-01-11", "note": "told so"},
    )
    for reply in (order, job):
        assert re.fullmatch(r"/kitproof/v1/(orders|jobs)/[0-9a-f]{32}", reply.headers["Location"])
        assert client.get(reply.headers["Location"].removeprefix("/kitproof")).status_code == 200
    assert (order.status_code, job.status_code, habit.status_code) == (201, 202, 201)
    assert habit.headers["Location"] == f"/kitproof/v1/suppliers/A%20%26%20B/habits/{habit.json['id']}"
    assert job.json["address"] == job.headers["Location"]
    page = client.get(job.headers["Location"].removeprefix("/kitproof") + ".html").text
    assert f"<code>DELETE {job.headers['Location']}</code>" in page
    for shown in (page, client.get("/v1/jobs.html").text):
        assert f'href="{job.headers["Location"]}.html' in shown
        assert "/kitproof/kitproof" not in shown
    client.application.extensions["kitproof.jobs"].work(job.json["id"])
    done = client.get("/v1/jobs.html").text
    assert f'href="{job.headers["Location"]}/result.html"' in done
    assert "/kitproof/kitproof" not in done
    gone = client.post(job.headers["Location"].removeprefix("/kitproof") + "/cancel.html")
    assert gone.headers["Location"].startswith(f"{job.headers['Location']}.html")
    for reply in (order, job):
        assert "proof.example" not in str(reply.headers) + reply.text
    # The reply that is kept under a key fits whichever way it is asked for again.
    again = behind("").post("/v1/orders", json=ORDER, headers={"Idempotency-Key": "once"})
    assert again.json["id"] == order.json["id"]
    assert again.headers["Location"] == order.headers["Location"].removeprefix("/kitproof")


def test_the_description_names_the_path(behind: Behind) -> None:
    """Generated clients put it before every path; at the root there is nothing to name."""
    assert behind("/kitproof").get("/openapi.json").json["servers"] == [{"url": "/kitproof"}]
    assert "servers" not in behind("").get("/openapi.json").json


@pytest.mark.parametrize(
    "path", ["//elsewhere.example", "/a//b", "elsewhere.example", '/"><a href="', "/a b", "/ä", "/"]
)
def test_a_path_that_is_none_is_not_shown(behind: Behind, path: str) -> None:
    """Not even where the proxy passes on whatever a caller sends: a link never leads to another host."""
    assert addresses(behind(path), "first page") == addresses(behind(""), "first page")


def test_a_path_is_believed_only_where_proxies_are_set(tmp_path: Path) -> None:
    """Anyone can send the header."""
    client = create_app(Settings(database_url=f"sqlite:///{tmp_path / 'a.sqlite3'}")).test_client()
    client.environ_base["HTTP_X_FORWARDED_PREFIX"] = "/kitproof"
    assert 'href="/docs"' in client.get("/").text


def test_the_path_of_the_nearest_proxy_counts(tmp_path: Path) -> None:
    """With several, each adds an address, but only one of them knows the path."""
    client = create_app(Settings(database_url=f"sqlite:///{tmp_path / 'a.sqlite3'}", proxies=2)).test_client()
    client.environ_base["HTTP_X_FORWARDED_PREFIX"] = "/kitproof"
    assert 'href="/kitproof/docs"' in client.get("/").text
