"""Every screen by keys alone and for those who hear it: Tab walks it as one reads, what has the
focus shows it, charts tell their figures in words, and no key means two things."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QScrollArea, QTabWidget, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.services.desk import Desk
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens import SCREENS

KEYS = [place.key for place in SCREENS if place.key != "blocks"]
TABS = [
    *((key, 0) for key in KEYS),
    *(("roster", at) for at in range(1, 4)),
    *(("meets", at) for at in range(1, 6)),
    *(("compare", at) for at in range(1, 3)),
]
NEAR = 24
"""What stands within a line of another, or within a column [px]."""
MOST = 120
"""Controls of a screen: a walk that is longer goes round in it."""


@pytest.fixture
def open_window(window: MainWindow, club: Desk, context: Context, qtbot: QtBot) -> MainWindow:
    """The window at work on the invented club, with the keys."""
    window.resize(1280, 800)
    with qtbot.waitActive(window):
        window.show()
    window.work_with(replace(context, desk=club))
    return window


def turned_to(window: MainWindow, key: str, tab: int, qtbot: QtBot) -> QWidget:
    """A screen, turned to a tab."""
    window.go_to(key)
    screen = window.screen_at(key)
    qtbot.waitUntil(lambda: not window.runner.is_busy, timeout=20_000)
    if tab:
        rows = [each for each in screen.findChildren(QTabWidget) if each.isVisible()]
        rows[0].setCurrentIndex(tab)
    qtbot.wait(30)
    return screen


def walked(screen: QWidget, key: Qt.Key, held: Qt.KeyboardModifier) -> list[QWidget]:
    """What has the focus one after the other, until it leaves the screen or comes round."""
    found: list[QWidget] = []
    focused = QApplication.focusWidget()
    while focused is not None and screen.isAncestorOf(focused) and focused not in found:
        found.append(focused)
        assert len(found) < MOST
        QTest.keyClick(focused, key, held)
        focused = QApplication.focusWidget()
    return found


def takes_keys(widget: QWidget) -> bool:
    """Whether Tab is to lead to a widget."""
    return (
        widget.isVisible()
        and widget.isEnabled()
        and bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
        and widget.focusProxy() is None
    )


def first_of(screen: QWidget) -> QWidget:
    """The control Tab comes to first from outside."""
    widget = screen.nextInFocusChain()
    while not (screen.isAncestorOf(widget) and takes_keys(widget)):
        widget = widget.nextInFocusChain()
    return widget


def said(widget: QWidget) -> str:
    """A control in words."""
    words = getattr(widget, "text", str)()
    return f"{type(widget).__name__} {widget.accessibleName() or words or widget.toolTip()}"


def place(widget: QWidget, screen: QWidget) -> QRect:
    return QRect(widget.mapTo(screen, QPoint(0, 0)), widget.size())


def steps_astray(widgets: list[QWidget], screen: QWidget) -> Iterator[str]:
    """Steps that go up without going to the right, or to the left without going down."""
    for area in screen.findChildren(QScrollArea):
        area.verticalScrollBar().setValue(0)
    for one, other in zip(widgets, widgets[1:], strict=False):
        here, there = place(one, screen), place(other, screen)
        goes_up = there.top() < here.top() - NEAR and there.bottom() < here.bottom()
        goes_left = there.left() < here.left() - NEAR
        is_beside = there.left() >= here.left() + NEAR
        is_below = there.top() > here.top() + NEAR // 4
        if (goes_up and not is_beside) or (goes_left and not is_below):
            yield f"{said(one)} {here.getRect()} -> {said(other)} {there.getRect()}"


@pytest.mark.parametrize(("key", "tab"), TABS)
def test_tab_walks_all_controls_as_one_reads_and_back(
    open_window: MainWindow, qtbot: QtBot, key: str, tab: int
) -> None:
    screen = turned_to(open_window, key, tab, qtbot)
    first_of(screen).setFocus()
    there = walked(screen, Qt.Key.Key_Tab, Qt.KeyboardModifier.NoModifier)
    missed = [each for each in screen.findChildren(QWidget) if takes_keys(each)]
    missed = [each for each in missed if each not in there]
    assert [said(each) for each in missed] == []
    assert list(steps_astray(there, screen)) == []
    there[-1].setFocus()
    back = walked(screen, Qt.Key.Key_Backtab, Qt.KeyboardModifier.ShiftModifier)
    assert [said(each) for each in back] == [said(each) for each in reversed(there)]
