"""The window: undo in words, leaving with care, trouble in a sentence."""

from __future__ import annotations

import sys
import threading
from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QMessageBox
from pytestqt.qtbot import QtBot

from coachdesk.domain.athlete import AthleteData
from coachdesk.domain.errors import InvalidInput, Trouble
from coachdesk.domain.lifting import Sex
from coachdesk.domain.text import text
from coachdesk.services.roster import add_athlete
from coachdesk.ui.bug_dialog import BugDialog
from coachdesk.ui.context import Context
from coachdesk.ui.help_dialog import HelpDialog
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.runner import Progress

ANA = AthleteData(given_name="Ana & <b>Bo</b>", family_name="Ruiz", sex=Sex.FEMALE)


@pytest.fixture
def at_work(window: MainWindow, context: Context, qtbot: QtBot) -> MainWindow:
    window.show()
    window.work_with(context)
    qtbot.waitExposed(window)
    return window


def undo_words(window: MainWindow) -> str:
    return window.taking_back.undo.text().replace("&&", "&")


def test_undo_says_what_it_will_do_and_does_it(
    at_work: MainWindow, context: Context, qtbot: QtBot
) -> None:
    assert not at_work.taking_back.undo.isEnabled()
    context.runner.now(lambda: add_athlete(context.desk, ANA))
    assert "Ana & <b>Bo</b> Ruiz" in undo_words(at_work)
    qtbot.keyClick(at_work, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert not at_work.taking_back.undo.isEnabled()
    assert "Ana & <b>Bo</b> Ruiz" in at_work.notices.words
    assert "Ana & <b>Bo</b> Ruiz" in at_work.taking_back.redo.text().replace("&&", "&")
    modifier = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    qtbot.keyClick(at_work, Qt.Key.Key_Z, modifier)
    assert at_work.taking_back.undo.isEnabled()


def test_trouble_is_a_sentence_that_stays(at_work: MainWindow, context: Context) -> None:
    def fail() -> None:
        raise Trouble(text("file.disk_full", file="club.db"))

    assert not context.runner.now(fail)
    assert "club.db" in at_work.notices.words
    at_work.notices.clear()
    assert at_work.notices.words == ""


def test_input_that_cannot_be_taken_goes_to_its_field(context: Context) -> None:
    refused: list[InvalidInput] = []

    def fail() -> None:
        raise InvalidInput("on", text("typed.day"))

    assert not context.runner.now(fail, invalid=refused.append)
    assert [error.field for error in refused] == ["on"]


def test_slow_work_tells_its_progress_and_can_be_stopped(
    at_work: MainWindow, context: Context, qtbot: QtBot
) -> None:
    ended: list[str] = []
    stop: list[Callable[[], None]] = []
    can_stop = threading.Event()

    def slow(progress: Progress) -> str:
        for step in range(10_000):
            if step == 3 and can_stop.wait(timeout=5):
                stop[0]()
            progress(step, 10_000)
        return "done"

    stop.append(
        context.runner.background(
            slow, about="Printing", then=ended.append, stopped=lambda: ended.append("stopped")
        )
    )
    can_stop.set()
    qtbot.waitUntil(lambda: bool(ended))
    assert ended == ["stopped"]
    assert "Printing" in at_work.notices.words
    assert not context.runner.is_busy


def test_a_bug_in_the_background_reaches_the_hook(
    context: Context, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    found: list[type[BaseException]] = []
    monkeypatch.setattr(sys, "excepthook", lambda kind, *_: found.append(kind))

    def fail(_progress: Progress) -> None:
        raise ZeroDivisionError

    context.runner.background(fail, about="Printing")
    qtbot.waitUntil(lambda: bool(found))
    assert found == [ZeroDivisionError]


def test_the_desk_is_not_closed_while_something_is_under_way(
    at_work: MainWindow, context: Context, qtbot: QtBot
) -> None:
    goes_on = [True]

    def slow(progress: Progress) -> None:
        while goes_on[0]:
            progress(0, 1)

    context.runner.background(slow, about="Printing")
    assert not at_work.close()
    assert at_work.notices.words == context.words("frame.busy")
    goes_on[0] = False
    qtbot.waitUntil(lambda: not context.runner.is_busy)
    assert at_work.close()


def test_closing_in_the_middle_of_an_edit_asks(
    at_work: MainWindow, context: Context, monkeypatch: pytest.MonkeyPatch
) -> None:
    screen = at_work.screen_at("roster")
    monkeypatch.setattr(screen, "has_unsaved", lambda: True)
    asked: list[str] = []

    def stay(box: QMessageBox) -> int:
        asked.append(box.text())
        box.escapeButton().click()
        return 0

    monkeypatch.setattr(QMessageBox, "exec", stay)
    assert not at_work.close()
    assert asked == [context.words("frame.unsaved")]
    assert at_work.current_key == "roster"


def test_help_names_the_screen_and_the_keys(
    at_work: MainWindow, context: Context, qtbot: QtBot
) -> None:
    dialog = HelpDialog(context.words, "roster", at_work.screen_at("roster"))
    qtbot.addWidget(dialog)
    said = " ".join(each.text() for each in dialog.findChildren(QLabel))
    assert context.words("screen.roster.about") in said
    assert "Ctrl+N" in said


def test_a_report_of_a_bug_can_be_copied(context: Context, qtbot: QtBot) -> None:
    dialog = BugDialog(context.words, "somewhere.py:1 here\nZeroDivisionError")
    qtbot.addWidget(dialog)
    dialog.copy()
    from PySide6.QtGui import QGuiApplication

    assert QGuiApplication.clipboard().text().endswith("ZeroDivisionError")


def test_the_place_of_the_window_is_remembered(
    at_work: MainWindow, qtbot: QtBot, context: Context
) -> None:
    at_work.resize(733, 555)
    at_work.close()
    again = MainWindow(context.words, at_work.remembered)
    qtbot.addWidget(again)
    assert (again.width(), again.height()) == (733, 555)
