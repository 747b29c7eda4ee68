"""Weight plans, cycle notes, kit checks, tasks, what is put off, and the day of kit inspection.

Revision: 0004, after 0003.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def _make(name: str, owner: str, *parts: sa.schema.SchemaItem, versioned: bool = True) -> None:
    """A table whose rows belong to a row of `owner`."""
    op.create_table(
        name,
        sa.Column("id", sa.Integer(), nullable=False),
        *([sa.Column("version", sa.Integer(), nullable=False)] if versioned else []),
        sa.Column(f"{owner}_id", sa.Integer(), nullable=False),
        *parts,
        sa.ForeignKeyConstraint(
            [f"{owner}_id"],
            [f"{owner}.id"],
            name=op.f(f"fk_{name}_{owner}_id_{owner}"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f(f"pk_{name}")),
        sqlite_autoincrement=True,
    )


def _day(name: str, *, may_lack: bool = False) -> sa.Column[object]:
    return sa.Column(name, sa.Date(), nullable=may_lack)


def _words(name: str) -> sa.Column[object]:
    return sa.Column(name, sa.String(), nullable=False)


def upgrade() -> None:
    op.add_column("meet", _day("kit_inspection_on", may_lack=True))
    _make(
        "cycle_note",
        "athlete",
        _day("first"),
        _day("last"),
        sa.CheckConstraint('"last" >= "first"', name=op.f("ck_cycle_note_last")),
    )
    op.create_index(op.f("ix_cycle_note_athlete_id"), "cycle_note", ["athlete_id"])
    _make(
        "weight_state",
        "athlete",
        sa.Column("content", sa.JSON(), nullable=False),
        sa.UniqueConstraint("athlete_id", name=op.f("uq_weight_state_athlete_id")),
        versioned=False,
    )
    _make(
        "weight_plan",
        "entry",
        _day("agreed_on"),
        sa.Column("from_weight_g", sa.Integer(), nullable=False),
        _words("from_weight_entered"),
        sa.Column("to_weight_g", sa.Integer(), nullable=False),
        _words("to_weight_entered"),
        _words("weight_class"),
        _day("arrive_on"),
        sa.UniqueConstraint("entry_id", name=op.f("uq_weight_plan_entry_id")),
    )
    _make(
        "kit_check",
        "entry",
        _words("round"),
        sa.Column("present", sa.JSON(), nullable=False),
        sa.Column("missing", sa.JSON(), nullable=False),
        sa.UniqueConstraint("entry_id", "round", name=op.f("uq_kit_check_entry_id_round")),
    )
    _make(
        "task",
        "entry",
        _words("code"),
        _words("words"),
        _day("due_on", may_lack=True),
        _day("done_on", may_lack=True),
    )
    op.create_index(op.f("ix_task_entry_id"), "task", ["entry_id"])
    _make(
        "snooze",
        "athlete",
        sa.Column("entry_id", sa.Integer(), nullable=True),
        _words("matter"),
        _day("until"),
        _words("reason"),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_snooze_entry_id_entry"), ondelete="CASCADE"
        ),
    )
    op.create_index(op.f("ix_snooze_athlete_id"), "snooze", ["athlete_id"])
    op.create_index(op.f("ix_snooze_entry_id"), "snooze", ["entry_id"])


def downgrade() -> None:
    """Going back is restoring the copy made before the migration."""
    msg = "restore the copy made before the migration"
    raise RuntimeError(msg)
