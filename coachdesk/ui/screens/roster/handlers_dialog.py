"""The list of handlers: added, changed, deleted."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import action, ask, button, small
from coachdesk.ui.screens.roster.dialogs import ask_form
from coachdesk.ui.screens.roster.forms import handler_form
from coachdesk.ui.screens.roster.presenter import HandlerRow, RosterPresenter
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.widgets.dialog_size import open_at
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.ui.widgets.table import Table


class HandlersDialog(QDialog):
    """Handlers are chosen at the entries of a meet; here is where they are kept."""

    def __init__(self, context: Context, presenter: RosterPresenter, parent: QWidget) -> None:
        super().__init__(parent)
        words = context.words
        self._context = context
        self._presenter = presenter
        self.setWindowTitle(words("roster.handlers"))
        self.table: Table[HandlerRow] = Table(
            context,
            "roster.handlers",
            [
                Column("name", words("roster.field.name"), lambda row: row.handler.name),
                Column("phone", words("roster.field.phone"), lambda row: row.handler.phone),
                Column(
                    "duties",
                    words("roster.column.duties"),
                    lambda row: str(row.duties),
                    lambda row: row.duties,
                    to_right=True,
                ),
                Column("note", words("roster.field.note"), lambda row: row.handler.note),
            ],
            lambda row: row.handler.id,
            about=words("roster.handlers"),
            empty=words("roster.handlers.empty"),
        )
        self.table.opened.connect(lambda _: self.change())
        self.table.delete_asked.connect(self.delete)
        self._lay_out()
        action(self, words("roster.add.handler"), self.add, shortcuts.NEW)
        self._read()
        open_at(self, 560, 420)

    def add(self) -> None:
        """Ask for a new handler."""
        self._edit(None)

    def change(self) -> None:
        """Ask how the handler is to be."""
        row = self.table.current_row()
        if row is not None:
            self._edit(row)

    def delete(self) -> None:
        """Ask, and delete the handler."""
        row, words = self.table.current_row(), self._context.words
        if row is None:
            return
        question = words("roster.delete.handler", name=row.handler.name)
        along = self._presenter.handler_goes_with(row)
        more = f"{along} {words('roster.can_be_undone')}"
        if ask(self, question, words("roster.delete"), words("roster.keep"), more=more):
            self._context.runner.now(
                lambda: self._presenter.delete_handler(row.handler), then=lambda _: self._read()
            )

    def _edit(self, row: HandlerRow | None) -> None:
        words = self._context.words
        form = handler_form(words)
        seen = None if row is None else row.handler
        if seen is not None:
            form.set_values({"name": seen.name, "phone": seen.phone, "note": seen.note})
        shown = FormDialog(
            self._context,
            words("roster.add.handler" if seen is None else "roster.change.handler"),
            form,
            lambda values: self._presenter.save_handler(seen, values),
            parent=self,
        )
        answer = ask_form(shown, self)
        self._read()
        if isinstance(answer, int):
            self.table.select(answer)
        self.table.setFocus()

    def _read(self) -> None:
        self.table.set_rows(self._presenter.handlers())

    def _lay_out(self) -> None:
        words = self._context.words
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(small(words("roster.handlers.about")))
        layout.addWidget(self.table, 1)
        row = QHBoxLayout()
        row.addWidget(button(words("roster.add.handler"), self.add))
        row.addWidget(button(words("roster.change"), self.change))
        row.addWidget(button(words("roster.delete"), self.delete))
        row.addStretch(1)
        row.addWidget(button(words("frame.close"), self.accept, leading=True))
        layout.addLayout(row)
