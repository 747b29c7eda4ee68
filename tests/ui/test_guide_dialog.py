"""The guide on screen: all by keyboard, section by section, and nothing leads out of it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QTextCursor
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from coachdesk.app import paths
from coachdesk.ui.guide_dialog import GuideDialog
from coachdesk.ui.help_dialog import HelpDialog
from coachdesk.ui.main_window import MainWindow
from coachdesk.wording.wording import Wording

FILE = paths.guide("en", "attempts")
PAGE = FILE.read_text(encoding="utf-8")
PAGES = sorted(paths.resources().glob("guide/*/*.md"))


@pytest.fixture
def guide(window: MainWindow, wording: Wording, qtbot: QtBot) -> GuideDialog:
    window.resize(853, 533)
    dialog = GuideDialog(wording, PAGE, FILE.parent, window)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    return dialog


def top_line(guide: GuideDialog) -> str:
    cursor = guide.page.cursorForPosition(guide.page.viewport().rect().topLeft())
    cursor.select(QTextCursor.SelectionType.BlockUnderCursor)
    return cursor.selectedText().strip()


def test_the_window_asks_for_the_guide_by_key(window: MainWindow, qtbot: QtBot) -> None:
    with qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    with qtbot.waitSignal(window.wants_guide):
        qtbot.keyClick(window, Qt.Key.Key_F1, Qt.KeyboardModifier.ControlModifier)


def test_every_section_is_listed_and_comes_to_the_top(guide: GuideDialog, qtbot: QtBot) -> None:
    names = [line.lstrip("# ") for line in PAGE.splitlines() if line.startswith(("# ", "## "))]
    listed = guide.sections
    assert [listed.item(row).text() for row in range(listed.count())] == names
    listed.setFocus()
    assert guide.page.verticalScrollBar().value() == 0
    for name in names[1:5]:
        qtbot.keyClick(listed, Qt.Key.Key_Down)
        assert top_line(guide) == name


def test_the_page_is_read_by_keyboard_and_left_with_escape(
    guide: GuideDialog, qtbot: QtBot
) -> None:
    page = guide.page
    assert guide.focusWidget() is page
    before = page.verticalScrollBar().value()
    qtbot.keyClick(page, Qt.Key.Key_PageDown)
    assert page.verticalScrollBar().value() > before
    qtbot.keyClick(page, Qt.Key.Key_Tab)
    assert guide.focusWidget() is not page
    qtbot.keyClick(guide, Qt.Key.Key_Escape)
    assert not guide.isVisible()


def test_what_writes_the_page_leaves_no_trace_on_screen(guide: GuideDialog) -> None:
    shown = guide.page.toPlainText()
    assert "A worked example" in shown
    for mark in ("<!--", "-->", "**", "| ", "##"):
        assert mark not in shown


@pytest.mark.parametrize("page", PAGES, ids=lambda page: f"{page.parent.name} {page.stem}")
def test_the_tables_of_every_language_fit_at_150_per_cent(
    window: MainWindow, wording: Wording, qtbot: QtBot, page: Path
) -> None:
    window.resize(853, 533)
    dialog = GuideDialog(wording, page.read_text(encoding="utf-8"), page.parent, window)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    assert dialog.page.horizontalScrollBar().maximum() == 0


def test_it_has_names_for_a_screen_reader_and_opens_no_links(guide: GuideDialog) -> None:
    assert guide.page.accessibleName()
    assert guide.sections.accessibleName()
    assert not guide.page.openLinks()
    assert not guide.page.openExternalLinks()


def test_help_names_its_key(wording: Wording, qtbot: QtBot) -> None:
    dialog = HelpDialog(wording, "today", None)
    qtbot.addWidget(dialog)
    assert "Ctrl+F1" in [each.text() for each in dialog.findChildren(QLabel)]


def test_words_are_found_by_key_from_place_to_place(guide: GuideDialog, qtbot: QtBot) -> None:
    with qtbot.waitActive(guide):
        guide.activateWindow()
    qtbot.keyClick(guide, Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    line = guide.finding.line
    assert guide.focusWidget() is line
    qtbot.keyClicks(line, "OPENER")
    shown = guide.page.toPlainText().lower()
    times = shown.count("opener")
    assert times > 3
    assert len(guide.page.extraSelections()) == times
    assert str(times) in guide.finding.said.text()
    first = guide.page.textCursor()
    assert first.selectedText().lower() == "opener"
    qtbot.keyClick(line, Qt.Key.Key_Return)
    second = guide.page.textCursor()
    assert second.position() > first.position()
    assert guide.isVisible()
    qtbot.keyClick(line, Qt.Key.Key_Return, Qt.KeyboardModifier.ShiftModifier)
    assert guide.page.textCursor().position() == first.position()


def test_what_does_not_stand_there_is_said_and_escape_clears_the_line_first(
    guide: GuideDialog, qtbot: QtBot, wording: Wording
) -> None:
    line = guide.finding.line
    line.setText("helicopter")
    assert guide.finding.said.text() == wording("find.none")
    assert guide.page.extraSelections() == []
    line.setFocus()
    qtbot.keyClick(line, Qt.Key.Key_Escape)
    assert line.text() == ""
    assert guide.isVisible()
    assert guide.finding.said.text() == ""


@pytest.mark.parametrize("folder", sorted((paths.resources() / "guide").iterdir()), ids=str)
def test_every_picture_of_the_guide_is_there_and_fits_the_page(
    folder: Path, window: MainWindow, wording: Wording, qtbot: QtBot
) -> None:
    pages = "\n\n".join(file.read_text(encoding="utf-8") for file in folder.glob("*.md"))
    named = re.findall(r"!\[[^]]+\]\(pictures/([a-z-]+\.png)\)", pages)
    assert sorted(named) == sorted(file.name for file in folder.glob("pictures/*"))
    window.resize(853, 533)
    dialog = GuideDialog(wording, pages, folder, window)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    for name in named:
        picture = dialog.page.loadResource(2, f"pictures/{name}")
        assert 400 < picture.width() <= dialog.page.viewport().width()
