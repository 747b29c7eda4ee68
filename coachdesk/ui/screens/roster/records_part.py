"""A table of an athlete's records with its buttons; what the records are stands in subclasses."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Generic, TypeVar

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.ui.context import Context
from coachdesk.ui.plain import ask, button
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.ui.screens.roster.dialogs import ask_form
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.ui.widgets.table import Table

R = TypeVar("R")


class RecordsPart(QWidget, Generic[R]):
    """Enter changes a record, Delete deletes those chosen after asking."""

    code = ""
    """What the words of its buttons and questions go by."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self.context = context
        self.words = context.words
        self.detail: AthleteDetail | None = None
        self._everything = False
        self._is_stale = True
        self.table = self.make_table()
        self.table.opened.connect(lambda _: self.change())
        self.table.delete_asked.connect(self.delete)
        self._all = button("", self.show_everything)
        self._all.hide()
        self._change = button(self.words("roster.change"), self.change)
        self._delete = button(self.words("roster.delete"), self.delete)
        self.table.moved.connect(self._allow)
        body = QWidget()
        layout = QVBoxLayout(body)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        top = self.make_top()
        if top is not None:
            layout.addWidget(top)
        layout.addWidget(self.table, 1)
        layout.addLayout(self._foot())
        self.lay_out(body)
        self._allow()

    def lay_out(self, body: QWidget) -> None:
        """Put the records into the part: they are all of it."""
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.addWidget(body)

    def make_table(self) -> Table[R]:
        """The table."""
        raise NotImplementedError

    def make_top(self) -> QWidget | None:
        """What stands above the table."""
        return None

    def read_rows(self, detail: AthleteDetail, *, everything: bool) -> tuple[Sequence[R], int]:
        """The rows to show, and how many there are in all."""
        raise NotImplementedError

    def make_dialog(self, detail: AthleteDetail, row: R) -> FormDialog:
        """The dialog that changes a row."""
        raise NotImplementedError

    def delete_rows(self, detail: AthleteDetail, rows: Sequence[R]) -> object:
        """Delete rows; answers what the use case answers."""
        raise NotImplementedError

    def goes_along(self, detail: AthleteDetail, rows: Sequence[R]) -> str:
        """What goes with rows that are deleted."""
        del detail, rows
        return ""

    def extra_buttons(self) -> Sequence[QWidget]:
        """Buttons before those every part has."""
        return ()

    def show_athlete(self, detail: AthleteDetail | None) -> None:
        """Show another athlete's records, or the same one's read anew, once they are looked at."""
        if detail is None or self.detail is None or detail.id != self.detail.id:
            self._everything = False
            self.table.set_rows(())
        self.detail = detail
        self._is_stale = True
        if self.isVisible():
            self.read()

    def read(self) -> None:
        """Read what is to be shown, where it is not read yet."""
        detail = self.detail
        if not self._is_stale or detail is None:
            return
        self._is_stale = False
        self.context.runner.now(
            lambda: self.read_rows(detail, everything=self._everything), then=self._show
        )

    def _show(self, found: tuple[Sequence[R], int]) -> None:
        rows, of = found
        self.table.set_rows(rows)
        self._all.setText(self.words("roster.show_all", of=of))
        self._all.setVisible(of > len(rows))
        self._allow()

    def showEvent(self, event: QShowEvent) -> None:
        """Read what was not read while it was hidden."""
        super().showEvent(event)
        self.read()

    def show_everything(self) -> None:
        """Show all records, the old ones too."""
        self._everything = True
        self._is_stale = True
        self.read()
        self.table.setFocus()

    def begin(self) -> None:
        """Go to where one begins."""
        self.table.setFocus()

    def has_unsaved(self) -> bool:
        """Whether something typed is not kept yet."""
        return False

    def save(self) -> bool:
        """Keep what is typed; answers whether it could be."""
        return True

    def discard(self) -> None:
        """Let go of what is typed."""

    def change(self) -> None:
        """Ask how the record is to be."""
        row = self.table.current_row()
        if self.detail is not None and row is not None:
            self.show_dialog(self.make_dialog(self.detail, row))

    def delete(self) -> None:
        """Ask, and delete the records chosen."""
        detail, rows = self.detail, self.table.selected_rows()
        if detail is None or not rows:
            return

        def question(goes_along: str) -> None:
            asked = self.words(f"roster.delete.{self.code}", count=len(rows))
            more = f"{goes_along} {self.words('roster.can_be_undone')}".strip()
            yes, no = self.words("roster.delete"), self.words("roster.keep")
            if ask(self, asked, yes, no, more=more):
                self.context.runner.now(lambda: self.delete_rows(detail, rows))

        self.context.runner.now(lambda: self.goes_along(detail, rows), then=question)

    def show_dialog(self, dialog: FormDialog) -> None:
        """Show a dialog, and lead back to the table."""
        ask_form(dialog, self)
        self.table.setFocus()

    def _foot(self) -> FlowLayout:
        row = FlowLayout(line_gap=GAP // 2)
        for each in (*self.extra_buttons(), self._change, self._delete, self._all):
            row.addWidget(each)
        return row

    def _allow(self) -> None:
        has_row = self.table.current_row() is not None
        self._change.setEnabled(has_row)
        self._delete.setEnabled(has_row)
