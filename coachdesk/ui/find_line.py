"""Looking for words on a page of text: how often they stand there, and the next place."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QColor, QKeyEvent, QTextCursor
from PySide6.QtWidgets import QHBoxLayout, QTextBrowser, QTextEdit, QWidget

from coachdesk.ui.plain import button, label
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.line import TypingLine
from coachdesk.wording.folding import folded
from coachdesk.wording.wording import Wording


class FindLine(QWidget):
    """A line over `page`: what is typed is marked throughout, Enter goes to the next place,
    Shift+Enter to the one before. Case and accents do not count."""

    def __init__(self, words: Wording, page: QTextBrowser) -> None:
        super().__init__()
        self._words = words
        self._page = page
        self._places: list[QTextCursor] = []
        self._at = -1
        self.line = TypingLine()
        self.line.setPlaceholderText(words("find.hint"))
        self.line.setAccessibleName(words("find.hint"))
        self.line.setClearButtonEnabled(True)
        self.said = label(role="quiet")
        self._next = button(words("find.next"), lambda: self._go(1))
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.line, 1)
        layout.addWidget(self._next)
        layout.addWidget(self.said, 1)
        self.setFocusProxy(self.line)
        self.line.textChanged.connect(self._look)
        self.line.installEventFilter(self)
        self._look("")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Enter goes on and does not leave the window."""
        if isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
                back = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
                self._go(-1 if back else 1)
                return True
            if event.key() == Qt.Key.Key_Escape and self.line.text():
                self.line.clear()
                return True
        return super().eventFilter(watched, event)

    def _look(self, typed: str) -> None:
        self._places = self._found(folded(typed.strip()))
        self._at = -1
        self._next.setEnabled(bool(self._places))
        if self._places:
            self._go(1)
        else:
            self._page.setExtraSelections([])
            self.said.setText(self._words("find.none") if typed.strip() else "")

    def _found(self, wanted: str) -> list[QTextCursor]:
        """Every place of the words, in order; letters that fold into several end a search early
        in their block, so each block is looked through letter by letter."""
        places = []
        block = self._page.document().begin()
        while wanted and block.isValid():
            letters = [folded(letter) or letter for letter in block.text()]
            line = "".join(letters)
            starts = [sum(map(len, letters[:at])) for at in range(len(letters) + 1)]
            at = line.find(wanted)
            while at >= 0:
                first = max(n for n, start in enumerate(starts) if start <= at)
                last = min(n for n, start in enumerate(starts) if start >= at + len(wanted))
                cursor = QTextCursor(block)
                cursor.setPosition(block.position() + first)
                cursor.setPosition(block.position() + last, QTextCursor.MoveMode.KeepAnchor)
                places.append(cursor)
                at = line.find(wanted, at + len(wanted))
            block = block.next()
        return places

    def _go(self, by: int) -> None:
        if not self._places:
            return
        self._at = (self._at + by) % len(self._places)
        self._page.setTextCursor(self._places[self._at])
        self._page.ensureCursorVisible()
        self._page.setExtraSelections([self._marked(place) for place in self._places])
        self.said.setText(self._words("find.place", at=self._at + 1, count=len(self._places)))

    def _marked(self, place: QTextCursor) -> QTextEdit.ExtraSelection:
        """What is found is marked by its ground and a line below it, not by colour alone."""
        marked = QTextEdit.ExtraSelection()
        marked.cursor = QTextCursor(place)
        dress = marked.format
        dress.setBackground(QColor(self._page.palette().highlight().color()))
        dress.setFontUnderline(True)
        return marked
