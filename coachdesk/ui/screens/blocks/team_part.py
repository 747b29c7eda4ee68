"""The tab of the team: who is behind on sessions, and who is forecast for what at the next meet."""

from __future__ import annotations

from operator import attrgetter

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import small
from coachdesk.ui.screens.blocks.part import Part
from coachdesk.ui.screens.blocks.team_rows import TeamRow, TeamShown
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.table import Table
from coachdesk.wording.wording import Wording


class TeamPart(Part):
    """The team as a table; Enter on a row leads to the athlete's weeks."""

    opened = Signal(object)

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self._nobody = words("blocks.athletes.empty")
        self.table: Table[TeamRow] = Table(
            context,
            "blocks.team",
            [_column(words, *each) for each in _COLUMNS],
            lambda row: row.key,
            about=words("blocks.team"),
            empty=words("blocks.team.waiting"),
            fills="meet",
        )
        self.table.opened.connect(lambda key: self.opened.emit(key[0]))
        self.past = small(role="")
        self.setFocusProxy(self.table)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.past)
        layout.addWidget(self.besides(small(words("blocks.team.about"))))

    def show_team(self, shown: TeamShown) -> None:
        """Show the team."""
        self.table.say_empty(self._nobody)
        self.table.set_rows(shown.rows)
        self.past.setText(shown.past)


_COLUMNS = (
    ("name", "athlete", "by_name"),
    ("sessions", "sessions", "behind"),
    ("latest", "latest", "latest_on"),
    ("total", "total", "total_g"),
    ("points", "points", "by_points"),
    ("meet", "meet", "meet_on"),
)
"""What a row shows, the code of its head, and what it sorts by."""


_TIPS = {"total": "faults", "meet": "meet"}
"""What a cell says in full under the pointer."""


def _column(words: Wording, key: str, head: str, sort: str) -> Column[TeamRow]:
    show, by = attrgetter(key), attrgetter(sort)
    tip = attrgetter(_TIPS[key]) if key in _TIPS else None
    return Column(key, words(f"blocks.column.{head}"), show, by, tip=tip)
