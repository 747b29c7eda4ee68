"""The desk in a window: shown first, then the data file is opened."""

from __future__ import annotations

import os
import shutil
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QLockFile, QTimer
from PySide6.QtWidgets import QApplication

import coachdesk.ui  # noqa: F401 (before all that follows: what it does quickens their loading)
from coachdesk.app import paths
from coachdesk.app.bugs import BugWatch
from coachdesk.app.qt_language import language_of_system, speak_qt
from coachdesk.app.words import own_names, spoken, wording
from coachdesk.domain.change import Change
from coachdesk.domain.errors import Trouble
from coachdesk.domain.text import text
from coachdesk.services.preferences import Preferences, read_preferences, write_preferences
from coachdesk.ui.dress import load_fonts, put_on, rules, theme_of
from coachdesk.ui.garbage import GarbageWatch
from coachdesk.ui.main_window import MainWindow, remembered_in
from coachdesk.ui.runner import Progress
from coachdesk.ui.screens import SCREENS, load_screens
from coachdesk.ui.theme import Room
from coachdesk.wording.wording import Wording

if TYPE_CHECKING:
    from coachdesk.services.desk import Desk
    from coachdesk.ui.context import Context


GUIDE_PAGES = ("first_steps", "meets", "attempts", "weights", "blocks")
"""The guide's pages, in the order they are read."""
_SCREENS_AFTER_MS = 500
_GARBAGE_AFTER_MS = 1500
_WEIGHTS_AFTER_MS = 2000
_BACKUP_AFTER_MS = 3000
"""The first moments belong to the coach."""
_AFTER_READING_MS = 200
_CLOCK_MS = 30_000
_DERIVED_FROM = frozenset({"reading", "cycle_note", "logged_set"})
"""What bodyweights rest on."""


def run_window(home: Path, data: Path | None, *, demo: bool = False) -> int:
    """Open the desk and stay until it is closed; answers the exit code.

    `home` keeps preferences and the window's own memory. `data` is the data file, None for the
    one preferred; `demo` fills it with the invented club first.
    """
    _need_a_display()
    application = QApplication.instance() or QApplication(sys.argv[:1])
    application.setApplicationName("coachdesk")
    program = Program(wording(language_of_system()), home, data, demo=demo)
    program.window.show()
    QTimer.singleShot(0, program.begin)
    QTimer.singleShot(_GARBAGE_AFTER_MS, GarbageWatch(program.window).start)
    return int(application.exec())


class Program:
    """One window and the desk that is open in it; `of_system` are the words of the system's own
    language, spoken where no other is preferred."""

    def __init__(self, of_system: Wording, home: Path, data: Path | None, *, demo: bool) -> None:
        self._preferences_file = paths.preferences_file(home)
        self.preferences = read_preferences(self._preferences_file)
        self._of_system = of_system
        self._words = self._preferred_words()
        speak_qt(self._words.catalogue.language)
        self._home = home
        self._named = data
        self._data = data
        self._demo = demo
        self._desk: Desk | None = None
        self._lock: QLockFile | None = None
        load_fonts(paths.resources() / "fonts")
        self.theme = theme_of(Room(self.preferences.room))
        put_on(_application(), self.theme)
        self.window = MainWindow(self._words, remembered_in(home))
        self.window.setStyleSheet(rules(self.theme))
        self.window.closed.connect(self._close)
        self.window.wants_file.connect(self.go_on_with)
        self.window.wants_athletes.connect(lambda athletes: self.go_on_with(None, athletes))
        self.window.wants_club.connect(self.look_round)
        self.window.wants_own.connect(self.come_back)
        self.window.wants_guide.connect(self.show_guide)
        self.window.changed.changed.connect(self._derive)
        self._day: date | None = None
        self._clock = QTimer(self.window)
        self._clock.timeout.connect(self.look_at_clock)
        self._clock.start(_CLOCK_MS)
        BugWatch(self.window).install()
        _application().styleHints().colorSchemeChanged.connect(lambda _: self._system_changed())

    @property
    def data_file(self) -> Path:
        """The file that is or will be open."""
        preferred = self.preferences.data_file
        return self._data or (Path(preferred) if preferred else paths.data_file())

    def begin(self) -> None:
        """Open the data file; where there is none yet, ask what to begin with."""
        if self._data is None and not self.preferences.data_file and not self.data_file.exists():
            self.window.show_first()
        else:
            self.open_desk()

    def open_desk(self, athletes: Path | None = None) -> None:
        """Open the data file in the background; show the desk, or in words why it cannot be.

        `athletes` is a file whose athletes are to be looked through at once.
        """
        file = self.data_file
        self.window.runner.background(
            lambda progress: self._open(file, progress),
            about=self._words("frame.opening"),
            then=lambda desk: self._opened(desk, athletes),
            refused=self.window.show_closed,
            can_stop=False,
        )

    def go_on_with(self, file: Path | None, athletes: Path | None = None) -> None:
        """Close what is open and go on with another file, None for the usual one (`athletes`: see
        `open_desk`)."""
        if not self.window.can_leave():
            return
        self._close()
        self._data = None
        self._keep(replace(self.preferences, data_file="" if file is None else str(file)))
        self.open_desk(athletes)

    def look_round(self) -> None:
        """Go to the invented club, made anew in a file of its own; the next start is as before."""
        if not self.window.can_leave():
            return
        self._close()
        self._data, self._demo = self._home / "invented-club" / "club.db", True
        shutil.rmtree(self._data.parent, ignore_errors=True)
        self.open_desk()

    def come_back(self) -> None:
        """Leave the invented club for the coach's own file."""
        if not self.window.can_leave():
            return
        self._close()
        self._data = self._named
        self.begin()

    def show_guide(self) -> None:
        """Show the guide until it is closed."""
        from coachdesk.ui.guide_dialog import GuideDialog  # noqa: PLC0415

        language = self._words.catalogue.language
        files = [paths.guide(language, page) for page in GUIDE_PAGES]
        pages = [file.read_text(encoding="utf-8") for file in files]
        GuideDialog(self._words, "\n\n".join(pages), files[0].parent, self.window).exec()

    def set_preferences(self, preferences: Preferences) -> None:
        """Keep preferences and show everything anew by them; not over what is typed, unasked."""
        if not self.window.can_leave():
            return
        self._keep(preferences)
        self._show_anew()

    def _preferred_words(self) -> Wording:
        """The words of the language preferred, of the system's where that is not there."""
        system = self._of_system.catalogue.language
        language = spoken(self.preferences.language, [system])
        return self._of_system if language == system else wording(language)

    def _keep(self, preferences: Preferences) -> None:
        write_preferences(self._preferences_file, preferences)
        self.preferences = preferences

    def _open(self, file: Path, progress: Progress) -> Desk:
        from coachdesk.app.wiring import open_desk  # noqa: PLC0415

        del progress
        self._lock = _lock(file)
        language = self._words.catalogue.language
        desk = open_desk(file, language=language)
        if self._demo:
            from coachdesk.app.demo.club import seed  # noqa: PLC0415

            club = paths.resources() / "demo" / "club.toml"
            seed(desk, club.read_bytes(), club.name, language)
            self._demo = False
        return desk

    def _opened(self, desk: Desk, athletes: Path | None) -> None:
        self._desk = desk
        self._day = desk.today()
        context = self._context(desk)
        self.window.work_with(context)
        QTimer.singleShot(0, self.window, self._show_icons)
        QTimer.singleShot(_SCREENS_AFTER_MS, self.window, lambda: self._load_ahead(context))
        QTimer.singleShot(_BACKUP_AFTER_MS, self.window, lambda: self._back_up(context))
        QTimer.singleShot(
            _WEIGHTS_AFTER_MS, self.window, lambda: self._keep_derived(forecasts=True)
        )
        if athletes is not None:
            QTimer.singleShot(0, self.window, lambda: self._import_athletes(context, athletes))

    def _import_athletes(self, context: Context, file: Path) -> None:
        from coachdesk.ui.imports.dialog import import_athletes  # noqa: PLC0415

        self.window.go_to("roster")
        import_athletes(context, self.window, file)

    def _show_icons(self) -> None:
        """Icons come once the desk is there: the first paint does without them."""
        from coachdesk.ui.icons import application_icon, icon  # noqa: PLC0415

        folder = paths.resources() / "icons"
        _application().setWindowIcon(application_icon(folder))
        self.window.places.show_icons(
            {place.key: icon(folder, place.key, self.theme) for place in SCREENS}
        )

    def _load_ahead(self, context: Context) -> None:
        """The code of the other screens, quietly, while the coach reads the first."""
        if context.desk is not self._desk:
            return
        context.runner.background(
            lambda _progress: load_screens(),
            about=self._words("frame.opening"),
            then=lambda _: self.window.make_ahead(),
            quiet=True,
        )

    def look_at_clock(self) -> None:
        """A desk left open overnight shows the new day."""
        if self._desk is None:
            return
        today = self._desk.today()
        if self._day is not None and today != self._day:
            self.window.changed.new_day.emit()
            self._keep_all()
        self._day = today

    def _derive(self, changes: frozenset[Change]) -> None:
        """Keep what readings and sets come to once some have changed, after what the coach waits
        for."""
        if any(each.kind in _DERIVED_FROM for each in changes):
            QTimer.singleShot(_AFTER_READING_MS, self.window, self._keep_derived)

    def _keep_all(self) -> None:
        self._keep_derived(forecasts=True)

    def _keep_derived(self, *, forecasts: bool = False) -> None:
        """What readings and sets come to goes on file, quietly, so that the next look is quick; and
        what is forecast today, so that it can be held against what is lifted."""
        from coachdesk.services.keeping import keep_derived  # noqa: PLC0415

        desk = self._desk
        if desk is not None:
            self.window.runner.background(
                lambda _progress: keep_derived(desk, forecasts=forecasts),
                about=self._words("frame.opening"),
                quiet=True,
            )

    def _back_up(self, context: Context) -> None:
        """The backup of the day, quietly; it reads and checks the whole file."""
        from coachdesk.services.safe_keeping import back_up_once_a_day  # noqa: PLC0415

        if context.desk is self._desk:
            context.runner.background(
                lambda _progress: back_up_once_a_day(context.desk, context.backups),
                about=self._words("frame.backing_up"),
                quiet=True,
            )

    def _context(self, desk: Desk) -> Context:
        from coachdesk.app.printing import DeskPrinting  # noqa: PLC0415
        from coachdesk.ui.context import Context  # noqa: PLC0415

        words = self._words.in_unit(self.preferences.unit)
        return Context(
            desk=desk,
            words=words,
            preferences=self.preferences,
            set_preferences=self.set_preferences,
            languages=own_names,
            open_file=self.go_on_with,
            runner=self.window.runner,
            changed=self.window.changed,
            notices=self.window.notices,
            theme=self.theme,
            remembered=self.window.remembered,
            printing=DeskPrinting(desk, words),
            backups=paths.backups(desk.store.file),
        )

    def _system_changed(self) -> None:
        """The system went light or dark: follow, but not over what is typed, unasked."""
        if theme_of(Room(self.preferences.room)) != self.theme and self.window.can_leave():
            self._show_anew()

    def _show_anew(self) -> None:
        """Dress the window as preferred, let it speak as preferred, and make its screens anew."""
        theme = theme_of(Room(self.preferences.room))
        if theme != self.theme:
            self.theme = theme
            put_on(_application(), theme)
            self.window.setStyleSheet(rules(theme))
            self._show_icons()
        words = self._preferred_words()
        if words.catalogue.language != self._words.catalogue.language:
            self._speak(words)
        if self._desk is not None:
            self.window.work_with(self._context(self._desk), self.window.current_key)

    def _speak(self, words: Wording) -> None:
        """Speak another language from now on, with what data files say in it."""
        from coachdesk.app.wiring import in_language  # noqa: PLC0415

        self._words = words
        speak_qt(words.catalogue.language)
        self.window.speak(words)
        if self._desk is not None:
            self._desk = in_language(self._desk, words.catalogue.language)

    def _close(self) -> None:
        if self._desk is not None:
            self._desk.store.close()
            self._desk = None
        if self._lock is not None:
            self._lock.unlock()
            self._lock = None


def _application() -> QApplication:
    found = QApplication.instance()
    if not isinstance(found, QApplication):
        msg = "there is no application yet"
        raise TypeError(msg)
    return found


def _lock(file: Path) -> QLockFile:
    """Take the file for this desk; Trouble that says who has it when another one does."""
    file.parent.mkdir(parents=True, exist_ok=True)
    lock = QLockFile(str(file.with_name(f"{file.name}.lock")))
    lock.setStaleLockTime(0)
    if lock.tryLock(0):
        return lock
    if lock.error() is QLockFile.LockError.PermissionError:
        raise Trouble(text("file.cannot_open", file=str(file)))
    pid, host, program = lock.getLockInfo()
    raise Trouble(text("file.in_use", file=str(file), program=program, host=host, pid=str(pid)))


def _need_a_display() -> None:
    """Qt ends the whole process where there is none: say it in words before."""
    if sys.platform.startswith("linux") and not any(
        os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    ):
        raise Trouble(text("window.no_display"))
