"""The list of meets."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QBrush, QColor, QKeyEvent
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from coachdesk.ui.context import Context
from coachdesk.ui.plain import button, plain_tip, small
from coachdesk.ui.screens.meets.presenter import MeetRow
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.wrapped_rows import WrappedRows

_KEY = Qt.ItemDataRole.UserRole
_NO_BREAK_SPACE = "\N{NO-BREAK SPACE}"
_WIDTH = 162
"""The least width [px]."""


class MeetList(QWidget):
    """Meets, those to come first; each with its day, how long to go, and its entries."""

    moved = Signal()
    """Another meet is the current one."""
    opened = Signal()
    """Enter was pressed on a meet."""
    add_asked = Signal()
    delete_asked = Signal()

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self._words = words
        self._quiet = QBrush(QColor(context.theme.quiet))
        self.list = _List()
        self.list.setAccessibleName(words("meets.list"))
        self.list.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.list.setWordWrap(True)
        self.list.setItemDelegate(WrappedRows(self.list))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._empty = small(words("meets.list.empty"))
        self._filler = QWidget()
        self._add = button(words("meets.action.add"), self.add_asked.emit, leading=True)
        self.list.setMinimumWidth(_WIDTH)
        self.setFocusProxy(self.list)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, GAP, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self._empty)
        layout.addWidget(self.list, 1)
        layout.addWidget(self._add)
        layout.addWidget(self._filler, 1)
        self.list.currentItemChanged.connect(lambda *_: self.moved.emit())
        self.list.opened.connect(self.opened)
        self.list.delete_asked.connect(self.delete_asked)

    def current_id(self) -> int | None:
        """The id of the current meet."""
        at = self.list.currentRow()
        return None if at < 0 else int(self.list.item(at).data(_KEY))

    @property
    def is_empty(self) -> bool:
        """Whether there is no meet at all."""
        return self.list.count() == 0

    def set_rows(self, rows: Sequence[MeetRow]) -> None:
        """Show these meets; the current one stays where it is still there."""
        current = self.current_id()
        self.list.blockSignals(True)
        self.list.clear()
        for row in rows:
            item = QListWidgetItem(self._words("meets.list.row", **_parts(row)))
            item.setData(_KEY, row.id)
            item.setToolTip(plain_tip(row.name))
            if row.is_past:
                item.setForeground(self._quiet)
            self.list.addItem(item)
        self.list.setVisible(bool(rows))
        self._empty.setVisible(not rows)
        self._filler.setVisible(not rows)
        self.setFocusProxy(self.list if rows else self._add)
        self._choose(current)
        self.list.blockSignals(False)

    def select(self, meet_id: int) -> None:
        """Make a meet the current one."""
        self._choose(meet_id)

    def _choose(self, meet_id: int | None) -> None:
        ids = [self.list.item(at).data(_KEY) for at in range(self.list.count())]
        if ids:
            self.list.setCurrentRow(ids.index(meet_id) if meet_id in ids else 0)


class _List(QListWidget):
    opened = Signal()
    delete_asked = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter leads into the meet, Delete asks."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.opened.emit()
        elif event.key() == Qt.Key.Key_Delete:
            self.delete_asked.emit()
        else:
            super().keyPressEvent(event)


def _parts(row: MeetRow) -> dict[str, str]:
    return {
        "name": row.name,
        "day": row.day,
        "countdown": row.countdown,
        "entries": row.entries.replace(" ", _NO_BREAK_SPACE),
    }
