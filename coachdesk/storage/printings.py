"""What was printed when, so that each print can say which earlier one it replaces."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import Connection, func, insert, select

from coachdesk.storage import tables
from coachdesk.storage.store import Reader


def last_printed(reader: Reader, meet_id: int) -> dict[int | None, datetime]:
    """When each entry of a meet was last printed; the team sheet stands under None."""
    printing = tables.printing.c
    latest = func.max(printing.printed_at, type_=printing.printed_at.type)
    found = reader.connection.execute(
        select(printing.entry_id, latest.label("printed_at"))
        .where(printing.meet_id == meet_id)
        .group_by(printing.entry_id)
    )
    return {row.entry_id: row.printed_at for row in found}


def add_printing(
    connection: Connection, meet_id: int, entry_ids: list[int | None], printed_at: datetime
) -> None:
    """Note that these entries (None for the team sheet) were printed."""
    if entry_ids:
        connection.execute(
            insert(tables.printing),
            [
                {"meet_id": meet_id, "entry_id": entry_id, "printed_at": printed_at}
                for entry_id in entry_ids
            ],
        )
