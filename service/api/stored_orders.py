"""``/v1/orders``: orders that are kept, with every revision, what happened to them, and every verdict on them.

A change names the revision that it is meant for (If-Match): nobody's work is overwritten. The log, events and receipts,
is only added to. Every change is proved before it is stored, and the reply says which verdicts it changed and why.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from flask import Blueprint, current_app, request
from sqlalchemy.orm import Session

from schemas.stored_orders import (
    CHANGE_QUERY,
    CHANGED,
    CHECK_QUERY,
    GATE,
    GATE_QUERY,
    HISTORY,
    LOG,
    NEW_EVENTS,
    NEW_PLAN,
    NEW_RECEIPTS,
    ORDER,
    ORDER_QUERY,
    ORDERS,
    ORDERS_QUERY,
    PAGE_QUERY,
    PATCH,
    PROVED,
    REVISIONS,
    SCHEDULE,
)
from service.api import orders as checked_orders
from service.api.callers import caller, writer
from service.api.once import (
    IDEMPOTENCY_KEY,
    IF_MATCH,
    Work,
    carried_out,
    etag,
    store,
    wanted_revisions,
)
from service.api.receipts import refused
from service.api.render import Wire
from service.api.resource import Answer, Headers, Resource, resource, with_reference
from service.api.stored_layouts import (
    CHANGED_LAYOUT,
    GATE_LAYOUT,
    HISTORY_LAYOUT,
    LIST_LAYOUT,
    LOG_LAYOUT,
    ORDER_LAYOUT,
    PROVED_LAYOUT,
    REVISIONS_LAYOUT,
    SCHEDULE_LAYOUT,
    change_reply,
    changed_reply,
    head_reply,
    log_reply,
    open_word,
    order_reply,
)
from service.config import Settings
from service.errors import BadValue, NotFound, RequestError, Stale, TooLarge
from service.store import orders
from service.stored import orders as stored_orders
from service.stored.orders import Moved, NoOrder, Prepared
from service.verdict.model import CheckError

blueprint = Blueprint("stored_orders", __name__)

ONE_ORDER = "/v1/orders/<name:order>"
MISSING_ORDER = "there is no such order"
CHANGES = {
    403: "the token only reads",
    404: MISSING_ORDER,
    412: "the order has another revision by now; nothing was stored",
    422: "a field is not understood; nothing was stored",
    428: "If-Match is missing",
}
_JSON = ("application/json",)
_PAGE = 100


# --- reading ---------------------------------------------------------------------------------------------------------


def missing_order(order: str) -> NotFound:
    """Return what says that there is no such order."""
    return NotFound("there is no such order", field="order", value=order, accepted="an id of GET /v1/orders")


@resource(
    blueprint,
    Resource(
        "/v1/orders",
        "Your stored orders",
        ORDERS_QUERY,
        ORDERS,
        LIST_LAYOUT,
        description="The newest first, page by page. Orders of others are never listed.",
    ),
)
def list_orders(query: Wire) -> Answer:
    """List orders."""
    limit = query.get("limit", _PAGE)
    with store().read() as session:
        found = orders.listing(session, caller().owner, limit + 1, query.get("after"))
    following = found[limit - 1].id if len(found) > limit else None
    return Answer(with_reference({"orders": [head_reply(order) for order in found[:limit]], "next": following}))


@resource(
    blueprint,
    Resource(
        ONE_ORDER,
        "One stored order",
        ORDER_QUERY,
        ORDER,
        ORDER_LAYOUT,
        description="Its plan, its log and the verdicts recorded last; with revision= as it was. The ETag names the "
        "revision and is the same in every form. CSV, XML and HTML give a row for each need, line and step.",
        statuses={404: "there is no such order or revision"},
    ),
)
def get_order(query: Wire, order: str) -> Answer:
    """Show an order."""
    with store().read() as session:
        stored = orders.find(session, caller().owner, order, query.get("revision"))
        made = orders.made(session, order) if stored else {}
        standing = orders.verdicts(session, order) if stored and stored.revision == stored.latest else {}
    if stored is None:
        raise missing_order(order)
    headers = (etag(stored.revision), *_headers(standing))
    return Answer(with_reference(order_reply(stored, standing, made)), 200, headers)


def _headers(standing: orders.Verdicts) -> Headers:
    """Return what an order check says in its headers, from recorded verdicts."""
    word = standing.get(("order", ""))
    if word is None:
        return ()
    lines = [{"verdict": verdict} for (subject, _), verdict in standing.items() if subject == "line"]
    return checked_orders.headers_of({"ready": word == checked_orders.READY, "lines": lines})


# --- changing --------------------------------------------------------------------------------------------------------


def _carry_out(body: Any, prepare: Callable[[frozenset[int] | None], Prepared], *, new: bool = False) -> Answer:
    """Prepare a change of the revision that If-Match names, carry it out once, and say what it changed."""
    writer()
    expected = None if new else wanted_revisions()
    return change_order(body, lambda: prepare(expected), new=new)


def change_order(body: Any, prepare: Callable[[], Prepared], *, new: bool = False, key: str | None = None) -> Answer:
    """Prepare a change, carry it out once, and say what it changed.

    Raises:
        RequestError: nothing was stored, and why.
    """
    bearer = writer()

    def prepared() -> Work:
        change = _understood(prepare)

        def work(session: Session) -> Answer:
            if new:
                _refuse_too_many(session, bearer.owner)
            revision, check = stored_orders.carry_out(session, change, bearer.token_id)
            plan = change.plan
            name = plan.get("name", "") if plan is not None else orders.name_of(session, change.order_id)
            reply = with_reference(changed_reply(change, name, revision, check))
            headers = (etag(revision), *_headers(change.proof.verdicts))
            if new:
                headers = (*headers, ("Location", f"/v1/orders/{change.order_id}"))
            return Answer(reply, 201 if new else 200, headers)

        return work

    return carried_out(body, prepared, key)


def _understood(prepare: Callable[[], Prepared]) -> Prepared:
    """Prepare a change, and return as errors of the request what cannot be prepared."""
    try:
        change = prepare()
    except CheckError as error:
        raise refused(error) from None
    except NoOrder as error:
        raise missing_order(str(error)) from None
    except orders.Stale as error:
        raise stale(error) from None
    settings: Settings = current_app.extensions["kitproof.settings"]
    if change.plan is not None and (size := stored_orders.size(change.plan)) > settings.body_limit:
        raise TooLarge(
            f"a plan has at most {settings.body_limit} bytes, this one {size}",
            field="body",
            value=size,
            accepted=f"up to {settings.body_limit} bytes",
            example="an order for each assembly",
        )
    return change


def stale(error: orders.Stale) -> RequestError:
    """Return what says that an order has another revision by now."""
    latest = str(error)
    return Stale(
        f"the order has revision {latest} by now; nothing was stored",
        field="If-Match",
        value=request.headers.get("If-Match"),
        accepted="the ETag of the latest revision, after looking at what the other change did",
        example=f'"{latest}"',
        headers=(etag(int(latest)),),
    )


def _refuse_too_many(session: Session, owner: str) -> None:
    settings: Settings = current_app.extensions["kitproof.settings"]
    if orders.count(session, owner) >= settings.orders_limit:
        raise TooLarge(
            f"one owner has at most {settings.orders_limit} stored orders",
            field="body",
            accepted="deleting orders that are done, or a larger KITPROOF_ORDERS_LIMIT",
        )


@resource(
    blueprint,
    Resource(
        "/v1/orders",
        "Store an order",
        CHANGE_QUERY,
        CHANGED,
        CHANGED_LAYOUT,
        method="POST",
        body=NEW_PLAN,
        body_types=_JSON,
        description="The order is proved as POST /v1/orders/check does; what is not understood is not stored. Entries "
        "without an id get one. Location and ETag name what was made.",
        statuses={403: CHANGES[403], 422: CHANGES[422]},
        success=201,
        headers=(IDEMPOTENCY_KEY,),
    ),
)
def make_order(query: Wire, body: Wire) -> Answer:
    """Store a new order."""
    owner = writer().owner
    return _carry_out(body, lambda _: stored_orders.prepare_new(store(), owner, body), new=True)


@resource(
    blueprint,
    Resource(
        ONE_ORDER,
        "Replace the plan of an order",
        CHANGE_QUERY,
        CHANGED,
        CHANGED_LAYOUT,
        method="PUT",
        body=NEW_PLAN,
        body_types=_JSON,
        description="A new revision with a new plan; earlier revisions stay, and so does the log.",
        statuses=CHANGES,
        headers=(IF_MATCH, IDEMPOTENCY_KEY),
    ),
)
def replace_order(query: Wire, body: Wire, order: str) -> Answer:
    """Store a new plan of an order."""
    owner = writer().owner
    return _carry_out(
        body, lambda expected: stored_orders.prepare_plan(store(), owner, order, expected, body, "replaced")
    )


@resource(
    blueprint,
    Resource(
        ONE_ORDER,
        "Change parts of the plan of an order",
        CHANGE_QUERY,
        CHANGED,
        CHANGED_LAYOUT,
        method="PATCH",
        body=PATCH,
        body_types=("application/merge-patch+json",),
        description="A new revision with a merge patch (RFC 7396) of the plan: fields that it names are replaced, "
        "lists as a whole, null removes a field.",
        statuses=CHANGES,
        headers=(IF_MATCH, IDEMPOTENCY_KEY),
    ),
)
def patch_order(query: Wire, body: Wire, order: str) -> Answer:
    """Store a changed plan of an order."""
    owner = writer().owner
    return _carry_out(
        body, lambda expected: stored_orders.prepare_plan(store(), owner, order, expected, body, "patched")
    )


@resource(
    blueprint,
    Resource(
        ONE_ORDER,
        "Delete an order",
        CHANGE_QUERY,
        CHANGED,
        CHANGED_LAYOUT,
        method="DELETE",
        description="With all its revisions, its log and its history. This cannot be undone.",
        statuses={status: meaning for status, meaning in CHANGES.items() if status != 422},
        headers=(IF_MATCH, IDEMPOTENCY_KEY),
    ),
)
def delete_order(query: Wire, order: str) -> Answer:
    """Delete an order."""
    owner = writer().owner
    expected = wanted_revisions()

    def prepare() -> Work:
        try:
            found = stored_orders.find(store(), owner, order)
        except NoOrder:
            raise missing_order(order) from None
        if expected is not None and found.revision not in expected:
            raise stale(orders.Stale(found.revision))

        def work(session: Session) -> Answer:
            try:
                orders.remove(session, owner, order, found.revision)
            except orders.Stale:
                raise Moved from None
            reply = {
                "id": order,
                "name": found.plan.get("name", ""),
                "state": "deleted",
                "revision": found.revision,
                "ready": None,
                "check": 0,
                "changes": [],
                "passed_over": [],
            }
            return Answer(with_reference(reply))

        return work

    return carried_out(None, prepare)


# --- the log ---------------------------------------------------------------------------------------------------------


def _log(order: str, kind: str | None = None) -> Answer:
    with store().read() as session:
        stored = orders.find(session, caller().owner, order)
        made = orders.made(session, order) if stored is not None else {}
    if stored is None:
        raise missing_order(order)
    entries = [entry for entry in log_reply(stored, made) if kind in (None, entry["kind"])]
    reply = {"id": order, "revision": stored.revision, "entries": entries}
    return Answer(with_reference(reply), 200, (etag(stored.revision),))


def tell(order: str, body: Wire, kind: str) -> Answer:
    """Add entries of a kind to the log of an order."""
    owner, given = writer().owner, body[f"{kind}s"]
    return _carry_out(
        body, lambda expected: stored_orders.prepare_entries(store(), owner, order, expected, kind, given)
    )


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/log",
        "Everything that happened to an order",
        CHANGE_QUERY,
        LOG,
        LOG_LAYOUT,
        description="Events, receipts and measurements in the order in which they were told, in words too: who told "
        "each and when, and what was withdrawn since.",
        statuses={404: CHANGES[404]},
    ),
)
def get_log(query: Wire, order: str) -> Answer:
    """Show the whole log of an order."""
    return _log(order)


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/events",
        "What happened to an order",
        CHANGE_QUERY,
        LOG,
        LOG_LAYOUT,
        statuses={404: CHANGES[404]},
    ),
)
def get_events(query: Wire, order: str) -> Answer:
    """Show the events of an order."""
    return _log(order, "event")


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/events",
        "Tell what happened to an order",
        CHANGE_QUERY,
        CHANGED,
        CHANGED_LAYOUT,
        method="POST",
        body=NEW_EVENTS,
        body_types=_JSON,
        description="A line was ordered, received (a quantity or all of it), quoted, delayed, is out of stock or in "
        "stock again, its quote lapsed; something broke, was lost or used; a step is done. Events are never changed: "
        "one that was wrong is withdrawn by another one, which names its number. Needs, dates and gates move at once.",
        statuses=CHANGES,
        headers=(IF_MATCH, IDEMPOTENCY_KEY),
    ),
)
def tell_events(query: Wire, body: Wire, order: str) -> Answer:
    """Add events to the log of an order."""
    return tell(order, body, "event")


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/receipts",
        "What was measured of an order",
        CHANGE_QUERY,
        LOG,
        LOG_LAYOUT,
        statuses={404: CHANGES[404]},
    ),
)
def get_receipts(query: Wire, order: str) -> Answer:
    """Show the receipts of an order."""
    return _log(order, "receipt")


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/receipts",
        "Tell what was measured of an order",
        CHANGE_QUERY,
        CHANGED,
        CHANGED_LAYOUT,
        method="POST",
        body=NEW_RECEIPTS,
        body_types=_JSON,
        description="Measured values of a line or a piece of stock, judged as POST /v1/receipts/check does; of several "
        "for one line the last one counts.",
        statuses=CHANGES,
        headers=(IF_MATCH, IDEMPOTENCY_KEY),
    ),
)
def tell_receipts(query: Wire, body: Wire, order: str) -> Answer:
    """Add receipts to the log of an order."""
    return tell(order, body, "receipt")


# --- proving again ---------------------------------------------------------------------------------------------------


def _proved(change: Prepared, name: str, check: int, units: str) -> Answer:
    reply = with_reference(checked_orders.reply_of(change.proof.result, units), units)
    reply |= {
        "id": change.order_id,
        "name": name,
        "revision": change.expected,
        "check": check,
        "changes": [change_reply(one) for one in change.proof.changes],
        "passed_over": list(change.proof.passed_over),
    }
    return Answer(reply, 200, (etag(change.expected), *checked_orders.headers_of(reply)))


def proved_now(order: str) -> tuple[Prepared, str]:
    """Prove an order of the caller; return that with the order's name."""
    owner = caller().owner
    change = _understood(lambda: stored_orders.prepare_check(store(), owner, order))
    return change, stored_orders.find(store(), owner, order, change.expected).plan.get("name", "")


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/check",
        "Whether a stored order covers what its design needs now",
        CHECK_QUERY,
        PROVED,
        PROVED_LAYOUT,
        description="The answer of POST /v1/orders/check, and what changed since the verdicts recorded last: by other "
        "reference data, other software, habits of suppliers, or the date. Nothing is recorded; POST does that.",
        statuses={404: CHANGES[404], 409: "gate=1 and the order is not ready; the body is the same"},
    ),
)
def show_check(query: Wire, order: str) -> Answer:
    """Prove an order again."""
    change, name = proved_now(order)
    answer = _proved(change, name, change.proof.after_check, query.get("units", "mm"))
    return replace(answer, status=_gated(query, change.proof.result.ready))


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/check",
        "Prove a stored order again and record the verdicts",
        CHECK_QUERY,
        PROVED,
        PROVED_LAYOUT,
        method="POST",
        description="As GET does it, and the verdicts go into the history with all that they rest on.",
        statuses={
            403: CHANGES[403],
            404: CHANGES[404],
            409: "gate=1 and the order is not ready; the body is the same, and recorded",
        },
        headers=(IDEMPOTENCY_KEY,),
    ),
)
def record_check(query: Wire, order: str) -> Answer:
    """Prove an order again and record the verdicts."""
    bearer = writer()

    def prepare() -> Work:
        change, name = proved_now(order)

        def work(session: Session) -> Answer:
            _, check = stored_orders.carry_out(session, change, bearer.token_id)
            answer = _proved(change, name, check, query.get("units", "mm"))
            return replace(answer, status=_gated(query, change.proof.result.ready))

        return work

    return carried_out(None, prepare)


def _gated(query: Wire, good: bool) -> int:
    return 409 if query.get("gate") and not good else 200


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/gate",
        "Whether a step of a stored order may start",
        GATE_QUERY,
        GATE,
        GATE_LAYOUT,
        description="Open only when every need behind the step is covered, received and, where it was or has to be "
        "measured, proved. The word also stands in X-Gate. A closed gate is an answer with status 200, unless gate=1 "
        "asks for 409, which stops a script.",
        statuses={404: CHANGES[404], 409: "gate=1 and the gate is closed; the body is the same"},
    ),
)
def get_gate(query: Wire, order: str) -> Answer:
    """Show the gate of a step."""
    change, _ = proved_now(order)
    gates = {gate.step.id: gate for gate in change.proof.result.gates}
    found = gates.get(query["step"])
    if found is None:
        raise BadValue(
            "the order has no such step",
            field="step",
            value=query["step"],
            accepted=", ".join(gates) or "a step of the order, which has none",
            example=next(iter(gates), ""),
        )
    reply = {**checked_orders.gate_reply(found), "id": order, "revision": change.expected}
    headers = (etag(change.expected), ("X-Gate", open_word(reply)))
    return Answer(with_reference(reply), _gated(query, found.open), headers)


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/schedule",
        "When a stored order is complete",
        CHANGE_QUERY,
        SCHEDULE,
        SCHEDULE_LAYOUT,
        description="The days by which the kit is complete and each step can start, with 50 and 90 %, what decides "
        "them, and until when the rest has to be ordered. The plain word is the day of the kit with 90 %.",
        statuses={404: CHANGES[404]},
    ),
)
def get_schedule(query: Wire, order: str) -> Answer:
    """Show the schedule of an order."""
    change, _ = proved_now(order)
    result = change.proof.result
    reply = {
        **checked_orders.schedule_reply(result.schedule),
        "id": order,
        "revision": change.expected,
        "today": result.order.today.isoformat(),
    }
    return Answer(with_reference(reply), 200, (etag(change.expected),))


# --- history ---------------------------------------------------------------------------------------------------------


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/history",
        "Every verdict on an order over time",
        PAGE_QUERY,
        HISTORY,
        HISTORY_LAYOUT,
        description="Each proof with all that it rests on: the revision, the fingerprint of the reference data, the "
        "version of the software, the suppliers' habits; and the verdicts that it changed, with the reason.",
        statuses={404: CHANGES[404]},
    ),
)
def get_history(query: Wire, order: str) -> Answer:
    """Show the proofs of an order."""
    limit = query.get("limit", _PAGE)
    with store().read() as session:
        revision = orders.revision_of(session, caller().owner, order)
        found = orders.checks(session, order, limit, query.get("before")) if revision else []
    if revision is None:
        raise missing_order(order)
    proofs = [
        {
            "number": check.number,
            "revision": check.revision,
            "made_at": check.made_at.isoformat(),
            "reference": check.reference,
            "version": check.version,
            "habits": check.habits,
            "changes": [change_reply(change) for change in changes],
        }
        for check, changes in found
    ]
    following = found[-1][0].number if found and found[-1][0].number > 1 else None
    return Answer(with_reference({"id": order, "proofs": proofs, "next": following}))


@resource(
    blueprint,
    Resource(
        f"{ONE_ORDER}/revisions",
        "Every revision of an order",
        PAGE_QUERY,
        REVISIONS,
        REVISIONS_LAYOUT,
        description="Who changed what and when; GET /v1/orders/{order}?revision= shows the order as it was.",
        statuses={404: CHANGES[404]},
    ),
)
def get_revisions(query: Wire, order: str) -> Answer:
    """Show the revisions of an order."""
    with store().read() as session:
        revision = orders.revision_of(session, caller().owner, order)
        found = orders.revisions(session, order, query.get("limit", _PAGE), query.get("before")) if revision else []
    if revision is None:
        raise missing_order(order)
    shown = [
        {"number": one.number, "change": one.change, "made_at": one.made_at.isoformat(), "made_by": one.made_by}
        for one in found
    ]
    following = found[-1].number if found and found[-1].number > 1 else None
    return Answer(with_reference({"id": order, "revisions": shown, "next": following}))
