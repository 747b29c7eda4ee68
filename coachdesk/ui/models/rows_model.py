"""A table of frozen rows. No query, no saving of its own, no dialogs."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, replace
from typing import Any, Generic, TypeVar

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QBrush, QColor

from coachdesk.domain.errors import InvalidInput
from coachdesk.ui.plain import plain_tip
from coachdesk.ui.theme import Theme
from coachdesk.wording.folding import folded

R = TypeVar("R")
Index = QModelIndex | QPersistentModelIndex

SORT_ROLE = Qt.ItemDataRole.UserRole + 1
KEY_ROLE = Qt.ItemDataRole.UserRole + 2


@dataclass(frozen=True, slots=True)
class Column(Generic[R]):
    """One column: its head in words, what it shows of a row, and what it sorts by.

    `edit` takes what was typed into a cell and saves it; it raises InvalidInput when that cannot
    be taken, and the cell keeps what was typed with the sentence. `typed` is what editing begins
    with, where that differs from what is shown. `role` is a colour role of the theme.
    """

    key: str
    head: str
    show: Callable[[R], str]
    sort: Callable[[R], Any] | None = None
    to_right: bool = False
    tip: Callable[[R], str] | None = None
    edit: Callable[[R, str], object] | None = None
    typed: Callable[[R], str] | None = None
    role: Callable[[R], str] | None = None


class RowsModel(QAbstractTableModel, Generic[R]):
    """Shows rows through columns."""

    refused = Signal(str)
    """A cell could not take what was typed: the sentence; empty once all is well again."""

    def __init__(
        self,
        columns: Sequence[Column[R]],
        key: Callable[[R], Hashable],
        theme: Theme,
        say: Callable[[InvalidInput], str],
        save: Callable[[Callable[[], object], Callable[[InvalidInput], object]], bool],
    ) -> None:
        super().__init__()
        self._columns = tuple(columns)
        self._key = key
        self._theme = theme
        self._say = say
        self._save = save
        self._rows: tuple[R, ...] = ()
        self._drafts: dict[tuple[Hashable, str], tuple[str, str]] = {}
        self._sort_values: dict[int, list[Any]] = {}

    @property
    def columns(self) -> tuple[Column[R], ...]:
        """The columns."""
        return self._columns

    @property
    def rows(self) -> tuple[R, ...]:
        """The rows, in the order they were given."""
        return self._rows

    @property
    def has_drafts(self) -> bool:
        """Whether a cell holds something typed that could not be taken."""
        return bool(self._drafts)

    def set_rows(self, rows: Sequence[R]) -> None:
        """Show these rows; what is typed in a cell and could not be taken stays there."""
        self.beginResetModel()
        self._rows = tuple(rows)
        self._sort_values.clear()
        keys = {self._key(row) for row in self._rows}
        self._drafts = {at: draft for at, draft in self._drafts.items() if at[0] in keys}
        self.endResetModel()

    def set_head(self, key: str, head: str) -> None:
        """Give a column another head."""
        for at, column in enumerate(self._columns):
            if column.key == key and column.head != head:
                changed = replace(column, head=head)
                self._columns = (*self._columns[:at], changed, *self._columns[at + 1 :])
                self.headerDataChanged.emit(Qt.Orientation.Horizontal, at, at)

    def forget_drafts(self) -> None:
        """Let go of what was typed and could not be taken."""
        self.beginResetModel()
        self._drafts.clear()
        self.endResetModel()
        self.refused.emit("")

    def key_of(self, row: R) -> Hashable:
        """What tells a row apart."""
        return self._key(row)

    def sort_value(self, row: int, column: int) -> Any:
        """What a cell sorts by, words without accents and case; made once a column for all rows."""
        if column not in self._sort_values:
            by = self._columns[column].sort or self._columns[column].show
            self._sort_values[column] = [_sortable(by(each)) for each in self._rows]
        return self._sort_values[column][row]

    def rowCount(self, parent: Index | None = None) -> int:
        """How many rows."""
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index | None = None) -> int:
        """How many columns."""
        return 0 if parent is not None and parent.isValid() else len(self._columns)

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        """The heads."""
        if orientation is not Qt.Orientation.Horizontal or not 0 <= section < len(self._columns):
            return None
        column = self._columns[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.head
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _alignment(column)
        return None

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What a cell shows."""
        if role not in _ANSWERED or not index.isValid() or not 0 <= index.row() < len(self._rows):
            return None
        row, column = self._rows[index.row()], self._columns[index.column()]
        typed, sentence = self._drafts.get((self._key(row), column.key), (None, ""))
        found: Any = None
        match role:
            case Qt.ItemDataRole.DisplayRole:
                found = column.show(row) if typed is None else typed
            case Qt.ItemDataRole.EditRole:
                found = (column.typed or column.show)(row) if typed is None else typed
            case Qt.ItemDataRole.ToolTipRole:
                found = plain_tip(sentence or _tip(column, row))
            case Qt.ItemDataRole.AccessibleDescriptionRole:
                found = sentence or _tip(column, row)
            case Qt.ItemDataRole.TextAlignmentRole:
                found = _alignment(column)
            case Qt.ItemDataRole.ForegroundRole:
                found = self._brush("bad" if sentence else _role(column, row))
            case _ if role == SORT_ROLE:
                found = (column.sort or column.show)(row)
            case _ if role == KEY_ROLE:
                found = self._key(row)
        return found

    def flags(self, index: Index) -> Qt.ItemFlag:
        """What can be done with a cell."""
        flags = super().flags(index)
        if index.isValid() and self._columns[index.column()].edit is not None:
            flags |= Qt.ItemFlag.ItemIsEditable
        return flags

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Save what was typed into a cell, or keep it there with the sentence on why not."""
        if role != Qt.ItemDataRole.EditRole or not index.isValid():
            return False
        row, column = self._rows[index.row()], self._columns[index.column()]
        edit = column.edit
        typed = str(value)
        at = (self._key(row), column.key)
        if edit is None or (at not in self._drafts and typed == (column.typed or column.show)(row)):
            return False

        def refuse(error: InvalidInput) -> None:
            self._drafts[at] = (typed, self._say(error))
            self.refused.emit(self._drafts[at][1])

        before = self._drafts.pop(at, None)
        done = self._save(lambda: edit(row, typed), refuse)
        if done and before is not None:
            self.refused.emit("")
        if at in self._drafts:
            self.dataChanged.emit(index, index)
        return done

    def _brush(self, role: str) -> QBrush | None:
        return QBrush(QColor(getattr(self._theme, role))) if role else None


_ANSWERED = frozenset(
    int(role)
    for role in (
        Qt.ItemDataRole.DisplayRole,
        Qt.ItemDataRole.EditRole,
        Qt.ItemDataRole.ToolTipRole,
        Qt.ItemDataRole.AccessibleDescriptionRole,
        Qt.ItemDataRole.TextAlignmentRole,
        Qt.ItemDataRole.ForegroundRole,
        SORT_ROLE,
        KEY_ROLE,
    )
)
"""What views ask of a cell and it answers; they ask for as much again."""


def _tip(column: Column[R], row: R) -> str:
    return column.tip(row) if column.tip else ""


def _role(column: Column[R], row: R) -> str:
    return column.role(row) if column.role else ""


def _sortable(value: Any) -> Any:
    return folded(value) if isinstance(value, str) else value


def _alignment(column: Column[Any]) -> Qt.AlignmentFlag:
    side = Qt.AlignmentFlag.AlignRight if column.to_right else Qt.AlignmentFlag.AlignLeft
    return side | Qt.AlignmentFlag.AlignVCenter
