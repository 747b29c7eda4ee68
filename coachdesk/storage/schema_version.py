"""Which schema a data file has, read without loading the database libraries.

A plain look takes a fraction of a millisecond and tells whether migrating is needed at all.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from enum import Enum, auto
from pathlib import Path

HEAD = "0006"
"""The revision this program works with."""

KNOWN = ("0001", "0002", "0003", "0004", "0005", HEAD)
"""All revisions this program can migrate from, oldest first, and its own last."""

APPLICATION_ID = 0x434F4443
"""Marks a file as ours ("CODC"), so that another program's database is never migrated."""


class State(Enum):
    """What stands at a path."""

    MISSING = auto()
    CURRENT = auto()
    OLDER = auto()
    NEWER = auto()
    FOREIGN = auto()


def state_of(file: Path) -> State:
    """What kind of file stands at `file`; raises sqlite3.DatabaseError when it is no database.

    An empty file counts as missing: nothing was ever written to it.
    """
    if not file.exists() or file.stat().st_size == 0:
        return State.MISSING
    with closing(sqlite3.connect(f"{file.resolve().as_uri()}?mode=ro", uri=True)) as connection:
        (application_id,) = connection.execute("PRAGMA application_id").fetchone()
        if application_id != APPLICATION_ID:
            return State.FOREIGN
        (revision,) = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    if revision == HEAD:
        return State.CURRENT
    return State.OLDER if revision in KNOWN else State.NEWER
