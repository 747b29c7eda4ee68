"""What all screens share: they read anew when something they show has changed and they are seen."""

from __future__ import annotations

from typing import ClassVar

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QWidget

from coachdesk.domain.change import Change
from coachdesk.ui.context import Context


class Screen(QWidget):
    """A screen. `kinds` are the tables it shows; a change to another leaves it alone."""

    kinds: ClassVar[frozenset[str]] = frozenset()

    go = Signal(object)
    """Lead another way: a `Way`."""

    def __init__(self, context: Context) -> None:
        super().__init__()
        self.context = context
        self.words = context.words
        self._is_stale = True
        context.changed.changed.connect(self._changed)
        context.changed.new_day.connect(self._grow_stale)

    def reload(self) -> None:
        """Read anew and show; what is chosen stays chosen."""

    def show_record(self, record_id: int) -> None:
        """Go to a record."""

    def show_part(self, part: str, within: int) -> None:
        """Go to a part of the record shown, and to a record within it."""

    def has_unsaved(self) -> bool:
        """Whether something typed is not kept yet."""
        return False

    def save_unsaved(self) -> bool:
        """Keep what is typed; answers whether it could be."""
        return True

    def showEvent(self, event: QShowEvent) -> None:
        """Read anew before being seen, where something has changed."""
        super().showEvent(event)
        self.refresh()

    def refresh(self) -> None:
        """Read anew where something has changed."""
        if self._is_stale and self.isVisible():
            self._is_stale = False
            self.reload()

    def read_ahead(self) -> None:
        """Read before being seen for the first time."""
        if self._is_stale:
            self._is_stale = False
            self.reload()

    def make_whole(self) -> None:
        """Make the parts that are otherwise made when they are looked at."""

    def _changed(self, changes: frozenset[Change]) -> None:
        if any(change.kind in self.kinds for change in changes):
            self._grow_stale()

    def _grow_stale(self) -> None:
        self._is_stale = True
        QTimer.singleShot(0, self, self.refresh)
