"""The box that reaches every athlete, meet, screen and action by typing part of a name."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QApplication,
    QFileDialog,
    QLabel,
    QMenu,
    QPushButton,
    QTabWidget,
    QToolButton,
    QWidget,
)
from pytestqt.qtbot import QtBot

from coachdesk.services.desk import Desk
from coachdesk.services.on_file import on_file
from coachdesk.ui.context import Context
from coachdesk.ui.go_to.box import GoToBox
from coachdesk.ui.go_to.goals import MOST_SHOWN, Goal, meant
from coachdesk.ui.go_to.whereto import everything
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens import SCREENS
from coachdesk.wording.wording import Wording

CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def at_work(window: MainWindow, context: Context, club: Desk, qtbot: QtBot) -> MainWindow:
    """The window on the club's desk, all screens made."""
    window.resize(1280, 800)
    with qtbot.waitActive(window):
        window.show()
    window.work_with(replace(context, desk=club))
    for at in range(window.places.count()):
        window.places.setCurrentRow(at)
    window.go_to("today")
    return window


def with_box(qtbot: QtBot, window: MainWindow, act: Callable[[GoToBox], None]) -> None:
    """Open the box by its keys and do something in it."""
    seen: list[GoToBox] = []

    def when_open() -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, GoToBox)
        seen.append(box)
        act(box)

    QTimer.singleShot(0, when_open)
    qtbot.keyClick(window, Qt.Key.Key_G, CONTROL)
    assert seen


def listed(box: GoToBox) -> list[str]:
    return [box.list.item(row).text() for row in range(box.list.count())]


def _goal(words: str) -> Goal:
    return Goal(words, "athlete", list)


def test_words_are_found_without_case_or_accents_and_beginnings_come_first() -> None:
    goals = [_goal("Eszter Kőhalmy"), _goal("Zoë Halvarding"), _goal("Mira Tal")]
    assert [goal.words for goal in meant(goals, "HAL")] == ["Zoë Halvarding", "Eszter Kőhalmy"]
    assert [goal.words for goal in meant(goals, "halm esz")] == ["Eszter Kőhalmy"]
    assert meant(goals, "nobody") == ()
    assert len(meant([_goal(f"A{number}") for number in range(500)], "")) == MOST_SHOWN


def test_an_athlete_is_gone_to_by_part_of_a_name(
    at_work: MainWindow, club: Desk, qtbot: QtBot
) -> None:
    athlete = on_file(club).athletes[0]

    def act(box: GoToBox) -> None:
        box.line.setText(athlete.name[:-1].lower())
        assert listed(box)[0].startswith(athlete.name)
        assert athlete.name in box.said.text()
        qtbot.keyClick(box.line, Qt.Key.Key_Return)

    with_box(qtbot, at_work, act)
    assert at_work.current_key == "roster"
    shown = [label.text() for label in at_work.screen_at("roster").findChildren(QLabel)]
    assert athlete.name in shown


def test_a_meet_is_gone_to_and_arrows_move_while_typing(
    at_work: MainWindow, club: Desk, qtbot: QtBot
) -> None:
    meet = on_file(club).meets[0]

    def act(box: GoToBox) -> None:
        box.line.setText(meet.name)
        row = next(at for at, words in enumerate(listed(box)) if words.startswith(meet.name))
        for _ in range(row):
            qtbot.keyClick(box.line, Qt.Key.Key_Down)
        assert box.list.currentRow() == row
        qtbot.keyClick(box.line, Qt.Key.Key_Return)

    with_box(qtbot, at_work, act)
    assert at_work.current_key == "meets"
    shown = [label.text() for label in at_work.screen_at("meets").findChildren(QLabel)]
    assert meet.name in shown


def test_a_screen_is_gone_to_by_name(at_work: MainWindow, qtbot: QtBot, wording: Wording) -> None:
    words = wording("screen.settings")

    def act(box: GoToBox) -> None:
        qtbot.keyClicks(box.line, words)
        assert any(line.startswith(words) for line in listed(box))
        qtbot.keyClick(box.line, Qt.Key.Key_Return)

    with_box(qtbot, at_work, act)
    assert at_work.current_key == "settings"


def test_every_screen_offers_what_can_be_done_on_it(at_work: MainWindow, qtbot: QtBot) -> None:
    at_work.go_to("meets")

    def act(box: GoToBox) -> None:
        lines = listed(box)
        assert lines == list(dict.fromkeys(lines))
        for wanted in ("enter athletes", "print"):
            box.line.setText(wanted)
            assert box.list.count() > 0, wanted
        box.line.setText("no such thing anywhere")
        assert box.list.count() == 0
        assert "no such thing anywhere" in box.said.text()
        qtbot.keyClick(box.line, Qt.Key.Key_Return)
        assert box.isVisible()
        box.reject()

    with_box(qtbot, at_work, act)
    assert at_work.current_key == "meets"


@pytest.fixture
def fresh(window: MainWindow, context: Context, club: Desk, qtbot: QtBot) -> MainWindow:
    """The window on the club's desk, nothing looked at yet but Today."""
    with qtbot.waitActive(window):
        window.show()
    window.work_with(replace(context, desk=club))
    return window


@pytest.mark.parametrize("words", ["Import sets", "Import weights"])
def test_imports_are_found_before_the_roster_was_ever_looked_at(
    fresh: MainWindow, qtbot: QtBot, words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def leave(_parent: QWidget, title: str, *_: object) -> tuple[str, str]:
        asked.append(title)
        return "", ""

    monkeypatch.setattr(QFileDialog, "getOpenFileName", leave)

    def act(box: GoToBox) -> None:
        qtbot.keyClicks(box.line, words)
        assert listed(box)[0].startswith(words)
        qtbot.keyClick(box.line, Qt.Key.Key_Return)

    with_box(qtbot, fresh, act)
    assert len(asked) == 1
    assert fresh.current_key == "roster"


def _doable(screen: QWidget) -> set[str]:
    """What the coach sees and can press on a screen now, in words."""
    seen = {each for each in screen.findChildren(QPushButton) if each.isVisible()}
    found = {each.text() for each in seen if each.isEnabled() and each.menu() is None}
    tools = {each for each in screen.findChildren(QToolButton) if each.isVisible()}
    menus: list[QMenu | None] = [*(each.menu() for each in seen), *(each.menu() for each in tools)]
    around = [each for each in (screen, *screen.findChildren(QWidget)) if each.isVisible()]
    holders = (*(each for each in menus if each is not None), *around)
    actions = [action for each in holders for action in each.actions()]
    found |= {each.text() for each in actions if each.isEnabled()}
    return {words.replace("&&", "&").strip() for words in found} - {""}


@pytest.mark.parametrize("key", [place.key for place in SCREENS])
def test_all_that_can_be_done_on_a_screen_is_offered(fresh: MainWindow, key: str) -> None:
    """Every tab is walked through by hand; in each of them what is there is in the box."""
    assert fresh._context is not None
    fresh.go_to(key)
    screen = fresh.screen_at(key)
    for tabs in [screen, *screen.findChildren(QTabWidget)]:
        for at in range(tabs.count() if isinstance(tabs, QTabWidget) else 1):
            if isinstance(tabs, QTabWidget):
                tabs.setCurrentIndex(at)
            seen = _doable(screen)
            goals = {goal.words for goal in everything(fresh, fresh._context, fresh.actions())}
            assert seen <= goals, at


@pytest.mark.parametrize("key", [place.key for place in SCREENS])
def test_no_keys_mean_two_things_at_once(fresh: MainWindow, key: str, wording: Wording) -> None:
    """Where an action of the window, or of what a widget stands in, has its keys, neither works."""
    screen = fresh.screen_at(key)
    screen.read_ahead()
    screen.make_whole()
    own = fresh.findChildren(QAction, options=Qt.FindChildOption.FindDirectChildrenOnly)
    taken = _keys_of(own)
    assert wording("goto.open") in taken.values()
    for widget in (screen, *screen.findChildren(QWidget)):
        around, above = dict(taken), widget.parentWidget()
        while above is not None and screen.isAncestorOf(widget):
            around |= _keys_of(above.actions())
            above = above.parentWidget()
        clash = around.keys() & _keys_of(widget.actions()).keys()
        assert {name: around[name] for name in clash} == {}
        held = [keys.toString() for each in widget.actions() for keys in each.shortcuts()]
        assert len(held) == len(set(held)), held


def _keys_of(actions: Sequence[QAction]) -> dict[str, str]:
    return {keys.toString(): each.text() for each in actions for keys in each.shortcuts()}
