"""The standard table: sorted, searched, copied to and pasted from a spreadsheet, by keyboard."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from typing import Any, Generic, TypeVar

from PySide6.QtCore import QModelIndex, QSortFilterProxyModel, Qt, Signal
from PySide6.QtGui import (
    QGuiApplication,
    QHideEvent,
)
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QVBoxLayout, QWidget

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import KEY_ROLE, SORT_ROLE, Column, Index, RowsModel
from coachdesk.ui.plain import label
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.copied import one_line
from coachdesk.ui.widgets.rows_view import FILLING, RowsView
from coachdesk.ui.widgets.wrapped_rows import WrappedRows
from coachdesk.wording.folding import folded

R = TypeVar("R")


class Table(QWidget, Generic[R]):
    """Rows in columns, with a line below for what a cell could not take.

    `name` is what its column widths are remembered under; `about` its name for a screen reader;
    `empty` what it says when there is no row. `key` tells rows apart. The column that `fills` takes
    the room the others leave; what does not fit there is cut, or goes on below where a short table
    `wraps`. Without it the last one does, unless it holds numbers, which would stand far off.
    """

    opened = Signal(object)
    """Enter or a double click on a row: its key."""
    moved = Signal()
    """Another row is the current one."""
    delete_asked = Signal()
    """Delete was pressed on a row."""
    pasted = Signal(object)
    """Rows of cells were pasted: a list of lists of strings. Sent only where `takes_paste`."""

    def __init__(
        self,
        context: Context,
        name: str,
        columns: Sequence[Column[R]],
        key: Callable[[R], Hashable],
        *,
        about: str,
        empty: str = "",
        several: bool = False,
        takes_paste: bool = False,
        sortable: bool = True,
        fills: str = "",
        wraps: bool = False,
    ) -> None:
        super().__init__()
        self._name = name
        self._remembered = context.remembered
        self._takes_paste = takes_paste
        self._last_stretches = not columns[-1].to_right
        self.model: RowsModel[R] = RowsModel(
            columns,
            key,
            context.theme,
            lambda error: context.words.say(error.text),
            lambda task, refuse: context.runner.now(task, invalid=refuse),
        )
        self._proxy = _Found(self)
        self._proxy.setSourceModel(self.model)
        self._proxy.setSortRole(SORT_ROLE)
        self.view = RowsView(empty)
        self.view.setModel(self._proxy)
        self.view.setAccessibleName(about)
        self.setFocusProxy(self.view)
        self._sentence = label(role="bad", wrap=True)
        self._sentence.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        layout.addWidget(self.view, 1)
        layout.addWidget(self._sentence)
        self._set_up(several=several, sortable=sortable)
        self._restore_columns()
        for at, column in enumerate(columns):
            if column.key == fills:
                self.view.horizontalHeader().setSectionResizeMode(at, FILLING)
                self.view.horizontalHeader().setStretchLastSection(False)
        if wraps:
            self.view.setWordWrap(True)
            self.view.setItemDelegate(WrappedRows(self.view))
            contents = QHeaderView.ResizeMode.ResizeToContents
            self.view.verticalHeader().setSectionResizeMode(contents)

    def _set_up(self, *, several: bool, sortable: bool) -> None:
        mode = QAbstractItemView.SelectionMode
        self.view.setSelectionMode(mode.ExtendedSelection if several else mode.SingleSelection)
        self.view.setSortingEnabled(sortable)
        if sortable:
            self.view.sortByColumn(-1, Qt.SortOrder.AscendingOrder)
        self.view.doubleClicked.connect(self._open_at)
        self.view.opened.connect(lambda: self._open_at(self.view.currentIndex()))
        self.view.copied.connect(self.copy)
        self.view.paste_asked.connect(self.paste)
        self.view.delete_asked.connect(self.delete_asked)
        chosen = self.view.selectionModel()
        chosen.currentRowChanged.connect(lambda *_: self.moved.emit())
        chosen.selectionChanged.connect(lambda *_: self.view.viewport().update())
        self.model.refused.connect(self._show_sentence)

    @property
    def sentence(self) -> str:
        """Why the last cell could not take what was typed; empty when all is well."""
        return self._sentence.text()

    @property
    def rows(self) -> tuple[R, ...]:
        """All rows."""
        return self.model.rows

    def set_rows(self, rows: Sequence[R]) -> None:
        """Show these rows; the current row, the selection and the column stay where they can."""
        current, column = self.current_key(), max(self.view.currentIndex().column(), 0)
        chosen = {self.model.key_of(row) for row in self.selected_rows()}
        place = self.view.verticalScrollBar().value()
        self.model.set_rows(rows)
        self.select(current, column)
        if len(chosen) > 1:
            self._select_many(chosen)
        self.view.verticalScrollBar().setValue(place)

    def say_empty(self, words: str) -> None:
        """What to say from now on where there is no row."""
        self.view.empty = words
        self.view.viewport().update()

    def set_head(self, key: str, head: str) -> None:
        """Give a column another head, such as one with another unit."""
        self.model.set_head(key, head)

    def show_at_least(self, count: int) -> None:
        """Be high enough for `count` rows."""
        self.view.setMinimumHeight(self._height_of(count))

    def show_at_once(self, count: int) -> None:
        """Be high enough for `count` rows at least, and no higher than all rows need."""
        self.show_at_least(count)
        self.view.setMaximumHeight(self._height_of(max(count, len(self.rows))))

    def fit_columns(self) -> None:
        """Make each column as wide as its words, and the last one that is seen take what is left:
        of a column just shown the header keeps the width from before."""
        header = self.view.horizontalHeader()
        header.setStretchLastSection(False)
        self.view.resizeColumnsToContents()
        header.setStretchLastSection(self._last_stretches)

    def needed_width(self) -> int:
        """The width [px] at which no column as wide as it is by now lies under the scroll bar; the
        last one as its words need it, since it takes what is left."""
        view, last = self.view, len(self.model.columns) - 1
        while view.isColumnHidden(last):
            last -= 1
        before = sum(view.columnWidth(at) for at in range(last))
        ends = max(view.sizeHintForColumn(last), view.horizontalHeader().sectionSizeHint(last))
        return before + ends + view.verticalScrollBar().sizeHint().width() + 2 * view.frameWidth()

    def set_filter(self, typed: str) -> None:
        """Show only the rows that hold all words typed, accents and case aside."""
        self._proxy.look_for(typed)
        if not self.view.currentIndex().isValid() and self._proxy.rowCount():
            self.view.selectRow(0)

    def shown_rows(self) -> tuple[R, ...]:
        """The rows as they are shown: those found, in the order they stand."""
        return tuple(self._row_at(self._proxy.index(at, 0)) for at in range(self._proxy.rowCount()))

    def current_row(self) -> R | None:
        """The row the focus is on."""
        index = self.view.currentIndex()
        return self._row_at(index) if index.isValid() else None

    def current_key(self) -> Hashable | None:
        """The key of the row the focus is on."""
        row = self.current_row()
        return None if row is None else self.model.key_of(row)

    def selected_rows(self) -> tuple[R, ...]:
        """The rows chosen, in the order they stand."""
        indexes = self.view.selectionModel().selectedRows()
        return tuple(self._row_at(index) for index in sorted(indexes, key=QModelIndex.row))

    def select(self, key: Hashable | None, column: int = 0) -> None:
        """Make the row with `key` the current one, where it is shown."""
        for at in range(self._proxy.rowCount()):
            index = self._proxy.index(at, column)
            if index.data(KEY_ROLE) == key:
                self.view.setCurrentIndex(index)
                return

    def copy(self) -> None:
        """Put the chosen rows on the clipboard, tab-separated under their heads."""
        columns = self.model.columns
        lines = ["\t".join(column.head for column in columns)]
        lines += ["\t".join(column.show(row) for column in columns) for row in self.selected_rows()]
        QGuiApplication.clipboard().setText("\n".join(one_line(line) for line in lines))

    def paste(self) -> None:
        """Hand on the rows on the clipboard."""
        words = QGuiApplication.clipboard().text()
        if self._takes_paste and words.strip():
            self.pasted.emit([line.split("\t") for line in words.splitlines() if line.strip()])

    def remember_columns(self) -> None:
        """Keep the widths and the order for the next time, once there were rows to fit them to."""
        if not self.view.widths_are_set:
            return
        self._remembered.setValue(f"columns/{self._name}", self.view.horizontalHeader().saveState())

    def hideEvent(self, event: QHideEvent) -> None:
        """Leaving the table keeps its columns."""
        self.remember_columns()
        super().hideEvent(event)

    def _height_of(self, count: int) -> int:
        view = self.view
        row = view.verticalHeader().defaultSectionSize()
        around = view.horizontalHeader().sizeHint().height() + 2 * view.frameWidth() + _AROUND_ROWS
        return around + max(1, count) * row

    def _restore_columns(self) -> None:
        header = self.view.horizontalHeader()
        header.setHighlightSections(False)
        state = self._remembered.value(f"columns/{self._name}")
        self.view.widths_are_set = bool(state) and header.restoreState(state)
        header.setStretchLastSection(self._last_stretches)

    def _select_many(self, keys: set[Hashable]) -> None:
        selection = self.view.selectionModel()
        flag = selection.SelectionFlag
        for at in range(self._proxy.rowCount()):
            index = self._proxy.index(at, 0)
            if index.data(KEY_ROLE) in keys:
                selection.select(index, flag.Select | flag.Rows)

    def _row_at(self, index: QModelIndex) -> R:
        return self.model.rows[self._proxy.mapToSource(index).row()]

    def _open_at(self, index: QModelIndex) -> None:
        if index.isValid() and not index.flags() & Qt.ItemFlag.ItemIsEditable:
            self.opened.emit(index.data(KEY_ROLE))

    def _show_sentence(self, sentence: str) -> None:
        self._sentence.setText(sentence)
        self._sentence.setVisible(bool(sentence))


_AROUND_ROWS = 14
"""Room for a scroll bar below the rows [px]."""


class _Found(QSortFilterProxyModel):
    """The rows that hold all words looked for."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._words: tuple[str, ...] = ()

    def look_for(self, typed: str) -> None:
        """Show the rows with these words only."""
        self.beginFilterChange()
        self._words = tuple(folded(typed).split())
        self.endFilterChange()

    def filterAcceptsRow(self, row: int, parent: Index) -> bool:
        """Whether a row holds all words."""
        del parent
        if not self._words:
            return True
        model: Any = self.sourceModel()
        shown = folded(" ".join(column.show(model.rows[row]) for column in model.columns))
        return all(word in shown for word in self._words)

    def lessThan(self, left: Index, right: Index) -> bool:
        """By the native values; what has no value comes last when rising."""
        model: Any = self.sourceModel()
        first = model.sort_value(left.row(), left.column())
        second = model.sort_value(right.row(), right.column())
        if first is None or second is None:
            return first is not None
        return bool(first < second)
