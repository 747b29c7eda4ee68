"""Upgrading a file of an older version: copy first, children kept, all or nothing."""

from __future__ import annotations

import shutil
import sqlite3
import textwrap
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy import create_engine
from sqlalchemy.exc import IntegrityError

from coachdesk.app import paths
from coachdesk.app.wiring import open_desk
from coachdesk.domain.athlete import Athlete, AthleteData, ReadingData
from coachdesk.domain.errors import Trouble
from coachdesk.domain.lifting import Sex
from coachdesk.domain.units import kilograms
from coachdesk.services.roster import add_athlete, add_readings
from coachdesk.storage import schema_version
from coachdesk.storage.migrate import prepare
from coachdesk.storage.schema_version import State, state_of

NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)

NEXT = """
'''The next revision.'''

import sqlalchemy as sa
from alembic import op

revision = "next"
down_revision = "{head}"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("athlete", recreate="always") as table:
        table.add_column(sa.Column("nickname", sa.String(), nullable=True))
    {more}
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A file of the present version with an athlete and two readings."""
    desk = open_desk(tmp_path / "coachdesk.db", lambda: NOW)
    athlete_id = add_athlete(
        desk, AthleteData(given_name="Ana", family_name="Ruiz", sex=Sex.FEMALE)
    ).value
    reading = ReadingData(athlete_id=athlete_id, on=date(2026, 11, 1), weight=kilograms(63))
    add_readings(desk, [reading, reading])
    desk.store.close()
    return desk.store.file


def _next_version(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, more: str = "pass") -> Path:
    migrations = tmp_path / "migrations"
    shutil.copytree(paths.migrations(), migrations)
    head, known = schema_version.HEAD, schema_version.KNOWN
    revision = migrations / "versions" / "next.py"
    revision.write_text(textwrap.dedent(NEXT).format(head=head, more=more), encoding="utf-8")
    monkeypatch.setattr(schema_version, "HEAD", "next")
    monkeypatch.setattr(schema_version, "KNOWN", (*known, "next"))
    return migrations


def _count(file: Path, table: str) -> int:
    with closing(sqlite3.connect(file)) as connection:
        (count,) = connection.execute(f"SELECT count(*) FROM {table}").fetchone()  # noqa: S608
    return int(count)


def test_rebuilding_a_parent_table_keeps_its_children_and_makes_a_copy_first(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    migrations = _next_version(tmp_path, monkeypatch)
    backups = tmp_path / "backups"
    assert prepare(file, migrations=migrations, backups=backups, now=NOW) is State.OLDER
    assert state_of(file) is State.CURRENT
    assert (_count(file, "athlete"), _count(file, "reading")) == (1, 2)
    (copy,) = backups.iterdir()
    assert copy.name == "before-migration-2026-11-25T090000.coachdesk"
    assert _count(copy, "reading") == 2
    assert state_of(copy) is State.OLDER


@pytest.mark.parametrize(
    ("more", "error"),
    [
        ('raise RuntimeError("half way")', RuntimeError),
        ('op.execute("UPDATE reading SET athlete_id = 99")', Trouble),
    ],
)
def test_a_migration_that_fails_leaves_the_file_as_it_was(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, more: str, error: type[Exception]
) -> None:
    migrations = _next_version(tmp_path, monkeypatch, more)
    with pytest.raises(error):
        prepare(file, migrations=migrations, backups=tmp_path / "backups", now=NOW)
    assert state_of(file) is State.OLDER
    assert (_count(file, "athlete"), _count(file, "reading")) == (1, 2)
    with closing(sqlite3.connect(file)) as connection:
        names = [row[1] for row in connection.execute("PRAGMA table_info(athlete)")]
    assert "nickname" not in names


def test_a_file_whose_creation_fails_is_not_left_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(schema_version, "HEAD", None)
    file = tmp_path / "coachdesk.db"
    with pytest.raises(IntegrityError):
        prepare(file, migrations=paths.migrations(), backups=tmp_path / "backups", now=NOW)
    assert not file.exists()


@pytest.mark.parametrize("released", schema_version.KNOWN[:-1])
def test_a_file_of_every_released_version_is_brought_to_this_one(
    tmp_path: Path, released: str
) -> None:
    """Made by the migrations up to that version, with somebody in it."""
    file = tmp_path / "old.db"
    _upgrade_to(file, released)
    with closing(sqlite3.connect(file)) as connection, connection:
        names = [row[1:3] for row in connection.execute("PRAGMA table_info(athlete)")]
        values: dict[str, object] = {
            name: 1 if kind in {"INTEGER", "BOOLEAN"} else "" for name, kind in names
        }
        values |= {"given_name": "Ana", "sex": "female", "unit": "kg", "equipment": "classic"}
        values |= {"loss_bar": "none", "height_cm": 170, "birth_date": None, "member_until": None}
        marks = ", ".join("?" for _ in values)
        connection.execute(
            f"INSERT INTO athlete ({', '.join(values)}) VALUES ({marks})",  # noqa: S608
            tuple(values.values()),
        )
    assert state_of(file) is State.OLDER
    backups = tmp_path / "backups"
    assert prepare(file, migrations=paths.migrations(), backups=backups, now=NOW) is State.OLDER
    assert state_of(file) is State.CURRENT
    assert len(list(backups.iterdir())) == 1
    desk = open_desk(file, lambda: NOW)
    with desk.reading() as reader:
        assert [athlete.given_name for athlete in reader.list(Athlete)] == ["Ana"]
    desk.store.close()


def _upgrade_to(file: Path, revision: str) -> None:
    """A file as the program of that revision left it."""
    config = Config()
    config.set_main_option("script_location", str(paths.migrations()))
    config.set_main_option("path_separator", "os")
    engine = create_engine(f"sqlite:///{file}")
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, revision)
        connection.exec_driver_sql(f"PRAGMA application_id={schema_version.APPLICATION_ID}")
    engine.dispose()
