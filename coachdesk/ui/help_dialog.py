"""What a screen is for, and the keys that work on it."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QDialog, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from coachdesk.ui.plain import button, heading, label
from coachdesk.ui.theme import GAP, MARGIN, WIDE_GAP
from coachdesk.ui.widgets.dialog_size import open_at
from coachdesk.ui.widgets.form_dialog import scrolled
from coachdesk.wording.wording import Wording

_EVERYWHERE = (
    "go_to",
    "new",
    "find",
    "open",
    "delete",
    "leave",
    "undo",
    "redo",
    "screens",
    "copy",
    "help",
    "guide",
)


class HelpDialog(QDialog):
    """Help for the screen `key`; its own actions come from the widget."""

    def __init__(
        self, words: Wording, key: str, screen: QWidget | None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(words("frame.help.title", screen=words(f"screen.{key}")))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(label(words(f"screen.{key}.about"), wrap=True))
        body = QWidget()
        inner = QVBoxLayout(body)
        inner.setContentsMargins(0, 0, 0, 0)
        own = [] if screen is None else sorted(_actions(screen))
        if own:
            inner.addWidget(heading(words("frame.help.here")))
            inner.addLayout(_keys(own))
        inner.addWidget(heading(words("frame.help.everywhere")))
        inner.addLayout(
            _keys((words(f"keys.{each}.what"), words(f"keys.{each}")) for each in _EVERYWHERE)
        )
        inner.addStretch(1)
        layout.addWidget(scrolled(body), 1)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        closing = button(words("frame.close"), self.accept, leading=True)
        buttons.addWidget(closing)
        layout.addLayout(buttons)
        closing.setFocus()
        open_at(self, 520, 480)


def _actions(screen: QWidget) -> set[tuple[str, str]]:
    """What can be done on a screen by keys, and the keys."""
    form = QKeySequence.SequenceFormat.NativeText
    return {
        (action.text().replace("&&", "&"), action.shortcut().toString(form))
        for widget in (screen, *screen.findChildren(QWidget))
        for action in widget.actions()
        if not action.shortcut().isEmpty()
    }


def _keys(pairs: Iterable[tuple[str, str]]) -> QGridLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(WIDE_GAP)
    grid.setColumnStretch(1, 1)
    for at, (what, keys) in enumerate(pairs):
        grid.addWidget(label(keys, role="quiet"), at, 0)
        grid.addWidget(label(what, wrap=True), at, 1)
    return grid
