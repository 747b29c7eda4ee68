"""The rows that hang on an entry: its flights, its handlers, its openers."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy import delete, insert

from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Attempt, HandlerDuty
from coachdesk.storage.store import Reader, Work
from coachdesk.storage.tables import AttemptRow, EntryFlightRow, HandlerDutyRow


def set_flights(work: Work, entry_id: int, flight_ids: Iterable[int]) -> None:
    """Put an entry into these flights and no others."""
    work.connection.execute(delete(EntryFlightRow).where(EntryFlightRow.entry_id == entry_id))
    rows = [
        {"version": 1, "entry_id": entry_id, "flight_id": flight_id} for flight_id in flight_ids
    ]
    if rows:
        work.connection.execute(insert(EntryFlightRow), rows)


def set_duties(work: Work, entry_id: int, duties: Iterable[HandlerDuty]) -> None:
    """Give an entry these handlers and no others."""
    work.connection.execute(delete(HandlerDutyRow).where(HandlerDutyRow.entry_id == entry_id))
    work.insert_many(duties)


def first_attempt(reader: Reader, entry_id: int, lift: Lift) -> Attempt | None:
    """The opener of a lift, when one has been chosen."""
    found = reader.list(
        Attempt, AttemptRow.entry_id == entry_id, AttemptRow.lift == lift, AttemptRow.number == 1
    )
    return found[0] if found else None
