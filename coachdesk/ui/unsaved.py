"""What is typed and not kept yet: asked about before it would be lost."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMessageBox

from coachdesk.ui.screens.base import Screen


def settle(screen: Screen) -> bool:
    """Ask what to do with what is typed on a screen; answers whether the way is free."""
    words = screen.words
    box = QMessageBox(screen.window())
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(words("frame.unsaved"))
    role = QMessageBox.ButtonRole
    keep = box.addButton(words("frame.save"), role.AcceptRole)
    discard = box.addButton(words("frame.discard"), role.DestructiveRole)
    stay = box.addButton(words("frame.go_on"), role.RejectRole)
    box.setDefaultButton(keep)
    box.setEscapeButton(stay)
    box.exec()
    if box.clickedButton() is keep:
        return screen.save_unsaved()
    return box.clickedButton() is discard
