"""Pieces that charts over days are drawn of with pyqtgraph: axes, lines, bands, words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QSizePolicy

from coachdesk.domain.units import Unit
from coachdesk.services.chart_scale import WeightScale, day_scale, weight_scale
from coachdesk.services.weight_picture import DayBand
from coachdesk.ui.theme import Theme
from coachdesk.wording.wording import Wording

AXIS_PX = 45
_TICK_PX = 84
_ROW_PX = 36
_LEAST_HEIGHT = 150
_SEE_THROUGH = 150
"""Sizes [px], and how much of a band covers what is behind it, of 255."""


@dataclass(frozen=True, slots=True)
class ChartTools:
    """What every piece is made with; the library is loaded once there is something to draw."""

    library: Any
    plot: Any
    theme: Theme
    words: Wording
    scale: WeightScale

    def curve(self, points: Sequence[tuple[date, float]], pen: Any) -> Any:
        """A line through weights [kg] on days."""
        at, kg = [day.toordinal() for day, _ in points], [each for _, each in points]
        return self.library.PlotCurveItem(at, kg, pen=pen, antialias=True)

    def pen(self, colour: str, width: float, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> Any:
        """A pen [px]."""
        return self.library.mkPen(QColor(colour), width=width, style=style)

    def dots(
        self,
        points: Sequence[tuple[date, float]],
        symbol: str,
        size: int,
        colour: str,
        *,
        full: bool,
    ) -> None:
        """Marks at weights [kg] on days; those that are not full are hollow."""
        ink = QColor(colour)
        self.plot.addItem(
            self.library.ScatterPlotItem(
                [day.toordinal() for day, _ in points],
                [kg for _, kg in points],
                symbol=symbol,
                size=size,
                pen=self.library.mkPen(None) if full else self.library.mkPen(ink),
                brush=self.library.mkBrush(ink if full else QColor(self.theme.panel)),
            )
        )

    def band(self, days: Sequence[DayBand], colour: QColor, style: Qt.BrushStyle) -> None:
        """The room between the ends of bands; hatched where `style` is no plain one."""
        if len(days) < 2:
            return
        hatched = style is not Qt.BrushStyle.SolidPattern
        edge = self.pen(colour.name(), 1.0) if hatched else self.library.mkPen(None)
        lower = self.curve([(day.on, day.low_kg) for day in days], edge)
        upper = self.curve([(day.on, day.high_kg) for day in days], edge)
        brush = self.library.mkBrush(colour)
        brush.setStyle(style)
        between = self.library.FillBetweenItem(lower, upper, brush=brush)
        for item in (lower, upper, between):
            self.plot.addItem(item)

    def say(
        self, words: str, on: date, kg: float, anchor: tuple[float, float], colour: str = ""
    ) -> None:
        """Words at a place, on a ground of their own so that no line runs through them."""
        ground = QColor(self.theme.panel)
        ground.setAlpha(_SEE_THROUGH)
        item = self.library.TextItem(
            text=words,
            color=QColor(colour or self.theme.ink),
            anchor=anchor,
            fill=self.library.mkBrush(ground),
        )
        item.setPos(on.toordinal(), kg)
        item.setZValue(5)
        self.plot.addItem(item)

    def cursor(self) -> Any:
        """The line that marks a day, hidden at first."""
        line = self.library.InfiniteLine(angle=90, pen=self.pen(self.theme.accent, 1.0))
        line.setZValue(6)
        line.hide()
        self.plot.addItem(line)
        return line


def new_plot(theme: Theme) -> Any:
    """An empty plot that leaves the mouse and the keys to the widget around it."""
    import pyqtgraph  # noqa: PLC0415 - 270 ms that only those who look at a chart wait for

    plot = pyqtgraph.PlotWidget(background=theme.panel)
    plot.setFrameShape(plot.Shape.NoFrame)
    plot.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    plot.setMenuEnabled(False)
    plot.setMouseEnabled(x=False, y=False)
    plot.hideButtons()
    plot.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)
    plot.setMinimumHeight(_LEAST_HEIGHT)
    plot.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
    for name in ("left", "bottom"):
        axis = plot.getAxis(name)
        axis.setPen(theme.rule)
        axis.setTextPen(theme.ink)
        axis.enableAutoSIPrefix(False)
        axis.setStyle(hideOverlappingLabels=False)
    return plot


def set_axes(
    plot: Any,
    days: tuple[date, date],
    kg: tuple[float, float],
    unit: Unit,
    words: Wording,
    axis: str,
) -> WeightScale:
    """Set the axes to days and weights [kg]; answers what weights there is room for. `axis` says
    what the weights are."""
    across = max(2, (plot.width() - AXIS_PX) // _TICK_PX)
    scale = weight_scale(*kg, unit, max(3, plot.height() // _ROW_PX))
    plot.setXRange(days[0].toordinal(), days[1].toordinal(), padding=0.02)
    plot.setYRange(scale.low_kg, scale.high_kg, padding=0.04)
    ticks = day_scale(*days, across).words(words)
    plot.getAxis("bottom").setTicks([[(day.toordinal(), said) for day, said in ticks]])
    left = plot.getAxis("left")
    left.setTicks([[(tick.kg, words.bare_mass(tick)) for tick in scale.ticks]])
    left.setLabel(axis)
    plot.showGrid(x=False, y=True, alpha=0.25)
    return scale
