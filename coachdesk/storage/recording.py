"""Recording what a transaction changes, row by row, by temporary triggers; and letting go of what
was derived from rows that changed.

The triggers live in the connection, not in the file: they always fit the tables as they are
now, migrations need not know of them, and rows that go by a cascade are seen like any other.
"""

from __future__ import annotations

import sqlite3
from typing import Any

from sqlalchemy import Connection, Table

from coachdesk.storage import readiness_tables, tables, training_tables

_DERIVED_FROM: tuple[tuple[Table[Any], Table[Any]], ...] = (
    (tables.reading, readiness_tables.weight_state),
    (readiness_tables.cycle_note, readiness_tables.weight_state),
    (training_tables.logged_set, training_tables.strength_state),
)
"""What an athlete's states are derived from, each with the table of the state."""


def create_recorder(connection: sqlite3.Connection) -> None:
    """Install the triggers; nothing is recorded until `start_recording`."""
    connection.execute("CREATE TEMP TABLE recording (action_id INTEGER NOT NULL)")
    for table in tables.JOURNALLED:
        for trigger in _triggers(table):
            connection.execute(trigger)
    for table, derived in _DERIVED_FROM:
        for trigger in _letting_go(table, derived):
            connection.execute(trigger)


def start_recording(connection: Connection, action_id: int) -> None:
    """Record the changes from here on under `action_id`."""
    connection.exec_driver_sql("INSERT INTO temp.recording VALUES (?)", (action_id,))


def stop_recording(connection: Connection) -> None:
    """Record nothing more."""
    connection.exec_driver_sql("DELETE FROM temp.recording")


def image_of(table: Table, alias: str) -> str:
    """The SQL that gives a row as a JSON object; `alias` is a table name, OLD or NEW."""
    names = [column.name for column in table.columns]
    parts = ", ".join(f"'{name}', {alias}.\"{name}\"" for name in names)
    return f"json_object({parts})"


def _triggers(table: Table) -> list[str]:
    kind = table.name
    images = {
        "INSERT": ("NEW.id", "NULL", image_of(table, "NEW")),
        "UPDATE": ("OLD.id", image_of(table, "OLD"), image_of(table, "NEW")),
        "DELETE": ("OLD.id", image_of(table, "OLD"), "NULL"),
    }
    return [
        f"""
        CREATE TEMP TRIGGER record_{kind}_{what.lower()} AFTER {what} ON main.{kind}
        WHEN EXISTS (SELECT 1 FROM recording)
        BEGIN
            INSERT INTO journal_change (action_id, kind, row_id, "before", "after")
            SELECT action_id, '{kind}', {row_id}, {before}, {after} FROM recording;
        END
        """  # noqa: S608
        for what, (row_id, before, after) in images.items()
    ]


def _letting_go(table: Table, derived: Table) -> list[str]:
    """A state goes with any change of what it is derived from; it is made anew when asked for."""
    changed = {"INSERT": ("NEW",), "UPDATE": ("OLD", "NEW"), "DELETE": ("OLD",)}
    return [
        f"""
        CREATE TEMP TRIGGER let_go_{table.name}_{what.lower()} AFTER {what} ON main.{table.name}
        BEGIN
            DELETE FROM {derived.name}
            WHERE athlete_id IN ({", ".join(f"{row}.athlete_id" for row in rows)});
        END
        """  # noqa: S608
        for what, rows in changed.items()
    ]
