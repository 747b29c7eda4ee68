"""The guide's pages, with their sections beside them: the program's own text."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QTextBlock, QTextCursor, QTextFrameFormat, QTextLength, QTextTable
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from coachdesk.ui import shortcuts
from coachdesk.ui.find_line import FindLine
from coachdesk.ui.guide_page import GuidePage
from coachdesk.ui.plain import action, button, plain_tip
from coachdesk.ui.theme import GAP, MARGIN
from coachdesk.ui.widgets.wrapped_rows import WrappedRows
from coachdesk.wording.wording import Wording

_SECTIONS_WIDTH = 230
_SIZE = QSize(1040, 700)
_AROUND_DIALOG = QSize(40, 40)
_BESIDE_PICTURES = _SECTIONS_WIDTH + 6 * MARGIN
_TABLES_PERCENT = 99
"""Of the width of the page: columns are rounded up to whole pixels, and must not go beyond it."""
_PAGE_LEVEL, _SECTION_LEVEL = 1, 2


class GuideDialog(QDialog):
    """Shows `page`, in Markdown: one page or several, each under a heading of its own, with
    pictures from `folder`. What is chosen in the list is brought to the top."""

    def __init__(
        self, words: Wording, page: str, folder: Path, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(words("frame.guide"))
        size = _SIZE if parent is None else _SIZE.boundedTo(parent.size() - _AROUND_DIALOG)
        self.page = GuidePage(folder, size.width() - _BESIDE_PICTURES)
        self.page.setOpenLinks(False)
        self.page.setTabChangesFocus(True)
        self.page.setAccessibleName(words("frame.guide.page"))
        self.page.document().setDocumentMargin(MARGIN)
        self.page.setMarkdown(page)
        for table in _tables(self.page):
            _dress(table, self.page)
        self._headings = list(_sections(self.page))
        self.sections = self._list(words)
        self.finding = FindLine(words, self.page)
        action(self, words("find.hint"), self.finding.setFocus, shortcuts.FIND)
        both = QHBoxLayout()
        both.setSpacing(GAP)
        both.addWidget(self.sections)
        both.addWidget(self.page, 1)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(button(words("frame.close"), self.accept, leading=True))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, MARGIN, MARGIN, MARGIN)
        layout.setSpacing(GAP)
        layout.addWidget(self.finding)
        layout.addLayout(both, 1)
        layout.addLayout(buttons)
        self.page.setFocus()
        self.resize(size)

    def _list(self, words: Wording) -> QListWidget:
        sections = QListWidget()
        sections.setAccessibleName(words("frame.guide.sections"))
        sections.setFixedWidth(_SECTIONS_WIDTH)
        sections.setWordWrap(True)
        sections.setItemDelegate(WrappedRows(sections))
        sections.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for heading in self._headings:
            item = QListWidgetItem(heading.text(), sections)
            item.setToolTip(plain_tip(heading.text()))
            if heading.blockFormat().headingLevel() == _PAGE_LEVEL:
                font = item.font()
                font.setBold(True)
                item.setFont(font)
        sections.setCurrentRow(0)
        sections.currentRowChanged.connect(self._go_to)
        sections.itemClicked.connect(lambda item: self._go_to(sections.row(item)))
        return sections

    def _go_to(self, section: int) -> None:
        place = self.page.document().documentLayout().blockBoundingRect(self._headings[section])
        self.page.verticalScrollBar().setValue(round(place.top()))


def _sections(page: QTextBrowser) -> Iterator[QTextBlock]:
    block = page.document().begin()
    while block.isValid():
        if block.blockFormat().headingLevel() in {_PAGE_LEVEL, _SECTION_LEVEL}:
            yield block
        block = block.next()


def _tables(page: QTextBrowser) -> Iterator[QTextTable]:
    for frame in page.document().rootFrame().childFrames():
        if isinstance(frame, QTextTable):
            yield frame


def _dress(table: QTextTable, page: QTextBrowser) -> None:
    """Quiet lines and room around; heads of figures stand above their figures."""
    dress = table.format()
    dress.setBorderBrush(page.palette().mid())
    dress.setBorderStyle(QTextFrameFormat.BorderStyle.BorderStyle_Solid)
    dress.setTopMargin(GAP)
    dress.setBottomMargin(GAP)
    dress.setWidth(QTextLength(QTextLength.Type.PercentageLength, _TABLES_PERCENT))
    table.setFormat(dress)
    for column in range(1, table.columns()):
        head = QTextCursor(table.cellAt(0, column).firstCursorPosition())
        to_right = head.blockFormat()
        to_right.setAlignment(Qt.AlignmentFlag.AlignRight)
        head.setBlockFormat(to_right)
