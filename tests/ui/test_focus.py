"""What has the focus shows it: each kind of control is painted otherwise, in pixels that stand out
from what was there by at least 3 to 1 (WCAG 2.2, 2.4.13), in a light and in a dark room."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QLineEdit,
    QListWidget,
    QPlainTextEdit,
    QPushButton,
    QScrollArea,
    QTabBar,
    QTableWidget,
    QTextBrowser,
    QToolButton,
    QVBoxLayout,
    QWidget,
)
from pytestqt.qtbot import QtBot

from coachdesk.domain.contrast import contrast
from coachdesk.ui.dress import put_on, rules
from coachdesk.ui.plain import button
from coachdesk.ui.theme import DARK, LIGHT, Theme

LEAST_RATIO = 3.0
LEAST_PIXELS = 40


def leading() -> QWidget:
    return button("Save", lambda: None, leading=True)


def push() -> QWidget:
    return button("Leave", lambda: None)


def tool() -> QWidget:
    made = QToolButton()
    made.setText("More")
    made.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    return made


def choice() -> QWidget:
    made = QComboBox()
    made.addItems(["kilograms", "pounds"])
    return made


def ticked() -> QWidget:
    made = QCheckBox("takes a lift-off")
    made.setChecked(True)
    return made


def tabs() -> QWidget:
    made = QTabBar()
    for words in ("Entries", "Attempts"):
        made.addTab(words)
    return made


def table() -> QWidget:
    made = QTableWidget(2, 2)
    made.setCurrentCell(0, 0)
    return made


def empty_table() -> QWidget:
    return QTableWidget(0, 2)


def rows() -> QWidget:
    made = QListWidget()
    made.addItems(["Harbour Open", "Lake Cup"])
    made.setCurrentRow(0)
    return made


def drawing() -> QWidget:
    """As charts are dressed."""
    made = QWidget()
    made.setProperty("drawing", True)
    made.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
    made.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    made.setMinimumHeight(40)
    return made


def area() -> QWidget:
    made = QScrollArea()
    made.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    return made


KINDS: list[Callable[[], QWidget]] = [
    leading,
    push,
    tool,
    choice,
    lambda: QCheckBox("takes a lift-off"),
    ticked,
    QLineEdit,
    QPlainTextEdit,
    QTextBrowser,
    tabs,
    table,
    empty_table,
    rows,
    area,
    drawing,
]
NAMES = [
    *("leading button", "button", "tool button", "choice", "box", "ticked box", "line", "lines"),
    *("text", "tabs", "table", "empty table", "list", "scrolled area", "drawing"),
]


@pytest.fixture(params=[LIGHT, DARK], ids=["light", "dark"])
def theme(request: pytest.FixtureRequest, dressed: QApplication) -> Iterator[Theme]:
    theme: Theme = request.param
    put_on(dressed, theme)
    yield theme
    put_on(dressed, LIGHT)


@pytest.mark.parametrize("make", KINDS, ids=NAMES)
def test_the_focus_is_seen(make: Callable[[], QWidget], theme: Theme, qtbot: QtBot) -> None:
    window = QWidget()
    window.setStyleSheet(rules(theme))
    qtbot.addWidget(window)
    control, other = make(), QPushButton("elsewhere")
    layout = QVBoxLayout(window)
    layout.addWidget(control)
    layout.addWidget(other)
    with qtbot.waitActive(window):
        window.show()
    other.setFocus()
    qtbot.wait(10)
    without = control.grab().toImage()
    control.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(control.hasFocus)
    qtbot.wait(10)
    pixels = standing_out(without, control.grab().toImage())
    assert pixels >= LEAST_PIXELS


def standing_out(before: QImage, after: QImage) -> int:
    """How many pixels differ by the least ratio; the line to type at is left out of account by
    asking for more of them than it has."""
    found = 0
    for x in range(after.width()):
        for y in range(after.height()):
            one, other = before.pixelColor(x, y).name(), after.pixelColor(x, y).name()
            if one != other and contrast(one, other) >= LEAST_RATIO:
                found += 1
    return found
