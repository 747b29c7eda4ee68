"""Reading training blocks with all that belongs to them, in a constant number of statements."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

from sqlalchemy import and_, func, or_, select

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.disc_set import DiscSet
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.training import (
    Block,
    EmptiedCell,
    Exercise,
    LoggedSet,
    PlannedSet,
    TrainingDay,
    TrainingMaximum,
)
from coachdesk.storage import tables
from coachdesk.storage.store import Reader
from coachdesk.storage.training_tables import (
    block,
    emptied_cell,
    exercise,
    logged_set,
    planned_set,
    training_day,
    training_maximum,
)

_DAYS = 7


@dataclass(frozen=True, slots=True)
class BlockRecord:
    """A block and what belongs to it.

    `exercises` by day and place; `planned` by week and place; `logged` are the sets linked to the
    block or to its plan, and those of its days that are linked to no block, by day.
    """

    block: Block
    athlete: Athlete
    meet: Meet | None
    maxima: tuple[TrainingMaximum, ...]
    exercises: tuple[Exercise, ...]
    planned: tuple[PlannedSet, ...]
    emptied: tuple[EmptiedCell, ...]
    days: tuple[TrainingDay, ...]
    logged: tuple[LoggedSet, ...]
    disc_sets: tuple[DiscSet, ...]


def block_record(reader: Reader, block_id: int) -> BlockRecord:
    """Read a block; Trouble when it is no longer on file."""
    found = reader.get(Block, block_id)
    meets = reader.list(Meet, tables.meet.c.id == found.meet_id)
    return BlockRecord(
        block=found,
        athlete=reader.get(Athlete, found.athlete_id),
        meet=meets[0] if meets else None,
        maxima=reader.list(TrainingMaximum, training_maximum.c.block_id == block_id),
        exercises=exercises_of(reader, block_id),
        planned=planned_of(reader, block_id),
        emptied=emptied_of(reader, block_id),
        days=reader.list(TrainingDay, training_day.c.block_id == block_id),
        logged=_logged(reader, found),
        disc_sets=reader.list(DiscSet),
    )


def exercises_of(reader: Reader, block_id: int) -> tuple[Exercise, ...]:
    """The exercises of a block by day and place."""
    order = (exercise.c.day, exercise.c.place)
    return reader.list(Exercise, exercise.c.block_id == block_id, order=order)


def planned_of(reader: Reader, block_id: int) -> tuple[PlannedSet, ...]:
    """The planned sets of a block by week and place."""
    own = select(exercise.c.id).where(exercise.c.block_id == block_id)
    order = (planned_set.c.week, planned_set.c.place)
    return reader.list(PlannedSet, planned_set.c.exercise_id.in_(own), order=order)


def emptied_of(reader: Reader, block_id: int) -> tuple[EmptiedCell, ...]:
    """The cells of a block that the generator filled and a coach emptied."""
    own = select(exercise.c.id).where(exercise.c.block_id == block_id)
    return reader.list(EmptiedCell, emptied_cell.c.exercise_id.in_(own))


def last_planned_week(reader: Reader, block_id: int) -> int:
    """The last week of a block with a planned set or a noted day; 0 without any."""
    own = select(exercise.c.id).where(exercise.c.block_id == block_id)
    week = func.max(planned_set.c.week)
    planned = select(week).where(planned_set.c.exercise_id.in_(own))
    noted = select(func.max(training_day.c.week)).where(training_day.c.block_id == block_id)
    found = (reader.connection.execute(each).scalar() for each in (planned, noted))
    return max(each or 0 for each in found)


def blocks_by_start(reader: Reader, athlete_id: int) -> tuple[Block, ...]:
    """The blocks of an athlete, the first to start first."""
    column = block.c
    return reader.list(Block, column.athlete_id == athlete_id, order=(column.starts_on,))


def is_entered(reader: Reader, athlete_id: int, meet_id: int) -> bool:
    """Whether an athlete is entered in a meet."""
    column = tables.entry.c
    return bool(reader.list(Entry, column.athlete_id == athlete_id, column.meet_id == meet_id))


def _logged(reader: Reader, found: Block) -> tuple[LoggedSet, ...]:
    column = logged_set.c
    last = found.starts_on + timedelta(days=_DAYS * found.weeks - 1)
    own = select(exercise.c.id).where(exercise.c.block_id == found.id)
    planned = select(planned_set.c.id).where(planned_set.c.exercise_id.in_(own))
    loose = and_(column.block_id.is_(None), column.on.between(found.starts_on, last))
    ours = or_(column.block_id == found.id, column.planned_set_id.in_(planned), loose)
    return reader.list(LoggedSet, column.athlete_id == found.athlete_id, ours, order=(column.on,))
