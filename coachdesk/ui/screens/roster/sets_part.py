"""Logged sets, latest day first."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QWidget

from coachdesk.ui.imports.dialog import import_sets
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import button
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.ui.screens.roster.forms import fill_set_form, set_form
from coachdesk.ui.screens.roster.records_part import RecordsPart
from coachdesk.ui.screens.roster.set_records import SetRow
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.ui.widgets.table import Table


class SetsPart(RecordsPart[SetRow]):
    """The logged sets of the athlete chosen."""

    code = "set"

    def make_table(self) -> Table[SetRow]:
        """Day, lift, weight, repetitions, reserve, call, note."""
        words = self.words
        return Table(
            self.context,
            "roster.sets",
            [
                Column("on", words("roster.column.day"), lambda row: row.day, _on),
                Column("lift", words("roster.column.lift"), lambda row: row.lift),
                Column(
                    "weight",
                    words("roster.column.weight.kg"),
                    lambda row: row.weight,
                    lambda row: row.logged.weight.grams,
                    to_right=True,
                ),
                Column(
                    "reps",
                    words("roster.column.reps"),
                    lambda row: row.reps,
                    lambda row: row.logged.reps,
                    to_right=True,
                ),
                Column(
                    "rir",
                    words("roster.column.rir"),
                    lambda row: row.rir,
                    lambda row: row.logged.rir,
                    to_right=True,
                ),
                Column("call", words("roster.column.call"), lambda row: row.call),
                Column("note", words("roster.column.note"), lambda row: row.note),
            ],
            lambda row: row.logged.id,
            about=words("roster.sets"),
            empty=words("roster.sets.empty"),
            several=True,
        )

    def extra_buttons(self) -> Sequence[QWidget]:
        """Ways to add: one by one, and from a file."""
        words = self.words
        return (
            button(words("roster.add.set"), self.add),
            button(words("sets.open"), self.import_file),
        )

    def import_file(self) -> None:
        """Ask for a file of logged sets; what names nobody in it is the athlete's shown."""
        if self.detail is not None:
            import_sets(self.context, self.detail.athlete, self)

    def read_rows(self, detail: AthleteDetail, *, everything: bool) -> tuple[Sequence[SetRow], int]:
        """The latest sets, or all."""
        self.table.set_head("weight", self.words(f"roster.column.weight.{detail.sets.unit}"))
        return detail.sets.rows(everything=everything)

    def add(self) -> None:
        """Ask for a new set, or several equal ones."""
        if self.detail is None:
            return
        records = self.detail.sets
        form = set_form(self.words, records, several=True)
        fill_set_form(form, records, records.new_values())
        title = self.words("roster.add.set")
        self.show_dialog(FormDialog(self.context, title, form, records.add, parent=self))

    def make_dialog(self, detail: AthleteDetail, row: SetRow) -> FormDialog:
        """A set."""
        records = detail.sets
        form = set_form(self.words, records, several=False)
        fill_set_form(form, records, records.values(row.logged))
        return FormDialog(
            self.context,
            self.words("roster.change.set"),
            form,
            lambda values: records.edit(row.logged, values),
            parent=self,
        )

    def delete_rows(self, detail: AthleteDetail, rows: Sequence[SetRow]) -> object:
        """Delete sets."""
        return detail.sets.delete([row.logged for row in rows])


def _on(row: SetRow) -> object:
    return row.logged.on
