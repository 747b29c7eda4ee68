"""How ready entries are, as far as kit and tasks go: cheap, for as many entries as there are."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Protocol

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.kit_rounds import KitStatus, kit_status
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.tasks import TaskState, TaskStatus, task_statuses
from coachdesk.services.desk import Desk
from coachdesk.services.rulebooks import kit_list_for
from coachdesk.storage.readiness_queries import kit_checks, tasks_on_file
from coachdesk.storage.store import Reader


class Subject(Protocol):
    """An entry to look at. `EntryState` and `Starter` of the storage both are one."""

    @property
    def meet(self) -> Meet:
        """The meet."""

    @property
    def entry(self) -> Entry:
        """The entry."""

    @property
    def athlete(self) -> Athlete:
        """The athlete."""

    @property
    def chosen(self) -> frozenset[Lift]:
        """The lifts with an opener chosen."""


@dataclass(frozen=True, slots=True)
class Readiness:
    """How ready an entry is.

    `inspection_days` [days] is how long it is to the kit inspection, below 0 once it was; None
    where its day is not known.
    """

    kit: KitStatus
    tasks: tuple[TaskStatus, ...]
    inspection_days: int | None

    def tasks_in(self, state: TaskState) -> tuple[TaskStatus, ...]:
        """The tasks in one state, in the order of their days."""
        return tuple(task for task in self.tasks if task.state is state)

    @property
    def next_due(self) -> TaskStatus | None:
        """The first task to come that is not done; those overdue are not to come."""
        open_ones = (TaskState.DUE, TaskState.LATER)
        return next((task for task in self.tasks if task.state in open_ones), None)


def readiness_of(desk: Desk, reader: Reader, subjects: Sequence[Subject]) -> dict[int, Readiness]:
    """How ready these entries are today, by entry id, in two statements.

    Nothing on file about them, entries of a meet that are alike are looked at once: early in a
    season that is most of them.

    Raises the fault of the kit list or of the task list where one cannot be read.
    """
    today = desk.today()
    entry_ids = [subject.entry.id for subject in subjects]
    checks, tasks = kit_checks(reader, entry_ids), tasks_on_file(reader, entry_ids)
    alike: dict[tuple[object, ...], Readiness] = {}

    def look(subject: Subject) -> Readiness:
        meet, entry = subject.meet, subject.entry
        inspection = meet.kit_inspection_on
        return Readiness(
            kit=kit_status(
                kit_list_for(desk.kit, entry.equipment),
                entry.event,
                meet.starts_on,
                checks.get(entry.id, ()),
                today,
            ),
            tasks=task_statuses(
                desk.tasks,
                meet,
                tasks.get(entry.id, ()),
                today,
                settled=frozenset(_settled(subject)),
                inspects=is_inspected(desk, meet),
            ),
            inspection_days=None if inspection is None else (inspection - today).days,
        )

    found = {}
    for subject in subjects:
        meet, entry = subject.meet, subject.entry
        if entry.id in checks or entry.id in tasks:
            found[entry.id] = look(subject)
            continue
        kind = (meet.id, entry.event, entry.equipment, *_settled(subject))
        if kind not in alike:
            alike[kind] = look(subject)
        found[entry.id] = alike[kind]
    return found


def is_inspected(desk: Desk, meet: Meet) -> bool:
    """Whether kit is inspected before a meet: its day is known, or the rulebook says so."""
    rulebook = desk.rulebooks.books.get(meet.rulebook)
    return meet.kit_inspection_on is not None or (rulebook is not None and rulebook.kit_inspection)


def _settled(subject: Subject) -> Iterator[str]:
    """The usual tasks that the records say are done."""
    if (subject.athlete.member_until or date.min) >= subject.meet.starts_on:
        yield "membership_runs"
    if subject.chosen >= set(subject.entry.event.lifts):
        yield "openers_chosen"
