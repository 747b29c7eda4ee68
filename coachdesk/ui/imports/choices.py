"""How a file of records is read: a choice a column, and how its days and numbers are meant."""

from __future__ import annotations

from typing import Generic

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.ui.imports.presenter import ImportPresenter, Opened, R
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.choice_row import ChoiceRow
from coachdesk.ui.widgets.fields import ChoiceField, YesNoField
from coachdesk.wording.wording import Wording

_ORDER_WIDTH = 330
_UNIT_WIDTH = 180
_WIDTH = 148
"""Sizes [px]."""


class ImportChoices(QWidget, Generic[R]):
    """Every choice takes effect at once."""

    edited = Signal()

    def __init__(self, words: Wording, presenter: ImportPresenter[R]) -> None:
        super().__init__()
        self._presenter = presenter
        self._columns: dict[str, ChoiceField] = {}
        self.file, self.parts = ChoiceRow(words), ChoiceRow(words)
        self.order = ChoiceField()
        self.order.control().setFixedWidth(_ORDER_WIDTH)
        self.file.add("delimiter", "weights.delimiter", ChoiceField(presenter.delimiters()))
        unit = self.file.add("unit", "weights.unit", ChoiceField(presenter.units()))
        unit.control().setFixedWidth(_UNIT_WIDTH)
        self.file.add("order", "weights.order", self.order)
        self.file.add_ticked("heads", YesNoField(words("weights.heads")))
        for part, name in presenter.parts():
            field = ChoiceField()
            field.control().setFixedWidth(_WIDTH)
            self._columns[part] = field
            self.parts.add(part, name, field)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        for row in (self.file, self.parts):
            row.edited.connect(self.edited)
            layout.addWidget(row)

    def show_opened(self, opened: Opened[R]) -> None:
        """Offer what the file holds, and show how it is read."""
        self.order.set_choices(self._presenter.orders(opened))
        columns = self._presenter.columns(opened)
        for field in self._columns.values():
            field.set_choices(columns)
        values = self._presenter.values(opened)
        self.file.set_values(values)
        self.parts.set_values(values)

    def values(self) -> dict[str, str]:
        """What is chosen."""
        return {**self.file.values(), **self.parts.values()}
