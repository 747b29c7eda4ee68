"""All meets to come take the same few statements, however many there are."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, timedelta

from sqlalchemy import Connection, event

from coachdesk.domain.athlete import AthleteData, ReadingData
from coachdesk.domain.attempts import AttemptPlan, Method
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Sex
from coachdesk.domain.meet import AttemptData, EntryData, MeetData
from coachdesk.domain.text import text
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.planning import plan_meet
from coachdesk.storage.meet_queries import meets_from
from coachdesk.storage.people import archive
from coachdesk.storage.plans import add_snapshot
from coachdesk.storage.store import Reader
from coachdesk.storage.today_queries import EntryState, count_athletes, entry_states

TODAY = date(2026, 11, 25)


def fill(desk: Desk, *, meets: int, athletes: int) -> None:
    """Athletes with readings and sets, entered to all meets to come and to one gone by."""
    with desk.action(text("did.add_blocks", count=1)) as work:
        days = [-30, *range(7, 7 * meets + 1, 7)]
        meet_ids = [
            work.insert(
                MeetData(
                    name=f"Meet {day}",
                    starts_on=TODAY + timedelta(days=day),
                    rulebook="ipf_2021",
                    time_zone="Europe/Berlin",
                )
            )
            for day in days
        ]
        for number in range(athletes):
            athlete_id = work.insert(
                AthleteData(given_name="A", family_name=f"{number:03}", sex=Sex.MALE)
            )
            for day in (1, 3, 20):
                on = TODAY - timedelta(days=day)
                weight = kilograms(80 + day)
                work.insert(ReadingData(athlete_id=athlete_id, on=on, weight=weight))
            single = LoggedSetData(
                athlete_id=athlete_id,
                on=TODAY - timedelta(days=4),
                lift=Lift.SQUAT,
                weight=kilograms(150),
                reps=1,
                judged=True,
                result=Result.GOOD,
            )
            work.insert(single)
            for meet_id in meet_ids:
                entry_id = work.insert(
                    EntryData(
                        athlete_id=athlete_id,
                        meet_id=meet_id,
                        event=Event.THREE_LIFT,
                        equipment=Equipment.CLASSIC,
                        divisions=("open",),
                    )
                )
                attempt = AttemptData(
                    entry_id=entry_id, lift=Lift.BENCH, number=1, weight=kilograms(90)
                )
                work.insert(attempt)
    for meet_id in meet_ids[1:]:
        plan_meet(desk, meet_id)


@contextmanager
def counted(connection: Connection) -> Iterator[list[str]]:
    statements: list[str] = []

    def note(_connection: object, _cursor: object, statement: str, *_: object) -> None:
        statements.append(statement)

    event.listen(connection, "before_cursor_execute", note)
    try:
        yield statements
    finally:
        event.remove(connection, "before_cursor_execute", note)


def states(reader: Reader) -> tuple[EntryState, ...]:
    return entry_states(
        reader,
        meets_from(reader, TODAY),
        today=TODAY,
        judged_from=TODAY - timedelta(weeks=6),
    )


def statements_for(desk: Desk) -> int:
    with desk.reading() as reader, counted(reader.connection) as statements:
        states(reader)
    return len(statements)


def test_statements_do_not_grow_with_meets_or_entries(desk: Desk) -> None:
    fill(desk, meets=1, athletes=1)
    few = statements_for(desk)
    fill(desk, meets=4, athletes=12)
    with desk.reading() as reader:
        assert len(states(reader)) > 48
    assert statements_for(desk) == few
    assert few <= 15


def test_a_state_holds_the_weight_and_which_lifts_are_ready(desk: Desk) -> None:
    fill(desk, meets=1, athletes=1)
    with desk.reading() as reader:
        (state,) = states(reader)
    assert state.weight is not None
    assert (state.weight.latest_on, state.weight.readings) == (TODAY - timedelta(days=1), 2)
    assert state.judged == {Lift.SQUAT}
    assert state.planned == {Lift.SQUAT}
    assert state.chosen == {Lift.BENCH}
    assert not state.has_handler
    assert state.first_meet


def test_only_the_latest_plan_counts(desk: Desk) -> None:
    fill(desk, meets=1, athletes=1)
    with desk.reading() as reader:
        (state,) = states(reader)
    with desk.action(text("did.plan_meet", name="")) as work:
        empty = AttemptPlan(Method.TEXTBOOK, "", "", ())
        add_snapshot(work, state.entry.id, desk.now(), empty)
    with desk.reading() as reader:
        (after,) = states(reader)
    assert after.planned == frozenset()


def test_archived_athletes_are_not_counted(desk: Desk) -> None:
    fill(desk, meets=1, athletes=3)
    with desk.reading() as reader:
        assert count_athletes(reader) == 3
        someone = states(reader)[0].athlete
    with desk.action(text("did.archive_athlete", name="")) as work:
        archive(work, someone, archived=True)
    with desk.reading() as reader:
        assert count_athletes(reader) == 2
