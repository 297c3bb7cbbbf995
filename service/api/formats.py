"""Which form a reply takes: by the suffix of the path, by ``format=``, or by Accept, in this order.

Spreadsheets choose their importer by the suffix and send ``Accept: */*``, scripts and browsers can set Accept.
How a form is written stands in ``render.py``.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from werkzeug.datastructures import MIMEAccept
from werkzeug.http import parse_accept_header

from schemas.options import SEPARATORS
from service.api.reports import NOWHERE, REPORTS, Origin
from service.errors import BadValue, NotAcceptable, NotFound

MEDIA_TYPES: Mapping[str, tuple[str, ...]] = {
    "json": ("application/json", "text/json"),
    "csv": ("text/csv",),
    "xml": ("application/xml", "text/xml"),
    "html": ("text/html", "application/xhtml+xml"),
    "word": ("text/plain",),
    "ndjson": ("application/x-ndjson", "application/ndjson", "application/jsonl", "application/x-jsonlines"),
    "svg": ("image/svg+xml",),
    "sarif": ("application/sarif+json",),
}
"""The media types by which Accept can ask for a form; the other reports have none of their own."""

SUFFIXES: Mapping[str, str] = {
    "json": "json",
    "csv": "csv",
    "xml": "xml",
    "html": "html",
    "txt": "word",
    "ndjson": "ndjson",
    "svg": "svg",
    **{report: report for report in REPORTS},
}

CONTENT_TYPES: Mapping[str, str] = {
    "json": "application/json",
    "csv": "text/csv; charset=utf-8; header=present",
    "xml": "application/xml; charset=utf-8",
    "html": "text/html; charset=utf-8",
    "word": "text/plain; charset=utf-8",
    "ndjson": "application/x-ndjson",
    "svg": "image/svg+xml; charset=utf-8",
    "junit": "application/xml; charset=utf-8",
    "tap": "text/plain; charset=utf-8",
    "lines": "text/plain; charset=utf-8",
    "sarif": "application/sarif+json",
}


@dataclass(frozen=True, slots=True)
class Here:
    """What a page says of itself: its title and text, its address without the suffix, and the forms it also has.

    ``back`` is a text and an address from which it was reached. ``query`` is that of the request; a reply to a POST has
    no address that its other forms could be had from.
    """

    title: str = ""
    text: str = ""
    path: str = ""
    query: str = ""
    forms: tuple[str, ...] = ()
    back: tuple[str, str] | None = None

    def others(self) -> list[tuple[str, str]]:
        """Return the names and addresses of the other forms of this page."""
        query = f"?{self.query}" if self.query else ""
        shown = {form: suffix for suffix, form in SUFFIXES.items() if form in self.forms and form != "html"}
        return [(_NAMES.get(form, form), f"{self.path}.{suffix}{query}") for form, suffix in shown.items()]


NOWHERE_ELSE = Here()

_NAMES = {"json": "JSON", "csv": "CSV", "xml": "XML", "word": "plain text", "ndjson": "NDJSON", "svg": "picture"}


@dataclass(frozen=True, slots=True)
class Look:
    """The form of a reply and its options."""

    form: str
    field: str | None = None
    inline: bool = False
    separator: str = ","
    decimal: str = "."
    mark: bool = False
    origin: Origin = NOWHERE
    here: Here = NOWHERE_ELSE

    @property
    def content_type(self) -> str:
        """The Content-Type of the reply."""
        return CONTENT_TYPES[self.form]


def look(form: str, options: Mapping[str, object], by_line: bool = False, here: Here = NOWHERE_ELSE) -> Look:
    """Return the look that loaded options ask for; ``by_line`` says that what is checked stands on lines of a file.

    Raises:
        BadValue: one field of a picture is asked for.
    """
    if form == "svg" and "field" in options:
        raise BadValue(
            "a picture has no fields",
            field="field",
            value=options["field"],
            accepted="no field with .svg",
            example="json",
        )
    return Look(
        form,
        field=str(options["field"]) if "field" in options else None,
        inline=options.get("errors") == "inline",
        separator=SEPARATORS[str(options.get("sep", ","))],
        decimal=str(options.get("dec", ".")),
        mark=bool(options.get("bom", False)),
        origin=Origin(str(options.get("file", "order")), by_line),
        here=here,
    )


def choose(suffix: str | None, asked: str | None, accept: str, offered: tuple[str, ...]) -> str:
    """Return the form of a reply; the first one offered is the default.

    Raises:
        NotFound: the resource has no form of this suffix.
        BadValue: ``format`` contradicts the suffix, or is not offered here.
        NotAcceptable: Accept names only forms that are not offered.

    >>> choose("csv", None, "*/*", ("json", "csv"))
    'csv'
    """
    if suffix is not None:
        form = SUFFIXES.get(suffix.lower(), "")
        if form not in offered:
            forms = ", ".join(f".{name}" for name, form in SUFFIXES.items() if form in offered)
            raise NotFound(
                f".{suffix} is no form of this resource",
                field="format",
                value=f".{suffix}",
                accepted=forms,
                example=forms.split(", ", 1)[0],
            )
        if asked is not None and asked != form:
            raise BadValue(
                f"the path ends in .{suffix}, format says {asked}",
                field="format",
                value=asked,
                accepted="either of them, or both alike",
                example=form,
            )
        return form
    if asked is not None:
        if asked not in offered:
            raise BadValue(
                "the resource has no such form",
                field="format",
                value=asked,
                accepted=", ".join(offered),
                example=offered[0],
            )
        return asked
    if not accept or accept == "*/*":
        return offered[0]
    form = _accepted(accept, offered)
    if not form:
        types = ", ".join(MEDIA_TYPES[name][0] for name in offered if name in MEDIA_TYPES)
        raise NotAcceptable(
            "none of the accepted media types is offered",
            field="Accept",
            value=accept,
            accepted=types,
            example=MEDIA_TYPES[offered[0]][0],
        )
    return form


@lru_cache(maxsize=512)
def _accepted(accept: str, offered: tuple[str, ...]) -> str:
    forms = {media_type: name for name in offered for media_type in MEDIA_TYPES.get(name, ())}
    best = parse_accept_header(accept, MIMEAccept).best_match(list(forms))
    return forms[best] if best else ""
