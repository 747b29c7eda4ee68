"""The grid on screen: worked by keyboard alone, copied to and pasted from a spreadsheet."""

from __future__ import annotations

import csv
import io

from PySide6.QtCore import QAbstractItemModel, QEvent, QModelIndex, QObject, QSize, Qt, Signal
from PySide6.QtGui import (
    QGuiApplication,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QLineEdit,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from coachdesk.ui.models.rows_model import Index
from coachdesk.ui.screens.blocks.grid_model import GridModel
from coachdesk.ui.screens.blocks.grid_rows import CellKey
from coachdesk.ui.theme import MARGIN
from coachdesk.wording.wording import Wording

_COLUMN_PX = 132
_LEAST_COLUMN_PX = 110
_FRAME_PX = 8
_MOVES = {
    Qt.Key.Key_Return: (1, 0),
    Qt.Key.Key_Enter: (1, 0),
}
"""Rows and columns a key moves on by."""
_MOVES_WHILE_TYPING = {
    **_MOVES,
    Qt.Key.Key_Tab: (0, 1),
    Qt.Key.Key_Backtab: (0, -1),
}
"""The same for what is being typed; else Tab leads out of the grid."""


class GridView(QTableView):
    """Typing begins a cell anew, F2 changes it; Enter goes down; Delete empties. Tab keeps what is
    being typed and goes right; with nothing being typed it leads out of the grid."""

    left = Signal()
    """Escape was pressed where there was nothing to let go of."""
    moved = Signal()
    """Another cell is the current one."""
    refused = Signal(str)
    """Why something pasted or filled cannot be done."""
    rested = Signal()
    """A cell is not typed into any more."""

    def __init__(self, model: GridModel, words: Wording, empty: str) -> None:
        super().__init__()
        self._words = words
        self._empty = empty
        self._grid = model
        self._delegate = _Delegate(self)
        self.setModel(model)
        self.setItemDelegate(self._delegate)
        self._delegate.moved.connect(self._go_on)
        self.setAccessibleName(words("blocks.grid"))
        self.setAccessibleDescription(words("blocks.grid.keys"))
        self.setSelectionMode(QAbstractItemView.SelectionMode.ContiguousSelection)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.AnyKeyPressed
        )
        self.setWordWrap(True)
        self.setTabKeyNavigation(False)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerItem)
        header = self.horizontalHeader()
        header.setDefaultSectionSize(_COLUMN_PX)
        header.setMinimumSectionSize(_LEAST_COLUMN_PX)
        header.setHighlightSections(False)
        side = self.verticalHeader()
        side.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        side.setHighlightSections(False)
        side.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        self.selectionModel().currentChanged.connect(lambda *_: self.moved.emit())

    def current_key(self) -> CellKey | None:
        """The exercise and the week the grid stands on."""
        cell = self._grid.cell(self.currentIndex())
        return None if cell is None else cell.key

    @property
    def is_typing(self) -> bool:
        """Whether a cell is being typed into."""
        return self.state() is QAbstractItemView.State.EditingState

    def go_to(self, key: CellKey) -> None:
        """Stand on a cell."""
        grid = self._grid.grid
        for at, row in enumerate(() if grid is None else grid.rows):
            if row.exercise_id == key[0] and 1 <= key[1] <= len(row.cells):
                self.setCurrentIndex(self._grid.index(at, key[1] - 1))
                return

    def fit(self) -> None:
        """Make rows and columns as large as their words."""
        self.resizeColumnsToContents()
        self.resizeRowsToContents()

    def copy(self) -> None:
        """Put the chosen cells on the clipboard, as a spreadsheet takes them."""
        lines = [[self._grid.typed(each) for each in row] for row in self._chosen()]
        QGuiApplication.clipboard().setText("".join("\t".join(line) + "\n" for line in lines))

    def paste(self) -> None:
        """Put the cells on the clipboard in from the current cell on; all or none."""
        rows = _cells(QGuiApplication.clipboard().text())
        chosen = self._chosen()
        if not rows or not chosen:
            return
        if len(rows) == 1 and len(rows[0]) == 1:
            self._type({each: rows[0][0] for row in chosen for each in row})
            return
        first = chosen[0][0]
        wide = max(len(row) for row in rows)
        fits = (
            first.row() + len(rows) <= self._grid.rowCount()
            and first.column() + wide <= self._grid.columnCount()
        )
        if not fits:
            size = {"rows": len(rows), "columns": wide}
            self.refused.emit(self._words("blocks.paste.too_large", **size))
            return
        self._type(
            {
                self._grid.index(first.row() + down, first.column() + across): words
                for down, row in enumerate(rows)
                for across, words in enumerate(row)
            }
        )

    def fill_right(self) -> None:
        """Repeat the first column chosen in the others; of one column, the one before it."""
        chosen = self._chosen()
        if chosen and len(chosen[0]) == 1:
            if not chosen[0][0].column():
                return
            chosen = [[self._beside(row[0], 0, -1), *row] for row in chosen]
        self._type({each: self._grid.typed(row[0]) for row in chosen for each in row[1:]})

    def fill_down(self) -> None:
        """Repeat the first row chosen in the others; of one row, the one above it."""
        chosen = self._chosen()
        if len(chosen) == 1:
            if not chosen[0][0].row():
                return
            chosen = [[self._beside(each, -1, 0) for each in chosen[0]], *chosen]
        self._type(
            {
                each: self._grid.typed(above)
                for row in chosen[1:]
                for above, each in zip(chosen[0], row, strict=True)
            }
        )

    def empty_chosen(self) -> None:
        """Empty the chosen cells."""
        self._type({each: "" for row in self._chosen() for each in row})

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys that are not text."""
        key = Qt.Key(event.key())
        if self.is_typing:
            super().keyPressEvent(event)
        elif event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
        elif key in {Qt.Key.Key_Delete, Qt.Key.Key_Backspace}:
            self.empty_chosen()
        elif key == Qt.Key.Key_Escape:
            if not self._grid.let_go(self.currentIndex()):
                self.left.emit()
        elif key in _MOVES and not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self._move(*_turned(event))
        else:
            super().keyPressEvent(event)

    def closeEditor(self, editor: QWidget, hint: QStyledItemDelegate.EndEditHint) -> None:
        """The line closes, whether what was typed is kept or not."""
        super().closeEditor(editor, hint)
        self.rested.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The current cell stays in sight."""
        super().resizeEvent(event)
        self.scrollTo(self.currentIndex())

    def updateGeometries(self) -> None:
        """The first week seen is seen whole: Qt keeps its place from when it was the last one."""
        super().updateGeometries()
        bar = self.horizontalScrollBar()
        if bar.value() < bar.maximum():
            self.horizontalHeader().setOffsetToSectionPosition(bar.value())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Where there is no exercise, say what to do next."""
        super().paintEvent(event)
        if self._grid.rowCount():
            return
        painter = QPainter(self.viewport())
        painter.setPen(self.palette().placeholderText().color())
        room = self.viewport().rect().adjusted(MARGIN, MARGIN, -MARGIN, -MARGIN)
        flags = Qt.AlignmentFlag.AlignHCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(room, flags, self._empty)
        painter.end()

    def _go_on(self, down: int, across: int) -> None:
        """Go on from what was typed; where it cannot be taken, stay and let it be mended."""
        if not self._grid.sentence(self.currentIndex()):
            self._move(down, across)

    def _move(self, down: int, across: int) -> None:
        """Go on; at the grid's ends there is nowhere to go."""
        following = self._after(down, across)
        if following is not None:
            self.setCurrentIndex(following)

    def _after(self, down: int, across: int) -> QModelIndex | None:
        """The cell a step away; sideways past the edge it is in the next row or the one before."""
        index, rows, columns = self.currentIndex(), self._grid.rowCount(), self._grid.columnCount()
        if not index.isValid():
            return None
        row, column = index.row() + down, index.column() + across
        if not 0 <= column < columns:
            row, column = row + (1 if column >= columns else -1), column % columns
        return self._grid.index(row, column) if 0 <= row < rows else None

    def _chosen(self) -> list[list[QModelIndex]]:
        """The chosen cells, row by row; they are a rectangle."""
        rows: dict[int, list[QModelIndex]] = {}
        for index in sorted(self.selectedIndexes(), key=lambda at: (at.row(), at.column())):
            rows.setdefault(index.row(), []).append(index)
        return list(rows.values())

    def _beside(self, index: QModelIndex, down: int, across: int) -> QModelIndex:
        return self._grid.index(index.row() + down, index.column() + across)

    def _type(self, typed: dict[QModelIndex, str]) -> None:
        cells = {index: self._grid.cell(index) for index in typed}
        wanted = {
            cell.key: _joined(words)
            for index, words in typed.items()
            if (cell := cells[index]) is not None
        }
        if wanted:
            self._grid.type_cells(wanted)


def _turned(event: QKeyEvent) -> tuple[int, int]:
    """Rows and columns to move on by; Shift turns the way around."""
    down, across = _MOVES_WHILE_TYPING[Qt.Key(event.key())]
    back = down and event.modifiers() & Qt.KeyboardModifier.ShiftModifier
    return (-down if back else down), across


def _cells(words: str) -> list[list[str]]:
    """What a spreadsheet put on the clipboard; a line without anything is one empty cell."""
    rows = csv.reader(io.StringIO(words, newline=""), delimiter="\t")
    return [row or [""] for row in rows]


def _joined(words: str) -> str:
    """Sets on lines of their own as they stand in one line."""
    return "; ".join(line.strip() for line in words.splitlines() if line.strip())


class _Delegate(QStyledItemDelegate):
    """The line a cell is typed into; Enter and Tab keep it and move on."""

    moved = Signal(int, int)

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        """A plain line with a name."""
        del option
        line = QLineEdit(parent)
        model: QAbstractItemModel = index.model()
        line.setAccessibleName(
            str(
                model.headerData(
                    index.row(), Qt.Orientation.Vertical, Qt.ItemDataRole.AccessibleTextRole
                )
            )
        )
        return line

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """Room for the frame of the cell that has the focus."""
        return super().sizeHint(option, index) + QSize(_FRAME_PX, _FRAME_PX)

    def updateEditorGeometry(
        self, editor: QWidget, option: QStyleOptionViewItem, index: Index
    ) -> None:
        """Wide enough for what is typed, over the cells beside it if need be."""
        del index
        rect = option.rect
        rect.setHeight(max(rect.height(), editor.sizeHint().height()))
        editor.setGeometry(rect)

    def eventFilter(self, editor: QObject, event: QEvent) -> bool:
        """Keys that end typing."""
        if (
            isinstance(event, QKeyEvent)
            and event.type() is QEvent.Type.KeyPress
            and isinstance(editor, QWidget)
            and Qt.Key(event.key()) in _MOVES_WHILE_TYPING
        ):
            self.commitData.emit(editor)
            self.closeEditor.emit(editor, QStyledItemDelegate.EndEditHint.NoHint)
            self.moved.emit(*_turned(event))
            return True
        return super().eventFilter(editor, event)
