"""What the records say about rulebooks, which are files themselves."""

from __future__ import annotations

from sqlalchemy import func, select

from coachdesk.storage import tables
from coachdesk.storage.store import Reader


def meets_by_rulebook(reader: Reader) -> dict[str, int]:
    """How many meets are lifted under each rulebook, by key."""
    meet = tables.meet.c
    rows = reader.connection.execute(
        select(meet.rulebook, func.count(meet.id)).group_by(meet.rulebook)
    )
    return {row[0]: row[1] for row in rows}
