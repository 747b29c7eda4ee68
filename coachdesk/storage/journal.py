"""Undo and redo over the journal.

An action is reverted by putting back the images of all rows it touched, in one transaction, but
only while every one of them still says what the action left there. Versions go on counting up,
so that nobody who read a row before an undo can overwrite it afterwards without noticing.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, TypeAlias

from sqlalchemy import Connection, Table, delete, func, select, update

from coachdesk.domain.change import Change
from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import Text, text
from coachdesk.storage import tables
from coachdesk.storage.recording import image_of
from coachdesk.storage.text_json import text_from_json

Image: TypeAlias = "dict[str, Any] | None"

_TABLES = {table.name: table for table in tables.JOURNALLED}


@dataclass(frozen=True, slots=True)
class Action:
    """An action of the coach in the journal."""

    id: int
    at: datetime
    label: Text


def next_undo(connection: Connection) -> Action | None:
    """The action that undo would take back: the latest that is not undone."""
    action = tables.journal_action.c
    latest = select(func.max(action.id)).where(~action.undone)
    return _action(connection, latest.scalar_subquery())


def next_redo(connection: Connection) -> Action | None:
    """The action that redo would do again: the earliest that is undone."""
    action = tables.journal_action.c
    earliest = select(func.min(action.id)).where(action.undone)
    return _action(connection, earliest.scalar_subquery())


def undo(connection: Connection, action: Action) -> frozenset[Change]:
    """Take `action` back; Trouble when a row it touched has moved on."""
    return _put(connection, action, backwards=True)


def redo(connection: Connection, action: Action) -> frozenset[Change]:
    """Do `action` again; Trouble when a row it touched has moved on."""
    return _put(connection, action, backwards=False)


def forget_athlete(connection: Connection, athlete_id: int) -> None:
    """Remove every action that touched an athlete's rows: erased means erased here too.

    Whole actions go, since their labels name the athlete.
    """
    change = tables.journal_change.c
    rows = connection.execute(
        select(change.action_id, change.kind, change.row_id, change.before, change.after)
    ).all()
    entry_ids: set[int] = set()
    touched: set[int] = set()
    for of_entries in (False, True):
        for action_id, kind, row_id, before, after in rows:
            image = json.loads(after or before or "{}")
            is_hers = kind == "athlete" and row_id == athlete_id
            if is_hers or image.get("athlete_id") == athlete_id:
                touched.add(action_id)
                if kind == "entry":
                    entry_ids.add(row_id)
            elif of_entries and image.get("entry_id") in entry_ids:
                touched.add(action_id)
    connection.execute(delete(tables.journal_action).where(tables.journal_action.c.id.in_(touched)))


def _action(connection: Connection, action_id: Any) -> Action | None:
    action = tables.journal_action.c
    found = connection.execute(
        select(action.id, action.at, action.label).where(action.id == action_id)
    ).first()
    return None if found is None else Action(found.id, found.at, text_from_json(found.label))


def _put(connection: Connection, action: Action, *, backwards: bool) -> frozenset[Change]:
    steps = _net_changes(connection, action.id)
    if backwards:
        steps = {key: (after, before) for key, (before, after) in steps.items()}
    by_kind: dict[str, dict[int, tuple[Image, Image]]] = {}
    for (kind, row_id), step in steps.items():
        by_kind.setdefault(kind, {})[row_id] = step
    for kind, rows in by_kind.items():
        images = _images(connection, _TABLES[kind], action.id)
        for row_id, (expected, _target) in rows.items():
            if _without_version(images.get(row_id)) != _without_version(expected):
                raise Trouble(text("journal.moved_on", what=action.label))
    connection.exec_driver_sql("PRAGMA defer_foreign_keys=ON")
    for kind, rows in by_kind.items():
        _write(connection, kind, rows)
    connection.execute(
        update(tables.journal_action)
        .where(tables.journal_action.c.id == action.id)
        .values(undone=backwards)
    )
    return frozenset(Change(kind, row_id) for kind, row_id in steps)


def _net_changes(
    connection: Connection, action_id: int
) -> dict[tuple[str, int], tuple[Image, Image]]:
    """What the action did to each row in all: the first image before, the last after."""
    rows = connection.execute(
        select(tables.journal_change)
        .where(tables.journal_change.c.action_id == action_id)
        .order_by("id")
    ).mappings()
    net: dict[tuple[str, int], tuple[Image, Image]] = {}
    for row in rows:
        key = (row["kind"], row["row_id"])
        before, after = (
            None if row[side] is None else json.loads(row[side]) for side in ("before", "after")
        )
        net[key] = (net[key][0] if key in net else before, after)
    return net


def _images(connection: Connection, table: Table, action_id: int) -> dict[int, Image]:
    """The rows of a table that an action touched, as they are now, of those that are there."""
    found = connection.exec_driver_sql(
        f"SELECT id, {image_of(table, table.name)} FROM {table.name} WHERE id IN"  # noqa: S608
        " (SELECT row_id FROM journal_change WHERE action_id = ? AND kind = ?)",
        (action_id, table.name),
    )
    return {row_id: json.loads(image) for row_id, image in found}


def _without_version(image: Image) -> Image:
    return None if image is None else {**image, "version": None}


def _write(connection: Connection, kind: str, rows: Mapping[int, tuple[Image, Image]]) -> None:
    """Make rows of a kind what they are to be: what goes first, then what changes, then what comes,
    so that nothing new meets what is to make room for it."""
    names = [column.name for column in _TABLES[kind].columns]
    gone = [(row_id,) for row_id, (_, target) in rows.items() if target is None]
    changed = [
        (*(target[name] for name in names if name != "version"), row_id)
        for row_id, (expected, target) in rows.items()
        if target is not None and expected is not None
    ]
    added = [
        tuple(target[name] + 1 if name == "version" else target[name] for name in names)
        for expected, target in rows.values()
        if target is not None and expected is None
    ]
    assignments = ", ".join(f'"{name}" = ?' for name in names if name != "version")
    quoted = ", ".join(f'"{name}"' for name in names)
    marks = ", ".join("?" for _ in names)
    for sql, values in (
        (f"DELETE FROM {kind} WHERE id = ?", gone),  # noqa: S608
        (f"UPDATE {kind} SET {assignments}, version = version + 1 WHERE id = ?", changed),  # noqa: S608
        (f"INSERT INTO {kind} ({quoted}) VALUES ({marks})", added),  # noqa: S608
    ):
        if values:
            connection.exec_driver_sql(sql, values)
