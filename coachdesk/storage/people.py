"""Writes about athletes that are more than replacing a record."""

from __future__ import annotations

from sqlalchemy import Connection, delete

from coachdesk.domain.athlete import Athlete
from coachdesk.storage import tables
from coachdesk.storage.store import Work


def archive(work: Work, athlete: Athlete, *, archived: bool) -> None:
    """Mark an athlete archived or not, if nobody changed them meanwhile."""
    work.set(tables.athlete, athlete.id, athlete.version, archived=archived)


def erase(connection: Connection, athlete: Athlete) -> None:
    """Delete an athlete's rows, cascades included, outside the journal."""
    connection.execute(delete(tables.athlete).where(tables.athlete.c.id == athlete.id))
