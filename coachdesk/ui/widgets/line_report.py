"""A report line by line: to read, to copy, and to save as a text file."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QDialog, QHBoxLayout, QPlainTextEdit, QVBoxLayout, QWidget

from coachdesk.ui.plain import button, label
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.widgets.dialog_size import open_at
from coachdesk.wording.wording import Wording

_SIZE = (620, 380)


class LineReport(QDialog):
    """A sentence, and below it the lines it speaks of; `save` is offered where it is given."""

    def __init__(
        self,
        words: Wording,
        title: str,
        sentence: str,
        lines: Sequence[str],
        parent: QWidget,
        *,
        save: Callable[[str], object] | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.sentence = label(sentence, wrap=True)
        self.report = QPlainTextEdit("\n".join(lines))
        self.report.setReadOnly(True)
        self.report.setTabChangesFocus(True)
        self.report.setAccessibleName(words("frame.report"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(self.sentence)
        layout.addWidget(self.report, 1)
        row = QHBoxLayout()
        row.addStretch(1)
        if save is not None:
            row.addWidget(button(words("frame.report.save"), lambda: save(self.words)))
        closing = button(words("frame.close"), self.accept, leading=True)
        row.addWidget(closing)
        layout.addLayout(row)
        closing.setFocus()
        open_at(self, *_SIZE)

    @property
    def words(self) -> str:
        """All of it as text."""
        return f"{self.sentence.text()}\n\n{self.report.toPlainText()}\n"
