"""What can be done with a stored order: make it, change it, tell what happened, prove it again.

Every change is prepared first (read, checked and proved, without a lock) and then carried out in one short transaction,
which finds out whether anything moved in between. Each proof that says something new is recorded with all that it rests
on: the revision, the fingerprint of the reference data, the version of the software, the suppliers' habits.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from typing import Any, NamedTuple

import orjson
from sqlalchemy.orm import Session

from reference import tables
from service.orders.bench import Bag, bags
from service.orders.check import check
from service.orders.fields import LONGEST_NAME, text
from service.orders.intake import parse_order
from service.orders.model import OrderCheck
from service.reading.habits import Habit
from service.store import habits as stored_habits
from service.store import orders
from service.store.orders import Basis, Changed, Made, Plan, Stored, Verdicts
from service.store.store import Store
from service.stored import log, measurements
from service.stored.compare import Cause, compare, verdicts
from service.verdict.model import CheckError
from service.version import service_version

Entry = tuple[str, dict[str, Any]]
"""Kind and body of a new entry of the log."""

HabitFields = Mapping[str, Any]

Revisions = frozenset[int] | None
"""The revisions that a change is meant for; None for whichever is the latest."""

_LISTS = {"needs": "N", "lines": "L", "stock": "S", "steps": "step "}
"""List of a plan -> what its entries without an id are called, before their place."""


class NoOrder(LookupError):  # noqa: N818 - it is what was not found
    """The owner has no such order, or no such revision of it."""


class Moved(Exception):  # noqa: N818 - it is what became of the order
    """Something moved between preparing a change and carrying it out; it has to be prepared again."""


@dataclass(frozen=True, slots=True)
class Proof:
    """What an order is found to be, on what basis, and what that changes."""

    result: OrderCheck
    verdicts: Verdicts
    basis: Basis
    changes: tuple[Changed, ...]
    passed_over: tuple[str, ...]
    after_check: int
    new: bool


@dataclass(frozen=True, slots=True)
class Prepared:
    """A change that is ready to be carried out; ``expected`` is 0 for a new order."""

    owner: str
    order_id: str
    expected: int
    what: str
    plan: Plan | None
    entries: tuple[Entry, ...]
    proof: Proof


def today() -> date:
    """Return the present day in UTC."""
    return datetime.now(UTC).date()


# --- plans -----------------------------------------------------------------------------------------------------------


def with_ids(plan: Plan) -> Plan:
    """Return a plan in which every need, line, piece of stock and step has the id by which it is called.

    Raises:
        CheckError: a list is none of objects: sheets are read by the check alone, whose reply names their columns.
    """
    filled = dict(plan)
    for name, letter in _LISTS.items():
        given = plan.get(name)
        if given is None:
            continue
        if not isinstance(given, list) or not all(isinstance(one, dict) for one in given):
            raise CheckError(name, given, "a list of objects", '[{"id": "N1", "quantity": 6, "bore": "5 H7"}]')
        filled[name] = [_with_id(one, f"{name}[{place}].id", f"{letter}{place + 1}") for place, one in enumerate(given)]
    return filled


def _with_id(entry: Mapping[str, Any], field: str, otherwise: str) -> dict[str, Any]:
    own = text(entry.get("id"), field, LONGEST_NAME, otherwise)
    return {"id": own or otherwise, **{name: value for name, value in entry.items() if name != "id"}}


def size(plan: Plan) -> int:
    """Return the size of a plan as it is stored [bytes]."""
    return len(orjson.dumps(plan))


def merged(target: Any, patch: Any) -> Any:
    """Return a JSON value changed by a merge patch. Source: RFC 7396 section 2.

    >>> merged({"name": "sampler", "copies": 2}, {"copies": None, "wanted_on": "2027-03-01"})
    {'name': 'sampler', 'wanted_on': '2027-03-01'}
    """
    if not isinstance(patch, dict):
        return patch
    found = dict(target) if isinstance(target, dict) else {}
    for name, value in patch.items():
        if value is None:
            found.pop(name, None)
        else:
            found[name] = merged(found.get(name), value)
    return found


# --- proofs ----------------------------------------------------------------------------------------------------------


def _judged(plan: Plan, told: Sequence[log.Told], known: Sequence[HabitFields], day: date) -> tuple[OrderCheck, Any]:
    """Return the check of a plan with its log, and the entries that were passed over.

    Raises:
        CheckError: a field is not understood, or contradicts another one.
    """
    planned = parse_order({name: value for name, value in plan.items() if name != "name"}, day)
    amounts = {supply.id: supply.amount for supply in planned.supplies}
    document = log.document(plan, told, amounts, measurements.outdated(told, planned))
    order = parse_order(document.fields, day) if told else planned
    by_supplier: dict[str, list[Habit]] = {}
    for one in known:
        by_supplier.setdefault(one["supplier"], []).append(habit(one))
    supplies = tuple(
        replace(supply, habits=tuple(by_supplier[supply.supplier])) if supply.supplier in by_supplier else supply
        for supply in order.supplies
    )
    return check(replace(order, supplies=supplies)), document.passed_over


def habit(fields: HabitFields) -> Habit:
    """Return a habit as reading takes it."""
    return Habit(
        fields["supplier"], fields["sign"], fields["part"], fields["means"], date.fromisoformat(fields["noted_on"])
    )


def _habits(session: Session, owner: str, plan: Plan) -> list[dict[str, Any]]:
    """Return what the suppliers of a plan are known to mean."""
    names = {str(line["supplier"]) for line in plan.get("lines") or () if line.get("supplier")}
    if not names:
        return []
    return [{"supplier": one.supplier, **one.body} for one in stored_habits.of(session, owner, names)]


def _told(stored: Stored) -> list[log.Told]:
    return [(entry.number, entry.kind, entry.body) for entry in stored.log]


def _prove(
    session: Session, owner: str, stored: Stored | None, plan: Plan, told: Sequence[log.Told], what: str
) -> Proof:
    """Prove a plan with its log and compare that with what was recorded last; ``what`` is the change itself."""
    day = today()
    known = _habits(session, owner, plan)
    result, passed_over = _judged(plan, told, known, day)
    found = verdicts(result)
    basis = Basis(tables.fingerprint(), service_version(), known)
    last = None if stored is None else orders.last_check(session, stored.id)
    if stored is None or last is None:
        return Proof(result, found, basis, tuple(compare({}, [("first", found)])), passed_over, 0, True)
    before = orders.verdicts(session, stored.id)
    then = Basis(last.reference, last.version, last.habits)
    old = stored if last.revision == stored.revision else orders.find(session, owner, stored.id, last.revision)
    causes: list[Cause] = []
    moved = [
        name
        for name, differs in (("data", then.reference != basis.reference), ("software", then.version != basis.version))
        if differs
    ]
    if not moved and last.made_at.date() != day:
        moved = ["date"]
    if moved and old is not None:
        causes.append((", ".join(moved), _verdicts_of(old, then.habits, day)))
    if then.habits != basis.habits and old is not None:
        causes.append(("habits", _verdicts_of(old, basis.habits, day)))
    if what or last.revision != stored.revision:
        causes.append((what or "plan or log", found))
    # The way ends where the order stands now.
    causes = [*causes[:-1], (causes[-1][0], found)] if causes else [("", found)]
    changes = tuple(compare(before, causes))
    new = bool(changes) or bool(what) or last.revision != stored.revision or then != basis
    return Proof(result, found, basis, changes, passed_over, last.number, new)


def _verdicts_of(stored: Stored, known: Sequence[HabitFields], day: date) -> Verdicts:
    """Return the verdicts of an order as it was; a field that is not understood any more makes it unread."""
    try:
        return verdicts(_judged(stored.plan, _told(stored), known, day)[0])
    except CheckError:
        return {("order", ""): "unread"}


# --- preparing -------------------------------------------------------------------------------------------------------


def find(store: Store, owner: str, order_id: str, revision: int | None = None) -> Stored:
    """Return an order, as it is or as it was.

    Raises:
        NoOrder: there is none.
    """
    with store.read() as session:
        return _find(session, owner, order_id, revision)


def _find(session: Session, owner: str, order_id: str, revision: int | None = None) -> Stored:
    stored = orders.find(session, owner, order_id, revision)
    if stored is None:
        raise NoOrder(order_id)
    return stored


def prepare_new(store: Store, owner: str, plan: Plan) -> Prepared:
    """Check and prove a new order.

    Raises:
        CheckError: a field is not understood.
    """
    plan = with_ids(plan)
    with store.read() as session:
        proof = _prove(session, owner, None, plan, (), "made")
    return Prepared(owner, orders.new_id(), 0, "made", plan, (), proof)


def prepare_plan(store: Store, owner: str, order_id: str, expected: Revisions, plan: Plan, what: str) -> Prepared:
    """Check and prove a new plan of an order; with ``what`` "patched" the plan is a merge patch of the present one.

    Raises:
        NoOrder, Stale, CheckError: there is no such order, it has another revision, a field is not understood.
    """
    with store.read() as session:
        stored = _expected(session, owner, order_id, expected)
        plan = with_ids(merged(stored.plan, plan) if what == "patched" else plan)
        proof = _prove(session, owner, stored, plan, _told(stored), "plan")
    return Prepared(owner, order_id, stored.revision, what, plan, (), proof)


def prepare_entries(
    store: Store, owner: str, order_id: str, expected: Revisions, kind: str, given: Sequence[Mapping[str, Any]]
) -> Prepared:
    """Check and prove new entries of an order's log: events, receipts or measurements.

    Raises:
        NoOrder, Stale, CheckError: there is no such order, it has another revision, a field is not understood.
    """
    told = [(kind, f"{kind}s[{place}]", one) for place, one in enumerate(given)]
    return prepare_log(store, owner, order_id, expected, told)


def prepare_log(
    store: Store,
    owner: str,
    order_id: str,
    expected: Revisions,
    given: Sequence[tuple[str, str, Mapping[str, Any]]],
) -> Prepared:
    """Check and prove new entries of an order's log; each has its kind and what errors call it.

    Raises:
        NoOrder, Stale, CheckError: there is no such order, it has another revision, a field is not understood.
    """
    with store.read() as session:
        stored = _expected(session, owner, order_id, expected)
        told, entries = _told(stored), []
        on_bench: Mapping[str, Bag] = {}
        if any(kind == "measurement" for kind, _, _ in given):
            known = _habits(session, owner, stored.plan)
            found = bags(_judged(stored.plan, told, known, today())[0])
            on_bench = {bag.result.supply.id: bag for bag in found}
        for kind, where, one in given:
            if kind == "measurement":
                entry = measurements.measurement(one, where, today(), on_bench)
            else:
                entry = (log.event if kind == "event" else log.receipt)(one, where, today())
            log.require_known(stored.plan, told, entry, where)
            told.append((len(told) + 1, kind, entry))
            entries.append((kind, entry))
        proof = _prove(session, owner, stored, stored.plan, told, "log")
    return Prepared(owner, order_id, stored.revision, "logged", None, tuple(entries), proof)


def measured(store: Store, owner: str, order_id: str) -> tuple[Stored, list[measurements.Entry], Made]:
    """Return an order with every measurement of its log, and when and by whom each revision was made.

    Raises:
        NoOrder: there is none.
    """
    with store.read() as session:
        stored = _find(session, owner, order_id)
        made = orders.made(session, order_id)
    planned = parse_order({name: value for name, value in stored.plan.items() if name != "name"}, today())
    return stored, measurements.entries(_told(stored), planned), made


def prepare_check(store: Store, owner: str, order_id: str) -> Prepared:
    """Prove an order again as it is.

    Raises:
        NoOrder: there is none.
    """
    with store.read() as session:
        stored = _find(session, owner, order_id)
        proof = _prove(session, owner, stored, stored.plan, _told(stored), "")
    return Prepared(owner, order_id, stored.revision, "", None, (), proof)


def _expected(session: Session, owner: str, order_id: str, expected: Revisions) -> Stored:
    stored = _find(session, owner, order_id)
    if expected is not None and stored.revision not in expected:
        raise orders.Stale(stored.revision)
    return stored


# --- carrying out ----------------------------------------------------------------------------------------------------


def carry_out(session: Session, change: Prepared, made_by: str) -> tuple[int, int]:
    """Store a prepared change with its proof; return the number of the revision and of the check.

    Raises:
        Moved: the order was changed or proved by someone else in between; nothing may be kept then.
    """
    proof, order_id = change.proof, change.order_id
    try:
        if change.expected == 0:
            orders.create(session, change.owner, order_id, change.plan or {}, made_by)
            revision = 1
        elif change.what:
            revision = orders.change(
                session,
                change.owner,
                order_id,
                change.expected,
                change.what,
                made_by,
                plan=change.plan,
                entries=change.entries,
            )
        else:
            revision = change.expected
            if orders.revision_of(session, change.owner, order_id, lock=True) != revision:
                raise Moved
    except orders.Stale:
        raise Moved from None
    last = orders.last_check(session, order_id)
    if (last.number if last else 0) != proof.after_check:
        raise Moved
    if not proof.new:
        return revision, proof.after_check
    return revision, orders.record(session, order_id, revision, proof.basis, proof.changes)


class Rechecked(NamedTuple):
    """What became of one order when it was proved again; ``error`` where it is not understood any more."""

    owner: str
    order_id: str
    name: str
    changes: tuple[Changed, ...]
    error: str = ""


def recheck_all(store: Store) -> Iterator[Rechecked]:
    """Prove every order of everyone again, record that, and tell what changed; one after the other."""
    with store.read() as session:
        every = orders.everyones(session)
    for owner, order_id in every:
        try:
            stored = find(store, owner, order_id)
            yield _rechecked(store, owner, stored)
        except NoOrder:  # deleted since
            continue


def _rechecked(store: Store, owner: str, stored: Stored) -> Rechecked:
    name = stored.plan.get("name", "")
    while True:
        try:
            change = prepare_check(store, owner, stored.id)
            with store.write() as session:
                carry_out(session, change, "")
        except Moved:
            continue
        except CheckError as error:
            return Rechecked(owner, stored.id, name, (), f"{error.field} is not understood; accepted: {error.accepted}")
        return Rechecked(owner, stored.id, name, change.proof.changes)
