"""The weights around the one on the bar, and the chart to print."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.domain.errors import InvalidInput
from coachdesk.domain.units import Unit
from coachdesk.services import typed
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import button
from coachdesk.ui.screens.bar.presenter import BarPresenter, Shown, WeightRow
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.choice_row import ChoiceRow
from coachdesk.ui.widgets.fields import MassField
from coachdesk.ui.widgets.table import Table

_FIELD_PX = 76
_LEAST_PX = 250
_FIGURE_COLUMNS = 2


class WeightsSide(QWidget):
    """A table by step; Enter on a row loads its weight."""

    wanted = Signal(object)
    print_asked = Signal()

    def __init__(self, context: Context, presenter: BarPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        words = context.words
        self._shown: Shown | None = None
        self.choices = ChoiceRow(words)
        for key in ("step", "last"):
            field = MassField()
            field.line.setFixedWidth(_FIELD_PX)
            self.choices.add(key, f"bar.{key}", field)
        self.print = button(words("bar.print"), self.print_asked.emit)
        self.choices.add_widget(self.print)
        self.table: Table[WeightRow] = Table(
            context,
            "bar",
            [self._unit_column(Unit.KG), self._unit_column(Unit.LB), self._discs_column(context)],
            lambda row: row.weight.grams,
            about=words("bar.table"),
            sortable=False,
        )
        self.setMinimumWidth(_LEAST_PX)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(GAP, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.choices)
        layout.addWidget(self.table, 1)
        self.table.opened.connect(self._open)
        self.choices.edited.connect(self._fill)

    def show_set(self) -> None:
        """The steps and the end that are usual for the set that is chosen."""
        usual = {
            "step": typed.shown_mass(self._presenter.chosen.step),
            "last": self._presenter.usual_last(),
        }
        self.choices.set_values(usual)

    def show_loading(self, shown: Shown) -> None:
        """The weights around what is on the bar."""
        self._shown = shown
        self._fill()

    def show_error(self, error: InvalidInput) -> None:
        """Say why a step or an end cannot be taken."""
        self.choices.show_error(error)

    def _fill(self) -> None:
        if self._shown is None:
            return
        try:
            step = self._presenter.step(self.choices.field("step").value())
        except InvalidInput as error:
            self.choices.show_error(error)
            return
        self.choices.clear_errors()
        rows = self._presenter.rows(self._shown, step)
        self.table.set_rows(rows)
        wanted = (self._shown.asked or self._shown.total).grams
        for column in range(_FIGURE_COLUMNS):
            self.table.view.resizeColumnToContents(column)
        near = min(rows, key=lambda row: abs(row.weight.grams - wanted), default=None)
        if near is not None:
            self.table.select(near.weight.grams)

    def _open(self, grams: int) -> None:
        row = next((each for each in self.table.rows if each.weight.grams == grams), None)
        if row is not None:
            self.wanted.emit(row.weight)

    def _unit_column(self, unit: Unit) -> Column[WeightRow]:
        def number(row: WeightRow) -> Decimal:
            return row.weight.in_unit(unit)

        return Column(
            unit.value,
            unit.value,
            lambda row: self._presenter.row_weight(row, unit),
            number,
            to_right=True,
        )

    def _discs_column(self, context: Context) -> Column[WeightRow]:
        return Column("discs", context.words("bar.each_side"), self._presenter.row_discs)
