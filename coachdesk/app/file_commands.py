"""The commands about the data file."""

from __future__ import annotations

import argparse
from pathlib import Path

from coachdesk.app import paths
from coachdesk.app.wiring import local_now, open_desk
from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text
from coachdesk.storage import backup, migrate
from coachdesk.wording.wording import Wording


def check(options: argparse.Namespace, words: Wording) -> int:
    """Check the data file from end to end."""
    file = present_file(options)
    open_desk(file).store.close()
    migrate.check(file)
    print(words("checked.sound", file=str(file)))
    return 0


def back_up(options: argparse.Namespace, words: Wording) -> int:
    """Copy the data file, verified."""
    file = present_file(options)
    open_desk(file).store.close()
    made = backup.back_up(file, paths.backups(file), local_now())
    print(words("backed_up.done", file=str(made)))
    return 0


def restore(options: argparse.Namespace, words: Wording) -> int:
    """Put a backup in the place of the data file, which is saved first."""
    file = _data_file(options)
    saved = backup.restore(options.backup, file, paths.backups(file), local_now())
    print(words("restored.done", file=str(file)))
    if saved is not None:
        print(words("restored.saved", file=str(saved)))
    return 0


def present_file(options: argparse.Namespace) -> Path:
    """The data file, which these commands read and so will not create."""
    file = _data_file(options)
    if not file.exists():
        raise Trouble(text("file.missing", file=str(file)))
    return file


def _data_file(options: argparse.Namespace) -> Path:
    file: Path | None = options.data
    return paths.data_file() if file is None else file
