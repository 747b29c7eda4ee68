"""A coach at the keyboard: keys go to what has the focus, and those that are not text count."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.ui.main_window import MainWindow

PLAIN = Qt.KeyboardModifier.NoModifier


@dataclass
class Keyboard:
    """A coach's hands: every key that is not text is counted."""

    window: MainWindow
    qtbot: QtBot
    pressed: int = field(default=0)

    def press(self, *keys: Qt.Key, held: Qt.KeyboardModifier = PLAIN) -> None:
        for key in keys:
            self.pressed += 1
            QTest.keyClick(self._focused(), key, held)

    def control(self, key: Qt.Key) -> None:
        self.press(key, held=Qt.KeyboardModifier.ControlModifier)

    def text(self, words: str) -> None:
        """Letter by letter, since the first one may open the line that takes the others."""
        for letter in words:
            QTest.keyClicks(self._focused(), letter)

    def in_dialog(
        self,
        key: Qt.Key,
        act: Callable[[], None],
        held: Qt.KeyboardModifier = Qt.KeyboardModifier.ControlModifier,
    ) -> None:
        """Open a dialog with a key and work in it."""
        done: list[bool] = []

        def look() -> None:
            dialog = QApplication.activeModalWidget()
            if dialog is None or not dialog.isActiveWindow():
                QTimer.singleShot(5, look)
                return
            try:
                act()
                done.append(not dialog.isVisible())
            finally:
                if dialog.isVisible():
                    dialog.close()

        QTimer.singleShot(5, look)
        self.press(key, held=held)
        assert done == [True]
        self.window.activateWindow()
        self.qtbot.waitUntil(
            lambda: self.window.isActiveWindow() and QApplication.focusWidget() is not None
        )

    @staticmethod
    def _focused() -> QWidget:
        focused = QApplication.focusWidget()
        assert focused is not None
        return focused
