"""Use cases about the tasks of entries: tick, move, and the coach's own."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.checks import check_task
from coachdesk.domain.errors import Trouble
from coachdesk.domain.meet import Entry
from coachdesk.domain.readiness import Task, TaskData
from coachdesk.domain.text import Text, text
from coachdesk.services.desk import Desk, Done
from coachdesk.storage.readiness_queries import tasks_named
from coachdesk.storage.store import Reader, Work


@dataclass(frozen=True, slots=True)
class UsualTasks:
    """A usual task, by its code, of one or several entries."""

    entry_ids: tuple[int, ...]
    code: str


def tick_usual(desk: Desk, tasks: UsualTasks, *, done: bool) -> Done[None]:
    """Note that a usual task is done today, or is not done after all, for all these entries."""
    done_on = desk.today() if done else None
    label = "task_done" if done else "task_not_done"
    with desk.action(_about(desk, label, tasks)) as work:
        _put(work, tasks, lambda task: replace(task, done_on=done_on))
        return Done(None, work.changes())


def move_usual(desk: Desk, tasks: UsualTasks, due_on: date | None) -> Done[None]:
    """Move a usual task to another day; None puts it back on the day counted back."""
    with desk.action(_about(desk, "move_task", tasks)) as work:
        _put(work, tasks, lambda task: replace(task, due_on=due_on))
        return Done(None, work.changes())


def add_tasks(desk: Desk, entry_ids: Sequence[int], words: str, due_on: date | None) -> Done[None]:
    """Add a task of the coach's own to one or several entries."""
    many = [TaskData(entry_id=entry_id, words=words, due_on=due_on) for entry_id in entry_ids]
    return note_tasks(desk, many)


def note_tasks(desk: Desk, many: Sequence[TaskData]) -> Done[None]:
    """Keep tasks nothing is on file about yet, all of them or none."""
    for data in many:
        check_task(data)
        if data.code:
            _label(desk, data.code)
    with desk.action(text("did.note_tasks", count=len(many))) as work:
        work.insert_many(many)
        return Done(None, work.changes())


def tick_own(desk: Desk, seen: Task, *, done: bool) -> Done[None]:
    """Note that a task of the coach's own is done today, or is not done after all."""
    label = "task_done" if done else "task_not_done"
    with desk.action(_about_own(desk, label, seen)) as work:
        data = replace(seen, done_on=desk.today() if done else None)
        work.update(seen.id, seen.version, data)
        return Done(None, work.changes())


def edit_own(desk: Desk, seen: Task, words: str, due_on: date | None) -> Done[None]:
    """Change the words and the day of a task of the coach's own."""
    data = replace(seen, words=words, due_on=due_on)
    check_task(data)
    with desk.action(_about_own(desk, "edit_task", seen)) as work:
        work.update(seen.id, seen.version, data)
        return Done(None, work.changes())


def delete_own(desk: Desk, seen: Task) -> Done[None]:
    """Delete a task of the coach's own; it can be undone."""
    with desk.action(_about_own(desk, "delete_task", seen)) as work:
        work.delete(Task, seen.id, seen.version)
        return Done(None, work.changes())


def _put(work: Work, tasks: UsualTasks, change: Callable[[TaskData], TaskData]) -> None:
    """Change what is known of a task; a row that would say nothing goes."""
    on_file = tasks_named(work, tasks.entry_ids, tasks.code)
    for entry_id in tasks.entry_ids:
        seen = on_file.get(entry_id)
        if seen is None:
            new = change(TaskData(entry_id=entry_id, code=tasks.code))
            if new.due_on or new.done_on:
                work.insert(new)
            continue
        data = change(seen)
        if data.due_on is None and data.done_on is None:
            work.delete(Task, seen.id, seen.version)
        elif data != seen:
            work.update(seen.id, seen.version, data)


def _about(desk: Desk, code: str, tasks: UsualTasks) -> Text:
    what = _label(desk, tasks.code)
    if len(tasks.entry_ids) != 1:
        return text(f"did.{code}_of_several", what=what, count=len(tasks.entry_ids))
    with desk.reading() as reader:
        return text(f"did.{code}", what=what, name=name_of(reader, tasks.entry_ids[0]))


def _about_own(desk: Desk, code: str, seen: Task) -> Text:
    with desk.reading() as reader:
        name = name_of(reader, seen.entry_id)
    return text(f"did.{code}", what=text("task.own", words=seen.words), name=name)


def name_of(reader: Reader, entry_id: int) -> str:
    """The name of an entry's athlete."""
    return reader.get(Athlete, reader.get(Entry, entry_id).athlete_id).name


def _label(desk: Desk, code: str) -> Text:
    """A usual task in words; Trouble for one that is not on the list (any more)."""
    for usual in desk.tasks.tasks:
        if usual.code == code:
            return usual.label
    raise Trouble(text("task.unknown", task=code))
