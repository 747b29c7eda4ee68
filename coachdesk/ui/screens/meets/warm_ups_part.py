"""The warm-ups of the athletes of a meet: who, the sets in a table, and what to do when the flight
does not keep to time."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import small
from coachdesk.ui.screens.meets.entry_rows import EntryRow
from coachdesk.ui.screens.meets.line_list import LineList
from coachdesk.ui.screens.meets.tall_part import Tall
from coachdesk.ui.screens.meets.warm_ups_presenter import SetRow, WarmUpsPresenter, WarmUpView
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.choice_row import ChoiceRow
from coachdesk.ui.widgets.fields import ChoiceField
from coachdesk.ui.widgets.table import Table

_GEAR = 6
_NAME_LETTERS = 28


class WarmUpsPart(Tall):
    """Shows one athlete's warm-ups. It reads when it is seen."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self._context = context
        self._presenter = WarmUpsPresenter(context.desk, words)
        self._is_stale = False
        self._who = ChoiceRow(words)
        self.athlete = ChoiceField()
        self.athlete.box.setMinimumContentsLength(_NAME_LETTERS)
        self._who.add("athlete", "warm_ups.athlete", self.athlete)
        self.table: Table[SetRow] = Table(
            context,
            "warm ups",
            [
                Column("lift", words("warm_ups.lift"), lambda row: row.lift),
                Column("weight", words("warm_ups.set"), lambda row: row.weight, to_right=True),
                Column("out", words("warm_ups.out"), lambda row: row.out, to_right=True),
                Column(
                    "minutes", words("warm_ups.minutes"), lambda row: row.minutes, to_right=True
                ),
                Column("discs", words("warm_ups.discs"), lambda row: row.discs),
                Column("changes", words("warm_ups.changed"), lambda row: row.changes),
                Column("gear", words("warm_ups.gear"), lambda row: row.gear),
            ],
            lambda row: row.key,
            about=words("warm_ups.sets"),
            empty=words("warm_ups.none"),
            sortable=False,
        )
        self.lines = LineList()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self._who)
        layout.addWidget(self.lines)
        layout.addWidget(self.table)
        layout.addWidget(small(words("warm_ups.thumb")))
        layout.addStretch(1)
        self._who.edited.connect(self._read)

    def show_entries(self, entries: Sequence[EntryRow]) -> None:
        """Offer the athletes of a meet; who is chosen stays chosen where they can."""
        there = [row for row in entries if not row.entry.withdrawn]
        self.athlete.set_choices([(str(row.id), row.athlete) for row in there])
        self._is_stale = True
        if self.isVisible():
            self._read()

    def showEvent(self, event: QShowEvent) -> None:
        """Read before being seen, where something has changed."""
        super().showEvent(event)
        if self._is_stale:
            self._read()

    def _read(self) -> None:
        self._is_stale = False
        chosen = self.athlete.value()
        if not chosen:
            self._show(WarmUpView("", (), (), has_gear=False))
            return
        self._context.runner.now(lambda: self._presenter.view(int(chosen)), then=self._show)

    def _show(self, view: WarmUpView) -> None:
        self.table.set_rows(view.rows)
        self.table.show_at_once(len(view.rows))
        self.table.view.setColumnHidden(_GEAR, not view.has_gear)
        self.lines.show_lines(view.lines)
