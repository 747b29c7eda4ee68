"""A button for each kind of disc: put a pair on, or take one off, by mouse or key."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from coachdesk.domain.loading import Disc
from coachdesk.ui.plain import button
from coachdesk.ui.screens.bar.presenter import BarPresenter
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.flow import FlowLayout
from coachdesk.wording.wording import Wording

_OFF_KEYS = {Qt.Key.Key_Minus, Qt.Key.Key_Delete, Qt.Key.Key_Backspace}


class DiscButtons(QWidget):
    """The discs of a set. Plus or Enter on one puts a disc on each side, minus takes one off."""

    put = Signal(object)
    taken = Signal(object)

    def __init__(self, words: Wording) -> None:
        super().__init__()
        self._words = words
        self._pairs: dict[Disc, _DiscPair] = {}
        self._flow = FlowLayout(self, gap=GAP, line_gap=GAP // 2)

    def show_set(self, presenter: BarPresenter) -> None:
        """Offer the discs of the set that is chosen."""
        for pair in self._pairs.values():
            self._flow.removeWidget(pair)
            pair.hide()
            pair.deleteLater()
        self._pairs = {}
        for disc in presenter.chosen.bar_set.discs:
            pair = _DiscPair(self._words, presenter.disc(disc), presenter.disc_named(disc))
            pair.put.connect(lambda disc=disc: self.put.emit(disc))
            pair.taken.connect(lambda disc=disc: self.taken.emit(disc))
            self._flow.addWidget(pair)
            self._pairs[disc] = pair

    def show_discs(self, discs: Sequence[Disc]) -> None:
        """Say how many of each are on a side."""
        for kind, pair in self._pairs.items():
            pair.show_count(sum(disc.weight == kind.weight for disc in discs))

    def plus(self, at: int) -> QPushButton:
        """The button that puts a disc of a kind on, kinds in the set's order."""
        return list(self._pairs.values())[at].plus


class _DiscPair(QWidget):
    put = Signal()
    taken = Signal()

    def __init__(self, words: Wording, number: str, named: str) -> None:
        super().__init__()
        self._words = words
        self._named = named
        self.plus = button(words("bar.put", disc=number), self.put.emit)
        self.minus = button(words("bar.take"), self.taken.emit)
        self.minus.setAccessibleName(words("bar.take.of", disc=named))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        layout.addWidget(self.plus)
        layout.addWidget(self.minus)
        self.show_count(0)

    def show_count(self, count: int) -> None:
        """How many of this kind are on a side."""
        self.minus.setEnabled(count > 0)
        self.plus.setAccessibleName(self._words("bar.put.of", disc=self._named, count=count))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Plus and Enter put one on, minus takes one off."""
        if event.key() in _OFF_KEYS and self.minus.isEnabled():
            self.taken.emit()
        elif event.key() in {Qt.Key.Key_Plus, Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.put.emit()
        else:
            super().keyPressEvent(event)
