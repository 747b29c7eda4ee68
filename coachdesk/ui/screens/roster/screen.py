"""The Roster: the list on the left, the athlete chosen on the right."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import ClassVar

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QSplitter, QVBoxLayout

from coachdesk.domain.change import Change
from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.imports.dialog import import_athletes, import_weights
from coachdesk.ui.plain import action, small, title
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.ui.screens.roster.detail_side import SECTIONS, DetailSide
from coachdesk.ui.screens.roster.dialogs import ask_form
from coachdesk.ui.screens.roster.forms import new_athlete_form
from coachdesk.ui.screens.roster.handlers_dialog import HandlersDialog
from coachdesk.ui.screens.roster.list_side import ListSide
from coachdesk.ui.screens.roster.presenter import RosterPresenter, Shown
from coachdesk.ui.screens.roster.record_file import write_record_of
from coachdesk.ui.screens.roster.removal import may_delete, may_erase
from coachdesk.ui.theme import GAP, WIDE_GAP
from coachdesk.ui.weights.team_dialog import weigh_team
from coachdesk.ui.widgets.form_dialog import FormDialog
from coachdesk.ui.widgets.unsaved import Answer, ask_unsaved

_SIDES = (5, 6)
"""How the room is shared between list and detail at first."""
_MAKE_TOTALS = frozenset({"athlete", "meet", "entry", "attempt"})


class RosterScreen(Screen):
    """Who the coach's athletes are, what they weigh, what they lift."""

    kinds: ClassVar[frozenset[str]] = frozenset(
        {
            "athlete",
            "reading",
            "cycle_note",
            "logged_set",
            "block",
            "meet",
            "session",
            "entry",
            "weight_plan",
            "attempt",
        }
    )

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self.presenter = RosterPresenter(context.desk, context.words, context.preferences.formula)
        self.list = ListSide(context)
        self.side = DetailSide(context)
        self._wanted: int | None = None
        self._is_asking = False
        self._totals = QTimer(self)
        self._totals.setSingleShot(True)
        self._totals.timeout.connect(self._look_up_totals)
        self._lay_out()
        self._connect()
        self.setFocusProxy(self.list.table)

    def reload(self) -> None:
        """Read the list and the athlete shown anew; who is chosen stays chosen."""
        self.context.runner.now(self.presenter.load, then=lambda _: self._show_anew())

    def _show_anew(self) -> None:
        self._show_rows()
        self._totals.start(0)
        if self.list.table.current_key() is None and self._wanted is not None:
            self.list.table.select(self._wanted)
        self._wanted = None
        self._choose_somebody()
        shown = self.side.detail
        if shown is not None and self.presenter.is_shown(shown.id, Shown.ALL):
            self._show(shown.id)

    def show_record(self, record_id: int) -> None:
        """Show an athlete, whatever is looked for and filtered."""
        self.refresh()
        shown = Shown(self.list.shown.value())
        if not self.presenter.is_shown(record_id, shown):
            self.list.shown.set_value(Shown.ALL)
        self.list.search.clear()
        self._show_rows()
        self.list.table.select(record_id)

    def show_part(self, part: str, within: int) -> None:
        """Go to a section of the athlete shown."""
        del within
        self.side.begin_in(part)

    def make_whole(self) -> None:
        """Make every section of the athlete shown."""
        self.side.make_sections()

    def has_unsaved(self) -> bool:
        """Whether something typed is not kept yet."""
        return self.side.has_unsaved()

    def save_unsaved(self) -> bool:
        """Keep what is typed; answers whether it could be."""
        return self.side.save()

    def add(self) -> None:
        """Ask for a new athlete, and show them."""
        if not self._settle():
            return
        words = self.words
        form = new_athlete_form(words)
        form.set_values(self.presenter.new_values())
        asked = FormDialog(
            self.context,
            words("roster.action.add"),
            form,
            self.presenter.add,
            about=words("roster.add.about"),
            parent=self,
        )
        athlete_id = ask_form(asked, self)
        if isinstance(athlete_id, int):
            self.reload()
            self.show_record(athlete_id)
            self.side.go_to("profile")
            self.list.table.setFocus()

    def archive(self) -> None:
        """Take the athlete out of the daily view, or back into it."""
        shown = self.side.detail
        if shown is not None and self._settle():
            self._want_next(shown.id)
            self.context.runner.now(lambda: self.presenter.detail(shown.id).archive())

    def write_record(self) -> None:
        """Write all that is on file about the athlete shown to a file."""
        shown = self.side.detail
        if shown is not None and self._settle():
            write_record_of(self.context, shown.id, shown.athlete.name, self)

    def delete(self) -> None:
        """Ask, naming what goes along, and delete the athlete."""
        detail = self.side.detail
        if detail is not None and may_delete(self, self.context, detail):
            self._remove(detail, detail.delete, "roster.delete.under_way")

    def erase(self) -> None:
        """Ask twice, the second time for the name, and erase the athlete for good."""
        detail = self.side.detail
        if detail is not None and may_erase(self, self.context, detail):
            self._remove(detail, detail.erase, "roster.erase.under_way")

    def show_handlers(self) -> None:
        """Show the list of handlers."""
        shown = HandlersDialog(self.context, self.presenter, self)
        shown.exec()
        shown.deleteLater()

    def weigh_team(self) -> None:
        """Ask for the weights of the whole team."""
        if self._settle():
            weigh_team(self.context, self)

    def import_weights(self) -> None:
        """Ask for a file of weights."""
        if self._settle():
            import_weights(self.context, self)

    def import_athletes(self) -> None:
        """Ask for a file of athletes."""
        if self._settle():
            import_athletes(self.context, self)

    def _show_rows(self) -> None:
        shown = Shown(self.list.shown.value())
        self.list.table.set_rows(self.presenter.rows(self.list.search.text(), shown))

    def _narrow(self) -> None:
        """Show who is found; where the athlete shown is not among them, the first who is."""
        self._show_rows()
        self._choose_somebody()

    def _choose_somebody(self) -> None:
        """Keep to the athlete shown, else go to the first in the list, unless text is unsaved."""
        table, shown = self.list.table, self.side.detail
        if table.current_key() is None and shown is not None:
            table.select(shown.id)
        if table.current_key() is not None or self.has_unsaved():
            return
        found = table.shown_rows()
        if found:
            table.select(found[0].id)
        else:
            self.side.show_athlete(None)

    def _look_up_totals(self) -> None:
        """Some athletes' best totals at a time, so that the window stays alive."""
        if self.presenter.lacks_totals():
            self.context.runner.now(self.presenter.look_up_totals, then=self._show_totals)

    def _show_totals(self, is_more: bool) -> None:
        if is_more:
            self._totals.start(0)
        else:
            self._show_rows()

    def _row_moved(self) -> None:
        """Show the athlete the list stands on, once what is typed about another is settled."""
        key, shown = self.list.table.current_key(), self.side.detail
        if self._is_asking or not isinstance(key, int):
            return
        if shown is not None and key == shown.id:
            return
        if self._settle():
            self._show(key)
        elif shown is not None:
            self.list.table.select(shown.id)

    def _show(self, athlete_id: int) -> None:
        self.context.runner.now(
            lambda: self.presenter.detail(athlete_id), then=self.side.show_athlete
        )

    def _settle(self) -> bool:
        """Ask what to do with what is typed; answers whether the way is free."""
        detail = self.side.detail
        if detail is None or not self.has_unsaved():
            return True
        self._is_asking = True
        about = self.words("roster.unsaved", name=detail.athlete.name)
        answer = ask_unsaved(self, self.words, about)
        self._is_asking = False
        if answer is Answer.SAVE:
            return self.side.save()
        if answer is Answer.DISCARD:
            self.side.discard()
        return answer is Answer.DISCARD

    def _remove(self, detail: AthleteDetail, task: Callable[[], object], about: str) -> None:
        """Much may go with an athlete: in the background, the next one is shown then."""
        self.side.discard()
        self._want_next(detail.id)
        words = self.words(about, name=detail.athlete.name)
        self.context.runner.background(lambda _: task(), about=words, can_stop=False)

    def _want_next(self, athlete_id: int) -> None:
        """Where the athlete is gone from the list after this, the next one is shown."""
        ids = [row.id for row in self.list.table.shown_rows()]
        at = ids.index(athlete_id) if athlete_id in ids else 0
        neighbours = ids[at + 1 : at + 2] or ids[max(at - 1, 0) : at]
        self._wanted = neighbours[0] if neighbours else None

    def _forget_totals(self, changes: frozenset[Change]) -> None:
        if any(change.kind in _MAKE_TOTALS for change in changes):
            self.presenter.forget_totals()

    def _connect(self) -> None:
        self.context.changed.changed.connect(self._forget_totals)
        self.list.narrowed.connect(self._narrow)
        self.list.add_asked.connect(self.add)
        self.list.handlers_asked.connect(self.show_handlers)
        self.list.weigh_asked.connect(self.weigh_team)
        self.list.weights_asked.connect(self.import_weights)
        self.list.athletes_asked.connect(self.import_athletes)
        self.list.table.moved.connect(self._row_moved)
        self.list.table.opened.connect(lambda _: self.side.focus_section())
        self.list.table.delete_asked.connect(self.delete)
        self.side.archive_asked.connect(self.archive)
        self.side.record_asked.connect(self.write_record)
        self.side.delete_asked.connect(self.delete)
        self.side.erase_asked.connect(self.erase)
        self.side.was_put_back.connect(self.reload)
        words = self.words
        action(self, words("roster.action.add"), self.add, shortcuts.NEW)
        action(self, words("roster.action.find"), self.list.focus_search, shortcuts.FIND)
        action(self, words("roster.action.save"), self.side.save, shortcuts.SAVE)
        action(self, words("team.open"), self.weigh_team, shortcuts.TEAM_WEIGHTS)
        action(self, words("weights.open"), self.import_weights, "Ctrl+I")
        action(self, words("athletes.open"), self.import_athletes, "Ctrl+Shift+I")
        for at, section in enumerate(SECTIONS, start=1):
            go = words("roster.action.section", section=words(f"roster.section.{section}"))
            action(self, go, partial(self.side.begin_in, section), f"Alt+{at}")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leads back to the list."""
        if event.key() == Qt.Key.Key_Escape:
            self.list.table.setFocus()
        else:
            super().keyPressEvent(event)

    def _lay_out(self) -> None:
        splitter = QSplitter(Qt.Orientation.Horizontal)
        splitter.setChildrenCollapsible(False)
        splitter.addWidget(self.list)
        splitter.addWidget(self.side)
        for at, share in enumerate(_SIDES):
            splitter.setStretchFactor(at, share)
        splitter.setSizes([share * 100 for share in _SIDES])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, GAP)
        layout.setSpacing(GAP)
        head = QHBoxLayout()
        head.setSpacing(WIDE_GAP)
        head.addWidget(title(self.words("screen.roster")))
        head.addWidget(small(self.words("screen.roster.about")), 1)
        layout.addLayout(head)
        layout.addWidget(splitter, 1)
