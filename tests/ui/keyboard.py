"""A coach's hands on the keyboard: every key that is not text is counted."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.app.printing import DeskPrinting
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow

Key = Qt.Key
PLAIN = Qt.KeyboardModifier.NoModifier
CONTROL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@dataclass
class Keyboard:
    """Types where the focus is, as hands do."""

    window: MainWindow
    qtbot: QtBot
    pressed: int = field(default=0)
    """Keys beyond the text itself; one with Ctrl or Shift held counts once."""

    def press(self, *keys: Qt.Key, held: Qt.KeyboardModifier = PLAIN) -> None:
        """Press these, one after the other."""
        for key in keys:
            self.pressed += 1
            QTest.keyClick(self._focused(), key, held)

    def control(self, key: Qt.Key) -> None:
        """Press a key with Ctrl held."""
        self.press(key, held=CONTROL)

    def text(self, words: str) -> None:
        """Letter by letter, since the first one may open the line that takes the others."""
        for letter in words:
            QTest.keyClicks(self._focused(), letter)

    def in_dialog(
        self,
        key: Qt.Key,
        act: Callable[[], None],
        held: Qt.KeyboardModifier = CONTROL,
        *,
        then: Sequence[Callable[[], None]] = (),
    ) -> None:
        """Open a dialog with a key and work in it, and in those that come after it by themselves;
        it may be opened from another one."""
        acts = (act, *then)
        before = QApplication.activeModalWidget() or self.window
        worked: list[QWidget] = [before]

        def look() -> None:
            dialog = QApplication.activeModalWidget()
            if dialog is None or dialog in worked or not dialog.isActiveWindow():
                QTimer.singleShot(5, look)
                return
            worked.append(dialog)
            try:
                acts[len(worked) - 2]()
                assert not dialog.isVisible()
            finally:
                if dialog.isVisible():
                    dialog.close()
            if len(worked) <= len(acts):
                QTimer.singleShot(5, look)

        QTimer.singleShot(5, look)
        self.press(key, held=held)
        assert len(worked) == len(acts) + 1
        if before.isVisible():
            before.activateWindow()
            self.qtbot.waitUntil(
                lambda: before.isActiveWindow() and QApplication.focusWidget() is not None
            )

    @staticmethod
    def _focused() -> QWidget:
        focused = QApplication.focusWidget()
        assert focused is not None
        return focused


def at_an_empty_desk(
    window: MainWindow, context: Context, qtbot: QtBot, print_folder: Path
) -> Keyboard:
    """The window at work on an empty desk, with hands on its keyboard."""
    preferences = replace(context.preferences, print_folder=str(print_folder))
    window.resize(1280, 800)
    with qtbot.waitActive(window):
        window.show()
    printing = DeskPrinting(context.desk, context.words)
    window.work_with(replace(context, printing=printing, preferences=preferences))
    return Keyboard(window, qtbot)
