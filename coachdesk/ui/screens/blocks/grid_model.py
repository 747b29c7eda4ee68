"""The model of a block's grid. What is typed or pasted together is kept together, or stays."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import count
from typing import Any, TypeAlias

from PySide6.QtCore import QAbstractTableModel, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QFont

from coachdesk.domain.errors import InvalidInput
from coachdesk.ui.models.rows_model import Index
from coachdesk.ui.plain import plain_tip
from coachdesk.ui.screens.blocks.grid_rows import CellKey, Grid, GridCell
from coachdesk.ui.theme import Theme

Typed: TypeAlias = Mapping[CellKey, str]
Save: TypeAlias = Callable[[Typed, Callable[[InvalidInput], object]], bool]
_REFUSED = "! "


@dataclass(frozen=True, slots=True)
class _Draft:
    """Something typed that is not kept: the batch it came with, and why where it is at fault."""

    typed: str
    batch: int
    sentence: str = ""


class GridModel(QAbstractTableModel):
    """Shows a grid. `save` keeps several cells at once, or tells which cannot be taken."""

    refused = Signal(str)
    """Why what was typed cannot be taken; empty once all is well again."""

    def __init__(self, theme: Theme, save: Save, say: Callable[[InvalidInput], str]) -> None:
        super().__init__()
        self._theme = theme
        self._save = save
        self._say = say
        self._grid: Grid | None = None
        self._drafts: dict[CellKey, _Draft] = {}
        self._batches = count(1)

    @property
    def grid(self) -> Grid | None:
        """The grid shown."""
        return self._grid

    @property
    def has_drafts(self) -> bool:
        """Whether a cell holds something typed that is not kept."""
        return bool(self._drafts)

    def show_grid(self, grid: Grid | None) -> None:
        """Show a grid; drafts stay as long as the block does."""
        self.beginResetModel()
        if grid is None or self._grid is None or grid.block_id != self._grid.block_id:
            self._drafts.clear()
        self._grid = grid
        if grid is not None:
            self._drafts = {at: draft for at, draft in self._drafts.items() if grid.at(at)}
        self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:
        """How many exercises."""
        if self._grid is None or (parent is not None and parent.isValid()):
            return 0
        return len(self._grid.rows)

    def columnCount(self, parent: Index | None = None) -> int:
        """How many weeks."""
        if self._grid is None or (parent is not None and parent.isValid()):
            return 0
        return len(self._grid.heads)

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        """Weeks above, exercises at the left; this week's head is bold and says so."""
        grid = self._grid
        if grid is None:
            return None
        across = orientation is Qt.Orientation.Horizontal
        if not 0 <= section < len(grid.heads if across else grid.rows):
            return None
        found: Any = None
        match role:
            case Qt.ItemDataRole.DisplayRole:
                found = grid.heads[section] if across else grid.rows[section].head
            case Qt.ItemDataRole.ToolTipRole if not across:
                found = plain_tip(grid.rows[section].about)
            case Qt.ItemDataRole.AccessibleTextRole if not across:
                found = grid.rows[section].about
            case Qt.ItemDataRole.TextAlignmentRole:
                found = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
            case Qt.ItemDataRole.FontRole if across and section + 1 == grid.this_week:
                found = QFont()
                found.setBold(True)
        return found

    def cell(self, index: Index) -> GridCell | None:
        """The cell at an index."""
        grid = self._grid
        if grid is None or not index.isValid():
            return None
        return grid.rows[index.row()].cells[index.column()]

    def typed(self, index: Index) -> str:
        """What stands in a cell: a draft, else what is kept."""
        cell = self.cell(index)
        if cell is None:
            return ""
        draft = self._drafts.get(cell.key)
        return cell.typed if draft is None else draft.typed

    def sentence(self, index: Index) -> str:
        """Why a cell's draft cannot be taken; empty when all is well."""
        cell = self.cell(index)
        draft = None if cell is None else self._drafts.get(cell.key)
        return "" if draft is None else self._why(draft)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What a cell shows."""
        cell = self.cell(index)
        if cell is None:
            return None
        draft = self._drafts.get(cell.key)
        found: Any = None
        match role:
            case Qt.ItemDataRole.DisplayRole:
                found = cell.shown if draft is None else f"{_REFUSED}{draft.typed}"
            case Qt.ItemDataRole.EditRole:
                found = cell.typed if draft is None else draft.typed
            case Qt.ItemDataRole.ToolTipRole:
                found = plain_tip(cell.note if draft is None else self._why(draft))
            case Qt.ItemDataRole.AccessibleDescriptionRole:
                found = cell.note if draft is None else self._why(draft)
            case Qt.ItemDataRole.ForegroundRole if draft is not None:
                found = QBrush(QColor(self._theme.bad))
            case Qt.ItemDataRole.TextAlignmentRole:
                found = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        return found

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Every cell can be typed into."""
        return super().flags(index) | Qt.ItemFlag.ItemIsEditable

    def setData(self, index: Index, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:
        """Keep what was typed into a cell, or leave it there with the sentence on why not."""
        cell = self.cell(index)
        words = " ".join(str(value).split())
        if cell is None or role != Qt.ItemDataRole.EditRole:
            return False
        if words == cell.typed and cell.key not in self._drafts:
            return False
        return self.type_cells({cell.key: words})

    def type_cells(self, typed: Typed) -> bool:
        """Keep several cells in one action, or leave all of them as they were typed.

        What was left before together with one of them is tried again with it.
        """
        batches = {self._drafts[at].batch for at in typed if at in self._drafts}
        waiting = {at: each.typed for at, each in self._drafts.items() if each.batch in batches}
        together = {**waiting, **typed}
        before = dict(self._drafts)
        self._drafts = {at: each for at, each in before.items() if at not in together}

        def refuse(error: InvalidInput) -> None:
            batch, sentence = next(self._batches), self._say(error)
            for at, words in together.items():
                at_fault = error.field == field_of(at) or len(together) == 1
                self._drafts[at] = _Draft(words, batch, sentence if at_fault else "")
            self.refused.emit(sentence)

        done = self._save(together, refuse)
        if not done and not any(at in self._drafts for at in together):
            self._drafts = before
        elif done and before:
            self.refused.emit("")
        self._repaint()
        return done

    def let_go(self, index: Index) -> bool:
        """Put back what is kept in a cell, and in those that were typed with it."""
        cell = self.cell(index)
        draft = None if cell is None else self._drafts.get(cell.key)
        if draft is None:
            return False
        self._drafts = {at: e for at, e in self._drafts.items() if e.batch != draft.batch}
        self._repaint()
        self.refused.emit("")
        return True

    def forget_drafts(self) -> None:
        """Let go of all that is not kept."""
        self._drafts.clear()
        self._repaint()
        self.refused.emit("")

    def _why(self, draft: _Draft) -> str:
        if draft.sentence:
            return draft.sentence
        mates = (each for each in self._drafts.values() if each.batch == draft.batch)
        return next((each.sentence for each in mates if each.sentence), "")

    def _repaint(self) -> None:
        if self.rowCount():
            last = self.index(self.rowCount() - 1, self.columnCount() - 1)
            self.dataChanged.emit(self.index(0, 0), last)


def field_of(key: CellKey) -> str:
    """The name a cell's errors go by."""
    return f"cell_{key[0]}_{key[1]}"
