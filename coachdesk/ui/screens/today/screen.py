"""Today: plain lists, each row leading to where it is settled or to whom it is about."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget
from shiboken6 import isValid

from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.plain import action, ask, button, heading, label
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.screens.today.part import Part
from coachdesk.ui.screens.today.presenter import Beginning, MissingRow, Shown, TodayPresenter
from coachdesk.ui.screens.today.tables import (
    concerns_table,
    meets_table,
    missing_table,
)
from coachdesk.ui.theme import GAP, MARGIN, WIDE_GAP
from coachdesk.ui.way import Way
from coachdesk.ui.weights.board_rows import BoardRow
from coachdesk.ui.weights.board_table import board_table
from coachdesk.ui.widgets.fields import DateField, TextField
from coachdesk.ui.widgets.form import Form
from coachdesk.ui.widgets.form_dialog import FormDialog, scrolled
from coachdesk.ui.widgets.screen_head import screen_head
from coachdesk.ui.widgets.table import Table

_CONCERNS_SHOWN, _REST_SHOWN, _MEETS_SHOWN, _BOARD_SHOWN, _MISSING_SHOWN = 10, 4, 5, 8, 8
"""Rows a list shows before it scrolls."""
_NARROW = 900
"""[px]"""


class TodayScreen(Screen):
    """What needs the coach now, over all meets to come."""

    kinds: ClassVar[frozenset[str]] = frozenset(
        {
            "athlete",
            "attempt",
            "entry",
            "handler_duty",
            "logged_set",
            "meet",
            "plan_snapshot",
            "reading",
            "rulebook",
            "session",
            "snooze",
            "weight_plan",
            "kit_check",
            "task",
            "cycle_note",
        }
    )

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        words = self.words
        self.presenter = TodayPresenter(context.desk, words)
        self.day = label(role="quiet")
        self.fault = label(role="bad", wrap=True)
        self.beginning = _Beginning(self)
        self.concerns = Part(
            words("attention.list"),
            concerns_table(context),
            most=_CONCERNS_SHOWN,
            none=words("attention.none"),
        )
        self.put_off = Part(words("attention.resting"), concerns_table(context), most=_REST_SHOWN)
        self.meets = Part(words("today.meets"), meets_table(context), most=_MEETS_SHOWN)
        self.board = Part(
            words("today.board"), board_table(context, "today_board"), most=_BOARD_SHOWN
        )
        self.missing = Part(
            words("today.missing"),
            missing_table(context),
            most=_MISSING_SHOWN,
            none=words("today.missing.none"),
        )
        self._parts = (self.concerns, self.put_off, self.meets, self.board, self.missing)
        self._lay_out()
        self._connect()
        self.setFocusProxy(self.concerns.table)

    def reload(self) -> None:
        """Read anew; where there is much to read, the window does not wait for it."""
        self.context.runner.now(self.presenter.is_slow, then=self._read)

    def _read(self, is_slow: bool) -> None:
        if not is_slow:
            self.context.runner.now(self.presenter.read, then=self._show)
            return
        self.context.runner.background(
            lambda _: self.presenter.read(),
            about=self.words("today.reading"),
            then=self._show_if_there,
            can_stop=False,
            quiet=True,
        )

    def _show_if_there(self, shown: Shown) -> None:
        """The desk may have gone on with another file meanwhile."""
        if isValid(self):
            self._show(shown)

    def _show(self, shown: Shown) -> None:
        self.day.setText(shown.day)
        self.fault.setText(shown.fault)
        self.fault.setVisible(bool(shown.fault))
        self.beginning.show_for(shown.beginning)
        has_meets = bool(shown.meets)
        self._focus_on(self.concerns.table if has_meets else self.beginning.way)
        for part in self._parts:
            part.setVisible(has_meets)
        self.put_off.setVisible(bool(shown.put_off))
        self.concerns.set_rows(shown.concerns)
        self.put_off.set_rows(shown.put_off)
        self.meets.set_rows(shown.meets)
        self.meets.tell("\n".join(row.fault for row in shown.meets if row.fault), role="bad")
        self.board.set_rows(shown.board)
        self.missing.set_rows(shown.missing)
        self._tell_concern()
        self._tell_board()
        self._tell_missing()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where it is narrow, why something needs the coach matters more than since when."""
        super().resizeEvent(event)
        is_narrow = event.size().width() < _NARROW
        for table in (self.concerns.table, self.put_off.table):
            for at, column in enumerate(table.model.columns):
                if column.key == "since":
                    table.view.setColumnHidden(at, is_narrow)

    def _focus_on(self, widget: QWidget) -> None:
        """Let the focus come to what there is to do."""
        had_focus = self.hasFocus()
        self.setFocusProxy(widget)
        if had_focus:
            widget.setFocus()

    def _tell_concern(self) -> None:
        row = self.concerns.table.current_row()
        self.concerns.tell("" if row is None else row.detail)

    def _tell_board(self) -> None:
        row = self.board.table.current_row()
        self.board.tell("" if row is None else row.detail)
        self.board.warn("" if row is None else row.cautions)
        self._agree.setEnabled(row is not None and row.may_agree)

    def _tell_missing(self) -> None:
        row = self.missing.table.current_row()
        self.missing.tell("" if row is None else "\n".join(row.points))

    def settle(self) -> None:
        """Go where the matter chosen is settled."""
        row = self.concerns.table.current_row()
        if row is not None:
            self.go.emit(row.way)

    def ask_put_off(self) -> None:
        """Ask until when and why the matter chosen may rest."""
        row = self.concerns.table.current_row()
        if row is None:
            return
        form = Form(self.words)
        form.add("until", "attention.form.until", DateField(pick=self.words("roster.pick")))
        form.add("reason", "attention.form.reason", TextField())
        form.set_values(self.presenter.first_put_off())
        dialog = FormDialog(
            self.context,
            self.words("attention.put_off.dots"),
            form,
            lambda values: self.presenter.put_off(row, values),
            save_words=self.words("attention.put_off.do"),
            about=row.detail,
            parent=self,
        )
        dialog.exec()
        dialog.deleteLater()

    def bring_back(self) -> None:
        """Let the resting matter chosen need the coach again."""
        row = self.put_off.table.current_row()
        if row is not None:
            self.context.runner.now(lambda: self.presenter.bring_back(row))

    def agree(self) -> None:
        """Ask, and agree on the way down of the athlete chosen on the board."""
        row = self.board.table.current_row()
        words = self.words
        if row is None or not row.may_agree:
            return
        question = words("today.agree.question", name=row.athlete, weight_class=row.weight_class)
        more = f"{row.detail} {row.cautions}"
        if ask(self, question, words("today.agree"), words("today.agree.not"), more=more):
            self.context.runner.now(lambda: self.presenter.agree(row))

    def _connect(self) -> None:
        words = self.words
        self.concerns.table.opened.connect(lambda _: self.settle())
        self.meets.table.opened.connect(lambda meet_id: self.go.emit(Way("meets", meet_id)))
        self.board.table.opened.connect(lambda _: self._to_athlete(self.board.table))
        self.missing.table.opened.connect(lambda _: self._to_meet(self.missing.table))
        self.concerns.table.moved.connect(self._tell_concern)
        self.board.table.moved.connect(self._tell_board)
        self.missing.table.moved.connect(self._tell_missing)
        self.concerns.add_button(words("attention.settle"), self.settle)
        self.concerns.add_button(words("attention.put_off.dots"), self.ask_put_off)
        self.put_off.add_button(words("attention.bring_back"), self.bring_back)
        self._agree = self.board.add_button(words("today.agree"), self.agree)
        for part in (self.board, self.missing):
            part.add_button(words("today.to_athlete"), _leading(self._to_athlete, part.table))
            part.add_button(words("today.to_meet"), _leading(self._to_meet, part.table))

        action(self, words("team.open"), self.weigh_team, shortcuts.TEAM_WEIGHTS)

    def weigh_team(self) -> None:
        """Ask for the weights of the whole team."""
        from coachdesk.ui.weights.team_dialog import weigh_team  # noqa: PLC0415 - a start waits

        weigh_team(self.context, self)

    def _to_athlete(self, table: Table[BoardRow] | Table[MissingRow]) -> None:
        row = table.current_row()
        if row is not None:
            self.go.emit(Way("roster", row.athlete_id))

    def _to_meet(self, table: Table[BoardRow] | Table[MissingRow]) -> None:
        row = table.current_row()
        if row is not None:
            self.go.emit(Way("meets", row.meet_id, part="entries", within=row.id))

    def _lay_out(self) -> None:
        weigh = button(self.words("team.open"), self.weigh_team, hint="Ctrl+Shift+W")
        body = QWidget()
        inner = QVBoxLayout(body)
        inner.setContentsMargins(0, 0, GAP, GAP)
        inner.setSpacing(MARGIN)
        for widget in (self.beginning, *self._parts):
            inner.addWidget(widget)
        inner.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, GAP)
        layout.setSpacing(GAP)
        layout.addLayout(screen_head(self.words, "today", said=self.day, at_right=(weigh,)))
        layout.addWidget(self.fault)
        layout.addWidget(scrolled(body), 1)


class _Beginning(QWidget):
    """What to do first, and the way there."""

    def __init__(self, screen: TodayScreen) -> None:
        super().__init__()
        self._words = screen.words
        self.line = heading()
        self.next = label(wrap=True)
        self.to_roster = button(
            self._words("today.first.roster"), lambda: screen.go.emit(Way("roster")), leading=True
        )
        self.to_meets = button(
            self._words("today.first.meets"), lambda: screen.go.emit(Way("meets")), leading=True
        )
        ways = QHBoxLayout()
        ways.addWidget(self.to_roster)
        ways.addWidget(self.to_meets)
        ways.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, WIDE_GAP, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.line)
        layout.addWidget(self.next)
        layout.addLayout(ways)

    @property
    def way(self) -> QWidget:
        """The button that leads on."""
        return self.to_roster if self.to_meets.isHidden() else self.to_meets

    def show_for(self, beginning: Beginning | None) -> None:
        """Say what is missing altogether; nothing where the desk is under way."""
        self.setVisible(beginning is not None)
        if beginning is None:
            return
        self.line.setText(self._words(f"today.beginning.{beginning}"))
        self.next.setText(self._words(f"today.next.{beginning}"))
        self.to_roster.setVisible(beginning is not Beginning.NO_MEET)
        self.to_meets.setVisible(beginning is Beginning.NO_MEET)


def _leading(
    to: Callable[[Table[BoardRow] | Table[MissingRow]], None],
    table: Table[BoardRow] | Table[MissingRow],
) -> Callable[[], None]:
    return lambda: to(table)
