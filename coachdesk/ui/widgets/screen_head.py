"""The head of a screen: its name, what it is for, and what is done to all of it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

from coachdesk.ui.plain import small, title
from coachdesk.ui.theme import WIDE_GAP
from coachdesk.wording.wording import Wording


def screen_head(
    words: Wording, key: str, *, said: QLabel | None = None, at_right: tuple[QWidget, ...] = ()
) -> QHBoxLayout:
    """One row for every screen: the title, what it is about (which wraps), or `said` in its place
    where a screen has something to say of the day, and buttons at the right."""
    row = QHBoxLayout()
    row.setSpacing(WIDE_GAP)
    row.addWidget(title(words(f"screen.{key}")))
    row.addWidget(small(words(f"screen.{key}.about")) if said is None else said, 1)
    for widget in at_right:
        row.addWidget(widget, 0, Qt.AlignmentFlag.AlignVCenter)
    return row
