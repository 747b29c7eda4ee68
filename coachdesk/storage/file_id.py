"""A number that tells one data file from another.

It stands in the file's head, in the field that SQLite leaves to the program (`user_version`): a
copy or a backup has the same number, and no table is needed for it.
"""

from __future__ import annotations

import secrets

from coachdesk.storage.store import Store

_BITS = 31


def file_id(store: Store) -> int:
    """The number of the file, drawn when it is first asked for; above 0."""
    with store.reading() as reader:
        found: int = reader.connection.exec_driver_sql("PRAGMA user_version").scalar_one()
    if found:
        return found
    drawn = secrets.randbits(_BITS) or 1
    with store.raw_writing() as connection:
        connection.exec_driver_sql(f"PRAGMA user_version={drawn}")
    return drawn
