"""``/v1/orders/{order}/measurements``: what was measured at the bench on the bags of an order, kept with it."""

from collections.abc import Iterator
from decimal import Decimal

from flask import Blueprint

from schemas.measurements import MEASUREMENTS, MEASUREMENTS_QUERY, NEW_MEASUREMENTS
from schemas.stored_orders import CHANGE_QUERY, CHANGED
from service.api import wire
from service.api.callers import caller
from service.api.once import IDEMPOTENCY_KEY, IF_MATCH, etag, store
from service.api.render import Dress, Layout, Row, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.api.stored_layouts import CHANGED_LAYOUT, to_order
from service.api.stored_orders import CHANGES, MISSING_ORDER, ONE_ORDER, missing_order, tell
from service.store.orders import Made
from service.stored import orders as stored_orders
from service.stored.measurements import Entry
from service.stored.orders import NoOrder

blueprint = Blueprint("measurements", __name__)

COLUMNS = (
    "number",
    "line",
    "dimension",
    "value",
    "decision",
    "inside",
    "lower",
    "upper",
    "limits_from",
    "uncertainty",
    "instrument",
    "typed",
    "proves",
    "state",
    "because",
    "by",
    "on",
    "made_at",
    "made_by",
    "note",
    "order",
    "revision",
    "units",
    "reference",
    "error",
)


def _reply(entry: Entry, revision: int, made: Made, units: str) -> Wire:
    body, outcome = entry.body, entry.outcome
    ends = {
        name: None if body["limits"][name] is None else Decimal(body["limits"][name]) for name in ("lower", "upper")
    }
    made_at, made_by = made[revision]
    return {
        "number": entry.number,
        "revision": revision,
        "made_at": made_at.isoformat(),
        "made_by": made_by,
        "by": body.get("by", ""),
        "on": body["on"],
        "line": body["line"],
        "dimension": body["dimension"],
        "typed": body["measured"],
        "values": [
            {
                "measured": wire.length(piece.measured, units),
                "inside": wire.length(piece.inside, units),
                "decision": piece.decision,
            }
            for piece in outcome.pieces
        ],
        "limits": {**{name: wire.length(end, units) for name, end in ends.items()}, "from": body["limits"]["from"]},
        "uncertainty": {
            "value": wire.length(Decimal(body["uncertainty"]["value"]), units),
            "from": body["uncertainty"]["from"],
        },
        "instrument": body.get("instrument", ""),
        "decision": outcome.decision,
        "text": outcome.text,
        "state": entry.state,
        "because": entry.because,
        "note": body.get("note", ""),
    }


def _rows(reply: Wire) -> Iterator[Row]:
    """Yield a row for each value."""
    for one in reply["measurements"]:
        shared = {
            **{name: one[name] for name in ("number", "line", "dimension", "instrument", "typed", "state", "because")},
            **{name: one[name] for name in ("by", "on", "made_at", "made_by", "note", "revision")},
            **{name: one["limits"][name] for name in ("lower", "upper")},
            "limits_from": one["limits"]["from"],
            "uncertainty": one["uncertainty"]["value"],
            "proves": one["decision"],
            "order": reply["id"],
            "units": reply["units"],
            "reference": reply["reference"],
        }
        for piece in one["values"]:
            cells = {**shared, **piece, "value": piece["measured"]}
            yield [cells.get(column) for column in COLUMNS]


LAYOUT = Layout(
    "measurements",
    COLUMNS,
    _rows,
    lambda reply: str(sum(len(one["values"]) for one in reply["measurements"])),
    single=False,
    dress=Dress(
        main=(
            "number",
            "line",
            "dimension",
            "value",
            "decision",
            "lower",
            "upper",
            "units",
            "instrument",
            "state",
            "on",
        ),
        signs=frozenset({"decision"}),
        spoken=frozenset({"dimension"}),
    ),
    title="What was measured at the bench",
    text="A row for each value, in the order in which it was told. Of several for the same dimension and limits of a "
    "bag the last one counts; the others stay here.",
    back=to_order,
)


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/measurements",
        "What was measured at the bench on an order",
        MEASUREMENTS_QUERY,
        MEASUREMENTS,
        LAYOUT,
        description="Every measurement as it was typed and as it was read, who told it and when, what it proves, and "
        "whether it counts: of several for the same dimension and limits of a bag the last one does. CSV, XML and HTML "
        "give a row for each value.",
        statuses={404: MISSING_ORDER},
    ),
)
def get_measurements(query: Wire, order: str) -> Answer:
    """Show what was measured."""
    try:
        stored, entries, made = stored_orders.measured(store(), caller().owner, order)
    except NoOrder:
        raise missing_order(order) from None
    revisions = {entry.number: entry.revision for entry in stored.log}
    units = query.get("units", "mm")
    reply = {
        "id": order,
        "name": stored.plan.get("name", ""),
        "revision": stored.revision,
        "measurements": [_reply(one, revisions[one.number], made, units) for one in entries],
    }
    return Answer(with_reference(reply, units), 200, (etag(stored.revision),))


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/measurements",
        "Tell what was measured at the bench on an order",
        CHANGE_QUERY,
        CHANGED,
        CHANGED_LAYOUT,
        method="POST",
        body=NEW_MEASUREMENTS,
        body_types=("application/json",),
        description="Values of one dimension of a line or a piece of stock, held against the limits that the sheet for "
        "the bench asks for. A bag that is measured is here; one that is proved wrong covers nothing. To correct a "
        "measurement tell it again: the last one counts, the others stay in the log. An event withdraws one.",
        statuses=CHANGES,
        headers=(IF_MATCH, IDEMPOTENCY_KEY),
    ),
)
def tell_measurements(query: Wire, body: Wire, order: str) -> Answer:
    """Add measurements to the log of an order."""
    return tell(order, body, "measurement")
