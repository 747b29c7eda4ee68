"""What the forms about blocks hold, as strings and back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import TypeAlias

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Meet
from coachdesk.domain.text import text
from coachdesk.domain.training import Block, BlockData, Exercise, ExerciseData, Purpose
from coachdesk.services import typed

Values: TypeAlias = dict[str, str]
_WEEK = timedelta(weeks=1)
_USUAL_WEEKS = 4


def new_block_values(blocks: Sequence[Block], meet: Meet | None, today: date) -> Values:
    """What a new block begins with: the day after the last block, or the next Monday."""
    monday = today + timedelta(days=-today.weekday() % 7)
    last = max((block.starts_on + block.weeks * _WEEK for block in blocks), default=monday)
    starts_on = max(monday, last)
    weeks = _USUAL_WEEKS
    if meet is not None and meet.starts_on > starts_on:
        weeks = max(1, min(_USUAL_WEEKS, -(-(meet.starts_on - starts_on).days // 7)))
    return {
        "name": "",
        "purpose": Purpose.GENERAL,
        "starts_on": typed.shown_day(starts_on),
        "weeks": str(weeks),
        "meet": "" if meet is None or meet.starts_on <= starts_on else str(meet.id),
        "discs": "",
        "note": "",
    }


def block_values(block: Block) -> Values:
    """A block as the strings of its form."""
    return {
        "name": block.name,
        "purpose": block.purpose,
        "starts_on": typed.shown_day(block.starts_on),
        "weeks": str(block.weeks),
        "meet": "" if block.meet_id is None else str(block.meet_id),
        "discs": "" if block.disc_set_id is None else str(block.disc_set_id),
        "note": block.note,
    }


def block_data(athlete_id: int, values: Mapping[str, str]) -> BlockData:
    """A block as it was typed; raises InvalidInput."""
    return BlockData(
        athlete_id=athlete_id,
        name=values["name"],
        purpose=typed.choice("purpose", values["purpose"], Purpose),
        starts_on=typed.required_day("starts_on", values["starts_on"]),
        weeks=required_whole("weeks", values["weeks"]),
        note=values["note"],
        meet_id=int(values["meet"]) if values["meet"] else None,
        disc_set_id=int(values["discs"]) if values["discs"] else None,
    )


def new_exercise_values(exercises: Sequence[Exercise]) -> Values:
    """What a new exercise begins with: on the last day there is, the competition lift."""
    day = max((each.day for each in exercises), default=1)
    return {"day": str(day), "lift": Lift.SQUAT, "variation": "", "share": "100", "note": ""}


def exercise_values(exercise: Exercise) -> Values:
    """An exercise as the strings of its form."""
    return {
        "day": str(exercise.day),
        "lift": exercise.lift,
        "variation": exercise.variation,
        "share": f"{round(exercise.share * 100, 1):g}",
        "note": exercise.note,
    }


def exercise_data(block_id: int, values: Mapping[str, str]) -> ExerciseData:
    """An exercise as it was typed, without its place, which the use case finds; or InvalidInput."""
    share = typed.number("share", values["share"])
    variation = values["variation"].strip()
    return ExerciseData(
        block_id=block_id,
        day=required_whole("day", values["day"]),
        place=1,
        lift=typed.choice("lift", values["lift"], Lift),
        variation=variation,
        share=1.0 if share is None or not variation else float(share) / 100,
        note=values["note"],
    )


def maximum_field(lift: Lift) -> str:
    """The name the training maximum of a lift goes by in forms and faults."""
    return f"maximum_{lift}"


def required_whole(field: str, words: str) -> int:
    """A whole number; raises InvalidInput when nothing was typed."""
    found = typed.whole(field, words)
    if found is None:
        raise InvalidInput(field, text("check.required"))
    return found
