"""Editing a cell by choosing: one of several, or any of several."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QAbstractItemModel, QEvent, QObject, QRect, QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QComboBox, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from coachdesk.ui.models.rows_model import Index
from coachdesk.ui.widgets.fields import ManyChoicesField

Choices = Callable[[], Sequence[tuple[str, str]]]
"""Values and their words, asked for when editing begins."""

_TICKS_SIZE = QSize(260, 190)
_LINES = 6
_JOINT = ", "


class ChoiceDelegate(QStyledItemDelegate):
    """One of several; where it `is_open`, something else may be typed."""

    def __init__(
        self, choices: Choices, about: str, parent: QObject, *, is_open: bool = False
    ) -> None:
        super().__init__(parent)
        self._choices = choices
        self._about = about
        self._is_open = is_open

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        """A box with the choices."""
        del option, index
        box = QComboBox(parent)
        box.setAccessibleName(self._about)
        box.setEditable(self._is_open)
        for value, words in self._choices():
            box.addItem(words, value)
        box.activated.connect(lambda _: self._take(box))
        return box

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        """Begin with what the cell holds."""
        if isinstance(editor, QComboBox):
            held = index.data(Qt.ItemDataRole.EditRole)
            editor.setCurrentIndex(editor.findData(held))
            if self._is_open and editor.currentIndex() < 0:
                editor.setEditText(held)

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        """Take what was chosen."""
        if not isinstance(editor, QComboBox):
            return
        at = editor.findText(editor.currentText())
        if at >= 0:
            model.setData(index, editor.itemData(at))
        elif self._is_open:
            model.setData(index, editor.currentText())

    def _take(self, box: QComboBox) -> None:
        self.commitData.emit(box)
        self.closeEditor.emit(box)


class TicksDelegate(QStyledItemDelegate):
    """Any of several, ticked in a list over the cell: Space ticks, Enter takes, Escape leaves."""

    def __init__(self, choices: Choices, about: str, parent: QObject) -> None:
        super().__init__(parent)
        self._choices = choices
        self._about = about

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        """A list to tick."""
        del option, index
        ticks = ManyChoicesField(self._choices(), lines=_LINES)
        ticks.setParent(parent)
        ticks.setAutoFillBackground(True)
        ticks.list.setAccessibleName(self._about)
        ticks.list.installEventFilter(self)
        return ticks

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        """Begin with what the cell holds."""
        if isinstance(editor, ManyChoicesField):
            held = str(index.data(Qt.ItemDataRole.EditRole))
            editor.set_value("\n".join(part.strip() for part in held.split(",")))
            editor.list.setCurrentRow(0)

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        """Take what is ticked."""
        if isinstance(editor, ManyChoicesField):
            model.setData(index, _JOINT.join(part for part in editor.value().split("\n") if part))

    def updateEditorGeometry(
        self, editor: QWidget, option: QStyleOptionViewItem, index: Index
    ) -> None:
        """Over the cell, and within the table."""
        del index
        rect: QRect = option.rect
        over = editor.parentWidget()
        room = rect if over is None else over.rect()
        size = _TICKS_SIZE.boundedTo(room.size())
        left = max(0, min(rect.left(), room.right() - size.width()))
        top = max(0, min(rect.top(), room.bottom() - size.height()))
        editor.setGeometry(left, top, size.width(), size.height())

    def eventFilter(self, editor: QObject, event: QEvent) -> bool:
        """The list's own keys: Enter takes; Escape leaves all as it was."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            field = editor.parent()
            if isinstance(field, ManyChoicesField):
                if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab}:
                    self.commitData.emit(field)
                    self.closeEditor.emit(field)
                    return True
                if event.key() == Qt.Key.Key_Escape:
                    self.closeEditor.emit(field, QStyledItemDelegate.EndEditHint.RevertModelCache)
                    return True
        return False
