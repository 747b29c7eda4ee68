"""The heads of a table: no wider than their words, but for the one that rows are sorted by."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QHeaderView, QStyle, QWidget


class Heads(QHeaderView):
    """Heads in a row. Qt keeps room for the mark of sorting on each of them; here the one that is
    sorted by makes room for it, so that more columns are seen at once."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setSectionsClickable(True)
        self.sortIndicatorChanged.connect(self._make_room)

    def sectionSizeFromContents(self, at: int) -> QSize:
        """The size a head asks for."""
        size = super().sectionSizeFromContents(at)
        if self.isSortIndicatorShown() and at != self.sortIndicatorSection():
            margin = self.style().pixelMetric(QStyle.PixelMetric.PM_HeaderMargin, None, self)
            size.setWidth(size.width() - self.fontMetrics().height() - margin)
        return size

    def _make_room(self, at: int) -> None:
        """Let the head that is sorted by show its words and the mark."""
        if at < 0 or self.sectionResizeMode(at) is not QHeaderView.ResizeMode.Interactive:
            return
        needed = self.sectionSizeHint(at)
        if not self.isSectionHidden(at) and self.sectionSize(at) < needed:
            self.resizeSection(at, needed)
