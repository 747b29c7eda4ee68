"""The whole way with keys alone: an athlete is added, entered, given an opener, seen with class
and score, printed, and everything is undone."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.app.printing import DeskPrinting
from coachdesk.domain.athlete import Athlete
from coachdesk.domain.lifting import Lift
from coachdesk.domain.meet import Meet
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens.meets.print_dialog import PrintDialog
from coachdesk.ui.screens.meets.screen import MeetsScreen

Key = Qt.Key
CONTROL = Qt.KeyboardModifier.ControlModifier
PLAIN = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def desk_window(window: MainWindow, context: Context, qtbot: QtBot, tmp_path: Path) -> MainWindow:
    """The window at work on an empty desk; what is printed goes to a folder of the test."""
    preferences = replace(context.preferences, print_folder=str(tmp_path / "out"))
    window.resize(1280, 800)
    with qtbot.waitActive(window):
        window.show()
    window.work_with(
        replace(
            context,
            printing=DeskPrinting(context.desk, context.words),
            preferences=preferences,
        )
    )
    return window


def press(*keys: Qt.Key, modifier: Qt.KeyboardModifier = PLAIN) -> None:
    for key in keys:
        focused = QApplication.focusWidget()
        assert focused is not None
        QTest.keyClick(focused, key, modifier)


def type_on(words: str) -> None:
    """Type where the focus is, over what stands there."""
    focused = QApplication.focusWidget()
    assert focused is not None
    if isinstance(focused, QLineEdit):
        focused.selectAll()
    QTest.keyClicks(focused, words)


def in_dialog(act: Callable[[QWidget], None]) -> list[bool]:
    """Do something in the next dialog; the answer fills when it was done."""
    done: list[bool] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        if dialog is None or not dialog.isActiveWindow():
            QTimer.singleShot(5, look)
            return
        try:
            act(dialog)
            done.append(True)
        finally:
            if dialog.isVisible():
                dialog.close()

    QTimer.singleShot(5, look)
    return done


def back(window: MainWindow, qtbot: QtBot) -> None:
    """The dialog is closed and the window has the keys again."""
    window.activateWindow()
    qtbot.waitUntil(lambda: window.isActiveWindow() and QApplication.focusWidget() is not None)


def test_from_an_empty_desk_to_a_printed_packet_and_back(
    desk_window: MainWindow, context: Context, qtbot: QtBot, tmp_path: Path
) -> None:
    def new_athlete(_dialog: QWidget) -> None:
        type_on("Mara")
        press(Key.Key_Tab)
        type_on("Lindqvist")
        press(Key.Key_Tab, Key.Key_Down, Key.Key_Tab)
        type_on("1.3.1999")
        press(Key.Key_Return)

    def new_meet(_dialog: QWidget) -> None:
        type_on("Harbour Open")
        press(Key.Key_Tab)
        type_on("20.2.2027")
        press(Key.Key_Return)

    def enter_her(_dialog: QWidget) -> None:
        type_on("mara")
        press(Key.Key_Down, Key.Key_Space, Key.Key_Return)

    def print_all(dialog: QWidget) -> None:
        assert isinstance(dialog, PrintDialog)
        line = dialog.form.field("folder").control()
        line.setFocus()
        type_on(str(tmp_path / "out"))
        press(Key.Key_Return)
        qtbot.waitUntil(dialog.open_button.isVisible, timeout=20_000)
        press(Key.Key_Escape)

    for place, act, keys in (
        (Key.Key_2, new_athlete, Key.Key_N),
        (Key.Key_4, new_meet, Key.Key_N),
        (Key.Key_4, enter_her, Key.Key_T),
    ):
        press(place, modifier=CONTROL)
        done = in_dialog(act)
        press(keys, modifier=CONTROL)
        qtbot.waitUntil(partial(bool, done))
        back(desk_window, qtbot)

    screen = desk_window.screen_at("meets")
    assert isinstance(screen, MeetsScreen)
    qtbot.waitUntil(lambda: len(screen.entries.table.rows) == 1)
    screen.entries.table.setFocus()
    press(Key.Key_Return)
    for lift, kg in ((Lift.SQUAT, "100"), (Lift.BENCH, "60"), (Lift.DEADLIFT, "120")):
        screen.entries.panel.grid.cell(lift, 1).line.setFocus()
        type_on(kg)
        press(Key.Key_Return)
    said = " ".join(screen.entries.panel.totals.words)
    assert "280 kg" in said

    done = in_dialog(print_all)
    press(Key.Key_P, modifier=CONTROL)
    qtbot.waitUntil(lambda: bool(done), timeout=30_000)
    back(desk_window, qtbot)
    (sheet,) = (tmp_path / "out").rglob("Mara*athlete's sheet.pdf")
    printed = " ".join(page.extract_text() for page in PdfReader(sheet).pages)
    assert all(weight in printed for weight in ("100 kg", "60 kg", "120 kg"))

    while desk_window.taking_back.undo.isEnabled():
        press(Key.Key_Z, modifier=CONTROL)
    with context.desk.reading() as reader:
        assert reader.list(Athlete) == ()
        assert reader.list(Meet) == ()
