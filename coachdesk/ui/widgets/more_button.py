"""A button with what is done less often."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QPushButton

from coachdesk.ui.plain import without_mnemonic

HEADING_DROP = 6
"""What a heading beside buttons is raised by [px], so that their words stand on one line."""


def more_button(
    words: str, about: str, entries: Sequence[tuple[str, Callable[[], object]]]
) -> tuple[QPushButton, list[QAction]]:
    """The button, whose menu holds `entries`, and their actions; `about` is its full name."""
    made = QPushButton(without_mnemonic(words))
    made.setAutoDefault(False)
    made.setAccessibleName(about)
    menu = QMenu(made)
    actions = []
    for each, then in entries:
        action = menu.addAction(without_mnemonic(each))
        action.triggered.connect(lambda _checked=False, then=then: then())
        actions.append(action)
    made.setMenu(menu)
    return made, actions
