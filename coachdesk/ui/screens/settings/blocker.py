"""A dialog over the whole window while something runs that nothing else may come between."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QCloseEvent
from PySide6.QtWidgets import QDialog, QProgressBar, QVBoxLayout, QWidget

from coachdesk.ui.plain import label
from coachdesk.ui.theme import GAP, MARGIN


class Blocker(QDialog):
    """Stays until `end`; neither Escape nor the window's cross closes it."""

    def __init__(self, sentence: str, parent: QWidget) -> None:
        super().__init__(parent)
        self._has_ended = False
        self.setWindowModality(Qt.WindowModality.ApplicationModal)
        self.setWindowTitle(sentence)
        bar = QProgressBar()
        bar.setRange(0, 0)
        bar.setAccessibleName(sentence)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(label(sentence))
        layout.addWidget(bar)

    def end(self) -> None:
        """Let go of the window."""
        self._has_ended = True
        self.close()
        self.deleteLater()

    def reject(self) -> None:
        """Escape does nothing."""

    def closeEvent(self, event: QCloseEvent) -> None:
        """Close only once it has ended."""
        event.setAccepted(self._has_ended)
