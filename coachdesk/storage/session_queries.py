"""What was planned for training days and on which days anything was lifted, for all athletes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from sqlalchemy import func, select

from coachdesk.domain.checks import LONGEST_BLOCK_WEEKS
from coachdesk.storage.store import Reader
from coachdesk.storage.tables import athlete
from coachdesk.storage.training_tables import (
    block,
    exercise,
    logged_set,
    planned_set,
    training_day,
)

_DAYS = 7


@dataclass(frozen=True, slots=True)
class SessionDays:
    """Training days by athlete's id, from a day on up to the day before another.

    `planned` have sets in a block, `missed` are noted as such, on `lifted` something was logged;
    `latest` is the last day of all on which something was.
    """

    planned: dict[int, frozenset[date]]
    missed: dict[int, frozenset[date]]
    lifted: dict[int, frozenset[date]]
    latest: dict[int, date]


def session_days(reader: Reader, since: date, until: date) -> SessionDays:
    """Read the days of athletes who are not archived, in a constant number of statements."""
    run = reader.connection.execute
    earliest = since - timedelta(days=_DAYS * LONGEST_BLOCK_WEEKS)
    in_reach = block.c.starts_on.between(earliest, until)
    active = ~athlete.c.archived
    planned = run(
        select(block.c.athlete_id, block.c.starts_on, planned_set.c.week, exercise.c.day)
        .join(exercise, exercise.c.block_id == block.c.id)
        .join(planned_set, planned_set.c.exercise_id == exercise.c.id)
        .join(athlete, athlete.c.id == block.c.athlete_id)
        .where(in_reach, active)
        .distinct()
    )
    noted = run(
        select(block.c.athlete_id, block.c.starts_on, training_day.c.week, training_day.c.day)
        .join(training_day, training_day.c.block_id == block.c.id)
        .where(in_reach, training_day.c.missed)
    )
    lifted = run(
        select(logged_set.c.athlete_id, logged_set.c.on)
        .where(logged_set.c.on >= since, logged_set.c.on < until)
        .distinct()
    )
    latest = run(
        select(logged_set.c.athlete_id, func.max(logged_set.c.on)).group_by(logged_set.c.athlete_id)
    )
    return SessionDays(
        planned=_days(planned, since, until),
        missed=_days(noted, since, until),
        lifted=_by_athlete(lifted),
        latest={row[0]: row[1] for row in latest},
    )


def _days(rows: Iterable[Any], since: date, until: date) -> dict[int, frozenset[date]]:
    """Days from a block's first day, its week and the day of that week."""
    found = (
        (athlete_id, starts_on + timedelta(days=_DAYS * (week - 1) + day - 1))
        for athlete_id, starts_on, week, day in rows
    )
    return _by_athlete((athlete_id, on) for athlete_id, on in found if since <= on < until)


def _by_athlete(pairs: Iterable[Any]) -> dict[int, frozenset[date]]:
    found: dict[int, set[date]] = {}
    for athlete_id, on in pairs:
        found.setdefault(athlete_id, set()).add(on)
    return {athlete_id: frozenset(days) for athlete_id, days in found.items()}
