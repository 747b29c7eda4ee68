"""How large a dialog opens: as it would like, but within the window it stands on."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog

_AROUND = 40
"""What the window shows around a dialog [px], so that it is seen where one is."""


def open_at(dialog: QDialog, width: int, height: int) -> None:
    """Give a dialog this size [px], less where its window is smaller."""
    parent = dialog.parentWidget()
    if parent is not None:
        room = parent.window().size()
        width, height = min(width, room.width() - _AROUND), min(height, room.height() - _AROUND)
    dialog.resize(width, height)
