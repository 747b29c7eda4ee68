"""The lists of Today: what needs the coach, the meets, the weight board, what is missing."""

from __future__ import annotations

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.screens.today.board_rows import BoardRow
from coachdesk.ui.screens.today.concern_rows import ConcernRow
from coachdesk.ui.screens.today.presenter import MeetRow, MissingRow
from coachdesk.ui.screens.today.trend_cell import TrendCell
from coachdesk.ui.widgets.table import Table

_TREND_PX = 110


def concerns_table(context: Context) -> Table[ConcernRow]:
    """What needs the coach, the most pressing first."""
    words = context.words
    return Table(
        context,
        "today_concerns",
        [
            Column("kind", words("attention.what"), lambda row: row.kind),
            Column("athlete", words("today.athlete"), lambda row: row.athlete),
            Column("by", words("attention.when"), lambda row: row.by, role=lambda row: row.role),
            Column("since", words("attention.since"), lambda row: row.since),
            Column("why", words("attention.why"), lambda row: row.why),
        ],
        lambda row: row.key,
        about=words("attention.list"),
        fills="why",
        sortable=False,
    )


def meets_table(context: Context) -> Table[MeetRow]:
    """The meets to come, counted down."""
    words = context.words
    return Table(
        context,
        "today_meets",
        [
            Column("name", words("today.meet"), lambda row: row.name),
            Column("day", words("today.day"), lambda row: row.day),
            Column("to_go", words("today.to_go"), lambda row: row.countdown),
            Column(
                "deadline",
                words("today.entries_close"),
                lambda row: row.deadline,
                role=lambda row: "warn" if row.urgent else "",
            ),
            Column("entries", words("today.entries"), lambda row: str(row.entries), to_right=True),
            Column(
                "open",
                words("today.open_points"),
                lambda row: words("today.unknown") if row.fault else str(row.open_points),
                to_right=True,
            ),
            Column("place", words("today.place"), lambda row: row.place),
        ],
        lambda row: row.id,
        about=words("today.meets"),
        sortable=False,
    )


def board_table(context: Context) -> Table[BoardRow]:
    """How the team stands to its classes, the most pressing first."""
    words = context.words
    table: Table[BoardRow] = Table(
        context,
        "today_board",
        [
            Column("athlete", words("today.athlete"), lambda row: row.athlete),
            Column("class", words("today.class"), lambda row: row.weight_class),
            Column("trend", words("today.trend"), lambda row: _said(row, context)),
            Column(
                "gap",
                words("today.gap", unit=words.unit),
                lambda row: row.gap,
                lambda row: row.gap_kg,
                to_right=True,
            ),
            Column("change", words("today.change"), lambda row: row.change, to_right=True),
            Column("rate", words("today.rate"), lambda row: row.rate, to_right=True),
            Column(
                "verdict", words("today.verdict"), lambda row: row.verdict, role=lambda r: r.role
            ),
            Column("weeks", words("today.weeks"), lambda row: row.weeks, to_right=True),
            Column("start", words("today.start"), lambda row: row.start or row.line),
            Column("meet", words("today.meet"), lambda row: row.meet),
        ],
        lambda row: row.id,
        about=words("today.board"),
        sortable=False,
    )
    cell = TrendCell(
        context.theme,
        lambda key: next((row for row in table.rows if row.id == key), None),
    )
    cell.setParent(table)
    table.view.setItemDelegateForColumn(2, cell)
    table.view.setColumnWidth(2, _TREND_PX)
    return table


def missing_table(context: Context) -> Table[MissingRow]:
    """What is missing in entries."""
    words = context.words
    return Table(
        context,
        "today_missing",
        [
            Column("athlete", words("today.athlete"), lambda row: row.athlete),
            Column("meet", words("today.meet"), lambda row: row.meet),
            Column("count", words("today.open_points"), lambda row: str(row.count), to_right=True),
            Column("points", words("today.points"), lambda row: row.summary),
        ],
        lambda row: row.id,
        about=words("today.missing"),
        sortable=False,
    )


def _said(row: BoardRow, context: Context) -> str:
    """The small picture in words, for those who copy it or cannot see it."""
    if not row.levels:
        return ""
    words = context.words
    first, last = (words.number(row.levels[at], 1) for at in (0, -1))
    weeks = max(round((len(row.levels) - 1) / 7), 1)
    return words("today.trend.said", first=first, last=last, count=weeks)
