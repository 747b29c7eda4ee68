"""The tab of strength: a lift's chart with its forecast, the same as a table, and what it rests
on."""

from __future__ import annotations

from operator import attrgetter

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout

from coachdesk.domain.lifting import Lift
from coachdesk.services.strength_history import StrengthHistory, StrengthPicture
from coachdesk.services.weight_picture import Span
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import label, small
from coachdesk.ui.screens.blocks.forms import lift_choices
from coachdesk.ui.screens.blocks.part import Part
from coachdesk.ui.screens.blocks.strength_words import StrengthRow, StrengthWords
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.choice_row import ChoiceRow
from coachdesk.ui.widgets.day_chart import DayChart
from coachdesk.ui.widgets.fields import ChoiceField
from coachdesk.ui.widgets.form_dialog import scrolled
from coachdesk.ui.widgets.strength_drawing import draw_strength
from coachdesk.ui.widgets.table import Table

_ROW_COLUMNS = (
    ("day", "on"),
    ("maximum", "kg"),
    ("judged", "judged"),
    ("best", "best"),
)
"""What a row shows, and what it sorts by."""
_VIEWS = ("chart", "days", "rests_on")


class StrengthPart(Part):
    """Shows a lift of the athlete chosen; for the coach alone."""

    lift_chosen = Signal()
    """Another lift is to be read."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words
        self._words = words
        self._own = words
        self._history: StrengthHistory | None = None
        self.choices = ChoiceRow(words)
        self.choices.add("lift", "blocks.field.lift", ChoiceField(lift_choices(words)))
        spans = [(each.value, words(f"blocks.span.{each}")) for each in Span]
        self.choices.add("span", "blocks.strength.span", ChoiceField(spans))
        views = [(each, words(f"blocks.strength.view.{each}")) for each in _VIEWS]
        self.choices.add("view", "blocks.strength.view", ChoiceField(views))
        self.chart: DayChart[StrengthPicture] = DayChart(
            context.theme,
            words,
            lambda picture, day: StrengthWords(self._own).day(picture, day),
            draw_strength,
            about=words("blocks.strength.chart"),
            hint=words("blocks.strength.hint"),
        )
        self.table: Table[StrengthRow] = Table(
            context,
            "blocks.strength",
            [
                Column(key, words(f"blocks.column.{key}"), attrgetter(key), attrgetter(sort))
                for key, sort in _ROW_COLUMNS
            ],
            lambda row: row.on,
            about=words("blocks.strength.days"),
        )
        self.present = small(role="")
        self.rests_on = label(wrap=True)
        self.rests_on.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        rests_on = scrolled(self.rests_on)
        rests_on.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        rests_on.setAccessibleName(words("blocks.strength.view.rests_on"))
        self._nothing = label(role="quiet", wrap=True)
        self._views = QStackedWidget()
        for view in (self.chart, self.table, rests_on, self._nothing):
            self._views.addWidget(view)
        self.setFocusProxy(self.choices.field("lift").control())
        self.choices.edited.connect(self._chosen)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.choices)
        layout.addWidget(self._views, 1)
        layout.addWidget(self.present)
        layout.addWidget(self.besides(small(words("blocks.strength.about"))))

    @property
    def lift(self) -> Lift:
        """The lift chosen."""
        return Lift(self.choices.field("lift").value())

    def show_history(self, history: StrengthHistory | None) -> None:
        """Show a lift's history, in the athlete's unit; None without a set that tells of it."""
        self._history = history
        self._own = self._words if history is None else self._words.in_unit(history.unit)
        self._draw()

    def _chosen(self) -> None:
        if self._history is not None and self._history.lift is self.lift:
            self._draw()
        else:
            self.lift_chosen.emit()

    def _draw(self) -> None:
        history, values = self._history, self.choices.values()
        self.present.setVisible(history is not None)
        if history is None:
            lift = self._words(f"lift.{self.lift}")
            self._nothing.setText(self._words("blocks.strength.nothing", lift=lift))
            self._views.setCurrentWidget(self._nothing)
            return
        say = StrengthWords(self._own)
        picture = history.picture(Span(values["span"]))
        self._views.setCurrentIndex(_VIEWS.index(values["view"]))
        self.rests_on.setText(say.rests_on(history))
        self.chart.show_picture(picture, self._own)
        self.table.set_rows(say.rows(picture))
        self.present.setText("\n".join(say.present(history)))
