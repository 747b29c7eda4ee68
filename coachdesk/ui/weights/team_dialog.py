"""The team's weights: a row an athlete, the day, hour and dress once for all, kept in one go."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QGuiApplication, QKeyEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QVBoxLayout, QWidget

from coachdesk.domain.errors import InvalidInput
from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import action, ask, button, label, set_role, small
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.weights.system_days import system_order
from coachdesk.ui.weights.team_presenter import TeamPresenter, TeamRow
from coachdesk.ui.weights.vocabulary import dress_choices
from coachdesk.ui.weights.weight_cell import WeightCell
from coachdesk.ui.widgets.choice_row import ChoiceRow
from coachdesk.ui.widgets.dialog_size import open_at
from coachdesk.ui.widgets.fields import ChoiceField, DateField, TimeField
from coachdesk.ui.widgets.line_report import LineReport
from coachdesk.ui.widgets.table import Table

_SIZE = (1010, 620)
_WIDTHS = {"on": 110, "at": 70, "dress": 150}
"""Sizes [px]."""
_WEIGHT = 3
"""The column that is typed into."""


def weigh_team(context: Context, parent: QWidget) -> None:
    """Ask for the team's weights."""
    context.runner.now(
        lambda: TeamPresenter(context.desk, context.words, system_order()),
        then=lambda presenter: _show(TeamDialog(context, presenter, parent)),
    )


def _show(dialog: TeamDialog) -> None:
    dialog.exec()
    dialog.deleteLater()


class TeamDialog(QDialog):
    """Enter and the arrow down lead to the next row; nothing is kept before Keep."""

    def __init__(self, context: Context, presenter: TeamPresenter, parent: QWidget) -> None:
        super().__init__(parent)
        self._context = context
        self._words = words = context.words
        self._presenter = presenter
        self.setWindowTitle(words("team.title"))
        self.common = ChoiceRow(words)
        self.common.add("on", "roster.field.on", DateField(pick=words("roster.pick")), typed=True)
        self.common.add("at", "roster.field.at", TimeField(), typed=True)
        self.common.add("dress", "roster.field.dress", ChoiceField(dress_choices(words)))
        for key, width in _WIDTHS.items():
            self.common.field(key).control().setFixedWidth(width)
        self.common.set_values(presenter.common_values())
        self.table = self._make_table()
        self.cell = WeightCell(self._name_of_cell, self.table.view)
        self.table.view.setItemDelegateForColumn(_WEIGHT, self.cell)
        self.beside = label(wrap=True)
        self.sentence = label(role="bad", wrap=True)
        self._keep = button("", self.keep, leading=True, hint=words("team.keep.hint"))
        self._lay_out()
        self._connect()
        self.table.set_rows(presenter.rows())
        self._show_state()
        open_at(self, *_SIZE)
        self._edit_row(0)

    def keep(self) -> None:
        """Keep all of it and close; where something is faulty or asked about, go there."""
        self.cell.finish()
        if not self._take_common():
            return
        count = self._presenter.count
        self._context.runner.now(
            self._presenter.keep, then=lambda _: self._kept(count), invalid=self._refuse
        )

    def reject(self) -> None:
        """Leave; weights that are typed are let go only when the coach says so."""
        self.cell.finish()
        words = self._words
        question = words("frame.discard.question")
        if self._presenter.has_typed and not ask(
            self, question, words("frame.discard"), words("frame.go_on")
        ):
            return
        super().reject()

    def paste(self) -> None:
        """Fill in what is on the clipboard, a column from the current row on."""
        self.cell.finish()
        words = QGuiApplication.clipboard().text().rstrip("\r\n")
        if not words.strip():
            return
        lines = [line.split("\t") for line in words.splitlines()]
        first = max(self.table.view.currentIndex().row(), 0)
        refused = self._presenter.paste(lines, first)
        self._show_state()
        if refused:
            sentence = self._words("team.paste.refused", count=len(refused))
            title = self._words("roster.paste.title")
            report = LineReport(self._words, title, sentence, refused, self)
            report.exec()
            report.deleteLater()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter keeps, where no weight is typed."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.keep()
        else:
            super().keyPressEvent(event)

    def _make_table(self) -> Table[TeamRow]:
        words, presenter = self._words, self._presenter
        return Table(
            self._context,
            "team_weights",
            [
                Column("name", words("team.column.name"), lambda row: row.name),
                Column("last", words("team.column.last"), lambda row: row.last, to_right=True),
                Column("last_day", words("team.column.last_day"), lambda row: row.last_day),
                Column(
                    "weight",
                    words("team.column.weight"),
                    lambda row: presenter.typed(row.id),
                    edit=lambda row, typed: presenter.type(row.id, typed),
                    to_right=True,
                ),
                Column("unit", words("team.column.unit"), lambda row: row.unit),
                Column(
                    "remark",
                    words("team.column.remark"),
                    lambda row: presenter.remark(row.id).words,
                    tip=lambda row: presenter.remark(row.id).words,
                    role=lambda row: presenter.remark(row.id).role,
                ),
            ],
            lambda row: row.id,
            about=words("team.list"),
            empty=words("team.nobody"),
            sortable=False,
        )

    def _name_of_cell(self, athlete_id: int) -> str:
        row = next(each for each in self.table.rows if each.id == athlete_id)
        return self._words("team.cell", name=row.name, unit=row.unit)

    def _connect(self) -> None:
        self.table.view.paste_asked.connect(self.paste)
        self.cell.pasted.connect(self.paste)
        self.cell.stepped.connect(self._step)
        self.cell.closeEditor.connect(lambda *_: self._show_state())
        self.table.moved.connect(self._show_beside)
        self.common.edited.connect(self._take_common)
        action(self, self._words("team.keep.plain"), self.keep, shortcuts.SAVE)

    def _step(self, by: int) -> None:
        """To the next row; past the last one to the button that keeps."""
        row = self.table.view.currentIndex().row() + by
        if row >= len(self.table.rows):
            self._keep.setFocus(Qt.FocusReason.TabFocusReason)
        else:
            self._edit_row(max(row, 0))

    def _edit_row(self, row: int) -> None:
        view = self.table.view
        model = view.model()
        if not model.rowCount():
            return
        index = model.index(row, _WEIGHT, QModelIndex())
        view.setFocus(Qt.FocusReason.OtherFocusReason)
        view.setCurrentIndex(index)
        view.edit(index)

    def _take_common(self) -> bool:
        self.common.clear_errors()
        values = self.common.values()
        done = self._context.runner.now(
            lambda: self._presenter.set_common(values), invalid=self.common.show_error
        )
        self._show_state()
        return done

    def _kept(self, count: int) -> None:
        self._context.notices.say(self._words("roster.paste.done", count=count))
        super().accept()

    def _refuse(self, error: InvalidInput) -> None:
        self._show_state()
        self.sentence.setText(self._words.say(error.text))
        self.sentence.show()
        doubtful = self._presenter.first_doubtful()
        if doubtful is not None:
            self.table.select(doubtful, _WEIGHT)
            self.table.setFocus()

    def _show_state(self) -> None:
        self.sentence.hide()
        self._keep.setText(self._words("team.keep", count=self._presenter.count))
        self.table.view.viewport().update()
        self._show_beside()

    def _show_beside(self) -> None:
        """The current row's remark in full: a long one does not fit in its cell."""
        row = self.table.current_row()
        if row is None:
            return
        remark = self._presenter.remark(row.id)
        said = self._words("team.beside", name=row.name, remark=remark.words)
        self.beside.setText(said if remark.words else "")
        set_role(self.beside, remark.role)

    def _lay_out(self) -> None:
        words = self._words
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(button(words("frame.leave"), self.reject))
        buttons.addWidget(self._keep)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(small(words("team.about")))
        layout.addWidget(self.common)
        layout.addWidget(self.table, 1)
        layout.addWidget(self.beside)
        layout.addWidget(self.sentence)
        layout.addWidget(small(words("caution.weight")))
        layout.addLayout(buttons)
