"""Disc sets.

Revision: 0002, after 0001.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "disc_set",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column(
            "unit",
            sa.Enum("kg", "lb", name="unit", native_enum=False, create_constraint=True),
            nullable=False,
        ),
        sa.Column("bar_g", sa.Integer(), nullable=False),
        sa.Column("bar_entered", sa.String(), nullable=False),
        sa.Column("collar_g", sa.Integer(), nullable=False),
        sa.Column("collar_entered", sa.String(), nullable=False),
        sa.Column("discs", sa.JSON(), nullable=False),
        sa.CheckConstraint("bar_g > 0", name=op.f("ck_disc_set_bar_g")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_disc_set")),
        sqlite_autoincrement=True,
    )


def downgrade() -> None:
    """Going back is restoring the copy made before the migration."""
    msg = "restore the copy made before the migration"
    raise RuntimeError(msg)
