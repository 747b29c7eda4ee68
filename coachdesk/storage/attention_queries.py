"""Ways down agreed on, and matters put off: one statement each, however many there are."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date

from sqlalchemy import Select, delete

from coachdesk.domain.readiness import Snooze
from coachdesk.domain.weight_plan import WeightPlan
from coachdesk.storage import readiness_tables
from coachdesk.storage.store import Reader, Work


def weight_plans(reader: Reader, entry_ids: Select[int] | Collection[int]) -> dict[int, WeightPlan]:
    """The ways down agreed on for these entries, by entry."""
    plan = readiness_tables.weight_plan.c
    found = reader.list(WeightPlan, plan.entry_id.in_(entry_ids))
    return {each.entry_id: each for each in found}


def snoozes(reader: Reader, since: date) -> tuple[Snooze, ...]:
    """What is, or was, put off to a day after `since`."""
    return reader.list(Snooze, readiness_tables.snooze.c.until > since)


def drop_snoozes(work: Work, matter: str, athlete_id: int, entry_id: int | None) -> None:
    """Forget what was put off of a matter: it comes back now, or is put off anew."""
    snooze = readiness_tables.snooze.c
    work.connection.execute(
        delete(readiness_tables.snooze).where(
            snooze.matter == matter,
            snooze.athlete_id == athlete_id,
            snooze.entry_id.is_not_distinct_from(entry_id),
        )
    )
