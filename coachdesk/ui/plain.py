"""Words on screen, letter by letter: a name may hold markup or an ampersand."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QFont, QKeySequence
from PySide6.QtWidgets import QHBoxLayout, QLabel, QMessageBox, QPushButton, QWidget

from coachdesk.ui.theme import FIGURE_PT, HEADING_PT, SMALL_PT, TEXT_PT, TITLE_PT


def label(words: str = "", *, role: str = "", wrap: bool = False) -> QLabel:
    """A label; `role` is "", "quiet", "good", "warn" or "bad"."""
    made = QLabel()
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setText(words)
    made.setWordWrap(wrap)
    if role:
        made.setProperty("role", role)
    return made


def heading(words: str = "") -> QLabel:
    """A heading within a screen."""
    return _sized(label(words), HEADING_PT, bold=True)


def dress_heading(words: QLabel) -> None:
    """Give a label the size of a heading within a screen."""
    _sized(words, HEADING_PT, bold=True)


def title(words: str = "") -> QLabel:
    """A screen's title."""
    return _sized(label(words), TITLE_PT, bold=True)


def figure(words: str = "") -> QLabel:
    """A large figure, legible across a room."""
    return _sized(label(words), FIGURE_PT, bold=True)


def small(words: str = "", *, role: str = "quiet") -> QLabel:
    """A quiet line of explanation, wrapped."""
    return _sized(label(words, role=role, wrap=True), SMALL_PT, bold=False)


def set_role(words: QLabel, role: str) -> None:
    """Change a label's role and dress it anew."""
    words.setProperty("role", role)
    words.style().unpolish(words)
    words.style().polish(words)


def button(
    words: str, then: Callable[[], object], *, leading: bool = False, hint: str = ""
) -> QPushButton:
    """A button; `leading` for the one that carries on."""
    made = QPushButton(without_mnemonic(words))
    made.setAutoDefault(False)
    if leading:
        made.setProperty("leading", True)
    if hint:
        tip(made, hint)
    made.clicked.connect(lambda *_: then())
    return made


def action(
    owner: QWidget,
    words: str,
    then: Callable[[], object],
    keys: QKeySequence | QKeySequence.StandardKey | str = "",
) -> QAction:
    """An action of `owner`, reached by `keys` while the focus is within it."""
    made = QAction(without_mnemonic(words), owner)
    if keys:
        made.setShortcut(QKeySequence(keys))
        made.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
    made.triggered.connect(lambda *_: then())
    owner.addAction(made)
    return made


def tip(widget: QWidget, words: str) -> None:
    """A tooltip, and the same words for a screen reader."""
    widget.setToolTip(plain_tip(words))
    widget.setAccessibleDescription(words)


def plain_tip(words: str) -> str:
    """Words as Qt shows them letter by letter in a tooltip."""
    return f"<qt>{escape(words)}</qt>" if words else ""


def without_mnemonic(words: str) -> str:
    """Words in which an ampersand is an ampersand."""
    return words.replace("&", "&&")


def ask(parent: QWidget, question: str, yes: str, no: str, *, more: str = "") -> bool:
    """Ask before something that goes far; Escape and the first choice are no."""
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Question)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(question)
    box.setInformativeText(more)
    agreed = box.addButton(without_mnemonic(yes), QMessageBox.ButtonRole.AcceptRole)
    stay = box.addButton(without_mnemonic(no), QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(stay)
    box.setEscapeButton(stay)
    box.exec()
    return box.clickedButton() is agreed


def to_right(*widgets: QWidget) -> QWidget:
    """A row of widgets that stand at its right."""
    row = QWidget()
    layout = QHBoxLayout(row)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.addStretch(1)
    for each in widgets:
        layout.addWidget(each)
    return row


def _sized(words: QLabel, points: float, *, bold: bool) -> QLabel:
    """Sizes follow the application's own text size, so that a larger one enlarges all."""
    font = QFont(words.font())
    font.setPointSizeF(max(font.pointSizeF(), 1.0) * points / TEXT_PT)
    font.setBold(bold)
    words.setFont(font)
    return words
