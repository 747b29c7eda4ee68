"""Use cases that change or delete a meet."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.checks import check_meet
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.meet import Entry, Meet, MeetData, Session
from coachdesk.domain.rulebook import Rulebook
from coachdesk.domain.text import Text, text
from coachdesk.services.desk import Desk, Done
from coachdesk.services.entry_defaults import default_divisions
from coachdesk.storage import tables
from coachdesk.storage.meet_list_queries import Extent, MeetLine, meet_extent, meet_lines
from coachdesk.storage.store import Work


def all_meets(desk: Desk) -> tuple[MeetLine, ...]:
    """Every meet with the number of its entries, latest first."""
    with desk.reading() as reader:
        return meet_lines(reader)


def edit_meet(desk: Desk, seen: Meet, data: MeetData) -> Done[tuple[Text, ...]]:
    """Replace what is on file about a meet that still is as it was `seen`.

    Its sessions keep their day of the meet when the first day moves. Under another rulebook,
    entries lose a class and divisions it does not know: answers whom that touched, in words.
    """
    check_meet(data)
    rulebook = desk.rulebooks.get(data.rulebook)
    with desk.action(text("did.edit_meet", name=data.name)) as work:
        work.update(seen.id, seen.version, data)
        _move_sessions(work, seen.id, data.starts_on - seen.starts_on)
        told = _fit_entries(work, seen.id, data, rulebook) if data.rulebook != seen.rulebook else ()
        return Done(told, work.changes())


def delete_meet(desk: Desk, seen: Meet) -> Done[None]:
    """Delete a meet with its sessions, entries and attempts; it can be undone."""
    with desk.action(text("did.delete_meet", name=seen.name)) as work:
        work.delete(Meet, seen.id, seen.version)
        return Done(None, work.changes())


def extent_of_meet(desk: Desk, meet: Meet) -> Extent:
    """What would go along with a meet."""
    with desk.reading() as reader:
        return meet_extent(reader, meet.id)


def _move_sessions(work: Work, meet_id: int, by: timedelta) -> None:
    if not by:
        return
    for session in work.list(Session, tables.session.c.meet_id == meet_id):
        opens, closes = session.weigh_in_opens, session.weigh_in_closes
        moved = replace(
            session,
            starts_at=session.starts_at + by,
            weigh_in_opens=None if opens is None else opens + by,
            weigh_in_closes=None if closes is None else closes + by,
        )
        work.update(session.id, session.version, moved)


def _fit_entries(work: Work, meet_id: int, data: MeetData, rulebook: Rulebook) -> tuple[Text, ...]:
    """Take from entries what `rulebook` does not know; InvalidInput where nothing would be left."""
    told: list[Text] = []
    known = {division.key for division in rulebook.divisions}
    for entry in work.list(Entry, tables.entry.c.meet_id == meet_id):
        athlete = work.get(Athlete, entry.athlete_id)
        if entry.event not in rulebook.events or entry.equipment not in rulebook.equipment:
            why = text("meet.rulebook_without", name=athlete.name, rulebook=rulebook.name)
            raise InvalidInput("rulebook", why)
        divisions = tuple(key for key in entry.divisions if key in known) or default_divisions(
            athlete.birth_date, data.starts_on, rulebook
        )
        classes = rulebook.classes(athlete.sex, data.starts_on, divisions)
        is_known = entry.weight_class in {each.name for each in classes}
        fitted = replace(
            entry, divisions=divisions, weight_class=entry.weight_class if is_known else None
        )
        if fitted != entry:
            work.update(entry.id, entry.version, fitted)
            told.append(text("meet.entry_fitted", name=athlete.name))
    return tuple(told)
