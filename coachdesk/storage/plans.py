"""Plan snapshots: a plan is kept as it was made, with its date, and never changed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from cattrs.preconf.json import make_converter
from sqlalchemy import insert, select

from coachdesk.domain.attempts import AttemptPlan
from coachdesk.domain.text import Text
from coachdesk.domain.units import Mass, Unit, parse_mass
from coachdesk.storage.rows import entered
from coachdesk.storage.store import Reader, Work
from coachdesk.storage.tables import PlanSnapshotRow
from coachdesk.storage.text_json import text_from_json, text_to_json

_converter = make_converter()
_converter.register_unstructure_hook(Mass, entered)
_converter.register_structure_hook(Mass, lambda stored, _: parse_mass(stored, Unit.KG))
_converter.register_unstructure_hook(Text, text_to_json)
_converter.register_structure_hook(Text, lambda stored, _: text_from_json(stored))
_converter.register_unstructure_hook(Decimal, str)
_converter.register_structure_hook(Decimal, lambda stored, _: Decimal(stored))


@dataclass(frozen=True, slots=True)
class Snapshot:
    """A plan of attempts and when it was made."""

    made_at: datetime
    plan: AttemptPlan


def add_snapshot(work: Work, entry_id: int, made_at: datetime, plan: AttemptPlan) -> None:
    """Keep a plan as of `made_at`."""
    content: dict[str, Any] = _converter.unstructure(plan)
    work.connection.execute(
        insert(PlanSnapshotRow).values(
            version=1, entry_id=entry_id, made_at=made_at, content=content
        )
    )


def latest_snapshots(reader: Reader, meet_entries: list[int]) -> dict[int, Snapshot]:
    """The latest plan of each of these entries, by entry id."""
    rows = reader.connection.execute(
        select(PlanSnapshotRow.entry_id, PlanSnapshotRow.made_at, PlanSnapshotRow.content)
        .where(PlanSnapshotRow.entry_id.in_(meet_entries))
        .order_by(PlanSnapshotRow.id)
    )
    return {
        entry_id: Snapshot(made_at, _converter.structure(content, AttemptPlan))
        for entry_id, made_at, content in rows
    }
