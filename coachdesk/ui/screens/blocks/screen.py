"""Blocks: athletes and their blocks at the left; weeks and what comes of them at the right."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import ClassVar

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QSplitter, QTabWidget, QVBoxLayout, QWidget
from shiboken6 import isValid

from coachdesk.ui import shortcuts
from coachdesk.ui.context import Context
from coachdesk.ui.plain import action, without_mnemonic
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.screens.blocks.calendar_part import CalendarPart
from coachdesk.ui.screens.blocks.deeds import BlockDeeds
from coachdesk.ui.screens.blocks.list_side import ListSide
from coachdesk.ui.screens.blocks.load_part import LoadPart
from coachdesk.ui.screens.blocks.presenter import BlockRow, BlocksPresenter
from coachdesk.ui.screens.blocks.strength_part import StrengthPart
from coachdesk.ui.screens.blocks.team_part import TeamPart
from coachdesk.ui.screens.blocks.team_rows import TeamShown
from coachdesk.ui.screens.blocks.weeks_part import WeeksPart
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.screen_head import screen_head
from coachdesk.ui.widgets.unsaved import Answer, ask_unsaved

_SIDES = (270, 810)
"""How the width is shared [px], and in what proportion it grows."""


class BlocksScreen(Screen):
    """Training blocks, week by week."""

    kinds: ClassVar[frozenset[str]] = frozenset(
        {
            "athlete",
            "block",
            "training_maximum",
            "exercise",
            "planned_set",
            "training_day",
            "logged_set",
            "meet",
            "entry",
            "disc_set",
        }
    )

    def __init__(self, context: Context) -> None:
        super().__init__(context)
        self.presenter = BlocksPresenter(context.desk, context.words)
        self.deeds = BlockDeeds(context, self.presenter, self)
        self.list = ListSide(context)
        self.weeks = WeeksPart(context, self.deeds)
        self.tabs = QTabWidget()
        self.calendar = CalendarPart(context)
        self.load = LoadPart(context)
        self.strength = StrengthPart(context)
        self.team = TeamPart(context)
        self._parts: tuple[tuple[str, QWidget, Callable[[], object]], ...] = (
            ("weeks", self.weeks, lambda: None),
            ("calendar", self.calendar, self._fill_calendar),
            ("load", self.load, self._fill_load),
            ("strength", self.strength, self._fill_strength),
            ("team", self.team, self._fill_team),
        )
        self._filled: set[int] = set()
        self._athlete_id: int | None = None
        self._is_asking = False
        self._lay_out()
        self._connect()
        self.setFocusProxy(self.list.athletes)

    def refresh(self) -> None:
        """Read anew where something has changed, but never under the hands of who is typing."""
        if not self.weeks.grid.is_typing:
            super().refresh()

    def reload(self) -> None:
        """Read anew and show; who and what is chosen stays chosen."""
        self.context.runner.now(self.presenter.load, then=lambda _: self._show_anew())

    def show_record(self, record_id: int) -> None:
        """Show an athlete's blocks."""
        self.refresh()
        self.list.search.clear()
        self.list.athletes.select(record_id)

    def show_part(self, part: str, within: int) -> None:
        """Go to a block of the athlete shown."""
        del part
        self.list.blocks.select(within)

    def has_unsaved(self) -> bool:
        """Whether something typed is not kept yet."""
        return self.weeks.model.has_drafts

    def save_unsaved(self) -> bool:
        """What could not be taken stays where it was typed."""
        return not self.has_unsaved()

    def add(self) -> None:
        """Ask for a new block, and show it."""
        self._start(self.deeds.add_block)

    def generate(self) -> None:
        """Lay out blocks to a meet, and show the first."""
        self._start(self.deeds.generate)

    def from_template(self) -> None:
        """Ask for a template, and show the block made of it."""
        self._start(self.deeds.from_template)

    def _start(self, deed: Callable[[int], object]) -> None:
        if self._athlete_id is not None and self._settle():
            self._go_to_block(deed(self._athlete_id))

    def _show_anew(self) -> None:
        self.list.athletes.set_rows(self.presenter.athletes(self.list.search.text()))
        rows = self.list.athletes.shown_rows()
        if self.list.athletes.current_key() is None and rows:
            self.list.athletes.select(rows[0].id)
        self._show_athlete()

    def _narrow(self) -> None:
        self.list.athletes.set_rows(self.presenter.athletes(self.list.search.text()))
        rows = self.list.athletes.shown_rows()
        if self.list.athletes.current_key() is None and rows and not self.has_unsaved():
            self.list.athletes.select(rows[0].id)

    def _athlete_moved(self) -> None:
        key = self.list.athletes.current_key()
        if self._is_asking or key == self._athlete_id or not isinstance(key, int):
            return
        if self._settle():
            self._show_athlete()
        else:
            self.list.athletes.select(self._athlete_id)

    def _show_athlete(self) -> None:
        key = self.list.athletes.current_key()
        other = key != self._athlete_id
        self._athlete_id = key if isinstance(key, int) else None
        if self._athlete_id is None:
            self._show_blocks((), other=other)
            return
        athlete_id = self._athlete_id
        self.context.runner.now(
            lambda: self.presenter.blocks(athlete_id),
            then=lambda rows: self._show_blocks(rows, other=other),
        )

    def _show_blocks(self, rows: tuple[BlockRow, ...], *, other: bool) -> None:
        blocks = self.list.blocks
        blocks.view.selectionModel().blockSignals(True)
        blocks.set_rows(rows)
        if other or blocks.current_key() is None:
            blocks.select(self.presenter.present(rows))
        blocks.view.selectionModel().blockSignals(False)
        self._show_block()

    def _block_moved(self) -> None:
        key, shown = self.list.blocks.current_key(), self.weeks.block
        if self._is_asking or not isinstance(key, int):
            return
        if shown is not None and key == shown.id:
            return
        if self._settle():
            self._show_block()
        elif shown is not None:
            self.list.blocks.select(shown.id)

    def _show_block(self) -> None:
        """Show the block chosen in the weeks, and whatever the tab that is seen makes of it."""
        key = self.list.blocks.current_key()
        if isinstance(key, int):
            self.context.runner.now(lambda: self.presenter.open(key), then=self.weeks.show_block)
        else:
            self.weeks.show_block(None, self._next_step())
        self._filled.clear()
        self._fill_tab()

    def _fill_tab(self) -> None:
        at = self.tabs.currentIndex()
        if at not in self._filled:
            self._filled.add(at)
            self._parts[at][2]()

    def _fill_load(self) -> None:
        self.load.show_block(self.weeks.block, self._next_step())

    def _next_step(self) -> str:
        """What to do where there is no block."""
        return self.words("blocks.nobody" if self._athlete_id is None else "blocks.none")

    def _fill_calendar(self) -> None:
        athlete_id = self._athlete_id
        if athlete_id is not None:
            self.context.runner.now(
                lambda: self.presenter.calendar(athlete_id), then=self.calendar.show_calendar
            )

    def _fill_strength(self) -> None:
        athlete_id, lift = self._athlete_id, self.strength.lift
        if athlete_id is None:
            self.strength.show_history(None)
            return
        self.context.runner.now(
            lambda: self.presenter.strength(athlete_id, lift), then=self.strength.show_history
        )

    def _fill_team(self) -> None:
        """In the background: the forecasts of a hundred entries take most of a second."""
        self.context.runner.background(
            lambda _progress: self.presenter.team(),
            about=self.words("blocks.team"),
            then=self._show_team,
            can_stop=False,
            quiet=True,
        )

    def _show_team(self, shown: TeamShown) -> None:
        if isValid(self):
            self.team.show_team(shown)

    def _go_to_athlete(self, athlete_id: object) -> None:
        if isinstance(athlete_id, int):
            self.show_record(athlete_id)
            self._begin_in(0)

    def _go_to_block(self, block_id: object) -> None:
        if isinstance(block_id, int):
            self.refresh()
            self.list.blocks.select(block_id)
            self.tabs.setCurrentIndex(0)
            self.weeks.begin()

    def _settle(self) -> bool:
        """Ask what becomes of cells that are not kept; answers whether the way is free."""
        if not self.has_unsaved():
            return True
        self._is_asking = True
        answer = ask_unsaved(self, self.words, self.words("blocks.unsaved"))
        self._is_asking = False
        if answer is Answer.DISCARD:
            self.weeks.model.forget_drafts()
        return answer is Answer.DISCARD

    def _begin_in(self, at: int) -> None:
        self.tabs.setCurrentIndex(at)
        part = self._parts[at][1]
        if part is self.weeks:
            self.weeks.begin()
        else:
            part.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape leads back to the list."""
        if event.key() == Qt.Key.Key_Escape:
            self.list.blocks.setFocus()
        else:
            super().keyPressEvent(event)

    def _connect(self) -> None:
        words = self.words
        self.list.narrowed.connect(self._narrow)
        self.list.add_asked.connect(self.add)
        self.list.generate_asked.connect(self.generate)
        self.list.template_asked.connect(self.from_template)
        self.list.athletes.moved.connect(self._athlete_moved)
        self.list.athletes.opened.connect(lambda _: self.list.blocks.setFocus())
        self.list.blocks.moved.connect(self._block_moved)
        self.list.blocks.opened.connect(lambda _: self._begin_in(0))
        self.list.blocks.delete_asked.connect(self.deeds.delete_block)
        self.weeks.grid.rested.connect(lambda: QTimer.singleShot(0, self, self.refresh))
        self.tabs.currentChanged.connect(lambda _: self._fill_tab())
        self.calendar.opened.connect(self._go_to_block)
        self.strength.lift_chosen.connect(self._fill_strength)
        self.team.opened.connect(self._go_to_athlete)
        self.weeks.left.connect(self.list.blocks.setFocus)
        action(self, words("blocks.action.add"), self.add, shortcuts.NEW)
        action(self, words("blocks.action.generate"), self.generate, "Ctrl+Shift+G")
        action(self, words("blocks.action.template"), self.from_template, "Ctrl+T")
        action(self, words("blocks.action.find"), self.list.focus_search, shortcuts.FIND)
        for at in range(self.tabs.count()):
            go = words("blocks.action.tab", tab=self.tabs.tabText(at))
            action(self, go, partial(self._begin_in, at), f"Alt+{at + 1}")

    def _lay_out(self) -> None:
        words = self.words
        self.tabs.setAccessibleName(words("blocks.tabs"))
        self.tabs.setDocumentMode(True)
        for key, part, _ in self._parts:
            self.tabs.addTab(part, without_mnemonic(words(f"blocks.tab.{key}")))
        splitter = QSplitter(Qt.Orientation.Horizontal)
        splitter.setChildrenCollapsible(False)
        splitter.addWidget(self.list)
        splitter.addWidget(self.tabs)
        for at, share in enumerate(_SIDES):
            splitter.setStretchFactor(at, share)
        splitter.setSizes(list(_SIDES))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, GAP)
        layout.setSpacing(GAP)
        layout.addLayout(screen_head(words, "blocks"))
        layout.addWidget(splitter, 1)
