"""Use cases about people: athletes, their bodyweight readings, and handlers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from coachdesk.domain.athlete import (
    Athlete,
    AthleteData,
    Handler,
    HandlerData,
    Reading,
    ReadingData,
)
from coachdesk.domain.change import Change
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


def add_athletes(desk: Desk, many: Sequence[AthleteData]) -> Done[tuple[int, ...]]:
    """Put several athletes on the roster, all of them or none; answers their ids."""
    today = desk.today()
    for data in many:
        check_athlete(data, today)
    with desk.action(text("did.add_athletes", count=len(many))) as work:
        ids = tuple(work.insert(data) for data in many)
        return Done(ids, work.changes())


@dataclass(frozen=True, slots=True)
class Newcomer:
    """An athlete to be put on the roster, and a first reading, whose athlete is filled in then."""

    data: AthleteData
    weighed: ReadingData | None


def take_on(desk: Desk, newcomers: Sequence[Newcomer]) -> Done[None]:
    """Put several athletes on the roster with what they weigh, all of them or none."""
    today = desk.today()
    for each in newcomers:
        check_athlete(each.data, today)
    with desk.action(text("did.add_athletes", count=len(newcomers))) as work:
        ids = tuple(work.insert(each.data) for each in newcomers)
        readings = [
            replace(each.weighed, athlete_id=athlete_id)
            for athlete_id, each in zip(ids, newcomers, strict=True)
            if each.weighed is not None
        ]
        for reading in readings:
            check_reading(reading, today)
        work.insert_many(readings)
        return Done(None, work.changes())


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


def erase_athlete(desk: Desk, athlete: Athlete) -> Done[None]:
    """Erase an athlete for good, as is their right: rows, journal and the file's free space.

    It cannot be undone. Backups made earlier still hold the athlete.
    """
    with desk.store.raw_writing() as connection:
        erase(connection, athlete)
        journal.forget_athlete(connection, athlete.id)
    desk.store.compact()
    return Done(None, frozenset(Change(kind, athlete.id) for kind in ("athlete", "entry")))


def add_readings(desk: Desk, many: Sequence[ReadingData]) -> Done[None]:
    """Keep bodyweight readings, all of them or none."""
    today = desk.today()
    for data in many:
        check_reading(data, today)
    with desk.action(text("did.add_readings", count=len(many))) as work:
        work.insert_many(many)
        return Done(None, work.changes())


def edit_reading(desk: Desk, seen: Reading, data: ReadingData) -> Done[None]:
    """Replace a bodyweight reading that still is as it was `seen`."""
    check_reading(data, desk.today())
    with desk.action(text("did.edit_reading", day=data.on)) as work:
        work.update(seen.id, seen.version, data)
        return Done(None, work.changes())


def delete_readings(desk: Desk, many: Sequence[Reading]) -> Done[None]:
    """Delete bodyweight readings, all of them or none."""
    with desk.action(text("did.delete_readings", count=len(many))) as work:
        for reading in many:
            work.delete(Reading, reading.id, reading.version)
        return Done(None, work.changes())


def add_handler(desk: Desk, data: HandlerData) -> Done[int]:
    """Put a handler on file; answers the id."""
    check_handler(data)
    with desk.action(text("did.add_handler", name=data.name)) as work:
        handler_id = work.insert(data)
        return Done(handler_id, work.changes())


def edit_handler(desk: Desk, seen: Handler, data: HandlerData) -> Done[None]:
    """Replace what is on file about a handler who still is as they were `seen`."""
    check_handler(data)
    with desk.action(text("did.edit_handler", name=data.name)) as work:
        work.update(seen.id, seen.version, data)
        return Done(None, work.changes())


def delete_handler(desk: Desk, seen: Handler) -> Done[None]:
    """Delete a handler and their duties at meets; it can be undone."""
    with desk.action(text("did.delete_handler", name=seen.name)) as work:
        work.delete(Handler, seen.id, seen.version)
        return Done(None, work.changes())
