"""Settings without Qt: the choices in words, the data file, and its backups."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path

from coachdesk.domain.scoring import Formula
from coachdesk.domain.units import Unit
from coachdesk.services import safe_keeping
from coachdesk.services.desk import Desk
from coachdesk.services.preferences import Preferences
from coachdesk.services.safe_keeping import Backup
from coachdesk.ui.theme import Room
from coachdesk.wording.wording import Wording

PAPERS = ("a4", "letter")
_KILO, _MEGA = 1_000, 1_000_000


@dataclass(frozen=True, slots=True)
class BackupRow:
    """A backup in words."""

    file: Path
    made: str
    why: str
    size: str


class SettingsPresenter:
    """What the screen shows and does."""

    def __init__(
        self,
        desk: Desk,
        words: Wording,
        preferences: Preferences,
        backups: Path,
        languages: Sequence[tuple[str, str]] = (),
    ) -> None:
        self._desk = desk
        self._words = words
        self._preferences = preferences
        self._backups = backups
        self._languages = languages

    @property
    def data_file(self) -> Path:
        """The file that is open."""
        return self._desk.store.file

    def choices(self, key: str) -> list[tuple[str, str]]:
        """What can be chosen, in words; each language is named in itself."""
        if key == "language":
            return [("system", self._words("settings.language.system")), *self._languages]
        values: Mapping[str, tuple[str, ...]] = {
            "unit": tuple(Unit),
            "formula": tuple(Formula),
            "paper": PAPERS,
            "room": tuple(Room),
        }
        family = {"formula": "formula"}.get(key, f"settings.{key}")
        return [(value, self._words(f"{family}.{value}")) for value in values[key]]

    def values(self) -> dict[str, str]:
        """What is chosen now."""
        chosen = self._preferences
        return {
            "unit": chosen.unit,
            "formula": chosen.formula,
            "paper": chosen.paper,
            "room": chosen.room,
            "language": chosen.language,
        }

    def chosen(self, values: Mapping[str, str]) -> Preferences:
        """The preferences with what was chosen in the form."""
        return replace(
            self._preferences,
            unit=Unit(values["unit"]),
            formula=Formula(values["formula"]),
            paper=values["paper"],
            room=values["room"],
            language=values["language"],
        )

    def file_words(self) -> str:
        """The data file: where it is and how large."""
        size = self._size(self.data_file.stat().st_size)
        return self._words("settings.file.words", file=str(self.data_file), size=size)

    def check(self, file: Path) -> Path:
        """The file, if it can be gone on with: one of ours, or none yet."""
        safe_keeping.check_data_file(file)
        return file

    def kept_words(self) -> str:
        """How many backups are kept, and where."""
        return self._words(
            "settings.backups.kept",
            days=safe_keeping.DAYS_KEPT,
            months=safe_keeping.MONTHS_KEPT,
            folder=str(self._backups),
        )

    def backups(self) -> tuple[BackupRow, ...]:
        """The backups of the file that is open, latest first."""
        return tuple(self._row(backup) for backup in safe_keeping.backups_in(self._backups))

    def back_up(self) -> Path:
        """Make the backup of the day, verified."""
        return safe_keeping.back_up_now(self._desk, self._backups)

    def restore(self, backup: Path) -> Path | None:
        """Put a backup in the place of the data file; answers where that was saved."""
        return safe_keeping.restore_backup(self._desk, backup, self._backups)

    def _row(self, backup: Backup) -> BackupRow:
        words, made = self._words, backup.made
        return BackupRow(
            file=backup.file,
            made=words.moment(made) if isinstance(made, datetime) else words.day(made),
            why=words(f"settings.backup.{backup.occasion}"),
            size=self._size(backup.size_bytes),
        )

    def _size(self, size_bytes: int) -> str:
        if size_bytes < _MEGA:
            return self._words("settings.kilobytes", number=-(-size_bytes // _KILO))
        megabytes = self._words.number(size_bytes / _MEGA, 1)
        return self._words("settings.megabytes", number=megabytes)
