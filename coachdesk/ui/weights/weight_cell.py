"""The cell a weight is typed into: Enter and the arrows lead from row to row."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QAbstractItemModel, QEvent, QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit, QStyledItemDelegate, QStyleOptionViewItem, QWidget
from shiboken6 import isValid

from coachdesk.ui.models.rows_model import KEY_ROLE, Index
from coachdesk.ui.widgets.line import TypingLine

_STEPS = {Qt.Key.Key_Return: 1, Qt.Key.Key_Enter: 1, Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}


class WeightCell(QStyledItemDelegate):
    """Edits weights. `name_of` gives a cell's name for a screen reader by its row's key."""

    stepped = Signal(int)
    """Go on to the row below (1) or above (-1)."""
    pasted = Signal()
    """Several cells are on the clipboard and were pasted into one."""

    def __init__(self, name_of: Callable[[int], str], parent: QObject) -> None:
        super().__init__(parent)
        self._name_of = name_of
        self._open: QLineEdit | None = None
        self.closeEditor.connect(self._forget)

    def finish(self) -> None:
        """Take what stands in the cell being edited."""
        if self._open is not None and isValid(self._open) and self._open.isVisible():
            self._close(self._open)

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        """A line to type in."""
        del option
        line = TypingLine(parent)
        line.setAccessibleName(self._name_of(index.data(KEY_ROLE)))
        self._open = line
        return line

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        """Begin with what was typed before."""
        if isinstance(editor, QLineEdit):
            editor.setText(str(index.data(Qt.ItemDataRole.EditRole)))
            editor.selectAll()

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        """Hand on what is typed."""
        if isinstance(editor, QLineEdit):
            model.setData(index, editor.text())

    def eventFilter(self, editor: QObject, event: QEvent) -> bool:
        """Keys that lead to another row, and pasting of more than one cell."""
        if (
            isinstance(editor, QLineEdit)
            and isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.KeyPress
        ):
            if event.matches(QKeySequence.StandardKey.Paste) and _is_many():
                self._close(editor)
                self.pasted.emit()
                return True
            step = _STEPS.get(Qt.Key(event.key()))
            plain = not event.modifiers() & Qt.KeyboardModifier.ControlModifier
            if step is not None and plain:
                self._close(editor)
                self.stepped.emit(step)
                return True
        return super().eventFilter(editor, event)

    def _close(self, editor: QLineEdit) -> None:
        self.commitData.emit(editor)
        self.closeEditor.emit(editor, QStyledItemDelegate.EndEditHint.NoHint)

    def _forget(self) -> None:
        self._open = None


def _is_many() -> bool:
    words = QGuiApplication.clipboard().text().strip()
    return "\t" in words or "\n" in words
