"""Tasks before a meet, counted back from it: the usual ones of every entry, and the coach's own."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from pathlib import PurePath

from coachdesk.domain.meet import MeetData
from coachdesk.domain.readiness import Task
from coachdesk.domain.text import Text, text
from coachdesk.domain.toml_reader import TomlTable, read_toml

TASK_CODES = frozenset(
    {
        "bag_packed",
        "entry_sent",
        "handlers_briefed",
        "kit_inspected",
        "kit_within_limits",
        "medicines_checked",
        "membership_runs",
        "openers_chosen",
        "packet_handed_out",
        "travel_and_bed",
    }
)
HINTED = frozenset({"medicines_checked", "membership_runs", "openers_chosen"})
"""Tasks about which there is more to say: whom to ask, or that the records settle it."""
SOON = timedelta(days=7)
"""A task counts as due from this long before its day. Our own choice."""


class CountedFrom(StrEnum):
    """The day that a task is counted back from, where it is not the meet's."""

    ENTRY_DEADLINE = "entry_deadline"
    KIT_INSPECTION = "kit_inspection"


class TaskState(StrEnum):
    """How a task stands today."""

    OVERDUE = "overdue"
    DUE = "due"
    LATER = "later"
    DONE = "done"


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualTask:
    """A task of every entry, `days_before` [days] the meet.

    Where the day `counted_from` is known, it is `from_days` [days] before that instead. `words`
    are the coach's own for a task that is not one of ours.
    """

    code: str
    days_before: int
    counted_from: CountedFrom | None = None
    from_days: int = 0
    words: str = ""

    @property
    def label(self) -> Text:
        """The task in words."""
        return text("task.own", words=self.words) if self.words else text(f"task.{self.code}")

    def day_for(self, meet: MeetData) -> date:
        """The day by which it is to be done."""
        known = {
            CountedFrom.ENTRY_DEADLINE: meet.entry_deadline,
            CountedFrom.KIT_INSPECTION: meet.kit_inspection_on,
            None: None,
        }[self.counted_from]
        if known is None:
            return meet.starts_on - timedelta(days=self.days_before)
        return known - timedelta(days=self.from_days)


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskList:
    """The usual tasks; `key` is the stem of the file, `source` where they come from."""

    key: str
    source: str
    tasks: tuple[UsualTask, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskStatus:
    """How a task of an entry stands.

    `code` names a usual task and is empty for one of the coach's own. `usual_on` is the day
    counted back, None for the coach's own; `due_on` the day that holds. `by_records`: the records
    say that it is done, nobody need tick it. `record` is what is on file about it.
    """

    code: str
    label: Text
    due_on: date
    usual_on: date | None
    state: TaskState
    done_on: date | None = None
    by_records: bool = False
    record: Task | None = None

    @property
    def hint(self) -> Text | None:
        """What more there is to say about it."""
        return text(f"task.hint.{self.code}") if self.code in HINTED else None


def task_statuses(
    task_list: TaskList,
    meet: MeetData,
    on_file: Sequence[Task],
    today: date,
    *,
    settled: Collection[str] = (),
    inspects: bool = True,
) -> tuple[TaskStatus, ...]:
    """The tasks of an entry in the order of their days.

    `on_file` is what is known of them, `settled` the codes of those that the records say are done.
    Without kit inspection (`inspects`) there is no task counted back from it.
    """
    known = {task.code: task for task in on_file if task.code}
    statuses = [
        _usual(usual, meet, known.get(usual.code), today, is_settled=usual.code in settled)
        for usual in task_list.tasks
        if inspects or usual.counted_from is not CountedFrom.KIT_INSPECTION
    ]
    statuses += [_own(task, meet, today) for task in on_file if not task.code]
    return tuple(sorted(statuses, key=lambda status: status.due_on))


def parse_task_list(data: bytes, file: str) -> TaskList:
    """Read a task list from the bytes of the TOML file named `file`; raises FileFault."""
    table = read_toml(data, file)
    tasks: dict[str, UsualTask] = {}
    source = table.text("source")
    for row in table.tables("tasks"):
        usual = _read(row, tasks)
        tasks[usual.code] = usual
    table.finish()
    return TaskList(key=PurePath(file).stem, source=source, tasks=tuple(tasks.values()))


def _read(row: TomlTable, taken: Collection[str]) -> UsualTask:
    code, words = row.known_code(TASK_CODES, taken)
    counted_from = row.choice("from", CountedFrom) if "from" in row else None
    usual = UsualTask(
        code=code,
        days_before=row.integer("days_before", 0, 365),
        counted_from=counted_from,
        from_days=0 if counted_from is None else row.integer("from_days", 0, 365),
        words=words,
    )
    row.finish()
    return usual


def _usual(
    usual: UsualTask, meet: MeetData, task: Task | None, today: date, *, is_settled: bool
) -> TaskStatus:
    usual_on = usual.day_for(meet)
    due_on = usual_on if task is None or task.due_on is None else task.due_on
    done_on = None if task is None else task.done_on
    return TaskStatus(
        code=usual.code,
        label=usual.label,
        due_on=due_on,
        usual_on=usual_on,
        state=_state(due_on, today, is_done=is_settled or done_on is not None),
        done_on=done_on,
        by_records=is_settled and done_on is None,
        record=task,
    )


def _own(task: Task, meet: MeetData, today: date) -> TaskStatus:
    due_on = task.due_on or meet.starts_on
    return TaskStatus(
        code="",
        label=text("task.own", words=task.words),
        due_on=due_on,
        usual_on=None,
        state=_state(due_on, today, is_done=task.done_on is not None),
        done_on=task.done_on,
        record=task,
    )


def _state(due_on: date, today: date, *, is_done: bool) -> TaskState:
    if is_done:
        return TaskState.DONE
    if due_on < today:
        return TaskState.OVERDUE
    return TaskState.DUE if due_on - today <= SOON else TaskState.LATER
