"""Tasks ticked, moved and added, for one entry or several; all of it can be undone."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest

from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.readiness import Task
from coachdesk.services.desk import Desk
from coachdesk.services.task_editing import (
    UsualTasks,
    add_tasks,
    delete_own,
    edit_own,
    move_usual,
    tick_own,
    tick_usual,
)
from coachdesk.services.undo import redo, undo

if TYPE_CHECKING:
    from tests.conftest import Results

TODAY = date(2026, 11, 25)


@pytest.fixture
def team(results: Results) -> tuple[int, ...]:
    meet_id = results.meet("Harbour Open", date(2027, 2, 20))
    names = ("Ana Ruiz", "Bea Lund", "Cleo Marsh")
    return tuple(results.entry(results.athlete(name), meet_id) for name in names)


def on_file(desk: Desk) -> tuple[Task, ...]:
    with desk.reading() as reader:
        return reader.list(Task)


def test_a_tick_for_the_whole_team_is_one_action(desk: Desk, team: tuple[int, ...]) -> None:
    tick_usual(desk, UsualTasks(team, "entry_sent"), done=True)
    assert [(task.entry_id, task.code, task.done_on) for task in on_file(desk)] == [
        (entry_id, "entry_sent", TODAY) for entry_id in team
    ]
    undo(desk)
    assert on_file(desk) == ()
    redo(desk)
    assert len(on_file(desk)) == len(team)


def test_a_tick_taken_back_leaves_nothing_on_file(desk: Desk, team: tuple[int, ...]) -> None:
    one = UsualTasks(team[:1], "entry_sent")
    tick_usual(desk, one, done=True)
    tick_usual(desk, one, done=False)
    assert on_file(desk) == ()


def test_a_task_that_was_moved_stays_moved_when_it_is_ticked(
    desk: Desk, team: tuple[int, ...]
) -> None:
    one = UsualTasks(team[:1], "travel_and_bed")
    move_usual(desk, one, date(2027, 1, 4))
    tick_usual(desk, one, done=True)
    (task,) = on_file(desk)
    assert (task.due_on, task.done_on) == (date(2027, 1, 4), TODAY)
    tick_usual(desk, one, done=False)
    assert [task.due_on for task in on_file(desk)] == [date(2027, 1, 4)]
    move_usual(desk, one, None)
    assert on_file(desk) == ()


def test_ticking_twice_changes_nothing_the_second_time(desk: Desk, team: tuple[int, ...]) -> None:
    one = UsualTasks(team[:1], "entry_sent")
    tick_usual(desk, one, done=True)
    assert tick_usual(desk, one, done=True).changes == frozenset()


def test_ones_own_task_is_added_for_several_changed_ticked_and_deleted(
    desk: Desk, team: tuple[int, ...]
) -> None:
    add_tasks(desk, team[:2], "Parking permit", date(2027, 2, 1))
    first, second = on_file(desk)
    assert (first.entry_id, second.entry_id) == team[:2]
    edit_own(desk, first, "Two parking permits", date(2027, 2, 3))
    first = on_file(desk)[0]
    assert (first.words, first.due_on) == ("Two parking permits", date(2027, 2, 3))
    tick_own(desk, first, done=True)
    assert on_file(desk)[0].done_on == TODAY
    delete_own(desk, second)
    assert len(on_file(desk)) == 1
    undo(desk)
    assert len(on_file(desk)) == 2


@pytest.mark.parametrize(
    ("words", "due_on", "field"),
    [(" ", date(2027, 2, 1), "words"), ("Permit", None, "due_on"), ("x" * 201, TODAY, "words")],
)
def test_a_task_needs_words_and_a_day(
    desk: Desk, team: tuple[int, ...], words: str, due_on: date | None, field: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        add_tasks(desk, team, words, due_on)
    assert refused.value.field == field
    assert on_file(desk) == ()


def test_a_task_changed_meanwhile_is_not_overwritten(desk: Desk, team: tuple[int, ...]) -> None:
    add_tasks(desk, team[:1], "Permit", date(2027, 2, 1))
    (seen,) = on_file(desk)
    tick_own(desk, seen, done=True)
    with pytest.raises(Trouble) as trouble:
        edit_own(desk, seen, "Other", date(2027, 2, 1))
    assert trouble.value.text.code == "record.moved_on"


def test_a_task_that_is_on_no_list_is_said(desk: Desk, team: tuple[int, ...]) -> None:
    with pytest.raises(Trouble) as trouble:
        tick_usual(desk, UsualTasks(team, "moon_landing"), done=True)
    assert trouble.value.text.code == "task.unknown"
