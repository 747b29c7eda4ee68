"""What to do with what is typed and not kept yet."""

from __future__ import annotations

from enum import Enum, auto

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMessageBox, QWidget

from coachdesk.ui.plain import without_mnemonic
from coachdesk.wording.wording import Wording


class Answer(Enum):
    """What the coach chose."""

    SAVE = auto()
    DISCARD = auto()
    STAY = auto()


def ask_unsaved(parent: QWidget, words: Wording, sentence: str) -> Answer:
    """Ask what becomes of what was typed; Escape stays."""
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Question)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(sentence)
    role = QMessageBox.ButtonRole
    save = box.addButton(without_mnemonic(words("frame.save")), role.AcceptRole)
    discard = box.addButton(without_mnemonic(words("frame.discard")), role.DestructiveRole)
    stay = box.addButton(without_mnemonic(words("frame.go_on")), role.RejectRole)
    box.setDefaultButton(save)
    box.setEscapeButton(stay)
    box.exec()
    if box.clickedButton() is save:
        return Answer.SAVE
    return Answer.DISCARD if box.clickedButton() is discard else Answer.STAY
