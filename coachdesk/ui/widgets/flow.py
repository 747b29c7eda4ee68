"""Widgets side by side that go on in the next line where the room ends."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget

from coachdesk.ui.theme import GAP

_NO_END = 1 << 20


class FlowLayout(QLayout):
    """Lines of widgets, their lower edges level; each in the size it asks for, but no wider than
    the line."""

    def __init__(
        self, parent: QWidget | None = None, *, gap: int = GAP, line_gap: int = GAP
    ) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self._gap = gap
        self._line_gap = line_gap
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:
        """Add an item at the end."""
        self._items.append(item)

    def count(self) -> int:
        """How many items."""
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        """An item; Qt asks for one past the last, and wants None then."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        """Take an item out."""
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        """It takes no more room than it needs."""
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        """A narrow one is higher."""
        return True

    def heightForWidth(self, width: int) -> int:
        """The height of all lines."""
        return self._arrange(QRect(0, 0, width, 0), place=False)

    def setGeometry(self, rect: QRect) -> None:
        """Place the items."""
        super().setGeometry(rect)
        self._arrange(rect, place=True)

    def sizeHint(self) -> QSize:
        """As little as it can do with."""
        return self.minimumSize()

    def minimumSize(self) -> QSize:
        """Room for the largest item."""
        size = QSize()
        for item in self._items:
            size = size.expandedTo(item.minimumSize())
        return size

    def _arrange(self, rect: QRect, *, place: bool) -> int:
        top = rect.y()
        for line in self._lines(rect.width()):
            height = max(item.sizeHint().height() for item in line)
            left = rect.x()
            for item in line:
                size = item.sizeHint().boundedTo(QSize(rect.width(), _NO_END))
                if place:
                    corner = QPoint(left, top + height - size.height())
                    item.setGeometry(QRect(corner, size))
                left += size.width() + self._gap
            top += height + self._line_gap
        return max(0, top - self._line_gap - rect.y())

    def _lines(self, width: int) -> list[list[QLayoutItem]]:
        lines: list[list[QLayoutItem]] = []
        used = 0
        for item in self._items:
            widget = item.widget()
            if widget is not None and widget.isHidden():
                continue
            needed = min(item.sizeHint().width(), width)
            if not lines or used + needed > width:
                lines.append([])
                used = 0
            lines[-1].append(item)
            used += needed + self._gap
        return lines
