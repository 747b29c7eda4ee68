"""Records about getting ready: kit checked round by round, tasks, and what the coach put off."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class KitCheckData:
    """One check round of an entry's kit.

    `round` is the round's code. `present` are the codes of what was seen with one's own eyes,
    `missing` of what was looked for and not there; what is in neither was not looked for yet.
    """

    entry_id: int
    round: str
    present: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class KitCheck(KitCheckData):
    """A check round on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskData:
    """What is known of a task of an entry beyond the list that all entries share.

    `code` is the task's in the list, empty for one of the coach's own, which `words` name.
    `due_on` is set where it is not the day that the list counts back to; `done_on` once done.
    """

    entry_id: int
    code: str = ""
    words: str = ""
    due_on: date | None = None
    done_on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Task(TaskData):
    """A task on file."""

    id: int
    version: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SnoozeData:
    """A matter that needs attention, put off to a day for a reason.

    `matter` is its code; `entry_id` the entry it is about, None where it is about the athlete.
    """

    athlete_id: int
    matter: str
    until: date
    reason: str
    entry_id: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Snooze(SnoozeData):
    """Something put off, on file."""

    id: int
    version: int
