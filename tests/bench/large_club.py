"""A desk far larger than any coach's, for measuring: written straight into the tables."""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

from sqlalchemy import Connection, insert

from coachdesk.domain.athlete import AthleteData, ReadingData
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Sex
from coachdesk.domain.meet import AttemptData, EntryData, MeetData
from coachdesk.domain.training import LoggedSetData
from coachdesk.domain.units import kilograms
from coachdesk.services.desk import Desk
from coachdesk.storage import tables, training_tables
from coachdesk.storage.rows import columns

A_CHUNK = 20_000
MEETS_A_YEAR = 2


def fill(desk: Desk, *, athletes: int, years: int, readings_a_week: int, sets_a_week: int) -> None:
    """Athletes with years of readings, logged sets and meets, up to today; two meets to come."""
    today = desk.today()
    with desk.store.raw_writing() as connection:
        _insert(
            connection,
            tables.athlete,
            ({**columns(_athlete(n)), "archived": False} for n in range(1, athletes + 1)),
        )
        days = [today - timedelta(days=back) for back in range(years * 365)]
        _insert(
            connection,
            tables.reading,
            (
                columns(_reading(n, day))
                for n in range(1, athletes + 1)
                for at, day in enumerate(days)
                if at * readings_a_week % 7 < readings_a_week
            ),
        )
        _insert(
            connection,
            training_tables.logged_set,
            (
                columns(_set(n, day - timedelta(days=at % 5)))
                for n in range(1, athletes + 1)
                for day in days[::7]
                for at in range(sets_a_week)
            ),
        )
        _meets(connection, today, athletes, years)


def _meets(connection: Connection, today: date, athletes: int, years: int) -> None:
    past = years * MEETS_A_YEAR
    every = timedelta(days=365 // MEETS_A_YEAR)
    on = [today - every * (past - n) for n in range(past)]
    on += [today + timedelta(weeks=6), today + timedelta(weeks=14)]
    _insert(connection, tables.meet, (columns(_meet(n, day)) for n, day in enumerate(on)))
    entries = [
        (meet, athlete)
        for meet in range(1, len(on) + 1)
        for athlete in range(1, athletes + 1)
        if meet <= past or (athlete + meet) % 4 == 0
    ]
    _insert(connection, tables.entry, (columns(_entry(athlete, meet)) for meet, athlete in entries))
    _insert(
        connection,
        tables.attempt,
        (
            columns(_attempt(entry, lift, number))
            for entry, (meet, _athlete_id) in enumerate(entries, start=1)
            if meet <= past
            for lift in Lift
            for number in (1, 2, 3)
        ),
    )


def _insert(connection: Connection, table: Any, rows: Iterator[dict[str, Any]]) -> None:
    chunk: list[dict[str, Any]] = []
    for row in rows:
        chunk.append({"version": 1, **row})
        if len(chunk) == A_CHUNK:
            connection.execute(insert(table), chunk)
            chunk = []
    if chunk:
        connection.execute(insert(table), chunk)


def _athlete(number: int) -> AthleteData:
    return AthleteData(
        given_name=f"Given{number}",
        family_name=f"Family{number * 7919 % 1000:03}",
        sex=Sex.FEMALE if number % 2 else Sex.MALE,
        birth_date=date(1960 + number % 48, 1 + number % 12, 1 + number % 28),
        height_cm=150 + number % 45,
    )


def _weight(number: int) -> float:
    return 48 + number * 37 % 90


def _reading(number: int, day: date) -> ReadingData:
    noise = random.Random(number * 100_003 + day.toordinal()).gauss(0, 0.4)  # noqa: S311
    return ReadingData(
        athlete_id=number, on=day, weight=kilograms(round(_weight(number) + noise, 1))
    )


def _set(number: int, day: date) -> LoggedSetData:
    lift = list(Lift)[day.toordinal() % 3]
    return LoggedSetData(
        athlete_id=number,
        on=day,
        lift=lift,
        weight=kilograms(100 + 5 * (number % 20)),
        reps=5,
        rir=2,
    )


def _meet(number: int, day: date) -> MeetData:
    return MeetData(
        name=f"Meet {number}", starts_on=day, rulebook="ipf_2021", time_zone="Europe/Berlin"
    )


def _entry(athlete: int, meet: int) -> EntryData:
    return EntryData(
        athlete_id=athlete,
        meet_id=meet,
        event=Event.THREE_LIFT,
        equipment=Equipment.CLASSIC,
        divisions=("open",),
        bodyweight=kilograms(_weight(athlete)),
    )


def _attempt(entry: int, lift: Lift, number: int) -> AttemptData:
    result = Result.NO_LIFT if (entry + number) % 5 == 0 else Result.GOOD
    weight = kilograms(100 + 2.5 * (entry % 40) + 5 * number)
    return AttemptData(entry_id=entry, lift=lift, number=number, weight=weight, result=result)
