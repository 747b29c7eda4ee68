"""Laying out blocks to a meet: choices, the plan day by day, and what to know before it is kept."""

from __future__ import annotations

from collections.abc import Sequence
from operator import attrgetter

from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from coachdesk.domain.lifting import Lift
from coachdesk.services.block_generating import Proposal
from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import action, button, label, small
from coachdesk.ui.screens.blocks.block_values import maximum_field
from coachdesk.ui.screens.blocks.plan_ahead import PlanAhead, PreviewRow
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.widgets.choice_row import ChoiceRow
from coachdesk.ui.widgets.dialog_size import open_at
from coachdesk.ui.widgets.fields import ChoiceField, MassField
from coachdesk.ui.widgets.table import Table

_SIZE = (1000, 660)
_MEET_PX, _DAYS_PX = 360, 120
"""Sizes [px]."""
_FEWEST, _MOST = 2, 6


class GenerateDialog(QDialog):
    """Shows a proposal that follows the choices; Ctrl+S keeps it. `answer` holds the ids then."""

    def __init__(
        self,
        context: Context,
        ahead: PlanAhead,
        first: Proposal,
        meets: Sequence[tuple[str, str]],
        parent: QWidget,
    ) -> None:
        super().__init__(parent)
        words = context.words
        self._context = context
        self._ahead = ahead
        self._proposal: Proposal | None = None
        self.answer: tuple[int, ...] | None = None
        self.setWindowTitle(words("blocks.action.generate"))
        self.choices = ChoiceRow(words)
        self.choices.add("meet", "blocks.field.meet", ChoiceField(meets)).setFixedWidth(_MEET_PX)
        days = [(str(each), str(each)) for each in range(_FEWEST, _MOST + 1)]
        self.choices.add("days", "blocks.field.days", ChoiceField(days)).setFixedWidth(_DAYS_PX)
        for lift in Lift:
            code = f"blocks.field.{lift}.{ahead.unit}"
            self.choices.add(maximum_field(lift), code, MassField(), typed=True)
        self.table: Table[PreviewRow] = Table(
            context,
            "blocks.generate",
            [
                Column("day", words("blocks.column.day"), attrgetter("day"), attrgetter("on")),
                Column("block", words("blocks.column.block"), attrgetter("block")),
                Column("week", words("blocks.column.week"), attrgetter("week")),
                Column("sets", words("blocks.column.sets"), attrgetter("sets")),
            ],
            lambda row: row.on,
            about=words("blocks.generate.days"),
            several=True,
        )
        self.cautions = label(wrap=True)
        self.keep_button = button(
            words("blocks.generate.keep"), self.keep, leading=True, hint="Ctrl+S"
        )
        action(self, words("blocks.generate.keep"), self.keep, shortcuts.SAVE)
        self._lay_out()
        self.choices.edited.connect(self._propose)
        self.choices.set_values(ahead.values(first))
        self._show(first)
        self.choices.field("meet").control().setFocus()
        open_at(self, *_SIZE)

    def keep(self) -> None:
        """Lay out what is typed by now, and put it on file."""
        self._propose()
        proposal = self._proposal
        if proposal is not None:
            self._context.runner.now(
                lambda: self._ahead.keep(proposal), then=lambda done: self._kept(done.value)
            )

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leaves; Enter does nothing by itself, since choices take effect at once."""
        if event.matches(shortcuts.LEAVE):
            self.reject()
        else:
            event.ignore()

    def _propose(self) -> None:
        self._proposal = None
        self._context.runner.now(
            lambda: self._ahead.propose(self.choices.values()),
            then=self._show,
            invalid=self.choices.show_error,
        )
        self.keep_button.setEnabled(self._proposal is not None)

    def _show(self, proposal: Proposal) -> None:
        self._proposal = proposal
        self.choices.clear_errors()
        self.table.set_rows(self._ahead.rows(proposal))
        self.table.fit_columns()
        self.cautions.setText(self._ahead.cautions(proposal))
        self.keep_button.setEnabled(True)

    def _kept(self, ids: tuple[int, ...]) -> None:
        self.answer = ids
        self.accept()

    def _lay_out(self) -> None:
        words = self._context.words
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(small(words("blocks.generate.about")))
        layout.addWidget(self.choices)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.cautions)
        foot = QHBoxLayout()
        foot.addStretch(1)
        foot.addWidget(button(words("frame.leave"), self.reject))
        foot.addWidget(self.keep_button)
        layout.addLayout(foot)
