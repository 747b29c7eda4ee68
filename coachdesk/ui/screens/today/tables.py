"""The lists of Today beside the weight board: what needs the coach, the meets, what is missing."""

from __future__ import annotations

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.screens.today.concern_rows import ConcernRow
from coachdesk.ui.screens.today.presenter import MeetRow, MissingRow
from coachdesk.ui.widgets.table import Table


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
        fills="points",
        sortable=False,
    )
