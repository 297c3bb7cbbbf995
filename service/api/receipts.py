"""``/v1/receipts/check``: what do the measured pieces prove?"""

from collections.abc import Iterator

from flask import Blueprint

from schemas.receipts import RECEIPT, RECEIPT_CHECK, RECEIPT_QUERY
from service.api import wire
from service.api.query import not_understood
from service.api.render import Layout, Row, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.cells import cell_text
from service.errors import MissingField, RequestError
from service.receipts.check import check
from service.receipts.intake import parse_receipt
from service.receipts.model import ReceiptCheck
from service.strength.measuring import Piece
from service.verdict.model import CheckError

blueprint = Blueprint("receipts", __name__)

COLUMNS = (
    "decision",
    "measured",
    "piece",
    "inside",
    "lower",
    "upper",
    "limits_from",
    "uncertainty",
    "text",
    "advice",
    "sample",
    "label",
    "units",
    "reference",
    "error",
)


def refused(error: CheckError) -> RequestError:
    """Return what the service's inside refuses as an error of the request."""
    if error.value is None:
        return MissingField(
            f"{error.field} is missing", field=error.field, accepted=error.accepted, example=error.example
        )
    return not_understood(error)


def _piece(piece: Piece, units: str) -> Wire:
    return {
        "measured": wire.length(piece.measured, units),
        "inside": wire.length(piece.inside, units),
        "decision": piece.decision,
    }


def reply_of(found: ReceiptCheck, units: str) -> Wire:
    """Return a checked receipt as it goes over the wire."""
    receipt, outcome, sample, label = found.receipt, found.outcome, found.sample, found.label
    zone = outcome.acceptance
    return {
        "decision": outcome.decision,
        "text": outcome.text,
        "limits": {
            "lower": wire.length(receipt.lower, units),
            "upper": wire.length(receipt.upper, units),
            "from": receipt.limits_from,
        },
        "pieces": [_piece(piece, units) for piece in outcome.pieces],
        "worst": _piece(outcome.worst, units),
        "uncertainty": {"value": wire.length(receipt.uncertainty.value, units), "from": receipt.uncertainty.said},
        "acceptance": None
        if zone is None
        else {"lower": wire.length(zone[0], units), "upper": wire.length(zone[1], units)},
        "ratio": None if outcome.ratio is None else wire.number(outcome.ratio),
        "advice": found.advice,
        "sample": None
        if sample is None
        else {
            "measured": sample.measured,
            "lot": sample.lot,
            "confidence": wire.number(sample.confidence),
            "outside_at_most": wire.number(sample.outside_at_most),
            "for_five_percent": sample.for_five_percent,
            "text": sample.text,
            "source": sample.source,
        },
        "label": None if label is None else {"label": label.label, "word": label.word, "text": label.text},
        "assumed": list(outcome.assumed),
        "source": outcome.source,
    }


def _rows(reply: Wire) -> Iterator[Row]:
    for piece in reply["pieces"]:
        yield [
            reply["decision"],
            piece["measured"],
            piece["decision"],
            piece["inside"],
            reply["limits"]["lower"],
            reply["limits"]["upper"],
            reply["limits"]["from"],
            reply["uncertainty"]["value"],
            reply["text"],
            reply["advice"],
            reply["sample"] and reply["sample"]["text"],
            reply["label"] and cell_text([reply["label"]["word"], reply["label"]["text"]]),
            reply["units"],
            reply["reference"],
            None,
        ]


LAYOUT = Layout("receipt", COLUMNS, _rows, lambda reply: str(reply["decision"]), single=False)


@resource(
    blueprint,
    Resource(
        "/v1/receipts/check",
        "What measured pieces prove",
        RECEIPT_QUERY,
        RECEIPT_CHECK,
        LAYOUT,
        method="POST",
        body=RECEIPT,
        body_types=("application/json",),
        description="The rule of ISO 14253-1 for the one who buys: conforming only if every piece is inside by more "
        "than the uncertainty, not conforming if one is outside by more. The decision also stands in X-Decision. CSV, "
        "XML and HTML give one row per piece.",
        statuses={409: "gate=1 and the decision is not conforming; the body is the same"},
    ),
)
def check_receipt(query: Wire, given: Wire) -> Answer:
    """Decide on measured pieces."""
    try:
        found = check(parse_receipt(given))
    except CheckError as error:
        raise refused(error) from None
    units = query.get("units", "mm")
    decision = found.outcome.decision
    status = 409 if query.get("gate") and decision != "conforming" else 200
    return Answer(with_reference(reply_of(found, units), units), status, (("X-Decision", decision),))
