"""An athlete's cycle notes: private, added and deleted here and seen nowhere else."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from coachdesk.domain.athlete import CycleNoteRecord
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import ask, button, small
from coachdesk.ui.screens.roster.cycle_records import CycleRecords
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.weights.day_words import short_day
from coachdesk.ui.widgets.dialog_size import open_at
from coachdesk.ui.widgets.fields import DateField
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.table import Table

_SIZE = (480, 460)
"""[px]"""


class CycleNotesDialog(QDialog):
    """First and last day to type, and the notes there are."""

    def __init__(self, context: Context, records: CycleRecords, parent: QWidget) -> None:
        super().__init__(parent)
        words = context.words
        self._context = context
        self._words = words
        self._records = records
        self.setWindowTitle(words("cycle.title"))
        self.form = Form(words)
        for name in ("first", "last"):
            self.form.add(name, f"cycle.{name}", DateField(pick=words("roster.pick")))
        self.table: Table[CycleNoteRecord] = Table(
            context,
            "roster.cycle_notes",
            [
                Column("first", words("cycle.first"), lambda note: short_day(words, note.first)),
                Column("last", words("cycle.last"), lambda note: short_day(words, note.last)),
            ],
            lambda note: note.id,
            about=words("cycle.title"),
            empty=words("cycle.empty"),
            several=True,
            sortable=False,
        )
        self.table.delete_asked.connect(self.delete)
        self._lay_out()
        self._read()
        self.form.mark_clean()
        open_at(self, *_SIZE)
        self.form.focus_first()

    def add(self) -> None:
        """Keep what is typed as a note."""
        self.form.clear_errors()
        values = self.form.values()
        self._context.runner.now(
            lambda: self._records.add(values),
            then=lambda _: self._added(),
            invalid=self.form.show_error,
        )

    def delete(self) -> None:
        """Ask, and delete the notes chosen."""
        notes, words = self.table.selected_rows(), self._words
        if not notes:
            return
        question = words("cycle.delete", count=len(notes))
        more = words("roster.can_be_undone")
        if ask(self, question, words("roster.delete"), words("roster.keep"), more=more):
            self._context.runner.now(
                lambda: self._records.delete(notes), then=lambda _: self._read()
            )

    def reject(self) -> None:
        """Close; what is typed and not added is let go only when the coach says so."""
        words = self._words
        if self.form.is_dirty() and not ask(
            self, words("frame.discard.question"), words("frame.discard"), words("frame.go_on")
        ):
            return
        super().reject()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter in a field adds."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.add()
        else:
            super().keyPressEvent(event)

    def _added(self) -> None:
        self._read()
        self.form.set_values({"first": "", "last": ""})
        self.form.focus_first()

    def _read(self) -> None:
        self._context.runner.now(self._records.notes, then=self.table.set_rows)

    def _lay_out(self) -> None:
        words = self._words
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(small(words("cycle.about")))
        layout.addWidget(small(words("cycle.private"), role="warn"))
        layout.addWidget(self.form)
        row = QHBoxLayout()
        row.addStretch(1)
        row.addWidget(button(words("roster.add"), self.add, leading=True))
        layout.addLayout(row)
        layout.addWidget(self.table, 1)
        foot = QHBoxLayout()
        foot.addWidget(button(words("roster.delete"), self.delete))
        foot.addStretch(1)
        foot.addWidget(button(words("frame.close"), self.reject))
        layout.addLayout(foot)
