"""From an empty desk to a printed first week of training, with keys alone and few of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from coachdesk.app.printing import DeskPrinting
from coachdesk.domain.lifting import Lift
from coachdesk.domain.units import kilograms
from coachdesk.services.block_reading import block_page
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens.blocks.screen import BlocksScreen
from tests.ui.keyboard import Keyboard

Key = Qt.Key
MOST_KEYS = 60
"""Beyond the text itself: what the coach was promised."""


@pytest.fixture
def keys(window: MainWindow, context: Context, qtbot: QtBot, tmp_path: Path) -> Keyboard:
    """A window on an empty desk; what is printed goes to a folder of the test."""
    preferences = replace(context.preferences, print_folder=str(tmp_path / "out"))
    window.resize(1280, 800)
    with qtbot.waitActive(window):
        window.show()
    printing = DeskPrinting(context.desk, context.words)
    window.work_with(replace(context, printing=printing, preferences=preferences))
    return Keyboard(window, qtbot)


def test_from_an_empty_desk_to_a_printed_first_week(
    keys: Keyboard, context: Context, tmp_path: Path
) -> None:
    def new_athlete() -> None:
        keys.text("Mara")
        keys.press(Key.Key_Tab)
        keys.text("Lindqvist")
        keys.press(Key.Key_Tab, Key.Key_Down, Key.Key_Tab)
        keys.text("1.3.1999")
        keys.press(Key.Key_Return)

    def new_block() -> None:
        keys.text("First weeks")
        keys.press(Key.Key_Return)

    def maxima() -> None:
        for typed in ("100", "60"):
            keys.text(typed)
            keys.press(Key.Key_Tab)
        keys.text("120")
        keys.press(Key.Key_Return)

    def exercise(lift: int, day: int) -> Callable[[], None]:
        def act() -> None:
            keys.press(*[Key.Key_Down] * lift, Key.Key_Tab, *[Key.Key_Down] * day, Key.Key_Return)

        return act

    keys.control(Key.Key_2)
    keys.in_dialog(Key.Key_N, new_athlete)
    keys.control(Key.Key_3)
    keys.in_dialog(Key.Key_N, new_block)
    keys.in_dialog(Key.Key_B, maxima)
    for lift, day, typed in ((0, 0, "5x5 70%"), (1, 0, "5x5 72.5%"), (2, 2, "3x5 @7; 1x3 80%")):
        keys.in_dialog(Key.Key_E, exercise(lift, day))
        keys.text(typed)
        keys.press(Key.Key_Return)
    keys.in_dialog(Key.Key_P, lambda: keys.press(Key.Key_Return))
    assert keys.pressed <= MOST_KEYS, keys.pressed

    screen = keys.window.screen_at("blocks")
    assert isinstance(screen, BlocksScreen)
    block = screen.weeks.block
    assert block is not None
    page = block_page(context.desk, block.id)
    assert page.maxima[Lift.DEADLIFT].weight == kilograms(120)
    kept = [page.cell_text(each.id, 1) for each in page.exercises]
    assert kept == ["5x5 70%", "5x5 72.5%", "3x5 RPE 7; 1x3 80%"]
    printed = list((tmp_path / "out").rglob("*.pdf"))
    assert len(printed) == 1
    words = PdfReader(printed[0]).pages[0].extract_text()
    for expected in ("Lindqvist", "First weeks", "5 × 5, 70 %", "42.5"):
        assert expected in words
