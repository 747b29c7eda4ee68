"""A rulebook as a page to read: headings and two columns, letter by letter."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtGui import (
    QColor,
    QFont,
    QTextBlockFormat,
    QTextCharFormat,
    QTextCursor,
    QTextFrameFormat,
    QTextLength,
    QTextTableFormat,
)
from PySide6.QtWidgets import QTextEdit

from coachdesk.ui.screens.rulebooks.reading import Section
from coachdesk.ui.theme import GAP, HEADING_PT, MARGIN, TEXT_PT, Theme

_SHARES = (34, 66)
"""The widths of both columns [%]."""


class Document(QTextEdit):
    """Shows sections; read and copied by keyboard, never written to."""

    def __init__(self, theme: Theme, about: str) -> None:
        super().__init__()
        self._theme = theme
        self.setReadOnly(True)
        self.setTabChangesFocus(True)
        self.setUndoRedoEnabled(False)
        self.setAccessibleName(about)

    def show_sections(self, sections: Sequence[Section]) -> None:
        """Write the page anew and go to its head."""
        self.clear()
        cursor = QTextCursor(self.document())
        cursor.beginEditBlock()
        for section in sections:
            self._write(cursor, section)
        cursor.endEditBlock()
        self.moveCursor(QTextCursor.MoveOperation.Start)

    def _write(self, cursor: QTextCursor, section: Section) -> None:
        heading = QTextBlockFormat()
        heading.setBottomMargin(GAP / 2)
        letters = self._letters(HEADING_PT, bold=True)
        if self.document().isEmpty():
            cursor.setBlockFormat(heading)
        else:
            heading.setTopMargin(MARGIN)
            cursor.insertBlock(heading)
        cursor.insertText(section.title, letters)
        if not section.lines:
            return
        table = cursor.insertTable(len(section.lines), len(_SHARES), _table_format())
        for row, line in enumerate(section.lines):
            for column, (words, quiet) in enumerate(((line.about, True), (line.words, False))):
                cell = table.cellAt(row, column).firstCursorPosition()
                cell.insertText(words, self._letters(TEXT_PT, quiet=quiet))
        cursor.movePosition(QTextCursor.MoveOperation.End)

    def _letters(
        self, points: float, *, bold: bool = False, quiet: bool = False
    ) -> QTextCharFormat:
        letters = QTextCharFormat()
        letters.setFontPointSize(max(self.font().pointSizeF(), 1.0) * points / TEXT_PT)
        letters.setFontWeight(QFont.Weight.Bold if bold else QFont.Weight.Normal)
        letters.setForeground(QColor(self._theme.quiet if quiet else self._theme.ink))
        return letters


def _table_format() -> QTextTableFormat:
    made = QTextTableFormat()
    made.setBorder(0)
    made.setBorderStyle(QTextFrameFormat.BorderStyle.BorderStyle_None)
    made.setCellPadding(2)
    made.setCellSpacing(1)
    made.setWidth(QTextLength(QTextLength.Type.PercentageLength, 100))
    made.setColumnWidthConstraints(
        [QTextLength(QTextLength.Type.PercentageLength, share) for share in _SHARES]
    )
    return made
