"""A tour of the program: `python demo/tour.py OUT` saves a picture of every screen and page.

It drives the real window on the invented club, without a display: every screen, the plans of a
meet and the dialogs around them in a light and in a dark room, at 1280x800 and at 150 %, and every
page of the packets. Needs the development tools.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pypdfium2
from PySide6.QtCore import QDeadlineTimer, QEventLoop, QTimer
from PySide6.QtWidgets import QApplication, QWidget

from coachdesk.app.packet_commands import demo_packets
from coachdesk.app.window import Program
from coachdesk.app.words import wording
from coachdesk.ui.screens import SCREENS
from coachdesk.ui.screens.meets.screen import MeetsScreen
from coachdesk.ui.screens.roster.readings_part import VIEWS, ReadingsPart
from coachdesk.ui.screens.roster.screen import RosterScreen

SIZE = (1280, 800)
"""The window, in the pixels of the picture."""
LARGE = 1.5
ROOMS = ("light", "dark")
DOTS_PER_INCH = 90
_CHARTED = 5
"""Which athlete of the list is seen: one with many readings and a class to come down to."""
DIALOG_AFTER_MS = 300
"""How long a dialog has to lay itself out."""


def main() -> None:
    """Take the whole tour."""
    options = _options()
    options.out.mkdir(parents=True, exist_ok=True)
    if options.scale:
        _screens(options.out, options.scale)
        return
    for scale in (1.0, LARGE):
        environment = {
            **os.environ,
            "QT_QPA_PLATFORM": "offscreen",
            "QT_SCALE_FACTOR": str(scale),
        }
        command = [sys.executable, __file__, str(options.out), "--scale", str(scale)]
        subprocess.run(command, env=environment, check=True)
    _pages(options.out)


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path, metavar="OUT")
    parser.add_argument("--scale", type=float, default=0.0, help=argparse.SUPPRESS)
    return parser.parse_args()


def _screens(out: Path, scale: float) -> None:
    """Pictures of every screen and of what opens from it, in each room."""
    application = QApplication([])
    with tempfile.TemporaryDirectory() as home:
        program = Program(wording(), Path(home), Path(home) / "demo.db", demo=True)
        window = program.window
        window.resize(*(round(side / scale) for side in SIZE))
        window.show()
        program.open_desk()
        _settle(application, lambda: not window.runner.is_busy)
        for room in ROOMS:
            program.set_preferences(replace(program.preferences, room=room))
            suffix = f"{room}-{round(scale * 100)}.png"
            for place in SCREENS:
                window.go_to(place.key)
                _settle(application)
                _keep(window, out / f"{place.key}-{suffix}")
            _meet(application, program, out, suffix)
            _bodyweight(application, program, out, suffix)
            _dialog(program.show_guide, out / f"guide-{suffix}")
        window.close()


def _meet(application: QApplication, program: Program, out: Path, suffix: str) -> None:
    """Pictures of the other tabs of the meet shown, and of the dialogs that plans open."""
    program.window.go_to("meets")
    screen = program.window.screen_at("meets")
    if not isinstance(screen, MeetsScreen):
        raise TypeError(screen)
    screen.tabs.setCurrentWidget(screen.plans)
    _settle(application, lambda: not program.window.runner.is_busy)
    _keep(program.window, out / f"plans-{suffix}")
    _dialog(screen.plans.wish, out / f"plans-aims-{suffix}")
    _dialog(screen.plans.say_of_lift, out / f"plans-number-{suffix}")
    for tab, name in (
        (screen.weight, "weight-and-class"),
        (screen.kit, "kit-and-tasks"),
        (screen.warm_ups, "warm-ups"),
        (screen.sessions, "sessions"),
    ):
        screen.tabs.setCurrentWidget(tab)
        _settle(application)
        _keep(program.window, out / f"{name}-{suffix}")
    screen.tabs.setCurrentWidget(screen.entries)
    _dialog(screen.write_calendar, out / f"calendar-{suffix}")


def _bodyweight(application: QApplication, program: Program, out: Path, suffix: str) -> None:
    """Pictures of the views of a bodyweight, of an athlete with a meet ahead."""
    program.window.go_to("roster")
    screen = program.window.screen_at("roster")
    if not isinstance(screen, RosterScreen):
        raise TypeError(screen)
    screen.list.table.select(screen.list.table.shown_rows()[_CHARTED].id)
    screen.side.go_to("readings")
    part = screen.side.part("readings")
    if not isinstance(part, ReadingsPart):
        raise TypeError(part)
    for view in VIEWS:
        part.go_to(view)
        _settle(application, lambda: not part.chart.state)
        _keep(program.window, out / f"bodyweight-{view}-{suffix}")


def _dialog(open_it: Callable[[], None], picture: Path) -> None:
    """A picture of the dialog that this opens and waits for."""

    def keep_and_leave() -> None:
        dialog = QApplication.activeModalWidget()
        if dialog is None:
            msg = f"no dialog opened for {picture.name}"
            raise LookupError(msg)
        _keep(dialog, picture)
        dialog.close()

    QTimer.singleShot(DIALOG_AFTER_MS, keep_and_leave)
    open_it()


def _keep(shown: QWidget, picture: Path) -> None:
    shown.grab().save(str(picture))
    print(picture.name)


def _settle(application: QApplication, until: Callable[[], bool] = lambda: True) -> None:
    """Let the window do what it has to do."""
    patience = QDeadlineTimer(60_000)
    rounds = 0
    while rounds < 5 and not patience.hasExpired():
        application.processEvents(QEventLoop.ProcessEventsFlag.AllEvents, 50)
        rounds = rounds + 1 if until() else 0


def _pages(out: Path) -> None:
    """Pictures of every page of the packets."""
    with tempfile.TemporaryDirectory() as home:
        demo_packets(Path(home) / "demo.db", out / "packets", "a4", wording())
    for file in sorted((out / "packets").rglob("*.pdf")):
        with closing(pypdfium2.PdfDocument(file)) as document:
            for number, page in enumerate(document, start=1):
                picture = file.with_name(f"{file.stem} {number}.png")
                page.render(scale=DOTS_PER_INCH / 72).to_pil().save(picture)
                print(picture.relative_to(out))


if __name__ == "__main__":
    main()
