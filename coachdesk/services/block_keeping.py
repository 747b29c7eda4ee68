"""Puts laid out blocks on file: those of the generator, and those of a template."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from coachdesk.domain.blocks.notation import as_made
from coachdesk.domain.blocks.plan import PlannedBlock, PlannedExercise, Words
from coachdesk.domain.checks import check_block, check_lifted
from coachdesk.domain.lifting import Lift
from coachdesk.domain.text import Text, text
from coachdesk.domain.training import (
    BlockData,
    ExerciseData,
    PlannedSetData,
    TrainingMaximumData,
)
from coachdesk.domain.units import Mass
from coachdesk.services.desk import Desk, Done
from coachdesk.storage.store import Work

Say: TypeAlias = Callable[[Text], str]
"""Puts a text into words: names on file are words, in the language they were kept in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOut:
    """A block of an athlete that is to go on file, and its training maxima."""

    athlete_id: int
    block: PlannedBlock
    maxima: Mapping[Lift, Mass]


@dataclass(frozen=True, slots=True)
class Holder:
    """Whose blocks they are to be, and the meet they lead to, if any."""

    athlete_id: int
    meet_id: int | None = None


def check_maxima(maxima: Mapping[Lift, Mass]) -> None:
    """Weights that can be lifted; raises InvalidInput at the field "maximum_" and the lift."""
    for lift, weight in maxima.items():
        check_lifted(f"maximum_{lift}", weight)


def keep_blocks(desk: Desk, many: Sequence[LaidOut], say: Say) -> Done[tuple[int, ...]]:
    """Put laid out blocks of several athletes on file, all of them or none; answers their ids."""
    with desk.action(text("did.add_blocks", count=len(many))) as work:
        ids = tuple(
            insert_block(work, Holder(each.athlete_id), each.block, each.maxima, say)
            for each in many
        )
        return Done(ids, work.changes())


def insert_block(
    work: Work, holder: Holder, planned: PlannedBlock, maxima: Mapping[Lift, Mass], say: Say
) -> int:
    """Put a block on file with the training maxima of its lifts; answers its id. Every set
    remembers that it was made, and as what."""
    data = BlockData(
        athlete_id=holder.athlete_id,
        name=_words(planned.name, say),
        purpose=planned.purpose,
        starts_on=planned.starts_on,
        weeks=planned.weeks,
        meet_id=holder.meet_id,
    )
    check_block(data)
    block_id = work.insert(data)
    lifts = {each.lift for each in planned.exercises}
    work.insert_many(
        TrainingMaximumData(block_id=block_id, lift=lift, weight=weight)
        for lift, weight in maxima.items()
        if lift in lifts
    )
    places: dict[int, int] = {}
    for each in planned.exercises:
        places[each.day] = places.get(each.day, 0) + 1
        _insert_exercise(work, block_id, each, places[each.day], say)
    return block_id


def _insert_exercise(
    work: Work, block_id: int, planned: PlannedExercise, place: int, say: Say
) -> None:
    exercise_id = work.insert(
        ExerciseData(
            block_id=block_id,
            day=planned.day,
            place=place,
            lift=planned.lift,
            variation=_words(planned.variation, say),
            share=planned.share,
        )
    )
    work.insert_many(
        PlannedSetData(
            exercise_id=exercise_id,
            week=week,
            place=at,
            sets=each.sets,
            reps=each.reps,
            percent=each.percent,
            rir=each.rir,
            judged=each.judged,
            note=each.note,
            made=as_made(each),
        )
        for week, several in planned.sets.items()
        for at, each in enumerate(several, start=1)
    )


def _words(words: Words, say: Say) -> str:
    return words if isinstance(words, str) else say(words)
