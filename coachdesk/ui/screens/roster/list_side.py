"""The list of athletes: searched while typing, filtered, sorted."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import button
from coachdesk.ui.screens.roster import row_words
from coachdesk.ui.screens.roster.presenter import RosterRow, Shown
from coachdesk.ui.screens.roster.row_words import RowWords
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.fields import ChoiceField
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.ui.widgets.line import SearchLine
from coachdesk.ui.widgets.table import Table

_FILTER_WIDTH = 150
_LEAST_WIDTH = 240
"""Sizes [px]."""


class ListSide(QWidget):
    """Search box, filter, buttons and the table."""

    narrowed = Signal()
    """What is looked for, or which athletes are shown, has changed."""
    add_asked = Signal()
    handlers_asked = Signal()
    weigh_asked = Signal()
    weights_asked = Signal()
    athletes_asked = Signal()

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self.search = SearchLine()
        self.search.setPlaceholderText(words("roster.search"))
        self.search.setAccessibleName(words("roster.search"))
        self.search.setClearButtonEnabled(True)
        self.shown = ChoiceField([(each, words(f"roster.shown.{each}")) for each in Shown])
        self.shown.control().setAccessibleName(words("roster.shown"))
        self.shown.setMaximumWidth(_FILTER_WIDTH)
        self.table = _table(context)
        self.search.textChanged.connect(lambda _: self.narrowed.emit())
        self.search.went_on.connect(self.table.setFocus)
        self.shown.edited.connect(self.narrowed)
        self.setMinimumWidth(_LEAST_WIDTH)
        top = QHBoxLayout()
        top.addWidget(self.search, 1)
        top.addWidget(self.shown)
        foot = FlowLayout()
        hint = words("roster.action.add")
        foot.addWidget(button(words("roster.add"), self.add_asked.emit, leading=True, hint=hint))
        foot.addWidget(button(words("roster.handlers.dots"), self.handlers_asked.emit))
        foot.addWidget(button(words("team.open"), self.weigh_asked.emit, hint="Ctrl+Shift+W"))
        foot.addWidget(button(words("weights.open"), self.weights_asked.emit, hint="Ctrl+I"))
        foot.addWidget(
            button(words("athletes.open"), self.athletes_asked.emit, hint="Ctrl+Shift+I")
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, GAP, 0)
        layout.setSpacing(GAP)
        layout.addLayout(top)
        layout.addWidget(self.table, 1)
        layout.addLayout(foot)

    def focus_search(self) -> None:
        """Go to the search box."""
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.search.selectAll()


def _table(context: Context) -> Table[RosterRow]:
    words, unit = context.words, context.words.unit
    say = RowWords(words, context.desk.today)

    def column(
        key: str,
        show: Callable[[RosterRow], str],
        sort: Callable[[RosterRow], Any] | None = None,
        *,
        to_right: bool = False,
    ) -> Column[RosterRow]:
        return Column(key, words(f"roster.column.{key}"), show, sort, to_right=to_right)

    return Table(
        context,
        "roster",
        [
            column("name", say.name, row_words.sort_name),
            column(f"weight.{unit}", say.weight, row_words.sort_weight, to_right=True),
            column("weight_class", say.weight_class),
            column(f"best_total.{unit}", say.total, row_words.sort_total, to_right=True),
            column("meet_day", say.meet_day, row_words.sort_meet),
            column("next_meet", say.meet),
            column("weighed", say.weighed, row_words.sort_weighed),
            column("born", say.born, row_words.sort_birth),
            column("lifted", say.lifted, row_words.sort_lifted),
        ],
        lambda row: row.id,
        about=words("roster.list"),
        empty=words("roster.list.empty"),
    )
