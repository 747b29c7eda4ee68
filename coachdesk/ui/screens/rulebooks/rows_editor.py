"""A small table edited in place: the rows of a list in a rulebook."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QStyledItemDelegate, QVBoxLayout, QWidget

from coachdesk.services.rulebook_draft import Row, cell_name, value_of
from coachdesk.services.rulebook_fields import Field, Kind, Rows
from coachdesk.services.typed import YES
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import button, heading
from coachdesk.ui.screens.rulebooks.cell_delegates import ChoiceDelegate, TicksDelegate
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.table import Table

ChoicesOf = Callable[[Field], Sequence[tuple[str, str]]]

_LEAST_ROWS, _MOST_ROWS = 6, 14


class RowsEditor(QWidget):
    """Rows that are changed cell by cell, added and taken out.

    The table holds the rows' numbers alone, so that it stands still while cells are edited.
    """

    edited = Signal()

    def __init__(self, context: Context, rows: Rows, choices: ChoicesOf) -> None:
        super().__init__()
        self._words = context.words
        self._rows = rows
        self._choices = choices
        self._held: dict[int, Row] = {}
        self._clean: tuple[Row, ...] = ()
        self._refused: tuple[int, str] | None = None
        about = self._words(f"rulebook.field.{rows.name}")
        self.table: Table[int] = Table(
            context,
            f"rulebook_{rows.name}",
            [self._column(column) for column in rows.columns],
            lambda number: number,
            about=about,
            empty=self._words("rulebook.rows.empty"),
            sortable=False,
        )
        self._set_delegates()
        self.table.delete_asked.connect(self.remove)
        self.add_button = button(self._words("rulebook.rows.add"), self.add)
        self.remove_button = button(self._words("rulebook.rows.remove"), self.remove)
        buttons = QHBoxLayout()
        buttons.addWidget(self.add_button)
        buttons.addWidget(self.remove_button)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, GAP)
        layout.setSpacing(GAP // 2)
        layout.addWidget(heading(about))
        layout.addWidget(self.table)
        layout.addLayout(buttons)

    @property
    def rows(self) -> tuple[Row, ...]:
        """The rows as they are now."""
        return tuple(self._held.values())

    @property
    def has_drafts(self) -> bool:
        """Whether a cell holds something that cannot be taken."""
        return self.table.model.has_drafts

    def is_dirty(self) -> bool:
        """Whether something differs from what was filled in."""
        return self.rows != self._clean or self.has_drafts

    def set_rows(self, rows: Sequence[Row]) -> None:
        """Fill in; it counts as clean."""
        self._clean = tuple(rows)
        self._held = {row.number: row for row in rows}
        self._show()

    def add(self) -> None:
        """A new row at the end, its first cell ready to be typed into."""
        number = max((*(row.number for row in self._clean), *self._held), default=-1) + 1
        self._held[number] = Row(number, {each.name: _first(each) for each in self._rows.columns})
        self._changed()
        self._show()
        self.table.select(number)
        self.table.setFocus()
        self.table.view.edit(self.table.view.currentIndex())

    def remove(self) -> None:
        """Take the current row out; the next one is the current one then."""
        number = self.table.current_row()
        if number is None:
            return
        at = list(self._held).index(number)
        del self._held[number]
        self._changed()
        self._show()
        left = list(self._held)
        if left:
            self.table.select(left[min(at, len(left) - 1)])

    def show_error(self, number: int | None, column: str, sentence: str) -> None:
        """Say what is wrong and go to the cell it is in, where it is in one."""
        self._refused = None if number is None else (number, column)
        self._show()
        self.table.model.refused.emit(sentence)
        if number is not None:
            names = [each.name for each in self._rows.columns]
            self.table.select(number, names.index(column))
        self.table.setFocus()

    def _set(self, column: Field, number: int, entered: str) -> None:
        """Take what was typed into a cell; an empty one is asked for when the whole is saved."""
        if entered.strip():
            value_of(column, cell_name(self._rows, number, column.name), entered)
        cells = {**self._held[number].cells, column.name: entered.strip()}
        self._held[number] = Row(number, cells)
        self._changed()

    def _changed(self) -> None:
        if self._refused is not None:
            self._refused = None
            self.table.model.refused.emit("")
        self.edited.emit()

    def _show(self) -> None:
        self.table.set_rows(list(self._held))
        view = self.table.view
        lines = min(max(len(self._held), _LEAST_ROWS), _MOST_ROWS)
        head = view.horizontalHeader().sizeHint().height()
        bar = view.horizontalScrollBar().sizeHint().height()
        view.setFixedHeight(head + lines * view.verticalHeader().defaultSectionSize() + bar)

    def _column(self, column: Field) -> Column[int]:
        return Column(
            column.name,
            self._words(f"rulebook.column.{self._rows.name}.{column.name}"),
            partial(self._shown, column),
            to_right=column.kind in {Kind.NUMBER, Kind.WHOLE},
            edit=partial(self._set, column),
            typed=lambda number: self._held[number].cells[column.name],
            role=lambda number: "bad" if self._refused == (number, column.name) else "",
        )

    def _shown(self, column: Field, number: int) -> str:
        """A cell in words; what is not among the choices as it stands in the file."""
        entered = self._held[number].cells[column.name]
        if column.kind is Kind.YES:
            return self._words("rulebook.yes" if entered == YES else "rulebook.no")
        if column.kind not in {Kind.CHOICE, Kind.CODES}:
            return entered
        named = dict(self._choices(column))
        parts = [part.strip() for part in entered.split(",")]
        return self._words("list.joint").join(named.get(part, part) for part in parts if part)

    def _set_delegates(self) -> None:
        for at, column in enumerate(self._rows.columns):
            if column.kind not in {Kind.CHOICE, Kind.CODES, Kind.YES}:
                continue
            about = self._words(f"rulebook.column.{self._rows.name}.{column.name}")
            offered = partial(self._offered, column)
            delegate: QStyledItemDelegate = (
                TicksDelegate(offered, about, self)
                if column.kind is Kind.CODES
                else ChoiceDelegate(offered, about, self, is_open=column.is_open)
            )
            self.table.view.setItemDelegateForColumn(at, delegate)

    def _offered(self, column: Field) -> list[tuple[str, str]]:
        if column.kind is Kind.YES:
            return [(YES, self._words("rulebook.yes")), ("", self._words("rulebook.no"))]
        is_open = column.kind is Kind.CHOICE and not column.required
        nothing = [("", self._words("rulebook.nothing"))] if is_open else []
        return [*nothing, *self._choices(column)]


def _first(column: Field) -> str:
    """What a new row begins with."""
    is_one_of = column.kind is Kind.CHOICE and column.required
    return column.choices[0] if is_one_of and column.choices else ""
