"""The pages of an order: what is found, what to do about it, and the sheet for the bench."""

from collections.abc import Mapping, Sequence
from importlib.resources import files
from typing import Any
from urllib.parse import quote

from markupsafe import Markup

from service.pages.illustrations import of_order
from service.pages.lines import Forms, heading_of, heading_of_need, percent, written_out
from service.pages.problems import facts
from service.pages.site import page, spoken
from service.pages.why import address_of, anchor

Wire = Mapping[str, Any]

SHEETS: Sequence[tuple[str, str, str]] = (
    ("needs", "What the design needs", "id, quantity, then the mate: bore, shaft, clamp, tapped, ... and fit, step"),
    ("lines", "What is ordered", "line, quantity, then pack, for, supplier, lead_time, ordered_on, received_on"),
    ("stock", "What is here already", "line, quantity"),
    ("steps", "How it is built", "id, after, days (working days), irreversible"),
)
"""The sheets of an order, each with its heading and the columns that matter."""

DATES: Sequence[tuple[str, str, str]] = (
    ("start_on", "Start on", "2027-02-01"),
    ("wanted_on", "Wanted on", "2027-03-15"),
    ("today", "Reckon as if today were", "2027-01-11"),
    ("country", "Public holidays of", "DE"),
)
"""What else a form asks, each with an example."""

MOST_CHECKS = 3
"""Needs for which the list of lines says why; the line's own page has the rest."""

MOST_OPENED = 100
"""Lines of an order that open on its page; those of a longer one open on pages of their own alone."""

_WORDS = ("fits", "marginal", "ask", "wrong", "unread")
_READY = "Every need is covered by what fits, nothing is in doubt, and nothing is bought twice."


def sampler() -> dict[str, str]:
    """Return the order of the river sampler, as a club would keep it in sheets."""
    folder = files("service.pages").joinpath("sampler")
    sheets = {name: folder.joinpath(f"{name}.csv").read_text("utf-8") for name, *_ in SHEETS}
    return {**sheets, "start_on": "2027-02-01", "today": "2027-01-11"}


def order_form(given: Mapping[str, str], problem: Wire | None = None) -> str:
    """Return the form of an order, filled with what was given, and with what is wrong with it."""
    return page(
        "order_form.html",
        title="Error: an order" if problem else "An order",
        here="/order",
        given=given,
        sheets=SHEETS,
        dates=DATES,
        problem=problem and {**problem, "facts": facts(problem), "at": problem["field"].split(".")[0].split(" ")[0]},
    )


def order_page(reply: Wire, table: str, query: str, forms: Forms) -> str:
    """Return the page of an order check: what keeps it from being ready, every line, every need, and the days."""
    word = "ready" if reply["ready"] else "not ready"
    return page(
        "order.html",
        title=f"Order: {word}",
        here="/order",
        word=word,
        said=_READY if reply["ready"] else _not_ready(reply),
        reply=reply,
        lines=[_line(one) for one in (*reply["lines"], *reply["stock"])],
        needs=_needs(reply),
        opens=len(reply["lines"]) <= MOST_OPENED,
        picture=Markup(of_order(reply)),  # noqa: S704 - drawn by us, its texts escaped
        given=reply.get("asked", {}),
        stored=reply.get("id", ""),
        address=address_of,
        anchor=anchor,
        name=reply.get("name", ""),
        changes=reply.get("changes", ()),
        gates=[{**gate, "word": "open gate" if gate["open"] else "closed gate"} for gate in reply["gates"]],
        dates={step["id"]: step for step in reply["schedule"]["steps"]},
        cautions=list(dict.fromkeys(text for one in reply["lines"] for text in one["cautions"])),
        forms=forms,
        table=Markup(table),  # noqa: S704 - made of escaped cells
        reference=reply["reference"],
    )


def _not_ready(reply: Wire) -> str:
    """Return what not to do yet: the first step that cannot be undone and may not start."""
    shut = [gate["step"] for gate in reply["gates"] if gate["irreversible"] and not gate["open"]]
    count = len(reply["reasons"])
    said = f"{count} thing{'' if count == 1 else 's'} to put right."
    return f"{said} Do not begin “{shut[0]}”: it cannot be undone." if shut else said


def _line(one: Wire) -> dict[str, Any]:
    """Return a line with its checks in the order of their weight: those of what it covers first."""
    covers = {cover["id"] for cover in one["covers"]}
    checks = [check for check in one["checks"] if check["need"] in covers]
    checks = checks or sorted(one["checks"], key=lambda check: _WORDS.index(check["verdict"]))
    shown = checks[:MOST_CHECKS]
    shares = {check["need"]: percent(check["share"]) for check in shown if check["share"] is not None}
    return {**one, "checks": shown, "shares": shares, "more": len(checks) - len(shown), "heading": heading_of(one)}


def _needs(reply: Wire) -> list[dict[str, Any]]:
    lines = {one["id"]: one["line"] for one in (*reply["lines"], *reply["stock"])}
    return [{**one, "heading": heading_of_need(one, lines)} for one in reply["needs"]]


def bench_page(bags: Sequence[Wire], instruments: Sequence[str], given: Mapping[str, str], **said: Any) -> str:
    """Return the sheet for the bench: for each bag what to measure, room for the values, and what they prove.

    ``given`` is the order as it was entered. Of one that is kept ``said`` holds its id (``stored``), name and revision,
    who measured (``by``), what is wrong with the form, what became of it, and what that changed.
    """
    bags = [
        {**bag, "place": place, "done": _done(bag), "same": bag["verdict"] == "marginal" and written_out(bag)}
        for place, bag in enumerate(bags, start=1)
    ]
    shown = {name: said.get(name, "") for name in ("stored", "name", "revision", "by", "notice")}
    lists = {name: said.get(name, ()) for name in ("mistakes", "homeless", "changes")}
    return page(
        "bench.html",
        title="Error: sheet for the bench" if said.get("problem") or lists["mistakes"] else "Sheet for the bench",
        here="/order",
        bags=bags,
        given=given,
        instruments=instruments,
        problem=said.get("problem"),
        field_id=lambda name: quote(name, safe=""),
        **shown,
        **lists,
    )


def _done(bag: Wire) -> str:
    """Return how much of a bag is measured and what is still to be, empty where nothing is measured or asked for."""
    count, left = len(bag["measures"]), bag["unmeasured"]
    if not bag["proof"] or not count:
        return ""
    said = f"{count - len(left)} of {count} dimension{'' if count == 1 else 's'} measured"
    names = ", ".join(spoken(name) for name in dict.fromkeys(left))
    return f"{said}, still to be measured: {names}" if left else said
