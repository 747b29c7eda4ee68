"""Rows of a list or table whose words go on in the next line where the room ends."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtWidgets import QListView, QStyledItemDelegate, QStyleOptionViewItem, QTableView

from coachdesk.ui.models.rows_model import Index

_BESIDE_WORDS, _AROUND_WORDS = 22, 12
"""What a row keeps beside its words, and above and below them together [px]."""
_NO_END = 10_000


class WrappedRows(QStyledItemDelegate):
    """Makes rows as high as their words are in the width there is: Qt leaves the margins beside
    them out of account, and cuts the last line."""

    def __init__(self, view: QListView | QTableView) -> None:
        super().__init__(view)
        self._view = view

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """The size of a row."""
        view = self._view
        if isinstance(view, QTableView):
            width = view.columnWidth(index.column())
        else:
            width = view.viewport().width()
        room = QRect(0, 0, width - _BESIDE_WORDS, _NO_END)
        words = option.fontMetrics.boundingRect(
            room, Qt.TextFlag.TextWordWrap, str(index.data() or "")
        )
        return QSize(room.width(), words.height() + _AROUND_WORDS)
