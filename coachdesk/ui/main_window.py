"""The window: the list of screens, the screen, the foot; leaving with care.

What the first paint can do without is loaded when it is needed.
"""

from __future__ import annotations

import importlib
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Qt, QTimer, Signal
from PySide6.QtGui import QAction, QCloseEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QMainWindow,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from coachdesk.ui import shortcuts
from coachdesk.ui.change_signal import ChangeSignal
from coachdesk.ui.menus import Menus
from coachdesk.ui.notices import Notices
from coachdesk.ui.places import Places
from coachdesk.ui.plain import label
from coachdesk.ui.runner import Runner
from coachdesk.ui.screens import SCREENS
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.undo_actions import UndoActions
from coachdesk.ui.way import Way
from coachdesk.wording.wording import Wording

if TYPE_CHECKING:
    from coachdesk.ui.context import Context
    from coachdesk.ui.screens.base import Screen

FIRST_SIZE = (1200, 760)
AHEAD_MS = 150
"""Between two steps of making screens ahead: room for the coach's own."""


class MainWindow(QMainWindow):
    """Opens at once and empty; `work_with` gives it an open desk."""

    closed = Signal()
    all_made = Signal()
    """All screens are made and have read."""
    wants_file = Signal(object)
    """Go on with a data file: its path, None for the usual one."""
    wants_athletes = Signal(object)
    """Begin an empty desk with the athletes of a file: its path."""
    wants_club = Signal()
    """Look round the invented club."""
    wants_own = Signal()
    """Come back from there."""
    wants_guide = Signal()
    """Show the guide."""

    def __init__(self, words: Wording, remembered: QSettings) -> None:
        super().__init__()
        self._words = words
        self._context: Context | None = None
        self._screens: dict[str, Screen] = {}
        self.remembered = remembered
        self.changed = ChangeSignal()
        self.notices = Notices(words)
        self.runner = Runner(words, self.changed, self.notices)
        self.places = Places(words)
        self.places.setEnabled(False)
        self.places.currentItemChanged.connect(lambda *_: self._chosen())
        self._stack = QStackedWidget()
        self._lay_out()
        self._menus = Menus(self)
        self.taking_back = UndoActions(self._menus, self.changed)
        self._make_menus()
        self.speak(words)
        self._take_place()

    @property
    def words(self) -> Wording:
        """The words it speaks."""
        return self._words

    def speak(self, words: Wording) -> None:
        """Speak another language; the screens are made anew by `work_with`."""
        self._words = words
        self.setWindowTitle(words("frame.title"))
        self._menus.speak(words)
        for part in (self.places, self.notices, self.runner):
            part.speak(words)

    def work_with(self, context: Context, first: str = "today") -> None:
        """Show an open desk."""
        self._context = context
        self._words = context.words
        self._forget_screens()
        self.setWindowTitle(self._words("frame.title.file", file=context.desk.store.file.name))
        self.taking_back.work_with(context)
        self.places.setEnabled(True)
        self.places.doItemsLayout()
        self.go_to(first)

    def show_closed(self, sentence: str) -> None:
        """No desk is open: say why, and offer another file."""
        from coachdesk.ui.closed_page import ClosedPage  # noqa: PLC0415

        page = ClosedPage(self._words, sentence)
        page.chosen.connect(self.wants_file)
        self._show_instead(page)

    def show_first(self) -> None:
        """There is no data file yet: offer what to begin with."""
        from coachdesk.ui.first_page import FirstPage  # noqa: PLC0415

        page = FirstPage(self._words)
        page.empty.connect(lambda: self.wants_file.emit(None))
        page.athletes.connect(self.wants_athletes)
        page.file.connect(self.wants_file)
        page.club.connect(self.wants_club)
        self._show_instead(page)

    def _show_instead(self, page: QWidget) -> None:
        """A page in place of a desk."""
        self._context = None
        self.taking_back.work_with(None)
        self._forget_screens()
        self.places.setEnabled(False)
        self.setWindowTitle(self._words("frame.title"))
        self._stack.addWidget(page)
        self._stack.setCurrentWidget(page)
        page.setFocus(Qt.FocusReason.OtherFocusReason)

    @property
    def current_key(self) -> str:
        """The key of the screen shown."""
        at = self.places.currentRow()
        return SCREENS[at].key if at >= 0 else ""

    def screen_at(self, key: str) -> Screen:
        """A screen, made when it is first asked for."""
        if self._context is None:
            raise LookupError(key)
        if key not in self._screens:
            place = next(place for place in SCREENS if place.key == key)
            made: Screen = getattr(importlib.import_module(place.module), place.name)(self._context)
            made.go.connect(self.follow)
            self._screens[key] = made
            self._stack.addWidget(made)
        return self._screens[key]

    def make_ahead(self) -> None:
        """Make the screens not visited yet and let them read, one after the other with time
        between for what the coach does, so that no first visit waits for it."""
        if self._context is None:
            return
        key = next((place.key for place in SCREENS if place.key not in self._screens), None)
        if key is None:
            self.all_made.emit()
            return
        screen = self.screen_at(key)
        QTimer.singleShot(AHEAD_MS, screen, screen.read_ahead)
        QTimer.singleShot(2 * AHEAD_MS, self, self.make_ahead)

    def go_to(self, key: str, record_id: int = 0) -> None:
        """Show a screen, and a record on it; nothing where no desk is open."""
        if self._context is None:
            return
        at = next(at for at, place in enumerate(SCREENS) if place.key == key)
        self.places.setCurrentRow(at)
        screen = self.screen_at(key)
        self._stack.setCurrentWidget(screen)
        if record_id:
            screen.show_record(record_id)
        screen.setFocus(Qt.FocusReason.OtherFocusReason)

    def follow(self, way: Way) -> None:
        """Go where a screen leads."""
        self.go_to(way.key, way.record_id)
        if way.part:
            self.screen_at(way.key).show_part(way.part, way.within)

    def can_leave(self) -> bool:
        """Whether nothing unsaved would be lost, having asked where there is something."""
        from coachdesk.ui.unsaved import settle  # noqa: PLC0415

        for key, screen in self._screens.items():
            if screen.has_unsaved():
                self.go_to(key)
                if not settle(screen):
                    return False
        return self._may_end_what_runs()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about what is unsaved, remember the place, wait for what is under way."""
        if not self.can_leave():
            event.ignore()
            return
        self.remembered.setValue("window/geometry", self.saveGeometry())
        self.runner.wait()
        self.closed.emit()
        self._context = None
        super().closeEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The list of screens gives way in a narrow window."""
        super().resizeEvent(event)
        self.places.fit(self.width())

    def _forget_screens(self) -> None:
        while (page := self._stack.widget(0)) is not None:
            self._stack.removeWidget(page)
            page.deleteLater()
        self._screens.clear()

    def _chosen(self) -> None:
        if self._context is None or not self.current_key:
            return
        self._stack.setCurrentWidget(self.screen_at(self.current_key))

    def _lay_out(self) -> None:
        opening = label(self._words("frame.opening"), role="quiet")
        opening.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._stack.addWidget(opening)
        middle = QHBoxLayout()
        middle.setContentsMargins(GAP, GAP, MARGIN, 0)
        middle.setSpacing(MARGIN)
        middle.addWidget(self.places)
        middle.addWidget(self._stack, 1)
        whole = QWidget()
        layout = QVBoxLayout(whole)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addLayout(middle, 1)
        layout.addWidget(self.notices)
        self.setCentralWidget(whole)

    def _make_menus(self) -> None:
        action = self._menus.action
        self._menus.add(
            "frame.menu.desk",
            action("frame.settings", lambda: self.go_to("settings"), "Ctrl+,"),
            None,
            action("frame.club", self.wants_club.emit),
            action("frame.own_desk", self.wants_own.emit),
            None,
            action("frame.quit", self.close, QKeySequence.StandardKey.Quit),
        )
        self._menus.add("frame.menu.edit", self.taking_back.undo, self.taking_back.redo)
        self._menus.add(
            "frame.menu.screens",
            action("goto.open", self._open_box, shortcuts.GO_TO),
            None,
            *(
                action(f"screen.{place.key}", partial(self.go_to, place.key), f"Ctrl+{at}")
                for at, place in enumerate(SCREENS, start=1)
            ),
        )
        self._menus.add(
            "frame.menu.help",
            action("frame.help", self._help, shortcuts.HELP),
            action("frame.guide", self.wants_guide.emit, shortcuts.GUIDE),
        )

    def _open_box(self) -> None:
        if self._context is None:
            return
        from coachdesk.ui.go_to.box import GoToBox  # noqa: PLC0415
        from coachdesk.ui.go_to.whereto import everything  # noqa: PLC0415

        own = self.findChildren(QAction, options=Qt.FindChildOption.FindDirectChildrenOnly)
        goals = everything(self, self._context, own)
        box = GoToBox(self._words, goals, self)
        box.exec()
        if box.chosen is not None:
            box.chosen.reach()

    def _help(self) -> None:
        from coachdesk.ui.help_dialog import HelpDialog  # noqa: PLC0415

        screen = self._screens.get(self.current_key)
        HelpDialog(self._words, self.current_key or "today", screen, self).exec()

    def _may_end_what_runs(self) -> bool:
        if not self.runner.is_busy:
            return True
        self.notices.trouble(self._words("frame.busy"))
        return False

    def _take_place(self) -> None:
        geometry = self.remembered.value("window/geometry")
        if geometry is None or not self.restoreGeometry(geometry):
            self.resize(*FIRST_SIZE)


def remembered_in(folder: Path) -> QSettings:
    """The window's own memory, in a file of the program's folder."""
    return QSettings(str(folder / "window.ini"), QSettings.Format.IniFormat)
