"""Bringing a data file to this program's schema, with a safety copy first."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import datetime
from pathlib import Path

from sqlalchemy import Connection, create_engine, event

from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text
from coachdesk.storage import schema_version, tables
from coachdesk.storage.backup import copy_before_migration
from coachdesk.storage.engine import plain_words
from coachdesk.storage.schema_version import State, state_of

_REVISION_TABLE = """
    CREATE TABLE alembic_version (
        version_num VARCHAR(32) NOT NULL, CONSTRAINT alembic_version_pkc PRIMARY KEY (version_num)
    )
"""


def prepare(file: Path, *, migrations: Path, backups: Path, now: datetime) -> State:
    """Make `file` ready for `Store`: create it, migrate it, or leave it as it is.

    A write-ahead log left behind tells of a stop in the middle of work (or of another desk at
    work): the whole file is checked then.

    Returns the state it was found in. Raises Trouble for a file from a newer version, a file of
    another program, a file that is no database, or a folder or disk that does not take it;
    nothing is lost in any of these.
    """
    with plain_words(file):
        was_cut_short = _has_log(file)
        state = state_of(file)
        if state is State.NEWER:
            raise Trouble(text("file.newer", file=str(file)))
        if state is State.FOREIGN:
            raise Trouble(text("file.foreign", file=str(file)))
        if state is State.MISSING:
            _create(file)
        elif state is State.OLDER:
            copy_before_migration(file, backups, now)
            upgrade(file, migrations)
        elif was_cut_short:
            check(file)
    return state


def _has_log(file: Path) -> bool:
    """Whether a write-ahead log with something in it was left; an empty one tells nothing."""
    log = Path(f"{file}-wal")
    return log.exists() and log.stat().st_size > 0


def _create(file: Path) -> None:
    """A new file from the table definitions; a test holds them and the migrations together."""
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        os.close(os.open(file, os.O_CREAT | os.O_WRONLY, 0o600))
    except OSError as error:
        raise Trouble(
            text("file.cannot_create", file=str(file), why=error.strerror or "")
        ) from error
    try:
        with _changing_schema(file) as connection:
            tables.METADATA.create_all(connection, checkfirst=False)
            connection.exec_driver_sql(_REVISION_TABLE)
            connection.exec_driver_sql(
                "INSERT INTO alembic_version VALUES (?)", (schema_version.HEAD,)
            )
    except BaseException:
        file.unlink(missing_ok=True)
        raise


def upgrade(file: Path, migrations: Path) -> None:
    """Run the migrations that `file` lacks, all of them or none."""
    from alembic import command  # noqa: PLC0415 - 180 ms that most starts do not need
    from alembic.config import Config  # noqa: PLC0415

    config = Config()
    config.set_main_option("script_location", str(migrations).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    with _changing_schema(file) as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")


@contextmanager
def _changing_schema(file: Path) -> Iterator[Connection]:
    """One transaction with foreign keys off; afterwards what refers to what is checked."""
    engine = create_engine(f"sqlite:///{file}")

    @event.listens_for(engine, "connect")
    def _set_up(connection: sqlite3.Connection, _record: object) -> None:
        connection.isolation_level = None

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        connection.exec_driver_sql("BEGIN IMMEDIATE")

    try:
        with engine.begin() as connection:
            yield connection
            connection.exec_driver_sql(f"PRAGMA application_id={schema_version.APPLICATION_ID}")
            if connection.exec_driver_sql("PRAGMA foreign_key_check").first() is not None:
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
