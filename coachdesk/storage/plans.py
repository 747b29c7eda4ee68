"""Plan snapshots: a plan is kept as it was made, with its date, and never changed."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any

from sqlalchemy import String, func, insert, select, type_coerce

from coachdesk.domain.attempts import AttemptPlan, Branch, Outcome, Turn, together
from coachdesk.domain.text import Text
from coachdesk.domain.units import Mass, Unit, parse_mass
from coachdesk.storage import tables
from coachdesk.storage.column_kinds import entered
from coachdesk.storage.store import Reader, Work
from coachdesk.storage.text_json import text_from_json, text_to_json

if TYPE_CHECKING:
    from cattrs.preconf.json import JsonConverter


@cache
def _converter() -> JsonConverter:
    """Between plans and JSON; its library is loaded when the first plan comes up."""
    from cattrs.preconf.json import make_converter  # noqa: PLC0415

    converter = make_converter(omit_if_default=True, detailed_validation=False)
    converter.register_unstructure_hook(Mass, entered)
    converter.register_structure_hook(Mass, lambda stored, _: parse_mass(stored, Unit.KG))
    converter.register_unstructure_hook(Text, text_to_json)
    converter.register_structure_hook(Text, lambda stored, _: text_from_json(stored))
    converter.register_unstructure_hook(Decimal, str)
    converter.register_structure_hook(Decimal, lambda stored, _: Decimal(stored))
    converter.register_unstructure_hook_func(
        _are_branches, lambda branches: _grouped(converter, branches)
    )
    converter.register_structure_hook_func(
        _are_branches, lambda stored, _: _branches(converter, stored)
    )
    return converter


def _are_branches(kind: Any) -> bool:
    return bool(kind == tuple[Branch, ...])


def _grouped(converter: JsonConverter, branches: tuple[Branch, ...]) -> list[dict[str, Any]]:
    """Branches that lead to the same turn stand together: a plan is an eighth as long so."""
    return [
        {"outcomes": [outcome.value for outcome in seen], "turn": converter.unstructure(turn, Turn)}
        for seen, turn in together(branches)
    ]


def _branches(converter: JsonConverter, stored: list[dict[str, Any]]) -> tuple[Branch, ...]:
    branches: list[Branch] = []
    for group in stored:
        turn = converter.structure(group["turn"], Turn)
        # Plans kept before branches stood together name one outcome each.
        outcomes = group.get("outcomes") or [group["outcome"]]
        branches.extend(Branch(Outcome(outcome), turn) for outcome in outcomes)
    return tuple(branches)


@dataclass(frozen=True, slots=True)
class Snapshot:
    """A plan of attempts and when it was made."""

    made_at: datetime
    plan: AttemptPlan


def add_snapshot(work: Work, entry_id: int, made_at: datetime, plan: AttemptPlan) -> None:
    """Keep a plan as of `made_at`."""
    content: dict[str, Any] = _converter().unstructure(plan)
    work.connection.execute(
        insert(tables.plan_snapshot).values(
            version=1, entry_id=entry_id, made_at=made_at, content=content
        )
    )


def latest_snapshots(reader: Reader, entry_ids: list[int]) -> dict[int, Snapshot]:
    """The latest plan of each of these entries, by entry id."""
    snapshot = tables.plan_snapshot.c
    latest = (
        select(func.max(snapshot.id))
        .where(snapshot.entry_id.in_(entry_ids))
        .group_by(snapshot.entry_id)
    )
    content = type_coerce(snapshot.content, String).label("content")
    rows = reader.connection.execute(
        select(snapshot.entry_id, snapshot.made_at, content).where(snapshot.id.in_(latest))
    )
    return {row.entry_id: Snapshot(row.made_at, _plan(row.content)) for row in rows}


def plan_before(reader: Reader, entry_id: int) -> Snapshot | None:
    """The plan of an entry before the latest one, None where there was none."""
    snapshot = tables.plan_snapshot.c
    content = type_coerce(snapshot.content, String).label("content")
    row = reader.connection.execute(
        select(snapshot.made_at, content)
        .where(snapshot.entry_id == entry_id)
        .order_by(snapshot.id.desc())
        .limit(1)
        .offset(1)
    ).first()
    return None if row is None else Snapshot(row.made_at, _plan(row.content))


@lru_cache(maxsize=1024)
def _plan(content: str) -> AttemptPlan:
    """A plan from its JSON. A plan on file never changes, and is looked at again and again."""
    return _converter().structure(json.loads(content), AttemptPlan)
