"""Use cases about training blocks: the block, its training maxima, its exercises, its days."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from coachdesk.domain.blocks.checks import check_exercise, check_training_day
from coachdesk.domain.blocks.notation import exercise_name
from coachdesk.domain.checks import check_block, check_lifted
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import Text, text
from coachdesk.domain.training import (
    Block,
    BlockData,
    Exercise,
    ExerciseData,
    TrainingDay,
    TrainingDayData,
    TrainingMaximum,
    TrainingMaximumData,
)
from coachdesk.domain.units import Mass
from coachdesk.services.desk import Desk, Done
from coachdesk.storage.block_queries import exercises_of, last_planned_week
from coachdesk.storage.store import Work
from coachdesk.storage.training_tables import exercise, training_day, training_maximum


def add_block(desk: Desk, data: BlockData) -> Done[int]:
    """Start a training block; answers its id."""
    check_block(data)
    with desk.action(text("did.add_block", name=data.name)) as work:
        block_id = work.insert(data)
        return Done(block_id, work.changes())


def edit_block(desk: Desk, seen: Block, data: BlockData) -> Done[None]:
    """Replace what is on file about a block that still is as it was `seen`.

    It stays the athlete's. Raises InvalidInput (field "weeks") when weeks would go that hold
    planned sets or notes: nothing planned is dropped unseen.
    """
    check_block(data)
    with desk.action(text("did.edit_block", name=data.name)) as work:
        last = last_planned_week(work, seen.id)
        if data.weeks < last:
            raise InvalidInput("weeks", text("check.weeks_planned", week=last))
        work.update(seen.id, seen.version, replace(data, athlete_id=seen.athlete_id))
        return Done(None, work.changes())


def delete_blocks(desk: Desk, many: Sequence[Block]) -> Done[None]:
    """Delete blocks with what is planned in them; logged sets stay. It can be undone."""
    with desk.action(text("did.delete_blocks", count=len(many))) as work:
        for each in many:
            work.delete(Block, each.id, each.version)
        return Done(None, work.changes())


def set_maxima(desk: Desk, block_id: int, maxima: Mapping[Lift, Mass | None]) -> Done[None]:
    """Say what the per cents of lifts mean in a block; None takes it back, and a lift that is not
    named stays as it is.

    A fault is at the field "maximum_" and the lift.
    """
    for lift, weight in maxima.items():
        if weight is not None:
            check_lifted(f"maximum_{lift}", weight)
    with desk.action(_maxima_label(maxima)) as work:
        work.get(Block, block_id)
        column = training_maximum.c
        present = work.list(TrainingMaximum, column.block_id == block_id)
        known = {each.lift: each for each in present}
        for lift, weight in maxima.items():
            _set_maximum(work, block_id, lift, weight, known.get(lift))
        return Done(None, work.changes())


def add_exercise(desk: Desk, data: ExerciseData) -> Done[int]:
    """Add an exercise as the last of its day, whatever its place; answers its id."""
    data = _tidied(data)
    with desk.action(text("did.add_exercise", lift=exercise_name(data))) as work:
        block = work.get(Block, data.block_id)
        exercise_id = work.insert(replace(data, place=_next_place(work, block.id, data.day)))
        return Done(exercise_id, work.changes())


def edit_exercise(desk: Desk, seen: Exercise, data: ExerciseData) -> Done[None]:
    """Replace an exercise that still is as it was `seen`; on another day it becomes the last."""
    data = _tidied(replace(data, block_id=seen.block_id, place=seen.place))
    with desk.action(text("did.edit_exercise", lift=exercise_name(data))) as work:
        if data.day != seen.day:
            data = replace(data, place=_next_place(work, seen.block_id, data.day))
        work.update(seen.id, seen.version, data)
        return Done(None, work.changes())


def delete_exercises(desk: Desk, many: Sequence[Exercise]) -> Done[None]:
    """Delete exercises with what is planned of them; logged sets stay. It can be undone."""
    with desk.action(text("did.delete_exercises", count=len(many))) as work:
        for each in many:
            work.delete(Exercise, each.id, each.version)
        return Done(None, work.changes())


def move_exercise(desk: Desk, seen: Exercise, *, day: int, place: int) -> Done[None]:
    """Put an exercise at a place of a day, from 1; the others of that day make room.

    A place beyond the last is the last. Raises InvalidInput (field "day") for no day of the week.
    """
    check_exercise(replace(seen, day=day))
    with desk.action(text("did.move_exercise", lift=exercise_name(seen))) as work:
        there = [
            each
            for each in exercises_of(work, seen.block_id)
            if each.day == day and each.id != seen.id
        ]
        there.insert(max(place, 1) - 1, seen)
        for at, each in enumerate(there, start=1):
            if (each.day, each.place) != (day, at):
                work.set(exercise, each.id, each.version, day=day, place=at)
        return Done(None, work.changes())


def note_day(
    desk: Desk, block_id: int, week: int, day: int, *, missed: bool, note: str
) -> Done[None]:
    """Note that a training day was missed, or words about it; neither takes the note away."""
    data = TrainingDayData(block_id=block_id, week=week, day=day, missed=missed, note=note.strip())
    with desk.action(text("did.note_day", day=day, week=week)) as work:
        check_training_day(data, work.get(Block, block_id))
        column = training_day.c
        here = (column.block_id == block_id, column.week == week, column.day == day)
        present = work.list(TrainingDay, *here)
        noted = missed or bool(data.note)
        for each in present:
            if not noted:
                work.delete(TrainingDay, each.id, each.version)
            elif (each.missed, each.note) != (missed, data.note):
                work.update(each.id, each.version, data)
        if noted and not present:
            work.insert(data)
        return Done(None, work.changes())


def _maxima_label(maxima: Mapping[Lift, Mass | None]) -> Text:
    lifts = tuple(text(f"lift.{lift}") for lift in maxima)
    if len(lifts) == 1:
        return text("did.set_maximum", lift=lifts[0])
    return text("did.set_maxima", lifts=lifts)


def _set_maximum(
    work: Work, block_id: int, lift: Lift, weight: Mass | None, present: TrainingMaximum | None
) -> None:
    if weight is None:
        if present is not None:
            work.delete(TrainingMaximum, present.id, present.version)
        return
    data = TrainingMaximumData(block_id=block_id, lift=lift, weight=weight)
    if present is None:
        work.insert(data)
    elif present.weight != weight:
        work.update(present.id, present.version, data)


def _tidied(data: ExerciseData) -> ExerciseData:
    data = replace(data, variation=data.variation.strip(), note=data.note.strip())
    check_exercise(data)
    return data


def _next_place(work: Work, block_id: int, day: int) -> int:
    places = (each.place for each in exercises_of(work, block_id) if each.day == day)
    return max(places, default=0) + 1
