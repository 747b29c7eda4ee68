"""What the coach wants of a plan, and what each lift rests on.

Revision: 0003, after 0002.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def _one_of(name: str, *values: str) -> sa.Enum:
    return sa.Enum(*values, name=name, native_enum=False, create_constraint=True)


def upgrade() -> None:
    op.create_table(
        "lift_basis",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("lift", _one_of("lift", "squat", "bench", "deadlift"), nullable=False),
        sa.Column("low_g", sa.Integer(), nullable=True),
        sa.Column("low_entered", sa.String(), nullable=True),
        sa.Column("high_g", sa.Integer(), nullable=True),
        sa.Column("high_entered", sa.String(), nullable=True),
        sa.Column(
            "source",
            _one_of("source", "own_number", "judged_singles", "sets", "last_meet"),
            nullable=True,
        ),
        sa.Column("floor_g", sa.Integer(), nullable=True),
        sa.Column("floor_entered", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(
            ["entry_id"],
            ["entry.id"],
            name=op.f("fk_lift_basis_entry_id_entry"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_lift_basis")),
        sa.UniqueConstraint("entry_id", "lift", name=op.f("uq_lift_basis_entry_id_lift")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "wishes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column(
            "aim",
            _one_of(
                "day_aim", "biggest_total", "number", "lift_number", "lift_record", "nine_good"
            ),
            nullable=True,
        ),
        sa.Column("aim_lift", _one_of("lift", "squat", "bench", "deadlift"), nullable=True),
        sa.Column("aim_weight_g", sa.Integer(), nullable=True),
        sa.Column("aim_weight_entered", sa.String(), nullable=True),
        sa.Column("risk_cap", sa.Double(), nullable=True),
        sa.Column("largest_jump", sa.Double(), nullable=True),
        sa.CheckConstraint("risk_cap BETWEEN 0 AND 1", name=op.f("ck_wishes_risk_cap")),
        sa.CheckConstraint("largest_jump > 0", name=op.f("ck_wishes_largest_jump")),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_wishes_entry_id_entry"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_wishes")),
        sa.UniqueConstraint("entry_id", name=op.f("uq_wishes_entry_id")),
        sqlite_autoincrement=True,
    )


def downgrade() -> None:
    """Going back is restoring the copy made before the migration."""
    msg = "restore the copy made before the migration"
    raise RuntimeError(msg)
