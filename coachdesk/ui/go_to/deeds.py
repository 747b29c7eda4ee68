"""What can be done on a screen, taken from the screen itself: its actions and its buttons."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QPushButton, QTabWidget, QWidget

from coachdesk.ui.go_to.goals import Goal

_NATIVE = QKeySequence.SequenceFormat.NativeText


def deeds_of(screen: QWidget, kind: str, show: Callable[[], object]) -> Iterator[Goal]:
    """Everything that can be done on `screen` now, each thing once; `show` brings the screen up."""
    told: set[str] = set()
    for owner, action in _actions(screen):
        words = _plain(action.text())
        if words and words not in told and action.isEnabled():
            told.add(words)
            keys = action.shortcut().toString(_NATIVE)
            yield Goal(words, kind, _then(show, owner, action), keys)
    for button in screen.findChildren(QPushButton):
        words = _plain(button.text())
        if words and words not in told and button.isEnabled() and not button.isHidden():
            told.add(words)
            yield Goal(words, kind, _then(show, button, button))


def action_goal(action: QAction, kind: str) -> Goal:
    """What an action of the window does."""
    return Goal(_plain(action.text()), kind, action.trigger, action.shortcut().toString(_NATIVE))


def _actions(screen: QWidget) -> Iterator[tuple[QWidget, QAction]]:
    """Each action with the widget it belongs to."""
    for widget in (screen, *screen.findChildren(QWidget)):
        for action in widget.actions():
            yield widget, action


def _then(
    show: Callable[[], object], at: QWidget, deed: QAction | QPushButton
) -> Callable[[], object]:
    def reach() -> None:
        show()
        _bring_up(at)
        deed.trigger() if isinstance(deed, QAction) else deed.click()

    return reach


def _bring_up(widget: QWidget) -> None:
    """Turn to the tabs that hold the widget, so that it is seen what happens."""
    above = widget.parentWidget()
    while above is not None:
        if isinstance(above, QTabWidget):
            above.setCurrentIndex(_page_of(above, widget))
        above = above.parentWidget()


def _page_of(tabs: QTabWidget, widget: QWidget) -> int:
    """The page that holds the widget; the one shown where it stands beside the pages."""
    for at in range(tabs.count()):
        page = tabs.widget(at)
        if page is not None and (page is widget or page.isAncestorOf(widget)):
            return at
    return tabs.currentIndex()


def _plain(words: str) -> str:
    return words.replace("&&", "&").strip()
