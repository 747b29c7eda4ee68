"""A meet's page is read in a constant number of statements, and only what it shows."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date, timedelta

import pytest
from sqlalchemy import Engine, event

from coachdesk.domain.athlete import AthleteData, ReadingData
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Sex
from coachdesk.domain.meet import AttemptData, EntryData, MeetData
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.lift_sources import read_known
from coachdesk.services.meet_reading import is_first_meet, read_meet
from coachdesk.services.meets import add_meet, enter_athletes, record_attempts
from coachdesk.services.planning import plan_meet
from coachdesk.services.roster import add_athlete, add_readings
from coachdesk.services.training import log_sets
from coachdesk.storage.meet_list_queries import candidates, entry_extent, meet_extent, meet_lines
from coachdesk.storage.meet_queries import MeetRecord

MEET = MeetData(
    name="Harbour Open",
    starts_on=date(2027, 2, 20),
    rulebook="ipf_2021",
    time_zone="Europe/Berlin",
)


class Team:
    """A meet, and athletes to enter."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.meet_id = add_meet(desk, MEET).value

    def enter(self, count: int, meet_id: int | None = None) -> tuple[int, ...]:
        """Enter new athletes; answers the entries' ids."""
        self.athletes = [
            add_athlete(
                self.desk,
                AthleteData(
                    given_name=f"Ana {number}",
                    family_name="Ruiz",
                    sex=Sex.FEMALE,
                    birth_date=date(1996, 5, 4),
                ),
            ).value
            for number in range(count)
        ]
        return self.enter_again(meet_id or self.meet_id)

    def enter_again(self, meet_id: int) -> tuple[int, ...]:
        """Enter the same athletes to another meet."""
        return enter_athletes(
            self.desk,
            [
                EntryData(
                    athlete_id=athlete_id,
                    meet_id=meet_id,
                    event=Event.THREE_LIFT,
                    equipment=Equipment.CLASSIC,
                    divisions=("open",),
                    expected_squat=kilograms(120),
                )
                for athlete_id in self.athletes
            ],
        ).value


@pytest.fixture
def team(desk: Desk) -> Team:
    return Team(desk)


@contextmanager
def _statements() -> Iterator[list[str]]:
    seen: list[str] = []

    def note(*arguments: object) -> None:
        seen.append(str(arguments[2]))

    event.listen(Engine, "before_cursor_execute", note)
    try:
        yield seen
    finally:
        event.remove(Engine, "before_cursor_execute", note)


def test_a_page_takes_as_many_statements_for_many_entries_as_for_one(team: Team) -> None:
    desk = team.desk
    counts = []
    plans = 0
    for entries in (1, 30):
        team.enter(entries)
        plan_meet(desk, team.meet_id)
        with _statements() as seen, desk.reading() as reader:
            record = read_meet(reader, team.meet_id, desk.today())
            read_known(reader, desk.rulebooks.get(MEET.rulebook), record, desk.today())
            meet_lines(reader)
            candidates(reader, team.meet_id)
        counts.append(len(seen))
        plans = len(record.plans)
    assert plans == 31
    assert counts[0] == counts[1]


def test_the_week_that_ends_with_the_latest_reading_is_counted(team: Team) -> None:
    team.enter(1)
    (athlete_id,) = team.athletes
    today = team.desk.today()
    add_readings(
        team.desk,
        [
            ReadingData(athlete_id=athlete_id, on=today - timedelta(days=day), weight=kilograms(63))
            for day in (3, 9, 10, 40)
        ],
    )
    with team.desk.reading() as reader:
        weight = read_meet(reader, team.meet_id, today).weights[athlete_id]
    assert (weight.latest_on, weight.readings) == (today - timedelta(days=3), 2)


def test_judged_singles_and_earlier_meets_are_known(team: Team) -> None:
    (entry_id,) = team.enter(1)
    (athlete_id,) = team.athletes
    log_sets(
        team.desk,
        [
            LoggedSetData(
                athlete_id=athlete_id,
                on=date(2026, 11, 20),
                lift=lift,
                weight=kilograms(100),
                reps=1,
                judged=judged,
                result=Result.GOOD if judged else None,
            )
            for lift, judged in ((Lift.SQUAT, True), (Lift.BENCH, False))
        ],
    )
    past = add_meet(team.desk, replace(MEET, starts_on=date(2026, 4, 11))).value
    (past_id,) = team.enter_again(past)

    def record_of(day: date) -> MeetRecord:
        with team.desk.reading() as reader:
            return read_meet(reader, team.meet_id, day)

    record = record_of(team.desk.today())
    assert record.judged == {athlete_id: frozenset({Lift.SQUAT})}
    assert is_first_meet(record, record.entries[0])  # entered before, but never lifted
    record_attempts(
        team.desk,
        [
            AttemptData(
                entry_id=past_id,
                lift=Lift.SQUAT,
                number=1,
                weight=kilograms(100),
                result=Result.NO_LIFT,
            )
        ],
    )
    record = record_of(team.desk.today())
    assert not is_first_meet(record, record.entries[0])
    assert record.entries[0].id == entry_id
    assert record_of(date(2027, 2, 19)).judged == {}  # more than six weeks ago by then


def test_one_entry_can_be_read_alone(team: Team) -> None:
    first, second = team.enter(2)
    with team.desk.reading() as reader:
        record = read_meet(reader, team.meet_id, team.desk.today(), only=frozenset({second}))
    assert [entry.id for entry in record.entries] == [second]
    assert set(record.athletes) == {team.athletes[1]}
    assert first != second


def test_the_latest_plan_counts(team: Team) -> None:
    team.enter(1)
    plan_meet(team.desk, team.meet_id)
    plan_meet(team.desk, team.meet_id)
    with team.desk.reading() as reader:
        record = read_meet(reader, team.meet_id, team.desk.today())
        assert meet_extent(reader, team.meet_id).plans == 2
        assert entry_extent(reader, record.entries[0].id).plans == 2
    assert len(record.plans) == 1


def test_candidates_are_by_name_without_the_archived(team: Team) -> None:
    team.enter(1)
    for name in ("Zoe", "Bea"):
        add_athlete(team.desk, AthleteData(given_name=name, family_name="Adler", sex=Sex.FEMALE))
    with team.desk.reading() as reader:
        found = candidates(reader, team.meet_id)
    assert [(each.athlete.name, each.is_entered) for each in found] == [
        ("Bea Adler", False),
        ("Zoe Adler", False),
        ("Ana 0 Ruiz", True),
    ]
