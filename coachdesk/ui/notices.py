"""The line at the window's foot: what was done, what went wrong, what is under way."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QHBoxLayout, QProgressBar, QWidget

from coachdesk.ui.plain import button, label, set_role, without_mnemonic
from coachdesk.ui.theme import GAP
from coachdesk.wording.wording import Wording

_SHOWN_MS = 8000


class Notices(QWidget):
    """Says one thing at a time; trouble stays until it is put away."""

    def __init__(self, words: Wording, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._stop: Callable[[], None] | None = None
        self._line = label(wrap=True)
        self._line.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._bar = QProgressBar()
        self._bar.setMaximumWidth(220)
        self._cancel = button("", self._ask_to_stop)
        self._put_away = button("", self.clear)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(GAP, GAP // 2, GAP, GAP // 2)
        layout.addWidget(self._line, 1)
        for widget in (self._bar, self._cancel, self._put_away):
            layout.addWidget(widget)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.clear)
        self._under_way("", None)
        self.speak(words)

    def speak(self, words: Wording) -> None:
        """Name what stands beside the line; what was said in another language goes."""
        self._bar.setAccessibleName(words("frame.progress"))
        self._cancel.setText(without_mnemonic(words("frame.stop")))
        self._put_away.setText(without_mnemonic(words("frame.put_away")))
        self.clear()

    @property
    def words(self) -> str:
        """What it says now."""
        return self._line.text()

    def say(self, words: str) -> None:
        """Tell what was done; it goes by itself."""
        self._show(words, "good")
        self._timer.start(_SHOWN_MS)

    def trouble(self, words: str) -> None:
        """Tell what went wrong; it stays until it is put away or something else is said."""
        self._show(words, "bad")
        self._put_away.show()

    def clear(self) -> None:
        """Say nothing."""
        self._timer.stop()
        self._line.clear()
        self._line.setAccessibleName("")
        self._put_away.hide()

    def under_way(self, about: str, stop: Callable[[], None] | None) -> None:
        """Show that something is under way, and how to stop it where that can be done."""
        self._show(about, "quiet")
        self._under_way(about, stop)

    def progress(self, done: int, of: int) -> None:
        """Show how far it is."""
        self._bar.setRange(0, of)
        self._bar.setValue(done)

    def over(self) -> None:
        """What was under way has ended."""
        self._under_way("", None)
        self.clear()

    def _under_way(self, about: str, stop: Callable[[], None] | None) -> None:
        self._stop = stop
        self._bar.setRange(0, 0)
        self._bar.setVisible(bool(about))
        self._cancel.setVisible(stop is not None)

    def _ask_to_stop(self) -> None:
        if self._stop is not None:
            self._stop()

    def _show(self, words: str, role: str) -> None:
        self._timer.stop()
        self._put_away.hide()
        self._line.setText(words)
        self._line.setAccessibleName(words)
        set_role(self._line, role)
