"""The mapped classes: what an order is in the tables.

An order is a *plan* (needs, lines, stock, steps: replaced as a whole) and a *log* (events and receipts: only added to).
Every change of either is a revision, numbered from 1 without a gap; none is ever overwritten. A *check* is one proof of
one revision, with all that it rests on; a *verdict* is kept when it differs from the one before, with the reason why.
"""

from datetime import UTC, datetime
from typing import Any

import orjson
from sqlalchemy import DateTime, Dialect, ForeignKey, ForeignKeyConstraint, Index, LargeBinary, MetaData, String, Text
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column
from sqlalchemy.types import TypeDecorator

ID = 32
"""Characters of a random identifier: 128 bits that nobody guesses."""

NAME = 100
"""Most characters of the name of an owner, a supplier, or anything of an order."""


FILE = 200
"""Most characters of the name of a file, as its sender calls it."""


class Json(TypeDecorator[Any]):
    """A JSON value as text, byte for byte as it was written, alike in every database."""

    impl = Text
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> str | None:
        """Write the value."""
        return None if value is None else orjson.dumps(value).decode()

    def process_result_value(self, value: str | None, dialect: Dialect) -> Any:
        """Read the value."""
        return None if value is None else orjson.loads(value)


class Moment(TypeDecorator[datetime]):
    """A moment in UTC; SQLite, which knows no zones, gets it without one."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Write the moment."""
        if value is None:
            return None
        utc = value.astimezone(UTC)
        return utc.replace(tzinfo=None) if dialect.name == "sqlite" else utc

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Read the moment."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class Base(DeclarativeBase):
    """The base of every mapped class; constraints are named by a rule, so that migrations can name them."""

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "ck": "ck_%(table_name)s_%(constraint_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
            "pk": "pk_%(table_name)s",
        }
    )


def now() -> datetime:
    """Return the present moment in UTC."""
    return datetime.now(UTC)


class Token(Base):
    """A secret that lets its bearer act for an owner; only its digest is kept."""

    __tablename__ = "token"

    id: Mapped[str] = mapped_column(String(ID), primary_key=True)
    owner: Mapped[str] = mapped_column(String(NAME))
    scope: Mapped[str] = mapped_column(String(8))
    digest: Mapped[str] = mapped_column(String(64))
    note: Mapped[str] = mapped_column(String(NAME), default="")
    made_at: Mapped[datetime] = mapped_column(Moment, default=now)
    revoked_at: Mapped[datetime | None] = mapped_column(Moment)


class Order(Base):
    """An order of one owner; ``revision`` is the number of its latest revision."""

    __tablename__ = "purchase_order"
    __table_args__ = (Index(None, "owner", "made_at", "id"),)

    id: Mapped[str] = mapped_column(String(ID), primary_key=True)
    owner: Mapped[str] = mapped_column(String(NAME))
    name: Mapped[str] = mapped_column(String(NAME), default="")
    revision: Mapped[int] = mapped_column(default=1)
    made_at: Mapped[datetime] = mapped_column(Moment, default=now)
    changed_at: Mapped[datetime] = mapped_column(Moment, default=now)


class Revision(Base):
    """One change of an order: a new plan, or entries of its log. ``plan`` is null where only the log grew."""

    __tablename__ = "order_revision"

    order_id: Mapped[str] = mapped_column(ForeignKey(Order.id, ondelete="CASCADE"), primary_key=True)
    number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    change: Mapped[str] = mapped_column(String(16))
    plan: Mapped[dict[str, Any] | None] = mapped_column(Json)
    made_at: Mapped[datetime] = mapped_column(Moment, default=now)
    made_by: Mapped[str] = mapped_column(String(NAME), default="")


class Entry(Base):
    """One entry of an order's log: an event or a receipt; ``number`` counts the entries of the order from 1."""

    __tablename__ = "order_entry"
    __table_args__ = (
        ForeignKeyConstraint(
            ["order_id", "revision"], ["order_revision.order_id", "order_revision.number"], ondelete="CASCADE"
        ),
    )

    order_id: Mapped[str] = mapped_column(String(ID), primary_key=True)
    number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    revision: Mapped[int]
    kind: Mapped[str] = mapped_column(String(16))
    body: Mapped[dict[str, Any]] = mapped_column(Json)


class Check(Base):
    """One proof of one revision, with what it rests on besides: reference data, suppliers' habits, the software."""

    __tablename__ = "order_check"
    __table_args__ = (
        ForeignKeyConstraint(
            ["order_id", "revision"], ["order_revision.order_id", "order_revision.number"], ondelete="CASCADE"
        ),
    )

    order_id: Mapped[str] = mapped_column(String(ID), primary_key=True)
    number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    revision: Mapped[int]
    reference: Mapped[str] = mapped_column(String(64))
    version: Mapped[str] = mapped_column(String(64))
    habits: Mapped[list[dict[str, Any]]] = mapped_column(Json)
    made_at: Mapped[datetime] = mapped_column(Moment, default=now)


class Verdict(Base):
    """A verdict that differs from the one before on the same subject; empty where the subject is gone."""

    __tablename__ = "order_verdict"
    __table_args__ = (
        ForeignKeyConstraint(
            ["order_id", "check_number"], ["order_check.order_id", "order_check.number"], ondelete="CASCADE"
        ),
    )

    order_id: Mapped[str] = mapped_column(String(ID), primary_key=True)
    check_number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    subject: Mapped[str] = mapped_column(String(8), primary_key=True)
    subject_id: Mapped[str] = mapped_column(String(NAME), primary_key=True)
    verdict: Mapped[str] = mapped_column(String(16))
    before: Mapped[str] = mapped_column(String(16), default="")
    because: Mapped[str] = mapped_column(String(64), default="")


class Habit(Base):
    """What one supplier means by a sign, as its owner has learnt it."""

    __tablename__ = "supplier_habit"
    __table_args__ = (Index(None, "owner", "supplier"),)

    id: Mapped[str] = mapped_column(String(ID), primary_key=True)
    owner: Mapped[str] = mapped_column(String(NAME))
    supplier: Mapped[str] = mapped_column(String(NAME))
    body: Mapped[dict[str, Any]] = mapped_column(Json)
    made_at: Mapped[datetime] = mapped_column(Moment, default=now)


class KeptReply(Base):
    """The reply to a request that carried an Idempotency-Key, stored together with what the request changed."""

    __tablename__ = "kept_reply"
    __table_args__ = (Index(None, "made_at"),)

    owner: Mapped[str] = mapped_column(String(NAME), primary_key=True)
    key: Mapped[str] = mapped_column(String(255), primary_key=True)
    request: Mapped[str] = mapped_column(String(64))
    status: Mapped[int]
    headers: Mapped[list[list[str]]] = mapped_column(Json)
    reply: Mapped[dict[str, Any]] = mapped_column(Json)
    made_at: Mapped[datetime] = mapped_column(Moment, default=now)


class Job(Base):
    """A long upload that is worked in the background; ``rows`` is null as long as it is still received.

    How far it is stands here and not only with its chunks, so that a list of jobs reads no rows of theirs. It is
    finished when its last row is judged, or when it is cancelled.
    """

    __tablename__ = "job"
    __table_args__ = (Index(None, "owner"),)

    id: Mapped[str] = mapped_column(String(ID), primary_key=True)
    owner: Mapped[str] = mapped_column(String(NAME))
    units: Mapped[str] = mapped_column(String(2))
    rows: Mapped[int | None]
    made_at: Mapped[datetime] = mapped_column(Moment, default=now)
    rows_done: Mapped[int] = mapped_column(default=0)
    verdicts: Mapped[dict[str, int]] = mapped_column(Json, default=dict)
    started_at: Mapped[datetime | None] = mapped_column(Moment)
    finished_at: Mapped[datetime | None] = mapped_column(Moment)
    cancelled: Mapped[bool] = mapped_column(default=False)
    file: Mapped[str | None] = mapped_column(String(FILE))


class JobChunk(Base):
    """Some rows of a job: what is to be checked, until when somebody works on it, and the replies once it is done."""

    __tablename__ = "job_chunk"
    # Chunks are found without reading past the rows that they hold.
    __table_args__ = (Index(None, "job_id", "verdict", "number"),)

    job_id: Mapped[str] = mapped_column(ForeignKey(Job.id, ondelete="CASCADE"), primary_key=True)
    number: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    rows: Mapped[int]
    checks: Mapped[str] = mapped_column(Text)
    taken_until: Mapped[datetime | None] = mapped_column(Moment)
    verdict: Mapped[str | None] = mapped_column(String(16))
    replies: Mapped[bytes | None] = mapped_column(LargeBinary)
