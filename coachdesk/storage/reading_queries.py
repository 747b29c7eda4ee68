"""Looking bodyweight readings up beside others: one statement, whatever there is."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, time

from sqlalchemy import func, select

from coachdesk.domain.units import Mass, Unit, parse_mass
from coachdesk.storage import tables
from coachdesk.storage.store import Reader


@dataclass(frozen=True, slots=True)
class Weighed:
    """A reading on file, as far as others are held against it."""

    on: date
    at: time | None
    weight: Mass


def weighed_between(
    reader: Reader, athlete_ids: Collection[int], first: date, last: date
) -> dict[int, tuple[Weighed, ...]]:
    """The readings of these athletes from the day `first` to `last`, by day and hour.

    Of each athlete the readings of the day before and the day after that are among them.
    """
    reading, other = tables.reading.c, tables.reading.alias().c
    before = (
        select(func.max(other.on))
        .where(other.athlete_id == reading.athlete_id, other.on < first)
        .correlate(tables.reading)
        .scalar_subquery()
    )
    after = (
        select(func.min(other.on))
        .where(other.athlete_id == reading.athlete_id, other.on > last)
        .correlate(tables.reading)
        .scalar_subquery()
    )
    query = (
        select(reading.athlete_id, reading.on, reading.at, reading.weight_entered)
        .where(
            reading.athlete_id.in_(athlete_ids),
            reading.on >= func.coalesce(before, first),
            reading.on <= func.coalesce(after, last),
        )
        .order_by(reading.on, reading.at, reading.id)
    )
    found: defaultdict[int, list[Weighed]] = defaultdict(list)
    for athlete_id, on, at, entered in reader.connection.execute(query).all():
        found[athlete_id].append(Weighed(on, at, parse_mass(entered, Unit.KG)))
    return {athlete_id: tuple(readings) for athlete_id, readings in found.items()}
