"""Every page there is, and how a person comes to it."""

import json
import urllib.request
from collections.abc import Callable
from pathlib import Path

from tests.pages.browser import Browser

Visit = Callable[[Browser, str], None]

ASK = "line=M5+dowel+pin&bore=5+H7&fit=location"

MANY = "M5 dowel pin\n10 x M5x16 socket head cap screw\n608-2RS\ntwo nice bottles"
CHECKS = "line,bore,fit\nISO 8734 - 5 x 20 - A - St,5 H7,location\nM5 dowel pin,5 H7,location\nM5 pin,5 Q7,\n"


def at(path: str) -> Visit:
    """Return the visit of an address."""
    return lambda browser, site: browser.open(site + path)


def pasted(text: str) -> Visit:
    """Return the visit of what many lines give."""

    def visit(browser: Browser, site: str) -> None:
        browser.open(f"{site}/")
        browser.type("#lines", text)
        browser.submit("form[method=post] button")

    return visit


def uploaded(path: Path) -> Visit:
    """Return the visit of what a file of lines gives."""

    def visit(browser: Browser, site: str) -> None:
        browser.open(f"{site}/")
        browser.type("#lines-file", str(path))
        browser.submit("form[method=post] button")

    return visit


def order(browser: Browser, site: str) -> None:
    """Proof the river sampler's order."""
    browser.open(f"{site}/order?example=sampler")
    browser.submit("main button")


def edited(browser: Browser, site: str) -> None:
    """Go back from it to the form."""
    order(browser, site)
    browser.submit("button[formaction='/order/edit']")


def broken_order(browser: Browser, site: str) -> None:
    """Proof an order that cannot be understood."""
    browser.open(f"{site}/order")
    browser.type("#needs", "id,quantity,bore\nN1,six,5 H7\n")
    browser.submit("main button")


def bench(browser: Browser, site: str) -> None:
    """Go on to the sheet for the bench."""
    order(browser, site)
    browser.submit("button[formaction='/bench']")


def measured(browser: Browser, site: str) -> None:
    """Enter values there: good ones, one that cannot be told, and one that is no number."""
    bench(browser, site)
    browser.type("#L1\\.1", "5.008 5.010 5.009")
    browser.type("#L2\\.1", "6.014")
    browser.type("#L4\\.1", "eight")
    browser.submit("main .actions button")


def job(state: str, query: str = "") -> Visit:
    """Return the visit of a job in a state, from the list."""

    def visit(browser: Browser, site: str) -> None:
        browser.open(f"{site}/v1/jobs.html?state={state}")
        browser.submit("h2.plain a")
        if query:
            browser.open(browser.address + query)

    return visit


def opened(kind: str, name: str) -> Visit:
    """Return the visit of a line or a need of the river sampler's order."""

    def visit(browser: Browser, site: str) -> None:
        order(browser, site)
        browser.submit(f"button[name={kind}][value={name}]")

    return visit


STORED = {
    "name": "river sampler, second season",
    "needs": [{"id": "N1", "quantity": 6, "step": "plate", "bore": "5 H7", "fit": "location"}],
    "lines": [{"id": "L1", "line": "M5 dowel pin", "quantity": 10, "supplier": "A", "lead_time": "2-3 weeks"}],
    "stock": [{"id": "S1", "line": "ISO 8734 - 5 x 20 - A - St", "quantity": 2}],
    "steps": [{"id": "plate", "irreversible": True}],
}


def stored(path: str) -> Visit:
    """Return the visit of an address of a stored order, which stands for ID in it."""

    def visit(browser: Browser, site: str) -> None:
        asked = urllib.request.Request(  # noqa: S310 - our own
            f"{site}/v1/orders", json.dumps(STORED).encode(), {"Content-Type": "application/json"}
        )
        with urllib.request.urlopen(asked, timeout=20) as reply:  # noqa: S310 - our own
            made = json.load(reply)["id"]
        browser.open(site + path.replace("ID", made))

    return visit


def kept(browser: Browser, site: str) -> None:
    """Keep a value with a stored order, correct it, and send one more that is not understood."""
    stored("/bench?order=ID")(browser, site)
    for value in ("5.010", " 5.011", " eight"):
        browser.type("#L1\\.1", value)
        browser.submit("button[name=store]")


def log_of(browser: Browser, site: str) -> None:
    """Look at what happened to that order."""
    kept(browser, site)
    browser.submit("main .hint a[href$='log.html']")


PAGES: dict[str, Visit] = {
    "first page": at("/"),
    "first page with an error": at("/proof?line=M5+dowel+pin&kind=bore&mate=5+Q7"),
    "verdict that asks": at(f"/v1/verdict.html?{ASK}"),
    "verdict on a clamp": at(
        "/v1/verdict.html?line=M4x45+socket+head+cap+screw+8.8&clamp=12%2B10%2B20+into+M4+depth+10+in+aluminium"
    ),
    "verdict on a shaft": at("/v1/verdict.html?line=608-2RS&shaft=8+h6&fit=slip"),
    "verdict unread": at("/v1/verdict.html?line=two+nice+bottles&bore=5+H7"),
    "reading": at("/v1/reading.html?line=M5+dowel+pin"),
    "many lines": pasted(MANY),
    "many checks": pasted(CHECKS),
    "form of an order": at("/order"),
    "form of an order, filled": edited,
    "form of an order with an error": broken_order,
    "order": order,
    "line of an order": opened("line", "L1"),
    "line of an order, a clamp": opened("line", "L3"),
    "line of an order, a tool": opened("line", "L6"),
    "need of an order without a line": opened("need", "N3"),
    "bench": bench,
    "bench with values": measured,
    "families": at("/v1/families.html"),
    "tables": at("/v1/reference.html"),
    "table": at("/v1/reference/parallel_pin.html"),
    "fits": at("/v1/fits.html?size=25&hole=H8&shaft=f7"),
    "tightening": at("/v1/tightening.html?thread=M5&into=aluminium&engagement=8"),
    "stored orders": at("/v1/orders.html"),
    "jobs": at("/v1/jobs.html"),
    "jobs, none of them": at("/v1/jobs.html?state=receiving"),
    "job waiting": job("waiting"),
    "job running": job("running"),
    "job that loads itself anew": job("running", "?refresh=600"),
    "job done": job("done"),
    "job cancelled": job("cancelled", "?asked=cancel"),
    "stored order": stored("/v1/orders/ID/check.html"),
    "stored order as it is kept": stored("/v1/orders/ID.html"),
    "line of a stored order": stored("/v1/orders/ID/why.html?line=L1"),
    "need of a stored order": stored("/v1/orders/ID/why.html?need=N1"),
    "bench of a stored order": stored("/bench?order=ID"),
    "bench with kept values and an error": kept,
    "log of a stored order": log_of,
    "gate of a stored order": stored("/v1/orders/ID/gate.html?step=plate"),
    "schedule of a stored order": stored("/v1/orders/ID/schedule.html"),
    "verdicts of a stored order": stored("/v1/orders/ID/history.html"),
    "documentation": at("/docs"),
    "error": at("/v1/verdict.html?line=M5+dowel+pin&boer=5+H7"),
    "nothing there": at("/v1/nothing.html"),
}
