"""Putting the pieces together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from coachdesk.app import paths
from coachdesk.app.words import ENGLISH
from coachdesk.services.desk import Desk
from coachdesk.services.rulebooks import (
    BlockTemplates,
    Rulebooks,
    read_kit_lists,
    read_rulebooks,
    read_task_lists,
)
from coachdesk.storage.migrate import prepare
from coachdesk.storage.store import Store


def local_now() -> datetime:
    """The moment, in the computer's own time zone."""
    return datetime.now().astimezone()


def open_desk(file: Path, now: Callable[[], datetime] = local_now, language: str = ENGLISH) -> Desk:
    """Open a data file, creating or migrating it as needed; Trouble when it cannot be used."""
    prepare(file, migrations=paths.migrations(), backups=paths.backups(file), now=now())
    return Desk(
        store=Store(file),
        rulebooks=_rulebooks(file, language),
        kit=read_kit_lists(paths.resources() / "kit"),
        task_lists=read_task_lists(paths.resources() / "tasks"),
        read_templates=lambda: _block_templates(file, language),
        now=now,
    )


def in_language(desk: Desk, language: str) -> Desk:
    """The same desk, with what data files say in another language."""
    file = desk.store.file
    return replace(
        desk,
        rulebooks=_rulebooks(file, language),
        read_templates=lambda: _block_templates(file, language),
    )


def _rulebooks(file: Path, language: str) -> Rulebooks:
    return read_rulebooks(paths.resources() / "rulebooks", paths.own_rulebooks(file), language)


def _block_templates(file: Path, language: str) -> BlockTemplates:
    from coachdesk.services.block_templates import read_block_templates  # noqa: PLC0415

    folder = paths.resources() / "blocks"
    return read_block_templates(folder, paths.own_templates(file), language)
