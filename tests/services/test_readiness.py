"""How ready entries are: rounds due, what is missing, tasks; in two statements for any number."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from sqlalchemy import event

from coachdesk.app import paths
from coachdesk.domain.athlete import Athlete
from coachdesk.domain.kit_rounds import Sight
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.tasks import TaskState
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.kit_ticking import tick_all_kit, tick_kit
from coachdesk.services.meet_editing import edit_meet
from coachdesk.services.meet_readiness import meet_readiness
from coachdesk.services.meets import choose_opener, edit_entry
from coachdesk.services.readiness import Readiness, readiness_of
from coachdesk.services.roster import edit_athlete
from coachdesk.services.rulebooks import read_kit_lists
from coachdesk.services.task_editing import UsualTasks, tick_usual
from coachdesk.storage.meet_queries import meets_from
from coachdesk.storage.readiness_queries import starters
from coachdesk.storage.today_queries import entry_states
from tests.conftest import Results

MEET_ON = date(2026, 12, 5)
"""Ten days after the desk's day: the round of two weeks before is due."""


def read(desk: Desk) -> dict[int, Readiness]:
    with desk.reading() as reader:
        return readiness_of(desk, reader, starters(reader, meets_from(reader, desk.today())))


@pytest.fixture
def entry_id(results: Results) -> int:
    return results.entry(results.athlete("Ana Ruiz"), results.meet("Harbour Open", MEET_ON))


def test_a_round_due_and_what_is_missing_are_told(desk: Desk, entry_id: int) -> None:
    assert read(desk)[entry_id].kit.is_due
    tick_all_kit(desk, [entry_id], "two_weeks")
    tick_kit(desk, entry_id, "two_weeks", {"belt": Sight.MISSING})
    ready = read(desk)[entry_id]
    assert not ready.kit.is_due
    assert [item.code for item in ready.kit.missing] == ["belt"]


def test_a_membership_and_openers_on_file_settle_their_tasks(desk: Desk, entry_id: int) -> None:
    with desk.reading() as reader:
        athlete = reader.list(Athlete)[0]
    edit_athlete(desk, athlete.id, athlete.version, replace(athlete, member_until=MEET_ON))
    for lift in (Lift.SQUAT, Lift.BENCH):
        choose_opener(desk, entry_id, lift, kilograms(60))
    assert settled(desk, entry_id) == {"membership_runs"}
    choose_opener(desk, entry_id, Lift.DEADLIFT, kilograms(60))
    assert settled(desk, entry_id) == {"membership_runs", "openers_chosen"}


def settled(desk: Desk, entry_id: int) -> set[str]:
    return {task.code for task in read(desk)[entry_id].tasks if task.by_records}


def test_a_membership_that_ends_the_day_before_settles_nothing(desk: Desk, entry_id: int) -> None:
    with desk.reading() as reader:
        athlete = reader.list(Athlete)[0]
    ends = MEET_ON - timedelta(days=1)
    edit_athlete(desk, athlete.id, athlete.version, replace(athlete, member_until=ends))
    assert settled(desk, entry_id) == set()


def test_the_inspection_is_counted_down(desk: Desk, entry_id: int) -> None:
    assert read(desk)[entry_id].inspection_days is None
    with desk.reading() as reader:
        meet = reader.list(Meet)[0]
    edit_meet(desk, meet, replace(meet, kit_inspection_on=date(2026, 12, 4)))
    assert read(desk)[entry_id].inspection_days == 9


def test_the_next_task_is_one_to_come(desk: Desk, entry_id: int) -> None:
    """By hand: on 25 November all days up to 21 November have passed; the openers are next."""
    ready = read(desk)[entry_id]
    assert ready.next_due is not None
    assert ready.next_due.code == "openers_chosen"
    assert all(task.due_on < desk.today() for task in ready.tasks_in(TaskState.OVERDUE))


def test_the_list_of_today_can_be_asked_about_as_it_is(desk: Desk, entry_id: int) -> None:
    today = desk.today()
    with desk.reading() as reader:
        states = entry_states(reader, meets_from(reader, today), today=today, judged_from=today)
        assert readiness_of(desk, reader, states) == read(desk)
    assert list(read(desk)) == [entry_id]


@contextmanager
def counted(desk: Desk) -> Iterator[list[str]]:
    statements: list[str] = []

    def count(_connection: object, _cursor: object, statement: str, *_rest: object) -> None:
        if statement.lstrip().upper().startswith("SELECT"):
            statements.append(statement)

    engine = desk.store._engine
    event.listen(engine, "before_cursor_execute", count)
    try:
        yield statements
    finally:
        event.remove(engine, "before_cursor_execute", count)


@pytest.mark.parametrize("count", [1, 30])
def test_any_number_of_entries_takes_two_statements(
    desk: Desk, results: Results, count: int
) -> None:
    """Ticked or not: what is on file about each is read together."""
    meet_ids = [results.meet(f"Meet {number}", MEET_ON) for number in range(3)]
    entry_ids = [
        results.entry(results.athlete(f"A {number}"), meet_ids[number % 3])
        for number in range(count)
    ]
    tick_all_kit(desk, entry_ids[::2], "two_weeks")
    tick_usual(desk, UsualTasks(tuple(entry_ids[::3]), "entry_sent"), done=True)
    with desk.reading() as reader:
        there = starters(reader, meets_from(reader, desk.today()))
        with counted(desk) as statements:
            ready = readiness_of(desk, reader, there)
    assert len(ready) == count
    assert len(statements) == 2


def test_who_is_withdrawn_needs_nothing(desk: Desk, entry_id: int) -> None:
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
    edit_entry(desk, entry_id, entry.version, replace(entry, withdrawn=True))
    assert read(desk) == {}
    assert meet_readiness(desk, entry.meet_id).starters == ()


def test_without_the_rulebook_kit_can_still_be_packed(desk: Desk, entry_id: int) -> None:
    with desk.store.raw_writing() as connection:
        connection.exec_driver_sql("UPDATE meet SET rulebook = 'gone'")
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
    found = meet_readiness(desk, entry.meet_id)
    items = found.ready[entry_id].kit.items
    assert items
    assert found.limits(entry, items[0]) == ()
    assert not found.inspects


def test_a_faulty_kit_list_of_the_coachs_own_is_told(
    desk: Desk, entry_id: int, tmp_path: Path
) -> None:
    (tmp_path / "classic.toml").write_text('equipment = "classic"\n', encoding="utf-8")
    faulty = replace(desk, kit=read_kit_lists(paths.resources() / "kit", tmp_path))
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
    found = meet_readiness(faulty, entry.meet_id)
    assert found.fault is not None
    assert dict(found.fault.values)["file"] == "classic.toml"
    assert found.starters == ()
