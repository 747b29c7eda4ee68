"""What is on file about getting ready: a constant number of statements for however many entries."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from coachdesk.domain.athlete import Athlete
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Entry, Meet
from coachdesk.domain.readiness import KitCheck, Task
from coachdesk.storage import readiness_tables, tables
from coachdesk.storage.rows import by
from coachdesk.storage.store import Reader
from coachdesk.storage.today_queries import chosen_lifts


@dataclass(frozen=True, slots=True)
class Starter:
    """An entry with its meet and athlete; `chosen` are the lifts with an opener chosen."""

    meet: Meet
    entry: Entry
    athlete: Athlete
    chosen: frozenset[Lift]


def starters(reader: Reader, meets: Sequence[Meet]) -> tuple[Starter, ...]:
    """The entries to these meets that are not withdrawn, by meet as given, then by name."""
    of_meet = {meet.id: meet for meet in meets}
    entries = reader.list(
        Entry, tables.entry.c.meet_id.in_(of_meet), tables.entry.c.withdrawn.is_(other=False)
    )
    athlete_ids = {entry.athlete_id for entry in entries}
    athletes = {
        athlete.id: athlete
        for athlete in reader.list(Athlete, tables.athlete.c.id.in_(athlete_ids))
    }
    chosen = chosen_lifts(reader, [entry.id for entry in entries])
    found = [
        Starter(
            of_meet[entry.meet_id],
            entry,
            athletes[entry.athlete_id],
            chosen.get(entry.id, frozenset()),
        )
        for entry in entries
    ]
    place = {meet_id: at for at, meet_id in enumerate(of_meet)}
    return tuple(sorted(found, key=lambda each: (place[each.meet.id], *_by_name(each))))


def kit_checks(reader: Reader, entry_ids: Iterable[int]) -> dict[int, tuple[KitCheck, ...]]:
    """The check rounds on file, by entry."""
    kit_check = readiness_tables.kit_check.c
    return by(reader.list(KitCheck, kit_check.entry_id.in_(list(entry_ids))), "entry_id")


def tasks_on_file(reader: Reader, entry_ids: Iterable[int]) -> dict[int, tuple[Task, ...]]:
    """What is on file about tasks, by entry."""
    task = readiness_tables.task.c
    return by(reader.list(Task, task.entry_id.in_(list(entry_ids))), "entry_id")


def tasks_named(reader: Reader, entry_ids: Collection[int], code: str) -> dict[int, Task]:
    """What is on file about one usual task, by entry."""
    task = readiness_tables.task.c
    found = reader.list(Task, task.entry_id.in_(entry_ids), task.code == code)
    return {each.entry_id: each for each in found}


def _by_name(starter: Starter) -> tuple[str, str, int]:
    athlete = starter.athlete
    return athlete.family_name.casefold(), athlete.given_name.casefold(), starter.entry.id
