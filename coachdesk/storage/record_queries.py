"""Reading all that is on file about one athlete, in a constant number of statements."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select

from coachdesk.domain.athlete import Athlete, CycleNoteRecord, Reading
from coachdesk.domain.meet import Attempt, Entry, Meet
from coachdesk.domain.training import (
    Block,
    Exercise,
    LoggedSet,
    PlannedSet,
    TrainingDay,
    TrainingMaximum,
)
from coachdesk.storage import readiness_tables, tables, training_tables
from coachdesk.storage.store import Reader


@dataclass(frozen=True, slots=True)
class WholeRecord:
    """An athlete with what belongs to them, each kind in the order of its days or places."""

    athlete: Athlete
    readings: tuple[Reading, ...]
    cycle_notes: tuple[CycleNoteRecord, ...]
    logged: tuple[LoggedSet, ...]
    blocks: tuple[Block, ...]
    maxima: tuple[TrainingMaximum, ...]
    exercises: tuple[Exercise, ...]
    planned: tuple[PlannedSet, ...]
    days: tuple[TrainingDay, ...]
    meets: tuple[Meet, ...]
    entries: tuple[Entry, ...]
    attempts: tuple[Attempt, ...]


def whole_record(reader: Reader, athlete_id: int) -> WholeRecord:
    """Read all about an athlete; Trouble when there is none (any more)."""
    reading, cycle = tables.reading.c, readiness_tables.cycle_note.c
    logged, block = training_tables.logged_set.c, training_tables.block.c
    maximum, exercise = training_tables.training_maximum.c, training_tables.exercise.c
    planned, day = training_tables.planned_set.c, training_tables.training_day.c
    entry, attempt, meet = tables.entry.c, tables.attempt.c, tables.meet.c
    blocks = select(block.id).where(block.athlete_id == athlete_id)
    exercises = select(exercise.id).where(exercise.block_id.in_(blocks))
    entries = select(entry.id).where(entry.athlete_id == athlete_id)
    meets = select(entry.meet_id).where(entry.athlete_id == athlete_id)
    by_place = (planned.exercise_id, planned.week, planned.place)
    by_turn = (attempt.entry_id, attempt.lift, attempt.number, attempt.take)
    return WholeRecord(
        athlete=reader.get(Athlete, athlete_id),
        readings=reader.list(
            Reading, reading.athlete_id == athlete_id, order=(reading.on, reading.id)
        ),
        cycle_notes=reader.list(
            CycleNoteRecord, cycle.athlete_id == athlete_id, order=(cycle.first,)
        ),
        logged=reader.list(
            LoggedSet, logged.athlete_id == athlete_id, order=(logged.on, logged.id)
        ),
        blocks=reader.list(Block, block.athlete_id == athlete_id, order=(block.starts_on,)),
        maxima=reader.list(TrainingMaximum, maximum.block_id.in_(blocks), order=(maximum.id,)),
        exercises=reader.list(
            Exercise,
            exercise.block_id.in_(blocks),
            order=(exercise.block_id, exercise.day, exercise.place),
        ),
        planned=reader.list(PlannedSet, planned.exercise_id.in_(exercises), order=by_place),
        days=reader.list(
            TrainingDay, day.block_id.in_(blocks), order=(day.block_id, day.week, day.day)
        ),
        meets=reader.list(Meet, meet.id.in_(meets), order=(meet.starts_on,)),
        entries=reader.list(Entry, entry.athlete_id == athlete_id, order=(entry.id,)),
        attempts=reader.list(Attempt, attempt.entry_id.in_(entries), order=by_turn),
    )
