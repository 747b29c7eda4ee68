"""The tables below the weight board: the classes in reach, and the way week by week."""

from __future__ import annotations

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.screens.meets.class_rows import ClassRow, MarkRow
from coachdesk.ui.widgets.table import Table

TOTAL = 2
"""The column of the total of equal score."""
AGREED = 2
"""The column of the line agreed on."""


def classes_table(context: Context) -> Table[ClassRow]:
    """The classes in reach of one entry."""
    words = context.words
    return Table(
        context,
        "meet classes",
        [
            Column("class", words("today.class"), lambda row: row.label),
            Column("limit", words("weight.column.limit"), lambda row: row.limit, to_right=True),
            Column("total", words("weight.column.total"), lambda row: row.total, to_right=True),
            Column("gap", words("weight.column.gap"), lambda row: row.gap, to_right=True),
            Column(
                "chance",
                words("weight.column.chance"),
                lambda row: row.chance,
                tip=lambda _: words("weight.column.chance.tip"),
            ),
            Column("rate", words("today.rate"), lambda row: row.rate, to_right=True),
            Column(
                "verdict",
                words("today.verdict"),
                lambda row: row.verdict,
                role=lambda row: row.role,
            ),
            Column("comfortable", words("weight.column.comfortable"), lambda row: row.comfortable),
            Column("steady", words("weight.column.steady"), lambda row: row.steady),
        ],
        lambda row: row.name,
        about=words("weight.classes"),
        sortable=False,
    )


def marks_table(context: Context) -> Table[MarkRow]:
    """What the scale should show, week by week."""
    words = context.words
    return Table(
        context,
        "meet marks",
        [
            Column("day", words("weight.column.day"), lambda row: row.shown),
            Column("mark", words("weight.column.mark"), lambda row: row.mark, to_right=True),
            Column("agreed", words("weight.column.agreed"), lambda row: row.agreed, to_right=True),
        ],
        lambda row: row.day,
        about=words("weight.marks"),
        sortable=False,
    )
