"""Today: three plain lists, each row leading to the athlete or the meet it is about."""

from __future__ import annotations

from collections.abc import Callable
from typing import ClassVar

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget
from shiboken6 import isValid

from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import action, button, heading, label, small, title
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.screens.today.part import Part
from coachdesk.ui.screens.today.presenter import (
    AboveRow,
    Beginning,
    MeetRow,
    MissingRow,
    Shown,
    TodayPresenter,
)
from coachdesk.ui.theme import GAP, MARGIN, WIDE_GAP
from coachdesk.ui.weights.team_dialog import weigh_team
from coachdesk.ui.widgets.form_dialog import scrolled
from coachdesk.ui.widgets.table import Table

_MEETS_SHOWN, _ABOVE_SHOWN, _MISSING_SHOWN = 5, 6, 10
"""Rows a list shows before it scrolls."""


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
        }
    )

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        words = self.words
        self.presenter = TodayPresenter(context.desk, words)
        self.day = label(role="quiet")
        self.beginning = _Beginning(self)
        self.meets = Part(words("today.meets"), self._meets_table(), most=_MEETS_SHOWN)
        self.above = Part(
            words("today.above"),
            self._above_table(),
            most=_ABOVE_SHOWN,
            none=words("today.above.none"),
        )
        self.missing = Part(
            words("today.missing"),
            self._missing_table(),
            most=_MISSING_SHOWN,
            none=words("today.missing.none"),
        )
        self._lay_out()
        self._connect()
        self.setFocusProxy(self.meets.table)

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
        self.beginning.show_for(shown.beginning)
        has_meets = bool(shown.meets)
        for part in (self.meets, self.above, self.missing):
            part.setVisible(has_meets)
        self.meets.set_rows(shown.meets)
        self.meets.tell("\n".join(row.fault for row in shown.meets if row.fault), role="bad")
        self.above.set_rows(shown.above)
        self.missing.set_rows(shown.missing)
        self._tell_above()
        self._tell_missing()

    def _tell_above(self) -> None:
        row = self.above.table.current_row()
        self.above.tell("" if row is None else row.detail)
        self.above.warn("" if row is None else row.cautions)

    def _tell_missing(self) -> None:
        row = self.missing.table.current_row()
        self.missing.tell("" if row is None else "\n".join(row.points))

    def _meets_table(self) -> Table[MeetRow]:
        words = self.words
        return Table(
            self.context,
            "today_meets",
            [
                Column("name", words("today.meet"), lambda row: row.name),
                Column("day", words("today.day"), lambda row: row.day),
                Column("to_go", words("today.to_go"), lambda row: row.countdown),
                Column(
                    "deadline",
                    words("today.entries_close"),
                    lambda row: row.deadline,
                    role=lambda row: "warn" if row.urgent else "",
                ),
                Column(
                    "entries",
                    words("today.entries"),
                    lambda row: str(row.entries),
                    to_right=True,
                ),
                Column(
                    "open",
                    words("today.open_points"),
                    lambda row: words("today.unknown") if row.fault else str(row.open_points),
                    to_right=True,
                ),
                Column("place", words("today.place"), lambda row: row.place),
            ],
            lambda row: row.id,
            about=words("today.meets"),
            sortable=False,
        )

    def _above_table(self) -> Table[AboveRow]:
        words, unit = self.words, self.words.unit
        return Table(
            self.context,
            "today_above",
            [
                Column("athlete", words("today.athlete"), lambda row: row.athlete),
                Column("class", words("today.class"), lambda row: row.weight_class),
                Column(
                    "gap",
                    words("today.gap", unit=unit),
                    lambda row: row.gap,
                    to_right=True,
                ),
                Column(
                    "rate",
                    words("today.rate"),
                    lambda row: row.rate,
                    to_right=True,
                ),
                Column(
                    "verdict",
                    words("today.verdict"),
                    lambda row: row.verdict,
                    role=lambda row: row.role,
                ),
                Column(
                    "weeks",
                    words("today.weeks"),
                    lambda row: row.weeks,
                    to_right=True,
                ),
                Column(
                    "start",
                    words("today.start"),
                    lambda row: row.start,
                ),
                Column("meet", words("today.meet"), lambda row: row.meet),
            ],
            lambda row: row.id,
            about=words("today.above"),
            sortable=False,
        )

    def _missing_table(self) -> Table[MissingRow]:
        words = self.words
        return Table(
            self.context,
            "today_missing",
            [
                Column("athlete", words("today.athlete"), lambda row: row.athlete),
                Column("meet", words("today.meet"), lambda row: row.meet),
                Column(
                    "count",
                    words("today.open_points"),
                    lambda row: str(row.count),
                    to_right=True,
                ),
                Column("points", words("today.points"), lambda row: row.summary),
            ],
            lambda row: row.id,
            about=words("today.missing"),
            sortable=False,
        )

    def _connect(self) -> None:
        words = self.words
        self.meets.table.opened.connect(lambda meet_id: self.go.emit("meets", meet_id))
        self.above.table.opened.connect(lambda _: self._to_athlete(self.above.table))
        self.missing.table.opened.connect(lambda _: self._to_meet(self.missing.table))
        self.above.table.moved.connect(self._tell_above)
        self.missing.table.moved.connect(self._tell_missing)
        for part in (self.above, self.missing):
            part.add_button(words("today.to_athlete"), _leading(self._to_athlete, part.table))
            part.add_button(words("today.to_meet"), _leading(self._to_meet, part.table))

        action(self, words("team.open"), self.weigh_team, shortcuts.TEAM_WEIGHTS)

    def weigh_team(self) -> None:
        """Ask for the weights of the whole team."""
        weigh_team(self.context, self)

    def _to_athlete(self, table: Table[AboveRow] | Table[MissingRow]) -> None:
        row = table.current_row()
        if row is not None:
            self.go.emit("roster", row.athlete_id)

    def _to_meet(self, table: Table[AboveRow] | Table[MissingRow]) -> None:
        row = table.current_row()
        if row is not None:
            self.go.emit("meets", row.meet_id)

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(title(self.words("screen.today")))
        head.addSpacing(WIDE_GAP)
        head.addWidget(self.day)
        head.addStretch(1)
        head.addWidget(button(self.words("team.open"), self.weigh_team, hint="Ctrl+W"))
        body = QWidget()
        inner = QVBoxLayout(body)
        inner.setContentsMargins(0, 0, GAP, GAP)
        inner.setSpacing(MARGIN)
        for widget in (self.beginning, self.meets, self.above, self.missing):
            inner.addWidget(widget)
        inner.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(GAP)
        layout.addLayout(head)
        layout.addWidget(small(self.words("screen.today.about")))
        layout.addWidget(scrolled(body), 1)


class _Beginning(QWidget):
    """What to do first, and the way there."""

    def __init__(self, screen: TodayScreen) -> None:
        super().__init__()
        self._words = screen.words
        self.line = heading()
        self.next = label(wrap=True)
        self.to_roster = button(
            self._words("today.first.roster"), lambda: screen.go.emit("roster", 0), leading=True
        )
        self.to_meets = button(
            self._words("today.first.meets"), lambda: screen.go.emit("meets", 0), leading=True
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
    to: Callable[[Table[AboveRow] | Table[MissingRow]], None],
    table: Table[AboveRow] | Table[MissingRow],
) -> Callable[[], None]:
    return lambda: to(table)
