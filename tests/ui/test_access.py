"""Every screen by keys alone and for those who hear it: Tab walks it as one reads, what has the
focus shows it (test_focus), and charts tell their figures in words."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, QRect, Qt, QTimer
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QGraphicsView, QScrollArea, QTabWidget, QWidget
from pytestqt.qtbot import QtBot

from coachdesk.services.desk import Desk
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens import SCREENS
from coachdesk.ui.screens.bar.bar_drawing import BarDrawing
from coachdesk.ui.screens.blocks.calendar_part import TimeLine
from coachdesk.ui.screens.blocks.load_part import LoadBars
from coachdesk.ui.screens.compare.chart import CompareChart
from coachdesk.ui.screens.meets.chance_curve import ChanceCurve
from coachdesk.ui.widgets.day_chart import DayChart

KEYS = [place.key for place in SCREENS]
TABS = [
    *((key, 0) for key in KEYS),
    *(("roster", at) for at in range(1, 4)),
    *(("meets", at) for at in range(1, 6)),
    *(("compare", at) for at in range(1, 3)),
    *(("blocks", at) for at in range(1, 5)),
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
    while widget is not None and not (screen.isAncestorOf(widget) and takes_keys(widget)):
        widget = widget.nextInFocusChain()
    assert widget is not None
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
    for one, other in itertools.pairwise(widgets):
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


DIALOGS = [
    *(("meets", name) for name in ("add", "edit", "enter", "print", "write_calendar")),
    *(("roster", name) for name in ("add", "show_handlers", "weigh_team")),
    ("rulebooks", "copy"),
    ("today", "ask_put_off"),
]


@pytest.mark.parametrize(("key", "name"), DIALOGS)
def test_tab_walks_dialogs_as_one_reads(
    open_window: MainWindow, qtbot: QtBot, key: str, name: str
) -> None:
    screen = turned_to(open_window, key, 0, qtbot)
    astray: list[str] = []
    missed: list[str] = []
    seen: list[QWidget] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        if not isinstance(dialog, QDialog) or not dialog.isActiveWindow():
            QTimer.singleShot(5, look)
            return
        seen.append(dialog)
        try:
            first_of(dialog).setFocus()
            there = walked(dialog, Qt.Key.Key_Tab, Qt.KeyboardModifier.NoModifier)
            astray.extend(steps_astray(there, dialog))
            every = [each for each in dialog.findChildren(QWidget) if takes_keys(each)]
            missed.extend(said(each) for each in every if each not in there)
        finally:
            dialog.done(0)

    QTimer.singleShot(5, look)
    getattr(screen, name)()
    assert seen
    assert (missed, astray) == ([], [])


DRAWN = (BarDrawing, ChanceCurve, CompareChart, DayChart, LoadBars, TimeLine)


@pytest.mark.parametrize(("key", "tab"), TABS)
def test_what_is_drawn_tells_its_figures_in_words(
    open_window: MainWindow, qtbot: QtBot, key: str, tab: int
) -> None:
    screen = turned_to(open_window, key, tab, qtbot)
    inner = [each for each in screen.findChildren(QTabWidget) if each.isVisible()][1:]
    for row in inner:
        for at in range(row.count()):
            row.setCurrentIndex(at)
            qtbot.wait(30)
            assert mute_drawings(screen) == [], row.tabText(at)
    assert mute_drawings(screen) == []


def mute_drawings(screen: QWidget) -> list[str]:
    """What is drawn and does not say at least two of its figures."""
    plots = [each for each in screen.findChildren(QGraphicsView) if each.isVisible()]
    held = [each for each in screen.findChildren(QWidget) if isinstance(each, DRAWN)]
    for plot in plots:
        assert any(each.isAncestorOf(plot) for each in held), "a chart of another kind"
    return [
        f"{said(each)}: {heard(each)}"
        for each in held
        if each.isVisible() and len(re.findall(r"\d+", heard(each))) < 2
    ]


def heard(drawing: QWidget) -> str:
    """What a screen reader finds in a drawing or in what it holds."""
    for widget in (drawing, *drawing.findChildren(QWidget)):
        found = QAccessible.queryAccessibleInterface(widget)
        words = found.text(QAccessible.Text.Description)
        if words:
            return words
    return ""
