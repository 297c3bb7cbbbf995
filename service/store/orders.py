"""Orders in the store: made, found, changed, deleted by their owner; their verdicts over time.

Functions take a session of ``Store.read`` or ``Store.write``, and the owner: an order of someone else is not found.
"""

import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, NamedTuple, cast

from sqlalchemy import CursorResult, and_, delete, func, select, tuple_, update
from sqlalchemy.orm import Session

from service.store.model import ID, Check, Entry, Order, Revision, Verdict, now

Plan = dict[str, Any]
"""What an order says as a whole; its ``name`` is also kept beside it, for lists."""

Subject = tuple[str, str]
"""What a verdict is on: ``line``, ``need``, ``step`` or ``order``, and its id."""

Verdicts = Mapping[Subject, str]

Made = Mapping[int, tuple[datetime, str]]
"""When each revision was made, and with which token."""


class Stale(Exception):  # noqa: N818 - it is what became of the revision
    """The order has another revision by now than the one that was to be changed."""


class LogEntry(NamedTuple):
    """One entry of an order's log: an event or a receipt."""

    number: int
    revision: int
    kind: str
    body: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Stored:
    """An order at one of its revisions."""

    id: str
    revision: int
    latest: int
    plan: Plan
    log: tuple[LogEntry, ...]
    made_at: datetime
    changed_at: datetime


class Basis(NamedTuple):
    """What a check rests on besides the revision: data, software, and what suppliers are known to mean."""

    reference: str
    version: str
    habits: list[dict[str, Any]]


class Changed(NamedTuple):
    """A verdict that differs from the one before, and why; empty where there was or is none."""

    subject: str
    id: str
    before: str
    verdict: str
    because: str


def new_id() -> str:
    """Return an identifier that nobody guesses."""
    return secrets.token_hex(ID // 2)


# --- orders --------------------------------------------------------------------------------------------------------


def create(session: Session, owner: str, order_id: str, plan: Plan, made_by: str) -> None:
    """Store a new order as its revision 1."""
    moment = now()
    name = plan.get("name", "")
    session.add(Order(id=order_id, owner=owner, name=name, revision=1, made_at=moment, changed_at=moment))
    session.flush()
    session.add(Revision(order_id=order_id, number=1, change="made", plan=plan, made_at=moment, made_by=made_by))
    session.flush()


def find(session: Session, owner: str, order_id: str, revision: int | None = None) -> Stored | None:
    """Return an order as it is, or as it was at a revision; None where the owner has no such order or revision."""
    order = session.execute(select(Order).where(Order.id == order_id, Order.owner == owner)).scalar_one_or_none()
    if order is None or (revision is not None and not 1 <= revision <= order.revision):
        return None
    at = revision or order.revision
    plan = session.execute(
        select(Revision.plan)
        .where(Revision.order_id == order_id, Revision.number <= at, Revision.plan.is_not(None))
        .order_by(Revision.number.desc())
        .limit(1)
    ).scalar_one_or_none()
    if plan is None:  # deleted since
        return None
    columns = select(Entry.number, Entry.revision, Entry.kind, Entry.body)
    entries = session.execute(
        columns.where(Entry.order_id == order_id, Entry.revision <= at).order_by(Entry.number)
    ).all()
    changed_at = session.execute(
        select(Revision.made_at).where(Revision.order_id == order_id, Revision.number == at)
    ).scalar_one_or_none()
    log = tuple([LogEntry(*entry) for entry in entries])
    return Stored(order.id, at, order.revision, plan, log, order.made_at, changed_at or order.changed_at)


def made(session: Session, order_id: str) -> dict[int, tuple[datetime, str]]:
    """Return when each revision of an order was made, and with which token."""
    query = select(Revision.number, Revision.made_at, Revision.made_by).where(Revision.order_id == order_id)
    return {number: (made_at, made_by) for number, made_at, made_by in session.execute(query)}


def revision_of(session: Session, owner: str, order_id: str, *, lock: bool = False) -> int | None:
    """Return the number of an order's latest revision; ``lock`` keeps it until the transaction ends."""
    query = select(Order.revision).where(Order.id == order_id, Order.owner == owner)
    return session.execute(query.with_for_update() if lock else query).scalar_one_or_none()


def name_of(session: Session, order_id: str) -> str:
    """Return the name of an order that is there."""
    return session.execute(select(Order.name).where(Order.id == order_id)).scalar_one()


def listing(session: Session, owner: str, limit: int, after: str | None) -> Sequence[Order]:
    """Return orders of an owner, the newest first, from behind the order ``after`` on."""
    query = select(Order).where(Order.owner == owner)
    if after is not None:
        at = select(Order.made_at, Order.id).where(Order.id == after, Order.owner == owner)
        query = query.where(tuple_(Order.made_at, Order.id) < at.scalar_subquery())
    return session.execute(query.order_by(Order.made_at.desc(), Order.id.desc()).limit(limit)).scalars().all()


def count(session: Session, owner: str) -> int:
    """Return how many orders an owner has."""
    return session.execute(select(func.count()).select_from(Order).where(Order.owner == owner)).scalar_one()


def everyones(session: Session) -> Sequence[tuple[str, str]]:
    """Return owner and id of every order."""
    rows = session.execute(select(Order.owner, Order.id).order_by(Order.owner, Order.made_at, Order.id))
    return [(owner, order_id) for owner, order_id in rows]


def change(
    session: Session,
    owner: str,
    order_id: str,
    expected: int,
    what: str,
    made_by: str,
    *,
    plan: Plan | None = None,
    entries: Sequence[tuple[str, dict[str, Any]]] = (),
) -> int:
    """Add a revision behind the expected one and return its number: a new plan, or entries for the log.

    Raises:
        Stale: the order has another revision by now, or is gone.
    """
    moment, number = now(), expected + 1
    values: dict[str, Any] = {"revision": number, "changed_at": moment}
    if plan is not None:
        values["name"] = plan.get("name", "")
    # Of two writers one finds the revision that it expects; the other waits here for the lock of the row and then none.
    found = session.execute(
        update(Order)
        .where(Order.id == order_id, Order.owner == owner, Order.revision == expected)
        .values(values)
        .execution_options(synchronize_session=False)
    )
    if cast(CursorResult[Any], found).rowcount != 1:
        raise Stale
    session.add(Revision(order_id=order_id, number=number, change=what, plan=plan, made_at=moment, made_by=made_by))
    session.flush()
    last = session.execute(select(func.max(Entry.number)).where(Entry.order_id == order_id)).scalar_one() or 0
    session.add_all(
        Entry(order_id=order_id, number=last + place, revision=number, kind=kind, body=body)
        for place, (kind, body) in enumerate(entries, start=1)
    )
    session.flush()
    return number


def remove(session: Session, owner: str, order_id: str, expected: int) -> None:
    """Delete an order with all its revisions, entries and verdicts.

    Raises:
        Stale: the order has another revision by now, or is gone.
    """
    found = session.execute(delete(Order).where(Order.id == order_id, Order.owner == owner, Order.revision == expected))
    if cast(CursorResult[Any], found).rowcount != 1:
        raise Stale


# --- verdicts ------------------------------------------------------------------------------------------------------


def last_check(session: Session, order_id: str) -> Check | None:
    """Return the latest check of an order that was recorded."""
    query = select(Check).where(Check.order_id == order_id).order_by(Check.number.desc()).limit(1)
    return session.execute(query).scalar_one_or_none()


def verdicts(session: Session, order_id: str) -> dict[Subject, str]:
    """Return the latest verdict on every subject of an order."""
    latest = (
        select(Verdict.subject, Verdict.subject_id, func.max(Verdict.check_number).label("latest"))
        .where(Verdict.order_id == order_id)
        .group_by(Verdict.subject, Verdict.subject_id)
        .subquery()
    )
    query = select(Verdict.subject, Verdict.subject_id, Verdict.verdict).join(
        latest,
        and_(
            Verdict.subject == latest.c.subject,
            Verdict.subject_id == latest.c.subject_id,
            Verdict.check_number == latest.c.latest,
        ),
    )
    rows = session.execute(query.where(Verdict.order_id == order_id, Verdict.verdict != ""))
    return {(subject, subject_id): verdict for subject, subject_id, verdict in rows}


def record(session: Session, order_id: str, revision: int, basis: Basis, changes: Sequence[Changed]) -> int:
    """Store a check with what it changed and return its number; the caller holds the order's lock."""
    last = session.execute(select(func.max(Check.number)).where(Check.order_id == order_id)).scalar_one() or 0
    number = last + 1
    session.add(Check(order_id=order_id, number=number, revision=revision, **basis._asdict()))
    session.flush()
    session.add_all(
        Verdict(
            order_id=order_id,
            check_number=number,
            subject=one.subject,
            subject_id=one.id,
            verdict=one.verdict,
            before=one.before,
            because=one.because,
        )
        for one in changes
    )
    session.flush()
    return number


def checks(session: Session, order_id: str, limit: int, before: int | None) -> list[tuple[Check, list[Changed]]]:
    """Return the checks of an order with what each changed, the latest first, from before a number on."""
    query = select(Check).where(Check.order_id == order_id)
    if before is not None:
        query = query.where(Check.number < before)
    found = session.execute(query.order_by(Check.number.desc()).limit(limit)).scalars().all()
    numbers = [check.number for check in found]
    changes: dict[int, list[Changed]] = {number: [] for number in numbers}
    if numbers:
        rows = session.execute(
            select(Verdict)
            .where(Verdict.order_id == order_id, Verdict.check_number.between(numbers[-1], numbers[0]))
            .order_by(Verdict.check_number, Verdict.subject, Verdict.subject_id)
        ).scalars()
        for row in rows:
            changes[row.check_number].append(Changed(row.subject, row.subject_id, row.before, row.verdict, row.because))
    return [(check, changes[check.number]) for check in found]


def revisions(session: Session, order_id: str, limit: int, before: int | None) -> Sequence[Revision]:
    """Return the revisions of an order, the latest first, from before a number on; the plans are left out."""
    columns = (Revision.number, Revision.change, Revision.made_at, Revision.made_by)
    query = select(*columns).where(Revision.order_id == order_id)
    if before is not None:
        query = query.where(Revision.number < before)
    rows = session.execute(query.order_by(Revision.number.desc()).limit(limit)).all()
    return [Revision(order_id=order_id, **row._asdict()) for row in rows]
