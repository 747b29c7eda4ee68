"""Lines to type in that leave undo to the desk once there is no typing of their own to undo."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit

_KEYS = QKeySequence.StandardKey


class TypingLine(QLineEdit):
    """A line."""

    def event(self, event: QEvent) -> bool:
        """Undo takes back typing first, then what the desk did last."""
        if _is(event, _KEYS.Undo) and not self.isUndoAvailable():
            event.ignore()
            return False
        if _is(event, _KEYS.Redo) and not self.isRedoAvailable():
            event.ignore()
            return False
        return super().event(event)


class SearchLine(TypingLine):
    """Enter or the arrow down leads on to the list; Escape looks for everybody again."""

    went_on = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys that are not text."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Down}:
            self.went_on.emit()
        elif event.key() == Qt.Key.Key_Escape and self.text():
            self.clear()
        else:
            super().keyPressEvent(event)


class TypingLines(QPlainTextEdit):
    """Several lines."""

    def event(self, event: QEvent) -> bool:
        """Undo takes back typing first, then what the desk did last."""
        document = self.document()
        if _is(event, _KEYS.Undo) and not document.isUndoAvailable():
            event.ignore()
            return False
        if _is(event, _KEYS.Redo) and not document.isRedoAvailable():
            event.ignore()
            return False
        return super().event(event)


def _is(event: QEvent, key: QKeySequence.StandardKey) -> bool:
    """Whether a field is asked if it wants this key, or is given it."""
    kinds = {QEvent.Type.ShortcutOverride, QEvent.Type.KeyPress}
    return event.type() in kinds and isinstance(event, QKeyEvent) and event.matches(key)
