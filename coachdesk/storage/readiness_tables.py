"""The tables of what is prepared over the months: weight, kit, tasks, and what was put off."""

from __future__ import annotations

from datetime import date
from typing import Any

from sqlalchemy import JSON, CheckConstraint, Column, Named, Table, UniqueConstraint

from coachdesk.storage.column_kinds import Numbered, Versioned, owned_by
from coachdesk.storage.table_making import make_table


class CycleNoteColumns(Versioned):
    """Days on which an athlete's cycle holds water."""

    athlete_id: Named[int] = owned_by("athlete")
    first: Named[date]
    last: Named[date]


cycle_note = make_table(
    "cycle_note", CycleNoteColumns, CheckConstraint('"last" >= "first"', name="last")
)


class WeightStateColumns(Numbered):
    """What is derived from an athlete's readings, clock-free; it can be made anew at any time.

    It goes when a reading or a cycle note of the athlete changes (`recording`).
    """

    athlete_id: Named[int] = owned_by("athlete", index=False)
    content: Named[dict[str, Any]] = Column(JSON)


weight_state = make_table("weight_state", WeightStateColumns, UniqueConstraint("athlete_id"))


class WeightPlanColumns(Versioned):
    """The way down agreed on for an entry."""

    entry_id: Named[int] = owned_by("entry", index=False)
    agreed_on: Named[date]
    from_weight_g: Named[int]
    from_weight_entered: Named[str]
    to_weight_g: Named[int]
    to_weight_entered: Named[str]
    weight_class: Named[str]
    arrive_on: Named[date]


weight_plan = make_table("weight_plan", WeightPlanColumns, UniqueConstraint("entry_id"))


class KitCheckColumns(Versioned):
    """A check round of an entry's kit."""

    entry_id: Named[int] = owned_by("entry", index=False)
    round: Named[str]
    present: Named[list[str]] = Column(JSON)
    missing: Named[list[str]] = Column(JSON)


kit_check = make_table("kit_check", KitCheckColumns, UniqueConstraint("entry_id", "round"))


class TaskColumns(Versioned):
    """What is known of a task of an entry."""

    entry_id: Named[int] = owned_by("entry")
    code: Named[str]
    words: Named[str]
    due_on: Named[date | None]
    done_on: Named[date | None]


task = make_table("task", TaskColumns)


class SnoozeColumns(Versioned):
    """Something that needs attention, put off."""

    athlete_id: Named[int] = owned_by("athlete")
    entry_id: Named[int | None] = owned_by("entry")
    matter: Named[str]
    until: Named[date]
    reason: Named[str]


snooze = make_table("snooze", SnoozeColumns)

READINESS: tuple[Table[Versioned], ...] = (cycle_note, weight_plan, kit_check, task, snooze)
"""Those of them that are journalled."""
