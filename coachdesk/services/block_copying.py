"""Copying a training block, to the same athlete or to another one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from coachdesk.domain.blocks.notation import as_made
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import text
from coachdesk.domain.training import (
    BlockData,
    Exercise,
    ExerciseData,
    PlannedSet,
    PlannedSetData,
    TrainingMaximumData,
)
from coachdesk.domain.units import Mass
from coachdesk.services.desk import Desk, Done
from coachdesk.services.known_maxima import known_maxima
from coachdesk.storage.block_queries import BlockRecord, block_record, is_entered
from coachdesk.storage.store import Work

_HALVES = 2


def copy_block(desk: Desk, block_id: int, *, to_athlete_id: int, starts_on: date) -> Done[int]:
    """Plan a block once more from the day `starts_on`; answers the new block's id.

    Logged sets and notes of days stay behind. For another athlete the training maxima are what is
    known of that athlete's lifts, if anything; weights become per cents of the copied block's
    training maximum, and are left open where it has none: one athlete's kilograms say nothing
    about another's. The new block leads to the same meet if its athlete is entered there.
    """
    with desk.action(text("did.copy_block")) as work:
        source = block_record(work, block_id)
        same = source.block.athlete_id == to_athlete_id
        meet_id = source.block.meet_id
        there = meet_id is not None and is_entered(work, to_athlete_id, meet_id)
        new_id = work.insert(
            BlockData(
                athlete_id=to_athlete_id,
                name=source.block.name,
                purpose=source.block.purpose,
                starts_on=starts_on,
                weeks=source.block.weeks,
                note=source.block.note if same else "",
                meet_id=meet_id if there else None,
                disc_set_id=source.block.disc_set_id if same else None,
            )
        )
        own = {each.lift: each.weight for each in source.maxima}
        maxima = own if same else known_maxima(desk, work, to_athlete_id, starts_on)
        for lift, weight in maxima.items():
            work.insert(TrainingMaximumData(block_id=new_id, lift=lift, weight=weight))
        _copy_plan(work, source, new_id, None if same else own)
        return Done(new_id, work.changes())


def _copy_plan(
    work: Work, source: BlockRecord, new_id: int, maxima: Mapping[Lift, Mass] | None
) -> None:
    """Exercises and planned sets; weights as per cents of `maxima` where they are given."""
    for exercise in source.exercises:
        data = ExerciseData(
            block_id=new_id,
            day=exercise.day,
            place=exercise.place,
            lift=exercise.lift,
            variation=exercise.variation,
            share=exercise.share,
            note=exercise.note if maxima is None else "",
        )
        exercise_id = work.insert(data)
        planned = [each for each in source.planned if each.exercise_id == exercise.id]
        work.insert_many(_copied(each, exercise, exercise_id, maxima) for each in planned)


def _copied(
    planned: PlannedSet, exercise: Exercise, exercise_id: int, maxima: Mapping[Lift, Mass] | None
) -> PlannedSetData:
    data = PlannedSetData(
        exercise_id=exercise_id,
        week=planned.week,
        place=planned.place,
        sets=planned.sets,
        reps=planned.reps,
        percent=planned.percent,
        weight=planned.weight,
        rir=planned.rir,
        judged=planned.judged,
        note=planned.note,
        made=planned.made,
    )
    if planned.weight is None or maxima is None:
        return data
    maximum = maxima.get(exercise.lift)
    data = replace(data, weight=None)
    if maximum is not None:
        full = maximum.grams * exercise.share
        data = replace(data, percent=round(100 * _HALVES * planned.weight.grams / full) / _HALVES)
    return replace(data, made=as_made(data)) if planned.made == as_made(planned) else data
