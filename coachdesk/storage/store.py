"""The store: reading, and writing one journalled transaction at a time."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing, contextmanager
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from sqlalchemy import (
    Connection,
    Engine,
    Select,
    Table,
    bindparam,
    delete,
    insert,
    select,
    update,
)
from sqlalchemy.sql.dml import ReturningInsert

from coachdesk.domain.change import Change
from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import Text, text
from coachdesk.storage import tables
from coachdesk.storage.bulk import insert_rows
from coachdesk.storage.column_kinds import Versioned
from coachdesk.storage.engine import open_engine, plain_words
from coachdesk.storage.recording import start_recording, stop_recording
from coachdesk.storage.rows import Data, columns, record, table_of
from coachdesk.storage.text_json import text_to_json

R = TypeVar("R", bound=Data)

_DROP_SUPERFLUOUS = """
    WITH made AS (SELECT EXISTS (SELECT 1 FROM journal_change WHERE action_id = :action_id) AS any)
    DELETE FROM journal_action
    WHERE (SELECT any FROM made) AND undone OR NOT (SELECT any FROM made) AND id = :action_id
"""
"""Drops what was undone once something new was done, or the action itself if it did nothing."""


@cache
def _select_one(table: Table[Versioned]) -> Select[*tuple[Any, ...]]:
    return select(table).where(table.c.id == bindparam("row_id"))


@cache
def _insert_one(table: Table[Versioned]) -> ReturningInsert[int]:
    return insert(table).returning(table.c.id)


class Reader:
    """Reading within one transaction: what is read together belongs together."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection

    def get(self, record_type: type[R], row_id: int) -> R:
        """The record with `row_id`; Trouble when there is none (any more)."""
        table = table_of(record_type)
        found = self.connection.execute(_select_one(table), {"row_id": row_id}).mappings().first()
        if found is None:
            raise Trouble(text("record.gone", kind=text(f"kind.{table.name}")))
        return record(record_type, found)

    def list(
        self, record_type: type[R], *criteria: Any, order: Sequence[Any] = ()
    ) -> tuple[R, ...]:
        """The records that meet all `criteria` (column expressions), ordered, then by id."""
        table = table_of(record_type)
        query = select(table).where(*criteria).order_by(*order, table.c.id)
        rows = self.connection.execute(query).mappings()
        return tuple(record(record_type, found) for found in rows)


class Work(Reader):
    """Writing within one journalled transaction."""

    def __init__(self, connection: Connection, action_id: int) -> None:
        super().__init__(connection)
        self._action_id = action_id

    def insert(self, data: Data) -> int:
        """Add a record and return its id."""
        statement = _insert_one(table_of(type(data)))
        return self.connection.execute(statement, {"version": 1, **columns(data)}).scalar_one()

    def insert_many(self, many: Iterable[Data]) -> None:
        """Add records of one kind in bulk."""
        listed = list(many)
        if listed:
            insert_rows(self.connection, table_of(type(listed[0])), [*map(columns, listed)])

    def update(self, row_id: int, version: int, data: Data) -> None:
        """Replace what a record says, if it still has `version`; Trouble when it moved on."""
        self.set(table_of(type(data)), row_id, version, **columns(data))

    def set(self, table: Table[Versioned], row_id: int, version: int, **values: Any) -> None:
        """Set columns of a row, if it still has `version`; Trouble when it moved on."""
        changed = self.connection.execute(
            update(table)
            .where(table.c.id == row_id, table.c.version == version)
            .values(version=version + 1, **values)
        )
        self._check_one(changed.rowcount, table, row_id)

    def delete(self, record_type: type[Data], row_id: int, version: int) -> None:
        """Delete a record and all that belongs to it, if it still has `version`."""
        table = table_of(record_type)
        gone = self.connection.execute(
            delete(table).where(table.c.id == row_id, table.c.version == version)
        )
        self._check_one(gone.rowcount, table, row_id)

    def changes(self) -> frozenset[Change]:
        """What this transaction has changed so far, cascades included."""
        rows = self.connection.exec_driver_sql(
            "SELECT DISTINCT kind, row_id FROM journal_change WHERE action_id = ?",
            (self._action_id,),
        )
        return frozenset(Change(kind, row_id) for kind, row_id in rows.all())

    def _check_one(self, count: int, table: Table[Versioned], row_id: int) -> None:
        if count == 1:
            return
        kind = text(f"kind.{table.name}")
        present = self.connection.execute(select(table.c.id).where(table.c.id == row_id)).first()
        raise Trouble(text("record.gone" if present is None else "record.moved_on", kind=kind))


class Store:
    """A data file, open. It must exist and be migrated (see `migrate.prepare`)."""

    def __init__(self, file: Path) -> None:
        self.file = file
        self._engine: Engine = open_engine(file)
        opened = file.stat()
        self._identity = (opened.st_dev, opened.st_ino)

    @contextmanager
    def reading(self) -> Iterator[Reader]:
        """A consistent look at the file."""
        with plain_words(self.file), self._engine.connect() as connection:
            yield Reader(connection)

    @contextmanager
    def writing(self, at: datetime, label: Text) -> Iterator[Work]:
        """One action of the coach: journalled under `label`, all of it or nothing.

        Actions that were undone are dropped: they cannot be redone once something new was done.
        An action that changed no row leaves no trace.
        """
        with self.raw_writing() as connection:
            action_id: int = connection.execute(
                insert(tables.journal_action).returning(tables.journal_action.c.id),
                {"at": at, "label": text_to_json(label), "undone": False},
            ).scalar_one()
            start_recording(connection, action_id)
            work = Work(connection, action_id)
            yield work
            stop_recording(connection)
            connection.exec_driver_sql(_DROP_SUPERFLUOUS, {"action_id": action_id})

    @contextmanager
    def raw_writing(self) -> Iterator[Connection]:
        """A write transaction that is not recorded: for the journal itself and for printing."""
        self._check_file_is_there()
        with plain_words(self.file), self._engine.connect() as plain:
            connection = plain.execution_options(writes=True)
            with connection.begin():
                yield connection

    def _check_file_is_there(self) -> None:
        """SQLite would go on writing to a file that was moved away or deleted, for nobody."""
        try:
            present = self.file.stat()
        except OSError as error:
            raise Trouble(text("file.gone", file=str(self.file))) from error
        if (present.st_dev, present.st_ino) != self._identity:
            raise Trouble(text("file.replaced", file=str(self.file)))

    def compact(self) -> None:
        """Rewrite the file without its free space, so that what was erased cannot be read."""
        self._engine.dispose()
        with plain_words(self.file), closing(sqlite3.connect(self.file)) as connection:
            connection.execute("VACUUM")
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")

    def close(self) -> None:
        """Let go of the file."""
        self._engine.dispose()
