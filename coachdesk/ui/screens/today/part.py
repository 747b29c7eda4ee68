"""A list on Today: heading, rows, and below them what there is to say about the chosen one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Generic, TypeVar

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from coachdesk.ui.plain import button, heading, label, set_role, small
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.table import Table

R = TypeVar("R")

_EDGES_PX = 4


class Part(QWidget, Generic[R]):
    """A table as high as its rows, `most` of them at most; `none` is said where there is none."""

    def __init__(self, name: str, table: Table[R], *, most: int, none: str = "") -> None:
        super().__init__()
        self.table = table
        self._last: QWidget = table.view
        self._most = most
        self.none = label(none, role="quiet")
        self.sentence = label(wrap=True)
        self.caution = small(role="warn")
        self.sentence.hide()
        self.caution.hide()
        self._buttons = QHBoxLayout()
        self._buttons.addStretch(1)
        self._foot = QWidget()
        self._foot.setLayout(self._buttons)
        self._buttons.setContentsMargins(0, 0, 0, 0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        for widget in (heading(name), self.none, table, self.sentence, self.caution, self._foot):
            layout.addWidget(widget)

    def add_button(self, words: str, then: Callable[[], None]) -> QPushButton:
        """A button for the chosen row."""
        made = button(words, then)
        self._buttons.insertWidget(self._buttons.count() - 1, made)
        QWidget.setTabOrder(self._last, made)
        self._last = made
        return made

    def set_rows(self, rows: Sequence[R]) -> None:
        """Show these; the first is chosen where none is."""
        self.table.set_rows(rows)
        self.table.setVisible(bool(rows))
        self.none.setVisible(not rows)
        self._foot.setVisible(bool(rows) and self._buttons.count() > 1)
        if rows and self.table.current_row() is None:
            self.table.select(self.table.model.key_of(rows[0]))
        view = self.table.view
        height = view.verticalHeader().defaultSectionSize() * min(len(rows), self._most)
        bars = view.horizontalScrollBar().sizeHint().height()
        head = view.horizontalHeader().sizeHint().height()
        self.table.setFixedHeight(head + height + bars + _EDGES_PX)

    def tell(self, words: str, *, role: str = "") -> None:
        """Say something about the chosen row."""
        self.sentence.setText(words)
        self.sentence.setVisible(bool(words))
        set_role(self.sentence, role)

    def warn(self, words: str) -> None:
        """Say the cautions that belong to the chosen row."""
        self.caution.setText(words)
        self.caution.setVisible(bool(words))
