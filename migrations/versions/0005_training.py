"""What is planned in a block, what a session came to, what strength comes to, kept forecasts.

Revision: 0005, after 0004.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None

_LAST = "SELECT seq FROM sqlite_sequence WHERE name = :name"
_FORGET = "DELETE FROM sqlite_sequence WHERE name = :name"
_SET_LAST = "INSERT INTO sqlite_sequence (name, seq) VALUES (:name, :last)"
_LIFTS = ("squat", "bench", "deadlift")
_SOURCES = ("own_number", "judged_singles", "sets", "last_meet")


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


def _number(name: str, *, may_lack: bool = False) -> sa.Column[object]:
    return sa.Column(name, sa.Integer(), nullable=may_lack)


def _fraction(name: str, *, may_lack: bool = False) -> sa.Column[object]:
    return sa.Column(name, sa.Double(), nullable=may_lack)


def _words(name: str, *, may_lack: bool = False) -> sa.Column[object]:
    return sa.Column(name, sa.String(), nullable=may_lack)


def _one_of(table: str, name: str, kind: str, members: tuple[str, ...]) -> sa.Column[object]:
    return sa.Column(
        name,
        sa.Enum(
            *members, name=op.f(f"ck_{table}_{kind}"), native_enum=False, create_constraint=True
        ),
        nullable=False,
    )


def _holds(table: str, name: str, rule: str) -> sa.CheckConstraint:
    return sa.CheckConstraint(rule, name=op.f(f"ck_{table}_{name}"))


def _add_pointer(table: str, to: str) -> None:
    """A row that stays, pointing nowhere, when the row of `to` goes.

    The table is rebuilt; the last id it gave is carried over, since ids are never used again.
    """
    last = op.get_bind().scalar(sa.text(_LAST), {"name": table})
    with op.batch_alter_table(table, table_kwargs={"sqlite_autoincrement": True}) as batch:
        batch.add_column(_number(f"{to}_id", may_lack=True))
        batch.create_foreign_key(
            op.f(f"fk_{table}_{to}_id_{to}"), to, [f"{to}_id"], ["id"], ondelete="SET NULL"
        )
    op.create_index(op.f(f"ix_{table}_{to}_id"), table, [f"{to}_id"])
    if last is not None:
        op.execute(sa.text(_FORGET).bindparams(name=table))
        op.execute(sa.text(_SET_LAST).bindparams(name=table, last=last))


def upgrade() -> None:
    _planned()
    _make(
        "strength_state",
        "athlete",
        sa.Column("content", sa.JSON(), nullable=False),
        sa.UniqueConstraint("athlete_id", name=op.f("uq_strength_state_athlete_id")),
        versioned=False,
    )
    _make(
        "kept_forecast",
        "entry",
        _one_of("kept_forecast", "lift", "lift", _LIFTS),
        sa.Column("made_on", sa.Date(), nullable=False),
        _one_of("kept_forecast", "source", "source", _SOURCES),
        _number("expected_g"),
        _words("expected_entered"),
        _fraction("error"),
        _fraction("day"),
        sa.UniqueConstraint(
            "entry_id", "lift", "made_on", name=op.f("uq_kept_forecast_entry_id_lift_made_on")
        ),
        versioned=False,
    )
    _add_pointer("block", "meet")
    _add_pointer("block", "disc_set")
    _add_pointer("logged_set", "planned_set")


def _planned() -> None:
    _make(
        "training_maximum",
        "block",
        _one_of("training_maximum", "lift", "lift", _LIFTS),
        _number("weight_g"),
        _words("weight_entered"),
        sa.UniqueConstraint("block_id", "lift", name=op.f("uq_training_maximum_block_id_lift")),
        _holds("training_maximum", "weight_g", "weight_g > 0"),
    )
    _make(
        "exercise",
        "block",
        _number("day"),
        _number("place"),
        _one_of("exercise", "lift", "lift", _LIFTS),
        _words("variation"),
        _fraction("share"),
        _words("note"),
        _holds("exercise", "day", "day BETWEEN 1 AND 7"),
        _holds("exercise", "share", "share > 0"),
    )
    op.create_index(op.f("ix_exercise_block_id"), "exercise", ["block_id"])
    _make(
        "planned_set",
        "exercise",
        *(_number(name) for name in ("week", "place", "sets", "reps")),
        _fraction("percent", may_lack=True),
        _number("weight_g", may_lack=True),
        _words("weight_entered", may_lack=True),
        _fraction("rir", may_lack=True),
        sa.Column("judged", sa.Boolean(), nullable=False),
        _words("note"),
        _words("made"),
        _holds("planned_set", "week", "week >= 1"),
        _holds("planned_set", "sets", "sets >= 1"),
        _holds("planned_set", "reps", "reps >= 1"),
        _holds("planned_set", "percent", "percent > 0"),
        _holds("planned_set", "weight_g", "weight_g > 0"),
        _holds("planned_set", "rir", "rir BETWEEN 0 AND 10"),
        _holds("planned_set", "one_weight", "percent IS NULL OR weight_g IS NULL"),
    )
    op.create_index(op.f("ix_planned_set_exercise_id"), "planned_set", ["exercise_id"])
    _make(
        "emptied_cell",
        "exercise",
        _number("week"),
        _words("made"),
        sa.UniqueConstraint("exercise_id", "week", name=op.f("uq_emptied_cell_exercise_id_week")),
    )
    _make(
        "training_day",
        "block",
        _number("week"),
        _number("day"),
        sa.Column("missed", sa.Boolean(), nullable=False),
        _words("note"),
        sa.UniqueConstraint(
            "block_id", "week", "day", name=op.f("uq_training_day_block_id_week_day")
        ),
    )


def downgrade() -> None:
    """Going back is restoring the copy made before the migration."""
    msg = "restore the copy made before the migration"
    raise RuntimeError(msg)
