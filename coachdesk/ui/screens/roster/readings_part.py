"""Bodyweight readings: a line to type them, the table, rows pasted from a spreadsheet."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import (
    QHBoxLayout,
    QPushButton,
    QStackedWidget,
    QTabBar,
    QVBoxLayout,
    QWidget,
)
from shiboken6 import isValid

from coachdesk.services.weight_picture import Span, WeightHistory
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import button, small, without_mnemonic
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.ui.screens.roster.cycle_notes_dialog import CycleNotesDialog
from coachdesk.ui.screens.roster.forms import reading_form
from coachdesk.ui.screens.roster.quick_weight import QuickWeight
from coachdesk.ui.screens.roster.reading_records import ReadingRow, day_of
from coachdesk.ui.screens.roster.records_part import RecordsPart
from coachdesk.ui.theme import GAP
from coachdesk.ui.weights.chart_part import ChartPart
from coachdesk.ui.weights.weight_words import WeightWords
from coachdesk.ui.widgets.fields import ChoiceField
from coachdesk.ui.widgets.form_dialog import FormDialog, scrolled
from coachdesk.ui.widgets.line_report import LineReport
from coachdesk.ui.widgets.table import Table

VIEWS = ("readings", "chart", "weeks")
_ROWS_SEEN = 3
_ODD_COLUMN, _ODD_SEEN_AT = 6, 2
"""It is seen beside the weight, but comes last when rows are copied: pasted rows have none."""
_SHORT = 6
"""Letters that the choice of a span has room for, so that the views fit beside it."""
_REST_MS = 60
"""While the list is gone through quickly, no history is read."""


class ReadingsPart(RecordsPart[ReadingRow]):
    """The readings of the athlete chosen, as a table, a chart, and week by week."""

    code = "reading"

    def __init__(self, context: Context) -> None:
        self.quick = QuickWeight(context.words)
        self.views = QTabBar()
        self.span = ChoiceField([(each, context.words(f"weight.span.{each}")) for each in Span])
        self.chart = ChartPart(context)
        self._pages = QStackedWidget()
        self._cautions = small()
        self._odd: dict[int, str] = {}
        self._why = small(role="warn")
        self._why.hide()
        self._cycle_notes = button(context.words("cycle.open"), self.show_cycle_notes)
        self._cycle_notes.hide()
        super().__init__(context)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(_REST_MS)
        self._rest.timeout.connect(self._read_history)
        self.quick.entered.connect(self.save)
        self.table.pasted.connect(self.paste)
        self.table.moved.connect(self._explain)
        self.views.currentChanged.connect(lambda _: self._show_view())
        self.span.edited.connect(self._show_view)
        self._show_view()

    @property
    def why(self) -> str:
        """Why the reading one stands on is odd, or what odd means; empty where none is."""
        return self._why.text()

    def lay_out(self, body: QWidget) -> None:
        """The records are the first of three views; the cautions stand below all of them."""
        self.views.setAccessibleName(self.words("weight.views"))
        self.views.setExpanding(False)
        self.views.setDrawBase(False)
        for view in VIEWS:
            self.views.addTab(without_mnemonic(self.words(f"weight.view.{view}")))
        self.span.box.setMinimumContentsLength(_SHORT)
        self.span.control().setAccessibleName(self.words("weight.span"))
        self.table.show_at_least(_ROWS_SEEN)
        header = self.table.view.horizontalHeader()
        header.moveSection(header.visualIndex(_ODD_COLUMN), _ODD_SEEN_AT)
        within = body.layout()
        if isinstance(within, QVBoxLayout):
            within.insertWidget(within.count() - 1, self._why)
        head = QHBoxLayout()
        head.addWidget(self.views)
        head.addStretch(1)
        head.addWidget(self.span)
        self._pages.addWidget(scrolled(body))
        self._pages.addWidget(self.chart)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP // 2, 0, 0)
        layout.setSpacing(GAP)
        layout.addLayout(head)
        layout.addWidget(self._pages, 1)
        layout.addWidget(self._cautions)

    def extra_buttons(self) -> Sequence[QPushButton]:
        """Private notes have a dialog of their own: whoever looks on sees none."""
        return (self._cycle_notes,)

    def make_table(self) -> Table[ReadingRow]:
        """Day, weight, hour, dress, scale, note: the order in which rows can be pasted too."""
        words = self.context.words
        return Table(
            self.context,
            "roster.bodyweight",
            [
                Column("on", words("roster.column.day"), lambda row: row.day, day_of),
                Column(
                    "weight",
                    words("roster.column.weight.kg"),
                    lambda row: row.weight,
                    lambda row: row.reading.weight.grams,
                    to_right=True,
                ),
                Column("at", words("roster.column.hour"), lambda row: row.hour),
                Column("dress", words("roster.column.dress"), lambda row: row.dress),
                Column("scale", words("roster.column.scale"), lambda row: row.scale),
                Column("note", words("roster.column.note"), lambda row: row.note),
                Column(
                    "odd",
                    words("weight.column.odd"),
                    lambda row: words("weight.is_odd") if self._why_odd(row) else "",
                    tip=self._why_odd,
                    role=lambda _: "warn",
                ),
            ],
            lambda row: row.reading.id,
            about=words("roster.readings"),
            empty=words("roster.readings.empty"),
            several=True,
            takes_paste=True,
        )

    def make_top(self) -> QWidget:
        """The line to type into."""
        return self.quick

    def show_athlete(self, detail: AthleteDetail | None) -> None:
        """Show another athlete's readings; a line half typed for the same one stays."""
        is_same = detail is not None and self.detail is not None and detail.id == self.detail.id
        if not is_same:
            self._odd = {}
            self._explain()
            self.chart.wait()
        super().show_athlete(detail)
        if detail is None:
            return
        self.quick.set_unit(detail.readings.unit)
        self.table.set_head("weight", self.words(f"roster.column.weight.{detail.readings.unit}"))
        self._cautions.setText(detail.readings.cautions())
        if not (is_same and self.quick.has_unsaved()):
            self.quick.begin(detail.readings.new_values(self.quick.values()["dress"]))

    def read_rows(
        self, detail: AthleteDetail, *, everything: bool
    ) -> tuple[Sequence[ReadingRow], int]:
        """The latest readings, or all."""
        return detail.readings.rows(everything=everything)

    def make_dialog(self, detail: AthleteDetail, row: ReadingRow) -> FormDialog:
        """A reading in full."""
        records = detail.readings
        form = reading_form(self.words, records.unit)
        form.set_values(records.values(row.reading))
        return FormDialog(
            self.context,
            self.words("roster.change.reading"),
            form,
            lambda values: records.edit(row.reading, values),
            parent=self,
        )

    def delete_rows(self, detail: AthleteDetail, rows: Sequence[ReadingRow]) -> object:
        """Delete readings."""
        return detail.readings.delete([row.reading for row in rows])

    def read(self) -> None:
        """Read the rows at once, and the trend once nobody goes through the list any more."""
        detail = self.detail
        if self._is_stale and detail is not None:
            self._rest.start()
            offered = detail.cycle_notes.are_offered
            self.context.runner.now(offered, then=self._cycle_notes.setVisible)
        super().read()

    def show_cycle_notes(self) -> None:
        """Show the athlete's cycle notes."""
        if self.detail is not None:
            shown = CycleNotesDialog(self.context, self.detail.cycle_notes, self)
            shown.exec()
            shown.deleteLater()

    def go_to(self, view: str) -> None:
        """Show a view."""
        self.views.setCurrentIndex(VIEWS.index(view))

    def begin(self) -> None:
        """Go to the line to type into; in another view, to what it shows."""
        if self.views.currentIndex() == 0:
            self.quick.focus_weight()
        else:
            self.chart.begin()

    def has_unsaved(self) -> bool:
        """Whether a weight is typed and not kept."""
        return self.quick.has_unsaved()

    def save(self) -> bool:
        """Keep the line typed and begin the next one, with the same dress."""
        detail = self.detail
        if detail is None:
            return True
        self.go_to("readings")
        values = self.quick.values()
        return self.context.runner.now(
            lambda: detail.readings.add(values),
            then=lambda _: self._begin_next(detail, values["dress"]),
            invalid=self.quick.show_error,
        )

    def discard(self) -> None:
        """Let go of the line typed."""
        if self.detail is not None:
            self.quick.begin(self.detail.readings.new_values())

    def paste(self, lines: list[list[str]]) -> None:
        """Keep the rows pasted, all of them or none; name each line that cannot be taken."""
        detail = self.detail
        if detail is None:
            return
        pasted = detail.readings.read_pasted(lines)
        if pasted.faults:
            title = self.words("roster.paste.title")
            refused = self.words("roster.paste.refused", count=len(pasted.faults))
            LineReport(self.words, title, refused, pasted.faults, self).exec()
            return
        self.context.runner.now(
            lambda: detail.readings.add_many(pasted.readings),
            then=lambda _: self.context.notices.say(
                self.words("roster.paste.done", count=len(pasted.readings))
            ),
        )

    def _begin_next(self, detail: AthleteDetail, dress: str) -> None:
        self.quick.begin(detail.readings.new_values(dress))
        self.quick.focus_weight()

    def _show_view(self) -> None:
        view = VIEWS[self.views.currentIndex()]
        self.span.setVisible(view != "readings")
        self._pages.setCurrentIndex(int(view != "readings"))
        self.chart.show_view(weeks=view == "weeks", span=Span(self.span.value()))

    def _read_history(self) -> None:
        """Read and reckon the trend in the background, for the athlete still shown then."""
        detail = self.detail
        if detail is None:
            return

        def show(history: WeightHistory | None) -> None:
            if isValid(self) and detail is self.detail:
                self._show_history(detail, history)

        def refused(sentence: str) -> None:
            if isValid(self) and detail is self.detail:
                self.context.notices.trouble(sentence)

        self.context.runner.background(
            lambda _: detail.readings.history(),
            about=self.words("weight.reading"),
            then=show,
            refused=refused,
            quiet=True,
        )

    def _show(self, found: tuple[Sequence[ReadingRow], int]) -> None:
        super()._show(found)
        self._explain()

    def _show_history(self, detail: AthleteDetail, history: WeightHistory | None) -> None:
        own = detail.readings.words
        expected = {} if history is None else history.odd_by_reading()
        odd = {key: WeightWords(own).odd(kg) for key, kg in expected.items()}
        if odd != self._odd:
            self._odd = odd
            self.table.set_rows(self.table.rows)
            self._explain()
        self.chart.show_history(history, own)

    def _explain(self) -> None:
        """Say why the reading one stands on is odd, or what odd means where there is one."""
        row = self.table.current_row()
        said = "" if row is None else self._why_odd(row)
        if row is not None and said:
            said = self.words("weight.odd.row", mass=row.reading.weight, day=row.day, why=said)
        elif any(map(self._why_odd, self.table.rows)):
            said = self.words("weight.odd.means")
        self._why.setText(said)
        self._why.setVisible(bool(said))

    def _why_odd(self, row: ReadingRow) -> str:
        return self._odd.get(row.reading.id, "")
