"""``/v1/identifications``: which standard part has these measured values?"""

from collections.abc import Iterator

from flask import Blueprint

from schemas.identifications import IDENTIFICATION, IDENTIFICATION_QUERY, MEASURED
from service.api import wire
from service.api.reading import dimensions_text
from service.api.receipts import refused
from service.api.render import Layout, Row, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.receipts.identify import Agreement, Candidate, Identification, identify
from service.receipts.intake import parse_uncertainty
from service.verdict.model import CheckError

blueprint = Blueprint("identifications", __name__)

COLUMNS = (
    "place",
    "family",
    "standards",
    "order_text",
    "dimensions",
    "distance",
    "tell_apart",
    "source",
    "units",
    "reference",
    "error",
)


def _agreement(one: Agreement, units: str) -> Wire:
    return {
        "dimension": one.dimension,
        "measured": one.measured if isinstance(one.measured, str) else wire.length(one.measured, units),
        "lower": wire.length(one.lower, units),
        "upper": wire.length(one.upper, units),
        "outside": wire.length(one.outside, units),
    }


def _candidate(one: Candidate, units: str) -> Wire:
    found = wire.reading(one.reading, units)
    found["agreement"] = [_agreement(each, units) for each in one.agreement]
    found["distance"] = round(one.distance, 4)
    found["source"] = one.source
    return found


def reply_of(found: Identification, said: str, units: str) -> Wire:
    """Return an identification as it goes over the wire."""
    decider = found.decider
    return {
        "candidates": [_candidate(one, units) for one in found.candidates],
        "left_out": found.left_out,
        "tell_apart": found.tell_apart,
        "decider": None
        if decider is None
        else {"dimension": decider.dimension, "separates": decider.separates, "of_pairs": decider.of_pairs},
        "searched": found.searched,
        "uncertainty": wire.length(found.uncertainty, units),
        "uncertainty_from": said,
    }


def _rows(reply: Wire) -> Iterator[Row]:
    # Where nothing is found there is one row as well, so that a sheet sees that it was answered.
    for place, one in enumerate(reply["candidates"] or [{}], start=1):
        yield [
            place if one else None,
            one.get("family"),
            "; ".join(one.get("standards", ())),
            one.get("order_text"),
            dimensions_text(one.get("dimensions", {})),
            one.get("distance"),
            reply["tell_apart"],
            one.get("source"),
            reply["units"],
            reply["reference"],
            None,
        ]


LAYOUT = Layout(
    "candidates",
    COLUMNS,
    _rows,
    lambda reply: reply["candidates"][0]["order_text"] if reply["candidates"] else "unread",
    single=False,
)


@resource(
    blueprint,
    Resource(
        "/v1/identifications",
        "Which standard part has these measured values",
        IDENTIFICATION_QUERY,
        IDENTIFICATION,
        LAYOUT,
        method="POST",
        body=MEASURED,
        body_types=("application/json",),
        description="Holds every standard size of every family against the values; what lies outside by no more than "
        "the uncertainty is a candidate. The plain word is what to order of the best one, unread where there is none.",
    ),
)
def identifications(query: Wire, given: Wire) -> Answer:
    """Name the standard parts that measured values can be."""
    try:
        uncertainty = parse_uncertainty(given, small_hole=False)
        found = identify(given["measured"], uncertainty.value)
    except CheckError as error:
        raise refused(error) from None
    units = query.get("units", "mm")
    return Answer(with_reference(reply_of(found, uncertainty.said, units), units))
