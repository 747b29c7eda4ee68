"""Use cases about the data file itself: its backups, and putting one of them back."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime, time
from enum import StrEnum
from pathlib import Path

from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text
from coachdesk.services.desk import Desk
from coachdesk.storage import backup
from coachdesk.storage.engine import plain_words
from coachdesk.storage.schema_version import State, state_of

DAYS_KEPT = backup.DAYS_KEPT
MONTHS_KEPT = backup.MONTHS_KEPT


class Occasion(StrEnum):
    """Why a backup was made."""

    DAY = "day"
    BEFORE_RESTORE = "before_restore"
    BEFORE_MIGRATION = "before_migration"


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup: why it was made, when (a day alone for the backup of a day), and its size."""

    file: Path
    occasion: Occasion
    made: date
    size_bytes: int


_NAME = re.compile(
    r"(?P<day>backup-(?P<on>\d{4}-\d{2}-\d{2}))"
    r"|(?P<occasion>before-restore|before-migration)-(?P<at>\d{4}-\d{2}-\d{2}T\d{6})(-\d+)?"
)


def back_up_now(desk: Desk, folder: Path) -> Path:
    """Make or renew the backup of the day, verified; those no longer kept go. Answers its path."""
    return backup.back_up(desk.store.file, folder, desk.now())


def back_up_once_a_day(desk: Desk, folder: Path) -> Path | None:
    """Make the backup of the day unless there is one; answers its path when it was made."""
    today = desk.today()
    if any(each.occasion is Occasion.DAY and each.made == today for each in backups_in(folder)):
        return None
    return back_up_now(desk, folder)


def backups_in(folder: Path) -> tuple[Backup, ...]:
    """The backups in a folder, latest first; none where there is no folder yet."""
    try:
        files = list(folder.glob("*.coachdesk")) if folder.is_dir() else []
        found = [_backup(file, match) for file in files if (match := _NAME.fullmatch(file.stem))]
    except OSError as error:
        raise Trouble(text("file.cannot_open", file=str(folder))) from error
    return tuple(sorted(found, key=_latest, reverse=True))


def restore_backup(desk: Desk, chosen: Path, folder: Path) -> Path | None:
    """Put a backup in the place of the data file, which is saved first; answers where.

    The desk lets go of its file and has to be opened anew afterwards. Raises Trouble, and the
    file stays as it is, when `chosen` is damaged or no backup of this program.
    """
    desk.store.close()
    return backup.restore(chosen, desk.store.file, folder, desk.now())


def check_data_file(file: Path) -> None:
    """Raise Trouble when what stands at `file` could not be opened; nothing there is well."""
    with plain_words(file):
        state = state_of(file)
    if state is State.NEWER:
        raise Trouble(text("file.newer", file=str(file)))
    if state is State.FOREIGN:
        raise Trouble(text("file.foreign", file=str(file)))


def _backup(file: Path, name: re.Match[str]) -> Backup:
    size_bytes = file.stat().st_size
    if name["day"]:
        return Backup(file, Occasion.DAY, date.fromisoformat(name["on"]), size_bytes)
    occasion = Occasion(name["occasion"].replace("-", "_"))
    return Backup(file, occasion, datetime.fromisoformat(name["at"]), size_bytes)


def _latest(made: Backup) -> tuple[datetime, str]:
    """The backup of a day holds what the day brought, so it counts as made at its end."""
    moment = made.made
    if not isinstance(moment, datetime):
        moment = datetime.combine(moment, time.max)
    return moment, made.file.name
