"""Use cases about people: athletes, their bodyweight readings, and handlers."""

from __future__ import annotations

from collections.abc import Sequence

from coachdesk.domain.athlete import Athlete, AthleteData, HandlerData, Reading, ReadingData
from coachdesk.domain.checks import check_athlete, check_handler, check_reading
from coachdesk.domain.text import text
from coachdesk.services.desk import Desk, Done
from coachdesk.storage import journal
from coachdesk.storage.people import archive, erase


def add_athlete(desk: Desk, data: AthleteData) -> Done[int]:
    """Put an athlete on the roster; answers the id."""
    check_athlete(data, desk.today())
    with desk.action(text("did.add_athlete", name=data.name)) as work:
        athlete_id = work.insert(data)
        return Done(athlete_id, work.changes())


def edit_athlete(desk: Desk, athlete_id: int, version: int, data: AthleteData) -> Done[None]:
    """Replace what is on file about an athlete, unless somebody else did meanwhile."""
    check_athlete(data, desk.today())
    with desk.action(text("did.edit_athlete", name=data.name)) as work:
        work.update(athlete_id, version, data)
        return Done(None, work.changes())


def archive_athlete(desk: Desk, athlete: Athlete, *, archived: bool) -> Done[None]:
    """Take an athlete out of the daily view, or back into it; nothing is deleted."""
    label = "did.archive_athlete" if archived else "did.unarchive_athlete"
    with desk.action(text(label, name=athlete.name)) as work:
        archive(work, athlete, archived=archived)
        return Done(None, work.changes())


def delete_athlete(desk: Desk, athlete: Athlete) -> Done[None]:
    """Delete an athlete and all that belongs to them; it can be undone."""
    with desk.action(text("did.delete_athlete", name=athlete.name)) as work:
        work.delete(Athlete, athlete.id, athlete.version)
        return Done(None, work.changes())


def erase_athlete(desk: Desk, athlete: Athlete) -> None:
    """Erase an athlete for good, as is their right: rows, journal and the file's free space.

    It cannot be undone. Backups made earlier still hold the athlete.
    """
    with desk.store.raw_writing() as connection:
        erase(connection, athlete)
        journal.forget_athlete(connection, athlete.id)
    desk.store.compact()


def add_readings(desk: Desk, many: Sequence[ReadingData]) -> Done[None]:
    """Keep bodyweight readings, all of them or none."""
    for data in many:
        check_reading(data, desk.today())
    with desk.action(text("did.add_readings", count=len(many))) as work:
        work.insert_many(many)
        return Done(None, work.changes())


def delete_reading(desk: Desk, reading: Reading) -> Done[None]:
    """Delete a bodyweight reading."""
    with desk.action(text("did.delete_reading", day=reading.on)) as work:
        work.delete(Reading, reading.id, reading.version)
        return Done(None, work.changes())


def add_handler(desk: Desk, data: HandlerData) -> Done[int]:
    """Put a handler on file; answers the id."""
    check_handler(data)
    with desk.action(text("did.add_handler", name=data.name)) as work:
        handler_id = work.insert(data)
        return Done(handler_id, work.changes())
