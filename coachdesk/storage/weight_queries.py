"""Reading what a picture of a bodyweight is made of: a constant number of statements."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from sqlalchemy import select

from coachdesk.domain.athlete import CycleNoteRecord, Reading
from coachdesk.domain.meet import Entry, Meet
from coachdesk.storage import tables
from coachdesk.storage.readiness_tables import cycle_note
from coachdesk.storage.store import Reader

_reading, _note, _entry, _meet = tables.reading.c, cycle_note.c, tables.entry.c, tables.meet.c


@dataclass(frozen=True, slots=True)
class Weighed:
    """An athlete's readings, soonest first, and private cycle notes."""

    readings: tuple[Reading, ...] = ()
    cycle_notes: tuple[CycleNoteRecord, ...] = ()


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


def next_entry(reader: Reader, athlete_id: int, today: date) -> Entry | None:
    """The athlete's entry to the next meet, today's among them."""
    ahead = select(_meet.id).where(_meet.starts_on >= today)
    entries = reader.list(
        Entry,
        _entry.athlete_id == athlete_id,
        _entry.withdrawn.is_(other=False),
        _entry.meet_id.in_(ahead),
    )
    meet_ids = [entry.meet_id for entry in entries]
    meets = reader.list(Meet, _meet.id.in_(meet_ids), order=[_meet.starts_on])
    return next((entry for meet in meets for entry in entries if entry.meet_id == meet.id), None)
