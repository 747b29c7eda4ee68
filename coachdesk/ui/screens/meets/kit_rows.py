"""Kit and tasks in rows: the team, the tasks of one entry, the kit of one of its check rounds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from coachdesk.domain.kit import KitItem
from coachdesk.domain.kit_rounds import KitStatus, RoundState, RoundStatus, Sight
from coachdesk.domain.readiness import Task
from coachdesk.domain.tasks import TaskState, TaskStatus
from coachdesk.domain.text import Text
from coachdesk.services.readiness import Readiness
from coachdesk.wording.wording import Wording

_TASK_ROLES = {
    TaskState.OVERDUE: "bad",
    TaskState.DUE: "warn",
    TaskState.LATER: "",
    TaskState.DONE: "good",
}
_SIGHT_ROLES = {Sight.PRESENT: "good", Sight.MISSING: "bad", Sight.NOT_LOOKED: ""}
"""Colour roles; the words say the same."""


@dataclass(frozen=True, slots=True)
class TeamRow:
    """How ready one entry is: rounds, what is missing, tasks overdue and due, what comes next."""

    id: int
    athlete: str
    rounds: str
    rounds_role: str
    missing: str
    overdue: str
    due: str
    next: str


@dataclass(frozen=True, slots=True)
class TaskRow:
    """A task of an entry. `key` is the code of a usual one, or the row id of the coach's own;
    `usual_on` the day counted back, None for the coach's own."""

    key: str
    code: str
    record: Task | None
    task: str
    by: str
    due_on: date
    usual_on: date | None
    state: str
    role: str
    is_done: bool
    by_records: bool
    hint: str


@dataclass(frozen=True, slots=True)
class ItemRow:
    """A piece of kit in a check round: what a look came to, and what gets it turned away."""

    code: str
    item: str
    sight: Sight
    seen: str
    role: str
    limits: str


def team_row(entry_id: int, name: str, ready: Readiness, words: Wording) -> TeamRow:
    """One entry in words."""
    overdue, due = (len(ready.tasks_in(state)) for state in (TaskState.OVERDUE, TaskState.DUE))
    coming = ready.next_due
    return TeamRow(
        id=entry_id,
        athlete=name,
        rounds=_rounds(ready.kit, words),
        rounds_role="warn" if ready.kit.is_due else "",
        missing=words.show(tuple(item.label for item in ready.kit.missing)),
        overdue=str(overdue) if overdue else "",
        due=str(due) if due else "",
        next=""
        if coming is None
        else words("ready.next", what=coming.label, day=words.short_day(coming.due_on)),
    )


def _rounds(kit: KitStatus, words: Wording) -> str:
    """How many of the rounds whose day has come are complete, and which is due."""
    if not kit.come:
        first = kit.rounds[0] if kit.rounds else None
        return "" if first is None else words("ready.first", day=words.short_day(first.on))
    done = sum(each.state is RoundState.COMPLETE for each in kit.come)
    said = words("ready.rounds", done=done, come=len(kit.come))
    if kit.current is None or not kit.is_due:
        return said
    return words("ready.rounds_due", said=said, round=kit.current.label)


def task_row(status: TaskStatus, words: Wording) -> TaskRow:
    """A task in words."""
    state = words(f"ready.task.{status.state}")
    if status.by_records:
        state = words("ready.task.by_records")
    elif status.done_on is not None:
        state = words("ready.task.done_on", day=words.short_day(status.done_on))
    record = status.record
    return TaskRow(
        key=status.code or f"own {0 if record is None else record.id}",
        code=status.code,
        record=record,
        task=words.say(status.label),
        by=words.short_day(status.due_on),
        due_on=status.due_on,
        usual_on=status.usual_on,
        state=state,
        role=_TASK_ROLES[status.state],
        is_done=status.state is TaskState.DONE,
        by_records=status.by_records,
        hint=_hint(status, words),
    )


def _hint(status: TaskStatus, words: Wording) -> str:
    """From which day it was moved, and what more there is to say."""
    said = []
    if status.usual_on not in {None, status.due_on}:
        said.append(words("ready.moved", day=status.usual_on))
    if status.hint is not None:
        said.append(words.say(status.hint))
    return " ".join(said)


def item_row(
    item: KitItem, sight: Sight, limits: Sequence[Text], words: Wording, *, lacked: bool
) -> ItemRow:
    """A piece of kit in words; `limits` get it turned away, and `lacked` is what the last look
    found not there."""
    seen = "lacked" if lacked and sight is Sight.NOT_LOOKED else sight
    return ItemRow(
        code=item.code,
        item=counted(item, words),
        sight=sight,
        seen=words(f"ready.sight.{seen}"),
        role=_SIGHT_ROLES[sight],
        limits=words("ready.limits.joint").join(words.say(limit) for limit in limits),
    )


def counted(item: KitItem, words: Wording) -> str:
    """A piece of kit, and how many of it."""
    if item.count == 1:
        return words.say(item.label)
    return words("sheet.kit.several", item=item.label, number=item.count)


def round_choice(each: RoundStatus, words: Wording) -> str:
    """A check round as it is chosen: which, when, how far it is."""
    looked = len(each.sights) - each.count(Sight.NOT_LOOKED)
    return words(
        "ready.round",
        round=each.label,
        day=words.short_day(each.on),
        looked=looked,
        of=len(each.sights),
    )
