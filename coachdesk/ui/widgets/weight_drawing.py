"""The picture of a bodyweight in pyqtgraph's pieces: each line its own dash and its own words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor

from coachdesk.services.chart_labels import Edges, Labels, limit_line, plan_line, trend_line
from coachdesk.services.weight_picture import WeightPicture
from coachdesk.ui.theme import Theme
from coachdesk.ui.widgets.chart_tools import AXIS_PX, ChartTools, set_axes
from coachdesk.wording.wording import Wording

_PAD_PX = 4
_DOT_PX, _ODD_PX, _MARK_PX = 5, 10, 9
_TREND_PX, _LINE_PX = 2.4, 1.4
"""Sizes [px]."""


@dataclass(frozen=True, slots=True)
class _Tools(ChartTools):
    """What every piece is made with, and where words still find room."""

    labels: Labels

    def say_beside(
        self, words: str, line: Sequence[Edges], colour: str, *, close: bool = False
    ) -> None:
        """Words above or below a line, where there is most room."""
        metrics = self.plot.fontMetrics()
        wide, high = metrics.horizontalAdvance(words) + 2 * _PAD_PX, metrics.height() + _PAD_PX
        place = self.labels.beside(line, wide, high, close=close)
        self.say(words, place.on, place.kg, (0.5, 1.0), colour)


def draw(plot: Any, picture: WeightPicture, theme: Theme, words: Wording) -> Any:
    """Draw a picture in place of the one before; answers the line that marks a day."""
    import pyqtgraph  # noqa: PLC0415 - loaded by `new_plot`

    plot.clear()
    kg = picture.drawn_range(forecast=True)
    days, axis = (picture.first, picture.last), words(f"picture.axis.{picture.unit}")
    scale = set_axes(plot, days, kg, picture.unit, words, axis)
    labels = Labels(
        picture,
        days_a_point=(picture.last - picture.first).days / max(1, plot.width() - AXIS_PX),
        kg_a_point=(scale.high_kg - scale.low_kg) / max(1, plot.height() - AXIS_PX),
        low_kg=scale.low_kg,
        high_kg=scale.high_kg,
    )
    tools = _Tools(pyqtgraph, plot, theme, words, scale, labels)
    tools.band(picture.level, QColor(theme.chosen), Qt.BrushStyle.SolidPattern)
    tools.band(picture.forecast, QColor(theme.quiet), Qt.BrushStyle.BDiagPattern)
    _draw_classes(tools, picture)
    _draw_days(tools, picture)
    _draw_readings(tools, picture)
    _draw_trend(tools, picture)
    _draw_plan(tools, picture)
    return tools.cursor()


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
