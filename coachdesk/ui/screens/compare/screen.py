"""Compare: choices, the table, and the same drawn."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from PySide6.QtWidgets import QHBoxLayout, QTabWidget, QVBoxLayout, QWidget

from coachdesk.services.compare import CompareChoice, Line
from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.plain import action, button, small
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.screens.compare.chart import CompareChart
from coachdesk.ui.screens.compare.columns import APART, EQUAL, columns_of
from coachdesk.ui.screens.compare.drawing import points_drawn, shares_drawn
from coachdesk.ui.screens.compare.presenter import Choices, Compared, ComparePresenter
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.choice_row import ChoiceRow
from coachdesk.ui.widgets.fields import ChoiceField, DateField, YesNoField
from coachdesk.ui.widgets.line import TypingLine
from coachdesk.ui.widgets.screen_head import screen_head
from coachdesk.ui.widgets.table import Table

_DATE_PX = 108
_PICK_PX = 40


class CompareScreen(Screen):
    """Athletes by any formula: who leads, by what, and what it would take to equal another."""

    kinds: ClassVar[frozenset[str]] = frozenset(
        {"athlete", "entry", "attempt", "meet", "session", "reading", "plan_snapshot"}
    )

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        words = context.words
        self.presenter = ComparePresenter(context.desk, words, context.preferences.formula)
        self._shown = Compared(self.presenter.choice(self.presenter.first_values()))
        self._asked = 0
        self.search = TypingLine()
        self.search.setAccessibleName(words("compare.find"))
        self.search.setPlaceholderText(words("compare.find"))
        self.search.setClearButtonEnabled(True)
        self.choices = self._choice_row()
        self.notes = small()
        self.table = self._table()
        self.points_chart = CompareChart(context.theme, words("compare.tab.points"))
        self.shares_chart = CompareChart(context.theme, words("compare.tab.shares"))
        self.tabs = QTabWidget()
        self._lay_out()
        self.choices.edited.connect(self._work)
        self.search.textChanged.connect(self.table.set_filter)
        self.tabs.currentChanged.connect(lambda _: self._draw())
        action(self, words("compare.find"), self.search.setFocus, shortcuts.FIND)
        self.choices.set_values(self.presenter.first_values())
        self.setFocusProxy(self.table)

    def reload(self) -> None:
        """Read anew and compare."""
        self.presenter.forget()
        self._work()

    def show_record(self, record_id: int) -> None:
        """Work out what the others need to equal an athlete."""
        self.choices.set_values({"equal_to": str(record_id)})
        self._work()

    def _work(self) -> None:
        """Compare by what is chosen now; where choices change meanwhile, the last ones win."""
        self.context.runner.now(
            lambda: self.presenter.choice(self.choices.values()),
            then=self._compare,
            invalid=self.choices.show_error,
        )

    def _compare(self, choice: CompareChoice) -> None:
        self._asked += 1
        show = partial(self._show, self._asked)
        if self.presenter.is_slow():
            self.context.runner.background(
                lambda _: self.presenter.compared(choice),
                about=self.words("compare.reading"),
                then=show,
                can_stop=False,
            )
        else:
            self.context.runner.now(lambda: self.presenter.compared(choice), then=show)

    def _show(self, number: int, compared: Compared) -> None:
        if number != self._asked:
            return
        self._shown = compared
        self.choices.clear_errors()
        self._equal_to.set_choices(compared.athletes)
        for key in ("equal_on", "step"):
            self.choices.show_choice(key, shown=compared.choice.equal_to is not None)
        self.table.set_rows(compared.lines)
        self._hide_columns(compared)
        self.notes.setText(" ".join(compared.notes))
        self.notes.setVisible(bool(compared.notes))
        self._draw()

    def _hide_columns(self, compared: Compared) -> None:
        """Show those columns only that say something for this choice."""
        hidden = frozenset() if compared.choice.equal_to is not None else EQUAL
        apart = self.presenter.is_apart(compared.lines)
        for at, column in enumerate(self.table.model.columns):
            if column.key in EQUAL:
                was_hidden = self.table.view.isColumnHidden(at)
                self.table.view.setColumnHidden(at, column.key in hidden)
                if was_hidden and column.key not in hidden:
                    self.table.view.resizeColumnToContents(at)
            elif column.key == APART:
                self.table.view.setColumnHidden(at, not apart)

    def _copy_all(self) -> None:
        """All rows, as they stand, for a spreadsheet."""
        self.table.view.selectAll()
        self.table.copy()
        self.context.notices.say(self.words("compare.copied", count=len(self.table.rows)))

    def _draw(self) -> None:
        """Draw the chart that is seen."""
        if self.tabs.currentWidget() is self.points_chart:
            self.points_chart.draw(points_drawn(self._shown, self.words))
        elif self.tabs.currentWidget() is self.shares_chart:
            self.shares_chart.draw(shares_drawn(self._shown, self.words))

    def _choice_row(self) -> ChoiceRow:
        presenter, words = self.presenter, self.words
        row = ChoiceRow(words)
        row.add("counted", "compare.counted", _choice(presenter.counted_choices(), 150))
        row.add("lift", "compare.measured", _choice(presenter.lift_choices(), 150))
        row.add("formula", "compare.formula", _choice(presenter.formula_choices(), 110))
        row.add("event", "compare.event", _choice(presenter.event_choices(), 150))
        row.add("equipment", "compare.equipment", _choice(presenter.equipment_choices(), 105))
        for key in ("first", "last"):
            field = DateField(pick=words(f"compare.pick_{key}"))
            field.line.setMinimumWidth(_DATE_PX)
            field.setFixedWidth(_DATE_PX + _PICK_PX)
            row.add(key, f"compare.{key}", field, typed=True)
        row.add_ticked("age_factor", YesNoField(words("compare.age_factor")))
        self._equal_to = _choice([], 200)
        row.add("equal_to", "compare.equal_to", self._equal_to)
        row.add("equal_on", "compare.equal_on", _choice(presenter.single_lift_choices(), 150))
        row.add("step", "compare.step", _choice(presenter.step_choices(), 180))
        return row

    def _table(self) -> Table[Line]:
        return Table(
            self.context,
            "compare",
            columns_of(self.presenter, self.words, lambda: self._shown.choice),
            lambda line: (line.athlete.id, line.group),
            about=self.words("compare.table"),
            empty=self.words("compare.empty"),
            several=True,
        )

    def _lay_out(self) -> None:
        words = self.words
        for widget, code in (
            (self.table, "compare.tab.table"),
            (self.points_chart, "compare.tab.points"),
            (self.shares_chart, "compare.tab.shares"),
        ):
            self.tabs.addTab(widget, words(code))
        self.tabs.setDocumentMode(True)
        corner = QWidget()
        beside = QHBoxLayout(corner)
        beside.setContentsMargins(0, 0, 0, 0)
        beside.addWidget(self.search)
        beside.addWidget(button(words("compare.copy"), self._copy_all))
        self.tabs.setCornerWidget(corner)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, GAP)
        layout.setSpacing(GAP)
        layout.addLayout(screen_head(words, "compare"))
        layout.addWidget(self.choices)
        layout.addWidget(self.notes)
        layout.addWidget(self.tabs, 1)


def _choice(choices: Choices, width: int) -> ChoiceField:
    """A choice as wide [px] as its words need."""
    field = ChoiceField(choices)
    field.box.setFixedWidth(width)
    return field
