"""Weight and class at a meet: the team's board, and below it the classes in reach of one entry."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QVBoxLayout, QWidget
from shiboken6 import isValid

from coachdesk.services.weight_picture import WeightHistory
from coachdesk.ui.context import Context
from coachdesk.ui.plain import action, ask, button, heading, small
from coachdesk.ui.screens.meets.class_rows import ClassRow
from coachdesk.ui.screens.meets.line_list import LineList
from coachdesk.ui.screens.meets.look_words import Line
from coachdesk.ui.screens.meets.tall_part import TallPart
from coachdesk.ui.screens.meets.weight_presenter import Asking, WeightLook, WeightPresenter
from coachdesk.ui.screens.meets.weight_tables import AGREED, TOTAL, classes_table, marks_table
from coachdesk.ui.theme import GAP, WIDE_GAP
from coachdesk.ui.way import Way
from coachdesk.ui.weights.board_rows import BoardRow
from coachdesk.ui.weights.board_table import board_table
from coachdesk.ui.weights.chart_part import ChartPart
from coachdesk.ui.widgets.elided import NameHeading
from coachdesk.ui.widgets.fields import YesNoField
from coachdesk.ui.widgets.flow import FlowLayout

_NARROW = 640
_MARKS_WIDTH = 430
_CHART_HEIGHT = 320
"""Sizes [px]; in less than `_NARROW` what stands beside the marks goes below them."""
_TEAM_AT_ONCE = 6
_MARKS_AT_ONCE = 16
"""Rows seen without scrolling, where there are so many."""


class WeightPart(TallPart):
    """Compares how the team stands to its classes, and settles the class of one entry."""

    go = Signal(object)
    """Lead another way: a `Way`."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self._context = context
        self._presenter = WeightPresenter(context.desk, words)
        self._is_filling = False
        self.shown: WeightLook | None = None
        self.table = board_table(
            context, "meet weights", empty=words("weight.team.empty"), of_one_meet=True
        )
        self.lines = LineList()
        self.classes = classes_table(context)
        self.with_totals = YesNoField(words("weight.totals"))
        self.equal = small()
        self.why = LineList()
        self.marks = marks_table(context)
        self.cautions = LineList(is_small=True)
        self.chart = ChartPart(context)
        self.chart.setMinimumHeight(_CHART_HEIGHT)
        self._name = NameHeading()
        self._marks_name = heading()
        self._lay_out()
        self.table.moved.connect(self._show_chosen)
        self.table.opened.connect(lambda _: self.classes.setFocus())
        self.classes.moved.connect(self._show_class)
        self.classes.opened.connect(lambda _: self.enter_in_class())
        self.with_totals.edited.connect(self._show_chosen)

    def read(self, meet_id: int) -> None:
        """Read the weights of a meet."""
        if self._context.runner.now(lambda: self._presenter.rows(meet_id), then=self._show_rows):
            self._show_chosen()

    def agree(self) -> None:
        """Ask, and agree on the way down of the athlete chosen."""
        row = self.table.current_row()
        if row is not None and row.may_agree and self._asked(self._presenter.agreeing(row)):
            self._context.runner.now(lambda: self._presenter.agree(row))

    def let_go(self) -> None:
        """Let go of the way down agreed on; it can be undone."""
        row, look = self.table.current_row(), self.shown
        if row is not None and look is not None and look.may_let_go:
            self._context.runner.now(lambda: self._presenter.let_go(row))

    def enter_in_class(self) -> None:
        """Enter the athlete in the class chosen; coming down to it at a first meet is asked."""
        row, chosen = self.table.current_row(), self.classes.current_row()
        if row is None or chosen is None or not chosen.may_enter:
            return
        asking = self._presenter.entering(row, chosen)
        if asking is None or self._asked(asking):
            self._context.runner.now(lambda: self._presenter.enter(row, chosen))

    def to_readings(self) -> None:
        """Lead to the athlete's readings."""
        if self.shown is not None:
            self.go.emit(Way("roster", self.shown.athlete_id, part="readings"))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Side by side where there is room, else one below the other."""
        is_narrow = event.size().width() < _NARROW
        ways = QBoxLayout.Direction
        self._both.setDirection(ways.TopToBottom if is_narrow else ways.LeftToRight)
        super().resizeEvent(event)

    def _asked(self, asking: Asking) -> bool:
        return ask(self, asking.question, asking.yes, asking.no, more=asking.more)

    def _show_rows(self, rows: tuple[BoardRow, ...]) -> None:
        """Who is chosen stays chosen."""
        words, unit = self._context.words, self._presenter.words.unit
        self._is_filling = True
        self._over.setVisible(self._presenter.is_over)
        self.table.setVisible(not self._presenter.is_over)
        self.table.set_head("gap", words("today.gap", unit=unit))
        self.table.set_rows(rows)
        self.table.show_at_once(min(len(rows), _TEAM_AT_ONCE))
        if self.table.current_key() is None and rows:
            self.table.select(rows[0].id)
        self._is_filling = False

    def _show_chosen(self) -> None:
        if self._is_filling:
            return
        row = self.table.current_row()
        if row is None:
            self._show(None)
            return
        with_totals = bool(self.with_totals.value())
        self._context.runner.now(
            lambda: self._presenter.look(row, with_totals=with_totals), then=self._show
        )

    def _draw(self, look: WeightLook, *, is_same: bool) -> None:
        """Read the history in the background, and draw it for the athlete still shown then."""
        if not is_same:
            self.chart.wait()

        def show(history: WeightHistory | None) -> None:
            if isValid(self) and self.shown is not None and self.shown.id == look.id:
                self.chart.show_history(history, self._presenter.words)

        self._context.runner.background(
            lambda _: self._presenter.history(look),
            about=self._context.words("weight.reading"),
            then=show,
            quiet=True,
        )

    def _show(self, look: WeightLook | None) -> None:
        before, self.shown = self.shown, look
        self._body.setVisible(look is not None)
        if look is None:
            return
        is_same = before is not None and before.id == look.id
        self._draw(look, is_same=is_same)
        self._name.setText(look.title)
        self.lines.show_lines(look.lines)
        self.cautions.show_lines([Line(each, "quiet") for each in look.cautions])
        self._agree.setEnabled(look.may_agree)
        self._let_go.setEnabled(look.may_let_go)
        self._readings.setVisible(look.is_weightless)
        self.equal.setText(look.equal)
        self.equal.setVisible(bool(look.equal))
        self._reach.setVisible(bool(look.classes))
        self._is_filling = True
        self.classes.view.setColumnHidden(TOTAL, not self.with_totals.value())
        self.classes.set_rows(look.classes)
        self.classes.show_at_once(len(look.classes))
        self.classes.fit_columns()
        if not is_same or self.classes.current_key() is None:
            self.classes.select(look.begin_at)
        self._is_filling = False
        self._show_class()

    def _show_class(self) -> None:
        """What stands against the class chosen, and the way to it week by week."""
        if self._is_filling:
            return
        row = self.classes.current_row()
        self._enter.setEnabled(row is not None and row.may_enter)
        self.why.show_lines(() if row is None else row.why)
        self._show_marks(row)

    def _show_marks(self, row: ClassRow | None) -> None:
        marks = () if row is None else row.marks
        self.marks.set_rows(marks)
        self.marks.view.setColumnHidden(AGREED, not any(mark.agreed for mark in marks))
        self.marks.show_at_once(min(len(marks), _MARKS_AT_ONCE))
        self._weeks.setVisible(bool(marks))
        if row is not None:
            words = self._context.words
            self._marks_name.setText(words("weight.marks.to", weight_class=row.name))

    def _lay_out(self) -> None:
        words = self._context.words
        self._over = small(words("weight.over"))
        self._body = QWidget()
        body = QVBoxLayout(self._body)
        body.setContentsMargins(0, GAP, GAP, 0)
        body.setSpacing(GAP // 2)
        body.addLayout(self._buttons())
        body.addWidget(self.lines)
        body.addWidget(self._reach_box())
        body.addWidget(self.cautions)
        body.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self._over)
        layout.addWidget(self.table)
        layout.addWidget(self._body, 1)

    def _buttons(self) -> FlowLayout:
        words = self._context.words
        self._readings = button(words("weight.readings"), self.to_readings, hint="Ctrl+R")
        self._agree = button(words("today.agree"), self.agree, hint="Ctrl+D")
        self._let_go = button(words("weight.let_go"), self.let_go, hint="Ctrl+Shift+G")
        self._enter = button(words("weight.enter"), self.enter_in_class, hint="Ctrl+E")
        buttons = FlowLayout()
        for each in (self._name, self._readings, self._agree, self._let_go, self._enter):
            buttons.addWidget(each)
        for code, then, keys in (
            ("weight.readings", self.to_readings, "Ctrl+R"),
            ("today.agree", self.agree, "Ctrl+D"),
            ("weight.let_go", self.let_go, "Ctrl+Shift+G"),
            ("weight.enter", self.enter_in_class, "Ctrl+E"),
        ):
            action(self, words(code), then, keys)
        return buttons

    def _reach_box(self) -> QWidget:
        """The classes, and below them the weekly marks beside the place for a picture."""
        self._reach = QWidget()
        head = QHBoxLayout()
        head.addWidget(heading(self._context.words("weight.classes")), 1)
        head.addWidget(self.with_totals)
        self._weeks = QWidget()
        weeks = QVBoxLayout(self._weeks)
        weeks.setContentsMargins(0, 0, 0, 0)
        weeks.setSpacing(GAP // 2)
        weeks.addWidget(self._marks_name)
        weeks.addWidget(self.marks)
        weeks.addStretch(1)
        self._weeks.setMaximumWidth(_MARKS_WIDTH)
        self._both = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._both.setSpacing(WIDE_GAP)
        self._both.addWidget(self._weeks, 2)
        self._both.addWidget(self.chart, 3)
        self._both.addStretch()
        reach = QVBoxLayout(self._reach)
        reach.setContentsMargins(0, GAP, 0, 0)
        reach.setSpacing(GAP // 2)
        reach.addLayout(head)
        for widget in (self.classes, self.equal, self.why):
            reach.addWidget(widget)
        reach.addLayout(self._both)
        return self._reach
