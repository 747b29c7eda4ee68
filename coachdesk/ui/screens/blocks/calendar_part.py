"""The tab of the calendar: blocks on a line of time up to the meet, and the same as a table."""

from __future__ import annotations

from datetime import date
from operator import attrgetter

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QVBoxLayout, QWidget

from coachdesk.services.chart_scale import day_scale
from coachdesk.ui.context import Context
from coachdesk.ui.models.rows_model import Column
from coachdesk.ui.plain import label
from coachdesk.ui.screens.blocks.calendar_rows import Calendar, CalendarBar
from coachdesk.ui.theme import GAP, Theme
from coachdesk.ui.weights.day_words import short_day
from coachdesk.ui.widgets.table import Table
from coachdesk.wording.wording import Wording

_ROW_PX = 30
_HEAD_PX = 26
_MARKS_PX = 44
_TICK_PX = 80
_TEXT_PX = 6


class CalendarPart(QWidget):
    """Shows an athlete's blocks; Enter on one opens it."""

    opened = Signal(object)

    def __init__(self, context: Context) -> None:
        super().__init__()
        words = context.words

        def first(row: CalendarBar) -> str:
            return short_day(words, row.first)

        def last(row: CalendarBar) -> str:
            return short_day(words, row.last)

        self.said = label(wrap=True)
        self.line = TimeLine(context.theme, words)
        self.table: Table[CalendarBar] = Table(
            context,
            "blocks.calendar",
            [
                Column("name", words("blocks.column.block"), lambda row: row.name),
                Column("purpose", words("blocks.field.purpose"), lambda row: row.purpose),
                Column("first", words("blocks.column.first"), first, attrgetter("first")),
                Column("last", words("blocks.column.last"), last, attrgetter("last")),
                Column("weeks", words("blocks.field.weeks"), lambda row: row.weeks),
                Column("left", words("blocks.column.left"), lambda row: row.left),
            ],
            lambda row: row.id,
            about=words("blocks.calendar"),
            empty=words("blocks.none"),
        )
        self.table.opened.connect(self.opened)
        self.setFocusProxy(self.table)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, GAP, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.said)
        layout.addWidget(self.line)
        layout.addWidget(self.table, 1)

    def show_calendar(self, shown: Calendar) -> None:
        """Show a calendar."""
        self.said.setText(shown.said)
        self.line.show_calendar(shown)
        self.table.set_rows(shown.bars)


class TimeLine(QWidget):
    """Blocks as bars, one below the other, over the days; today and the meet as lines."""

    def __init__(self, theme: Theme, words: Wording) -> None:
        super().__init__()
        self._theme = theme
        self._words = words
        self._shown: Calendar | None = None
        self.setAccessibleName(words("blocks.calendar.line"))

    def show_calendar(self, shown: Calendar) -> None:
        """Draw a calendar."""
        self._shown = shown
        self.setAccessibleDescription(shown.said)
        self.setFixedHeight(self.sizeHint().height())
        self.update()

    def sizeHint(self) -> QSize:
        """A row a block, and the heads above and below."""
        rows = 0 if self._shown is None else len(self._shown.bars)
        return QSize(super().sizeHint().width(), _MARKS_PX + _HEAD_PX + max(1, rows) * _ROW_PX)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw."""
        super().paintEvent(event)
        if self._shown is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), QColor(self._theme.panel))
        self._draw_days(painter, self._shown)
        self._draw_mark(painter, self._shown.today, self._shown.today_words, is_today=True)
        if self._shown.meet_on is not None:
            self._draw_mark(painter, self._shown.meet_on, self._shown.meet, is_today=False)
        for row, bar in enumerate(self._shown.bars):
            self._draw_bar(painter, row, bar, self._shown.today)
        painter.end()

    def _at(self, day: date) -> float:
        """Where a day begins [px]."""
        shown = self._shown
        if shown is None:
            return 0.0
        return (day - shown.first).days / max(1, (shown.last - shown.first).days) * self.width()

    def _draw_days(self, painter: QPainter, shown: Calendar) -> None:
        scale = day_scale(shown.first, shown.last, max(2, self.width() // _TICK_PX))
        foot = self.height() - _HEAD_PX
        for day, words in scale.words(self._words):
            at = self._at(day)
            painter.setPen(QColor(self._theme.rule))
            painter.drawLine(int(at), _MARKS_PX, int(at), foot)
            painter.setPen(QColor(self._theme.quiet))
            if at + painter.fontMetrics().horizontalAdvance(words) > self.width():
                continue
            painter.drawText(int(at) + 3, self.height() - _TEXT_PX, words)

    def _draw_bar(self, painter: QPainter, row: int, bar: CalendarBar, today: date) -> None:
        theme = self._theme
        begins, ends = (
            max(0.0, self._at(bar.first)),
            self._at(date.fromordinal(bar.last.toordinal() + 1)),
        )
        box = QRectF(begins, _MARKS_PX + row * _ROW_PX + 3, ends - begins, _ROW_PX - 6)
        is_now = bar.first <= today <= bar.last
        painter.setPen(QPen(QColor(theme.accent), 2 if is_now else 1))
        painter.setBrush(QColor(theme.chosen if bar.last >= today else theme.raised))
        painter.drawRoundedRect(box, 4, 4)
        self._draw_words(painter, box, f"{bar.name} · {bar.purpose}")

    def _draw_words(self, painter: QPainter, bar: QRectF, words: str) -> None:
        """In the bar where they fit, else on the side with room, over the lines of days there."""
        metrics = painter.fontMetrics()
        wide = metrics.horizontalAdvance(words) + 2 * _TEXT_PX
        room = QRectF(bar)
        if wide > bar.width():
            at_right, at_left = self.width() - bar.right(), bar.left()
            room.setWidth(min(wide, max(at_right, at_left)))
            if wide <= at_right or at_right >= at_left:
                room.moveLeft(bar.right() + 1)
            else:
                room.moveRight(bar.left() - 1)
            painter.fillRect(room, QColor(self._theme.panel))
        painter.setPen(QColor(self._theme.ink))
        inner = room.adjusted(_TEXT_PX, 0, -_TEXT_PX, 0)
        shown = metrics.elidedText(words, Qt.TextElideMode.ElideRight, int(inner.width()) + 1)
        painter.drawText(inner, Qt.AlignmentFlag.AlignVCenter, shown)

    def _draw_mark(self, painter: QPainter, day: date, words: str, *, is_today: bool) -> None:
        at = self._at(day)
        style = Qt.PenStyle.SolidLine if is_today else Qt.PenStyle.DashLine
        painter.setPen(QPen(QColor(self._theme.ink), 2, style))
        foot = _MARKS_PX - 8 if is_today else _MARKS_PX - 8 - painter.fontMetrics().height()
        painter.drawLine(int(at), foot + 4, int(at), self.height() - _HEAD_PX)
        wide = painter.fontMetrics().horizontalAdvance(words)
        left = min(max(0, int(at) - wide // 2), self.width() - wide)
        painter.drawText(left, foot, words)
