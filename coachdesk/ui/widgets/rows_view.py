"""The view of a table: what keys do in it, how wide its columns begin, what it says when empty."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QRect, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QPainter, QPaintEvent, QShowEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView

from coachdesk.ui.theme import MARGIN
from coachdesk.ui.widgets.heads import Heads


class RowsView(QTableView):
    """Rows with a cursor in them; `empty` is what it says where there is none.

    A row that does not reach the edge goes on beyond its last column.
    """

    opened = Signal()
    copied = Signal()
    paste_asked = Signal()
    delete_asked = Signal()

    def __init__(self, empty: str) -> None:
        super().__init__()
        self.empty = empty
        self.widths_are_set = False
        self.setHorizontalHeader(Heads(self))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.AnyKeyPressed
        )
        self.setAlternatingRowColors(True)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(self.fontMetrics().height() + 12)
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        self.horizontalHeader().setResizeContentsPrecision(_ROWS_MEASURED)

    def reset(self) -> None:
        """Columns fit their words the first time there are any to be seen."""
        super().reset()
        if self.isVisible() and self.model().rowCount():
            self._fit_first()

    def showEvent(self, event: QShowEvent) -> None:
        """Without a row, columns fit their heads."""
        super().showEvent(event)
        self._fit_first()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter opens, Delete asks, copy and paste speak tab-separated rows."""
        if event.matches(QKeySequence.StandardKey.Copy):
            self.copied.emit()
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.paste_asked.emit()
        elif event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter} and self.state() is not _EDITING:
            self._enter()
        elif event.key() == Qt.Key.Key_Delete and self.currentIndex().isValid():
            self.delete_asked.emit()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Where there is no row, say what to do next."""
        self._fill_beside()
        super().paintEvent(event)
        model = self.model()
        if model.rowCount() or not self.empty:
            return
        painter = QPainter(self.viewport())
        painter.setPen(self.palette().placeholderText().color())
        room = self.viewport().rect().adjusted(MARGIN, MARGIN, -MARGIN, -MARGIN)
        painter.drawText(room, Qt.AlignmentFlag.AlignHCenter | Qt.TextFlag.TextWordWrap, self.empty)
        painter.end()

    def _fill_beside(self) -> None:
        """What Qt does for the columns alone: every other row, and those chosen, told apart."""
        ends, room = self.horizontalHeader().length(), self.viewport().rect()
        if ends >= room.width() or not self.model().rowCount():
            return
        painter = QPainter(self.viewport())
        first = max(self.rowAt(0), 0)
        last = self.rowAt(room.bottom())
        for row in range(first, (last if last >= 0 else self.model().rowCount() - 1) + 1):
            beside = QRect(
                ends, self.rowViewportPosition(row), room.width() - ends, self.rowHeight(row)
            )
            if self.selectionModel().isRowSelected(row, QModelIndex()):
                painter.fillRect(beside, self.palette().highlight())
            elif row % 2:
                painter.fillRect(beside, self.palette().alternateBase())
        painter.end()

    def _fit_first(self) -> None:
        if self.widths_are_set:
            return
        self.widths_are_set = self.model().rowCount() > 0
        header = self.horizontalHeader()
        last_stretches = header.stretchLastSection()
        header.setStretchLastSection(False)
        widest = min(_WIDEST, max(self.window().width() // 5, _WIDEST // 2))
        last = self.model().columnCount() - 1
        for column in range(last + 1):
            if header.sectionResizeMode(column) is not FILLING:
                self.resizeColumnToContents(column)
                if column < last:
                    self.setColumnWidth(column, min(self.columnWidth(column), widest))
        header.setStretchLastSection(last_stretches)

    def _enter(self) -> None:
        index = self.currentIndex()
        if index.isValid() and index.flags() & Qt.ItemFlag.ItemIsEditable:
            self.edit(index)
        else:
            self.opened.emit()


_WIDEST = 320
"""No column but the last begins wider [px], or wider than a fifth of a narrow window: one long name
leaves the others in sight."""
_ROWS_MEASURED = 30
"""How many rows a column's first width is fitted to."""

_EDITING = QAbstractItemView.State.EditingState
FILLING = QHeaderView.ResizeMode.Stretch
