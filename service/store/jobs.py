"""Jobs in the store: their rows in chunks, each worked once, by whoever takes it.

A chunk is taken for a time. Whoever took it and died leaves it to the next one when that time is over; what is stored
for a chunk is never replaced. Functions take a session of ``Store.read`` or ``Store.write``; a job of another owner is
not found.
"""

from collections.abc import Mapping
from datetime import timedelta
from typing import Any, NamedTuple, cast

from sqlalchemy import ColumnElement, CursorResult, delete, func, or_, select, update
from sqlalchemy.orm import Session

from service.store.model import Job, JobChunk, now

TAKEN = timedelta(seconds=60)
"""For how long a chunk is taken: far longer than its rows need."""

LONGEST_UPLOAD = timedelta(days=1)
"""After which a job that is still received is taken for one that never will be."""


class Progress(NamedTuple):
    """How far a job is: rows worked, all rows (none while it is still received), and chunks by their worst verdict."""

    job: Job
    rows_done: int
    chunks_open: int
    verdicts: Mapping[str, int]


class Taken(NamedTuple):
    """A chunk to be worked: its checks as they were stored, and the units of the replies."""

    number: int
    checks: str
    units: str


def create(session: Session, owner: str, job_id: str, units: str) -> None:
    """Store a job whose rows are still to come."""
    session.add(Job(id=job_id, owner=owner, units=units))


def add(session: Session, job_id: str, number: int, rows: int, checks: str) -> None:
    """Store a chunk of rows of a job; it can be worked at once."""
    session.add(JobChunk(job_id=job_id, number=number, rows=rows, checks=checks))


def received(session: Session, job_id: str, rows: int) -> None:
    """Note that all rows of a job are here."""
    session.execute(update(Job).where(Job.id == job_id).values(rows=rows))


def count(session: Session, owner: str) -> int:
    """Return how many jobs an owner has."""
    return session.execute(select(func.count()).select_from(Job).where(Job.owner == owner)).scalar_one()


def progress(session: Session, owner: str, job_id: str) -> Progress | None:
    """Return how far a job is."""
    job = session.execute(select(Job).where(Job.id == job_id, Job.owner == owner)).scalar_one_or_none()
    if job is None:
        return None
    counted = session.execute(
        select(JobChunk.verdict, func.count(), func.sum(JobChunk.rows))
        .where(JobChunk.job_id == job_id)
        .group_by(JobChunk.verdict)
    ).all()
    done = {verdict: chunks for verdict, chunks, _ in counted if verdict is not None}
    return Progress(
        job,
        sum(int(rows) for verdict, _, rows in counted if verdict is not None),
        sum(chunks for verdict, chunks, _ in counted if verdict is None),
        done,
    )


def remove(session: Session, owner: str, job_id: str) -> bool:
    """Delete a job with all its rows; whoever works on a chunk of it works in vain. Return whether there was one."""
    return _changed(session.execute(delete(Job).where(Job.id == job_id, Job.owner == owner))) > 0


def replies(session: Session, job_id: str, number: int) -> bytes | None:
    """Return what was stored for a chunk."""
    return session.execute(
        select(JobChunk.replies).where(JobChunk.job_id == job_id, JobChunk.number == number)
    ).scalar_one_or_none()


# --- working ---------------------------------------------------------------------------------------------------------


def _free() -> ColumnElement[bool]:
    return JobChunk.verdict.is_(None) & or_(JobChunk.taken_until.is_(None), JobChunk.taken_until < now())


def take(session: Session, job_id: str) -> Taken | None:
    """Take the next free chunk of a job; None where there is none."""
    found = session.execute(
        select(JobChunk.number, JobChunk.checks, Job.units)
        .join(Job, Job.id == JobChunk.job_id)
        .where(JobChunk.job_id == job_id, _free())
        .order_by(JobChunk.number)
        .limit(1)
        # SQLite has one writer at a time; PostgreSQL passes over what another one is just taking.
        .with_for_update(skip_locked=True, of=JobChunk)
    ).one_or_none()
    if found is None:
        return None
    session.execute(
        update(JobChunk)
        .where(JobChunk.job_id == job_id, JobChunk.number == found.number)
        .values(taken_until=now() + TAKEN)
    )
    return Taken(found.number, found.checks, found.units)


def keep(session: Session, job_id: str, number: int, verdict: str, worked: bytes) -> bool:
    """Store the replies to a chunk and its worst verdict, unless it is done or gone; return whether it was stored."""
    changed = session.execute(
        update(JobChunk)
        .where(JobChunk.job_id == job_id, JobChunk.number == number, JobChunk.verdict.is_(None))
        .values(verdict=verdict, replies=worked, taken_until=None)
    )
    return _changed(changed) > 0


def free(session: Session) -> Mapping[str, int]:
    """Return how many chunks of each job nobody works on."""
    chunks = func.count().label("chunks")
    found = session.execute(select(JobChunk.job_id, chunks).where(_free()).group_by(JobChunk.job_id))
    return {row.job_id: row.chunks for row in found}


def forget_broken(session: Session) -> None:
    """Delete jobs whose upload was cut off with the service: nobody was told their ids."""
    session.execute(delete(Job).where(Job.rows.is_(None), Job.made_at < now() - LONGEST_UPLOAD))


def _changed(result: Any) -> int:
    return cast("CursorResult[Any]", result).rowcount
