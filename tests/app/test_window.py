"""Starting the desk: quick, careful with the file, and in words when it cannot be opened."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import QLockFile
from pytestqt.qtbot import QtBot

from coachdesk.app.bugs import BugWatch
from coachdesk.app.main import main
from coachdesk.app.window import Program
from coachdesk.ui.closed_page import ClosedPage
from coachdesk.ui.screens.today.screen import TodayScreen
from coachdesk.wording.wording import Wording

pytestmark = pytest.mark.usefixtures("qapp", "no_bugs")
HEAVY = {"sqlalchemy", "numpy", "pyqtgraph", "reportlab", "alembic", "icalendar"}


def test_first_paint_loads_nothing_heavy(tmp_path: Path) -> None:
    program = f"""
import sys
from pathlib import Path
from PySide6.QtWidgets import QApplication
from coachdesk.app.commands import _parser
from coachdesk.app.words import wording
from coachdesk.app.window import Program
words = wording()
_parser(words)
application = QApplication([])
program = Program(words, Path({str(tmp_path)!r}), Path({str(tmp_path / "a.db")!r}), demo=False)
program.window.show()
application.processEvents()
print(sorted({HEAVY!r} & set(sys.modules)))
"""
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run(
        [sys.executable, "-c", program], env=environment, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


@pytest.fixture
def no_bugs(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A bug is a failure here, not a dialog that waits for a coach."""
    found: list[str] = []
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(BugWatch, "_show", lambda _self, words: found.append(words))
    yield
    assert found == []


def program_on(file: Path, wording: Wording, qtbot: QtBot, *, demo: bool = False) -> Program:
    program = Program(wording, file.parent, file, demo=demo)
    qtbot.addWidget(program.window)
    program.window.show()
    program.open_desk()
    qtbot.waitUntil(lambda: not program.window.runner.is_busy, timeout=20_000)
    return program


def test_the_desk_opens_on_today_and_names_its_file(
    tmp_path: Path, wording: Wording, qtbot: QtBot
) -> None:
    program = program_on(tmp_path / "club.db", wording, qtbot)
    assert program.window.current_key == "today"
    assert "club.db" in program.window.windowTitle()
    program.window.close()


def test_a_second_desk_on_the_same_file_says_who_has_it(
    tmp_path: Path, wording: Wording, qtbot: QtBot
) -> None:
    file = tmp_path / "club.db"
    lock = QLockFile(str(tmp_path / "club.db.lock"))
    assert lock.tryLock(0)
    program = program_on(file, wording, qtbot)
    (page,) = program.window.findChildren(ClosedPage)
    assert "already open" in page.sentence
    assert str(os.getpid()) in page.sentence
    assert not file.exists()
    lock.unlock()
    page.chosen.emit(file)
    qtbot.waitUntil(lambda: program.window.current_key == "today", timeout=20_000)
    assert program.preferences.data_file == str(file)
    program.window.close()


@pytest.mark.parametrize("content", [b"SQLite format 3\x00 but not really", b"not a database"])
def test_a_file_that_is_no_desk_is_said_in_words_and_left_alone(
    tmp_path: Path, wording: Wording, qtbot: QtBot, content: bytes
) -> None:
    file = tmp_path / "club.db"
    file.write_bytes(content)
    program = program_on(file, wording, qtbot)
    (page,) = program.window.findChildren(ClosedPage)
    assert str(file) in page.sentence
    assert file.read_bytes() == content
    program.window.close()


def test_closing_lets_go_of_the_file(tmp_path: Path, wording: Wording, qtbot: QtBot) -> None:
    file = tmp_path / "club.db"
    program_on(file, wording, qtbot).window.close()
    again = program_on(file, wording, qtbot)
    assert again.window.current_key == "today"
    again.window.close()


def test_without_a_display_it_says_what_works_without_one(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    assert main([]) == 1
    assert "no display" in capsys.readouterr().err


def test_the_first_opening_of_a_day_makes_its_backup(
    tmp_path: Path, wording: Wording, qtbot: QtBot
) -> None:
    program = program_on(tmp_path / "club.db", wording, qtbot)
    folder = tmp_path / "backups" / "club.db"
    qtbot.waitUntil(lambda: folder.is_dir() and bool(list(folder.glob("backup-*"))), timeout=20_000)
    program.window.close()


def test_a_desk_left_open_overnight_shows_the_new_day(
    tmp_path: Path, wording: Wording, qtbot: QtBot
) -> None:
    program = program_on(tmp_path / "desk.db", wording, qtbot)
    program.window.show()
    screen = program.window.screen_at("today")
    assert isinstance(screen, TodayScreen)
    desk = screen.context.desk
    tomorrow = desk.now() + timedelta(days=1)
    program.look_at_clock()
    assert screen.day.text() == wording.day(desk.today())
    object.__setattr__(desk, "now", lambda: tomorrow)
    program.look_at_clock()
    qtbot.waitUntil(lambda: screen.day.text() == wording.day(tomorrow.date()))
    program.window.close()
