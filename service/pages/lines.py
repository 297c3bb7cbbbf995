"""The pages of one purchase line: what it means, and whether it goes with its mate."""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any
from urllib.parse import parse_qsl, urlencode

from markupsafe import Markup

from reference import fits
from reference.families import by_name
from service.pages.illustrations import of_reading
from service.pages.site import page, shown, spoken
from service.reading import read

Wire = Mapping[str, Any]
Forms = Sequence[tuple[str, str]]

_SAID: Mapping[str, str] = {
    "fits": "It goes with its mate, every part within its limits.",
    "marginal": "It goes with its mate only for some parts within their limits: {share} of pairs.",
    "wrong": "It does not go with its mate.",
    "unread": "The line cannot be read. Write out what kind of part it is.",
}
_STATES: Mapping[str, str] = {
    "clear": "The line means one thing.",
    "ambiguous": "The line leaves something open: another part could arrive.",
}

_EVIDENCE: Mapping[str, str] = {
    "stated": "stated: the line says so",
    "implied": "implied: a convention of the trade",
    "assumed": "assumed: the usual meaning where a line does not say",
}

STAYS_MARGINAL = "it stays marginal"
"""What is said of an order text that only writes out a part which is marginal."""

MATES = ("bore", "shaft", "tapped", "clamp", "pocket", "groove", "pattern", "path", "rating", "presence")
"""The fields of a query that name a mate."""


def percent(share: float) -> str:
    """Return a share in percent; only all is 100 %, and only none 0 %.

    >>> percent(0.5984), percent(0.9996), percent(1), percent(0.0001)
    ('60 %', '99.9 %', '100 %', '0.1 %')
    """
    if share in (0, 1):
        return f"{share * 100:.0f} %"
    return f"{share * 100:.0f} %" if 0.01 <= share < 0.99 else f"{min(max(share * 100, 0.1), 99.9):.1f} %"


def verdict_page(reply: Wire, table: str, query: str, forms: Forms) -> str:
    """Return the page of a verdict: what to do, and every reading with its numbers and their sources."""
    return page(
        "verdict.html",
        title=f"{reply['verdict']}: {reply['line']}",
        line=reply["line"],
        mate=reply["mate"]["text"],
        fit=reply["fit"],
        units=reply["units"],
        verdict=reply["verdict"],
        said=said_of(reply),
        order_text="" if as_ordered(reply) else reply["order_text"],
        heading=heading_of(reply),
        question=reply["question"],
        findings=reply["findings"],
        readings=[reading_shown(place, one, reply) for place, one in enumerate(reply["readings"], start=1)],
        cautions=reply["cautions"],
        again=again(query),
        forms=forms,
        table=Markup(table),  # noqa: S704 - made of escaped cells
        reference=reply["reference"],
    )


def reading_page(reply: Wire, table: str, query: str, forms: Forms) -> str:
    """Return the page of what a line means."""
    said = _STATES.get(reply["state"], "")
    if reply["state"] == "unread":
        said = f"It cannot be read: {reply['reason']}."
        if reply["nearest"]:
            said += f" The nearest words that are known: {', '.join(reply['nearest'])}."
    return page(
        "reading.html",
        title=f"{reply['line']}",
        line=reply["line"],
        state=reply["state"],
        said=said,
        quantity=reply["quantity"],
        pack=reply["pack"],
        question=reply["question"],
        units=reply["units"],
        readings=[
            reading_shown(place, one, reply, judged=False) for place, one in enumerate(reply["readings"], start=1)
        ],
        again=again(query),
        forms=forms,
        table=Markup(table),  # noqa: S704 - made of escaped cells
        reference=reply["reference"],
    )


def again(query: str) -> str:
    """Return the query of the first page that asks the same again.

    >>> again("line=M5+dowel+pin&bore=5+H7&fit=location&errors=problem")
    'line=M5+dowel+pin&fit=location&kind=bore&mate=5+H7'
    """
    given = dict(parse_qsl(query))
    asked: dict[str, str] = {name: given[name] for name in ("line", "fit", "units") if name in given}
    for name in MATES:
        if given.get(name, "").strip():
            asked |= {"kind": name, "mate": given[name]}
    return urlencode(asked)


def said_of(reply: Wire) -> str:
    """Return what the verdict on a line means, in a sentence."""
    word = reply["verdict"]
    if word == "ask":
        judged = {one["verdict"] for one in reply["readings"]}
        if len(reply["readings"]) > 1 and len(judged) > 1:
            fitting = [one["family"] for one in reply["readings"] if one["verdict"] == "fits"]
            return "It depends on what the line means." + (f" As {_or(fitting)} it fits." if fitting else "")
        return "Something that the check needs is not stated."
    if word == "wrong" and len(reply["readings"]) > 1:
        return "It does not go with its mate, whatever the line means."
    if word == "fits" and len(reply["readings"]) > 1:
        return "Whatever the line means, it goes with its mate."
    return _SAID[word].format(share="a share" if reply["share"] is None else f"about {percent(reply['share'])}")


def _or(names: Sequence[str]) -> str:
    return " or ".join(f"a {name}" for name in names)


def written_out(one: Wire) -> bool:
    """Tell whether the order text of a line only writes out the part that the line names itself.

    >>> written_out({"line": "608-2RS", "order_text": "Ball bearing 608-2RS, 8 x 22 x 7 mm"})
    True
    >>> written_out({"line": "M4x45 SHCS 8.8", "order_text": "Hexagon socket head cap screw ISO 4762 - M4 x 50 - 8.8"})
    False
    """
    return one["order_text"] in [reading.order_text for reading in read(one["line"]).readings]


def heading_of(one: Wire) -> str:
    """Return what stands over the order text of a line: whether it puts something right."""
    if one["verdict"] == "fits":
        return "The same, written out"
    if one["verdict"] == "marginal" and written_out(one):
        return f"The same, written out: {STAYS_MARGINAL}"
    return "Order this"


def heading_of_need(need: Wire, lines: Mapping[str, str]) -> str:
    """Return what stands over the order text of a need; ``lines`` are the texts of the lines, by their id."""
    marginal = [lines.get(share["id"], "") for share in need["by"] if share["verdict"] == "marginal"]
    if any(written_out({"line": line, "order_text": need["order_text"]}) for line in marginal):
        return f"What is ordered, written out: {STAYS_MARGINAL}"
    return "Order this"


def as_ordered(reply: Wire) -> bool:
    """Tell whether the line stands already as it should: then nothing is to be put right."""
    same: bool = reply["order_text"].casefold() == (reply["line"] or "").casefold()
    return same and reply["verdict"] == "fits"


def reading_shown(place: int | str, reading: Wire, reply: Wire, judged: bool = True) -> dict[str, Any]:
    """Return a reading with all that its part of a page shows; ``place`` tells it from the others of the page."""
    verdict = reading.get("verdict")
    share = reading.get("share")
    picture = of_reading(f"picture-{place}", reading, reply) if judged else ""
    return {
        **reading,
        "place": place,
        "verdict": verdict,
        "clearance": reading.get("clearance"),
        "share": share,
        "percent": "" if share is None else percent(share),
        "findings": reading.get("findings", ()),
        "notes": [{**note, "weight": "note"} for note in reading["notes"]],
        "supported": _EVIDENCE.get(reading["evidence"], ""),
        "picture": Markup(picture),  # noqa: S704 - drawn by us, its texts escaped
        "facts": facts(reading, reply["units"]),
    }


def facts(reading: Wire, units: str) -> list[tuple[str, str | Markup]]:
    """Return what a reading fixes, each dimension with where its limits stand."""
    found: list[tuple[str, str | Markup]] = []
    for name, size in reading["dimensions"].items():
        found.append((spoken(name), _with_source(size, units)))
    found += [(spoken(name), value) for name, value in reading["attributes"].items()]
    family = by_name().get(reading["family"])
    if family is not None and family.table:
        link = Markup('<a href="/v1/reference/{0}.html">{1}</a>').format(family.table, family.table.replace("_", " "))
        found.append(("sizes from", Markup("{0} <span class='source'>{1}</span>").format(link, family.source)))
    return found


def _with_source(size: Any, units: str) -> str | Markup:
    text = size_text(size)
    if units != "mm" or not isinstance(size, Mapping) or size.get("tolerance_class") is None or "nominal" not in size:
        return text
    try:
        source = fits.source(Decimal(str(size["nominal"])), size["tolerance_class"])
    except ValueError:
        return text
    return Markup("{0} <span class='source'>{1}</span>").format(text, source)


def size_text(size: Any) -> str:
    """Return a dimension in one short text.

    >>> size_text({"nominal": 8, "lower": 8.006, "upper": 8.015, "tolerance_class": "m6"})
    '8 m6 (8.006 to 8.015)'
    """
    if not isinstance(size, Mapping):
        return shown(size)
    if "designation" in size:
        pitch = f", pitch {shown(size['pitch'])}" if size["pitch"] is not None else ""
        return f"{size['designation']}{pitch}"
    if "nominal" not in size:
        return ", ".join(f"{kind} {_rating(one)}" for kind, one in size.items())
    text = " ".join(shown(size[name]) for name in ("nominal", "tolerance_class") if size[name] is not None)
    return text if size["lower"] is None else f"{text} ({shown(size['lower'])} to {shown(size['upper'])})"


def _rating(one: Wire) -> str:
    upper = "" if one.get("upper") is None else f" to {shown(one['upper'])}"
    return f"{shown(one['value'])}{upper} {one['unit']}"
