"""Bodyweight readings: a line to type them, the table, rows pasted from a spreadsheet."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import small
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.ui.screens.roster.forms import reading_form
from coachdesk.ui.screens.roster.quick_weight import QuickWeight
from coachdesk.ui.screens.roster.reading_records import ReadingRow, day_of
from coachdesk.ui.screens.roster.records_part import RecordsPart
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.ui.widgets.line_report import LineReport
from coachdesk.ui.widgets.table import Table


class ReadingsPart(RecordsPart[ReadingRow]):
    """The readings of the athlete chosen."""

    code = "reading"

    def __init__(self, context: Context) -> None:
        self.quick = QuickWeight(context.words)
        self._cautions = small()
        super().__init__(context)
        self.quick.entered.connect(self.save)
        self.table.pasted.connect(self.paste)
        layout = self.layout()
        if isinstance(layout, QVBoxLayout):
            layout.addWidget(self._cautions)

    def make_table(self) -> Table[ReadingRow]:
        """Day, weight, hour, dress, scale, note: the order in which rows can be pasted too."""
        words = self.context.words
        return Table(
            self.context,
            "roster.readings",
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

    def begin(self) -> None:
        """Go to the line to type into."""
        self.quick.focus_weight()

    def has_unsaved(self) -> bool:
        """Whether a weight is typed and not kept."""
        return self.quick.has_unsaved()

    def save(self) -> bool:
        """Keep the line typed and begin the next one, with the same dress."""
        detail = self.detail
        if detail is None:
            return True
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
