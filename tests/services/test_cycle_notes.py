"""Cycle notes: kept and undone like anything else, and no word on them outside."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from coachdesk.domain.athlete import Athlete, AthleteData, CycleNoteData
from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.lifting import Sex
from coachdesk.services.cycle_notes import add_cycle_note, cycle_notes, delete_cycle_notes
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete, erase_athlete
from coachdesk.services.undo import redo, undo, undoable
from coachdesk.wording.wording import Wording

FIRST = date(2026, 10, 9)


@pytest.fixture
def ana(desk: Desk) -> int:
    return add_athlete(desk, AthleteData(given_name="Ana", family_name="R", sex=Sex.FEMALE)).value


def note(athlete_id: int, days: int, first: date = FIRST) -> CycleNoteData:
    return CycleNoteData(athlete_id=athlete_id, first=first, last=first + timedelta(days=days - 1))


def test_notes_are_kept_latest_first_undone_and_done_again(desk: Desk, ana: int) -> None:
    add_cycle_note(desk, note(ana, 5))
    done = add_cycle_note(desk, note(ana, 1, FIRST + timedelta(days=28)))
    assert {change.kind for change in done.changes} == {"cycle_note"}
    assert [each.first.month for each in cycle_notes(desk, ana)] == [11, 10]
    delete_cycle_notes(desk, cycle_notes(desk, ana))
    assert cycle_notes(desk, ana) == ()
    undo(desk)
    assert len(cycle_notes(desk, ana)) == 2
    redo(desk)
    assert cycle_notes(desk, ana) == ()


@pytest.mark.parametrize(
    ("days", "code"), [(0, "trend.note_backwards"), (15, "trend.note_too_long")]
)
def test_what_is_no_cycle_note_is_refused_at_its_last_day(
    desk: Desk, ana: int, days: int, code: str
) -> None:
    with pytest.raises(InvalidInput) as refused:
        add_cycle_note(desk, note(ana, days))
    assert (refused.value.field, refused.value.text.code) == ("last", code)
    assert cycle_notes(desk, ana) == ()


def test_what_can_be_undone_names_neither_athlete_nor_days(
    desk: Desk, ana: int, wording: Wording
) -> None:
    add_cycle_note(desk, note(ana, 14))
    label = undoable(desk)
    assert label is not None
    assert wording.say(label) == "Add a cycle note"


def test_erasing_an_athlete_leaves_no_note_in_the_file(desk: Desk, ana: int) -> None:
    add_cycle_note(desk, note(ana, 5))
    with desk.reading() as reader:
        athlete = reader.get(Athlete, ana)
    erase_athlete(desk, athlete)
    assert cycle_notes(desk, ana) == ()
    assert undoable(desk) is None
    assert FIRST.isoformat().encode() not in desk.store.file.read_bytes()
