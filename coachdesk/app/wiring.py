"""Putting the pieces together."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from coachdesk.app import paths
from coachdesk.services.desk import Desk
from coachdesk.services.rulebooks import (
    BlockTemplates,
    read_kit_lists,
    read_rulebooks,
    read_task_lists,
)
from coachdesk.storage.migrate import prepare
from coachdesk.storage.store import Store


def local_now() -> datetime:
    """The moment, in the computer's own time zone."""
    return datetime.now().astimezone()


def open_desk(file: Path, now: Callable[[], datetime] = local_now) -> Desk:
    """Open a data file, creating or migrating it as needed; Trouble when it cannot be used."""
    prepare(file, migrations=paths.migrations(), backups=paths.backups(file), now=now())
    return Desk(
        store=Store(file),
        rulebooks=read_rulebooks(paths.resources() / "rulebooks", paths.own_rulebooks(file)),
        kit=read_kit_lists(paths.resources() / "kit"),
        task_lists=read_task_lists(paths.resources() / "tasks"),
        read_templates=lambda: _block_templates(file),
        now=now,
    )


def _block_templates(file: Path) -> BlockTemplates:
    from coachdesk.services.block_templates import read_block_templates  # noqa: PLC0415

    return read_block_templates(paths.resources() / "blocks", paths.own_templates(file))
