"""Reading a meet as a whole: a constant number of statements, however many entries it has."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import select

from coachdesk.domain.athlete import Athlete, Handler, Reading
from coachdesk.domain.meet import Attempt, Entry, Flight, HandlerDuty, Meet, Session
from coachdesk.domain.training import LoggedSet
from coachdesk.storage.plans import Snapshot, latest_snapshots
from coachdesk.storage.store import Reader
from coachdesk.storage.tables import (
    AthleteRow,
    AttemptRow,
    EntryFlightRow,
    EntryRow,
    FlightRow,
    HandlerDutyRow,
    LoggedSetRow,
    MeetRow,
    ReadingRow,
    SessionRow,
)


@dataclass(frozen=True)
class PastEntry:
    """An entry to an earlier meet, with its attempts."""

    meet: Meet
    entry: Entry
    attempts: tuple[Attempt, ...]


@dataclass(frozen=True)
class MeetRecord:
    """Everything on file about a meet and its entries, by id where there are several."""

    meet: Meet
    sessions: dict[int, Session]
    flights: dict[int, Flight]
    entries: tuple[Entry, ...]
    athletes: dict[int, Athlete]
    handlers: dict[int, Handler]
    duties: tuple[HandlerDuty, ...]
    flights_of_entry: dict[int, tuple[int, ...]]
    attempts: dict[int, tuple[Attempt, ...]]
    readings: dict[int, tuple[Reading, ...]]
    recent_sets: dict[int, tuple[LoggedSet, ...]]
    past: dict[int, tuple[PastEntry, ...]]
    plans: dict[int, Snapshot]


def meets_named(reader: Reader, name: str) -> tuple[Meet, ...]:
    """The meets of this name, whatever the case, latest first."""
    wanted = name.strip().casefold()
    meets = reader.list(Meet, order=[MeetRow.starts_on.desc()])
    return tuple(meet for meet in meets if meet.name.casefold() == wanted)


def meets_from(reader: Reader, day: date) -> tuple[Meet, ...]:
    """The meets from a day on, soonest first."""
    return reader.list(Meet, MeetRow.starts_on >= day, order=[MeetRow.starts_on])


def entries_of(reader: Reader, meet_id: int) -> tuple[Entry, ...]:
    """The entries of a meet."""
    return reader.list(Entry, EntryRow.meet_id == meet_id)


def flights_named(reader: Reader, flight_ids: Iterable[int]) -> tuple[Flight, ...]:
    """These flights."""
    return reader.list(Flight, FlightRow.id.in_(list(flight_ids)))


def past_entries(reader: Reader, athlete_ids: Iterable[int], before: date) -> tuple[PastEntry, ...]:
    """The entries of these athletes to meets before a date, latest meet first."""
    wanted = list(athlete_ids)
    earlier = select(MeetRow.id).where(MeetRow.starts_on < before)
    entries = reader.list(Entry, EntryRow.athlete_id.in_(wanted), EntryRow.meet_id.in_(earlier))
    past_ids = select(EntryRow.id).where(
        EntryRow.athlete_id.in_(wanted), EntryRow.meet_id.in_(earlier)
    )
    attempts = _by(reader.list(Attempt, AttemptRow.entry_id.in_(past_ids)), "entry_id")
    meets = {meet.id: meet for meet in reader.list(Meet, MeetRow.starts_on < before)}
    past = [PastEntry(meets[entry.meet_id], entry, attempts.get(entry.id, ())) for entry in entries]
    return tuple(sorted(past, key=lambda each: each.meet.starts_on, reverse=True))


def meet_record(reader: Reader, meet_id: int, sets_from: date, readings_from: date) -> MeetRecord:
    """A meet with everything its packets need; sets and readings from the given days on."""
    meet = reader.get(Meet, meet_id)
    entries = entries_of(reader, meet_id)
    entry_ids = [entry.id for entry in entries]
    athlete_ids = [entry.athlete_id for entry in entries]
    sessions = reader.list(Session, SessionRow.meet_id == meet_id)
    flights = reader.list(Flight, FlightRow.session_id.in_([session.id for session in sessions]))
    past = past_entries(reader, athlete_ids, meet.starts_on)
    assigned = reader.connection.execute(
        select(EntryFlightRow.entry_id, EntryFlightRow.flight_id).where(
            EntryFlightRow.entry_id.in_(entry_ids)
        )
    ).all()
    return MeetRecord(
        meet=meet,
        sessions={session.id: session for session in sessions},
        flights={flight.id: flight for flight in flights},
        entries=entries,
        athletes={
            athlete.id: athlete for athlete in reader.list(Athlete, AthleteRow.id.in_(athlete_ids))
        },
        handlers={handler.id: handler for handler in reader.list(Handler)},
        duties=reader.list(HandlerDuty, HandlerDutyRow.entry_id.in_(entry_ids)),
        flights_of_entry={
            entry_id: tuple(flight for entry, flight in assigned if entry == entry_id)
            for entry_id in entry_ids
        },
        attempts=_by(reader.list(Attempt, AttemptRow.entry_id.in_(entry_ids)), "entry_id"),
        readings=_by(
            reader.list(
                Reading, ReadingRow.athlete_id.in_(athlete_ids), ReadingRow.on >= readings_from
            ),
            "athlete_id",
        ),
        recent_sets=_by(
            reader.list(
                LoggedSet, LoggedSetRow.athlete_id.in_(athlete_ids), LoggedSetRow.on >= sets_from
            ),
            "athlete_id",
        ),
        past={
            athlete_id: tuple(each for each in past if each.entry.athlete_id == athlete_id)
            for athlete_id in athlete_ids
        },
        plans=latest_snapshots(reader, entry_ids),
    )


def _by(records: Iterable[Any], key: str) -> dict[int, tuple[Any, ...]]:
    grouped: dict[int, list[Any]] = {}
    for each in records:
        grouped.setdefault(getattr(each, key), []).append(each)
    return {owner: tuple(group) for owner, group in grouped.items()}
