"""Tabs of a meet that scroll with the page as a whole."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QWidget


class Tall(QWidget):
    """Does not scroll in itself: whatever holds it gives it `needed_height`."""

    height_changed = Signal()
    """What it needs may have changed."""

    def event(self, event: QEvent) -> bool:
        """Tell whenever words or width have changed what is needed."""
        handled = super().event(event)
        if event.type() in {QEvent.Type.LayoutRequest, QEvent.Type.Resize}:
            self.height_changed.emit()
        return handled

    def needed_height(self) -> int:
        """The least height [px] at which nothing is cut off in the width there is."""
        layout = self.layout()
        return 0 if layout is None else layout.totalMinimumHeightForWidth(self.width())


class TallPart(Tall):
    """Shows something of a meet, and reads it when it is seen."""

    def __init__(self) -> None:
        super().__init__()
        self._meet_id: int | None = None
        self._is_stale = False

    def show_meet(self, meet_id: int) -> None:
        """Show a meet, once this part is seen."""
        self._meet_id = meet_id
        self.show_again()

    def show_again(self) -> None:
        """Show the meet anew, once this part is seen."""
        self._is_stale = True
        if self.isVisible():
            self._read_again()

    def read(self, meet_id: int) -> None:
        """Read a meet and show it."""

    def showEvent(self, event: QShowEvent) -> None:
        """Read before being seen, where something has changed."""
        super().showEvent(event)
        if self._is_stale:
            self._read_again()

    def _read_again(self) -> None:
        if self._meet_id is not None:
            self._is_stale = False
            self.read(self._meet_id)
