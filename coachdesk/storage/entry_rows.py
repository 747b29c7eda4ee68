"""The rows that hang on an entry: its flights, its handlers, its attempts."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeAlias

from sqlalchemy import delete, insert, select

from coachdesk.domain.history import standing
from coachdesk.domain.lifting import Equipment, Event, Lift
from coachdesk.domain.meet import Attempt, HandlerDuty
from coachdesk.domain.wishes import LiftBasis, Wishes
from coachdesk.storage import tables
from coachdesk.storage.store import Reader, Work

EntryKey: TypeAlias = "tuple[int, Event, Equipment]"
"""An athlete, an event and an equipment: at one meet there is one entry of each."""


def set_flights(work: Work, entry_id: int, flight_ids: Iterable[int]) -> None:
    """Put an entry into these flights and no others; what stays as it was is not touched."""
    row = tables.entry_flight.c
    wanted = set(flight_ids)
    present = set(
        work.connection.execute(select(row.flight_id).where(row.entry_id == entry_id)).scalars()
    )
    if present - wanted:
        work.connection.execute(
            delete(tables.entry_flight).where(
                row.entry_id == entry_id, row.flight_id.in_(sorted(present - wanted))
            )
        )
    rows = [
        {"version": 1, "entry_id": entry_id, "flight_id": flight_id}
        for flight_id in sorted(wanted - present)
    ]
    if rows:
        work.connection.execute(insert(tables.entry_flight), rows)


def set_duties(work: Work, entry_id: int, duties: Iterable[HandlerDuty]) -> None:
    """Give an entry these handlers and no others; who stays is not touched."""
    row = tables.handler_duty.c
    wanted = list(duties)
    present = work.list(HandlerDuty, row.entry_id == entry_id)
    for duty in present:
        if duty not in wanted:
            work.connection.execute(
                delete(tables.handler_duty).where(
                    row.entry_id == entry_id,
                    row.handler_id == duty.handler_id,
                    row.role == duty.role,
                )
            )
    work.insert_many(duty for duty in wanted if duty not in present)


def attempts_of(reader: Reader, entry_id: int) -> tuple[Attempt, ...]:
    """All attempts of an entry."""
    return reader.list(Attempt, tables.attempt.c.entry_id == entry_id)


def bases_of(reader: Reader, entry_id: int) -> tuple[LiftBasis, ...]:
    """What the lifts of an entry rest on, where the coach said anything."""
    return reader.list(LiftBasis, tables.lift_basis.c.entry_id == entry_id)


def wishes_of(reader: Reader, entry_id: int) -> Wishes | None:
    """What the coach wants of an entry's plan, if anything."""
    return next(iter(reader.list(Wishes, tables.wishes.c.entry_id == entry_id)), None)


def first_attempt(reader: Reader, entry_id: int, lift: Lift) -> Attempt | None:
    """The opener of a lift, when one has been chosen."""
    return standing(attempts_of(reader, entry_id), lift).get(1)


def entered_keys(reader: Reader, meet_id: int) -> frozenset[EntryKey]:
    """Who is entered to a meet, in which event and equipment: each of these once."""
    entry = tables.entry.c
    rows = reader.connection.execute(
        select(entry.athlete_id, entry.event, entry.equipment).where(entry.meet_id == meet_id)
    )
    return frozenset((row.athlete_id, row.event, row.equipment) for row in rows)


def latest_events(reader: Reader, athlete_ids: Iterable[int]) -> dict[int, Event]:
    """The event of each athlete's entry to the latest meet, by athlete."""
    entry, meet = tables.entry.c, tables.meet.c
    rows = reader.connection.execute(
        select(entry.athlete_id, entry.event)
        .join(tables.meet, meet.id == entry.meet_id)
        .where(entry.athlete_id.in_(list(athlete_ids)))
        .order_by(meet.starts_on, entry.id)
    )
    return {row.athlete_id: row.event for row in rows}
