"""What to print of a meet, and what came of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import TypeAlias

from coachdesk.domain.text import Text


class Sheet(StrEnum):
    """A kind of sheet."""

    ATHLETE = "athlete"
    HANDLER = "handler"
    COACH = "coach"
    TEAM = "team"


@dataclass(frozen=True, slots=True)
class PrintChoice:
    """The sheets to print, on which paper ("a4" or "letter"), and for which entries: None for
    all. The team sheet holds the entries chosen too."""

    paper: str
    sheets: frozenset[Sheet] = frozenset(Sheet)
    entry_ids: frozenset[int] | None = None


@dataclass(frozen=True, slots=True)
class Printed:
    """The files that were written, and what went wrong for whom, in words."""

    folder: Path
    files: tuple[Path, ...]
    failures: tuple[Text, ...]


Progress: TypeAlias = Callable[[int, int], None]
"""Told how many steps are done of how many; may raise to stop."""


def no_progress(_done: int, _of: int) -> None:
    """Nobody is watching."""
