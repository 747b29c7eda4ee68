"""What holds for every screen: names for a screen reader, plain text, a constant number of
statements, and what is on the desk is what a second look finds."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QLabel, QWidget
from pytestqt.qtbot import QtBot
from sqlalchemy import event

from coachdesk.services.desk import Desk
from coachdesk.ui.context import Context
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens import SCREENS

KEYS = [place.key for place in SCREENS]
FEWER = (
    "DELETE FROM athlete WHERE id NOT IN (SELECT id FROM athlete ORDER BY id DESC LIMIT 2)",
    "DELETE FROM meet WHERE id NOT IN (SELECT id FROM meet ORDER BY id DESC LIMIT 2)",
)
CONTROLS = {
    QAccessible.Role.PushButton,
    QAccessible.Role.ButtonDropDown,
    QAccessible.Role.ButtonMenu,
    QAccessible.Role.CheckBox,
    QAccessible.Role.RadioButton,
    QAccessible.Role.ComboBox,
    QAccessible.Role.EditableText,
    QAccessible.Role.SpinBox,
    QAccessible.Role.Slider,
    QAccessible.Role.List,
    QAccessible.Role.Table,
    QAccessible.Role.Tree,
    QAccessible.Role.PageTab,
    QAccessible.Role.Chart,
    QAccessible.Role.ProgressBar,
}


@pytest.fixture
def open_window(window: MainWindow, club: Desk, context: Context, qtbot: QtBot) -> MainWindow:
    """The window at work on the invented club."""
    window.show()
    window.work_with(replace(context, desk=club))
    qtbot.waitExposed(window)
    return window


def below(interface: QAccessibleInterface) -> Iterator[QAccessibleInterface]:
    """Everything a screen reader finds, but for the cells of tables and lists."""
    yield interface
    if interface.role() in {QAccessible.Role.Table, QAccessible.Role.List, QAccessible.Role.Tree}:
        return
    for at in range(interface.childCount()):
        child = interface.child(at)
        if child.isValid():
            yield from below(child)


def nameless(widget: QWidget) -> list[str]:
    found = []
    for each in below(QAccessible.queryAccessibleInterface(widget)):
        state = each.state()
        if each.role() in CONTROLS and not state.invisible:
            named = each.text(QAccessible.Text.Name).strip()
            if not named:
                holder = each.object()
                found.append(f"{each.role()} {holder} {getattr(holder, 'text', str)()}")
    return found


@pytest.mark.parametrize("key", KEYS)
def test_every_control_has_a_name(open_window: MainWindow, key: str) -> None:
    open_window.go_to(key)
    assert nameless(open_window) == []


@pytest.mark.parametrize("key", KEYS)
def test_words_are_shown_letter_by_letter(open_window: MainWindow, key: str) -> None:
    open_window.go_to(key)
    labels = open_window.screen_at(key).findChildren(QLabel)
    assert [each.text() for each in labels if each.textFormat() is Qt.TextFormat.RichText] == []
    marked = [each for each in labels if each.textFormat() is Qt.TextFormat.AutoText]
    assert [each.text() for each in marked if each.text()] == []


@contextmanager
def counted(desk: Desk) -> Iterator[list[str]]:
    """The statements sent to the file meanwhile."""
    statements: list[str] = []

    def count(_connection: object, _cursor: object, statement: str, *_rest: object) -> None:
        statements.append(statement)

    engine = desk.store._engine
    event.listen(engine, "before_cursor_execute", count)
    try:
        yield statements
    finally:
        event.remove(engine, "before_cursor_execute", count)


@pytest.mark.parametrize("key", KEYS)
def test_opening_takes_a_constant_number_of_statements(
    open_window: MainWindow, club: Desk, key: str
) -> None:
    """As many for one athlete and meet as for the whole club."""
    screen = open_window.screen_at(key)
    open_window.go_to(key)
    with counted(club) as all_of_them:
        screen.reload()
    with club.store.raw_writing() as connection:
        for statement in FEWER:
            connection.exec_driver_sql(statement)
    with counted(club) as fewer:
        screen.reload()
    assert len(all_of_them) <= len(fewer) + 2, [*all_of_them]


def test_screens_made_ahead_stand_ready_at_the_first_visit(
    open_window: MainWindow, club: Desk, qtbot: QtBot
) -> None:
    with counted(club) as read_ahead, qtbot.waitSignal(open_window.all_made, timeout=20_000):
        open_window.make_ahead()
    assert read_ahead
    for place in SCREENS:
        with counted(club) as statements:
            open_window.go_to(place.key)
            qtbot.wait(1)
        assert not statements, place.key


@pytest.mark.parametrize("key", KEYS)
def test_an_empty_desk_opens_too(
    window: MainWindow, context: Context, qtbot: QtBot, key: str
) -> None:
    window.show()
    window.work_with(context)
    qtbot.waitExposed(window)
    window.go_to(key)
    assert window.current_key == key
    assert nameless(window) == []
    assert window.notices.words == ""


def test_screens_are_reached_by_keys_alone(open_window: MainWindow, qtbot: QtBot) -> None:
    for at, key in enumerate(KEYS, start=1):
        qtbot.keyClick(
            open_window, getattr(Qt.Key, f"Key_{at}"), Qt.KeyboardModifier.ControlModifier
        )
        assert open_window.current_key == key
