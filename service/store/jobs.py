"""Jobs in the store: their rows in chunks, each worked once, by whoever takes it.

A chunk is taken for a time. Whoever took it and died leaves it to the next one when that time is over; what is stored
for a chunk is never replaced. A job that is cancelled loses the rows that nobody has judged, and takes nothing more:
what somebody is still working on is thrown away. Functions take a session of ``Store.read`` or ``Store.write``; a job
of another owner is not found.

Whoever changes both a job and its chunks locks the job first, so that none waits for another in a circle.
"""

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from typing import Any, NamedTuple, cast

from sqlalchemy import ColumnElement, CursorResult, and_, delete, func, or_, select, tuple_, update
from sqlalchemy.orm import Session

from service.store.model import Job, JobChunk, now

TAKEN = timedelta(seconds=60)
"""For how long a chunk is taken: far longer than its rows need."""

LONGEST_UPLOAD = timedelta(days=1)
"""After which a job that is still received is taken for one that never will be."""

_STATES: Mapping[str, ColumnElement[bool]] = {
    "receiving": and_(Job.finished_at.is_(None), Job.rows.is_(None)),
    "waiting": and_(Job.finished_at.is_(None), Job.rows.is_not(None), Job.started_at.is_(None)),
    "running": and_(Job.finished_at.is_(None), Job.rows.is_not(None), Job.started_at.is_not(None)),
    "done": and_(Job.finished_at.is_not(None), Job.cancelled.is_(False)),
    "cancelled": and_(Job.finished_at.is_not(None), Job.cancelled.is_(True)),
}


class Taken(NamedTuple):
    """A chunk to be worked: its checks as they were stored, and the units of the replies."""

    number: int
    checks: str
    units: str


class Worked(NamedTuple):
    """What came out for a chunk: its worst verdict, how many rows have which, and the replies as they are stored."""

    verdict: str
    verdicts: Mapping[str, int]
    replies: bytes


def state_of(job: Job) -> str:
    """Return how far a job is, in one word."""
    if job.finished_at is not None:
        return "cancelled" if job.cancelled else "done"
    if job.rows is None:
        return "receiving"
    return "waiting" if job.started_at is None else "running"


# --- receiving -------------------------------------------------------------------------------------------------------


def create(session: Session, owner: str, job_id: str, units: str, file: str | None = None) -> None:
    """Store a job whose rows are still to come."""
    session.add(Job(id=job_id, owner=owner, units=units, file=file))


def add(session: Session, job_id: str, number: int, rows: int, checks: str) -> bool:
    """Store a chunk of rows of a job, unless that is cancelled or gone; return whether. It can be worked at once."""
    if _unfinished(session, job_id) is None:
        return False
    session.add(JobChunk(job_id=job_id, number=number, rows=rows, checks=checks))
    return True


def received(session: Session, job_id: str, rows: int) -> bool:
    """Note that all rows of a job are here, unless it is cancelled or gone; return whether."""
    job = _unfinished(session, job_id)
    if job is None:
        return False
    job.rows = rows
    _finish(job)
    return True


def give_up(session: Session, job_id: str) -> None:
    """Delete a job whose rows did not all come; one that was cancelled in the meantime stays."""
    session.execute(delete(Job).where(Job.id == job_id, Job.rows.is_(None), Job.finished_at.is_(None)))


def _unfinished(session: Session, job_id: str) -> Job | None:
    """Return a job that is neither done nor cancelled, locked until the transaction ends."""
    # Not against those who add chunks: these only need the job to stay.
    query = select(Job).where(Job.id == job_id, Job.finished_at.is_(None)).with_for_update(key_share=True)
    return session.execute(query).scalar_one_or_none()


def _finish(job: Job) -> None:
    if job.rows_done == job.rows:
        job.finished_at = now()


# --- watching --------------------------------------------------------------------------------------------------------


def count(session: Session, owner: str) -> int:
    """Return how many jobs an owner has."""
    return session.execute(select(func.count()).select_from(Job).where(Job.owner == owner)).scalar_one()


def find(session: Session, owner: str, job_id: str) -> Job | None:
    """Return a job with how far it is."""
    return session.execute(select(Job).where(Job.id == job_id, Job.owner == owner)).scalar_one_or_none()


def listing(session: Session, owner: str, limit: int, after: Job | None, state: str | None) -> Sequence[Job]:
    """Return jobs of an owner, the newest first, from behind the job ``after`` on; those in one state, or all."""
    query = select(Job).where(Job.owner == owner)
    if after is not None:
        query = query.where(tuple_(Job.made_at, Job.id) < (after.made_at, after.id))
    if state is not None:
        query = query.where(_STATES[state])
    return session.execute(query.order_by(Job.made_at.desc(), Job.id.desc()).limit(limit)).scalars().all()


def worked(session: Session, job_id: str, limit: int | None = None, *, but: str | None = None) -> Sequence[int]:
    """Return the numbers of the chunks that are worked, in order; ``but`` passes over those of one worst verdict."""
    query = select(JobChunk.number).where(JobChunk.job_id == job_id, JobChunk.verdict.is_not(None))
    if but is not None:
        query = query.where(JobChunk.verdict != but)
    return session.execute(query.order_by(JobChunk.number).limit(limit)).scalars().all()


def replies(session: Session, job_id: str, number: int) -> bytes | None:
    """Return what was stored for a chunk."""
    return session.execute(
        select(JobChunk.replies).where(JobChunk.job_id == job_id, JobChunk.number == number)
    ).scalar_one_or_none()


# --- ending ----------------------------------------------------------------------------------------------------------


class Ended(NamedTuple):
    """A job that was to be cancelled, and whether it was this that ended it."""

    job: Job
    now: bool


def cancel(session: Session, owner: str, job_id: str) -> Ended | None:
    """End a job that is not done; rows that are not judged are deleted. None where there is no such job."""
    query = select(Job).where(Job.id == job_id, Job.owner == owner).with_for_update(key_share=True)
    job = session.execute(query).scalar_one_or_none()
    if job is None:
        return None
    if job.finished_at is not None:
        return Ended(job, now=False)
    job.finished_at, job.cancelled = now(), True
    session.flush()
    session.execute(delete(JobChunk).where(JobChunk.job_id == job_id, JobChunk.verdict.is_(None)))
    return Ended(job, now=True)


def remove(session: Session, owner: str, job_id: str) -> bool:
    """Delete a job with all its rows; whoever works on a chunk of it works in vain. Return whether there was one."""
    return _changed(session.execute(delete(Job).where(Job.id == job_id, Job.owner == owner))) > 0


def finished_before(session: Session, moment: datetime) -> Sequence[tuple[str, str]]:
    """Return owner and id of every job that was done or cancelled before a moment."""
    found = session.execute(select(Job.owner, Job.id).where(Job.finished_at < moment))
    return [(owner, job_id) for owner, job_id in found]


def forget_broken(session: Session) -> None:
    """Delete jobs whose upload was cut off with the service: nobody was told their ids."""
    session.execute(
        delete(Job).where(Job.rows.is_(None), Job.finished_at.is_(None), Job.made_at < now() - LONGEST_UPLOAD)
    )


# --- working ---------------------------------------------------------------------------------------------------------


def _free() -> ColumnElement[bool]:
    return and_(
        Job.finished_at.is_(None),
        JobChunk.verdict.is_(None),
        or_(JobChunk.taken_until.is_(None), JobChunk.taken_until < now()),
    )


def take(session: Session, job_id: str) -> Taken | None:
    """Take the next free chunk of a job; None where there is none."""
    session.execute(
        update(Job)
        .where(Job.id == job_id, Job.started_at.is_(None), Job.finished_at.is_(None))
        .values(started_at=now())
    )
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


def keep(session: Session, job_id: str, number: int, done: Worked) -> Job | None:
    """Store what came out for a chunk and return its job; None where the chunk is done, or its job ended or gone.

    What was to be checked is not kept any longer: it stands in the replies.
    """
    job = _unfinished(session, job_id)
    if job is None:
        return None
    changed = session.execute(
        update(JobChunk)
        .where(JobChunk.job_id == job_id, JobChunk.number == number, JobChunk.verdict.is_(None))
        .values(verdict=done.verdict, replies=done.replies, taken_until=None, checks="")
    )
    if not _changed(changed):
        return None
    job.rows_done += sum(done.verdicts.values())
    job.verdicts = {
        word: job.verdicts.get(word, 0) + done.verdicts.get(word, 0) for word in {*job.verdicts, *done.verdicts}
    }
    _finish(job)
    session.flush()
    return job


def free(session: Session) -> Mapping[str, int]:
    """Return how many chunks of each job nobody works on."""
    chunks = func.count().label("chunks")
    found = session.execute(
        select(JobChunk.job_id, chunks).join(Job, Job.id == JobChunk.job_id).where(_free()).group_by(JobChunk.job_id)
    )
    return {row.job_id: row.chunks for row in found}


def _changed(result: Any) -> int:
    return cast("CursorResult[Any]", result).rowcount
