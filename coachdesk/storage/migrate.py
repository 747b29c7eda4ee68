"""Bringing a data file to this program's schema, with a safety copy first."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from datetime import datetime
from pathlib import Path

from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text
from coachdesk.storage.backup import copy_before_migration
from coachdesk.storage.engine import plain_words
from coachdesk.storage.schema_version import APPLICATION_ID, State, state_of


def prepare(file: Path, *, migrations: Path, backups: Path, now: datetime) -> State:
    """Make `file` ready for `Store`: create it, migrate it, or leave it as it is.

    Returns the state it was found in. Raises Trouble for a file from a newer version, a file of
    another program, a file that is no database, or a folder or disk that does not take it;
    nothing is lost in any of these.
    """
    with plain_words(file):
        state = state_of(file)
        if state is State.NEWER:
            raise Trouble(text("file.newer", file=str(file)))
        if state is State.FOREIGN:
            raise Trouble(text("file.foreign", file=str(file)))
        if state is State.MISSING:
            _create(file, migrations)
        elif state is State.OLDER:
            copy_before_migration(file, backups, now)
            _upgrade(file, migrations)
    return state


def _create(file: Path, migrations: Path) -> None:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        os.close(os.open(file, os.O_CREAT | os.O_WRONLY, 0o600))
    except OSError as error:
        raise Trouble(
            text("file.cannot_create", file=str(file), why=error.strerror or "")
        ) from error
    try:
        _upgrade(file, migrations)
    except BaseException:
        file.unlink(missing_ok=True)
        raise


def _upgrade(file: Path, migrations: Path) -> None:
    """Upgrade in one transaction, foreign keys off, then check what refers to what."""
    from alembic import command  # noqa: PLC0415 - 140 ms that most starts do not need
    from alembic.config import Config  # noqa: PLC0415
    from sqlalchemy import create_engine, event  # noqa: PLC0415

    engine = create_engine(f"sqlite:///{file}")

    @event.listens_for(engine, "connect")
    def _set_up(connection: sqlite3.Connection, _record: object) -> None:
        connection.isolation_level = None

    @event.listens_for(engine, "begin")
    def _begin(connection: object) -> None:
        connection.exec_driver_sql("BEGIN IMMEDIATE")  # type: ignore[attr-defined]

    config = Config()
    config.set_main_option("script_location", str(migrations).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    try:
        with engine.begin() as connection:
            config.attributes["connection"] = connection
            command.upgrade(config, "head")
            connection.exec_driver_sql(f"PRAGMA application_id={APPLICATION_ID}")
            dangling = connection.exec_driver_sql("PRAGMA foreign_key_check").all()
            if dangling:
                raise Trouble(text("file.migration_failed", file=str(file)))
    finally:
        engine.dispose()


def check(file: Path) -> None:
    """The full integrity check; Trouble when the file is damaged."""
    with plain_words(file), closing(sqlite3.connect(file)) as connection:
        problems = [line for (line,) in connection.execute("PRAGMA integrity_check")]
        dangling = connection.execute("PRAGMA foreign_key_check").fetchall()
    if problems != ["ok"] or dangling:
        raise Trouble(text("file.damaged", file=str(file)))
