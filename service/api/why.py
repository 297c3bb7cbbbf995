"""``/v1/orders/{order}/why``: why a line or a need of an order stands as it does, in full."""

from collections.abc import Iterator, Mapping
from typing import Any
from urllib.parse import urlencode

from flask import Blueprint

from schemas.why import WHY, WHY_QUERY
from service.api import orders as checked_orders
from service.api import proposals, wire
from service.api.once import etag
from service.api.render import Layout, Row, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.api.stored_orders import MISSING_ORDER, ONE_ORDER, proved_now
from service.errors import BadValue, MissingField
from service.orders.fields import some_of
from service.orders.model import OrderCheck
from service.orders.why import Against, MateInFull, Other, Place, Way, line_in_full, need_in_full
from service.pages.why import why_page

blueprint = Blueprint("why", __name__)

COLUMNS = (
    "kind",
    "id",
    "verdict",
    "need",
    "of",
    "family",
    "weight",
    "text",
    "source",
    "order_text",
    "question",
    "order",
    "revision",
    "units",
    "reference",
    "error",
)


def reply_of(found: OrderCheck, asked: Mapping[str, str], units: str) -> Wire:
    """Return a line or a need in full as it goes over the wire; the order itself is left to the caller.

    Raises:
        MissingField: neither a line nor a need is asked for, or both are.
        BadValue: the order has no such line or need.
    """
    given = {name: asked[name] for name in ("line", "need") if asked.get(name)}
    if len(given) != 1:
        raise MissingField(
            "one line or one need is shown, not both" if given else "neither a line nor a need is named",
            field="need" if given else "line",
            value=given.get("need"),
            accepted="line or need, one of the two",
            example="L1",
        )
    ((kind, name),) = given.items()
    ids = [one.supply.id for one in found.lines] if kind == "line" else [one.need.id for one in found.needs]
    if name not in ids:
        accepted = f"one of {some_of(ids)}" if ids else f"a {kind} of the order, which has none"
        raise BadValue(
            f"the order has no such {kind}", field=kind, value=name, accepted=accepted, example=ids[0] if ids else ""
        )
    if kind == "line":
        return _line(found, name, units)
    return _need(found, name, units)


def _line(found: OrderCheck, name: str, units: str) -> Wire:
    line = line_in_full(found, name)
    return {
        "kind": "line",
        "line": checked_orders.line_reply(line.result, found, units),
        "need": None,
        "reading": with_reference(wire.line_reading(line.reading, units), units),
        "against": [_against(one, line.result.supply.line, units) for one in line.against],
        "others": [_other(one) for one in line.others],
        "proposals": None,
        "proposal_addresses": [],
        **_way(line.way),
    }


def _need(found: OrderCheck, name: str, units: str) -> Wire:
    need = need_in_full(found, name)
    offered = need.proposals
    return {
        "kind": "need",
        "line": None,
        "need": checked_orders.need_reply(need.cover, units),
        "reading": None,
        "against": [],
        "others": [_other(one) for one in need.lines],
        "proposals": None if offered is None else with_reference(proposals.reply_of(offered, units), units),
        "proposal_addresses": [
            _address(one.order_text, need.cover.need.asked, units)
            for one in (offered.proposals if offered is not None else ())
        ],
        **_way(need.way),
    }


def _against(one: Against, line: str, units: str) -> Wire:
    judgement = one.judgement
    return {
        "need": one.need.id,
        "description": one.need.description,
        "verdict": judgement.word,
        "order_text": judgement.order_text,
        "question": judgement.question,
        "share": None if judgement.share is None else wire.number(judgement.share),
        "mates": [_mate(mate, line, units) for mate in one.mates],
        "findings": [wire.finding(finding, units) for finding in one.beside],
    }


def _mate(one: MateInFull, line: str, units: str) -> Wire:
    return {
        "need": one.need,
        "verdict": with_reference(wire.verdict(one.verdict, units), units),
        "address": _address(line, one.asked, units),
    }


def _address(line: str, asked: tuple[tuple[str, str], ...], units: str) -> str:
    """Return the address of a check on its own, empty where its fields are not text."""
    if not asked:
        return ""
    fields: dict[str, Any] = {"line": line, **dict(asked), **({"units": units} if units != "mm" else {})}
    return f"/v1/verdict?{urlencode(fields)}"


def _other(one: Other) -> Wire:
    return {"id": one.id, "text": one.said, "verdict": one.word}


def _way(way: Way) -> Wire:
    return {
        "number": way.number,
        "unsettled": way.of,
        "previous": _place(way.previous),
        "next": _place(way.next),
    }


def _place(place: Place | None) -> Wire | None:
    return None if place is None else place._asdict()


def _rows(reply: Wire) -> Iterator[Row]:
    """Yield a row for the line or need, one for each finding on each reading, and one for each proposal."""

    def row(kind: str, **cells: Any) -> Row:
        shown = {
            "kind": kind,
            "order": reply["id"],
            **{name: reply[name] for name in ("revision", "units", "reference")},
        }
        return [{**shown, **cells}.get(name) for name in COLUMNS]

    line, need = reply["line"], reply["need"]
    if line is not None:
        cells = {name: line[name] for name in ("id", "verdict", "order_text", "question")}
        yield row("line", text=line["line"], **cells)
    if need is not None:
        yield row("need", id=need["id"], verdict=need["state"], text=need["text"], order_text=need["order_text"])
    for one in reply["against"]:
        yield row("for", verdict=one["verdict"], **{name: one[name] for name in ("need", "order_text", "question")})
        for mate in one["mates"]:
            about = {"need": one["need"], "of": mate["need"]}
            for reading in mate["verdict"]["readings"]:
                for finding in reading["findings"]:
                    yield row(
                        "finding", family=reading["family"], verdict=reading["verdict"], **about, **_cells(finding)
                    )
            for finding in mate["verdict"]["findings"]:
                yield row("finding", **about, **_cells(finding))
        for finding in one["findings"]:
            yield row("finding", need=one["need"], **_cells(finding))
    for one in reply["others"]:
        yield row("other", **one)
    for one in (reply["proposals"] or {"proposals": []})["proposals"]:
        yield row("proposal", **{name: one[name] for name in ("family", "order_text", "source")}, text=one["why"])


def _cells(finding: Wire) -> Wire:
    return {name: finding[name] for name in ("weight", "text", "source")}


def word_of(reply: Wire) -> str:
    """Return the one word for a line or a need."""
    return str(reply["line"]["verdict"] if reply["line"] is not None else reply["need"]["state"])


LAYOUT = Layout("why", COLUMNS, _rows, word_of, single=False, page=why_page)


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/why",
        "Why a line or a need of a stored order stands as it does",
        WHY_QUERY,
        WHY,
        LAYOUT,
        description="A line with every reading against every mate that it has to go with, as GET /v1/verdict gives it; "
        "or a need with the lines that may be meant for it, and what should be ordered where it is not covered. The "
        "way leads on to the next one that is not settled.",
        statuses={404: MISSING_ORDER},
    ),
)
def get_why(query: Wire, order: str) -> Answer:
    """Show a line or a need of an order in full."""
    change, name = proved_now(order)
    units = query.get("units", "mm")
    reply = with_reference(reply_of(change.proof.result, query, units), units)
    reply |= {"id": order, "name": name, "revision": change.expected}
    word = (("X-Verdict", word_of(reply)),) if reply["kind"] == "line" else ()
    return Answer(reply, 200, (etag(change.expected), *word))
