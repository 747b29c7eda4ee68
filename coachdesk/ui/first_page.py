"""The page of a first start: what this is, and what to begin with."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QGridLayout, QPushButton, QVBoxLayout, QWidget

from coachdesk.ui.imports.asking import ask_for_file
from coachdesk.ui.plain import button, label, small, title
from coachdesk.ui.theme import GAP, WIDE_GAP
from coachdesk.wording.wording import Wording

_WIDE = 620


class FirstPage(QWidget):
    """Offers an empty desk, athletes from a list, a look round the invented club, or a data file
    there is already."""

    empty = Signal()
    athletes = Signal(object)
    club = Signal()
    file = Signal(object)

    def __init__(self, words: Wording) -> None:
        super().__init__()
        self._words = words
        self.choices = QGridLayout()
        self.choices.setHorizontalSpacing(WIDE_GAP)
        self.choices.setVerticalSpacing(WIDE_GAP)
        self.choices.setColumnStretch(1, 1)
        first = self._offer("empty", self.empty.emit, leading=True)
        self._offer("athletes", self._ask_for_athletes)
        self._offer("club", self.club.emit)
        self._offer("file", self._ask_for_file)
        inner = QWidget()
        inner.setMaximumWidth(_WIDE)
        layout = QVBoxLayout(inner)
        layout.setSpacing(GAP)
        layout.addStretch(1)
        layout.addWidget(title(words("first.title")))
        layout.addWidget(label(words("first.about"), wrap=True))
        layout.addSpacing(WIDE_GAP)
        layout.addLayout(self.choices)
        layout.addSpacing(WIDE_GAP)
        layout.addWidget(small(words("first.later")))
        layout.addStretch(2)
        outer = QGridLayout(self)
        outer.addWidget(inner, 0, 1)
        outer.setColumnStretch(0, 1)
        outer.setColumnStretch(1, 8)
        outer.setColumnStretch(2, 1)
        self.setFocusProxy(first)

    def _offer(
        self, name: str, then: Callable[[], object], *, leading: bool = False
    ) -> QPushButton:
        row = self.choices.rowCount()
        made = button(self._words(f"first.{name}"), then, leading=leading)
        made.setAutoDefault(True)
        made.setAccessibleDescription(self._words(f"first.{name}.about"))
        self.choices.addWidget(made, row, 0)
        self.choices.addWidget(
            label(self._words(f"first.{name}.about"), role="quiet", wrap=True), row, 1
        )
        return made

    def _ask_for_athletes(self) -> None:
        file = ask_for_file(self._words, "athletes.title", self)
        if file is not None:
            self.athletes.emit(file)

    def _ask_for_file(self) -> None:
        words = self._words
        name, _kind = QFileDialog.getOpenFileName(
            self, words("first.file"), "", words("closed.files") + " (*.db)"
        )
        if name:
            self.file.emit(Path(name))
