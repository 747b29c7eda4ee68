"""The page shown when no data file could be opened: why, and what to do next."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from coachdesk.ui.plain import button, heading, label
from coachdesk.ui.theme import GAP
from coachdesk.wording.wording import Wording


class ClosedPage(QWidget):
    """Says why, and offers to try again, the usual file, or another."""

    chosen = Signal(object)

    def __init__(self, words: Wording, sentence: str) -> None:
        super().__init__()
        self._words = words
        self.sentence = sentence
        layout = QVBoxLayout(self)
        layout.setSpacing(GAP)
        layout.addStretch(1)
        layout.addWidget(heading(words("closed.title")))
        layout.addWidget(label(sentence, wrap=True))
        layout.addWidget(label(words("closed.next"), role="quiet", wrap=True))
        row = QHBoxLayout()
        another = button(words("closed.another"), self._ask_for_file, leading=True)
        row.addWidget(another)
        row.addWidget(button(words("closed.usual"), lambda: self.chosen.emit(None)))
        row.addStretch(1)
        layout.addLayout(row)
        layout.addStretch(2)
        self.setFocusProxy(another)

    def _ask_for_file(self) -> None:
        words = self._words
        name, _kind = QFileDialog.getOpenFileName(
            self, words("closed.another"), "", words("closed.files") + " (*.db)"
        )
        if name:
            self.chosen.emit(Path(name))
