"""Earlier files: what was replaced or deleted, and the way back."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import button, small
from coachdesk.ui.screens.rulebooks.presenter import EarlierRow, RulebooksPresenter
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.widgets.dialog_size import open_at
from coachdesk.ui.widgets.table import Table


class EarlierDialog(QDialog):
    """Lists earlier files; `restored` is the key of the one that was put back."""

    def __init__(
        self, context: Context, presenter: RulebooksPresenter, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        words = context.words
        self.setWindowTitle(words("rulebook.earlier"))
        self._context = context
        self._presenter = presenter
        self.restored = ""
        self.table: Table[EarlierRow] = Table(
            context,
            "rulebooks_earlier",
            [
                Column("key", words("rulebook.earlier.key"), lambda row: row.key),
                Column("replaced", words("rulebook.earlier.replaced"), lambda row: row.replaced),
            ],
            lambda row: row.earlier.file.name,
            about=words("rulebook.earlier"),
            empty=words("rulebook.earlier.empty"),
            sortable=False,
        )
        rows = presenter.earlier()
        self.table.set_rows(rows)
        if rows:
            self.table.select(rows[0].earlier.file.name)
        self.table.opened.connect(lambda _: self.restore())
        self.restore_button = button(words("rulebook.earlier.restore"), self.restore, leading=True)
        self.restore_button.setEnabled(bool(rows))
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(button(words("rulebook.earlier.close"), self.reject))
        buttons.addWidget(self.restore_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(small(words("rulebook.earlier.about", folder=str(presenter.folder))))
        layout.addWidget(self.table, 1)
        layout.addLayout(buttons)
        open_at(self, 520, 380)

    def restore(self) -> None:
        """Put the chosen file back; the present one is kept among these."""
        row = self.table.current_row()
        if row is None:
            return
        self.restored = row.key
        if self._context.runner.now(lambda: self._presenter.restore(row.earlier)):
            self.accept()
        else:
            self.reject()
