"""Which picture belongs to a reply, and the numbers of the reply that it is drawn from."""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any, Literal

from service.pictures import clamp as clamping
from service.pictures.drawing import INK, PAPER, Drawing, number
from service.pictures.glyphs import shape_of
from service.pictures.timeline import Bar, timeline
from service.pictures.zones import Zone, zones
from service.verdict.roles import LENGTH_OVER_ALL

Wire = Mapping[str, Any]

MOST_BARS = 14
"""Parts that a timeline shows: those that come last."""

_UNKNOWN_LAST = date.max

_ROUNDED = 1e-6
"""How far limits may be off that were worked out from rounded figures."""


# --- a line and its mate ---------------------------------------------------------------------------------------------


def of_reading(name: str, reading: Wire, reply: Wire) -> str:
    """Return the picture of a reading with its mate, empty where there is nothing to draw."""
    mate = reply["mate"]
    if mate is None:
        return ""
    if mate["kind"] in ("bore", "shaft") and reading["clearance"] is not None:
        return _pair(name, reading, reply)
    if mate["kind"] == "clamp":
        return _clamp(name, reading, mate, reply["units"])
    return ""


def _pair(name: str, reading: Wire, reply: Wire) -> str:
    mate, clearance, units = reply["mate"], reading["clearance"], reply["units"]
    size = mate["diameter"]
    lower, upper = size["lower"], size["upper"]
    if lower is None or upper is None:
        return ""
    # The clearance is the bore minus the part, so that it gives back the limits that were compared.
    if mate["kind"] == "bore":
        part = _compared("part", reading, upper - clearance["upper"], lower - clearance["lower"])
        hole, shaft = Zone(_named("bore", size), lower, upper), part
    else:
        part = _compared("part", reading, upper + clearance["lower"], lower + clearance["upper"])
        hole, shaft = part, Zone(_named("shaft", size), lower, upper)
    if hole.lower > hole.upper or shaft.lower > shaft.upper:
        return ""
    window = reply["fit"] and (reply["fit"]["window"]["lower"], reply["fit"]["window"]["upper"])
    enters = None if reading["verdict"] == "wrong" else True
    return zones(name, hole, shaft, size["nominal"], units, window, enters)


def _named(word: str, size: Wire) -> str:
    """Return what a mate is called in a picture: with its class where it has one."""
    if size["tolerance_class"] is None:
        return word
    nominal = size["nominal"]
    return f"{word} {number(nominal) if isinstance(nominal, float) else nominal} {size['tolerance_class']}"


def _compared(word: str, reading: Wire, lower: float, upper: float) -> Zone:
    """Return the zone of the part: the dimension that has these limits, by its class, else the limits as they are."""
    for size in reading["dimensions"].values():
        if not isinstance(size, Mapping) or size.get("lower") is None:
            continue
        if abs(size["lower"] - lower) < _ROUNDED and abs(size["upper"] - upper) < _ROUNDED:
            return Zone(_named(word, size), size["lower"], size["upper"], bought=True)
    return Zone(word, lower, upper, bought=True)


def _clamp(name: str, reading: Wire, mate: Wire, units: str) -> str:
    dimensions, into = reading["dimensions"], mate["into"]
    thread = dimensions.get("thread")
    if thread is None:
        return ""
    nut = into["kind"] == "nut"
    screw = clamping.Screw(
        thread["designation"],
        thread["diameter"],
        _nominal(dimensions, "length"),
        _nominal(dimensions, "head_diameter"),
        _nominal(dimensions, "head_height"),
        sunk=reading["family"] in LENGTH_OVER_ALL,
    )
    stack = clamping.Stack(
        tuple(mate["layers"]),
        into["text"],
        into["height"] if nut else into["depth"],
        open_below=nut or into["end"] == "through",
        nut=nut,
    )
    refused = any(one["weight"] == "wrong" and one["code"].startswith("thread-") for one in reading["findings"])
    return clamping.clamp(name, screw, stack, not refused, units)


def _nominal(dimensions: Wire, name: str) -> float | None:
    size = dimensions.get(name)
    return size["nominal"] if isinstance(size, Mapping) else None


def of_verdict(reply: Wire) -> str:
    """Return the pictures of all readings under each other, each with its word and sign."""
    pieces = [
        (one["verdict"], one["family"], of_reading(f"r{n}", one, reply)) for n, one in enumerate(reply["readings"])
    ]
    if not pieces:
        pieces = [(reply["verdict"], reply["line"] or "", "")]
    said = f"{reply['line']}: {reply['verdict']}"
    return _stacked(said, pieces)


def _stacked(title: str, pieces: Iterable[tuple[str, str, str]]) -> str:
    rows = [(word, text, picture, _height(picture)) for word, text, picture in pieces]
    whole = sum(36 + height for *_, height in rows)
    drawing = Drawing("all", title, "; ".join(f"{text}: {word}" for word, text, *_ in rows), 340, whole)
    drawing.rect(0, 0, 340, whole, fill=PAPER)
    top = 0.0
    for word, text, picture, height in rows:
        drawing.parts.append(
            f'<g transform="translate(4 {number(top + 6)})" color="{INK}" class="sign-{word}">{shape_of(word)}</g>'
        )
        drawing.text(36, top + 23, f"{word}: {text}", 12.5)
        if picture:
            drawing.parts.append(picture.replace("<svg ", f'<svg y="{number(top + 36)}" ', 1))
        top += 36 + height
    return drawing.svg()


def _height(picture: str) -> float:
    return float(picture.split('height="', 1)[1].split('"', 1)[0]) if picture else 0.0


def of_fit(reply: Wire, name: str = "fit") -> str:
    """Return the picture of a pair of classes."""
    hole, shaft = (
        Zone(_named(word, reply[key]), reply[key]["lower"], reply[key]["upper"])
        for word, key in (("hole", "hole"), ("shaft", "shaft"))
    )
    return zones(name, hole, shaft, reply["size"], reply["units"])


# --- orders ----------------------------------------------------------------------------------------------------------


def of_order(reply: Wire, name: str = "days") -> str:
    """Return when the parts of an order come, when the kit is complete, and when each step can start."""
    coming = [
        Bar(f"{one['id']} {one['line']}", _day(one["arrives"]["p50"]), _day(one["arrives"]["p90"]))
        for one in reply["lines"]
        if one["covers"] and one["arrives"] is not None and one["state"] != "here"
    ]
    undated = [Bar(text, None, None) for text in reply["schedule"]["without_date"]]
    coming.sort(key=lambda bar: (bar.p90 or _UNKNOWN_LAST, bar.p50 or _UNKNOWN_LAST))
    more = max(len(coming) - MOST_BARS, 0)
    kit = reply["schedule"]["kit"]
    bars = [*coming[more:], *undated, Bar("kit complete", _day(kit["p50"]), _day(kit["p90"]), "kit")]
    gates = {gate["step"]: gate for gate in reply["gates"]}
    for step in reply["schedule"]["steps"]:
        gate = gates.get(step["id"])
        state: Literal["open", "closed"] | None = None
        if gate is not None and gate["irreversible"]:
            state = "open" if gate["open"] else "closed"
        text = f"{step['id']} can start" + (", cannot be undone" if state else "")
        bars.append(Bar(text, _day(step["p50"]), _day(step["p90"]), "step", state))
    return timeline(name, bars, date.fromisoformat(reply["today"]), more)


def _day(text: str | None) -> date | None:
    return None if text is None else date.fromisoformat(text)
