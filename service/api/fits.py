"""``/v1/fits``: the limits and the clearance of a pair of tolerance classes at one size."""

from decimal import Decimal

from flask import Blueprint

from reference import fits as table
from reference import units as unit
from reference.quantities import Limits
from schemas.fits import FITS_QUERY, PAIR
from service.api import wire
from service.api.render import Layout, Row, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.errors import BadValue
from service.pages.figures import fits_page
from service.pages.illustrations import of_fit

blueprint = Blueprint("fits", __name__)

COLUMNS = (
    "kind",
    "size",
    "hole_class",
    "hole_lower",
    "hole_upper",
    "shaft_class",
    "shaft_lower",
    "shaft_upper",
    "clearance_lower",
    "clearance_upper",
    "source",
    "units",
    "reference",
    "error",
)


def _row(reply: Wire) -> Row:
    hole, shaft, clearance = reply["hole"], reply["shaft"], reply["clearance"]
    return [
        reply["kind"],
        reply["size"],
        *(hole[name] for name in ("tolerance_class", "lower", "upper")),
        *(shaft[name] for name in ("tolerance_class", "lower", "upper")),
        *(clearance[name] for name in ("lower", "upper")),
        *(reply[name] for name in ("source", "units", "reference")),
        None,
    ]


LAYOUT = Layout(
    "fit", COLUMNS, lambda reply: [_row(reply)], lambda reply: str(reply["kind"]), page=fits_page, picture=of_fit
)


@resource(
    blueprint,
    Resource(
        "/v1/fits",
        "Limits and clearance of a pair of tolerance classes",
        FITS_QUERY,
        PAIR,
        LAYOUT,
        forms=("json", "csv", "xml", "html", "word", "svg"),
        description="ISO 286 at one nominal size. The plain word is the kind of fit.",
    ),
)
def fits(query: Wire) -> Answer:
    """Answer a pair of classes at one size."""
    size = _size(query["size"])
    hole, shaft = (_limits(size, name, query[name].strip()) for name in ("hole", "shaft"))
    lower, upper = table.clearance(hole, shaft)
    units = query.get("units", "mm")
    sources = dict.fromkeys(
        work for limits in (hole, shaft) for work in table.source(size, str(limits.tolerance_class)).split("; ")
    )
    reply = {
        "size": wire.length(size, units),
        "hole": wire.limits(hole, units),
        "shaft": wire.limits(shaft, units),
        "clearance": {"lower": wire.length(lower, units), "upper": wire.length(upper, units)},
        "kind": table.kind(lower, upper),
        "source": "; ".join(sources),
    }
    return Answer(with_reference(reply, units))


def _size(text: str) -> Decimal:
    accepted = f"a length over 0 up to {table.LARGEST} mm, in millimetres or with its unit"
    try:
        size = unit.length(text)
    except unit.UnitError as error:
        raise BadValue(str(error), field="size", value=text, accepted=accepted, example="25") from None
    if not 0 < size <= table.LARGEST:
        raise BadValue("no limits are held at this size", field="size", value=text, accepted=accepted, example="25")
    return size


def _limits(size: Decimal, kind: str, text: str) -> Limits:
    example = "H8" if kind == "hole" else "f7"
    letter = "a capital letter" if kind == "hole" else "a small letter"
    accepted = f"a tolerance class of ISO 286 for a {kind}, {letter} and a grade, defined at this size"
    try:
        if table.is_hole_class(text) != (kind == "hole"):
            raise BadValue(
                f"{text} is no class of a {kind}", field=kind, value=text, accepted=accepted, example=example
            )
        return table.limits(size, text)
    except table.UndefinedClass as error:
        raise BadValue(str(error), field=kind, value=text, accepted=accepted, example=example) from None
