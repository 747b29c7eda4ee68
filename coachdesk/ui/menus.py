"""The window's menus: the ways every screen shares, named in the reader's language."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu

from coachdesk.ui.plain import without_mnemonic
from coachdesk.wording.wording import Wording


class Menus:
    """The bar of menus of `window`, filled once and named anew whenever the language changes."""

    def __init__(self, window: QMainWindow) -> None:
        self._window = window
        self._menus: list[tuple[QMenu, str]] = []
        self._actions: list[tuple[QAction, str]] = []

    def add(self, code: str, *actions: QAction | None) -> None:
        """Add a menu; None among its actions draws a line."""
        menu = self._window.menuBar().addMenu("")
        self._menus.append((menu, code))
        for each in actions:
            if each is None:
                menu.addSeparator()
            else:
                menu.addAction(each)

    def action(
        self,
        code: str,
        then: Callable[[], object],
        keys: QKeySequence | QKeySequence.StandardKey | str = "",
    ) -> QAction:
        """An action of the window, which is named by `code`."""
        made = QAction(self._window)
        made.setShortcut(QKeySequence(keys))
        made.triggered.connect(lambda *_: then())
        self._actions.append((made, code))
        return made

    def speak(self, words: Wording) -> None:
        """Name all anew."""
        for menu, code in self._menus:
            menu.setTitle(without_mnemonic(words(code)))
        for action, code in self._actions:
            action.setText(without_mnemonic(words(code)))
