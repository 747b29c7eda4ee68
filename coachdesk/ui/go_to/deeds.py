"""What can be done on a screen, taken from the screen itself: its actions and its buttons.

A button that opens a menu is left out: what stands in the menu is there. So are the months of a
calendar to pick a day from.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QCalendarWidget, QPushButton, QTabWidget, QWidget

from coachdesk.ui.go_to.goals import Goal

_NATIVE = QKeySequence.SequenceFormat.NativeText


def deeds_of(
    screen: QWidget, kind_of: Callable[[str], str], show: Callable[[], object]
) -> Iterator[Goal]:
    """Everything that can be done on `screen` now, each thing once in each of its tabs.

    `kind_of` says what kind of thing it is, by the words of the tab, which are empty for what
    stands in none; `show` brings the screen up.
    """
    told: set[tuple[str, str]] = set()
    deeds: list[tuple[QWidget, QAction | QPushButton]] = [*_actions(screen), *_buttons(screen)]
    for at, deed in deeds:
        words, part = _plain(deed.text()), _part_of(at)
        if not words or told & {(words, part), (words, "")}:
            continue
        told.add((words, part))
        keys = deed.shortcut().toString(_NATIVE)
        yield Goal(words, kind_of(part), _then(show, at, deed), keys)


def action_goal(action: QAction, kind: str) -> Goal:
    """What an action of the window does."""
    return Goal(_plain(action.text()), kind, action.trigger, action.shortcut().toString(_NATIVE))


def _actions(screen: QWidget) -> Iterator[tuple[QWidget, QAction]]:
    """Each action with the widget it belongs to."""
    for widget in (screen, *screen.findChildren(QWidget)):
        if not _is_in_calendar(widget):
            yield from ((widget, each) for each in widget.actions() if each.isEnabled())


def _buttons(screen: QWidget) -> Iterator[tuple[QWidget, QPushButton]]:
    for each in screen.findChildren(QPushButton):
        if each.isEnabled() and not each.isHidden() and each.menu() is None:
            yield each, each


def _is_in_calendar(widget: QWidget | None) -> bool:
    while widget is not None and not isinstance(widget, QCalendarWidget):
        widget = widget.parentWidget()
    return widget is not None


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
    for tabs in _tabs_above(widget):
        tabs.setCurrentIndex(_page_of(tabs, widget))


def _part_of(widget: QWidget) -> str:
    """The words of the innermost tab the widget stands in; empty where it stands in none."""
    tabs = next(_tabs_above(widget), None)
    return "" if tabs is None else _plain(tabs.tabText(_page_of(tabs, widget)))


def _tabs_above(widget: QWidget) -> Iterator[QTabWidget]:
    above = widget.parentWidget()
    while above is not None:
        if isinstance(above, QTabWidget):
            yield above
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
