"""What calendar files have brought.

Revision: 0006, after 0005.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "calendar_entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(), nullable=False),
        sa.Column("meet_id", sa.Integer(), nullable=False),
        sa.Column("begins_on", sa.Date(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_calendar_entry")),
        sa.UniqueConstraint("key", name=op.f("uq_calendar_entry_key")),
        sqlite_autoincrement=True,
    )


def downgrade() -> None:
    """Going back is restoring the copy made before the migration."""
    msg = "restore the copy made before the migration"
    raise RuntimeError(msg)
