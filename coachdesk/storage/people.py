"""Writes about athletes that are more than replacing a record."""

from __future__ import annotations

from sqlalchemy import Connection, delete

from coachdesk.domain.athlete import Athlete
from coachdesk.storage.store import Work
from coachdesk.storage.tables import AthleteRow


def archive(work: Work, athlete: Athlete, *, archived: bool) -> None:
    """Mark an athlete archived or not, if nobody changed them meanwhile."""
    work.set(AthleteRow.__table__, athlete.id, athlete.version, archived=archived)


def erase(connection: Connection, athlete: Athlete) -> None:
    """Delete an athlete's rows, cascades included, outside the journal."""
    connection.execute(delete(AthleteRow).where(AthleteRow.id == athlete.id))
