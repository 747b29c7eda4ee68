"""What every use case works with, and what every write answers."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property
from typing import Generic, TypeVar

from coachdesk.domain.change import Change
from coachdesk.domain.tasks import TaskList
from coachdesk.domain.text import Text
from coachdesk.services.rulebooks import (
    USUAL_TASKS,
    BlockTemplates,
    KitLists,
    Rulebooks,
    TaskLists,
)
from coachdesk.storage.store import Reader, Store, Work

T = TypeVar("T")


@dataclass(frozen=True)
class Desk:
    """An open data file, what files of ours hold, the clock (aware, in the coach's zone)."""

    store: Store
    rulebooks: Rulebooks
    kit: KitLists
    task_lists: TaskLists
    read_templates: Callable[[], BlockTemplates]
    now: Callable[[], datetime]

    @cached_property
    def block_templates(self) -> BlockTemplates:
        """Templates of training blocks; their files are read when somebody first asks."""
        return self.read_templates()

    def today(self) -> date:
        """The coach's date."""
        return self.now().date()

    @property
    def tasks(self) -> TaskList:
        """The tasks that every entry has; raises the fault of their file."""
        return self.task_lists.get(USUAL_TASKS)

    @contextmanager
    def reading(self) -> Iterator[Reader]:
        """A consistent look at the records."""
        with self.store.reading() as reader:
            yield reader

    @contextmanager
    def action(self, label: Text) -> Iterator[Work]:
        """One action of the coach, journalled under `label`: all of it or nothing."""
        with self.store.writing(self.now(), label) as work:
            yield work


@dataclass(frozen=True, slots=True)
class Done(Generic[T]):
    """What a write answers, and what it changed, so that stale screens reload."""

    value: T
    changes: frozenset[Change]
