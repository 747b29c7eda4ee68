"""Reading the roster and one athlete's records: a constant number of statements, whatever there is.

The latest reading of each athlete is the first step into the index on (athlete_id, on): no query
here walks all readings or all logged sets.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from datetime import date
from typing import Any

from sqlalchemy import Select, case, exists, func, or_, select

from coachdesk.domain.athlete import Handler, Reading
from coachdesk.domain.lifting import Event, Result
from coachdesk.domain.meet import Attempt, Entry, Meet
from coachdesk.domain.roster import (
    Belongings,
    BestTotal,
    LatestWeight,
    NextMeet,
    RosterLine,
)
from coachdesk.domain.training import LoggedSet
from coachdesk.domain.units import Unit, parse_mass
from coachdesk.storage import tables, training_tables
from coachdesk.storage.meet_queries import PastEntry
from coachdesk.storage.store import Reader

_athlete, _reading, _logged, _entry, _meet, _attempt, _duty = (
    tables.athlete.c,
    tables.reading.c,
    training_tables.logged_set.c,
    tables.entry.c,
    tables.meet.c,
    tables.attempt.c,
    tables.handler_duty.c,
)


def roster(reader: Reader, today: date) -> tuple[RosterLine, ...]:
    """All athletes, the archived ones too, by family name; two statements."""
    other = tables.reading.alias().c
    latest = (
        select(other.id)
        .where(other.athlete_id == _athlete.id)
        .order_by(other.on.desc(), other.at.desc(), other.id.desc())
        .limit(1)
        .scalar_subquery()
    )
    meets = _next_meets(reader, today)
    query: Select[*tuple[Any, ...]] = (
        select(
            _athlete.id,
            _athlete.given_name,
            _athlete.family_name,
            _athlete.sex,
            _athlete.birth_date,
            _athlete.unit,
            _athlete.equipment,
            _athlete.archived,
            _reading.weight_entered,
            _reading.on,
        )
        .select_from(tables.athlete)
        .outerjoin(tables.reading, _reading.id == latest)
        .order_by(func.lower(_athlete.family_name), func.lower(_athlete.given_name), _athlete.id)
    )
    lines: list[RosterLine] = []
    for row in reader.connection.execute(query).all():
        athlete_id, given, family, sex, born, unit, equipment, archived, entered, on = row
        weighed = None if on is None else LatestWeight(parse_mass(entered, Unit.KG), on)
        lines.append(
            RosterLine(
                id=athlete_id,
                given_name=given,
                family_name=family,
                sex=sex,
                birth_date=born,
                unit=unit,
                equipment=equipment,
                archived=archived,
                latest=weighed,
                next_meet=meets.get(athlete_id),
            )
        )
    return tuple(lines)


def best_totals(reader: Reader, athlete_ids: Collection[int]) -> dict[int, BestTotal]:
    """The best total on record of each of these athletes who has one; one statement.

    A total of three lifts before others, one in the equipment the athlete wears before others,
    then the heaviest, lifted first. Good lifts of the first three attempts count, as in
    `domain.history.total_grams`; a test holds the two together.
    """
    totals = _totals(athlete_ids).subquery().c
    rank = func.row_number().over(
        partition_by=totals.athlete_id,
        order_by=[
            (totals.event == Event.THREE_LIFT).desc(),
            (totals.equipment == totals.worn).desc(),
            totals.total_g.desc(),
            totals.starts_on,
        ],
    )
    ranked = select(
        totals.athlete_id,
        totals.total_g,
        totals.starts_on,
        totals.event,
        totals.equipment,
        rank.label("rank"),
    ).subquery()
    first = select(*(each for each in ranked.c if each.name != "rank")).where(ranked.c.rank == 1)
    return {
        athlete_id: BestTotal(grams, on, event, equipment)
        for athlete_id, grams, on, event, equipment in reader.connection.execute(first).all()
    }


def belongings(reader: Reader, athlete_id: int) -> Belongings:
    """How much goes with an athlete; one statement."""
    hers = select(_entry.id).where(_entry.athlete_id == athlete_id)
    counts = {
        "readings": _count(_reading.athlete_id == athlete_id),
        "logged_sets": _count(_logged.athlete_id == athlete_id),
        "blocks": _count(training_tables.block.c.athlete_id == athlete_id),
        "entries": _count(_entry.athlete_id == athlete_id),
        "attempts": _count(_attempt.entry_id.in_(hers)),
    }
    query = select(*(count.scalar_subquery().label(name) for name, count in counts.items()))
    return Belongings(**reader.connection.execute(query).mappings().one())


def readings_of(
    reader: Reader, athlete_id: int, limit: int | None = None
) -> tuple[tuple[Reading, ...], int]:
    """An athlete's readings, latest first, the first `limit` of them; and how many there are."""
    newest = (
        select(_reading.id)
        .where(_reading.athlete_id == athlete_id)
        .order_by(_reading.on.desc(), _reading.at.desc(), _reading.id.desc())
        .limit(limit)
    )
    found = reader.list(
        Reading,
        _reading.id.in_(newest),
        order=[_reading.on.desc(), _reading.at.desc(), _reading.id.desc()],
    )
    return found, _counted(reader, _count(_reading.athlete_id == athlete_id))


def sets_of(
    reader: Reader, athlete_id: int, limit: int | None = None
) -> tuple[tuple[LoggedSet, ...], int]:
    """An athlete's logged sets, latest day first and within a day as they were logged.

    The first `limit` of them, and how many there are.
    """
    newest = (
        select(_logged.id)
        .where(_logged.athlete_id == athlete_id)
        .order_by(_logged.on.desc(), _logged.id.desc())
        .limit(limit)
    )
    found = reader.list(LoggedSet, _logged.id.in_(newest), order=[_logged.on.desc(), _logged.id])
    return found, _counted(reader, _count(_logged.athlete_id == athlete_id))


def results_of(reader: Reader, athlete_id: int, today: date) -> tuple[PastEntry, ...]:
    """An athlete's entries to meets that are over or begun, latest first; three statements.

    An entry to a meet of today counts once an attempt has been called.
    """
    called = exists().where(_attempt.entry_id == _entry.id, _attempt.result.is_not(None))
    wanted = (
        select(_entry.id)
        .join(tables.meet, _meet.id == _entry.meet_id)
        .where(
            _entry.athlete_id == athlete_id,
            ~_entry.withdrawn,
            or_(_meet.starts_on < today, (_meet.starts_on == today) & called),
        )
    )
    entries = reader.list(Entry, _entry.id.in_(wanted))
    at = select(_entry.meet_id).where(_entry.id.in_(wanted))
    meets = {meet.id: meet for meet in reader.list(Meet, _meet.id.in_(at))}
    attempts: defaultdict[int, list[Attempt]] = defaultdict(list)
    for attempt in reader.list(
        Attempt, _attempt.entry_id.in_(wanted), order=[_attempt.number, _attempt.take]
    ):
        attempts[attempt.entry_id].append(attempt)
    past = [PastEntry(meets[entry.meet_id], entry, tuple(attempts[entry.id])) for entry in entries]
    return tuple(sorted(past, key=lambda each: each.meet.starts_on, reverse=True))


def meets_of_day(reader: Reader, day: date) -> tuple[Meet, ...]:
    """The meets that begin on a day."""
    return reader.list(Meet, _meet.starts_on == day)


def latest_time_zone(reader: Reader) -> str | None:
    """The time zone of the meet that was put on file last."""
    latest = select(_meet.time_zone).order_by(_meet.id.desc()).limit(1)
    return reader.connection.execute(latest).scalar_one_or_none()


def has_nothing(reader: Reader, meet_id: int) -> bool:
    """Whether no entry, session or print hangs on a meet."""
    hanging = [
        exists().where(table.c.meet_id == meet_id)
        for table in (tables.entry, tables.session, tables.printing)
    ]
    return not reader.connection.execute(select(or_(*hanging))).scalar_one()


def is_alone(reader: Reader, entry: Entry) -> bool:
    """Whether a meet has this entry and nothing else."""
    entries = _counted(reader, _count(_entry.meet_id == entry.meet_id))
    others = [
        exists().where(table.c.meet_id == entry.meet_id)
        for table in (tables.session, tables.printing)
    ]
    return entries == 1 and not reader.connection.execute(select(or_(*others))).scalar_one()


def handlers(reader: Reader) -> tuple[tuple[Handler, int], ...]:
    """The handlers by name, each with how many duties they have; two statements."""
    duties = reader.connection.execute(
        select(_duty.handler_id, func.count()).group_by(_duty.handler_id)
    )
    count = {row[0]: row[1] for row in duties}
    found = reader.list(Handler, order=[func.lower(tables.handler.c.name)])
    return tuple((handler, count.get(handler.id, 0)) for handler in found)


def _next_meets(reader: Reader, today: date) -> dict[int, NextMeet]:
    """The next meet of each athlete who is entered to one, today's among them."""
    rows = reader.connection.execute(
        select(_entry.athlete_id, _meet.name, _meet.starts_on, _entry.weight_class)
        .join(tables.meet, _meet.id == _entry.meet_id)
        .where(_meet.starts_on >= today, ~_entry.withdrawn)
        .order_by(_meet.starts_on.desc(), _entry.id.desc())
    )
    return {
        athlete_id: NextMeet(name, on, weight_class)
        for athlete_id, name, on, weight_class in rows.all()
    }


def _totals(athlete_ids: Collection[int]) -> Select[Any]:
    """The total of every entry of these athletes in which each lift was made."""
    best = (
        select(_attempt.entry_id, func.max(_attempt.weight_g).label("best_g"))
        .join(tables.entry, _entry.id == _attempt.entry_id)
        .where(
            _entry.athlete_id.in_(athlete_ids),
            ~_entry.withdrawn,
            _attempt.result == Result.GOOD,
            _attempt.number <= 3,
        )
        .group_by(_attempt.entry_id, _attempt.lift)
        .subquery()
    )
    total = (
        select(
            best.c.entry_id,
            func.sum(best.c.best_g).label("total_g"),
            func.count().label("lifts"),
        )
        .group_by(best.c.entry_id)
        .subquery()
    )
    of_event = case({event: len(event.lifts) for event in Event}, value=_entry.event)
    return (
        select(
            _entry.athlete_id,
            _athlete.equipment.label("worn"),
            _entry.event,
            _entry.equipment,
            _meet.starts_on,
            total.c.total_g,
        )
        .join(total, total.c.entry_id == _entry.id)
        .join(tables.meet, _meet.id == _entry.meet_id)
        .join(tables.athlete, _athlete.id == _entry.athlete_id)
        .where(total.c.lifts == of_event)
    )


def _count(*criteria: Any) -> Select[Any]:
    return select(func.count()).where(*criteria)


def _counted(reader: Reader, query: Select[Any]) -> int:
    number: int = reader.connection.execute(query).scalar_one()
    return number
