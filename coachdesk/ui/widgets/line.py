"""Lines to type in that leave undo to the desk once there is no typing of their own to undo."""

from __future__ import annotations

from PySide6.QtCore import QEvent
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
