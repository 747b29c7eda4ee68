"""The chance of a good lift by weight, drawn, with the three attempts on it."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from coachdesk.ui.screens.meets.plans_presenter import Curve
from coachdesk.ui.theme import SMALL_PT, Theme
from coachdesk.wording.wording import Wording

_LEFT, _RIGHT, _TOP, _BOTTOM = 46, 14, 16, 24
"""Room around the drawing [px]."""
_DOT = 4.5
_LINES = (0.0, 0.25, 0.5, 0.75, 1.0)


class ChanceCurve(QWidget):
    """Chance up, weight to the right; each attempt a dot with its weight beside it."""

    def __init__(self, theme: Theme, words: Wording) -> None:
        super().__init__()
        self._theme = theme
        self._words = words
        self._curve: Curve | None = None
        self.setAccessibleName(words("plans.curve"))
        self.setMinimumSize(220, 150)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_curve(self, curve: Curve | None) -> None:
        """Draw this; nothing for None."""
        self._curve = curve if curve is not None and curve.chances else None
        self.setAccessibleDescription("" if self._curve is None else self._curve.said)
        self.setVisible(self._curve is not None)
        self.update()

    def sizeHint(self) -> QSize:
        """Room to read it."""
        return QSize(340, 170)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw grid, curve and attempts."""
        curve = self._curve
        if curve is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        font = QFont(self.font())
        font.setPointSizeF(SMALL_PT)
        painter.setFont(font)
        self._draw_grid(painter, curve)
        painter.setPen(QPen(QColor(self._theme.accent), 2))
        points = zip(curve.weights_kg, curve.chances, strict=True)
        painter.drawPolyline(QPolygonF([self._at(curve, *point) for point in points]))
        for name, weight, chance in curve.attempts:
            self._draw_attempt(painter, self._at(curve, weight, chance), name)

    def _plot(self) -> QRectF:
        return QRectF(_LEFT, _TOP, self.width() - _LEFT - _RIGHT, self.height() - _TOP - _BOTTOM)

    def _at(self, curve: Curve, weight: float, chance: float) -> QPointF:
        plot, low, high = self._plot(), curve.weights_kg[0], curve.weights_kg[-1]
        across = (weight - low) / (high - low)
        return QPointF(plot.left() + across * plot.width(), plot.bottom() - chance * plot.height())

    def _draw_grid(self, painter: QPainter, curve: Curve) -> None:
        plot = self._plot()
        for chance in _LINES:
            y = plot.bottom() - chance * plot.height()
            painter.setPen(QPen(QColor(self._theme.rule), 1))
            painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y))
            painter.setPen(QColor(self._theme.quiet))
            number = self._words("number.percent", number=f"{100 * chance:.0f}")
            box = QRectF(0, y - 9, _LEFT - 6, 18)
            place = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(box, place, number)
        foot = QRectF(plot.left(), plot.bottom() + 4, plot.width(), _BOTTOM - 4)
        sides = (Qt.AlignmentFlag.AlignLeft, Qt.AlignmentFlag.AlignRight)
        for side, weight in zip(sides, curve.ends, strict=True):
            painter.drawText(foot, side, weight)

    def _draw_attempt(self, painter: QPainter, at: QPointF, name: str) -> None:
        painter.setPen(QPen(QColor(self._theme.panel), 1.5))
        painter.setBrush(QColor(self._theme.ink))
        painter.drawEllipse(at, _DOT, _DOT)
        painter.setPen(QColor(self._theme.ink))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawText(QPointF(at.x() + 7, at.y() - 5), name)
