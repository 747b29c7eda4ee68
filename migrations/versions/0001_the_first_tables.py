"""The first tables.

Revision: 0001, after None.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "athlete",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("given_name", sa.String(), nullable=False),
        sa.Column("family_name", sa.String(), nullable=False),
        sa.Column(
            "sex",
            sa.Enum("female", "male", name="sex", native_enum=False, create_constraint=True),
            nullable=False,
        ),
        sa.Column("birth_date", sa.Date(), nullable=True),
        sa.Column(
            "unit",
            sa.Enum("kg", "lb", name="unit", native_enum=False, create_constraint=True),
            nullable=False,
        ),
        sa.Column(
            "equipment",
            sa.Enum(
                "classic", "equipped", name="equipment", native_enum=False, create_constraint=True
            ),
            nullable=False,
        ),
        sa.Column("height_cm", sa.Integer(), nullable=True),
        sa.Column("meets_before", sa.Integer(), nullable=False),
        sa.Column(
            "loss_bar",
            sa.Enum(
                "none",
                "pregnancy",
                "illness",
                "other",
                name="loss_bar",
                native_enum=False,
                create_constraint=True,
            ),
            nullable=False,
        ),
        sa.Column("member_number", sa.String(), nullable=False),
        sa.Column("member_until", sa.Date(), nullable=True),
        sa.Column("squat_rack", sa.String(), nullable=False),
        sa.Column("bench_rack", sa.String(), nullable=False),
        sa.Column("bench_safety", sa.String(), nullable=False),
        sa.Column("bench_lift_off", sa.Boolean(), nullable=False),
        sa.Column("bench_foot_blocks", sa.String(), nullable=False),
        sa.Column("squat_cue", sa.String(), nullable=False),
        sa.Column("bench_cue", sa.String(), nullable=False),
        sa.Column("deadlift_cue", sa.String(), nullable=False),
        sa.Column("email", sa.String(), nullable=False),
        sa.Column("phone", sa.String(), nullable=False),
        sa.Column("emergency_contact", sa.String(), nullable=False),
        sa.Column("health_note", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.Column("archived", sa.Boolean(), nullable=False),
        sa.CheckConstraint("height_cm BETWEEN 80 AND 260", name=op.f("ck_athlete_height_cm")),
        sa.CheckConstraint("meets_before >= 0", name=op.f("ck_athlete_meets_before")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_athlete")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "handler",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("phone", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_handler")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "journal_action",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.String(), nullable=False),
        sa.Column("label", sa.JSON(), nullable=False),
        sa.Column("undone", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_journal_action")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "meet",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("starts_on", sa.Date(), nullable=False),
        sa.Column("rulebook", sa.String(), nullable=False),
        sa.Column("time_zone", sa.String(), nullable=False),
        sa.Column("place", sa.String(), nullable=False),
        sa.Column("entry_deadline", sa.Date(), nullable=True),
        sa.Column("note", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_meet")),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("meet", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_meet_starts_on"), ["starts_on"], unique=False)

    op.create_table(
        "block",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column(
            "purpose",
            sa.Enum(
                "volume",
                "intensity",
                "peak",
                "taper",
                "general",
                name="purpose",
                native_enum=False,
                create_constraint=True,
            ),
            nullable=False,
        ),
        sa.Column("starts_on", sa.Date(), nullable=False),
        sa.Column("weeks", sa.Integer(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.CheckConstraint("weeks >= 1", name=op.f("ck_block_weeks")),
        sa.ForeignKeyConstraint(
            ["athlete_id"],
            ["athlete.id"],
            name=op.f("fk_block_athlete_id_athlete"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_block")),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("block", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_block_athlete_id"), ["athlete_id"], unique=False)

    op.create_table(
        "journal_change",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("action_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("row_id", sa.Integer(), nullable=False),
        sa.Column("before", sa.String(), nullable=True),
        sa.Column("after", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(
            ["action_id"],
            ["journal_action.id"],
            name=op.f("fk_journal_change_action_id_journal_action"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_journal_change")),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("journal_change", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_journal_change_action_id"), ["action_id"], unique=False
        )

    op.create_table(
        "reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("at", sa.Time(), nullable=True),
        sa.Column("weight_g", sa.Integer(), nullable=False),
        sa.Column("weight_entered", sa.String(), nullable=False),
        sa.Column(
            "dress",
            sa.Enum(
                "unknown",
                "undressed",
                "light",
                "dressed",
                name="dress",
                native_enum=False,
                create_constraint=True,
            ),
            nullable=False,
        ),
        sa.Column("scale", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=False),
        sa.CheckConstraint("weight_g > 0", name=op.f("ck_reading_weight_g")),
        sa.ForeignKeyConstraint(
            ["athlete_id"],
            ["athlete.id"],
            name=op.f("fk_reading_athlete_id_athlete"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reading")),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("reading", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_reading_athlete_id_on"), ["athlete_id", "on"], unique=False
        )

    op.create_table(
        "session",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("meet_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("starts_at", sa.DateTime(), nullable=False),
        sa.Column("weigh_in_opens", sa.DateTime(), nullable=True),
        sa.Column("weigh_in_closes", sa.DateTime(), nullable=True),
        sa.Column("platform", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["meet_id"], ["meet.id"], name=op.f("fk_session_meet_id_meet"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_session")),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("session", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_session_meet_id"), ["meet_id"], unique=False)

    op.create_table(
        "entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("meet_id", sa.Integer(), nullable=False),
        sa.Column(
            "event",
            sa.Enum(
                "three_lift",
                "push_pull",
                "squat_only",
                "bench_only",
                "deadlift_only",
                name="event",
                native_enum=False,
                create_constraint=True,
            ),
            nullable=False,
        ),
        sa.Column(
            "equipment",
            sa.Enum(
                "classic", "equipped", name="equipment", native_enum=False, create_constraint=True
            ),
            nullable=False,
        ),
        sa.Column("divisions", sa.JSON(), nullable=False),
        sa.Column("weight_class", sa.String(), nullable=True),
        sa.Column("comes_down", sa.Boolean(), nullable=False),
        sa.Column("session_id", sa.Integer(), nullable=True),
        sa.Column("lot", sa.Integer(), nullable=True),
        sa.Column("bodyweight_g", sa.Integer(), nullable=True),
        sa.Column("bodyweight_entered", sa.String(), nullable=True),
        sa.Column("expected_squat_g", sa.Integer(), nullable=True),
        sa.Column("expected_squat_entered", sa.String(), nullable=True),
        sa.Column("expected_bench_g", sa.Integer(), nullable=True),
        sa.Column("expected_bench_entered", sa.String(), nullable=True),
        sa.Column("expected_deadlift_g", sa.Integer(), nullable=True),
        sa.Column("expected_deadlift_entered", sa.String(), nullable=True),
        sa.Column("withdrawn", sa.Boolean(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=True),
        sa.Column("note", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["athlete_id"],
            ["athlete.id"],
            name=op.f("fk_entry_athlete_id_athlete"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["meet_id"], ["meet.id"], name=op.f("fk_entry_meet_id_meet"), ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["session_id"],
            ["session.id"],
            name=op.f("fk_entry_session_id_session"),
            ondelete="SET NULL",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_entry")),
        sa.UniqueConstraint(
            "athlete_id",
            "meet_id",
            "event",
            "equipment",
            name=op.f("uq_entry_athlete_id_meet_id_event_equipment"),
        ),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("entry", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_entry_meet_id"), ["meet_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_entry_session_id"), ["session_id"], unique=False)

    op.create_table(
        "flight",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("session_id", sa.Integer(), nullable=False),
        sa.Column(
            "lift",
            sa.Enum(
                "squat", "bench", "deadlift", name="lift", native_enum=False, create_constraint=True
            ),
            nullable=False,
        ),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("lifters", sa.Integer(), nullable=True),
        sa.CheckConstraint("lifters >= 1", name=op.f("ck_flight_lifters")),
        sa.ForeignKeyConstraint(
            ["session_id"],
            ["session.id"],
            name=op.f("fk_flight_session_id_session"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_flight")),
        sa.UniqueConstraint(
            "session_id", "lift", "position", name=op.f("uq_flight_session_id_lift_position")
        ),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "logged_set",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("athlete_id", sa.Integer(), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column(
            "lift",
            sa.Enum(
                "squat", "bench", "deadlift", name="lift", native_enum=False, create_constraint=True
            ),
            nullable=False,
        ),
        sa.Column("weight_g", sa.Integer(), nullable=False),
        sa.Column("weight_entered", sa.String(), nullable=False),
        sa.Column("reps", sa.Integer(), nullable=False),
        sa.Column("rir", sa.Double(), nullable=True),
        sa.Column("variation", sa.String(), nullable=False),
        sa.Column("judged", sa.Boolean(), nullable=False),
        sa.Column(
            "result",
            sa.Enum(
                "good",
                "no_lift",
                "void",
                "passed",
                name="result",
                native_enum=False,
                create_constraint=True,
            ),
            nullable=True,
        ),
        sa.Column("cause", sa.String(), nullable=False),
        sa.Column("block_id", sa.Integer(), nullable=True),
        sa.Column("note", sa.String(), nullable=False),
        sa.CheckConstraint("reps >= 0", name=op.f("ck_logged_set_reps")),
        sa.CheckConstraint("rir BETWEEN 0 AND 10", name=op.f("ck_logged_set_rir")),
        sa.CheckConstraint("weight_g > 0", name=op.f("ck_logged_set_weight_g")),
        sa.ForeignKeyConstraint(
            ["athlete_id"],
            ["athlete.id"],
            name=op.f("fk_logged_set_athlete_id_athlete"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["block_id"],
            ["block.id"],
            name=op.f("fk_logged_set_block_id_block"),
            ondelete="SET NULL",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_logged_set")),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("logged_set", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_logged_set_athlete_id_on"), ["athlete_id", "on"], unique=False
        )
        batch_op.create_index(batch_op.f("ix_logged_set_block_id"), ["block_id"], unique=False)

    op.create_table(
        "attempt",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column(
            "lift",
            sa.Enum(
                "squat", "bench", "deadlift", name="lift", native_enum=False, create_constraint=True
            ),
            nullable=False,
        ),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("take", sa.Integer(), nullable=False),
        sa.Column("weight_g", sa.Integer(), nullable=False),
        sa.Column("weight_entered", sa.String(), nullable=False),
        sa.Column(
            "result",
            sa.Enum(
                "good",
                "no_lift",
                "void",
                "passed",
                name="result",
                native_enum=False,
                create_constraint=True,
            ),
            nullable=True,
        ),
        sa.Column("lights", sa.String(), nullable=False),
        sa.Column(
            "seen",
            sa.Enum(
                "easy",
                "as_planned",
                "grind",
                name="seen",
                native_enum=False,
                create_constraint=True,
            ),
            nullable=True,
        ),
        sa.Column("cause", sa.String(), nullable=False),
        sa.CheckConstraint("number BETWEEN 1 AND 4", name=op.f("ck_attempt_number")),
        sa.CheckConstraint("weight_g > 0", name=op.f("ck_attempt_weight_g")),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_attempt_entry_id_entry"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_attempt")),
        sa.UniqueConstraint(
            "entry_id", "lift", "number", "take", name=op.f("uq_attempt_entry_id_lift_number_take")
        ),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "entry_flight",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("flight_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"],
            ["entry.id"],
            name=op.f("fk_entry_flight_entry_id_entry"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["flight_id"],
            ["flight.id"],
            name=op.f("fk_entry_flight_flight_id_flight"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_entry_flight")),
        sa.UniqueConstraint(
            "entry_id", "flight_id", name=op.f("uq_entry_flight_entry_id_flight_id")
        ),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("entry_flight", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_entry_flight_flight_id"), ["flight_id"], unique=False)

    op.create_table(
        "handler_duty",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("handler_id", sa.Integer(), nullable=False),
        sa.Column(
            "role",
            sa.Enum(
                "handling",
                "table",
                "loading",
                "wraps",
                name="role",
                native_enum=False,
                create_constraint=True,
            ),
            nullable=False,
        ),
        sa.ForeignKeyConstraint(
            ["entry_id"],
            ["entry.id"],
            name=op.f("fk_handler_duty_entry_id_entry"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["handler_id"],
            ["handler.id"],
            name=op.f("fk_handler_duty_handler_id_handler"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_handler_duty")),
        sa.UniqueConstraint(
            "entry_id", "handler_id", "role", name=op.f("uq_handler_duty_entry_id_handler_id_role")
        ),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("handler_duty", schema=None) as batch_op:
        batch_op.create_index(
            batch_op.f("ix_handler_duty_handler_id"), ["handler_id"], unique=False
        )

    op.create_table(
        "plan_snapshot",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.String(), nullable=False),
        sa.Column("content", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"],
            ["entry.id"],
            name=op.f("fk_plan_snapshot_entry_id_entry"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plan_snapshot")),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("plan_snapshot", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_plan_snapshot_entry_id"), ["entry_id"], unique=False)

    op.create_table(
        "printing",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("meet_id", sa.Integer(), nullable=False),
        sa.Column("entry_id", sa.Integer(), nullable=True),
        sa.Column("printed_at", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["entry.id"], name=op.f("fk_printing_entry_id_entry"), ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["meet_id"], ["meet.id"], name=op.f("fk_printing_meet_id_meet"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_printing")),
        sqlite_autoincrement=True,
    )
    with op.batch_alter_table("printing", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_printing_entry_id"), ["entry_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_printing_meet_id"), ["meet_id"], unique=False)


def downgrade() -> None:
    """Going back is restoring the copy made before the migration."""
    msg = "restore the copy made before the migration"
    raise RuntimeError(msg)
