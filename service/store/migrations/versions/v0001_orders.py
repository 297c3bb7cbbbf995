"""Tokens, orders with their revisions, log and verdicts, suppliers' habits, kept replies."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision: str | None = None
branch_labels: Sequence[str] | None = None
depends_on: Sequence[str] | None = None

_MOMENT = sa.DateTime(timezone=True)


def upgrade() -> None:
    """Make the first tables."""
    op.create_table(
        "token",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("owner", sa.String(100), nullable=False),
        sa.Column("scope", sa.String(8), nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.Column("note", sa.String(100), nullable=False),
        sa.Column("made_at", _MOMENT, nullable=False),
        sa.Column("revoked_at", _MOMENT),
        sa.PrimaryKeyConstraint("id", name="pk_token"),
    )
    op.create_table(
        "purchase_order",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("owner", sa.String(100), nullable=False),
        sa.Column("name", sa.String(100), nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("made_at", _MOMENT, nullable=False),
        sa.Column("changed_at", _MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_purchase_order"),
    )
    op.create_index("ix_purchase_order_owner_made_at_id", "purchase_order", ["owner", "made_at", "id"])
    op.create_table(
        "order_revision",
        sa.Column("order_id", sa.String(32), nullable=False),
        sa.Column("number", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("change", sa.String(16), nullable=False),
        sa.Column("plan", sa.Text),
        sa.Column("made_at", _MOMENT, nullable=False),
        sa.Column("made_by", sa.String(100), nullable=False),
        sa.PrimaryKeyConstraint("order_id", "number", name="pk_order_revision"),
        sa.ForeignKeyConstraint(
            ["order_id"], ["purchase_order.id"], name="fk_order_revision_order_id_purchase_order", ondelete="CASCADE"
        ),
    )
    op.create_table(
        "order_entry",
        sa.Column("order_id", sa.String(32), nullable=False),
        sa.Column("number", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("kind", sa.String(16), nullable=False),
        sa.Column("body", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("order_id", "number", name="pk_order_entry"),
        _of_revision("order_entry"),
    )
    op.create_table(
        "order_check",
        sa.Column("order_id", sa.String(32), nullable=False),
        sa.Column("number", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("reference", sa.String(64), nullable=False),
        sa.Column("version", sa.String(64), nullable=False),
        sa.Column("habits", sa.Text, nullable=False),
        sa.Column("made_at", _MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("order_id", "number", name="pk_order_check"),
        _of_revision("order_check"),
    )
    op.create_table(
        "order_verdict",
        sa.Column("order_id", sa.String(32), nullable=False),
        sa.Column("check_number", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("subject", sa.String(8), nullable=False),
        sa.Column("subject_id", sa.String(100), nullable=False),
        sa.Column("verdict", sa.String(16), nullable=False),
        sa.Column("before", sa.String(16), nullable=False),
        sa.Column("because", sa.String(64), nullable=False),
        sa.PrimaryKeyConstraint("order_id", "check_number", "subject", "subject_id", name="pk_order_verdict"),
        sa.ForeignKeyConstraint(
            ["order_id", "check_number"],
            ["order_check.order_id", "order_check.number"],
            name="fk_order_verdict_order_id_check_number_order_check",
            ondelete="CASCADE",
        ),
    )
    op.create_table(
        "supplier_habit",
        sa.Column("id", sa.String(32), nullable=False),
        sa.Column("owner", sa.String(100), nullable=False),
        sa.Column("supplier", sa.String(100), nullable=False),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("made_at", _MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_supplier_habit"),
    )
    op.create_index("ix_supplier_habit_owner_supplier", "supplier_habit", ["owner", "supplier"])
    op.create_table(
        "kept_reply",
        sa.Column("owner", sa.String(100), nullable=False),
        sa.Column("key", sa.String(255), nullable=False),
        sa.Column("request", sa.String(64), nullable=False),
        sa.Column("status", sa.Integer, nullable=False),
        sa.Column("headers", sa.Text, nullable=False),
        sa.Column("reply", sa.Text, nullable=False),
        sa.Column("made_at", _MOMENT, nullable=False),
        sa.PrimaryKeyConstraint("owner", "key", name="pk_kept_reply"),
    )
    op.create_index("ix_kept_reply_made_at", "kept_reply", ["made_at"])


def _of_revision(table: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(
        ["order_id", "revision"],
        ["order_revision.order_id", "order_revision.number"],
        name=f"fk_{table}_order_id_revision_order_revision",
        ondelete="CASCADE",
    )


def downgrade() -> None:
    """Drop them all."""
    for table in (
        "kept_reply",
        "supplier_habit",
        "order_verdict",
        "order_check",
        "order_entry",
        "order_revision",
        "purchase_order",
        "token",
    ):
        op.drop_table(table)
