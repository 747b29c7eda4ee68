"""A name as a heading: cut with an ellipsis where the room ends, whole in its tip."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QLabel

from coachdesk.ui.plain import dress_heading, plain_tip
from coachdesk.ui.widgets.more_button import HEADING_DROP

_LEAST_WIDTH = 120
"""[px]"""


class NameHeading(QLabel):
    """A heading beside buttons that holds a name, however long."""

    def __init__(self) -> None:
        super().__init__()
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setContentsMargins(0, 0, 0, HEADING_DROP)
        dress_heading(self)

    def minimumSizeHint(self) -> QSize:
        """Room for the beginning of a name."""
        size = super().minimumSizeHint()
        return QSize(min(size.width(), _LEAST_WIDTH), size.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """What is cut stands in the tip."""
        super().resizeEvent(event)
        is_cut = event.size().width() < self.sizeHint().width()
        self.setToolTip(plain_tip(self.text()) if is_cut else "")

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw as much of the name as there is room for."""
        del event
        painter = QPainter(self)
        room = self.contentsRect()
        words = self.fontMetrics().elidedText(
            self.text(), Qt.TextElideMode.ElideRight, room.width()
        )
        painter.setPen(self.palette().windowText().color())
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)
        painter.end()
