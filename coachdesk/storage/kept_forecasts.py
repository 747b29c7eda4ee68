"""What was forecast of entries' lifts, kept with its day, and the meets it came to."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection, Select, func, insert, select

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Attempt, Entry, Meet
from coachdesk.domain.strength.forecast import Source
from coachdesk.domain.strength.kept import KeptForecast
from coachdesk.storage import tables, training_tables
from coachdesk.storage.column_kinds import entered
from coachdesk.storage.rows import by, stored_mass
from coachdesk.storage.store import Reader

_kept, _entry, _meet = training_tables.kept_forecast.c, tables.entry.c, tables.meet.c


@dataclass(frozen=True, slots=True)
class Came:
    """An entry to a meet that is over: what was forecast of it and what was lifted."""

    meet: Meet
    entry: Entry
    athlete: Athlete
    kept: tuple[KeptForecast, ...]
    attempts: tuple[Attempt, ...]


def keep_forecasts(connection: Connection, made: Sequence[KeptForecast]) -> None:
    """Put forecasts on file; what was said of an entry and lift that day already stands, and
    entries that went meanwhile are left out."""
    present = set(connection.execute(select(_entry.id)).scalars())
    rows = [
        {
            "entry_id": each.entry_id,
            "lift": each.lift,
            "made_on": each.made_on,
            "source": each.source,
            "expected_g": each.expected.grams,
            "expected_entered": entered(each.expected),
            "error": each.error,
            "day": each.day,
        }
        for each in made
        if each.entry_id in present
    ]
    if rows:
        connection.execute(insert(training_tables.kept_forecast).prefix_with("OR IGNORE"), rows)


def entries_kept_since(reader: Reader, day: date) -> frozenset[int]:
    """The entries of which a forecast was put on file after a day."""
    query = select(_kept.entry_id).where(_kept.made_on > day).distinct()
    return frozenset(reader.connection.execute(query).scalars())


def forecasts_of(
    reader: Reader, entry_ids: Select[int] | Collection[int]
) -> dict[int, tuple[KeptForecast, ...]]:
    """What was forecast of these entries, soonest first, by entry."""
    query = select(training_tables.kept_forecast).where(_kept.entry_id.in_(entry_ids))
    rows = reader.connection.execute(query.order_by(_kept.made_on, _kept.id)).mappings()
    found = [
        KeptForecast(
            entry_id=row["entry_id"],
            lift=Lift(row["lift"]),
            made_on=row["made_on"],
            source=Source(row["source"]),
            expected=stored_mass(row["expected_entered"]),
            error=row["error"],
            day=row["day"],
        )
        for row in rows
    ]
    return by(found, "entry_id")


def what_came(reader: Reader, before: date, athlete_id: int | None = None) -> tuple[Came, ...]:
    """The entries to meets before a day of which something had been forecast, of one athlete or of
    all; a constant number of statements."""
    wanted = [_meet.starts_on < before]
    if athlete_id is not None:
        wanted.append(_entry.athlete_id == athlete_id)
    entry_ids = (
        select(_entry.id)
        .join(tables.meet, _meet.id == _entry.meet_id)
        .where(*wanted, _entry.id.in_(select(_kept.entry_id)))
    )
    entries = reader.list(Entry, _entry.id.in_(entry_ids))
    meet_ids = {each.meet_id for each in entries}
    athlete_ids = {each.athlete_id for each in entries}
    meets = {each.id: each for each in reader.list(Meet, _meet.id.in_(meet_ids))}
    athletes = reader.list(Athlete, tables.athlete.c.id.in_(athlete_ids))
    by_id = {each.id: each for each in athletes}
    kept = forecasts_of(reader, entry_ids)
    attempts = by(reader.list(Attempt, tables.attempt.c.entry_id.in_(entry_ids)), "entry_id")
    return tuple(
        Came(
            meets[each.meet_id],
            each,
            by_id[each.athlete_id],
            kept.get(each.id, ()),
            attempts.get(each.id, ()),
        )
        for each in entries
    )


def entries_forecast(reader: Reader, athlete_id: int) -> dict[int, Meet]:
    """The meets of an athlete's entries of which something was forecast, by entry."""
    wanted = (_entry.athlete_id == athlete_id, _entry.id.in_(select(_kept.entry_id)))
    entries = reader.list(Entry, *wanted)
    meet_ids = select(_entry.meet_id).where(*wanted)
    meets = {each.id: each for each in reader.list(Meet, _meet.id.in_(meet_ids))}
    return {entry.id: meets[entry.meet_id] for entry in entries}


def meets_lifted(reader: Reader, athlete_id: int, before: date) -> int:
    """How many meets before a day an athlete took an attempt at."""
    attempt = tables.attempt.c
    taken = select(attempt.id).where(attempt.entry_id == _entry.id, attempt.result.is_not(None))
    query = (
        select(func.count(_meet.id.distinct()))
        .join(tables.entry, _entry.meet_id == _meet.id)
        .where(_entry.athlete_id == athlete_id, _meet.starts_on < before, taken.exists())
    )
    return reader.connection.execute(query).scalar_one()
