"""Backups through SQLite's own backup call, verified before they count.

Kept: the last of each of the ten latest days, the last of each of the twelve latest months, and
every copy made before a migration or a restore.
"""

from __future__ import annotations

import os
import re
import sqlite3
from contextlib import closing
from datetime import datetime
from itertools import chain, count
from pathlib import Path

from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text
from coachdesk.storage.engine import plain_words
from coachdesk.storage.schema_version import State, state_of

DAYS_KEPT = 10
MONTHS_KEPT = 12

_DATED = re.compile(r"^backup-(\d{4}-\d{2})-(\d{2})\.coachdesk$")


def back_up(file: Path, backups: Path, now: datetime) -> Path:
    """Make or renew the backup of the day, then drop those no longer kept; returns its path."""
    target = backups / f"backup-{now:%Y-%m-%d}.coachdesk"
    _copy(file, target)
    for old in _superfluous(sorted(path.name for path in backups.iterdir())):
        (backups / old).unlink()
    return target


def copy_before_migration(file: Path, backups: Path, now: datetime) -> Path:
    """A copy that is never dropped, made before the file is changed."""
    target = _free(backups, f"before-migration-{now:%Y-%m-%dT%H%M%S}")
    _copy(file, target)
    return target


def restore(backup: Path, file: Path, backups: Path, now: datetime) -> Path | None:
    """Put `backup` in the place of `file`, saving the present file first.

    Returns where the present file was saved, or None when there was none. A backup that is
    damaged or not one of ours is refused, and nothing is touched.
    """
    with plain_words(backup):
        if state_of(backup) not in {State.CURRENT, State.OLDER}:
            raise Trouble(text("file.foreign", file=str(backup)))
        _verify(backup)
    saved = None
    if file.exists():
        saved = _free(backups, f"before-restore-{now:%Y-%m-%dT%H%M%S}")
        _copy(file, saved)
        for leftover in (f"{file}-wal", f"{file}-shm"):
            Path(leftover).unlink(missing_ok=True)
    _copy(backup, file)
    return saved


def _free(folder: Path, stem: str) -> Path:
    """A name that is not taken: what is kept for good is never overwritten."""
    endings = chain([""], (f"-{number}" for number in count(2)))
    files = (folder / f"{stem}{ending}.coachdesk" for ending in endings)
    return next(file for file in files if not file.exists())


def _copy(source: Path, target: Path) -> None:
    part = target.with_name(f".{target.name}.part")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        os.close(os.open(part, os.O_CREAT | os.O_WRONLY | os.O_TRUNC, 0o600))
        with (
            plain_words(target),
            closing(sqlite3.connect(source)) as read,
            closing(sqlite3.connect(part)) as write,
        ):
            read.backup(write)
        with plain_words(part):
            _verify(part)
        part.replace(target)
    except OSError as error:
        raise Trouble(
            text("file.cannot_create", file=str(target), why=error.strerror or "")
        ) from error
    finally:
        part.unlink(missing_ok=True)
        for ending in ("-wal", "-shm", "-journal"):
            Path(f"{part}{ending}").unlink(missing_ok=True)


def _verify(file: Path) -> None:
    with closing(sqlite3.connect(file)) as connection:
        if connection.execute("PRAGMA integrity_check").fetchall() != [("ok",)]:
            raise Trouble(text("file.damaged", file=str(file)))


def _superfluous(names: list[str]) -> list[str]:
    """Of the dated backups among `names`, oldest first, those that need not be kept."""
    dated = [match for name in names if (match := _DATED.match(name))]
    newest_first = [match.group(0) for match in reversed(dated)]
    kept = set(newest_first[:DAYS_KEPT])
    last_of_month = {match.group(1): match.group(0) for match in dated}
    kept.update(sorted(last_of_month.values())[-MONTHS_KEPT:])
    return [name for name in reversed(newest_first) if name not in kept]
