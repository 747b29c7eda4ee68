"""Reading what a picture of a bodyweight is made of: a constant number of statements."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from sqlalchemy import select

from coachdesk.domain.athlete import Athlete, CycleNoteRecord, Reading
from coachdesk.domain.meet import Entry, Meet, Session
from coachdesk.domain.weight_plan import WeightPlan
from coachdesk.storage import tables
from coachdesk.storage.readiness_tables import cycle_note, weight_plan
from coachdesk.storage.store import Reader

_reading, _note, _entry, _meet = tables.reading.c, cycle_note.c, tables.entry.c, tables.meet.c


@dataclass(frozen=True, slots=True)
class Weighed:
    """An athlete's readings, soonest first, and private cycle notes."""

    readings: tuple[Reading, ...] = ()
    cycle_notes: tuple[CycleNoteRecord, ...] = ()


@dataclass(frozen=True, slots=True)
class EntryAhead:
    """An entry to a meet to come, with its session and the way down agreed on, where known."""

    meet: Meet
    entry: Entry
    session: Session | None
    plan: WeightPlan | None


def cycle_notes_of(reader: Reader, athlete_id: int) -> tuple[CycleNoteRecord, ...]:
    """An athlete's cycle notes, latest first."""
    return reader.list(
        CycleNoteRecord, _note.athlete_id == athlete_id, order=[_note.first.desc(), _note.id]
    )


def weighed(
    reader: Reader, athlete_ids: Collection[int], *, since: date, until: date
) -> dict[int, Weighed]:
    """Readings from `since` to `until` and cycle notes of these athletes; two statements.

    An athlete without a reading then is left out.
    """
    readings: defaultdict[int, list[Reading]] = defaultdict(list)
    for reading in reader.list(
        Reading,
        _reading.athlete_id.in_(athlete_ids),
        _reading.on.between(since, until),
        order=[_reading.athlete_id, _reading.on, _reading.at],
    ):
        readings[reading.athlete_id].append(reading)
    notes: defaultdict[int, list[CycleNoteRecord]] = defaultdict(list)
    for note in reader.list(CycleNoteRecord, _note.athlete_id.in_(readings), order=[_note.first]):
        notes[note.athlete_id].append(note)
    return {
        athlete_id: Weighed(tuple(found), tuple(notes[athlete_id]))
        for athlete_id, found in readings.items()
    }


def next_entry(reader: Reader, athlete: Athlete, today: date) -> EntryAhead | None:
    """The athlete's entry to the next meet, today's among them; at most four statements."""
    ahead = select(_meet.id).where(_meet.starts_on >= today)
    entries = reader.list(
        Entry,
        _entry.athlete_id == athlete.id,
        _entry.withdrawn.is_(other=False),
        _entry.meet_id.in_(ahead),
    )
    if not entries:
        return None
    meets = reader.list(
        Meet,
        _meet.id.in_([entry.meet_id for entry in entries]),
        order=[_meet.starts_on],
    )
    meet = meets[0]
    entry = next(entry for entry in entries if entry.meet_id == meet.id)
    sessions = reader.list(Session, tables.session.c.id == entry.session_id)
    plans = reader.list(WeightPlan, weight_plan.c.entry_id == entry.id)
    return EntryAhead(meet, entry, next(iter(sessions), None), next(iter(plans), None))
