"""Use cases about cycle notes. They are private: no sheet, no export and no label tells of them."""

from __future__ import annotations

from collections.abc import Sequence

from coachdesk.domain.athlete import CycleNoteData, CycleNoteRecord
from coachdesk.domain.bodyweight import CycleNote
from coachdesk.domain.text import text
from coachdesk.services.desk import Desk, Done
from coachdesk.storage import weight_queries


def cycle_notes(desk: Desk, athlete_id: int) -> tuple[CycleNoteRecord, ...]:
    """An athlete's cycle notes, latest first."""
    with desk.reading() as reader:
        return weight_queries.cycle_notes_of(reader, athlete_id)


def add_cycle_note(desk: Desk, data: CycleNoteData) -> Done[int]:
    """Keep a cycle note; answers its id. Raises InvalidInput: field "last"."""
    CycleNote(data.first, data.last)
    with desk.action(text("did.add_cycle_note")) as work:
        note_id = work.insert(data)
        return Done(note_id, work.changes())


def delete_cycle_notes(desk: Desk, many: Sequence[CycleNoteRecord]) -> Done[None]:
    """Delete cycle notes, all of them or none."""
    with desk.action(text("did.delete_cycle_notes", count=len(many))) as work:
        for note in many:
            work.delete(CycleNoteRecord, note.id, note.version)
        return Done(None, work.changes())
