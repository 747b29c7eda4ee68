"""Use cases about training: blocks and logged sets."""

from __future__ import annotations

from collections.abc import Sequence

from coachdesk.domain.checks import check_block, check_logged_set
from coachdesk.domain.text import text
from coachdesk.domain.training import BlockData, LoggedSetData
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
    for data in many:
        check_logged_set(data, desk.today())
    with desk.action(text("did.log_sets", count=len(many))) as work:
        work.insert_many(many)
        return Done(None, work.changes())
