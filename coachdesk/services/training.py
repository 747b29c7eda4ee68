"""Use cases about training: blocks and logged sets."""

from __future__ import annotations

from collections.abc import Sequence

from coachdesk.domain.checks import check_block, check_logged_set
from coachdesk.domain.lifting import Lift
from coachdesk.domain.rulebook import Cause
from coachdesk.domain.text import text
from coachdesk.domain.training import BlockData, LoggedSet, LoggedSetData
from coachdesk.services.desk import Desk, Done


def add_blocks(desk: Desk, many: Sequence[BlockData]) -> Done[tuple[int, ...]]:
    """Start several training blocks, all of them or none; answers their ids."""
    for data in many:
        check_block(data)
    with desk.action(text("did.add_blocks", count=len(many))) as work:
        ids = tuple(work.insert(data) for data in many)
        return Done(ids, work.changes())


def log_sets(desk: Desk, many: Sequence[LoggedSetData]) -> Done[None]:
    """Log sets as they were lifted, all of them or none."""
    today = desk.today()
    for data in many:
        check_logged_set(data, today)
    with desk.action(text("did.log_sets", count=len(many))) as work:
        work.insert_many(many)
        return Done(None, work.changes())


def edit_set(desk: Desk, seen: LoggedSet, data: LoggedSetData) -> Done[None]:
    """Replace a logged set that still is as it was `seen`."""
    check_logged_set(data, desk.today())
    with desk.action(text("did.edit_set", day=data.on)) as work:
        work.update(seen.id, seen.version, data)
        return Done(None, work.changes())


def delete_sets(desk: Desk, many: Sequence[LoggedSet]) -> Done[None]:
    """Delete logged sets, all of them or none."""
    with desk.action(text("did.delete_sets", count=len(many))) as work:
        for logged in many:
            work.delete(LoggedSet, logged.id, logged.version)
        return Done(None, work.changes())


def causes_of(desk: Desk, lift: Lift) -> tuple[Cause, ...]:
    """The causes of no lift that a judged single can be given: those of all rulebooks there are."""
    found: dict[str, Cause] = {}
    for rulebook in desk.rulebooks.books.values():
        for rules in rulebook.lifts:
            if rules.lift is lift:
                found.update((cause.code, cause) for cause in rules.causes)
    return tuple(found.values())
