"""What the records of a block must satisfy before they are kept: the first fault, its field."""

from __future__ import annotations

from coachdesk.domain.checks import LONGEST_NAME
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.text import text
from coachdesk.domain.training import Block, ExerciseData, TrainingDayData

DAYS_OF_WEEK = 7
LARGEST_SHARE = 1.5
LONGEST_NOTE = 2000


def check_exercise(data: ExerciseData) -> None:
    """A day of the week and a share that can be; the competition lift itself has share 1."""
    if not 1 <= data.day <= DAYS_OF_WEEK:
        raise InvalidInput("day", text("check.day_of_week", most=DAYS_OF_WEEK))
    if len(data.variation) > LONGEST_NAME:
        raise InvalidInput("variation", text("check.too_long", count=LONGEST_NAME))
    if not 0 < data.share <= LARGEST_SHARE:
        raise InvalidInput("share", text("check.share", most=round(LARGEST_SHARE * 100)))
    if not data.variation.strip() and data.share != 1:
        raise InvalidInput("share", text("check.share_of_lift"))
    check_note("note", data.note)


def check_training_day(data: TrainingDayData, block: Block) -> None:
    """A day of a week that the block has; raises InvalidInput."""
    check_week("week", data.week, block)
    if not 1 <= data.day <= DAYS_OF_WEEK:
        raise InvalidInput("day", text("check.day_of_week", most=DAYS_OF_WEEK))
    check_note("note", data.note)


def check_week(field: str, week: int, block: Block) -> None:
    """A week that the block has; raises InvalidInput."""
    if not 1 <= week <= block.weeks:
        raise InvalidInput(field, text("check.week_of_block", most=block.weeks))


def check_note(field: str, note: str) -> None:
    """Not too long; raises InvalidInput."""
    if len(note) > LONGEST_NOTE:
        raise InvalidInput(field, text("check.too_long", count=LONGEST_NOTE))
