"""Meets: the list on the left, the meet chosen on the right."""

from __future__ import annotations

from pathlib import Path
from typing import ClassVar

from PySide6.QtCore import Qt, QTimeZone
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QSizePolicy,
    QSplitter,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from coachdesk.domain.text import Text
from coachdesk.services.calendar_file import CalendarWritten
from coachdesk.services.desk import Done
from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.plain import action, ask, small
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.screens.meets.calendar_dialog import CalendarDialog
from coachdesk.ui.screens.meets.calendar_presenter import CalendarPresenter
from coachdesk.ui.screens.meets.enter_dialog import EnterDialog
from coachdesk.ui.screens.meets.enter_presenter import EnterPresenter
from coachdesk.ui.screens.meets.entries_part import EntriesPart
from coachdesk.ui.screens.meets.kit_part import KitPart
from coachdesk.ui.screens.meets.meet_form import meet_form
from coachdesk.ui.screens.meets.meet_list import MeetList
from coachdesk.ui.screens.meets.page_head import PageHead
from coachdesk.ui.screens.meets.page_view import PageView
from coachdesk.ui.screens.meets.plans_part import PlansPart
from coachdesk.ui.screens.meets.presenter import MeetsPresenter
from coachdesk.ui.screens.meets.print_dialog import PrintDialog, first_folder
from coachdesk.ui.screens.meets.print_presenter import Outcome, PrintPresenter
from coachdesk.ui.screens.meets.sessions_part import SessionsPart
from coachdesk.ui.screens.meets.tall_part import Tall
from coachdesk.ui.screens.meets.warm_ups_part import WarmUpsPart
from coachdesk.ui.screens.meets.weight_part import WeightPart
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.form_dialog import FormDialog, scrolled
from coachdesk.ui.widgets.screen_head import screen_head

_SIDES = (205, 1000)
"""How the room is shared between list and page at first."""
_NARROW, _NARROW_SIDES = 900, (170, 590)
"""Below this width [px], where the page needs the room."""


class MeetsScreen(Screen):
    """Keeps meets, their sessions, entries and attempts, and prints them.

    Kit checks and tasks are the business of one tab, which reads by itself when one is ticked.
    """

    kinds: ClassVar[frozenset[str]] = frozenset(
        {
            "meet", "session", "flight", "entry", "entry_flight", "handler_duty", "handler",
            "attempt", "plan_snapshot", "athlete", "reading", "logged_set", "weight_plan",
            "cycle_note",
        }
    )  # fmt: skip

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self.presenter = MeetsPresenter(context.desk, context.words)
        self.page: PageView | None = None
        self.list = MeetList(context)
        self.head = PageHead(context.words)
        self.entries = EntriesPart(context, self.presenter)
        self.plans = PlansPart(context)
        self.warm_ups = WarmUpsPart(context)
        self.sessions = SessionsPart(context, self.presenter)
        self.weight = WeightPart(context)
        self.kit = KitPart(context)
        self._tables: dict[str, EntriesPart | PlansPart | WeightPart | KitPart] = {
            "kit": self.kit,
            "plans": self.plans,
            "weight": self.weight,
        }
        self._is_settling = False
        self._is_narrow = False
        self._lay_out()
        self._connect()
        self.setFocusProxy(self.list)
        self._show_page(None)

    def reload(self) -> None:
        """Read the list and the meet shown anew; who is chosen stays chosen."""
        self.list.set_rows(self.presenter.rows())
        self._load(self.list.current_id())

    def show_record(self, record_id: int) -> None:
        """Show a meet."""
        self.refresh()
        self.list.select(record_id)

    def show_part(self, part: str, within: int) -> None:
        """Go to a tab of the meet shown, and to an entry on it."""
        widget = self._tables.get(part, self.entries)
        self.tabs.setCurrentWidget(widget)
        widget.table.select(within)
        widget.table.setFocus()

    def has_unsaved(self) -> bool:
        """Whether something typed is not kept yet."""
        return self.entries.has_unsaved() or self.plans.has_unsaved()

    def save_unsaved(self) -> bool:
        """Keep what is typed; answers whether it could be."""
        return self.entries.save() and not self.plans.has_unsaved()

    def begin_new(self, name: str) -> None:
        """Ask for a new meet of this name."""
        self.add(name)

    def add(self, name: str = "") -> None:
        """Ask for a new meet, and show it."""
        zone = bytes(QTimeZone.systemTimeZoneId().data()).decode()
        values = {**self.presenter.new_meet_values(zone), "name": name}
        dialog = self._meet_dialog(values, is_new=True)
        if name:
            dialog.form.field("starts_on").control().setFocus()
        dialog.exec()
        if isinstance(dialog.answer, int):
            self.reload()
            self.list.select(dialog.answer)
            if dialog.goes_on:
                self.enter()
        dialog.deleteLater()

    def edit(self) -> None:
        """Ask for changes to the meet shown."""
        if self.page is None:
            return
        dialog = self._meet_dialog(self.presenter.meet_values(), is_new=False)
        dialog.exec()
        if isinstance(dialog.answer, tuple):
            self._say(dialog.answer)
        dialog.deleteLater()

    def delete(self) -> None:
        """Ask, saying what goes along, and delete the meet shown."""
        page, words = self.page, self.words
        if page is None:
            return
        question = words("meets.delete.meet", name=page.title)
        more = self.presenter.meet_deletion()
        if ask(self, question, words("meets.delete.yes"), words("meets.delete.no"), more=more):
            self.entries.panel.put_back()
            self.context.runner.now(self.presenter.delete_meet)

    def enter(self) -> None:
        """Ask whom to enter."""
        if self.page is None:
            return

        def show(presenter: EnterPresenter) -> None:
            dialog = EnterDialog(self.context, presenter, self)
            dialog.exec()
            dialog.deleteLater()
            if dialog.entered:
                self._begin_entry(dialog.entered[-1])

        self.context.runner.now(self.presenter.entering, then=show)

    def plan_all(self) -> None:
        """Plan the attempts of all entries in the background."""
        if self.page is not None:
            self.context.runner.background(
                self.presenter.plan_all(),
                about=self.words("meets.plan_all.about"),
                then=self._planned,
            )

    def print(self) -> None:
        """Ask what to print of the meet shown, and print it."""
        if self.page is None:
            return
        chosen = [row.id for row in self.entries.table.selected_rows()]
        presenter = PrintPresenter(self.context.desk, self.words, self.page)
        dialog = PrintDialog(self.context, presenter, chosen, self)
        dialog.exec()
        dialog.deleteLater()

    def print_entry(self) -> None:
        """Print the sheets of the entry shown, into the folder printed to last."""
        entry_id, context = self.entries.panel.shown_id, self.context
        if self.page is None or entry_id is None:
            return
        presenter = PrintPresenter(context.desk, self.words, self.page)
        choice = presenter.own_sheets(entry_id, context.preferences.paper)

        def tell(outcome: Outcome) -> None:
            trouble = presenter.trouble(outcome)
            if trouble:
                context.notices.trouble(" ".join(trouble))
            else:
                context.notices.say(presenter.done(outcome))

        context.runner.background(
            presenter.task(context.printing, Path(first_folder(context)), choice),
            about=presenter.title,
            then=tell,
        )

    def _begin_entry(self, entry_id: int) -> None:
        """Go on with an entry just made: at its opener."""
        self.reload()
        self.show_part("entries", entry_id)
        self.entries.panel.grid.focus_first()

    def write_calendar(self) -> None:
        """Ask what goes into a calendar file, and write it."""
        if self.page is None:
            return
        presenter = CalendarPresenter(self.context.desk, self.words, self.page)
        dialog = CalendarDialog(self.context, presenter, self)
        dialog.exec()
        if isinstance(dialog.answer, CalendarWritten):
            self.context.notices.say(presenter.done(dialog.answer))
        dialog.deleteLater()

    def _load(self, meet_id: int | None) -> None:
        if meet_id is None or not self.context.runner.now(
            lambda: self.presenter.page(meet_id), then=self._show_page
        ):
            self._show_page(None)

    def _show_page(self, page: PageView | None) -> None:
        self.page = page
        self._nothing.setVisible(page is None and not self.list.is_empty)
        self._right.setVisible(page is not None)
        if page is None:
            return
        self.head.show_page(page)
        self.entries.show_page(page)
        self.plans.show_meet(page.meet_id)
        self.weight.show_meet(page.meet_id)
        self.kit.show_meet(page.meet_id)
        self.warm_ups.show_entries(page.entries)
        self.sessions.show_page(page)

    def _meet_moved(self) -> None:
        """Show the meet the list stands on, once what is typed is settled."""
        meet_id = self.list.current_id()
        if self._is_settling or (self.page is not None and meet_id == self.page.meet_id):
            return
        self._is_settling = True
        if self.entries.settle():
            self.entries.panel.show_entry(None)
            self._load(meet_id)
        elif self.page is not None:
            self.list.select(self.page.meet_id)
        self._is_settling = False

    def _meet_dialog(self, values: dict[str, str], *, is_new: bool) -> FormDialog:
        words, presenter = self.words, self.presenter
        form = meet_form(
            words,
            presenter.rulebook_choices(values["rulebook"]),
            presenter.time_zone_choices(),
            is_new=is_new,
        )
        form.set_values(values)
        return FormDialog(
            self.context,
            words("meets.form.new" if is_new else "meets.form.edit"),
            form,
            presenter.add_meet if is_new else presenter.edit_meet,
            go_on_words=words("meets.form.enter") if is_new else "",
            parent=self,
        )

    def _planned(self, done: Done[tuple[Text, ...]]) -> None:
        if not done.value:
            self.context.notices.say(self.words("meets.plan_all.done"))
        self._say(done.value)

    def _say(self, told: tuple[Text, ...]) -> None:
        if told:
            self.context.notices.trouble(" ".join(self.words.say(each) for each in told))

    def _focus_page(self) -> None:
        if self.page is not None:
            self.tabs.setCurrentIndex(0)
            self.entries.table.setFocus()

    def _focus_part(self, part: PlansPart | WeightPart | KitPart) -> None:
        if self.page is not None:
            self.tabs.setCurrentWidget(part)
            part.table.setFocus()

    def _connect(self) -> None:
        self.list.moved.connect(self._meet_moved)
        self.list.opened.connect(self._focus_page)
        self.list.add_asked.connect(self.add)
        self.list.delete_asked.connect(self.delete)
        self.weight.go.connect(self.go)
        self.head.enter_asked.connect(self.enter)
        self.head.print_asked.connect(self.print)
        self.head.plan_asked.connect(self.plan_all)
        self.entries.panel.print_asked.connect(self.print_entry)
        self.head.calendar_asked.connect(self.write_calendar)
        self.head.edit_asked.connect(self.edit)
        self.head.delete_asked.connect(self.delete)
        words = self.words
        for code, then, keys in (
            ("meets.action.add", self.add, shortcuts.NEW),
            ("meets.action.calendar", self.write_calendar, "Ctrl+Shift+D"),
            ("meets.action.edit", self.edit, "Ctrl+M"),
            ("meets.action.enter", self.enter, "Ctrl+T"),
            ("meets.action.find", self.entries.focus_search, shortcuts.FIND),
            ("meets.action.plan_all", self.plan_all, "Ctrl+Shift+L"),
            ("meets.action.plans", lambda: self._focus_part(self.plans), "Ctrl+Shift+T"),
            ("meets.action.kit", lambda: self._focus_part(self.kit), "Ctrl+Shift+K"),
            ("meets.action.weight", lambda: self._focus_part(self.weight), "Ctrl+Shift+C"),
            ("meets.action.print", self.print, shortcuts.PRINT),
        ):
            action(self, words(code), then, keys)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The list gives way on a small screen."""
        super().resizeEvent(event)
        is_narrow = event.size().width() < _NARROW
        if is_narrow is not self._is_narrow:
            self._is_narrow = is_narrow
            self._splitter.setSizes(list(_NARROW_SIDES if is_narrow else _SIDES))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leads back: from an entry or a plan to the table, from there to the list."""
        if event.key() != Qt.Key.Key_Escape:
            super().keyPressEvent(event)
            return
        parts = (self.plans, self.weight, self.kit)
        table = next((part.table for part in parts if part.isVisible()), self.entries.table)
        if table.view.hasFocus():
            self.list.setFocus()
        else:
            table.setFocus()

    def _lay_out(self) -> None:
        words = self.words
        self._nothing = small(words("meets.nothing_chosen"))
        self._right = self._page_side()
        both = QWidget()
        inner = QVBoxLayout(both)
        inner.setContentsMargins(0, 0, 0, 0)
        inner.addWidget(self._nothing, 0, Qt.AlignmentFlag.AlignTop)
        inner.addWidget(self._right, 1)
        self._splitter = splitter = QSplitter(Qt.Orientation.Horizontal)
        splitter.addWidget(self.list)
        splitter.addWidget(both)
        splitter.setCollapsible(1, False)
        splitter.setStretchFactor(1, 1)
        splitter.setSizes(list(_SIDES))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, GAP)
        layout.setSpacing(GAP)
        layout.addLayout(screen_head(words, "meets"))
        layout.addWidget(splitter, 1)

    def _give_room(self) -> None:
        """No tab scrolls in itself: the page scrolls as a whole."""
        part = self.tabs.currentWidget()
        if isinstance(part, Tall):
            self.tabs.setMinimumHeight(part.needed_height() + self.tabs.tabBar().height())

    def _page_side(self) -> QWidget:
        words = self.words
        self.tabs = QTabWidget()
        self.tabs.setDocumentMode(True)
        policies = QSizePolicy.Policy
        self.tabs.setSizePolicy(policies.Expanding, policies.Ignored)
        parts: tuple[tuple[str, Tall], ...] = (
            ("entries", self.entries),
            ("plans", self.plans),
            ("weight", self.weight),
            ("kit", self.kit),
            ("warm_ups", self.warm_ups),
            ("sessions", self.sessions),
        )
        for name, part in parts:
            self.tabs.addTab(part, words(f"meets.tab.{name}"))
            part.height_changed.connect(self._give_room)
        self.tabs.currentChanged.connect(self._give_room)
        side = QWidget()
        layout = QVBoxLayout(side)
        layout.setContentsMargins(GAP, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        layout.addWidget(self.head)
        layout.addWidget(self.tabs, 1)
        return scrolled(side)
