"""The tables of training: blocks, what is planned in them, what was lifted, what it comes to."""

from __future__ import annotations

from datetime import date
from typing import Any

from sqlalchemy import JSON, CheckConstraint, Column, Index, Named, Table, UniqueConstraint

from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.strength.forecast import Source
from coachdesk.domain.training import Purpose
from coachdesk.storage.column_kinds import Numbered, Versioned, one_of, owned_by, points_to
from coachdesk.storage.table_making import make_table


class BlockColumns(Versioned):
    """A training block."""

    athlete_id: Named[int] = owned_by("athlete")
    name: Named[str]
    purpose: Named[Purpose] = one_of(Purpose)
    starts_on: Named[date]
    weeks: Named[int]
    note: Named[str]
    meet_id: Named[int | None] = points_to("meet")
    disc_set_id: Named[int | None] = points_to("disc_set")


block = make_table("block", BlockColumns, CheckConstraint("weeks >= 1", name="weeks"))


class TrainingMaximumColumns(Versioned):
    """What the per cents of a lift mean throughout a block."""

    block_id: Named[int] = owned_by("block", index=False)
    lift: Named[Lift] = one_of(Lift)
    weight_g: Named[int]
    weight_entered: Named[str]


training_maximum = make_table(
    "training_maximum",
    TrainingMaximumColumns,
    UniqueConstraint("block_id", "lift"),
    CheckConstraint("weight_g > 0", name="weight_g"),
)


class ExerciseColumns(Versioned):
    """A lift or a variation of it on a day of every week of a block."""

    block_id: Named[int] = owned_by("block")
    day: Named[int]
    place: Named[int]
    lift: Named[Lift] = one_of(Lift)
    variation: Named[str]
    share: Named[float]
    note: Named[str]


exercise = make_table(
    "exercise",
    ExerciseColumns,
    CheckConstraint("day BETWEEN 1 AND 7", name="day"),
    CheckConstraint("share > 0", name="share"),
)


class PlannedSetColumns(Versioned):
    """So many equal sets of an exercise in a week of its block."""

    exercise_id: Named[int] = owned_by("exercise")
    week: Named[int]
    place: Named[int]
    sets: Named[int]
    reps: Named[int]
    percent: Named[float | None]
    weight_g: Named[int | None]
    weight_entered: Named[str | None]
    rir: Named[float | None]
    judged: Named[bool]
    note: Named[str]
    made: Named[str]


planned_set = make_table(
    "planned_set",
    PlannedSetColumns,
    CheckConstraint("week >= 1", name="week"),
    CheckConstraint("sets >= 1", name="sets"),
    CheckConstraint("reps >= 1", name="reps"),
    CheckConstraint("percent > 0", name="percent"),
    CheckConstraint("weight_g > 0", name="weight_g"),
    CheckConstraint("rir BETWEEN 0 AND 10", name="rir"),
    CheckConstraint("percent IS NULL OR weight_g IS NULL", name="one_weight"),
)


class EmptiedCellColumns(Versioned):
    """What the generator had written where a coach took it all out."""

    exercise_id: Named[int] = owned_by("exercise", index=False)
    week: Named[int]
    made: Named[str]


emptied_cell = make_table(
    "emptied_cell", EmptiedCellColumns, UniqueConstraint("exercise_id", "week")
)


class TrainingDayColumns(Versioned):
    """What is noted of a training day of a block."""

    block_id: Named[int] = owned_by("block", index=False)
    week: Named[int]
    day: Named[int]
    missed: Named[bool]
    note: Named[str]


training_day = make_table(
    "training_day", TrainingDayColumns, UniqueConstraint("block_id", "week", "day")
)


class LoggedSetColumns(Versioned):
    """A logged set."""

    athlete_id: Named[int] = owned_by("athlete", index=False)
    on: Named[date]
    lift: Named[Lift] = one_of(Lift)
    weight_g: Named[int]
    weight_entered: Named[str]
    reps: Named[int]
    rir: Named[float | None]
    variation: Named[str]
    judged: Named[bool]
    result: Named[Result | None] = one_of(Result)
    cause: Named[str]
    block_id: Named[int | None] = points_to("block")
    planned_set_id: Named[int | None] = points_to("planned_set")
    note: Named[str]


logged_set = make_table(
    "logged_set",
    LoggedSetColumns,
    Index(None, "athlete_id", "on"),
    CheckConstraint("weight_g > 0", name="weight_g"),
    CheckConstraint("reps >= 0", name="reps"),
    CheckConstraint("rir BETWEEN 0 AND 10", name="rir"),
)


class StrengthStateColumns(Numbered):
    """What is derived from an athlete's logged sets, clock-free; it can be made anew at any time.

    It goes when a logged set of the athlete changes (`recording`).
    """

    athlete_id: Named[int] = owned_by("athlete", index=False)
    content: Named[dict[str, Any]] = Column(JSON)


strength_state = make_table("strength_state", StrengthStateColumns, UniqueConstraint("athlete_id"))


class KeptForecastColumns(Numbered):
    """What was forecast of a lift of an entry on a day. What was said stays said, so this is not
    journalled."""

    entry_id: Named[int] = owned_by("entry", index=False)
    lift: Named[Lift] = one_of(Lift)
    made_on: Named[date]
    source: Named[Source] = one_of(Source)
    expected_g: Named[int]
    expected_entered: Named[str]
    error: Named[float]
    day: Named[float]


kept_forecast = make_table(
    "kept_forecast", KeptForecastColumns, UniqueConstraint("entry_id", "lift", "made_on")
)

TRAINING: tuple[Table[Versioned], ...] = (
    block, training_maximum, exercise, planned_set, emptied_cell, training_day,
    logged_set,
)  # fmt: skip
"""Those of them that are journalled, owners first."""
