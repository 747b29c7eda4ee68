"""What goes on a printed week of training: days, exercises, sets, bar weights."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from coachdesk.domain.blocks.notation import exercise_name
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.loading import Disc
from coachdesk.domain.text import Text, text
from coachdesk.domain.training import Block, Exercise, PlannedSet, Purpose
from coachdesk.domain.units import Mass, Unit
from coachdesk.services.block_reading import DAYS, BlockPage, block_page
from coachdesk.services.desk import Desk


@dataclass(frozen=True, slots=True)
class SheetLine:
    """Equal sets of an exercise: what is planned, and the bar, where a weight is known."""

    exercise: Text
    planned: PlannedSet
    bar: Mass | None
    discs: tuple[Disc, ...]
    note: str


@dataclass(frozen=True, slots=True)
class SheetDay:
    """A training day with its sets in order."""

    on: date
    lines: tuple[SheetLine, ...]


@dataclass(frozen=True, slots=True)
class TrainingWeek:
    """A week of a block as it is printed, in the athlete's own unit.

    `maxima` are what the per cents mean; `meet` and its first day where the block leads to one.
    """

    athlete: str
    unit: Unit
    block: str
    purpose: Purpose
    week: int
    weeks: int
    first: date
    last: date
    maxima: tuple[tuple[Lift, Mass], ...]
    days: tuple[SheetDay, ...]
    meet: str
    meet_on: date | None
    printed_at: datetime


def training_week(desk: Desk, block_id: int, week: int) -> TrainingWeek:
    """A week of a block, 1 to its weeks; Trouble when the block is no longer on file.

    Raises InvalidInput: field "week" for one that the block does not have. What the coach notes of
    a day is the coach's own and not on it.
    """
    page = block_page(desk, block_id)
    if not 1 <= week <= page.block.weeks:
        raise InvalidInput("week", text("training.week_range", count=page.block.weeks))
    return TrainingWeek(
        athlete=page.athlete.name,
        unit=page.unit,
        block=page.block.name,
        purpose=page.block.purpose,
        week=week,
        weeks=page.block.weeks,
        first=page.day_of(week, 1),
        last=page.day_of(week, DAYS),
        maxima=tuple((lift, page.maxima[lift].weight) for lift in Lift if lift in page.maxima),
        days=_days(page, week),
        meet="" if page.meet is None else page.meet.name,
        meet_on=None if page.meet is None else page.meet.starts_on,
        printed_at=desk.now(),
    )


def week_on(block: Block, day: date) -> int | None:
    """The week of a block that holds a day, from 1; None outside the block."""
    week = (day - block.starts_on) // timedelta(days=DAYS) + 1
    return week if 1 <= week <= block.weeks else None


def _days(page: BlockPage, week: int) -> tuple[SheetDay, ...]:
    days = []
    for day in range(1, DAYS + 1):
        lines = tuple(
            _line(page, exercise, planned)
            for exercise in page.exercises
            if exercise.day == day
            for planned in page.cell(exercise.id, week)
        )
        if lines:
            days.append(SheetDay(page.day_of(week, day), lines))
    return tuple(days)


def _line(page: BlockPage, exercise: Exercise, planned: PlannedSet) -> SheetLine:
    loading = page.loading(exercise, planned)
    notes = (exercise.note, planned.note)
    return SheetLine(
        exercise=exercise_name(exercise),
        planned=planned,
        bar=None if loading is None else loading.total,
        discs=() if loading is None else loading.discs_per_side,
        note=" ".join(note for note in notes if note),
    )
