"""Undo and redo over a real file: cascades, restarts, rows that moved on, a killed process."""

from __future__ import annotations

import shutil
import signal
import subprocess
import sys
import textwrap
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from sqlalchemy.exc import IntegrityError

from coachdesk.app.wiring import open_desk
from coachdesk.domain.athlete import Athlete, AthleteData, Reading, ReadingData
from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Sex
from coachdesk.domain.units import pounds
from coachdesk.services.desk import Desk
from coachdesk.services.roster import (
    add_athlete,
    add_readings,
    archive_athlete,
    delete_athlete,
    edit_athlete,
    erase_athlete,
)
from coachdesk.services.undo import redo, redoable, undo, undoable
from coachdesk.storage.migrate import check

ANA = AthleteData(given_name="Ana", family_name="Żółw", sex=Sex.FEMALE)


def _athletes(desk: Desk) -> tuple[Athlete, ...]:
    with desk.reading() as reader:
        return reader.list(Athlete)


def _readings(desk: Desk) -> tuple[Reading, ...]:
    with desk.reading() as reader:
        return reader.list(Reading)


def _reading(athlete_id: int) -> ReadingData:
    return ReadingData(athlete_id=athlete_id, on=date(2026, 11, 1), weight=pounds("165.5"))


def test_undo_brings_back_a_deleted_athlete_with_all_that_went_with_them(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ANA).value
    add_readings(desk, [_reading(athlete_id) for _ in range(3)])
    before = _readings(desk)
    done = delete_athlete(desk, _athletes(desk)[0])
    assert {change.kind for change in done.changes} == {"athlete", "reading"}
    assert _readings(desk) == ()

    undo(desk)

    assert _athletes(desk)[0].name == "Ana Żółw"
    assert [each.weight for each in _readings(desk)] == [each.weight for each in before]
    assert [each.id for each in _readings(desk)] == [each.id for each in before]


def test_undo_and_redo_work_after_a_restart(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ANA).value
    add_readings(desk, [_reading(athlete_id)])
    undo(desk)
    desk.store.close()

    again = open_desk(desk.store.file, desk.now)
    label = redoable(again)
    assert label is not None
    assert label.code == "did.add_readings"
    redo(again)
    assert len(_readings(again)) == 1
    undo(again)
    undo(again)
    assert _athletes(again) == ()
    assert undoable(again) is None
    assert undo(again).value is None
    again.store.close()


def test_what_was_undone_cannot_be_redone_after_something_new(desk: Desk) -> None:
    add_athlete(desk, ANA)
    undo(desk)
    add_athlete(desk, ANA)
    assert redoable(desk) is None
    assert redo(desk).value is None


def test_ids_are_never_used_again(desk: Desk) -> None:
    first = add_athlete(desk, ANA).value
    undo(desk)
    assert add_athlete(desk, ANA).value > first


def test_undo_refuses_when_the_row_has_moved_on(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ANA).value
    with desk.store.raw_writing() as connection:
        connection.exec_driver_sql("UPDATE athlete SET note = 'by another hand'")
    with pytest.raises(Trouble) as refused:
        undo(desk)
    assert refused.value.text.code == "journal.moved_on"
    with desk.reading() as reader:
        assert reader.get(Athlete, athlete_id).note == "by another hand"


def test_a_stale_version_is_refused_and_nothing_is_overwritten(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ANA).value
    read = _athletes(desk)[0]
    edit_athlete(desk, athlete_id, read.version, replace(ANA, family_name="Nowa"))
    with pytest.raises(Trouble) as refused:
        edit_athlete(desk, athlete_id, read.version, ANA)
    assert refused.value.text.code == "record.moved_on"
    assert _athletes(desk)[0].family_name == "Nowa"


def test_versions_go_on_counting_through_undo(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ANA).value
    before = _athletes(desk)[0]
    archive_athlete(desk, before, archived=True)
    undo(desk)
    assert not _athletes(desk)[0].archived
    with pytest.raises(Trouble):
        edit_athlete(desk, athlete_id, before.version, ANA)


def test_an_action_that_fails_leaves_no_trace(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ANA).value
    with pytest.raises(IntegrityError):
        add_readings(desk, [_reading(athlete_id), _reading(athlete_id + 99)])
    assert _readings(desk) == ()
    label = undoable(desk)
    assert label is not None
    assert label.code == "did.add_athlete"


def test_erasing_leaves_nothing_to_read_in_the_file(desk: Desk) -> None:
    add_athlete(desk, AthleteData(given_name="Kept", family_name="Person", sex=Sex.MALE))
    athlete_id = add_athlete(
        desk,
        AthleteData(
            given_name="Erasmine", family_name="Gone", sex=Sex.FEMALE, health_note="secret-note"
        ),
    ).value
    add_readings(desk, [_reading(athlete_id)])
    with desk.reading() as reader:
        athlete = reader.get(Athlete, athlete_id)
    erase_athlete(desk, athlete)
    desk.store.close()
    data = b"".join(
        file.read_bytes() for file in desk.store.file.parent.iterdir() if file.is_file()
    )
    assert b"Erasmine" not in data
    assert b"secret-note" not in data
    assert b"Kept" in data
    label = undoable(desk)
    assert label is not None
    assert dict(label.values)["name"] == "Kept Person"


def test_a_process_killed_in_the_middle_of_a_use_case_leaves_the_file_whole(desk: Desk) -> None:
    athlete_id = add_athlete(desk, ANA).value
    desk.store.close()
    script = textwrap.dedent(
        f"""
        import os, signal
        from datetime import date
        from pathlib import Path
        from coachdesk.app.wiring import open_desk
        from coachdesk.domain.athlete import ReadingData
        from coachdesk.domain.text import text
        from coachdesk.domain.units import kilograms
        desk = open_desk(Path({str(desk.store.file)!r}))
        with desk.action(text("did.add_readings", count=5000)) as work:
            work.insert_many(
                ReadingData(athlete_id={athlete_id}, on=date(2026, 1, 1), weight=kilograms(80))
                for _ in range(5000)
            )
            os.kill(os.getpid(), signal.SIGKILL)
        """
    )
    killed = subprocess.run([sys.executable, "-c", script], check=False)
    assert killed.returncode == -signal.SIGKILL

    again = open_desk(desk.store.file, desk.now)
    check(again.store.file)
    assert _readings(again) == ()
    assert len(_athletes(again)) == 1
    undo(again)
    assert _athletes(again) == ()
    again.store.close()


def test_a_file_that_went_away_is_not_written_to_in_silence(desk: Desk) -> None:
    add_athlete(desk, ANA)
    folder = desk.store.file.parent
    away = folder.with_name("moved away")
    folder.rename(away)
    with pytest.raises(Trouble) as refused:
        add_athlete(desk, ANA)
    assert refused.value.text.code == "file.gone"
    away.rename(folder)
    add_athlete(desk, ANA)
    with desk.reading() as reader:
        assert len(reader.list(Athlete)) == 2


def test_a_file_that_took_the_place_of_the_open_one_is_left_alone(
    desk: Desk, tmp_path: Path
) -> None:
    other = tmp_path / "other.db"
    shutil.copy(desk.store.file, other)
    other.replace(desk.store.file)
    with pytest.raises(Trouble) as refused:
        add_athlete(desk, ANA)
    assert refused.value.text.code == "file.replaced"
