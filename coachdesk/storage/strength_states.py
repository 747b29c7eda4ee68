"""What athletes' training days say of their lifts, kept on file so that nobody goes through years
of sets to read a list. Where a state is not on file it is made on the spot: what is answered is the
same.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import date
from functools import cache, lru_cache
from typing import Any, TypeAlias

from sqlalchemy import (
    ColumnElement,
    Connection,
    Row,
    Select,
    String,
    case,
    func,
    insert,
    or_,
    select,
    type_coerce,
)

from coachdesk.domain.lifting import Lift, Result
from coachdesk.domain.one_rep_max import MOST_EFFECTIVE_REPS
from coachdesk.domain.strength.observations import LiftDays, Observation, maximum_kg, observe
from coachdesk.domain.strength.parameters import LEARNED_FROM, LOOK_BACK
from coachdesk.storage import tables, training_tables
from coachdesk.storage.column_kinds import entered
from coachdesk.storage.rows import stored_mass
from coachdesk.storage.store import Reader

Strength: TypeAlias = Mapping[Lift, LiftDays]
"""What an athlete's training days say, by lift."""

_KEPT = LOOK_BACK + LEARNED_FROM
"""Days so long before the last one say nothing more, of a meet in reach either."""

_READ_AT_ONCE = 64
_logged, _kept = training_tables.logged_set.c, training_tables.strength_state.c
_EFFECTIVE = _logged.reps + func.coalesce(_logged.rir, 0.0)


def strength_states(reader: Reader, athlete_ids: Collection[int]) -> dict[int, Strength]:
    """What the training days of these athletes say, of those who have logged sets."""
    content = type_coerce(_kept.content, String)
    rows = reader.connection.execute(
        select(_kept.athlete_id, content).where(_kept.athlete_id.in_(athlete_ids))
    )
    found = {row[0]: _from_json(row[1]) for row in rows}
    return found | _made(reader, _without(reader, athlete_ids))


def keep_strength_states(connection: Connection, most: int) -> int:
    """Put the states on file of up to `most` athletes who have logged sets and no state there;
    answers of how many."""
    reader = Reader(connection)
    athlete_ids = _without(reader, select(tables.athlete.c.id), most)
    if athlete_ids:
        made = _made(reader, athlete_ids)
        connection.execute(
            insert(training_tables.strength_state),
            [
                {"athlete_id": athlete_id, "content": _to_json(made[athlete_id])}
                for athlete_id in athlete_ids
            ],
        )
    return len(athlete_ids)


def all_days(reader: Reader, athlete_id: int, lift: Lift, until: date) -> LiftDays:
    """What all training days of an athlete up to `until` say of a lift, however long ago."""
    wanted = (_logged.athlete_id == athlete_id, _logged.lift == lift, _logged.on <= until)
    return _days(reader, wanted).get(athlete_id, {}).get(lift, LiftDays())


def _without(
    reader: Reader, athlete_ids: Select[int] | Collection[int], most: int | None = None
) -> Sequence[int]:
    """Those with logged sets whose state is not on file."""
    athlete = tables.athlete.c
    is_kept = select(_kept.id).where(_kept.athlete_id == athlete.id).exists()
    has_sets = select(_logged.id).where(_logged.athlete_id == athlete.id).exists()
    query = select(athlete.id).where(athlete.id.in_(athlete_ids), ~is_kept, has_sets)
    return reader.connection.execute(query.limit(most)).scalars().all()


def _made(reader: Reader, athlete_ids: Sequence[int]) -> dict[int, Strength]:
    if not athlete_ids:
        return {}
    latest = (
        select(_logged.athlete_id, func.max(_logged.on).label("latest"))
        .where(_logged.athlete_id.in_(athlete_ids))
        .group_by(_logged.athlete_id)
        .subquery()
    )
    since = (
        select(func.date(latest.c.latest, f"-{_KEPT.days} days"))
        .where(latest.c.athlete_id == _logged.athlete_id)
        .scalar_subquery()
    )
    found = _days(reader, (_logged.athlete_id.in_(athlete_ids), _logged.on >= since))
    return {athlete_id: found.get(athlete_id, {}) for athlete_id in athlete_ids}


def _days(reader: Reader, wanted: Iterable[Any]) -> dict[int, Strength]:
    """The best set of each day, by athlete and lift; the database finds it, since a day has many.

    Of a group with a maximum SQLite answers the other columns from the row that has it.
    """
    key = (_logged.athlete_id, _logged.lift, _logged.judged, _logged.on)
    best = func.max(_logged.weight_g * _over_weight())
    rows = reader.connection.execute(
        select(*key, _logged.reps, _logged.rir, _logged.weight_entered, best)
        .where(
            *wanted,
            _logged.variation == "",
            or_(_logged.result.is_(None), _logged.result != Result.NO_LIFT),
            _logged.reps >= 1,
            _EFFECTIVE <= MOST_EFFECTIVE_REPS,
        )
        .group_by(*key)
    ).all()
    by_lift: defaultdict[tuple[int, Lift], list[Observation]] = defaultdict(list)
    for row in rows:
        seen = _observation(row)
        if seen is not None:
            by_lift[row[0], Lift(row[1])].append(seen)
    found: defaultdict[int, dict[Lift, LiftDays]] = defaultdict(dict)
    for (athlete_id, lift), listed in by_lift.items():
        found[athlete_id][lift] = LiftDays.of(listed)
    return dict(found)


@cache
def _over_weight() -> ColumnElement[float]:
    """What a set's one-repetition maximum is of its weight, by effective repetitions."""
    halves = range(2, 2 * MOST_EFFECTIVE_REPS + 1)
    factors = {half: maximum_kg(1.0, 1, half / 2 - 1) for half in halves}
    return case(factors, value=2 * _EFFECTIVE)


def _observation(row: Row[*tuple[Any, ...]]) -> Observation | None:
    return observe(row[3], stored_mass(row[6]), row[4], row[5], judged=row[2])


def _to_json(state: Strength) -> dict[str, Any]:
    return {
        lift: [
            [[each.on.toordinal(), entered(each.weight), each.reps, each.rir] for each in of_kind]
            for of_kind in (days.judged, days.sets)
        ]
        for lift, days in state.items()
    }


@lru_cache(maxsize=_READ_AT_ONCE)
def _from_json(content: str) -> Strength:
    """A state as it was kept; a desk reads those of the same athletes again and again."""
    return {
        Lift(lift): LiftDays.of([*_read(judged, judged=True), *_read(sets, judged=False)])
        for lift, (judged, sets) in json.loads(content).items()
    }


def _read(kept: Iterable[Sequence[Any]], *, judged: bool) -> Iterator[Observation]:
    for on, weight, reps, rir in kept:
        seen = observe(date.fromordinal(on), stored_mass(weight), reps, rir, judged=judged)
        if seen is not None:
            yield seen
