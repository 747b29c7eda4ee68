"""Past results, as result sheets have them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtWidgets import QWidget

from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import button, small
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.ui.screens.roster.forms import fill_result_form, result_form
from coachdesk.ui.screens.roster.records_part import RecordsPart
from coachdesk.ui.screens.roster.result_records import ResultRow
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.ui.widgets.table import Table


class ResultsPart(RecordsPart[ResultRow]):
    """The results of the athlete chosen."""

    code = "result"

    def make_table(self) -> Table[ResultRow]:
        """Day, meet, total and points, the attempts of each lift, bodyweight, class, place."""
        words = self.words
        points = words(f"formula.{self.context.preferences.formula}")

        def column(
            key: str,
            show: Callable[[ResultRow], str],
            sort: Callable[[ResultRow], Any] | None = None,
            *,
            to_right: bool = False,
        ) -> Column[ResultRow]:
            return Column(key, words(f"roster.column.{key}"), show, sort, to_right=to_right)

        return Table(
            self.context,
            "roster.results",
            [
                column("day", lambda row: row.day, lambda row: row.result.meet.starts_on),
                column("meet", lambda row: row.meet),
                column("total", lambda row: row.total, lambda row: row.by_total, to_right=True),
                Column(
                    "points",
                    points,
                    lambda row: row.points,
                    lambda row: row.by_points,
                    to_right=True,
                ),
                column("squat", lambda row: row.squat),
                column("bench", lambda row: row.bench),
                column("deadlift", lambda row: row.deadlift),
                column("bodyweight", lambda row: row.bodyweight, to_right=True),
                column("weight_class", lambda row: row.weight_class),
                column("place", lambda row: row.place, lambda row: row.result.entry.place),
            ],
            lambda row: row.result.entry.id,
            about=words("roster.results"),
            empty=words("roster.results.empty"),
        )

    def make_top(self) -> QWidget:
        """How attempts are written."""
        return small(self.words("roster.results.hint"))

    def extra_buttons(self) -> Sequence[QWidget]:
        """A way to add."""
        return (button(self.words("roster.add.result"), self.add),)

    def read_rows(
        self, detail: AthleteDetail, *, everything: bool
    ) -> tuple[Sequence[ResultRow], int]:
        """All results."""
        del everything
        rows = detail.results.rows()
        return rows, len(rows)

    def add(self) -> None:
        """Ask for a result sheet's row."""
        if self.detail is None:
            return
        records = self.detail.results
        form = result_form(self.words, records)
        fill_result_form(form, records, records.new_values())
        title = self.words("roster.add.result")
        self.show_dialog(FormDialog(self.context, title, form, records.add, parent=self))

    def make_dialog(self, detail: AthleteDetail, row: ResultRow) -> FormDialog:
        """A result sheet's row."""
        records = detail.results
        form = result_form(self.words, records)
        fill_result_form(form, records, records.values(row.result))
        return FormDialog(
            self.context,
            self.words("roster.change.result"),
            form,
            lambda values: records.edit(row.result, values),
            parent=self,
        )

    def delete_rows(self, detail: AthleteDetail, rows: Sequence[ResultRow]) -> object:
        """Delete a result."""
        return detail.results.delete(rows[0].result)

    def goes_along(self, detail: AthleteDetail, rows: Sequence[ResultRow]) -> str:
        """Its attempts, and its meet where nothing else is there."""
        return detail.results.goes_along(rows[0].result)
