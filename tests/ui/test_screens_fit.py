"""Every screen and tab shows its words whole: at 1280 by 800, at 150 % of it, in every
language there is, and with words a fifth longer for those to come."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

import pytest
from PySide6.QtCore import QSize, Qt, QTimer
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QDialog,
    QLabel,
    QLineEdit,
    QScrollArea,
    QSizePolicy,
    QTabBar,
    QWidget,
)
from pytestqt.qtbot import QtBot

from coachdesk.app import paths
from coachdesk.app.words import ENGLISH, languages, wording
from coachdesk.domain.text import Value
from coachdesk.domain.units import Unit
from coachdesk.services.desk import Desk
from coachdesk.ui.context import Context
from coachdesk.ui.icons import icon
from coachdesk.ui.main_window import MainWindow
from coachdesk.ui.screens import SCREENS
from coachdesk.ui.screens.blocks.screen import BlocksScreen
from coachdesk.ui.screens.meets.screen import MeetsScreen
from coachdesk.ui.screens.roster.screen import RosterScreen
from coachdesk.ui.theme import LIGHT
from coachdesk.ui.widgets.elided import NameHeading
from coachdesk.wording.wording import Wording

WHOLE, AT_150 = (1280, 800), (853, 533)
AROUND_SCREEN = (48 + 8 + 20 + 20, 26 + 34)
"""What the window keeps beside and above a screen at 150 %: icons and margins, menu and foot."""
LONG = "Langenschwarzenbergerhoffelwasserundvonderburgenthalerwiesengrund"[:60]
SHORT = 24
"""Letters: a longer choice gives way where there is no room."""
LONGER = "a fifth longer"
OTHERS = [LONGER, *(each for each in languages() if each != ENGLISH)]
KEYS = [place.key for place in SCREENS]


class Longer(Wording):
    """Words a fifth longer than they are."""

    def _filled(self, code: str, values: Mapping[str, Value]) -> str:
        lines = super()._filled(code, values).split("\n")
        return "\n".join(" ".join(map(_longer, line.split(" "))) for line in lines)


def _longer(word: str) -> str:
    return word + "n" * round(len(word) / 5) if word.isalpha() else word


def tabs_of(widget: QWidget) -> list[QTabBar]:
    """The rows of tabs that are seen, the outermost first."""
    return [each for each in widget.findChildren(QTabBar) if each.isVisible()]


def every_tab(widget: QWidget, qtbot: QtBot, name: str) -> Iterator[str]:
    """Turn to each tab, and to those within it; says which one is seen."""
    done: set[QTabBar] = set()
    yield from _turn(widget, qtbot, name, done)


def _turn(widget: QWidget, qtbot: QtBot, name: str, done: set[QTabBar]) -> Iterator[str]:
    rows = [each for each in tabs_of(widget) if each not in done]
    if not rows:
        yield name
        return
    row = rows[0]
    for at in range(row.count()):
        row.setCurrentIndex(at)
        settle(widget, qtbot)
        yield from _turn(widget, qtbot, f"{name}, {row.tabText(at)}", {*done, row})


def cut(screen: QWidget) -> list[str]:
    """What is not shown whole."""
    found = []
    for widget in screen.findChildren(QWidget):
        if widget.isVisible():
            why = _why_cut(widget)
            if why:
                found.append(f"{why}: {_words(widget)!r} {widget.size().toTuple()}")
    return found


def _words(widget: QWidget) -> str:
    for asked in ("text", "currentText"):
        if hasattr(widget, asked):
            return str(getattr(widget, asked)())[:60]
    return type(widget).__name__


def _why_cut(widget: QWidget) -> str:
    holder = widget.parentWidget()
    if isinstance(holder, QTabBar | QComboBox | QLineEdit):
        return ""
    match widget:
        case QLabel():
            why = _label(widget)
        case QAbstractButton() if widget.text():
            why = _below_hint(widget)
        case QComboBox():
            why = _choice(widget)
        case QLineEdit():
            needed = widget.fontMetrics().horizontalAdvance(widget.placeholderText())
            why = "placeholder" if needed > widget.width() - 16 else ""
        case QTabBar():
            needed = sum(widget.tabRect(at).width() for at in range(widget.count()))
            why = f"tabs {needed}" if needed > widget.width() else ""
        case QScrollArea():
            why = "scrolls aside" if widget.horizontalScrollBar().maximum() else ""
        case _:
            return ""
    if not why and holder is not None and not isinstance(widget, QTabBar):
        inside = holder.rect().contains(widget.geometry())
        why = "" if inside or _can_be_scrolled(holder) else "outside of what holds it"
    return why


def _can_be_scrolled(holder: QWidget) -> bool:
    """Whether the rest of what it holds is reached by keys too."""
    area = holder.parentWidget()
    return (
        isinstance(area, QScrollArea)
        and area.viewport() is holder
        and bool(area.focusPolicy() & Qt.FocusPolicy.TabFocus)
    )


def _label(label: QLabel) -> str:
    policy = label.sizePolicy().horizontalPolicy()
    if not label.text() or policy is QSizePolicy.Policy.Ignored or isinstance(label, NameHeading):
        return ""
    if not label.wordWrap():
        return _below_hint(label)
    if label.height() < label.heightForWidth(label.width()):
        return "too low"
    metrics = label.fontMetrics()
    widest = max((metrics.horizontalAdvance(word) for word in label.text().split()), default=0)
    return "narrower than a word" if widest > label.width() else ""


def _below_hint(widget: QWidget) -> str:
    hint, size = widget.sizeHint(), widget.size()
    return "cut off" if hint.width() > size.width() or hint.height() > size.height() else ""


def _choice(box: QComboBox) -> str:
    words = box.currentText()
    needed = box.fontMetrics().horizontalAdvance(words) + 6 + 20
    return "choice cut off" if len(words) <= SHORT and needed > box.width() else ""


@pytest.mark.parametrize("size", [WHOLE, AT_150], ids=["whole", "at 150 %"])
@pytest.mark.parametrize("key", KEYS)
def test_words_are_shown_whole(
    window: MainWindow,
    club: Desk,
    context: Context,
    qtbot: QtBot,
    key: str,
    size: tuple[int, int],
) -> None:
    show(window, replace(context, desk=club), qtbot, key, size)
    screen = window.screen_at(key)
    found = {name: cut(screen) for name in every_tab(screen, qtbot, key)}
    assert {name: each for name, each in found.items() if each} == {}
    least = screen.minimumSizeHint()
    assert window.width() == size[0]
    assert least.width() <= AT_150[0] - AROUND_SCREEN[0]
    assert least.height() <= AT_150[1] - AROUND_SCREEN[1]


@pytest.mark.parametrize("size", [WHOLE, AT_150], ids=["whole", "at 150 %"])
@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("language", OTHERS)
def test_longer_words_are_shown_whole(
    window: MainWindow,
    club: Desk,
    context: Context,
    qtbot: QtBot,
    language: str,
    key: str,
    size: tuple[int, int],
) -> None:
    words = Longer(context.words.catalogue) if language == LONGER else wording(language)
    show(window, replace(context, desk=club, words=words), qtbot, key, size)
    screen = window.screen_at(key)
    found = {name: cut(screen) for name in every_tab(screen, qtbot, key)}
    assert {name: each for name, each in found.items() if each} == {}


@pytest.mark.parametrize("size", [WHOLE, AT_150], ids=["whole", "at 150 %"])
@pytest.mark.parametrize("key", ["today", "roster", "meets", "compare"])
def test_the_longest_names_and_pounds_leave_room_for_the_rest(
    window: MainWindow,
    club: Desk,
    context: Context,
    qtbot: QtBot,
    key: str,
    size: tuple[int, int],
) -> None:
    """Sixty letters in a row, which nothing can part, and the largest numbers."""
    with club.store.raw_writing() as connection:
        connection.exec_driver_sql("UPDATE athlete SET family_name = ?, unit = 'lb'", (LONG,))
        connection.exec_driver_sql("UPDATE meet SET name = ?, place = ?", (LONG, LONG))
    pounds = context.words.in_unit(Unit.LB)
    show(window, replace(context, desk=club, words=pounds), qtbot, key, size)
    screen = window.screen_at(key)
    found = {name: cut(screen) for name in every_tab(screen, qtbot, key)}
    assert {name: each for name, each in found.items() if each} == {}
    assert window.width() == size[0]


def test_dialogs_open_within_a_small_window(
    window: MainWindow, club: Desk, context: Context, qtbot: QtBot
) -> None:
    """Seen in passing: each is looked at while it is open, and left."""
    show(window, replace(context, desk=club), qtbot, "blocks", AT_150)
    window.go_to("meets")
    settle(window.screen_at("meets"), qtbot)
    meets, roster = window.screen_at("meets"), window.screen_at("roster")
    assert isinstance(meets, MeetsScreen)
    assert isinstance(roster, RosterScreen)
    blocks = window.screen_at("blocks")
    assert isinstance(blocks, BlocksScreen)
    of_meets = (meets.enter, meets.print, meets.add, meets.edit)
    for ask in (*of_meets, roster.show_handlers, roster.add, blocks.generate):
        seen: list[QSize] = []

        def look(seen: list[QSize] = seen) -> None:
            dialog = QApplication.activeModalWidget()
            if not isinstance(dialog, QDialog) or not dialog.isVisible():
                QTimer.singleShot(5, look)
                return
            seen.append(dialog.size())
            dialog.done(0)

        QTimer.singleShot(5, look)
        ask()
        assert seen[0].width() <= window.width(), ask
        assert seen[0].height() <= window.height(), ask


def settle(widget: QWidget, qtbot: QtBot) -> None:
    """Until what is read in the background is shown, and everything has its place: a chart is
    read, then drawn, and then the words below it are laid out."""
    window = widget.window()
    assert isinstance(window, MainWindow)
    for _ in range(6):
        qtbot.wait(5)
        qtbot.waitUntil(lambda: not window.runner.is_busy, timeout=20_000)
    qtbot.wait(5)


def show(
    window: MainWindow, context: Context, qtbot: QtBot, key: str, size: tuple[int, int]
) -> None:
    folder = paths.resources() / "icons"
    window.places.show_icons({place.key: icon(folder, place.key, LIGHT) for place in SCREENS})
    window.resize(*size)
    window.show()
    window.work_with(context)
    qtbot.waitExposed(window)
    window.go_to(key)
    settle(window.screen_at(key), qtbot)
