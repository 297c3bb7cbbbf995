"""The templates of all pages, made once; the style sheet stands in each page, so that a page is one file."""

import re
from functools import cache
from importlib.resources import files
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from service.cells import defused, xml_known
from service.pictures.drawing import figure
from service.pictures.glyphs import glyph

STYLE = files("service.pages").joinpath("styles.css").read_text("utf-8")
"""The one style sheet; the content security policy names it by its digest."""

NAVIGATION = (
    ("/", "One line"),
    ("/order", "An order"),
    ("/v1/families.html", "Families"),
    ("/v1/reference.html", "Tables"),
    ("/v1/fits.html?size=25&hole=H8&shaft=f7", "Fits"),
    ("/v1/tightening.html?thread=M5", "Tightening"),
    ("/docs", "Documentation"),
)

CAUTION = (
    "Figures for tightening, pressing, heating and load are guidance for light machinery; the part maker's data, local "
    "codes and a qualified person come first. A bag's label is no proof: measure what arrived."
)

_CUT = "\x00"
_SIGN = re.compile(r'(<svg class="glyph"[^>]*>)(.*?)</svg>')


def shown(value: Any) -> str:
    """Return a value for people: numbers in full with a true minus, nothing for null, lists joined.

    >>> shown(-0.012), shown(None), shown(["a", "b"]), shown(True)
    ('−0.012', '', 'a; b', 'yes')
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return figure(value)
    if isinstance(value, list | tuple):
        return "; ".join(map(shown, value))
    return str(value)


def counted(said: Any) -> str:
    """Return an amount with what it counts: a bare number is one of pieces.

    >>> counted("4"), counted("1"), counted("2 packs of 10 = 20"), counted("1200 mm")
    ('4 pieces', '1 piece', '2 packs of 10 = 20', '1200 mm')
    """
    text = str(said).strip()
    return f"{text} piece{'' if text == '1' else 's'}" if text.isdecimal() else text


def spoken(name: str) -> str:
    """Return the name of a field as words."""
    return name.replace("_", " ")


def _harmless(value: Any) -> Any:
    """Return what a template writes so that no sheet runs it and any reader knows its characters; markup stays."""
    return xml_known(defused(value)) if isinstance(value, str) and not isinstance(value, Markup) else value


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("service.pages"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        # A sheet that imports a whole page takes each block of it as a cell.
        finalize=_harmless,
    )
    environment.globals.update(
        style=Markup(STYLE),  # noqa: S704 - our own
        navigation=NAVIGATION,
        caution=CAUTION,
        glyph=lambda word, size=24: Markup(glyph(word, size)),  # noqa: S704 - our own
    )
    environment.filters.update(shown=shown, spoken=spoken, counted=counted)
    return environment


def page(template: str, **given: Any) -> str:
    """Return a whole page; a sign that stands there many times is drawn once."""
    drawn: dict[str, str] = {}

    def once(sign: re.Match[str]) -> str:
        lead, shape = sign.groups()
        if shape in drawn:
            return f'{lead}<use href="#{drawn[shape]}"/></svg>'
        drawn[shape] = f"sign-{len(drawn) + 1}"
        return f'{lead}<g id="{drawn[shape]}">{shape}</g></svg>'

    return _SIGN.sub(once, _environment().get_template(template).render(given))


def around(template: str, **given: Any) -> tuple[str, str]:
    """Return what stands before and after the rows of a page, so that rows can be sent as they come."""
    before, _, after = page(template, table=Markup(_CUT), **given).partition(_CUT)  # noqa: S704 - our own
    return before, after
