"""When the program itself is at fault: what happened, a report to copy, and the work goes on."""

from __future__ import annotations

from PySide6.QtGui import QFont, QFontDatabase, QGuiApplication
from PySide6.QtWidgets import QDialog, QHBoxLayout, QPlainTextEdit, QVBoxLayout, QWidget

from coachdesk.ui.plain import button, heading, label
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.wording.wording import Wording


class BugDialog(QDialog):
    """Shows a report that holds no records and no names of athletes."""

    def __init__(self, words: Wording, report: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(words("bug.title"))
        self._report = report
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(heading(words("bug.title")))
        layout.addWidget(label(words("bug.about"), wrap=True))
        shown = QPlainTextEdit(report)
        shown.setReadOnly(True)
        shown.setTabChangesFocus(True)
        shown.setAccessibleName(words("bug.report"))
        shown.setFont(QFont(QFontDatabase.systemFont(QFontDatabase.SystemFont.FixedFont)))
        layout.addWidget(shown, 1)
        buttons = QHBoxLayout()
        buttons.addWidget(button(words("bug.copy"), self.copy))
        buttons.addStretch(1)
        go_on = button(words("bug.go_on"), self.accept, leading=True)
        buttons.addWidget(go_on)
        layout.addLayout(buttons)
        go_on.setFocus()
        self.resize(640, 420)

    def copy(self) -> None:
        """Put the report on the clipboard."""
        QGuiApplication.clipboard().setText(self._report)
