"""The profile of the athlete chosen: typed over, saved, put back."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QPlainTextEdit, QVBoxLayout, QWidget

from coachdesk.domain.errors import InvalidInput
from coachdesk.ui.context import Context
from coachdesk.ui.plain import ask, button, label
from coachdesk.ui.screens.roster.athlete_detail import AthleteDetail
from coachdesk.ui.screens.roster.forms import profile_form
from coachdesk.ui.theme import GAP
from coachdesk.ui.widgets.form_dialog import scrolled


class ProfilePart(QWidget):
    """Enter or Ctrl+S saves, Escape puts back; what cannot be taken is said at its field."""

    was_put_back = Signal()
    """What is on file is to be shown."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self._context = context
        self._detail: AthleteDetail | None = None
        words = context.words
        self.form = profile_form(words)
        self._state = label(role="warn")
        self._put_back = button(words("roster.put_back"), self.put_back)
        self.save_button = button(words("frame.save"), self.save, leading=True)
        area = scrolled(self.form)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(area, 1)
        row = QHBoxLayout()
        row.addWidget(self._state, 1)
        row.addWidget(self._put_back)
        row.addWidget(self.save_button)
        layout.addLayout(row)
        self.form.edited.connect(self._show_state)
        self._area = area
        self._show_state()

    def show_athlete(self, detail: AthleteDetail | None) -> None:
        """Show another athlete, or the same one read anew: what is typed stays then."""
        is_same = detail is not None and self._detail is not None and detail.id == self._detail.id
        if is_same and self.has_unsaved():
            return
        self._detail = detail
        if detail is not None:
            self.form.set_values(detail.values())
        if not is_same:
            self._area.verticalScrollBar().setValue(0)
        self._show_state()

    def begin(self) -> None:
        """Go to where one begins to type."""
        self.form.focus_first()

    def has_unsaved(self) -> bool:
        """Whether something differs from what is kept."""
        return self._detail is not None and self.form.is_dirty()

    def save(self) -> bool:
        """Keep what is typed; answers whether it could be."""
        detail = self._detail
        if detail is None or not self.form.is_dirty():
            return True
        self.form.clear_errors()
        values = self.form.values()
        return self._context.runner.now(
            lambda: detail.save(values), then=lambda _: self._saved(), invalid=self._refused
        )

    def discard(self) -> None:
        """Let go of what is typed."""
        self.form.put_back()
        self._show_state()

    def put_back(self) -> None:
        """Ask, and show what is kept."""
        words = self._context.words
        if not self.has_unsaved() or not ask(
            self, words("frame.discard.question"), words("frame.discard"), words("frame.go_on")
        ):
            return
        self.discard()
        self.was_put_back.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter saves, but for where it begins a new line; Escape puts back."""
        in_lines = isinstance(self.focusWidget(), QPlainTextEdit)
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter} and not in_lines:
            self.save()
        elif event.key() == Qt.Key.Key_Escape and self.has_unsaved():
            self.put_back()
        else:
            super().keyPressEvent(event)

    def _saved(self) -> None:
        self.form.mark_clean()
        self._show_state()
        self._context.notices.say(self._context.words("roster.saved"))

    def _refused(self, error: InvalidInput) -> None:
        self.form.show_error(error)
        focused = self.focusWidget()
        if focused is not None:
            self._area.ensureWidgetVisible(focused, 0, 80)

    def _show_state(self) -> None:
        unsaved = self.has_unsaved()
        self._state.setText(self._context.words("roster.not_saved") if unsaved else "")
        self._put_back.setEnabled(unsaved)
        self.save_button.setEnabled(unsaved)
