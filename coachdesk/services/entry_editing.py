"""Use cases that change an entry as a whole, withdraw it or delete it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.meet import Attempt, Entry, EntryData
from coachdesk.domain.text import Text, text
from coachdesk.services.desk import Desk, Done
from coachdesk.services.meets import Place, check_entry, put_in_place
from coachdesk.services.planning import replan
from coachdesk.services.wishes_editing import settle_bands
from coachdesk.storage.entry_rows import attempts_of
from coachdesk.storage.meet_list_queries import Extent, entry_extent
from coachdesk.storage.store import Work

_PLAN_RESTS_ON = ("event", "equipment", "expected_squat", "expected_bench", "expected_deadlift")


def save_entry(desk: Desk, seen: Entry, data: EntryData, place: Place) -> Done[tuple[Text, ...]]:
    """Replace what is on file about an entry that still is as it was `seen`.

    Attempts chosen for lifts that are no longer part of the event go; where the plan rests on
    what changed, it is made anew. Answers what could not be planned, in words.
    """
    with desk.reading() as reader:
        athlete = check_entry(desk, reader, data, seen.id)
    with desk.action(text("did.edit_entry", name=athlete.name)) as work:
        work.update(seen.id, seen.version, data)
        put_in_place(work, work.get(Entry, seen.id), place)
        _drop_other_lifts(work, seen.id, data)
        settle_bands(work, seen.id, data)
        faults = replan(desk, work, seen.meet_id, seen.id) if moves_plan(seen, data) else ()
        return Done(faults, work.changes())


def moves_plan(before: EntryData, after: EntryData) -> bool:
    """Whether something differs that an entry's plan rests on."""
    return any(getattr(before, name) != getattr(after, name) for name in _PLAN_RESTS_ON)


def withdraw_entry(desk: Desk, seen: Entry, *, withdrawn: bool) -> Done[None]:
    """Take an entry out of the meet, or back into it; all that belongs to it stays on file."""
    with desk.reading() as reader:
        name = reader.get(Athlete, seen.athlete_id).name
    label = "did.withdraw_entry" if withdrawn else "did.reinstate_entry"
    with desk.action(text(label, name=name)) as work:
        work.update(seen.id, seen.version, replace(seen, withdrawn=withdrawn))
        return Done(None, work.changes())


def delete_entries(desk: Desk, many: Sequence[Entry]) -> Done[None]:
    """Delete entries with their attempts and plans, all of them or none; it can be undone."""
    with desk.reading() as reader:
        names = [reader.get(Athlete, seen.athlete_id).name for seen in many]
    label = (
        text("did.delete_entry", name=names[0])
        if len(names) == 1
        else text("did.delete_entries", count=len(names))
    )
    with desk.action(label) as work:
        for seen in many:
            work.delete(Entry, seen.id, seen.version)
        return Done(None, work.changes())


def extent_of_entries(desk: Desk, many: Sequence[Entry]) -> Extent:
    """What would go along with these entries."""
    with desk.reading() as reader:
        found = [entry_extent(reader, seen.id) for seen in many]
    return Extent(
        entries=len(many),
        attempts=sum(each.attempts for each in found),
        plans=sum(each.plans for each in found),
    )


def _drop_other_lifts(work: Work, entry_id: int, data: EntryData) -> None:
    for attempt in attempts_of(work, entry_id):
        if attempt.lift in data.event.lifts:
            continue
        if attempt.result is not None:
            lift = text(f"lift.{attempt.lift}")
            raise InvalidInput("event", text("entry.event_lifted", lift=lift))
        work.delete(Attempt, attempt.id, attempt.version)
