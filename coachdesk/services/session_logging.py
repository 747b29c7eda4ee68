"""Logging what was lifted of a plan."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from coachdesk.domain.blocks.notation import MOST_SETS
from coachdesk.domain.checks import check_logged_set
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Result
from coachdesk.domain.text import text
from coachdesk.domain.training import Block, Exercise, LoggedSetData, PlannedSet
from coachdesk.domain.units import Mass
from coachdesk.services.desk import Desk, Done


@dataclass(frozen=True, slots=True, kw_only=True)
class Lifted:
    """Equal sets as they were lifted on the day `on`: `reps` each, `rir` in reserve.

    A `result` makes a judged single of it, with the `cause` when it was no lift.
    """

    on: date
    weight: Mass
    reps: int
    rir: float | None = None
    sets: int = 1
    result: Result | None = None
    cause: str = ""
    note: str = ""


def log_planned(desk: Desk, planned_id: int, lifted: Lifted) -> Done[None]:
    """Log sets of a planned set; they stay linked to it and to its block.

    Raises InvalidInput (fields "sets", and those of a logged set), and Trouble when the planned
    set is no longer on file.
    """
    if not 1 <= lifted.sets <= MOST_SETS:
        raise InvalidInput("sets", text("cell.sets_range", most=MOST_SETS))
    with desk.action(text("did.log_sets", count=lifted.sets)) as work:
        planned = work.get(PlannedSet, planned_id)
        exercise = work.get(Exercise, planned.exercise_id)
        block = work.get(Block, exercise.block_id)
        data = LoggedSetData(
            athlete_id=block.athlete_id,
            on=lifted.on,
            lift=exercise.lift,
            weight=lifted.weight,
            reps=lifted.reps,
            rir=lifted.rir,
            variation=exercise.variation,
            judged=lifted.result is not None,
            result=lifted.result,
            cause=lifted.cause,
            block_id=block.id,
            planned_set_id=planned.id,
            note=lifted.note.strip(),
        )
        check_logged_set(data, desk.today())
        work.insert_many([data] * lifted.sets)
        return Done(None, work.changes())
