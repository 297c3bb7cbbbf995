"""Measurements in the log of an order: entries of a kind of their own.

They need no other tables: kind and body of an entry hold them. The step is there so that a service which does not know
them refuses the database, instead of failing on the first order that has some.
"""

from collections.abc import Sequence

from alembic import op

revision = "0004"
down_revision: str | None = "0003"
branch_labels: Sequence[str] | None = None
depends_on: Sequence[str] | None = None


def upgrade() -> None:
    """Change nothing: entries of any kind have their place."""


def downgrade() -> None:
    """Forget the measurements, which an older service cannot read."""
    op.execute("DELETE FROM order_entry WHERE kind = 'measurement'")
