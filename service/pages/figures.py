"""The pages of figures that are asked for by a few values: the limits of a fit, and how tight a screw may be."""

from collections.abc import Iterable, Mapping
from typing import Any
from urllib.parse import parse_qsl

from markupsafe import Markup

from service.pages.illustrations import of_fit
from service.pages.lines import Forms, size_text
from service.pages.site import page, shown, spoken

Wire = Mapping[str, Any]

_KINDS: Mapping[str, str] = {
    "clearance": "Every pair has play.",
    "transition": "Some pairs have play, others are tight.",
    "interference": "Every pair is tight.",
}
JOINT = (
    ("thread", "Thread", "M5"),
    ("property_class", "Property class", "8.8"),
    ("head", "Head", "socket"),
    ("friction", "Friction", "0.12"),
    ("lubrication", "or treated with", "oil"),
    ("into", "Goes into", "6061-T6"),
    ("engagement", "Thread engaged [mm]", "8"),
    ("clamped", "Material under the head", "aluminium"),
)
"""What a joint is described by: field, label, example."""


def fits_page(reply: Wire, table: str, query: str, forms: Forms) -> str:
    """Return the page of a pair of tolerance classes, with the form to ask for another."""
    return page(
        "fits.html",
        title=f"{shown(reply['size'])} {reply['hole']['tolerance_class']}/{reply['shaft']['tolerance_class']}",
        here="/v1/fits.html",
        reply=reply,
        said=_KINDS[reply["kind"]],
        hole=size_text(reply["hole"]),
        shaft=size_text(reply["shaft"]),
        picture=Markup(of_fit(reply)),  # noqa: S704 - drawn by us, its texts escaped
        given=_given(query, ("size", "hole", "shaft")),
        forms=forms,
        table=Markup(table),  # noqa: S704 - made of escaped cells
        reference=reply["reference"],
    )


def tightening_page(reply: Wire, table: str, query: str, forms: Forms) -> str:
    """Return the page of a joint: torques with what they rest on, cautions, and the form to ask for another."""
    held = reply["engagement"]
    return page(
        "tightening.html",
        title=f"Tightening {reply['thread']} {reply['property_class']}",
        here="/v1/tightening.html",
        reply=reply,
        engagement=held and _engagement(held, reply["units"]),
        assumed=[(spoken(name), text) for name, text in reply["assumed"].items()],
        joint=JOINT,
        given=_given(query, [name for name, *_ in JOINT]),
        forms=forms,
        table=Markup(table),  # noqa: S704 - made of escaped cells
        reference=reply["reference"],
    )


def _given(query: str, names: Iterable[str]) -> dict[str, str]:
    """Return what the query asked, by field; empty where it asked nothing."""
    asked = dict(parse_qsl(query))
    return {name: asked.get(name, "") for name in names}


def _engagement(held: Wire, units: str) -> list[tuple[str, str]]:
    rule = held["rule"]
    return [
        ("engaged", f"{shown(held['engaged'])} {units}, {shown(held['diameters'])} times the diameter"),
        ("gives first", str(held["gives"])),
        ("strips at", f"{shown(held['strip_load'])} N, preload {shown(held['preload'])} N"),
        (
            "holds the preload",
            f"{shown(held['holds_preload'])}; {shown(held['needed_for_preload'])} {units} are needed",
        ),
        (
            "rule of thumb",
            f"{shown(rule['diameters'])} times the diameter, {shown(rule['length'])} {units}: "
            + ("met" if rule["met"] else "not met"),
        ),
    ]
