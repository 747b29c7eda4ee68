"""The tables of kit and tasks: the team, an entry's tasks, the kit of a check round."""

from __future__ import annotations

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.screens.meets.kit_rows import ItemRow, TaskRow, TeamRow
from coachdesk.ui.widgets.table import Table


def team_table(context: Context) -> Table[TeamRow]:
    """How ready each entry is."""
    words = context.words
    return Table(
        context,
        "meet kit",
        [
            Column("athlete", words("today.athlete"), lambda row: row.athlete),
            Column(
                "rounds",
                words("ready.column.rounds"),
                lambda row: row.rounds,
                role=lambda row: row.rounds_role,
            ),
            Column(
                "overdue",
                words("ready.column.overdue"),
                lambda row: row.overdue,
                to_right=True,
                role=lambda row: "bad" if row.overdue else "",
            ),
            Column("due", words("ready.column.due"), lambda row: row.due, to_right=True),
            Column(
                "missing",
                words("ready.column.missing"),
                lambda row: row.missing,
                role=lambda row: "bad" if row.missing else "",
            ),
            Column("next", words("ready.column.next"), lambda row: row.next),
        ],
        lambda row: row.id,
        about=words("ready.team"),
        empty=words("ready.team.empty"),
        several=True,
        sortable=False,
    )


def tasks_table(context: Context) -> Table[TaskRow]:
    """What there is to do for an entry, in the order of the days."""
    words = context.words
    return Table(
        context,
        "meet tasks",
        [
            Column("task", words("ready.column.task"), lambda row: row.task),
            Column("by", words("ready.column.by"), lambda row: row.by),
            Column(
                "state",
                words("ready.column.state"),
                lambda row: row.state,
                role=lambda row: row.role,
            ),
        ],
        lambda row: row.key,
        about=words("ready.tasks"),
        empty=words("ready.tasks.empty"),
        sortable=False,
        fills="task",
    )


def items_table(context: Context) -> Table[ItemRow]:
    """The kit of a check round."""
    words = context.words
    return Table(
        context,
        "meet kit items",
        [
            Column("item", words("ready.column.item"), lambda row: row.item),
            Column(
                "seen", words("ready.column.seen"), lambda row: row.seen, role=lambda row: row.role
            ),
        ],
        lambda row: row.code,
        about=words("ready.kit"),
        sortable=False,
        fills="item",
    )
