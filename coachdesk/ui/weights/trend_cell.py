"""A small picture in a cell: the level of the weeks past, and the class limit as a broken line."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from coachdesk.ui.models.rows_model import KEY_ROLE, Index
from coachdesk.ui.theme import Theme
from coachdesk.ui.weights.board_rows import BoardRow

_EDGE = 5.0
_WIDTH = 110
"""Sizes [px]."""
_LEAST_SPAN_KG = 1.0
"""A quiet week is not drawn as a mountain range."""


class TrendCell(QStyledItemDelegate):
    """Draws a row's levels; `row_of` finds the row of a key."""

    def __init__(self, theme: Theme, row_of: Callable[[object], BoardRow | None]) -> None:
        super().__init__()
        self._theme = theme
        self._row_of = row_of

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        """As wide as a picture has to be, however long its words are."""
        return QSize(_WIDTH, super().sizeHint(option, index).height())

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """The ground of a chosen row as in every cell, then the lines."""
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        if chosen:
            painter.fillRect(option.rect, QColor(self._theme.chosen))
        row = self._row_of(index.data(KEY_ROLE))
        if row is None or len(row.levels) < 2:
            return
        lowest, highest = min(row.levels), max(row.levels)
        if row.limit_kg is not None and lowest - 2.0 <= row.limit_kg <= highest + 2.0:
            lowest, highest = min(lowest, row.limit_kg), max(highest, row.limit_kg)
        spare = max(_LEAST_SPAN_KG - (highest - lowest), 0.0) / 2
        lowest, highest = lowest - spare, highest + spare
        area = QRectF(option.rect).adjusted(_EDGE, _EDGE, -_EDGE, -_EDGE)

        def height(kg: float) -> float:
            return area.bottom() - (kg - lowest) / (highest - lowest) * area.height()

        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if row.limit_kg is not None and lowest <= row.limit_kg <= highest:
            painter.setPen(QPen(QColor(self._theme.quiet), 1.0, Qt.PenStyle.DashLine))
            at = height(row.limit_kg)
            painter.drawLine(QPointF(area.left(), at), QPointF(area.right(), at))
        painter.setPen(QPen(QColor(self._theme.accent), 1.6))
        step = area.width() / (len(row.levels) - 1)
        points = [QPointF(area.left() + at * step, height(kg)) for at, kg in enumerate(row.levels)]
        for first, second in pairwise(points):
            painter.drawLine(first, second)
        painter.restore()
