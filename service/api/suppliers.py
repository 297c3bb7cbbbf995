"""``/v1/suppliers``: what a supplier means by a sign, stored by its buyer and cited in readings of its lines."""

from difflib import get_close_matches
from functools import cache
from typing import Any
from urllib.parse import quote

from flask import Blueprint
from sqlalchemy.orm import Session

from reference.families import by_name
from schemas.suppliers import (
    HABIT,
    HABITS,
    HABITS_QUERY,
    NEW_HABIT,
    SUPPLIERS,
    SUPPLIERS_QUERY,
)
from service.api.callers import caller, writer
from service.api.once import IDEMPOTENCY_KEY, Work, carried_out, store
from service.api.render import Layout, Row, Wire
from service.api.resource import Answer, Resource, resource, with_reference
from service.errors import BadValue, NotFound
from service.store import habits
from service.store.model import NAME, Habit
from service.store.orders import new_id
from service.stored.orders import today

blueprint = Blueprint("suppliers", __name__)

COLUMNS = ("supplier", "id", "sign", "part", "means", "noted_on", "note", "reference")

_PATH = "/v1/suppliers/<text:supplier>/habits"


def _habit(habit: Habit) -> Wire:
    return {"id": habit.id, "supplier": habit.supplier, **habit.body}


def _row(habit: Wire, reference: str) -> Row:
    return [*(habit[column] for column in COLUMNS[:-1]), reference]


LIST_LAYOUT = Layout(
    "suppliers",
    ("supplier", "habits", "reference"),
    lambda reply: [(one["supplier"], one["habits"], reply["reference"]) for one in reply["suppliers"]],
    lambda reply: "\n".join(one["supplier"] for one in reply["suppliers"]),
    single=False,
)
HABITS_LAYOUT = Layout(
    "habits",
    COLUMNS,
    lambda reply: [_row(one, reply["reference"]) for one in reply["habits"]],
    lambda reply: "\n".join(f"{one['sign']} on {one['part']}: {one['means']}" for one in reply["habits"]),
    single=False,
)
HABIT_LAYOUT = Layout("habit", COLUMNS, lambda reply: [_row(reply, reply["reference"])], lambda reply: str(reply["id"]))


@resource(
    blueprint,
    Resource("/v1/suppliers", "The suppliers of which habits are known", SUPPLIERS_QUERY, SUPPLIERS, LIST_LAYOUT),
)
def suppliers(query: Wire) -> Answer:
    """List the suppliers of which something is known."""
    with store().read() as session:
        found = habits.suppliers(session, caller().owner)
    return Answer(with_reference({"suppliers": [{"supplier": name, "habits": number} for name, number in found]}))


@resource(
    blueprint,
    Resource(_PATH, "What a supplier means by a sign", HABITS_QUERY, HABITS, HABITS_LAYOUT),
)
def habits_of(query: Wire, supplier: str) -> Answer:
    """List the habits of a supplier."""
    with store().read() as session:
        found = habits.of(session, caller().owner, [_supplier(supplier)])
    return Answer(with_reference({"supplier": supplier, "habits": [_habit(one) for one in found]}))


@resource(
    blueprint,
    Resource(
        _PATH,
        "Note what a supplier means by a sign",
        HABITS_QUERY,
        HABIT,
        HABIT_LAYOUT,
        method="POST",
        body=NEW_HABIT,
        body_types=("application/json",),
        description="Lines of this supplier in stored orders are then read so, wherever a line could mean several "
        "things that differ in this; the habit is cited as evidence.",
        statuses={403: "the token only reads"},
        success=201,
        headers=(IDEMPOTENCY_KEY,),
    ),
)
def note_habit(query: Wire, body: Wire, supplier: str) -> Answer:
    """Store a habit of a supplier."""
    owner, name = writer().owner, _supplier(supplier)
    given = {
        "sign": body["sign"].strip(),
        "part": _part(body["part"]),
        "means": body["means"],
        "noted_on": str(body.get("noted_on") or today()),
        "note": body.get("note", "").strip(),
    }

    def prepare() -> Work:
        habit_id = new_id()

        def work(session: Session) -> Answer:
            _refuse_contradiction(habits.of(session, owner, [name]), given)
            habit = habits.add(session, owner, name, habit_id, given)
            return Answer(with_reference(_habit(habit)), 201, (("Location", _location(name, habit_id)),))

        return work

    return carried_out(body, prepare)


@resource(
    blueprint,
    Resource(
        f"{_PATH}/<name:habit>",
        "Forget a habit of a supplier",
        HABITS_QUERY,
        HABITS,
        HABITS_LAYOUT,
        method="DELETE",
        description="The reply holds the habits that are left. Verdicts that were recorded keep citing it.",
        statuses={403: "the token only reads", 404: "there is no such habit"},
    ),
)
def forget_habit(query: Wire, supplier: str, habit: str) -> Answer:
    """Delete a habit of a supplier."""
    owner, name = writer().owner, _supplier(supplier)
    with store().write() as session:
        gone = habits.remove(session, owner, name, habit)
        left = habits.of(session, owner, [name])
    if not gone:
        raise NotFound("there is no such habit of this supplier", field="habit", value=habit, accepted="an id")
    return Answer(with_reference({"supplier": name, "habits": [_habit(one) for one in left]}))


def _location(supplier: str, habit_id: str) -> str:
    return f"/v1/suppliers/{quote(supplier, safe='')}/habits/{habit_id}"


def _supplier(given: str) -> str:
    name = " ".join(given.split())
    if not name or len(name) > NAME or not name.isprintable():
        raise BadValue(
            "no name of a supplier",
            field="supplier",
            value=given,
            accepted=f"1 to {NAME} printable characters",
            example="A",
        )
    return name


def _part(given: str) -> str:
    part = " ".join(given.lower().split())
    known = _parts()
    if part not in known:
        near = get_close_matches(part, known, 1)
        raise BadValue(
            "no family has this in its name" + (f"; {near[0]!r} is known" if near else ""),
            field="part",
            value=given,
            accepted="a family of /v1/families, or a noun in the name of families",
            example=near[0] if near else "pin",
        )
    return part


@cache
def _parts() -> frozenset[str]:
    """Return every run of words in the names of the families."""
    found = set()
    for name in by_name():
        words = name.split()
        found |= {" ".join(words[i:j]) for i in range(len(words)) for j in range(i + 1, len(words) + 1)}
    return frozenset(found)


def _refuse_contradiction(known: Any, given: Wire) -> None:
    """Refuse a habit that says something else of the same sign on the same part.

    Raises:
        BadValue: names the one that is known.
    """
    for one in known:
        if (one.body["sign"], one.body["part"]) == (given["sign"], given["part"]) and one.body["means"] != given[
            "means"
        ]:
            raise BadValue(
                f"{given['sign']} on {given['part']} is known to mean the {one.body['means']} here, by habit {one.id}",
                field="means",
                value=given["means"],
                accepted="the same, or forget the other habit first",
                example=one.body["means"],
            )
