"""What was printed when, so that each print can say which earlier one it replaces."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import Connection, func, insert, select

from coachdesk.storage.store import Reader
from coachdesk.storage.tables import PrintingRow


def last_printed(reader: Reader, meet_id: int) -> dict[int | None, datetime]:
    """When each entry of a meet was last printed; the team sheet stands under None."""
    found = reader.connection.execute(
        select(
            PrintingRow.entry_id,
            func.max(PrintingRow.printed_at, type_=PrintingRow.printed_at.type).label("printed_at"),
        )
        .where(PrintingRow.meet_id == meet_id)
        .group_by(PrintingRow.entry_id)
    )
    return {row.entry_id: row.printed_at for row in found}


def add_printing(
    connection: Connection, meet_id: int, entry_ids: list[int | None], printed_at: datetime
) -> None:
    """Note that these entries (None for the team sheet) were printed."""
    if entry_ids:
        connection.execute(
            insert(PrintingRow),
            [
                {"meet_id": meet_id, "entry_id": entry_id, "printed_at": printed_at}
                for entry_id in entry_ids
            ],
        )
