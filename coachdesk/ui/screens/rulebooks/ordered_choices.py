"""Any of several in an order that counts: ticked, and moved up and down."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from coachdesk.ui.plain import action, button
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.fields import Field

_VALUE = Qt.ItemDataRole.UserRole


class OrderedChoicesField(Field):
    """The values ticked, in the order they stand, each on a line of its own."""

    def __init__(self, choices: Sequence[tuple[str, str]], *, up: str, down: str) -> None:
        super().__init__()
        self._offered = dict(choices)
        self.list = QListWidget()
        self.list.setFixedHeight((self.list.fontMetrics().height() + 6) * (len(choices) + 1))
        self.list.itemChanged.connect(lambda _: self.edited.emit())
        self.up = button(up, lambda: self.move_current(-1))
        self.down = button(down, lambda: self.move_current(1))
        action(self.list, up, lambda: self.move_current(-1), "Ctrl+Up")
        action(self.list, down, lambda: self.move_current(1), "Ctrl+Down")
        buttons = QWidget()
        column = QVBoxLayout(buttons)
        column.setContentsMargins(GAP, 0, 0, 0)
        column.addWidget(self.up)
        column.addWidget(self.down)
        column.addStretch(1)
        self._hold(self.list, buttons)
        self.set_value("")

    def value(self) -> str:
        """The values ticked, in order."""
        items = [self.list.item(at) for at in range(self.list.count())]
        return "\n".join(
            str(item.data(_VALUE)) for item in items if item.checkState() is Qt.CheckState.Checked
        )

    def set_value(self, value: str) -> None:
        """Tick these, in this order and before the rest."""
        ticked = [part for part in value.split("\n") if part]
        with QSignalBlocker(self.list):
            self.list.clear()
            for each in (*ticked, *(other for other in self._offered if other not in ticked)):
                item = QListWidgetItem(self._offered.get(each, each))
                item.setData(_VALUE, each)
                item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
                state = Qt.CheckState.Checked if each in ticked else Qt.CheckState.Unchecked
                item.setCheckState(state)
                self.list.addItem(item)
            self.list.setCurrentRow(0)

    def control(self) -> QWidget:
        """The list."""
        return self.list

    def move_current(self, by: int) -> None:
        """Move the current choice up or down."""
        at = self.list.currentRow()
        to = at + by
        if at < 0 or not 0 <= to < self.list.count():
            return
        with QSignalBlocker(self.list):
            self.list.insertItem(to, self.list.takeItem(at))
            self.list.setCurrentRow(to)
        self.edited.emit()
