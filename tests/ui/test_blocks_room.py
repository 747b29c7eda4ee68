"""The Blocks screen in a low window, as of 1280x800 at 150 %, and in a usual one."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QAbstractItemView, QLabel
from pytestqt.qtbot import QtBot

from coachdesk.services.desk import Desk
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens import SCREENS
from coachdesk.ui.screens.blocks.screen import BlocksScreen

LOW = QSize(853, 533)
USUAL = QSize(1280, 800)
TABS = range(5)


def shown(window: MainWindow, context: Context, qtbot: QtBot, size: QSize) -> BlocksScreen:
    """The screen on the invented club, in a window of a size."""
    icons = {place.key: QIcon() for place in SCREENS}
    window.places.show_icons(icons)
    window.resize(size)
    window.show()
    window.work_with(context, "blocks")
    qtbot.waitExposed(window)
    screen = window.screen_at("blocks")
    assert isinstance(screen, BlocksScreen)
    return screen


def see(screen: BlocksScreen, at: int, qtbot: QtBot) -> None:
    """A tab, once what it reads in the background is there."""
    screen.tabs.setCurrentIndex(at)
    if screen.tabs.currentWidget() is screen.team:
        qtbot.waitUntil(lambda: bool(screen.team.table.rows), timeout=30_000)
    qtbot.wait(1)


def whole_rows(view: QAbstractItemView) -> int:
    """How many rows are seen from top to bottom."""
    room, model = view.viewport().height(), view.model()
    rects = [view.visualRect(model.index(row, 0)) for row in range(model.rowCount())]
    return sum(1 for rect in rects if rect.top() >= 0 and rect.bottom() < room)


@pytest.fixture
def at_club(context: Context, club: Desk) -> Context:
    return replace(context, desk=club)


def test_the_screen_fits_into_a_low_window(
    window: MainWindow, at_club: Context, qtbot: QtBot
) -> None:
    screen = shown(window, at_club, qtbot, LOW)
    for at in TABS:
        see(screen, at, qtbot)
        assert window.size() == LOW, screen.tabs.tabText(at)


def test_tables_come_before_explanations_in_a_low_window(
    window: MainWindow, at_club: Context, qtbot: QtBot
) -> None:
    screen = shown(window, at_club, qtbot, LOW)
    see(screen, 0, qtbot)
    assert whole_rows(screen.weeks.grid) >= 5
    cell_in_full = screen.weeks.in_full
    assert cell_in_full.text().count("done") == 2
    assert cell_in_full.visibleRegion().boundingRect() == cell_in_full.rect()
    seen = screen.weeks.grid.visualRect(screen.weeks.grid.currentIndex())
    assert screen.weeks.grid.viewport().rect().contains(seen)
    see(screen, 2, qtbot)
    assert whole_rows(screen.load.table.view) >= 5


def test_a_window_that_grows_and_shrinks_shows_as_much_as_there_is_room_for(
    window: MainWindow, at_club: Context, qtbot: QtBot
) -> None:
    screen = shown(window, at_club, qtbot, LOW)
    (legend,) = (each for each in screen.weeks.findChildren(QLabel) if "Signs:" in each.text())
    assert not legend.isVisible()
    window.resize(USUAL)
    qtbot.waitUntil(legend.isVisible)
    window.resize(LOW)
    qtbot.waitUntil(lambda: not legend.isVisible())


def test_the_team_is_seen_without_scrolling_sideways(
    window: MainWindow, at_club: Context, qtbot: QtBot
) -> None:
    screen = shown(window, at_club, qtbot, USUAL)
    see(screen, 4, qtbot)
    assert screen.team.table.view.horizontalScrollBar().maximum() == 0
    (row, *_) = screen.team.table.rows
    index = screen.team.table.view.model().index(0, 5)
    assert row.meet in index.data(Qt.ItemDataRole.ToolTipRole)
