"""The first start: what to begin with, and the invented club, a file of its own."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton
from pytestqt.qtbot import QtBot

from coachdesk.app import paths
from coachdesk.app.bugs import BugWatch
from coachdesk.app.window import Program
from coachdesk.services.on_file import on_file
from coachdesk.ui.first_page import FirstPage
from coachdesk.wording.wording import Wording

SOON = 20_000


@pytest.fixture
def own_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the coach's own file would lie; there is none yet."""
    file = tmp_path / "own" / "coachdesk.db"
    monkeypatch.setattr(paths, "data_file", lambda: file)
    return file


@pytest.fixture
def program(
    own_file: Path, tmp_path: Path, wording: Wording, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Program]:
    found: list[str] = []
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(BugWatch, "_show", lambda _self, words: found.append(words))
    assert not own_file.exists()
    made = Program(wording, tmp_path / "home", None, demo=False)
    qtbot.addWidget(made.window)
    with qtbot.waitActive(made.window):
        made.window.show()
    made.begin()
    yield made
    qtbot.waitUntil(lambda: not made.window.runner.is_busy, timeout=SOON)
    made.window.close()
    assert found == []


def opened(program: Program, qtbot: QtBot, file_name: str) -> None:
    """Wait until a desk is open on a file of this name."""
    qtbot.waitUntil(lambda: file_name in program.window.windowTitle(), timeout=SOON)
    assert program.window.current_key == "today"


def press(qtbot: QtBot, words: str) -> None:
    """Go to the button of these words with Tab, and press it."""
    for _ in range(8):
        focused = QApplication.focusWidget()
        if isinstance(focused, QPushButton) and focused.text().startswith(words):
            qtbot.keyClick(focused, Qt.Key.Key_Return)
            return
        assert focused is not None
        qtbot.keyClick(focused, Qt.Key.Key_Tab)
    pytest.fail(f"no button of these words: {words}")


def test_enter_begins_an_empty_desk_and_the_next_start_opens_it(
    program: Program, own_file: Path, qtbot: QtBot
) -> None:
    assert isinstance(program.window.findChild(FirstPage), FirstPage)
    assert not own_file.exists()
    focused = QApplication.focusWidget()
    assert focused is not None
    qtbot.keyClick(focused, Qt.Key.Key_Return)
    opened(program, qtbot, own_file.name)
    assert own_file.exists()
    program.begin()
    assert program.window.findChild(FirstPage) is None


def test_the_club_is_a_file_of_its_own_and_can_be_left(
    program: Program, own_file: Path, wording: Wording, qtbot: QtBot
) -> None:
    press(qtbot, wording("first.club"))
    opened(program, qtbot, "club.db")
    context = program.window._context
    assert context is not None
    assert len(on_file(context.desk).athletes) > 10
    assert not own_file.exists()
    assert program.preferences.data_file == ""
    program.window.wants_own.emit()
    assert isinstance(program.window.findChild(FirstPage), FirstPage)


def test_keys_that_go_to_a_screen_do_nothing_before_there_is_a_desk(
    program: Program, qtbot: QtBot
) -> None:
    qtbot.keyClick(program.window, Qt.Key.Key_2, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClick(program.window, Qt.Key.Key_G, Qt.KeyboardModifier.ControlModifier)
    assert isinstance(program.window.findChild(FirstPage), FirstPage)
