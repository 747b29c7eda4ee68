"""Opening files: new, older, newer, foreign, damaged, on a full disk or in a locked folder."""

from __future__ import annotations

import os
import re
import sqlite3
import stat
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import create_engine

from coachdesk.app import paths
from coachdesk.app.wiring import open_desk
from coachdesk.domain.athlete import Athlete, AthleteData
from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Sex
from coachdesk.services.desk import Desk
from coachdesk.services.roster import add_athlete
from coachdesk.storage import schema_version, tables
from coachdesk.storage.backup import back_up, restore
from coachdesk.storage.migrate import check, prepare, upgrade
from coachdesk.storage.schema_version import State, state_of

NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


def _prepare(file: Path) -> State:
    return prepare(file, migrations=paths.migrations(), backups=file.parent / "backups", now=NOW)


def _schema(file: Path) -> dict[str, list[str]]:
    """Each table and index as its sorted words: columns may stand in another order."""
    with closing(sqlite3.connect(file)) as connection:
        rows = connection.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL")
        return {name: sorted(re.sub(r'[",()]', " ", sql).split()) for name, sql in rows}


def test_models_and_migrations_make_the_same_tables(tmp_path: Path) -> None:
    created, migrated = tmp_path / "created.db", tmp_path / "migrated.db"
    assert _prepare(created) is State.MISSING
    upgrade(migrated, paths.migrations())
    assert _schema(created) == _schema(migrated)
    assert state_of(created) is state_of(migrated) is State.CURRENT
    engine = create_engine(f"sqlite:///{migrated}")
    with engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), tables.METADATA) == []
    engine.dispose()


def test_the_head_known_without_alembic_is_the_head() -> None:
    config = Config()
    config.set_main_option("script_location", str(paths.migrations()))
    config.set_main_option("path_separator", "os")
    script = ScriptDirectory.from_config(config)
    assert script.get_current_head() == schema_version.HEAD
    assert {each.revision for each in script.walk_revisions()} == set(schema_version.KNOWN)


def test_a_file_is_readable_by_its_owner_alone(tmp_path: Path) -> None:
    file = tmp_path / "new.db"
    _prepare(file)
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert _prepare(file) is State.CURRENT


def test_a_file_from_a_newer_version_is_refused_and_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "newer.db"
    _prepare(file)
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        connection.commit()
    before = file.read_bytes()
    with pytest.raises(Trouble) as refused:
        _prepare(file)
    assert refused.value.text.code == "file.newer"
    assert file.read_bytes() == before


def test_a_file_that_is_no_database_is_refused_and_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "letter.db"
    file.write_text("Dear coach, " * 200, encoding="utf-8")
    before = file.read_bytes()
    with pytest.raises(Trouble) as refused:
        _prepare(file)
    assert refused.value.text.code == "file.no_database"
    assert file.read_bytes() == before


def test_a_database_of_another_program_is_refused_and_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "other.db"
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("CREATE TABLE stamps (id INTEGER)")
        connection.commit()
    before = file.read_bytes()
    with pytest.raises(Trouble) as refused:
        _prepare(file)
    assert refused.value.text.code == "file.foreign"
    assert file.read_bytes() == before


def test_a_folder_that_cannot_be_made_is_said_in_words(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    with pytest.raises(Trouble) as refused:
        _prepare(tmp_path / "file" / "coachdesk.db")
    assert refused.value.text.code == "file.cannot_create"


def test_a_full_disk_is_said_in_words_and_nothing_confirmed_is_lost(tmp_path: Path) -> None:
    """SQLite's own page limit stands in for the disk: it answers SQLITE_FULL alike."""
    desk = open_desk(tmp_path / "coachdesk.db", lambda: NOW)
    athlete = AthleteData(given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE)
    add_athlete(desk, athlete)
    with desk.store.raw_writing() as connection:
        connection.exec_driver_sql("PRAGMA max_page_count = 1")
    with pytest.raises(Trouble) as refused:
        _fill(desk, athlete)
    assert refused.value.text.code == "file.disk_full"
    desk.store.close()
    check(desk.store.file)
    again = open_desk(desk.store.file, lambda: NOW)
    with again.reading() as reader:
        assert reader.list(Athlete)[0].name == "Ana Ruiz"
    again.store.close()


def _fill(desk: Desk, athlete: AthleteData) -> None:
    for _ in range(2000):
        add_athlete(desk, replace(athlete, note="x" * 5000))


def test_a_damaged_file_is_said_in_words(tmp_path: Path) -> None:
    file = tmp_path / "coachdesk.db"
    _prepare(file)
    data = bytearray(file.read_bytes())
    data[8192:40960] = os.urandom(40960 - 8192)
    file.write_bytes(data)
    with pytest.raises(Trouble) as refused:
        check(file)
    assert refused.value.text.code == "file.damaged"


def test_after_an_unclean_stop_the_whole_file_is_checked(tmp_path: Path) -> None:
    file = tmp_path / "coachdesk.db"
    _prepare(file)
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("PRAGMA foreign_keys=OFF")
        connection.execute(
            'INSERT INTO reading (version, athlete_id, "on", weight_g, weight_entered, dress,'
            " scale, note) VALUES (1, 99, '2026-01-01', 80000, '80 kg', 'unknown', '', '')"
        )
        connection.commit()
    assert _prepare(file) is State.CURRENT
    (tmp_path / "coachdesk.db-wal").write_bytes(b"half a frame")
    with pytest.raises(Trouble) as refused:
        _prepare(file)
    assert refused.value.text.code == "file.damaged"


def test_restoring_saves_the_present_file_first(tmp_path: Path) -> None:
    file, backups = tmp_path / "coachdesk.db", tmp_path / "backups"
    _prepare(file)
    made = back_up(file, backups, NOW)
    with closing(sqlite3.connect(file)) as connection:
        connection.execute(
            "INSERT INTO handler (version, name, phone, note) VALUES (1, 'Later', '', '')"
        )
        connection.commit()
    saved = restore(made, file, backups, NOW)
    assert saved is not None
    with closing(sqlite3.connect(file)) as restored, closing(sqlite3.connect(saved)) as kept:
        assert restored.execute("SELECT count(*) FROM handler").fetchone() == (0,)
        assert kept.execute("SELECT name FROM handler").fetchall() == [("Later",)]


def test_a_backup_that_is_none_of_ours_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "coachdesk.db"
    _prepare(file)
    before = file.read_bytes()
    with pytest.raises(Trouble):
        restore(tmp_path / "missing.db", file, tmp_path / "backups", NOW)
    assert file.read_bytes() == before


def test_ten_days_and_twelve_months_of_backups_are_kept(tmp_path: Path) -> None:
    file, backups = tmp_path / "coachdesk.db", tmp_path / "backups"
    _prepare(file)
    moments = [datetime(2025, month, 15, tzinfo=UTC) for month in range(1, 13)]
    moments += [datetime(2026, 1, day, tzinfo=UTC) for day in range(1, 21)]
    for moment in moments:
        back_up(file, backups, moment)
    kept = sorted(path.name for path in backups.iterdir())
    days = [name for name in kept if "2026-01" in name]
    months = [name for name in kept if "2025-" in name]
    assert days == [f"backup-2026-01-{day}.coachdesk" for day in range(11, 21)]
    assert months == [f"backup-2025-{month:02}-15.coachdesk" for month in range(2, 13)]
    assert state_of(backups / kept[0]) is State.CURRENT
