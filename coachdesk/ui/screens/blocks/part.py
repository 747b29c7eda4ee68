"""What the tabs share: where they are low, what is said besides gives way to what is worked on."""

from __future__ import annotations

from typing import TypeVar

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

W = TypeVar("W", bound=QWidget)

ROOMY_PX = 480
"""From this height on there is room for explanations [px]; below it the guide has to do."""


class Part(QWidget):
    """A tab of the screen."""

    def __init__(self) -> None:
        super().__init__()
        self._besides: list[QWidget] = []

    @property
    def is_roomy(self) -> bool:
        """Whether there is room for more than what is worked on."""
        return self.height() >= ROOMY_PX

    def besides(self, widget: W) -> W:
        """A widget that is seen only where there is room; hidden at first, so that the least
        height of the window does not count it."""
        widget.hide()
        self._besides.append(widget)
        return widget

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show as much as there is room for."""
        super().resizeEvent(event)
        for widget in self._besides:
            widget.setVisible(self.is_roomy)
