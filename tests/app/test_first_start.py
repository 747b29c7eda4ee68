"""The first start: what to begin with, and the invented club, a file of its own."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.app import paths
from coachdesk.app.bugs import BugWatch
from coachdesk.app.window import Program
from coachdesk.services.on_file import on_file
from coachdesk.ui.first_page import FirstPage
from coachdesk.ui.imports.dialog import ImportDialog
from coachdesk.ui.widgets.line_report import LineReport
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
    qtbot.waitUntil(lambda: program.window.findChild(FirstPage) is None, timeout=SOON)


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


def _keep_and_close(seen: list[str]) -> None:
    """Press Enter in the window of the import once it has read, then close the report."""
    shown = QApplication.activeModalWidget()
    if isinstance(shown, ImportDialog) and not shown.is_busy and "import" not in seen:
        seen.append("import")
        QTest.keyClick(shown, Qt.Key.Key_Return)
    elif isinstance(shown, LineReport):
        seen.append(shown.words)
        shown.accept()
        return
    QTimer.singleShot(10, lambda: _keep_and_close(seen))


def test_a_list_of_athletes_is_begun_with_by_keys_and_stands_on_the_roster(
    program: Program,
    own_file: Path,
    wording: Wording,
    qtbot: QtBot,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    file = tmp_path / "club.csv"
    long = "Maximiliane" * 18
    file.write_text(
        "Name;Vorname;Geschlecht;Geburtsdatum;Gewicht\n"
        f"<b>Lee</b>;'=Ana;w;14.03.2001;63,4\n{long};Bo;m;;\n",
        "utf-8",
    )
    asked: list[str] = []
    answers = iter([("", ""), (str(file), "")])

    def answer(_parent: QWidget, title: str, *_: object) -> tuple[str, str]:
        asked.append(title)
        return next(answers)

    monkeypatch.setattr(QFileDialog, "getOpenFileName", answer)
    press(qtbot, wording("first.athletes"))
    assert isinstance(program.window.findChild(FirstPage), FirstPage)
    assert not own_file.exists(), "the file was not chosen, nothing is begun"
    seen: list[str] = []
    QTimer.singleShot(10, lambda: _keep_and_close(seen))
    press(qtbot, wording("first.athletes"))
    qtbot.waitUntil(lambda: len(seen) == 2, timeout=SOON)
    assert asked == [wording("athletes.title")] * 2
    assert program.window.current_key == "roster"
    screen = program.window.screen_at("roster")
    context = program.window._context
    assert context is not None
    qtbot.waitUntil(lambda: len(on_file(context.desk).athletes) == 2, timeout=SOON)
    labels = [each.text() for each in screen.findChildren(QLabel)]
    assert "=Ana <b>Lee</b>" in labels
    assert "2 athletes added." in seen[1]
    program.window.taking_back.undo.trigger()
    assert on_file(context.desk).athletes == (), "one step takes all of it back"


def test_keys_that_go_to_a_screen_do_nothing_before_there_is_a_desk(
    program: Program, qtbot: QtBot
) -> None:
    qtbot.keyClick(program.window, Qt.Key.Key_2, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClick(program.window, Qt.Key.Key_G, Qt.KeyboardModifier.ControlModifier)
    assert isinstance(program.window.findChild(FirstPage), FirstPage)
