"""Reading what everybody lifted, or is to lift: a constant number of statements for any roster.

The best of each lift and the lift somebody bombed in are found by the database, as the functions
of `domain.history` find them; a test holds the two together.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, TypeVar

from sqlalchemy import (
    Date,
    Select,
    String,
    and_,
    case,
    distinct,
    exists,
    func,
    select,
    type_coerce,
)

from coachdesk.domain.bodyweight import Bodyweight
from coachdesk.domain.lifting import Equipment, Event, Lift, Result, Sex
from coachdesk.domain.meet import Attempt
from coachdesk.storage import tables
from coachdesk.storage.plans import Snapshot, latest_snapshots
from coachdesk.storage.store import Reader
from coachdesk.storage.weight_states import weight_states

R = TypeVar("R")
_LIFTS = tuple(Lift)

_attempt, _entry, _meet, _athlete = (
    tables.attempt.c,
    tables.entry.c,
    tables.meet.c,
    tables.athlete.c,
)


@dataclass(frozen=True, slots=True)
class ComparedAthlete:
    """What comparing needs to know about an athlete."""

    id: int
    name: str
    sex: Sex
    birth_date: date | None


@dataclass(frozen=True, slots=True)
class EntryDay:
    """An entry on its day: where, what, and at which bodyweight [g].

    `on` is the day of its session, or the meet's first; `division` the first one entered.
    """

    entry_id: int
    athlete_id: int
    meet: str
    rulebook: str
    on: date
    division: str
    event: Event
    equipment: Equipment
    bodyweight_g: int | None


@dataclass(frozen=True, slots=True)
class LiftedDay:
    """What an entry lifted: the best [g] of each lift that has one, and the lift it bombed in."""

    entry: EntryDay
    best_g: Mapping[Lift, int]
    bombed: Lift | None


@dataclass(frozen=True, slots=True)
class PlannedDays:
    """The entries to come, not withdrawn and with nothing lifted yet, soonest first.

    `chosen` holds the attempts chosen so far; it and `plans` go by entry, `weights` by athlete.
    """

    entries: tuple[EntryDay, ...]
    chosen: Mapping[int, tuple[Attempt, ...]]
    plans: Mapping[int, Snapshot]
    weights: Mapping[int, Bodyweight]


def compared_athletes(reader: Reader) -> tuple[ComparedAthlete, ...]:
    """All athletes that are not archived, by family name."""
    rows = reader.connection.execute(
        select(
            _athlete.id,
            _athlete.given_name,
            _athlete.family_name,
            _athlete.sex,
            _athlete.birth_date,
        )
        .where(~_athlete.archived)
        .order_by(func.lower(_athlete.family_name), func.lower(_athlete.given_name), _athlete.id)
    )
    return tuple(
        ComparedAthlete(athlete_id, f"{given} {family}".strip(), sex, birth_date)
        for athlete_id, given, family, sex, birth_date in rows
    )


def entry_count(reader: Reader) -> int:
    """How many entries are on file."""
    count = select(func.count()).select_from(tables.entry)
    return reader.connection.execute(count).scalar_one()


def lifted_days(reader: Reader) -> tuple[LiftedDay, ...]:
    """Every day on which somebody not archived lifted, latest first."""
    counts = and_(_attempt.result == Result.GOOD, _attempt.number <= 3)
    best = (
        select(
            _attempt.entry_id,
            *(
                func.max(case((and_(_attempt.lift == lift, counts), _attempt.weight_g))).label(lift)
                for lift in _LIFTS
            ),
        )
        .where(_attempt.result.is_not(None))
        .group_by(_attempt.entry_id)
        .subquery()
    )
    query = (
        _entries()
        .add_columns(*(best.c[lift] for lift in _LIFTS))
        .join(best, best.c.entry_id == _entry.id)
        .order_by(_day.desc(), _entry.id)
    )
    found = [_with_best(row) for row in reader.connection.execute(query).all()]
    bombed = _bombed(
        reader, [entry for entry, best_g in found if len(best_g) < len(entry.event.lifts)]
    )
    return tuple(LiftedDay(entry, best_g, bombed.get(entry.entry_id)) for entry, best_g in found)


def planned_days(reader: Reader, today: date) -> PlannedDays:
    """The entries from `today` on, their latest plans, and what the athletes weigh at present."""
    lifted = exists().where(_attempt.entry_id == _entry.id, _attempt.result.is_not(None))
    query = _entries().where(_day >= today, ~lifted).order_by(_day, _entry.id)
    entries = tuple(EntryDay(*row) for row in reader.connection.execute(query))
    entry_ids = [entry.entry_id for entry in entries]
    return PlannedDays(
        entries=entries,
        chosen=_grouped(
            reader.list(Attempt, _attempt.entry_id.in_(entry_ids)), lambda each: each.entry_id
        ),
        plans=latest_snapshots(reader, entry_ids),
        weights=weight_states(reader, {entry.athlete_id for entry in entries}),
    )


_day = type_coerce(func.coalesce(func.date(tables.session.c.starts_at), _meet.starts_on), Date)


def _entries() -> Select[*tuple[Any, ...]]:
    """Entries that are not withdrawn, of athletes who are not archived."""
    return (
        select(
            _entry.id,
            _entry.athlete_id,
            _meet.name,
            _meet.rulebook,
            _day.label("day"),
            func.json_extract(_entry.divisions, "$[0]", type_=String),
            _entry.event,
            _entry.equipment,
            _entry.bodyweight_g,
        )
        .select_from(tables.entry)
        .join(tables.meet, _meet.id == _entry.meet_id)
        .join(tables.athlete, _athlete.id == _entry.athlete_id)
        .outerjoin(tables.session, tables.session.c.id == _entry.session_id)
        .where(~_entry.withdrawn, ~_athlete.archived)
    )


def _with_best(row: Sequence[Any]) -> tuple[EntryDay, dict[Lift, int]]:
    *about, squat_g, bench_g, deadlift_g = row
    weights = zip(_LIFTS, (squat_g, bench_g, deadlift_g), strict=True)
    return EntryDay(*about), {lift: grams for lift, grams in weights if grams is not None}


def _bombed(reader: Reader, entries: Iterable[EntryDay]) -> dict[int, Lift]:
    """The first lift in which each of these entries has three no lifts and nothing good."""
    incomplete = {entry.entry_id: entry for entry in entries}
    rows = reader.connection.execute(
        select(_attempt.entry_id, _attempt.lift)
        .where(_attempt.entry_id.in_(incomplete), _attempt.number <= 3)
        .group_by(_attempt.entry_id, _attempt.lift)
        .having(
            func.count(distinct(case((_attempt.result == Result.NO_LIFT, _attempt.number)))) == 3,
            func.count(case((_attempt.result == Result.GOOD, 1))) == 0,
        )
    )
    failed = {(entry_id, lift) for entry_id, lift in rows}
    return {
        entry_id: lift
        for entry_id, entry in incomplete.items()
        for lift in reversed(entry.event.lifts)
        if (entry_id, lift) in failed
    }


def _grouped(records: Iterable[R], owner: Callable[[R], int]) -> dict[int, tuple[R, ...]]:
    grouped: defaultdict[int, list[R]] = defaultdict(list)
    for each in records:
        grouped[owner(each)].append(each)
    return {owner_id: tuple(group) for owner_id, group in grouped.items()}
