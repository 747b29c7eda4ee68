"""The chart of a bodyweight and the same week by week, with how it stands in a sentence."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QStackedWidget, QTableView, QVBoxLayout, QWidget

from coachdesk.services.weight_picture import Span, WeightHistory, WeightPicture
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import label, small
from coachdesk.ui.theme import GAP
from coachdesk.ui.weights.weight_words import WeekRow, WeightWords
from coachdesk.ui.widgets.day_chart import DayChart
from coachdesk.ui.widgets.form_dialog import scrolled
from coachdesk.ui.widgets.table import Table
from coachdesk.ui.widgets.weight_drawing import draw
from coachdesk.wording.wording import Wording


class ChartPart(QWidget):
    """Shows a history as a chart or as a table; draws once it is looked at."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self._words = words
        self._history: WeightHistory | None = None
        self._own = words
        self._span = Span.THREE_MONTHS
        self._is_stale = False
        self.chart: DayChart[WeightPicture] = DayChart(
            context.theme,
            words,
            lambda picture, day: WeightWords(self._own).day(picture, day),
            draw,
            about=words("weight.chart"),
            hint=words("weight.chart.hint"),
        )
        self.present = small(role="")
        self.weeks: Table[WeekRow] = Table(
            context,
            "roster.weight_weeks",
            [
                Column("begins", words("weight.column.week"), lambda row: row.day, _begins),
                Column("readings", words("weight.column.readings.kg"), lambda row: row.readings),
                Column("trend", words("weight.column.trend.kg"), lambda row: row.trend),
                Column("plan", words("weight.column.plan.kg"), lambda row: row.plan),
                Column("gap", words("weight.column.class"), lambda row: row.gap),
            ],
            _begins,
            about=words("weight.weeks"),
            several=True,
        )
        self._state = label(role="quiet", wrap=True)
        self._views = QStackedWidget()
        self._views.addWidget(self.chart)
        self._views.addWidget(self.weeks)
        self._lay_out()

    @property
    def state(self) -> str:
        """Why nothing is shown; empty when something is."""
        return self._state.text()

    def show_history(self, history: WeightHistory | None, words: Wording) -> None:
        """Show a history, masses in the unit of `words`; None where there is no reading."""
        self._history, self._own = history, words
        self._is_stale = True
        self._say("" if history is not None else self._words("weight.nothing"))
        self.present.setText("" if history is None else WeightWords(words).present(history))
        if self.isVisible():
            self.draw()

    def wait(self) -> None:
        """Show nothing until there is a history."""
        self._history = None
        self._is_stale = False
        self.chart.forget()
        self.weeks.set_rows(())
        self.present.clear()
        self._say(self._words("weight.reading"))

    def show_view(self, *, weeks: bool, span: Span) -> None:
        """Show the chart, or the same week by week, of a span of days."""
        self._views.setCurrentWidget(self.weeks if weeks else self.chart)
        self._is_stale |= span is not self._span
        self._span = span
        self.draw()

    def draw(self) -> None:
        """Draw what is not drawn yet."""
        history = self._history
        if not self._is_stale or history is None:
            return
        self._is_stale = False
        picture = history.picture(self._span)
        self.chart.show_picture(picture, self._own)
        for key in ("readings", "trend", "plan"):
            self.weeks.set_head(key, self._words(f"weight.column.{key}.{picture.unit}"))
        self.weeks.set_rows(WeightWords(self._own).weeks(picture))
        if self.weeks.current_row() is None:
            self.weeks.select(picture.today.toordinal() - picture.today.weekday())
            QTimer.singleShot(0, self, self._see_week)

    def begin(self) -> None:
        """Go to the chart, or to the table."""
        (self.weeks if self._views.currentWidget() is self.weeks else self.chart).setFocus()

    def _see_week(self) -> None:
        """The weeks past and those to come around the current one, once the table has its room."""
        view = self.weeks.view
        view.scrollTo(view.currentIndex(), QTableView.ScrollHint.PositionAtCenter)

    def _say(self, words: str) -> None:
        self._state.setText(words)
        self._state.setVisible(bool(words))
        self._views.setVisible(not words)
        self.present.setVisible(not words)

    def _lay_out(self) -> None:
        inner = QWidget()
        within = QVBoxLayout(inner)
        within.setContentsMargins(0, 0, 0, 0)
        within.setSpacing(GAP // 2)
        within.addWidget(self._state)
        within.addWidget(self._views, 1)
        within.addWidget(self.present)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(scrolled(inner))


def _begins(row: WeekRow) -> int:
    return row.begins.toordinal()
