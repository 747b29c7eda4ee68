"""Reading a meet as a whole: a constant number of statements, however many entries it has."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any

from sqlalchemy import ColumnElement, Select, bindparam, func, select

from coachdesk.domain.athlete import Athlete, Handler
from coachdesk.domain.bodyweight import Bodyweight
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Attempt, Entry, EntryData, Flight, HandlerDuty, Meet, Session
from coachdesk.domain.weight_plan import WeightPlan
from coachdesk.storage import tables, training_tables
from coachdesk.storage.attention_queries import weight_plans
from coachdesk.storage.plans import Snapshot, latest_snapshots
from coachdesk.storage.rows import by
from coachdesk.storage.store import Reader
from coachdesk.storage.weight_states import weight_states

_SAME = ("athlete_id", "meet_id", "event", "equipment")


@dataclass(frozen=True)
class PastEntry:
    """An entry to an earlier meet, with its attempts."""

    meet: Meet
    entry: Entry
    attempts: tuple[Attempt, ...]


@dataclass(frozen=True)
class MeetRecord:
    """What is on file about a meet and its entries, by id where there are several.

    `weights` holds what each athlete's readings come to, `weight_plans` the ways down agreed on by
    entry; `judged` the lifts of which an athlete
    has a judged single lately; `lifted_before` who has attempts at an earlier meet.
    """

    meet: Meet
    sessions: dict[int, Session]
    flights: dict[int, Flight]
    entries: tuple[Entry, ...]
    athletes: dict[int, Athlete]
    handlers: dict[int, Handler]
    duties: tuple[HandlerDuty, ...]
    flights_of_entry: dict[int, tuple[int, ...]]
    attempts: dict[int, tuple[Attempt, ...]]
    weights: dict[int, Bodyweight]
    weight_plans: dict[int, WeightPlan]
    judged: dict[int, frozenset[Lift]]
    lifted_before: frozenset[int]
    plans: dict[int, Snapshot]


def meets_named(reader: Reader, name: str) -> tuple[Meet, ...]:
    """The meets of this name, whatever the case, latest first."""
    wanted = name.strip().casefold()
    meets = reader.list(Meet, order=[tables.meet.c.starts_on.desc()])
    return tuple(meet for meet in meets if meet.name.casefold() == wanted)


def meets_from(reader: Reader, day: date) -> tuple[Meet, ...]:
    """The meets from a day on, soonest first."""
    return reader.list(Meet, tables.meet.c.starts_on >= day, order=[tables.meet.c.starts_on])


def same_entries(reader: Reader, data: EntryData) -> tuple[int, ...]:
    """The entries of the athlete to the same meet in the same event and equipment."""
    key = {name: getattr(data, name) for name in _SAME}
    return tuple(reader.connection.execute(_same_entries(), key).scalars())


@cache
def _same_entries() -> Select[int]:
    entry = tables.entry.c
    return select(entry.id).where(*(entry[name] == bindparam(name) for name in _SAME))


def flights_named(reader: Reader, flight_ids: Iterable[int]) -> tuple[Flight, ...]:
    """These flights."""
    return reader.list(Flight, tables.flight.c.id.in_(list(flight_ids)))


def meet_record(
    reader: Reader,
    meet_id: int,
    *,
    judged_from: date,
    until: date,
    only: frozenset[int] | None = None,
) -> MeetRecord:
    """A meet with what its page and its packets need; `only` names the entries, None for all.

    Judged singles count from the day `judged_from` on, up to the day `until`.
    """
    meet = reader.get(Meet, meet_id)
    entries = reader.list(Entry, *_wanted(meet_id, only))
    entry_ids = select(tables.entry.c.id).where(*_wanted(meet_id, only))
    athlete_ids = select(tables.entry.c.athlete_id).where(*_wanted(meet_id, only))
    sessions = reader.list(
        Session, tables.session.c.meet_id == meet_id, order=[tables.session.c.starts_at]
    )
    flights = reader.list(
        Flight,
        tables.flight.c.session_id.in_([session.id for session in sessions]),
        order=[tables.flight.c.session_id, tables.flight.c.lift, tables.flight.c.position],
    )
    athletes = reader.list(Athlete, tables.athlete.c.id.in_(athlete_ids))
    attempts = reader.list(Attempt, tables.attempt.c.entry_id.in_(entry_ids))
    return MeetRecord(
        meet=meet,
        sessions={session.id: session for session in sessions},
        flights={flight.id: flight for flight in flights},
        entries=entries,
        athletes={athlete.id: athlete for athlete in athletes},
        handlers={handler.id: handler for handler in reader.list(Handler)},
        duties=reader.list(HandlerDuty, tables.handler_duty.c.entry_id.in_(entry_ids)),
        flights_of_entry=_flights_of(reader, entries, entry_ids),
        attempts=by(attempts, "entry_id"),
        weights=weight_states(reader, athlete_ids),
        weight_plans=weight_plans(reader, entry_ids),
        judged=judged_lifts(reader, athlete_ids, since=judged_from, until=until),
        lifted_before=frozenset(
            athlete_id
            for athlete_id, first in first_lifted(reader, athlete_ids).items()
            if first < meet.starts_on
        ),
        plans=latest_snapshots(reader, [entry.id for entry in entries]),
    )


def first_lifted(reader: Reader, athlete_ids: Select[int] | list[int]) -> dict[int, date]:
    """The day of the first meet on file at which each athlete took an attempt.

    An attempt that is only chosen, for a meet still to come, is not taken yet.
    """
    entry, meet, attempt = tables.entry.c, tables.meet.c, tables.attempt.c
    taken = select(attempt.id).where(attempt.entry_id == entry.id, attempt.result.is_not(None))
    rows = reader.connection.execute(
        select(entry.athlete_id, func.min(meet.starts_on, type_=meet.starts_on.type))
        .join(tables.meet, meet.id == entry.meet_id)
        .where(entry.athlete_id.in_(athlete_ids), taken.exists())
        .group_by(entry.athlete_id)
    )
    return {row[0]: row[1] for row in rows}


def judged_lifts(
    reader: Reader, athlete_ids: Select[int] | list[int], *, since: date, until: date
) -> dict[int, frozenset[Lift]]:
    """The lifts of which each athlete has a judged single."""
    logged = training_tables.logged_set.c
    return lifts_by_owner(
        reader,
        select(logged.athlete_id, logged.lift)
        .where(logged.athlete_id.in_(athlete_ids), logged.on.between(since, until), logged.judged)
        .distinct(),
    )


def lifts_by_owner(reader: Reader, query: Select[int, Any]) -> dict[int, frozenset[Lift]]:
    """The lifts that a query gives beside the ids they belong to, by id."""
    found: dict[int, set[Lift]] = {}
    for owner, lift in reader.connection.execute(query):
        found.setdefault(owner, set()).add(Lift(lift))
    return {owner: frozenset(lifts) for owner, lifts in found.items()}


def _wanted(meet_id: int, only: frozenset[int] | None) -> tuple[ColumnElement[bool], ...]:
    of_meet = tables.entry.c.meet_id == meet_id
    return (of_meet,) if only is None else (of_meet, tables.entry.c.id.in_(sorted(only)))


def _flights_of(
    reader: Reader, entries: tuple[Entry, ...], entry_ids: Select[int]
) -> dict[int, tuple[int, ...]]:
    entry_flight = tables.entry_flight.c
    rows = reader.connection.execute(
        select(entry_flight.entry_id, entry_flight.flight_id)
        .where(entry_flight.entry_id.in_(entry_ids))
        .order_by(entry_flight.id)
    )
    found: dict[int, list[int]] = {entry.id: [] for entry in entries}
    for entry_id, flight_id in rows:
        found[entry_id].append(flight_id)
    return {entry_id: tuple(flight_ids) for entry_id, flight_ids in found.items()}
