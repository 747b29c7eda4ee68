"""What is wrong with which line of what was pasted: to read, and to copy."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QDialog, QHBoxLayout, QPlainTextEdit, QVBoxLayout, QWidget

from coachdesk.ui.plain import button, label
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.wording.wording import Wording


class FaultsDialog(QDialog):
    """Says that nothing was added, and why, line by line."""

    def __init__(self, words: Wording, faults: Sequence[str], parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(words("roster.paste.title"))
        self.report = QPlainTextEdit("\n".join(faults))
        self.report.setReadOnly(True)
        self.report.setAccessibleName(words("roster.paste.report"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(label(words("roster.paste.refused", count=len(faults)), wrap=True))
        layout.addWidget(self.report, 1)
        row = QHBoxLayout()
        row.addStretch(1)
        closing = button(words("frame.close"), self.accept, leading=True)
        row.addWidget(closing)
        layout.addLayout(row)
        closing.setFocus()
        self.resize(560, 320)
