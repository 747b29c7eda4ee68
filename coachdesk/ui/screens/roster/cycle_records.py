"""An athlete's cycle notes without Qt: shown, typed, deleted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coachdesk.domain.athlete import Athlete, CycleNoteData, CycleNoteRecord
from coachdesk.domain.lifting import Sex
from coachdesk.services import cycle_notes, typed
from coachdesk.services.desk import Desk, Done


class CycleRecords:
    """The cycle notes of one athlete."""

    def __init__(self, desk: Desk, athlete: Athlete) -> None:
        self._desk = desk
        self._athlete = athlete

    def are_offered(self) -> bool:
        """Whether notes are kept of the athlete, or can be expected to be."""
        return self._athlete.sex is Sex.FEMALE or bool(self.notes())

    def notes(self) -> tuple[CycleNoteRecord, ...]:
        """The notes, latest first."""
        return cycle_notes.cycle_notes(self._desk, self._athlete.id)

    def add(self, values: Mapping[str, str]) -> Done[int]:
        """Keep what was typed as a note; a single day where no last one is typed."""
        first = typed.required_day("first", values["first"])
        last = typed.day("last", values["last"]) or first
        data = CycleNoteData(athlete_id=self._athlete.id, first=first, last=last)
        return cycle_notes.add_cycle_note(self._desk, data)

    def delete(self, many: Sequence[CycleNoteRecord]) -> Done[None]:
        """Delete notes."""
        return cycle_notes.delete_cycle_notes(self._desk, many)
