"""Backups a coach makes and puts back; a wrong file is refused before anything is let go."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from coachdesk.app import paths
from coachdesk.app.wiring import open_desk
from coachdesk.domain.athlete import Athlete, AthleteData
from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Sex
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete
from coachdesk.services.safe_keeping import (
    Occasion,
    back_up_now,
    backups_in,
    check_data_file,
    restore_backup,
)

ANA = AthleteData(given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE)
BO = AthleteData(given_name="Bo", family_name="Lind", sex=Sex.MALE)


@pytest.fixture
def folder(desk: Desk) -> Path:
    return paths.backups(desk.store.file)


def names(desk: Desk) -> list[str]:
    with desk.reading() as reader:
        return [athlete.given_name for athlete in reader.list(Athlete)]


def test_there_are_no_backups_before_the_first(folder: Path) -> None:
    assert backups_in(folder) == ()


def test_a_backup_is_listed_with_its_day_and_size(desk: Desk, folder: Path) -> None:
    made = back_up_now(desk, folder)
    (listed,) = backups_in(folder)
    assert (listed.file, listed.occasion, listed.made) == (made, Occasion.DAY, date(2026, 11, 25))
    assert listed.size_bytes == made.stat().st_size > 0


def test_a_second_backup_of_the_day_renews_the_first(desk: Desk, folder: Path) -> None:
    back_up_now(desk, folder)
    add_athlete(desk, ANA)
    made = back_up_now(desk, folder)
    assert len(backups_in(folder)) == 1
    with closing(sqlite3.connect(made)) as connection:
        assert connection.execute("SELECT count(*) FROM athlete").fetchone() == (1,)


def test_a_backup_put_back_saves_the_present_file_first(desk: Desk, folder: Path) -> None:
    add_athlete(desk, ANA)
    made = back_up_now(desk, folder)
    add_athlete(desk, BO)
    saved = restore_backup(desk, made, folder)
    again = open_desk(desk.store.file, desk.now)
    assert names(again) == ["Ana"]
    assert saved is not None
    assert [each.occasion for each in backups_in(folder)] == [Occasion.DAY, Occasion.BEFORE_RESTORE]
    restore_backup(again, saved, folder)
    back = open_desk(desk.store.file, desk.now)
    assert names(back) == ["Ana", "Bo"]
    back.store.close()


def test_a_damaged_backup_is_refused_and_the_desk_goes_on(desk: Desk, folder: Path) -> None:
    add_athlete(desk, ANA)
    made = back_up_now(desk, folder)
    made.write_bytes(b"not a database at all, only words" * 200)
    with pytest.raises(Trouble) as refused:
        restore_backup(desk, made, folder)
    assert refused.value.text.code == "file.no_database"
    assert names(desk) == ["Ana"]


def test_the_latest_backup_comes_first(desk_at: Callable[[datetime], Desk]) -> None:
    moments = [datetime(2026, 11, day, 10, 0, tzinfo=ZoneInfo("Europe/Berlin")) for day in (23, 25)]
    desk = desk_at(moments[0])
    folder = paths.backups(desk.store.file)
    first = back_up_now(desk, folder)
    restore_backup(desk, first, folder)
    later = open_desk(desk.store.file, lambda: moments[1])
    back_up_now(later, folder)
    later.store.close()
    (folder / "notes.coachdesk").write_bytes(b"")
    assert [(each.occasion, each.made.day) for each in backups_in(folder)] == [
        (Occasion.DAY, 25),
        (Occasion.DAY, 23),
        (Occasion.BEFORE_RESTORE, 23),
    ]


def test_two_data_files_in_one_folder_keep_their_backups_apart(desk: Desk) -> None:
    second = open_desk(desk.store.file.with_name("second.db"), desk.now)
    add_athlete(desk, ANA)
    first_backup = back_up_now(desk, paths.backups(desk.store.file))
    second_backup = back_up_now(second, paths.backups(second.store.file))
    second.store.close()
    assert first_backup != second_backup
    with closing(sqlite3.connect(first_backup)) as connection:
        assert connection.execute("SELECT count(*) FROM athlete").fetchone() == (1,)


def test_what_is_no_data_file_is_refused_before_the_desk_lets_go(tmp_path: Path) -> None:
    foreign = tmp_path / "other.db"
    with closing(sqlite3.connect(foreign)) as connection:
        connection.execute("CREATE TABLE shop (id INTEGER)")
        connection.commit()
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear coach, " * 100, encoding="utf-8")
    for file, code in ((foreign, "file.foreign"), (letter, "file.no_database")):
        with pytest.raises(Trouble) as refused:
            check_data_file(file)
        assert refused.value.text.code == code


def test_a_file_of_ours_and_one_that_is_not_there_yet_are_well(desk: Desk, tmp_path: Path) -> None:
    check_data_file(desk.store.file)
    check_data_file(tmp_path / "new.db")


def test_a_file_from_a_newer_version_is_refused_before_the_desk_lets_go(
    desk: Desk, tmp_path: Path
) -> None:
    newer = tmp_path / "newer.db"
    back_up_now(desk, tmp_path).replace(newer)
    with closing(sqlite3.connect(newer)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        connection.commit()
    with pytest.raises(Trouble) as refused:
        check_data_file(newer)
    assert refused.value.text.code == "file.newer"
