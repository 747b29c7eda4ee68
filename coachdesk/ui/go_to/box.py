"""The box itself: a line to type in, and below it what is meant."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from coachdesk.ui.go_to.goals import Goal, meant, offered
from coachdesk.ui.plain import small
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.widgets.dialog_size import open_at
from coachdesk.ui.widgets.line import TypingLine
from coachdesk.wording.wording import Wording

_WIDE, _HIGH = 560, 420
_MOVES = {Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown}


class GoToBox(QDialog):
    """Type a few letters, Enter goes there; `chosen` is what was meant, None when left."""

    def __init__(self, words: Wording, goals: Sequence[Goal], parent: QWidget) -> None:
        super().__init__(parent)
        self._words = words
        self._goals = goals
        self._shown: tuple[Goal, ...] = ()
        self._is_known = False
        self.chosen: Goal | None = None
        self.setWindowTitle(words("goto.title"))
        self.line = TypingLine()
        self.line.setPlaceholderText(words("goto.hint"))
        self.line.setAccessibleName(words("goto.title"))
        self.line.setClearButtonEnabled(True)
        self.list = QListWidget()
        self.list.setAccessibleName(words("goto.found"))
        self.list.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.said = small()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        for each in (self.line, self.list, self.said):
            layout.addWidget(each)
        self.line.installEventFilter(self)
        self.line.textChanged.connect(self._look)
        self.line.returnPressed.connect(self._go)
        self.list.itemClicked.connect(lambda _: self._go())
        open_at(self, _WIDE, _HIGH)
        self._look("")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The keys that move in the list work while the line is typed in."""
        if isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            moves = event.key() in _MOVES
            if moves:
                self.list.keyPressEvent(event)
                self._describe()
            return moves
        return super().eventFilter(watched, event)

    def _look(self, typed: str) -> None:
        found = meant(self._goals, typed)
        self._is_known = bool(found)
        self._shown = found or offered(self._goals, typed)
        self.list.clear()
        for goal in self._shown:
            words = self._words("goto.line", what=goal.words, kind=goal.kind)
            if goal.keys:
                words = self._words("goto.line.keys", line=words, keys=goal.keys)
            self.list.addItem(QListWidgetItem(words))
        if self._shown:
            self.list.setCurrentRow(0)
        self._describe()

    def _describe(self) -> None:
        """What Enter would do; also for who does not see the list."""
        at = self.list.currentRow()
        said = [] if self._is_known else [self._words("goto.nothing", typed=self.line.text())]
        if at >= 0:
            said.append(self._words("goto.enter", what=self._shown[at].words))
        self._say(" ".join(said))

    def _say(self, said: str) -> None:
        self.said.setText(said)
        self.line.setAccessibleDescription(said)

    def _go(self) -> None:
        at = self.list.currentRow()
        if at >= 0:
            self.chosen = self._shown[at]
            self.accept()
