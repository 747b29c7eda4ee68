"""The picture of a bodyweight in pyqtgraph's pieces: each line its own dash and its own words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QSizePolicy

from coachdesk.services.chart_labels import Edges, Labels, limit_line, plan_line, trend_line
from coachdesk.services.chart_scale import WeightScale, day_scale, weight_scale
from coachdesk.services.weight_picture import DayBand, WeightPicture
from coachdesk.ui.theme import Theme
from coachdesk.wording.wording import Wording

_TICK_PX = 84
_ROW_PX = 36
_AXIS_PX = 45
_PAD_PX = 4
_LEAST_HEIGHT = 180
_DOT_PX, _ODD_PX, _MARK_PX = 5, 10, 9
_TREND_PX, _LINE_PX = 2.4, 1.4
_SEE_THROUGH = 150
"""Sizes [px], and how much of a band covers what is behind it, of 255."""


@dataclass(frozen=True, slots=True)
class _Tools:
    """What every piece is made with; the library is loaded once there is something to draw."""

    library: Any
    plot: Any
    theme: Theme
    words: Wording
    scale: WeightScale
    labels: Labels

    def curve(self, points: Sequence[tuple[date, float]], pen: Any) -> Any:
        at, kg = [day.toordinal() for day, _ in points], [each for _, each in points]
        return self.library.PlotCurveItem(at, kg, pen=pen, antialias=True)

    def pen(self, colour: str, width: float, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> Any:
        return self.library.mkPen(QColor(colour), width=width, style=style)

    def say_beside(
        self, words: str, line: Sequence[Edges], colour: str, *, close: bool = False
    ) -> None:
        """Words above or below a line, where there is most room."""
        metrics = self.plot.fontMetrics()
        wide, high = metrics.horizontalAdvance(words) + 2 * _PAD_PX, metrics.height() + _PAD_PX
        place = self.labels.beside(line, wide, high, close=close)
        self.say(words, place.on, place.kg, (0.5, 1.0), colour)

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


def draw(plot: Any, picture: WeightPicture, theme: Theme, words: Wording) -> Any:
    """Draw a picture in place of the one before; answers the line that marks a day."""
    import pyqtgraph  # noqa: PLC0415 - loaded by `new_plot`

    plot.clear()
    scale = _scale(plot, picture, words)
    labels = Labels(
        picture,
        days_a_point=(picture.last - picture.first).days / max(1, plot.width() - _AXIS_PX),
        kg_a_point=(scale.high_kg - scale.low_kg) / max(1, plot.height() - _AXIS_PX),
        low_kg=scale.low_kg,
        high_kg=scale.high_kg,
    )
    tools = _Tools(pyqtgraph, plot, theme, words, scale, labels)
    _draw_band(tools, picture.level, QColor(theme.chosen), Qt.BrushStyle.SolidPattern)
    _draw_band(tools, picture.forecast, QColor(theme.quiet), Qt.BrushStyle.BDiagPattern)
    _draw_classes(tools, picture)
    _draw_days(tools, picture)
    _draw_readings(tools, picture)
    _draw_trend(tools, picture)
    _draw_plan(tools, picture)
    cursor = pyqtgraph.InfiniteLine(angle=90, pen=tools.pen(theme.accent, 1.0))
    cursor.setZValue(6)
    cursor.hide()
    plot.addItem(cursor)
    return cursor


def _scale(plot: Any, picture: WeightPicture, words: Wording) -> WeightScale:
    """Set the axes; answers what weights there is room for."""
    across = max(2, (plot.width() - _AXIS_PX) // _TICK_PX)
    scale = weight_scale(
        *picture.drawn_range(forecast=True), picture.unit, max(3, plot.height() // _ROW_PX)
    )
    plot.setXRange(picture.first.toordinal(), picture.last.toordinal(), padding=0.02)
    plot.setYRange(scale.low_kg, scale.high_kg, padding=0.04)
    days = day_scale(picture.first, picture.last, across).words(words)
    plot.getAxis("bottom").setTicks([[(day.toordinal(), said) for day, said in days]])
    left = plot.getAxis("left")
    left.setTicks([[(tick.kg, words.bare_mass(tick)) for tick in scale.ticks]])
    left.setLabel(words(f"picture.axis.{picture.unit}"))
    plot.showGrid(x=False, y=True, alpha=0.25)
    return scale


def _draw_band(
    tools: _Tools, days: Sequence[DayBand], colour: QColor, style: Qt.BrushStyle
) -> None:
    if len(days) < 2:
        return
    hatched = style is not Qt.BrushStyle.SolidPattern
    edge = tools.pen(colour.name(), 1.0) if hatched else tools.library.mkPen(None)
    lower = tools.curve([(day.on, day.low_kg) for day in days], edge)
    upper = tools.curve([(day.on, day.high_kg) for day in days], edge)
    brush = tools.library.mkBrush(colour)
    brush.setStyle(style)
    band = tools.library.FillBetweenItem(lower, upper, brush=brush)
    for item in (lower, upper, band):
        tools.plot.addItem(item)


def _draw_classes(tools: _Tools, picture: WeightPicture) -> None:
    """The class entered in long dashes, its neighbours in dots; the name at the line's end."""
    for line in picture.classes_between(tools.scale.low_kg, tools.scale.high_kg):
        style = Qt.PenStyle.DashLine if line.is_entered else Qt.PenStyle.DotLine
        colour = tools.theme.ink if line.is_entered else tools.theme.quiet
        pen = tools.pen(colour, _LINE_PX, style)
        tools.plot.addItem(tools.library.InfiniteLine(pos=line.limit.kg, angle=0, pen=pen))
        said = tools.words("picture.class", name=line.name)
        tools.say_beside(said, limit_line(line.limit.kg, picture), colour, close=True)


def _draw_days(tools: _Tools, picture: WeightPicture) -> None:
    """The day of the weigh-in and the day to arrive, where they are within the picture."""
    arrive_on = None if picture.plan is None else picture.plan.arrive_on
    days = ((picture.weigh_in_on, "picture.weigh_in"), (arrive_on, "picture.arrive"))
    for row, (day, code) in enumerate(days):
        if day is None or not picture.today <= day <= picture.last:
            continue
        pen = tools.pen(tools.theme.quiet, 1.0, Qt.PenStyle.DashDotLine)
        tools.plot.addItem(tools.library.InfiniteLine(pos=day.toordinal(), angle=90, pen=pen))
        at = (1.0, -float(row))
        tools.say(tools.words(code), day, tools.scale.high_kg, at, tools.theme.quiet)


def _draw_readings(tools: _Tools, picture: WeightPicture) -> None:
    """Dots; a cross where a reading is odd."""
    for is_odd, symbol, size in ((False, "o", _DOT_PX), (True, "x", _ODD_PX)):
        seen = [each for each in picture.readings if each.is_odd is is_odd]
        if seen:
            colour = QColor(tools.theme.bad if is_odd else tools.theme.ink)
            tools.plot.addItem(
                tools.library.ScatterPlotItem(
                    [each.reading.on.toordinal() for each in seen],
                    [each.kg_between(tools.scale.low_kg, tools.scale.high_kg) for each in seen],
                    symbol=symbol,
                    size=size,
                    pen=tools.library.mkPen(colour) if is_odd else tools.library.mkPen(None),
                    brush=tools.library.mkBrush(colour),
                )
            )


def _draw_trend(tools: _Tools, picture: WeightPicture) -> None:
    pen = tools.pen(tools.theme.accent, _TREND_PX)
    tools.plot.addItem(tools.curve([(day.on, day.kg) for day in picture.level], pen))
    if picture.forecast:
        middle = picture.forecast[len(picture.forecast) * 3 // 4]
        tools.say(tools.words("picture.likely"), middle.on, middle.kg, (0.5, 0.5))
    tools.say_beside(tools.words("picture.trend"), trend_line(picture), tools.theme.accent)


def _draw_plan(tools: _Tools, picture: WeightPicture) -> None:
    """The way down in dashes with a diamond for each weekly mark."""
    points = [(day, kg) for day in picture.plan_days if (kg := picture.plan_kg(day)) is not None]
    if len(points) < 2:
        return
    pen = tools.pen(tools.theme.ink, _LINE_PX, Qt.PenStyle.DashLine)
    tools.plot.addItem(tools.curve(points, pen))
    marks = picture.plan_marks
    tools.plot.addItem(
        tools.library.ScatterPlotItem(
            [day.toordinal() for day, _ in marks],
            [mass.kg for _, mass in marks],
            symbol="d",
            size=_MARK_PX,
            pen=tools.pen(tools.theme.ink, 1.0),
            brush=tools.library.mkBrush(QColor(tools.theme.panel)),
        )
    )
    tools.say_beside(tools.words("picture.plan"), plan_line(picture), tools.theme.ink)
