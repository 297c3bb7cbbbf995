"""The page of one line or one need of an order: everything that its entry in the order only sums up."""

from collections.abc import Mapping
from typing import Any
from urllib.parse import quote, urlencode

from markupsafe import Markup

from service.pages.lines import Forms, as_ordered, heading_of, heading_of_need, percent, reading_shown, said_of
from service.pages.site import page

Wire = Mapping[str, Any]

_LINE: Mapping[str, str] = {
    "fits": "It goes with everything that it is for.",
    "marginal": "It goes with what it is for only for some parts within their limits.",
    "ask": "Something has to be asked before it is ordered.",
    "wrong": "It does not go with what it is for.",
    "unread": "The line cannot be read. Write out what kind of part it is.",
}
_NEED: Mapping[str, str] = {
    "covered": "What is here and on order covers it.",
    "short": "There is not enough of what fits.",
    "missing": "Nothing covers it.",
    "in doubt": "It is covered only by what is marginal or has to be asked about.",
}
_PROOF: Mapping[str, str] = {
    "conforming": "Everything that was measured on it conforms.",
    "not conforming": "It was measured and does not conform: it must not be used.",
    "not provable": "What was measured proves nothing: measure with a finer instrument.",
}


def why_page(reply: Wire, table: str, query: str, forms: Forms) -> str:
    """Return the page of a line or need; ``asked`` of the reply are the sheets of an order that is not stored."""
    line, need = reply["line"], reply["need"]
    one = line if line is not None else need
    other_kind = "need" if line is not None else "line"
    number, left = reply["number"], reply["unsettled"]
    return page(
        "why.html",
        title=f"{one['id']}: {line['verdict'] if line is not None else need['state']}",
        here="/order",
        reply=reply,
        line=line,
        need=need,
        said=_said(reply),
        proof=_PROOF.get(line["proof"] or "", "") if line is not None else "",
        heading=_heading(reply),
        order_text="" if line is not None and as_ordered(line) else one["order_text"],
        units=reply["units"],
        readings=_readings(reply),
        against=[_against(place, given) for place, given in enumerate(reply["against"], start=1)],
        offered=_offered(reply),
        addresses={
            other["id"]: _step(reply, {"kind": other_kind, "id": other["id"]})["address"] for other in reply["others"]
        },
        taken=_taken(need),
        way=[(text, _step(reply, to)) for text, to in (("Previous", reply["previous"]), ("Next", reply["next"])) if to],
        standing=f"{number} of {left} to look at" if number else f"{left or 'nothing'} to look at",
        back=f"/v1/orders/{reply['id']}/check.html" if reply["id"] else "/order",
        entry=anchor(reply["kind"], one["id"]),
        given=reply.get("asked", {}),
        forms=forms,
        table=Markup(table),  # noqa: S704 - made of escaped cells
        reference=reply["reference"],
    )


def address_of(order: str, kind: str, name: str) -> str:
    """Return the address of the page of a line or need of a stored order.

    >>> address_of("3f0c", "line", "L 1")
    '/v1/orders/3f0c/why.html?line=L+1'
    """
    return f"/v1/orders/{quote(order)}/why.html?{urlencode({kind: name})}"


def anchor(kind: str, name: str) -> str:
    """Return what the entry of a line or need is called within the page of its order.

    >>> anchor("line", "L 1")
    'line-L%201'
    """
    return f"{kind}-{quote(name, safe='')}"


def _step(reply: Wire, place: Wire) -> dict[str, str]:
    """Return where a line or need is reached: by an address, or by sending the order again with its name."""
    address = address_of(reply["id"], place["kind"], place["id"]) if reply["id"] else ""
    return {**place, "address": address}


def _said(reply: Wire) -> str:
    line = reply["line"]
    if line is None:
        return _NEED[reply["need"]["state"]]
    mates = [mate for one in reply["against"] for mate in one["mates"]]
    if len(reply["against"]) == 1 and len(mates) == 1 and mates[0]["verdict"]["verdict"] == line["verdict"]:
        return said_of(mates[0]["verdict"])
    return _LINE[line["verdict"]]


def _heading(reply: Wire) -> str:
    if reply["line"] is not None:
        return heading_of(reply["line"])
    return heading_of_need(reply["need"], {other["id"]: other["text"] for other in reply["others"]})


def _against(place: int, one: Wire) -> dict[str, Any]:
    mates = [
        {
            **mate,
            "page": _page_at(mate["address"]),
            "said": said_of(mate["verdict"]),
            "readings": [
                reading_shown(f"{place}-{at}-{number}", reading, mate["verdict"])
                for number, reading in enumerate(mate["verdict"]["readings"], start=1)
            ],
        }
        for at, mate in enumerate(one["mates"], start=1)
    ]
    return {**one, "mates": mates, "percent": "" if one["share"] is None else percent(one["share"])}


def _page_at(address: str) -> str:
    return address.replace("/v1/verdict?", "/v1/verdict.html?", 1)


def _offered(reply: Wire) -> list[dict[str, Any]]:
    """Return what should be ordered for a need, each with the page of its verdict where an address can say it."""
    if reply["proposals"] is None:
        return []
    pairs = zip(reply["proposals"]["proposals"], reply["proposal_addresses"], strict=True)
    return [{**one, "page": _page_at(address)} for one, address in pairs]


def _readings(reply: Wire) -> list[dict[str, Any]]:
    """Return what the line means by itself, where no mate shows it already."""
    if reply["reading"] is None or any(one["mates"] for one in reply["against"]):
        return []
    readings = reply["reading"]["readings"]
    return [reading_shown(place, one, reply, judged=False) for place, one in enumerate(readings, start=1)]


def _taken(need: Wire | None) -> dict[str, float]:
    """Return how much of a need each line covers."""
    found: dict[str, float] = {}
    for share in need["by"] if need is not None else ():
        found[share["id"]] = found.get(share["id"], 0) + share["quantity"]
    return found
