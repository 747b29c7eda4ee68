"""Reading a meet: how far back its judged singles count."""

from __future__ import annotations

from datetime import date

from coachdesk.domain.meet import Entry
from coachdesk.domain.strength.parameters import RECENT
from coachdesk.storage.meet_queries import MeetRecord, meet_record
from coachdesk.storage.store import Reader


def read_meet(
    reader: Reader, meet_id: int, today: date, *, only: frozenset[int] | None = None
) -> MeetRecord:
    """A meet and its entries, or those among them that `only` names."""
    return meet_record(
        reader,
        meet_id,
        judged_from=today - RECENT,
        until=today,
        only=only,
    )


def is_over(record: MeetRecord, today: date) -> bool:
    """Whether the meet's last day has passed, as far as its sessions tell."""
    days = [session.starts_at.date() for session in record.sessions.values()]
    return max([record.meet.starts_on, *days]) < today


def is_first_meet(record: MeetRecord, entry: Entry) -> bool:
    """Whether the athlete has lifted at no meet before, on file or before the record began."""
    athlete = record.athletes[entry.athlete_id]
    return athlete.meets_before == 0 and athlete.id not in record.lifted_before
