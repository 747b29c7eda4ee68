"""Where the tour stops: every screen with its tabs, and the dialogs around them."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TypeVar

from PIL import Image
from PySide6.QtCore import QDeadlineTimer, QEventLoop, QTimer
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication, QTabWidget, QWidget

from coachdesk.app import paths
from coachdesk.app.window import Program
from coachdesk.app.words import wording
from coachdesk.ui import shortcuts
from coachdesk.ui.screens import SCREENS
from coachdesk.ui.screens.base import Screen
from coachdesk.ui.screens.blocks.screen import BlocksScreen
from coachdesk.ui.screens.meets.screen import MeetsScreen
from coachdesk.ui.screens.roster.readings_part import VIEWS, ReadingsPart
from coachdesk.ui.screens.roster.screen import RosterScreen

SIZE = (1280, 800)
"""The window, in the pixels of the picture."""
ROOMS = ("light", "dark")
_CHARTED = 5
"""Which athlete of the list is seen: one with many readings and a class to come down to."""
_GUIDE_SIZE = (1160, 700)
_GUIDE_COLOURS = 128
"""Enough for a screen of ours, and a third of the bytes."""
_DIALOG_AFTER_MS = 300
"""How long a dialog has to lay itself out."""
S = TypeVar("S", bound=Screen)


def keep_screens(out: Path, language: str, scale: float) -> None:
    """Pictures of every screen and of what opens from it, in each room."""
    out.mkdir(parents=True, exist_ok=True)
    size = (round(SIZE[0] / scale), round(SIZE[1] / scale))
    with _club(language, size) as tour:
        for room in ROOMS:
            tour.light(room)
            tour.name = partial(_picture, out, f"{room}-{round(scale * 100)}")
            for place in SCREENS:
                tour.go_to(place.key)
                tour.keep(place.key)
            tour.meet()
            tour.bodyweight()
            tour.blocks()
            tour.frame()
        tour.first_page()


def keep_guide_pictures(language: str) -> None:
    """The pictures that stand in the guide of a language."""
    folder = paths.guide(language, "first_steps").parent / "pictures"
    folder.mkdir(exist_ok=True)
    with _club(language, _GUIDE_SIZE) as tour:
        tour.light("light")
        tour.name = partial(_picture, folder, "")
        for key in ("today", "meets", "blocks"):
            tour.go_to(key)
            tour.keep(key)
        meets = tour.screen("meets", MeetsScreen)
        tour.tab(meets.tabs, meets.plans, "plans")
        tour.view_of_bodyweight("chart", "bodyweight")
        tour.first_page()
    for picture in folder.glob("*.png"):
        with Image.open(picture) as drawn:
            fewer = drawn.convert("RGB").quantize(_GUIDE_COLOURS)
        fewer.save(picture, optimize=True)


def _picture(folder: Path, suffix: str, stop: str) -> Path:
    return folder / ("-".join(filter(None, (stop, suffix))) + ".png")


class _Tour:
    """Drives one window; `name` says where the picture of a stop goes."""

    def __init__(self, application: QApplication, program: Program) -> None:
        self._application = application
        self._program = program
        self._window = program.window
        self.name: Callable[[str], Path] = Path

    def light(self, room: str) -> None:
        self._program.set_preferences(replace(self._program.preferences, room=room))

    def go_to(self, key: str) -> None:
        self._window.go_to(key)
        self.settle()

    def keep(self, stop: str, shown: QWidget | None = None) -> None:
        picture = self.name(stop)
        (shown or self._window).grab().save(str(picture))
        print(picture.name)

    def settle(self) -> None:
        """Let the window do what it has to do."""
        patience = QDeadlineTimer(60_000)
        rounds = 0
        while rounds < 5 and not patience.hasExpired():
            self._application.processEvents(QEventLoop.ProcessEventsFlag.AllEvents, 50)
            rounds = 0 if self._window.runner.is_busy else rounds + 1

    def screen(self, key: str, kind: type[S]) -> S:
        self.go_to(key)
        screen = self._window.screen_at(key)
        if not isinstance(screen, kind):
            raise TypeError(screen)
        return screen

    def tab(self, tabs: QTabWidget, part: QWidget, stop: str) -> None:
        tabs.setCurrentWidget(part)
        self.settle()
        self.keep(stop)

    def meet(self) -> None:
        """The tabs of the meet shown, and the dialogs around it."""
        screen = self.screen("meets", MeetsScreen)
        self.tab(screen.tabs, screen.plans, "plans")
        self.dialog(screen.plans.wish, "plans-aims")
        self.dialog(screen.plans.say_of_lift, "plans-number")
        for part, stop in (
            (screen.weight, "weight-and-class"),
            (screen.kit, "kit-and-tasks"),
            (screen.warm_ups, "warm-ups"),
            (screen.sessions, "sessions"),
        ):
            self.tab(screen.tabs, part, stop)
        screen.tabs.setCurrentWidget(screen.entries)
        self.dialog(screen.write_calendar, "calendar")

    def bodyweight(self) -> None:
        for view in VIEWS:
            self.view_of_bodyweight(view, f"bodyweight-{view}")

    def view_of_bodyweight(self, view: str, stop: str) -> None:
        """A view of a bodyweight, of an athlete with a meet ahead."""
        screen = self.screen("roster", RosterScreen)
        screen.list.table.select(screen.list.table.shown_rows()[_CHARTED].id)
        screen.side.go_to("readings")
        part = screen.side.part("readings")
        if not isinstance(part, ReadingsPart):
            raise TypeError(part)
        part.go_to(view)
        patience = QDeadlineTimer(10_000)
        while part.chart.state and not patience.hasExpired():
            self.settle()
        self.settle()
        self.keep(stop)

    def blocks(self) -> None:
        """The tabs of a block, and how one is laid out."""
        screen = self.screen("blocks", BlocksScreen)
        for part, stop in (
            (screen.calendar, "blocks-calendar"),
            (screen.load, "blocks-load"),
            (screen.strength, "blocks-strength"),
        ):
            self.tab(screen.tabs, part, stop)
        screen.tabs.setCurrentWidget(screen.team)
        patience = QDeadlineTimer(10_000)
        while not (screen.team.table.rows or patience.hasExpired()):
            self.settle()
        self.keep("blocks-team")
        screen.tabs.setCurrentWidget(screen.weeks)
        self.dialog(screen.generate, "blocks-lay-out")

    def frame(self) -> None:
        """The guide, and the box that leads everywhere."""
        self.dialog(self._program.show_guide, "guide")
        self.box("box")

    def box(self, stop: str) -> None:
        actions = self._window.findChildren(QAction)
        opens = next(each for each in actions if each.shortcut() == shortcuts.GO_TO)
        self.dialog(opens.trigger, stop)

    def first_page(self) -> None:
        """What a first start shows."""
        self._window.places.setCurrentRow(-1)
        self._window.show_first()
        self.settle()
        self.keep("first-page")

    def dialog(self, open_it: Callable[[], None], stop: str) -> None:
        """A picture of the dialog that this opens and waits for."""

        def keep_and_leave() -> None:
            dialog = QApplication.activeModalWidget()
            if dialog is None:
                msg = f"no dialog opened for {stop}"
                raise LookupError(msg)
            self.keep(stop, dialog)
            dialog.close()

        QTimer.singleShot(_DIALOG_AFTER_MS, keep_and_leave)
        open_it()


@contextmanager
def _club(language: str, size: tuple[int, int]) -> Iterator[_Tour]:
    """The desk of the invented club, open in a window."""
    application = QApplication([])
    with tempfile.TemporaryDirectory() as home:
        program = Program(wording(language), Path(home), Path(home) / "demo.db", demo=True)
        tour = _Tour(application, program)
        program.set_preferences(replace(program.preferences, language=language))
        program.window.resize(*size)
        program.window.show()
        program.open_desk()
        tour.settle()
        yield tour
        program.window.close()
