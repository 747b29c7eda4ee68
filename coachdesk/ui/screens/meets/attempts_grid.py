"""The attempts of an entry, three lifts by three, edited in place."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from coachdesk.domain.lifting import Lift
from coachdesk.services.entry_look import AttemptKey
from coachdesk.ui.context import Context
from coachdesk.ui.plain import heading
from coachdesk.ui.screens.meets.attempt_cell import AttemptCell
from coachdesk.ui.screens.meets.entry_presenter import EntryPresenter, Look
from coachdesk.ui.screens.meets.entry_rows import NUMBERS
from coachdesk.ui.screens.meets.line_list import LineList
from coachdesk.ui.theme import GAP
from coachdesk.wording.wording import Wording


class AttemptsGrid(QWidget):
    """Nine fields in which an attempt is typed and kept one by one."""

    edited = Signal()
    """Something is typed: what it comes to wants to be shown."""
    left = Signal(object)
    """A field was left: its key."""
    became = Signal(object)
    """What became of an attempt was chosen: its key."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self._cells: dict[AttemptKey, AttemptCell] = {}
        self._notes: dict[Lift, LineList] = {}
        self._rows: dict[Lift, QWidget] = {}
        self._shown: tuple[Lift, ...] = ()
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(GAP)
        for lift in Lift:
            self._rows[lift] = self._row(lift, words)

    def cell(self, lift: Lift, number: int) -> AttemptCell:
        """The cell of an attempt."""
        return self._cells[lift, number]

    def typed(self) -> dict[AttemptKey, str]:
        """What stands in the fields."""
        return {key: cell.typed for key, cell in self._cells.items()}

    @property
    def has_drafts(self) -> bool:
        """Whether a field holds what is not on file."""
        return bool(self.drafts())

    def drafts(self) -> list[AttemptKey]:
        """The fields that hold what is not on file."""
        return [key for key, cell in self._cells.items() if not cell.is_kept]

    def put_back(self) -> None:
        """Let go of what was typed and could not be taken."""
        for cell in self._cells.values():
            cell.put_back()

    def show_entry(self, presenter: EntryPresenter, *, drop_drafts: bool) -> None:
        """Show what is on file."""
        results = presenter.results() if presenter.has_begun else {}
        kept = presenter.cells()
        for key, cell in self._cells.items():
            cell.set_kept(kept[key], drop_draft=drop_drafts)
            found = results.get(key)
            cell.show_result(found, [] if found is None else presenter.causes(key[0]))

    def show_lifts(self, lifts: Sequence[Lift]) -> None:
        """Show the lifts of the event, in the meet's order."""
        if tuple(lifts) == self._shown:
            return
        self._shown = tuple(lifts)
        for lift, row in self._rows.items():
            self._layout.removeWidget(row)
            row.setVisible(lift in lifts)
        for lift in lifts:
            self._layout.addWidget(self._rows[lift])
            for number in NUMBERS:
                self._cells[lift, number].show_which(shown=lift is lifts[0])

    def show_look(self, look: Look) -> None:
        """Show what the attempts come to."""
        for key, cell in self._cells.items():
            if key in look.cells:
                cell.show_look(look.cells[key])
        for lift, notes in self._notes.items():
            notes.show_lines(look.lifts.get(lift, ()))

    def focus_first(self) -> None:
        """Go to the first attempt."""
        if self._shown:
            self._cells[self._shown[0], 1].line.setFocus(Qt.FocusReason.OtherFocusReason)

    def _row(self, lift: Lift, words: Wording) -> QWidget:
        """A lift: its name, its attempts side by side, and below them what they are planned on."""
        self._notes[lift] = LineList(is_small=True)
        row = QWidget(self)
        grid = QGridLayout(row)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(2)
        grid.addWidget(heading(words(f"lift.{lift}")), 0, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self._notes[lift], 2, 0, 1, len(NUMBERS))
        for number in NUMBERS:
            key = (lift, number)
            cell = AttemptCell(key, words)
            cell.edited.connect(self.edited)
            cell.left.connect(lambda key=key: self.left.emit(key))
            cell.became.connect(lambda key=key: self.became.emit(key))
            cell.went.connect(lambda by, key=key: self._go(key, by))
            self._cells[key] = cell
            grid.addWidget(cell, 1, number - 1)
            grid.setColumnStretch(number - 1, 1)
        return row

    def _go(self, key: AttemptKey, by: int) -> None:
        """Go to the same attempt of the lift above or below."""
        lift, number = key
        at = self._shown.index(lift) + by
        if 0 <= at < len(self._shown):
            self._cells[self._shown[at], number].line.setFocus(Qt.FocusReason.OtherFocusReason)
