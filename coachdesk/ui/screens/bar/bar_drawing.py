"""One end of the bar with its discs, drawn to scale with a number on each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from coachdesk.domain.disc_look import FULL_MM, diameter_mm, ink_on, paint_of, thickness_mm
from coachdesk.ui.plain import plain_tip
from coachdesk.ui.theme import GAP, SMALL_PT, Theme

_LOWEST_PX, _HIGHEST_PX = 150, 260
_PX_PER_MM = 1.7
"""Along the bar; across it the height at hand decides."""
_SHAFT_PX, _COLLAR_PX, _SLEEVE_END_PX = 46, 20, 40
_BAR_MM = 28.0
_COLLAR_MM = 90.0


@dataclass(frozen=True, slots=True)
class DrawnDisc:
    """A disc on the drawing: its weight [kg], the number on it, its colour and its tip."""

    kg: float
    number: str
    colour: str
    tip: str


class BarDrawing(QWidget):
    """Discs from the inside out; a click takes one off."""

    taken = Signal(int)
    """A disc was clicked: its place, counted from the inside."""

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self._discs: tuple[DrawnDisc, ...] = ()
        self._has_collar = False
        self.setMinimumHeight(_LOWEST_PX)
        self.setMaximumHeight(_HIGHEST_PX)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMouseTracking(True)

    def show_discs(self, discs: Sequence[DrawnDisc], *, collar: bool, said: str) -> None:
        """Draw these discs; `said` is the drawing in words."""
        self._discs = tuple(discs)
        self._has_collar = collar
        self.setAccessibleDescription(said)
        self.update()

    def sizeHint(self) -> QSize:
        """Room for the usual discs; it grows where there is more."""
        return QSize(420, _LOWEST_PX)

    def place_of(self, at: int) -> QRectF:
        """Where a disc is drawn."""
        return self._places()[at]

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw bar, discs and collar."""
        del event
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._draw_bar(painter)
        places = self._places()
        for disc, place in zip(self._discs, places, strict=True):
            self._draw_disc(painter, disc, place)
        if self._has_collar:
            after = places[-1].right() if places else self._inside
            self._draw_collar(painter, after)
        painter.end()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the disc that was clicked."""
        at = self._disc_at(event)
        if at is not None and event.button() is Qt.MouseButton.LeftButton:
            self.taken.emit(at)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Say which disc it is."""
        at = self._disc_at(event)
        tip = "" if at is None else self._discs[at].tip
        QToolTip.showText(event.globalPosition().toPoint(), plain_tip(tip), self)

    def _disc_at(self, event: QMouseEvent) -> int | None:
        place = event.position()
        found = (at for at, each in enumerate(self._places()) if each.contains(place))
        return next(found, None)

    @property
    def _inside(self) -> float:
        """Where the sleeve begins."""
        return float(_SHAFT_PX + GAP)

    def _places(self) -> list[QRectF]:
        """Rectangles of the discs; many are drawn closer to fit."""
        widths = [thickness_mm(disc.kg) * _PX_PER_MM for disc in self._discs]
        room = self.width() - self._inside - _COLLAR_PX - _SLEEVE_END_PX
        squeeze = min(1.0, room / sum(widths)) if widths else 1.0
        across = (self.height() - 2 * GAP) / FULL_MM
        places: list[QRectF] = []
        left = self._inside
        for disc, width in zip(self._discs, widths, strict=True):
            height = diameter_mm(disc.kg) * across
            top = (self.height() - height) / 2
            places.append(QRectF(left, top, width * squeeze, height))
            left += width * squeeze
        return places

    def _draw_bar(self, painter: QPainter) -> None:
        height = _BAR_MM * (self.height() - 2 * GAP) / FULL_MM
        middle = self.height() / 2
        painter.setPen(QPen(QColor(self._theme.ink), 1))
        painter.setBrush(QColor(self._theme.rule))
        painter.drawRect(QRectF(0, middle - height / 3, _SHAFT_PX, height * 2 / 3))
        painter.drawRect(QRectF(_SHAFT_PX, middle - height, GAP, height * 2))
        sleeve = QRectF(
            self._inside, middle - height / 2, self.width() - self._inside - GAP, height
        )
        painter.drawRect(sleeve)

    def _draw_disc(self, painter: QPainter, disc: DrawnDisc, place: QRectF) -> None:
        paint = paint_of(disc.colour, self._theme.raised)
        painter.setPen(QPen(QColor(self._theme.ink), 1.2))
        painter.setBrush(QColor(paint))
        painter.drawRoundedRect(place, 3, 3)
        painter.setPen(QColor(ink_on(paint)))
        font = QFont(self.font())
        font.setPointSizeF(SMALL_PT)
        font.setBold(True)
        painter.setFont(font)
        metrics = painter.fontMetrics()
        if metrics.horizontalAdvance(disc.number) + 2 <= place.width():
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, disc.number)
            return
        painter.save()
        painter.translate(place.center())
        painter.rotate(-90)
        turned = QRectF(-place.height() / 2, -place.width() / 2, place.height(), place.width())
        painter.drawText(turned, Qt.AlignmentFlag.AlignCenter, disc.number)
        painter.restore()

    def _draw_collar(self, painter: QPainter, left: float) -> None:
        height = _COLLAR_MM * (self.height() - 2 * GAP) / FULL_MM
        painter.setPen(QPen(QColor(self._theme.ink), 1))
        painter.setBrush(QColor(self._theme.quiet))
        painter.drawRect(QRectF(left + 2, (self.height() - height) / 2, _COLLAR_PX - 4, height))
