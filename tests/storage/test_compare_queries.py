"""What everybody lifted and is to lift, read in a constant number of statements."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from itertools import product
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import Connection, event

from coachdesk.domain.athlete import Athlete, ReadingData
from coachdesk.domain.attempts import Method
from coachdesk.domain.history import best_grams, bombed_lift
from coachdesk.domain.lifting import Event, Lift, Result, Seen
from coachdesk.domain.meet import Attempt, AttemptData, Entry, SessionData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.services.meets import (
    add_session,
    choose_opener,
    edit_entry,
    record_attempts,
)
from coachdesk.services.planning import plan_meet
from coachdesk.services.roster import add_readings, archive_athlete
from coachdesk.storage.compare_queries import compared_athletes, lifted_days, planned_days

if TYPE_CHECKING:
    from tests.conftest import Results

TODAY = date(2026, 11, 25)


@contextmanager
def statements(desk: Desk) -> Iterator[list[str]]:
    """The statements sent while it lasts."""
    sent: list[str] = []

    def note(_c: Connection, _cursor: object, statement: str, *_more: object) -> None:
        sent.append(statement)

    engine = desk.store._engine
    event.listen(engine, "before_cursor_execute", note)
    try:
        yield sent
    finally:
        event.remove(engine, "before_cursor_execute", note)


def test_the_best_and_the_bomb_outs_are_those_of_the_domain(desk: Desk, results: Results) -> None:
    """Against `domain.history`, for all that three attempts can bring, a void one taken again and
    a fourth attempt among them."""
    athlete_id = results.athlete("Ana Ruiz")
    outcomes = (Result.GOOD, Result.NO_LIFT, Result.PASSED, None)
    for number, came in enumerate(product(outcomes, repeat=3), start=1):
        meet_id = results.meet(f"Meet {number}", TODAY - timedelta(days=number))
        event = list(Event)[number % len(Event)]
        entry_id = results.entry(athlete_id, meet_id, event=event)
        record_attempts(
            desk,
            [
                AttemptData(
                    entry_id=entry_id,
                    lift=lift,
                    number=at + 1,
                    weight=kilograms(100 + 5 * (at + turned)),
                    result=came[(at + turned) % 3],
                )
                for turned, lift in enumerate(Lift)
                for at in range(3)
            ],
        )
        again = AttemptData(
            entry_id=entry_id, lift=Lift.BENCH, number=2, weight=kilograms(130), take=2
        )
        fourth = replace(again, number=4, take=1, weight=kilograms(200), result=Result.GOOD)
        record_attempts(desk, [replace(again, result=came[0]), fourth][: number % 3])
    with desk.reading() as reader:
        found = {day.entry.entry_id: day for day in lifted_days(reader)}
        entries = reader.list(Entry)
        attempts = reader.list(Attempt)
    bombs = 0
    for entry in entries:
        own = [attempt for attempt in attempts if attempt.entry_id == entry.id]
        if all(attempt.result is None for attempt in own):
            assert entry.id not in found
            continue
        day = found[entry.id]
        best = {lift: best_grams(own, lift) for lift in Lift}
        assert day.best_g == {lift: grams for lift, grams in best.items() if grams is not None}
        assert day.bombed == bombed_lift(own, entry.event)
        bombs += day.bombed is not None
    assert len(found) > 60
    assert bombs > 0


def test_archived_athletes_and_withdrawn_entries_are_left_out(desk: Desk, results: Results) -> None:
    meet_id = results.meet("Harbour Open", date(2026, 5, 2))
    kept, archived, withdrawn = (
        results.athlete(name) for name in ("Ana Ruiz", "Bea Lind", "Cora Adler")
    )
    for athlete_id in (kept, archived, withdrawn):
        results.day(athlete_id, meet_id, (100, 50, 120))
    with desk.reading() as reader:
        athlete = reader.get(Athlete, archived)
        (entry,) = (each for each in reader.list(Entry) if each.athlete_id == withdrawn)
    archive_athlete(desk, athlete, archived=True)
    edit_entry(desk, entry.id, entry.version, replace(entry, withdrawn=True))
    with desk.reading() as reader:
        assert [athlete.id for athlete in compared_athletes(reader)] == [withdrawn, kept]
        assert [day.entry.athlete_id for day in lifted_days(reader)] == [kept]


def test_the_day_is_that_of_the_session(desk: Desk, results: Results) -> None:
    """A meet of several days: the athlete lifts on the second."""
    meet_id = results.meet("Long Weekend", date(2026, 12, 12))
    sunday = datetime.combine(date(2026, 12, 13), time(9))
    session = SessionData(meet_id=meet_id, name="Sunday", starts_at=sunday)
    session_id = add_session(desk, session).value
    entry_id = results.entry(results.athlete("Ana Ruiz"), meet_id)
    with desk.reading() as reader:
        entry = reader.get(Entry, entry_id)
    edit_entry(desk, entry_id, entry.version, replace(entry, session_id=session_id))
    with desk.reading() as reader:
        for today in (TODAY, date(2026, 12, 13)):
            (planned,) = planned_days(reader, today).entries
            assert planned.on == date(2026, 12, 13)
        assert planned_days(reader, date(2026, 12, 14)).entries == ()


def test_what_is_ahead_has_openers_the_latest_plan_and_the_latest_week(
    desk: Desk, results: Results
) -> None:
    athlete_id = results.athlete("Ana Ruiz", born=date(1996, 5, 4))
    past = results.meet("Harbour Open", date(2026, 5, 2))
    results.day(athlete_id, past, (100, 60, 120), bodyweight="62.4")
    meet_id = results.meet("Winter Cup", date(2026, 12, 12))
    entry_id = results.entry(athlete_id, meet_id)
    choose_opener(desk, entry_id, Lift.SQUAT, kilograms("92.5"))
    plan_meet(desk, meet_id)
    plan_meet(desk, meet_id)
    add_readings(
        desk,
        [
            ReadingData(athlete_id=athlete_id, on=TODAY - timedelta(days=ago), weight=weight)
            for ago, weight in enumerate(kilograms(60 + number) for number in range(12))
        ],
    )
    with desk.reading() as reader:
        planned = planned_days(reader, TODAY)
    assert [entry.entry_id for entry in planned.entries] == [entry_id]
    (opener,) = planned.chosen[entry_id]
    assert (opener.lift, opener.weight.grams) == (Lift.SQUAT, 92_500)
    assert planned.plans[entry_id].plan.method is Method.ENGINE
    weight = planned.weights[athlete_id]
    assert (weight.latest_on, weight.readings) == (TODAY, 7)


def test_an_entry_that_has_begun_is_no_longer_ahead(desk: Desk, results: Results) -> None:
    meet_id = results.meet("Today's Meet", TODAY)
    entry_id = results.entry(results.athlete("Ana Ruiz"), meet_id)
    record_attempts(
        desk,
        [AttemptData(entry_id=entry_id, lift=Lift.SQUAT, number=1, weight=kilograms(100))],
    )
    with desk.reading() as reader:
        assert len(planned_days(reader, TODAY).entries) == 1
        assert lifted_days(reader) == ()
    record_attempts(
        desk,
        [
            AttemptData(
                entry_id=entry_id,
                lift=Lift.BENCH,
                number=1,
                weight=kilograms(60),
                result=Result.GOOD,
                seen=Seen.EASY,
            )
        ],
    )
    with desk.reading() as reader:
        assert planned_days(reader, TODAY).entries == ()
        assert [day.best_g for day in lifted_days(reader)] == [{Lift.BENCH: 60_000}]


@pytest.mark.parametrize("athletes", [1, 12])
def test_the_number_of_statements_does_not_grow(
    desk: Desk, results: Results, athletes: int
) -> None:
    past, ahead = (
        results.meet("Harbour Open", date(2026, 5, 2)),
        results.meet("Winter Cup", date(2026, 12, 12)),
    )
    for number in range(athletes):
        athlete_id = results.athlete(f"Ana {number}")
        results.day(athlete_id, past, (100, 60, 120))
        results.entry(athlete_id, ahead)
    with statements(desk) as sent, desk.reading() as reader:
        compared_athletes(reader)
        lifted_days(reader)
        planned_days(reader, TODAY)
    reads = [statement for statement in sent if statement.lstrip().startswith("SELECT")]
    assert len(reads) == 8
