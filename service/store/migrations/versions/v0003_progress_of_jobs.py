"""Jobs know themselves how far they are, when they began and ended, whether they were cancelled, and of which file."""

import json
import zlib
from collections import Counter
from collections.abc import Sequence
from datetime import UTC, datetime

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision: str | None = "0002"
branch_labels: Sequence[str] | None = None
depends_on: Sequence[str] | None = None

_MOMENT = sa.DateTime(timezone=True)


def upgrade() -> None:
    """Add the columns, and fill them for jobs that are there."""
    op.add_column("job", sa.Column("rows_done", sa.Integer, nullable=False, server_default="0"))
    op.add_column("job", sa.Column("verdicts", sa.Text, nullable=False, server_default="{}"))
    op.add_column("job", sa.Column("started_at", _MOMENT))
    op.add_column("job", sa.Column("finished_at", _MOMENT))
    op.add_column("job", sa.Column("cancelled", sa.Boolean, nullable=False, server_default=sa.false()))
    op.add_column("job", sa.Column("file", sa.String(200)))
    op.create_index("ix_job_chunk_job_id_verdict_number", "job_chunk", ["job_id", "verdict", "number"])
    _count()


def _count() -> None:
    """Count what was judged so far; of when that was, nothing was noted: this moment stands for the end."""
    connection = op.get_bind()
    job = sa.table("job", *map(sa.column, ("id", "rows", "rows_done", "verdicts", "cancelled")),
                   *(sa.column(name, _MOMENT) for name in ("made_at", "started_at", "finished_at")))  # fmt: skip
    chunk = sa.table("job_chunk", *map(sa.column, ("job_id", "number", "verdict", "replies")))
    ended = datetime.now(UTC)
    if connection.dialect.name == "sqlite":
        ended = ended.replace(tzinfo=None)
    for one in connection.execute(sa.select(job.c.id, job.c.rows, job.c.made_at)).all():
        worked = sa.select(chunk.c.number).where(chunk.c.job_id == one.id, chunk.c.verdict.is_not(None))
        counts: Counter[str] = Counter()
        for number in connection.execute(worked).scalars().all():
            here = sa.select(chunk.c.replies).where(chunk.c.job_id == one.id, chunk.c.number == number)
            replies = zlib.decompress(connection.execute(here).scalar_one())
            counts.update(json.loads(reply)["verdict"] for reply in replies.split(b"\n"))
        if not counts:
            continue
        values = {"rows_done": counts.total(), "verdicts": json.dumps(counts), "started_at": one.made_at}
        values["finished_at"] = ended if counts.total() == one.rows else None
        connection.execute(sa.update(job).where(job.c.id == one.id).values(values))


def downgrade() -> None:
    """Drop the columns."""
    op.drop_index("ix_job_chunk_job_id_verdict_number", "job_chunk")
    # One by one: to copy the table, as other changes of SQLite need, would drop it, and with it every chunk.
    for name in ("file", "cancelled", "finished_at", "started_at", "verdicts", "rows_done"):
        op.drop_column("job", name)
