"""What goes on printed training sheets, gathered from what is planned in a block.

The sheets are the athlete's own: neither the coach's notes about block and days nor anything
personal is on them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, datetime

from coachdesk.domain.blocks.notation import Prescription, exercise_name, prescription_of
from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import Text, text
from coachdesk.domain.training import Block, Exercise
from coachdesk.domain.units import Mass, Unit
from coachdesk.services.block_reading import DAYS, BlockPage, block_page, blocks_of
from coachdesk.services.desk import Desk


@dataclass(frozen=True, slots=True)
class SheetSets:
    """Equal sets; `weight` is what goes on the bar, None where it is left to the athlete."""

    planned: Prescription
    weight: Mass | None
    note: str


@dataclass(frozen=True, slots=True)
class SheetExercise:
    """An exercise with its sets on one day."""

    name: Text
    note: str
    sets: tuple[SheetSets, ...]


@dataclass(frozen=True, slots=True)
class SheetDay:
    """A day something is planned on."""

    on: date
    exercises: tuple[SheetExercise, ...]


@dataclass(frozen=True, slots=True)
class SheetWeek:
    """A week of the block, counted from 1."""

    number: int
    first: date
    last: date
    days: tuple[SheetDay, ...]


@dataclass(frozen=True, slots=True)
class TrainingSheet:
    """The sheets of an athlete's weeks. `maxima` are what per cents are of, as far as some are."""

    athlete: str
    unit: Unit
    block: str
    weeks_in_block: int
    meet: str
    meet_on: date | None
    maxima: tuple[tuple[Lift, Mass], ...]
    weeks: tuple[SheetWeek, ...]
    printed_at: datetime


def training_sheet(desk: Desk, block_id: int, weeks: Collection[int]) -> TrainingSheet:
    """The sheets of these weeks of a block, in their order; weeks without a plan are left out.

    Raises Trouble when nothing is planned in any of them.
    """
    page = block_page(desk, block_id)
    made = [_week(page, week) for week in sorted(set(weeks)) if 1 <= week <= page.block.weeks]
    planned = tuple(week for week in made if week.days)
    if not planned:
        named = ", ".join(map(str, sorted(set(weeks))))
        raise Trouble(text("training.nothing", block=page.block.name, weeks=named))
    return TrainingSheet(
        athlete=page.athlete.name,
        unit=page.unit,
        block=page.block.name,
        weeks_in_block=page.block.weeks,
        meet="" if page.meet is None else page.meet.name,
        meet_on=None if page.meet is None else page.meet.starts_on,
        maxima=_maxima(page, planned),
        weeks=planned,
        printed_at=desk.now(),
    )


def find_week(desk: Desk, athlete_id: int, wanted: str) -> tuple[int, int]:
    """The block's id and the week that "2026-11-26" or "3" means of an athlete's blocks.

    A number counts the weeks of the block that is under way, else of the next to come, else of the
    last. Where blocks overlap, the last to start counts. Raises Trouble when there is no such week.
    """
    blocks = blocks_of(desk, athlete_id)
    if not blocks:
        raise Trouble(text("training.no_block"))
    if wanted.strip().isdecimal():
        return _numbered(blocks, int(wanted), desk.today())
    try:
        day = date.fromisoformat(wanted.strip())
    except ValueError as error:
        raise Trouble(text("training.week_unread", week=wanted)) from error
    around = _on(blocks, day)
    if around is None:
        raise Trouble(text("training.no_block_on", day=day))
    return around.id, (day - around.starts_on).days // DAYS + 1


def _numbered(blocks: Iterable[Block], week: int, today: date) -> tuple[int, int]:
    ordered = tuple(blocks)
    to_come = [each for each in ordered if each.starts_on > today]
    chosen = _on(ordered, today) or next(iter((*to_come, ordered[-1])))
    if not 1 <= week <= chosen.weeks:
        raise Trouble(text("training.week_range", block=chosen.name, count=chosen.weeks))
    return chosen.id, week


def _on(blocks: Iterable[Block], day: date) -> Block | None:
    """The block a day is in."""
    return next(
        (
            each
            for each in sorted(blocks, key=lambda each: each.starts_on, reverse=True)
            if 0 <= (day - each.starts_on).days < DAYS * each.weeks
        ),
        None,
    )


def _week(page: BlockPage, week: int) -> SheetWeek:
    days = (_day(page, week, day) for day in range(1, DAYS + 1))
    return SheetWeek(
        number=week,
        first=page.day_of(week, 1),
        last=page.day_of(week, DAYS),
        days=tuple(day for day in days if day.exercises),
    )


def _day(page: BlockPage, week: int, day: int) -> SheetDay:
    exercises = tuple(
        SheetExercise(exercise_name(each), each.note, _sets(page, each, week))
        for each in page.exercises
        if each.day == day and page.cell(each.id, week)
    )
    return SheetDay(page.day_of(week, day), exercises)


def _sets(page: BlockPage, exercise: Exercise, week: int) -> tuple[SheetSets, ...]:
    return tuple(
        SheetSets(prescription_of(each), page.bar_weight(exercise, each), each.note)
        for each in page.cell(exercise.id, week)
    )


def _maxima(page: BlockPage, weeks: Iterable[SheetWeek]) -> tuple[tuple[Lift, Mass], ...]:
    """The training maxima, where some per cent is of them."""
    numbers = {week.number for week in weeks}
    lifts = {
        each.lift
        for each in page.exercises
        for week in numbers
        if any(planned.percent is not None for planned in page.cell(each.id, week))
    }
    return tuple(
        (lift, page.maxima[lift].weight) for lift in Lift if lift in lifts & set(page.maxima)
    )
