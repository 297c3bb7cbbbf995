"""Jobs: long uploads that are worked in the background, and their rows in chunks."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision: str | None = "0001"
branch_labels: Sequence[str] | None = None
depends_on: Sequence[str] | None = None

_MOMENT = sa.DateTime(timezone=True)


def upgrade() -> None:
    """Make the tables of jobs."""
    op.create_table(
        "job",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("owner", sa.String(100), nullable=False),
        sa.Column("units", sa.String(2), nullable=False),
        sa.Column("rows", sa.Integer),
        sa.Column("made_at", _MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_job"),
    )
    op.create_index("ix_job_owner", "job", ["owner"])
    op.create_table(
        "job_chunk",
        sa.Column("job_id", sa.String(32), nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("rows", sa.Integer, nullable=False),
        sa.Column("checks", sa.Text, nullable=False),
        sa.Column("taken_until", _MOMENT),
        sa.Column("verdict", sa.String(16)),
        sa.Column("replies", sa.LargeBinary),
        sa.PrimaryKeyConstraint("job_id", "number", name="pk_job_chunk"),
        sa.ForeignKeyConstraint(["job_id"], ["job.id"], name="fk_job_chunk_job_id_job", ondelete="CASCADE"),
    )


def downgrade() -> None:
    """Drop the tables of jobs."""
    op.drop_table("job_chunk")
    op.drop_table("job")
