"""A dialog around a form: Enter saves, Escape leaves and asks when something was typed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QKeyEvent, QShowEvent
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QHBoxLayout,
    QPlainTextEdit,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from coachdesk.domain.errors import InvalidInput
from coachdesk.ui.context import Context
from coachdesk.ui.plain import ask, button, small
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.widgets.form import Form

_WIDTH = 520
_AROUND_FORM = 96
_AROUND_DIALOG = 40
"""Sizes [px]."""


class FormDialog(QDialog):
    """Shows `form` until `save` takes its values.

    `save` is given the values and answers what the use case answers; it raises InvalidInput for
    what cannot be taken, which is said at its field. `answer` holds what it answered. Where
    `go_on_words` name what usually comes next, Ctrl+Enter saves and `goes_on`.
    """

    def __init__(
        self,
        context: Context,
        title: str,
        form: Form,
        save: Callable[[dict[str, str]], Any],
        *,
        save_words: str = "",
        go_on_words: str = "",
        about: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.goes_on = False
        self._can_go_on = bool(go_on_words)
        self.setWindowTitle(title)
        self._context = context
        self.form = form
        self._save = save
        self.answer: Any = None
        words = context.words
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        self._about = small(about) if about else None
        if self._about is not None:
            layout.addWidget(self._about)
        self._area = scrolled(form)
        layout.addWidget(self._area, 1)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(button(words("frame.leave"), self.reject))
        if go_on_words:
            hint = words("frame.save_and_go_on")
            buttons.addWidget(button(go_on_words, self.save_and_go_on, hint=hint))
        self._save_button = button(save_words or words("frame.save"), self.save, leading=True)
        buttons.addWidget(self._save_button)
        layout.addLayout(buttons)
        form.mark_clean()
        form.focus_first()
        self.setMinimumWidth(460)

    def sizeHint(self) -> QSize:
        """High enough for the whole form, no higher than the window it stands on. Also with a
        scroll bar beside it: one that came while the dialog was being laid out would stay else."""
        width = max(super().sizeHint().width(), _WIDTH)
        inner = width - 2 * MARGIN
        form = self.form
        has_wrapped = form.hasHeightForWidth()
        beside_bar = inner - self._area.verticalScrollBar().sizeHint().width()
        height = form.heightForWidth(beside_bar) if has_wrapped else form.sizeHint().height()
        height += _AROUND_FORM
        if self._about is not None:
            height += self._about.heightForWidth(inner) + GAP
        parent = self.parentWidget()
        if parent is not None:
            height = min(height, parent.window().height() - _AROUND_DIALOG)
        return QSize(width, height)

    def showEvent(self, event: QShowEvent) -> None:
        """As large as it asks for: left alone, Qt gives it two thirds of a small display."""
        super().showEvent(event)
        if not event.spontaneous():
            self.resize(self.sizeHint())

    def save(self) -> None:
        """Save and close; stay where something cannot be taken."""
        self.form.clear_errors()
        self._context.runner.now(
            lambda: self._save(self.form.values()),
            then=self._saved,
            invalid=self._refuse,
        )

    def save_and_go_on(self) -> None:
        """Save, close, and go on with what usually comes next."""
        self.goes_on = True
        self.save()

    def reject(self) -> None:
        """Leave; what was typed is let go only when the coach says so."""
        words = self._context.words
        if self.form.is_dirty() and not ask(
            self, words("frame.discard.question"), words("frame.discard"), words("frame.go_on")
        ):
            return
        super().reject()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter saves, but for where it begins a new line."""
        in_lines = isinstance(self.focusWidget(), QPlainTextEdit)
        is_enter = event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}
        if is_enter and event.modifiers() & Qt.KeyboardModifier.ControlModifier and self._can_go_on:
            self.save_and_go_on()
        elif is_enter and not in_lines:
            self.save()
        else:
            super().keyPressEvent(event)

    def _refuse(self, error: InvalidInput) -> None:
        self.goes_on = False
        self.form.show_error(error)

    def _saved(self, answer: Any) -> None:
        self.answer = getattr(answer, "value", answer)
        self.accept()


def scrolled(widget: QWidget) -> QScrollArea:
    """A widget in a scroll area without a frame, as wide as there is room."""
    area = QScrollArea()
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(widget)
    return area
