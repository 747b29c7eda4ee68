"""Who is behind on sessions, counted by hand on a calendar: today is Wednesday, 25 November."""

from __future__ import annotations

from datetime import date

import pytest

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.lifting import Lift
from coachdesk.domain.training import BlockData, ExerciseData, LoggedSetData, Purpose
from coachdesk.domain.units import kilograms
from coachdesk.services.block_cells import TypedCell, type_cells
from coachdesk.services.block_editing import add_block, add_exercise, note_day
from coachdesk.services.desk import Desk
from coachdesk.services.roster import archive_athlete
from coachdesk.services.team_sessions import Sessions, team_sessions
from coachdesk.services.training import log_sets
from tests.services.blocks import Written, athlete

MONDAY_16, WEDNESDAY_18, MONDAY_23, TODAY = (date(2026, 11, day) for day in (16, 18, 23, 25))


@pytest.fixture
def block(desk: Desk) -> Written:
    """Mondays and Wednesdays from 16 November on: three training days up to yesterday."""
    block = Written.on(desk, athlete(desk))
    exercises = (block.squat_id, block.pause_id)
    cells = [TypedCell(each, week, "5x3 80%") for each in exercises for week in range(1, 5)]
    type_cells(desk, block.block_id, cells)
    return block


def lift(desk: Desk, athlete_id: int, *days: date) -> None:
    log_sets(
        desk,
        [
            LoggedSetData(
                athlete_id=athlete_id, on=day, lift=Lift.BENCH, weight=kilograms(60), reps=5
            )
            for day in days
        ],
    )


def of(block: Written) -> Sessions:
    return team_sessions(block.desk)[block.athlete_id]


def test_days_up_to_yesterday_are_done_missed_or_silent(block: Written) -> None:
    """Monday lifted, Wednesday missed, and of this Monday nothing is known; today is not over."""
    lift(block.desk, block.athlete_id, MONDAY_16)
    note_day(block.desk, block.block_id, 1, 3, missed=True, note="ill")
    found = of(block)
    assert found == Sessions(planned=3, done=1, missed=1, latest=MONDAY_16)
    assert (found.behind, found.silent) == (2, 1)


def test_nothing_lifted_yet_is_all_behind(block: Written) -> None:
    assert of(block) == Sessions(planned=3, done=0, missed=0, latest=None)
    assert of(block).behind == 3


def test_any_set_of_the_day_counts_even_where_it_was_noted_as_missed(block: Written) -> None:
    """A day made up for is done; a set of today is the latest one and no more."""
    note_day(block.desk, block.block_id, 1, 3, missed=True, note="")
    lift(block.desk, block.athlete_id, MONDAY_16, WEDNESDAY_18, MONDAY_23, TODAY)
    assert of(block) == Sessions(planned=3, done=3, missed=0, latest=TODAY)


def test_a_set_on_another_day_does_not_make_up_for_a_planned_one(block: Written) -> None:
    lift(block.desk, block.athlete_id, date(2026, 11, 17))
    assert of(block) == Sessions(planned=3, done=0, missed=0, latest=date(2026, 11, 17))


def test_a_note_without_missing_and_a_day_missed_without_a_plan_do_not_count(
    block: Written,
) -> None:
    note_day(block.desk, block.block_id, 1, 1, missed=False, note="late")
    note_day(block.desk, block.block_id, 1, 2, missed=True, note="")
    assert of(block) == Sessions(planned=3, done=0, missed=0, latest=None)


def test_a_day_planned_in_two_blocks_is_one_day(block: Written) -> None:
    other = Written.on(block.desk, block.athlete_id)
    other.type(other.squat_id, 1, "3x3")
    assert of(block).planned == 3


def test_four_weeks_are_looked_back(desk: Desk) -> None:
    """Of the Wednesdays and Tuesdays of October, the 28th is the first day that counts."""
    athlete_id = athlete(desk)
    data = BlockData(
        athlete_id=athlete_id,
        name="Autumn",
        purpose=Purpose.GENERAL,
        starts_on=date(2026, 10, 20),
        weeks=2,
    )
    block_id = add_block(desk, data).value
    for day in (1, 2):
        exercise = ExerciseData(block_id=block_id, day=day, place=1, lift=Lift.SQUAT)
        exercise_id = add_exercise(desk, exercise).value
        cells = [TypedCell(exercise_id, week, "5x5") for week in (1, 2)]
        type_cells(desk, block_id, cells)
    lift(desk, athlete_id, date(2026, 10, 27), date(2026, 10, 28))
    assert team_sessions(desk)[athlete_id] == Sessions(
        planned=1, done=1, missed=0, latest=date(2026, 10, 28)
    )


def test_who_has_neither_plan_nor_set_is_left_out_and_archived_plans_do_not_count(
    block: Written,
) -> None:
    idle = athlete(block.desk, "Bo Berg")
    assert idle not in team_sessions(block.desk)
    with block.desk.reading() as reader:
        seen = reader.get(Athlete, block.athlete_id)
    archive_athlete(block.desk, seen, archived=True)
    assert not team_sessions(block.desk)
