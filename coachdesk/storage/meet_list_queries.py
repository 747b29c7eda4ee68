"""The list of meets, who can be entered, and how much hangs on a meet, a session or an entry."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import ColumnElement, func, select

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.meet import Meet
from coachdesk.storage import tables
from coachdesk.storage.rows import record
from coachdesk.storage.store import Reader


@dataclass(frozen=True, slots=True)
class MeetLine:
    """A meet, and how many entries to it are not withdrawn."""

    meet: Meet
    entries: int


@dataclass(frozen=True, slots=True)
class Extent:
    """How much goes along when something is deleted."""

    sessions: int = 0
    flights: int = 0
    entries: int = 0
    attempts: int = 0
    plans: int = 0


@dataclass(frozen=True, slots=True)
class Candidate:
    """An athlete who can be entered to a meet, and whether an entry is on file already."""

    athlete: Athlete
    is_entered: bool


def meet_lines(reader: Reader) -> tuple[MeetLine, ...]:
    """All meets, latest first."""
    entry = tables.entry.c
    count = (
        select(entry.meet_id, func.count().label("entries"))
        .where(~entry.withdrawn)
        .group_by(entry.meet_id)
        .subquery()
    )
    rows = reader.connection.execute(
        select(tables.meet, func.coalesce(count.c.entries, 0).label("entries"))
        .outerjoin(count, count.c.meet_id == tables.meet.c.id)
        .order_by(tables.meet.c.starts_on.desc(), tables.meet.c.id)
    ).mappings()
    return tuple(MeetLine(record(Meet, row), row["entries"]) for row in rows)


def candidates(reader: Reader, meet_id: int) -> tuple[Candidate, ...]:
    """The athletes who are not archived, by name."""
    athlete = tables.athlete.c
    entered = set(
        reader.connection.execute(
            select(tables.entry.c.athlete_id).where(tables.entry.c.meet_id == meet_id)
        ).scalars()
    )
    athletes = reader.list(
        Athlete, ~athlete.archived, order=[athlete.family_name, athlete.given_name]
    )
    return tuple(Candidate(each, each.id in entered) for each in athletes)


def meet_extent(reader: Reader, meet_id: int) -> Extent:
    """What goes along with a meet."""
    return _extent(reader, tables.session.c.meet_id == meet_id, tables.entry.c.meet_id == meet_id)


def entry_extent(reader: Reader, entry_id: int) -> Extent:
    """What goes along with an entry."""
    return _extent(reader, tables.session.c.id.is_(None), tables.entry.c.id == entry_id)


def session_extent(reader: Reader, session_id: int) -> Extent:
    """What goes along with a session; `entries` are those that lose it and stay."""
    return _extent(
        reader, tables.session.c.id == session_id, tables.entry.c.session_id == session_id
    )


def _extent(reader: Reader, sessions: ColumnElement[bool], entries: ColumnElement[bool]) -> Extent:
    session_ids = select(tables.session.c.id).where(sessions)
    entry_ids = select(tables.entry.c.id).where(entries)
    counts = (
        (tables.session, sessions),
        (tables.flight, tables.flight.c.session_id.in_(session_ids)),
        (tables.entry, entries),
        (tables.attempt, tables.attempt.c.entry_id.in_(entry_ids)),
        (tables.plan_snapshot, tables.plan_snapshot.c.entry_id.in_(entry_ids)),
    )
    found = reader.connection.execute(
        select(
            *(
                select(func.count()).select_from(table).where(wanted).scalar_subquery()
                for table, wanted in counts
            )
        )
    ).one()
    return Extent(*found)
