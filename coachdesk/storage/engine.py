"""The SQLite engine: settings, transactions, and SQLite's complaints in plain words."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.exc import DatabaseError, OperationalError

from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text
from coachdesk.storage.recording import create_recorder

_BUSY_TIMEOUT_S = 5


def open_engine(file: Path) -> Engine:
    """An engine on an existing, migrated data file.

    WAL with full synchronisation: what was confirmed survives a crash. Python's own transaction
    handling is switched off so that every transaction begins when we say so.
    """
    engine = create_engine(f"sqlite:///{file}", connect_args={"timeout": _BUSY_TIMEOUT_S})

    @event.listens_for(engine, "connect")
    def _set_up(connection: sqlite3.Connection, _record: object) -> None:
        connection.isolation_level = None
        for pragma in (
            "journal_mode=WAL",
            "synchronous=FULL",
            "foreign_keys=ON",
            "secure_delete=ON",
        ):
            connection.execute(f"PRAGMA {pragma}")
        create_recorder(connection)

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        writes = connection.get_execution_options().get("writes", False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine


@contextmanager
def plain_words(file: Path) -> Iterator[None]:
    """Turn SQLite's expected complaints about `file` into `Trouble`."""
    try:
        yield
    except (DatabaseError, sqlite3.DatabaseError) as error:
        trouble = _trouble(error, file)
        if trouble is None:
            raise
        raise trouble from error


_CODES = {
    "SQLITE_FULL": "file.disk_full",
    "SQLITE_BUSY": "file.busy",
    "SQLITE_LOCKED": "file.busy",
    "SQLITE_READONLY": "file.read_only",
    "SQLITE_CANTOPEN": "file.cannot_open",
    "SQLITE_IOERR": "file.input_output",
    "SQLITE_CORRUPT": "file.damaged",
    "SQLITE_NOTADB": "file.no_database",
}


def _trouble(error: Exception, file: Path) -> Trouble | None:
    original: Any = error.orig if isinstance(error, OperationalError | DatabaseError) else error
    name = getattr(original, "sqlite_errorname", "") or ""
    for prefix, code in _CODES.items():
        if name.startswith(prefix):
            return Trouble(text(code, file=str(file)))
    return None
