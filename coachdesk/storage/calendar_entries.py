"""What calendar files have brought, so that a later file can take back what no longer holds."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date

from sqlalchemy import Connection, delete, or_, select
from sqlalchemy.dialects.sqlite import insert

from coachdesk.storage import tables
from coachdesk.storage.store import Reader

_entry = tables.calendar_entry.c


def brought_ahead(
    reader: Reader, meet_ids: Collection[int], today: date
) -> tuple[tuple[str, date], ...]:
    """Key and day of what was brought about these meets, or about meets deleted since, for days
    after today; soonest first. A weekly weight of today has done its work and is no more in a file,
    yet it holds."""
    of_meets = or_(_entry.meet_id.in_(meet_ids), _entry.meet_id.not_in(select(tables.meet.c.id)))
    found = reader.connection.execute(
        select(_entry.key, _entry.begins_on)
        .where(of_meets, _entry.begins_on > today)
        .order_by(_entry.begins_on, _entry.key)
    )
    return tuple((row.key, row.begins_on) for row in found)


def remember_brought(
    connection: Connection, brought: Collection[tuple[str, int, date]], today: date
) -> None:
    """Note key, meet and day of what a file brings; what is over is forgotten."""
    connection.execute(delete(tables.calendar_entry).where(_entry.begins_on < today))
    if not brought:
        return
    adding = insert(tables.calendar_entry)
    connection.execute(
        adding.on_conflict_do_update(
            index_elements=[_entry.key],
            set_={"meet_id": adding.excluded.meet_id, "begins_on": adding.excluded.begins_on},
        ),
        [{"key": key, "meet_id": meet_id, "begins_on": on} for key, meet_id, on in brought],
    )
