"""Reading what the plans of a meet's entries go by, in a constant number of statements."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import select

from coachdesk.domain.meet import Attempt, Entry, Meet
from coachdesk.domain.training import LoggedSet
from coachdesk.domain.wishes import LiftBasis, Wishes, WishesData
from coachdesk.storage import tables, training_tables
from coachdesk.storage.meet_queries import PastEntry
from coachdesk.storage.rows import by
from coachdesk.storage.store import Reader
from coachdesk.storage.strength_states import Strength, strength_states

_logged, _entry, _meet = training_tables.logged_set.c, tables.entry.c, tables.meet.c


@dataclass(frozen=True)
class Training:
    """What planning goes by.

    By athlete: what the training days say of the competition `lifts`; the judged `singles` as they
    were logged; the earlier meets, latest first. By entry: what the coach wants of the plan, and
    what the lifts rest on.
    """

    lifts: dict[int, Strength]
    singles: dict[int, tuple[LoggedSet, ...]]
    past: dict[int, tuple[PastEntry, ...]]
    bases: dict[int, tuple[LiftBasis, ...]]
    wishes: dict[int, WishesData]


def training_of(
    reader: Reader, entries: Collection[Entry], *, before: date, look_back: timedelta, until: date
) -> Training:
    """What the plans of entries go by, from meets before a day and training up to the day `until`.

    No judged single counts that is longer ago than `look_back`.
    """
    athlete_ids = sorted({entry.athlete_id for entry in entries})
    entry_ids = [entry.id for entry in entries]
    singles = judged_singles(reader, athlete_ids, look_back=look_back, until=until)
    bases = reader.list(LiftBasis, tables.lift_basis.c.entry_id.in_(entry_ids))
    wishes = reader.list(Wishes, tables.wishes.c.entry_id.in_(entry_ids))
    return Training(
        lifts=strength_states(reader, athlete_ids),
        singles=by(singles, "athlete_id"),
        past=past_entries(reader, athlete_ids, before),
        bases=by(bases, "entry_id"),
        wishes={each.entry_id: each for each in wishes},
    )


def judged_singles(
    reader: Reader, athlete_ids: Collection[int], *, look_back: timedelta, until: date
) -> tuple[LoggedSet, ...]:
    """The judged singles of the competition lifts that count (see `training_of`)."""
    return reader.list(
        LoggedSet,
        _logged.athlete_id.in_(athlete_ids),
        _logged.on.between(until - look_back, until),
        _logged.judged,
        _logged.variation == "",
    )


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


def sets_between(
    reader: Reader, athlete_ids: Collection[int], first: date, last: date
) -> tuple[LoggedSet, ...]:
    """All sets of these athletes from one day to another, both included."""
    return reader.list(
        LoggedSet, _logged.athlete_id.in_(athlete_ids), _logged.on.between(first, last)
    )
