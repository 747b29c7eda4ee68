"""The weight board as a table, with the level of the weeks past as a small picture."""

from __future__ import annotations

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.weights.board_rows import BoardRow
from coachdesk.ui.weights.trend_cell import TrendCell
from coachdesk.ui.widgets.table import Table

_NOT_OF_ONE_MEET = {"rate", "weeks", "meet"}
"""Columns that tell meets apart, or that stand beside each class where one meet is shown."""


def board_table(
    context: Context, name: str, *, empty: str = "", of_one_meet: bool = False
) -> Table[BoardRow]:
    """How the team stands to its classes, the most pressing first.

    `name` is what its columns are remembered under, `empty` what it says without a row; one
    `of_one_meet` is shorter: the rest stands with the entry below it.
    """
    words = context.words
    columns: list[Column[BoardRow]] = [
        Column("athlete", words("today.athlete"), lambda row: row.athlete),
        Column("class", words("today.class"), lambda row: words.show(row.weight_class)),
        Column("trend", words("today.trend"), lambda row: _said(row, context)),
        Column(
            "gap",
            words("today.gap", unit=words.unit),
            lambda row: row.gap,
            lambda row: row.gap_kg,
            to_right=True,
        ),
        Column(
            "change",
            words("today.change", unit=words.unit),
            lambda row: row.change,
            to_right=True,
        ),
        Column("rate", words("today.rate"), lambda row: row.rate, to_right=True),
        Column("verdict", words("today.verdict"), lambda row: row.verdict, role=lambda r: r.role),
        Column("weeks", words("today.weeks"), lambda row: row.weeks, to_right=True),
        Column("start", words("today.start"), lambda row: row.start or row.line),
        Column("meet", words("today.meet"), lambda row: row.meet),
    ]
    table: Table[BoardRow] = Table(
        context,
        name,
        [column for column in columns if not (of_one_meet and column.key in _NOT_OF_ONE_MEET)],
        lambda row: row.id,
        about=words("today.board"),
        empty=empty,
        sortable=False,
    )
    cell = TrendCell(
        context.theme,
        lambda key: next((row for row in table.rows if row.id == key), None),
    )
    cell.setParent(table)
    table.view.setItemDelegateForColumn(2, cell)
    return table


def _said(row: BoardRow, context: Context) -> str:
    """The small picture in words, for those who copy it or cannot see it."""
    if not row.levels:
        return ""
    words = context.words
    first, last = (words.number(row.levels[at], 1) for at in (0, -1))
    weeks = max(round((len(row.levels) - 1) / 7), 1)
    return words("today.trend.said", first=first, last=last, count=weeks)
