"""The picture of a bodyweight on paper, the one that the screen shows: ink on white, no colour.

Readings are dots, odd ones crosses; the trend is a firm line, the plan a dashed one with a diamond
for each weekly mark; limits of classes are long dashes, or dots for the neighbours. The forecast is
for the coach alone: an athlete's own sheet carries no odds.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from coachdesk.reports.blocks import Block
from coachdesk.reports.line_drawing import Canvas, draw_line
from coachdesk.reports.text_runs import width_of
from coachdesk.reports.theme import INK, LABEL, QUIET, RULE, TINT, Style
from coachdesk.services.chart_labels import Edges, Labels, limit_line, plan_line, trend_line
from coachdesk.services.chart_scale import DayScale, WeightScale, day_scale, weight_scale
from coachdesk.services.weight_picture import DayBand, WeightPicture
from coachdesk.wording.wording import Wording

_HEAD, _FOOT = 16.0, 18.0
_ROW, _TICK = 30.0, 62.0
_DOT, _ODD, _MARK = 1.5, 3.0, 2.8
_GAP = 5.0
"""Sizes [pt]."""

_SOLID: tuple[float, ...] = ()
_PLAN, _ENTERED, _NEIGHBOUR, _DAY = (4.0, 2.0), (9.0, 3.0), (1.0, 2.5), (6.0, 2.0, 1.0, 2.0)


def weight_chart(
    picture: WeightPicture, wording: Wording, width: float, height: float, *, forecast: bool
) -> Block:
    """A picture of a size [pt]. `forecast` draws the band to the weigh-in, for the coach's eyes."""

    def draw(canvas: Canvas, x: float, top: float) -> None:
        frame = _frame(picture, wording, x, top - height, width, height, forecast=forecast)
        low, high = frame.weights.low_kg, frame.weights.high_kg
        labels = Labels(
            picture,
            days_a_point=(picture.last - picture.first).days / frame.width,
            kg_a_point=(high - low) / frame.height,
            low_kg=low,
            high_kg=high,
        )
        canvas.saveState()
        _Drawing(canvas, picture, wording, frame, labels).draw(forecast=forecast)
        canvas.restoreState()

    return Block(height, draw)


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where days and weights stand on the page [pt]."""

    left: float
    base: float
    width: float
    height: float
    first: date
    last: date
    weights: WeightScale
    days: DayScale

    @property
    def right(self) -> float:
        return self.left + self.width

    @property
    def top(self) -> float:
        return self.base + self.height

    def x(self, day: date) -> float:
        return self.left + self.width * (day - self.first).days / (self.last - self.first).days

    def y(self, kg: float) -> float:
        low, high = self.weights.low_kg, self.weights.high_kg
        return self.base + self.height * (kg - low) / (high - low)


def _frame(
    picture: WeightPicture,
    wording: Wording,
    x: float,
    base: float,
    width: float,
    height: float,
    *,
    forecast: bool,
) -> _Frame:
    high = height - _HEAD - _FOOT
    weights = weight_scale(
        *picture.drawn_range(forecast=forecast), picture.unit, max(3, int(high / _ROW))
    )
    indent = max(width_of(wording.bare_mass(tick), LABEL) for tick in weights.ticks) + _GAP
    wide = width - indent
    days = day_scale(picture.first, picture.last, max(2, int(wide / _TICK)))
    return _Frame(x + indent, base + _FOOT, wide, high, picture.first, picture.last, weights, days)


@dataclass(frozen=True, slots=True)
class _Drawing:
    canvas: Canvas
    picture: WeightPicture
    wording: Wording
    frame: _Frame
    labels: Labels

    def draw(self, *, forecast: bool) -> None:
        """What lies below first."""
        self._axes()
        if forecast:
            self._forecast()
        self._classes()
        self._days()
        self._readings()
        self._trend()
        self._plan()

    def _axes(self) -> None:
        frame, wording = self.frame, self.wording
        axis = wording(f"picture.axis.{self.picture.unit}")
        draw_line(self.canvas, frame.left, frame.top + _GAP, axis, LABEL)
        key = "odd" if any(seen.is_odd for seen in self.picture.readings) else "plain"
        said = wording(f"picture.key.{key}")
        draw_line(self.canvas, frame.right - width_of(said, LABEL), frame.top + _GAP, said, LABEL)
        for tick in frame.weights.ticks:
            at = frame.y(tick.kg)
            self._line([(frame.left, at), (frame.right, at)], TINT, 0.5)
            said = wording.bare_mass(tick)
            wide = width_of(said, LABEL)
            draw_line(self.canvas, frame.left - _GAP - wide, at - LABEL.size / 3, said, LABEL)
        corner = (frame.left, frame.base)
        self._line([(frame.left, frame.top), corner, (frame.right, frame.base)], RULE, 0.8)
        for day, said in frame.days.words(wording):
            at = frame.x(day)
            self._line([(at, frame.base), (at, frame.base - 3)], RULE, 0.8)
            begin = min(at - width_of(said, LABEL) / 2, frame.right - width_of(said, LABEL))
            draw_line(self.canvas, begin, frame.base - _FOOT + 5, said, LABEL)

    def _forecast(self) -> None:
        """A tinted band with its edges drawn, so that it can be seen on a bad copy too."""
        days = self.picture.forecast
        if len(days) < 2:
            return
        low, high = self._edges(days)
        path = self.canvas.beginPath()
        path.moveTo(*low[0])
        for point in (*low[1:], *reversed(high)):
            path.lineTo(*point)
        path.close()
        self.canvas.setFillGray(TINT)
        self.canvas.drawPath(path, stroke=0, fill=1)
        for edge in (low, high):
            self._line(edge, QUIET, 0.6, _NEIGHBOUR)
        middle = days[len(days) * 3 // 4]
        said = self.wording("picture.likely")
        x = self.frame.x(middle.on) - width_of(said, LABEL) / 2
        self._say(x, self.frame.y(middle.kg), said)

    def _edges(
        self, days: Sequence[DayBand]
    ) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
        low = [(self.frame.x(day.on), self.frame.y(day.low_kg)) for day in days]
        return low, [(self.frame.x(day.on), self.frame.y(day.high_kg)) for day in days]

    def _classes(self) -> None:
        frame = self.frame
        for line in self.picture.classes_between(frame.weights.low_kg, frame.weights.high_kg):
            at = frame.y(line.limit.kg)
            grey = INK if line.is_entered else QUIET
            dash = _ENTERED if line.is_entered else _NEIGHBOUR
            self._line([(frame.left, at), (frame.right, at)], grey, 1.0, dash)
            said = self.wording("picture.class", name=line.name)
            self._say_beside(said, limit_line(line.limit.kg, self.picture), close=True)

    def _days(self) -> None:
        """The day of the weigh-in and the day to arrive, where they are within the picture."""
        picture, frame = self.picture, self.frame
        arrive_on = None if picture.plan is None else picture.plan.arrive_on
        days = ((picture.weigh_in_on, "picture.weigh_in"), (arrive_on, "picture.arrive"))
        shown = [
            (frame.x(day), self.wording(code))
            for day, code in days
            if day is not None and picture.today <= day <= picture.last
        ]
        for at, _ in shown:
            self._line([(at, frame.base), (at, frame.top)], QUIET, 0.6, _DAY)
        for row, (at, said) in enumerate(shown, start=1):
            self._say(at - width_of(said, LABEL) - 3, frame.top - row * LABEL.leading, said)

    def _readings(self) -> None:
        low, high = self.frame.weights.low_kg, self.frame.weights.high_kg
        self.canvas.setFillGray(INK)
        for seen in self.picture.readings:
            x, y = self.frame.x(seen.reading.on), self.frame.y(seen.kg_between(low, high))
            if seen.is_odd:
                for up in (-_ODD, _ODD):
                    self._line([(x - _ODD, y - up), (x + _ODD, y + up)], INK, 1.2)
            else:
                self.canvas.circle(x, y, _DOT, stroke=0, fill=1)

    def _trend(self) -> None:
        level = self.picture.level
        points = [(self.frame.x(day.on), self.frame.y(day.kg)) for day in level]
        self._line(points, INK, 1.6)
        self._say_beside(self.wording("picture.trend"), trend_line(self.picture))

    def _plan(self) -> None:
        picture, frame = self.picture, self.frame
        line = [(day, kg) for day in picture.plan_days if (kg := picture.plan_kg(day)) is not None]
        if len(line) < 2:
            return
        self._line([(frame.x(day), frame.y(kg)) for day, kg in line], INK, 1.0, _PLAN)
        for day, mass in picture.plan_marks:
            self._diamond(frame.x(day), frame.y(mass.kg))
        self._say_beside(self.wording("picture.plan"), plan_line(picture))

    def _diamond(self, x: float, y: float) -> None:
        path = self.canvas.beginPath()
        path.moveTo(x - _MARK, y)
        for place in ((x, y + _MARK), (x + _MARK, y), (x, y - _MARK)):
            path.lineTo(*place)
        path.close()
        self.canvas.setStrokeGray(INK)
        self.canvas.setFillGray(1)
        self.canvas.setLineWidth(0.9)
        self.canvas.drawPath(path, stroke=1, fill=1)

    def _say_beside(self, said: str, line: Sequence[Edges], *, close: bool = False) -> None:
        """Words above or below a line, where there is most room."""
        wide = width_of(said, LABEL)
        place = self.labels.beside(line, wide + 4, LABEL.size + 3, close=close)
        self._say(self.frame.x(place.on) - wide / 2, self.frame.y(place.kg) + 3, said)

    def _say(self, x: float, baseline: float, said: str, style: Style = LABEL) -> None:
        """Words on white, so that no line runs through them."""
        self.canvas.setFillGray(1)
        wide = width_of(said, style)
        self.canvas.rect(x - 1, baseline - 2, wide + 2, style.size, stroke=0, fill=1)
        draw_line(self.canvas, x, baseline, said, style._replace(grey=INK))

    def _line(
        self,
        points: Sequence[tuple[float, float]],
        grey: float,
        width: float,
        dash: Sequence[float] = _SOLID,
    ) -> None:
        path = self.canvas.beginPath()
        path.moveTo(*points[0])
        for _, point in pairwise(points):
            path.lineTo(*point)
        self.canvas.setStrokeGray(grey)
        self.canvas.setLineWidth(width)
        self.canvas.setDash(list(dash))
        self.canvas.drawPath(path, stroke=1, fill=0)
        self.canvas.setDash()
