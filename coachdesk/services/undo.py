"""Undo and redo: use cases over the journal."""

from __future__ import annotations

from coachdesk.domain.text import Text
from coachdesk.services.desk import Desk, Done
from coachdesk.storage import journal


def undoable(desk: Desk) -> Text | None:
    """What undo would take back, in words, or None when there is nothing."""
    with desk.reading() as reader:
        action = journal.next_undo(reader.connection)
    return None if action is None else action.label


def redoable(desk: Desk) -> Text | None:
    """What redo would do again, in words, or None when there is nothing."""
    with desk.reading() as reader:
        action = journal.next_redo(reader.connection)
    return None if action is None else action.label


def undo(desk: Desk) -> Done[Text | None]:
    """Take back the latest action; answers what it was, None when there was nothing.

    Trouble, and nothing changed, when a row it touched has moved on since.
    """
    with desk.store.raw_writing() as connection:
        action = journal.next_undo(connection)
        if action is None:
            return Done(None, frozenset())
        return Done(action.label, journal.undo(connection, action))


def redo(desk: Desk) -> Done[Text | None]:
    """Do again what was undone last; answers what it was, None when there was nothing.

    Trouble, and nothing changed, when a row it touched has moved on since.
    """
    with desk.store.raw_writing() as connection:
        action = journal.next_redo(connection)
        if action is None:
            return Done(None, frozenset())
        return Done(action.label, journal.redo(connection, action))
