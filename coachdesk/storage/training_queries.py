"""Reading what the plans of a meet's entries go by, in a constant number of statements."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import Select, func, select, union

from coachdesk.domain.meet import Attempt, Entry, Meet
from coachdesk.domain.training import LoggedSet
from coachdesk.domain.wishes import LiftBasis, Wishes, WishesData
from coachdesk.storage import tables, training_tables
from coachdesk.storage.meet_queries import MeetRecord, PastEntry
from coachdesk.storage.rows import by
from coachdesk.storage.store import Reader

_logged, _entry, _meet = training_tables.logged_set.c, tables.entry.c, tables.meet.c


@dataclass(frozen=True)
class Training:
    """What planning goes by.

    By athlete: the `sets` of the competition lifts lately, and before each earlier meet; judged
    singles from further back; the earlier meets, latest first. By entry: what the coach wants of
    the plan, and what the lifts rest on.
    """

    sets: dict[int, tuple[LoggedSet, ...]]
    past: dict[int, tuple[PastEntry, ...]]
    bases: dict[int, tuple[LiftBasis, ...]]
    wishes: dict[int, WishesData]


def training_of(
    reader: Reader, record: MeetRecord, *, recent: timedelta, look_back: timedelta, until: date
) -> Training:
    """What the plans of a meet's entries go by, from before the meet and up to the day `until`.

    Sets count for `recent` days before `until` and before each earlier meet; neither meets nor
    judged singles count that are longer ago than `look_back`.
    """
    athlete_ids = list(record.athletes)
    entry_ids = [entry.id for entry in record.entries]
    sets = counted_sets(reader, athlete_ids, recent=recent, look_back=look_back, until=until)
    past = past_entries(reader, athlete_ids, record.meet.starts_on)
    bases = reader.list(LiftBasis, tables.lift_basis.c.entry_id.in_(entry_ids))
    wishes = reader.list(Wishes, tables.wishes.c.entry_id.in_(entry_ids))
    return Training(
        sets=by(sets, "athlete_id"),
        past=past,
        bases=by(bases, "entry_id"),
        wishes={each.entry_id: each for each in wishes},
    )


def counted_sets(
    reader: Reader,
    athlete_ids: Collection[int],
    *,
    recent: timedelta,
    look_back: timedelta,
    until: date,
) -> tuple[LoggedSet, ...]:
    """The sets of the competition lifts that count (see `training_of`)."""
    since = until - look_back
    counted = union(
        select(_logged.id).where(
            _logged.athlete_id.in_(athlete_ids), _logged.on.between(until - recent, until)
        ),
        select(_logged.id).where(
            _logged.athlete_id.in_(athlete_ids), _logged.on.between(since, until), _logged.judged
        ),
        _before_meets(athlete_ids, recent, since, until),
    )
    return reader.list(LoggedSet, _logged.id.in_(counted), _logged.variation == "")


def past_entries(
    reader: Reader, athlete_ids: Collection[int], before: date
) -> dict[int, tuple[PastEntry, ...]]:
    """The entries of these athletes to meets before a date, latest meet first, by athlete."""
    earlier = select(_meet.id).where(_meet.starts_on < before)
    wanted = (_entry.athlete_id.in_(athlete_ids), _entry.meet_id.in_(earlier))
    entries = reader.list(Entry, *wanted)
    past_ids = select(_entry.id).where(*wanted)
    attempts = by(reader.list(Attempt, tables.attempt.c.entry_id.in_(past_ids)), "entry_id")
    meets = {meet.id: meet for meet in reader.list(Meet, _meet.starts_on < before)}
    past = sorted(
        (PastEntry(meets[entry.meet_id], entry, attempts.get(entry.id, ())) for entry in entries),
        key=lambda each: each.meet.starts_on,
        reverse=True,
    )
    grouped: dict[int, list[PastEntry]] = {}
    for each in past:
        grouped.setdefault(each.entry.athlete_id, []).append(each)
    return {athlete_id: tuple(group) for athlete_id, group in grouped.items()}


def _before_meets(
    athlete_ids: Collection[int], recent: timedelta, since: date, until: date
) -> Select[int]:
    """The sets within `recent` days before each of the athletes' meets; found by the index."""
    return (
        select(_logged.id)
        .select_from(tables.entry)
        .join(tables.meet, _meet.id == _entry.meet_id)
        .join(training_tables.logged_set, _logged.athlete_id == _entry.athlete_id)
        .where(
            _entry.athlete_id.in_(athlete_ids),
            _meet.starts_on.between(since, until),
            _logged.on >= func.date(_meet.starts_on, f"-{recent.days} days"),
            _logged.on < _meet.starts_on,
        )
    )


def sets_between(
    reader: Reader, athlete_ids: Collection[int], first: date, last: date
) -> tuple[LoggedSet, ...]:
    """All sets of these athletes from one day to another, both included."""
    return reader.list(
        LoggedSet, _logged.athlete_id.in_(athlete_ids), _logged.on.between(first, last)
    )
