"""Stored orders as they go over the wire, and as rows of cells."""

from collections.abc import Iterator, Mapping

from service.api import orders as checked_orders
from service.api.render import Dress, Layout, Row, Wire
from service.cells import cell_text
from service.pages.orders import order_page
from service.store.model import Order
from service.store.orders import Changed, Made, Stored, Subject
from service.stored import log
from service.stored.log import said
from service.stored.orders import Prepared


def to_order(path: str) -> str:
    """Return the address of an order's page from that of something of it.

    >>> to_order("/v1/orders/3f0c/log")
    '/v1/orders/3f0c/check.html'
    """
    return f"{path.rpartition('/')[0]}/check.html"


def head_reply(order: Order) -> Wire:
    """Return an order as it stands in a list."""
    return {
        "id": order.id,
        "name": order.name,
        "revision": order.revision,
        "made_at": order.made_at.isoformat(),
        "changed_at": order.changed_at.isoformat(),
    }


def log_reply(stored: Stored, made: Made) -> list[Wire]:
    """Return the log of an order, each entry with when and by whom it was told, and what has become of it."""
    gone = log.withdrawn([(entry.number, entry.kind, entry.body) for entry in stored.log])
    found = []
    for entry in stored.log:
        made_at, made_by = made[entry.revision]
        found.append(
            {
                "number": entry.number,
                "revision": entry.revision,
                "kind": entry.kind,
                "entry": entry.body,
                "text": said(entry.kind, entry.body),
                "withdrawn_by": gone.get(entry.number),
                "made_at": made_at.isoformat(),
                "made_by": made_by,
            }
        )
    return found


def change_reply(change: Changed) -> Wire:
    """Return a verdict that changed."""
    return change._asdict()


def order_reply(stored: Stored, standing: Mapping[Subject, str], made: Made) -> Wire:
    """Return an order with the verdicts recorded last."""
    return {
        "id": stored.id,
        "name": stored.plan.get("name", ""),
        "revision": stored.revision,
        "latest": stored.latest,
        "made_at": stored.made_at.isoformat(),
        "changed_at": stored.changed_at.isoformat(),
        "plan": stored.plan,
        "log": log_reply(stored, made),
        "verdicts": [
            {"subject": subject, "id": subject_id, "verdict": verdict}
            for (subject, subject_id), verdict in sorted(standing.items())
        ],
    }


def changed_reply(change: Prepared, name: str, revision: int, check: int) -> Wire:
    """Return what became of an order, and which verdicts that changed."""
    return {
        "id": change.order_id,
        "name": name,
        "state": "stored",
        "revision": revision,
        "ready": change.proof.result.ready,
        "check": check,
        "changes": [change_reply(one) for one in change.proof.changes],
        "passed_over": list(change.proof.passed_over),
    }


def _order_rows(reply: Wire) -> list[Row]:
    """Return a row for each need, line, piece of stock and step, with its verdict."""
    verdicts = {(one["subject"], one["id"]): one["verdict"] for one in reply["verdicts"]}
    tail = (reply["name"], reply["id"], reply["revision"], reply["reference"])
    rows: list[Row] = [("order", "", "", "", verdicts.get(("order", "")), *tail)]
    for name, kind, subject in (("needs", "need", "need"), ("lines", "line", "line"), ("stock", "stock", "line")):
        for one in reply["plan"].get(name) or ():
            text = one.get("line") or one.get("description") or one.get("part")
            quantity = one.get("quantity")
            rows.append((kind, str(one["id"]), text, quantity, verdicts.get((subject, str(one["id"]))), *tail))
    for one in reply["plan"].get("steps") or ():
        rows.append(("step", str(one["id"]), "", "", verdicts.get(("gate", str(one["id"]))), *tail))
    return rows


def _state(reply: Wire) -> str:
    return next((str(one["verdict"]) for one in reply["verdicts"] if one["subject"] == "order"), "not proved")


LIST_LAYOUT = Layout(
    "orders",
    ("id", "name", "revision", "made_at", "changed_at", "reference"),
    lambda reply: [(*one.values(), reply["reference"]) for one in reply["orders"]],
    lambda reply: "\n".join(one["id"] for one in reply["orders"]),
    single=False,
    dress=Dress(
        main=("name", "id", "revision", "changed_at"),
        links=dict.fromkeys(("id", "name"), lambda reply, row: f"/v1/orders/{row['id']}/check.html"),
    ),
    title="Your stored orders",
    text="The newest first. Open one to see what keeps it from being ready. To keep one, enter it under “An order” and "
    "choose “Keep the order” on the page that answers.",
)
ORDER_LAYOUT = Layout(
    "order",
    ("kind", "id", "text", "quantity", "verdict", "name", "order", "revision", "reference"),
    _order_rows,
    _state,
    single=False,
    dress=Dress(main=("kind", "id", "text", "quantity", "verdict"), signs=frozenset({"verdict"})),
    title="An order as it is kept",
    text="Its needs, lines, stock and steps, each with the verdict that was recorded last.",
    back=lambda path: f"{path}/check.html",
)
CHANGE_COLUMNS = ("order", "revision", "state", "ready", "subject", "id", "before", "verdict", "because", "reference")


def _change_rows(reply: Wire) -> list[Row]:
    lead = (reply["id"], reply["revision"], reply["state"], reply["ready"])
    changes = reply["changes"] or [dict.fromkeys(("subject", "id", "before", "verdict", "because"))]
    return [(*lead, *one.values(), reply["reference"]) for one in changes]


CHANGED_LAYOUT = Layout(
    "changes",
    CHANGE_COLUMNS,
    _change_rows,
    lambda reply: {True: "ready", False: "not ready", None: str(reply["state"])}[reply["ready"]],
    single=False,
)
LOG_COLUMNS = ("number", "revision", "kind", "entry", "text", "withdrawn_by", "made_at", "made_by")

LOG_LAYOUT = Layout(
    "log",
    (*LOG_COLUMNS, "order", "reference"),
    lambda reply: [(*(one[name] for name in LOG_COLUMNS), reply["id"], reply["reference"]) for one in reply["entries"]],
    lambda reply: str(len(reply["entries"])),
    single=False,
    dress=Dress(main=("number", "text", "withdrawn_by", "made_at", "made_by")),
    title="What happened to an order",
    text="In the order in which it was told. Nothing is ever changed or left out: what was wrong is withdrawn by a "
    "later entry. Who told it is named by the token, if one was needed.",
    back=to_order,
)
HISTORY_LAYOUT = Layout(
    "history",
    ("proof", "revision", "made_at", "data", "version", "subject", "id", "before", "verdict", "because", "order"),
    lambda reply: [
        (
            proof["number"],
            proof["revision"],
            proof["made_at"],
            proof["reference"],
            proof["version"],
            *(change or dict.fromkeys(("subject", "id", "before", "verdict", "because"))).values(),
            reply["id"],
        )
        for proof in reply["proofs"]
        for change in (proof["changes"] or [None])
    ],
    lambda reply: str(len(reply["proofs"])),
    single=False,
    dress=Dress(
        main=("proof", "made_at", "subject", "id", "before", "verdict", "because"), signs=frozenset({"verdict"})
    ),
    title="Every verdict on an order over time",
    text="The latest proof first, each with the verdicts that it changed and the reason. The other columns say what it "
    "rests on.",
    back=to_order,
)
REVISIONS_LAYOUT = Layout(
    "revisions",
    ("number", "change", "made_at", "made_by", "order", "reference"),
    lambda reply: [(*one.values(), reply["id"], reply["reference"]) for one in reply["revisions"]],
    lambda reply: str(len(reply["revisions"])),
    single=False,
    dress=Dress(main=("number", "change", "made_at", "made_by")),
    title="Every revision of an order",
    text="The latest first: what was done, when, and with which token.",
    back=to_order,
)


def _proved_rows(reply: Wire) -> Iterator[Row]:
    """Return the rows of the check, then one for each verdict that changed."""
    yield from checked_orders.rows_of(reply)
    for one in reply["changes"]:
        text = f"{one['before'] or 'nothing'} -> {one['verdict'] or 'nothing'} ({one['because']})"
        cells = {"kind": f"changed {one['subject']}", "id": one["id"], "state": one["verdict"], "text": text}
        cells |= {"units": reply["units"], "reference": reply["reference"]}
        yield [cells.get(column) for column in checked_orders.COLUMNS]


PROVED_LAYOUT = Layout(
    "order",
    checked_orders.COLUMNS,
    _proved_rows,
    checked_orders.word_of,
    single=False,
    page=order_page,
)


def open_word(reply: Wire) -> str:
    """Return the one word for a gate."""
    return "open" if reply["open"] else "closed"


GATE_LAYOUT = Layout(
    "gate",
    ("step", "state", "because", "needs", "irreversible", "order", "revision", "reference", "error"),
    lambda reply: [
        (
            reply["step"],
            open_word(reply),
            cell_text(reply["because"]),
            cell_text(reply["needs"]),
            reply["irreversible"],
            reply["id"],
            reply["revision"],
            reply["reference"],
            None,
        )
    ],
    open_word,
    dress=Dress(main=("step", "state", "because", "needs", "irreversible")),
    back=to_order,
)


SCHEDULE_LAYOUT = Layout(
    "schedule",
    ("kind", "id", "p50", "p90", "text", "order", "revision", "reference"),
    lambda reply: [(*row, reply["id"], reply["revision"], reply["reference"]) for row in _schedule_rows(reply)],
    lambda reply: str(reply["kit"]["p90"] or "no date"),
    single=False,
    dress=Dress(main=("kind", "id", "p50", "p90", "text")),
    back=to_order,
)


def _schedule_rows(reply: Wire) -> list[Row]:
    waits = "; ".join(reply["without_date"])
    rows: list[Row] = [("kit", "", reply["kit"]["p50"], reply["kit"]["p90"], f"waits for {waits}" if waits else "")]
    for step in reply["steps"]:
        rows.append(("step start", step["id"], step["p50"], step["p90"], cell_text(step["waits_for"])))
        rows.append(("step finish", step["id"], step["finish"]["p50"], step["finish"]["p90"], ""))
    rows += [("deciding", one["id"], one["p50"], one["p90"], one["text"]) for one in reply["deciding"]]
    rows += [("order by", one["id"], None, one["order_by"], one["text"]) for one in reply["order_by"]]
    return rows
